package verify

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/post"
	"borewright/post/verify/offaxis"
	"borewright/process"
	"borewright/process/plan"
)

// A bar that does not pass on its axis gives programs that are read back to the moves of
// the plan and proven, on every control that has an oriented stop.
func TestOffAxisProgramsAreProven(t *testing.T) {
	for _, fed := range []bool{false, true} {
		for _, stepped := range []bool{false, true} {
			if err := tried(t, fed, stepped, ""); err != nil {
				t.Error(err)
			}
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		text := drawControl(rt, "cnc-110mm")
		if !strings.Contains(text, "tip_at_stop") {
			text = strings.Replace(text, "oriented_stop = false", "oriented_stop = true\ntip_at_stop = \"-Y\"", 1)
		}
		fed, stepped := rapid.Bool().Draw(rt, "fed out"), rapid.Bool().Draw(rt, "stepped")
		if err := tried(t, fed, stepped, text); err != nil {
			rt.Fatal(err)
		}
	})
}

// tried is what is wrong with a program off the axis.
func tried(t *testing.T, fed, stepped bool, control string) error {
	p := planned(t, offAxisJob(fed, stepped)(t), "cnc-110mm", control)
	if !p.Feasible || p.Bores[0].Visits[0].OffAxis == nil {
		return fmt.Errorf("%v\n%s", p.Reasons, control)
	}
	out, err := tripped(p, 0, 0)
	if no := new(post.Refusal); errors.As(err, &no) {
		for _, r := range no.Reasons {
			if !slices.Contains(mayRefuse, r.Kind) || control == "" {
				return fmt.Errorf("refused: %s", r.What)
			}
		}
		return nil
	}
	if err != nil {
		return fmt.Errorf("%w\n%s", err, out)
	}
	return nil
}

// spot is where the machine of this test stands, by a reader of its own: mm from zero.
type spot struct {
	x, y, z float64
	spindle string // M3, M5, M19
	cutting bool
}

var (
	wordOf = regexp.MustCompile(`([GXYZM])(-?[0-9.]+)`)
	asides = regexp.MustCompile(`\([^)]*\)`)
)

// wayOf is every place that the tip of a program comes to, in steps no longer than mm along
// the bore and across it.
func wayOf(t *testing.T, program string, mm float64) (all []spot) {
	t.Helper()
	at := spot{z: 1000, spindle: "M5"}
	feed := false
	for _, line := range strings.Split(asides.ReplaceAllString(program, ""), "\n") {
		if strings.Contains(line, "G53") { // home
			continue
		}
		next := at
		for _, w := range wordOf.FindAllStringSubmatch(line, -1) {
			n, err := strconv.ParseFloat(w[2], 64)
			if err != nil {
				t.Fatal(err)
			}
			switch w[1] {
			case "G":
				if n < 2 {
					feed = n == 1
				}
			case "X":
				next.x = n
			case "Y":
				next.y = n
			case "Z":
				next.z = n
			case "M":
				if m := w[0]; m == "M3" || m == "M5" || m == "M19" {
					next.spindle = m
				}
			}
		}
		next.cutting = feed
		far := math.Max(math.Abs(next.z-at.z), math.Hypot(next.x-at.x, next.y-at.y))
		for i, n := 1, int(math.Ceil(far/mm)); i <= max(n, 1); i++ {
			step := next
			f := float64(i) / float64(max(n, 1))
			step.x, step.y, step.z = at.x+f*(next.x-at.x), at.y+f*(next.y-at.y), at.z+f*(next.z-at.z)
			all = append(all, step)
		}
		at = next
	}
	return all
}

// TestOffAxisBySimulation follows the written program with an outline of points: the rim of
// every step of the bar, and of the cutter an arc as wide as the plan allows it, or the whole
// circle where the spindle turns or stands at no known angle. Nothing comes nearer to the
// smaller station than the plan says on either side, something comes as near, and the
// spindle never turns with the bar off its axis.
func TestOffAxisBySimulation(t *testing.T) {
	for i, job := range []string{offAxisJob(false, false)(t), offAxisJob(true, true)(t)} {
		p := planned(t, job, "cnc-110mm", []string{"", controlsOf[4]}[i])
		v := &p.Bores[0].Visits[0]
		text := string(written(t, p, 0, 0))
		tip, back, turning := simulated(t, p, text)
		sides := v.OffAxis.Sides[0]
		if n := len(v.OffAxis.Sides); n != 1 || sides.Station != "seal wall" {
			t.Fatalf("%d stations: %+v", n, v.OffAxis.Sides)
		}
		// What the plan takes off for what is not known of the line is the same on both sides,
		// but for the hundredth by which the station was swept off the line.
		unsure := back - sides.Back.MM()
		if unsure < 0 || unsure > 0.1 {
			t.Errorf("%d: behind the bar the plan has %v mm, the simulation %.4f", i, sides.Back.MM(), back)
		}
		if math.Abs(tip-sides.Tip.MM()-unsure) > 0.02 {
			t.Errorf("%d: at the tip the plan has %v mm, the simulation %.4f less %.4f", i, sides.Tip.MM(), tip, unsure)
		}
		if turning > 0 {
			t.Errorf("%d: %d places off the axis with the spindle turning", i, turning)
		}
		// By hand, of the finish: the tip stands R - e from the station's axis, or where the
		// sides of the cutter stand further, those.
		last := v.Passes[len(v.Passes)-1].Setting.MM() / 2
		e, w := v.OffAxis.Shift.MM(), v.OffAxis.Wide.MM()
		if stated := []float64{58. / 4, 8.5}[i]; w != stated {
			t.Errorf("%d: the cutter is taken to stand out %v mm beside its tip, not %v", i, w, stated)
		}
		for _, at := range offaxis.New(p.Job, v.OffAxis, offaxis.Set{}).Corners(v.Passes[0].Setting.Radius())[:2] { // tip at +X or −X, +Y or −Y
			if side := math.Min(math.Abs(float64(at[0])), math.Abs(float64(at[1]))); math.Abs(side/1e6-w) > 1e-5 {
				t.Errorf("%d: the proof takes it to stand out %v mm", i, side/1e6)
			}
		}
		want := 80.5/2 - math.Max(last-e, math.Hypot(math.Sqrt(last*last-w*w)-e, w))
		if math.Abs(tip-want) > 0.005 {
			t.Errorf("%d: simulated %.4f mm at the tip, by hand %.4f", i, tip, want)
		}
	}
}

// simulated is the least room at the cutter and behind the bar in the station in front of
// the bore, and how many places the spindle turns at with the bar off its axis.
func simulated(t *testing.T, p *plan.Plan, text string) (tip, back float64, turning int) {
	t.Helper()
	j, v := p.Job, &p.Bores[0].Visits[0]
	wall := j.Stations[0]
	axis := map[process.TipSide][2]float64{process.TipPlusX: {1, 0}, process.TipMinusX: {-1, 0}, process.TipPlusY: {0, 1}, process.TipMinusY: {0, -1}}[j.Machine.Control.TipAtStop]
	radius := v.Passes[0].Setting.MM() / 2
	tip, back = math.Inf(1), math.Inf(1)
	pass, fed := 0, false
	for _, s := range wayOf(t, text, 0.5) {
		if s.cutting {
			fed = true
		}
		if s.z > 40 && fed { // out: the cutter is set
			fed = false
			if pass++; pass < len(v.Passes) {
				radius = v.Passes[pass].Setting.MM() / 2
			}
		}
		off := math.Hypot(s.x, s.y)
		if s.spindle == "M3" && off > 1e-9 {
			turning++
		}
		depth := -s.z
		rim := func(from, to, r, first, last float64) float64 {
			least := math.Inf(1)
			if depth+to <= wall.From.MM() || depth+from >= wall.To.MM() {
				return least
			}
			for k := range 721 {
				a := first + (last-first)*float64(k)/720
				x, y := s.x+r*(axis[0]*math.Cos(a)-axis[1]*math.Sin(a)), s.y+r*(axis[1]*math.Cos(a)+axis[0]*math.Sin(a))
				least = math.Min(least, wall.Diameter.MM()/2-math.Hypot(x, y))
			}
			return least
		}
		from := -j.Bar.CutterAt.MM()
		for _, step := range j.Bar.Steps {
			back = math.Min(back, rim(from, from+step.Length.MM(), step.Diameter.MM()/2, -math.Pi, math.Pi))
			from += step.Length.MM()
		}
		half := math.Pi
		if s.spindle == "M19" {
			half = math.Asin(v.OffAxis.Wide.MM() / radius)
		}
		tip = math.Min(tip, rim(-j.Cutter.Behind.MM(), math.Max(j.Cutter.Ahead.MM(), 1e-6), radius, -half, half))
	}
	return tip, back, turning
}

// Slips in the way of a bar off its axis, each found at its line by one finding.
func TestOffAxisSlipsAreFound(t *testing.T) {
	p := planned(t, offAxisJob(false, false)(t), "cnc-110mm", "")
	text := string(written(t, p, 0, 0))
	if r := Check([]byte(text), "", p, 0, 0); !r.Proven {
		t.Fatal(r.Findings)
	}
	in := regexp.MustCompile(`N\d+ M19\nN\d+ G0 X-8\.000\nN\d+ G0 Z-93\.000\nN\d+ G0 X0\.000 Y0\.000\nN\d+ S\d+ M3\n`)
	out := regexp.MustCompile(`N\d+ M19\nN\d+ G0 X-1\.000\nN\d+ G0 Z-93\.000\n\(OUT[^\n]*\nN\d+ G0 X-8\.000\nN\d+ G0 Z50\.000\nN\d+ G0 X0\.000 Y0\.000\n`)
	for _, x := range []struct {
		why      string
		way      *regexp.Regexp
		old, new string
		kind     Kind
		more     int // findings that follow from it and stand apart
	}{
		{"no shift on the way in", in, ` G0 X-8.000`, ``, "axis", 0},
		{"a shift to the side of the tip", in, `X-8.000`, `X8.000`, "axis", 0},
		{"a shift across the tip", in, `X-8.000`, `Y-8.000`, "axis", 0},
		{"a shift ten times too small", in, `X-8.000`, `X-0.800`, "axis", 0},
		{"a shift a little too small", in, `X-8.000`, `X-7.000`, "axis", 0},
		{"no oriented stop on the way in", in, ` M19`, ``, "spindle", 0},
		{"the stop let go in front of the work", in, `X-8.000`, "X-8.000\nM5", "spindle", 0},
		{"the spindle started with the bar shifted", in, `X-8.000`, "X-8.000\nS550 M3", "spindle", 0},
		{"the spindle started in the work with the bar shifted", in, `Z-93.000`, "Z-93.000\nS550 M3", "spindle", 0},
		{"across too early", in, `Z-93.000`, `Z-83.000`, "level", 0},
		{"across in the station", in, `Z-93.000`, `Z-20.000`, "level", 1},
		{"in too deep before it comes across", in, `Z-93.000`, `Z-95.000`, "level", 2},
		{"into the bottom", in, `Z-93.000`, `Z-193.000`, "", 0},
		{"not back to the axis", in, ` G0 X0.000 Y0.000`, ``, "spindle", 1}, // and fed so
		{"back by half", in, `G0 X0.000 Y0.000`, `G0 X-4.000 Y0.000`, "axis", 1},
		{"an oriented stop with the bar shifted in the work", in, `Z-93.000`, "Z-93.000\nM5\nM19", "spindle", 0},
		{"fed in off the axis", in, `G0 Z-93.000`, `G1 Z-93.000 F0.1`, "", 0},
		{"no shift on the way out", out, ` G0 X-8.000`, ``, "axis", 0},
		{"a shift to the side of the tip on the way out", out, `X-8.000`, `X8.000`, "axis", 0},
		{"out at the shift off the wall", out, ` G0 Z-93.000`, ``, "", 0},
		{"across on the way out too far out", out, `Z-93.000`, `Z-60.000`, "", 0},
		{"let go on the way out", out, `X-8.000`, "X-8.000\nM5", "spindle", 0},
		{"started on the way out", out, `X-8.000`, "X-8.000\nS550 M3", "spindle", 0},
		{"started before the shift on the way out", out, `G0 Z-93.000`, "G0 Z-93.000\nS550 M3", "spindle", 0},
		{"back to the axis in the station", out, `G0 Z50.000`, "G0 Z-10.000\nG0 X0. Y0.\nG0 Z50.000", "", 0},
		{"left off the axis at the stop", out, ` G0 X0.000 Y0.000`, ``, "stop", 1},
	} {
		whole := x.way.FindString(text)
		part := strings.Replace(whole, x.old, x.new, 1)
		bad := strings.Replace(text, whole, part, 1)
		if whole == "" || bad == text {
			t.Errorf("%s: no place for it", x.why)
			continue
		}
		r := Check([]byte(bad), "", p, 0, 0)
		var all []string
		for _, f := range r.Findings {
			all = append(all, said(f))
		}
		first := strings.Count(text[:strings.Index(text, whole)], "\n") + 1
		last := first + strings.Count(part, "\n") + 16
		switch {
		case r.Proven:
			t.Errorf("%s: proven", x.why)
		case x.kind != "" && r.Findings[0].Kind != x.kind:
			t.Errorf("%s: found as %s", x.why, strings.Join(all, "\n  "))
		case x.kind != "" && len(all) > 1+x.more:
			t.Errorf("%s: %d findings:\n  %s", x.why, len(all), strings.Join(all, "\n  "))
		case r.Findings[0].Line < first || r.Findings[0].Line > last:
			t.Errorf("%s: found in line %d, made in %d to %d", x.why, r.Findings[0].Line, first, last)
		}
		if testing.Verbose() {
			fmt.Printf("%s\n  %s\n", x.why, strings.Join(all, "\n  "))
		}
	}
}

// What does no harm is proven: the way in and out in legs, a second oriented stop in front
// of the work, the stop before the shift or after it.
func TestOffAxisHarmless(t *testing.T) {
	p := planned(t, offAxisJob(false, false)(t), "cnc-110mm", "")
	text := string(written(t, p, 0, 0))
	for _, x := range []struct{ why, old, new string }{
		{"in by two legs", "G0 Z-93.000\n", "G0 Z-10.000\nG0 Z-93.000\n"},
		{"out by two legs", "G0 Z50.000\nN220", "G0 Z-10.000\nG0 Z50.000\nN220"},
		{"stopped again in front of the work", "M19\nN110", "M19\nM5\nM19\nN110"},
		{"shifted by two legs", "G0 X-8.000\nN120", "G0 X-8.000\nG0 X-8.000\nN120"},
		{"a dwell at the level", "G0 Z-93.000\nN130", "G0 Z-93.000\nG4 P0.5\nN130"},
	} {
		bad := strings.Replace(text, x.old, x.new, 1)
		if bad == text {
			t.Errorf("%s: no place for it", x.why)
		}
		for _, f := range Check([]byte(bad), "", p, 0, 0).Findings {
			t.Errorf("%s: %s", x.why, said(f))
		}
	}
}
