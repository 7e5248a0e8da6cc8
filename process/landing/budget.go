package landing

import (
	"math"
	"runtime"
	"sync"

	"borewright/process/qty"
)

// The last passes are cut at every point of so many nets. By what the nets differ
// from each other it is known how far their mean may be off.
const (
	nets   = 16
	each   = 4     // errors of the last setting, of each trial, for the sizes that 95 of 100 lie between
	spread = 2.131 // Student's t for nets − 1 degrees of freedom, 95 % (JCGM 100, table G.2)
)

// Budget cuts the passes over and over; sizes are rounded as u prints them. Draws come
// from fixed streams, one for each net, so that the answer is the same on any number
// of cores.
//
// A trial is cut up to the last setting. How many of all errors of that setting,
// which is normal, then end within the limits is a figure of the normal law and is
// not left to draws: what is averaged over the trials has no steps, also where a
// setting before is rounded to a dial's. (A. Griewank, F. Y. Kuo, H. Leövey and
// I. H. Sloan, J. Comput. Appl. Math. 344 (2018) 259–274.)
func (h Trial) Budget(u qty.Unit) *Budget { return h.budget(u, theSeed) }

func (h Trial) budget(u qty.Unit, seed uint64) *Budget {
	h.setGain()
	moves, blindMoves := h.moves()
	t := h.turn(moves, blindMoves)
	draws, law := pointsOf(seed, t.draws()), theNormal()
	var chances, blindChances [nets]float64
	todo := make(chan int, nets)
	for i := range nets {
		todo <- i
	}
	close(todo)
	counts := make([]*sizes, max(1, min(runtime.GOMAXPROCS(0), nets)))
	var wait sync.WaitGroup
	for w := range counts {
		counts[w] = h.newSizes()
		wait.Go(func() {
			for i := range todo {
				chances[i], blindChances[i] = h.cutAll(draws.net(i), &t, law, counts[w])
			}
		})
	}
	wait.Wait()
	for _, c := range counts[1:] {
		counts[0].take(c)
	}
	b := &Budget{Trials: nets << lengthLog * len(t.rubs), Gain: h.gain, Shares: shares(moves)}
	b.Chance, b.Error = mean(chances[:])
	b.Blind, b.BlindError = mean(blindChances[:])
	b.Low, b.High = counts[0].middle(0, u)
	if h.gain > 0 {
		b.unmeasured = &Budget{Trials: nets << lengthLog * len(t.rubs), Shares: shares(blindMoves), Chance: b.Blind, Blind: b.Blind, Error: b.BlindError, BlindError: b.BlindError}
		b.unmeasured.Low, b.unmeasured.High = counts[0].middle(1, u)
	}
	return b
}

// cutAll cuts the passes at every point of a net, counts the sizes, and returns what
// share of them lies within the limits: measured, and not.
func (h *Trial) cutAll(n points, t *turned, law *normal, count *sizes) (chance, blind float64) {
	d := h.newDrawn()
	z, draws := make([]float64, h.causes()), make([]float64, len(n.normal))
	one := h.lastSigma() / 2
	for k, errors := range n.last {
		for i := range errors { // of the last setting
			errors[i] *= one
		}
		for i, of := range n.normal {
			draws[i] = of[k]
		}
		t.into(z, draws)
		for _, z[causeRub] = range t.rubs {
			h.draw(z, d)
			count.add(d.left(&errors))
			in := h.withinShifted(d, law, one)
			chance += in
			if h.gain > 0 {
				in = h.within(d, law, d.blind, d.carriedOff, one)
			}
			blind += in
		}
	}
	all := float64(len(t.rubs) << lengthLog)
	return chance / all, blind / all
}

// withinShifted is what share of the errors of gauge and last setting, whose σ is sigma on radius, ends
// within the limits.
// Where the gauge can tell no more than a few of the steps apart that a setting is shifted by, the share of
// each step is a figure of the normal law as well.
func (h *Trial) withinShifted(d *drawn, law *normal, sigma float64) float64 {
	last := d.last
	if last == 0 || !h.Passes[last-1].Measured || h.Step < h.gain*h.Sigma.Gauge || h.gain*h.Sigma.Gauge == 0 {
		return h.within(d, law, d.measured, d.carriedOff+d.shift, sigma)
	}
	one := h.Step / (h.gain * h.Sigma.Gauge) // a step in σ of the gauge
	out := (2*d.measured - h.expected) / h.Sigma.Gauge
	in, before := 0.0, 0.0
	for step := math.Round((out - 4) / one); before < 1; step++ {
		next := 1.
		if x := (step+0.5)*one - out; x < 4 {
			next = law.below(x)
		}
		in += (next - before) * h.within(d, law, d.measured, d.carriedOff-step*h.Step/2, sigma)
		before = next
	}
	return in
}

// within is what share of the errors of the last setting, whose σ is one on radius, end within the limits in a
// bore of radius r with a tip that stands off by so much already.
func (h *Trial) within(d *drawn, law *normal, r, off, one float64) float64 {
	// An error in σ of the setting is found for each limit: from the straight line
	// that the size follows where every pass cuts, or else by halving. The larger
	// the setting the larger the bore.
	low, high := (h.Limits[0]+h.Form+d.warm)/2, (h.Limits[1]-h.Form+d.warm)/2
	if made, rise, cuts := d.line(r, off); cuts && one > 0 && rise > 0 {
		x := (low - made) / (one * rise)
		if x < 0 {
			_, _, cuts = d.line(r, off+one*max(x, -8)) // and above it
		}
		if cuts {
			return max(0, law.below((high-made)/(one*rise))-law.below(x))
		}
	}
	made := d.finish(r, off)
	if one == 0 {
		if made < low || made > high {
			return 0
		}
		return 1
	}
	rise := d.finish(r, off+one) - made
	below := func(wanted float64) float64 {
		const sure = 1e-9 // mm
		x := (wanted - made) / rise
		if !(math.Abs(d.finish(r, off+one*x)-wanted) < sure) {
			low, high := -8.0, 8.0
			for high-low > 1e-6 {
				if x = (low + high) / 2; d.finish(r, off+one*x) < wanted {
					low = x
				} else {
					high = x
				}
			}
		}
		return law.below(x)
	}
	return max(0, below(high)-below(low))
}

// mean is the mean of the nets, and the half-width of what it is off by at most, 95 %.
func mean(of []float64) (mean, off float64) {
	n, squares := float64(len(of)), 0.0
	for _, x := range of {
		mean += x / n
	}
	for _, x := range of {
		squares += (x - mean) * (x - mean)
	}
	return mean, spread * math.Sqrt(squares/(n-1)/n)
}

// sizes counts the sizes that trials end with, measured and not, by small steps
// from three times the limits below them to as much above.
type sizes struct {
	low, per float64 // per: steps a mm
	all      int32
	of       [2][2048]int32
}

func (h *Trial) newSizes() *sizes {
	s, wide := new(sizes), h.Limits[1]-h.Limits[0]
	s.low, s.per = h.Limits[0]-3*wide, float64(len(s.of[0]))/(7*wide)
	return s
}

func (s *sizes) add(all [2][each]float64) {
	for side := range all {
		for _, size := range all[side] {
			s.of[side][min(len(s.of[0])-1, max(0, int((size-s.low)*s.per)))]++
		}
	}
	s.all += each
}

func (s *sizes) take(t *sizes) {
	for side := range s.of {
		for i, n := range t.of[side] {
			s.of[side][i] += n
		}
	}
	s.all += t.all
}

// middle is between which sizes 95 of 100 lie.
func (s *sizes) middle(side int, u qty.Unit) (low, high qty.Diameter) {
	at := func(share float64) qty.Diameter {
		wanted, sum, i := int32(share*float64(s.all)), int32(0), 0
		for ; i < len(s.of[side])-1; i++ {
			if sum += s.of[side][i]; sum > wanted {
				break
			}
		}
		return qty.Diameter(u.Round(qty.FromMM(s.low + (float64(i)+0.5)/s.per)))
	}
	return at(0.025), at(0.975)
}
