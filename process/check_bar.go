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
	if cuts := c.boredStations(); len(cuts) > 0 {
		c.checkSupport(cuts) // whether the bar gets there is the plan's to say
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
