package process

import (
	"slices"

	"borewright/process/fit"
	"borewright/process/qty"
)

// compounds are the bonding compounds that a job can name, by property.
func compounds() []string {
	var out []string
	for _, c := range fit.Compounds() {
		out = append(out, c.Name)
	}
	return out
}

// ends reads a list of two: a least and a most, or two of a kind.
func ends[From, To ~int64 | ~float64](r *reader, path string) [2]To {
	l := list[From](r, path)
	if len(l) != 2 {
		return [2]To{}
	}
	return [2]To{To(l[0]), To(l[1])}
}

// Temperatures of a gear case at rest and at work, °C: the reference
// temperature of ISO 1, and common practice, no source.
var usualService = [2]float64{20, 70}

// sleeveWork reads how the sleeve is made, put in and brought to size.
func (c *checker) sleeveWork(s *Sleeve) {
	const at = "sleeve."
	s.Finish = map[string]Sleeving{"in place": BoreInPlace, "before": FinishBefore}[c.text(at+"finish")]
	for _, d := range list[qty.Length](c.reader, at+"standard") {
		s.Standard = append(s.Standard, qty.Diameter(d))
	}
	s.Wall, s.Match, s.Lathe, s.Runout = c.length(at+"wall"), c.length(at+"match"), c.length(at+"lathe"), c.length(at+"runout")
	s.Rz = ends[qty.Length, qty.Length](c.reader, at+"rz")
	s.Friction, s.Service = ends[float64, float64](c.reader, at+"friction"), ends[float64, float64](c.reader, at+"service")
	if !c.given[at+"service"] {
		s.Service = usualService
	}
	s.Location = c.length(at + "location")
	s.Torque, s.Thrust = get[qty.Torque](c.reader, at+"torque"), qty.Force(1000*c.num(at+"thrust"))
	s.PressCapacity, s.Grip = qty.Force(1000*c.num(at+"press_capacity")), qty.Force(1000*c.num(at+"grip"))
	s.KeepCool, s.Compound = c.text(at+"keep_cool"), c.text(at+"compound")
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
		if b.Repair != SleeveRepair || st == nil || b.Finish.High == 0 {
			continue
		}
		need = max(need, max(st.Diameter, mostWorn(b)).Plus(2*b.Offset+cleanLeast))
		finish = max(finish, b.Finish.High)
	}
	if finish == 0 || c.badly("sleeve.standard") {
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
		c.badf("sleeve.standard", "name a larger one", "the largest is %s, and to clean up and leave a wall of %s it takes %s", c.dia(sizes[len(sizes)-1]), c.len(wall), c.dia(need))
	}
}

// checkSleeveWork judges what sleeveWork read.
func (c *checker) checkSleeveWork() {
	s := c.j.Sleeve
	for _, e := range []struct {
		key  string
		ends [2]float64
	}{{"sleeve.friction", s.Friction}, {"sleeve.service", s.Service}} {
		if c.has(e.key) && e.ends[0] > e.ends[1] {
			c.badf(e.key, "write the least first", "the least, %s, is above the most, %s", number(e.ends[0]), number(e.ends[1]))
		}
	}
	if s.Hold == Bond && c.given["sleeve.match"] && s.Match > s.Gap/2 {
		c.badf("sleeve.match", "turn it nearer, or leave a wider gap", "± %s leaves hardly any of a gap of %s at the close end", c.len(s.Match), c.len(s.Gap))
	}
	for i, b := range c.j.Bores {
		if b.Repair == SleeveRepair && c.given["sleeve.lathe"] && s.Finish == FinishBefore && b.Finish.High > 0 && s.Lathe >= b.Finish.Tolerance() {
			c.badf("sleeve.lathe", `turn it closer, or write finish = "in place"`,
				"finished before assembly, a bore turned within %s cannot keep the %s of %s", c.len(s.Lathe), c.len(b.Finish.Tolerance()), el("bore", i)+".finish")
		}
	}
}

// checkPart judges the part that goes into a bore.
func (c *checker) checkPart(i int) {
	b, key := c.j.Bores[i], el("bore", i)+".part"
	if c.has(key+"_material") && !c.given[key] && b.Finish.Mating == 0 {
		c.bad(key+"_material", "is stated of a part without a size", "state part, or finish by a mating size")
	}
	if !c.has(key) {
		return
	}
	switch {
	case b.Part[0] > b.Part[1]:
		c.badf(key, "write the smallest first", "the smallest, %s, is above the largest, %s", c.dia(b.Part[0]), c.dia(b.Part[1]))
	case b.Finish.Mating > 0:
		c.bad(key, "is stated twice: finish names the mating size", "leave part out, or state finish by limits or a fit")
	}
}
