package geom

import (
	"cmp"
	"slices"

	"borewright/process/fact"
)

// Section is what was read round a worn bore at one depth: radii from the true
// axis.
type Section struct {
	Depth  float64 // mm from the face, inward
	Points []Point
	// Off is how far the section may stand off the true axis, any way, mm: of
	// readings that do not tell where its middle is.
	Off float64
	// Across: the points are those of diameters (Opposed), which show no odd number
	// of lobes.
	Across bool
}

// Worn is a worn bore as read, one or more depths of it.
type Worn struct {
	// TrueAxis is the smallest diameter about the true axis that leaves no
	// shadow: twice the largest radius read, with Off, at any depth.
	TrueAxis float64
	// OwnAxis is the smallest diameter, about a straight axis laid where the old
	// bore asks for it, that leaves no shadow: at one depth the minimum
	// circumscribed circle. With more depths the axis has the tilt of the least
	// squares centres. Its place at the middle depth is OwnAt. 0: not known, some
	// section was read on one side only.
	OwnAxis float64
	OwnAt   Vec
	// Last is where the last shadow stands.
	Last Spot
	// Depths holds what each section says, as given.
	Depths []AtDepth
	// Old is the axis of the old bore; nil with one depth, or where some section
	// was read on one side only.
	Old *OldAxis
	// Doubtful are readings that do not go with the others. They are used all
	// the same: read them again.
	Doubtful []Doubt

	sections []Section
}

// AtDepth is what one section says.
type AtDepth struct {
	Depth         float64
	Circle        Circle // least squares
	Circumscribed Circle
	Open          bool // 180° or more were not read: the circles say nothing
}

// Spot is a place in the bore.
type Spot struct {
	Depth  float64 // mm from the face
	Clock  float64 // degrees
	Radius float64 // mm about the true axis
}

// OldAxis is the line through the least squares centres and the taper.
type OldAxis struct {
	Depth float64 // the middle of the depths read
	Tilt  Vec     // mrad; X positive: the far end stands right, Y: high
	Taper float64 // change of diameter with depth, mm/mm; positive: wider inward
}

// Doubt is a reading that stands out from its section.
type Doubt struct {
	Spot     Spot
	Expected float64 // radius that the others suggest there, mm
}

// CleanUp works out the clean-up sizes of a worn bore. Each section needs at
// least two readings, and three not in a line for its least squares circle.
func CleanUp(sections []Section) (*Worn, error) {
	if len(sections) == 0 {
		return nil, fact.New(NoDepthRead).Err()
	}
	w := &Worn{sections: sections}
	open := false
	for i, s := range sections {
		if !finite(s.Depth) {
			return nil, fact.New(NotADepth, fact.Count(i+1)).Err()
		}
		ls, err := LeastSquares(s.Points)
		if err != nil {
			return nil, s.failed(err)
		}
		mc, err := MinCircumscribed(s.Points)
		if err != nil {
			return nil, s.failed(err)
		}
		d := AtDepth{Depth: s.Depth, Circle: ls, Circumscribed: mc, Open: halfOpen(s.Points)}
		open = open || d.Open
		for _, p := range s.Points {
			if p.Radius+s.Off > w.Last.Radius {
				w.Last = Spot{s.Depth, turn(p.Clock), p.Radius + s.Off}
			}
		}
		w.Depths = append(w.Depths, d)
		for _, j := range Doubtful(s.Points) {
			p := s.Points[j.Index]
			w.Doubtful = append(w.Doubtful, Doubt{Spot{s.Depth, turn(p.Clock), p.Radius}, j.Expected})
		}
	}
	w.TrueAxis = 2 * w.Last.Radius
	if open {
		return w, nil
	}
	w.Old = oldAxis(w.Depths)
	w.ownAxis()
	return w, nil
}

// failed says at which depth a circle was not found.
func (s Section) failed(err error) error {
	why, _ := fact.Of(err)
	return fact.New(AtThatDepth, fact.PlainMM(s.Depth), why).Err()
}

// halfOpen is whether readings leave half the turn or more unread: a circle
// through them can then be shifted toward the open side as far as one likes.
func halfOpen(ps []Point) bool {
	var at []float64
	for _, p := range ps {
		at = append(at, p.Clock)
	}
	_, gap := widestGap(at)
	return gap >= 180-1e-9
}

// oldAxis lays a line through the centres, each depth counting the same.
func oldAxis(ds []AtDepth) *OldAxis {
	var mid, zz, dd float64
	n := float64(len(ds))
	for _, d := range ds {
		mid += d.Depth / n
		dd += 2 * d.Circle.R / n
	}
	var tilt Vec
	var taper float64
	for _, d := range ds {
		z := d.Depth - mid
		zz += z * z
		tilt = tilt.Plus(d.Circle.Centre().Times(z))
		taper += z * (2*d.Circle.R - dd)
	}
	if zz == 0 {
		return nil
	}
	return &OldAxis{Depth: mid, Tilt: tilt.Times(1e3 / zz), Taper: taper / zz}
}

// ownAxis slides every section along the tilt of the old axis onto one plane,
// where the smallest cylinder of that tilt is the smallest circle.
func (w *Worn) ownAxis() {
	var vs []Vec
	for _, s := range w.sections {
		var lean Vec
		if w.Old != nil {
			lean = w.Old.Tilt.Times((s.Depth - w.Old.Depth) / 1e3)
		}
		for _, p := range s.Points {
			vs = append(vs, p.at().Minus(lean))
		}
	}
	c := minCircle(vs)
	w.OwnAt, w.OwnAxis = c, 2*farthestFrom(vs, c)
	if w.OwnAxis > w.TrueAxis { // a tilt that does not pay: a straight axis without it does
		w.OwnAt, w.OwnAxis = Vec{}, w.TrueAxis
	}
}

// Shade is what is left uncut at one reading.
type Shade struct {
	Spot
	Deep float64 // radial depth of the shadow there, mm
}

// Shadow says what a bore of a diameter about the true axis leaves uncut: the
// deepest shadow that there can be (0: all clean) and every reading where one
// can remain, deepest first.
func (w *Worn) Shadow(diameter float64) (deepest float64, where []Shade) {
	for _, s := range w.sections {
		for _, p := range s.Points {
			if deep := p.Radius + s.Off - diameter/2; deep > 0 {
				where = append(where, Shade{Spot{s.Depth, turn(p.Clock), p.Radius + s.Off}, deep})
			}
		}
	}
	slices.SortStableFunc(where, func(a, b Shade) int { return cmp.Compare(b.Deep, a.Deep) })
	if len(where) > 0 {
		deepest = where[0].Deep
	}
	return deepest, where
}
