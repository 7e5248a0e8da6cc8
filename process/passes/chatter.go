package passes

import (
	"math"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// chatterMinutes is what a pass that may chatter costs on top of its time for each
// halving of its margin below the edge: stopping, trying another speed, and a bore
// to clean up after it. It weighs one pass against another, and more than what
// twice the speed saves in most bores: quiet goes before fast. Common practice, no
// source.
const chatterMinutes = 12

// fasterMinutes is what a finish costs that is not quiet and is turned faster than the
// roughing pass before it: it is done where the roughness asked for leaves no other
// way. Common practice, no source.
const fasterMinutes = missMinutes

// fasterPrice is what it costs, in minutes, to turn a finish that stands so faster
// than the pass before it: quiet before fast. A speed that the job gives costs
// nothing.
func (r *Planner) fasterPrice(s setup.Stability) float64 {
	if s.Chatter() == setup.Quiet || r.Job.Cutter.SpeedFinish > 0 {
		return 0
	}
	return fasterMinutes
}

// mostHalvings is where the price of chatter ends: at a margin of 1/64 there is
// nothing left to tell apart.
const mostHalvings = 6

// chatterPrice is the price of a margin below the edge, in minutes: nothing where
// it is quiet at the middle of what damps it.
func chatterPrice(s setup.Stability) float64 {
	m := s.Middle()
	if m >= 1 {
		return 0
	}
	return chatterMinutes * math.Min(mostHalvings, -math.Log2(m))
}

// sings is how far a finish is past the margin at which a plan is refused; above 1
// it is. It is 0, and judges nothing, where the job allows a finish to sing.
func (r *Planner) sings(s setup.Stability) float64 {
	if r.Job.Limits.Sing {
		return 0
	}
	return s.Sings()
}

// stabilityOf is that of a pass by an edge with a land.
func (r *Planner) stabilityOf(c cutAt, land cut.Land) setup.Stability {
	v := c.pick.at(c.radius)
	return r.StrokeStability(c.depth, c.second, v, land, func(depth float64, way setup.Way) setup.Stiffness { return r.Stiffness(depth, c.feed, v, way) })
}

// landIn is how wide a land the flank may have in a pass, mm, when it has cut so
// many metres before the pass and so many by its end since the visit began.
func (r *Planner) landIn(before, after float64) cut.Land {
	return r.landSince(r.begun().Land(), before, after)
}

// landSince is the same since its land was so wide.
func (r *Planner) landSince(worn cut.Land, before, after float64) cut.Land {
	w := r.Wears()
	return r.NewLand().Plus(worn).Plus(cut.Land{Least: w.Least * before, Most: w.Most * after})
}

// landOf is that of a pass of the chain that is worked out.
func (r *Planner) landOf(i int) cut.Land {
	w, from := r.wears[i], r.begun()
	if r.honedBy(i) >= 0 {
		from = setup.Flank{}
	}
	return r.landSince(from.Land(), w.Before.Metres-from.Metres, w.After.Metres-from.Metres)
}

// lastLand is the land of the last pass: no narrower at the most than a semi-finish
// at a usual feed leaves it. It does not go by the feed itself, or a fine feed would be
// preferred because it wears the edge more.
func (r *Planner) lastLand() cut.Land { return r.landIn(0, r.metresOf(usualFeed, r.aim, r.v.LastOut)) }

// usualFeed is the middle of the feeds of a finish, mm (rule of the trade, 0.05 to
// 0.15, from memory).
const usualFeed = 0.1

// metresOf is how far the edge cuts in a pass of a feed to a radius: twice through where
// it comes out turning.
func (r *Planner) metresOf(feed, radius float64, out schedule.WayOut) float64 {
	metres := cut.Metres(2*radius, (r.v.To - r.v.From).MM(), feed)
	if out.By == process.FeedOut {
		metres *= 2
	}
	return metres
}

// chatters is the caution for the passes of a visit that will chatter, with what
// would quieten the worst of them, and by how much.
func (r *Planner) chatters() fact.Fact {
	var noisy []int
	var worst *schedule.Pass
	for i := range r.v.Passes {
		p := &r.v.Passes[i]
		if p.Stability.Chatter() == setup.WillChatter {
			noisy = append(noisy, p.N)
			if worst == nil || p.Stability.Margin[1] < worst.Stability.Margin[1] {
				worst = p
			}
		}
	}
	if worst == nil {
		return fact.Fact{}
	}
	cure := fact.New(schedule.NoCure)
	if list := r.Cures(worst.Stability, worst.Depth.MM(), worst.Feed.MM(), worst.Cutting, worst.Speed, worst.Land); len(list) > 0 {
		cure = fact.New(schedule.Cures, fact.Count(worst.N), fact.List(list...))
	}
	return fact.New(schedule.Chatters, fact.List(schedule.Runs(noisy)...), worst.Stability.Margins(), of(qty.KindFrequency, worst.Stability.Hz), cure)
}
