package files

import (
	"fmt"

	"borewright/process"
	"borewright/process/bearings"
	"borewright/process/qty"
	"borewright/process/source"
)

func (c *checker) checkBar() {
	b := &c.j.Bar
	whole := c.Given("bar.steps") && len(b.Steps) > 0 // every step has a size
	for i, s := range b.Steps {
		at := source.El("bar.steps", i)
		if !c.Has(at+".diameter", at+".length") {
			whole = false
			continue
		}
		if s.Hole >= s.Diameter {
			c.Badf(at+".hole", "the hole must be smaller than the step", "%s in a step of %s", c.Dia(s.Hole), c.Dia(s.Diameter))
		}
	}
	if m := c.j.Machine; m != nil {
		if len(b.Steps) > 0 && c.Has("bar.steps[0].diameter") && b.Steps[0].Diameter > m.Nose {
			c.Badf("bar.steps[0].diameter", "the first step stands in the spindle nose and cannot be larger", "%s is larger than the spindle nose of %s, %s", c.Dia(b.Steps[0].Diameter), m.ID, c.Dia(m.Nose))
		}
		if !m.CanFeed(b.FeedBy) && len(m.FeedBy) > 0 {
			key := "bar.feed_by"
			if !c.Given(key) {
				key = "bar"
			}
			c.Badf(key, fmt.Sprintf("write feed_by = %q", m.FeedBy[0].String()), "%s cannot feed by the %s", m.ID, b.FeedBy)
		}
	}
	if !whole {
		return
	}
	if b.CutterAt > b.Stickout() {
		c.Badf("bar.cutter_at", "it counts from the spindle nose, and cannot be more than all steps together",
			"%s is beyond the end of the bar, %s", c.Len(b.CutterAt), c.Len(b.Stickout()))
		return
	}
	if c.Badly("bar.cutter_at") || c.Badly("bar.standoff") {
		return
	}
	c.checkStickout()
	bearings.Check(c.Reader, c.j) // whether the bar gets there is the plan's to say
}

// checkStickout sees that a bar can be clamped as it says, and the quill drawn out.
func (c *checker) checkStickout() {
	b := c.j.Bar
	if b.Stands[1] > 0 {
		if b.Outboard != nil {
			c.Bad("bar.stickout", "a bar of any stickout ends in the air, and this one runs in a bearing", "it stands as steps has it: leave stickout out")
		} else if left := b.LeastLeft(); left <= 0 {
			c.Badf("bar.stickout", tooFarIn, "of the slender step nothing would stand out at %s", c.Len(b.Stands[0]))
		}
	}
	if m := c.j.Machine; b.QuillOut > 0 && m != nil {
		switch {
		case b.FeedBy == process.QuillFeed:
			c.Bad("bar.quill_out", "is for table feed", "the quill that feeds comes out by itself: leave it out")
		case b.Outboard != nil:
			c.Bad("bar.quill_out", "the quill is drawn out for a bar that ends in the air, and this one runs in a bearing", "leave it out")
		case b.QuillOut > m.QuillTravel:
			c.Badf("bar.quill_out", "the quill of "+m.ID+" comes out "+c.Len(m.QuillTravel)+" at the most", "%s is further", c.Len(b.QuillOut))
		}
	}
}

const tooFarIn = "the least is what steps add up to less the length of the slender step, and more"

func (c *checker) checkCutter() {
	k := &c.j.Cutter
	if c.Has("cutter.lead", "cutter.trail") {
		checkPoint(c.Reader, "cutter", *k)
	}
	if k.Material != nil {
		for _, w := range []struct {
			key string
			m   *process.Material
		}{{"material", c.j.Material}, {"sleeve.material", c.sleeveMaterial()}} {
			if w.m == nil {
				continue
			}
			if _, ok := w.m.Speeds[k.Material.Class]; !ok && (k.SpeedRough == 0 || k.SpeedFinish == 0) {
				c.Badf("cutter.material", "choose another, or write cutter.speed = { rough = …, finish = … }", "%s has no cutting speeds for %s", w.m.ID, k.Material.ID)
			}
		}
	}
	if c.Has("cutter.speed.rough") != c.Has("cutter.speed.finish") && !c.Badly("cutter.speed.rough") && !c.Badly("cutter.speed.finish") {
		c.Bad("cutter.speed", "gives only one of rough and finish", "give both")
	}
	c.checkMeasuredBar()
	if c.Badly("cutter.least") || c.Badly("cutter.most") || k.Least == 0 || k.Most == 0 {
		return
	}
	if k.Least >= k.Most {
		c.Badf(c.nearKey("cutter.most", "cutter.least"), "the least is below the most", "can be set from %s to %s only", c.Dia(k.Least), c.Dia(k.Most))
		return
	}
	least, most, whatLeast, whatMost := c.sizes()
	if least > 0 && least < k.Least {
		c.Badf(c.nearKey("cutter.least", "cutter"), c.unstated("cutter.least", "use a thinner bar, or state the true least", "1.06"),
			"the cutter cannot be set below %s, and %s is %s", c.Dia(k.Least), whatLeast, c.Dia(least))
	}
	if most > k.Most {
		c.Badf(c.nearKey("cutter.most", "cutter"), c.unstated("cutter.most", "use a longer cutter or a thicker bar, or state the true most", "1.6"),
			"the cutter cannot be set above %s, and %s is %s", c.Dia(k.Most), whatMost, c.Dia(most))
	}
}

// checkMeasuredBar sees that the bar as measured is the bar of the steps: a slip
// there is a slip in every reading over bar and tip. A bar is ground to within
// hundredths of a millimetre; one in a hundred leaves room for wear.
func (c *checker) checkMeasuredBar() {
	const key = "cutter.bar"
	k, at := &c.j.Cutter, c.j.Bar.StepAt(c.j.Bar.CutterAt)
	if !c.Given(key) || !c.Has(key) || at < 0 || !c.Given("bar.steps") {
		return
	}
	step := c.j.Bar.Steps[at].Diameter
	if apart := k.Bar.Minus(step).Abs(); step > 0 && apart > step.Length()/100 {
		c.Badf(key, "measure it where the micrometer rests, or mend the step", "%s stands beside a step of %s at the cutter", c.Dia(k.Bar), c.Dia(step))
	}
	if k.SetBy == process.Preset {
		c.Bad(key, "is what a micrometer rests on, and this cutter is set to a gauge", `write set_by = "over_bar", or leave bar out`)
	}
}

func (c *checker) sleeveMaterial() *process.Material {
	if c.j.Sleeve == nil {
		return nil
	}
	return c.j.Sleeve.Material
}

// nearKey is the first key when it was given, else the other.
func (c *checker) nearKey(key, other string) string {
	if c.Given(key) {
		return key
	}
	return other
}

func (c *checker) unstated(key, allowed, factor string) string {
	if c.Given(key) {
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
		if s == nil || b.CutBy != nil && b.CutBy.Cutter != c.j.Cutter { // with another
			continue
		}
		if b.Repair == process.Rebore || c.j.Sleeve == nil || c.j.Sleeve.Finish != process.FinishBefore { // else the lathe makes the size
			see(b.Finish.Low, "the low limit of "+source.Quoted([]string{s.Name}))
			see(b.Finish.High, "the high limit of "+source.Quoted([]string{s.Name}))
		}
		if b.Repair == process.SleeveRepair && c.j.Sleeve != nil {
			see(c.j.Sleeve.Outside, "the housing for the sleeve in "+source.Quoted([]string{s.Name}))
		}
	}
	return
}
