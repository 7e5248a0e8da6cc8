package fit

import (
	"slices"

	"borewright/process/fact"
	"borewright/process/fit/iso286"
	"borewright/process/hub"
	"borewright/process/qty"
)

// SleeveInput is a repair: an old bore that cleans up at one size, a finished
// bore asked for, and a sleeve between them.
type SleeveInput struct {
	// Press holds what does not depend on the sizes: materials, walls of the
	// hub, length, roughness, friction, temperatures.
	// Diameter, Interference and Sleeve.Inside are filled in here.
	Press PressInput
	Units qty.Unit  // that sizes are rounded and standard outsides chosen in
	Bond  *Compound // held by a bond, not by a press fit
	Wet   Wet       // what reaches a bond at work

	CleanUp           qty.Diameter // smallest housing that leaves no shadow of the old bore
	BoreLow, BoreHigh qty.Diameter // limits of the finished bore
	Fit               string       // "H7/p6"; "": the two limits below
	Housing, Sleeve   iso286.Limits
	Match             qty.Length      // the sleeve is turned to the housing as measured, to the middle of the fit within ± this on diameter; 0: any pair within limits
	Outside           qty.Diameter    // chosen already; 0: choose
	Found             [2]qty.Diameter // the housing as bored and measured, least and most; 0: not yet
	Standard          []qty.Diameter  // outsides to choose from; nil: StandardOutsides
	Wall              qty.Length      // least wall; 0: LeastWall
	Allowance         qty.Length      // least left inside for boring in place, on diameter
	NoseAngle         float64         // of the lead-in a side, where NoseLong is stated; degrees
	NoseLong          qty.Length      // length of the lead-in; 0: as is usual
	Make              qty.Length      // tolerance on diameter that the sleeve's bore is made to before assembly

	Roundness       qty.Length // asked for, radial; 0: not stated
	Ra              qty.Length // asked for; 0: not stated
	LocationAllowed qty.Length // how far the bore's axis may stand off, radial; 0: not stated, and the size tolerance has to hold it as well
	BeforeLocation  qty.Length // expected if finished before: housing's position and the sleeve's wall, radial
	BeforeForm      Form       // the same of form: the housing prints through
	InPlace         Capability // of boring the sleeve where it sits
	Order           Order      // asked for, whatever lands; Undecided: decide
}

// Capability is what a boring set-up reaches.
type Capability struct {
	Size      qty.Length // ± on diameter
	Roundness qty.Length // radial
	Across    qty.Length // by how much a two-point diameter stands above and below its middle for it
	Ra        qty.Length
	Chance    float64   // of landing on size, by trial; 0: not tried
	Why       fact.Fact // why it cannot be bored in place at all; none: it can
}

// Option is one order of work for the sleeve's bore.
type Option struct {
	Order     Order
	Inside    [2]qty.Diameter // limits the sleeve's bore is made to before assembly
	Low       qty.Diameter    // what the bore is when all is done, without what is out of round
	High      qty.Diameter
	Stock     iso286.Range // left to bore in place, on diameter; zero when finished before
	Closure   iso286.Range // on diameter, at assembly
	Uneven    qty.Length   // out of round, peak to valley on the radius, that an uneven wall brings at assembly
	Roundness qty.Length   // radial
	Across    qty.Length   // by how much a two-point diameter stands above and below its middle for it
	OffCentre qty.Length   // radial, beyond the line-up that both orders share
	Ra        qty.Length   // of boring in place; 0: as asked of the lathe
	Chance    float64      // that it lands, by trial; 0: not tried
	Lands     bool         // within limits, at the worst or, ByOdds, as good as surely
	ByOdds    bool
	Why       []fact.Fact // what does not, at the worst
}

// known is what is counted on of a size, on diameter.
const known = qty.Micrometre / 10

// Outward is the option as it is planned: its sizes and its form rounded outward
// to a tenth of a micrometre, more is not known of them.
func (o Option) Outward() Option {
	const step = qty.Diameter(known)
	o.Low, o.High = o.Low/step*step, (o.High+step-1)/step*step
	o.Roundness = (o.Roundness + known - 1) / known * known
	o.Across = (o.Across + known - 1) / known * known
	o.Uneven = (o.Uneven + known - 1) / known * known
	return o
}

// Known is whether the option could be worked out: what boring in place holds
// is not known where no passes were found for it.
func (o Option) Known() bool {
	return o.Lands || o.High.Minus(o.Low) > 2*known // more than Outward makes of nothing
}

// SleeveResult is the sleeve worked out.
type SleeveResult struct {
	Outside        qty.Diameter // nominal
	HousingLow     qty.Diameter
	HousingHigh    qty.Diameter
	OutsideLow     qty.Diameter
	OutsideHigh    qty.Diameter
	Larger         qty.Length   // the sleeve is turned so much larger than by its limits, for a housing over its class
	Clearance      iso286.Range // as assembled, matching counted; negative: interference
	Wall           qty.Length   // least, when finished
	Assembled      *PressResult // as pressed, the bore still with its stock where it is bored in place; nil for a bond
	Finished       *PressResult // the same fit with the bore at size: what it holds; nil for a bond
	Bonded         *BondResult
	FinishedBefore Option
	BoredHere      Option
	Choice         Order // taken; Undecided when neither lands
	Why            fact.Fact
	Grows          [2]Band // the finished bore on diameter, from the room to the coldest and to the hottest at work
	LeadIn         Chamfer
	Reasons        []fact.Fact // what is wrong; empty: nothing
	Cautions       []fact.Fact
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

// Fact is the order of work, as it stands in a sentence.
func (o Order) Fact() fact.Fact {
	switch o {
	case FinishBefore:
		return fact.New(FinishedBefore)
	case BoreInPlace:
		return fact.New(BoredInPlace)
	}
	return fact.Fact{}
}

func (in SleeveInput) check() error {
	var no refusal
	if in.CleanUp <= 0 {
		no.bad(BadCleanUp, fact.Size(in.CleanUp))
	}
	if !(in.BoreLow > 0 && in.BoreLow < in.BoreHigh) {
		no.bad(BadFinish, fact.Size(in.BoreLow), fact.Size(in.BoreHigh))
	}
	if in.Outside < 0 || in.Wall < 0 || in.Allowance < 0 || in.Make < 0 || in.Match < 0 {
		no.bad(BadSizes)
	}
	if in.Fit == "" && (in.Housing.Tolerance() < 0 || in.Sleeve.Tolerance() < 0) {
		no.bad(BadLimits)
	}
	return no.err()
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
	s, err := Size(in)
	if err != nil {
		return SleeveResult{}, err
	}
	return s.Decide(in.InPlace), nil
}

// Sized is a sleeve with its sizes, before it is known what boring in place holds: no order is
// taken, and nothing told that goes by it.
type Sized struct {
	SleeveResult
	in           SleeveInput
	before, here PressResult // as pressed in either order; nothing for a bond
	off          float64     // what the drawing of the trials leaves unsure of FinishedBefore.Chance
}

// Size is Sleeve without the decision. It does not look at SleeveInput.InPlace.
func Size(in SleeveInput) (*Sized, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	s := new(Sized)
	r := &s.SleeveResult
	var err error
	if r.Outside, r.Reasons, err = in.chooseOutside(); err != nil {
		return nil, err
	}
	housing, sleeve, err := in.pairLimits(r.Outside)
	if err != nil {
		return nil, err
	}
	r.HousingLow, r.HousingHigh = housing.Sizes(r.Outside)
	r.OutsideLow, r.OutsideHigh = sleeve.Sizes(r.Outside)
	r.Larger = in.larger(r.HousingHigh)
	r.OutsideLow, r.OutsideHigh = r.OutsideLow.Plus(r.Larger), r.OutsideHigh.Plus(r.Larger)
	r.Clearance = iso286.Clearance(housing, sleeve)
	if middle := (r.Clearance.Least + r.Clearance.Most) / 2; in.Match > 0 {
		r.Clearance = iso286.Range{Least: max(r.Clearance.Least, middle-in.Match), Most: min(r.Clearance.Most, middle+in.Match)}
	}
	r.Wall = r.OutsideLow.Minus(in.BoreHigh) / 2
	if r.Wall <= 0 {
		return nil, fact.New(NoWall, fact.Size(r.OutsideLow), fact.Size(in.BoreHigh)).Err()
	}
	before, here := &r.FinishedBefore, &r.BoredHere
	before.Order, here.Order = FinishBefore, BoreInPlace
	var closing Band // closure over interference, finished before
	ends := hub.Ends{Least: 1, Most: 1}
	if in.Bond != nil {
		b, err := in.BondOf(r.Outside.Plus(r.Larger), GapMM(r.Clearance), *in.Bond)
		if err != nil {
			return nil, err
		}
		r.Bonded = &b
		r.Reasons = append(r.Reasons, b.Reasons...)
		in.insideBefore(before)
		in.insideInPlace(here)
	} else {
		in.Press.Diameter = r.Outside.Plus(r.Larger).MM()
		in.Press.Interference = InterferenceMM(r.Clearance)
		in.Press.cases = in.Press.hubCases()
		if s.before, err = in.makeSize(before, in.insideBefore); err != nil {
			return nil, err
		}
		if s.here, err = in.makeSize(here, in.insideInPlace); err != nil {
			return nil, err
		}
		closing = s.before.Closing
		ends = s.before.Ends
		in.Press.Sleeve.Inside = in.finished()
		finished, err := Press(in.Press)
		if err != nil {
			return nil, err
		}
		r.Finished = &finished
	}
	before.Roundness, before.OffCentre = in.BeforeForm.round()+before.Uneven, in.BeforeLocation
	before.Across = in.BeforeForm.across() + before.Uneven
	if r.Bonded != nil {
		before.OffCentre += qty.FromMM(r.Bonded.OffCentre)
	}
	before.Chance, s.off = in.oddsBefore(r, before, closing, ends)
	in.Press.Sleeve.Inside = in.finished()
	for i, t := range []float64{in.Press.Service.Least, in.Press.Service.Most} {
		r.Grows[i] = in.Press.BoreGrows(r.Outside.Plus(r.Larger).MM(), t, in.Bond != nil)
	}
	r.LeadIn = LeadIn(in.Units, r.Outside, r.Wall, max(0, -r.Clearance.Least))
	if in.NoseLong > 0 {
		r.LeadIn = Nose(in.NoseAngle, in.NoseLong, max(0, -r.Clearance.Least))
	}
	s.in = in
	return s, nil
}

// Decide takes an order of work by what boring in place holds.
func (s *Sized) Decide(inPlace Capability) SleeveResult {
	in, r := s.in, s.SleeveResult
	in.InPlace, r.Reasons = inPlace, slices.Clip(r.Reasons)
	in.decide(&r, s.off)
	if in.Bond == nil {
		r.Assembled = &s.here
		if r.Choice == FinishBefore {
			r.Assembled = &s.before
		}
		r.Reasons = append(r.Reasons, r.Assembled.Reasons...)
		for _, f := range r.Finished.Reasons {
			if !slices.ContainsFunc(r.Reasons, func(g fact.Fact) bool { return fact.Reads(in.Units, f, g) }) {
				r.Reasons = append(r.Reasons, fact.New(AtSize, f))
			}
		}
		r.Cautions = r.Assembled.Cautions
	} else {
		r.Cautions = r.Bonded.Cautions
	}
	r.Steps = in.steps(r)
	return r
}

// finished is the middle of the finished bore's limits, mm.
func (in SleeveInput) finished() float64 { return (in.BoreLow + in.BoreHigh).MM() / 2 }

// BondOf works out the sleeve held by a compound in a gap, mm on diameter. The
// pair that compounds are tested on is steel on steel; stainless is not that: it
// sets slowly and to less.
func (in SleeveInput) BondOf(outside qty.Diameter, gap Band, c Compound) (BondResult, error) {
	return Bond(BondInput{Units: in.Units,
		Diameter: outside.MM(), Length: in.Press.Length, Gap: gap, Compound: c,
		ServiceMost: in.Press.Service.Most, Tightens: in.Press.Tightens(outside.MM()),
		Blind: in.Press.Blind, Load: in.Press.Load, Wet: in.Wet, Unlike: !(in.Press.Hub.Steel && in.Press.Sleeve.Steel),
	})
}

// makeSize finds the bore to make and its closure together.
func (in SleeveInput) makeSize(o *Option, inside func(*Option)) (PressResult, error) {
	var p PressResult
	inside(o)
	for range 3 {
		in.Press.Sleeve.Inside = (o.Inside[0] + o.Inside[1]).MM() / 2
		if in.Press.Sleeve.Inside <= 0 {
			return p, fact.New(NoBore, fact.Figure(in.Allowance)).Err()
		}
		var err error
		if p, err = Press(in.Press); err != nil {
			return p, err
		}
		o.Uneven = qty.FromMM(p.OutOfRound)
		o.Closure = iso286.Range{Least: qty.FromMM(p.Closure.Least), Most: qty.FromMM(p.Closure.Most)}
		inside(o)
	}
	return p, nil
}

// insideBefore: the bore is made so that the middle of its band, closed by the
// middle of the closure, is the middle of the finished limits.
func (in SleeveInput) insideBefore(o *Option) {
	aim := in.BoreLow + (in.BoreHigh-in.BoreLow)/2
	aim = aim.Plus((o.Closure.Least + o.Closure.Most) / 2)
	o.Inside[0] = in.roundTo(aim.Plus(-in.Make / 2))
	o.Inside[1] = o.Inside[0].Plus(in.Make)
	o.Low, o.High = o.Inside[0].Plus(-o.Closure.Most), o.Inside[1].Plus(-o.Closure.Least)
}

// insideInPlace: the largest bore with the least closure still leaves the
// allowance at the low finished limit.
func (in SleeveInput) insideInPlace(o *Option) {
	o.Inside[1] = in.roundTo(in.BoreLow.Plus(o.Closure.Least - in.Allowance))
	o.Inside[0] = o.Inside[1].Plus(-in.Make)
	o.Stock = iso286.Range{
		Least: in.BoreLow.Minus(o.Inside[1].Plus(-o.Closure.Least)),
		Most:  in.BoreHigh.Minus(o.Inside[0].Plus(-o.Closure.Most)),
	}
}

// roundTo rounds a size to be made to what a drawing of the job's units shows.
func (in SleeveInput) roundTo(d qty.Diameter) qty.Diameter {
	return qty.Diameter(in.Units.Round(d.Length()))
}

// decide holds both bands against the limits. off is what the drawing of trials leaves unsure
// of the chance of a sleeve that is finished before.
func (in SleeveInput) decide(r *SleeveResult, off float64) {
	before, here := &r.FinishedBefore, &r.BoredHere
	aim := in.BoreLow + (in.BoreHigh-in.BoreLow)/2
	here.Low, here.High = aim.Plus(-in.InPlace.Size), aim.Plus(in.InPlace.Size)
	here.Roundness, here.Across, here.Ra, here.Chance = in.InPlace.Roundness, in.InPlace.Across, in.InPlace.Ra, in.InPlace.Chance
	in.judge(before)
	in.judge(here)
	// The least of what the drawing of trials leaves the chance is what counts.
	if !before.Lands && before.Chance-off >= sure {
		before.Lands, before.ByOdds = true, true
	}
	switch {
	case in.Order != Undecided:
		o, other := before, here
		if in.Order == BoreInPlace {
			o, other = here, before
		}
		r.Choice = o.Order
		chosen := fact.New(AskedLands, o.Order.Fact())
		if !o.Lands {
			chosen = fact.New(AskedMisses, o.Order.Fact(), fact.List(o.Why...))
			r.Reasons = append(r.Reasons, fact.New(OrderMisses, o.Order.Fact(), fact.List(o.Why...)))
		}
		or := fact.New(OtherLands, other.Order.Fact())
		if !other.Lands {
			or = fact.New(OtherMisses, other.Order.Fact(), fact.List(other.Why...))
		}
		r.Why = fact.New(BecauseBoth, chosen, or)
	case before.Lands:
		r.Choice = FinishBefore
		or := fact.New(MillNotNeeded)
		if !here.Lands {
			or = fact.New(MillMisses, fact.List(here.Why...))
		}
		lands := fact.New(LatheLands)
		if before.ByOdds {
			lands = fact.New(LatheLandsMostly, fact.Figure(qty.KindChance.Of(before.Chance)), fact.List(before.Why...))
		}
		r.Why = fact.New(BecauseBoth, lands, or)
	case here.Lands:
		r.Choice = BoreInPlace
		r.Why = fact.New(LatheMisses, fact.List(before.Why...), fact.Figure(qty.KindChance.Of(before.Chance)))
	default:
		r.Why = fact.New(NeitherLands)
		for _, o := range []*Option{before, here} {
			r.Reasons = append(r.Reasons, fact.New(OrderMisses, o.Order.Fact(), fact.List(o.Why...)))
		}
	}
}

// judge fills in Lands and Why, all errors at their worst. What size, form and (where no
// location is stated) position take together must go into the tolerance. An axis off by e takes 2e from what passes on the true
// axis, so it counts at the low limit.
func (in SleeveInput) judge(o *Option) {
	no := func(k fact.Kind, args ...fact.Arg) { o.Why = append(o.Why, fact.New(k, args...)) }
	if o.Order == BoreInPlace && !in.InPlace.Why.None() {
		o.Why = append(o.Why, in.InPlace.Why) // there are no figures to hold against the limits
		return
	}
	low, high := o.Low.Plus(-o.Across), o.High.Plus(o.Across)
	var off fact.Arg
	if in.LocationAllowed == 0 && o.OffCentre > 0 {
		low = low.Plus(-2 * o.OffCentre)
		off = fact.Figure(o.OffCentre)
	}
	var step qty.Diameter // sizes of the mill are rounded as they are printed
	if o.Order == BoreInPlace {
		step = qty.Diameter(in.Units.Up(1)) / 2
	}
	if low < in.BoreLow-step || high > in.BoreHigh+step {
		round := unless(o.Across <= 0, fact.Figure(o.Across))
		no(SizeBeyond, fact.Size(o.Low), fact.Size(o.High), round, off, fact.Size(low), fact.Size(high), fact.Size(in.BoreLow), fact.Size(in.BoreHigh))
	}
	if spread := o.Closure.Most - o.Closure.Least; o.Order == FinishBefore && spread > 0 && len(o.Why) > 0 {
		no(ClosureDiffers, fact.Figure(spread), fact.Figure(o.Closure.Least), fact.Figure(o.Closure.Most))
	}
	if in.LocationAllowed > 0 && o.OffCentre > in.LocationAllowed {
		no(AxisOff, fact.Figure(o.OffCentre), fact.Figure(in.LocationAllowed))
	}
	if in.Roundness > 0 && o.Roundness > in.Roundness {
		no(OutOfRound, fact.Figure(o.Roundness), fact.Figure(in.Roundness))
	}
	if in.Ra > 0 && o.Ra > in.Ra {
		no(TooRough, fact.Figure(qty.Roughness(o.Ra)), fact.Figure(qty.Roughness(in.Ra)))
	}
	o.Lands = len(o.Why) == 0
}
