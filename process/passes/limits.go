package passes

import (
	"fmt"
	"math"

	"borewright/process/qty"
)

// bound is a limit that a pass can run into.
type bound int

const (
	boundNone  bound = iota
	boundDepth       // the job's own deepest cut, or the run-out of a blind bore
	boundNose        // feed against nose radius
	boundShape       // feed against depth
	boundSpring
	boundChip // chip thinner than the edge can cut
	boundRub  // depth less than the edge can cut
	boundPower
	boundTorque
	boundStress
	boundRa
	boundRound
	boundSize
	boundQuiet
)

// verdict is how near a pass comes to the limit it is nearest to: ratio is
// value over limit, 1 at the limit.
type verdict struct {
	by           bound
	ratio        float64
	value, limit float64
}

// worse keeps the verdict nearer to (or further past) its limit.
func (v *verdict) worse(by bound, value, limit float64) {
	ratio := value / limit
	if limit <= 0 || math.IsNaN(ratio) {
		ratio = math.Inf(1)
	}
	if ratio > v.ratio {
		*v = verdict{by, ratio, value, limit}
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
	force       forces
	radius      float64 // mm, of the bore being made
}

// forces is what the edge feels at the deepest place, N and N/mm.
type forces struct{ cutting, feed, radial, chip float64 }

// forceAt evaluates the edge once.
func (r *Planner) forceAt(depth, feed, speed float64) forces {
	f := r.model.Force(depth, feed, speed)
	return forces{f.Cutting, f.Feed, f.Radial, f.Chip}
}

// chips judges the edge: a chip thick enough to be cut, a feed that the nose
// can take and a depth the relief allows.
func (r *Planner) chips(v *verdict, c cutAt) {
	v.worse(boundDepth, c.depth, r.depth)
	v.worse(boundNose, c.feed, noseFeed*r.Job.Cutter.NoseRadius.MM())
	v.worse(boundRub, r.leastDepth(), c.depth)
	v.worse(boundChip, r.model.LeastDepth()/2, c.force.chip)
}

// leastDepth is the least depth worth setting a cutter to: what the edge can cut
// at all, and two and a half times its rounding, below which the nose slides on
// its hone and the size is anybody's guess. Source: smallest reliable depth of a
// coated insert 0.02–0.05 mm, ground carbide 0.005–0.02 (from memory), doubled
// for an edge that is not new (common practice, no source).
// Once a bore has been measured what is left is left, and anything that the edge
// can cut at all is better than a bore that is not finished.
func (r *Planner) leastDepth() float64 {
	if r.measured {
		return r.model.LeastDepth()
	}
	return math.Max(r.model.LeastDepth(), 2.5*r.Job.Cutter.EdgeRadius.MM())
}

// strength judges machine and bar: power, torque, stress, stability.
//
//	P = Fc·vc/60 (W, N, m/min); M = Fc·R/1000 (N·m, mm). ISO 3002-4.
func (r *Planner) strength(v *verdict, c cutAt) {
	m := r.Job.Machine
	v.worse(boundPower, c.force.cutting*c.pick.speed/60, float64(m.Power))
	v.worse(boundTorque, c.force.cutting*c.radius/1000, float64(m.Torque))
	v.worse(boundStress, r.beam.Stress(c.force.radial, c.force.cutting), r.allowedStress())
}

func (r *Planner) allowedStress() float64 {
	least := math.Inf(1)
	for _, s := range r.Job.Bar.Steps {
		least = math.Min(least, s.Material.Allowed)
	}
	return least
}

// springs judges the push-off on diameter: 2·c·Fr.
func (r *Planner) springs(v *verdict, c cutAt, most qty.Length) {
	v.worse(boundSpring, 2*r.along[1]*c.force.radial, most.MM())
}

// words says what a verdict means, in the job's units. It reads after
// "limited by" and after "stopped by".
func (r *Planner) words(v verdict) string {
	u := r.Job.Units
	mm := func(x float64) string { return u.Say(qty.FromMM(x)) }
	fine := func(x float64) string { return u.Say(qty.Fine(qty.FromMM(x))) }
	switch v.by {
	case boundDepth:
		return fmt.Sprintf("depth of cut: %s, %s allowed %s", mm(v.value), mm(v.limit), r.depthWhy)
	case boundNose:
		return fmt.Sprintf("nose radius: a feed of %s is over %.0f %% of it", mm(v.value), noseFeed*100)
	case boundShape:
		return fmt.Sprintf("chip: a feed of %s is over %.0f %% of the depth", mm(v.value), chipShape*100)
	case boundSpring:
		return fmt.Sprintf("spring: %s on diameter, %s allowed",
			fine(v.value), fine(v.limit))
	case boundChip:
		return fmt.Sprintf("chip: %s thick on average, the edge rubs below %s", fine(v.limit), fine(v.value))
	case boundRub:
		return fmt.Sprintf("chip: the edge rubs at depths below %s, this is %s", mm(v.value), mm(v.limit))
	case boundPower:
		return fmt.Sprintf("power: %s, the spindle has %s", u.Say(qty.KindSpindlePower.Of(v.value)), u.Bare(qty.KindSpindlePower.Of(v.limit)))
	case boundTorque:
		return fmt.Sprintf("torque: %s, the spindle has %s", u.Say(qty.Torque(v.value)), u.Bare(qty.Torque(v.limit)))
	case boundStress:
		return fmt.Sprintf("bar stress: %s, %s allowed", u.Say(qty.KindStress.Of(v.value)), u.Bare(qty.KindStress.Of(v.limit)))
	case boundRa:
		return fmt.Sprintf("roughness: Ra %s, %s asked for", u.Say(qty.Roughness(qty.FromMM(v.value))), u.Say(qty.Roughness(qty.FromMM(v.limit))))
	case boundRound:
		return fmt.Sprintf("roundness: %s left of the old shape, %s asked for", mm(v.value), mm(v.limit))
	case boundSize:
		return fmt.Sprintf("size: known to ±%s on diameter after the last measurement, ±%s is what the limits leave", mm(v.value), mm(v.limit))
	case boundQuiet:
		return fmt.Sprintf("chatter: %.1f times the depth that stays quiet", v.ratio)
	}
	return "nothing"
}
