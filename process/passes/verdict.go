package passes

import (
	"borewright/process/schedule"
	"borewright/process/setup"
)

// roughVerdict judges a roughing pass.
func (r *Planner) roughVerdict(c cutAt) verdict {
	v := verdict{all: r.gather}
	r.springs(&v, c, r.Job.Limits.SpringRough)
	r.chips(&v, c)
	r.strength(&v, c)
	v.worse(schedule.LimitShape, c.feed, chipShape*c.depth)
	return v
}

// semiVerdict judges the pass before the last. It may spring as a roughing
// pass: it is measured before the finish is set.
func (r *Planner) semiVerdict(c cutAt) verdict {
	v := verdict{all: r.gather}
	r.springs(&v, c, r.Job.Limits.SpringRough)
	r.chips(&v, c)
	r.strength(&v, c)
	v.worse(schedule.LimitRa, r.ra(c), 2*r.v.Ra.MM())
	return v
}

// finishFeed is whether the roughness asked for allows a feed at all, at a
// depth that takes the whole nose.
func (r *Planner) finishFeed(feed float64) bool {
	return r.Ra(feed, r.Job.Cutter.NoseRadius.MM(), r.finish[0].speed, setup.In) <= r.v.Ra.MM() &&
		feed <= noseFeed*r.Job.Cutter.NoseRadius.MM()
}

// finishVerdict judges the last pass after a measured semi-finish pass. left
// is what it leaves of the old shape, radial.
func (r *Planner) finishVerdict(c, semi cutAt, left float64) verdict {
	doubt, half := r.finishDoubt(c, semi, left)
	v := r.lastVerdict(c, left, doubt, half)
	r.chips(&v, c)
	r.opens(&v, c, r.tipAfter(semi))
	return v
}

// lastVerdict judges the last pass whose size is known to ±doubt, without
// judging whether the edge can take the depth.
func (r *Planner) lastVerdict(c cutAt, left, doubt, half float64) verdict {
	v := verdict{all: r.gather}
	r.springs(&v, c, r.Job.Limits.SpringFinish)
	r.strength(&v, c)
	v.worse(schedule.LimitRa, r.ra(c), r.v.Ra.MM())
	v.worse(schedule.LimitRoundness, left+r.uneven(c), r.v.Roundness.MM())
	v.worse(schedule.LimitSize, doubt, half)
	if c.sings > 0 {
		v.worse(schedule.LimitSing, c.sings, 1)
	}
	return v
}
