package post

import (
	"bytes"
	"fmt"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// controls are any that process.Control can describe and a program can be
// written for.
var controls = rapid.Custom(func(t *rapid.T) *process.Control {
	flip := func(name string) bool { return rapid.Bool().Draw(t, name) }
	c := &process.Control{
		DecimalPoint: flip("point"), WholePlaces: rapid.IntRange(4, 5).Draw(t, "whole"), PartPlaces: rapid.IntRange(4, 5).Draw(t, "part"),
		DropZeros: pick(t, "zeros", process.LeadingZeros, process.TrailingZeros, process.KeptZeros, process.UsualZeros), UnitsWord: pick(t, "units word", process.G20G21, process.G70G71),
		BlockNumbers: flip("numbers"), BlockStep: rapid.IntRange(0, 50).Draw(t, "step"), FeedPerRev: flip("per rev"), Cycles: flip("cycles"),
		ReturnWords: flip("return"), Dwell: pick(t, "dwell", process.DwellSeconds, process.DwellMilliseconds, process.DwellRevolutions), DwellWord: pick[process.Letter](t, "dwell word", 'P', 'X', 'F'),
		OrientedStop: flip("M19"), TipAtStop: pick(t, "tip", process.TipPlusX, process.TipMinusX, process.TipPlusY, process.TipMinusY), Comments: flip("comments"), Percent: flip("percent"),
		ProgramNumber: rapid.IntRange(0, 9000).Draw(t, "O"), FeedAxis: pick[process.Letter](t, "feed axis", 'Z', 'W'), QuillAxis: pick[process.Letter](t, "quill axis", 'Z', 'W'),
		LineMost: rapid.IntRange(lineLeast, 120).Draw(t, "line"), WorkOffset: pick[process.WorkOffset](t, "offset", 0, 54, 59), SpaceWords: flip("spaces"),
	}
	if flip("metric") {
		c.Units, c.PartPlaces = qty.Metric, rapid.IntRange(3, 4).Draw(t, "part of mm")
	} else {
		c.Units = qty.Inches
	}
	return c
})

// plans are made up: depths, feeds and speeds of boring-mill size.
func drawPlan(t *rapid.T, c *process.Control) *plan.Plan {
	length := func(name string, least, most float64) qty.Length {
		return qty.Length(rapid.Int64Range(int64(mmOf(least)), int64(mmOf(most))).Draw(t, name))
	}
	p := idler(c)
	v := &p.Bores[0].Visits[0]
	v.Clear = length("clear", -20, 400)
	v.From = v.Clear + length("run-in", 0.5, 5)
	v.To = v.From + length("deep", 5, 300)
	p.Bores[0].Station = process.Station{Name: "idler", From: v.From, To: v.To, Blind: rapid.Bool().Draw(t, "blind"), Relief: length("relief", 0, 4)}
	if p.Bores[0].Station.Blind {
		v.End = v.To + p.Bores[0].Station.Relief
	} else {
		v.End = v.To + length("run-out", 0, 5)
	}
	shift := qty.Length(0)
	if c.OrientedStop && rapid.Bool().Draw(t, "shift") {
		shift = length("by", 0.2, 2)
	}
	if rapid.Bool().Draw(t, "quill") {
		p.Job.Bar.FeedBy, p.Job.Bar.Standoff = process.QuillFeed, p.Job.Bar.CutterAt+length("home", 50, 90)
		p.Job.Machine.QuillTravel = mmOf(900)
	}
	hold := v.Passes[0].Hold
	v.Passes = nil
	for i := range rapid.IntRange(1, 4).Draw(t, "passes") {
		q := schedule.Pass{N: i + 1, Kind: schedule.Rough, Setting: inDia(3.3) + qty.Diameter(i)*qty.Diameter(qty.Millimetre),
			Feed: length("feed", 0.05, 0.5), Speed: qty.RevPerMin(rapid.IntRange(10, 900).Draw(t, "speed"))}
		if rapid.Bool().Draw(t, "hold") {
			q.Hold = hold
		}
		v.Passes = append(v.Passes, q)
	}
	comesOut(v, shift, "why")
	return p
}

// TestReadBack writes any plan for any control and follows the program as the
// machine would: it must cut the passes of the plan in their order, to the
// control's least input, and do nothing that could mark the bore or the person.
func TestReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := controls.Draw(t, "control")
		p := drawPlan(t, c)
		var b bytes.Buffer
		if err := Write(&b, p, 0, 0); err != nil {
			t.Fatal(err)
		}
		d, _ := dialect(c)
		if msg := follow(b.String(), p, c, d); msg != "" {
			t.Fatalf("%s\n%s", msg, b.String())
		}
	})
}

func pick[T any](t *rapid.T, name string, of ...T) T { return rapid.SampledFrom(of).Draw(t, name) }

// follow is a machine of its own, with nothing of the writer's in it but the
// dialect.
func follow(text string, p *plan.Plan, c *process.Control, d rs274.Dialect) (wrong string) {
	v, station := &p.Bores[0].Visits[0], p.Bores[0].Station
	axis := byte(c.FeedAxis)
	if p.Job.Bar.FeedBy == process.QuillFeed {
		axis = byte(c.QuillAxis)
	}
	unit := c.Units.Of(1)
	for range d.Part {
		unit /= 10
	}
	near := func(a, b qty.Length) bool { return (a - b).Abs() <= unit }
	shifted := v.Shift() > 0
	say := func(e rs274.Event, format string, a ...any) {
		if wrong == "" {
			wrong = fmt.Sprintf("line %d: ", e.Line) + fmt.Sprintf(format, a...)
		}
	}
	pass, stops, inside, cut, dwelt, aside := 0, 0, false, false, false, false
	for i, line := range strings.Split(text, "\n") {
		if len(line) > c.LineMost {
			return fmt.Sprintf("line %d has %d characters of %d", i+1, len(line), c.LineMost)
		}
	}
	faults, err := rs274.Replay(strings.NewReader(text), d, func(e rs274.Event) error {
		depth := -e.To.Linear(axis)
		was := -e.From.Linear(axis)
		switch e.Kind {
		case rs274.Stop:
			if stops++; e.Spindle.Turning() || inside {
				say(e, "stops with the spindle turning, or inside")
			}
		case rs274.SpindleOn:
			if inside || e.Spindle != rs274.Clockwise {
				say(e, "starts inside, or backward")
			}
		case rs274.Dwell:
			if dwelt = true; !station.Blind || !cut || e.Revs < 0.999 || e.Revs > 1.4 {
				say(e, "dwell of %v turns", e.Revs)
			}
		case rs274.Orient:
			if !shifted || !cut {
				say(e, "oriented stop where none is asked for")
			}
		case rs274.Move:
			moved := e.From.Moved(e.To)
			along := moved&(rs274.Z|rs274.W) != 0
			if along && moved&(rs274.X|rs274.Y) != 0 {
				say(e, "moves along and across at once")
			}
			switch {
			case !along && inside:
				// the shift, and nothing else
				by := e.To.Linear(c.TipAtStop.String()[1])
				if want := v.Shift(); !near(by.Abs(), want) || by > 0 == (c.TipAtStop.String()[0] == '+') || e.Spindle != rs274.OrientedStop || aside {
					say(e, "shift of %d", by)
				}
				aside = true
			case !along:
				if e.To.X != 0 || e.To.Y != 0 {
					say(e, "off the axis outside")
				}
				aside = false
			case e.Motion == rs274.Rapid && cut && depth < was: // out, from the bottom or from the clear depth
				if !aside && was > v.Clear {
					say(e, "rapid out of contact")
				}
				if e.Spindle.Turning() || depth > 0 {
					say(e, "rapid out with the spindle turning, or to depth %d", depth)
				}
				inside = false
				pass, cut, dwelt = pass+1, false, false
			case e.Motion == rs274.Rapid:
				if depth > v.Clear {
					say(e, "rapid to depth %d, past the clear depth", depth)
				}
				if depth > 0 && (!e.To.Has(rs274.X|rs274.Y) || e.To.X != 0 || e.To.Y != 0) {
					say(e, "goes in off the axis")
				}
				inside = near(depth, v.Clear)
			case pass >= len(v.Passes):
				say(e, "a cut too many")
			case depth > was:
				q := v.Passes[pass]
				feed := e.Feed
				if !e.PerRev {
					feed = qty.Length(float64(e.Feed) / e.Speed)
				}
				if !near(was, v.Clear) || !near(depth, v.End) || station.Blind && depth > station.To+station.Relief || was > v.Clear {
					say(e, "feeds from %d to %d", was, depth)
				}
				if !near(feed, q.Feed) || e.Speed != float64(q.Speed) || e.Spindle != rs274.Clockwise {
					say(e, "pass %d at feed %d, speed %v", q.N, feed, e.Speed)
				}
				if e.PerRev != c.FeedPerRev {
					say(e, "feed mode")
				}
				if cut {
					say(e, "two cuts for a pass")
				}
				cut = true
			default:
				if shifted || !e.Spindle.Turning() || !near(depth, v.Clear) || station.Blind && !dwelt {
					say(e, "feeds out to %d", depth)
				}
			}
		case rs274.End:
			if inside || pass != len(v.Passes) || e.Code != 30 {
				say(e, "ends after %d passes of %d", pass, len(v.Passes))
			}
		}
		return nil
	})
	holds := 0
	for _, q := range v.Passes {
		if q.Hold != nil {
			holds++
		}
	}
	switch {
	case err != nil:
		return err.Error()
	case len(faults) > 0:
		return faults[0].Error()
	case wrong == "" && stops != len(v.Passes)+holds:
		return fmt.Sprintf("%d stops for %d passes and %d holds", stops, len(v.Passes), holds)
	}
	return wrong
}

// The follower of TestReadBack is itself held: damage must not pass it.
func TestFollowerSeesDamage(t *testing.T) {
	ctl := control()
	ctl.BlockNumbers = false
	p := idler(ctl)
	text := program(t, p, 0, 0)
	d, _ := dialect(ctl)
	if msg := follow(text, p, ctl, d); msg != "" {
		t.Fatal(msg)
	}
	for _, c := range []struct{ why, old, new string }{
		{"rapid into the cut", "G0 Z-14.3800", "G0 Z-15.3800"},
		{"rapid out of contact", "G1 Z-14.3800 F0.0090\n", ""},
		{"too deep", "G1 Z-16.9550 F0.0090", "G1 Z-16.9650 F0.0090"},
		{"too fast", "F0.0090", "F0.0190"},
		{"a stop with the spindle on", "M5\n", ""},
		{"no dwell", "G4 P0.536\n", ""},
		{"off the axis", "G0 X0.0000 Y0.0000", "G0 X0.0100 Y0.0000"},
		{"another speed", "S112 M3", "S120 M3"},
		{"a pass left out", "G0 Z-14.3800\nG1 Z-16.9550 F0.0090\nG4 P0.536\nG1 Z-14.3800 F0.0090\nM5\n", ""},
	} {
		if bad := strings.ReplaceAll(text, c.old, c.new); bad == text || follow(bad, p, ctl, d) == "" {
			t.Errorf("%s: not seen", c.why)
		}
	}
}

// nasty are texts that would be code if they could.
var nasty = []string{
	"idler) G0 Z-99. (", "a\nG0 Z-99.\n", "a\r\nM30\r", "%\n", "100 % sure", "MSG, G0 Z-99.", "m s g , x", "PRINT,#1=5", "\u202eG0 Z-99\u202c", "\x00\x1b[2J\x7f\x85", "\u2028M30\u2029",
	"#100=5;[X]:/N5", "Ø80 H7 ±0,01 µm 90° “x” – …", "\xff\xfe", "Sør Łódź ИГЛА 孔", strings.Repeat("(", 200), strings.Repeat("x", 10_000), strings.Repeat("Ø", 10_000), "",
}

// everywhere puts a text into every text of a plan that a program prints.
func everywhere(p *plan.Plan, s string) {
	j := p.Job
	j.Number, j.Revision, j.Title, j.Customer, j.Notes = s, s, s, s, []string{s}
	j.Machine.Name, j.Bar.Name, j.Cutter.Material.Name = s, s, s
	for i := range j.Bar.Steps {
		j.Bar.Steps[i].Material.Name = s
	}
	p.Cautions = written(s, s)
	b := &p.Bores[0]
	b.Station.Name = s
	for i := range b.Visits {
		v := &b.Visits[i]
		v.Title, v.Before, v.After, v.Limits.Fit = fact.AsWritten(s), written(s), written(s, s), s
		for k := range v.Passes {
			v.Passes[k].LimitedBy, v.Passes[k].Out.Why = fact.AsWritten(s), fact.AsWritten(s)
			if h := v.Passes[k].Hold; h != nil {
				v.Passes[k].Hold = &schedule.Hold{Measure: written(s, s), Then: fact.AsWritten(s)}
			}
		}
	}
}

// wordsOfIdler are the words of the program of the idler, which do not hang on the length of
// its lines.
var wordsOfIdler = sync.OnceValue(func() string {
	var b bytes.Buffer
	if err := Write(&b, idler(control()), 0, 0); err != nil {
		return err.Error()
	}
	return onlyWords(b.String())
})

// checkHarmless: whatever a text says, the words stay the same to the byte, and
// the comments are lines that a control skips.
func checkHarmless(text string, most int) (wrong string) {
	ctl := control()
	ctl.LineMost, ctl.PlainText = most, most%2 == 1
	p := idler(ctl)
	everywhere(p, text)
	var dirty bytes.Buffer
	if err := Write(&dirty, p, 0, 0); err != nil {
		return err.Error()
	}
	if wordsOfIdler() != onlyWords(dirty.String()) {
		return "the words have changed"
	}
	if n := dirty.Len(); n > 60_000 {
		return fmt.Sprintf("a program of %d bytes", n)
	}
	for l := range strings.Lines(dirty.String()) {
		l = strings.TrimSuffix(l, "\n")
		if len(l) > most {
			return fmt.Sprintf("line of %d: %q", len(l), l)
		}
		if l[0] != '(' {
			continue
		}
		inside := l[1 : len(l)-1]
		if ctl.PlainText && strings.Trim(inside, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 +-.,/") != "" {
			return fmt.Sprintf("comment %q for a control that takes plain text", l)
		}
		if l[len(l)-1] != ')' || strings.ContainsAny(inside, "()%") || strings.ToUpper(inside) != inside {
			return fmt.Sprintf("comment %q", l)
		}
		squeezed := strings.ReplaceAll(inside, " ", "")
		for _, order := range []string{"MSG,", "PRINT,", "LOG,", "DEBUG,"} {
			if strings.HasPrefix(squeezed, order) {
				return fmt.Sprintf("active comment %q", l)
			}
		}
		for i := range len(l) {
			if l[i] < ' ' || l[i] > '~' {
				return fmt.Sprintf("character %q in %q", l[i], l)
			}
		}
	}
	if name := FileName(p, 0, 0); strings.Trim(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-.") != "" || len(name) > 160 || name[0] == '-' || name[0] == '.' {
		return fmt.Sprintf("file name %q", name)
	}
	return ""
}

func TestTextIsNeverCode(t *testing.T) {
	for _, s := range nasty {
		for _, most := range []int{lineLeast, 71, 72} {
			if wrong := checkHarmless(s, most); wrong != "" {
				t.Errorf("%.40q in lines of %d: %s", s, most, wrong)
			}
		}
	}
}

func FuzzTextIsNeverCode(f *testing.F) {
	for _, s := range nasty {
		f.Add(s[:min(len(s), textMost)], 72)
	}
	f.Fuzz(func(t *testing.T, s string, most int) {
		if len(s) > textMost+100 {
			return // what is longer is cut first (TestTextIsNeverCode), and slow
		}
		if wrong := checkHarmless(s, lineLeast+(most%80+80)%80); wrong != "" {
			t.Fatalf("%q: %s", s, wrong)
		}
	})
}

func TestClean(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"Ø80 H7", "DIA 80 H7"}, {"ø 3.15", "DIA 3.15"}, {"Søren's øre", "SOREN'S ORE"}, {"63 µin, 1.6 μm", "63 UIN, 1.6 UM"},
		{"90°", "90 DEG"}, {"±0.01", "+/-0.01"}, {"a – b — c", "A - B - C"}, {"2 × 45", "2 X 45"}, {"λ = 0.03", "LAMBDA = 0.03"},
		{"Łódź, Güte, crème", "LODZ, GUTE, CREME"}, {"孔", "?"}, {"a\u200bb\u202ec", "ABC"}, {"a\tb\nc", "A B C"},
		{"50% (half)", "50 PERCENT - HALF"}, {"a (b), c", "A - B, C"}, {"[x]; #5", "<X>. NO 5"}, {strings.Repeat("a", 700), strings.Repeat("A", textMost-3) + "..."},
	} {
		if got := clean(c.in); got != c.want {
			t.Errorf("%q: %q, want %q", c.in, got, c.want)
		}
	}
	for _, c := range []struct{ in, want string }{
		{"Cutter: HSS, 75 deg", "CUTTER - HSS, 75 DEG"}, {"spring seen = setting", "SPRING SEEN IS SETTING"}, {"<= 0.01; \"A\" & B*2!", "UNDER IS 0.01. A AND B X 2."},
		{"12 o'clock", "12 OCLOCK"}, {"-1.5 +2/3", "-1.5 +2/3"}, {"a: b: c", "A - B - C"},
	} {
		if got := plainText(clean(c.in)); got != c.want {
			t.Errorf("plain %q: %q, want %q", c.in, got, c.want)
		}
	}
	seen := map[rune]bool{}
	for _, row := range accented {
		for _, r := range row {
			if seen[r] {
				t.Errorf("%q stands twice", r)
			}
			seen[r] = true
		}
	}
}

// A remark never begins with what a control acts on.
func TestRemarksAreNoOrders(t *testing.T) {
	for _, s := range []string{
		"LOGAPPEND,a.txt", "LOGAPPEND , a.txt", "LOGOPEN,x", "LOGCLOSE", "PROBEOPEN out.txt", "PROBECLOSE", "MSG, hello", "MSG hello", "DEBUG,#1", "PRINT,1",
		"msg,x", "ABORT,stop", "M S G, x", "somethingverylong,x",
	} {
		p := idler(control())
		p.Job.Number = s
		for l := range strings.Lines(program(t, p, 0, 0)) {
			text := strings.ToUpper(strings.Join(strings.Fields(strings.TrimLeft(strings.TrimPrefix(l, "("), " ")), " "))
			if head := strings.ToUpper(strings.TrimSpace(s))[:3]; l[0] == '(' && strings.HasPrefix(text, head) {
				t.Errorf("%s: %s", s, l)
			}
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	p := idler(control())
	for b.Loop() {
		if err := Write(&bytes.Buffer{}, p, 0, 0); err != nil {
			b.Fatal(err)
		}
	}
}
