package place

import (
	"math"

	"borewright/process"
	"borewright/process/qty"
)

// Found is the bore as it is before the first cut, about the true axis.
type Found struct {
	Least, Most qty.Diameter // twice the least and the largest radius
}

// AsFound takes the worn bore from its readings; without any it is the
// station's diameter, standing off the axis by the offset the author states.
// Across readings cannot tell where the axis is, so the offset is added to
// them too.
func AsFound(st process.Station, b process.Bore) Found {
	least, most := math.Inf(1), math.Inf(-1)
	see := func(r float64) { least, most = math.Min(least, r), math.Max(most, r) }
	off := b.Offset.MM()
	for _, w := range b.Wear {
		for _, r := range w.Radius {
			see(r.MM())
		}
		for _, d := range w.Across {
			see(d.MM()/2 - off)
			see(d.MM()/2 + off)
		}
	}
	if math.IsInf(least, 1) {
		see(st.Diameter.MM()/2 - off)
		see(st.Diameter.MM()/2 + off)
	}
	return Found{Least: qty.DiameterMM(2 * least), Most: qty.DiameterMM(2 * most)}
}

// WornPoint is one reading of the old bore about the true axis.
type WornPoint struct {
	Clock  float64 // degrees from 12, clockwise seen from the spindle
	Radius qty.Length
}

// WornRing is the old bore at one depth, with what it takes to clean it up.
type WornRing struct {
	Depth   qty.Length
	Across  bool // two-point readings: half of them, about the middle of each
	Points  []WornPoint
	CleanUp qty.Diameter // smallest about the true axis that leaves no shadow, over all depths
}

// WornRings gives the readings of one bore, a ring for each depth.
func WornRings(st process.Station, b process.Bore) []WornRing {
	most := AsFound(st, b).Most
	var rings []WornRing
	for _, w := range b.Wear {
		ring := WornRing{Depth: w.Depth, CleanUp: most, Across: len(w.Radius) == 0}
		for i, at := range w.At {
			switch {
			case i < len(w.Radius):
				ring.Points = append(ring.Points, WornPoint{at, w.Radius[i]})
			case i < len(w.Across):
				r := w.Across[i].Radius()
				ring.Points = append(ring.Points, WornPoint{at, r}, WornPoint{math.Mod(at+180, 360), r})
			}
		}
		rings = append(rings, ring)
	}
	return rings
}
