package fit

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"borewright/process/qty"
)

// SleeveInput is a repair: an old bore that cleans up at one size, a finished
// bore asked for, and a sleeve between them.
type SleeveInput struct {
	// Press holds what does not depend on the sizes: materials, walls of the
	// hub, length, roughness, friction, temperatures, units of the sentences.
	// Diameter, Interference and Sleeve.Inside are filled in here.
	Press PressInput
	Bond  *Compound // held by a bond, not by a press fit

	CleanUp           qty.Diameter // smallest housing that leaves no shadow of the old bore
	BoreLow, BoreHigh qty.Diameter // limits of the finished bore
	Fit               string       // "H7/p6"; "": the two limits below
	Housing, Sleeve   Limits
	Match             qty.Length      // the sleeve is turned to the housing as measured, to the middle of the fit within ± this on diameter; 0: any pair within limits
	Outside           qty.Diameter    // chosen already; 0: choose
	Found             [2]qty.Diameter // the housing as bored and measured, least and most; 0: not yet
	Standard          []qty.Diameter  // outsides to choose from; nil: StandardOutsides
	Wall              qty.Length      // least wall; 0: LeastWall
	Allowance         qty.Length      // least left inside for boring in place, on diameter
	Make              qty.Length      // tolerance on diameter that the sleeve's bore is made to before assembly

	Roundness       qty.Length // asked for, radial; 0: not stated
	Ra              qty.Length // asked for; 0: not stated
	LocationAllowed qty.Length // how far the bore's axis may stand off, radial; 0: not stated, and the size tolerance has to hold it as well
	BeforeLocation  qty.Length // expected if finished before: housing's position and the sleeve's wall, radial
	BeforeRoundness qty.Length // the same of form: the housing prints through, radial
	InPlace         Capability // of boring the sleeve where it sits
	Order           Order      // asked for, whatever lands; Undecided: decide
}

// Capability is what a boring set-up reaches.
type Capability struct {
	Size      qty.Length // ± on diameter
	Roundness qty.Length // radial
	Ra        qty.Length
	Why       string // why it cannot be bored in place at all; "": it can
}

// Option is one order of work for the sleeve's bore.
type Option struct {
	Order      Order
	InsideLow  qty.Diameter // limits the sleeve's bore is made to before assembly
	InsideHigh qty.Diameter
	Low        qty.Diameter // what the bore is when all is done
	High       qty.Diameter
	Stock      Range      // left to bore in place, on diameter; zero when finished before
	Closure    Range      // on diameter, at assembly
	Roundness  qty.Length // radial
	OffCentre  qty.Length // radial
	Fits       bool
	Why        []string // what does not fit
}

// SleeveResult is the sleeve worked out.
type SleeveResult struct {
	Outside        qty.Diameter // nominal
	HousingLow     qty.Diameter
	HousingHigh    qty.Diameter
	OutsideLow     qty.Diameter
	OutsideHigh    qty.Diameter
	Clearance      Range        // as assembled, matching counted; negative: interference
	Wall           qty.Length   // least, when finished
	Assembled      *PressResult // as pressed, the bore still with its stock where it is bored in place; nil for a bond
	Finished       *PressResult // the same fit with the bore at size: what it holds; nil for a bond
	Bonded         *BondResult
	FinishedBefore Option
	BoredHere      Option
	Choice         Order // taken; Undecided when neither lands
	Why            string
	Grows          [2]Band // the finished bore on diameter, from the room to the coldest and to the hottest at work
	LeadIn         Chamfer
	Reasons        []string // what is wrong; empty: nothing
	Cautions       []string
	Steps          []Step // order of work
}

// Order is when the inside of a sleeve comes to size.
type Order int

// The two orders of work, and none of them.
const (
	Undecided    Order = iota
	FinishBefore       // on the lathe, before assembly
	BoreInPlace        // where it sits
)

func (o Order) String() string {
	return [...]string{"", "finish before assembly", "bore in place"}[o]
}

func (in SleeveInput) check() error {
	var errs []error
	bad := func(format string, a ...any) { errs = append(errs, fmt.Errorf(format, a...)) }
	say := in.Press.Units.Say
	if in.CleanUp <= 0 {
		bad("clean-up size must be above 0, not %s", say(in.CleanUp.Length()))
	}
	if !(in.BoreLow > 0 && in.BoreLow < in.BoreHigh) {
		bad("limits of the finished bore must rise from above 0; they are %s and %s", say(in.BoreLow.Length()), say(in.BoreHigh.Length()))
	}
	if in.Outside < 0 || in.Wall < 0 || in.Allowance < 0 || in.Make < 0 || in.Match < 0 {
		bad("outside, wall, allowance, match and tolerance of the sleeve must not be negative")
	}
	if in.Fit == "" && (in.Housing.Tolerance() < 0 || in.Sleeve.Tolerance() < 0) {
		bad("the limits of housing and sleeve must not be upside down")
	}
	return errors.Join(errs...)
}

// Sleeve chooses the outside, works the fit out and decides whether the bore
// can be finished before assembly or must be bored in place.
//
// Closure depends on the bore the sleeve is made with, and that bore on the
// closure: three rounds settle it to far below a nanometre's worth. Boring in
// place thins the wall of a stressed sleeve; by linear elasticity the end is
// the same as if the thin sleeve had been assembled, so grip is worked out at
// the finished size and stress at both.
func Sleeve(in SleeveInput) (SleeveResult, error) {
	if err := in.check(); err != nil {
		return SleeveResult{}, err
	}
	var r SleeveResult
	var err error
	if r.Outside, r.Reasons, err = in.chooseOutside(); err != nil {
		return SleeveResult{}, err
	}
	housing, sleeve, err := in.pairLimits(r.Outside)
	if err != nil {
		return SleeveResult{}, err
	}
	r.HousingLow, r.HousingHigh = housing.Sizes(r.Outside)
	r.OutsideLow, r.OutsideHigh = sleeve.Sizes(r.Outside)
	r.Clearance = Clearance(housing, sleeve)
	if middle := (r.Clearance.Least + r.Clearance.Most) / 2; in.Match > 0 {
		r.Clearance = Range{max(r.Clearance.Least, middle-in.Match), min(r.Clearance.Most, middle+in.Match)}
	}
	r.Wall = r.OutsideLow.Minus(in.BoreHigh) / 2
	if r.Wall <= 0 {
		return SleeveResult{}, fmt.Errorf("no wall is left: the sleeve is %s outside and the bore %s", in.Press.Units.Say(r.OutsideLow.Length()), in.Press.Units.Say(in.BoreHigh.Length()))
	}
	before, here := &r.FinishedBefore, &r.BoredHere
	before.Order, here.Order = FinishBefore, BoreInPlace
	var pressedBefore, pressedHere PressResult
	if in.Bond != nil {
		b, err := in.BondOf(r.Outside, r.Clearance.GapMM(), *in.Bond)
		if err != nil {
			return SleeveResult{}, err
		}
		r.Bonded = &b
		r.Reasons = append(r.Reasons, b.Reasons...)
		in.insideBefore(before)
		in.insideInPlace(here)
	} else {
		in.Press.Diameter = r.Outside.MM()
		in.Press.Interference = r.Clearance.InterferenceMM()
		if pressedBefore, err = in.makeSize(before, in.insideBefore); err != nil {
			return SleeveResult{}, err
		}
		if pressedHere, err = in.makeSize(here, in.insideInPlace); err != nil {
			return SleeveResult{}, err
		}
		in.Press.Sleeve.Inside = in.finished()
		finished, err := Press(in.Press)
		if err != nil {
			return SleeveResult{}, err
		}
		r.Finished = &finished
	}
	in.decide(&r)
	if in.Bond == nil {
		r.Assembled = &pressedHere
		if r.Choice == FinishBefore {
			r.Assembled = &pressedBefore
		}
		r.Reasons = append(r.Reasons, r.Assembled.Reasons...)
		for _, s := range r.Finished.Reasons {
			if !slices.Contains(r.Reasons, s) {
				r.Reasons = append(r.Reasons, "with the bore at size: "+s)
			}
		}
		r.Cautions = r.Assembled.Cautions
	} else {
		r.Cautions = r.Bonded.Cautions
	}
	in.Press.Sleeve.Inside = in.finished()
	for i, t := range []float64{in.Press.Service.Least, in.Press.Service.Most} {
		r.Grows[i] = in.Press.boreGrows(r.Outside.MM(), t, in.Bond != nil)
	}
	r.LeadIn = LeadIn(in.Press.Units, r.Outside, r.Wall, max(0, -r.Clearance.Least))
	r.Steps = in.steps(r)
	return r, nil
}

// finished is the middle of the finished bore's limits, mm.
func (in SleeveInput) finished() float64 { return (in.BoreLow + in.BoreHigh).MM() / 2 }

// BondOf works out the sleeve held by a compound in a gap, mm on diameter. The
// pair that compounds are tested on is steel on steel; stainless is not that: it
// sets slowly and to less.
func (in SleeveInput) BondOf(outside qty.Diameter, gap Band, c Compound) (BondResult, error) {
	return Bond(BondInput{
		Units: in.Press.Units, Diameter: outside.MM(), Length: in.Press.Length, Gap: gap, Compound: c,
		ServiceMost: in.Press.Service.Most, Tightens: in.Press.tightens(outside.MM()),
		Blind: in.Press.Blind, Unlike: !(in.Press.Hub.Steel && in.Press.Sleeve.Steel),
	})
}

// makeSize finds the bore to make and its closure together.
func (in SleeveInput) makeSize(o *Option, inside func(*Option)) (PressResult, error) {
	var p PressResult
	inside(o)
	for range 3 {
		in.Press.Sleeve.Inside = (o.InsideLow + o.InsideHigh).MM() / 2
		if in.Press.Sleeve.Inside <= 0 {
			return p, fmt.Errorf("the allowance of %s is larger than the bore", in.Press.Units.Say(in.Allowance))
		}
		var err error
		if p, err = Press(in.Press); err != nil {
			return p, err
		}
		o.Closure = Range{qty.FromMM(p.Closure.Least), qty.FromMM(p.Closure.Most)}
		inside(o)
	}
	return p, nil
}

// insideBefore: the bore is made so that the middle of its band, closed by the
// middle of the closure, is the middle of the finished limits.
func (in SleeveInput) insideBefore(o *Option) {
	aim := in.BoreLow + (in.BoreHigh-in.BoreLow)/2
	aim = aim.Plus((o.Closure.Least + o.Closure.Most) / 2)
	o.InsideLow = in.Press.roundTo(aim.Plus(-in.Make / 2))
	o.InsideHigh = o.InsideLow.Plus(in.Make)
	o.Low, o.High = o.InsideLow.Plus(-o.Closure.Most), o.InsideHigh.Plus(-o.Closure.Least)
}

// insideInPlace: the largest bore with the least closure still leaves the
// allowance at the low finished limit.
func (in SleeveInput) insideInPlace(o *Option) {
	o.InsideHigh = in.Press.roundTo(in.BoreLow.Plus(o.Closure.Least - in.Allowance))
	o.InsideLow = o.InsideHigh.Plus(-in.Make)
	o.Stock = Range{
		Least: in.BoreLow.Minus(o.InsideHigh.Plus(-o.Closure.Least)),
		Most:  in.BoreHigh.Minus(o.InsideLow.Plus(-o.Closure.Most)),
	}
	aim := in.BoreLow + (in.BoreHigh-in.BoreLow)/2
	o.Low, o.High = aim.Plus(-in.InPlace.Size), aim.Plus(in.InPlace.Size)
}

// roundTo rounds a size to be made to what a drawing of the job's units shows.
func (in PressInput) roundTo(d qty.Diameter) qty.Diameter {
	return qty.Diameter(in.Units.Round(d.Length()))
}

// decide holds both bands against the limits.
func (in SleeveInput) decide(r *SleeveResult) {
	before, here := &r.FinishedBefore, &r.BoredHere
	before.Roundness, before.OffCentre = in.BeforeRoundness, in.BeforeLocation
	if r.Bonded != nil {
		before.OffCentre += qty.FromMM(r.Bonded.OffCentre)
	}
	here.Roundness = in.InPlace.Roundness
	in.judge(before, 0)
	in.judge(here, in.InPlace.Ra)
	switch {
	case in.Order != Undecided:
		o, other := before, here
		if in.Order == BoreInPlace {
			o, other = here, before
		}
		r.Choice = o.Order
		r.Why = o.Order.String() + " is asked for, and it lands within limits."
		if !o.Fits {
			r.Why = o.Order.String() + " is asked for, and it does not land: " + sentence(o.Why)
			r.Reasons = append(r.Reasons, o.Order.String()+": "+strings.Join(o.Why, "; "))
		}
		if other.Fits {
			r.Why += " To " + other.Order.String() + " would land as well."
		} else {
			r.Why += " To " + other.Order.String() + " would not: " + sentence(other.Why)
		}
	case before.Fits:
		r.Choice = FinishBefore
		r.Why = "the sleeve can be bored to size on the lathe: after assembly it lands within limits. Boring in place is one more visit and not needed."
		if !here.Fits {
			r.Why = "the sleeve can be bored to size on the lathe: after assembly it lands within limits. Boring in place would not: " + sentence(here.Why)
		}
	case here.Fits:
		r.Choice = BoreInPlace
		r.Why = "finished before, it would not land: " + sentence(before.Why)
	default:
		r.Why = "neither way lands within limits."
		for _, o := range []*Option{before, here} {
			r.Reasons = append(r.Reasons, o.Order.String()+": "+strings.Join(o.Why, "; "))
		}
	}
}

// sentence ends reasons with a full stop.
func sentence(why []string) string {
	return strings.TrimSuffix(strings.Join(why, "; "), ".") + "."
}

// judge fills in Fits and Why. What size, form and (where no location is
// stated) position take together must go into the tolerance. An out-of-round
// of ρ, peak to valley on the radius, puts a two-point diameter up to ρ above
// and below the mean. An axis off by e takes 2e from what passes on the true
// axis, so it counts at the low limit.
func (in SleeveInput) judge(o *Option, ra qty.Length) {
	say := in.Press.Units.Say
	no := func(format string, a ...any) { o.Why = append(o.Why, fmt.Sprintf(format, a...)) }
	if o.Order == BoreInPlace && in.InPlace.Why != "" {
		no("%s", in.InPlace.Why) // there are no figures to hold against the limits
		return
	}
	low, high := o.Low.Plus(-o.Roundness), o.High.Plus(o.Roundness)
	cost := ""
	if o.Roundness > 0 {
		cost = fmt.Sprintf(", %s out of round", say(o.Roundness))
	}
	if in.LocationAllowed == 0 && o.OffCentre > 0 {
		low = low.Plus(-2 * o.OffCentre)
		cost += fmt.Sprintf(", axis off by %s", say(o.OffCentre))
	}
	if low < in.BoreLow || high > in.BoreHigh {
		no("size %s to %s%s; together %s to %s, and %s is allowed", in.Press.Units.Format(o.Low.Length()), say(o.High.Length()), cost,
			in.Press.Units.Format(low.Length()), say(high.Length()), in.Press.Units.SayLimits(in.BoreLow, in.BoreHigh))
	}
	if spread := o.Closure.Most - o.Closure.Least; o.Order == FinishBefore && spread > 0 && len(o.Why) > 0 {
		no("closure alone differs by %s from one pair of parts to the next (%s to %s)", say(spread), in.Press.Units.Format(o.Closure.Least), say(o.Closure.Most))
	}
	if in.LocationAllowed > 0 && o.OffCentre > in.LocationAllowed {
		no("the axis can stand %s off, %s is allowed", say(o.OffCentre), say(in.LocationAllowed))
	}
	if in.Roundness > 0 && o.Roundness > in.Roundness {
		no("out of round by %s, %s is allowed", say(o.Roundness), say(in.Roundness))
	}
	if in.Ra > 0 && ra > in.Ra {
		no("roughness %s, %s is allowed", in.Press.Units.Say(qty.Roughness(ra)), in.Press.Units.Say(qty.Roughness(in.Ra)))
	}
	o.Fits = len(o.Why) == 0
}
