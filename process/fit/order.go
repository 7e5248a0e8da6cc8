package fit

import (
	"fmt"

	"borewright/process/qty"
)

// Step is one step of the order of work. At a hold point nothing goes on
// before the measurement is written down and found good.
type Step struct {
	Text string
	Hold bool
}

// steps writes the order of work for the option taken (in place, when neither
// lands).
func (in SleeveInput) steps(r SleeveResult) []Step {
	u := in.Press.Units
	span := u.SayLimits // rounded inward
	var out []Step
	do := func(format string, a ...any) { out = append(out, Step{Text: fmt.Sprintf(format, a...)}) }
	hold := func(format string, a ...any) { out = append(out, Step{Text: fmt.Sprintf(format, a...), Hold: true}) }

	o := r.BoredHere
	if r.Choice == FinishBefore {
		o = r.FinishedBefore
	}
	if in.Found[0] > 0 {
		do("The housing is bored and measured: %s to %s. Break its edges, with a lead-in or a clean corner where the sleeve starts.", u.Format(in.Found[0].Length()), u.Say(in.Found[1].Length()))
	} else {
		do("Bore the housing to %s, edges broken, with a lead-in or a clean corner where the sleeve starts.", span(r.HousingLow, r.HousingHigh))
		hold("Measure the housing at three depths and four clock positions, work and gauge at one temperature. Write the sizes down: the sleeve is turned to them.")
	}
	turn := "outside " + span(r.OutsideLow, r.OutsideHigh)
	if in.Match > 0 {
		about := "about " + span(r.OutsideLow, r.OutsideHigh)
		if low, high, ok := in.ForHousing(r.Clearance); ok {
			about = "to " + span(low, high) + " for this one"
		}
		turn = fmt.Sprintf("outside %s over the housing as measured (%s)", spread(u, r.Clearance.Interference()), about)
		if r.Clearance.Least > 0 {
			turn = fmt.Sprintf("outside %s under the housing as measured (%s)", spread(u, r.Clearance), about)
		}
	}
	do("Turn the sleeve: %s, bore %s before assembly. Last cut on the outside without letting go, or on a mandrel; do not hold a thin ring in three hard jaws.",
		turn, span(o.InsideLow, o.InsideHigh))
	if in.Bond == nil {
		do("Lead-in on the sleeve's nose: %s.", r.LeadIn.Why)
		least, most := -r.Clearance.Most, -r.Clearance.Least
		hold("Measure the sleeve. Outside less housing must be %s on diameter; if not, do not assemble: make the sleeve to the housing as found.", spread(u, Range{least, most}))
		if in.Press.Blind {
			do("Check that the air has a way out of the blind bore.")
		}
		do("Assemble by one of the ways found possible (%s), and read its cautions first.", possible(r.Assembled.Ways))
		do("When both are at room temperature again, tap the end face round: a dull spot is not home.")
		hold("Measure the sleeve's bore: expect it %s to %s smaller than before. More means the wall has yielded or the housing is out of round; less means the grip is poor.",
			u.Format(o.Closure.Least), u.Say(o.Closure.Most))
	} else {
		hold("Measure the sleeve. Housing less outside must be %s on diameter.", spread(u, r.Clearance))
		do("Clean, coat, insert and centre as the notes of the bond say, cautions first.")
		hold("Full strength before anything else: write down the time and the temperature.")
	}
	if o.Order == BoreInPlace {
		do("Bore the sleeve in place: %s to %s to come out on diameter. Line up on the true axis again, not on the sleeve.", u.Format(o.Stock.Least), u.Say(o.Stock.Most))
	}
	hold("Measure the finished bore: %s, at three depths and four clock positions, at room temperature.", span(in.BoreLow, in.BoreHigh))
	return out
}

// ForHousing is what the outside is turned to for the housing as measured: its
// middle less the clearance. False where it was not measured, or where the
// sleeve is made by limits alone.
func (in SleeveInput) ForHousing(clearance Range) (low, high qty.Diameter, ok bool) {
	if in.Found[0] <= 0 || in.Match <= 0 {
		return 0, 0, false
	}
	middle := in.Found[0].Plus(in.Found[1].Minus(in.Found[0]) / 2)
	return middle.Plus(-clearance.Most), middle.Plus(-clearance.Least), true
}

// spread prints limits of a difference, rounded inward as those of a size.
func spread(u qty.Unit, r Range) string {
	return u.SayLimits(qty.Diameter(r.Least), qty.Diameter(r.Most))
}

func possible(ways []Assembly) string {
	s := ""
	for _, w := range ways {
		if !w.Possible {
			continue
		}
		if s != "" {
			s += "; "
		}
		s += w.Method.String()
	}
	if s == "" {
		return "none is"
	}
	return s
}
