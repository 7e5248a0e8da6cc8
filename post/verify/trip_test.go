package verify

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/post"
	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// drawControl draws any control table that the file of a machine may hold.
func drawControl(t *rapid.T, machine string) string {
	var b strings.Builder
	flag := func(key string) bool {
		v := rapid.Bool().Draw(t, key)
		fmt.Fprintf(&b, "%s = %v\n", key, v)
		return v
	}
	pick := func(key string, of ...string) string {
		v := rapid.SampledFrom(of).Draw(t, key)
		if v != "" {
			fmt.Fprintf(&b, "%s = %q\n", key, v)
		}
		return v
	}
	count := func(key string, least, most int) int {
		n := rapid.IntRange(least, most).Draw(t, key)
		fmt.Fprintf(&b, "%s = %d\n", key, n)
		return n
	}
	pick("units", "", "in", "mm")
	pick("units_word", "G20/G21", "G70/G71")
	flag("decimal_point")
	pick("drop_zeros", "", "leading", "trailing", "none")
	count("whole_places", 3, 6)
	count("part_places", 3, 6)
	flag("block_numbers")
	count("block_step", 1, 100)
	if rapid.Bool().Draw(t, "restart marks") {
		count("restart_step", 3000, 9000)
	}
	flag("feed_per_rev")
	flag("cycles")
	flag("return_words")
	dwell := pick("dwell", "seconds", "milliseconds", "revolutions")
	pick("dwell_word", "P", "X", "F")
	if flag("oriented_stop") {
		pick("tip_at_stop", "+X", "-X", "+Y", "-Y")
		if word := pick("orient_word", "", "S", "R"); word != "" {
			count("orient_angle", 0, 359)
		}
		if dwell != "revolutions" {
			fmt.Fprintf(&b, "orient_settle = %.2f\n", rapid.Float64Range(0, 3).Draw(t, "settle"))
		}
	}
	flag("comments")
	pick("characters", "ascii", "plain")
	flag("percent")
	if count("program_number", 0, 9990) > 0 {
		flag("one_file")
	}
	flag("file_capitals")
	if pick("feed_axis", "Z", "W") == "Z" {
		b.WriteString("quill_axis = \"W\"\n")
	} else {
		b.WriteString("quill_axis = \"Z\"\n")
	}
	count("line_most", 40, 120)
	if rapid.Bool().Draw(t, "spindle ranges") {
		b.WriteString("gear = [ { word = \"M41\", speeds = [1, 60] }, { word = \"M43\", speeds = [40, 20000] } ]\n")
	}
	if word := pick("home_word", "none", "G28", "G53"); word != "none" {
		axes := rapid.SampledFrom([]string{`["feed"]`, `["feed", "X"]`, `["feed", "Y", "X"]`}).Draw(t, "home_axes")
		fmt.Fprintf(&b, "home_axes = %s\n", axes)
		if word == "G53" {
			fmt.Fprintf(&b, "home_at = [%s]\n", strings.Repeat("-1.5, ", strings.Count(axes, ",")+1))
		}
	}
	count("tool", 0, 3)
	pick("spring_again", "", "/")
	pick("other_slide", "none", "stated", "placed")
	if machine == "cnc-110mm" && rapid.Bool().Draw(t, "table") { // it has one that turns
		fmt.Fprintf(&b, "table_word = \"B\"\ntable_angle = %d\n", rapid.SampledFrom([]int{0, 90, 180}).Draw(t, "table_angle"))
	}
	if h := rapid.IntRange(0, 3).Draw(t, "length_offset"); h > 0 {
		fmt.Fprintf(&b, "length_offset = %d\ngauge_line = %.3f\n", h, rapid.Float64Range(-2, 2).Draw(t, "gauge_line"))
	}
	pick("coolant", "none", "M7", "M8")
	pick("work_offset", "none", "G54", "G55", "G59")
	flag("space_words")
	fmt.Fprintf(&b, "hold_out = \"%d mm\"\n", rapid.IntRange(0, 400).Draw(t, "hold_out"))
	pick("line_end", "", "LF", "CRLF", "CR")
	count("leader", 0, 200)
	count("trailer", 0, 200)
	pick("remarks", "full", "short", "none")
	return b.String()
}

// mayRefuse are the reasons for which a program may not be written although
// the plan is feasible: the control, or the machine, cannot say or do it.
var mayRefuse = []post.Kind{post.NoWord, post.NoTravel, post.NoRoom}

// TestEveryProgramIsProven: any job of the variants, planned on any built-in
// machine with any control that a machine file can describe, gives programs
// that are read back to the moves of the plan and proven, or is refused for a
// reason that stands above.
func TestEveryProgramIsProven(t *testing.T) {
	programs, refused := map[string]int{}, map[string]int{}
	rapid.Check(t, func(rt *rapid.T) {
		v := rapid.SampledFrom(variants).Draw(rt, "variant")
		machine := rapid.SampledFrom(controlled()).Draw(rt, "machine")
		text := v.text(t)
		standoff := rapid.Float64Range(286, 460).Draw(rt, "standoff") // from too little to too much
		text = strings.Replace(text, "standoff = 290", fmt.Sprintf("standoff = %.1f", standoff), 1)
		p := planned(t, text, machine, drawControl(rt, machine))
		for b := range p.Bores {
			for k := range p.Bores[b].Visits {
				out, err := tripped(p, b, k)
				var no *post.Refusal
				switch {
				case errors.As(err, &no) && !p.Feasible:
				case errors.As(err, &no):
					for _, r := range no.Reasons {
						if !slices.Contains(mayRefuse, r.Kind) {
							rt.Errorf("%s: refused: %s", v.name, r.What)
						}
					}
					refused[v.name]++
				case err != nil:
					rt.Errorf("%s on %s, bore %d, visit %d: %v\n%s", v.name, machine, b, k, err, out)
				case !p.Feasible:
					rt.Errorf("%s: a program for a plan that is not feasible", v.name)
				default:
					programs[v.name]++
				}
			}
		}
	})
	all := 0
	for _, v := range variants {
		t.Logf("%-32s %3d programs, %3d refused", v.name, programs[v.name], refused[v.name])
		all += programs[v.name]
	}
	t.Logf("%d programs read back to the moves of the plan and proven", all)
	if all < 20 && !testing.Short() {
		t.Errorf("only %d programs: the test shows little", all)
	}
}

// TestEveryJobOnItsOwnControl: the same, for every variant on every built-in
// machine as it stands. None may be refused.
func TestEveryJobOnItsOwnControl(t *testing.T) {
	for _, v := range someVariants(t) {
		for _, m := range controlled() {
			p := planned(t, v.text(t), m, "")
			if !p.Feasible {
				t.Errorf("%s on %s: %v", v.name, m, p.Reasons)
			}
			for b := range p.Bores {
				for k := range p.Bores[b].Visits {
					if out, err := tripped(p, b, k); err != nil {
						t.Errorf("%s on %s, bore %d, visit %d: %v\n%s", v.name, m, b, k, err, out)
					}
				}
			}
		}
	}
}

// tripped writes a program, replays it to the moves of the plan and proves it.
func tripped(p *plan.Plan, bore, visit int) (text string, err error) {
	var out bytes.Buffer
	if err := post.Write(&out, p, bore, visit); err != nil {
		return "", err
	}
	text = out.String()
	if err := sameMoves(out.Bytes(), p, bore, visit); err != nil {
		return text, err
	}
	if v := p.Bores[bore].Visits[visit]; p.Job.Machine.Control.SpringAgain != 0 { // with the switch off: a spring pass twice
		twice := *p
		twice.Bores = slices.Clone(p.Bores)
		twice.Bores[bore].Visits = slices.Clone(p.Bores[bore].Visits)
		var passes []schedule.Pass
		for _, q := range v.Passes {
			if passes = append(passes, q); q.Kind == schedule.Spring && q.Hold != nil {
				passes = append(passes, q)
			}
		}
		twice.Bores[bore].Visits[visit].Passes = passes
		if err := sameMovesWith(false, out.Bytes(), &twice, bore, visit); err != nil {
			return text, fmt.Errorf("block delete off: %w", err)
		}
	}
	r := Check(out.Bytes(), "", p, bore, visit)
	for _, f := range r.Findings {
		err = errors.Join(err, errors.New(said(f)))
	}
	if err == nil && (!r.Proven || len(r.Cuts) != len(p.Bores[bore].Visits[visit].Passes)) {
		err = fmt.Errorf("%d cuts, proven %v", len(r.Cuts), r.Proven)
	}
	if b, k, ok := Identify(out.Bytes(), p); err == nil && (!ok || b != bore || k != visit) {
		err = fmt.Errorf("taken for bore %d, visit %d (%v)", b, k, ok)
	}
	return text, err
}

// said is a finding on one line.
func said(f Finding) string {
	return fmt.Sprintf("%d:%d: %s: %s; %s", f.Line, f.Col, f.Kind, f.What, f.Want)
}

// act is one thing that a plan asks of the machine.
type act struct {
	kind    rs274.Kind
	motion  rs274.Motion
	x, y, d qty.Length // move: where the axis and the tip end; d from the face, inward
	front   bool       // move: d is any level in front of the face, the same throughout
	feed    qty.Length // feed move: a revolution
	speed   float64
	spindle rs274.Spindle
	axes    rs274.Axes // return, and what is placed
	at      qty.Length // return by G53: to that machine position
}

func (a act) String() string {
	return fmt.Sprintf("%v %v to X%v Y%v depth %v feed %v S%v %v", a.kind, a.motion, a.x, a.y, a.d, a.feed, a.speed, a.spindle)
}

// actsOf spells out what a visit of a plan asks of the machine. It is written
// from the meaning of the plan alone and knows neither writer nor verifier.
func actsOf(p *plan.Plan, bore, visit int) []act {
	v, blind := &p.Bores[bore].Visits[visit], p.Bores[bore].Station.Blind
	var sx, sy qty.Length
	if v.Shift() > 0 {
		switch p.Job.Machine.Control.TipAtStop {
		case process.TipPlusX:
			sx = -v.Shift()
		case process.TipMinusX:
			sx = v.Shift()
		case process.TipPlusY:
			sy = -v.Shift()
		case process.TipMinusY:
			sy = v.Shift()
		}
	}
	var home []act
	if c := p.Job.Machine.Control; p.Job.Bar.Outboard == nil {
		for i, a := range c.HomeAxes {
			h := act{kind: rs274.Return, axes: rs274.X}
			switch {
			case a == process.HomeY:
				h.axes = rs274.Y
			case a == process.HomeFeed && p.Job.FeedLetter() == 'Z':
				h.axes = rs274.Z
			case a == process.HomeFeed:
				h.axes = rs274.W
			}
			if c.HomeWord == 53 {
				h.at = c.HomeAt[i]
			}
			home = append(home, h)
		}
	}
	out := slices.Clone(home)
	if p.Job.Machine.Control.Tool > 0 && p.Job.Bar.Outboard == nil {
		out = append(out, act{kind: rs274.ToolChange})
	}
	var placed []act // the other slide and the table
	if c := p.Job.Machine.Control; p.Job.Bar.Outboard == nil {
		at := act{kind: rs274.Move, front: len(home) == 0}
		if c.OtherSlide == process.OtherPlaced && p.Job.FeedLetter() == 'Z' {
			at.axes = rs274.W
			placed = append(placed, at)
		} else if c.OtherSlide == process.OtherPlaced {
			at.axes = rs274.Z
			placed = append(placed, at)
		}
		if c.TableWord == 'B' {
			at.axes = rs274.B
			placed = append(placed, at)
		}
	}
	if len(home) > 0 {
		out, placed = append(out, placed...), nil
	}
	for i := range v.Passes {
		q := &v.Passes[i]
		n, on, end := float64(q.Speed), rs274.Clockwise, v.End
		if q.Band != nil { // a witness cut marks the near end, and no bottom is there to be cut
			end = q.Band.To
		}
		cut := func(d qty.Length) act {
			return act{kind: rs274.Move, motion: rs274.Feed, d: d, feed: q.Feed, speed: n, spindle: on}
		}
		out = append(out, act{kind: rs274.Stop})
		if i == 0 && len(placed) > 0 { // with the tip out of the work
			out = append(append(out, act{kind: rs274.Move, front: true}), placed...)
		}
		if in := v.OffAxis; in != nil { // in at its angle, and turning only when it is back on the axis
			if i == 0 && len(placed) == 0 {
				out = append(out, act{kind: rs274.Move, front: true})
			}
			if i == 0 {
				out = append(out, act{kind: rs274.Move, front: true})
			}
			out = append(append(out, offAxis(p, in, true)...), act{kind: rs274.SpindleOn, speed: n, spindle: on})
			if in.Level != v.Clear {
				out = append(out, act{kind: rs274.Move, d: v.Clear, speed: n, spindle: on})
			}
			out = append(out, cut(end))
			if blind && q.Band == nil {
				out = append(out, act{kind: rs274.Dwell, speed: n, spindle: on})
			}
			held := rs274.OrientedStop
			if v.Shift() > 0 {
				out = append(out, act{kind: rs274.SpindleOff}, act{kind: rs274.Orient, spindle: held},
					act{kind: rs274.Move, x: sx, y: sy, d: end, spindle: held}, act{kind: rs274.Move, x: sx, y: sy, d: in.Level, spindle: held})
			} else {
				out = append(out, cut(v.Clear), act{kind: rs274.SpindleOff}, act{kind: rs274.Orient, spindle: held})
				if in.Level != v.Clear {
					out = append(out, act{kind: rs274.Move, d: in.Level, spindle: held})
				}
			}
			out = append(out, offAxis(p, in, false)...)
			if q.Hold != nil {
				out = append(out, act{kind: rs274.Stop, front: true})
			}
			continue
		}
		out = append(out, act{kind: rs274.SpindleOn, speed: n, spindle: on})
		if i == 0 && len(placed) > 0 { // it is there
			out = append(out, act{kind: rs274.Move, front: true, speed: n, spindle: on})
		} else if i == 0 { // from wherever the operator left it
			out = append(out, act{kind: rs274.Move, front: true, speed: n, spindle: on}, act{kind: rs274.Move, front: true, speed: n, spindle: on})
		}
		out = append(out, act{kind: rs274.Move, d: v.Clear, speed: n, spindle: on}, cut(end))
		if blind && q.Band == nil {
			out = append(out, act{kind: rs274.Dwell, speed: n, spindle: on})
		}
		if v.Shift() > 0 {
			held := rs274.OrientedStop
			out = append(out, act{kind: rs274.SpindleOff}, act{kind: rs274.Orient, spindle: held},
				act{kind: rs274.Move, x: sx, y: sy, d: end, spindle: held},
				act{kind: rs274.Move, x: sx, y: sy, front: true, spindle: held},
				act{kind: rs274.Move, front: true, spindle: held})
		} else {
			out = append(out, cut(v.Clear), act{kind: rs274.SpindleOff}, act{kind: rs274.Move, front: true})
		}
		if q.Hold != nil {
			out = append(out, act{kind: rs274.Stop, front: true})
		}
	}
	return append(append(out, home...), act{kind: rs274.End})
}

// offAxis is the way of a bar with its tip turned away: in, or out again.
func offAxis(p *plan.Plan, way *schedule.OffAxis, in bool) []act {
	x := map[process.TipSide]qty.Length{process.TipPlusX: -way.Shift, process.TipMinusX: way.Shift}[p.Job.Machine.Control.TipAtStop]
	y := map[process.TipSide]qty.Length{process.TipPlusY: -way.Shift, process.TipMinusY: way.Shift}[p.Job.Machine.Control.TipAtStop]
	aside := act{kind: rs274.Move, x: x, y: y, front: true, spindle: rs274.OrientedStop}
	deep, back := aside, act{kind: rs274.Move, front: true, spindle: rs274.OrientedStop}
	deep.front, deep.d = false, way.Level
	if !in {
		return []act{deep, aside, back}
	}
	back.front, back.d = false, way.Level
	return []act{{kind: rs274.Orient, spindle: rs274.OrientedStop}, aside, deep, back}
}

// sameMoves replays a program and holds each event against actsOf: positions
// to the control's least input, feeds to what its decimals allow.
func sameMoves(text []byte, p *plan.Plan, bore, visit int) error {
	return sameMovesWith(true, text, p, bore, visit)
}

// sameMovesWith is the same with block delete on or off.
func sameMovesWith(deleteOn bool, text []byte, p *plan.Plan, bore, visit int) error {
	c := p.Job.Machine.Control
	letter := byte(c.FeedAxis)
	if p.Job.Bar.FeedBy == process.QuillFeed {
		letter = byte(c.QuillAxis)
	}
	step := c.Units.Of(math.Pow10(-c.PartPlaces))
	acts, home := actsOf(p, bore, visit), qty.Length(0)
	last, on, flow, gear := rs274.Spindle(255), 0, int(c.Coolant), 0
	if m := p.Bores[bore].Visits[visit].Material; m != nil && m.Speeds[p.Job.Cutter.Material.Class].Dry {
		flow = 0
	}
	hold, settled := qty.Length(0), 0.0 // where the bore is measured; dwelt after the oriented stop
	if p.Job.Bar.Outboard == nil {
		hold = c.HoldOut
	}
	var wrong error
	d := script.Dialect(c)
	d.DeleteOn = deleteOn
	faults, err := rs274.Replay(bytes.NewReader(text), d, func(e rs274.Event) error {
		was := last
		last = e.Spindle
		switch {
		case wrong != nil || e.Kind == rs274.Message:
			return nil
		case e.Kind == rs274.Gear:
			gear = e.Code
			return nil
		case e.Kind == rs274.LengthOffset: // held at the moves
			return nil
		case e.Kind == rs274.Coolant: // held at the feeds and the stops
			if on = e.Code; on == 9 {
				on = 0
			}
			return nil
		case e.Kind == rs274.SpindleOff && was != rs274.Clockwise: // told to stop while it stands
			return nil
		case e.Kind == rs274.Dwell && e.Spindle == rs274.OrientedStop:
			settled += e.Seconds
			return nil
		case e.Kind == rs274.Move && hold > -home && home < 0 && !e.Spindle.Turning() && (e.To.Linear(letter)-hold).Abs() <= step,
			e.Kind == rs274.Move && hold > -home && home < 0 && (e.From.Linear(letter)-hold).Abs() <= step && -e.To.Linear(letter) == home:
			return nil // out to measure, and back
		case len(acts) == 0:
			wrong = fmt.Errorf("line %d: %v more than the plan asks for", e.Line, e.Kind)
			return nil
		}
		a := acts[0]
		acts = acts[1:]
		is := func(ok bool, format string, args ...any) {
			if !ok && wrong == nil {
				wrong = fmt.Errorf("line %d: %s; the plan asks for %v", e.Line, fmt.Sprintf(format, args...), a)
			}
		}
		near := func(a, b qty.Length) bool { return (a - b).Abs() <= step }
		is(e.Kind == a.kind, "%v", e.Kind)
		is(e.Spindle == a.spindle || a.kind == rs274.Stop || a.kind == rs274.End, "spindle %v", e.Spindle)
		is(!e.Spindle.Turning() || math.Abs(e.Speed-a.speed) <= 0.5, "speed %v", e.Speed)
		for _, g := range c.Gears { // the first that holds it
			if e.Spindle.Turning() && g.Least <= a.speed && a.speed <= g.Most {
				is(gear == int(g.Word), "turns in M%d", gear)
				break
			}
		}
		switch e.Kind {
		case rs274.ToolChange:
			is(e.Code == c.Tool, "tool %d", e.Code)
		case rs274.End:
			is(e.Length == 0, "length offset H%d", e.Length)
		case rs274.Move:
			is(e.Length == c.LengthOffset || (letter == 'W' || a.axes != 0) && e.Length == 0, "length offset H%d", e.Length)
			is(e.Motion != rs274.Feed || on == flow, "coolant M%d at a feed", on)
			is(e.Motion == a.motion, "%v", e.Motion)
			if placing := e.From.Moved(e.To); a.axes != 0 {
				is(placing == a.axes && (a.axes != rs274.W || e.To.W == 0) && (a.axes != rs274.Z || e.To.Z == 0) && (a.axes != rs274.B || e.To.B == float64(c.TableAngle)), "places %v", placing)
				if !a.front {
					return nil // at home
				}
			} else {
				is(e.From.B == e.To.B, "B turns")
			}
			is(e.Spindle != rs274.OrientedStop || settled >= c.OrientSettle-1e-9, "%v s after the oriented stop", settled)
			is(near(e.To.X, a.x) && near(e.To.Y, a.y), "X%v Y%v", e.To.X, e.To.Y)
			d := -e.To.Linear(letter)
			if a.front {
				if home == 0 {
					home = d
				}
				is(d == home && d < -49*qty.Millimetre, "depth %v, %v before", d, home)
			} else {
				is(near(d, a.d), "depth %v", d)
			}
			if e.Motion == rs274.Feed {
				got := e.Feed.MM()
				if !e.PerRev {
					got /= e.Speed
				}
				// a minute, it is the feed at the speed that is written
				is(math.Abs(got-a.feed.MM()) <= max(step.MM(), 0.05*a.feed.MM()), "feed %v mm/rev", got)
			}
		case rs274.Return:
			at := e.Center.X + e.Center.Y + e.Center.Z + e.Center.W // all but one are 0
			is(e.Code == int(c.HomeWord) && e.Axes == a.axes && near(at, a.at), "G%d of %v to %v", e.Code, e.Axes, at)
		case rs274.Dwell:
			is(e.Revs > 0.999 && e.Revs < 2, "%v turns", e.Revs)
		case rs274.Stop:
			is(!e.Optional, "M1")
			is(!a.front || hold <= -home || (e.To.Linear(letter)-hold).Abs() <= step, "a stop to measure at %v", e.To.Linear(letter))
			is(on == 0, "coolant M%d at a stop", on)
		case rs274.Orient:
			is(c.OrientWord == 0 && e.Angle == -1 || c.OrientWord != 0 && e.Angle == float64(c.OrientAngle), "angle %v", e.Angle)
			settled = 0
		}
		return nil
	})
	switch {
	case err != nil:
		return err
	case len(faults) > 0:
		return faults[0]
	case wrong == nil && len(acts) > 0:
		return fmt.Errorf("the program does not come to %v", acts[0])
	}
	return wrong
}

// The replay that the round trip rests on is itself held: each damage below
// keeps the program readable, and must not pass as the moves of the plan.
func TestSameMovesSeesDamage(t *testing.T) {
	p := planned(t, variants[0].text(t), "cnc-110mm", "")
	text := string(written(t, p, 0, 0))
	feed := regexp.MustCompile(`F0\.0\d{3}`).FindString(text)
	var feedIs float64
	if _, err := fmt.Sscanf(feed, "F%g", &feedIs); err != nil {
		t.Fatal(err)
	}
	figures := figuresOf(text)
	for _, c := range []struct{ why, old, new string }{
		{"deeper by a thou", "Z-16.9373", "Z-16.9383"},
		{"rapid past the clear depth", "G0 Z-14.3750", "G0 Z-14.3950"},
		{"rapid for feed", "G1 Z-16.9373", "G0 Z-16.9373"},
		{"feed up by a tenth", feed, fmt.Sprintf("F%.4f", 1.1*feedIs)},
		{"speed", "{S} M3", "{S}1 M3"},
		{"backward", "{S} M3", "{S} M4"},
		{"a stop lost", "M0\n", "\n"},
		{"a stop at the operator's choice", "M0\n", "M1\n"},
		{"no oriented stop", "M19\n", "\n"},
		{"shift toward the tip", "X-0.0390", "X0.0390"},
		{"no way back to the axis", "G0 X0.0000 Y0.0000", "G0 Z2.0000"},
		{"another level outside", "Z2.0000\nN160", "Z2.2500\nN160"},
		{"dwell too long", "G4 P", "G4 P1"},
		{"no dwell", "{dwell}", ""},
	} {
		c.old = figures.Replace(c.old)
		bad := strings.Replace(text, c.old, figures.Replace(c.new), 1)
		if bad == text {
			t.Errorf("%s: the program has no %q any more", c.why, c.old)
		} else if err := sameMoves([]byte(bad), p, 0, 0); err == nil {
			t.Errorf("%s: not seen", c.why)
		}
	}
	if err := sameMoves([]byte(text), p, 0, 1); err == nil {
		t.Error("passes for the other visit")
	}
}
