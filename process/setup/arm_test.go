package setup

import (
	"math"
	"testing"

	"borewright/process"
	"borewright/process/bar"
	"borewright/process/cut"
	"borewright/process/files"
	"borewright/process/qty"
)

// The feed force at the tip's radius takes most of the spring of a deep cut in a large
// bore on a short thick bar: bar 80 by 360, bore 124, nose radius 0.4, a square shoulder, in
// steel: 22.5 µm by the radial force alone, 8.0 with the arm. (With each piece of edge
// pushing by its own normal it would be 14.7 and 1.7: see package cut.) Deflections by the closed forms of
// a cantilever in a yielding nose, L³/3EI + L/(κ_s·G·A) + 1/k_r + L²/k_θ and L²/2EI + L/k_θ
// (any strength text); fed out, the arm adds to the radial force.
func TestArmTakesTheSpring(t *testing.T) {
	const d, l, e, nu, kr, kt, radius = 80.0, 360.0, 207e3, 0.29, 300e3, 4e9, 62.0
	m := files.MaterialByID("steel-1045")
	model, err := cut.New(cut.Work{Kc11: m.Kc11, Mc: m.Mc, ThrustRatio: m.ThrustRatio, ThrustFall: m.ThrustFall, Rake0: m.Rake0, RaFactor: m.RaFactor, Group: m.Group},
		cut.Edge{Nose: 0.4, Lead: 90, Trail: 15, Rake: 6, Factor: 1, Rounding: 0.012, MinChip: 0.3})
	if err != nil {
		t.Fatal(err)
	}
	f := model.Force(1.62, 0.22, 100)
	b, err := bar.New([]bar.Section{{D: d, Length: l, E: e, Nu: nu, Rho: 7850}}, bar.Root{Radial: kr, Tilt: kt}, l, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ei := e * math.Pi / 64 * math.Pow(d, 4)
	shear := l / (6 * (1 + nu) / (7 + 6*nu) * e / 2 / (1 + nu) * math.Pi / 4 * d * d)
	byForce := 2e3 * f.Radial * (l*l*l/3/ei + shear + 1/kr + l*l/kt)
	byArm := 2e3 * f.Feed * radius * (l*l/2/ei + l/kt)
	g := giveOf(b, 1, 1)
	near := func(what string, got, want, band float64) {
		if math.Abs(got-want) > band {
			t.Errorf("%s: %.2f µm, want %.2f", what, got, want)
		}
	}
	near("by the radial force", byForce, 22.5, 0.3)
	near("fed in", 2e3*g.Push(f, radius, In), 8.0, 0.3)
	near("fed in", 2e3*g.Push(f, radius, In), byForce-byArm, 0.01)
	near("fed out", 2e3*g.Push(f, radius, Out), byForce+byArm, 0.01)
}

// lineBar is a job's set-up with a bar in an outboard bearing of some clearance.
func lineBar(t *testing.T, clearance qty.Length) (*Setup, *Edge) {
	t.Helper()
	_, job := lockWinch(t)
	job.Bar.Steps = []process.Step{{Diameter: qty.DiameterMM(57), Length: qty.FromMM(900), Material: job.Bar.Steps[0].Material}}
	job.Bar.CutterAt = qty.FromMM(500)
	job.Bar.Outboard = &process.Support{At: qty.FromMM(880), Clearance: clearance, Stiffness: 100}
	s, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	return s, edgeIn(t, s)
}

// A bush with play does nothing until the bar has moved through half of it: without play the
// bar is stiff, with much it springs as one that ends in the air, and in between the spring
// is in between. What holds the bar least in a turn decides how it rings.
func TestSpringInABush(t *testing.T) {
	spring := func(clearance float64) (float64, *Setup) {
		s, e := lineBar(t, qty.FromMM(clearance))
		return e.Middle.Push(e.Force(0.3, 0.12, 60, In), 40, In), s
	}
	tight, s := spring(0)
	if !s.Held {
		t.Error("off its bearing without play")
	}
	_, job := lockWinch(t)
	job.Bar.Steps, job.Bar.CutterAt = s.Job.Bar.Steps, s.Job.Bar.CutterAt
	air, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	e := edgeIn(t, air)
	alone := e.Middle.Push(e.Force(0.3, 0.12, 60, In), 40, In)
	last := tight
	for _, c := range []float64{0.01, 0.03, 0.06, 0.1, 0.2} {
		now, s := spring(c)
		if now < last || now > alone*(1+1e-9) {
			t.Errorf("clearance %g: springs %.4f after %.4f, %.4f in the air", c, now, last, alone)
		}
		if !s.Held {
			t.Errorf("clearance %g: never touches", c)
		}
		last = now
	}
	if last < 2*tight {
		t.Errorf("a play of 0.2 mm changes the spring from %.4f to %.4f", tight, last)
	}
	if wide, s := spring(4); s.Held || wide != alone || s.Overhang != air.Overhang {
		t.Errorf("a play of 4 mm: held %v, springs %.5f, %.5f in the air", s.Held, wide, alone)
	}
}

// The forces of three times the spring, on the bar that was learned to be softer, move it in its
// bush as they would move the one of the plan at three times the force.
func TestLearnedInABush(t *testing.T) {
	s, e := lineBar(t, qty.FromMM(0.05))
	f := e.Force(0.3, 0.12, 60, In)
	if got, want := giveOf(s.beam, 1.4, 1).Push(f, 40, In), e.Middle.Push(f.By(1.4), 40, In); math.Abs(got-want) > 1e-12 {
		t.Errorf("%v, %v", got, want)
	}
}

// A bar in a tight bush is far from singing, off it it sings as one that ends in the air, and with a
// play that the cut half takes up it stands in between. The quill fed out makes it worse.
func TestSwingInABush(t *testing.T) {
	margin := func(clearance float64) float64 {
		_, e := lineBar(t, qty.FromMM(clearance))
		return e.Stability(e.Stiffness(0.3, 0.12, 60, In), 60, cut.Land{Least: 0.1, Most: 0.1}).Margin[bar.Least]
	}
	tight, wide := margin(0), margin(1)
	if tight < 4*wide {
		t.Errorf("margin %.3f in a tight bush, %.3f off it", tight, wide)
	}
	last := tight
	for _, c := range []float64{0.01, 0.05, 0.1, 0.3} {
		now := margin(c)
		if now > last*(1+1e-9) || now < wide*(1-1e-9) {
			t.Errorf("clearance %g: margin %.3f after %.3f, %.3f off the bearing", c, now, last, wide)
		}
		last = now
	}
	s, job := lockWinch(t)
	e := edgeIn(t, s)
	home := e.Stability(e.Stiffness(0.3, 0.12, 60, In), 60, cut.Land{Least: 0.1, Most: 0.1})
	job.Bar.FeedBy, job.Bar.Standoff = process.QuillFeed, job.Bar.CutterAt
	s, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	deep := job.Stations[len(job.Stations)-1]
	if e, err = s.Edge(job.Material, 40, deep.From, deep.To); err != nil {
		t.Fatal(err)
	}
	if out := e.Stability(e.Stiffness(0.3, 0.12, 60, In), 60, cut.Land{Least: 0.1, Most: 0.1}); out.Margin[0] > 0.8*home.Margin[0] || out.Hz > 0.95*home.Hz {
		t.Errorf("%v with the quill out, %v with it home", out, home)
	}
}

// With the quill out a bar can be further from singing than with it home, where nothing
// rubs: it is softer, but the spindle takes more of the swing and damps better than
// steel. A plain bar of steel in a nose of our own says by how much either way; a cut is
// held to the worse of the two ends of its stretch, and where every part damps alike that
// is the longer bar.
func TestQuietWithTheQuillOut(t *testing.T) {
	s, job := lockWinch(t)
	machine := *job.Machine
	job.Machine = &machine
	job.Bar.Steps = []process.Step{{Diameter: qty.DiameterMM(60), Length: qty.FromMM(300), Material: job.Bar.Steps[0].Material}}
	job.Bar.CutterAt, job.Bar.FeedBy, job.Bar.Standoff = qty.FromMM(300), process.QuillFeed, qty.FromMM(300)
	margins := func(joint, bar float64) (both, home, out float64) {
		t.Helper()
		machine.Damping, machine.Joint = [2]float64{}, [2]float64{joint, joint}
		job.Bar.Steps[0].Material.Damping = [2]float64{bar, bar}
		var err error
		if s, err = New(job); err != nil {
			t.Fatal(err)
		}
		margin := func(from, to float64) float64 {
			e, err := s.Edge(job.Material, 40, qty.FromMM(from), qty.FromMM(to))
			if err != nil {
				t.Fatal(err)
			}
			return e.Stability(Stiffness{Regen: 500, Held: 1}, 60, cut.Land{}).Margin[0]
		}
		return margin(0, 200), margin(0, 0), margin(200, 200)
	}
	both, home, out := margins(0.1, 0.001)
	if out < 1.1*home || both != home {
		t.Errorf("the spindle damps: %.3f home, %.3f out, %.3f over the whole stretch", home, out, both)
	}
	both, home, out = margins(0.03, 0.03)
	if out > 0.8*home || both != out {
		t.Errorf("all damps alike: %.3f home, %.3f out, %.3f over the whole stretch", home, out, both)
	}
}
