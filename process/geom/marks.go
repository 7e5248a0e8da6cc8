package geom

import (
	"math"
)

// Mark is a clock position at which a witness cut was looked at.
type Mark struct {
	Clock float64 // degrees
	Wall  float64 // of the worn bore there about the line, as it was read: a radius, mm
	Cut   bool    // the cutter marked it; else the old wall shows
}

// Marks are those of one witness cut. Figures of doubt are ±, 95 %, mm.
type Marks struct {
	At    []Mark
	Made  float64 // radius that the cutter made about its axis
	Cuts  float64 // doubt of Made, the same at all places
	Reads float64 // doubt of Wall, of each place by itself, with the least that is seen as a mark
	Line  float64 // how surely the sweeps tell where the line is
	Slip  float64 // how far off a line is, after a mistake in lining it up: standard deviation along X and along Y
}

// What is taken for likely before the marks are looked at, and how sure an advice must be.
// Common practice, no source.
const (
	slipped   = 0.10 // that something went wrong in lining up
	misjudged = 0.01 // that a place is said to be marked that is not, or the other way
	sureMove  = 0.95
)

// Advice is what to move by the marks, and whether they tell it. o, the place of the line as
// the cutter's axis sees it, is either what the sweeps' doubt leaves or, with the chance
// slipped, spread by Slip. At clock position θ the cutter takes metal where the wall stands
// inside its circle, so that a mark is seen with
//
//	P(mark | o) = Φ((Made + δ − Wall − o·u(θ)) / σ),  u = (sin θ, cos θ),
//
// first order in o over the radius, δ the doubt of Made, σ that of a place. The posterior is
// summed over 2 · 24 · 48 places o of equal prior weight (rings at the quantiles of Rayleigh's
// law, alike round the clock) and five δ. The mean of it is the move; where the chance that
// the line is nearer afterwards is below 95 %, three quarters of it, half or a quarter is
// tried. No move is advised while the line may still stand where the sweeps put it.
func (m Marks) Advice() (move [2]Move, sure bool) {
	const rings, round, sizes = 24, 48, 5
	place, cut := m.Reads/1.96, m.Cuts/1.96
	type cell struct {
		o Vec
		w float64
	}
	var cells []cell
	var all float64
	var mean Vec
	for _, prior := range []struct{ share, sigma float64 }{{1 - slipped, m.Line / 1.96}, {slipped, m.Slip}} {
		for i := range rings {
			far := prior.sigma * math.Sqrt(-2*math.Log(1-(float64(i)+0.5)/rings))
			for k := range round {
				o := AtClock(360 * float64(k) / round).Times(far)
				w := 0.0
				for s := range sizes {
					w += m.likely(o, cut*middleOf(s, sizes), place)
				}
				w *= prior.share
				cells, all, mean = append(cells, cell{o, w}), all+w, mean.Plus(o.Times(w))
			}
		}
	}
	if all <= 0 {
		return move, false
	}
	mean = mean.Times(1 / all)
	chance := func(holds func(Vec) bool) (p float64) {
		for _, c := range cells {
			if holds(c.o) {
				p += c.w / all
			}
		}
		return p
	}
	if chance(func(o Vec) bool { return o.Length() > m.Line }) < sureMove {
		return move, false
	}
	for _, part := range []float64{1, 0.75, 0.5, 0.25} {
		to := mean.Times(part)
		if chance(func(o Vec) bool { return o.Distance(to) < o.Length() }) >= sureMove {
			return moves(to, m.Line, m.Line), true
		}
	}
	return move, false
}

// likely is how likely all marks are as they were seen.
func (m Marks) likely(o Vec, size, sigma float64) float64 {
	p := 1.0
	for _, a := range m.At {
		deep := m.Made + size - a.Wall - o.Dot(AtClock(a.Clock))
		if !a.Cut {
			deep = -deep
		}
		p *= misjudged + (1-2*misjudged)*0.5*math.Erfc(-deep/sigma/math.Sqrt2)
	}
	return p
}

// middleOf is the middle, by probability, of the i-th of n equal parts of the normal law.
func middleOf(i, n int) float64 {
	return math.Sqrt2 * math.Erfinv(2*(float64(i)+0.5)/float64(n)-1)
}
