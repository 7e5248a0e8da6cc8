package setup

import (
	"math"

	"borewright/process/cut"
)

// Stroke is one pass as bar and edge make it with the tip at one setting: the way
// in, and the way out where the cutter comes out turning. Then it cuts a second
// time: what the bar sprang off going in stands in its way coming out. All radii
// and depths are in mm, with
//
//	in  + In(in)   = tip − r
//	out + Out(out) = tip − r − in
//
// in and out being the depths that are cut on either way, r the radius before.
type Stroke struct {
	In  Push
	Out Push // nil: nothing is cut on the way out
}

// NewStroke is the stroke of a push for each way. fed: the cutter comes out turning.
func NewStroke(push func(Way) Push, fed bool) Stroke {
	if !fed {
		return Stroke{In: push(In)}
	}
	return Stroke{push(In), push(Out)}
}

// By is the stroke of a bar k times as soft, or of forces k times as large.
func (s Stroke) By(k float64) Stroke {
	by := Stroke{In: s.In.By(k)}
	if s.Out != nil {
		by.Out = s.Out.By(k)
	}
	return by
}

// Take is what is cut on the way in and on the way out of a place of radius r by a
// tip that is set to a radius; nothing where it does not reach the wall.
func (s Stroke) Take(tip, r float64) (in, out float64) {
	in = math.Max(0, s.In.DepthFor(tip-r))
	if s.Out != nil {
		out = math.Max(0, s.Out.DepthFor(tip-r-in))
	}
	return in, out
}

// Split is what of a depth, that both ways take together, falls to each. A depth of
// 0 or less is the way in's. What is left over for the way out is what the bar sprang
// off going in, less what it springs off coming out:
//
//	In(in) = out + Out(out),  out = depth − in
//
// Where a tip that the cut pulls into the wall springs off nothing, the way in takes all.
func (s Stroke) Split(depth float64) (in, out float64) {
	if s.Out == nil || !(depth > 0) {
		return depth, 0
	}
	over := func(in float64) float64 { return s.Out.SettingFor(depth-in) - s.In(in) }
	lo, atHi := 0.0, over(depth)
	if springs := -atHi; springs > 0 && springs < depth { // no more than the way in springs off is left
		lo = depth - springs
	}
	atLo := over(lo)
	if atLo < 0 {
		lo, atLo = 0, over(0)
	}
	in = root(over, lo, depth, atLo, atHi, depth)
	return in, depth - in
}

// Again is what of a bore of radius r is cut by a stroke, and what by one more at the same setting, where they
// take a depth together. With a₁ and a₂ what they take, of passes that cut on the way in alone
//
//	a₂ + In(a₂) = In(a₁),  a₁ + a₂ = depth
func (s Stroke) Again(r, depth float64) (first, second float64) {
	if s.Out == nil {
		return Stroke{s.In, s.In}.Split(depth)
	}
	first = depth
	for range 6 { // what the second takes is a small share: converges at once
		in, out := s.Take(s.SettingFor(r, r+first), r+first)
		was := second
		if second = in + out; math.Abs(second-was) < 1e-9 {
			break
		}
		first = depth - second
	}
	return first, second
}

// SettingFor is the radius to set the tip to so that a bore of radius r is made so
// large. A bore that is not to be made larger is its own setting.
func (s Stroke) SettingFor(r, made float64) float64 {
	in, _ := s.Split(made - r)
	return r + s.In.SettingFor(in)
}

// Left is what a stroke leaves at a place of radius other, where it takes a place of
// radius r to made. It is never less than it was.
func (s Stroke) Left(r, other, made float64) float64 {
	if other <= r {
		return made
	}
	if s.Out == nil {
		return s.In.LeftBy(r, other, made)
	}
	in, _ := s.Split(made - r)
	return s.Out.LeftBy(r+in, s.In.LeftBy(r, other, r+in), made)
}

// StrokeStability is that of a stroke that cuts so deep, mm, on the way in and, where it is
// above 0, on the way out: of the one that is nearer to chatter, or further past it.
func (e *Edge) StrokeStability(in, out, speed float64, land cut.Land, of func(depth float64, way Way) Stiffness) Stability {
	s := e.Stability(of(in, In), speed, land)
	if out > 0 {
		if back := e.Stability(of(out, Out), speed, land); back.Middle() < s.Middle() {
			return back
		}
	}
	return s
}
