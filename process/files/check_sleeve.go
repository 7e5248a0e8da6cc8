package files

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fit/standard"
	"borewright/process/qty"
	"borewright/process/source"
)

// checkSleeve judges the sleeve against every bore that gets one.
func (c *checker) checkSleeve() {
	sleeved := -1
	for i, b := range c.j.Bores {
		if b.Repair == process.SleeveRepair {
			if sleeved = i; c.j.Sleeve == nil {
				c.Bad(source.El("bore", i)+".repair", "is a sleeve, but the file has no [sleeve]", "write [sleeve] with material and outside")
			}
		}
	}
	s := c.j.Sleeve
	if s == nil {
		return
	}
	if sleeved < 0 && len(c.j.Bores) > 0 {
		c.Bad("sleeve", `is described, but no bore has repair = "sleeve"`, "leave it out, or say which bore is sleeved")
		return
	}
	switch {
	case s.Hold == process.Press && c.Given("sleeve.gap"):
		c.Bad("sleeve.gap", "a pressed sleeve has no gap", `write hold = "bond", or give fit = "H7/r6" instead`)
	case s.Hold == process.Bond && c.Given("sleeve.fit"):
		c.Bad("sleeve.fit", "a bonded sleeve is not pressed", `write gap = … instead, or hold = "press"`)
	case s.Hold == process.Press && s.Outside > 0 && s.Fit != "":
		s.Fit = standard.Name(s.Fit)
		hole, shaft, err := standard.Pair(s.Outside, s.Fit)
		if err != nil {
			what, allowed := source.Advice(err, `write a fit as the standard has it at this size, as "H7/r6" or "FN2"`)
			c.Bad("sleeve.fit", what, allowed)
		} else if tight := shaft.Upper - hole.Lower; tight <= 0 {
			c.Badf("sleeve.fit", `choose a press fit such as "H7/r6" or "FN2", or hold = "bond"`, "%s leaves clearance at every size: the sleeve would fall out", s.Fit)
		}
	}
	c.checkSleeveWork()
	if s.Outside == 0 {
		return
	}
	for _, b := range c.j.Bores {
		st := c.at(b.Station)
		if b.Repair != process.SleeveRepair || st == nil {
			continue
		}
		if c.Has(source.El("station", b.Station)+".diameter") && s.Outside <= st.Diameter {
			c.Badf("sleeve.outside", "the housing is bored out for the sleeve: choose a larger one",
				"%s is not larger than %q is now, %s", c.Dia(s.Outside), st.Name, c.Dia(st.Diameter))
		}
		if c.Has(source.El("station", b.Station)+".from", source.El("station", b.Station)+".to") {
			c.checkLength(b.Station)
		}
		if b.Finish.High == 0 {
			continue
		}
		wall := s.Outside.Minus(b.Finish.High) / 2
		least := s.LeastWall()
		switch {
		case wall <= 0:
			c.Badf("sleeve.outside", "the sleeve must be larger outside than inside",
				"%s outside leaves nothing of a sleeve bored to %s", c.Dia(s.Outside), c.Dia(b.Finish.High))
		case wall < least:
			c.Badf("sleeve.outside", fmt.Sprintf("leave at least %s of wall", c.Len(least)),
				"a wall of %s is too thin to press or bond and bore", c.Len(wall))
		case s.Allowance/2 >= qty.Length(b.Finish.Low)/2-qty.Millimetre:
			c.Badf("sleeve.allowance", "it is left inside for boring, on diameter", "%s would leave no hole in the sleeve", c.Len(s.Allowance))
		default:
			c.checkMade(b)
		}
	}
}

// checkLength holds the length of a sleeve, and what of it stands out, against its station
// and those beside it.
func (c *checker) checkLength(station int) {
	s, st := c.j.Sleeve, c.j.Stations[station]
	out, seat := s.StandsOut, st.Length()-s.Made.Sunk()
	both := out[0] + out[1]
	in := s.LengthIn(st) - both
	switch {
	case s.OutOfStop():
		c.Bad("sleeve.stands_out", "a flange or a lead-in of the housing stands at an end that the sleeve stands out of", "let it stand out at the other end, or leave stop and mouth out")
	case out[1] > 0 && st.Blind:
		c.Badf("sleeve.stands_out", "write [near, 0]", "%q is closed at its far end: no sleeve stands out there", st.Name)
	case in > seat && both == 0:
		c.Badf("sleeve.length", fmt.Sprintf("write at which ends it stands out of its housing, as stands_out = [%s, 0]", strings.Fields(c.Len(in - seat))[0]),
			"%s is longer than %q, %s", c.Len(s.Length), st.Name, c.Len(seat))
	case in > seat || out[0] > 0 && out[1] > 0 && in < seat:
		c.Badf("sleeve.length", fmt.Sprintf("make it %s, or leave it out", c.Len(seat+both)),
			"%s is not what sits in %q, %s, and stands out of it, %s", c.Len(s.Length), st.Name, c.Len(seat), c.Len(both))
	}
	if faces.Both(c.j) && !c.Given("face_to_face") { // asked for already
		return
	}
	seen := faces.Of(c.j, c.j.BoreAt(station)) // who stands beside it, from the face that it is bored from
	at := slices.IndexFunc(seen.Stations, func(o process.Station) bool { return o.Name == st.Name })
	beside := func(k int, room func(other process.Station) qty.Length, out qty.Length, end string) {
		if k < 0 || k >= len(seen.Stations) {
			return
		}
		other := seen.Stations[k]
		i := slices.IndexFunc(c.j.Stations, func(o process.Station) bool { return o.Name == other.Name })
		if r := room(other); out > r && c.Has(source.El("station", i)+".from", source.El("station", i)+".to") {
			c.Badf("sleeve.stands_out", fmt.Sprintf("let it stand out by %s at the most", c.Len(max(0, r))), "at the %s end it would stand in %q", end, other.Name)
		}
	}
	beside(at-1, func(o process.Station) qty.Length { return st.From - o.To }, out[0], "near")
	beside(at+1, func(o process.Station) qty.Length { return o.From - st.To }, out[1], "far")
}

// checkMade judges what the sleeve of a bore has besides its diameters.
func (c *checker) checkMade(b process.Bore) {
	m := c.j.Sleeve.Made
	wrong := func(p source.Problem) bool {
		return strings.HasPrefix(p.Key, "sleeve") || strings.HasPrefix(p.Key, "station")
	}
	if m.None() || slices.ContainsFunc(c.Found, wrong) {
		return // what hangs on it is judged when it is right
	}
	seen := faces.Of(c.j, c.j.BoreAt(b.Station))
	for _, f := range m.Faults(seen.Body(seen.Bores[c.j.BoreAt(b.Station)])) {
		c.Bad("sleeve."+f.Key, f.What, f.Allowed)
	}
}
