package clearance

import (
	"math"

	"borewright/process/geom"
)

// Best is what would pass in principle with the least room that is asked for,
// the bore as it is before the first pass: nothing stiffer does. (Passes that
// differ in depth or retract shift are taken together, the worst of each.)
type Best struct {
	Diameter float64 // largest diameter of the bar where the cutter sits, and of a plain bar
	Stickout float64 // shortest from nose to tip
	Steps    []Step  // the stiffest stepped bar, from the nose outward to the tip
	// Cutter: no bar passes, whatever its size, because the cutter does not.
	Cutter bool
}

// passing is the best that passes with the cutter as well, by the routine that judges the
// bar: the bar that serves best itself may leave the cutter no way in, where a thinner
// one can be shifted further.
func (w ReachInput) passing() Best {
	b := w.best()
	if len(b.Steps) == 0 {
		return b
	}
	limited := func(d float64) Best {
		out := Best{Diameter: math.Min(b.Diameter, d), Stickout: b.Stickout}
		for _, s := range b.Steps {
			out.Steps = append(out.Steps, Step{math.Min(s.Diameter, d), s.Length})
		}
		return out
	}
	passes := func(d float64) bool {
		x := limited(d)
		return !w.stops(x.Steps).any() && !w.stops([]Step{{x.Diameter, x.Stickout}}).any()
	}
	least, most := leastBar, b.Steps[0].Diameter
	switch {
	case passes(most):
		return b
	case !passes(least):
		return Best{Cutter: w.stops([]Step{{least, b.Stickout}}).cutter}
	}
	for most-least > barStep {
		if mid := (least + most) / 2; passes(mid) {
			least = mid
		} else {
			most = mid
		}
	}
	return limited(least)
}

const (
	leastBar = 1.0   // mm: a thinner bar is none
	barStep  = 0.005 // mm: diameters are told no finer
)

// stops is what keeps a bar from its bore.
type stops struct{ cutter, bar bool }

func (s stops) any() bool { return s.cutter || s.bar }

// stops judges a bar that ends at its tip. How far the quill stands off and travels, and
// how far the holder stands out ahead of the tip before a closed end, is no matter of the
// bar's size.
func (w ReachInput) stops(steps []Step) (out stops) {
	w.Bar.Steps, w.Bar.CutterAt = steps, 0
	for _, s := range steps {
		w.Bar.CutterAt += s.Length
	}
	r := w.judged()
	for _, e := range r.Entries {
		out.cutter = out.cutter || e.Bare && (e.Way() == NoWay || w.Program && !e.OnAxis && r.OffAxis == nil)
		out.bar = out.bar || e.Way() == NoWay && !e.Bare
	}
	for _, g := range r.Gaps {
		if g.Verdict == Blocked && !g.Bottom {
			out.cutter = out.cutter || g.Part == Cutter
			out.bar = out.bar || g.Part != Cutter
		}
	}
	return out
}

// best works the envelope backwards: what stands u behind the tip at the
// deepest feed has passed every station that begins before that depth.
func (w ReachInput) best() Best {
	end := math.Inf(-1)
	before := math.Inf(1)
	var retract float64
	for _, p := range w.Passes {
		end = math.Max(end, p.End)
		before = math.Min(before, p.Before)
		retract = math.Max(retract, p.Retract)
	}
	out := w.Shift.Minus(geom.AtClock(w.TipClock).Times(retract))
	allowed := func(i int) float64 {
		s := w.Stations[i]
		wall, off := s.Diameter/2, math.Max(s.At.Distance(w.Shift), s.At.Distance(out))
		if i == w.Bore {
			wall = before / 2
		}
		return 2 * (wall - off - w.Unsure - w.Needs.Chips.Least)
	}
	follows := w.Spindle.Nose
	if w.Bar.QuillFeed {
		follows = w.Spindle.Quill
	}
	// From the spindle side inward every station that begins narrows what passes.
	var b Best
	b.Diameter = follows
	type narrowing struct{ behind, diameter float64 }
	var ns []narrowing
	for i, s := range w.Stations {
		if d := allowed(i); s.From-end < w.Needs.End.Least && d < b.Diameter {
			b.Diameter = d
			ns = append(ns, narrowing{end - s.From + w.Needs.End.Least, d})
		}
	}
	if b.Diameter <= 0 { // nothing passes
		return Best{}
	}
	if len(ns) == 0 { // the spindle itself follows
		return b
	}
	b.Stickout = ns[0].behind
	for i, n := range ns {
		next := 0.0
		if i+1 < len(ns) {
			next = ns[i+1].behind
		}
		if n.behind > next {
			b.Steps = append(b.Steps, Step{n.diameter, n.behind - next})
		}
	}
	return b
}

// Compliance of the bar alone at the tip, mm/N, clamped at the nose and the
// quill out by quillOut, mm:
//
//	δ/F = Σ (x_b³ − x_a³)/(3EI), x from the tip, I = πd⁴/64
//
// Source: Castigliano, any text on strength of materials. It serves to compare
// bars; package bar has the rest.
func (w ReachInput) Compliance(quillOut float64) float64 {
	const steel = 210e3
	e := w.Bar.Modulus
	if e == 0 {
		e = steel
	}
	piece := func(xa, xb, d, e float64) float64 {
		return (xb*xb*xb - xa*xa*xa) / (3 * e * math.Pi * (d * d) * (d * d) / 64)
	}
	var sum float64
	at := w.Bar.CutterAt
	for _, s := range w.Bar.Steps {
		if at <= 0 {
			break
		}
		next := math.Max(0, at-s.Length)
		sum += piece(next, at, s.Diameter, e)
		at = next
	}
	if quillOut > 0 {
		sum += piece(w.Bar.CutterAt, w.Bar.CutterAt+quillOut, w.Spindle.Quill, steel)
	}
	return sum
}
