package bar

import (
	"math"
	"math/cmplx"
	"testing"
)

// TestUniform: natural frequencies of a slender plain cantilever,
// f = λ²/(2π·L²)·√(EI/ρA) with λ = 1.87510407, 4.69409113, 7.85475744 (Blevins,
// Formulas for Natural Frequency and Mode Shape, Table 8-1). At L/d 80 shear and
// rotary inertia still take a little off the higher ones.
func TestUniform(t *testing.T) {
	d, l := 10.0, 800.0
	b := mustNew(t, []Section{steel(d, l)}, Root{Radial: inf, Tilt: inf}, l, nil, 0)
	modes := modesOf(t, b)
	c := math.Sqrt(210000*d*d/16/7850e-12) / (2 * math.Pi * l * l)
	for i, λ := range []float64{1.87510407, 4.69409113, 7.85475744} {
		within(t, "frequency", modes[i].Hz, λ*λ*c, []float64{3e-4, 1e-3, 3e-3}[i])
	}
	// Modal mass of the first mode at the tip is a quarter of the bar's.
	within(t, "modal mass", modes[0].Mass, 0.25*7850e-9*math.Pi/4*d*d*l, 1e-3)
	// Fixed and simply supported: λ = 3.92660231, 7.06858275 (Blevins, same table).
	held := mustNew(t, []Section{steel(d, l)}, Root{Radial: inf, Tilt: inf}, l/2, &Support{At: l, Stiffness: inf}, 0)
	modes = modesOf(t, held)
	for i, λ := range []float64{3.92660231, 7.06858275} {
		within(t, "held", modes[i].Hz, λ*λ*c, 2e-3)
	}
}

// TestHead: d 50, L 250 steel, 579 Hz bare and 402 Hz with a head of 1.0 kg, by
// f = √(3EI/L³/(m + 0.2427·m_bar))/2π (Blevins; Rao). That leaves out shear and
// rotary inertia, which take 1–2 % off at L/d 5.
func TestHead(t *testing.T) {
	for _, c := range []struct{ tip, want float64 }{{0, 579}, {1, 402}} {
		modes := modesOf(t, mustNew(t, []Section{steel(50, 250)}, Root{Radial: inf, Tilt: inf}, 250, nil, c.tip))
		if r := modes[0].Hz / c.want; r < 0.975 || r > 0.995 {
			t.Errorf("head %g kg: %.1f Hz against %g", c.tip, modes[0].Hz, c.want)
		}
	}
}

// single is as good as one mode: a light bar with a heavy head, 20.6 N/µm.
func single(t *testing.T) *Beam {
	s := steel(50, 200)
	s.Rho = 1
	b := mustNew(t, []Section{s}, Root{Radial: inf, Tilt: inf}, 200, nil, 100)
	s.E *= 20600 * b.Compliance()
	return mustNew(t, []Section{s}, Root{Radial: inf, Tilt: inf}, 200, nil, 100)
}

// TestOneMode: k 20.6 N/µm, ζ 0.02, K_s 2000 N/mm², μ 0.35: |Re G|least 0.595
// µm/N at ω/ω_n = √(1+2ζ), b_lim 1.20 mm by b_lim = 1/(2·K_s·μ·|Re G|least)
// (Tlusty & Poláček 1963; Tlusty, Manufacturing Processes and Equipment;
// Altintas, Manufacturing Automation; computed from the formula).
func TestOneMode(t *testing.T) {
	b := single(t)
	within(t, "stiffness", 1/b.Compliance(), 20600, 1e-9)
	dip, hz := b.LeastReal(Least, 0.02)
	within(t, "|Re G|", dip*1e3, 0.595, 1e-3)
	within(t, "|Re G|, closed form", dip, 1/(4*20600*0.02*1.02), 1e-4)
	modes := modesOf(t, b)
	within(t, "frequency", hz/modes[0].Hz, math.Sqrt(1.04), 1e-5)
	within(t, "b_lim", b.CutLimit(Least, 0.02)/(2000*0.35), 1.20, 2e-3) // a straight edge is k = K_s·μ·b
	if b.CutLimit(Least, 0) != 0 {
		t.Error("without damping nothing is stable")
	}
}

// TestLobes holds CutLimit against the characteristic equation itself, with a
// response of the test's own: 2 % below the limit the Nyquist curve
// k·(1 − e^(−iωT))·G stays clear of −1 at every spindle speed, and 2 % above it
// goes round −1 at the slow ones, where the lobes lie close together.
func TestLobes(t *testing.T) {
	b := stepped(t)
	const zeta = 0.03
	k := b.CutLimit(Least, zeta)
	for _, rpm := range []float64{60, 300, 1500, 3000, 4200, 6000, 9000, 9391, 12000} {
		if turnsAbout(t, b, 0.98*k, rpm, zeta) != 0 {
			t.Errorf("%g rev/min: a cut of 0.98 times the limit chatters", rpm)
		}
	}
	if turnsAbout(t, b, 1.02*k, 60, zeta) == 0 {
		t.Error("60 rev/min: a cut of 1.02 times the limit does not chatter")
	}
}

// turnsAbout counts how often the Nyquist curve goes round −1.
func turnsAbout(t *testing.T, b *Beam, k, rpm, zeta float64) int {
	sum, last := 0.0, 0.0
	modes := modesOf(t, b)
	step := rpm / 60 / 60
	for hz := 0.0; hz < 4000; hz += min(step, 0.15) {
		z := 1 + complex(k, 0)*(1-cmplx.Exp(complex(0, -2*math.Pi*hz*60/rpm)))*response(modes, hz, zeta)
		a := cmplx.Phase(z)
		d := a - last
		if d > math.Pi {
			d -= 2 * math.Pi
		} else if d < -math.Pi {
			d += 2 * math.Pi
		}
		sum, last = sum+d, a
	}
	return int(math.Round(sum / (2 * math.Pi) * 2)) // both halves of the axis
}

// modesOf are the modes of a bar, lowest first.
func modesOf(t interface{ Fatal(...any) }, b *Beam) []Mode {
	if err := b.solve(); err != nil {
		t.Fatal(err)
	}
	return b.modes
}

// response is the receptance at the cutter, mm/N, by the sum over the ten lowest
// modes: Σ (1/k)/(1 − r² + 2iζr), r = ω/ω_n (any text on vibration). What higher
// ones add is stiff and in step.
func response(modes []Mode, hz, zeta float64) complex128 {
	var g complex128
	for i, m := range modes {
		if i < 10 {
			r := hz / m.Hz
			g += complex(1/m.Stiffness, 0) / complex(1-r*r, 2*zeta*r)
		} else {
			g += complex(1/m.Stiffness, 0)
		}
	}
	return g
}

// TestResponse: at rest all modes together are the compliance, and the real part
// is that of the sum over the modes.
func TestResponse(t *testing.T) {
	b := stepped(t)
	var all float64
	for _, m := range modesOf(t, b) {
		all += 1 / m.Stiffness
	}
	within(t, "all modes", all, b.Compliance(), 1e-6)
	g := b.receptance(Least, 0.02)
	within(t, "at rest", g.real(0), b.Compliance(), 1e-12)
	for _, hz := range []float64{30, 100, 200, 400, 700} {
		within(t, "in motion", g.real(hz), real(response(b.modes, hz, 0.02)), 1e-3)
	}
}

// TestProcessDamping: ζ = K·b·W²/(2v)/(2√(km)) by hand, in metres; with no
// land, no edge, no speed or nothing that presses back nothing is damped.
func TestProcessDamping(t *testing.T) {
	b := stepped(t)
	m := modesOf(t, b)[0]
	c := 4.1e13 * 0.6e-3 * 1e-8 / (2 * 25.0 / 60) // N·s/m: edge 0.6, land 0.1 mm, 25 m/min
	within(t, "process damping", b.ProcessDamping(0.6, 4.1e4, 0.1, 25), c/(2*math.Sqrt(m.Stiffness*1e3*m.Mass)), 1e-9)
	within(t, "four times as fast", b.ProcessDamping(0.6, 4.1e4, 0.1, 100), b.ProcessDamping(0.6, 4.1e4, 0.1, 25)/4, 1e-12)
	if b.ProcessDamping(0, 4.1e4, 0.1, 25) != 0 || b.ProcessDamping(0.6, 4.1e4, 0, 25) != 0 || b.ProcessDamping(0.6, 4.1e4, 0.1, 0) != 0 || b.ProcessDamping(0.6, 0, 0.1, 25) != 0 {
		t.Error("damping where nothing rubs")
	}
}

// TestSlender: the trade's limit for a plain steel bar is 4 times its diameter
// (two workshop sources; Machinery's Handbook), 3 to 5 as some write. A cut of
// some 500 N/mm, a light pass with a nose of 0.8, must be stable at 3 and
// chatter at 8, with damping of 0.03 (from memory for a boring mill) and a nose
// of a middling mill.
func TestSlender(t *testing.T) {
	margin := func(over float64) float64 {
		b := mustNew(t, []Section{steel(50, 50*over)}, Root{Radial: 5e5, Tilt: 4e9}, 50*over, nil, 0.3)
		return b.CutLimit(Least, 0.03) / 500
	}
	if margin(3) < 1.5 || margin(8) > 1 {
		t.Errorf("margin %.2f at 3 diameters, %.2f at 8", margin(3), margin(8))
	}
}

func BenchmarkCutLimit(b *testing.B) {
	x := stepped(b)
	for b.Loop() {
		x.CutLimit(Least, 0.02)
	}
}
