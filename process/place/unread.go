package place

import (
	"slices"

	"borewright/process/fact"
	"borewright/process/fit"
	"borewright/process/geom"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// LeastShadowOdds is the chance of a shadow after the last pass from which on it is
// told before metal is cut.
const LeastShadowOdds = 0.05

// asked is what to read besides.
func asked(b *geom.Beyond) (ask []fact.Fact) {
	if b.Lobes > 0 {
		ask = append(ask, fact.New(ReadPlaces, fact.Count(placesThatShow)))
	}
	if b.NearUnread {
		ask = append(ask, fact.New(ReadNearEnd))
	}
	if b.FarUnread {
		ask = append(ask, fact.New(ReadFarEnd))
	}
	return ask
}

// placesThatShow is how many even clock positions tell all lobes apart: 2·5 + 1, and one
// for every half hour less one.
const placesThatShow = 2*geom.MostLobes + 2

// NotRead is what may stand where nothing was read, what to read besides, and what shows
// a gouge.
func (c *CleanUp) NotRead() fact.Fact {
	var list []fact.Fact
	switch {
	case c.Most == 0:
		list = append(list, fact.New(SizeNotKnown))
	case c.Near > 0 || c.Far > 0:
		list = append(list, fact.New(MostCarried, fact.Figure(c.Most), fact.Figure(c.Near), fact.Figure(c.Far)))
	default:
		list = append(list, fact.New(MostBetween, fact.Figure(c.Most)))
	}
	if c.Lobes > 0 {
		list = append(list, fact.New(LobesHidden, fact.Count(c.Lobes), fact.MM(geom.LobesHeld*c.TrueAxis.MM())))
	}
	if len(c.Ask) > 0 {
		list = append(list, fact.New(ReadBesides, fact.List(c.Ask...)))
	}
	gouge := GougeUnseen
	if slices.ContainsFunc(c.Shadows, func(s Shadow) bool { return s.Band }) {
		gouge = GougeInBand
	}
	return fact.New(Unread, fact.List(append(list, fact.New(gouge))...))
}

// likely is the chance that the old wall shows after the last pass, where nothing was
// read; 0: not known, or none.
func (c *CleanUp) likely() (last Shadow, odds float64) {
	n := len(c.Shadows)
	if n == 0 || c.beyond == nil || c.Shadows[n-1].Deepest > 0 {
		return last, 0
	}
	last = c.Shadows[n-1]
	return last, 1 - last.Clean
}

// tooLikely is whether a chance is more than what is told; one of 5 in 100, as the size for
// 19 bores of 20 has it, is not, however it was rounded.
func tooLikely(odds float64) bool { return odds > LeastShadowOdds+1e-9 }

// NextSleeve sets the next standard outside where the housing of the one planned, bored to
// so much, does not clean up with a cut all round, or the old wall is too likely to show
// in it. The housing of the next one, smaller by what a press fit takes or larger by the
// gap of a bonded one as this one's is, must do at its low limit.
func (c *CleanUp) NextSleeve(u qty.Unit, planned qty.Diameter, housing schedule.Limits) {
	from := qty.Diameter(0)
	if housing.High.Minus(c.TrueAxis) < LastCut {
		from = c.TrueAxis.Plus(LastCut)
	}
	if _, odds := c.likely(); tooLikely(odds) {
		from = max(from, c.Most)
	}
	if from > 0 {
		c.Next = nextOutside(u, planned, from.Plus(planned.Minus(housing.Low)))
	}
}

// LastCut is the least that is left to cut all round when the bore has just
// cleaned up: without it the last shadow shows as a dull patch. On diameter;
// common practice, no source.
const LastCut = qty.Millimetre / 4

// nextOutside is the next standard outside of a sleeve, larger than the one planned and
// no smaller than a size.
func nextOutside(u qty.Unit, planned, least qty.Diameter) qty.Diameter {
	from := max(planned+1, least)
	all := fit.StandardOutsides(u, from, from+from/4+qty.Diameter(qty.Inch))
	if len(all) == 0 {
		return 0
	}
	return all[0]
}
