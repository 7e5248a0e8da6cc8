package passes

import (
	"math"

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

// landOf is that of a pass of the chain that is worked out.
func (r *Planner) landOf(i int) cut.Land {
	w, from := r.wears[i], r.FlankFound()
	if r.wears.honedBy(i) >= 0 {
		from = setup.Flank{}
	}
	return r.LandSince(from.Land(), w.Before.Metres-from.Metres, w.After.Metres-from.Metres)
}

// chatters is the caution for the passes of a visit that will chatter, with what
// would quieten the worst of them, and by how much.
func (r *Planner) chatters() fact.Fact {
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
