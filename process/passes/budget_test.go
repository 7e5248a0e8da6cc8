package passes

import (
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/bar"
)

// With everything known but the setting, the size scatters by the setting
// alone: σ² = σ_common² + σ_each², each reduced by what the bar gives,
// 1/(1 + c·k), and the chance of landing is erf(half/(σ·√2)) (the normal
// distribution; JCGM 100). The measured chance does not enter.
func TestBudgetAgainstNormalLaw(t *testing.T) {
	r := firstPlanner(t, exampleJob(t, "gear-case/job.toml"), func(j *process.Job) {
		j.Limits.ForceError, j.Limits.GaugeError, j.Limits.Temperature = 1e-9, 0, 0
	})
	h := r.simulation()
	h.sigma.root = 0
	last := h.passes[len(h.passes)-1]
	before := h.passes[len(h.passes)-2]
	gain := func(p simulatedPass) float64 { return 1 / (1 + r.c*p.k) }
	// A setting too large by e makes this bore larger by e·gain; the bore
	// before, too large by e·gain₁, takes depth off the last pass and
	// leaves it so much less sprung: (1−gain)·gain₁ of it shows.
	each := math.Hypot(gain(last), (1-gain(last))*gain(before)) * h.sigma.set
	common := (gain(last) + (1-gain(last))*gain(before)) * h.sigma.set
	sigma := math.Hypot(each, common)
	sigma = math.Hypot(sigma, 2*r.c*last.force*SpringRepeats/1.96*gain(last))
	half := (h.limits[1] - h.limits[0]) / 2
	want := math.Erf(half / sigma / math.Sqrt2)
	if got := r.budget().Blind; math.Abs(got-want) > 0.002 {
		t.Errorf("chance %.4f by trial, %.4f by the normal law (σ %.4f, half %.4f)", got, want, sigma, half)
	}
}

// The same draws on one core and on many give the same answer.
func TestBudgetOnAnyCores(t *testing.T) {
	r := firstPlanner(t, exampleJob(t, "lock-winch/job.toml"), nil)
	many := *r.budget()
	old := runtime.GOMAXPROCS(1)
	one := *r.budget()
	runtime.GOMAXPROCS(old)
	if diff := cmp.Diff(many, one); diff != "" {
		t.Error(diff)
	}
	if many.Trials < 100_000 {
		t.Errorf("%d trials", many.Trials)
	}
	sum := 0.0
	for _, s := range many.Shares {
		sum += s.Of
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("shares add to %v", sum)
	}
}

// Measuring before the last cut helps, and the share of the error by which the
// next setting is shifted is the best one: shares on either side land less often
// or no more often (to the scatter of the trials).
func TestBestCorrection(t *testing.T) {
	r := firstPlanner(t, exampleJob(t, "lock-winch/job.toml"), nil)
	b := r.budget()
	if b.Chance <= b.Blind {
		t.Errorf("measured %.4f, unmeasured %.4f", b.Chance, b.Blind)
	}
	spread := func(gain float64) float64 {
		h := r.simulation()
		h.gain = gain
		rng := rand.New(rand.NewPCG(1, 2))
		z := make([]float64, h.causes())
		sum, sum2, n := 0.0, 0.0, 20000.0
		for range int(n) {
			for i := range z {
				z[i] = rng.NormFloat64()
			}
			d, _ := h.cut(z)
			sum, sum2 = sum+d, sum2+d*d
		}
		return sum2/n - sum/n*sum/n
	}
	best := spread(b.Gain)
	for _, g := range []float64{b.Gain - 0.3, b.Gain + 0.3, 0, 1} {
		if v := spread(g); v < best {
			t.Errorf("a share of %.1f scatters less (%.3g) than %.1f (%.3g)", g, v, b.Gain, best)
		}
	}
}

func TestExp(t *testing.T) {
	for x := -1.5; x <= 1.5; x += 0.01 {
		if got, want := exp(x), math.Exp(x); math.Abs(got/want-1) > 6e-5 {
			t.Errorf("exp(%v) = %v, %v", x, got, want)
		}
	}
}

// A spring pass obeys its two equations: the same setting, and what it takes
// is what the finish sprang off less its own spring.
func TestSpringPass(t *testing.T) {
	job := exampleJob(t, "lock-winch/job.toml")
	r := firstPlanner(t, job, nil)
	feed := r.feeds[3]
	table := r.newTable(0.0125, 0.6, r.finish[0].speed, []float64{feed})
	e := r.newEnding(table, r.finish[0], 0.15)
	w := &chain{rMost: e.made - 0.15}
	n := e.withSpring(&chain{from: w, last: step{kind: SemiFinish, made: e.made}}, cutAt{force: e.last.force}, e.made, 0, 0)
	if n == nil {
		t.Skip("the edge does not take what is left at this feed")
	}
	first, second := n.from.last.depth, n.last.depth
	if sum := e.made + first + second; math.Abs(sum-r.aim) > 1e-6 {
		t.Errorf("lands at %v, aim %v", sum, r.aim)
	}
	setting := e.made + bar.SettingFor(e.radial, r.c, first)
	if got := e.made + first + bar.SettingFor(e.radial, r.c, second); math.Abs(got-setting) > 1e-6 {
		t.Errorf("spring pass set to %v, finish to %v", got, setting)
	}
	if second < r.model.LeastDepth() {
		t.Errorf("takes %v, the edge rubs below %v", second, r.model.LeastDepth())
	}
}

// The margin that the planner reads off its table is the limit of the bar worked
// out anew for the pass, over the stiffness of its cut.
func TestMarginAgainstBar(t *testing.T) {
	r := firstPlanner(t, exampleJob(t, "lock-winch/job.toml"), nil)
	for _, p := range r.v.Passes {
		depth, feed, speed := p.Depth.MM(), p.Feed.MM(), float64(p.Cutting)
		for i, zeta := range r.Job.Machine.Damping {
			rub := r.beam.ProcessDamping(r.model.Edge(depth, feed), usedLand, speed)
			want := r.beam.CutLimit(math.Min(zeta+rub, 0.49)) / r.model.Regen(depth, feed, speed)
			if got := p.Stability.Margin[i]; math.Abs(got/want-1) > 0.02 {
				t.Errorf("pass %d: margin %.3f, worked out anew %.3f", p.N, got, want)
			}
		}
	}
}

// The overhang rule as a cross-check of the figures: a plain steel bar of three
// diameters is quiet at the speed of a carbide cutter and one of eleven is not, in the same iron
// with the same cutter. Source: 4 diameters, two workshop articles on boring-bar
// reach; see testdata of the rules in Why.
func TestOverhangRule(t *testing.T) {
	voice := func(length float64) Chatter {
		b, err := bar.New([]bar.Section{{D: 57, Length: length, E: 207e3, Nu: 0.29, Rho: 7850}}, bar.Root{Radial: 300e3, Tilt: 4e9}, length, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		base := firstPlanner(t, exampleJob(t, "lock-winch/job.toml"), nil)
		s := *base.Setup
		s.beam, s.chatter = b, newChatterLimit(b, s.Job.Machine.Damping[0])
		r := *base
		r.Setup = &s
		return r.stability(r.stiffnessAt(0.5, 0.15, 100), 100).Chatter()
	}
	if got := voice(3 * 57); got != Quiet {
		t.Errorf("3 diameters: %s", got)
	}
	if got := voice(11 * 57); got == Quiet {
		t.Errorf("11 diameters: %s", got)
	}
}

// Where the limits are wide and stops are dear, none is made before the last
// pass; where they are narrow, one always is.
func TestHoldsWhereTheyPay(t *testing.T) {
	semi := func(r *Planner) *Hold {
		for _, p := range r.v.Passes {
			if p.Kind == SemiFinish {
				return p.Hold
			}
		}
		t.Fatal("no semi-finish")
		return nil
	}
	wide := firstPlanner(t, exampleJob(t, "ferry-ramp/job.toml"), func(j *process.Job) { j.Limits.HoldMinutes = 30 })
	if semi(wide) != nil {
		t.Errorf("half an hour's stop for %s", wide.v.Budget)
	}
	narrow := firstPlanner(t, exampleJob(t, "lock-winch/job.toml"), func(j *process.Job) { j.Limits.HoldMinutes = 30 })
	if semi(narrow) == nil {
		t.Errorf("no stop for %s", narrow.v.Budget)
	}
}

// Quill feed: the stickout grows, so the bore is smallest where the bar is
// softest, at the bottom, by 2·F·Δc.
func TestQuillFeedTapers(t *testing.T) {
	job := exampleJob(t, "ferry-ramp/job.toml")
	r := firstPlanner(t, job, func(j *process.Job) {
		j.Bar.Outboard = nil
		j.Bar.Steps = []process.Step{j.Bar.Steps[0]}
		j.Bar.Steps[0].Length = j.Stations[0].To
		j.Bar.CutterAt = j.Bar.Steps[0].Length
		j.Bar.FeedBy, j.Bar.Standoff = process.QuillFeed, j.Bar.CutterAt
	})
	a := r.v.Along
	if a[0].Compliance >= a[len(a)-1].Compliance {
		t.Errorf("compliance %v at the mouth, %v at the bottom", a[0], a[len(a)-1])
	}
	for _, p := range r.v.Passes {
		want := 2 * float64(p.RadialForce) * (r.v.Compliance[1] - r.v.Compliance[0]) / 1e3
		if math.Abs(p.Taper.MM()-want) > 1e-5 {
			t.Errorf("pass %d tapers %v, %v", p.N, p.Taper.MM(), want)
		}
	}
}

// BenchmarkBudget is the chance of landing of one visit, 100,000 trials.
func BenchmarkBudget(b *testing.B) {
	r := firstPlanner(b, exampleJob(b, "lock-winch/job.toml"), nil)
	for b.Loop() {
		r.budget()
	}
}
