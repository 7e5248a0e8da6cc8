package files

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/field/keys"
	"borewright/process/qty"
	"borewright/process/source"
)

// checkWear judges the readings of bore i: whether they can belong to the bore
// at all. What they mean for the size is the plan's to say.
func (c *checker) checkWear(i int, s *process.Station) {
	st := source.El("station", c.j.Bores[i].Station)
	for k, w := range c.j.Bores[i].Wear {
		at := source.El(source.El("bore", i)+".wear", k)
		if c.Has(at+".depth", st+".from", st+".to") && s.From < s.To && (w.Depth < s.From || w.Depth > s.To) {
			c.Badf(at+".depth", fmt.Sprintf("%q lies from %s to %s; depths count from the face", s.Name, c.Len(s.From), c.Len(s.To)),
				"%s is outside the bore", c.Len(w.Depth))
		}
		radius, across := c.Given(at+".radius"), c.Given(at+".across")
		switch {
		case radius && across:
			c.Bad(at, "has both radius and across", "give one: radius from the true axis, or diameters across")
			continue
		case !radius && !across:
			c.Bad(at, "has no readings", "write radius = [ … ] (from the true axis) or across = [ … ] (diameters), one for each clock position")
			continue
		}
		key, n, least, turn := at+".radius", len(w.Radius), 3, 360.0
		if across {
			key, n, least, turn = at+".across", len(w.Across), 2, 180.0
		}
		if !c.Has(key) || !c.Has(at+".at") {
			continue
		}
		c.checkClock(at+".at", w.At, turn)
		switch {
		case n != len(w.At):
			c.Badf(key, "give one reading for each clock position", "%d readings for %d clock positions", n, len(w.At))
		case n < least:
			c.Badf(key, fmt.Sprintf("take at least %d, spread around the bore", least), "%s cannot tell the shape", source.CountOf(n, "reading"))
		}
		if c.Has(st + ".diameter") {
			c.checkSlip(key, w, s)
		}
	}
}

// checkClock refuses the same clock position twice; turn is 180 where a
// reading across stands for both ends.
func (c *checker) checkClock(at string, clock []float64, turn float64) {
	if h := asHours(clock); h != "" {
		c.Badf(at, h, "all of %s° stand within 12° of the turn: these are hours", keys.PlainNumbers(clock))
		return
	}
	for i, a := range clock {
		for k := range i {
			if d := math.Abs(math.Mod(a-clock[k], turn)); d < 1e-6 || turn-d < 1e-6 {
				words := fmt.Sprintf("%s° stands here twice", keys.PlainNumber(a))
				if a != clock[k] {
					words = fmt.Sprintf("%s° and %s° are the same line across the bore", keys.PlainNumber(clock[k]), keys.PlainNumber(a))
				}
				c.Bad(source.El(at, i), words, "give each clock position once")
				return
			}
		}
	}
}

// asHours is what to write for clock positions that are hours written as degrees: "" where
// they can be degrees.
func asHours(clock []float64) string {
	most, twice := 0.0, false
	var hours, degrees []string
	var seen []float64
	for _, x := range clock {
		if x > 12 || x*4 != math.Trunc(x*4) {
			return ""
		}
		most = max(most, x)
		turned := math.Mod(x*30, 360)
		if slices.Contains(seen, turned) {
			twice = true
			continue
		}
		seen = append(seen, turned)
		hour := int(x)
		if hour == 0 {
			hour = 12
		}
		text := strconv.Itoa(hour)
		if min := (x - math.Trunc(x)) * 60; min > 0 {
			text += fmt.Sprintf(":%02.0f", min)
		}
		hours, degrees = append(hours, strconv.Quote(text)), append(degrees, keys.PlainNumber(turned))
	}
	if len(clock) < 2 || most < 3 {
		return ""
	}
	out := fmt.Sprintf("write at = [%s], or in degrees at = [%s]", strings.Join(hours, ", "), strings.Join(degrees, ", "))
	if twice {
		out += "; 0 and 12 are one place: leave out one of the two readings there"
	}
	return out
}

// checkSlip catches a reading in the wrong unit or a diameter for a radius. It
// tells the first of a list; the rest follow from it.
func (c *checker) checkSlip(key string, w process.Reading, s *process.Station) {
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
		c.Badf(source.El(key, i), allowed, "%s cannot belong to a bore of %s %s", c.Len(v), name, c.Len(base))
		return
	}
}

func (c *checker) checkSweeps() {
	for i, w := range c.j.Sweeps {
		at := source.El("sweep", i)
		if c.Has(at+".at", at+".dial") {
			c.checkClock(at+".at", w.At, 360)
			if len(w.At) != len(w.Dial) {
				c.Badf(at+".dial", "give one reading for each clock position", "%d readings for %d clock positions", len(w.Dial), len(w.At))
			}
		}
		s := c.at(w.Station)
		if s == nil {
			continue
		}
		s = new(faces.In(c.j, w))
		st := source.El("station", w.Station)
		if !s.Swept {
			c.Badf(at+".station", "write swept = true there, if a dial can be run around it", "%q is not a station that can be swept", s.Name)
		}
		if !w.Face {
			switch {
			case !c.Given(at + ".depth"):
				c.Bad(at+".depth", "is missing", "write depth = … : where in the bore the dial ran (or face = true)")
			case c.Has(at+".depth", st+".from", st+".to") && s.From < s.To && (w.Depth < s.From || w.Depth > s.To):
				c.Badf(at+".depth", fmt.Sprintf("%q lies from %s to %s; depths count from the face", s.Name, c.Len(s.From), c.Len(s.To)), "%s is outside the bore", c.Len(w.Depth))
			}
			if c.Has(at+".diameter", st+".diameter") && (w.Diameter < s.Diameter*4/5 || w.Diameter > s.Diameter*6/5) {
				c.Badf(at+".diameter", "it is the diameter of the bore where the dial ran: leave it out, or write face = true if the dial ran on the face",
					"%s cannot be in %q, %s", c.Dia(w.Diameter), s.Name, c.Dia(s.Diameter))
			}
			continue
		}
		switch {
		case !c.Given(at + ".diameter"):
			c.Bad(at+".diameter", "is missing", "write diameter = … : the circle that the dial ran on")
		case c.Has(at+".diameter", st+".diameter") && w.Diameter <= s.Diameter:
			c.Badf(at+".diameter", "the circle on a face is larger than the bore in it", "%s is not larger than %q, %s", c.Dia(w.Diameter), s.Name, c.Dia(s.Diameter))
		}
	}
}

// checkLineUp judges the figures that only make sense together.
func (c *checker) checkLineUp() {
	const at = "lineup."
	for _, k := range [][2]string{{"table_centre", "table_stop"}, {"table_stop", "table_centre"}} {
		if c.Given(at+k[0]) && !c.Given(at+k[1]) {
			c.Bad(at+k[0], "stands without "+k[1], "a turn of the table needs both: its centre says what moves, its stop by how much")
		}
	}
	if p := c.j.LineUp.Packs; p != nil && p.Far <= p.Near {
		c.Badf(at+"packs", "write the one nearer to the spindle first; depths count from the face", "the far packing, at %s, does not lie behind the near one, at %s", c.Len(p.Far), c.Len(p.Near))
	}
}
