package passes

import "math"

// LeftBy is what one pass leaves of an uneven bore. heavy and light are the
// radii before it where there is most and least to cut; the pass takes the
// heavy place to made. It gives the radius left at the light place:
//
//	l = made + c·(F(made−heavy) − F(l−light)), and never less than it was,
//
// because there the bar springs less (error copying, Koenigsberger & Tlusty,
// Machine Tool Structures, 1970, from memory). radial is the radial force (N)
// at a depth (mm); c is in mm/N.
func LeftBy(heavy, light, made, c float64, radial func(float64) float64) float64 {
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
