// Package line sees that the bores of a line can be cut through at one setting, as a job asks.
package line

import (
	"fmt"
	"slices"

	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/source"
)

// checker are the bores of a job that was read, with where mistakes go.
type checker struct {
	*keys.Reader
	j    *process.Job
	said map[string]bool // a name that is no bore's, or a mistake by setting and words: each is said once
}

// Fill leaves the witness cut out of bores that are cut through at one setting, where
// the job does not say: it marks a band, and does not go through to the next bore.
func Fill(j *process.Job, r *keys.Reader) {
	for i := range j.Bores {
		if at := source.El("bore", i); j.Bores[i].Station >= 0 && len(j.SetWith(i)) > 1 && !r.Given(at+".witness") {
			j.Bores[i].Witness = false
		}
	}
}

// Check sees that bores can be cut through at one setting. What is wrong for several bores of a
// setting alike is one mistake, and is said of the first of them. station says where there is no
// station of a name that a key gives, and is below 0 then.
func Check(j *process.Job, r *keys.Reader, station func(key, name string) int) {
	c := &checker{r, j, map[string]bool{}}
	for i, b := range j.Bores {
		if b.With == "" || c.at(b.Station) == nil {
			continue
		}
		at, lead := source.El("bore", i), slices.IndexFunc(j.Bores, func(o process.Bore) bool { s := c.at(o.Station); return s != nil && s.Name == b.With })
		switch {
		case j.Stations[b.Station].Name == b.With:
			c.Bad(at+".with", "a bore is not cut with itself", "leave with out here, and write it in the other bores of the setting")
		case lead < 0:
			if !c.said[b.With] && station(at+".with", b.With) >= 0 {
				c.Badf(at+".with", "name the station of another bore of this job, or leave with out", "%q is not bored", b.With)
			}
			c.said[b.With] = true
		case j.Bores[lead].With == b.With || c.said[j.Bores[lead].With]: // said
		case j.Bores[lead].With != "":
			c.once(b, at+".with", fmt.Sprintf("write with = %q here, too", j.Bores[lead].With), "%q is itself cut through with %q", b.With, j.Bores[lead].With)
		case lead > i:
			c.once(b, at+".with", "write it in the bores that are cut after the first", "%q is cut after this bore", b.With)
		default:
			c.like(i, lead)
		}
	}
}

// like holds a bore against the first of its setting. One mistake is said, the first.
func (c *checker) like(i, lead int) {
	b, first, at := c.j.Bores[i], c.j.Bores[lead], source.El("bore", i)
	st, before := c.j.Stations, c.j.Bores[i-1]
	own, other := st[b.Station], st[first.Station]
	for _, k := range []int{lead, i} {
		if key := source.El("bore", k) + ".witness"; c.j.Bores[k].Witness && c.Given(key) {
			c.once(b, key, "leave it out, or leave with out", "a witness cut marks a band and does not go through, and %q is cut through at one setting with others", st[c.j.Bores[k].Station].Name)
			return
		}
	}
	unlike := b.Unlike(first)
	switch {
	case b.Repair != process.Rebore || first.Repair != process.Rebore:
		c.once(b, at+".with", "leave with out: a sleeved bore has visits of its own", "only rebored bores are cut through at one setting")
	case unlike != "" && i-1 != lead && before.Unlike(first) == unlike && before.Unlike(b) != unlike: // said of that one
	case unlike != "":
		c.once(b, at+".with", "make it alike in both, or leave with out", "%s of %q is not that of %q, and one setting makes both bores alike", unlike, own.Name, other.Name)
	case c.at(before.Station) == nil || c.said[before.With]: // said
	case st[before.Station].Blind:
		c.once(b, at+".with", "leave with out", "%q is closed at its end: nothing is cut through it", st[before.Station].Name)
	case i-1 != lead && before.With != b.With:
		c.once(b, at+".with", "list the bores of one setting one after the other", "%q stands between %q and this bore in the order of the job", st[before.Station].Name, other.Name)
	case before.Station > b.Station:
		c.once(b, at+".with", "list the bores of one setting from the spindle inward", "%q lies deeper and is listed before it", st[before.Station].Name)
	default:
		c.between(i, before.Station)
	}
}

// once says a mistake of a bore, where it was not said yet of another of its setting.
func (c *checker) once(b process.Bore, key, want, format string, a ...any) {
	if text := fmt.Sprintf(format, a...); !c.said[b.With+": "+text] {
		c.said[b.With+": "+text] = true
		c.Bad(key, text, want)
	}
}

// at is a station of the job, by its index; nil where it has none.
func (c *checker) at(station int) *process.Station {
	if station < 0 || station >= len(c.j.Stations) {
		return nil
	}
	return &c.j.Stations[station]
}

// between sees that the cutter, at its size, goes through what stands between two bores.
func (c *checker) between(i, from int) {
	b := c.j.Bores[i]
	for _, s := range c.j.Stations[from+1 : b.Station] {
		if need := b.Finish.High.Plus(2 * c.j.Limits.ChipRoom); s.Face == b.Face && s.Diameter < need {
			c.Badf(source.El("bore", i)+".with", "leave with out", "%q stands between, and at %s it has no room for the cutter at its size: %s with room for chips", s.Name, c.Dia(s.Diameter), c.Dia(need))
		}
	}
}
