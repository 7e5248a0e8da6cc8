package verify

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/post/verify/through"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
)

// happening is an event less what nobody at the machine would notice: line and
// block numbers, comments, the S of a spindle that stands, the work offset where
// nothing moves.
type happening struct {
	kind     rs274.Kind
	motion   rs274.Motion
	from, to rs274.Position
	feed     qty.Length
	perRev   bool
	spindle  rs274.Spindle
	speed    float64
	turns    float64
	seconds  float64
	optional bool
	deleted  bool
	offset   int
	axes     rs274.Axes // of a return
	angle    float64    // of an oriented stop, and of what is done while it holds; 0 where none is named
	length   int        // offset, at moves and at the end
	code     int        // of coolant and spindle range
	wet      string     // coolant that is on, at feed moves and stops
}

// story is what a program does at the machine. A spindle told to stop that
// stands, or to turn as it turns, is no happening.
func story(text []byte, d rs274.Dialect) (out []happening, faults int) {
	last, wet, gear, angle := happening{}, "", 0, 0.
	list, _ := rs274.Replay(bytes.NewReader(text), d, func(e rs274.Event) error {
		h := happening{kind: e.Kind, spindle: e.Spindle, optional: e.Optional, deleted: e.Deleted}
		if e.Spindle.Turning() {
			h.speed = e.Speed
		}
		if e.Kind == rs274.Orient {
			angle = e.Angle + 1 // none named: -1
		}
		if e.Spindle == rs274.OrientedStop {
			h.angle = angle
		}
		switch e.Kind {
		case rs274.Message:
			return nil
		case rs274.Stop:
			h.wet = wet
		case rs274.Move:
			h.length = e.Length
			if h.offset = e.Offset; e.Motion == rs274.Feed {
				h.wet = wet
			}
			h.motion, h.from, h.to, h.feed, h.perRev = e.Motion, e.From, e.To, e.Feed, e.PerRev
		case rs274.Dwell:
			h.turns, h.seconds = e.Revs, e.Seconds
		case rs274.Coolant:
			h.code = e.Code
			if code := fmt.Sprint(e.Code); e.Code == 9 {
				wet = ""
			} else if !strings.Contains(wet, code) { // on while it is on is no happening
				wet += code
			}
		case rs274.Return:
			h.code, h.axes, h.to = e.Code, e.Axes, e.Center
		case rs274.ToolChange:
			h.code = e.Code
		case rs274.LengthOffset:
			return nil
		case rs274.End:
			h.length = e.Length
		case rs274.Gear:
			if h.code = e.Code; gear == e.Code {
				return nil
			}
			gear = e.Code
		case rs274.SpindleOn, rs274.SpindleOff, rs274.Orient:
			if h.spindle == last.spindle && h.speed == last.speed && h.angle == last.angle {
				return nil
			}
		}
		last = h
		out = append(out, h)
		return nil
	})
	return out, len(list)
}

// essence takes from a story what the plan leaves free, and what amounts to the
// same: less than a hundredth of a mm of where the tip stands in front of the face; coolant, where the control has no word for it; optional stops, a stop right after a stop; dwells where the spindle
// stands or in front of the face; how far out the tip goes beyond what hands need; the turns of a dwell that
// stays within those that a blind bottom may take; a way that is cut in two; whether the spindle starts before or after a
// rapid move in front of the face; and whether the first stop comes before or
// after the first moves there. All else stays.
func essence(all []happening, c *process.Control, letter byte, far qty.Length) (out []happening) {
	axis := rs274.Z
	if letter == 'W' {
		axis = rs274.W
	}
	front := func(p rs274.Position) bool { return !p.Has(axis) || p.Linear(letter) > 0 }
	for _, h := range all {
		if c.Coolant == 0 {
			h.wet = ""
		}
		for _, p := range []*rs274.Position{&h.from, &h.to} { // a digit of the least input in front of the face is free
			if p.Has(axis) && p.Linear(letter) > 0 {
				const step = qty.Millimetre / 100
				p.Z, p.W = (p.Z+step/2)/step*step, (p.W+step/2)/step*step
			}
		}
		for _, p := range []*rs274.Position{&h.from, &h.to} { // how far out, beyond what hands need, is free
			if l := p.Linear(letter); l > far {
				p.Z, p.W = min(p.Z, far), min(p.W, far)
			}
		}
		if h.kind == rs274.Move && h.from == h.to {
			continue
		}
		switch h.kind {
		case rs274.Coolant:
			continue
		case rs274.Stop:
			if n := len(out); h.optional || n > 0 && out[n-1].kind == rs274.Stop {
				continue
			}
		case rs274.SpindleOn, rs274.SpindleOff, rs274.Orient:
			continue // every move, dwell and stop after it has the state
		case rs274.Dwell:
			if !h.spindle.Turning() || h.from.Has(axis) && h.from.Linear(letter) > 0 {
				continue
			}
			if h.turns >= turnsLeast && h.turns <= turnsMost {
				h.turns, h.seconds = 1, 1
			}
		case rs274.Move:
			if h.motion == rs274.Rapid && front(h.from) && front(h.to) {
				h.spindle, h.speed = rs274.Off, 0
			}
			if n := len(out); n > 0 && out[n-1].kind == rs274.Move {
				w := out[n-1]
				if w.motion == rs274.Rapid && front(w.from) && front(w.to) {
					w.spindle, w.speed = h.spindle, h.speed // it was left out above
				}
				if oneWay(w, h, letter) {
					w.to = h.to
					out[n-1] = w
					continue
				}
			}
		}
		out = append(out, h)
	}
	n := slices.IndexFunc(out, func(h happening) bool { return h.kind == rs274.Move && !(front(h.from) && front(h.to)) })
	slices.SortStableFunc(out[:max(n, 0)], func(a, b happening) int { return int(a.kind) - int(b.kind) })
	return out
}

// oneWay reports that two moves along the feed axis are one move in two legs; in front
// of the face by rapid, forth and back is as good.
func oneWay(a, b happening, letter byte) bool {
	axis := rs274.Z
	if letter == 'W' {
		axis = rs274.W
	}
	if a.from.Moved(a.to) != axis || b.from.Moved(b.to) != axis || !a.from.Has(axis) {
		return false
	}
	front := a.motion == rs274.Rapid && b.motion == rs274.Rapid && min(a.from.Linear(letter), a.to.Linear(letter), b.to.Linear(letter)) > 0
	first, second := a.to.Linear(letter)-a.from.Linear(letter), b.to.Linear(letter)-b.from.Linear(letter)
	to := a.to
	a.from, a.to, b.from, b.to = to, to, to, to
	return a == b && (front || (first > 0) == (second > 0))
}

var (
	wordRE = regexp.MustCompile(`[A-Z] ?[-+]?[0-9.]+`)
	diaRE  = regexp.MustCompile(`DIA [0-9.]+`)
	haltRE = regexp.MustCompile(`M0*(5|19)(\D|$)`)
	stopRE = regexp.MustCompile(`M0*0(\D|$)`)
)

// code gives the places of words in lines of code; comments are left out.
func code(lines []string, letters string) (places [][3]int) {
	for i, l := range lines {
		if strings.HasPrefix(l, "(") || l == "%" {
			continue
		}
		for _, m := range wordRE.FindAllStringIndex(l, -1) {
			if strings.IndexByte(letters, l[m[0]]) >= 0 {
				places = append(places, [3]int{i, m[0], m[1]})
			}
		}
	}
	return places
}

// change replaces one word, chosen among those with the letters.
func change(rng *rand.Rand, lines []string, letters string, f func(string) string) string {
	places := code(lines, letters)
	if len(places) == 0 {
		return ""
	}
	p := places[rng.IntN(len(places))]
	old := lines[p[0]][p[1]:p[2]]
	lines[p[0]] = lines[p[0]][:p[1]] + f(old) + lines[p[0]][p[2]:]
	return fmt.Sprintf("line %d, %s", p[0]+1, old)
}

// swapped replaces one of the words by another.
func swapped(pairs ...string) func(*rand.Rand, []string) string {
	return func(rng *rand.Rand, lines []string) string {
		i := rng.IntN(len(pairs) / 2)
		from, to := pairs[2*i], pairs[2*i+1]
		if rng.IntN(2) == 0 && from[0] == 'G' {
			from, to = to, from
		}
		re := regexp.MustCompile(from + `(\D|$)`)
		var at []int
		for k, l := range lines {
			if !strings.HasPrefix(l, "(") && re.MatchString(l) {
				at = append(at, k)
			}
		}
		if len(at) == 0 {
			return ""
		}
		k := at[rng.IntN(len(at))]
		m := re.FindStringIndex(lines[k])
		lines[k] = lines[k][:m[0]] + to + lines[k][m[0]+len(from):]
		return fmt.Sprintf("line %d, %s to %s", k+1, from, to)
	}
}

// damages are the mistakes that fingers, disks and hurry make.
// lineWith picks one of the lines that are such; -1: there is none.
func lineWith(rng *rand.Rand, l []string, such func(string) bool) int {
	var at []int
	for i, s := range l {
		if such(s) {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return -1
	}
	return at[rng.IntN(len(at))]
}

// block is whether a line is a block, and no comment, that matches.
func block(re *regexp.Regexp) func(string) bool {
	return func(s string) bool { return re.MatchString(s) && !strings.HasPrefix(s, "(") }
}

// setOrder is whether a line is a comment that says what to set the cutter to.
func setOrder(s string) bool { return strings.HasPrefix(s, "(SET") && diaRE.MatchString(s) }

var damages = []struct {
	name string
	do   func(*rand.Rand, []string) string // edits in place; "" where it does not apply; a line "\x00" is taken out
}{
	{"sign", func(rng *rand.Rand, l []string) string {
		return change(rng, l, "XYZWBR", func(w string) string {
			if strings.Contains(w, "-") {
				return strings.Replace(w, "-", "", 1)
			}
			return w[:1] + "-" + w[1:]
		})
	}},
	{"decimal point", func(rng *rand.Rand, l []string) string {
		return change(rng, l, "XYZWBRFP", func(w string) string {
			i := strings.IndexByte(w, '.')
			digits := strings.Replace(w, ".", "", 1)
			switch {
			case i < 0: // fixed format: a zero more or less
				if strings.HasSuffix(w, "0") && rng.IntN(2) == 0 {
					return w[:len(w)-1]
				}
				return w + "0"
			case rng.IntN(3) == 0:
				return digits
			case rng.IntN(2) == 0 && i+1 < len(w):
				return digits[:i+1] + "." + digits[i+1:]
			}
			return digits[:i-1] + "." + digits[i-1:]
		})
	}},
	{"digit", func(rng *rand.Rand, l []string) string {
		return change(rng, l, "XYZWBRFSPTH", func(w string) string {
			b := []byte(w)
			for {
				if i := 1 + rng.IntN(len(b)-1); b[i] >= '0' && b[i] <= '9' {
					b[i] = '0' + (b[i]-'0'+byte(1+rng.IntN(9)))%10
					return string(b)
				}
			}
		})
	}},
	{"feed or speed a hundred times", func(rng *rand.Rand, l []string) string {
		return change(rng, l, "FS", func(w string) string {
			if i := strings.IndexByte(w, '.'); i >= 0 {
				v, _ := strconv.ParseFloat(w[1:], 64)
				return w[:1] + strings.TrimSuffix(strconv.FormatFloat(v*100, 'f', 3, 64), "00")
			}
			return w + "00"
		})
	}},
	{"speed where nothing is cut", func(rng *rand.Rand, l []string) string {
		i, s := rng.IntN(len(l)), []string{"S2500 M3", "S2500M3", "S2500"}[rng.IntN(3)]
		if l[i] == "%" && i > 0 { // behind the last line it would not be read
			return ""
		}
		l[i] += "\n" + s
		return fmt.Sprintf("after line %d, %s", i+1, s)
	}},
	{"line lost", func(rng *rand.Rand, l []string) string {
		i := rng.IntN(len(l))
		old := l[i]
		l[i] = "\x00"
		return fmt.Sprintf("line %d, %s", i+1, old)
	}},
	{"stop lost", func(rng *rand.Rand, l []string) string {
		k := lineWith(rng, l, block(stopRE))
		if k < 0 {
			return ""
		}
		l[k] = "\x00"
		return fmt.Sprintf("line %d", k+1)
	}},
	{"line twice", func(rng *rand.Rand, l []string) string {
		i := rng.IntN(len(l))
		l[i] += "\n" + l[i]
		return fmt.Sprintf("line %d", i+1)
	}},
	{"neighbours swapped", func(rng *rand.Rand, l []string) string {
		i := rng.IntN(len(l) - 1)
		l[i], l[i+1] = l[i+1], l[i]
		return fmt.Sprintf("lines %d and %d", i+1, i+2)
	}},
	{"lines swapped", func(rng *rand.Rand, l []string) string {
		i, k := rng.IntN(len(l)), rng.IntN(len(l))
		l[i], l[k] = l[k], l[i]
		return fmt.Sprintf("lines %d and %d", i+1, k+1)
	}},
	{"line moved", func(rng *rand.Rand, l []string) string {
		i, k := rng.IntN(len(l)), rng.IntN(len(l))
		if i == k {
			return ""
		}
		l[k], l[i] = l[k]+"\n"+l[i], "\x00"
		return fmt.Sprintf("line %d after %d", i+1, k+1)
	}},
	{"word lost", func(rng *rand.Rand, l []string) string {
		return change(rng, l, "GMXYZWBRFSPTH", func(string) string { return "" })
	}},
	{"G0 for G1", swapped("G0", "G1")},
	{"plane", swapped("G17", "G18", "G17", "G19")},
	{"units", swapped("G20", "G21", "G70", "G71")},
	{"incremental", swapped("G90", "G91")},
	{"feed mode", swapped("G94", "G95")},
	{"cycle", swapped("G85", "G81", "G85", "G86", "G89", "G85", "G89", "G88", "G98", "G99")},
	{"M code", swapped("M3", "M4", "M5", "M3", "M0", "M1", "M19", "M5", "M3", "M5", "M0", "M30", "M30", "M0", "M5", "M8", "M8", "M9", "M7", "M9", "M41", "M42", "M42", "M41", "M6", "M5", "M9", "M8")},
	{"letter", func(rng *rand.Rand, l []string) string {
		return change(rng, l, "XYZW", func(w string) string {
			return string("XYZW"[rng.IntN(4)]) + w[1:]
		})
	}},
	{"rapid to the bottom", func(rng *rand.Rand, l []string) string {
		var to []string
		for _, w := range code(l, "ZW") {
			if t := l[w[0]][w[1]:w[2]]; strings.Contains(t, "-") && !slices.Contains(to, t) {
				to = append(to, t)
			}
		}
		i, t := rng.IntN(len(l)), to[rng.IntN(len(to))]
		l[i] += "\nG0 " + t
		return fmt.Sprintf("after line %d, G0 %s", i+1, t)
	}},
	{"pass dropped", func(rng *rand.Rand, l []string) string {
		var feeds []int
		for i, s := range l {
			if strings.Contains(s, "M0") && !strings.HasPrefix(s, "(") {
				feeds = append(feeds, i)
			}
		}
		if len(feeds) < 3 {
			return ""
		}
		k := rng.IntN(len(feeds) - 1)
		for i := feeds[k]; i < feeds[k+1]; i++ {
			l[i] = "\x00"
		}
		return fmt.Sprintf("lines %d to %d", feeds[k]+1, feeds[k+1])
	}},
	{"cut short", func(rng *rand.Rand, l []string) string {
		i := 1 + rng.IntN(len(l)-1)
		for k := i; k < len(l); k++ {
			l[k] = "\x00"
		}
		return fmt.Sprintf("from line %d", i+1)
	}},
	{"S beside a stop of the spindle", func(rng *rand.Rand, l []string) string {
		i := lineWith(rng, l, block(haltRE))
		if i < 0 {
			return ""
		}
		l[i] += fmt.Sprintf(" S%d", 1+rng.IntN(359))
		return fmt.Sprintf("line %d, %s", i+1, l[i])
	}},
	{"block delete", func(rng *rand.Rand, l []string) string {
		i := rng.IntN(len(l))
		l[i] = "/" + l[i]
		return fmt.Sprintf("line %d", i+1)
	}},
	{"block delete lost", func(rng *rand.Rand, l []string) string {
		i := lineWith(rng, l, func(s string) bool { return strings.HasPrefix(s, "/") })
		if i < 0 {
			return ""
		}
		l[i] = l[i][1:]
		return fmt.Sprintf("line %d, %s", i+1, l[i])
	}},
	{"setting told in other words", func(rng *rand.Rand, l []string) string {
		i := lineWith(rng, l, setOrder)
		if i < 0 {
			return ""
		}
		wrong := fmt.Sprintf("%d.%d", 1+rng.IntN(2), rng.IntN(10000)) // no bore of these is so small
		l[i] = "(" + strings.ReplaceAll([]string{"SET CUTTER TO #", "SET TOOL AT # DIA", "CUTTER # GRADUATIONS OUT", "LEAVE THE TIP AT #"}[rng.IntN(4)], "#", wrong) + ")"
		return fmt.Sprintf("line %d, %s", i+1, l[i])
	}},
	{"setting in a comment", func(rng *rand.Rand, l []string) string {
		i := lineWith(rng, l, setOrder)
		if i < 0 {
			return ""
		}
		m := diaRE.FindStringIndex(l[i])
		b := []byte(l[i])
		for {
			if k := m[0] + 4 + rng.IntN(m[1]-m[0]-4); b[k] != '.' {
				b[k] = '0' + (b[k]-'0'+byte(1+rng.IntN(9)))%10
				break
			}
		}
		l[i] = string(b)
		return fmt.Sprintf("line %d, %s", i+1, l[i])
	}},
}

// unseen are damages that the replay does not show, because it takes neither
// comments nor an angle: all of them must be found.
var unseen = map[string]bool{"setting in a comment": true, "setting told in other words": true, "S beside a stop of the spindle": true, "speed where nothing is cut": true}

// victim is a good program and the visit of a plan that it cuts.
type victim struct {
	name        string
	plan        *plan.Plan
	bore, visit int
	text        []byte
}

// tally counts edits: made, those that change what happens at the machine,
// those of them found, and those that alter only what the plan leaves free.
type tally struct{ made, changed, caught, free int }

func (t *tally) add(u tally) {
	t.made, t.changed, t.caught, t.free = t.made+u.made, t.changed+u.changed, t.caught+u.caught, t.free+u.free
}

func (t tally) String() string {
	return fmt.Sprintf("%5d edits, %5d change what happens, %5d found, %d free", t.made, t.changed, t.caught, t.free)
}

// TestDamage makes seeded edits of every program written by hand. All that
// change what happens at the machine must be found; so must those of unseen.
func TestDamage(t *testing.T) {
	var all []victim
	for _, g := range good {
		all = append(all, victim{g.file, g.plan(), 0, 0, program(t, g.file)})
	}
	each := slow.Rounds(t, "edits of each kind to each program", 40, 6)
	damageAll(t, all, each, 200)
}

// damageAll makes up to each edits of every kind to every program, prints the
// tally and gives it by kind.
func damageAll(t *testing.T, all []victim, each, least int) map[string]*tally {
	counts := map[string]*tally{}
	for k, damage := range damages {
		c := &tally{}
		counts[damage.name] = c
		for n, v := range all {
			c.add(damageOne(t, &v, rand.New(rand.NewPCG(uint64(n), uint64(k))), damage.name, damage.do, each))
		}
	}
	total := tally{}
	for _, damage := range damages {
		t.Logf("%-30s %v", damage.name, *counts[damage.name])
		total.add(*counts[damage.name])
	}
	t.Logf("%-30s %v: %.2f %%", fmt.Sprintf("all, to %d programs", len(all)), total, 100*float64(total.caught)/float64(total.changed))
	if total.changed < least {
		t.Errorf("only %d edits change anything", total.changed)
	}
	if testing.Short() || slow.Long() { // other edits than the page tells of
		return counts
	}
	text, err := os.ReadFile(filepath.Join("..", "..", "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		fmt.Sprintf("edits of %d kinds", len(damages)),
		fmt.Sprintf("| %d | %d | %d | %d | %d |", len(all), total.made, total.changed, total.caught, total.free),
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("DEVELOPERS.md gives other figures: it does not say %q", want)
		}
	}
	return counts
}

// both is what a program does with block delete off and, where its control has a use for
// the switch, on.
type both [2][]happening

func stories(text []byte, d rs274.Dialect, c *process.Control) (out both, faults int) {
	out[0], faults = story(text, d)
	if c.SpringAgain != 0 {
		d.DeleteOn = true
		out[1], _ = story(text, d)
	}
	return out, faults
}

func (b both) same(a both) bool { return slices.Equal(a[0], b[0]) && slices.Equal(a[1], b[1]) }

func (b both) essence(c *process.Control, letter byte, far qty.Length) both {
	return both{essence(b[0], c, letter, far), essence(b[1], c, letter, far)}
}

func damageOne(t *testing.T, v *victim, rng *rand.Rand, name string, do func(*rand.Rand, []string) string, each int) (count tally) {
	c := v.plan.Job.Machine.Control
	d, letter := script.Dialect(c), byte(v.plan.Job.FeedLetter())
	before, _ := stories(v.text, d, c)
	bores, _ := through.Bores(v.plan, v.bore, v.visit)
	far := newFollower(v.plan, bores, through.Whole(bores), &script.Findings{}).handsLevel()
	seen := map[string]bool{string(v.text): true}
	for tries := 0; tries < 5*each && count.made < each; tries++ { // where an edit has few places, most are repeats
		lines := strings.Split(strings.TrimSuffix(string(v.text), "\n"), "\n")
		what := do(rng, lines)
		kept := lines[:0]
		for _, l := range lines {
			if l != "\x00" {
				kept = append(kept, l)
			}
		}
		bad := strings.Join(kept, "\n") + "\n"
		if what == "" || seen[bad] {
			continue
		}
		seen[bad] = true
		count.made++
		after, faults := stories([]byte(bad), d, c)
		said := unseen[name] || faults > 0
		if !said && before.same(after) {
			continue
		}
		r := Check([]byte(bad), v.name, v.plan, v.bore, v.visit)
		for _, f := range r.Findings {
			if bad := unclear(f); bad != "" {
				t.Errorf("%s: %s, %s: %s", v.name, name, what, bad)
			}
		}
		if r.Proven && !said && before.essence(c, letter, far).same(after.essence(c, letter, far)) {
			count.free++
			if testing.Verbose() && t.Name() == "TestDamage" {
				t.Logf("free: %s: %s, %s", v.name, name, what)
			}
			continue
		}
		count.changed++
		if r.Proven {
			t.Errorf("%s: %s, %s: not found", v.name, name, what)
			continue
		}
		count.caught++
	}
	return count
}
