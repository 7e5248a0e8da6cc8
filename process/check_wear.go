package process

import (
	"fmt"
	"math"
	"strconv"

	"borewright/process/qty"
)

// checkWear judges the readings of bore i: whether they can belong to the bore
// at all. What they mean for the size is the plan's to say.
func (c *checker) checkWear(i int, s *Station) {
	st := el("station", c.j.Bores[i].Station)
	for k, w := range c.j.Bores[i].Wear {
		at := el(el("bore", i)+".wear", k)
		if c.has(at+".depth", st+".from", st+".to") && s.From < s.To && (w.Depth < s.From || w.Depth > s.To) {
			c.badf(at+".depth", fmt.Sprintf("%q lies from %s to %s; depths count from the face", s.Name, c.len(s.From), c.len(s.To)),
				"%s is outside the bore", c.len(w.Depth))
		}
		radius, across := c.given[at+".radius"], c.given[at+".across"]
		switch {
		case radius && across:
			c.bad(at, "has both radius and across", "give one: radius from the true axis, or diameters across")
			continue
		case !radius && !across:
			c.bad(at, "has no readings", "write radius = [ … ] (from the true axis) or across = [ … ] (diameters), one for each clock position")
			continue
		}
		key, n, least, turn := at+".radius", len(w.Radius), 3, 360.0
		if across {
			key, n, least, turn = at+".across", len(w.Across), 2, 180.0
		}
		if !c.has(key) || !c.has(at+".at") {
			continue
		}
		c.checkClock(at+".at", w.At, turn)
		switch {
		case n != len(w.At):
			c.badf(key, "give one reading for each clock position", "%d readings for %d clock positions", n, len(w.At))
		case n < least:
			c.badf(key, fmt.Sprintf("take at least %d, spread around the bore", least), "%s cannot tell the shape", count(n, "reading"))
		}
		if c.has(st + ".diameter") {
			c.checkSlip(key, w, s)
		}
	}
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return strconv.Itoa(n) + " " + what + "s"
}

// checkClock refuses the same clock position twice; turn is 180 where a
// reading across stands for both ends.
func (c *checker) checkClock(at string, clock []float64, turn float64) {
	for i, a := range clock {
		for k := range i {
			if d := math.Abs(math.Mod(a-clock[k], turn)); d < 1e-6 || turn-d < 1e-6 {
				words := fmt.Sprintf("%s° stands here twice", number(a))
				if a != clock[k] {
					words = fmt.Sprintf("%s° and %s° are the same line across the bore", number(clock[k]), number(a))
				}
				c.bad(el(at, i), words, "give each clock position once")
				return
			}
		}
	}
}

// checkSlip catches a reading in the wrong unit or a diameter for a radius. It
// tells the first of a list; the rest follow from it.
func (c *checker) checkSlip(key string, w Reading, s *Station) {
	base, name := s.Diameter.Radius(), "radius"
	values := w.Radius
	if len(w.Across) > 0 {
		base, name, values = qty.Length(s.Diameter), "diameter", nil
		for _, d := range w.Across {
			values = append(values, qty.Length(d))
		}
	}
	for i, v := range values {
		ratio := v.MM() / base.MM()
		if ratio >= 0.8 && ratio <= 1.2 {
			continue
		}
		near := func(x float64) bool { return ratio > 0.8*x && ratio < 1.2*x }
		allowed := "check the reading and the station's diameter"
		switch {
		case near(2) && len(w.Radius) > 0:
			allowed = "if these are diameters, write across instead of radius"
		case near(0.5) && len(w.Across) > 0:
			allowed = "if these are radii from the true axis, write radius instead of across"
		case near(25.4), near(50.8):
			allowed = "this looks like mm in a file in inches: write it as \"80 mm\", or convert it"
		case near(1 / 25.4), near(2 / 25.4), near(0.5 / 25.4):
			allowed = "this looks like inches in a file in mm: write it as \"3.15 in\", or convert it"
		case ratio < 0.1:
			allowed = "write the " + name + " itself, not the wear"
		}
		c.badf(el(key, i), allowed, "%s cannot belong to a bore of %s %s", c.len(v), name, c.len(base))
		return
	}
}

func (c *checker) checkSweeps() {
	for i, w := range c.j.Sweeps {
		at := el("sweep", i)
		if c.has(at+".at", at+".dial") {
			c.checkClock(at+".at", w.At, 360)
			if len(w.At) != len(w.Dial) {
				c.badf(at+".dial", "give one reading for each clock position", "%d readings for %d clock positions", len(w.Dial), len(w.At))
			}
		}
		s := c.at(w.Station)
		if s == nil {
			continue
		}
		st := el("station", w.Station)
		if !s.Swept {
			c.badf(at+".station", "write swept = true there, if a dial can be run around it", "%q is not a station that can be swept", s.Name)
		}
		if !w.Face {
			switch {
			case !c.given[at+".depth"]:
				c.bad(at+".depth", "is missing", "write depth = … : where in the bore the dial ran (or face = true)")
			case c.has(at+".depth", st+".from", st+".to") && s.From < s.To && (w.Depth < s.From || w.Depth > s.To):
				c.badf(at+".depth", fmt.Sprintf("%q lies from %s to %s; depths count from the face", s.Name, c.len(s.From), c.len(s.To)), "%s is outside the bore", c.len(w.Depth))
			}
			if c.has(at+".diameter", st+".diameter") && (w.Diameter < s.Diameter*4/5 || w.Diameter > s.Diameter*6/5) {
				c.badf(at+".diameter", "it is the diameter of the bore where the dial ran: leave it out, or write face = true if the dial ran on the face",
					"%s cannot be in %q, %s", c.dia(w.Diameter), s.Name, c.dia(s.Diameter))
			}
			continue
		}
		switch {
		case !c.given[at+".diameter"]:
			c.bad(at+".diameter", "is missing", "write diameter = … : the circle that the dial ran on")
		case c.has(at+".diameter", st+".diameter") && w.Diameter <= s.Diameter:
			c.badf(at+".diameter", "the circle on a face is larger than the bore in it", "%s is not larger than %q, %s", c.dia(w.Diameter), s.Name, c.dia(s.Diameter))
		}
	}
}
