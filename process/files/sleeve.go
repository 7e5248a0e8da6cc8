package files

import (
	"slices"

	"borewright/process"
	"borewright/process/fit"
	"borewright/process/qty"
	"borewright/process/source"
)

// Temperatures of a gear case at rest and at work, °C: the reference
// temperature of ISO 1, and common practice, no source.
var usualService = [2]float64{20, 70}

func (c *checker) fillSleeve() {
	s := c.j.Sleeve
	if s == nil {
		return
	}
	if !c.Given("sleeve.service") {
		s.Service = usualService
	}
	switch {
	case s.Hold == process.Press && !c.Given("sleeve.fit"):
		s.Fit = "H7/r6"
	case s.Hold == process.Bond && !c.Given("sleeve.gap"):
		s.Gap = c.j.Round(0.05, 0.002)
	}
	if !c.Given("sleeve.outside") {
		c.chooseOutside()
	}
}

// cleanLeast is what must come off the worn bore, on diameter, for the housing
// to show bright metal all round: common practice, no source.
const cleanLeast = qty.Millimetre / 4

// chooseOutside takes the smallest standard outside that cleans every sleeved
// bore up and leaves wall. Where there is none, it says so.
func (c *checker) chooseOutside() {
	s := c.j.Sleeve
	var need, finish qty.Diameter
	for _, b := range c.j.Bores {
		st := c.at(b.Station)
		if b.Repair != process.SleeveRepair || st == nil || b.Finish.High == 0 {
			continue
		}
		need = max(need, max(st.Diameter, b.MostWorn()).Plus(2*b.Offset+cleanLeast))
		finish = max(finish, b.Finish.High)
	}
	if finish == 0 || c.Badly("sleeve.standard") {
		return // said elsewhere
	}
	wall := s.Wall
	if wall == 0 {
		wall = fit.LeastWall(finish)
	}
	need = max(need, finish.Plus(2*wall))
	sizes := slices.Sorted(slices.Values(s.Standard))
	if len(sizes) == 0 {
		sizes = fit.StandardOutsides(c.j.Units, need, need.Plus(50*qty.Millimetre))
	}
	for _, d := range sizes {
		if d >= need {
			s.Outside, s.Chosen = d, true
			return
		}
	}
	if len(s.Standard) > 0 {
		c.Badf("sleeve.standard", "name a larger one", "the largest is %s, and to clean up and leave a wall of %s it takes %s", c.Dia(sizes[len(sizes)-1]), c.Len(wall), c.Dia(need))
	}
}

// checkSleeveWork judges what sleeveWork read.
func (c *checker) checkSleeveWork() {
	s := c.j.Sleeve
	if s.Hold == process.Bond && c.Given("sleeve.match") && s.Match > s.Gap/2 {
		c.Badf("sleeve.match", "turn it nearer, or leave a wider gap", "±%s leaves hardly any of a gap of %s at the close end", c.Len(s.Match), c.Len(s.Gap))
	}
	c.checkHeat()
	for i, b := range c.j.Bores {
		if b.Repair == process.SleeveRepair && c.Given("sleeve.lathe") && s.Finish == process.FinishBefore && b.Finish.High > 0 && s.Lathe >= b.Finish.Tolerance() {
			c.Badf("sleeve.lathe", `turn it closer, or write finish = "in place"`,
				"finished before assembly, a bore turned within %s cannot keep the %s of %s", c.Len(s.Lathe), c.Len(b.Finish.Tolerance()), source.El("bore", i)+".finish")
		}
	}
}

// checkHeat judges what of the housing is heated.
func (c *checker) checkHeat() {
	s := c.j.Sleeve
	if !c.Given("sleeve.heated") {
		for _, k := range []string{"sleeve.casting", "sleeve.web"} {
			if c.Given(k) {
				c.Bad(k, "is cold metal around a boss that is heated, and none is", "state heated as well, or leave it out")
			}
		}
		return
	}
	switch {
	case s.KeepCool != "":
		c.Bad("sleeve.heated", "is stated of a housing that must be kept cool", "leave out heated, or keep_cool")
	case s.Outside > 0 && s.Heated <= s.Outside:
		c.Badf("sleeve.heated", "it is the metal around the sleeve: state a larger diameter", "%s is not larger than the sleeve, %s", c.Dia(s.Heated), c.Dia(s.Outside))
	case !c.Given("sleeve.casting"):
		c.Bad("sleeve.heated", "says nothing of the cold metal around it", "state casting as well, the diameter of the casting there")
	case s.Casting < s.Heated:
		c.Badf("sleeve.casting", "it is the whole casting around the bore", "%s is less than what is heated, %s", c.Dia(s.Casting), c.Dia(s.Heated))
	}
}

// checkPart judges the part that goes into a bore.
func (c *checker) checkPart(i int) {
	b, key := c.j.Bores[i], source.El("bore", i)+".part"
	if c.Has(key+"_material") && !c.Given(key) && b.Finish.Mating == 0 {
		c.Bad(key+"_material", "is stated of a part without a size", "state part, or finish by a mating size")
	}
	if c.Has(key) && b.Finish.Mating > 0 {
		c.Bad(key, "is stated twice: finish names the mating size", "leave part out, or state finish by limits or a fit")
	}
}
