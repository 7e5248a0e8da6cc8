package plan

import (
	"bytes"
	"math"
	"os"
	"slices"
	"sync"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/qty"
)

// guided is the job of testdata/process/good/guided.toml: three webs, the far one guides the bar for
// the middle one, and that for the near one.
func guided(t *testing.T) *process.Job {
	t.Helper()
	data, err := os.ReadFile("../../testdata/process/good/guided.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("guided.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// guidedPlan is its plan, made once for all tests: they read it, and change nothing.
func guidedPlan(t *testing.T) *Plan {
	t.Helper()
	job := guided(t)
	guidedOnce.Do(func() { guidedMade = attempt(job, nil) })
	return guidedMade
}

var (
	guidedOnce sync.Once
	guidedMade *Plan
)

// TestGuidesComeFirst: a bore that carries the bar is finished before the bore is begun that it
// carries it for, whatever the order of the file; the order says so, and each bush is fitted once
// and taken out before the next.
func TestGuidesComeFirst(t *testing.T) {
	p := guidedPlan(t)
	if !p.Feasible {
		t.Fatal(p.Reasons)
	}
	var order []string
	said := map[string][]fact.Kind{}
	for _, at := range p.Turns() {
		b := p.Bores[at[0]]
		order = append(order, b.Station.Name)
		for _, f := range b.Visits[at[1]].Before {
			said[b.Station.Name] = append(said[b.Station.Name], f.Kind)
		}
	}
	if want := []string{"far web", "middle web", "near web", "near web"}; !slices.Equal(order, want) {
		t.Errorf("cut in the order %v", order)
	}
	for name, want := range map[string][]fact.Kind{
		"far web":    nil,
		"middle web": {FitBush, MindBush},
		"near web":   {OutOfBush, FitBush, MindBush, RestCasting, RestLine, RestGauge},
	} {
		if got := slices.DeleteFunc(said[name], func(k fact.Kind) bool {
			return k != FitBush && k != MindBush && k != OutOfBush && k != RestCasting && k != RestLine && k != RestGauge
		}); !slices.Equal(got, want) {
			t.Errorf("before %s: %v, want %v", name, got, want)
		}
	}
	if p.Order[0].Kind != OrderCarries || p.Order[0].Nth(1) != fact.Name("far web") || p.Order[1].Kind != OrderCarries || p.Order[1].Nth(1) != fact.Name("middle web") {
		t.Errorf("the order says %v", p.Order)
	}
	if p.Several() != true || p.Bores[2].Visits[0].Tools != nil || p.Bores[0].Visits[0].Tools == p.Bores[1].Visits[0].Tools {
		t.Error("the bores are not told apart by the bush that the bar runs in")
	}
}

// TestGuideInDoubt: what is not known of the place of a guiding bore is in the place of the bore that
// it guides, √(p² + (r/2)² + a² + u²) and half the play, by the share that the cutter follows it by; a
// place that the job states is known. The chain goes on from bore to bore.
func TestGuideInDoubt(t *testing.T) {
	const micron = 1e-3
	bushes := func(p *Plan) (near, middle [3]float64) {
		of := func(i int) [3]float64 {
			b := p.Bores[i].Visits[0].Bush
			return [3]float64{b.Off.MM(), b.Aside.MM(), b.Follows}
		}
		if p.Bores[2].Visits[0].Bush != nil {
			t.Error("the far web is bored by a bar that ends in the air")
		}
		return of(0), of(1)
	}
	near, middle := bushes(guidedPlan(t))
	last := 0.0005 * 25.4 / 2 // what a plan prints is rounded up
	if middle[0] != 0.010 || math.Abs(middle[1]-middle[2]*math.Hypot(0.010, 0.010)) > last {
		t.Errorf("the middle web's bush: %v", middle)
	}
	const runout = 0.003 // of the machine, from memory
	off := math.Sqrt(0.013*0.013 + runout*runout/4 + middle[1]*middle[1])
	if math.Abs(near[0]-off) > micron || math.Abs(near[1]-near[2]*math.Hypot(off, 0.010)) > micron {
		t.Errorf("the near web's bush: %v, want off by %.4f", near, off)
	}
	job := guided(t)
	job.Bores[0].Guide.PlaceError = 5 * qty.Micrometre
	job.Bores[0].CutBy.Bar.Outboard.PlaceError = 5 * qty.Micrometre
	job.Places["bore[0].guide.place_error"] = job.Places["bore[0].guide"]
	if swept, _ := bushes(attempt(job, nil)); math.Abs(swept[0]-0.005) > micron/10 {
		t.Errorf("a bush that was swept: %v", swept)
	}
}

// TestBarOfABushHasItsWall: the plain bar that is told to pass at the most leaves the bush that it runs in
// its wall. One so thick is read, and one thicker by a step of the last decimal is not.
func TestBarOfABushHasItsWall(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/reel-stand/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	r := attempt(job, nil).Bores[0].Visits[0].Reach
	plain := "[ { diameter = 3.5, length = 1.5 }, { diameter = 2.25, length = 34.5 } ]"
	if !bytes.Contains(data, []byte(plain)) {
		t.Fatal("the bar of the job is another")
	}
	for more, reads := range map[qty.Length]bool{0: true, job.Round(0.001, 0.0001): false} {
		d := job.Units.Bare(qty.Plain(r.Largest.Length() + more))
		_, err := files.Job("job.toml", bytes.Replace(data, []byte(plain), []byte("[ { diameter = "+d+", length = 36 } ]"), 1), nil)
		if (err == nil) != reads {
			t.Errorf("Ø%s of the Ø%s told: %v", d, job.Units.Bare(r.Largest), err)
		}
	}
}
