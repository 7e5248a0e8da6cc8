package passes

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"

	"borewright/process/bar"
	"borewright/process/qty"
)

// Budget is the chance of landing on size, and what it is lost to, by trial:
// the last passes of a visit are cut many times over with everything that is
// not known drawn anew each time.
type Budget struct {
	Trials int
	Gain   float64      // share of what a bore is out at the hold by which the next setting is shifted
	Chance float64      // that the finish lands within limits, measured and corrected at the hold points
	Blind  float64      // the same with no measuring before the last pass
	Low    qty.Diameter // 95 of 100 finishes land between these
	High   qty.Diameter
	Shares []Share // what the scatter comes from, largest first
}

// Share is one cause of scatter and its share of the variance.
type Share struct {
	What string
	Of   float64
}

// String says the chance in words: "99.8 in 100 measured, 97.9 unmeasured".
func (b *Budget) String() string {
	say := func(x float64) string {
		if x > 0.9995 {
			return "over 99.9"
		}
		return fmt.Sprintf("%.1f", 100*x)
	}
	if b.Gain == 0 {
		return say(b.Chance) + " in 100"
	}
	return say(b.Chance) + " in 100, measured before the last cut; " + say(b.Blind) + " unmeasured"
}

// trials is how often the last passes are cut. The chance is then good to
// about 0.1 in 100.
const trials = 100_000

// rootFactor is how well the stiffness of spindle and socket is known, as a
// factor either way (95 %): a factor of 1.5. Common practice, no source; the
// figures in the machine files are ranges of two to one.
const rootFactor = 1.5

// The causes of scatter. All are normal with the figures of the job's limits
// as 95 % half-widths (σ = half/1.96); the root is normal in its logarithm.
const (
	causeForce = iota // force constants: one factor for all passes
	causeRoot         // stiffness of spindle and socket: one factor
	causeSet          // setting: what is wrong with every setting alike
	causeWork         // temperature of the work
	causeBar          // temperature of the bar
	causeEach         // from here on: of each pass its setting, its spring, its gauge
)

var causeNames = [causeEach]string{"cutting force", "spindle stiffness", "setting, all alike", "temperature of the work", "temperature of the bar"}

// simulation is the last passes of a visit, ready to be cut again and again.
type simulation struct {
	start   float64 // radius before the first of them, mm
	passes  []simulatedPass
	limits  [2]float64 // diameters, mm
	cBar    float64    // compliance of the bar alone, mm/N
	cRoot   float64    // of spindle and socket
	grows   float64    // diameter of the bore over K of the work, mm/K
	barGrow float64    // setting on diameter over K of the bar
	gain    float64    // share of what the gauge finds by which the next setting is shifted
	sigma   struct{ force, root, set, gauge, kelvin float64 }
}

type simulatedPass struct {
	setting, expected float64 // diameters, mm
	depth, force, k   float64 // planned depth, its radial force and ∂F/∂depth: force is straight about the plan
	measured          bool    // the gauge corrects the next setting
	again             bool    // same setting as the pass before
}

// simulation collects the passes from the one before the semi-finish on; what
// came before them no longer matters to the size.
func (r *Planner) simulation() *simulation {
	l := r.Job.Limits
	h := &simulation{limits: [2]float64{r.v.Limits.Low.MM(), r.v.Limits.High.MM()}}
	h.sigma.force, h.sigma.set, h.sigma.gauge = r.forceDoubt/1.96, l.SettingError.MM()/1.96, l.GaugeError.MM()/1.96
	h.sigma.root, h.sigma.kelvin = math.Log(rootFactor)/1.96, l.Temperature/1.96
	h.grows = r.v.Material.Alpha * r.v.Limits.Aim.MM()
	h.barGrow = SteelAlpha * r.v.Limits.Aim.MM()
	h.cBar = r.c
	if rigid := r.factor * r.rigid(); rigid < r.c {
		h.cBar, h.cRoot = rigid, r.c-rigid
	}
	first := len(r.v.Passes)
	for first > 0 && r.v.Passes[first-1].Kind >= SemiFinish {
		first--
	}
	first = max(0, first-1)
	h.start = r.v.Start.MM() / 2
	if first > 0 {
		h.start = r.v.Passes[first-1].Expected.MM() / 2
	}
	for i, p := range r.v.Passes[first:] {
		radial := func(a float64) float64 { return r.Radial(a, p.Feed.MM(), float64(p.Cutting)) }
		d := p.Depth.MM()
		if i == 0 { // from the middle of what it finds, not the place of least radius
			d = bar.DepthFor(radial, r.c, p.Setting.MM()/2-h.start)
		}
		h.passes = append(h.passes, simulatedPass{
			setting: p.Setting.MM(), expected: p.Expected.MM(), depth: d, force: radial(d),
			k:        r.model.Push(math.Max(d, 1e-4), p.Feed.MM(), float64(p.Cutting)),
			measured: p.Kind == SemiFinish, again: p.Kind == Spring,
		})
	}
	return h
}

// SteelAlpha is the expansion of a steel bar, 1/K: 11.5·10⁻⁶ (any handbook).
const SteelAlpha = 11.5e-6

// rigid is the compliance of the same bar on a spindle that does not give.
func (r *Planner) rigid() float64 {
	b, err := bar.New(r.sections, bar.Root{Radial: math.Inf(1), Tilt: math.Inf(1)}, r.Job.Bar.CutterAt.MM(), r.support, 0)
	if err != nil {
		return r.c
	}
	return b.Compliance()
}

// causes is how many numbers one trial draws.
func (h *simulation) causes() int { return causeEach + 3*len(h.passes) }

// cut makes the passes once with the given draws (standard normal) and returns
// the sizes left, diameter in mm at 20 °C: with what the gauge found at the hold
// shifting the settings after it by the share that the sheet asks for, and
// without.
//
// A pass set to S in a bore of radius r cuts the depth a that solves
// a + g·F(a) = S/2 − r with F(a) = F₀ + k·(a − a₀) and g = c·force·repeat:
//
//	a = (S/2 − r + g·(k·a₀ − F₀)) / (1 + g·k)
func (h *simulation) cut(z []float64) (measured, blind float64) {
	force := 1 + h.sigma.force*z[causeForce]
	if force < 0.2 {
		force = 0.2
	}
	c := (h.cBar + h.cRoot*exp(h.sigma.root*z[causeRoot])) * force
	always := (h.sigma.set*z[causeSet] + h.barGrow*h.sigma.kelvin*z[causeBar]) / 2
	warm := h.grows * h.sigma.kelvin * z[causeWork]
	r, q, shift, slip := h.start, h.start, 0.0, 0.0
	for i := range h.passes {
		p := &h.passes[i]
		own := z[causeEach+3*i:]
		if !p.again {
			slip = h.sigma.set * own[0] / 2
		}
		g := c * (1 + SpringRepeats/1.96*own[1])
		over := p.setting/2 + always + slip + g*(p.k*p.depth-p.force)
		give := 1 / (1 + g*p.k)
		if a := (over + shift - r) * give; a > 0 {
			r += a
		}
		if a := (over - q) * give; a > 0 {
			q += a
		}
		if p.measured {
			shift -= h.gain * (r + h.sigma.gauge*own[2]/2 - p.expected/2)
		}
	}
	return 2*r - warm, 2*q - warm
}

// exp is e^x for the |x| < 1.5 that a factor of 1.5 either way draws, to
// 10⁻⁵: Taylor's series on x/4, squared twice. The trials need no more, and
// math.Exp takes a third of their time.
func exp(x float64) float64 {
	y := x / 4
	y = 1 + y*(1+y/2*(1+y/3*(1+y/4*(1+y/5))))
	y *= y
	return y * y
}

// setGain works out the share of what the gauge finds at the hold by which the
// next setting is best shifted: the regression of the error to come on the
// error found,
//
//	gain = Σ s_i·m_i / Σ m_i²
//
// over the causes i, with m_i what one σ of a cause does to the size found and
// s_i what it does to the last size with no correction (Gauss: conditional mean
// of jointly normal errors). It is rounded to a tenth, which a person can work
// with, and lies between 0 and 1.
func (h *simulation) setGain() {
	at := -1
	for i, p := range h.passes {
		if p.measured {
			at = i
		}
	}
	if at < 0 {
		return
	}
	short := *h
	short.passes = h.passes[:at+1]
	var both, own float64
	z := make([]float64, h.causes())
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
			if warm := h.grows * h.sigma.kelvin * z[causeWork]; warm != 0 {
				q += warm // the gauge sees the bore as warm as it is
			}
			return q + h.sigma.gauge*z[causeEach+3*at+2]
		})
		both, own = both+s*m, own+m*m
	}
	if own > 0 {
		h.gain = math.Round(10*math.Max(0, math.Min(1, both/own))) / 10
	}
}

// budget cuts the last passes trials times. Draws come from fixed streams, one
// for each block of trials, and are only counted, so that the answer is the
// same on any number of cores.
func (r *Planner) budget() *Budget {
	if len(r.v.Passes) == 0 {
		return nil
	}
	h := r.simulation()
	h.setGain()
	const block = 5000
	const bins = 4096
	spread := 3 * (h.limits[1] - h.limits[0])
	low := h.limits[0] - spread
	width := (h.limits[1] - h.limits[0] + 2*spread) / bins
	type count struct {
		in, blind int
		bins      [bins]int32
	}
	perWidth := 1 / width
	blocks := make(chan int, trials/block)
	for b := range trials / block {
		blocks <- b
	}
	close(blocks)
	counts := make([]count, max(1, min(runtime.GOMAXPROCS(0), 8)))
	var wait sync.WaitGroup
	for w := range counts {
		wait.Add(1)
		go func(n *count) {
			defer wait.Done()
			z := make([]float64, h.causes())
			for b := range blocks {
				rng := rand.New(rand.NewPCG(0x626f7265, uint64(b)))
				for range block / 4 {
					for i := range z {
						z[i] = rng.NormFloat64()
					}
					// Each draw serves four trials, mirrored as a whole
					// and by halves: as good a sample, and drawing is
					// what takes the time.
					for turn := range 4 {
						d, q := h.cut(z)
						if d >= h.limits[0] && d <= h.limits[1] {
							n.in++
						}
						if q >= h.limits[0] && q <= h.limits[1] {
							n.blind++
						}
						n.bins[min(bins-1, max(0, int((d-low)*perWidth)))]++
						end := len(z)
						if turn == 1 {
							end /= 2
						}
						for i := range z[:end] {
							z[i] = -z[i]
						}
					}
				}
			}
		}(&counts[w])
	}
	wait.Wait()
	total := &counts[0]
	for i := range counts[1:] {
		c := &counts[i+1]
		total.in += c.in
		total.blind += c.blind
		for j := range total.bins {
			total.bins[j] += c.bins[j]
		}
	}
	quantile := func(share float64) qty.Diameter {
		want, sum := int32(share*trials), int32(0)
		for i, n := range total.bins {
			if sum += n; sum > want {
				return qty.Diameter(r.Job.Units.Round(qty.FromMM(low + (float64(i)+0.5)*width)))
			}
		}
		return r.v.Limits.High
	}
	return &Budget{
		Trials: trials, Gain: h.gain, Chance: float64(total.in) / trials, Blind: float64(total.blind) / trials,
		Low: quantile(0.025), High: quantile(0.975), Shares: h.shares(),
	}
}

// shares moves one cause at a time by its σ and sees how far the size goes: to
// first order the variance is the sum of the squares.
func (h *simulation) shares() []Share {
	sum := map[string]float64{}
	z := make([]float64, h.causes())
	total := 0.0
	for i := range z {
		z[i] = 1
		up, _ := h.cut(z)
		z[i] = -1
		down, _ := h.cut(z)
		half := (up - down) / 2
		z[i] = 0
		name := ""
		if i < causeEach {
			name = causeNames[i]
		} else {
			name = [...]string{"setting, pass by pass", "spring that does not repeat", "gauge"}[(i-causeEach)%3]
		}
		sum[name] += half * half
		total += half * half
	}
	var out []Share
	for _, name := range append(causeNames[:], "setting, pass by pass", "spring that does not repeat", "gauge") {
		if total > 0 && sum[name] > 0 {
			out = append(out, Share{What: name, Of: sum[name] / total})
		}
	}
	slices.SortStableFunc(out, func(a, b Share) int { return cmp.Compare(b.Of, a.Of) })
	return out
}
