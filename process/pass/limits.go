package pass

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Verdict is how near a pass comes to the limit it is nearest to: ratio is
// value over limit, 1 at the limit.
type Verdict struct {
	By           fact.Kind // one of the limits
	Ratio        float64
	Value, Limit float64
	all          *[]Verdict // gathers every limit that is judged; nil: only the nearest counts
}

// worse keeps the verdict nearer to (or further past) its limit.
func (v *Verdict) worse(by fact.Kind, value, limit float64) {
	ratio := value / limit
	if limit <= 0 || math.IsNaN(ratio) {
		ratio = math.Inf(1)
	}
	if v.all != nil {
		*v.all = append(*v.all, Verdict{By: by, Ratio: ratio, Value: value, Limit: limit})
	}
	if ratio > v.Ratio {
		v.By, v.Ratio, v.Value, v.Limit = by, ratio, value, limit
	}
}

// OK is whether every limit is kept.
func (v Verdict) OK() bool { return v.Ratio <= 1+1e-9 }

// noseFeed is the most feed over nose radius: above it the scallop leaves the
// arc and the thread pattern shows. Below it no chip is too thick to curl, however light the
// cut: of a shallow one it is 2r/f times as wide as thick, four times at the least. Common
// practice, no source.
const noseFeed = 0.5

// Chips judges the edge: a chip thick enough to be cut, a feed that the nose
// can take and a depth the relief allows.
func (r *Judge) Chips(v *Verdict, c Cut) {
	v.worse(schedule.LimitDepth, c.Depth, r.DepthMost)
	v.worse(schedule.LimitNose, c.Feed, noseFeed*r.Job.Cutter.NoseRadius.MM())
	v.worse(schedule.LimitRub, r.LeastCut(), c.Depth)
	v.worse(schedule.LimitChip, r.LeastDepth()/2, c.Force.Chip)
}

// LeastCut is the least depth worth setting a cutter to: what the edge can cut
// at all, and two and a half times its rounding, below which the nose slides on
// its hone and the size cannot be foretold. Source: smallest reliable depth of a
// coated insert 0.02–0.05 mm, ground carbide 0.005–0.02 (from memory), doubled
// for an edge that is not new (common practice, no source).
// Once a bore has been measured what is left is left, and anything that the edge
// can cut at all is better than a bore that is not finished.
func (r *Judge) LeastCut() float64 {
	if r.Measured {
		return r.LeastDepth()
	}
	return math.Max(1, r.Thicker) * math.Max(r.LeastDepth(), 2.5*r.Job.Cutter.EdgeRadius.MM())
}

// strength judges machine and bar: power, torque, stress.
//
//	P = Fc·vc/60 (W, N, m/min); M = Fc·R/1000 (N·m, mm). ISO 3002-4.
func (r *Judge) strength(v *Verdict, c Cut) {
	m := r.Job.Machine
	v.worse(schedule.LimitPower, c.Force.Cutting*c.Pick.At(c.Radius)/60, float64(m.Power))
	v.worse(schedule.LimitTorque, c.Force.Cutting*c.Radius/1000, float64(m.Torque))
	v.worse(schedule.LimitStress, r.Stress(c.Force, c.Radius, setup.In), r.AllowedStress())
}

// springs judges the spring, on diameter, where the bar is softest. A feed force that
// draws the tip into the wall springs it as well.
func (r *Judge) springs(v *Verdict, c Cut, most qty.Length) {
	v.worse(schedule.LimitSpring, 2*math.Abs(r.Soft.Push(c.Force, c.Radius, setup.In)), most.MM())
}

// roughSpring judges the spring of a pass that so many others follow: against what the job
// allows. Where it allows no figure, the bar may spring as it will as long as the stock
// stays that the passes after it need: however much larger the bore comes out than is
// expected, every pass to come must still have the least depth. What the spring copies of
// the old shape is judged by itself.
func (r *Judge) roughSpring(v *Verdict, c Cut, passes float64) {
	if most := r.Job.Limits.SpringRough; most > 0 {
		r.springs(v, c, most)
		return
	}
	v.worse(schedule.LimitStays, r.Larger(c), r.Spare(c.Left, passes))
}

// AfterRough is how many passes follow a rough at the least: a semi-finish and a finish.
const AfterRough = 2

// Larger is by how much, mm on diameter, a pass may come out larger for its spring: with the
// forces less by all that they are in doubt, and the edge no more worn than it must be.
func (r *Judge) Larger(c Cut) float64 {
	s := r.SwingsOf(c)
	_, wear := r.wornApart(s.Wear)
	return BySquares(r.Doubt.On(s.Forces), wear)
}

// Spare is what of the stock left, mm on diameter, so many passes can do without.
func (r *Judge) Spare(left, passes float64) float64 { return 2 * (left - passes*r.LeastCut()) }

// LimitOf is a verdict as a fact.
func (r *Judge) LimitOf(v Verdict) fact.Fact {
	switch v.By {
	case schedule.LimitDepth:
		return fact.New(schedule.LimitDepth, fact.MM(v.Value), fact.MM(v.Limit), r.depthBy)
	case schedule.LimitNose:
		return fact.New(schedule.LimitNose, fact.MM(v.Value), fact.Value(qty.KindShare, noseFeed))
	case schedule.LimitSpring, schedule.LimitStays:
		return fact.New(v.By, fact.FineMM(v.Value), fact.FineMM(v.Limit))
	case schedule.LimitChip:
		return fact.New(schedule.LimitChip, fact.FineMM(v.Limit), fact.FineMM(v.Value))
	case schedule.LimitMove:
		return fact.New(schedule.LimitMove, fact.FineMM(v.Limit), fact.FineMM(v.Value))
	case schedule.LimitRub:
		return fact.New(schedule.LimitRub, fact.MM(v.Value), fact.MM(v.Limit))
	case schedule.LimitPower:
		return fact.New(schedule.LimitPower, fact.Value(qty.KindSpindlePower, v.Value), fact.Value(qty.KindSpindlePower, v.Limit))
	case schedule.LimitTorque:
		return fact.New(schedule.LimitTorque, fact.Value(qty.KindTorque, v.Value), fact.Value(qty.KindTorque, v.Limit))
	case schedule.LimitStress:
		return fact.New(schedule.LimitStress, fact.Value(qty.KindStress, v.Value), fact.Value(qty.KindStress, v.Limit))
	case schedule.LimitRa:
		return fact.New(schedule.LimitRa, fact.Value(qty.KindRoughness, v.Value), fact.Value(qty.KindRoughness, v.Limit))
	case schedule.LimitSing:
		return fact.New(schedule.LimitSing, fact.Value(qty.KindFactor, 0.5/v.Value))
	}
	return fact.New(v.By, fact.MM(v.Value), fact.MM(v.Limit))
}

// LeastMove is the least by which a cutter is opened from one pass to the next, mm on
// diameter: two graduations of its dial, or twice what the micrometer or the gauge
// can tell. Less cannot be set for certain, and a cutter that is closed has the play
// of its screw in the wrong place. Common practice, no source.
func (r *Judge) LeastMove() float64 {
	if r.Job.Cutter.SetBy == process.Increment {
		return 2 * r.Job.Machine.SetDial.MM()
	}
	return 2 * r.Job.ReadsTo().MM()
}

// TipAfter is the diameter at which the cutter stands for a cut, mm.
func (r *Judge) TipAfter(c Cut) float64 { return 2*c.Radius + r.Spring(c) }

// Opens judges how far the cutter is opened for a cut, from where it stands for the
// one before; a cut before that is not known opens it from nothing.
func (r *Judge) Opens(v *Verdict, c Cut, from float64) {
	if from > 0 && !r.AnyMove {
		move := r.TipAfter(c) - from
		if r.MoveBinds != nil && move < r.LeastMove() {
			*r.MoveBinds = true
		}
		v.worse(schedule.LimitMove, r.LeastMove(), move)
	}
}

// Closing are the cautions where the cutter is closed, or hardly moved, because nothing
// else lands.
func (r *Judge) Closing() (out []fact.Fact) {
	from := r.Visit.Stands.At
	for i := range r.Visit.Passes {
		p := &r.Visit.Passes[i]
		if move := r.Opened(p, from); from > 0 && p.Kind != schedule.Spring && !p.Edge.Honed && move < r.LeastMove()-1e-6 {
			kind := schedule.MovesLittle
			if move < 0 {
				kind = schedule.Closes
			}
			out = append(out, fact.New(kind, fact.Count(p.N), fact.FineMM(math.Abs(move))))
		}
		from = p.Setting
	}
	return out
}

// Never is why no passes can be looked for in a bore of these radii, the least and the most, mm, nothing where they can.
func (r *Judge) Never(rLeast, rMost float64, st process.Station) fact.Fact {
	if need := 2 * rMost; need > r.Visit.Limits.High.MM() {
		return fact.New(schedule.NoCleanUp, fact.MM(need), fact.Figure(r.Visit.Limits.High.Length()))
	}
	if why := r.TooThin(rLeast); !why.None() {
		return why
	}
	if !r.Visit.NoWayOut.None() {
		return r.Visit.NoWayOut
	}
	turns := r.Job.Runout()
	if turns > r.Visit.Roundness || turns == r.Visit.Roundness && rMost > rLeast { // nothing of the old shape may stay then
		return r.TurnsOut(turns)
	}
	if len(r.Feeds) == 0 {
		return fact.New(schedule.NoFeed)
	}
	if st.Blind && r.DepthMost < r.LeastDepth() {
		return fact.New(schedule.NoRunOut, fact.Figure(st.Relief), fact.Figure(r.Job.Cutter.NoseRadius))
	}
	return fact.Fact{}
}
