package passes

import (
	"math"

	"borewright/process"
	"borewright/process/setup"
)

// finishDoubt is how far the finish may land from the size aimed at, ± on
// diameter (95 %), against half the tolerance.
func (r *Planner) finishDoubt(c, semi cutAt, left float64) (doubt, half float64) {
	doubt = r.doubtMeasured(r.swings(semi), r.swings(c), semi.moves) + r.taper(c)/2 + r.wearTaper(c) + left + math.Abs(r.rubs(c)-r.rubs(semi)) + rounding + r.unread()
	return doubt, r.v.Limits.High.Minus(r.v.Limits.Low).MM() / 2
}

// rounding is what printing sizes to 0.0001 in or 0.001 mm adds to the doubt of
// one: half a step each for setting and size.
const rounding = 0.0025

// unread is what the last move of a visit may be out, on diameter, because it is made
// by whole steps from where the cutter was found to stand.
func (r *Planner) unread() float64 {
	if r.byIncrement() && r.v.Stands.At > 0 && !r.anew {
		return r.Job.ReadsTo().MM() / 2
	}
	return 0
}

// taper is by how much the bore comes out larger, on diameter, where the bar is
// stiffest along the cut than where it is softest. The stroke is that of the pass, at
// one setting.
func (r *Planner) taper(c cutAt) float64 {
	if r.Soft == r.Stiff {
		return 0
	}
	if !c.fed {
		return 2 * (r.last(r.Soft, c) - r.last(r.Stiff, c))
	}
	over := c.depth + r.Middle.Push(c.force, c.radius, setup.In) // that the tip overlaps the bore by
	takes := func(g setup.Give) float64 {
		in, out := r.Stroke(g, c.feed, c.pick.at(c.radius), c.radius, true).Take(over, 0)
		return in + out
	}
	return 2 * (takes(r.Stiff) - takes(r.Soft))
}

// SpringRepeats is how well the spring of one cut repeats in the next, as a
// fraction of it (95 %): edge, hardness and chips vary even when nothing is
// changed. Common practice, no source.
const SpringRepeats = 0.10

// byIncrement is whether the cutter is moved on from where it stands.
func (r *Planner) byIncrement() bool { return r.Job.Cutter.SetBy == process.Increment }

// sprang is the spring on diameter, mm, of the cut by whose size it is known where
// the cutter stands before the first pass; 0 where no such cut was made, or the
// cutter is set anew.
func (r *Planner) sprang() float64 {
	if !r.byIncrement() || r.anew {
		return 0
	}
	return r.v.Stands.Sprang.MM()
}

// placed is how well it is known where the tip stands in a pass, ± on diameter
// (95 %), besides what the spring of the cut before tells wrong. moves is how often
// the cutter was moved since its first setting in the visit, or since it was set anew
// because the edge was honed. Set anew it is the error
// of a setting. By increment it is that of the first setting and of every move, or,
// of a visit begun before, of where the cutter was found to stand and of every move
// since. Added by squares (JCGM 100, the usual law).
func (r *Planner) placed(moves int) float64 {
	l := r.Job.Limits
	move := l.SettingError.MM()
	switch {
	case !r.byIncrement():
		return move
	case r.v.Stands.At > 0 && !r.anew:
		return BySquares(r.v.Stands.Known.MM(), math.Sqrt(float64(moves+1))*move)
	}
	return BySquares(r.Job.FirstSettingError().MM(), math.Sqrt(float64(moves))*move)
}

// doubts are what keeps the size of a pass from being known once the cut before it
// was measured, each ± on diameter (95 %). They add by squares (JCGM 100, 5.1).
type doubts struct{ setting, gauge, warm, repeat, force, wear float64 }

func (d doubts) all() float64 {
	return BySquares(d.setting, d.gauge, d.warm, d.repeat, d.force, d.wear)
}

// swings is by how much, mm on diameter, the size of a pass moves for forces wrong by the
// whole of them, and for an edge worn as much more as it may be.
type swings struct{ force, wear float64 }

func (r *Planner) swings(c cutAt) swings { return swings{r.swing(c), r.wornAway(c)} }

// afterMeasuring is what remains unknown of the size that a pass leaves when the
// pass before was measured and the setting shifted by a share k of what it was out.
// With e the errors of where the tip stood, γ that of the gauge, φ that of the force
// model as a fraction, ρ the repeats of the springs s, before and now, s₀ the
// spring by which the place of the tip is known (Planner.sprang), and w what an edge
// worn more than is likely takes off the size, which is one edge both times,
//
//	found = e₁ + γ − φ·(s₁−s₀) − ρ₁·s₁ − w₁
//	size  = e₂ − φ·(s₂−s₀) − ρ₂·s₂ − w₂ − k·found
//
// By increment e₂ is e₁ and a move; set anew, e₂ knows nothing of e₁. The best k is
// what the size has in common with what was found (least squares):
//
//	k = (cov(e₁,e₂) + φ²·(s₁−s₀)·(s₂−s₀) + w₁·w₂) / (e₁² + γ² + φ²·(s₁−s₀)² + ρ²·s₁² + w₁²)
//
// moves is how often the cutter was moved up to the pass before.
func (r *Planner) afterMeasuring(before, now swings, moves int) doubts {
	l := r.Job.Limits
	gauge, phi, move := l.GaugeError.MM(), r.Doubt, l.SettingError.MM()
	placed, stays := r.placed(moves), 0.0 // of e₁
	if r.byIncrement() {
		stays = placed
	}
	s1, s2 := before.force-r.sprang(), now.force-r.sprang()
	k := 0.0
	if found := BySquares(placed, gauge, phi*s1, SpringRepeats*before.force, before.wear); found > 0 {
		k = math.Max(0, math.Min(1, (stays*stays+phi*phi*s1*s2+before.wear*now.wear)/(found*found)))
	}
	setting := BySquares(move, k*placed)
	if r.byIncrement() {
		setting = BySquares(move, (1-k)*placed)
	}
	return doubts{setting: setting, gauge: k * gauge, warm: r.Warm(), repeat: SpringRepeats * BySquares(now.force, k*before.force),
		force: phi * math.Abs(s2-k*s1), wear: math.Abs(now.wear - k*before.wear)}
}

// doubtMeasured is all of that.
func (r *Planner) doubtMeasured(before, now swings, moves int) float64 {
	return r.afterMeasuring(before, now, moves).all()
}

// doubtBlind is what remains unknown (± on diameter, 95 %) of the size that a pass
// leaves with no measurement before: the whole spring is only as well known as the
// force model. moves is how often the cutter was moved up to it.
func (r *Planner) doubtBlind(now swings, moves int) float64 {
	return BySquares(r.placed(moves), r.Warm(), r.Doubt*(now.force-r.sprang()), now.wear)
}

// blind is how far a pass may come out below and above what is expected, mm on diameter
// (95 %), with no measurement before, by an edge that may be worn more or less than is likely.
func (r *Planner) blind(c cutAt, moves int) (below, above float64) {
	s := r.swings(c)
	least, most := s, s
	if r.half > 0 {
		most.wear, least.wear = s.wear*r.below/r.half, s.wear*r.above/r.half
	}
	if s.wear < 0 { // more wear draws the tip into the wall
		least, most = most, least
	}
	return r.doubtBlind(most, moves), r.doubtBlind(least, moves)
}

// doubtLearned is what remains unknown (± on diameter, 95 %) of the size that the
// first pass leaves when the spring has been learned: where the tip stands,
// temperature, repeat of the spring, and what is still unknown of it.
func (r *Planner) doubtLearned(now swings) float64 {
	return BySquares(r.placed(0), r.Warm(), SpringRepeats*now.force, r.Doubt*(now.force-r.sprang()), now.wear)
}

// Warm is the size error from work and gauge at different temperatures:
// α·D·ΔT.
func (r *Planner) Warm() float64 {
	return r.v.Material.Alpha * r.v.Limits.Aim.MM() * r.Job.Limits.Temperature
}

func BySquares(parts ...float64) float64 {
	var s float64
	for _, p := range parts {
		s += p * p
	}
	return math.Sqrt(s)
}
