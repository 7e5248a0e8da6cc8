package fit

import (
	"math"

	"borewright/process/fact"
	"borewright/process/qty"
)

// ChuckInput is a thin ring held by equal jaws pushing inward at equal spacing.
type ChuckInput struct {
	Outside, Inside float64 // mm
	Width           float64 // mm, along the axis
	E               float64 // MPa
	Jaws            int     // 2 to 12; 3 for the usual chuck
	Grip            float64 // N, force of one jaw
	Allowed         float64 // mm, radial range that the lobes may have; 0: not stated
}

// ChuckResult is how far from round the ring is while it is held. Bored round
// and let go, the bore shows the same lobes inverted.
type ChuckResult struct {
	Outside, Inside float64 // mm, as held
	Grip, Allowed   float64 // as in ChuckInput

	Lobes    float64     // mm, radial range: inward at a jaw and outward midway between jaws
	SixPads  float64     // the same grip in all, on six pads
	GripMost float64     // N, of one jaw: the most that keeps the lobes within Allowed; 0: no grip bends it
	Thick    bool        // wall over a tenth of the mean radius: the figures leave hoop and shear out and are low
	Instead  []fact.Fact // how to hold a ring that must stay round
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
	r := ChuckResult{Outside: in.Outside, Inside: in.Inside, Grip: in.Grip, Allowed: in.Allowed}
	var no refusal
	if !(in.Inside > 0 && in.Inside < in.Outside) || math.IsInf(in.Outside, 0) {
		no.bad(BadRing, fact.MM(in.Inside), fact.MM(in.Outside))
	}
	if !(in.Width > 0 && in.E > 0 && in.Grip >= 0) {
		no.bad(BadGrip, fact.MM(in.Width), fact.Value(qty.KindStress, in.E), fact.Figure(qty.Force(in.Grip)))
	}
	if in.Jaws < 2 || in.Jaws > 12 {
		no.bad(BadJaws, fact.Count(in.Jaws))
	}
	if err := no.err(); err != nil {
		return r, err
	}
	t := (in.Outside - in.Inside) / 2
	radius := (in.Outside + in.Inside) / 4
	at, mid := RingCoefficients(in.Jaws)
	unit := func(grip float64) float64 {
		return grip * radius * radius * radius / (in.E * in.Width * t * t * t / 12)
	}
	lobes := func(grip float64) float64 { return at*unit(grip) + mid*unit(grip) }
	r.Lobes, r.GripMost, r.Thick = lobes(in.Grip), in.Allowed/lobes(1), t/radius > 0.1
	if math.IsInf(r.GripMost, 0) {
		r.GripMost = 0
	}
	// The same grip in all, shared by six pads.
	at6, mid6 := RingCoefficients(6)
	r.SixPads = (at6 + mid6) * unit(in.Grip) * float64(in.Jaws) / 6
	fine := func(mm float64) fact.Arg { return fact.Figure(qty.KindFine.Of(mm)) }
	r.Instead = []fact.Fact{fact.New(SoftJaws), fact.New(SixPads, fine(r.SixPads), fine(r.Lobes)), fact.New(EndClamp), fact.New(BoreFirst), fact.New(LeaveOnStub)}
	return r, nil
}

// RingCoefficients are how far a thin ring of mean radius R goes in under each of n like loads W, evenly
// spaced round it, and out midway between two: each times W R³/(E I).
func RingCoefficients(n int) (at, mid float64) {
	th := math.Pi / float64(n)
	s, c := math.Sin(th), math.Cos(th)
	at = ((th/2+math.Sin(2*th)/4)/(s*s) - 1/th) / 2
	mid = (2/th - 1/s - th*c/(s*s)) / 4
	return at, mid
}
