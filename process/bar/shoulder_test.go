package bar

import (
	"math"
	"testing"

	"borewright/process/slow"
)

// alone is the bar without what its shoulders add: a beam as text books have it.
func alone(b *Beam) *Beam {
	for i := range b.parts {
		b.parts[i].give = 1 / b.parts[i].ei
	}
	return b
}

// longer is how much longer the section of d would have to be, over d, for a beam to
// turn as far as the solid does under a moment at its end.
func longer(t *testing.T, s []Section, d, hole float64, per int) float64 {
	t.Helper()
	m := newSolid(s, per)
	lump := func(d, hole float64) float64 { return math.Pi / 64 * (math.Pow(d, 4) - math.Pow(hole, 4)) }
	end := s[len(s)-1]
	var l, plain float64
	for _, x := range s {
		l, plain = l+x.Length, plain+x.Length/lump(x.D, x.Hole)
	}
	turned := m.solve(t, m.root(false), m.turn(l, end.D, end.Hole))[0][0]
	return (turned*s[0].E - plain) * lump(d, hole) / d
}

// TestSolidItself: what is exact for a solid. A plain bar under a moment turns by
// M·L/EI. Under a pull at its end it bends by FL³/3EI + FL/(κ_s·G·A), but for what the
// clamp, which lets nothing bulge, makes stiffer near the root: less than 0.03·d of
// length (TestShoulderMuchLarger). The figures hardly change with a mesh twice as fine.
func TestSolidItself(t *testing.T) {
	s := []Section{steel(50, 300)}
	m := newSolid(s, 3)
	turned := m.solve(t, m.root(false), m.turn(300, 50, 0))[0][0]
	within(t, "turned", turned, 300/(210000*math.Pi/64*math.Pow(50, 4)), 1e-6)
	pulled := m.solve(t, m.root(true), m.pull(300, 50, 0))[0][0]
	within(t, "pulled", pulled, mustNew(t, s, Root{Radial: inf, Tilt: inf}, 300, nil, 0).Compliance(), 0.015)

	step := []Section{steel(100, 100), steel(50, 60)}
	coarse := longer(t, step, 50, 0, 4)
	within(t, "the mesh", coarse, longer(t, step, 50, 0, slow.Rounds(t, "times as fine a mesh", 8, 5)), 0.01)
}

// TestShoulder holds ΔL of a step to the solid, and to what published rules
// bracket: the cone of 45° (API 684) is below it, and the cone of 32° that meets a rigid
// disc on a half-space (Johnson, Contact Mechanics) near it.
func TestShoulder(t *testing.T) {
	const d = 50.0
	for _, c := range []struct{ wide, hole, band, cone45 float64 }{
		{1.1, 0, 0.03, 0.009}, {1.25, 0, 0.02, 0.030}, {1.5, 0, 0.02, 0.068}, {2, 0, 0.02, 0.115}, {3, 0, 0.02, 0.148},
		{1.25, 0.5, 0.11, 0}, {2, 0.5, 0.11, 0}, {2, 0.7, 0.11, 0},
	} {
		s := []Section{steel(c.wide*d, c.wide*d), steel(d, 1.2*d)}
		s[0].Hole, s[1].Hole = c.hole*d, c.hole*d
		solid := longer(t, s, d, c.hole*d, 4)
		if solid < c.cone45 {
			t.Errorf("D/d %g: ΔL %.4f·d, below that of the cone of 45°", c.wide, solid)
		}
		b := mustNew(t, s, Root{Radial: inf, Tilt: inf}, c.wide*d+1.2*d, nil, 0)
		with, without := b.ArmTurn(), alone(b).ArmTurn()
		within(t, "ΔL/d", (with-without)*b.parts[len(b.parts)-1].ei/d, solid, c.band)
	}
}

// TestShoulderMuchLarger: out of a body without end a bar is as if longer by 3π(1−ν²)/32
// of its diameter, 0.268 (a rigid disc turned on a half-space, θ = 3(1−ν²)M/(4Ea³): Johnson,
// Contact Mechanics; from memory), less what a root that cannot bulge takes off. The
// solid says how much that is.
func TestShoulderMuchLarger(t *testing.T) {
	s := []Section{steel(50, 150)}
	m := newSolid(s, 4)
	clamped := m.solve(t, m.root(true), m.turn(150, 50, 0))[0][0]
	less := 150 - clamped*210000*math.Pi/64*math.Pow(50, 4)
	within(t, "ΔL/d", shoulderReach, 3*math.Pi*(1-0.09)/32-less/50, 0.05)
}

// TestCollar: a collar takes up the less of its shoulders the shorter it is, and a
// short neck has them whole. Within 0.05·d of length of the solid.
func TestCollar(t *testing.T) {
	const d = 50.0
	for _, wide := range []float64{1.5, 2, 3} {
		for _, w := range []float64{0.1, 0.2, 0.4, 0.8} {
			s := []Section{steel(d, d), steel(wide*d, w*d), steel(d, d)}
			b := mustNew(t, s, Root{Radial: inf, Tilt: inf}, 2*d+w*d, nil, 0)
			got := (b.ArmTurn() - alone(b).ArmTurn()) * b.parts[0].ei / d
			if want := longer(t, s, d, 0, 3); math.Abs(got-want) > 0.05 {
				t.Errorf("a collar of %g·d, %g·d long: %.3f·d, the solid says %.3f", wide, w, got, want)
			}
		}
	}
	s := []Section{steel(2*d, 1.5*d), steel(d, 0.3*d), steel(2*d, 1.5*d)}
	b := mustNew(t, s, Root{Radial: inf, Tilt: inf}, 3.3*d, nil, 0)
	turned := b.ArmTurn()
	within(t, "a neck", (turned-alone(b).ArmTurn())*210000*math.Pi/64*math.Pow(d, 4)/d, longer(t, s, d, 0, 3), 0.03)
}

// TestSteppedSolids holds whole bars to solids within 3 %: how far the tip goes under
// a pull, and how far it turns, which is how far a moment moves it.
// Without what shoulders add the beam is 2 to 10 % too stiff.
func TestSteppedSolids(t *testing.T) {
	for _, c := range []struct {
		name string
		s    []Section
		off  float64 // how much too stiff the plain beam is, at least
	}{
		{"a neck of 45 between 90 and 70", []Section{steel(90, 90), steel(45, 90), steel(70, 140)}, 0.05},
		{"a short neck", []Section{steel(90, 90), steel(45, 45), steel(70, 180)}, 0.07},
		{"110, 80, 50", []Section{steel(110, 110), steel(80, 120), steel(50, 150)}, 0.03},
		{"a bar out of its adapter", []Section{steel(127, 64), steel(57.15, 300)}, 0.02},
		{"hollow, with a head", []Section{{D: 100, Hole: 30, Length: 80, E: 210000, Nu: 0.3, Rho: 7850}, {D: 60, Hole: 30, Length: 240, E: 210000, Nu: 0.3, Rho: 7850}, {D: 75, Hole: 30, Length: 40, E: 210000, Nu: 0.3, Rho: 7850}}, 0.02},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := newSolid(c.s, 3)
			var l float64
			for _, x := range c.s {
				l += x.Length
			}
			end := c.s[len(c.s)-1]
			a := m.solve(t, m.root(true), m.pull(l, end.D, end.Hole), m.turn(l, end.D, end.Hole))
			b := mustNew(t, c.s, Root{Radial: inf, Tilt: inf}, l, nil, 0)
			within(t, "pulled", b.Compliance(), a[0][0], 0.03)
			// The feed force presses the side of the tip toward the root: a moment against that
			// of turn, which draws it away. The tip goes out, against a pull that moves it in.
			within(t, "by the arm", b.ArmCompliance(), -a[0][1], 0.03)
			if plain := alone(b).Compliance(); plain > a[0][0]*(1-c.off) {
				t.Errorf("the plain beam is only %.1f %% too stiff: nothing to hold here", 100*(1-plain/a[0][0]))
			}
		})
	}
}

// ArmTurn is how far the cutter's section turns under a unit moment there, rad/(N·mm): the
// integral of what bends.
func (b *Beam) ArmTurn() float64 {
	t := 1 / b.root.Tilt
	for _, p := range b.parts {
		t += (p.to - p.from) * p.give
	}
	return t
}
