package pass

import (
	"borewright/process"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Sings is how far a finish is past the margin at which a plan is refused; above 1
// it is. It is 0, and judges nothing, where the job allows a finish to sing.
func (r *Judge) Sings(s setup.Stability) float64 {
	if r.Job.Limits.Sing {
		return 0
	}
	return s.Sings()
}

// StabilityOf is that of a pass by an edge with a land.
func (r *Judge) StabilityOf(c Cut, land cut.Land) setup.Stability {
	v := c.Pick.At(c.Radius)
	return r.StrokeStability(c.Depth, c.Second, v, land, func(depth float64, way setup.Way) setup.Stiffness { return r.Stiffness(depth, c.Feed, v, way) })
}

// LandSince is how wide a land the flank may have in a pass, mm, when it has cut so many
// metres before the pass and so many by its end since its land was so wide.
func (r *Judge) LandSince(worn cut.Land, before, after float64) cut.Land {
	w := r.Wears()
	return r.NewLand().Plus(worn).Plus(cut.Land{Least: w.Least * before, Most: w.Most * after})
}

// LastLand is the land by which the last pass is chosen, and refused where it sings: that of
// an edge honed before the semi-finish, no narrower at the most than a semi-finish at a
// usual feed leaves it. A land rubs chatter out, but no plan is to hang on an edge being
// worn: it may be honed at any stop. It does not go by the feed itself, or a fine feed
// would be preferred because it wears the edge more.
func (r *Judge) LastLand() cut.Land {
	return r.LandSince(cut.Land{}, 0, r.MetresOf(usualFeed, r.Aim, r.Visit.LastOut))
}

// usualFeed is the middle of the feeds of a finish, mm (rule of the trade, 0.05 to
// 0.15, from memory).
const usualFeed = 0.1

// MetresOf is how far the edge cuts in a pass of a feed to a radius: twice through where
// it comes out turning.
func (r *Judge) MetresOf(feed, radius float64, out schedule.WayOut) float64 {
	metres := cut.Metres(2*radius, (r.Visit.To - r.Visit.From).MM(), feed)
	if out.By == process.FeedOut {
		metres *= 2
	}
	return metres
}

// Chatters is the caution for the passes of a visit that will chatter, with what
// would quieten the worst of them, and by how much.
func (r *Judge) Chatters() fact.Fact {
	var noisy []int
	var worst *schedule.Pass
	for i := range r.Visit.Passes {
		p := &r.Visit.Passes[i]
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
	return fact.New(schedule.Chatters, fact.List(schedule.Runs(noisy)...), worst.Stability.Margins(), fact.Value(qty.KindFrequency, worst.Stability.Hz), cure)
}
