package passes

import (
	"math"
	"testing"

	"borewright/process"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/slow"
)

// A search that knows what a chain still costs finds one that costs no more than a search that
// knows nothing and leaves nothing out, and the chain found costs at no node less than was known.
func TestRestHoldsBackNothing(t *testing.T) {
	jobs := []struct {
		name   string
		change func(*process.Job)
	}{
		{"lock-winch", func(*process.Job) {}},
		{"gear-case", func(*process.Job) {}},
		{"ferry-ramp", func(*process.Job) {}},
		{"gear-case", func(j *process.Job) { j.Limits.PassesMost = 4 }},
		{"lock-winch", func(j *process.Job) { j.Cutter.NoseRadius /= 2 }},
	}
	for _, x := range jobs[:slow.Rounds(t, "first visits searched with no bound", len(jobs), 1)] {
		job := exampleJob(t, x.name+"/job.toml")
		x.change(job)
		r := plannerOf(t, job, firstVisit(t, job), false)
		r.MoveBinds, r.ends = new(bool), []lastEdge{{before: setup.Flank{}}}
		first := &chain{rMost: r.rMost}
		found := r.searched(first, r.rLeast, 0)
		last := r.newLast(r.rLeast, true)
		g := r.newRoughs(first, r.rLeast, r.Aim)
		g.bound(last.leastAfter, math.Inf(1))
		direct := last.leastFrom(first, r.rLeast)
		if found != nil {
			for c := found; c != nil; c = c.from {
				for i, radius := range g.grid {
					if c.last.made != radius || c == found || c.from == nil {
						continue
					}
					for n, p := range r.rough {
						if p.RPM == c.last.pick.RPM && c.cost+g.rest[i][n] > found.cost+1e-6 && c.last.kind == schedule.Rough {
							t.Errorf("%s: %.3f min to node %d, at the least %.3f from there, %.3f in all", x.name, c.cost, i, g.rest[i][n], found.cost)
						}
					}
				}
			}
			if math.Min(direct, g.least) > found.cost+1e-6 {
				t.Errorf("%s: at the least %.3f min or %.3f, %.3f found", x.name, direct, g.least, found.cost)
			}
		}
		clear(g.rest)
		for _, e := range last.cheapest {
			e.least = 0
		}
		all := last.finishing(math.Inf(1), r.nodes(first, r.rLeast, g.grid, g.ways(math.Inf(1))))
		if (all == nil) != (found == nil) || all != nil && math.Abs(all.cost-found.cost) > 1e-6 {
			t.Errorf("%s: found %v, with nothing left out %v", x.name, found, all)
		} else if all != nil {
			t.Logf("%s: %.3f min of at least %.3f or %.3f", x.name, all.cost, direct, g.least)
		}
	}
}
