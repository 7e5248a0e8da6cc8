package process

import (
	"fmt"

	"borewright/process/fit"
	"borewright/process/qty"
)

// checkSleeve judges the sleeve against every bore that gets one.
func (c *checker) checkSleeve() {
	sleeved := -1
	for i, b := range c.j.Bores {
		if b.Repair == SleeveRepair {
			if sleeved = i; c.j.Sleeve == nil {
				c.bad(el("bore", i)+".repair", "is a sleeve, but the file has no [sleeve]", "write [sleeve] with material and outside")
			}
		}
	}
	s := c.j.Sleeve
	if s == nil {
		return
	}
	if sleeved < 0 && len(c.j.Bores) > 0 {
		c.bad("sleeve", `is described, but no bore has repair = "sleeve"`, "leave it out, or say which bore is sleeved")
		return
	}
	switch {
	case s.Hold == Press && c.given["sleeve.gap"]:
		c.bad("sleeve.gap", "a pressed sleeve has no gap", `write hold = "bond", or give fit = "H7/r6" instead`)
	case s.Hold == Bond && c.given["sleeve.fit"]:
		c.bad("sleeve.fit", "a bonded sleeve is not pressed", `write gap = … instead, or hold = "press"`)
	case s.Hold == Press && s.Outside > 0 && s.Fit != "":
		hole, shaft, err := fit.Pair(s.Outside, s.Fit)
		if err != nil {
			what, allowed := advice(err, `write housing and sleeve as the standard has them at this size, as "H7/r6"`)
			c.bad("sleeve.fit", what, allowed)
		} else if tight := shaft.Upper - hole.Lower; tight <= 0 {
			c.badf("sleeve.fit", `choose a press fit such as "H7/r6" or "H7/s6", or hold = "bond"`, "%s leaves clearance at every size: the sleeve would fall out", s.Fit)
		}
	}
	c.checkSleeveWork()
	if s.Outside == 0 {
		return
	}
	for _, b := range c.j.Bores {
		st := c.at(b.Station)
		if b.Repair != SleeveRepair || st == nil {
			continue
		}
		if c.has(el("station", b.Station)+".diameter") && s.Outside <= st.Diameter {
			c.badf("sleeve.outside", "the housing is bored out for the sleeve: choose a larger one",
				"%s is not larger than %q is now, %s", c.dia(s.Outside), st.Name, c.dia(st.Diameter))
		}
		if s.Length > st.Length() && c.has(el("station", b.Station)+".from", el("station", b.Station)+".to") {
			c.badf("sleeve.length", "it cannot be longer than its housing", "%s is longer than %q, %s", c.len(s.Length), st.Name, c.len(st.Length()))
		}
		if b.Finish.High == 0 {
			continue
		}
		wall := s.Outside.Minus(b.Finish.High) / 2
		least := s.LeastWall()
		switch {
		case wall <= 0:
			c.badf("sleeve.outside", "the sleeve must be larger outside than inside",
				"%s outside leaves nothing of a sleeve bored to %s", c.dia(s.Outside), c.dia(b.Finish.High))
		case wall < least:
			c.badf("sleeve.outside", fmt.Sprintf("leave at least %s of wall", c.len(least)),
				"a wall of %s is too thin to press or bond and bore", c.len(wall))
		case s.Allowance/2 >= qty.Length(b.Finish.Low)/2-qty.Millimetre:
			c.badf("sleeve.allowance", "it is left inside for boring, on diameter", "%s would leave no hole in the sleeve", c.len(s.Allowance))
		}
	}
}
