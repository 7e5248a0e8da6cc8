package pass

import (
	"borewright/process/schedule"
	"borewright/process/setup"
)

// RoughVerdict judges a roughing pass.
func (r *Judge) RoughVerdict(c Cut) Verdict { return r.before(&c, AfterRough, false) }

// SemiVerdict judges the pass before the last. It may spring as a roughing
// pass: it is measured before the finish is set.
func (r *Judge) SemiVerdict(c Cut) Verdict { return r.before(&c, 1, false) }

// Roughs is whether a roughing pass keeps every limit, and Semi is SemiVerdict, no further than the first
// limit that it is past. Both keep what they work out of its swings.
func (r *Judge) Roughs(c *Cut) bool  { return r.before(c, AfterRough, true).OK() }
func (r *Judge) Semi(c *Cut) Verdict { return r.before(c, 1, true) }

// before judges a pass that so many others follow, or no further than the first limit that it is past.
func (r *Judge) before(c *Cut, passes float64, first bool) (v Verdict) {
	v.all = r.Gather
	if r.Job.Limits.SpringRough == 0 {
		*c = r.Swung(*c)
	}
	if r.roughSpring(&v, *c, passes); first && !v.OK() {
		return v
	}
	if r.Chips(&v, *c); first && !v.OK() {
		return v
	}
	if r.strength(&v, *c); passes == 1 {
		v.worse(schedule.LimitRa, r.RoughnessOf(*c), 2*r.Visit.Ra.MM())
	}
	return v
}

// FinishFeed is whether the roughness asked for allows a feed at all, at a
// depth that takes the whole nose.
func (r *Judge) FinishFeed(feed, speed float64) bool {
	return r.Ra(feed, r.Job.Cutter.NoseRadius.MM(), speed, setup.In) <= r.Visit.Ra.MM() &&
		feed <= noseFeed*r.Job.Cutter.NoseRadius.MM()
}

// FinishVerdict judges the last pass after a measured semi-finish pass. left
// is what it leaves of the old shape, radial.
func (r *Judge) FinishVerdict(c, semi Cut, left float64) Verdict {
	doubt, half := r.FinishDoubt(c, semi, left)
	v := r.LastVerdict(c, left, doubt, half)
	r.Chips(&v, c)
	r.Opens(&v, c, r.TipAfter(semi))
	return v
}

// CutVerdict judges of a last pass all that does not hang on how well its size is known.
func (r *Judge) CutVerdict(c Cut) (v Verdict) {
	r.ofCut(&v, c)
	v.sings(c)
	r.Chips(&v, c)
	return v
}

func (r *Judge) ofCut(v *Verdict, c Cut) {
	r.springs(v, c, r.Visit.SpringMost(&r.Job.Limits))
	r.strength(v, c)
	v.worse(schedule.LimitRa, r.RoughnessOf(c), r.Visit.Ra.MM())
}

func (v *Verdict) sings(c Cut) {
	if c.Sings > 0 {
		v.worse(schedule.LimitSing, c.Sings, 1)
	}
}

// LastVerdict judges the last pass whose size is known to ±doubt, without
// judging whether the edge can take the depth.
func (r *Judge) LastVerdict(c Cut, left, doubt, half float64) Verdict {
	v := Verdict{all: r.Gather}
	r.ofCut(&v, c)
	r.lands(&v, c, left, doubt, half)
	v.sings(c)
	return v
}

// lands judges roundness and size.
func (r *Judge) lands(v *Verdict, c Cut, left, doubt, half float64) {
	v.worse(schedule.LimitRoundness, left+r.Uneven(c), r.Visit.Roundness.MM())
	v.worse(schedule.LimitSize, doubt, half)
}

// Behind judges what of a last pass hangs on the passes before it: roundness, size and
// how far the cutter is opened from where it stood. opens is the pass that it is opened
// for. The rest is LastVerdict's.
func (r *Judge) Behind(last, opens, semi Cut, left, doubt, half float64) Verdict {
	v := Verdict{all: r.Gather}
	r.lands(&v, last, left, doubt, half)
	r.Opens(&v, opens, r.TipAfter(semi))
	return v
}

// OnlyVerdict judges a last pass that follows a measurement and no semi-finish
// of its own.
func (r *Judge) OnlyVerdict(c Cut, left, aside float64) Verdict {
	doubt, half := r.OnlyDoubt(c, left, aside)
	v := r.LastVerdict(c, left, doubt, half)
	r.Chips(&v, c)
	r.Opens(&v, c, r.stood())
	return v
}

// OnlySprung is the same of a finish with a spring pass after it.
func (r *Judge) OnlySprung(finish, again Cut, left, aside float64) Verdict {
	doubt, half := r.OnlyDoubt(again, left, aside)
	v := r.SpringAlone(finish, again, left, doubt, half)
	r.Opens(&v, finish, r.stood())
	return v
}

// stood is the diameter at which the cutter stands before the first pass, mm; 0: not known.
func (r *Judge) stood() float64 {
	if r.Anew {
		return 0
	}
	return r.Visit.Stands.At.MM()
}

func (r *Judge) OnlyDoubt(c Cut, left, aside float64) (doubt, half float64) {
	return offAim(r.DoubtLearned(r.SwingsOf(c)), aside) + r.Taper(c)/2 + r.WearTaper(c) + left + r.Across(c) + r.Rubs(c), r.tolerates()
}

// SpringVerdict judges a finish that is followed by a spring pass: the finish
// may spring as a semi-finish may, the last cut may not.
func (r *Judge) SpringVerdict(finish, again, semi Cut, left float64) Verdict {
	doubt, half := r.FinishDoubt(again, semi, left)
	v := r.SpringAlone(finish, again, left, doubt, half)
	r.Opens(&v, finish, r.TipAfter(semi))
	return v
}

// SpringAlone judges the two with a size known to ±doubt, without how far the cutter is
// opened from where it stood.
func (r *Judge) SpringAlone(finish, again Cut, left, doubt, half float64) Verdict {
	v := r.LastVerdict(again, left, doubt, half)
	if most := r.Job.Limits.SpringRough; most > 0 { // else it may: what it springs off is cut by the pass after it
		r.springs(&v, finish, most)
	}
	r.Chips(&v, finish)
	return v
}
