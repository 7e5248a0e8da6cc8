package setup

import (
	"math"

	"borewright/process/bar"
	"borewright/process/cut"
)

// Way is which way the tip is fed.
type Way int

// The ways. The feed force points against the feed, so it turns round with it.
const (
	In  Way = 1  // away from the root of the bar
	Out Way = -1 // toward the root
)

// Give is how the tip gives way with the bar in one place. It is all that spring
// knows of the bar.
type Give struct {
	Radial float64 // mm, toward smaller radius, for a newton of radial force: mm/N
	Arm    float64 // mm, toward larger radius, for a newton millimetre of the moment that the feed force has about the bar when the tip is fed in: 1/N

	feed float64  // the feed force on gap is besides so many times as large
	gap  *bar.Gap // of an outboard bearing with play; nil: the two figures above say all
	gap2 *bar.Gap // of the other end, where the bar is in the middle between two places
	more float64  // the forces on gap are so many times as large: what was learned
}

// giveOf is how the tip gives way on one bar, k times as softly as worked out and to a feed
// force that is besides feed times as large.
func giveOf(b *bar.Beam, k, feed float64) Give {
	return Give{Radial: k * b.Compliance(), Arm: k * feed * b.ArmCompliance(), gap: b.Gap(), more: k, feed: feed}
}

// By is the same bar with all forces k times as large, and that against the feed besides feed
// times.
func (g Give) By(k, feed float64) Give {
	g.Radial, g.Arm, g.more, g.feed = g.Radial*k, g.Arm*k*feed, g.more*k, g.feed*feed
	return g
}

// between is the bar in the middle of two places.
func (g Give) between(h Give) Give {
	return Give{Radial: (g.Radial + h.Radial) / 2, Arm: (g.Arm + h.Arm) / 2, gap: g.gap, gap2: h.gap, more: g.more, feed: g.feed}
}

// Push is how far a cut pushes the tip off its unloaded place, mm, toward smaller
// radius. R is the radius of the tip, mm:
//
//	push = c·F_p − way·c_m·R·F_f
//
// The feed force acts on the arm R and bends the bar back toward the wall when fed in
// (see bar.Beam.ArmCompliance). In a bearing with play it is what bar.Gap says, in the mean
// of a turn.
func (g Give) Push(f cut.Force, radius float64, way Way) float64 {
	if g.gap == nil {
		return g.Radial*f.Radial - float64(way)*g.Arm*radius*f.Feed
	}
	f.Feed *= g.feed
	l := loadOf(f.By(g.more), radius, way)
	push := g.gap.Push(l)
	if g.gap2 != nil {
		push = (push + g.gap2.Push(l)) / 2
	}
	return push
}

// ByFeed is by how much the push of a cut grows, mm, for a feed force larger by the whole
// of it and nothing else changed: below 0 where it bends the bar toward the wall.
func (g Give) ByFeed(f cut.Force, radius float64, way Way) float64 {
	if g.gap == nil {
		return -float64(way) * g.Arm * radius * f.Feed
	}
	const little = 0.05
	more := f
	more.Feed *= 1 + little
	return (g.Push(more, radius, way) - g.Push(f, radius, way)) / little
}

// loadOf is what a cut does to the bar.
func loadOf(f cut.Force, radius float64, way Way) bar.Load {
	return bar.Load{Radial: f.Radial, Tangential: f.Cutting, Arm: float64(way) * radius * f.Feed}
}

// Push is the push, mm, of passes at one feed and speed against the depth that the
// edge cuts there, mm. It is 0 at a depth of 0.
type Push func(depth float64) float64

// By is the push of a bar k times as soft, or of forces k times as large.
func (p Push) By(k float64) Push {
	return func(depth float64) float64 { return k * p(depth) }
}

// Rise is by how much the push rises with the depth there: what of an uneven bore is copied.
func (p Push) Rise(depth float64) float64 {
	little := 0.002 * depth
	return (p(depth+little) - p(depth-little)) / (2 * little)
}

// SettingFor is how deep a radial overlap the cutter must be set to, mm, so
// that it cuts depth, mm:
//
//	setting = depth + push(depth)
//
// A depth of 0 or less is its own setting.
func (p Push) SettingFor(depth float64) float64 {
	if !(depth > 0) {
		return depth
	}
	return depth + p(depth)
}

// DepthFor is the depth, mm, that a cutter cuts when it is set to overlap by
// setting, mm: the depth whose push makes up the difference. It inverts SettingFor
// for any push that falls by less than the depth rises. It brackets the root
// before it halves the bracket, so that it cannot run away however soft the
// bar. A setting of 0 or less cuts nothing and is returned as it is.
func (p Push) DepthFor(setting float64) float64 {
	if !(setting > 0) || math.IsInf(setting, 1) {
		return setting
	}
	over := func(depth float64) float64 { return setting - p.SettingFor(depth) } // overlap left over
	lo, hi := 0.0, setting
	atLo := over(lo)
	for range 20 { // a tip that the cut pulls into the wall cuts deeper than it is set
		atHi := over(hi)
		if atHi <= 0 {
			return root(over, lo, hi, atLo, atHi, setting)
		}
		lo, hi, atLo = hi, 2*hi, atHi
	}
	return lo
}

// root is where f, above 0 or at it at lo and below 0 or at it at hi, is 0: regula
// falsi; what f is at an end that stays is taken for less, by how much f fell at the
// other (Anderson and Björck, BIT 13 (1973), from memory), and the bracket is halved where
// the step leaves it. It is found to 10⁻¹² of size.
func root(f func(float64) float64, lo, hi, atLo, atHi, size float64) float64 {
	side := 0
	less := func(now, was float64) float64 {
		if m := 1 - now/was; m > 0 {
			return m
		}
		return 0.5
	}
	if atHi >= 0 {
		return hi
	}
	for range 200 {
		x := hi - atHi*(hi-lo)/(atHi-atLo)
		if !(x > lo && x < hi) {
			x = (lo + hi) / 2
		}
		at := f(x)
		if math.Abs(at) <= 1e-12*size || hi-lo <= 1e-12*size {
			return x
		}
		if at > 0 {
			if side > 0 {
				atHi *= less(at, atLo)
			}
			lo, atLo, side = x, at, 1
		} else {
			if side < 0 {
				atLo *= less(at, atHi)
			}
			hi, atHi, side = x, at, -1
		}
	}
	return (lo + hi) / 2
}

// LeftBy is what one pass leaves of an uneven bore, mm. rLeast and rMost are the
// radii before it where there is most and least to cut; the pass takes the
// place of least radius to made. It gives the radius left at the other:
//
//	l = made + push(made−rLeast) − push(l−rMost), and never less than it was,
//
// because there the bar springs less (error copying, Koenigsberger & Tlusty,
// Machine Tool Structures, 1970, from memory). Where the arm of the feed force takes
// more than the radial force gives, the push falls as the depth grows and l comes out
// below made: the shape is turned round. What is given then lies as far above made,
// because the bore is that much out of round.
func (p Push) LeftBy(rLeast, rMost, made float64) float64 {
	if rMost <= rLeast {
		return made
	}
	push := p(made - rLeast)
	l := made
	for range 6 { // contracts by ∂push/∂depth, a few hundredths, each time
		was := l
		if l = made + push - p(math.Max(0, l-rMost)); math.Abs(l-was) < 1e-7 {
			return math.Max(made+math.Abs(l-made), rMost)
		}
	}
	l = rMost + math.Max(0, p.DepthFor(made+push-rMost))
	return math.Max(made+math.Abs(l-made), rMost)
}
