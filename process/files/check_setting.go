package files

import (
	"fmt"
	"slices"

	"borewright/process"
	"borewright/process/source"
)

// fillOneSetting leaves the witness cut out of bores that are cut through at one setting, where
// the job does not say: it marks a band, and does not go through to the next bore.
func (c *checker) fillOneSetting() {
	for i := range c.j.Bores {
		if at := source.El("bore", i); c.j.Bores[i].Station >= 0 && len(c.j.SetWith(i)) > 1 && !c.Given(at+".witness") {
			c.j.Bores[i].Witness = false
		}
	}
}

// checkOneSetting sees that bores can be cut through at one setting.
func (c *checker) checkOneSetting() {
	for i, b := range c.j.Bores {
		if b.With == "" || c.at(b.Station) == nil {
			continue
		}
		at, lead := source.El("bore", i), slices.IndexFunc(c.j.Bores, func(o process.Bore) bool { s := c.at(o.Station); return s != nil && s.Name == b.With })
		switch {
		case c.j.Stations[b.Station].Name == b.With:
			c.Bad(at+".with", "a bore is not cut with itself", "leave with out here, and write it in the other bores of the setting")
		case lead < 0 && c.station(at+".with", b.With) < 0: // said
		case lead < 0:
			c.Badf(at+".with", "name the station of another bore of this job, or leave with out", "%q is not bored", b.With)
		case c.j.Bores[lead].With != "":
			c.Badf(at+".with", fmt.Sprintf("write with = %q here, too", c.j.Bores[lead].With), "%q is itself cut through with %q", b.With, c.j.Bores[lead].With)
		case lead > i:
			c.Badf(at+".with", "write it in the bores that are cut after the first", "%q is cut after this bore", b.With)
		default:
			c.checkWith(i, lead)
		}
	}
}

// checkWith holds a bore against the first of its setting. One mistake is said, the first.
func (c *checker) checkWith(i, lead int) {
	b, first, at := c.j.Bores[i], c.j.Bores[lead], source.El("bore", i)
	st, before := c.j.Stations, c.j.Bores[i-1]
	own, other := st[b.Station], st[first.Station]
	if m := c.j.Machine; m != nil && m.Control != nil {
		c.Badf(at+".with", "leave with out: each bore then has a program of its own", "bores are cut through at one setting on a mill that is worked by hand, and %s has a control", m.ID)
		return
	}
	for _, k := range []int{lead, i} {
		if key := source.El("bore", k) + ".witness"; c.j.Bores[k].Witness && c.Given(key) {
			c.Badf(key, "leave it out, or leave with out", "a witness cut marks a band and does not go through, and %q is cut through at one setting with others", st[c.j.Bores[k].Station].Name)
			return
		}
	}
	switch {
	case b.Repair != process.Rebore || first.Repair != process.Rebore:
		c.Badf(at+".with", "leave with out: a sleeved bore has visits of its own", "only rebored bores are cut through at one setting")
	case b.Unlike(first) != "":
		c.Badf(at+".with", "make it alike in both, or leave with out", "%s of %q is not that of %q, and one setting makes both bores alike", b.Unlike(first), own.Name, other.Name)
	case c.at(before.Station) == nil: // said
	case st[before.Station].Blind || st[first.Station].Blind:
		c.Badf(at+".with", "leave with out", "%q is closed at its end: nothing is cut through it", st[before.Station].Name)
	case i-1 != lead && before.With != b.With:
		c.Badf(at+".with", "list the bores of one setting one after the other", "%q stands between %q and this bore in the order of the job", st[before.Station].Name, other.Name)
	case before.Station > b.Station:
		c.Badf(at+".with", "list the bores of one setting from the spindle inward", "%q lies deeper and is listed before it", st[before.Station].Name)
	default:
		c.checkBetween(i, before.Station)
	}
}

// checkBetween sees that the cutter, at its size, goes through what stands between two bores.
func (c *checker) checkBetween(i, from int) {
	b := c.j.Bores[i]
	for _, s := range c.j.Stations[from+1 : b.Station] {
		if need := b.Finish.High.Plus(2 * c.j.Limits.ChipRoom); s.Face == b.Face && s.Diameter < need {
			c.Badf(source.El("bore", i)+".with", "leave with out", "%q stands between, and at %s it has no room for the cutter at its size: %s with room for chips", s.Name, c.Dia(s.Diameter), c.Dia(need))
		}
	}
}
