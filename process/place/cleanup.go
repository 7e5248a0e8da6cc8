package place

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/geom"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// CleanUp is the worn bore as read, and the sizes at which it cleans up.
// Circles are those of ISO 12181-1.
type CleanUp struct {
	TrueAxis qty.Diameter // least diameter about the true axis that leaves no shadow
	OwnAxis  qty.Diameter // the same about an axis laid where the old bore asks for it; 0: not known
	Price    qty.Length   // what the true axis costs, on diameter
	Own      geom.Vec     // where that own axis stands from the true one
	OwnClock float64      // clock position it stands toward, degrees
	OwnOff   qty.Length   // how far
	Last     geom.Spot    // where the last shadow stands
	First    geom.Spot    // where the first cut meets metal: the highest point
	Unseen   qty.Length   // how much larger than read the diameter may be where nothing was read, 19 bores of 20; 0: not known
	Most     qty.Diameter // the size in all that this makes; 0: not known
	Near     qty.Length   // how far the ends lie beyond the outermost depths read
	Far      qty.Length
	Ask      []fact.Fact // what to read besides, so that less is left open
	Lobes    int         // so many lobes the readings do not show wherever they stand; 0: all to 5 are shown
	Axis     bool        // readings tell where the axis is (radii, not two-point diameters alone)
	Mixed    bool        // some depths were read as radii and some across
	Depths   []Circles
	Tilt     *geom.Vec    // of the old axis, mrad; nil with one depth
	Ends     []OwnEnd     // where the own axis stands at the ends read; none without a tilt
	Taper    qty.Length   // change of diameter over the depths read; positive: wider inward
	Doubtful []geom.Doubt // used all the same
	Shadows  []Shadow     // what is left after each pass until all is clean
	Why      fact.Fact    // the two sizes differ

	// Next is the next standard sleeve outside where the one planned does not
	// clean up or leaves too little to cut; 0: it does.
	Next qty.Diameter

	worn   *geom.Worn
	beyond *geom.Beyond // nil: not known
	offset float64      // of two-point readings, mm

	across map[qty.Length]bool // depths read across
}

// OwnEnd is where the own axis of the old bore stands from the true one at a
// depth.
type OwnEnd struct {
	Depth qty.Length
	Off   qty.Length
	Clock float64
}

// Circles are the sizes of the reference circles at one depth.
type Circles struct {
	Depth         qty.Length
	Readings      int
	Centre        geom.Vec     // of the least squares circle
	Centred       bool         // the readings tell Centre: radii all round
	LeastSquares  qty.Diameter // LSCI; 0: not known, 180° or more were not read
	Circumscribed qty.Diameter // MCCI; 0 likewise
	Inscribed     qty.Diameter // MICI; 0: the readings leave a side open
	Zone          qty.Length   // minimum zone (MZCI), radial; 0 likewise
	OutOfRound    qty.Length   // RONt of the least squares circle, radial
}

// Shadow is what a bore of one size leaves uncut.
type Shadow struct {
	Pass    int // 0: asked for by size
	Size    qty.Diameter
	Deepest qty.Length // radial; 0: all clean
	At      geom.Spot
	Spots   int  // readings that still show the old bore
	Band    bool // bored in the band of a witness cut alone
	UpTo    bool // read across: how deep depends on where the old bore stands
	// Clean is the chance that nothing is left, also where nothing was read; 0 likewise
	// where it is not known.
	Clean float64
}

// NewCleanUp works the readings of a bore at its station out; nil without any.
func NewCleanUp(u qty.Unit, st process.Station, b process.Bore) (*CleanUp, error) {
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
			s.Points, s.Off, s.Across = geom.Opposed(pairs), c.offset, true
		}
		sections = append(sections, s)
	}
	worn, err := geom.CleanUp(sections)
	if err != nil {
		return nil, err
	}
	c.worn = worn
	c.beyond = worn.Beyond(geom.Span{From: st.From.MM(), To: st.To.MM(), Diameter: st.Diameter.MM()})
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
	c.Why = c.why(u)
	return c, nil
}

// own takes over the own axis that readings w show, and the size about it.
func (c *CleanUp) own(u qty.Unit, w *geom.Worn, diameter float64) {
	c.Tilt, c.Ends = nil, nil
	if w.OwnAxis == 0 {
		c.OwnAxis, c.Own, c.OwnOff, c.OwnClock = 0, geom.Vec{}, 0, 0
		return
	}
	at := w.OwnAt
	c.OwnAxis = qty.Diameter(u.Up(qty.FromMM(diameter)))
	c.Own, c.OwnOff, c.OwnClock = placeOf(u, at), u.Round(qty.FromMM(at.Length())), at.Clock()
	o := w.Old
	if o == nil {
		return
	}
	c.Tilt = new(o.Tilt)
	if c.OwnAxis >= c.TrueAxis || o.Tilt.Length() < leastLean {
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

func (c *CleanUp) fill(u qty.Unit, w *geom.Worn, sections []geom.Section) {
	c.TrueAxis = qty.Diameter(u.Up(qty.FromMM(w.TrueAxis)))
	c.Last, c.Doubtful = w.Last, w.Doubtful
	if b := c.beyond; b != nil {
		c.Most = max(c.TrueAxis, qty.Diameter(u.Up(qty.FromMM(b.Most(1-LeastShadowOdds)))))
		c.Unseen = c.Most.Minus(c.TrueAxis)
		c.Near, c.Far, c.Lobes = qty.FromMM(b.Near), qty.FromMM(b.Far), b.Lobes
		c.Ask = asked(b)
	}
	least := math.Inf(1)
	for i, s := range sections {
		for _, p := range s.Points {
			if p.Radius < least {
				least, c.First = p.Radius, geom.Spot{Depth: s.Depth, Clock: p.Clock, Radius: p.Radius}
			}
		}
		d := w.Depths[i]
		at := Circles{Depth: qty.FromMM(s.Depth), Readings: len(s.Points)}
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
}

// why explains the difference between the two sizes.
func (c *CleanUp) why(u qty.Unit) fact.Fact {
	switch {
	case !c.Axis && c.offset > 0:
		return fact.New(AcrossWithOffset, fact.MM(c.offset))
	case !c.Axis:
		return fact.New(AcrossOnly)
	case c.OwnAxis == 0:
		var at []fact.Fact
		for _, d := range c.Depths {
			if d.LeastSquares == 0 {
				at = append(at, fact.New(DepthRead, fact.Figure(d.Depth)))
			}
		}
		return fact.New(OwnAxisUnknown, fact.List(at...))
	case c.Mixed:
		return fact.New(ByRadiiAlone, c.stands(u))
	}
	return c.stands(u)
}

// stands is where the old bore stands, and what an axis of its own would gain.
func (c *CleanUp) stands(u qty.Unit) fact.Fact {
	off, toward, price := fact.Figure(c.OwnOff), fact.Figure(qty.KindClock.Of(c.OwnClock)), fact.Figure(c.Price)
	switch {
	case c.Price > u.Round(qty.Micrometre) && len(c.Ends) == 0:
		return fact.New(WornOffLine, off, toward, price)
	case c.Price > u.Round(qty.Micrometre):
		var at []fact.Fact
		for _, e := range c.Ends {
			at = append(at, fact.New(OwnEndAt, fact.Figure(e.Off), fact.Figure(qty.KindClock.Of(e.Clock)), fact.Figure(e.Depth)))
		}
		return fact.New(WornAndLeaning, fact.Figure(qty.KindLean.Of(c.Tilt.Length())), fact.List(at...), price)
	case c.Mixed && c.OwnOff > 0:
		return fact.New(OffNoGain, off, toward)
	case c.standsTrue(u):
		return fact.New(StandsTrue)
	}
	return fact.New(NoGain)
}

// standsTrue is whether the old axis stands on the true one, by what was read.
func (c *CleanUp) standsTrue(u qty.Unit) bool {
	off := c.OwnOff
	for _, d := range c.Depths {
		if d.Centred {
			off = max(off, u.Round(qty.FromMM(d.Centre.Length())))
		}
	}
	return off <= u.Round(5*qty.Micrometre) // nearer than a worn bore can be read; common practice, no source
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
		out.At = where[0].Spot
		out.UpTo = c.offset > 0 && c.across[qty.FromMM(out.At.Depth)]
	} else if c.beyond != nil {
		out.Clean = c.beyond.Clean(size.MM())
	}
	return out
}

// Follow follows the passes until nothing of the old bore is left.
func (c *CleanUp) Follow(v schedule.Visit) {
	for _, p := range v.Passes {
		s := c.Shadow(p.Expected)
		s.Pass, s.Band = p.N, p.Band != nil
		c.Shadows = append(c.Shadows, s)
		if s.Deepest == 0 && !s.Band && (c.beyond == nil || !tooLikely(1-s.Clean)) {
			return
		}
	}
}

// Shows is whether the old bore is still there before a visit: after what was
// measured it may have been cut away, and the visit may be that of the sleeve.
func (c *CleanUp) Shows(v schedule.Visit) bool {
	return v.N == 1 && (v.Behind == 0 || v.StartMost >= c.TrueAxis.Plus(-qty.Micrometre))
}

// OfBore is whether a caution is of the readings of one bore, which it names first.
func OfBore(c fact.Fact) bool { return c.Kind == DoubtfulReading || c.Kind == ShadowLikely }

// Cautions of the readings: what is doubtful is flagged, never dropped.
func (c *CleanUp) Cautions(name string) []fact.Fact {
	var out []fact.Fact
	for _, d := range c.Doubtful {
		out = append(out, fact.New(DoubtfulReading, fact.Name(name), fact.MM(d.Spot.Depth), fact.Figure(qty.KindClock.Of(d.Spot.Clock)), fact.MM(d.Spot.Radius), fact.MM(d.Expected)))
	}
	if last, odds := c.likely(); tooLikely(odds) {
		var next fact.Arg
		if c.Next > 0 {
			next = fact.Figure(c.Next)
		}
		out = append(out, fact.New(ShadowLikely, fact.Name(name), fact.Figure(qty.KindShare.Of(odds)), fact.Figure(last.Size), fact.Figure(c.Most), next, fact.List(c.Ask...)))
	}
	return out
}
