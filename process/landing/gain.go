package landing

import (
	"cmp"
	"math"
	"slices"
)

// setGain works out the share of what the gauge finds at the hold by which the
// next setting is best shifted: the regression of the error to come on the
// error found,
//
//	gain = Σ s_i·m_i / Σ m_i²
//
// over the causes i, with m_i what one σ of a cause does to the size found and
// s_i what it does to the last size with no correction (Gauss: conditional mean
// of jointly normal errors). It is rounded to a tenth, which a person can work
// with, and lies between 0 and 1. Of what a cutter set anew misses nothing carries
// over. Of one set by increment all does, and on a stiff bar the share is 1 but for
// the gauge.
//
// What the gauge finds where nothing is off goes beside it: an old wall that the pass did not reach makes
// the bore that is gauged wider by as much whatever the error, and nobody corrects for it.
func (h *Trial) setGain() {
	at := -1
	for i, p := range h.Passes {
		if p.Measured {
			at = i
		}
	}
	if at < 0 {
		return
	}
	short := *h
	short.Passes = h.Passes[:at+1]
	var both, own float64
	z := make([]float64, h.causes())
	_, h.expected = short.cut(z[:short.causes()])
	h.expected += h.Passes[at].Rounded
	for i := range z {
		move := func(f func([]float64) float64) float64 {
			z[i] = 1
			up := f(z)
			z[i] = -1
			down := f(z)
			z[i] = 0
			return (up - down) / 2
		}
		s := move(func(z []float64) float64 { _, q := h.cut(z); return q })
		m := move(func(z []float64) float64 {
			_, q := short.cut(z[:short.causes()])
			if warm := h.Grows * h.Sigma.Kelvin * z[causeWork]; warm != 0 {
				q += warm // the gauge sees the bore as warm as it is
			}
			return q + h.Sigma.Gauge*z[causeEach+3*at+2]
		})
		both, own = both+s*m, own+m*m
	}
	if own > 0 {
		h.gain = math.Round(10*math.Max(0, math.Min(1, both/own))) / 10
	}
}

// moves is what one σ of each cause does to the sizes, measured and not: half of the
// difference between σ up and σ down. Shifts are taken as they come, because a whole
// step is no small change.
func (h Trial) moves() (measured, blind []float64) {
	h.Step = 0
	z := make([]float64, h.causes())
	measured, blind = make([]float64, len(z)), make([]float64, len(z))
	for i := range z {
		z[i] = 1
		up, upBlind := h.cut(z)
		z[i] = -1
		down, downBlind := h.cut(z)
		z[i] = 0
		measured[i], blind[i] = (up-down)/2, (upBlind-downBlind)/2
	}
	return measured, blind
}

// shares is how much of the variance comes from each cause: to first order the
// variance is the sum of the squares of what each moves.
func shares(moves []float64) []Share {
	var sum [len(causes)]float64
	total := 0.0
	for i, half := range moves {
		cause := i
		if i >= causeEach {
			cause = causeEach + (i-causeEach)%3
		}
		sum[cause] += half * half
		total += half * half
	}
	var out []Share
	for i, of := range sum {
		if total > 0 && of > 0 {
			out = append(out, Share{causes[i], of / total})
		}
	}
	slices.SortStableFunc(out, func(a, b Share) int { return cmp.Compare(b.Of, a.Of) })
	return out
}
