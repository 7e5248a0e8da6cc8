package landing

import "math"

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

// lastSet is the last pass that the cutter is set for: those after it are cut at
// its setting.
func (h *Trial) lastSet() int {
	last := max(0, len(h.Passes)-1)
	for last > 0 && h.Passes[last].Again {
		last--
	}
	return last
}

// drawn is one trial, cut as far as the last setting.
//
// A pass set to S in a bore of radius r cuts the depth a that solves
// a + g·F(a) = S/2 − r with F(a) = F₀ + w + k·(a − a₀), w what more wear of the edge
// and more feed force add, and g = c·force·repeat:
//
//	a = (S/2 − r + g·(k·a₀ − F₀ − w)) / (1 + g·k)
//
// and so once more on a way out that cuts.
type drawn struct {
	passes            []ready
	last              int     // the last of them that the cutter is set for
	alone             float64 // what of the feed force does not go with all forces, as a share
	rubs              bool    // a way out too shallow for the edge rubs
	warm              float64 // what the bore is larger by than at 20 °C, on diameter
	measured, blind   float64 // radius before the last setting: with what the gauge found shifting the settings, and without
	shift, carriedOff float64 // what the last setting is shifted by, and what it carries on of errors before it, on radius
}

// newDrawn is room for trials to be drawn in.
func (h *Trial) newDrawn() *drawn {
	d := &drawn{last: h.lastSet(), alone: math.Sqrt(1 - h.Sigma.With*h.Sigma.With)}
	for i := range h.Passes {
		d.passes = append(d.passes, ready{out: h.Passes[i].Out})
	}
	return d
}

// ready is a pass with what was drawn for it, but for the error of its setting e:
// in a bore of radius r it takes (over + e − r)·give.
type ready struct {
	back, over, give, g float64 // back: of the way out
	out                 *Cut
}

// cut is the radius that one pass leaves of r, where the tip stands off by e.
func (d *drawn) cut(i int, r, e float64) float64 {
	p := &d.passes[i]
	if a := (p.over + e - r) * p.give; a > 0 {
		r += a
	}
	if p.out != nil {
		r += p.out.takes(p.back+e-r, p.g, d.rubs)
	}
	return r
}

// finish is the radius that the passes from the last setting on leave of r, where
// the tip stands off by e.
func (d *drawn) finish(r, e float64) float64 {
	for i := d.last; i < len(d.passes); i++ {
		r = d.cut(i, r, e)
	}
	return r
}

// line is the radius that they leave of r where the tip stands off by e, and by how much that rises with
// e from there on: straight, as long as every pass cuts. cuts is whether every one does and none cuts on its way out.
func (d *drawn) line(r, e float64) (made, rise float64, cuts bool) {
	for i := d.last; i < len(d.passes); i++ {
		p := &d.passes[i]
		a := p.over + e - r
		if p.out != nil || a <= 0 {
			return 0, 0, false
		}
		r += a * p.give
		rise += (1 - rise) * p.give
	}
	return r, rise, true
}

// draw makes the passes up to the last setting once with the given draws (standard
// normal).
//
// The tip stands e wrong on diameter. Set anew, e is one draw of the setting's
// error. Set by increment, e is what it was before and a draw of the move's
// error; a pass at the setting of the one before has the same e. Where a cut
// before was measured, the cutter stands at the size found and that cut's spring,
// so that a force mistaken by a share is a place mistaken by that share of it.
func (h *Trial) draw(z []float64, d *drawn) {
	force := 1 + h.Sigma.Force*z[causeForce]
	if force < 0.2 {
		force = 0.2
	}
	c := (h.Bar + h.Root*math.Exp(h.Sigma.Root*z[causeRoot])) * force
	feed := h.Sigma.Feed * (h.Sigma.With*z[causeForce] + d.alone*z[causeFeed])
	grown := h.BarGrows * h.Sigma.Kelvin * z[causeBar] / 2
	d.warm = h.Grows * h.Sigma.Kelvin * z[causeWork]
	d.rubs = z[causeRub] < 0
	r, q, shift, off := h.Start, h.Start, 0.0, 0.0
	if h.Carried {
		off = (h.Sigma.Stood*z[causeStood] + h.Sprang*(c/(h.Bar+h.Root)-1) + h.ByFeed*feed) / 2
	}
	for i := range d.passes {
		p, cut, own := &h.Passes[i], &d.passes[i], z[causeEach+3*i:causeEach+3*i+3]
		g := c * (1 + h.Sigma.Spring*own[1])
		tip := p.Setting/2 + grown
		if p.Out != nil {
			cut.back = tip - g*(p.Out.Wear*z[causeWear]+p.Out.Feed*feed)
		}
		cut.over, cut.give, cut.g = tip+g*(p.K*p.Depth-p.Force-p.Wear*z[causeWear]-p.Feed*feed), 1/(1+g*p.K), g
		if i >= d.last {
			continue
		}
		switch {
		case p.Again:
		case h.Carried && p.Anew:
			off = h.Sigma.Anew * own[0] / 2
		case h.Carried:
			off += h.Sigma.Set * own[0] / 2
		default:
			off = h.Sigma.Set * own[0] / 2
		}
		r, q = d.cut(i, r, off+shift), d.cut(i, q, off)
		if p.Measured {
			shift -= h.whole(h.gain * (r + h.Sigma.Gauge*own[2]/2 - h.expected/2))
		}
	}
	d.measured, d.blind, d.shift, d.carriedOff = r, q, shift, 0
	if h.Carried && !h.Passes[d.last].Anew {
		d.carriedOff = off
	}
}

// lastSigma is the σ of the last setting's error, mm on diameter.
func (h *Trial) lastSigma() float64 {
	if h.Carried && h.Passes[h.lastSet()].Anew {
		return h.Sigma.Anew
	}
	return h.Sigma.Set
}

// left are the sizes left, diameter in mm at 20 °C, where the last setting is wrong
// by each of some errors on radius, rising: with what the gauge found at the hold shifting the settings after
// it by the share that the sheet asks for, and without.
func (d *drawn) left(errors *[each]float64) (sizes [2][each]float64) {
	for side, from := range [2]struct{ r, off float64 }{{d.measured, d.carriedOff + d.shift}, {d.blind, d.carriedOff}} {
		made, rise, cuts := d.line(from.r, errors[0]+from.off)
		for i, e := range errors {
			if cuts {
				sizes[side][i] = 2*(made+(e-errors[0])*rise) - d.warm
			} else {
				sizes[side][i] = 2*d.finish(from.r, e+from.off) - d.warm
			}
		}
	}
	return sizes
}

// cut makes all passes once with the given draws and returns the sizes left.
func (h *Trial) cut(z []float64) (measured, blind float64) {
	d := h.newDrawn()
	h.draw(z, d)
	e := h.lastSigma()*z[causeEach+3*d.last]/2 + d.carriedOff
	return 2*d.finish(d.measured, e+d.shift) - d.warm, 2*d.finish(d.blind, e) - d.warm
}

// whole is a shift on radius as it can be set, by whole steps.
func (h *Trial) whole(shift float64) float64 {
	if h.Step <= 0 {
		return shift
	}
	return math.Round(2*shift/h.Step) * h.Step / 2
}
