package pass

import (
	"math"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Nearest is a pass that comes nearest to keeping its limits.
type Nearest struct {
	Verdict
	Cut
}

// Far is where a search for the nearest begins.
func Far() Nearest { return Nearest{Verdict: Verdict{Ratio: math.Inf(1)}} }

// or is that or another, whichever is nearer.
func (n Nearest) or(v Verdict, c Cut) Nearest {
	if v.Ratio < n.Ratio {
		return Nearest{v, c}
	}
	return n
}

// NearestFinish is the last pass at a feed that comes nearest, or one that came nearer before: at its
// best, with a twin cut measured before it and nothing left of the old shape.
func (r *Judge) NearestFinish(best Nearest, feed float64, picks []Pick) Nearest {
	for _, pick := range picks {
		for _, depth := range FinishDepths {
			if best.OK() {
				return best
			}
			c := r.FinishAt(depth, feed, pick)
			best = best.or(r.FinishVerdict(c, c, 0), c)
		}
	}
	return best
}

// NearestRough is the rough that comes nearest, from a radius, as if it were the first of many.
func (r *Judge) NearestRough(start float64, pick Pick) Nearest {
	_, pitch := r.GridFor(start, r.Aim)
	best := Far()
	steps := max(10, int(math.Min(r.DepthMost, r.Aim-start)/pitch))
	for _, feed := range r.Feeds {
		for k := 1; k <= steps && !best.OK(); k++ {
			depth := float64(k) * pitch
			c := r.CutFor(depth, feed, pick, start+depth, r.Visit.RoughOut)
			c.Left = r.Aim - start
			best = best.or(r.RoughVerdict(c), c)
		}
	}
	return best
}

// Refused is that the nearest pass of a kind is past a limit.
func (r *Judge) Refused(kind fact.Kind, n Nearest) fact.Fact {
	r.Visit.Short = n.Ratio
	return fact.New(schedule.NearestPass, fact.New(kind), fact.MM(n.Cut.Depth), fact.MM(n.Cut.Feed), fact.Value(qty.KindSpindleSpeed, n.Pick.RPM), r.StoppedBy(n.Verdict, n.Cut))
}

// LandsNever is by how much what a finish is in doubt by is more than its limits leave, times, after
// a measured semi-finish and where the bar springs off nothing; 0: it is not.
func (r *Judge) LandsNever() float64 {
	if doubt, half := r.LeastDoubt(Cut{}); doubt > half*(1+1e-9) {
		return doubt / half
	}
	return 0
}
