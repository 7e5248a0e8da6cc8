package pass

import (
	"math"

	"borewright/process"
	"borewright/process/setup"
)

// FinishDoubt is how far the finish may land from the size aimed at, ± on
// diameter (95 %), against half the tolerance. What is left of an old shape, ρ peak to
// valley on the radius, puts a two-point diameter ρ above and below its middle.
func (r *Judge) FinishDoubt(c, semi Cut, left float64) (doubt, half float64) {
	doubt = r.DoubtMeasured(r.SwingsOf(semi), r.SwingsOf(c), semi.Moves) + r.Taper(c)/2 + r.WearTaper(c) + left + r.Across(c) + math.Abs(r.Rubs(c)-r.Rubs(semi)) + rounding + r.unread()
	return doubt, r.tolerates()
}

// tolerates is half of the tolerance of size, mm on diameter, or what is counted on of it.
func (r *Judge) tolerates() float64 {
	half := r.Visit.Limits.High.Minus(r.Visit.Limits.Low).MM() / 2
	if r.CountOn > 0 {
		half *= r.CountOn
	}
	return half
}

// LeastDoubt is what the doubt of the finish cannot be below, whatever goes before it: of
// what AfterMeasuring adds the last move of the cutter, temperature and the repeat of its
// own spring, and what FinishDoubt adds that hangs on this pass alone. half is as there.
func (r *Judge) LeastDoubt(c Cut) (doubt, half float64) { return r.leastDoubt(c, 0) }

// LeastBehind is the same with the least that any measured pass before it leaves unknown. With
// x = k·s₁, which may be anything, AfterMeasuring adds
//
//	ρ²·x² + φ²·(s₂−x)² ≥ s₂²·ρ²·φ²/(ρ²+φ²)
//
// and by increment (1−k)²·e₁² + k²·γ² ≥ e₁²·γ²/(e₁²+γ²).
func (r *Judge) LeastBehind(c Cut) (doubt, half float64) {
	if r.Measured { // it may be the first pass
		return r.LeastDoubt(c)
	}
	both := func(a, b float64) float64 {
		if a == 0 || b == 0 {
			return 0
		}
		return a * b / math.Hypot(a, b)
	}
	left := 0.0
	if r.ByIncrement() {
		left = both(r.Placed(0), r.Job.Limits.GaugeError.MM())
	}
	if r.Sprang() == (setup.Moves{}) {
		left = math.Hypot(left, r.SwingsOf(c).Forces.All*both(SpringRepeats, r.Doubt.Alone()))
	}
	return r.leastDoubt(c, left)
}

func (r *Judge) leastDoubt(c Cut, left float64) (doubt, half float64) {
	move := r.Job.Limits.SettingError.MM()
	doubt = BySquares(move, r.Warm(), SpringRepeats*r.SwingsOf(c).Forces.All, left) + r.Taper(c)/2 + r.WearTaper(c) + r.Across(c) + rounding
	return doubt, r.tolerates()
}

// rounding is what printing sizes to 0.0001 in or 0.001 mm adds to the doubt of
// one: half a step each for setting and size.
const rounding = 0.0025

// unread is what the last move of a visit may be out, on diameter, because it is made
// by whole steps from where the cutter was found to stand.
func (r *Judge) unread() float64 {
	if r.ByIncrement() && r.Visit.Stands.At > 0 && !r.Anew {
		return r.Job.ReadsTo().MM() / 2
	}
	return 0
}

// offAim is how far a size may be from the aim, ± (95 %), where it is known to ±doubt (95 %) about
// a middle that stands aside of the aim, all mm on diameter: the h of
//
//	Φ((h−aside)/σ) − Φ((−h−aside)/σ) = 0.95,  σ = doubt/1.96
//
// Errors of the normal law; far aside only one of its two sides counts, as where one limit is
// near (JCGM 106:2012, 7.3).
func offAim(doubt, aside float64) float64 {
	if doubt <= 0 || aside <= 0 {
		return doubt + aside
	}
	wide, low, high := math.Sqrt2*doubt/1.96, aside, aside+doubt
	for range 40 {
		if h := (low + high) / 2; math.Erf((h-aside)/wide)+math.Erf((h+aside)/wide) < 2*0.95 {
			low = h
		} else {
			high = h
		}
	}
	return high
}

// Taper is by how much the bore comes out larger, on diameter, where the bar is
// stiffest along the cut than where it is softest, or smaller. The stroke is that of the pass, at
// one setting.
func (r *Judge) Taper(c Cut) float64 {
	if r.Soft == r.Stiff {
		return 0
	}
	if !c.Fed {
		return 2 * math.Abs(r.last(r.Soft, c)-r.last(r.Stiff, c))
	}
	over := c.Depth + r.Middle.Push(c.Force, c.Radius, setup.In) // that the tip overlaps the bore by
	takes := func(g setup.Give) float64 {
		in, out := r.Stroke(g, c.Feed, c.Pick.At(c.Radius), c.Radius, true).Take(over, 0)
		return in + out
	}
	return 2 * math.Abs(takes(r.Stiff)-takes(r.Soft))
}

// SpringRepeats is how well the spring of one cut repeats in the next, as a
// fraction of it (95 %): edge, hardness and chips vary even when nothing is
// changed. Common practice, no source.
const SpringRepeats = 0.10

// ByIncrement is whether the cutter is moved on from where it stands.
func (r *Judge) ByIncrement() bool { return r.Job.Cutter.SetBy == process.Increment }

// Sprang is the spring on diameter, mm, of the cut by whose size it is known where
// the cutter stands before the first pass, and by how much it grows for a larger feed
// force; nothing where no such cut was made, or the cutter is set anew. By as much the
// place of the tip moves for wrong forces.
func (r *Judge) Sprang() setup.Moves {
	if !r.ByIncrement() || r.Anew {
		return setup.Moves{}
	}
	return setup.Moves{All: r.Visit.Stands.Sprang.MM(), Feed: r.Visit.Stands.ByFeed.MM()}
}

// Placed is how well it is known where the tip stands in a pass, ± on diameter
// (95 %), besides what the spring of the cut before tells wrong. moves is how often
// the cutter was moved since its first setting in the visit, or since it was set anew
// because the edge was honed. Set anew it is the error
// of a setting. By increment it is that of the first setting and of every move, or,
// of a visit begun before, of where the cutter was found to stand and of every move
// since. Added by squares (JCGM 100, the usual law).
func (r *Judge) Placed(moves int) float64 {
	l := r.Job.Limits
	move := l.SettingError.MM()
	switch {
	case !r.ByIncrement():
		return move
	case r.Visit.Stands.At > 0 && !r.Anew:
		return BySquares(r.Visit.Stands.Known.MM(), math.Sqrt(float64(moves+1))*move)
	}
	return BySquares(r.Job.FirstSettingError().MM(), math.Sqrt(float64(moves))*move)
}

// Doubts are what keeps the size of a pass from being known once the cut before it
// was measured, each ± on diameter (95 %). They add by squares (JCGM 100, 5.1).
type Doubts struct{ Setting, Gauge, Warm, Repeat, Force, Wear float64 }

func (d Doubts) All() float64 {
	return BySquares(d.Setting, d.Gauge, d.Warm, d.Repeat, d.Force, d.Wear)
}

// Swings is by how much, mm on diameter, the size of a pass moves for forces wrong by the
// whole of them, and for an edge worn as much more as it may be.
type Swings struct {
	Forces setup.Moves
	Wear   float64

	half float64 // worn.half that Wear is for
}

func (r *Judge) SwingsOf(c Cut) Swings {
	if c.swings != nil {
		return *c.swings
	}
	return Swings{setup.Moves{All: r.swing(c), Feed: r.swingByFeed(c)}, r.wornAway(c), r.half}
}

// AfterMeasuring is what remains unknown of the size that a pass leaves when the
// pass before was measured and the setting shifted by a share k of what it was out.
// With e the errors of where the tip stood, γ that of the gauge, φ that of the force
// model, ρ the repeats of the springs s, before and now, s₀ the
// spring by which the place of the tip is known (Judge.Sprang), and w what an edge
// worn more than is likely takes off the size, which is one edge both times,
//
//	found = e₁ + γ − φ·(s₁−s₀) − ρ₁·s₁ − w₁
//	size  = e₂ − φ·(s₂−s₀) − ρ₂·s₂ − w₂ − k·found
//
// φ·s stands for two errors, each the same in both cuts: that of all forces alike, and
// that of the feed force by itself (setup.Doubt.Of). By increment e₂ is e₁ and a move; set
// anew, e₂ knows nothing of e₁. The best k is
// what the size has in common with what was found (least squares):
//
//	k = (cov(e₁,e₂) + φ²·(s₁−s₀)·(s₂−s₀) + w₁·w₂) / (e₁² + γ² + φ²·(s₁−s₀)² + ρ²·s₁² + w₁²)
//
// moves is how often the cutter was moved up to the pass before.
func (r *Judge) AfterMeasuring(before, now Swings, moves int) Doubts {
	l := r.Job.Limits
	gauge, move := l.GaugeError.MM(), l.SettingError.MM()
	placed, stays := r.Placed(moves), 0.0 // of e₁
	if r.ByIncrement() {
		stays = placed
	}
	s1, s2 := before.Forces.Less(r.Sprang()), now.Forces.Less(r.Sprang())
	k := 0.0
	if found := BySquares(placed, gauge, r.Doubt.On(s1), SpringRepeats*before.Forces.All, before.Wear); found > 0 {
		k = math.Max(0, math.Min(1, (stays*stays+r.Doubt.Of(s1, s2)+before.Wear*now.Wear)/(found*found)))
	}
	setting := BySquares(move, k*placed)
	if r.ByIncrement() {
		setting = BySquares(move, (1-k)*placed)
	}
	return Doubts{Setting: setting, Gauge: k * gauge, Warm: r.Warm(), Repeat: SpringRepeats * BySquares(now.Forces.All, k*before.Forces.All),
		Force: r.Doubt.On(s2.Less(s1.Times(k))), Wear: math.Abs(now.Wear - k*before.Wear)}
}

// DoubtMeasured is all of that.
func (r *Judge) DoubtMeasured(before, now Swings, moves int) float64 {
	return r.AfterMeasuring(before, now, moves).All()
}

// doubtBlind is what remains unknown (± on diameter, 95 %) of the size that a pass
// leaves with no measurement before: spring is only as well known as the force
// model, of all forces and of feed force by itself. moves is how often the cutter was moved up to it.
func (r *Judge) doubtBlind(now Swings, moves int) float64 {
	return BySquares(r.Placed(moves), r.Warm(), r.Doubt.On(now.Forces.Less(r.Sprang())), now.Wear)
}

// Blind is how far a pass may come out below and above what is expected, mm on diameter
// (95 %), with no measurement before, by an edge that may be worn more or less than is likely.
func (r *Judge) Blind(c Cut, moves int) (below, above float64) {
	s := r.SwingsOf(c)
	smaller, larger := r.wornApart(s.Wear)
	return r.doubtBlind(Swings{Forces: s.Forces, Wear: smaller}, moves), r.doubtBlind(Swings{Forces: s.Forces, Wear: larger}, moves)
}

// DoubtLearned is what remains unknown (± on diameter, 95 %) of the size that the
// first pass leaves when the spring has been learned: where the tip stands,
// temperature, repeat of the spring, and what is still unknown of it.
func (r *Judge) DoubtLearned(now Swings) float64 {
	return BySquares(r.Placed(0), r.Warm(), SpringRepeats*now.Forces.All, r.Doubt.On(now.Forces.Less(r.Sprang())), now.Wear)
}

// Warm is the size error from work and gauge at different temperatures:
// α·D·ΔT.
func (r *Judge) Warm() float64 {
	return r.Visit.Material.Alpha * r.Visit.Limits.Aim.MM() * r.Job.Limits.Temperature
}

// BySquares adds parts that do not hang together: the root of the sum of their squares (JCGM 100, 5.1).
func BySquares(parts ...float64) float64 {
	var s float64
	for _, p := range parts {
		s += p * p
	}
	return math.Sqrt(s)
}
