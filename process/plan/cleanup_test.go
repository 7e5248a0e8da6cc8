package plan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	prop "pgregory.net/rapid"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/place"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
	"borewright/sheets/words"
)

// readings of a bore of radius r whose axis stands (x, y) off and that is oval
// by o on radius, longest toward clock position long: to the first order
// r + x·sin θ + y·cos θ + o·cos 2(θ − long).
func readings(n int, r, x, y, o, long float64) (at, radius string) {
	var a, b []string
	for k := range n {
		deg := 360 * float64(k) / float64(n)
		s, c := math.Sincos(deg * math.Pi / 180)
		a = append(a, fmt.Sprint(deg))
		b = append(b, fmt.Sprintf("%.5f", r+x*s+y*c+o*math.Cos(2*(deg-long)*math.Pi/180)))
	}
	return "[" + strings.Join(a, ", ") + "]", "[" + strings.Join(b, ", ") + "]"
}

func wornJob(t *testing.T, at, radius string, edits ...string) *process.Job {
	t.Helper()
	text := edited(t, seatJob, "at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755]", "at = "+at+", radius = "+radius)
	return load(t, edited(t, text, edits...))
}

// A round bore of Ø3.55 in that stands 0.005 in off toward 3 o'clock cleans up
// about its own axis at Ø3.55 and about the true one at 2·(1.775 + 0.005): the
// price of the true axis is twice the offset, and the words say so.
func TestCleanUpByHand(t *testing.T) {
	at, radius := readings(8, 1.775, 0.005, 0, 0, 0)
	p := Attempt(wornJob(t, at, radius), nil)
	c := p.Bores[0].CleanUp
	inch := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 0.00011 {
			t.Errorf("%s %.5f in, want %.5f", what, got, want)
		}
	}
	inch("true axis", c.TrueAxis.Length().Inches(), 3.560)
	inch("own axis", c.OwnAxis.Length().Inches(), 3.550)
	inch("price", c.Price.Inches(), 0.010)
	inch("own axis stands", c.OwnOff.Inches(), 0.005)
	if c.OwnClock < 89 || c.OwnClock > 91 || c.Last.Clock != 90 || c.First.Clock != 270 {
		t.Errorf("own axis toward %v°, last shadow %v°, first cut %v°", c.OwnClock, c.Last.Clock, c.First.Clock)
	}
	if !strings.Contains(said(p, c.Why), "toward 3 o'clock") || !strings.Contains(said(p, c.Why), "smaller on diameter") {
		t.Error(said(p, c.Why))
	}
	// Shadow at a size: at Ø3.556 the deepest is (3.560 − 3.556)/2 at 3 o'clock.
	s := c.Shadow(qty.Diameter(qty.FromInches(3.556)))
	inch("shadow", s.Deepest.Inches(), 0.002)
	if s.At.Clock != 90 || s.Spots != 3 {
		t.Errorf("%+v", s)
	}
	if s = c.Shadow(c.TrueAxis); s.Deepest != 0 || s.Spots != 0 {
		t.Errorf("at the clean-up size: %+v", s)
	}
	// The first pass cuts from the highest point, and the passes end with nothing
	// left.
	v := p.Bores[0].Visits[0]
	if v.Start != qty.DiameterMM(2*c.First.Radius) {
		t.Errorf("starts at %v, the highest place is at radius %v", v.Start.MM(), c.First.Radius)
	}
	if last := c.Shadows[len(c.Shadows)-1]; last.Deepest != 0 {
		t.Errorf("%+v", c.Shadows)
	}
	for i, s := range c.Shadows[1:] {
		if s.Deepest >= c.Shadows[i].Deepest {
			t.Errorf("the shadow grows: %+v", c.Shadows)
		}
	}
}

// Eight readings see an oval that four do not: its ends lie at 45°, where four
// readings at the quarters find every radius the same.
func TestEightSeeWhatFourDoNot(t *testing.T) {
	at, radius := readings(4, 1.775, 0, 0, 0.004, 45)
	four := Attempt(wornJob(t, at, radius), nil).Bores[0].CleanUp
	at, radius = readings(8, 1.775, 0, 0, 0.004, 45)
	eight := Attempt(wornJob(t, at, radius), nil).Bores[0].CleanUp
	if d := eight.TrueAxis.Minus(four.TrueAxis); (d - 8*qty.Thou).Abs() > qty.Thou/5 {
		t.Errorf("four say Ø%.4f, eight Ø%.4f", four.TrueAxis.Length().Inches(), eight.TrueAxis.Length().Inches())
	}
	if four.Depths[0].OutOfRound > qty.Thou/5 || (eight.Depths[0].OutOfRound-8*qty.Thou).Abs() > qty.Thou/5 {
		t.Errorf("out of round %v and %v", four.Depths[0].OutOfRound.Inches(), eight.Depths[0].OutOfRound.Inches())
	}
}

// A slip of the pen is a caution, and still used: the plan cuts as if it were
// true.
func TestBadReadingIsACaution(t *testing.T) {
	at, radius := readings(12, 1.775, 0.001, 0.002, 0.0005, 30)
	good := Attempt(wornJob(t, at, radius), nil)
	if len(good.Bores[0].CleanUp.Doubtful) != 0 {
		t.Errorf("doubts %+v", good.Bores[0].CleanUp.Doubtful)
	}
	list := strings.Split(strings.Trim(radius, "[]"), ", ")
	list[5] = "1.79500"
	p := Attempt(wornJob(t, at, "["+strings.Join(list, ", ")+"]"), nil)
	c := p.Bores[0].CleanUp
	if len(c.Doubtful) != 1 || c.Doubtful[0].Spot.Clock != 150 {
		t.Fatalf("doubts %+v", c.Doubtful)
	}
	if c.TrueAxis.Length().Inches() < 3.59 || p.Bores[0].Visits[0].StartMost.Length().Inches() < 3.59 {
		t.Error("the reading was dropped")
	}
	if !strings.Contains(said(p, p.Cautions...), "5 o'clock (radius 1.7950 in) does not go with the others") {
		t.Errorf("cautions %q", p.Cautions)
	}
}

// A sleeve planned too small: the plan says at what size the bore cleans up, and
// the next standard outside that does, planned anew.
func TestNextSleeve(t *testing.T) {
	job := load(t, edited(t, blindJob, "40.36", "43.2")+"[limits]\nsing = true\n") // the bar is slender for a carbide edge in steel
	p := Make(job)
	c := p.Bores[0].CleanUp
	// 86.4 + 0.25 asks for at least 86.65: whole millimetres to 120.
	if p.Feasible || c.Next != qty.DiameterMM(87) {
		t.Fatalf("feasible %v, next Ø%v", p.Feasible, c.Next.MM())
	}
	if r := p.Reasons[0]; !strings.Contains(said(p, r.What), "does not clean up") || !testing.Short() && !strings.Contains(freed(p), "a sleeve of Ø87.000 mm outside") {
		t.Errorf("%+v", r)
	}
	// And a rebore that does not clean up is an answer too, not a mistake of the
	// file.
	at, radius := readings(8, 1.82, 0, 0, 0, 0)
	if p = Make(wornJob(t, at, radius)); p.Feasible || !strings.Contains(said(p, p.Reasons[0].What), "does not clean up") {
		t.Errorf("%v", p.Reasons)
	}
}

// The next sleeve that is named is one that needs no next: its own housing, smaller than
// its outside by what a press fit takes, cleans up in 19 bores of 20.
func TestNextSleeveNeedsNoNext(t *testing.T) {
	t.Parallel()
	named := 0
	for step := range slow.Rounds(t, "worn bores", 30, 1) {
		// The size for 19 bores of 20 falls in steps of its own between whole millimetres.
		radius := fmt.Sprintf("%.3f", 42.333+float64(step)*0.0333)
		text := edited(t, blindJob, "40.36", radius, "outside  = 86", "outside  = %s") + "[limits]\nsing = true\n"
		c := Attempt(load(t, fmt.Sprintf(text, "87")), nil).Bores[0].CleanUp
		if c.Next == 0 {
			continue
		}
		named++
		if again := Attempt(load(t, fmt.Sprintf(text, fmt.Sprint(c.Next.MM()))), nil).Bores[0].CleanUp; again.Next != 0 {
			t.Errorf("radius %s: the next sleeve is Ø%v, and with that Ø%v; it takes Ø%v", radius, c.Next.MM(), again.Next.MM(), c.Most.MM())
		}
	}
	if named == 0 {
		t.Error("no sleeve was named")
	}
}

// Two-point readings do not tell the axis: the true axis allows for the offset
// stated, and the words say what is not known.
func TestAcrossReadings(t *testing.T) {
	text := edited(t, seatJob, "radius = [1.773, 1.7765, 1.782, 1.7755]", "across = [3.548, 3.552, 3.550, 3.549]", "at = [0, 90, 180, 270]", "at = [0, 45, 90, 135]", "wear ", "offset = 0.004\nwear ")
	p := Make(load(t, text))
	c := p.Bores[0].CleanUp
	if got := c.TrueAxis.Length().Inches(); math.Abs(got-3.560) > 0.0001 {
		t.Errorf("true axis %v", got)
	}
	if got := c.OwnAxis.Length().Inches(); math.Abs(got-3.552) > 0.0001 {
		t.Errorf("own axis %v", got)
	}
	if c.Axis || !strings.Contains(said(p, c.Why), "0.0040 in, as stated") {
		t.Errorf("%v %q", c.Axis, said(p, c.Why))
	}
	if p.Bores[0].Visits[0].StartMost != c.TrueAxis {
		t.Errorf("the plan starts from %v, the clean-up is %v", p.Bores[0].Visits[0].StartMost.MM(), c.TrueAxis.MM())
	}
}

// Any number of readings, however they are spaced, give a clean-up size that
// no reading passes, and the plan starts from the least of them.
func TestAnyReadings(t *testing.T) {
	prop.Check(t, func(pt *prop.T) {
		n := prop.SampledFrom([]int{3, 4, 5, 7, 16, 90, 360}).Draw(pt, "n")
		var at, radius []string
		most, least := 0.0, 9.0
		for k := range n {
			gap := 360 / float64(n)
			deg := gap * (float64(k) + prop.Float64Range(0, 0.9).Draw(pt, "where"))
			r := math.Round(1e5*prop.Float64Range(1.774, 1.780).Draw(pt, "radius")) / 1e5
			at, radius = append(at, fmt.Sprintf("%.4f", deg)), append(radius, fmt.Sprintf("%.5f", r))
			most, least = math.Max(most, r), math.Min(least, r)
		}
		text := strings.Replace(seatJob, "at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755]",
			"at = ["+strings.Join(at, ", ")+"], radius = ["+strings.Join(radius, ", ")+"]", 1)
		job, err := files.Job("job.toml", []byte(text), nil)
		if err != nil {
			pt.Fatal(err)
		}
		p := Attempt(job, nil)
		c := p.Bores[0].CleanUp
		if c == nil {
			pt.Fatal(p.Cautions)
		}
		if got := c.TrueAxis.Length().Inches(); got < 2*most-1e-9 || got > 2*most+0.000101 {
			pt.Fatalf("true axis %v, the largest radius is %v", got, most)
		}
		if c.OwnAxis > c.TrueAxis || c.Price < 0 {
			pt.Fatalf("own axis %v over true axis %v", c.OwnAxis.MM(), c.TrueAxis.MM())
		}
		if got := p.Bores[0].Visits[0].Start.Length().Inches(); math.Abs(got-2*least) > 1e-6 {
			pt.Fatalf("starts from %v, the least radius is %v", got, least)
		}
	})
}

// inInches is what an inch reader reads of a fact.
func inInches(f fact.Fact) string { return words.In(qty.Inches).Sentence(f) }

// wornIn gives the seat's job its readings anew, in inches.
func wornIn(t *testing.T, wear string) *place.CleanUp {
	t.Helper()
	p := Attempt(load(t, edited(t, seatJob, "{ depth = 6.2, at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755] }", wear)), nil)
	c := p.Bores[0].CleanUp
	if c == nil {
		t.Fatal(p.Cautions)
	}
	return c
}

// Read across with an offset stated, no shadow is called clean that the offset
// can leave: (3.552 + 2·0.004 − 3.556)/2 = 0.002 in.
func TestShadowAllowsForTheOffset(t *testing.T) {
	text := edited(t, seatJob, "radius = [1.773, 1.7765, 1.782, 1.7755]", "across = [3.548, 3.552, 3.550, 3.549]", "at = [0, 90, 180, 270]", "at = [0, 45, 90, 135]", "wear ", "offset = 0.004\nwear ")
	c := Attempt(load(t, text), nil).Bores[0].CleanUp
	s := c.Shadow(qty.Diameter(qty.FromInches(3.556)))
	if math.Abs(s.Deepest.Inches()-0.002) > 1e-6 || !s.UpTo {
		t.Errorf("%.5f in, want 0.002 at most: %+v", s.Deepest.Inches(), s)
	}
	if s = c.Shadow(c.TrueAxis); s.Deepest != 0 {
		t.Errorf("at the clean-up size: %+v", s)
	}
}

// A bore that a cocked shaft wore: its middle is true and its ends are off by
// 0.004 in each, opposite ways. The words must tell that.
func TestCockedWearLeans(t *testing.T) {
	near, far := "", ""
	at, near := readings(8, 1.775, 0, 0.004, 0, 0)
	_, far = readings(8, 1.775, 0, -0.004, 0, 0)
	c := wornIn(t, "{ depth = 6.0, at = "+at+", radius = "+near+" }, { depth = 7.0, at = "+at+", radius = "+far+" }")
	if c.OwnOff > 100 || len(c.Ends) != 2 || math.Abs(c.Ends[0].Off.Inches()-0.004) > 0.0001 || math.Abs(c.Ends[1].Off.Inches()-0.004) > 0.0001 {
		t.Fatalf("off %v, ends %+v", c.OwnOff, c.Ends)
	}
	for _, want := range []string{"leans 8 mrad", "0.0040 in toward 12 o'clock at depth 6.0000 in", "0.0040 in toward 6 o'clock at depth 7.0000 in", "out of line by as much."} {
		if !strings.Contains(inInches(c.Why), want) {
			t.Errorf("no %q in %q", want, inInches(c.Why))
		}
	}
}

// Readings on one side give no own axis, and readings across beside radii none
// either.
func TestWhatReadingsDoNotTell(t *testing.T) {
	c := wornIn(t, "{ depth = 6.2, at = [0, 45, 90, 135], radius = [1.775, 1.777, 1.779, 1.777] }")
	if c.OwnAxis != 0 || c.Depths[0].Circumscribed != 0 || !strings.Contains(inInches(c.Why), "not known: the readings at depth 6.2000 in") {
		t.Errorf("own axis %v: %q", c.OwnAxis, inInches(c.Why))
	}
	c = wornIn(t, "{ depth = 6.0, at = [0, 90, 180, 270], radius = [1.773, 1.775, 1.777, 1.775] }, { depth = 7.0, at = [0, 90], across = [3.550, 3.570] }")
	if strings.Contains(inInches(c.Why), "stands true") || !strings.Contains(inInches(c.Why), "By the radii alone, the old bore is off the line: its middle stands 0.0020 in") {
		t.Error(inInches(c.Why))
	}
	if !c.Depths[0].Centred || c.Depths[1].Centred {
		t.Errorf("a reading across tells no centre: %+v", c.Depths)
	}
}
