package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/slow"
	"borewright/process/ways"
	"borewright/sheets/words"
)

// Of the refused jobs of the sweep each one that two changes free says what would free it,
// in 95 of 100, and what it says, written into the job file, frees it. The judge tries
// every change of a list of its own, and every pair of them; of the planner it has
// whether the changed job is planned. The long form takes all jobs of the sweep, a quarter of
// an hour of one core.
func TestRefusalsSayWhatFrees(t *testing.T) {
	t.Parallel()
	slow.Test(t, "refused jobs of the sweep, each with every pair of changes")
	step := 15
	if slow.Long() {
		step = 1
	}
	r := rand.New(rand.NewPCG(14, 3)) // as TestSweepOfJobs
	refused, told, free, pairs := 0, 0, 0, 0
	for i := range 300 {
		d := draw(r)
		if i%step != 0 {
			continue
		}
		p := Attempt(load(t, d.text()), nil)
		if p.Feasible {
			continue
		}
		refused++
		if p = Make(p.Job); len(p.Free()) > 0 {
			told, free = told+1, free+1
			for _, w := range p.Free() {
				if w.Change.Kind == ways.Both {
					pairs++
				}
				say := words.In(p.Job.Units).Say(w.Fact())
				job, err := applied(t, d.text(), w, "")
				if err != nil {
					t.Errorf("job %d: %s: is not read: %v\n%s", i, say, err, d.text())
				} else if !Attempt(job, nil).Feasible {
					t.Errorf("job %d: %s: as written it is refused\n%s", i, say, d.text())
				}
			}
		} else if how := freedBy(d); how != "" {
			free++
			t.Logf("job %d: nothing is said to free it, and this does: %s\n%s%s", i, how, said(p, p.Reasons[0].What), d.text())
		} else {
			t.Logf("job %d: nothing frees it: %s\n%+v", i, said(p, p.Reasons[0].What), d)
		}
	}
	t.Logf("%d refused, %d can be freed by two changes, %d say by what, with %d pairs", refused, free, told, pairs)
	if pairs == 0 {
		t.Error("nowhere are two changes told together")
	}
	if told < min(free-1, (free*95+99)/100) || refused == 0 { // of a few one may be missed
		t.Errorf("%d refused: of %d that can be freed %d say by what", refused, free, told)
	}
}

// freedBy is one or two changes of a list that free a job; "": none does.
func freedBy(d drawn) string {
	type edit struct {
		what string
		do   func(d *drawn)
	}
	var list []edit
	add := func(do func(d *drawn), what ...any) { list = append(list, edit{fmt.Sprint(what...), do}) }
	for _, share := range []float64{0.5, 0.6, 0.7, 0.8, 0.85, 0.9} {
		if bar := math.Floor(share*d.bore*8) / 8; bar > d.bar {
			add(func(d *drawn) { d.out, d.bar = d.out*d.bar/bar, bar }, "bar ", bar)
		}
	}
	add(func(d *drawn) { d.short = 0.5 }, "half an inch further in")
	add(func(d *drawn) {
		tip := d.bar*d.out - d.short
		d.ahead = 4
		unit := func(in float64) string { return fmt.Sprintf("\"%.4f in\"", in) }
		d.barMore += fmt.Sprintf("cutter_at = %s\noutboard = { at = %s, clearance = %s, stiffness = 50 }\n", unit(tip), unit(tip+3), unit(0.0012))
	}, "outboard bearing")
	add(func(d *drawn) { d.barMore += "feed_by = \"quill\"\n" }, "quill")
	for _, n := range []float64{0.008, 0.016, 0.031, 0.047, 0.062} {
		if n != d.nose {
			add(func(d *drawn) { d.nose = n }, "nose ", n)
		}
	}
	for _, c := range []string{"hss", "carbide", "carbide-coated"} {
		if c != d.cutter {
			add(func(d *drawn) { d.cutter = c }, c)
		}
	}
	for _, v := range []float64{15, 30, 60, 120, 240, 480} {
		add(func(d *drawn) { d.speed = v }, "speed ", v)
	}
	for _, s := range []string{"rake = 10", "rake = 18", "lead = 60", "lead = 90", "edge_radius = \"0.0004 in\""} {
		add(func(d *drawn) { d.more += s + "\n" }, s)
	}
	for _, s := range []string{"preset", "over_bar"} {
		add(func(d *drawn) { d.setBy = s }, s)
	}
	for _, s := range []string{"gauge_error = \"0.0001 in\"", "passes_most = 60", "spring_finish = \"0.0016 in\"", "sing = true"} {
		add(func(d *drawn) { d.limits += s + "\n" }, s)
	}
	add(func(d *drawn) { d.it += 2 }, "two grades wider")
	plans := func(of ...edit) bool {
		x := d
		for _, e := range of {
			e.do(&x)
		}
		job, err := files.Job("job.toml", []byte(x.text()), nil)
		if err != nil || job.Cutter.SpeedFinish > 1.02*job.Material.Speeds[x.cutter].Finish[1] {
			return false // it is not read, or burns the edge
		}
		return Attempt(job, nil).Feasible
	}
	for _, e := range list {
		if plans(e) {
			return e.what
		}
	}
	for i := range list {
		for _, e := range list[:i] {
			if plans(list[i], e) {
				return list[i].what + ", " + e.what
			}
		}
	}
	return ""
}

// Stock that is too thin for two cuts is said to be so: 0.127 mm on diameter and half of
// the tolerance, by an edge rounded to 20 µm, which takes two and a half times that on radius at the least.
func TestTooThinForTwoCuts(t *testing.T) {
	d := drawn{units: "mm", bore: 6, bar: 3, out: 8, stock: 0.005, metal: "cast-aluminum", cutter: "carbide-coated", machine: "cnc-110mm", it: 7, ra: 63, nose: 0.031, setBy: "increment"}
	p := Attempt(load(t, d.text()), nil)
	if p.Feasible || !strings.Contains(said(p, p.Reasons[0].What), "only 0.147 mm is to be cut on diameter, and a semi-finish and a finish by this edge take 0.200 mm at the least") {
		t.Error(said(p, p.Reasons[0].What))
	}
}

// What frees these jobs of the sweep stands far back in the list of changes: an edge of carbide
// with the hone of a finishing insert, and a pair behind many that free nothing. A short run
// takes the first.
func TestWhatFreesStandsFarBack(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(14, 3)) // as TestSweepOfJobs
	left := slow.Rounds(t, "refused jobs of the sweep", 2, 1)
	for i := range 300 {
		d := draw(r)
		if left == 0 || i != 67 && i != 150 {
			continue
		}
		left--
		p := Make(load(t, d.text()))
		free := p.Free()
		if len(free) == 0 {
			t.Errorf("job %d: nothing is said to free it\n%s", i, d.text())
		}
		for _, w := range free {
			say := words.In(p.Job.Units).Say(w.Fact())
			t.Logf("job %d: %s", i, say)
			if job, err := applied(t, d.text(), w, ""); err != nil || !Attempt(job, nil).Feasible {
				t.Errorf("job %d: %s: as written it is refused, or not read: %v", i, say, err)
			}
		}
	}
}
