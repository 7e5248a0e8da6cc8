package passes_test

import (
	"cmp"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// example reads one of the example jobs, changed in text.
func example(t testing.TB, name string, pairs ...string) *process.Job {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job(filepath.Base(name), []byte(strings.NewReplacer(pairs...).Replace(string(data))), nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// millOf is the mill of a job as plain figures: what the edge and the bar need.
func millOf(job *process.Job, metal *process.Material) handMill {
	c := job.Cutter
	m := handMill{
		kc11: metal.Kc11 * c.Material.Force, mc: metal.Mc, ratio: metal.ThrustRatio, fall: metal.ThrustFall, rake0: metal.Rake0, raFactor: metal.RaFactor,
		nose: c.NoseRadius.MM(), lead: c.Lead, trail: c.Trail, rake: c.Rake, rounding: c.EdgeRadius.MM(), minChip: c.Material.MinChip,
		radial: job.Machine.Radial, tilt: job.Machine.Tilt, flank: 4.45 * metal.Hardness, // 890 N/mm² at 200 HB
	}
	for _, s := range job.Bar.Steps {
		m.steps = append(m.steps, handStep{s.Diameter.MM(), s.Length.MM()})
		m.modulus, m.nu = s.Material.E, s.Material.Nu
	}
	return m
}

// settles is the depth that an edge cuts where the bar's push on it leaves so much of
// an overlap, found by halving.
func settles(push func(depth float64) float64, overlap float64) float64 {
	lo, hi := 0.0, math.Max(0, overlap)
	for range 60 {
		if a := (lo + hi) / 2; a+push(a) < overlap {
			lo = a
		} else {
			hi = a
		}
	}
	return (lo + hi) / 2
}

// through follows a tip through a bore and out again as the sheet says: set to a
// diameter, in a bore of one, it leaves another. Fed out, the edge goes the other way:
// its back leads, what stands in its way is what the bar sprang off going in, and the
// feed force bends the bar the other way.
func (m handMill) through(set, bore, feed, speed float64, fed bool) float64 {
	c, lean, back := m.compliance(), m.lean(set/2)*cmp.Or(m.armBy, 1), m
	back.lead, back.trail = m.trail, m.lead
	in := settles(func(a float64) float64 { return c * m.cut(a, feed, speed, 0).against(lean) }, (set-bore)/2)
	r := bore/2 + in
	if fed {
		r += settles(func(a float64) float64 { return c * back.cut(a, feed, speed, 0).against(-lean) }, set/2-r)
	}
	return 2 * r
}

// No window that the sheet prints excludes what its own pass produces: each pass is
// cut at its setting and brought out as the sheet says, in the bore that the pass
// before was to leave, by the figures of the books. The last lands in its limits.
// Where the way out is shallower than the edge cuts, the window holds both that it
// cuts and that it rubs.
func TestNoWindowExcludesItsOwnPass(t *testing.T) {
	round := `roundness = 0.0004`
	ways := map[string]*process.Job{
		"by hand, as it comes":       example(t, "lock-winch/manual.toml"),
		"by hand, fed out":           example(t, "lock-winch/manual.toml", round, round+"\nway_out = \"feed\""),
		"by hand, with a line":       example(t, "lock-winch/manual.toml", round, round+"\nway_out = \"draw\"\nline_at = 180"),
		"a control with the stop":    example(t, "lock-winch/job.toml"),
		"a control, fed out as well": example(t, "lock-winch/job.toml", round, round+"\nway_out = \"feed\""),
	}
	names := []string{"a control, fed out as well", "by hand, with a line", "a control with the stop", "by hand, as it comes", "by hand, fed out"}
	for _, name := range names[:slow.Rounds(t, "ways out", len(names), 2)] {
		job := ways[name]
		t.Run(name, func(t *testing.T) {
			mill := *job.Machine // a bar this slender lands so, fed out, on a spindle that turns truly
			mill.Runout = qty.Micrometre
			job.Machine = &mill
			p := plan.Make(job)
			if !p.Feasible {
				t.Fatal(p.Reasons)
			}
			if strings.Contains(name, "fed out") != (p.Bores[0].Visits[0].Passes[0].Out.By == process.FeedOut) {
				t.Fatal("it comes out otherwise")
			}
			rubbed := 0
			// What a pass leaves of the old shape: what the spindle makes comes besides.
			shape := func(q schedule.Pass) float64 { return q.OutOfRound.MM() - job.Machine.Runout.MM() }
			for _, v := range p.Bores[0].Visits {
				m := millOf(job, v.Material)
				least := 2 * m.minChip * m.rounding
				bore := v.Start.MM()
				for i, q := range v.Passes {
					if i > 0 && v.Passes[i-1].Kind != schedule.Witness { // the middle of the bore that the pass before leaves; a band leaves the old one
						bore = v.Passes[i-1].Expected.MM() - shape(v.Passes[i-1])
					}
					fed := q.Out.By == process.FeedOut
					m.worn = q.Edge.Mean.Likely
					feed, speed := q.Feed.MM(), float64(q.Cutting)
					size := m.through(q.Setting.MM(), bore, feed, speed, fed)
					made := size + shape(q) // what is left of the old shape, in the middle of it
					if q.Kind == schedule.Witness {
						made = size // it is gauged where it cut
					}
					if d := made - q.Expected.MM(); math.Abs(d) > 0.002+0.02*q.Spring.MM() {
						t.Errorf("visit %d, pass %d: comes out %.4f, %.4f expected", v.N, q.N, made, q.Expected.MM())
					}
					if made < q.Low.MM() || made > q.High.MM() {
						t.Errorf("visit %d, pass %d: comes out %.4f, the sheet says %.4f to %.4f", v.N, q.N, made, q.Low.MM(), q.High.MM())
					}
					if d := q.Setting.MM() - size - q.Spring.MM(); math.Abs(d) > 0.001+0.02*q.Spring.MM() {
						t.Errorf("visit %d, pass %d: springs %.4f by hand, %.4f planned", v.N, q.N, q.Setting.MM()-size, q.Spring.MM())
					}
					if !fed {
						continue
					}
					in := m.through(q.Setting.MM(), bore, feed, speed, false)
					if d := (size-in)/2 - q.OutDepth.MM(); math.Abs(d) > 0.0005+0.02*q.OutDepth.MM() {
						t.Errorf("visit %d, pass %d: the way out takes %.4f by hand, %.4f planned", v.N, q.N, (size-in)/2, q.OutDepth.MM())
					}
					if (size-in)/2 < least {
						rubbed++
						if rub := in + shape(q); rub < q.Low.MM() {
							t.Errorf("visit %d, pass %d: rubbing out it stays at %.4f, the sheet says %.4f at least", v.N, q.N, rub, q.Low.MM())
						}
					}
				}
				last := v.Passes[len(v.Passes)-1]
				if size := last.Expected; size < v.Limits.Low || size > v.Limits.High {
					t.Errorf("visit %d lands at %.4f, limits %.4f to %.4f", v.N, size.MM(), v.Limits.Low.MM(), v.Limits.High.MM())
				}
				if semi := v.Passes[len(v.Passes)-2]; semi.Out.By != last.Out.By || semi.Out.Shift != last.Out.Shift || semi.Out.Clock != last.Out.Clock {
					t.Errorf("visit %d: the semi-finish comes out by %v, the finish by %v", v.N, semi.Out, last.Out)
				}
			}
			t.Logf("%d ways out may rub", rubbed)
		})
	}
}

// The window of a pass that is fed out holds what forces off by all that the job says make of
// it, and little more: what the bar springs off more going in stands in the way coming
// out. Nothing else is in doubt here but the feed force, by the share of FeedAlone.
func TestWindowOfAPassFedOut(t *testing.T) {
	judged := 0
	for name, change := range map[string]func(*handMill){
		"slender":   func(m *handMill) { m.steps = []handStep{{60, 360}} },
		"soft nose": func(m *handMill) { m.radial, m.tilt = 8, 0.4 },
	} {
		m := usualMill()
		m.start, m.low, m.high, m.springRough, m.springFinish, m.moreBore = 94, 99.9, 100.1, 0.5, 0.2, "way_out = \"feed\"\n"
		change(&m)
		m.sure()
		m.forceError = 0.3
		_, ps := m.plan(t)
		bore := m.start
		for _, q := range ps {
			if q.Out.By != process.FeedOut || q.Kind > schedule.Rough {
				break
			}
			size := func(force, feed float64) float64 {
				off := m
				off.kc11 *= force
				off.armBy = feed
				return off.through(q.Setting.MM(), bore, q.Feed.MM(), float64(q.Cutting), true)
			}
			const little = 0.01
			at := size(1, 1)
			all := m.forceError * (at - size(1+little, 1)) / little
			feed := feedAlone * m.forceError * (at - size(1, 1+little)) / little
			half := math.Hypot(all, feed)
			rubs := q.OutDepth.MM() * 2
			if rubs >= 4*m.minChip*m.rounding { // it cuts for certain
				rubs = 0
			}
			for _, w := range [][2]float64{{q.Expected.MM() - q.Low.MM(), half + rubs}, {q.High.MM() - q.Expected.MM(), half}} {
				if math.Abs(w[0]-w[1]) > 0.0012+0.03*w[1] { // sizes are printed to a micron, and rounded on the way
					t.Errorf("%s, pass %d: the window reaches %.4f from what is expected, by hand %.4f: all forces %.4f, feed force %.4f, rubbing %.4f", name, q.N, w[0], w[1], all, feed, rubs)
				}
			}
			judged++
			bore = q.Expected.MM()
		}
	}
	if judged < 3 {
		t.Errorf("%d passes judged", judged)
	}
}
