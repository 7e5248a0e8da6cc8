package words

import (
	"testing"

	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/qty"
)

// A cutter that does not pass on the axis, and what is left out where it is not
// there.
func TestWordsOfAPlace(t *testing.T) {
	fails := fact.New(place.CutterTooLarge, fact.Figure(qty.DiameterMM(92.1)), fact.Name("cover"))
	shift := fact.New(place.ShiftedBy, length(10.5), length(13.5), length(-5), length(35))
	off := fact.New(place.SweepOffLine, fact.Count(3), fact.Name("mid"), length(320), length(0.15))
	const fail = `the cutter, set to Ø92.100 mm, does not pass "cover" on the axis`
	for _, row := range []struct {
		f    fact.Fact
		want string
	}{
		{fact.New(place.CutterByHand, fails, fact.List(shift, shift), length(30), length(150)), fail + "; it could enter with the spindle stopped and the bar shifted away from the tip by 10.500 to 13.500 mm while the tip goes from -5.000 to 35.000 mm, then 10.500 to 13.500 mm while the tip goes from -5.000 to 35.000 mm, or be put in inside, where the line is open from 30.000 to 150.000 mm deep, which is work for the sheet and not for a program: plan it on a mill without control"},
		{fact.New(place.CutterByHand, fails, fact.List(shift), nil, nil), fail + "; it could enter with the spindle stopped and the bar shifted away from the tip by 10.500 to 13.500 mm while the tip goes from -5.000 to 35.000 mm, which is work for the sheet and not for a program: plan it on a mill without control"},
		{fact.New(place.CutterByHand, fails, nil, length(30), length(150)), fail + "; it could be put in inside, where the line is open from 30.000 to 150.000 mm deep, which is work for the sheet and not for a program: plan it on a mill without control"},
		{fact.New(place.SweepsDisagree, fact.List(off, off), fact.Count(3), fact.Count(2)), "off the line laid through all stand: sweep 3, in mid at depth 320.000 mm, by 0.150 mm; sweep 3, in mid at depth 320.000 mm, by 0.150 mm. Sweep number 3 again first: it was read wrongly, or that bore stands out of line. 2 bore sweeps alone cannot tell for sure which of them is out"},
		{fact.New(place.SweepsDisagree, fact.List(off), fact.Count(3), nil), "off the line laid through all stand: sweep 3, in mid at depth 320.000 mm, by 0.150 mm. Sweep number 3 again first: it was read wrongly, or that bore stands out of line"},
		{fact.New(place.NoBarPasses, fact.List()), "the bar does not pass. No bar passes this line with room for chips."},
		{fact.New(place.NoBarPasses, fact.List(fails)), "the bar does not pass: " + fail + ". No bar passes this line with room for chips."},
		{fact.New(place.BringFirst, fact.List(fact.New(place.Quoted, fact.Name("a")), fact.New(place.Quoted, fact.Name("b")))), `first bring "a" and "b" to size: as found, it does not let the cutter pass`},
	} {
		if got := In(qty.Metric).Say(row.f); got != row.want {
			t.Errorf("%s\nwant %s", got, row.want)
		}
	}
}
