package passes

import "math"

// LeftBy is what one pass leaves of an uneven bore. rLeast and rMost are the
// radii before it where there is most and least to cut; the pass takes the
// place of least radius to made. It gives the radius left at the other:
//
//	l = made + c·(F(made−rLeast) − F(l−rMost)), and never less than it was,
//
// because there the bar springs less (error copying, Koenigsberger & Tlusty,
// Machine Tool Structures, 1970, from memory). radial is the radial force (N)
// at a depth (mm); c is in mm/N.
func LeftBy(rLeast, rMost, made, c float64, radial func(float64) float64) float64 {
	if rMost <= rLeast {
		return made
	}
	push := radial(made - rLeast)
	l := made
	for range 4 { // contracts by c·∂F/∂depth, a few hundredths, each time
		l = made + c*(push-radial(math.Max(0, l-rMost)))
	}
	return math.Max(l, rMost)
}
