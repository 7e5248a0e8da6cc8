package passes_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"gonum.org/v1/gonum/mat"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/schedule"
)

// handMill is a mill, a bar, an edge and a bore as plain figures, with the
// formulas of books worked here: it judges the planner and shares no code with
// it. Lengths in mm, forces in N, stresses in MPa, speeds in m/min, unless a
// field says otherwise.
type handMill struct {
	// The work: Kienzle's law with the thrust beside it, h in mm.
	kc11, mc, ratio, fall, rake0, raFactor, alpha float64
	group                                         string
	// The edge. Angles in degrees (ISO 3002-1).
	nose, lead, trail, rake, rounding, minChip float64
	// The bar and the nose of the spindle.
	steps           []handStep
	modulus, nu     float64 // MPa
	density         float64 // kg/m³
	allowed         float64 // MPa
	radial, tilt    float64 // N/µm, MN·m/rad, as a machine file gives them
	damping         [2]float64
	bearing         float64 // outboard bearing from the nose; 0: none
	bearingStiff    float64 // N/µm
	bush            float64 // play of that bearing, on diameter
	runout          float64 // what spindle and bearings leave out of round, radial
	power, torque   float64 // kW, N·m
	feeds, speeds   []float64
	roughs, finish  [2]float64 // cutting speeds of the material's table
	indent          [2]float64 // specific indentation force, N/mm³
	wear            [2]float64 // of the flank, µm/km
	torn            float64    // Ra that the metal is torn to at the least, µm
	flank           float64    // pressure on its land, N/mm²; 0: a worn edge pushes no harder
	land            float64    // worn onto the flank before the first cut
	worn            float64    // in the pass that is cut, beyond that of a new edge
	from, to        float64
	start, offset   float64 // diameter, and how far its axis stands off
	low, high       float64
	ra              float64 // µm
	round           float64
	blind           bool
	relief          float64
	witness         bool
	springRough     float64
	springFinish    float64
	depthMost       float64
	feedMost        float64
	speedMost       float64 // rev/min; 0: none
	forceError      float64
	setting, gauge  float64
	kelvin, passes  float64
	hold            float64
	speedOwn        [2]float64 // job's own cutting speeds, rough and finish; 0: none
	setBy           string     // how the cutter is set
	dial            float64    // graduation of its dial, on diameter
	armBy           float64    // feed force besides so many times as large; 0: as it is
	moreJob, moreNC string     // further lines of the job file, of the machine file
	moreBore        string     // further lines of its bore
}

type handStep struct{ d, l float64 }

// usualMill is a short stiff bar in gray iron, a bore of 100 mm with 0.5 mm to
// take off all round, its cutter set to a gauge. Nothing binds but the grid.
func usualMill() handMill {
	return handMill{
		kc11: 1160, mc: 0.26, ratio: 0.21, fall: 0.41, rake0: 2, raFactor: 1.7, alpha: 11e-6, group: "K",
		nose: 0.8, lead: 75, trail: 15, rake: 5, rounding: 0.012, minChip: 0.3,
		steps: []handStep{{70, 180}}, modulus: 207e3, nu: 0.29, density: 7850, allowed: 250,
		radial: 300, tilt: 4, damping: [2]float64{0.02, 0.05}, runout: 0.002,
		power: 11, torque: 2000, feeds: []float64{0.05, 0.1, 0.2}, speeds: []float64{100, 160, 250},
		roughs: [2]float64{60, 90}, finish: [2]float64{90, 130}, indent: [2]float64{46e3, 460e3}, wear: [2]float64{30, 200},
		from: 30, to: 90, start: 99, low: 99.97, high: 100.03, ra: 6.3, round: 0.02,
		springRough: 0.2, springFinish: 0.04, depthMost: 3, feedMost: 0.5,
		forceError: 0.3, setting: 0.008, gauge: 0.005, kelvin: 2, passes: 5, hold: 6, setBy: "preset", dial: 0.01,
	}
}

// job writes the files and reads them as anybody would.
func (m handMill) job(t testing.TB) *process.Job {
	t.Helper()
	list := func(x []float64) string { return strings.ReplaceAll(fmt.Sprint(x), " ", ", ") }
	texts := map[string]string{
		"mill.toml": fmt.Sprintf(`units = "mm"
name = "a mill worked by hand"
nose = 230
quill = 110
quill_travel = 550
feed_by = ["table", "quill"]
speeds = %s
feeds = %s
power = "%g kW"
torque = "%g N·m"
travel = [ { axis = "X", travel = 1600, what = "table, across" }, { axis = "W", travel = 1600, what = "table, along" }, { axis = "Z", travel = 550, what = "quill" } ]
radial = %g
tilt = %g
damping = %s
runout_error = %g
dial = 0.01
set_dial = %g
%s`, list(m.speeds), list(m.feeds), m.power, m.torque, m.radial, m.tilt, list(m.damping[:]), m.runout, m.dial, m.moreNC),
		"metal.toml": fmt.Sprintf(`name = "a metal worked by hand"
group = %q
kc11 = %g
mc = %g
thrust_ratio = %g
thrust_fall = %g
rake0 = %g
ra_factor = %g
elasticity = 105
poisson = 0.26
tensile = 250
yield = 165
expansion = %g
density = 7200
heat_most = 200
flank_pressure = %g
indentation = %s
[speed.carbide]
rough = %s
finish = %s
wear = %s
ra_least = %g
[speed.hss]
rough = [18, 24]
finish = [24, 27]
ra_least = %g
`, m.group, m.kc11, m.mc, m.ratio, m.fall, m.rake0, m.raFactor, m.alpha*1e6, m.flank, list(m.indent[:]), list(m.roughs[:]), list(m.finish[:]), list(m.wear[:]), m.torn, 2*m.torn),
		"edge.toml": fmt.Sprintf(`units = "mm"
name = "an edge worked by hand"
class = "carbide"
force = 1
edge = %g
min_chip = %g
rake = %g
`, m.rounding, m.minChip, m.rake),
		"bar.toml": fmt.Sprintf(`name = "a steel worked by hand"
elasticity = %g
poisson = %g
density = %g
allowed = %g
reach = 4
`, m.modulus/1e3, m.nu, m.density, m.allowed),
	}
	var steps []string
	for _, s := range m.steps {
		steps = append(steps, fmt.Sprintf("{ diameter = %g, length = %g }", s.d, s.l))
	}
	speed := ""
	if m.speedOwn[0] > 0 {
		speed = fmt.Sprintf("speed = { rough = %g, finish = %g }\n", m.speedOwn[0], m.speedOwn[1])
	}
	most := ""
	if m.speedMost > 0 {
		most = fmt.Sprintf("speed_most = %g\n", m.speedMost)
	}
	bearing := ""
	if m.bearing > 0 {
		bearing = fmt.Sprintf("outboard = { at = %g, clearance = %g, stiffness = %g }\ncutter_at = %g\n", m.bearing, m.bush, m.bearingStiff, m.tipAt())
	}
	text := fmt.Sprintf(`units = "mm"
number = "H-1"
revision = "-"
title = "worked by hand"
machine = "mill.toml"
material = "metal.toml"
station = [ { name = "case", from = %g, to = %g, diameter = %g, swept = true, blind = %v, relief = %g } ]
[[bore]]
station = "case"
repair = "rebore"
finish = { low = %g, high = %g }
ra = %g
roundness = %g
offset = %g
witness = %v
%s[bar]
material = "bar.toml"
steps = [ %s ]
%s[cutter]
material = "edge.toml"
nose_radius = %g
lead = %g
trail = %g
land = %g
least = 20
most = 130
set_by = %q
%s[limits]
spring_rough = %g
spring_finish = %g
depth_most = %g
feed_most = %g
force_error = %g
setting_error = %g
gauge_error = %g
temperature = %g
passes_most = %g
hold_minutes = %g
%s%s`, m.from, m.to, m.start, m.blind, m.relief, m.low, m.high, m.ra, m.round, m.offset, m.witness, m.moreBore,
		strings.Join(steps, ", "), bearing, m.nose, m.lead, m.trail, m.land, m.setBy, speed,
		m.springRough, m.springFinish, m.depthMost, m.feedMost, m.forceError, m.setting, m.gauge, m.kelvin, m.passes, m.hold, most, m.moreJob)
	text = strings.Replace(text, "force_error = -1\n", "", 1) // left out: the default
	text = strings.Replace(text, "spring_rough = 0\n", "", 1)
	job, err := files.Job("job.toml", []byte(text), func(path string) ([]byte, error) {
		if s, ok := texts[path]; ok {
			return []byte(s), nil
		}
		return nil, os.ErrNotExist
	})
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return job
}

// passes plans the job and hands the passes of its one visit over.
func (m handMill) plan(t testing.TB) (*plan.Plan, []schedule.Pass) {
	t.Helper()
	p := plan.Make(m.job(t))
	if !p.Feasible {
		t.Fatalf("not feasible: %+v", p.Reasons)
	}
	return p, p.Bores[0].Visits[0].Passes
}

// handCut is what the edge feels.
// rubs are ∫cos²κ ds, ∫sin κ·cos κ ds and ∫sin²κ ds; pieces are feed and radial force with
// every piece of edge by its own normal.
type handCut struct {
	cutting, feed, radial, area, edge float64
	rubs                              [3]float64
	pieces                            [2]float64
}

// edge is how high the tool stands above its tip at x along the feed: a
// round nose with its tangents at the lead angle in front and the trailing
// angle behind.
func (m *handMill) edge() func(x float64) float64 {
	type flank struct{ side, s, c float64 }
	flankOf := func(side float64) flank {
		s, c := math.Sincos(side * math.Pi / 180)
		return flank{side, s, c}
	}
	lead, trail, nose := flankOf(m.lead), flankOf(m.trail), m.nose
	return func(x float64) float64 {
		f := &lead
		if x < 0 {
			x, f = -x, &trail
		}
		if end := nose * f.s; x <= end {
			return nose - math.Sqrt(nose*nose-x*x)
		} else if f.side >= 90 {
			return math.Inf(1)
		} else {
			return nose*(1-f.c) + (x-end)*f.s/f.c
		}
	}
}

// cut integrates Kienzle's law along the engaged edge, element by element:
//
//	dF_c = k_c·h·db,  k_c = k_c1.1·h^(−m_c)
//	dT   = ρ·k_c·h·db, all of it normal to the straight line between the ends of the
//	       edge that cuts
//
// h is found by going along the normal from the edge until the point is no
// longer metal: it lies above the old surface, or within the tool as it stood
// one revolution before. dA = h·(1 − h/2r)·ds, the area of a piece of a ring.
// The tool may stand deeper by a little than the revolution before.
//
// Source: Kienzle & Victor 1957; the direction after Colwell 1954; the factor 1.2 of
// inside cuts, (100/v)^0.1, 1.5 % and 4 % a degree of rake as package cut
// states them with their sources. A worn land adds a pressure on the engaged edge. The thrust ratio is held below 1.2 by the
// fourth power, and h levelled off at the least chip, as stated there.
func (m *handMill) cut(depth, feed, speed, deeper float64) handCut {
	var f handCut
	var total, rises, along float64
	least := m.minChip * m.rounding
	// What inside cuts and rake do to the force of the chip they do not do to that of a land.
	rake := m.rake - m.rake0
	drag, thrust := 1.2*(1-0.015*rake), 1.2*(1-0.04*rake)
	edge := m.edge()
	metal := func(x, y float64) bool { return y < depth && y < edge(x+feed) }
	add := func(x, y, angle, ds, curve float64) {
		s, c := math.Sincos(angle)
		if !metal(x, y) {
			return
		}
		lo, hi := 0.0, feed/8
		for metal(x-hi*s, y+hi*c) {
			lo, hi = hi, hi+feed/8
		}
		for range 18 { // to a millionth of the feed
			if mid := (lo + hi) / 2; metal(x-mid*s, y+mid*c) {
				lo = mid
			} else {
				hi = mid
			}
		}
		h := (lo + hi) / 2
		layers := func(p float64) float64 { return h * ds * (1 - h*curve*p/(1+p)) }
		hh := math.Hypot(h, least)
		kc := m.kc11 * math.Pow(hh, -m.mc)
		ratio := math.Pow(math.Pow(m.ratio*math.Pow(hh, -m.fall), -4)+math.Pow(1.2, -4), -0.25)
		f.cutting += kc * layers(1-m.mc)
		push := ratio * kc * layers(1-m.mc-m.fall)
		total, rises, along = total+push, rises+s*ds, along+c*ds
		f.pieces[0], f.pieces[1] = f.pieces[0]+push*s, f.pieces[1]+push*c
		f.area += layers(1)
		f.edge += ds
		// The land presses with flank N/mm² along the normal, and drags 0.3 of that.
		pressed := m.flank * m.worn * ds
		f.cutting, f.feed, f.radial = f.cutting+0.3*pressed/drag, f.feed+pressed*s/thrust, f.radial+pressed*c/thrust
		f.rubs[0] += c * c * ds
		f.rubs[1] += s * c * ds
		f.rubs[2] += s * s * ds
	}
	// Pieces gather at the ends of the edge, where the chip thins to nothing and
	// its force changes most. On the arc the edge begins where it crosses the arc
	// of the revolution before.
	const n = 90
	kappa, trail := m.lead*math.Pi/180, m.trail*math.Pi/180
	begin := -math.Min(trail, math.Asin(math.Hypot(feed, deeper)/2/m.nose)+math.Atan(deeper/feed))
	end := kappa
	if top := 1 - (depth+deeper)/m.nose; top > math.Cos(kappa) {
		end = math.Acos(top)
	}
	gather := func(t float64) float64 { return t * t * t * (10 - 15*t + 6*t*t) }
	for i := range n {
		t, u := gather(float64(i)/n), gather(float64(i+1)/n)
		a := begin + (end-begin)*(t+u)/2
		add(m.nose*math.Sin(a), m.nose*(1-math.Cos(a))-deeper, a, m.nose*(end-begin)*(u-t), 1/m.nose)
	}
	if top := m.nose * (1 - math.Cos(kappa)); depth+deeper > top {
		l := (depth + deeper - top) / math.Sin(kappa)
		for i := range n {
			t, u := 1-math.Pow(1-float64(i)/n, 3), 1-math.Pow(1-float64(i+1)/n, 3)
			s := l * (t + u) / 2
			add(m.nose*math.Sin(kappa)+s*math.Cos(kappa), top+s*math.Sin(kappa)-deeper, kappa, l*(u-t), 0)
		}
	}
	slow := math.Pow(100/math.Max(25, math.Min(100, speed)), 0.1)
	if straight := math.Hypot(rises, along); straight > 0 {
		f.feed, f.radial = f.feed+total*rises/straight, f.radial+total*along/straight
	}
	f.cutting, f.feed, f.radial = f.cutting*slow*drag, f.feed*slow*thrust, f.radial*slow*thrust
	f.pieces[0], f.pieces[1] = f.pieces[0]*slow*thrust, f.pieces[1]*slow*thrust
	return f
}

// roughness is Ra of the feed marks, µm: f²/(18·√3·r) (Boothroyd & Knight),
// with that of the least chip by squares (after Brammertz 1961), times the
// material's factor; up to half more between one and two least depths. Never below
// what the metal is torn to.
func (m *handMill) roughness(feed, depth float64) float64 {
	least := m.minChip * m.rounding
	marks := func(f2 float64) float64 { return f2 / (18 * math.Sqrt(3) * m.nose) }
	rub := 1 + 0.5*math.Min(1, math.Max(0, 2-depth/(2*least)))
	return math.Max(1e3*math.Hypot(marks(feed*feed), marks(2*m.nose*least))*m.raFactor*rub, m.torn)
}

// shouldered is the bar with a hinge at every shoulder, where the wider step d' meets the
// narrower d: there it bends as if d were longer by 0.25·d·(1 − (d/d')³)^1.75 (turned solids
// by finite elements; package bar says from where). A hinge is a hundredth of a
// millimetre of a bar so thin that it bends as much.
func (m *handMill) shouldered() []handStep {
	var out []handStep
	for i, s := range m.steps {
		if i > 0 && s.d != m.steps[i-1].d {
			d, wide := math.Min(s.d, m.steps[i-1].d), math.Max(s.d, m.steps[i-1].d)
			const short = 0.01
			longer := d / 4 * math.Pow(1-math.Pow(d/wide, 3), 1.75)
			out[len(out)-1].l -= short
			out = append(out, handStep{d * math.Pow(short/longer, 0.25), short})
		}
		out = append(out, s)
	}
	return out
}

// beam assembles the bar of Timoshenko elements on the springs of the nose and
// gives the flexibility matrix of its nodes, mm/N, how far the cutter's node turns under
// a force at each node, 1/N, the node of the cutter, and the mass at each node, kg
// (Przemieniecki, Theory of Matrix Structural Analysis; shear coefficient of Cowper
// 1966).
func (m *handMill) beam(pieces int) (flex *mat.Dense, turns []float64, cutter int, mass []float64) {
	var d, l []float64
	at, tip := 0.0, 0.0
	for _, s := range m.steps {
		tip += s.l
	}
	if m.bearing > 0 { // the tip is not at the end
		tip = m.tipAt()
	}
	cuts := []float64{tip, m.bearing}
	for _, s := range m.shouldered() {
		for x := at; x < at+s.l-1e-9; {
			end := math.Min(at+s.l, x+s.l/float64(pieces))
			for _, c := range cuts {
				if c > x+1e-9 && c < end-1e-9 {
					end = c
				}
			}
			d, l = append(d, s.d), append(l, end-x)
			x = end
		}
		at += s.l
	}
	n := 2 * (len(d) + 1)
	k := mat.NewDense(n, n, nil)
	mass = make([]float64, len(d)+1)
	where, place, bear := 0.0, 0, -1
	for e := range d {
		area := math.Pi * d[e] * d[e] / 4
		ei := m.modulus * math.Pi * math.Pow(d[e], 4) / 64
		shear := 6 * (1 + m.nu) / (7 + 6*m.nu) * m.modulus / 2 / (1 + m.nu) * area
		phi := 12 * ei / (shear * l[e] * l[e])
		f := ei / (l[e] * l[e] * l[e] * (1 + phi))
		a, b := l[e], l[e]*l[e]
		ke := [4][4]float64{
			{12, 6 * a, -12, 6 * a}, {6 * a, (4 + phi) * b, -6 * a, (2 - phi) * b},
			{-12, -6 * a, 12, -6 * a}, {6 * a, (2 - phi) * b, -6 * a, (4 + phi) * b},
		}
		for i := range 4 {
			for j := range 4 {
				k.Set(2*e+i, 2*e+j, k.At(2*e+i, 2*e+j)+f*ke[i][j])
			}
		}
		w := m.density * 1e-9 * area * l[e]
		mass[e], mass[e+1] = mass[e]+w/2, mass[e+1]+w/2
		where += l[e]
		if math.Abs(where-tip) < 1e-6 {
			place = e + 1
		}
		if math.Abs(where-m.bearing) < 1e-6 {
			bear = e + 1
		}
	}
	k.Set(0, 0, k.At(0, 0)+m.radial*1e3)
	k.Set(1, 1, k.At(1, 1)+m.tilt*1e9)
	if bear > 0 {
		k.Set(2*bear, 2*bear, k.At(2*bear, 2*bear)+m.bearingStiff*1e3)
	}
	var inv mat.Dense
	if err := inv.Inverse(k); err != nil {
		panic(err)
	}
	nodes := n / 2
	flex = mat.NewDense(nodes, nodes, nil)
	for i := range nodes {
		for j := range nodes {
			flex.Set(i, j, inv.At(2*i, 2*j))
		}
		turns = append(turns, inv.At(2*place+1, 2*i))
	}
	return flex, turns, place, mass
}

// tipAt is where the tip stands when a bearing holds the bar's end.
func (m *handMill) tipAt() float64 { return m.bearing / 2 }

// compliance is that at the cutter, mm/N.
func (m *handMill) compliance() float64 {
	flex, _, c, _ := m.beam(1)
	return flex.At(c, c)
}

// lean is how far the feed force moves the tip out for what the radial force moves it
// in, newton for newton, when fed in: it bends the bar by its moment F_f·R, and what a moment
// moves is what a force turns (Maxwell and Betti).
func (m *handMill) lean(radius float64) float64 {
	flex, turns, c, _ := m.beam(1)
	return radius * turns[c] / flex.At(c, c)
}

// against is the radial force that would spring the bar as much as the cut does.
func (f handCut) against(lean float64) float64 { return f.radial - lean*f.feed }

// byHand is how long a mill without a control takes to go through a bore and to come
// out: in at the feed; half a minute to stop and turn the tip to its place, and out at
// 500 mm/min, the rate that a job has by default; a minute more where the cross slide
// is moved off the wall and brought back. Common practice, no source.
func byHand(travel, feed, rpm float64, last bool) float64 {
	t := travel/(feed*rpm) + travel/500 + 0.5
	if last {
		t += aside
	}
	return t
}

// aside is the minute that the cross slide takes.
const aside = 1.0

// left is the radius that a pass leaves at the light place: there the cut is
// less deep, and the bar springs less,
//
//	l = made + c·(F(made−heavy) − F(l−light)),
//
// found by halving; never less than it was.
func left(force func(depth float64) float64, c, rLeast, rMost, made float64) float64 {
	if rMost <= rLeast {
		return made
	}
	want := made + c*force(made-rLeast)
	lo, hi := rMost, want
	if lo >= hi {
		return rMost
	}
	for range 60 {
		if mid := (lo + hi) / 2; mid+c*force(mid-rMost) < want {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// lighter is the share of the deepest cut that a slender bar takes: 0.75 of it
// at an overhang of 4 diameters and 0.55 at 6 (an open derating table), 0.35 at
// 8 and 0.25 from 10 (common practice, no source).
func (m *handMill) lighter() float64 {
	x := m.overhang()
	switch {
	case x <= 3:
		return 1
	case x <= 4:
		return 1 - 0.25*(x-3)
	case x <= 8:
		return 0.75 - 0.1*(x-4)
	case x <= 10:
		return 0.35 - 0.05*(x-8)
	}
	return 0.25
}

// overhang is the stickout over the diameter of a plain bar.
func (m *handMill) overhang() float64 {
	var l, least float64
	least = math.Inf(1)
	for _, s := range m.steps {
		l += s.l
		least = math.Min(least, s.d)
	}
	return l / least
}
