package bar

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// twoBearings is a line bar of testdata/bar/two-bearings.json.
type twoBearings struct {
	Why                  string
	Sections             [][6]float64
	Near, Far            [2]float64
	Cutter               float64
	Compliance, Arm, Sag float64
	Hz                   float64
}

func (c twoBearings) beam(t *testing.T, near, far float64) *Beam {
	t.Helper()
	var sections []Section
	for _, s := range c.Sections {
		sections = append(sections, Section{D: s[0], Hole: s[1], Length: s[2], E: s[3], Nu: s[4], Rho: s[5]})
	}
	root := Root{Radial: 1, Tilt: 1, Near: &Support{At: c.Near[0], Stiffness: c.Near[1], Play: near}} // a nose as soft as butter: it must not enter
	b, err := New(sections, root, c.Cutter, &Support{At: c.Far[0], Stiffness: c.Far[1], Play: far}, 0)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func readTwoBearings(t *testing.T) (all []twoBearings) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/bar/two-bearings.json")
	if err == nil {
		err = json.Unmarshal(data, &all)
	}
	if err != nil || len(all) < 4 {
		t.Fatal(err, len(all))
	}
	return all
}

// TestTwoBearings holds a line bar to transfer matrices (testdata/bar/two_bearings.py).
func TestTwoBearings(t *testing.T) {
	for _, c := range readTwoBearings(t) {
		t.Run(c.Why, func(t *testing.T) {
			b := c.beam(t, 0, 0)
			drop, _ := b.Sag()
			within(t, "compliance", b.Compliance(), c.Compliance, 1e-7)
			if math.Abs(b.ArmCompliance()-c.Arm) > 1e-7*math.Abs(c.Arm)+1e-15 {
				t.Errorf("arm %g, want %g", b.ArmCompliance(), c.Arm)
			}
			within(t, "sag", drop, c.Sag, 1e-4)
			lowest := math.Inf(1)
			for _, m := range modesOf(t, b) {
				lowest = math.Min(lowest, m.Hz)
			}
			within(t, "frequency", lowest, c.Hz, 1e-3)
			first, _ := b.First()
			for _, m := range modesOf(t, b)[:modesSummed] {
				if m.Stiffness < first.Stiffness {
					t.Errorf("first is %.0f Hz, but the cutter sees more of %.0f Hz", first.Hz, m.Hz)
				}
			}
		})
	}
}

// TestTwoRigidBearings holds a slender line bar to the closed forms of a beam on two rigid
// supports, L apart, load F at a from the one and b from the other (any handbook, as
// Roark's Formulas for Stress and Strain, simply supported beam; from memory):
//
//	δ = F·a²·b²/(3·E·I·L),  slope = F·a·b·(b−a)/(3·E·I·L),  M = F·a·b/L,  f₁ = π/2·√(E·I/(m·L³)), m the whole mass
func TestTwoRigidBearings(t *testing.T) {
	const d, l, e = 20.0, 2000.0, 207000.0
	ei := e * math.Pi / 64 * math.Pow(d, 4)
	for _, a := range []float64{200, 700, 1000, 1700} {
		b := l - a
		bar, err := New([]Section{{D: d, Length: l, E: e, Nu: 0.29, Rho: 7850}}, Root{Radial: 1e5, Tilt: 1e9, Near: &Support{At: 0, Stiffness: math.Inf(1)}},
			a, &Support{At: l, Stiffness: math.Inf(1)}, 0)
		if err != nil {
			t.Fatal(err)
		}
		within(t, "deflection", bar.Compliance(), a*a*b*b/(3*ei*l), 2e-3) // shear besides
		within(t, "overhang", bar.Overhang(), math.Cbrt(a*a*b*b/l)/d, 1e-9)
		if want := a * b * (b - a) / (3 * ei * l); math.Abs(bar.ArmCompliance()-want) > 2e-3*math.Abs(want)+1e-12 {
			t.Errorf("slope %g, want %g", bar.ArmCompliance(), want)
		}
		z := math.Pi / 32 * d * d * d
		within(t, "stress", bar.Stress(Load{Radial: 3, Tangential: 4}), 5*a*b/l/z, 1e-9)
		// a moment alone: M·a/L on one side of the cutter, M·b/L on the other
		within(t, "stress of a moment", bar.Stress(Load{Arm: 900}), 900*math.Max(a, b)/l/z, 1e-6)
		lowest := math.Inf(1)
		for _, m := range modesOf(t, bar) {
			lowest = math.Min(lowest, m.Hz)
		}
		m := 7850e-12 * math.Pi / 4 * d * d * l
		within(t, "frequency", lowest, math.Pi/2*math.Sqrt(ei/(m*l*l*l)), 1e-3)
	}
}

// TestLineBarInPlay follows a line bar round its turn: in each place every bearing is where
// the force on it points, by half of its play, and the tip moves with both by the lever.
func TestLineBarInPlay(t *testing.T) {
	c := readTwoBearings(t)[1]
	for _, l := range []Load{{Radial: 40, Tangential: 100, Arm: 500}, {Radial: 400, Tangential: 900, Arm: 9000}, {Radial: 5, Tangential: 9}, {Radial: 150, Tangential: 260}} {
		b := c.beam(t, 0.04, 0.06)
		weight, at := 7850e-9*9.80665*math.Pi/4*80*80*1800, 900.0
		far := (c.Cutter - c.Near[0]) / (c.Far[0] - c.Near[0])
		hang := weight * (at - c.Near[0]) / (c.Far[0] - c.Near[0])
		free := c.Compliance*l.Radial - c.Arm*l.Arm
		const n = 20000
		var mean float64
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / n)
			turn := l.Arm / (c.Far[0] - c.Near[0])
			for _, s := range [2]struct{ play, share, in, weight float64 }{
				{0.04, 1 - far, (1-far)*l.Radial + turn, weight - hang}, {0.06, far, far*l.Radial - turn, hang}} {
				x, y := s.in+s.weight*cos, s.share*l.Tangential+s.weight*sin
				mean += s.share * s.play / 2 * x / math.Hypot(x, y) / n
			}
		}
		got := b.Meet(l)
		within(t, "push", got.Push, free+mean, 1e-4)
		within(t, "push of the gap", b.Gap().Push(l), got.Push, 1e-12)
		if got.Idle || got.Held <= 0 || got.Held > 1 || got.Uneven < 0 || got.Uneven > 0.06 {
			t.Errorf("%+v: %+v", l, got)
		}
	}
	b := c.beam(t, 0.04, 0.06)
	if b.Gap().Push(Load{}) != 0 || b.Loose() != 0.0125 {
		t.Errorf("without a load %g, loose %g", b.Gap().Push(Load{}), b.Loose())
	}
	// A load far above the weight carries the bar round against the wall of both bushes: no
	// rolling form is left, and against a motion along the force it is held in full.
	big := b.Meet(Load{Radial: 1e6})
	within(t, "held", big.Held, 1, 1e-3)
	if big.Uneven > 2e-5 {
		t.Errorf("uneven %g", big.Uneven)
	}
	// With a large force across, N, the bar rolls in both bushes, by g/N for a unit of force.
	side := b.Meet(Load{Tangential: 1e6})
	within(t, "rolling", side.Held, c.Compliance/(c.Compliance+0.25*0.02/0.5e6+0.25*0.03/0.5e6), 1e-5)
	// A line bar pushed on by 100 is one whose bearings stand 100 nearer to its driver.
	long, err := b.Extended(Section{D: 120, E: 207000, Nu: 0.29, Rho: 7850}, 100)
	if err != nil {
		t.Fatal(err)
	}
	c.Near[0], c.Far[0] = c.Near[0]-100, c.Far[0]-100
	within(t, "pushed on", long.Compliance(), c.beam(t, 0.04, 0.06).Compliance(), 1e-12)
	soft := b.Yielding(2).Compliance() - b.Yielding(0).Compliance()
	within(t, "bearings twice as soft", soft, 2*(b.Compliance()-b.Yielding(0).Compliance()), 1e-9)
}
