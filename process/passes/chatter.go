package passes

import (
	"math"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/setup"
)

// chatterMinutes is what a pass that will chatter costs on top of its time: stopping,
// trying another speed, and a bore to clean up after it. It weighs one pass
// against another; it refuses none, because shops do run long bars that the
// theory for a sharp edge would forbid. Common practice, no source.
const chatterMinutes = 12

// chatterPrice is the price of a margin below the edge, in minutes: nothing when it
// is quiet at the middle of the damping range, rising to chatterMinutes as the
// margin goes to nothing.
func chatterPrice(s setup.Stability) float64 {
	m := s.Middle()
	if math.IsInf(m, 1) || m >= 1 {
		return 0
	}
	return chatterMinutes * (1 - m)
}

// runs are rising numbers, three and more on end as one.
func runs(n []int) []fact.Fact {
	var out []fact.Fact
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		if j >= i+2 {
			out = append(out, fact.New(PassesTo, fact.Count(n[i]), fact.Count(n[j])))
			i = j + 1
			continue
		}
		out = append(out, fact.New(OnePass, fact.Count(n[i])))
		i++
	}
	return out
}

// chatters is the caution for the passes of a visit that will chatter, with what
// would quieten the worst of them, and by how much.
func (r *Planner) chatters() fact.Fact {
	var noisy []int
	var worst *Pass
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
	cure := fact.New(NoCure)
	if list := r.Cures(worst.Stability, worst.Depth.MM(), worst.Feed.MM(), worst.Cutting, worst.Speed); len(list) > 0 {
		cure = fact.New(Cures, fact.Count(worst.N), fact.List(list...))
	}
	return fact.New(Chatters, fact.List(runs(noisy)...), worst.Stability.Margins(), of(qty.KindFrequency, worst.Stability.Hz), cure)
}
