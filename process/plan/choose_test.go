package plan_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
)

// fromRack reads a shipped job with the lists it names, as they are after an edit.
func fromRack(t testing.TB, name string, edit func(path string, data []byte) []byte) *process.Job {
	t.Helper()
	dir := "../../testdata/jobs/" + name + "/"
	read := func(path string) ([]byte, error) {
		data, err := os.ReadFile(dir + path)
		if err == nil && edit != nil {
			data = edit(path, data)
		}
		return data, err
	}
	data, err := read("job.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, read)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// priceOf is what a plan is worth to the judge, in minutes, by what README says of it: its time,
// 12 minutes for each halving of a pass's margin below the edge of chatter (at the middle of what
// damps it, six halvings at the most), and 240 minutes times the chance that a visit misses.
func priceOf(p *Plan) float64 {
	if !p.Feasible {
		return math.Inf(1)
	}
	sum := p.Minutes
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			for _, q := range v.Passes {
				if m := math.Sqrt(q.Stability.Margin[0] * q.Stability.Margin[1]); m < 1 {
					sum += 12 * math.Min(6, -math.Log2(m))
				}
			}
			if v.Budget != nil {
				sum += 240 * (1 - v.Budget.Chance)
			}
		}
	}
	return sum
}

// judged are the jobs that the exhaustive judge sees: the example, and changed so that other pairs
// are best or hardly any do.
var judged = []struct {
	name   string
	change []string
}{
	{"bar named", []string{`bars     = "rack.toml"`, "bars     = \"rack.toml\"\nbar.name = \"C 60\""}},
	{"as it is", nil},
	{"clamped anywhere", []string{`{ diameter = 60, length = 340 } ]`, "{ diameter = 60, length = 340 } ]\nstickout = [240, 420]", `{ diameter = 50, length = 340 } ]`, "{ diameter = 50, length = 340 } ]\nstickout = [240, 420]"}},
	{"no heavy metal", []string{`material = "tungsten-alloy"`, ``}},
	{"fine", []string{`ra      = 1.6`, `ra      = 0.8`}},
	{"iron", []string{"ductile-iron-400", "gray-iron-200hb"}},
	{"steel", []string{"ductile-iron-400", "steel-1045"}},
	{"wide", []string{`fit = "H7"`, `fit = "H9"`}},
	{"deep", []string{`from = 260.0, to = 295.0`, `from = 262.0, to = 310.0`}},
	{"cutter named", []string{`bars     = "rack.toml"`, "bars     = \"rack.toml\"\ncutter.name = \"K3 high-speed\""}},
	{"a bore names its bar", []string{"station = \"rear web\"\nrepair", "station = \"rear web\"\nbar = \"C 60\"\nrepair"}},
	{"none would do", []string{`fit = "H7"`, `fit = "H5"`}},
	{"by hand", []string{"cnc-110mm", "hbm-4in"}},
	{"slower, set apart", []string{"bars     =", "cutter.set_by = \"over_bar\"\nlimits.speed_most = 120\nbars     ="}},
}

// TestChoiceAgainstAll plans every pair of bar and cutter in full, and holds the choice against
// them: none is better by the judge's own price, what is told of a pair is what its plan gives, and
// no pair that is refused would do.
func TestChoiceAgainstAll(t *testing.T) {
	rounds := slow.Rounds(t, "jobs, each planned with every bar and cutter", len(judged), 1)
	for _, row := range judged[:rounds] {
		change := row.change
		t.Run(row.name, func(t *testing.T) {
			t.Parallel()
			job := fromRack(t, "net-hauler", func(_ string, data []byte) []byte {
				for i := 0; i+1 < len(change); i += 2 {
					data = bytes.ReplaceAll(data, []byte(change[i]), []byte(change[i+1]))
				}
				return data
			})
			chosen, err := Tooled(job, nil)
			if err != nil {
				t.Fatal(err)
			}
			full := map[string]float64{}
			best := math.Inf(1)
			for _, c := range chosen.Candidates {
				b, k := find(job, c)
				if k != nil && k.For != candidate.AnyWork {
					continue
				}
				at := math.Inf(1)
				if one, err := files.With(job, b, k); err == nil {
					p := Make(one)
					at = priceOf(p)
					if c.Planned && (c.Feasible != p.Feasible || c.Feasible && (math.Abs(c.Reckoned()-at) > 1e-6 || c.Minutes != p.Minutes)) {
						t.Errorf("%s with %s is told as %+v, and is worth %.2f", c.Bar, c.Cutter, c, at)
					}
				}
				if !c.Why.None() && !math.IsInf(at, 1) {
					t.Errorf("%s with %s is refused (%v), and is worth %.1f", c.Bar, c.Cutter, c.Why, at)
				}
				if !c.Planned && c.Why.None() && (c.Minutes > 1.25*at || c.Minutes < 0.7*at) {
					t.Logf("%s with %s sketches to %.1f and is worth %.1f", c.Bar, c.Cutter, c.Minutes, at)
				}
				full[c.Bar+c.Cutter] = at
				best = math.Min(best, at)
			}
			first := chosen.Candidates[0]
			if first.Margin[0] >= 1 { // quiet for certain, for a little more
				best *= 1.05
			}
			if got := full[first.Bar+first.Cutter]; got > best+1e-9 && !(math.IsInf(got, 1) && math.IsInf(best, 1)) {
				t.Errorf("%s with %s is chosen, worth %.2f; the best is worth %.2f", first.Bar, first.Cutter, got, best)
			}
			if chosen.Bar.Name != first.Bar || chosen.Cutter.Name != first.Cutter {
				t.Errorf("the job has %s with %s", chosen.Bar.Name, chosen.Cutter.Name)
			}
			t.Logf("%s with %s: %.1f", first.Bar, first.Cutter, best)
		})
	}
}

func find(job *process.Job, c candidate.Candidate) (bar *process.ShopBar, cutter *process.ShopCutter) {
	for i := range job.Shop {
		if job.Shop[i].Name == c.Bar && job.Open.Bar {
			bar = &job.Shop[i]
		}
	}
	for i := range job.Drawer {
		if job.Drawer[i].Name == c.Cutter && job.Open.Cutter {
			cutter = &job.Drawer[i]
		}
	}
	return bar, cutter
}

// bigRack is the net hauler's job with twenty bars and twenty cutters.
func bigRack(t testing.TB) *process.Job {
	job := fromRack(t, "net-hauler", nil)
	bar, cutter := job.Shop[1], job.Drawer[0]
	job.Shop, job.Drawer = nil, nil
	for i := range 20 {
		b := bar
		b.Steps = slices.Clone(bar.Steps)
		b.Name = fmt.Sprint("bar ", i)
		b.Steps[1].Diameter = qty.DiameterMM(46 + float64(i))
		b.Steps[1].Length += qty.Length(i%3) * 15 * qty.Millimetre
		b.CutterAt = b.Stickout()
		b.Least, b.Most = b.Steps[1].Diameter*106/100, qty.DiameterMM(120)
		job.Shop = append(job.Shop, b)
		k := cutter
		k.Name = fmt.Sprint("cutter ", i)
		k.Material = files.CutterMaterialByID([]string{"carbide", "hss", "carbide-coated"}[i%3])
		k.NoseRadius = []qty.Length{400, 800, 1200, 200}[i%4] * qty.Micrometre
		k.Lead = []float64{75, 90, 60, 85, 93}[i%5]
		job.Drawer = append(job.Drawer, k)
	}
	return job
}

func BenchmarkTooled(b *testing.B) {
	for name, job := range map[string]*process.Job{"example": fromRack(b, "net-hauler", nil), "20x20": bigRack(b)} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if j, err := Tooled(job, nil); err != nil || !j.Candidates[0].Feasible {
					b.Fatal(err)
				}
			}
		})
	}
}
