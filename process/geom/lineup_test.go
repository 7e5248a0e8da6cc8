package geom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"borewright/process/fact"
)

var quarters = []float64{0, 90, 180, 270}

func lineUp(t *testing.T, s LineUpInput) *LineUp {
	t.Helper()
	l, err := NewLineUp(s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// By hand, four readings: x = (3 o'clock − 9 o'clock)/2, y = (12 − 6)/2.
func TestSweepAtQuarters(t *testing.T) {
	l := lineUp(t, LineUpInput{
		Sweeps:   []Sweep{{Station: "cover", Depth: 5, Clock: quarters, Dial: []float64{0, 0.010, 0.026, 0.012}}},
		Dial:     Dial{Graduation: 0.002},
		Stations: []Target{{Station: "idler", Depth: 400}},
	})
	sw := l.Swept[0]
	near(t, "x", sw.Offset.X, -0.001, 1e-12)
	near(t, "y", sw.Offset.Y, -0.013, 1e-12)
	near(t, "TIR", sw.TIR, 2*math.Hypot(0.001, 0.013), 1e-12)
	near(t, "read", sw.Spread, 0.026, 1e-12)
	// What is left: mean 0.012; 12: 0−0.012+0.013 = 0.001, 3: −0.001, alternating.
	near(t, "form", sw.Form, 0.002, 1e-12)
	if l.Assumption.Kind != TiltAssumed || l.Tilt != (Vec{}) {
		t.Errorf("one bore at one depth: %v, tilt %v", l.Assumption, l.Tilt)
	}
	// Four readings leave one over: it scatters by 0.002, or the bore is oval by as much
	// and nothing scatters but the graduation. The sweep's own ± lies between, 2·s·√(2/4),
	// and with three lobes half as high as the oval a little over.
	if u := l.OffsetUncertainty; u < 2*0.002/math.Sqrt(12)*math.Sqrt(0.5) || u > 2*math.Hypot(0.002, 0.001)*math.Sqrt(0.5) {
		t.Errorf("± at the sweep %v", u)
	}
	// Carried on parallel: at 395 mm further in, ± 0.1 mrad is ± 0.0395.
	own := math.Sqrt(square(l.OffsetUncertainty) - square(5*0.1e-3))
	near(t, "± at the bore", l.AtStation[0].Uncertainty, math.Hypot(own, 395*0.1e-3), 1e-9)
	near(t, "carried y", l.AtStation[0].Y, -0.013, 1e-12)
	m := l.Advice.Move
	if m[0].Spindle != Left || m[0].Work != Right || m[1].Spindle != Down || m[1].Work != Up {
		t.Errorf("bore stands low and left, advice %+v", m)
	}
}

// Shared formulas collection, section 11: (10, 4) µm at depth 0 and (22, −3) at
// 200 mm give a slope of (60, −35) µm/m and (31.0, −8.25) µm at 350 mm.
func TestTiltCarriedOn(t *testing.T) {
	sweepOf := func(station string, depth, x, y float64) Sweep {
		return Sweep{Station: station, Depth: depth, Clock: quarters, Dial: []float64{y, x, -y, -x}, OutOfRound: 1e-9}
	}
	s := LineUpInput{
		Sweeps:   []Sweep{sweepOf("front", 0, 0.010, 0.004), sweepOf("rear", 200, 0.022, -0.003)},
		Dial:     Dial{Repeats: 0.004},
		Stations: []Target{{Station: "blind", Depth: 350}, {Station: "front", Depth: 0}, {Station: "between", Depth: 100}},
	}
	l := lineUp(t, s)
	near(t, "slope x, µm/m", l.Tilt.X*1e3, 60, 1e-6)
	near(t, "slope y, µm/m", l.Tilt.Y*1e3, -35, 1e-6)
	near(t, "slope in all", l.Tilt.Length()*1e3, 69.5, 0.05)
	near(t, "x at 350", l.AtStation[0].X*1e3, 31.0, 1e-6)
	near(t, "y at 350", l.AtStation[0].Y*1e3, -8.25, 1e-6)
	near(t, "offset at 350", math.Hypot(l.AtStation[0].X, l.AtStation[0].Y)*1e3, 32.1, 0.05)

	// One centre of four readings: ± 0.004·√(2/4). Carried to z with weights
	// (1−z/200) and z/200.
	u := 0.004 * math.Sqrt(0.5)
	near(t, "± at 350", l.AtStation[0].Uncertainty, u*math.Hypot(0.75, 1.75), 1e-9)
	near(t, "± at 0", l.AtStation[1].Uncertainty, u, 1e-9)
	near(t, "± between", l.AtStation[2].Uncertainty, u*math.Sqrt(0.5), 1e-9)
	near(t, "± tilt", l.TiltUncertainty, u*math.Sqrt2/200*1e3, 1e-9)
	if !l.Assumption.None() {
		t.Errorf("two depths need no assumption: %v", l.Assumption)
	}

	// The same figures as moves: turn 0.06 mrad counterclockwise seen from above
	// (far end leans right), shim under the far end (it stands low).
	s.Table, s.Packs = &Table{Centre: 150, Stop: 500}, &Packs{Near: 20, Far: 320}
	l = lineUp(t, s)
	a := l.Advice
	if a.Turn.Sense != Counterclockwise || a.Turn.FarEnd != Left || a.Shim.Under != FarEnd {
		t.Errorf("advice %+v", a)
	}
	near(t, "turn, mrad", a.Turn.Mrad, 0.06, 1e-9)
	near(t, "at the stop", a.Turn.AtStop, 0.030, 1e-6)
	near(t, "shim", a.Shim.Thick, 35e-6*300, 1e-9)
	near(t, "move x", a.Move[0].By, 0.010+60e-6*150, 1e-9)
	near(t, "move y", a.Move[1].By, 0.004-35e-6*20, 1e-9)
	near(t, "as it stands, x", a.AsItStands[0].By, 0.031, 1e-9)
}

// A face swept on a 300 mm circle that reads 0.03 further in at 3 o'clock than
// at 9: gradient 0.03/300 = 0.1 mrad, so the square axis leans 0.1 mrad left.
func TestFaceSweep(t *testing.T) {
	l := lineUp(t, LineUpInput{
		Sweeps: []Sweep{
			{Station: "front", Depth: 10, Clock: quarters, Dial: []float64{0, 0, 0, 0}},
			{Station: "front", Depth: 0, Face: true, Diameter: 300, Clock: quarters, Dial: []float64{0, 0.015, 0, -0.015}, OutOfRound: 1e-9},
		},
		Dial: Dial{Graduation: 0.01}, Square: 0.05,
		Stations: []Target{{Station: "idler", Depth: 210}},
	})
	near(t, "tilt x", l.Tilt.X, -0.1, 1e-9)
	near(t, "tilt y", l.Tilt.Y, 0, 1e-9)
	near(t, "x at 210", l.AtStation[0].X, -0.02, 1e-9)
	near(t, "TIR of the face", l.Swept[1].TIR, 0.03, 1e-12)
	u := 0.01 / math.Sqrt(12) * math.Sqrt(0.5) // one harmonic of four readings
	near(t, "± tilt", l.TiltUncertainty, 2*math.Hypot(u/0.150, 0.025), 1e-9)
	if !l.Assumption.None() || l.Advice.Turn.FarEnd != Right || l.Advice.Turn.Sense != Clockwise {
		t.Errorf("%v %+v", l.Assumption, l.Advice.Turn)
	}
}

// Lever dial at 30° to the direction measured: 0.866 of the reading
// (formulas collection, section 11; common practice). Droop 0.02 makes a true
// bore read high by 0.02; a bar that droops 0.05 where it cuts wants the
// spindle 0.05 higher.
func TestDialCorrections(t *testing.T) {
	l := lineUp(t, LineUpInput{
		Sweeps:   []Sweep{{Station: "a", Depth: 0, Clock: quarters, Dial: []float64{0, 0.1, 0, -0.1}, Stylus: 30}},
		Stations: []Target{{Station: "a", Depth: 0}},
	})
	near(t, "cosine", l.Offset.X, 0.1*0.866025, 1e-6)
	l = lineUp(t, LineUpInput{
		Sweeps:   []Sweep{{Station: "a", Depth: 0, Clock: quarters, Dial: []float64{0.02, 0, -0.02, 0}, Droop: 0.02}},
		Stations: []Target{{Station: "a", Depth: 0, Droop: 0.05}},
	})
	near(t, "droop of the dial", l.Offset.Y, 0, 1e-12)
	near(t, "droop of the bar", l.Advice.Move[1].By, 0.05, 1e-12)
}

// A round bore of 80 mm, 2 mm off, read at five uneven places exactly: without
// its diameter the second harmonic leaks into the offset.
func TestLargeOffsetUnevenPlaces(t *testing.T) {
	e := Vec{1.2, -1.6}
	sw := Sweep{Station: "a", Depth: 0, Diameter: 80}
	for _, c := range []float64{10, 40, 100, 200, 290} {
		u := AtClock(c)
		sw.Clock = append(sw.Clock, c)
		sw.Dial = append(sw.Dial, e.Dot(u)+math.Sqrt(1600-square(e.cross(u)))-40)
	}
	l := lineUp(t, LineUpInput{Sweeps: []Sweep{sw}})
	near(t, "x", l.Offset.X, 1.2, 1e-9)
	near(t, "y", l.Offset.Y, -1.6, 1e-9)
	sw.Diameter = 0
	l = lineUp(t, LineUpInput{Sweeps: []Sweep{sw}})
	if d := l.Offset.Distance(e); d < 0.002 || d > 0.05 {
		t.Errorf("unknown diameter: %v off", d)
	}
}

// The ± figures hold: with normal scatter of the stated size, 95 of 100 stay
// within.
func TestUncertaintyCovers(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	const trials = 2000
	inside, insideTilt := 0, 0
	for range trials {
		s := LineUpInput{Dial: Dial{Repeats: 0.01}, Stations: []Target{{Station: "blind", Depth: 300}}}
		for _, z := range []float64{10, 120} {
			sw := Sweep{Station: "b", Depth: z, Clock: quarters}
			for range quarters {
				sw.Dial = append(sw.Dial, 0.005*rnd.NormFloat64())
			}
			s.Sweeps = append(s.Sweeps, sw)
		}
		l := lineUp(t, s)
		if math.Abs(l.AtStation[0].X) <= l.AtStation[0].Uncertainty {
			inside++
		}
		if math.Abs(l.Tilt.Y) <= l.TiltUncertainty {
			insideTilt++
		}
	}
	if inside < trials*95/100 || insideTilt < trials*95/100 {
		t.Errorf("± 95 %% covered %d and %d of %d", inside, insideTilt, trials)
	}
}

// Three bores of which one stands out: the line is laid, and said to be
// doubtful.
func TestBoresNotOnOneLine(t *testing.T) {
	s := LineUpInput{Dial: Dial{Repeats: 0.004}}
	for i, x := range []float64{0, 0.1, 0} {
		s.Sweeps = append(s.Sweeps, Sweep{Station: string(rune('a' + i)), Depth: float64(i) * 100, Clock: quarters, Dial: []float64{0, x, 0, -x}})
	}
	l := lineUp(t, s)
	if !slices.ContainsFunc(l.Notes, offLine) {
		t.Errorf("notes %v", l.Notes)
	}
	near(t, "middle bore off line", l.Swept[1].OffLine, 0.1*2/3, 1e-9)
	wide := l.OffsetUncertainty
	s.Coaxial = 0.2 // said beforehand: no surprise
	l = lineUp(t, s)
	if slices.ContainsFunc(l.Notes, offLine) {
		t.Errorf("notes %v", l.Notes)
	}
	if wide < 0.05 || l.OffsetUncertainty < 0.1 {
		t.Errorf("± %v and %v", wide, l.OffsetUncertainty)
	}
}

func offLine(f fact.Fact) bool { return f.Kind == OffOneLine }

// kindOf is what an error is about: of a sweep, what is wrong with it.
func kindOf(err error) fact.Kind {
	f, _ := fact.Of(err)
	if f.Kind == SweepRefused || f.Kind == AtThatDepth {
		f = fact.AsList(f.Args[len(f.Args)-1])[0]
	}
	return f.Kind
}

func TestLineUpRefuses(t *testing.T) {
	good := Sweep{Station: "a", Clock: quarters, Dial: []float64{0, 0, 0, 0}}
	with := func(f func(*Sweep)) []Sweep { s := good; f(&s); return []Sweep{s} }
	for _, c := range []struct {
		why  string
		s    LineUpInput
		want fact.Kind
	}{
		{"nothing", LineUpInput{}, NoBoreSwept},
		{"face only", LineUpInput{Sweeps: with(func(s *Sweep) { s.Face, s.Diameter = true, 200 })}, NoBoreSwept},
		{"face without diameter", LineUpInput{Sweeps: with(func(s *Sweep) { s.Face = true })}, NoCircleSwept},
		{"two readings", LineUpInput{Sweeps: with(func(s *Sweep) { s.Clock, s.Dial = quarters[:2], s.Dial[:2] })}, UnderThree},
		{"lengths", LineUpInput{Sweeps: with(func(s *Sweep) { s.Dial = s.Dial[:3] })}, UnlikeLengths},
		{"same place", LineUpInput{Sweeps: with(func(s *Sweep) { s.Clock = []float64{0, 0, 360, 180} })}, ClocksTooNear},
		{"NaN", LineUpInput{Sweeps: with(func(s *Sweep) { s.Dial = []float64{0, math.NaN(), 0, 0} })}, NotADialReading},
		{"offset over radius", LineUpInput{Sweeps: with(func(s *Sweep) { s.Dial, s.Diameter = []float64{9, 0, -9, 0}, 10 })}, OffsetOverRadius},
		{"graduation", LineUpInput{Sweeps: []Sweep{good}, Dial: Dial{Graduation: -1}}, NegativeDoubt},
		{"packings", LineUpInput{Sweeps: []Sweep{good}, Packs: &Packs{Near: 3, Far: 2}}, PacksInverted},
		{"station", LineUpInput{Sweeps: []Sweep{good}, Stations: []Target{{}}, Bore: 1}, NoSuchTarget},
	} {
		if _, err := NewLineUp(c.s); kindOf(err) != c.want {
			t.Errorf("%s: %v, want %v", c.why, err, c.want)
		}
	}
}
