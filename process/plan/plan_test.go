package plan_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// load reads a job from text.
func load(t testing.TB, text string) *process.Job {
	t.Helper()
	job, err := files.Job("job.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// shipped reads one of the example jobs.
func shipped(t testing.TB, name string) *process.Job {
	t.Helper()
	return load(t, example(t, name))
}

// example is the text of an example job.
func example(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// made is the plan of an example, made once for all tests: they read it, and change nothing.
func made(t testing.TB, name string) *Plan {
	t.Helper()
	return madeOf(t, example(t, name))
}

// madeOf is the plan of a job by its text, likewise.
func madeOf(t testing.TB, text string) *Plan {
	t.Helper()
	p, _ := plans.LoadOrStore(text, sync.OnceValue(func() *Plan { return Make(load(t, text)) }))
	return p.(func() *Plan)()
}

var plans sync.Map // of madeOf, by text

var examples = []string{"lock-winch/job.toml", "lock-winch/manual.toml", "hand-pump/job.toml", "gear-case/job.toml", "ferry-ramp/job.toml"}

// slenderJob is a bore a little under 2 1/8 in, twelve inches inside an iron
// case, recut with a bar of the given diameter and a high-speed-steel cutter.
func slenderJob(diameter float64) string {
	return fmt.Sprintf(`
units = "in"
number = "T-1"
revision = "-"
title = "slender bar"
machine = "hbm-5in"
material = "gray-iron-200hb"
station = [ { name = "case", from = 9.5, to = 12.0, diameter = 2.110, swept = true } ]
[[bore]]
station = "case"
repair = "rebore"
finish = { low = 2.1240, high = 2.1256 }
ra = 125
[bar]
steps = [ { diameter = %g, length = 13.5 } ]
[cutter]
material = "hss"
nose_radius = 0.016
lead = 80
least = 1.2
most = 2.5
`, diameter)
}

// A 1.5 in steel bar with a high-speed-steel cutter, more than 12 in out, does
// recut a bore just under 2 1/8 in in an iron case, by light cuts; a 1.0 in bar
// cannot be trusted with it. Common practice, no source.
func TestSlenderBar(t *testing.T) {
	p := Make(load(t, slenderJob(1.5)))
	if !p.Feasible {
		t.Fatalf("a 1.5 in bar does this job: %v", p.Reasons)
	}
	for _, q := range p.Bores[0].Visits[0].Passes {
		if d := q.Depth.Inches(); d > 0.030 {
			t.Errorf("pass %d is %.4f in deep: not a light cut for this bar", q.N, d)
		}
	}
	thin := Make(load(t, slenderJob(1.0)))
	warned := false
	for _, c := range thin.Cautions {
		warned = warned || strings.Contains(said(thin, c), "times its diameter")
	}
	if thin.Feasible && !warned {
		t.Error("a 1.0 in bar, 13 in out, got a plan and no warning")
	}
	if !thin.Feasible && len(thin.Reasons) == 0 {
		t.Error("refused without a reason")
	}
}

// longJob is a bore of eight inches behind twelve, with a bar that stands out eleven
// times its diameter, so that every thousandth that it may spring counts.
const longJob = `
units = "in"
number = "T-2"
revision = "-"
title = "long and slender"
machine = "hbm-5in"
material = "gray-iron-200hb"
station = [ { name = "case", from = 12, to = 20, diameter = 2.60, swept = true } ]
[[bore]]
station = "case"
repair = "rebore"
finish = { low = 2.8740, high = 2.8760 }
ra = 125
[bar]
steps = [ { diameter = 2, length = 22 } ]
[cutter]
material = "hss"
nose_radius = 0.032
lead = 80
least = 1.2
most = 3.5
[limits]
spring_finish = 0.002
`

// Without a limit of its own the spring of a roughing pass is bound by what must stay
// for the passes after it: no rough creeps at a thousandth a turn for an hour and a
// half to save the bar a spring that the gauge would find all the same. A limit that
// the job states is kept.
func TestRoughSpringLeftOpen(t *testing.T) {
	p := Make(load(t, longJob))
	if !p.Feasible {
		t.Fatal(p.Reasons)
	}
	v := p.Bores[0].Visits[0]
	roughs := 0
	for _, q := range v.Passes {
		if q.Kind != schedule.Rough {
			continue
		}
		roughs++
		if q.Minutes > 45 || q.Feed.Inches() < 0.003 {
			t.Errorf("pass %d: %.0f min at %.4f in a turn", q.N, q.Minutes, q.Feed.Inches())
		}
		// By hand: the force may be 30 % less, and a semi-finish and a finish of the
		// least depth, 0.03 mm by the least chip alone, must still be there.
		if left := v.Limits.Aim.Minus(q.Expected).MM() - 0.3*q.Spring.MM(); left < 2*2*0.03 {
			t.Errorf("pass %d: springs %v, and with 30 %% less force only %.3f mm stay", q.N, q.Spring, left)
		}
	}
	if roughs == 0 {
		t.Error("no roughing pass")
	}
	stated := Make(load(t, longJob+"spring_rough = 0.018\n"))
	if !stated.Feasible {
		t.Fatal(stated.Reasons)
	}
	for _, q := range stated.Bores[0].Visits[0].Passes {
		if q.Spring.Inches() > 0.01805 && q.Kind != schedule.Finish {
			t.Errorf("pass %d springs %v, 0.018 in allowed", q.N, q.Spring)
		}
	}
}

// What stops a plan comes with changes that were tried, and each change, made
// to the job, does free it.
func TestWaysOut(t *testing.T) {
	t.Parallel()
	slow.Test(t, "what would free a job is searched")
	job := load(t, slenderJob(1.0))
	job.Bores[0].Finish.Low, job.Bores[0].Finish.High = qty.DiameterMM(53.98), qty.DiameterMM(54.01)
	p := Make(job)
	if p.Feasible {
		t.Fatal("30 µm with a 1.0 in bar, 13 in out")
	}
	for _, r := range p.Reasons {
		if said(p, r.What) == "" || len(p.Free()) == 0 {
			t.Errorf("reason without a way out: %+v", r)
		}
	}
	fat := WithBar(job, func(s []process.Step) bool { s[0].Diameter = qty.DiameterMM(44.45); return true })
	if !strings.Contains(freed(p), "a bar of") {
		t.Fatalf("no fatter bar among %q", freed(p))
	}
	if !Make(fat).Feasible {
		t.Error("a 1.75 in bar is said to free it and does not")
	}
}

// Every shipped plan keeps every limit it was made under, worked out afresh
// from the figures that are printed.
func TestPlansKeepTheirLimits(t *testing.T) {
	for _, name := range examples {
		p := made(t, name)
		if !p.Feasible {
			t.Errorf("%s: %v", name, p.Reasons)
			continue
		}
		l := p.Job.Limits
		for _, b := range p.Bores {
			n := 0
			for _, v := range b.Visits {
				size := v.Start
				for i, q := range v.Passes {
					n++
					at := fmt.Sprintf("%s %s pass %d", name, b.Station.Name, q.N)
					if q.N != n {
						t.Errorf("%s: numbered out of order", at)
					}
					if q.Setting <= size && q.Kind != schedule.Spring {
						t.Errorf("%s: set to %v, no larger than the bore before, %v", at, q.Setting, size)
					}
					size = q.Low
					if q.Low > q.Expected || q.Expected > q.High {
						t.Errorf("%s: %v %v %v", at, q.Low, q.Expected, q.High)
					}
					for _, limit := range q.Limits {
						if limit.Used > 1.01 { // settings are rounded to what can be read
							t.Errorf("%s: uses %.4f of %v", at, limit.Used, limit.What)
						}
					}
					most := l.SpringRough
					if i == len(v.Passes)-1 && v.Part != schedule.Roughing {
						if most = l.SpringFinish; l.SpringUsual {
							most = max(most, v.Limits.High.Minus(v.Limits.Low)/4)
						}
						if q.Low < v.Limits.Low || q.High > v.Limits.High {
							t.Errorf("%s: may land at %v to %v, limits %v to %v", at, q.Low, q.High, v.Limits.Low, v.Limits.High)
						}
						if q.Ra > v.Ra || q.OutOfRound > v.Roundness {
							t.Errorf("%s: Ra %v, round %v", at, q.Ra, q.OutOfRound)
						}
					}
					if most == 0 { // what it springs less than planned the next passes must still find
						most = qty.FromMM(aim(v, b.Visits).Minus(q.Expected).MM() / l.ForceError)
					}
					if q.Spring > most+qty.Micrometre {
						t.Errorf("%s: springs %v, %v allowed", at, q.Spring, most)
					}
					if q.Power > p.Job.Machine.Power || q.Torque > p.Job.Machine.Torque {
						t.Errorf("%s: %v W, %v N·m", at, q.Power, q.Torque)
					}
					if !hasStep(p.Job.Machine.Speeds, float64(q.Speed)) || !hasStep(p.Job.Machine.Feeds, q.Feed.MM()) {
						t.Errorf("%s: the machine has no %v rev/min or no %v mm/rev", at, q.Speed, q.Feed.MM())
					}
					if q.LimitedBy.None() {
						t.Errorf("%s: does not say what bound it", at)
					}
					if i == len(v.Passes)-1 && v.Part == schedule.Roughing && (q.Kind != schedule.Rough || q.Hold == nil || q.Expected > v.RoughTo.Plus(10*qty.Micrometre)) { // but for what a setting is rounded to
						t.Errorf("%s: roughing ends with a rough of %v at the most, and is measured: %v", at, v.RoughTo, q.Expected)
					}
					if i == len(v.Passes)-1 && v.Part != schedule.Roughing && (q.Kind < schedule.Spring || q.Hold == nil) {
						t.Errorf("%s: the last pass is the finish, or its spring pass, and is measured", at)
					}
				}
			}
		}
	}
}

// aim is what the work of a visit aims at.
func aim(v Visit, all []Visit) qty.Diameter {
	for _, w := range all {
		if w.N == v.N && w.Part != schedule.Roughing {
			return w.Limits.Aim
		}
	}
	return v.Limits.Aim
}

func hasStep(r process.Range, x float64) bool {
	if len(r.Steps) == 0 {
		return x >= r.Least && x <= r.Most
	}
	for _, s := range r.Steps {
		if math.Abs(s-x) < 1e-6 {
			return true
		}
	}
	return false
}

// Setting less size found is the spring: a finish set to S leaves S − 2·(c·F_p − c_m·R·F_f).
// Held against the cantilever of formulas any strength text gives, with the
// spindle's own give (roots in series): an independent path to the compliance.
func TestSettingAllowsForSpring(t *testing.T) {
	p := Make(load(t, slenderJob(1.5)))
	job := p.Job
	d, length := 38.1, 342.9
	i := math.Pi * math.Pow(d, 4) / 64
	step := job.Bar.Steps[0].Material
	c := math.Pow(length, 3)/(3*step.E*i) + 1/(job.Machine.Radial*1e3) + length*length/(job.Machine.Tilt*1e9)
	shear := length / (0.9 * step.E / (2 * (1 + step.Nu)) * math.Pi * d * d / 4)
	for _, q := range p.Bores[0].Visits[0].Passes {
		arm := length*length/(2*step.E*i) + length/(job.Machine.Tilt*1e9) // by a moment at the end
		want := 2*(c+shear)*float64(q.RadialForce) - q.Setting.MM()*float64(q.FeedForce)*arm
		if got := q.Spring.MM(); math.Abs(got-want) > 0.01*want {
			t.Errorf("pass %d springs %.5f mm, by hand %.5f", q.N, got, want)
		}
		heavy := 2*q.Expected.MM() - (q.Setting.MM() - q.Spring.MM()) // expected is midway between heavy and light places
		if q.Kind == schedule.Finish && math.Abs(heavy-q.Expected.MM()) > 0.003 {
			t.Errorf("pass %d: set %.4f, springs %.4f, expected %.4f", q.N, q.Setting.MM(), q.Spring.MM(), q.Expected.MM())
		}
	}
}

// shallowSpring is a job whose last cut is a spring pass of 0.0005 in.
const shallowSpring = `
units = "in"
number = "T-75"
revision = "A"
title = "a finish and a spring pass"
machine = "cnc-110mm"
material = "leaded-bronze"
station = [ { name = "bore", from = 9.0, to = 10.2, diameter = 2.6125, swept = true } ]
[[bore]]
station = "bore"
repair = "rebore"
finish = { diameter = 2.73, fit = "H8" }
ra = 32
[bar]
steps = [ { diameter = 2.0, length = 1.0 }, { diameter = 1.1756, length = 11.4 } ]
[cutter]
material = "hss"
nose_radius = 0.0156
most = 3.5
[limits]
spring_finish = 0.0004
`

// The time of a plan: every pass, every hold, and half a hold where the cutter is
// set without measuring. A spring pass goes through again as the finish was set: no
// stop stands before it.
func TestMinutes(t *testing.T) {
	job := load(t, shallowSpring+"sing = true\n")
	p := Make(job)
	want, springs := 0.0, 0
	for _, v := range p.Bores[0].Visits {
		for i, q := range v.Passes {
			want += q.Minutes
			if q.Hold != nil {
				want += job.Limits.HoldMinutes
			}
			if q.Hone != nil {
				want += q.Hone.Minutes
			}
			if i > 0 && v.Passes[i-1].Hold == nil && q.Setting != v.Passes[i-1].Setting {
				want += job.Limits.HoldMinutes / 2
			}
			if q.Kind == schedule.Spring {
				springs++
			}
		}
	}
	if springs == 0 || math.Abs(p.Minutes-want) > 1e-9 {
		t.Errorf("%.2f min, by hand %.2f; spring passes %d", p.Minutes, want, springs)
	}
}

// TestRuleOfThumbAsPrinted: a bar that stands out four of its diameters keeps the rule of four, by whatever
// sums it came to be so long; one of 4.1 does not.
func TestRuleOfThumbAsPrinted(t *testing.T) {
	for _, d := range []float64{1.25, 2.5, 0.75} {
		for out, told := range map[float64]bool{4: false, 4.1: true} {
			p := Attempt(load(t, drawn{units: "in", bore: 2 * d, bar: d, out: out, stock: 0.05, metal: "gray-iron-200hb", cutter: "carbide", machine: "hbm-4in", it: 8, ra: 63, nose: 0.031, setBy: "increment"}.text()), nil)
			if got := slices.ContainsFunc(p.Cautions, func(c fact.Fact) bool { return c.Kind == StandsOut }); got != told {
				t.Errorf("Ø%g, %g diameters: told %v", d, out, got)
			}
		}
	}
}
