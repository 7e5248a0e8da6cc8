package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"borewright/process/slow"
)

// By hand: readings at 40.3 that may stand 0.3 off reach 40.6; a bore of Ø80.4
// (radius 40.2) leaves up to 0.4.
func TestShadowOfReadingsAcross(t *testing.T) {
	w, err := CleanUp([]Section{{Depth: 10, Points: ring(40.3, 40.1, 40.3, 40.1), Off: 0.3}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "true axis", w.TrueAxis, 81.2, 1e-12)
	near(t, "own axis", w.OwnAxis, 80.6, 1e-10)
	deep, where := w.Shadow(80.4)
	near(t, "shadow", deep, 0.4, 1e-12)
	if len(where) != 4 {
		t.Errorf("%d readings can show the old bore, all 4 do: 40.1 + 0.3 is over 40.2", len(where))
	}
}

// Readings on one side only say nothing of an axis: a circle through them can
// be as small or as far off as one likes.
func TestReadOnOneSide(t *testing.T) {
	one := []Point{{0, 40.1}, {45, 40.2}, {90, 40.3}, {135, 40.2}}
	for _, c := range []struct {
		sections []Section
		known    bool
		why      string
	}{
		{[]Section{{Depth: 50, Points: one}}, false, "225° unread"},
		{[]Section{{Depth: 20, Points: ring(40.1, 40.1, 40.1, 40.1)}, {Depth: 50, Points: one}}, false, "one of two depths"},
		{[]Section{{Depth: 20, Points: []Point{{0, 40}, {90, 40}, {180, 40}}}}, false, "just half the turn unread"},
		{[]Section{{Depth: 20, Points: []Point{{0, 40}, {90, 40}, {181, 40}}}}, true, "a degree less"},
	} {
		w, err := CleanUp(c.sections)
		if err != nil {
			t.Fatal(err)
		}
		if (w.OwnAxis > 0) != c.known {
			t.Errorf("%s: own axis %v", c.why, w.OwnAxis)
		}
		if !c.known && (w.Old != nil || w.TrueAxis == 0) {
			t.Errorf("%s: old axis %v, true axis %v", c.why, w.Old, w.TrueAxis)
		}
	}
}

// Worked by hand: a bore of 80.4 whose axis stands 0.3 right of the true one.
// From the true axis it reads 40.5 at 3 o'clock and 39.9 at 9 o'clock. Cleaning
// up about the true axis takes 81.0; about its own, 80.4.
func TestCleanUpOfAnOffsetBore(t *testing.T) {
	side := math.Sqrt(40.2*40.2 - 0.3*0.3)
	w, err := CleanUp([]Section{{Depth: 14.8, Points: ring(side, 40.5, side, 39.9)}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "true axis", w.TrueAxis, 81, 1e-12)
	near(t, "own axis", w.OwnAxis, 80.4, 1e-10)
	near(t, "own x", w.OwnAt.X, 0.3, 1e-9)
	near(t, "own y", w.OwnAt.Y, 0, 1e-9)
	if w.Last != (Spot{14.8, 90, 40.5}) {
		t.Errorf("last shadow at %v", w.Last)
	}
	if w.Old != nil {
		t.Error("a tilt from one depth")
	}

	deep, where := w.Shadow(80.8)
	near(t, "shadow at 80.8", deep, 0.1, 1e-12)
	if len(where) != 1 || where[0].Clock != 90 {
		t.Errorf("shadow at 80.8 stands at %v", where)
	}
	if deep, where := w.Shadow(81); deep != 0 || where != nil {
		t.Errorf("shadow at the clean-up size: %v %v", deep, where)
	}
	if deep, where := w.Shadow(80.2); math.Abs(deep-0.4) > 1e-12 || len(where) != 3 || where[0].Clock != 90 {
		t.Errorf("shadow at 80.2: %v %v", deep, where)
	}
}

// A round taper bore whose axis leans: centres 0.1 right at depth 10 and 0.4
// right, 0.06 low at depth 40, diameters 60.00 and 60.12. Tilt 10 and −2 mrad,
// taper 0.004.
func TestOldAxisOfALeaningTaperBore(t *testing.T) {
	w, err := CleanUp([]Section{
		{Depth: 10, Points: roundBore(Vec{0.1, 0}, 30, 12)},
		{Depth: 40, Points: roundBore(Vec{0.4, -0.06}, 30.06, 12)},
	})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tilt x", w.Old.Tilt.X, 10, 1e-9)
	near(t, "tilt y", w.Old.Tilt.Y, -2, 1e-9)
	near(t, "taper", w.Old.Taper, 0.004, 1e-12)
	near(t, "at depth", w.Old.Depth, 25, 0)
	// Along its own axis the wider end alone decides.
	near(t, "own axis", w.OwnAxis, 60.12, 1e-9)
	if w.Last.Depth != 40 || w.TrueAxis < 60.12+2*0.39 {
		t.Errorf("last shadow %v, true axis %v", w.Last, w.TrueAxis)
	}
}

// roundBore reads a round bore that stands at c, exactly, from the axis.
func roundBore(c Vec, r float64, n int) []Point {
	var ps []Point
	for i := range n {
		clock := 360 * float64(i) / float64(n)
		u := AtClock(clock)
		along, side := c.Dot(u), c.cross(u)
		ps = append(ps, Point{clock, along + math.Sqrt(r*r-side*side)})
	}
	return ps
}

func TestCleanUpRefuses(t *testing.T) {
	if _, err := CleanUp(nil); kindOf(err) != NoDepthRead {
		t.Error(err)
	}
	if _, err := CleanUp([]Section{{Depth: math.NaN(), Points: ring(1, 1, 1)}}); kindOf(err) != NotADepth {
		t.Error(err)
	}
	if _, err := CleanUp([]Section{{Depth: 5, Points: ring(40, 41)}}); kindOf(err) != TooFewReadings {
		t.Error(err)
	}
}

func TestCleanUpProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var ss []Section
		for range rapid.IntRange(1, 4).Draw(t, "depths") {
			ss = append(ss, Section{Depth: rapid.Float64Range(0, 100).Draw(t, "depth"), Points: drawReadings(t, 16)})
		}
		w, err := CleanUp(ss)
		if err != nil {
			t.Fatal(err)
		}
		if w.OwnAxis > w.TrueAxis+1e-12 {
			t.Fatalf("about its own axis %v, about the true one %v", w.OwnAxis, w.TrueAxis)
		}
		if deep, _ := w.Shadow(w.TrueAxis); deep != 0 {
			t.Fatalf("shadow %v at the clean-up size", deep)
		}
		d := w.TrueAxis - rapid.Float64Range(1e-6, 1).Draw(t, "short")
		deep, where := w.Shadow(d)
		if math.Abs(deep-(w.TrueAxis-d)/2) > 1e-12 || where[0].Spot != w.Last {
			t.Fatalf("shadow %v at %v", deep, where)
		}
	})
}

// A slip of 0.3 mm in one reading of a worn, oval, offset bore is found and
// only that; the reading still counts.
func TestDoubtfulReading(t *testing.T) {
	for _, n := range []int{6, 8, 12, 24} {
		rnd := rand.New(rand.NewPCG(7, uint64(n)))
		var ps []Point
		for i := range n {
			a := 2 * math.Pi * float64(i) / float64(n)
			r := 40 + 0.15*math.Cos(a-1) + 0.004*rnd.NormFloat64()
			if n >= 9 {
				r += 0.1 * math.Cos(2*a)
			}
			ps = append(ps, Point{360 * float64(i) / float64(n), r})
		}
		ps[4].Radius += 0.3
		bad := Doubtful(ps)
		if len(bad) != 1 || bad[0].Index != 4 || math.Abs(bad[0].Expected-(ps[4].Radius-0.3)) > 0.05 {
			t.Errorf("n %d: %v", n, bad)
		}
		w, err := CleanUp([]Section{{Depth: 3, Points: ps}})
		if err != nil || len(w.Doubtful) != 1 || w.Doubtful[0].Spot.Radius != ps[4].Radius || w.Last.Radius < 40.3-0.2 {
			t.Errorf("n %d: %v %v", n, w, err)
		}
	}
	if got := Doubtful(ring(40, 40, 41, 40, 40)); got != nil {
		t.Errorf("five readings cannot judge one: %v", got)
	}
}

// Clean sets with normal scatter: about one in a hundred may raise a flag.
func TestDoubtfulSeldomCriesWolf(t *testing.T) {
	sets := slow.Rounds(t, "clean sets of each length", 600, 240)
	rnd := rand.New(rand.NewPCG(3, 4))
	for _, n := range []int{6, 7, 8, 9, 12, 24, 72} {
		flagged := 0
		for range sets {
			var ps []Point
			for i := range n {
				ps = append(ps, Point{360 * float64(i) / float64(n), 40 + 0.02*rnd.NormFloat64()})
			}
			if len(Doubtful(ps)) > 0 {
				flagged++
			}
		}
		share := float64(flagged) / float64(sets)
		t.Logf("n %d: %.2f %% of clean sets flagged", n, 100*share)
		if share > 0.025 {
			t.Errorf("n %d: %.1f %% of clean sets flagged", n, 100*share)
		}
	}
}
