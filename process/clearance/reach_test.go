package clearance

import (
	"math"
	"slices"
	"strings"
	"testing"

	"borewright/process/fact"
	"borewright/process/geom"
	"borewright/process/qty"

	"pgregory.net/rapid"
)

func reach(t *testing.T, w ReachInput) *Reach {
	t.Helper()
	r, err := NewReach(w)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// plainly is a fact by its kind and its arguments.
func plainly(f fact.Fact) string {
	s := strings.TrimPrefix(string(f.Kind), "clearance.")
	for i := range f.Args {
		arg := f.Nth(i + 1)
		if n, ok := fact.AsFigure(arg); ok {
			s += ", " + qty.Metric.Say(n)
		} else if n, ok := fact.AsName(arg); ok {
			s += ", " + n
		}
		for _, g := range fact.AsList(arg) {
			s += ", [" + plainly(g) + "]"
		}
	}
	return s
}

// why is all that blocks a bar, a line each.
func why(r *Reach) string {
	var s []string
	for _, f := range r.Why() {
		s = append(s, plainly(f))
	}
	return strings.Join(s, "\n")
}

func gapOf(t *testing.T, r *Reach, part Part, station int, axial bool) Gap {
	t.Helper()
	for _, g := range r.Gaps {
		if g.Part == part && g.Station == station && g.Axial == axial {
			return g
		}
	}
	t.Fatalf("no gap between part %d and station %d in %+v", part, station, r.Gaps)
	return Gap{}
}

// gearCase is an invented line: cover pocket, bearing wall and a blind bore.
func gearCase() ReachInput {
	return ReachInput{
		Spindle: Spindle{Nose: 200, Quill: 125, Travel: 600},
		Bar:     Bar{Steps: []Step{{125, 65}, {57, 445}}, CutterAt: 510, Ahead: 0, Behind: 12},
		Stations: []Station{
			{Name: "cover pocket", From: 0, To: 35, Diameter: 110},
			{Name: "bearing wall", From: 184, To: 219, Diameter: 100},
			{Name: "idler", From: 368, To: 429, Diameter: 80, Blind: true, Relief: 2},
		},
		Bore:   2,
		Passes: []Pass{{Setting: 81, Before: 80, Clear: 366, End: 430.25, Retract: 0.3}},
		Needs:  UsualNeeds(1.5),
	}
}

// By hand: at the deepest feed the nose stands at 430.25−510 = −79.75 and the
// fat step ends at −14.75, in front of a pocket that it would not pass.
func TestReachOfABlindBore(t *testing.T) {
	r := reach(t, gearCase())
	if r.Verdict != Free {
		t.Errorf("verdict %v: %v", r.Verdict, why(r))
	}
	near(t, "nose to the face", gapOf(t, r, Nose, 0, true).Clearance, 79.75, 1e-9)
	near(t, "step 1 to the face", gapOf(t, r, StepPart(0), 0, true).Clearance, 14.75, 1e-9)
	// Coming out, shifted 0.3: (80 before the cut in front of the tip, but behind
	// it 81) — the bar ends at the tip, so it stands in what is cut.
	near(t, "bar in the bore, coming out", gapOf(t, r, StepPart(1), 2, false).Clearance, 40.5-28.5-0.3, 1e-9)
	near(t, "bar in the wall", gapOf(t, r, StepPart(1), 1, false).Clearance, 50-28.5-0.3, 1e-9)
	near(t, "cutter in the wall", gapOf(t, r, Cutter, 1, false).Clearance, 50-40.5, 1e-9)
	bottom := gapOf(t, r, Cutter, 2, true)
	near(t, "cutter to the bottom", bottom.Clearance, 0.75, 1e-9)
	if !bottom.Bottom || bottom.Phase != Cutting {
		t.Errorf("%+v", bottom)
	}
	if !r.Entries[0].OnAxis {
		t.Errorf("%+v", r.Entries[0])
	}
}

// TestNoRoomInABush: a bush fills its station, so that the room of what is beside it is told. A bar 50
// in bores of 90 and 60, on their line, has 20 and 5 on radius.
func TestNoRoomInABush(t *testing.T) {
	w := ReachInput{Spindle: gearCase().Spindle, Bar: Bar{Steps: []Step{{50, 700}}, CutterAt: 300}, Bore: 0, Needs: gearCase().Needs, Held: true,
		Stations: []Station{{Name: "bore", From: 100, To: 150, Diameter: 90}, {Name: "behind", From: 250, To: 300, Diameter: 60}},
		Passes:   []Pass{{Setting: 90, Before: 90, Clear: 97, End: 152, N: 1}}}
	for bush, want := range map[bool]float64{false: 5, true: 20} {
		w.Stations[1].Bush = bush
		if g := reach(t, w).Least; g.Axial || math.Abs(g.Clearance-want) > 1e-9 {
			t.Errorf("a bush, %v: the least room is %+v, by hand %v", bush, g, want)
		}
	}
}

func TestReachIsBlocked(t *testing.T) {
	for _, c := range []struct {
		why  string
		do   func(*ReachInput)
		want string
	}{
		{"nose reaches the face", func(w *ReachInput) { w.Bar.Steps[1].Length, w.Bar.CutterAt = 365, 430 }, "too-large, [nose], Ø200.000 mm, cover pocket"},
		{"bar too fat for the wall", func(w *ReachInput) { w.Bar.Steps[1].Diameter = 101 }, "too-large, [step, 2], Ø101.000 mm, bearing wall"},
		{"no room for chips", func(w *ReachInput) { w.Bar.Steps[1].Diameter = 79 }, "little-room, [step, 2], Ø79.000 mm, 0.700 mm, idler, 1.500 mm"},
		{"too deep", func(w *ReachInput) { w.Passes[0].End = 430.9 }, "-bottom, [step, 2], Ø57.000 mm, 0.100 mm, idler"},
		{"uncertain line-up", func(w *ReachInput) { w.Unsure = 21 }, "[step, 2]"},
		{"bar off the line", func(w *ReachInput) { w.Stations[1].At = geom.Vec{X: 21, Y: 0} }, "little-room, [step, 2], Ø57.000 mm, 0.498 mm, bearing wall"},
		{"quill too short", func(w *ReachInput) {
			w.Bar.QuillFeed, w.Bar.Standoff, w.Spindle.Travel = true, 200, 100
		}, "quill-too-short, 120.250 mm, 20.250 mm"},
		{"nose too near", func(w *ReachInput) { w.Bar.QuillFeed, w.Bar.Standoff = true, 50 }, "nose-too-near, 94.000 mm"},
	} {
		w := gearCase()
		c.do(&w)
		r := reach(t, w)
		if all := why(r); r.Verdict != Blocked || !strings.Contains(all, c.want) {
			t.Errorf("%s: %v\n%s", c.why, r.Verdict, all)
		}
	}
	// The nose meets the face when the tip is at 430 of 430.25.
	w := gearCase()
	w.Bar.Steps[1].Length, w.Bar.CutterAt = 365, 430
	w.Stations[0].Diameter = 90
	r := reach(t, w)
	if g := gapOf(t, r, Nose, 0, false); g.Tip != 430 || g.Clearance >= 0 {
		t.Errorf("%+v", g)
	}
}

// With quill feed the nose stays away and the quill goes in.
func TestQuillFeed(t *testing.T) {
	w := gearCase()
	w.Bar.QuillFeed, w.Bar.Standoff = true, 150
	w.Bar.Steps, w.Bar.CutterAt = []Step{{100, 65}, {57, 445}}, 510
	r := reach(t, w)
	near(t, "quill out", r.QuillOut, 430.25-(510-150), 1e-9)
	// Quill Ø125 ends at 430.25−510 = −79.75; step Ø100 at −14.75: both outside.
	near(t, "quill to the face", gapOf(t, r, Quill, 0, true).Clearance, 79.75, 1e-9)
	for _, g := range r.Gaps {
		if g.Part == Nose {
			t.Errorf("the nose stays at −150: %+v", g)
		}
	}
}

// A bore of 90 behind an access bore of 70, by hand. Bar 40: the tip wants a
// shift of at least 45 − (35 − 0.5) = 10.5, the bar allows 35 − 20 − 1.5 = 13.5.
// Bar 50 allows 8.5 only.
func TestCutterLargerThanAccess(t *testing.T) {
	w := ReachInput{
		Spindle: Spindle{Nose: 150},
		Bar:     Bar{Steps: []Step{{40, 400}}, CutterAt: 390, Ahead: 5, Behind: 5},
		Stations: []Station{
			{Name: "access", From: 0, To: 30, Diameter: 70},
			{Name: "inner", From: 150, To: 200, Diameter: 88},
		},
		Bore:   1,
		Passes: []Pass{{Setting: 90, Before: 88, Clear: 143, End: 202}},
		Needs:  UsualNeeds(1.5),
	}
	r := reach(t, w)
	e := r.Entries[0]
	if e.OnAxis || !e.Offset || e.Blocked != 0 || !e.Inside || e.Open != 120 || e.OpenFrom != 30 {
		t.Fatalf("%+v", e)
	}
	// The cutter stands in the access bore from tip −5 to 35.
	if len(e.Shifts) != 1 || e.Shifts[0] != (Shift{-5, 35, 10.5, 13.5}) {
		t.Errorf("shifts %+v", e.Shifts)
	}
	if r.Verdict != Tight {
		t.Errorf("%v: %v", r.Verdict, why(r))
	}
	w.Bar.Steps[0].Diameter = 50
	r = reach(t, w)
	e = r.Entries[0]
	if e.Offset || !e.Inside || r.Verdict != Tight {
		t.Errorf("bar 50: %+v %v %v", e, r.Verdict, why(r))
	}
	w.Needs.Hand = 130 // nobody gets a hand in
	r = reach(t, w)
	if r.Verdict != Blocked || !strings.Contains(why(r), "cutter-never-in, 1, Ø90.000 mm, access, 120.000 mm") {
		t.Errorf("%v %v", r.Verdict, why(r))
	}
	// An open length in front of the tight bore is no help.
	w.Needs.Hand = 100
	w.Stations = []Station{
		{Name: "outer", From: 0, To: 30, Diameter: 120},
		{Name: "tight", From: 140, To: 149, Diameter: 70},
		w.Stations[1],
	}
	w.Bore = 2
	r = reach(t, w)
	if e := r.Entries[0]; e.Inside || e.Open != 1 || r.Verdict != Blocked {
		t.Errorf("%+v %v", e, r.Verdict)
	}
}

func TestReachRefuses(t *testing.T) {
	for want, f := range map[fact.Kind]func(*ReachInput){
		NoSuchBore:      func(w *ReachInput) { w.Bore = 3 },
		StationsOverlap: func(w *ReachInput) { w.Stations[1].From = 20 },
		BehindBlind:     func(w *ReachInput) { w.Stations[0].Blind = true },
		NotAStation:     func(w *ReachInput) { w.Stations[0].To = 0 },
		NoSteps:         func(w *ReachInput) { w.Bar.Steps = nil },
		NotAStep:        func(w *ReachInput) { w.Bar.Steps[0].Diameter = math.NaN() },
		CutterOffBar:    func(w *ReachInput) { w.Bar.CutterAt = 511 },
		NotASpindle:     func(w *ReachInput) { w.Spindle.Nose = 0 },
		NoPass:          func(w *ReachInput) { w.Passes = nil },
		NotAPass:        func(w *ReachInput) { w.Passes[0].End = 300 },
		NotAShift:       func(w *ReachInput) { w.Unsure = -1 },
	} {
		w := gearCase()
		w.Bar.Steps = append([]Step{}, w.Bar.Steps...)
		f(&w)
		if _, err := NewReach(w); kindOf(err) != want {
			t.Errorf("%v, want %v", err, want)
		}
	}
}

// What a bar's thickness does to the verdict, in the bores of gearCase.
func TestVerdictByDiameter(t *testing.T) {
	for d, want := range map[float64]Verdict{79: Blocked, 75.6: Tight, 70: Free, 40: Free} {
		w := gearCase()
		w.Bar = Bar{Steps: []Step{{125, 65}, {d, 445}}, CutterAt: 510, Behind: 12}
		// The tip stands 0.75 from the bottom in all; the wanted 0.5 is met.
		if got := reach(t, w).Verdict; got != want {
			t.Errorf("a bar of %g: %v, want %v", d, got, want)
		}
	}
}

func TestCompliance(t *testing.T) {
	// One diameter to the root: δ/F = L³/(3EI); d 50, L 250, E 210 GPa gives
	// 80.8 µm at 1 kN (formulas collection, section 4).
	c := ReachInput{Bar: Bar{Steps: []Step{{50, 250}}, CutterAt: 250}}.Compliance(0)
	near(t, "compliance", c*1e6, 80.8, 0.05)
	// Stepped 80×150 then 50×250: 0.1190 µm/N (same section).
	c = ReachInput{Bar: Bar{Steps: []Step{{80, 150}, {50, 250}}, CutterAt: 400}}.Compliance(0)
	near(t, "stepped", c*1e3, 0.1190, 0.0001)
}

// builtOf is the reach of a bar of other steps that ends at its tip.
func builtOf(t *rapid.T, w ReachInput, steps []Step) *Reach {
	w.Bar.Steps, w.Bar.CutterAt = steps, 0
	for _, s := range steps {
		w.Bar.CutterAt += s.Length
	}
	r, err := NewReach(w)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestBestPassesAndNothingStifferDoes(t *testing.T) {
	r := reach(t, gearCase())
	// Idler 80 before the cut, 0.3 of shift, 1.5 for chips: 76.4. Nose 200 and one
	// millimetre before the face: 431.25.
	near(t, "diameter", r.Best.Diameter, 76.4, 1e-9)
	near(t, "stickout", r.Best.Stickout, 431.25, 1e-9)
	rapid.Check(t, func(t *rapid.T) {
		w := drawWay(t)
		w.Bar.QuillFeed = false
		w.Bar.Ahead, w.Bar.Behind = 0, 0
		w.Stations[w.Bore].At = w.Shift
		for i := range w.Passes { // what stands behind the tip sees the bore as before
			w.Passes[i].Setting = w.Passes[i].Before
			w.Passes[i].End, w.Passes[i].Retract = w.Passes[0].End, w.Passes[0].Retract
		}
		best := w.best() // of the bar alone: what the cutter takes away is held by the next test
		if len(best.Steps) == 0 {
			return
		}
		barBlocked := func(steps []Step) bool {
			r := builtOf(t, w, steps)
			for _, g := range r.Gaps {
				if g.Part != Cutter && !g.Bottom && g.Clearance < g.Need.Least-1e-9 {
					return true
				}
			}
			return false
		}
		if barBlocked(best.Steps) {
			t.Fatalf("the best bar does not pass: %+v in %+v", best, w)
		}
		for i := range best.Steps {
			more := append([]Step{}, best.Steps...)
			more[i].Diameter += 0.01
			if !barBlocked(more) {
				t.Fatalf("step %d could be fatter: %+v in %+v", i+1, best, w)
			}
			less := append([]Step{}, best.Steps...)
			if less[i].Length > 0.01 {
				less[i].Length -= 0.01
				if !barBlocked(less) && i == 0 {
					t.Fatalf("could be shorter: %+v in %+v", best, w)
				}
			}
		}
	})
}

// What is said to pass does, cutter and all, and nothing much fatter: of bars drawn at
// random, built as told and judged again.
func TestWhatWouldPassPasses(t *testing.T) {
	thinner, never := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		w := drawWay(t)
		w.Bar.QuillFeed = false
		r, err := NewReach(w)
		if err != nil {
			t.Fatal(err)
		}
		blocked := func(steps ...Step) bool {
			r := builtOf(t, w, steps)
			for _, g := range r.Gaps { // a closed end is a matter of the holder
				if g.Verdict == Blocked && !g.Bottom {
					return true
				}
			}
			return slices.ContainsFunc(r.Entries, func(e Entry) bool { return e.Way() == NoWay })
		}
		switch b := r.Best; {
		case b.Cutter:
			never++
			if !blocked(Step{leastBar, w.best().Stickout}) {
				t.Fatalf("a wire passes: %+v", w)
			}
		case len(b.Steps) > 0:
			if blocked(Step{b.Diameter, b.Stickout}) || blocked(b.Steps...) {
				t.Fatalf("told to pass and does not: %+v in %+v", b, w)
			}
			if free := w.best(); free.Diameter > b.Diameter {
				thinner++
				if d := b.Diameter + 0.02; d < free.Diameter && !blocked(Step{d, b.Stickout}) {
					t.Fatalf("a plain bar of %v passes, told %+v in %+v", d, b, w)
				}
			}
		}
	})
	t.Logf("thinner for the cutter's sake %d, no bar %d", thinner, never)
}

func BenchmarkReach(b *testing.B) {
	w := gearCase()
	for b.Loop() {
		if _, err := NewReach(w); err != nil {
			b.Fatal(err)
		}
	}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %.1g", what, got, want, tol)
	}
}

func kindOf(err error) fact.Kind {
	f, _ := fact.Of(err)
	return f.Kind
}

// The trade's needs of room, by what the verdict is on either side of each; mm.
// Common practice, no source.
func TestUsualNeeds(t *testing.T) {
	n := UsualNeeds(1.5)
	for _, c := range []struct {
		what          string
		need          Need
		least, wanted float64
	}{{"chips", n.Chips, 1.5, 3}, {"tip", n.Tip, 0.5, 1}, {"end", n.End, 1, 5}, {"bottom", n.Bottom, 0.2, 0.5}} {
		for gap, want := range map[float64]Verdict{c.least * 0.99: Blocked, c.least * 1.01: Tight, c.wanted * 0.99: Tight, c.wanted * 1.01: Free} {
			if got := c.need.judge(gap); got != want {
				t.Errorf("%s, %g mm: %v, want %v", c.what, gap, got, want)
			}
		}
	}
	if n.Hand != 100 {
		t.Errorf("a hand needs %g mm", n.Hand)
	}
}

// TestWhatPassesPassesAtAnyDepth: the shortest bar that reaches has just the room that is asked for before its
// nose. Sums of lengths like 511.436 and 1 are not exact, and it passes all the same.
func TestWhatPassesPassesAtAnyDepth(t *testing.T) {
	for n := range 400 {
		w := gearCase()
		from := 448 + float64(n)*0.0109
		w.Stations[2].From, w.Stations[2].To = from, from+61
		w.Passes[0].Clear, w.Passes[0].End = from-2, from+62.25
		b := reach(t, w).Best
		if b.Cutter || math.Abs(b.Stickout-(from+62.25+1)) > 1e-6 || b.Diameter < 70 {
			t.Fatalf("a bore from %g: %+v", from, b)
		}
	}
}
