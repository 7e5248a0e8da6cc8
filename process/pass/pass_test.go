package pass_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/files"
	. "borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// A plain bar of 80 mm, 240 mm out of a nose that hardly gives way, in a bore of 100 mm and 60 mm
// long; an edge of 0.8 mm nose at 75°, honed to 12 µm. Round figures, to be worked by pencil.
var texts = map[string]string{
	"mill.toml": `units = "mm"
name = "a mill worked by pencil"
nose = 230
quill = 110
quill_travel = 550
feed_by = ["table", "quill"]
speeds = [100, 160, 250]
feeds = [0.05, 0.1, 0.2, 0.4, 0.8]
power = "2 kW"
torque = "100 N·m"
travel = [ { axis = "X", travel = 1600, what = "table, across" }, { axis = "W", travel = 1600, what = "table, along" }, { axis = "Z", travel = 550, what = "quill" } ]
radial = 9000
tilt = 900
damping = [0.02, 0.05]
dial = 0.01
set_dial = 0.01
`,
	"metal.toml": `name = "a metal worked by pencil"
group = "K"
kc11 = 1160
mc = 0.26
thrust_ratio = 0.21
thrust_fall = 0.41
rake0 = 2
ra_factor = 1.7
elasticity = 105
poisson = 0.26
tensile = 250
yield = 165
expansion = 11
density = 7200
heat_most = 200
flank_pressure = 890
indentation = [46000, 460000]
[speed.carbide]
rough = [60, 90]
finish = [90, 130]
wear = [30, 200]
ra_least = 0
[speed.hss]
rough = [18, 24]
finish = [24, 27]
ra_least = 0
`,
	"edge.toml": `units = "mm"
name = "an edge worked by pencil"
class = "carbide"
force = 1
edge = 0.012
min_chip = 0.3
rake = 5
`,
	"bar.toml": `name = "a steel worked by pencil"
elasticity = 207
poisson = 0.29
density = 7850
allowed = 250
reach = 4
`,
	"job.toml": `units = "mm"
number = "P-1"
revision = "-"
title = "worked by pencil"
machine = "mill.toml"
material = "metal.toml"
station = [ { name = "case", from = 30, to = 90, diameter = 98, swept = true } ]
[[bore]]
station = "case"
repair = "rebore"
finish = { low = 99.98, high = 100.02 }
ra = 6.3
roundness = 0.02
[bar]
material = "bar.toml"
steps = [ { diameter = 80, length = 240 } ]
[cutter]
material = "edge.toml"
nose_radius = 0.8
lead = 75
trail = 15
set_by = "preset"
[limits]
spring_rough = 0.2
spring_finish = 0.04
depth_most = 2
feed_most = 0.5
force_error = 0.3
setting_error = 0.008
gauge_error = 0.005
temperature = 2
hand_rate = 120
`,
}

// judge is that job's, with the job changed first.
func judge(t *testing.T, change func(*process.Job)) *Judge {
	t.Helper()
	job, err := files.Job("job.toml", []byte(texts["job.toml"]), func(path string) ([]byte, error) {
		if s, ok := texts[path]; ok {
			return []byte(s), nil
		}
		return nil, os.ErrNotExist
	})
	if err != nil {
		t.Fatal(err)
	}
	if change != nil {
		change(job)
	}
	s, err := setup.New(job)
	if err != nil {
		t.Fatal(err)
	}
	b, st := job.Bores[0], job.Stations[0]
	v := &schedule.Visit{N: 1, Material: job.Material, Start: st.Diameter, StartMost: st.Diameter, Ra: b.Ra, Roundness: b.Roundness, Limits: schedule.FinishLimits(job.Units, b)}
	Travel(s, v, st)
	r, err := New(s, v, st)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > share*math.Abs(want)+1e-12 {
		t.Errorf("%s is %.6g, by pencil %.6g", what, got, want)
	}
}

// A cut of 600 N along, 150 N against the feed, 300 N off the wall, 1 mm deep at 0.2 a rev, 318.31
// rev/min at a radius of 50 mm: 100 m/min.
//
//	power   F·v/60 = 600·100/60 = 1000 W, of 2000 (ISO 3002-4)
//	torque  F·R = 600·50/1000 = 30 N·m, of 100
//	stress  M/W, M = √((600·240)² + (300·240 − 150·50)²) = 157 800 N·mm, W = π·80³/32 = 50 265 mm³:
//	        3.14 MPa, of 250
//	nose    0.2 of 0.5·0.8 mm
//	depth   1 of 2 mm: 240 over 80 is an overhang of 3, which takes all
//	rub     least cut 2.5·0.012 = 0.03, of 1 mm
//	spring  2·(300·c − 150·50·c_m) with c = L³/3EI + L/κGA and c_m = L²/2EI; E 207 000, I = π·80⁴/64
//	        = 2.0106e6 mm⁴, G = 80 233, A = 5027, κ 0.886 (Cowper 1966): c = 11.07 + 0.67 = 11.74e-6 mm/N,
//	        c_m = 6.92e-8 1/N: 7.04 − 1.04 = 6.0 µm, of 200
func TestLimitsByPencil(t *testing.T) {
	r := judge(t, nil)
	var all []Verdict
	r.Gather = &all
	c := Cut{Depth: 1, Feed: 0.2, Pick: Pick{RPM: 318.31}, Radius: 50, Force: cut.Force{Cutting: 600, Feed: 150, Radial: 300, Area: 0.2, Chip: 0.18}}
	worst := r.RoughVerdict(c)
	want := map[fact.Kind][2]float64{
		schedule.LimitPower: {1000, 2000}, schedule.LimitTorque: {30, 100}, schedule.LimitStress: {3.14, 250},
		schedule.LimitNose: {0.2, 0.4}, schedule.LimitDepth: {1, 2}, schedule.LimitRub: {0.03, 1}, schedule.LimitSpring: {0.0060, 0.2},
	}
	for _, v := range all {
		w, ok := want[v.By]
		if !ok {
			continue
		}
		delete(want, v.By)
		near(t, string(v.By), v.Value, w[0], 0.03)
		near(t, string(v.By)+", allowed", v.Limit, w[1], 0.001)
		near(t, string(v.By)+", share", v.Ratio, w[0]/w[1], 0.03)
	}
	for k := range want {
		t.Errorf("%s is not judged", k)
	}
	if !worst.OK() || math.Abs(worst.Ratio-0.5) > 1e-4 {
		t.Errorf("nearest is %s at %.3f, by pencil 0.5", worst.By, worst.Ratio)
	}
	// Each limit by itself stops a cut that is past it.
	r.Gather = nil
	for by, past := range map[fact.Kind]func(*Cut){
		schedule.LimitPower:  func(c *Cut) { c.Force.Cutting, c.Pick.RPM = 1300, 318.31 },
		schedule.LimitTorque: func(c *Cut) { c.Force.Cutting, c.Pick.RPM = 2100, 100 },
		schedule.LimitSpring: func(c *Cut) { c.Force.Radial = 12000 },
		schedule.LimitDepth:  func(c *Cut) { c.Depth = 2.1 },
		schedule.LimitNose:   func(c *Cut) { c.Feed, c.Depth = 0.41, 2 },
		schedule.LimitRub:    func(c *Cut) { c.Depth, c.Feed = 0.02, 0.005 },
		schedule.LimitChip:   func(c *Cut) { c.Force.Chip = 0.001 },
	} {
		x := c
		past(&x)
		if v := r.RoughVerdict(x); v.OK() || v.By != by {
			t.Errorf("past %s: stopped by %s at %.3f", by, v.By, v.Ratio)
		}
	}
	// A limit that is not a figure stops.
	x := c
	x.Force.Cutting = math.NaN()
	if r.RoughVerdict(x).OK() {
		t.Error("a force that is no number passes")
	}
}

// The least chip is 0.3·0.012 = 3.6 µm thick, and the least depth that is cut at all twice as much. A
// cutter is set to 2.5 roundings at the least; once the bore was measured to what the edge can cut.
func TestLeastChip(t *testing.T) {
	r := judge(t, nil)
	near(t, "least cut", r.LeastCut(), 0.030, 1e-9)
	r.Measured = true
	near(t, "least cut of a measured bore", r.LeastCut(), r.LeastDepth(), 1e-9)
	near(t, "least depth, twice the least chip", r.LeastDepth(), 2*0.3*0.012, 1e-9)
	c := Cut{Fed: true, Second: 0.005}
	near(t, "a way out that rubs leaves it smaller", r.Rubs(c), 0.010, 1e-9)
	if c.Second = 0.010; r.Rubs(c) != 0 {
		t.Error("a way out that cuts is said to rub")
	}
}

// The machine's own feeds, to what the job allows; of them a finish may use those that leave
// Ra below what is asked for and stay below half of the nose. Ra = factor·f²/(31.2·r), f²/8r being
// the height of the marks and Ra a quarter of it or 1/3.9 (geometry): at 0.4 that is 1.7·10.9 µm for
// a nose of 0.8, at 0.1 1.2 µm; 6.3 are asked for.
func TestFeeds(t *testing.T) {
	r := judge(t, nil)
	want := []float64{0.05, 0.1, 0.2, 0.4}
	if len(r.Feeds) != len(want) {
		t.Fatalf("feeds %v, want %v", r.Feeds, want)
	}
	for i, f := range want {
		near(t, "feed", r.Feeds[i], f, 1e-9)
	}
	if !r.FinishFeed(0.1, 110) || r.FinishFeed(0.4, 110) {
		t.Errorf("a finish at 0.1 is allowed %v, at 0.4 %v", r.FinishFeed(0.1, 110), r.FinishFeed(0.4, 110))
	}
}

// The doubt of a size after a measurement, against trials that draw each cause by itself and look
// for the best share to correct by: size = e₂ − φ·s₂ − ψ·f₂ − ρ₂·s₂ − w·w₂ − k·found + warm, found =
// e₁ + γ − φ·s₁ − ψ·f₁ − ρ₁·s₁ − w·w₁. φ is ±30 %, ψ ±40 %, ρ ±10 %; each ±two sigmas, 1.96.
func TestDoubtAgainstTrials(t *testing.T) {
	for by, increment := range map[string]bool{"set anew": false, "by increment": true} {
		r := judge(t, func(j *process.Job) {
			if increment {
				j.Cutter.SetBy = process.Increment
			}
		})
		before, now := Swings{Forces: setup.Moves{All: 0.06, Feed: -0.02}, Wear: 0.02}, Swings{Forces: setup.Moves{All: 0.045, Feed: -0.025}, Wear: 0.018}
		got := r.DoubtMeasured(before, now, 0)
		first := 0.008
		if increment {
			first = r.Job.FirstSettingError().MM()
		}
		dice := rand.New(rand.NewPCG(7, 11))
		n := func(half float64) float64 { return dice.NormFloat64() * half / 1.96 }
		var ss, sf, ff float64
		const trials = 200_000
		for range trials {
			e1 := n(first)
			e2 := n(0.008)
			if increment {
				e2 += e1
			}
			phi, psi, w := n(0.3), n(0.4), n(1)
			found := e1 + n(0.005) - phi*0.06 + psi*0.02 - n(0.1)*0.06 - w*0.02
			size := e2 - phi*0.045 + psi*0.025 - n(0.1)*0.045 - w*0.018 + n(11e-6*100*2)
			ss, sf, ff = ss+size*size, sf+size*found, ff+found*found
		}
		best := 1.96 * math.Sqrt((ss-sf*sf/ff)/trials)
		near(t, by+": the doubt", got, best, 0.01)
		// Without the measurement it is wider.
		if blind := r.DoubtMeasured(Swings{}, now, 0); blind <= got {
			t.Errorf("%s: ±%.4f without the spring of a cut before, ±%.4f with it", by, blind, got)
		}
	}
}

// Whatever is cut and measured before it, a finish is known no better than LeastBehind says: 20,000
// semi-finishes of any depth, each with the finish after it.
func TestLeastBehind(t *testing.T) {
	for by, increment := range map[string]bool{"set anew": false, "by increment": true} {
		r := judge(t, func(j *process.Job) {
			if increment {
				j.Cutter.SetBy = process.Increment
			}
		})
		dice, nearest := rand.New(rand.NewPCG(3, 5)), math.Inf(1)
		for range 20_000 {
			feed := r.Feeds[dice.IntN(2)]
			last := r.FinishAt(0.025+0.3*dice.Float64(), feed, r.Pick(250, 130))
			semi := r.FinishAt(0.02+SemiMost*dice.Float64(), feed, r.Pick(250, 130))
			semi.Moves = dice.IntN(4)
			least, _ := r.LeastBehind(last)
			doubt, _ := r.FinishDoubt(last, semi, 0)
			if nearest = math.Min(nearest, doubt/least); nearest < 1 {
				t.Fatalf("%s: ±%.5f behind a cut of %.3f, at the least ±%.5f", by, doubt, semi.Depth, least)
			}
		}
		if nearest > 1.5 {
			t.Errorf("%s: the least is %.2f times below all of them", by, nearest)
		}
	}
}

// π·100·60/0.1/1000 = 188.5 m once through at 0.1 a rev, twice that fed out. At the top of the table
// 30 to 200 µm wear off in a kilometre, likely √(30·200) = 77.5: 14.6 µm. At half of that speed, by v³
// (Taylor, n 0.25), the most is 25 µm/km, but no less than the middle, 77.5: likely √(30·77.5) = 48.2.
func TestWearByPencil(t *testing.T) {
	r := judge(t, nil)
	through := r.MetresOf(0.1, 50, schedule.WayOut{By: process.DrawOut})
	near(t, "metres once through", through, 188.5, 0.001)
	near(t, "metres fed out", r.MetresOf(0.1, 50, schedule.WayOut{By: process.FeedOut}), 377, 0.001)
	f := r.After(setup.Flank{}, setup.Run{Metres: 188.5, Speed: 130, Last: true})
	near(t, "least", f.Least, 0.00566, 0.005)
	near(t, "likely", f.Likely, 0.01460, 0.005)
	near(t, "most", f.Most, 0.0377, 0.005)
	f = r.After(setup.Flank{}, setup.Run{Metres: 1000, Speed: 65, Last: true})
	near(t, "likely at half the speed", f.Likely, 0.0482, 0.005)
	// What is judged against chatter: a new edge 0.6 to 1.8 roundings, 20 µm of running in, and the wear
	// at any speed: 7.2 + 30·0.1 µm, 21.6 + 20 + 200·0.2885 µm.
	land := r.LandSince(cut.Land{}, 100, 288.5)
	near(t, "least land", land.Least, 0.0102, 0.001)
	near(t, "most land", land.Most, 0.0993, 0.001)
	// A land of ±0.05 mm presses 890·0.05·0.8·(sin 0.505 + sin 0.0625) = 19.5 N off the wall and 4.4
	// against the feed, 0.1 deep at 0.1 a rev (the pencil of TestWornPassByPencil, half as wide): with c
	// and c_m as above 0.229 − 0.015 µm.
	by := r.In(setup.Wear{Mean: setup.Flank{Likely: 0.05, Most: 0.1}, After: setup.Flank{Likely: 0.06, Most: 0.12}, Before: setup.Flank{Likely: 0.04, Most: 0.08}}, false)
	c := by.CutFor(0.1, 0.1, Pick{RPM: 318.31}, 50, schedule.WayOut{By: process.DrawOut})
	in, out := by.WornMore(c)
	near(t, "a worn edge springs more, by", in, 0.000214, 0.05)
	if out != 0 {
		t.Errorf("on a way out that cuts nothing it springs %.6f more", out)
	}
	near(t, "taper for the wear on the way", by.WearTaper(c), 2*0.000214*0.010/0.05, 0.05)
	// A pass seen with less land than the job begins with was cut by an edge honed since.
	r = judge(t, func(j *process.Job) { j.Cutter.Land = qty.FromMM(0.2) })
	near(t, "the job begins with", r.FlankFound().Likely, 0.2, 1e-9)
	after := r.FlankAfter(0.02, 0.1, 130, 50, schedule.Finish, process.DrawOut, false)
	near(t, "honed since", after.Likely, 0.02+0.5*0.0146, 0.01)
	near(t, "not known", r.FlankAfter(0, 0.1, 130, 50, schedule.Finish, process.DrawOut, false).Likely, 0.2, 1e-9)
}

// A pass from 27 mm (3 mm clear) to the end of its run-out at 0.1 a rev and 250 rev/min; drawn out by
// hand at 120 mm/min with half a minute to turn the tip; fed out it comes back as it went in; 0.3 min
// to start, and the approach at 1500 mm/min both ways.
func TestMinutesByPencil(t *testing.T) {
	r := judge(t, nil)
	travel := (r.Visit.End - r.Visit.Clear).MM()
	if travel < 63 || travel > 67 {
		t.Fatalf("it feeds over %.2f mm of a bore 60 mm long", travel)
	}
	near(t, "drawn out", r.MinutesOf(0.1, 250, schedule.WayOut{By: process.DrawOut}), travel/25+travel/120+0.5+0.3+54./1500, 0.001)
	near(t, "fed out", r.MinutesOf(0.1, 250, schedule.WayOut{By: process.FeedOut}), 2*travel/25+0.3+54./1500, 0.001)
}
