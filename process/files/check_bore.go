package files

import (
	"borewright/process"
	"borewright/process/cut"
	"borewright/process/faces"
	"borewright/process/field/keys"
	"borewright/process/qty"
	"borewright/process/source"
)

func (c *checker) checkStations() {
	faces.Names(c.Reader, c.j)
	faces.Stations(c.Reader, c.j)
	faces.Rotary(c.Reader, c.j)
	for i, s := range c.j.Stations {
		at := source.El("station", i)
		c.checkWalls(at, s)
		if c.Given(at+".wall_most") && c.Has(at+".wall", at+".wall_most") && s.WallMost < s.Wall {
			c.Badf(at+".wall_most", "the most metal around the bore cannot be less than wall", "%s is less than wall, %s", c.Len(s.WallMost), c.Len(s.Wall))
		}
	}
}

// checkWalls sees that a wall is stated once, and that readings round the clock go
// round it.
func (c *checker) checkWalls(at string, s process.Station) {
	if len(s.Walls) == 0 {
		return
	}
	path := at + ".walls"
	if !c.Given(path) {
		path = at + ".wall"
	} else if c.Given(at + ".wall") {
		c.Bad(at+".wall", "the wall is stated twice, here and in walls", "write one of the two")
	}
	if c.Given(at + ".wall_most") {
		c.Bad(at+".wall_most", "the wall is read round the clock, and its most follows from that", "leave wall_most out")
	}
	seen := map[float64]bool{}
	for k, m := range s.Walls {
		at := source.El(path, k) + ".at"
		if !c.Has(at) {
			continue
		}
		if seen[m.At] {
			c.Badf(at, "give each place one reading", "the wall at %g° is there twice", m.At)
		}
		seen[m.At] = true
	}
}

func (c *checker) checkBore(i int) {
	b, at := c.j.Bores[i], source.El("bore", i)
	s := c.at(b.Station)
	if s == nil {
		return
	}
	for k := range i {
		if c.j.Bores[k].Station == b.Station {
			c.Badf(at+".station", "one entry a bore: put both into one", "%q is already restored by bore %d", s.Name, k+1)
		}
	}
	if m := c.j.Machine; m != nil && m.Control != nil && b.WayOut == process.DrawOut {
		c.Badf(at+".way_out", `use "shift", "feed", or leave it out`, "drawing the cutter out along the wall is work for hands, and the machine has a control")
	}
	st := source.El("station", b.Station)
	c.checkWear(i, s)
	c.checkPart(i)
	if !c.Has(st+".diameter") || !c.Has(at+".repair") {
		return
	}
	cut := b.Finish.High // largest size that is bored in the parent metal
	if b.Repair == process.Rebore && b.Finish.High > 0 && b.Finish.High < s.Diameter {
		c.Badf(at+".finish", `a bore cannot be bored smaller: choose a larger size, or repair = "sleeve"`,
			"%s is smaller than the bore is now, %s", c.Dia(b.Finish.High), c.Dia(s.Diameter))
	}
	if b.Repair == process.SleeveRepair && c.j.Sleeve != nil {
		cut = c.j.Sleeve.Outside
	}
	if gone := cut.Minus(s.Diameter) / 2; s.Wall > 0 && gone >= s.Wall {
		c.Badf(st+".wall", "nothing would be left of the wall: check wall and the size",
			"boring to %s takes %s off a wall of %s", c.Dia(cut), c.Len(gone), c.Len(s.Wall))
	}
	if s.Blind && cut > 0 {
		c.checkBottom(b.Station)
	}
}

// lightCut is the depth of cut that a groove at a blind bottom is advised for: a
// finishing pass.
const lightCut = qty.Millimetre / 4

// checkBottom sees that the nose has room at a blind bottom, as the planner takes
// it: without any, there is no depth of cut at all. How deep a cut has room for its
// edge is the planner's to find.
func (c *checker) checkBottom(station int) {
	k := c.j.Cutter
	key := source.El("station", station) + ".relief"
	if !c.Has("cutter.nose_radius", "cutter.lead") || !c.Has(key) {
		return
	}
	s := c.j.Stations[station]
	if cut.RunOutDepth(k.NoseRadius.MM(), k.Lead, (s.Relief-process.RunOut).MM()) > 0 {
		return
	}
	need := c.Units.Up(qty.FromMM(cut.RunOut(k.NoseRadius.MM(), k.Lead, lightCut.MM())) + process.RunOut)
	if !c.Given(key) {
		c.Badf(source.El("station", station)+".blind", "write relief = … at this station, or cut the groove first",
			"the bottom has no relief: nose radius %s and a light cut at %s° need %s to run out", c.Len(k.NoseRadius), keys.PlainNumber(k.Lead), c.Len(need))
		return
	}
	c.Badf(key, "cut a wider groove, or use a smaller nose radius or a steeper lead",
		"a groove of %s is too narrow: nose radius %s and a light cut at %s° need %s", c.Len(s.Relief), c.Len(k.NoseRadius), keys.PlainNumber(k.Lead), c.Len(need))
}
