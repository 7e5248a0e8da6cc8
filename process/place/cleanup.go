package place

import (
	"fmt"
	"math"
	"strings"

	"borewright/process"
	"borewright/process/fit"
	"borewright/process/geom"
	"borewright/process/passes"
	"borewright/process/qty"
)

// CleanUp is the worn bore as read, and the sizes at which it cleans up.
// Circles are those of ISO 12181-1.
type CleanUp struct {
	TrueAxis qty.Diameter // least diameter about the true axis that leaves no shadow
	OwnAxis  qty.Diameter // the same about an axis laid where the old bore asks for it; 0: not known
	Price    qty.Length   // what the true axis costs, on diameter
	Own      Place        // where that own axis stands from the true one
	OwnClock float64      // clock position it stands toward, degrees
	OwnOff   qty.Length   // how far
	Last     Spot         // where the last shadow stands
	First    Spot         // where the first cut meets metal: the highest point
	Unseen   qty.Length   // how much larger than read the diameter may be between readings; 0: not known
	Axis     bool         // readings tell where the axis is (radii, not two-point diameters alone)
	Mixed    bool         // some depths were read as radii and some across
	Depths   []AtDepth
	Tilt     *[2]float64 // of the old axis, mrad; nil with one depth
	Ends     []OwnEnd    // where the own axis stands at the ends read; none without a tilt
	Taper    qty.Length  // change of diameter over the depths read; positive: wider inward
	Doubtful []Doubtful
	Shadows  []Shadow // what is left after each pass until all is clean
	Words    string   // why the two sizes differ

	// Next is the next standard sleeve outside where the one planned does not
	// clean up or leaves too little to cut; 0: it does.
	Next qty.Diameter

	worn   *geom.Worn
	offset float64 // of two-point readings, mm

	across map[qty.Length]bool // depths read across
}

// OwnEnd is where the own axis of the old bore stands from the true one at a
// depth.
type OwnEnd struct {
	Depth qty.Length
	Off   qty.Length
	Clock float64
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
	Centred       bool         // the readings tell Centre: radii all round
	LeastSquares  qty.Diameter // LSCI; 0: not known, 180° or more were not read
	Circumscribed qty.Diameter // MCCI; 0 likewise
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
	Spots   int  // readings that still show the old bore
	UpTo    bool // read across: how deep depends on where the old bore stands
}

// NewCleanUp works the readings of a bore out; nil without any.
func NewCleanUp(u qty.Unit, b process.Bore) (*CleanUp, error) {
	if len(b.Wear) == 0 {
		return nil, nil
	}
	c := &CleanUp{offset: b.Offset.MM(), across: map[qty.Length]bool{}}
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
			c.across[w.Depth] = true
			s.Points, s.Off = geom.Opposed(pairs), c.offset
		}
		sections = append(sections, s)
	}
	worn, err := geom.CleanUp(sections)
	if err != nil {
		return nil, err
	}
	c.worn = worn
	c.fill(u, worn, sections)
	for i, w := range b.Wear {
		c.Depths[i].Centred = len(w.Radius) > 0 && !worn.Depths[i].Open
	}
	// Two-point readings stand about the bore's own middle, which may be off by
	// the offset the author states: the true axis must allow for it, the own axis
	// need not. Where both kinds were read, radii alone say where the axis is.
	c.own(u, worn, worn.OwnAxis)
	if c.Axis && across > 0 {
		c.Mixed = true
		if own, err := geom.CleanUp(radii); err == nil {
			c.own(u, own, math.Max(own.OwnAxis, across))
		}
	}
	if c.OwnAxis > 0 {
		c.Price = c.TrueAxis.Minus(c.OwnAxis)
	}
	c.Words = c.words(u)
	return c, nil
}

// own takes over the own axis that readings w show, and the size about it.
func (c *CleanUp) own(u qty.Unit, w *geom.Worn, diameter float64) {
	c.Tilt, c.Ends = nil, nil
	if w.OwnAxis == 0 {
		c.OwnAxis, c.Own, c.OwnOff, c.OwnClock = 0, Place{}, 0, 0
		return
	}
	at := w.OwnAt
	c.OwnAxis = qty.Diameter(u.Up(qty.FromMM(diameter)))
	c.Own, c.OwnOff, c.OwnClock = placeOf(u, at), u.Round(qty.FromMM(at.Length())), at.Clock()
	o := w.Old
	if o == nil {
		return
	}
	c.Tilt = &[2]float64{o.Tilt.X, o.Tilt.Y}
	if c.OwnAxis >= c.TrueAxis || math.Hypot(o.Tilt.X, o.Tilt.Y) < leastLean {
		return // the true axis serves as well, or it is parallel to it
	}
	lo, hi := ends(w.Depths)
	for _, z := range []float64{lo, hi} {
		e := geom.Vec{X: at.X + o.Tilt.X*(z-o.Depth)/1e3, Y: at.Y + o.Tilt.Y*(z-o.Depth)/1e3}
		c.Ends = append(c.Ends, OwnEnd{qty.FromMM(z), u.Round(qty.FromMM(e.Length())), e.Clock()})
	}
}

// leastLean is the least lean of an old axis that is told, mrad: a hundredth of
// a millimetre in two metres. Common practice, no source.
const leastLean = 0.005

// ends are the least and the largest depth read, mm.
func ends(ds []geom.AtDepth) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, d := range ds {
		lo, hi = math.Min(lo, d.Depth), math.Max(hi, d.Depth)
	}
	return lo, hi
}

func spotOf(depth, clock, radius float64) Spot {
	return Spot{qty.FromMM(depth), clock, qty.FromMM(radius)}
}

func (c *CleanUp) fill(u qty.Unit, w *geom.Worn, sections []geom.Section) {
	c.TrueAxis = qty.Diameter(u.Up(qty.FromMM(w.TrueAxis)))
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
		at := AtDepth{Depth: qty.FromMM(s.Depth), Readings: len(s.Points)}
		if d.Open {
			c.Depths = append(c.Depths, at)
			continue
		}
		at.Centre, at.OutOfRound = placeOf(u, d.Circle.Centre()), u.Round(qty.FromMM(d.Circle.RONt()))
		at.LeastSquares = qty.Diameter(u.Round(qty.FromMM(2 * d.Circle.R)))
		at.Circumscribed = qty.Diameter(u.Up(qty.FromMM(2 * d.Circumscribed.R)))
		if in, err := geom.MaxInscribed(s.Points); err == nil {
			at.Inscribed = qty.Diameter(u.Down(qty.FromMM(2 * in.R)))
		}
		if z, err := geom.MinZone(s.Points); err == nil {
			at.Zone = u.Round(qty.FromMM(z.RONt()))
		}
		c.Depths = append(c.Depths, at)
	}
	if o := w.Old; o != nil {
		lo, hi := ends(w.Depths)
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
		if c.offset > 0 {
			return s + fmt.Sprintf(": the size about the true axis allows for an offset of up to %s, as stated.", u.Say(qty.FromMM(c.offset)))
		}
		return s + ": both sizes are the same only as long as the old bore stands true. Read radii from the true axis, or state the offset."
	}
	if c.OwnAxis == 0 {
		return "The size about its own axis is not known: " + c.openWords(u) + ". Read all round there, less than 180° from one reading to the next."
	}
	say := func(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
	if c.Mixed {
		say = func(s string) string {
			return "Readings across show size and not where the axis is. By the radii alone, " + s
		}
	}
	if c.Price <= u.Round(qty.Micrometre) {
		switch {
		case c.Mixed && c.OwnOff > 0:
			return say("the old bore is off the line: " + c.standsWords(u) + ". Its own axis gains nothing, because the readings across ask for as much about any axis.")
		case c.standsTrue(u):
			return say("the old bore stands true: its own axis gains nothing.")
		}
		return say("the old bore does not stand true (see its centres), but an axis of its own would gain nothing.")
	}
	if len(c.Ends) == 0 {
		return say(fmt.Sprintf("the old bore wore off the line: %s. Cut about that middle it cleans up %s smaller on diameter, and the bore is then out of line by the same %s.",
			c.standsWords(u), u.Say(c.Price), u.Say(c.OwnOff)))
	}
	var at []string
	for _, e := range c.Ends {
		at = append(at, fmt.Sprintf("%s toward %s at depth %s", u.Say(e.Off), clockWords(e.Clock), u.Say(e.Depth)))
	}
	return say(fmt.Sprintf("the old bore wore off the line and leans %.2g mrad: %s. Cut about that axis it cleans up %s smaller on diameter, out of line by as much.",
		math.Hypot(c.Tilt[0], c.Tilt[1]), strings.Join(at, ", "), u.Say(c.Price)))
}

// standsTrue is whether the old axis stands on the true one, by what was read.
func (c *CleanUp) standsTrue(u qty.Unit) bool {
	off := c.OwnOff
	for _, d := range c.Depths {
		if d.Centred {
			off = max(off, u.Round(qty.FromMM(math.Hypot(d.Centre.X.MM(), d.Centre.Y.MM()))))
		}
	}
	return off <= u.Round(5*qty.Micrometre) // nearer than a worn bore can be read; common practice, no source
}

// standsWords tells where the middle of the old bore stands.
func (c *CleanUp) standsWords(u qty.Unit) string {
	return fmt.Sprintf("its middle stands %s from the true axis toward %s", u.Say(c.OwnOff), clockWords(c.OwnClock))
}

// openWords names the depths that were read on one side only.
func (c *CleanUp) openWords(u qty.Unit) string {
	var at []string
	for _, d := range c.Depths {
		if d.LeastSquares == 0 {
			at = append(at, u.Say(d.Depth))
		}
	}
	return "the readings at depth " + strings.Join(at, ", ") + " leave half the turn or more unread, and tell nothing of that side"
}

// Unstated is whether readings across leave it open where the old bore stands,
// with no offset stated: what they say of shadows then holds only if it stands
// true.
func (c *CleanUp) Unstated() bool { return len(c.across) > 0 && c.offset == 0 }

// Shadow says what a bore of a size about the true axis leaves uncut.
func (c *CleanUp) Shadow(size qty.Diameter) Shadow {
	out := Shadow{Size: size}
	deepest, where := c.worn.Shadow(size.MM())
	out.Deepest, out.Spots = qty.FromMM(deepest), len(where)
	if len(where) > 0 {
		out.At = spotOf(where[0].Depth, where[0].Clock, where[0].Radius)
		out.UpTo = c.offset > 0 && c.across[out.At.Depth]
	}
	return out
}

// Follow follows the passes until nothing of the old bore is left.
func (c *CleanUp) Follow(v passes.Visit) {
	for _, p := range v.Passes {
		s := c.Shadow(p.Expected)
		s.Pass = p.N
		c.Shadows = append(c.Shadows, s)
		if s.Deepest == 0 {
			return
		}
	}
}

// LastCut is the least that is left to cut all round when the bore has just
// cleaned up: without it the last shadow shows as a dull patch. On diameter;
// common practice, no source.
const LastCut = qty.Millimetre / 4

// NextOutside is the next standard outside of a sleeve for which a housing
// cleans up, on diameter more than the one planned.
func NextOutside(u qty.Unit, planned, cleanUp qty.Diameter) qty.Diameter {
	from := max(planned+1, cleanUp.Plus(LastCut))
	all := fit.StandardOutsides(u, from, from+from/4+qty.Diameter(qty.Inch))
	if len(all) == 0 {
		return 0
	}
	return all[0]
}

// Shows is whether the old bore is still there before a visit: after what was
// measured it may have been cut away, and the visit may be that of the sleeve.
func (c *CleanUp) Shows(v passes.Visit) bool {
	return v.N == 1 && (v.Behind == 0 || v.StartMost >= c.TrueAxis.Plus(-qty.Micrometre))
}

// Cautions of the readings: what is doubtful is flagged, never dropped.
func (c *CleanUp) Cautions(u qty.Unit, name string, limit qty.Diameter) []string {
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
