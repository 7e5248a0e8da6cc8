package fit

import (
	"math"

	"borewright/process/hub"
	"borewright/process/landing"
	"borewright/process/qty"
)

// Form is what a bore that is finished on the lathe is out of round by when it is home,
// radial peak to valley, without what an uneven wall brings.
type Form struct {
	Lathe   qty.Length // at the most, of the lathe
	Spindle qty.Length // of the mill, printed through from the housing
	Shape   qty.Length // at the most, left of the old shape of the housing and printed through
}

// round is all of it at the worst.
func (f Form) round() qty.Length { return f.Lathe + f.Spindle + f.Shape }

// across is by how much a two-point diameter stands above and below its middle for it.
// Of lobes that a spindle makes an even number shows across a bore in full, an odd number
// not at all: half of it counts. An old shape is mostly oval.
func (f Form) across() qty.Length { return (f.Lathe+f.Spindle)/2 + f.Shape }

// sure is the chance from which on a way lands, though all its errors at their worst
// together would not.
const sure = 0.999

// What differs from one sleeve to the next, drawn in each trial. Limits and tolerances
// are 95 % half-widths of normal laws, as those of the passes; what is only known to lie
// between two figures is anything between them, as likely.
const (
	drawInterference = iota
	drawLoss         // what of the interference roughness takes
	drawHub          // metal around the housing
	drawLathe        // form of the lathe
	drawShape        // of the old shape
	drawAxis
	draws
)

const half95 = 1.96 // σ of a 95 % half-width of 1

// oddsBefore is the chance that a sleeve finished on the lathe lands, and what the drawing
// of the trials leaves unsure of it: size, form and axis within what is asked, at once.
// The bore is turned to B, a normal law of its own, and comes home as
//
//	D = B − k·(δ − λ),  within limits where  D − a − 2e ≥ low,  D + a ≤ high
//
// with δ the interference, λ what roughness takes of it, k the closure over it, a what is
// out of round across the bore and e the axis off, where no location holds it. Both ends
// of the joint must lie within limits.
func (in SleeveInput) oddsBefore(r *SleeveResult, o *Option, closing Band, ends hub.Ends) (chance, off float64) {
	middle := (o.Inside[0] + o.Inside[1]).MM() / 2
	one := math.Max(in.Make.MM()/2/half95, 1e-6)
	tight := InterferenceMM(r.Clearance)
	spread := (tight.Most - tight.Least) / 2 // matched: to a figure
	if in.Match == 0 {
		spread = math.Hypot(r.HousingHigh.Minus(r.HousingLow).MM(), r.OutsideHigh.Minus(r.OutsideLow).MM()) / 2
	}
	loss := 0.0
	if in.Bond == nil {
		loss = RoughnessLoss(in.Press.RzHub, in.Press.RzSleeve)
	}
	least, most := in.BoreLow.MM(), in.BoreHigh.MM()
	return landing.Try(draws, func(d landing.Draw) float64 {
		over := (tight.Least+tight.Most)/2 + spread/half95*d.Normal(drawInterference) -
			loss/2*(1+d.Normal(drawLoss)/half95)
		closes := (closing.Least + (closing.Most-closing.Least)*d.Even(drawHub)) * max(0, over)
		uneven := 0.0
		if tight.Most > 0 {
			uneven = o.Uneven.MM() * max(0, over) / tight.Most
		}
		form := Form{in.BeforeForm.Lathe, in.BeforeForm.Spindle, in.BeforeForm.Shape}
		form.Lathe = qty.FromMM(form.Lathe.MM() * d.Even(drawLathe))
		form.Shape = qty.FromMM(form.Shape.MM() * d.Even(drawShape))
		axis := o.OffCentre.MM() * math.Abs(d.Normal(drawAxis)) / half95
		switch {
		case in.Roundness > 0 && form.round().MM()+uneven > in.Roundness.MM():
			return 0
		case in.LocationAllowed > 0 && axis > in.LocationAllowed.MM():
			return 0
		case in.LocationAllowed > 0:
			axis = 0
		}
		across := form.across().MM() + uneven
		wide, narrow := middle-closes*ends.Least, middle-closes*ends.Most // at the two ends of the joint
		return max(0, d.Below((most-across-wide)/one)-d.Below((least+across+2*axis-narrow)/one))
	})
}
