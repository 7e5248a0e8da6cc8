// Package landing works out the chance of landing on size, and what it is lost to,
// by trial: the last passes of a visit are cut many times over with everything
// that is not known drawn anew each time. The cutter is set as hands set it: anew
// for each pass, or by moving it on from where it stands (Trial.Carried). It also
// finds the best share of a measured error by which to shift the next setting. It
// knows passes as settings, depths and forces, and no job.
package landing

import (
	"cmp"
	"math"
	"slices"

	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// The chance of landing on size (Budget.Fact), and what scatters it.
const (
	Unmeasured fact.Kind = "landing.chance"          // chance, whether the bar stays quiet
	Measured   fact.Kind = "landing.chance measured" // chance, the same with no measuring, whether the bar stays quiet
	IfQuiet    fact.Kind = "landing.if quiet"        // what every chance supposes

	ByForce   fact.Kind = "landing.scatter force"
	ByRoot    fact.Kind = "landing.scatter root"
	ByStood   fact.Kind = "landing.scatter stood"
	ByWork    fact.Kind = "landing.scatter work"
	ByBar     fact.Kind = "landing.scatter bar"
	ByWayOut  fact.Kind = "landing.scatter way out"
	BySetting fact.Kind = "landing.scatter setting"
	BySpring  fact.Kind = "landing.scatter spring"
	ByGauge   fact.Kind = "landing.scatter gauge"
)

// Budget is the chance of landing on size, and what it is lost to.
type Budget struct {
	Trials int
	Gain   float64      // share of what a bore is out at the hold by which the next setting is shifted
	Chance float64      // that the finish lands within limits, measured and corrected at the hold points
	Blind  float64      // the same with no measuring before the last pass
	Low    qty.Diameter // 95 of 100 finishes land between these
	High   qty.Diameter
	Shares []Share   // what the scatter comes from, largest first
	Voice  fact.Fact // whether the bar stays quiet, as all that is stated here supposes
}

// Describe says what documents have of a budget.
func (b *Budget) Describe(d *field.Desc) {
	d.Is("given", func() any { return fact.New(IfQuiet) })
	d.Is("voice", func() any { return b.Voice })
	d.Worked("with its chance", &b.Voice)
	d.Number(&b.Chance, "chance", "")
	d.Number(&b.Blind, "chance_unmeasured", "")
	d.Number(&b.Gain, "correction", "")
	d.Diameter(&b.Low, "low_mm")
	d.Diameter(&b.High, "high_mm")
	d.Count(&b.Trials, "trials")
	field.List(d, &b.Shares, "scatter", 0, field.Any)
}

// Share is one cause of scatter and its share of the variance.
type Share struct {
	Cause fact.Kind
	Of    float64
}

// Describe says what documents have of a share.
func (s *Share) Describe(d *field.Desc) {
	d.Is("cause", func() any { return fact.New(s.Cause) })
	d.Number(&s.Of, "share", "").Decimals(4)
	d.Worked("in words", &s.Cause)
}

// Fact says the chance, and what it is unmeasured where measuring changes it.
func (b *Budget) Fact() fact.Fact {
	if b.Gain == 0 {
		return fact.New(Unmeasured, chance(b.Chance), b.Voice)
	}
	return fact.New(Measured, chance(b.Chance), chance(b.Blind), b.Voice)
}

func chance(p float64) fact.Arg { return fact.Figure(qty.KindChance.Of(p)) }

// trials is how often the last passes are cut. The chance is then good to
// about 0.1 in 100.
const trials = 100_000

// The causes of scatter. All are normal with the figures of the job's limits
// as 95 % half-widths (σ = half/1.96); the root is normal in its logarithm.
const (
	causeForce = iota // force constants: one factor for all passes
	causeRoot         // stiffness of spindle and socket: one factor
	causeStood        // where the cutter stood before the first of the passes
	causeWork         // temperature of the work
	causeBar          // temperature of the bar
	causeRub          // whether a way out too shallow for the edge cuts or rubs: alike in all passes
	causeEach         // from here on: of each pass its setting, its spring, its gauge
)

// causes are their kinds: those of all passes, then those of each.
var causes = [causeEach + 3]fact.Kind{ByForce, ByRoot, ByStood, ByWork, ByBar, ByWayOut, BySetting, BySpring, ByGauge}

// Trial is the last passes of a visit, ready to be cut again and again.
type Trial struct {
	Start     float64    // radius before the first of them, mm
	Passes    []Pass     // from the one before the semi-finish on
	Limits    [2]float64 // diameters, mm
	Bar, Root float64    // compliance of the bar alone, and of spindle and socket, mm/N
	Grows     float64    // diameter of the bore over K of the work, mm/K
	BarGrows  float64    // setting on diameter over K of the bar
	Carried   bool       // set by increment: what is wrong with one setting is wrong with the next as well
	Sprang    float64    // Carried: spring on diameter of the cut whose size says where the cutter stands; 0: no such cut
	Step      float64    // least by which a setting can be shifted, on diameter, mm; 0: any
	Sigma     Sigma
	gain      float64 // share of what the gauge finds by which the next setting is shifted
}

// Sigma is one standard deviation of what is not known.
type Sigma struct {
	Force  float64 // of the force constants, as a fraction
	Root   float64 // of the logarithm of Trial.Root
	Set    float64 // of a setting or, Carried, of a move from one to the next, mm on diameter
	Stood  float64 // Carried: of where the cutter stands before the first pass, mm on diameter, besides Trial.Sprang
	Gauge  float64 // of the gauge, mm on diameter
	Kelvin float64 // of the temperature of work and bar, K
	Spring float64 // of the spring from cut to cut, as a fraction
}

// Pass is one pass of a trial, as planned.
type Pass struct {
	Setting, Expected float64 // diameters, mm
	Depth, Force, K   float64 // radial depth, mm; its radial force, N, and ∂F/∂depth: force is straight about the plan
	Out               *Cut    // what the way out cuts at the same setting; nil: nothing
	Measured          bool    // the gauge corrects the next setting
	Again             bool    // same setting as the pass before
}

// Cut is the way out of a pass that is fed out: straight about the plan like the way in.
type Cut struct {
	Depth, Force, K float64
	Least           float64 // below this depth, mm, the edge cuts or rubs, as likely either
}

// takes is the depth that is cut where the tip overlaps by so much, at a compliance g.
func (c *Cut) takes(over, g float64, rubs bool) float64 {
	a := (over + g*(c.K*c.Depth-c.Force)) / (1 + g*c.K)
	if a < 0 || rubs && a < c.Least {
		return 0
	}
	return a
}

// causes is how many numbers one trial draws.
func (h *Trial) causes() int { return causeEach + 3*len(h.Passes) }

// cut makes the passes once with the given draws (standard normal) and returns
// the sizes left, diameter in mm at 20 °C: with what the gauge found at the hold
// shifting the settings after it by the share that the sheet asks for, and
// without.
//
// A pass set to S in a bore of radius r cuts the depth a that solves
// a + g·F(a) = S/2 − r with F(a) = F₀ + k·(a − a₀) and g = c·force·repeat:
//
//	a = (S/2 − r + g·(k·a₀ − F₀)) / (1 + g·k)
//
// and so once more on a way out that cuts.
//
// The tip stands e wrong on diameter. Set anew, e is one draw of the setting's
// error. Set by increment, e is what it was before and a draw of the move's
// error; a pass at the setting of the one before has the same e. Where a cut
// before was measured, the cutter stands at the size found and that cut's spring,
// so that a force mistaken by a share is a place mistaken by that share of it.
func (h *Trial) cut(z []float64) (measured, blind float64) {
	force := 1 + h.Sigma.Force*z[causeForce]
	if force < 0.2 {
		force = 0.2
	}
	c := (h.Bar + h.Root*exp(h.Sigma.Root*z[causeRoot])) * force
	grown := h.BarGrows * h.Sigma.Kelvin * z[causeBar] / 2
	warm := h.Grows * h.Sigma.Kelvin * z[causeWork]
	r, q, shift, off := h.Start, h.Start, 0.0, 0.0
	if h.Carried {
		off = (h.Sigma.Stood*z[causeStood] + h.Sprang*(c/(h.Bar+h.Root)-1)) / 2
	}
	for i := range h.Passes {
		p := &h.Passes[i]
		own := z[causeEach+3*i:]
		switch {
		case p.Again:
		case h.Carried:
			off += h.Sigma.Set * own[0] / 2
		default:
			off = h.Sigma.Set * own[0] / 2
		}
		g := c * (1 + h.Sigma.Spring*own[1])
		tip := p.Setting/2 + grown + off
		over := tip + g*(p.K*p.Depth-p.Force)
		give := 1 / (1 + g*p.K)
		if a := (over + shift - r) * give; a > 0 {
			r += a
		}
		if a := (over - q) * give; a > 0 {
			q += a
		}
		if p.Out != nil {
			rubs := z[causeRub] < 0
			r += p.Out.takes(tip+shift-r, g, rubs)
			q += p.Out.takes(tip-q, g, rubs)
		}
		if p.Measured {
			shift -= h.whole(h.gain * (r + h.Sigma.Gauge*own[2]/2 - p.Expected/2))
		}
	}
	return 2*r - warm, 2*q - warm
}

// whole is a shift on radius as it can be set, by whole steps.
func (h *Trial) whole(shift float64) float64 {
	if h.Step <= 0 {
		return shift
	}
	return math.Round(2*shift/h.Step) * h.Step / 2
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
// with, and lies between 0 and 1. Of what a cutter set anew misses nothing carries
// over. Of one set by increment all does, and on a stiff bar the share is 1 but for
// the gauge.
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

// shares moves one cause at a time by its σ and sees how far the size goes: to
// first order the variance is the sum of the squares. Shifts are taken as they
// come, because a whole step is no small change.
func (h Trial) shares() []Share {
	h.Step = 0
	var sum [len(causes)]float64
	z := make([]float64, h.causes())
	total := 0.0
	for i := range z {
		z[i] = 1
		up, _ := h.cut(z)
		z[i] = -1
		down, _ := h.cut(z)
		half := (up - down) / 2
		z[i] = 0
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
