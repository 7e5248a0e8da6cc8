package bearings

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/field/keys"
	"borewright/process/qty"
	"borewright/process/source"
)

// Fill has a bore that carries the bar for another finished before the others are begun, with all
// that are cut through at its setting.
func Fill(j *process.Job) {
	for i, b := range j.Bores {
		if b.Station < 0 || b.Station >= len(j.Stations) || len(j.Carries(i)) == 0 {
			continue
		}
		for _, k := range j.SetWith(i) {
			j.Bores[k].First = true
		}
	}
}

// CheckGuides sees that the bushes that bores name can be fitted when these bores are cut. It
// gives the bores, by their indices, of which something was said.
func CheckGuides(r *keys.Reader, j *process.Job) map[int]bool {
	c, said := &checker{Reader: r, j: j}, map[int]bool{}
	circle, line := false, false // one mistake, however many bores are in it
	told := slices.ContainsFunc(r.Found, func(p source.Problem) bool { return p.Key == "bar.outboard.station" })
	if o := j.Bar.Outboard; o != nil && o.Station != "" && !told {
		if at := c.behind(o.Station); at >= 0 && j.BoreAt(at) >= 0 {
			allowed := fmt.Sprintf("write guide = { station = %q } in the bores that it is to carry the bar for", o.Station)
			if s := j.Stations[at]; s.Blind || !slices.ContainsFunc(j.Bores, func(b process.Bore) bool {
				return b.Station >= 0 && b.Station != at && (j.Stations[b.Station].To <= s.From || faces.Both(j))
			}) { // there are none
				allowed = c.oneOf(s.To, "outboard")
			}
			c.Badf("bar.outboard.station", allowed, "%q is bored in this job itself", o.Station)
		}
	}
	for i, b := range j.Bores {
		at := source.El("bore", i) + ".guide.station"
		if b.Guide == nil || b.Station < 0 || c.Badly(at) || said[i] {
			continue
		}
		own, to := j.Stations[b.Station].Name, c.carrier(i)
		here := &checker{Reader: r, j: faces.Of(j, i)} // from the face that it is bored from
		behind := here.oneOf(here.j.Stations[here.j.Bores[i].Station].To, "guide")
		bad := func(allowed, format string, a ...any) {
			c.Badf(at, allowed, format, a...)
			said[i] = true
		}
		switch round := c.circle(i); {
		case c.behind(b.Guide.Station) < 0:
			bad(behind, "there is no station %q", source.Show(b.Guide.Station))
		case here.behind(b.Guide.Station) < 0:
			bad(behind, "%q lies behind %q, which is closed: the bar does not come to it from the %s face", b.Guide.Station, here.closed(), b.Face)
		case j.Bar.Inboard != nil && line:
			said[i] = true
		case j.Bar.Inboard != nil:
			line = true
			bad("leave guide out, or bar.inboard", "a line bar runs in two bearings that stand on the machine")
		case to == i:
			bad(behind, "the bush would be in %q, which is bored by this bar", own)
		case len(round) > 0 && !circle:
			circle = true
			var names []string
			for _, k := range round {
				said[k] = true
				names = append(names, source.Quoted([]string{j.Stations[j.Bores[k].Station].Name}))
			}
			bad("leave guide out of one of them", "the bores guide each other in a circle (%s): none of them can be finished first", strings.Join(names, ", then "))
		case len(round) > 0:
			said[i] = true
		case to >= 0 && slices.Contains(j.SetWith(i), to):
			bad("leave with out of one of them", "%q and %q are cut through at one setting, and the bush needs a finished bore", own, b.Guide.Station)
		}
	}
	return said
}

// Seated are the stations of a job as they are when a bore is cut by a bar in a bush: one that the
// bush is fitted in is finished, if it is bored.
func Seated(j *process.Job, b process.Bore) []process.Station {
	all := slices.Clone(j.Stations)
	for _, o := range j.Bores {
		if b.Guide != nil && o.Station >= 0 && all[o.Station].Name == b.Guide.Station {
			all[o.Station].Diameter = o.Finish.Low
		}
	}
	return all
}

// carrier is the bore of the job, by its index, that the bush for one is fitted in; -1: its station
// is not bored.
func (c *checker) carrier(bore int) int {
	if at := c.behind(c.j.Bores[bore].Guide.Station); at >= 0 {
		return c.j.BoreAt(at)
	}
	return -1
}

// behind is the index of a station by its name.
func (c *checker) behind(name string) int {
	for i, s := range c.j.Stations {
		if s.Name == name {
			return i
		}
	}
	return -1
}

// circle are the bores from one back to itself, each guided in the next; none where it does not
// come back.
func (c *checker) circle(from int) (all []int) {
	for at := from; len(all) <= len(c.j.Bores); {
		all = append(all, at)
		if c.j.Bores[at].Guide == nil {
			return nil
		}
		if at = c.carrier(at); at < 0 {
			return nil
		}
		if at == from {
			return all
		}
	}
	return nil
}

// oneOf is the advice to take a station that lies behind a depth, or to leave a key out where none
// does. One for all bores of a job of both faces lies behind those of each, seen from there.
func (c *checker) oneOf(depth qty.Length, key string) string {
	var names []string
	none := "no station"
	for _, s := range c.j.Stations {
		switch {
		case s.From < depth:
		case s.Blind: // the bar slides on through its bush as it cuts
			none = "no open station"
		default:
			names = append(names, s.Name)
		}
	}
	if c.whole != nil && faces.Both(c.whole) {
		names = slices.DeleteFunc(names, func(name string) bool { return !c.behindAll(name) })
		if len(names) == 0 && c.guides() {
			return "leave outboard out, and write guide = { station = … } in the bores that a bush can carry the bar for: " + none + " lies behind the bores of both faces"
		}
	}
	if len(names) == 0 {
		return "leave " + key + " out: " + none + " lies behind what is bored"
	}
	return "take one behind what is bored: " + source.Quoted(names)
}

// guides is whether an open station lies behind a bore of a job of both faces, seen from its face, so
// that a bush there could carry the bar for it.
func (c *checker) guides() bool {
	for i, b := range c.whole.Bores {
		if b.Station < 0 {
			continue
		}
		seen := faces.Of(c.whole, i)
		own := seen.Stations[seen.Bores[i].Station]
		if slices.ContainsFunc(seen.Stations, func(s process.Station) bool { return !s.Blind && s.From >= own.To }) {
			return true
		}
	}
	return false
}

// behindAll is whether a station that is not bored lies behind all bores of a job of both faces that
// are cut with its own bar, seen from the face of each.
func (c *checker) behindAll(name string) bool {
	for i, b := range c.whole.Bores {
		if b.Station < 0 {
			continue
		}
		seen := faces.Of(c.whole, i)
		own := seen.Stations[seen.Bores[i].Station]
		at := (&checker{j: seen}).behind(name)
		if at < 0 || seen.BoreAt(at) >= 0 || b.CutBy == nil && seen.Stations[at].From < own.To {
			return false
		}
	}
	return true
}
