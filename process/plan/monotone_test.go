package plan_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	. "borewright/process/plan"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// drawnJob is an invented job in mm: one bore, rebored.
type drawnJob struct {
	machine, metal, cutter string
	bore, stock            float64 // finished size, and what is to be cut of it, on diameter
	from, length           float64 // depth of its mouth, and its length
	bar, stickout          float64 // bar, and how far it stands out
	e                      string  // bar material
	it                     int     // 7 to 10
	ra                     float64
	nose                   float64
}

// tolerance of ISO 286-1, table 1, mm, of sizes from 30 to 300, IT7 to IT10.
func (d drawnJob) tolerance() float64 {
	for _, row := range []struct {
		most float64
		it   [4]float64
	}{
		{50, [4]float64{0.025, 0.039, 0.062, 0.100}},
		{80, [4]float64{0.030, 0.046, 0.074, 0.120}},
		{120, [4]float64{0.035, 0.054, 0.087, 0.140}},
		{180, [4]float64{0.040, 0.063, 0.100, 0.160}},
		{250, [4]float64{0.046, 0.072, 0.115, 0.185}},
		{315, [4]float64{0.052, 0.081, 0.130, 0.210}},
	} {
		if d.bore <= row.most {
			return row.it[d.it-7]
		}
	}
	panic("no such bore")
}

func (d drawnJob) text() string {
	return fmt.Sprintf(`units = "mm"
number = "D-1"
revision = "-"
title = "drawn"
machine = %q
material = %q
station = [ { name = "case", from = %.1f, to = %.1f, diameter = %.3f, swept = true } ]
[[bore]]
station = "case"
repair = "rebore"
finish = { low = %.3f, high = %.3f }
ra = %.2f
[bar]
steps = [ { diameter = %.1f, length = %.1f } ]
material = %q
[cutter]
material = %q
nose_radius = %.1f
lead = 75
least = %.1f
most = %.1f
`, d.machine, d.metal, d.from, d.from+d.length, d.bore-d.stock, d.bore, d.bore+d.tolerance(), d.ra, d.bar, d.stickout, d.e, d.cutter, d.nose, d.bar*0.5, d.bore*1.2)
}

func drawJob(rng *rand.Rand) drawnJob {
	of := func(s ...string) string { return s[rng.IntN(len(s))] }
	num := func(s ...float64) float64 { return s[rng.IntN(len(s))] }
	d := drawnJob{
		machine: of("hbm-4in", "hbm-5in", "cnc-110mm", "cnc-fixed-format"),
		metal:   of("gray-iron-200hb", "ductile-iron-600", "cast-steel", "steel-1045", "leaded-bronze", "cast-aluminum", "stainless-304"),
		cutter:  of("hss", "carbide", "carbide-coated"),
		bore:    num(32, 45, 60, 80, 100, 130, 170, 220, 280), stock: num(0.2, 0.4, 0.8, 1.5, 3, 6, 12),
		it: 7 + rng.IntN(4), ra: num(0.6, 0.8, 1.6, 3.2), nose: num(0.2, 0.4, 0.8, 1.2), e: "steel",
	}
	d.bar = d.bore * num(0.55, 0.65, 0.75)
	if d.bar > 100 {
		d.bar = 100
	}
	d.stickout = d.bar * num(3, 4, 5, 6, 7, 8, 9, 10)
	d.length = d.bar * num(0.6, 1, 1.6, 3)
	d.from = d.stickout - d.length - 25
	if d.from < 5 {
		d.from, d.length = 5, d.stickout-30
	}
	return d
}

func (d drawnJob) plan(t testing.TB) *Plan {
	t.Helper()
	return Sought(load(t, d.text()))
}

// easier are changes after which a job is not harder to do.
var easier = []struct {
	name   string
	change func(*drawnJob, *rand.Rand)
}{
	{"a stiffer bar", func(d *drawnJob, _ *rand.Rand) { d.e = "tungsten-alloy" }},
	{"wider limits", func(d *drawnJob, r *rand.Rand) { d.it += 1 + r.IntN(3) }},
	{"rougher", func(d *drawnJob, r *rand.Rand) { d.ra *= 2 }},
	{"less stock", func(d *drawnJob, r *rand.Rand) { d.stock *= 0.7 + 0.25*r.Float64() }},
}

// A job that is easier in one thing is planned no longer by more than a fiftieth, but for
// few: cost is not time alone. A bar that could sing is turned slower and fed finer, which is
// weighed in minutes, and what a stiffer bar saves may be spent on quiet.
func TestEasierIsSeldomLonger(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	pairs := slow.Rounds(t, "pairs of jobs", 300, 8)
	feasible, longer := 0, 0
	for n := 0; n < pairs; n++ {
		d := drawJob(rng)
		c := easier[n%len(easier)]
		e := d
		c.change(&e, rng)
		if e.it > 10 {
			e.it = 10
		}
		a, b := d.plan(t), e.plan(t)
		if !a.Feasible {
			continue
		}
		feasible++
		if x, y := a.Minutes, b.Minutes; !b.Feasible || y > 1.02*x {
			longer++
			t.Logf("%s: %.1f min and then %.1f, feasible %v: %+v\n%s\n%s", c.name, x, y, b.Feasible, d, passesOf(a), passesOf(b))
		}
	}
	t.Logf("%d of %d pairs are longer", longer, feasible)
	if longer > 1+feasible/20 {
		t.Errorf("%d of %d pairs are longer", longer, feasible)
	}
}

func passesOf(p *Plan) string {
	var b strings.Builder
	for _, v := range p.Bores[0].Visits {
		for _, q := range v.Passes {
			fmt.Fprintf(&b, "  %s %.3f f%.3f n%.0f %.1fmin m%.2f hone %v\n", q.Kind, q.Depth.MM(), q.Feed.MM(), float64(q.Speed), q.Minutes, q.Stability.Middle(), q.Edge.Honed)
		}
	}
	return b.String()
}

// A shop roughs at no feed below 0.003 in and finishes with no less than 0.0015 in on
// radius in limits of IT7 and wider (common practice, no source). A finish may be thinner where
// nothing else lands: seldom.
func TestCustomOfTheShop(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 2))
	feasible, thin := 0, 0
	for range slow.Rounds(t, "drawn jobs", 200, 10) {
		d := drawJob(rng)
		p := Sought(load(t, d.text()))
		if !p.Feasible {
			continue
		}
		feasible++
		for _, v := range p.Bores[0].Visits {
			for _, q := range v.Passes {
				if q.Kind == schedule.Rough && q.Feed.Inches() < 0.003-1e-6 {
					t.Errorf("%+v: a rough at %.4f in a turn\n%s", d, q.Feed.Inches(), passesOf(p))
				}
				if q.Kind == schedule.Finish && q.Depth.Inches() < 0.0014 && d.stock > 0.3 {
					thin++
					t.Logf("%+v: a finish takes %.5f in\n%s", d, q.Depth.Inches(), passesOf(p))
				}
			}
		}
	}
	if thin > feasible/50 {
		t.Errorf("%d of %d finishes are thin", thin, feasible)
	}
}
