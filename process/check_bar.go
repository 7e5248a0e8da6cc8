package process

import (
	"fmt"

	"borewright/process/qty"
)

// bored is one bore as the bar meets it.
type bored struct {
	station *Station
	end     qty.Length // depth the tip goes to, without run-out
}

func (c *checker) boredStations() []bored {
	var all []bored
	for _, b := range c.j.Bores {
		if s := c.at(b.Station); s != nil && s.To > s.From {
			all = append(all, bored{s, s.To})
		}
	}
	return all
}

func (c *checker) checkBar() {
	b := &c.j.Bar
	whole := c.given["bar.steps"] && len(b.Steps) > 0 // every step has a size
	for i, s := range b.Steps {
		at := el("bar.steps", i)
		if !c.has(at+".diameter", at+".length") {
			whole = false
			continue
		}
		if s.Hole >= s.Diameter {
			c.badf(at+".hole", "the hole must be smaller than the step", "%s in a step of %s", c.dia(s.Hole), c.dia(s.Diameter))
		}
	}
	if m := c.j.Machine; m != nil {
		if len(b.Steps) > 0 && c.has("bar.steps[0].diameter") && b.Steps[0].Diameter > m.Nose {
			c.badf("bar.steps[0].diameter", "the first step stands in the spindle nose and cannot be larger", "%s is larger than the spindle nose of %s, %s", c.dia(b.Steps[0].Diameter), m.ID, c.dia(m.Nose))
		}
		if !m.CanFeed(b.FeedBy) && len(m.FeedBy) > 0 {
			key := "bar.feed_by"
			if !c.given[key] {
				key = "bar"
			}
			c.badf(key, fmt.Sprintf("write feed_by = %q", m.FeedBy[0].String()), "%s cannot feed by the %s", m.ID, b.FeedBy)
		}
	}
	if !whole {
		return
	}
	if b.CutterAt > b.Stickout() {
		c.badf("bar.cutter_at", "it counts from the spindle nose, and cannot be more than all steps together",
			"%s is beyond the end of the bar, %s", c.len(b.CutterAt), c.len(b.Stickout()))
		return
	}
	if c.badly("bar.cutter_at") || c.badly("bar.standoff") {
		return
	}
	cuts := c.boredStations()
	if len(cuts) == 0 {
		return
	}
	c.checkReach(cuts)
	c.checkPassage(cuts)
	c.checkBlindEnd(cuts)
	c.checkSupport(cuts)
}

// checkReach sees that the tip gets to the end of each bore before the nose
// gets to the face, or the quill to the end of its travel.
func (c *checker) checkReach(cuts []bored) {
	b, m := &c.j.Bar, c.j.Machine
	key := "bar.steps"
	if c.given["bar.cutter_at"] {
		key = "bar.cutter_at"
	}
	deepest := cuts[0]
	for _, k := range cuts {
		if k.end > deepest.end {
			deepest = k
		}
	}
	past := c.j.Cutter.NoseRadius
	if b.FeedBy == TableFeed {
		need := deepest.end + past + c.j.leastRoom()
		if b.CutterAt >= need || m != nil && c.noseEnters(deepest.end+past-b.CutterAt+c.j.leastRoom()) {
			return
		}
		c.badf(key, fmt.Sprintf("the tip must stand at least %s from the nose (end of the bore, nose radius, and %s of room)", c.len(need), c.len(c.j.leastRoom())),
			"the tip stands %s from the spindle nose, and %q ends %s deep: the nose would strike the face", c.len(b.CutterAt), deepest.station.Name, c.len(deepest.end))
		return
	}
	first := cuts[0].station
	for _, k := range cuts {
		if k.station.From < first.From {
			first = k.station
		}
	}
	if flush := b.CutterAt - b.Standoff; flush > first.From {
		c.badf("bar.standoff", fmt.Sprintf("stand off at least %s, or leave standoff out", c.len(b.CutterAt-first.From)),
			"with the quill home the tip already stands %s deep, inside %q", c.len(flush), first.Name)
	}
	if m == nil || m.QuillTravel == 0 {
		return
	}
	// What of the bar is quill already drawn out counts against its travel.
	out := deepest.end + past + b.Standoff - b.CutterAt
	if b.Steps[0].Diameter == m.Quill {
		out += b.Steps[0].Length
	}
	if out > m.QuillTravel {
		c.badf(key, "use a longer bar, a smaller standoff, or feed by the table",
			"the quill would have to come out %s to reach the end of %q; %s has %s", c.len(out), deepest.station.Name, m.ID, c.len(m.QuillTravel))
	}
}

// noseEnters reports that the spindle nose itself fits through all stations it
// would meet at this depth.
func (c *checker) noseEnters(depth qty.Length) bool {
	for _, s := range c.j.Stations {
		if s.From < depth && s.Diameter <= c.j.Machine.Nose.Plus(2*c.j.leastRoom()) {
			return false
		}
	}
	return true
}

// checkPassage sees that every step fits through every station it meets on
// the way to the end of the deepest bore.
func (c *checker) checkPassage(cuts []bored) {
	b := &c.j.Bar
	var end qty.Length
	for _, k := range cuts {
		end = max(end, k.end)
	}
	var root qty.Length // distance of the step's end from the nose
	for i, step := range b.Steps {
		root += step.Length
		reach := end - b.CutterAt + root
		for n, s := range c.j.Stations {
			if s.From >= reach || !c.has(el("station", n)+".from", el("station", n)+".diameter") {
				continue
			}
			size, what := c.narrowest(n)
			if step.Diameter < size {
				continue
			}
			c.badf(el("bar.steps", i)+".diameter", "use a thinner bar, or a longer slender part",
				"%s goes %s deep and must enter %q, which is %s%s", c.dia(step.Diameter), c.len(reach), s.Name, c.dia(size), what)
			break
		}
	}
	if m := c.j.Machine; b.FeedBy == QuillFeed && m != nil {
		reach := end - b.CutterAt
		for n, s := range c.j.Stations {
			if size, what := c.narrowest(n); s.From < reach && m.Quill >= size && size > 0 {
				c.badf("bar.feed_by", "use a longer bar, or feed by the table",
					"the quill, %s, follows %s deep and must enter %q, which is %s%s", c.dia(m.Quill), c.len(reach), s.Name, c.dia(size), what)
				break
			}
		}
	}
}

// narrowest is the smallest a station gets during the job: with a sleeve in
// it, that is before the sleeve is bored.
func (c *checker) narrowest(station int) (qty.Diameter, string) {
	s := c.j.Stations[station]
	for _, b := range c.j.Bores {
		if b.Station != station || b.Repair != SleeveRepair || c.j.Sleeve == nil || b.Finish.Low == 0 || c.j.Sleeve.Finish == FinishBefore {
			continue
		}
		if inside := b.Finish.Low.Plus(-c.j.Sleeve.Allowance); inside < s.Diameter {
			return inside, " with the sleeve in it"
		}
	}
	return s.Diameter, ""
}

// checkBlindEnd sees that the free end of the bar does not strike a closed
// bottom in front of the tip.
func (c *checker) checkBlindEnd(cuts []bored) {
	b := &c.j.Bar
	last := c.j.Stations[len(c.j.Stations)-1]
	over := b.Stickout() - b.CutterAt
	if !last.Blind || over == 0 {
		return
	}
	for _, k := range cuts {
		if end, bottom := k.end+over, last.To+last.Relief; end > bottom {
			c.badf("bar.cutter_at", fmt.Sprintf("the cutter must stand at least %s from the nose, or the bar end sooner", c.len(b.CutterAt+end-bottom)),
				"the bar goes on %s past the cutter and would strike the bottom of %q before %q is bored to its end", c.len(over), last.Name, k.station.Name)
			return
		}
	}
}

// checkSupport sees that the outboard bearing carries the bar beyond the work
// during the whole of every cut.
func (c *checker) checkSupport(cuts []bored) {
	b := &c.j.Bar
	o := b.Outboard
	if o == nil || !c.has("bar.outboard.at") {
		return
	}
	const key = "bar.outboard.at"
	last := c.j.Stations[len(c.j.Stations)-1]
	switch {
	case last.Blind:
		c.bad("bar.outboard", fmt.Sprintf("the bar cannot come out to a bearing: %q is closed", last.Name), "leave outboard out, or the line is not blind")
	case o.At > b.Stickout():
		c.badf(key, "lengthen the bar, or bring the bearing nearer", "the bearing stands %s from the nose, beyond the end of the bar, %s", c.len(o.At), c.len(b.Stickout()))
	case o.At <= b.CutterAt:
		c.badf(key, "the bearing stands beyond the cutter", "the bearing stands %s from the nose, the cutter %s", c.len(o.At), c.len(b.CutterAt))
	default:
		for _, k := range cuts {
			// Table feed: bearing and tip keep their distance, and at the
			// mouth of the bore the bearing is nearest to the work.
			depth, when := k.station.From+o.At-b.CutterAt, fmt.Sprintf(" when the cut in %q begins", k.station.Name)
			if b.FeedBy == QuillFeed {
				depth, when = o.At-b.Standoff, ""
			}
			if depth < last.To {
				c.badf(key, fmt.Sprintf("it must stand at least %s from the nose", c.len(o.At+last.To-depth)),
					"the bearing would stand %s deep%s, but %q ends at %s", c.len(depth), when, last.Name, c.len(last.To))
				return
			}
		}
	}
}

func (c *checker) checkCutter() {
	k := &c.j.Cutter
	if c.has("cutter.lead", "cutter.trail") && k.Lead+k.Trail > 150 {
		c.badf("cutter.trail", "lead and trail together are at most 150°", "lead %s° and trail %s° leave a point of %s°", number(k.Lead), number(k.Trail), number(180-k.Lead-k.Trail))
	}
	if k.Material != nil {
		for _, w := range []struct {
			key string
			m   *Material
		}{{"material", c.j.Material}, {"sleeve.material", c.sleeveMaterial()}} {
			if w.m == nil {
				continue
			}
			if _, ok := w.m.Speeds[k.Material.Class]; !ok && (k.SpeedRough == 0 || k.SpeedFinish == 0) {
				c.badf("cutter.material", "choose another, or write cutter.speed = { rough = …, finish = … }", "%s has no cutting speeds for %s", w.m.ID, k.Material.ID)
			}
		}
	}
	if c.has("cutter.speed.rough") != c.has("cutter.speed.finish") && !c.badly("cutter.speed.rough") && !c.badly("cutter.speed.finish") {
		c.bad("cutter.speed", "gives only one of rough and finish", "give both")
	}
	if c.badly("cutter.least") || c.badly("cutter.most") || k.Least == 0 || k.Most == 0 {
		return
	}
	if k.Least >= k.Most {
		c.badf(c.nearKey("cutter.most", "cutter.least"), "the least is below the most", "can be set from %s to %s only", c.dia(k.Least), c.dia(k.Most))
		return
	}
	least, most, whatLeast, whatMost := c.sizes()
	if least > 0 && least < k.Least {
		c.badf(c.nearKey("cutter.least", "cutter"), c.unstated("cutter.least", "use a thinner bar, or state the true least", "1.06"),
			"the cutter cannot be set below %s, and %s is %s", c.dia(k.Least), whatLeast, c.dia(least))
	}
	if most > k.Most {
		c.badf(c.nearKey("cutter.most", "cutter"), c.unstated("cutter.most", "use a longer cutter or a thicker bar, or state the true most", "1.6"),
			"the cutter cannot be set above %s, and %s is %s", c.dia(k.Most), whatMost, c.dia(most))
	}
}

func (c *checker) sleeveMaterial() *Material {
	if c.j.Sleeve == nil {
		return nil
	}
	return c.j.Sleeve.Material
}

// nearKey is the first key when it was given, else the other.
func (c *checker) nearKey(key, other string) string {
	if c.given[key] {
		return key
	}
	return other
}

func (c *checker) unstated(key, allowed, factor string) string {
	if c.given[key] {
		return allowed
	}
	return fmt.Sprintf("%s is not stated, so %s × the bar was taken: write %s = … if the cutter does reach", key, factor, key)
}

// sizes are the smallest and largest sizes that the cutter is set to for a
// finished size, with what they are in words.
func (c *checker) sizes() (least, most qty.Diameter, whatLeast, whatMost string) {
	see := func(d qty.Diameter, what string) {
		if d == 0 {
			return
		}
		if least == 0 || d < least {
			least, whatLeast = d, what
		}
		if d > most {
			most, whatMost = d, what
		}
	}
	for _, b := range c.j.Bores {
		s := c.at(b.Station)
		if s == nil {
			continue
		}
		if b.Repair == Rebore || c.j.Sleeve == nil || c.j.Sleeve.Finish != FinishBefore { // else the lathe makes the size
			see(b.Finish.Low, "the low limit of "+quoted([]string{s.Name}))
			see(b.Finish.High, "the high limit of "+quoted([]string{s.Name}))
		}
		if b.Repair == SleeveRepair && c.j.Sleeve != nil {
			see(c.j.Sleeve.Outside, "the housing for the sleeve in "+quoted([]string{s.Name}))
		}
	}
	return
}
