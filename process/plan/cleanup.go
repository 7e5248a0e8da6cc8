package plan

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/fit"
	"borewright/process/geom"
	"borewright/process/qty"
)

// CleanUp is the worn bore as read, and the sizes at which it cleans up.
// Circles are those of ISO 12181-1.
type CleanUp struct {
	TrueAxis qty.Diameter // least diameter about the true axis that leaves no shadow
	OwnAxis  qty.Diameter // the same about an axis laid where the old bore asks for it
	Price    qty.Length   // what the true axis costs, on diameter
	Own      Place        // where that own axis stands from the true one
	OwnClock float64      // clock position it stands toward, degrees
	OwnOff   qty.Length   // how far
	Last     Spot         // where the last shadow stands
	First    Spot         // where the first cut meets metal: the highest point
	Unseen   qty.Length   // how much larger than read the diameter may be between readings; 0: not known
	Axis     bool         // readings tell where the axis is (radii, not two-point diameters alone)
	Depths   []AtDepth
	Tilt     *[2]float64 // of the old axis, mrad; nil with one depth
	Taper    qty.Length  // change of diameter over the depths read; positive: wider inward
	Doubtful []Doubtful
	Shadows  []Shadow // what is left after each pass until all is clean
	Words    string   // why the two sizes differ

	// Next is the next standard sleeve outside where the one planned does not
	// clean up or leaves too little to cut; 0: it does.
	Next qty.Diameter

	worn *geom.Worn
	off  float64 // of two-point readings, mm
}

// Spot is a place in the bore.
type Spot struct {
	Depth  qty.Length
	Clock  float64
	Radius qty.Length // about the true axis
}

// AtDepth is what the readings at one depth say.
type AtDepth struct {
	Depth         qty.Length
	Readings      int
	Centre        Place        // of the least squares circle
	LeastSquares  qty.Diameter // LSCI
	Circumscribed qty.Diameter // MCCI
	Inscribed     qty.Diameter // MICI; 0: the readings leave a side open
	Zone          qty.Length   // minimum zone (MZCI), radial; 0 likewise
	OutOfRound    qty.Length   // RONt of the least squares circle, radial
}

// Doubtful is a reading that does not go with the others. It is used all the
// same.
type Doubtful struct {
	Spot
	Expected qty.Length // radius that the others suggest there
}

// Shadow is what a bore of one size leaves uncut.
type Shadow struct {
	Pass    int // 0: asked for by size
	Size    qty.Diameter
	Deepest qty.Length // radial; 0: all clean
	At      Spot
	Spots   int // readings that still show the old bore
}

// newCleanUp works the readings of a bore out; nil without any.
func newCleanUp(u qty.Unit, b process.Bore) (*CleanUp, error) {
	if len(b.Wear) == 0 {
		return nil, nil
	}
	c := &CleanUp{off: b.Offset.MM()}
	var sections, radii []geom.Section
	across := 0.0
	for _, w := range b.Wear {
		s := geom.Section{Depth: w.Depth.MM()}
		if len(w.Radius) > 0 {
			c.Axis = true
			for k, r := range w.Radius {
				s.Points = append(s.Points, geom.Point{Clock: w.At[k], Radius: r.MM()})
			}
			radii = append(radii, s)
		} else {
			var pairs []geom.Across
			for k, d := range w.Across {
				pairs = append(pairs, geom.Across{Clock: w.At[k], Diameter: d.MM()})
				across = math.Max(across, d.MM())
			}
			s.Points = geom.Opposed(pairs)
		}
		sections = append(sections, s)
	}
	worn, err := geom.CleanUp(sections)
	if err != nil {
		return nil, err
	}
	c.worn = worn
	c.fill(u, worn, sections)
	// Two-point readings stand about the bore's own middle, which may be off by
	// the offset the author states: the true axis must allow for it, the own axis
	// need not. Where both kinds were read, radii alone say where the axis is.
	if c.Axis && across > 0 {
		if own, err := geom.CleanUp(radii); err == nil {
			c.own(u, own.OwnAt, math.Max(own.OwnAxis, across))
		}
	}
	if across > 0 {
		c.TrueAxis = max(c.TrueAxis, qty.Diameter(u.Up(qty.FromMM(across+2*c.off))))
	}
	c.Price = c.TrueAxis.Minus(c.OwnAxis)
	c.Words = c.words(u)
	return c, nil
}

func (c *CleanUp) own(u qty.Unit, at geom.Vec, diameter float64) {
	c.OwnAxis = qty.Diameter(u.Up(qty.FromMM(diameter)))
	c.Own, c.OwnOff, c.OwnClock = placeOf(u, at), u.Round(qty.FromMM(at.Length())), at.Clock()
}

func spotOf(depth, clock, radius float64) Spot {
	return Spot{qty.FromMM(depth), clock, qty.FromMM(radius)}
}

func (c *CleanUp) fill(u qty.Unit, w *geom.Worn, sections []geom.Section) {
	c.TrueAxis = qty.Diameter(u.Up(qty.FromMM(w.TrueAxis)))
	c.own(u, w.OwnAt, w.OwnAxis)
	c.Last = spotOf(w.Last.Depth, w.Last.Clock, w.Last.Radius)
	c.Unseen = u.Up(qty.FromMM(2 * w.Unseen))
	least := math.Inf(1)
	for i, s := range sections {
		for _, p := range s.Points {
			if p.Radius < least {
				least, c.First = p.Radius, spotOf(s.Depth, p.Clock, p.Radius)
			}
		}
		d := w.Depths[i]
		at := AtDepth{
			Depth: qty.FromMM(s.Depth), Readings: len(s.Points), Centre: placeOf(u, d.Circle.Centre()),
			LeastSquares:  qty.Diameter(u.Round(qty.FromMM(2 * d.Circle.R))),
			Circumscribed: qty.Diameter(u.Up(qty.FromMM(2 * d.Circumscribed.R))),
			OutOfRound:    u.Round(qty.FromMM(d.Circle.RONt())),
		}
		if in, err := geom.MaxInscribed(s.Points); err == nil {
			at.Inscribed = qty.Diameter(u.Down(qty.FromMM(2 * in.R)))
		}
		if z, err := geom.MinZone(s.Points); err == nil {
			at.Zone = u.Round(qty.FromMM(z.RONt()))
		}
		c.Depths = append(c.Depths, at)
	}
	if o := w.Old; o != nil {
		c.Tilt = &[2]float64{o.Tilt.X, o.Tilt.Y}
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, s := range sections {
			lo, hi = math.Min(lo, s.Depth), math.Max(hi, s.Depth)
		}
		c.Taper = u.Round(qty.FromMM(o.Taper * (hi - lo)))
	}
	for _, d := range w.Doubtful {
		c.Doubtful = append(c.Doubtful, Doubtful{spotOf(d.Spot.Depth, d.Spot.Clock, d.Spot.Radius), qty.FromMM(d.Expected)})
	}
}

// words explains the difference between the two sizes.
func (c *CleanUp) words(u qty.Unit) string {
	if !c.Axis {
		s := "Two-point readings show size and ovality, not where the axis is"
		if c.off > 0 {
			return s + fmt.Sprintf(": the size about the true axis allows for an offset of up to %s, as stated.", u.Say(qty.FromMM(c.off)))
		}
		return s + ": both sizes are the same only as long as the old bore stands true. Read radii from the true axis, or state the offset."
	}
	if c.Price <= u.Round(qty.Micrometre) {
		return "The old bore stands true: its own axis gains nothing."
	}
	return fmt.Sprintf("The old bore wore off the line: its middle stands %s from the true axis toward %s. Cut about that middle it cleans up %s smaller on diameter, and the bore is then out of line by the same %s.",
		u.Say(c.OwnOff), clockWords(c.OwnClock), u.Say(c.Price), u.Say(c.OwnOff))
}

// clockWords says a clock position as a person at the spindle would: "3 o'clock",
// "4:30".
func clockWords(deg float64) string {
	if deg = math.Mod(deg, 360); !(deg >= 0) {
		deg = 0
	}
	minutes := int(math.Round(deg*2/15)) * 15 % 720 // to the nearest quarter of an hour
	h := minutes / 60
	if h == 0 {
		h = 12
	}
	if minutes%60 == 0 {
		return fmt.Sprintf("%d o'clock", h)
	}
	return fmt.Sprintf("%d:%02d", h, minutes%60)
}

// ClockWords says the clock position of the spot in words: "3 o'clock".
func (s Spot) ClockWords() string { return clockWords(s.Clock) }

// Shadow says what a bore of a size about the true axis leaves uncut.
func (c *CleanUp) Shadow(size qty.Diameter) Shadow {
	out := Shadow{Size: size}
	deepest, where := c.worn.Shadow(size.MM())
	out.Deepest, out.Spots = qty.FromMM(deepest), len(where)
	if len(where) > 0 {
		out.At = spotOf(where[0].Depth, where[0].Clock, where[0].Radius)
	}
	return out
}

// shadows follows the passes until nothing of the old bore is left.
func (c *CleanUp) shadows(v Visit) {
	for _, p := range v.Passes {
		s := c.Shadow(p.Expected)
		s.Pass = p.N
		c.Shadows = append(c.Shadows, s)
		if s.Deepest == 0 {
			return
		}
	}
}

// lastCut is the least that is left to cut all round when the bore has just
// cleaned up: without it the last shadow shows as a dull patch. On diameter;
// common practice, no source.
const lastCut = qty.Millimetre / 4

// nextOutside is the next standard outside of a sleeve for which a housing
// cleans up, on diameter more than the one planned.
func nextOutside(u qty.Unit, planned, cleanUp qty.Diameter) qty.Diameter {
	from := max(planned+1, cleanUp.Plus(lastCut))
	all := fit.StandardOutsides(u, from, from+from/4+qty.Diameter(qty.Inch))
	if len(all) == 0 {
		return 0
	}
	return all[0]
}

// shows is whether the old bore is still there before a visit: after what was
// measured it may have been cut away, and the visit may be that of the sleeve.
func (c *CleanUp) shows(v Visit) bool {
	return v.N == 1 && (v.Behind == 0 || v.StartMost >= c.TrueAxis.Plus(-qty.Micrometre))
}

// cautions of the readings: what is doubtful is flagged, never dropped.
func (c *CleanUp) cautions(u qty.Unit, name string, limit qty.Diameter) []string {
	var out []string
	for _, d := range c.Doubtful {
		out = append(out, fmt.Sprintf("The reading of %s at %s, %s (radius %s) does not go with the others, which suggest %s. It is used as it stands: read it again before anything is set.",
			name, u.Say(d.Depth), clockWords(d.Clock), u.Say(d.Radius), u.Say(d.Expected)))
	}
	if most := c.TrueAxis.Plus(c.Unseen); c.Unseen > 0 && limit > 0 && most > limit {
		out = append(out, fmt.Sprintf("%s may be up to %s larger between the readings than at them, Ø%s in all, and the size asked for ends at Ø%s: read more clock positions round %s.",
			name, u.Say(c.Unseen), u.Say(most.Length()), u.Say(u.Down(limit.Length())), clockWords(c.Last.Clock)))
	}
	return out
}
