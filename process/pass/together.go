package pass

import (
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Once takes out of the passes of a bore behind the first, so far behind the one in front of it,
// mm, what is done once for all bores of the setting: the honing, the way to the first, and of a
// stop all but the gauging, which is half of it (common practice, no source).
func (r *Judge) Once(gap float64) {
	for n := range r.Visit.Passes {
		p := &r.Visit.Passes[n]
		p.Hone = nil
		p.Minutes = r.ThroughMinutes(gap, p.Feed.MM(), float64(p.Speed), p.Out)
		if p.Hold != nil {
			p.Hold.Minutes /= 2
		}
	}
}

// Misses is why the last pass of a bore is not sure to land, by what the gauge may say of it;
// nothing where it is.
func (r *Judge) Misses() fact.Fact {
	v := r.Visit
	p := &v.Passes[len(v.Passes)-1]
	if v.Part == schedule.Roughing || p.Low >= v.Limits.Low && p.High <= v.Limits.High {
		return fact.Fact{}
	}
	return fact.New(schedule.TogetherMiss, fact.Size(p.Low), fact.Size(p.High), fact.Size(v.Limits.Low), fact.Size(v.Limits.High))
}

// Apart is whether there is so much to rough that it is done apart from the finish: at least as
// much as stays for it.
func Apart(v *schedule.Visit, stock qty.Length) bool {
	return v.Limits.Aim.Minus(v.Start) >= 2*stock
}
