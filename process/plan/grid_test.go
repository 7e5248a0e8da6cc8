package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/slow"
	"borewright/sheets/words"
)

// drawn is a job drawn from the grid, lengths in inches.
type drawn struct {
	units                  string
	bore, bar, out, stock  float64 // out: stickout over diameter of the bar; stock on diameter
	metal, cutter, machine string
	it, ra                 int // ra in µin
	worn                   bool
	nose, speed            float64 // speed: 0 or ft/min
	setBy                  string
	barMore, more, limits  string  // keys more of the bar, of the cutter and of the limits
	ahead, short           float64 // how much bar stands beyond the tip, and how much less before it
}

// draw takes a job from the grid: bores of 1 to 12 in, bars of 3/4 to 4 in, 3 to 10
// diameters out, stock of 0.005 to 0.5 in, seven metals, three cutters, IT6 to IT10, Ra 16
// to 125 µin, four machines, inch and mm, worn or not.
func draw(r *rand.Rand) drawn {
	for {
		d := drawn{
			units: pick(r, "in", "mm"), bore: pick(r, 1, 1.5, 2, 2.5, 3, 4, 6, 8, 12.0), bar: pick(r, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 4),
			out: float64(pick(r, 3, 4, 5, 6, 7, 8, 10)), stock: pick(r, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5),
			metal:  pick(r, "gray-iron-200hb", "ductile-iron-400", "cast-steel", "steel-1045", "steel-4140", "leaded-bronze", "cast-aluminum"),
			cutter: pick(r, "hss", "carbide", "carbide-coated"), machine: pick(r, "cnc-110mm", "cnc-fixed-format", "hbm-4in", "hbm-5in"),
			it: pick(r, 6, 7, 8, 9, 10), ra: pick(r, 16, 32, 63, 125), worn: r.IntN(2) == 0, nose: 0.031, setBy: "increment",
		}
		if d.bar < 0.4*d.bore || d.bar > 0.8*d.bore || d.bar*d.out < 3 {
			continue // no bar that anybody would take for this bore
		}
		return d
	}
}

func pick[T any](r *rand.Rand, from ...T) T { return from[r.IntN(len(from))] }

// text is the job as it is written.
func (d drawn) text() string {
	long := math.Min(d.bar*d.out-1.75, 1.5*d.bore)
	from := d.bar*d.out - 1.5 - long
	size := d.bore + d.stock
	u := func(in float64) string {
		if d.units == "in" {
			return fmt.Sprintf("%.4f", in)
		}
		return fmt.Sprintf("%.3f", in*25.4)
	}
	ra, speed, wear := fmt.Sprint(d.ra), "", ""
	if d.units == "mm" {
		ra = fmt.Sprintf("%.1f", float64(d.ra)/40)
	}
	if d.speed > 0 {
		v := d.speed
		if d.units == "mm" {
			v *= 0.3048
		}
		speed = fmt.Sprintf("speed = { rough = %.0f, finish = %.0f }\n", v, v)
	}
	if least := d.bore / 2; d.worn {
		a := d.stock / 2 // a third of the stock is worn away on one side
		wear = fmt.Sprintf("wear = [{ depth = %s, at = [0, 90, 180, 270], radius = [%s, %s, %s, %s] }]\n", u(from+long/2), u(least), u(least+a/3), u(least+a/6), u(least))
	}
	return fmt.Sprintf("units = %q\nnumber = \"T\"\nrevision = \"-\"\ntitle = \"drawn\"\nmachine = %q\nmaterial = %q\n", d.units, d.machine, d.metal) +
		fmt.Sprintf("station = [{ name = \"a\", from = %s, to = %s, diameter = %s }]\n", u(from), u(from+long), u(d.bore)) +
		fmt.Sprintf("[[bore]]\nstation = \"a\"\nrepair = \"rebore\"\nfinish = { diameter = %s, fit = \"H%d\" }\nra = %s\n%s", u(size), d.it, ra, wear) +
		fmt.Sprintf("[bar]\nsteps = [{ diameter = %s, length = %s }]\n%s", u(d.bar), u(d.bar*d.out-d.short+d.ahead), d.barMore) +
		fmt.Sprintf("[cutter]\nmaterial = %q\nnose_radius = %s\nset_by = %q\nleast = %s\nmost = %s\n%s%s[limits]\n%s", d.cutter, u(d.nose), d.setBy, u(0.9*d.bore), u(1.2*d.bore+d.stock), speed, d.more, d.limits)
}

// What holds of every plan, over jobs drawn from the whole range: speeds and feeds that
// the machine has, sizes that rise to limits that are kept, roughness, spring and depth
// within what is asked, no rough fed below 0.003 in, and hardly a finish of less than
// 0.0015 in on radius in limits of IT7 and wider (where nothing else lands). -v prints each job and the sum.
func TestSweepOfJobs(t *testing.T) {
	t.Parallel()
	n := slow.Rounds(t, "jobs drawn", 300, 6)
	r := rand.New(rand.NewPCG(14, 3))
	var feasible, sing, thin int
	said4h := false // one is enough: what shortens it is searched
	longest, least, most := 0.0, math.Inf(1), 0.0
	for i := range n {
		d := draw(r)
		job, err := files.Job("job.toml", []byte(d.text()), nil)
		if err != nil {
			t.Fatalf("job %d: %v\n%s", i, err, d.text())
		}
		p := Attempt(job, nil)
		line := fmt.Sprintf("%3d %s bore %-4g bar %-4g out %-2g stock %-5g %-16s %-14s %-16s IT%-2d Ra %-3d worn %-5v", i, d.units, d.bore, d.bar, d.out, d.stock, d.metal, d.cutter, d.machine, d.it, d.ra, d.worn)
		if !p.Feasible {
			t.Log(line, "refused:", said(p, p.Reasons[0].What))
			for _, x := range p.Reasons {
				if said(p, x.What) == "" {
					t.Errorf("job %d is refused without a word", i)
				}
			}
			continue
		}
		feasible++
		v := p.Bores[0].Visits[0]
		voice := setup.Quiet
		for _, q := range v.Passes {
			voice = setup.Louder(voice, q.Stability.Chatter())
			least, most = math.Min(least, q.Feed.Inches()), math.Max(most, q.Feed.Inches())
		}
		if voice != setup.Quiet {
			sing++
		}
		longest = math.Max(longest, p.Minutes)
		if long := minutesCut(v) > 240; long && !said4h {
			said4h = true
			if p = Make(job); !strings.Contains(strings.Join(words.In(job.Units).Sentences(p.Cautions), " "), "in the cut for") {
				t.Errorf("job %d: %.0f min of cutting, and nothing says what would shorten it", i, minutesCut(v))
			}
		}
		t.Logf("%s %2d passes %4.0f min, last at %.4f in/rev, %s", line, len(v.Passes), p.Minutes, v.Passes[len(v.Passes)-1].Feed.Inches(), said(p, fact.New(voice)))
		if d.it >= 7 && thinFinish(v) {
			thin++
			t.Logf("job %d finishes with less than 0.0015 in", i)
		}
		for _, fault := range unsound(job, v, p.Cautions) {
			t.Errorf("job %d: %s\n%s", i, fault, d.text())
		}
	}
	t.Logf("%d jobs: %d%% feasible, the longest %.0f min, feeds %.4f to %.4f in/rev, %d%% of the plans may sing", n, 100*feasible/n, longest, least, most, 100*sing/max(1, feasible))
	if thin > 1+feasible/20 {
		t.Errorf("%d of %d plans finish with less than 0.0015 in", thin, feasible)
	}
	if feasible < n/4 || feasible > n*9/10 {
		t.Errorf("%d of %d feasible: the grid tells nothing", feasible, n)
	}
}

// minutesCut is how long the cutter is in the cut.
func minutesCut(v Visit) (min float64) {
	for _, q := range v.Passes {
		min += q.Minutes
	}
	return min
}

// thinFinish is whether the finish takes less than 0.0015 in on radius, by more than
// half a graduation of the dial on diameter.
func thinFinish(v Visit) bool {
	for _, q := range v.Passes {
		if q.Kind == schedule.Finish && q.Depth.Inches() < 0.0015-0.0001 {
			return true
		}
	}
	return false
}

// unsound is what does not hold of a visit that must hold of every one.
func unsound(job *process.Job, v Visit, cautions []fact.Fact) (faults []string) {
	bad := func(format string, a ...any) { faults = append(faults, fmt.Sprintf(format, a...)) }
	on := func(r process.Range, x float64) bool {
		if len(r.Steps) == 0 {
			return x >= r.Least*0.999 && x <= r.Most*1.001
		}
		for _, s := range r.Steps {
			if math.Abs(x-s) <= 0.001*s {
				return true
			}
		}
		return false
	}
	size, roughs := v.Start, qty.RevPerMin(0)
	for i, q := range v.Passes {
		if q.Kind == schedule.Rough {
			if roughs != 0 && q.Speed != roughs {
				bad("pass %d roughs at %v, the one before it at %v", q.N, q.Speed, roughs)
			}
			roughs = q.Speed
		}
		if !on(job.Machine.Speeds, float64(q.Speed)) {
			bad("pass %d turns at %v, which the machine has not", q.N, q.Speed)
		}
		if f := q.Feed.MM(); !on(job.Machine.Feeds, f) && len(job.Machine.Feeds.Steps) > 0 || f > job.Limits.FeedMost.MM()*1.001 {
			bad("pass %d is fed at %g mm", q.N, f)
		}
		if q.Expected <= size && q.Kind != schedule.Spring {
			bad("pass %d takes nothing: %v from %v", q.N, q.Expected.MM(), size.MM())
		}
		// A setting is a whole graduation: the depth may come out half of one over.
		if q.Depth > job.Limits.DepthMost+job.Machine.SetDial/2+qty.Micrometre {
			bad("pass %d is %v deep", q.N, q.Depth.MM())
		}
		if f := q.Feed.Inches(); q.Kind == schedule.Rough && f < 0.00299 {
			bad("a rough is fed at %.4f in", f)
		}
		size = q.Expected
		if last := i == len(v.Passes)-1; last {
			f := job.Bores[0].Finish
			// What the gauge may find before anything was measured is wider than the limits.
			if q.Expected < f.Low || q.Expected > f.High {
				bad("the last lands at %v, limits %v to %v", q.Expected.MM(), f.Low.MM(), f.High.MM())
			}
			if q.Ra.Microns() > 1.01*job.Bores[0].Ra.Microns() {
				bad("Ra %v for %v", q.Ra.Microns(), job.Bores[0].Ra.Microns())
			}
			told := slices.ContainsFunc(cautions, func(c fact.Fact) bool { return c.Kind == schedule.SpringsMore })
			if most := max(job.Limits.SpringFinish, f.High.Minus(f.Low)/2); q.Spring > most+qty.Micrometre/10 && !told {
				bad("the last springs %v, %v allowed", q.Spring.MM(), most.MM())
			}
		}
	}
	return faults
}
