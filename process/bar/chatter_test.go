package bar

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"
)

// TestUniform: natural frequencies of a slender plain cantilever,
// f = λ²/(2π·L²)·√(EI/ρA) with λ = 1.87510407, 4.69409113, 7.85475744 (Blevins,
// Formulas for Natural Frequency and Mode Shape, Table 8-1). At L/d 80 shear and
// rotary inertia still take a little off the higher ones.
func TestUniform(t *testing.T) {
	d, l := 10.0, 800.0
	b := mustNew(t, []Section{steel(d, l)}, Root{inf, inf}, l, nil, 0)
	modes, err := b.Modes(3)
	if err != nil {
		t.Fatal(err)
	}
	c := math.Sqrt(210000*d*d/16/7850e-12) / (2 * math.Pi * l * l)
	for i, λ := range []float64{1.87510407, 4.69409113, 7.85475744} {
		within(t, "frequency", modes[i].Hz, λ*λ*c, []float64{3e-4, 1e-3, 3e-3}[i])
	}
	// Modal mass of the first mode at the tip is a quarter of the bar's.
	within(t, "modal mass", modes[0].Mass, 0.25*7850e-9*math.Pi/4*d*d*l, 1e-3)
	// Fixed and simply supported: λ = 3.92660231, 7.06858275 (Blevins, same table).
	held := mustNew(t, []Section{steel(d, l)}, Root{inf, inf}, l/2, &Support{l, inf}, 0)
	modes, err = held.Modes(2)
	if err != nil {
		t.Fatal(err)
	}
	for i, λ := range []float64{3.92660231, 7.06858275} {
		within(t, "held", modes[i].Hz, λ*λ*c, 2e-3)
	}
}

// TestHead: d 50, L 250 steel, 579 Hz bare and 402 Hz with a head of 1.0 kg, by
// f = √(3EI/L³/(m + 0.2427·m_bar))/2π (Blevins; Rao). That leaves out shear and
// rotary inertia, which take 1–2 % off at L/d 5.
func TestHead(t *testing.T) {
	for _, c := range []struct{ tip, want float64 }{{0, 579}, {1, 402}} {
		modes, err := mustNew(t, []Section{steel(50, 250)}, Root{inf, inf}, 250, nil, c.tip).Modes(1)
		if err != nil {
			t.Fatal(err)
		}
		if r := modes[0].Hz / c.want; r < 0.975 || r > 0.995 {
			t.Errorf("head %g kg: %.1f Hz against %g", c.tip, modes[0].Hz, c.want)
		}
	}
}

// single is as good as one mode: a light bar with a heavy head, 20.6 N/µm.
func single(t *testing.T) *Beam {
	s := steel(50, 200)
	s.Rho = 1
	b := mustNew(t, []Section{s}, Root{inf, inf}, 200, nil, 100)
	s.E *= 20600 * b.Compliance()
	return mustNew(t, []Section{s}, Root{inf, inf}, 200, nil, 100)
}

// TestOneMode: k 20.6 N/µm, ζ 0.02, K_s 2000 N/mm², μ 0.35: |Re G|least 0.595
// µm/N at ω/ω_n = √(1+2ζ), b_lim 1.20 mm by b_lim = 1/(2·K_s·μ·|Re G|least)
// (Tlusty & Poláček 1963; Tlusty, Manufacturing Processes and Equipment;
// Altintas, Manufacturing Automation; computed from the formula).
func TestOneMode(t *testing.T) {
	b := single(t)
	within(t, "stiffness", 1/b.Compliance(), 20600, 1e-9)
	dip, hz := b.LeastReal(0.02)
	within(t, "|Re G|", dip*1e3, 0.595, 1e-3)
	within(t, "|Re G|, closed form", dip, 1/(4*20600*0.02*1.02), 1e-4)
	modes, err := b.Modes(1)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "frequency", hz/modes[0].Hz, math.Sqrt(1.04), 1e-5)
	within(t, "b_lim", b.LimitWidth(2000, 0.35, 0.02), 1.20, 2e-3)
	within(t, "margin", b.Margin(2000*0.35*0.6, 0, 0.02), 2.0, 2e-3)
	if !math.IsInf(b.Margin(0, 0, 0.02), 1) || b.Margin(100, 0, 0) != 0 {
		t.Error("no cut is stable; no damping is not")
	}
}

// TestLobes holds CutLimit against the characteristic equation itself: at the
// limit 1 + k·(1 − e^(−iωT))·G(ω) = 0 has a root on the axis, and 2 % below it the
// Nyquist curve k·(1 − e^(−iωT))·G stays clear of −1 on the right side.
func TestLobes(t *testing.T) {
	b := stepped(t)
	const zeta = 0.03
	floor := b.CutLimit(0, zeta)
	higher := 0
	for _, rpm := range []float64{60, 300, 1500, 3000, 4200, 6000, 9000, 9391, 12000} {
		k := b.CutLimit(rpm, zeta)
		if k < floor {
			t.Errorf("%g rev/min: limit %g below the absolute one %g", rpm, k, floor)
		}
		if k > 1.1*floor {
			higher++
		}
		for _, x := range []struct {
			k      float64
			stable bool
		}{{0.98 * k, true}, {1.02 * k, false}} {
			if got := turnsAbout(b, x.k, rpm, zeta) == 0; got != x.stable {
				t.Errorf("%g rev/min: cut of %.4g N/mm (limit %.4g): stable %v", rpm, x.k, k, got)
			}
		}
	}
	if higher < 2 {
		t.Error("no speed lies between the lobes")
	}
	within(t, "slow", b.CutLimit(60, zeta), floor, 0.01)
}

// turnsAbout counts how often the Nyquist curve goes round −1.
func turnsAbout(b *Beam, k, rpm, zeta float64) int {
	g := b.receptance(zeta)
	sum, last := 0.0, 0.0
	step := rpm / 60 / 60
	for hz := 0.0; hz < 4000; hz += min(step, 0.15) {
		re, im := g.parts(hz)
		z := 1 + complex(k, 0)*(1-cmplx.Exp(complex(0, -2*math.Pi*hz*60/rpm)))*complex(re, im)
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

// TestResponse: at rest the compliance; far above the modes little; lagging.
func TestResponse(t *testing.T) {
	b := stepped(t)
	within(t, "at rest", real(b.Response(0, 0.02)), b.Compliance(), 1e-12)
	modes, err := b.Modes(1000)
	if err != nil {
		t.Fatal(err)
	}
	var all float64
	for _, m := range modes {
		all += 1 / m.Stiffness
	}
	within(t, "all modes", all, b.Compliance(), 1e-6)
	within(t, "at resonance", -imag(b.Response(modes[0].Hz, 0.02)), 1/(2*0.02*modes[0].Stiffness), 0.01)
}

// TestStability: limits lie where the margin is 1, more damping and a rubbing
// flank help, slowness helps the flank.
func TestStability(t *testing.T) {
	b := stepped(t)
	in := StabilityInput{
		Stiffness: func(a float64) float64 { return 900 * math.Sqrt(a) }, // about what a nose of 0.8 gives
		Depth:     0.1, Most: 5, RPM: 100, Zeta: [2]float64{0.02, 0.05},
	}
	s := b.Stability(in)
	for i, zeta := range in.Zeta {
		within(t, "limit", b.Margin(in.Stiffness(s.Limit[i]), in.RPM, zeta), 1, 1e-6)
		within(t, "absolute", b.Margin(in.Stiffness(s.Absolute[i]), 0, zeta), 1, 1e-6)
	}
	if s.Margin[1] <= s.Margin[0] || s.Process != 0 || s.Hz < 100 {
		t.Errorf("%+v", s)
	}
	in.Land, in.Speed = 0.1, 25
	in.Edge = func(a float64) float64 { return 0.2 + math.Sqrt(1.6*a) } // 0.6 at 0.1
	slow := b.Stability(in)
	in.Speed = 100
	fast := b.Stability(in)
	if !(slow.Process > fast.Process && fast.Process > 0 && slow.Margin[0] > fast.Margin[0] && fast.Margin[0] > s.Margin[0]) {
		t.Errorf("slow %+v fast %+v sharp %+v", slow, fast, s)
	}
	if !(slow.Limit[0] > s.Limit[0] && slow.Absolute == s.Absolute) {
		t.Errorf("slow %+v sharp %+v", slow, s)
	}
	// ζ = K·b·W²/(2v)/(2√(km)), by hand.
	m, err := b.Modes(1)
	if err != nil {
		t.Fatal(err)
	}
	c := 4.1e13 * 0.6e-3 * 1e-8 / (2 * 25.0 / 60) // N·s/m
	within(t, "process damping", slow.Process, c/(2*math.Sqrt(m[0].Stiffness*1e3*m[0].Mass)), 1e-9)
}

// TestSlender: the trade's limit for a plain steel bar is 4 times its diameter
// (two workshop sources; Machinery's Handbook), 3 to 5 as some write. A cut of
// some 500 N/mm, a light pass with a nose of 0.8, must be stable at 3 and
// chatter at 8, with damping of 0.03 (from memory for a boring mill) and a nose
// of a middling mill.
func TestSlender(t *testing.T) {
	margin := func(over float64) float64 {
		b := mustNew(t, []Section{steel(50, 50*over)}, Root{5e5, 4e9}, 50*over, nil, 0.3)
		return b.Margin(500, 0, 0.03)
	}
	if margin(3) < 1.5 || margin(8) > 1 {
		t.Errorf("margin %.2f at 3 diameters, %.2f at 8", margin(3), margin(8))
	}
}

// TestSetting: the two ways undo each other, whatever the bar.
func TestSetting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0, 5000).Draw(t, "N/mm")
		p := rapid.Float64Range(0.2, 1.5).Draw(t, "power")
		c := rapid.Float64Range(0, 1e-2).Draw(t, "compliance")
		depth := rapid.Float64Range(1e-4, 5).Draw(t, "depth")
		force := func(a float64) float64 { return k * math.Pow(a, p) }
		setting := SettingFor(force, c, depth)
		if setting < depth {
			t.Fatalf("setting %g below depth %g", setting, depth)
		}
		if got := DepthFor(force, c, setting); math.Abs(got-depth) > 1e-9*setting {
			t.Fatalf("depth %g comes back as %g", depth, got)
		}
	})
	// Straight force: depth = setting/(1 + c·k).
	straight := func(a float64) float64 { return 200 * a }
	within(t, "straight", DepthFor(straight, 1e-3, 0.12), 0.1, 1e-12)
	if DepthFor(straight, 1e-3, -1) != -1 || DepthFor(straight, 1e-3, 0) != 0 || SettingFor(straight, 1e-3, 0) != 0 {
		t.Error("nothing set, nothing cut")
	}
}

// TestCopying: k_cut 5, k_bar 20.6 N/µm: ε = 0.195; 200 µm out of round → 39 µm →
// 7.6 µm (Koenigsberger & Tlusty 1970, from memory; computed).
func TestCopying(t *testing.T) {
	λ := Copying(5000, 1/20600.0)
	within(t, "λ", λ, 0.195, 2e-3)
	within(t, "one pass", 200*λ, 39, 2e-3)
	within(t, "two passes", 200*λ*λ, 7.6, 5e-3)
	if Copying(0, 1) != 0 || Copying(-5, 1) != 0 || Copying(inf, 1) != 1 {
		t.Error("ends")
	}
}

func BenchmarkCutLimit(b *testing.B) {
	x := stepped(b)
	for b.Loop() {
		x.CutLimit(100, 0.02)
	}
}
