// Package bearings holds the bearings that carry the end of a bar, and a bush in the work, against
// bar, work and cuts, as a job file states them.
package bearings

import (
	"fmt"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/field/keys"
	"borewright/process/qty"
)

// Check judges the bearings of the bar of a job, from each face that it is bored from: bearings stand
// on the machine, and the work turns between them. The bar itself was judged before.
func Check(r *keys.Reader, j *process.Job) {
	if len(j.Bores) == 0 || faces.Both(j) && j.Through == 0 { // said
		return
	}
	from := []process.Face{j.Bores[0].Face}
	if faces.Both(j) {
		from = append(from, faces.Other(from[0]))
	}
	for _, f := range from {
		c, said := &checker{r, faces.Seen(j, f), j, ""}, len(r.Found)
		if len(from) > 1 {
			c.from = ", seen from the " + f.String() + " face"
		}
		if cuts := c.boredStations(); len(cuts) > 0 {
			c.checkSupport(cuts)
		}
		if len(r.Found) > said { // one mistake, one message
			return
		}
	}
}

// checker judges one job.
type checker struct {
	*keys.Reader
	j     *process.Job // seen from one face
	whole *process.Job // seen from neither, where it has both
	from  string       // which face, where it has both
}

// bored is one bore as the bar meets it.
type bored struct {
	station *process.Station
	end     qty.Length // depth the tip goes to, without run-out
}

func (c *checker) boredStations() []bored {
	var all []bored
	for _, b := range c.j.Bores {
		if b.Station < 0 || b.Station >= len(c.j.Stations) || b.CutBy != nil || !c.j.Here(b) { // with other tools
			continue
		}
		if s := &c.j.Stations[b.Station]; s.To > s.From {
			all = append(all, bored{s, s.To})
		}
	}
	return all
}

// closed is the station whose closed end shuts the line, as the job is seen; "": none.
func (c *checker) closed() string {
	if last := c.j.Stations[len(c.j.Stations)-1]; last.Blind {
		return last.Name
	}
	return c.j.Closed
}

// checkSupport sees that the outboard bearing carries the bar beyond the work
// during the whole of every cut.
func (c *checker) checkSupport(cuts []bored) {
	b := &c.j.Bar
	o := b.Outboard
	c.checkInboard(cuts)
	if c.checkGuide(cuts) || o == nil || !c.Has("bar.outboard.at") {
		return
	}
	const key = "bar.outboard.at"
	last := c.j.Stations[len(c.j.Stations)-1]
	switch {
	case c.closed() != "":
		c.Bad("bar.outboard", fmt.Sprintf("the bar cannot come out to a bearing: %q is closed", c.closed()), "leave outboard out, or the line is not blind")
	case o.At > b.Stickout():
		c.Badf(key, "lengthen the bar, or bring the bearing nearer", "the bearing stands %s from the nose, beyond the end of the bar, %s", c.Len(o.At), c.Len(b.Stickout()))
	case o.At <= b.CutterAt:
		c.Badf(key, "the bearing stands beyond the cutter", "the bearing stands %s from the nose, the cutter %s", c.Len(o.At), c.Len(b.CutterAt))
	default:
		for _, k := range cuts {
			// Table feed: bearing and tip keep their distance, and at the
			// mouth of the bore the bearing is nearest to the work.
			depth, when := k.station.From+o.At-b.CutterAt, fmt.Sprintf(" when the cut in %q begins", k.station.Name)
			if b.FeedBy == process.QuillFeed {
				depth, when = o.At-b.Standoff, ""
			}
			end, ends := last.To, fmt.Sprintf("%q ends", last.Name)
			if c.j.Through > end {
				end, ends = c.j.Through, "the other face lies"
			}
			if depth < end {
				c.Badf(key, fmt.Sprintf("it must stand at least %s from the nose", c.Len(o.At+end-depth)),
					"the bearing would stand %s deep%s, but %s at %s%s", c.Len(depth), when, ends, c.Len(end), c.from)
				return
			}
		}
	}
}

// checkInboard sees that the bearing of a line bar stands in front of the work during the
// whole of every cut, and the cutter beyond it.
func (c *checker) checkInboard(cuts []bored) {
	b := &c.j.Bar
	in := b.Inboard
	if in == nil || !c.Has("bar.inboard.at") {
		return
	}
	const key = "bar.inboard.at"
	first := c.j.Stations[0]
	for _, s := range c.j.Stations {
		if s.From < first.From {
			first = s
		}
	}
	switch {
	case b.Outboard == nil:
		if !c.Badly("bar.outboard") {
			c.Bad("bar.inboard", "a line bar runs in two bearings, and the other is missing", "write bar.outboard = { at = … } too, beyond the work")
		}
		return
	case in.At >= b.CutterAt:
		c.Badf(key, "the cutter stands between the two bearings", "the bearing stands %s from the nose, the cutter %s", c.Len(in.At), c.Len(b.CutterAt))
		return
	}
	for _, k := range cuts {
		// Table feed: bearing and tip keep their distance, and at the end of the cut the
		// bearing is nearest to the work.
		depth, when := k.end+in.At-b.CutterAt, fmt.Sprintf(" when the cut in %q ends", k.station.Name)
		if b.FeedBy == process.QuillFeed {
			depth, when = in.At-b.Standoff, ""
		}
		begin, begins := first.From, fmt.Sprintf("%q begins", first.Name)
		if c.j.Through > 0 && begin > 0 {
			begin, begins = 0, "the face lies"
		}
		if depth > begin {
			c.Badf(key, fmt.Sprintf("it must stand at most %s from the nose", c.Len(in.At-depth+begin)),
				"the bearing would stand %s deep%s, but %s at %s%s", c.Len(depth), when, begins, c.Len(begin), c.from)
			return
		}
		if out := k.end - b.TipHome(); b.FeedBy == process.QuillFeed && out > in.At {
			c.Badf(key, fmt.Sprintf("it must stand at least %s from the nose, or the cutter further out along the bar", c.Len(out)),
				"the quill comes out by %s and would push the driver into the bearing, which stands %s from the nose", c.Len(out), c.Len(in.At))
			return
		}
	}
}
