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

// cutAt is a pass as the limits see it, at its deepest place.
type cutAt struct {
	depth, feed float64 // mm, on the way in; mm/rev
	pick        speedPick
	force       cut.Force // on the way in
	radius      float64   // mm, of the bore being made
	sings       float64   // Planner.sings; of last passes only
	moves       int       // how often the cutter was moved up to it, where that matters
	fed         bool      // it comes out turning, and cuts a second time:
	second      float64   // so deep, mm
	back        cut.Force // with this force
	rise        float64   // its push rises by so much, mm on radius, for a millimetre more depth
}

// cutFor is a pass that takes so much, mm, on both ways together.
func (r *Planner) cutFor(total, feed float64, pick speedPick, radius float64, out schedule.WayOut) cutAt {
	s := r.strokeAt(feed, pick.at(radius), radius, out)
	in, second := s.Split(total)
	return r.cutOf(s, in, second, feed, pick, radius)
}

// cutOf is a pass of a stroke that cuts so deep on either way.
func (r *Planner) cutOf(s setup.Stroke, in, second, feed float64, pick speedPick, radius float64) cutAt {
	c := cutAt{depth: in, feed: feed, pick: pick, force: r.Force(in, feed, pick.at(radius), setup.In), radius: radius, fed: s.Out != nil}
	if c.fed {
		c.second, c.back, c.rise = second, r.Force(second, feed, pick.at(radius), setup.Out), riseAt(s.Out, second)
	}
	return c
}

// riseAt is how much a push rises with the depth; nothing where nothing is cut.
func riseAt(p setup.Push, depth float64) float64 {
	if depth <= 0 {
		return 0
	}
	return p.Rise(depth)
}

// strokeAt is the stroke of passes at a feed, mm/rev, and a cutting speed, m/min, with
// the tip at a radius, mm.
func (r *Planner) strokeAt(feed, speed, radius float64, out schedule.WayOut) setup.Stroke {
	return r.Stroke(r.Middle, feed, speed, radius, out.By == process.FeedOut)
}

// spring is what the gauge finds of a pass short of its setting, on diameter.
func (r *Planner) spring(c cutAt) float64 { return 2 * r.last(r.Middle, c) }

// last is the push, mm on radius, of the cut that a pass ends with.
func (r *Planner) last(g setup.Give, c cutAt) float64 {
	if c.fed {
		return g.Push(c.back, c.radius, setup.Out)
	}
	return g.Push(c.force, c.radius, setup.In)
}

// swing is by how much, mm on diameter, the size moves for forces wrong by the whole
// of them. One cut alone moves by its spring. On the way out the push P leaves
// the tip as much nearer to the wall as the way in left it further off:
//
//	swing = 2·(P_out + P_in·∂P_out/∂depth)
func (r *Planner) swing(c cutAt) float64 {
	if !c.fed {
		return r.spring(c)
	}
	return r.spring(c) + 2*r.Middle.Push(c.force, c.radius, setup.In)*c.rise
}

// rubs is by how much, mm on diameter, the bore stays smaller where the way out rubs
// and does not cut: below the least depth of the edge either may happen. What
// happened in a pass that was measured happens in the next: then only the
// difference of the two counts.
func (r *Planner) rubs(c cutAt) float64 {
	if c.fed && c.second < r.LeastDepth() {
		return 2 * c.second
	}
	return 0
}

// ra is the roughness to expect, mm: that of the way that leaves it rougher. What a
// cut adds that is hardly deep enough for the edge is not counted on the way out: it
// goes over marks that are there already, and bores that are fed out come no rougher.
// Common practice, no source.
func (r *Planner) ra(c cutAt) float64 {
	ra := r.Ra(c.feed, c.depth, c.pick.at(c.radius), setup.In)
	if c.fed {
		ra = math.Max(ra, r.Ra(c.feed, math.Max(c.second, 2*r.LeastDepth()), c.pick.at(c.radius), setup.Out))
	}
	return ra
}

// finishAt is a last pass that takes so much, mm, to the size aimed at.
func (r *Planner) finishAt(total, feed float64, pick speedPick) cutAt {
	c := r.cutFor(total, feed, pick, r.aim, r.v.LastOut)
	c.sings = r.sings(r.stabilityOf(c, r.lastLand()))
	return c
}

// chips judges the edge: a chip thick enough to be cut, a feed that the nose
// can take and a depth the relief allows.
func (r *Planner) chips(v *verdict, c cutAt) {
	v.worse(schedule.LimitDepth, c.depth, r.depth)
	v.worse(schedule.LimitNose, c.feed, noseFeed*r.Job.Cutter.NoseRadius.MM())
	v.worse(schedule.LimitRub, r.leastDepth(), c.depth)
	v.worse(schedule.LimitChip, r.LeastDepth()/2, c.force.Chip)
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

// strength judges machine and bar: power, torque, stress.
//
//	P = Fc·vc/60 (W, N, m/min); M = Fc·R/1000 (N·m, mm). ISO 3002-4.
func (r *Planner) strength(v *verdict, c cutAt) {
	m := r.Job.Machine
	v.worse(schedule.LimitPower, c.force.Cutting*c.pick.at(c.radius)/60, float64(m.Power))
	v.worse(schedule.LimitTorque, c.force.Cutting*c.radius/1000, float64(m.Torque))
	v.worse(schedule.LimitStress, r.Stress(c.force, c.radius, setup.In), r.AllowedStress())
}

// springs judges the spring, on diameter, where the bar is softest. A feed force that
// draws the tip into the wall springs it as well.
func (r *Planner) springs(v *verdict, c cutAt, most qty.Length) {
	v.worse(schedule.LimitSpring, 2*math.Abs(r.Soft.Push(c.force, c.radius, setup.In)), most.MM())
}

// limit is a verdict as a fact.
func (r *Planner) limit(v verdict) fact.Fact {
	switch v.by {
	case schedule.LimitDepth:
		return fact.New(schedule.LimitDepth, mm(v.value), mm(v.limit), r.depthBy)
	case schedule.LimitNose:
		return fact.New(schedule.LimitNose, mm(v.value), of(qty.KindShare, noseFeed))
	case schedule.LimitShape:
		return fact.New(schedule.LimitShape, mm(v.value), of(qty.KindShare, chipShape))
	case schedule.LimitSpring:
		return fact.New(schedule.LimitSpring, fine(v.value), fine(v.limit))
	case schedule.LimitChip:
		return fact.New(schedule.LimitChip, fine(v.limit), fine(v.value))
	case schedule.LimitMove:
		return fact.New(schedule.LimitMove, fine(v.limit), fine(v.value))
	case schedule.LimitRub:
		return fact.New(schedule.LimitRub, mm(v.value), mm(v.limit))
	case schedule.LimitPower:
		return fact.New(schedule.LimitPower, of(qty.KindSpindlePower, v.value), of(qty.KindSpindlePower, v.limit))
	case schedule.LimitTorque:
		return fact.New(schedule.LimitTorque, of(qty.KindTorque, v.value), of(qty.KindTorque, v.limit))
	case schedule.LimitStress:
		return fact.New(schedule.LimitStress, of(qty.KindStress, v.value), of(qty.KindStress, v.limit))
	case schedule.LimitRa:
		return fact.New(schedule.LimitRa, of(qty.KindRoughness, v.value), of(qty.KindRoughness, v.limit))
	case schedule.LimitSing:
		return fact.New(schedule.LimitSing, of(qty.KindFactor, 0.5/v.value))
	}
	return fact.New(v.by, mm(v.value), mm(v.limit))
}
