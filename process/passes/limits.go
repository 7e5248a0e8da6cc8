package passes

import (
	"math"

	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/setup"
)

// verdict is how near a pass comes to the limit it is nearest to: ratio is
// value over limit, 1 at the limit.
type verdict struct {
	by           fact.Kind // one of the limits
	ratio        float64
	value, limit float64
	all          *[]verdict // gathers every limit that is judged; nil: only the nearest counts
}

// worse keeps the verdict nearer to (or further past) its limit.
func (v *verdict) worse(by fact.Kind, value, limit float64) {
	ratio := value / limit
	if limit <= 0 || math.IsNaN(ratio) {
		ratio = math.Inf(1)
	}
	if v.all != nil {
		*v.all = append(*v.all, verdict{by: by, ratio: ratio, value: value, limit: limit})
	}
	if ratio > v.ratio {
		v.by, v.ratio, v.value, v.limit = by, ratio, value, limit
	}
}

// ok is whether every limit is kept.
func (v verdict) ok() bool { return v.ratio <= 1+1e-9 }

// noseFeed is the most feed over nose radius: above it the scallop leaves the
// arc and the thread pattern shows. Common practice, no source.
const noseFeed = 0.5

// chipShape is the most feed over depth in roughing: a chip that is not at
// least twice as wide as it is thick jams instead of curling. Common practice,
// no source.
const chipShape = 0.5

// cutAt is a pass as the limits see it.
type cutAt struct {
	depth, feed float64 // mm, deepest place; mm/rev
	pick        speedPick
	force       cut.Force
	radius      float64 // mm, of the bore being made
	moves       int     // how often the cutter was moved up to it, where that matters
}

// chips judges the edge: a chip thick enough to be cut, a feed that the nose
// can take and a depth the relief allows.
func (r *Planner) chips(v *verdict, c cutAt) {
	v.worse(LimitDepth, c.depth, r.depth)
	v.worse(LimitNose, c.feed, noseFeed*r.Job.Cutter.NoseRadius.MM())
	v.worse(LimitRub, r.leastDepth(), c.depth)
	v.worse(LimitChip, r.LeastDepth()/2, c.force.Chip)
}

// leastDepth is the least depth worth setting a cutter to: what the edge can cut
// at all, and two and a half times its rounding, below which the nose slides on
// its hone and the size cannot be foretold. Source: smallest reliable depth of a
// coated insert 0.02–0.05 mm, ground carbide 0.005–0.02 (from memory), doubled
// for an edge that is not new (common practice, no source).
// Once a bore has been measured what is left is left, and anything that the edge
// can cut at all is better than a bore that is not finished.
func (r *Planner) leastDepth() float64 {
	if r.measured {
		return r.LeastDepth()
	}
	return math.Max(r.LeastDepth(), 2.5*r.Job.Cutter.EdgeRadius.MM())
}

// strength judges machine and bar: power, torque, stress, stability.
//
//	P = Fc·vc/60 (W, N, m/min); M = Fc·R/1000 (N·m, mm). ISO 3002-4.
func (r *Planner) strength(v *verdict, c cutAt) {
	m := r.Job.Machine
	v.worse(LimitPower, c.force.Cutting*c.pick.at(c.radius)/60, float64(m.Power))
	v.worse(LimitTorque, c.force.Cutting*c.radius/1000, float64(m.Torque))
	v.worse(LimitStress, r.Stress(c.force, c.radius, setup.In), r.AllowedStress())
}

// springs judges the spring, on diameter, where the bar is softest. A feed force that
// draws the tip into the wall springs it as well.
func (r *Planner) springs(v *verdict, c cutAt, most qty.Length) {
	v.worse(LimitSpring, 2*math.Abs(r.Soft.Push(c.force, c.radius, setup.In)), most.MM())
}

// limit is a verdict as a fact.
func (r *Planner) limit(v verdict) fact.Fact {
	switch v.by {
	case LimitDepth:
		return fact.New(LimitDepth, mm(v.value), mm(v.limit), r.depthBy)
	case LimitNose:
		return fact.New(LimitNose, mm(v.value), of(qty.KindShare, noseFeed))
	case LimitShape:
		return fact.New(LimitShape, mm(v.value), of(qty.KindShare, chipShape))
	case LimitSpring:
		return fact.New(LimitSpring, fine(v.value), fine(v.limit))
	case LimitChip:
		return fact.New(LimitChip, fine(v.limit), fine(v.value))
	case LimitMove:
		return fact.New(LimitMove, fine(v.limit), fine(v.value))
	case LimitRub:
		return fact.New(LimitRub, mm(v.value), mm(v.limit))
	case LimitPower:
		return fact.New(LimitPower, of(qty.KindSpindlePower, v.value), of(qty.KindSpindlePower, v.limit))
	case LimitTorque:
		return fact.New(LimitTorque, of(qty.KindTorque, v.value), of(qty.KindTorque, v.limit))
	case LimitStress:
		return fact.New(LimitStress, of(qty.KindStress, v.value), of(qty.KindStress, v.limit))
	case LimitRa:
		return fact.New(LimitRa, of(qty.KindRoughness, v.value), of(qty.KindRoughness, v.limit))
	}
	return fact.New(v.by, mm(v.value), mm(v.limit))
}
