package plan

import (
	"math"

	"borewright/process"
	"borewright/process/qty"
)

// found is the bore as it is before the first cut, about the true axis.
type found struct {
	least, most qty.Diameter // twice the least and the largest radius
}

// findShape takes the worn bore from its readings; without any it is the
// station's diameter, standing off the axis by the offset the author states.
// Across readings cannot tell where the axis is, so the offset is added to
// them too.
func findShape(st process.Station, b process.Bore) found {
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
	return found{least: qty.DiameterMM(2 * least), most: qty.DiameterMM(2 * most)}
}

// leftBy is what one pass leaves of an uneven bore. heavy and light are the
// radii before it where there is most and least to cut; the pass takes the
// heavy place to made. It gives the radius left at the light place:
//
//	l = made + c·(F(made−heavy) − F(l−light)), and never less than it was,
//
// because there the bar springs less (error copying, Koenigsberger & Tlusty,
// Machine Tool Structures, 1970, from memory). radial is the radial force (N)
// at a depth (mm); c is in mm/N.
func leftBy(heavy, light, made, c float64, radial func(float64) float64) float64 {
	if light <= heavy {
		return made
	}
	push := radial(made - heavy)
	l := made
	for range 4 { // contracts by c·∂F/∂depth, a few hundredths, each time
		l = made + c*(push-radial(math.Max(0, l-light)))
	}
	return math.Max(l, light)
}
