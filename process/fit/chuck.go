package fit

import (
	"errors"
	"fmt"
	"math"

	"borewright/process/qty"
)

// ChuckInput is a thin ring held by equal jaws pushing inward at equal spacing.
type ChuckInput struct {
	Units           qty.Unit
	Outside, Inside float64 // mm
	Width           float64 // mm, along the axis
	E               float64 // MPa
	Jaws            int     // 2 to 12; 3 for the usual chuck
	Grip            float64 // N, force of one jaw
}

// ChuckResult is how far from round the ring is while it is held. Bored round
// and let go, the bore shows the same lobes inverted.
type ChuckResult struct {
	Lobes       float64  // radial range: inward at a jaw and outward midway between jaws
	SixPadLobes float64  // the same grip in all, on six pads
	Thick       bool     // wall over a tenth of the mean radius: the figures leave hoop and shear out and are low
	Instead     []string // how to hold a ring that must stay round
}

// Chuck works out the lobes of a thin ring under n equal radial loads W:
//
//	at a load  u = (W R³/2EI)·[(θ/2 + sin2θ/4)/sin²θ − 1/θ]           inward
//	midway     u = (W R³/4EI)·[2/θ − 1/sinθ − θcosθ/sin²θ]            outward
//
// θ = π/n, R mean radius, I = w t³/12. Thin ring, bending only.
// Source: Roark's Formulas for Stress and Strain, circular ring table, equally
// spaced radial loads (recalled); coefficients confirmed by a Fourier series.
func Chuck(in ChuckInput) (ChuckResult, error) {
	var errs []error
	bad := func(format string, a ...any) { errs = append(errs, fmt.Errorf(format, a...)) }
	if !(in.Inside > 0 && in.Inside < in.Outside) || math.IsInf(in.Outside, 0) {
		bad("the ring's inside must be above 0 and below its outside; they are %g and %g mm", in.Inside, in.Outside)
	}
	if !(in.Width > 0 && in.E > 0 && in.Grip >= 0) {
		bad("width and modulus must be above 0 and the grip not negative; they are %g mm, %g MPa, %g N", in.Width, in.E, in.Grip)
	}
	if in.Jaws < 2 || in.Jaws > 12 {
		bad("jaws must be 2 to 12, not %d", in.Jaws)
	}
	if err := errors.Join(errs...); err != nil {
		return ChuckResult{}, err
	}
	t := (in.Outside - in.Inside) / 2
	radius := (in.Outside + in.Inside) / 4
	unit := in.Grip * radius * radius * radius / (in.E * in.Width * t * t * t / 12)
	at, mid := ringCoefficients(in.Jaws)
	r := ChuckResult{Lobes: at*unit + mid*unit, Thick: t/radius > 0.1}
	// The same grip in all, shared by six pads.
	at6, mid6 := ringCoefficients(6)
	r.SixPadLobes = (at6 + mid6) * unit * float64(in.Jaws) / 6
	w := words{in.Units}
	r.Instead = []string{
		"Soft jaws bored to the sleeve's outside that wrap nearly all of it: the load is spread and the lobes almost vanish.",
		fmt.Sprintf("Six pads for the same grip in all: %s out of round instead of %s.", w.fine(r.SixPadLobes), w.fine(r.Lobes)),
		"Clamp endwise against a face plate or in a pot: no radial load at all. Keep the clamp over the wall, not inside it.",
		"Finish the bore first, then turn the outside on an expanding mandrel.",
		"Leave the ring on its stub until bore and outside are finished in one chucking, then part off.",
	}
	return r, nil
}

// GripMost is the force of one jaw, N, that keeps the lobes within a radial
// range of lobes mm.
func GripMost(in ChuckInput, lobes float64) (float64, error) {
	in.Grip = 1
	r, err := Chuck(in)
	if err != nil {
		return 0, err
	}
	return lobes / r.Lobes, nil
}

// ringCoefficients of W R³/EI: radial, in at a load and out midway.
func ringCoefficients(n int) (at, mid float64) {
	th := math.Pi / float64(n)
	s, c := math.Sin(th), math.Cos(th)
	at = ((th/2+math.Sin(2*th)/4)/(s*s) - 1/th) / 2
	mid = (2/th - 1/s - th*c/(s*s)) / 4
	return at, mid
}
