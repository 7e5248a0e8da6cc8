package pass

import (
	"math"

	"borewright/process/fact"
	"borewright/process/schedule"
)

// PastLimit is the pass that is furthest past a limit as its setting leaves it, and that limit:
// by whole graduations it may be cut deeper, or less deep, than was searched for. nil: all keep
// theirs, or are rounded past one by a hundredth at the most, a spring by half of that. By how
// much the cutter is opened is told by Closing.
func (r *Judge) PastLimit() (at *schedule.Pass, limit schedule.Limit) {
	limit.Used = 1.005
	for i := range r.Visit.Passes {
		for _, l := range r.Visit.Passes[i].Limits {
			if spring := l.What.Kind == schedule.LimitSpring; l.Used > limit.Used && (spring || l.Used > PastMost && l.What.Kind != schedule.LimitMove) {
				at, limit = &r.Visit.Passes[i], l
			}
		}
	}
	return at, limit
}

// PastCaution is the caution where a pass is past a limit as its setting leaves it.
func (r *Judge) PastCaution() fact.Fact {
	at, limit := r.PastLimit()
	switch {
	case at == nil:
		return fact.Fact{}
	case limit.What.Kind == schedule.LimitSpring:
		return fact.New(schedule.SpringsMore, fact.Count(at.N), limit.What.Nth(1), limit.What.Nth(2))
	}
	return fact.New(schedule.PastLimit, fact.Count(at.N), limit.What)
}

// PastMost is how far past a limit a chain may be by the wear that it brings, where none
// keeps them all: less cannot be told from what the tables of a search leave out.
const PastMost = 1.01

// ThinForTwo says that the stock is less than a semi-finish and a finish take at the least, if it is.
func (r *Judge) ThinForTwo(rLeast float64) fact.Fact {
	stock, least := math.Max(r.Aim-rLeast, 0), 2*r.LeastCut()
	if r.Measured || stock > least*(1+1e-9) {
		return fact.Fact{}
	}
	r.Visit.Short = least / math.Max(stock, 1e-6)
	return fact.New(schedule.ThinForTwo, fact.MM(2*stock), fact.MM(2*least))
}

// TooThin says that the stock left is less than the edge can cut, if it is.
func (r *Judge) TooThin(rLeast float64) fact.Fact {
	left := r.Aim - rLeast
	if !r.Measured || left >= r.LeastDepth() {
		return fact.Fact{}
	}
	return fact.New(schedule.TooThin, fact.MM(2*left), fact.MM(2*r.LeastDepth()))
}
