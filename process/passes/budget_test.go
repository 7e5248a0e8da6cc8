package passes

import (
	"math"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"borewright/process"
	"borewright/process/landing"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// With everything known but the setting, the size scatters by the setting
// alone, reduced by what the bar gives, 1/(1 + c·k), and the chance of landing is
// what of the normal distribution lies between the limits (JCGM 100). The measured chance does
// not enter.
func TestBudgetAgainstNormalLaw(t *testing.T) {
	for _, by := range []process.SetBy{process.Increment, process.OverBar, process.Preset} {
		r := firstPlanner(t, exampleJob(t, "gear-case/job.toml"), func(j *process.Job) {
			metal := *j.Material
			metal.Flank, j.Material = 0, &metal // how far the edge is worn does not matter
			j.Limits.ForceError, j.Limits.GaugeError, j.Limits.Temperature = 1e-9, 0, 0
			j.Cutter.SetBy, j.Limits.SettingError = by, 12*qty.Micrometre
		})
		h := r.landing()
		h.Sigma.Root = 0
		last := h.Passes[len(h.Passes)-1]
		before := h.Passes[len(h.Passes)-2]
		gain := func(p landing.Pass) float64 { return 1 / (1 + r.Middle.Radial*p.K) }
		// A setting too large by e makes this bore larger by e·gain; the bore
		// before, too large by e·gain₁, takes depth off the last pass and
		// leaves it so much less sprung: (1−gain)·gain₁ of it shows.
		const one = 0.012 / 1.96
		own, through := gain(last), (1-gain(last))*gain(before)
		sigma := math.Hypot(own, through) * one
		if by == process.Increment {
			// The setting before is wrong by the first, ±0.013 over the bar, and
			// by each move from there; the last carries that on and adds its own.
			moves := len(r.Visit.Passes) - 2
			stood := math.Hypot(0.013/1.96, math.Sqrt(float64(moves))*one)
			sigma = math.Hypot((own+through)*stood, own*one)
		}
		sigma = math.Hypot(sigma, 2*r.Middle.Radial*last.Force*pass.SpringRepeats/1.96*gain(last))
		half := (h.Limits[1] - h.Limits[0]) / 2
		beyond := func(room float64) float64 { return math.Erfc(room/sigma/math.Sqrt2) / 2 }
		size := r.Visit.Passes[len(r.Visit.Passes)-1].Expected.MM()
		want := 1 - beyond(h.Limits[1]-h.Form-size) - beyond(size-h.Form-h.Limits[0])
		// The error told, and what a law of first order leaves (two million plain trials: 0.0005).
		if b := h.Budget(r.Job.Units); math.Abs(b.Blind-want) > 0.0007+b.BlindError || b.BlindError > 0.0015 {
			t.Errorf("%s: chance %.4f ± %.4f by trial, %.4f by the normal law (σ %.4f, half %.4f)", by, b.Blind, b.BlindError, want, sigma, half)
		}
	}
}

// The same draws on one core and on many give the same answer.
func TestBudgetOnAnyCores(t *testing.T) {
	r := firstPlanner(t, exampleJob(t, "lock-winch/job.toml"), nil)
	many := *r.landing().Budget(r.Job.Units)
	old := runtime.GOMAXPROCS(1)
	one := *r.landing().Budget(r.Job.Units)
	runtime.GOMAXPROCS(old)
	for _, of := range []func(*landing.Budget) *landing.Budget{func(b *landing.Budget) *landing.Budget { return b }, (*landing.Budget).Unmeasured} {
		if diff := cmp.Diff(of(&many), of(&one), cmpopts.IgnoreUnexported(landing.Budget{})); diff != "" {
			t.Error(diff)
		}
	}
	sum := 0.0
	for _, s := range many.Shares {
		sum += s.Of
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("shares add to %v", sum)
	}
}

// A spring pass obeys its two equations: the same setting, and what it takes
// is what the finish sprang off less its own spring, by the forces themselves to within 0.03 µm or a thousandth
// of what it takes.
func TestSpringPass(t *testing.T) {
	job := exampleJob(t, "lock-winch/job.toml")
	r := firstPlanner(t, job, nil)
	r.again = r.with(setup.Wear{}, false)
	some := 0
	for _, feed := range r.Feeds {
		tables := (&lastPasses{Planner: r}).tables(r, feed, pass.FinishDepths...)
		for _, depth := range pass.FinishDepths {
			for _, pick := range r.finish {
				e := r.newEnding(tables, pick, 0, r.SemiSize(depth))
				if e.work(); e.spring() == nil {
					continue
				}
				some++
				s, speed := e.spring(), pick.At(r.Aim)
				if sum := e.made + s.first + s.second; math.Abs(sum-r.Aim) > 1e-9 {
					t.Errorf("%.3f mm/rev, %.3f mm: lands at %v, aim %v", feed, depth, sum, r.Aim)
				}
				exact := func(by *Planner) setup.Push { return by.Stroke(by.Middle, feed, speed, r.Aim, false).In }
				setting, again := exact(r).SettingFor(s.first), s.first+exact(r.again).SettingFor(s.second)
				if off := math.Abs(again - setting); off > math.Max(3e-5, 0.001*s.second) {
					t.Errorf("%.3f mm/rev, %.3f mm at %v rev/min: takes %.5f and %.5f mm, set to %.5f and %.5f", feed, depth, pick.RPM, s.first, s.second, setting, again)
				}
				if s.second < r.LeastDepth() {
					t.Errorf("takes %v, the edge rubs below %v", s.second, r.LeastDepth())
				}
			}
		}
	}
	if some < 10 {
		t.Errorf("%d spring passes", some)
	}
}

// Where the limits are wide and stops are dear, none is made before the last
// pass; where they are narrow, one always is.
func TestHoldsWhereTheyPay(t *testing.T) {
	semi := func(r *Planner) *schedule.Hold {
		for _, p := range r.Visit.Passes {
			if p.Kind == schedule.SemiFinish {
				return p.Hold
			}
		}
		t.Fatal("no semi-finish")
		return nil
	}
	wide := firstPlanner(t, exampleJob(t, "ferry-ramp/job.toml"), func(j *process.Job) { j.Limits.HoldMinutes = 30 })
	if semi(wide) != nil {
		t.Errorf("half an hour's stop for %v", wide.Visit.Budget)
	}
	narrow := firstPlanner(t, exampleJob(t, "lock-winch/job.toml"), func(j *process.Job) { j.Limits.HoldMinutes = 30 })
	if semi(narrow) == nil {
		t.Errorf("no stop for %v", narrow.Visit.Budget)
	}
}

// byQuill turns a job into one of a plain bar that the quill feeds.
func byQuill(j *process.Job) {
	j.Bar.Outboard = nil
	j.Bar.Steps = []process.Step{j.Bar.Steps[0]}
	j.Bar.Steps[0].Length = j.Stations[0].To
	j.Bar.CutterAt = j.Bar.Steps[0].Length
	j.Bar.FeedBy, j.Bar.Standoff = process.QuillFeed, j.Bar.CutterAt
}

// Quill feed: the stickout grows, so the bore is smallest where the bar is
// softest, at the bottom, by 2·(F_p·Δc − R·F_f·Δc_m). A moment moves a plain bar of length
// L out of a quill by L²/2EI + ((L+x)² − L²)/2EI_q + (L+x)/k_θ, x being what the quill is out,
// and the shoulder between them adds ΔL·L/EI.
func TestQuillFeedTapers(t *testing.T) {
	r := firstPlanner(t, exampleJob(t, "ferry-ramp/job.toml"), byQuill)
	a := r.Visit.Along
	if a[0].Compliance >= a[len(a)-1].Compliance {
		t.Errorf("compliance %v at the mouth, %v at the bottom", a[0], a[len(a)-1])
	}
	b, m := r.Job.Bar.Steps[0], r.Job.Machine
	l, d, quill := b.Length.MM(), b.Diameter.MM(), m.Quill.MM()
	ei := func(d float64) float64 { return b.Material.E * math.Pi / 64 * math.Pow(d, 4) }
	byMoment := func(x float64) float64 {
		longer := d / 4 * math.Pow(1-math.Pow(d/quill, 3), 1.75) / ei(d)
		longer *= 1 - math.Exp(-x*(1/ei(d)-1/ei(quill))/longer) // a short stub of quill does not take it all up
		return l*l/2/ei(d) + ((l+x)*(l+x)-l*l)/2/ei(quill) + (l+x)/m.Tilt/1e9 + l*longer
	}
	arm := byMoment(a[len(a)-1].Depth.MM()) - byMoment(math.Max(0, a[0].Depth.MM()))
	for _, p := range r.Visit.Passes {
		want := 2*float64(p.RadialForce)*(r.Visit.Compliance[1]-r.Visit.Compliance[0])/1e3 - p.Setting.MM()*float64(p.FeedForce)*arm
		if math.Abs(p.Taper.MM()-want) > 2e-5 {
			t.Errorf("pass %d tapers %v, %v", p.N, p.Taper.MM(), want)
		}
	}
}

// seen is a bar that springs so many times as much as it should.
type seen float64

func (s seen) Known(*process.Material, setup.Known) setup.Known {
	return setup.Known{Factor: float64(s), Feed: 1, Doubt: setup.Doubt{All: 0.05}}
}

// The spring that the pass table has stands among those that the chart draws
// along the bore, by either feed, also where the bar was found softer than
// reckoned.
func TestChartHasTheSpringOfTheTable(t *testing.T) {
	for name, change := range map[string]func(*process.Job){"by quill": byQuill, "by table": func(*process.Job) {}} {
		for _, factor := range []float64{1, 1.5} {
			job := exampleJob(t, "ferry-ramp/job.toml")
			change(job)
			v, st := firstVisit(t, job), job.Stations[job.Bores[0].Station]
			bar, err := setup.New(job)
			if err != nil {
				t.Fatal(err)
			}
			bar.Learned = seen(factor)
			s := New(bar)
			pass.Travel(s.Setup, &v, st)
			r, err := s.Prepare(&v, st, false)
			if err != nil {
				t.Fatal(err)
			}
			if why := r.Plan(1); !why.None() {
				t.Fatal(why)
			}
			curves := s.Springs(v, st)
			for i, p := range v.Passes {
				least, most := qty.Metre, qty.Length(0)
				for _, at := range curves[i].Points {
					least, most = min(least, at.Spring), max(most, at.Spring)
				}
				if near := qty.Micrometre / 5; p.Spring < least-near || p.Spring > most+near {
					t.Errorf("%s, springs %v times: pass %d springs %v by the table, %v to %v by the chart", name, factor, p.N, p.Spring, least, most)
				}
			}
		}
	}
}

// BenchmarkBudget is the chance of landing of one visit.
func BenchmarkBudget(b *testing.B) {
	r := firstPlanner(b, exampleJob(b, "lock-winch/job.toml"), nil)
	for b.Loop() {
		r.landing().Budget(r.Job.Units)
	}
}
