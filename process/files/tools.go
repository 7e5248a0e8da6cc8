package files

import (
	"fmt"
	"maps"
	"slices"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/field/keys"
	"borewright/process/qty"
	"borewright/process/source"
)

// named takes bar and cutter from the shop's lists where the job names them there, and notes
// what it leaves to be chosen. What the job states of them goes over what the list says.
func (c *checker) named() {
	c.take(c.namedBar(), c.namedCutter())
}

// namedBar is the bar of the list that the job names; nil where it states its own or leaves it
// open.
func (c *checker) namedBar() *process.ShopBar {
	if c.Given("bar.steps") || len(c.j.Shop) == 0 {
		return nil
	}
	if c.j.Bar.Name == "" {
		c.j.Open.Bar = true
		return nil
	}
	return byName(c, "bar.name", "bar", c.j.Bar.Name, c.j.Shop, func(b process.ShopBar) string { return b.Name })
}

// namedCutter is the same of the cutter.
func (c *checker) namedCutter() *process.ShopCutter {
	if c.Given("cutter.material") && c.Given("cutter.nose_radius") {
		return nil
	}
	switch {
	case len(c.j.Drawer) == 0 && len(c.j.Shop) == 0: // said already
	case len(c.j.Drawer) == 0 && !c.Given("cutter"):
		c.Add(source.Pos{Line: 1, Col: 1}, "cutter", "is missing", "write [cutter] with material, nose_radius, or list cutters in the file that bars names")
	case len(c.j.Drawer) == 0:
		c.Bad("cutter", "has no material or no nose_radius, and no cutters are listed", "write both, or list cutters in the file that bars names")
	case c.j.Cutter.Name == "":
		c.j.Open.Cutter = true
	default:
		return byName(c, "cutter.name", "cutter", c.j.Cutter.Name, c.j.Drawer, func(k process.ShopCutter) string { return k.Name })
	}
	return nil
}

// byName finds an entry of a list; nil, and told, where there is none.
func byName[T any](c *checker, key, what, name string, list []T, called func(T) string) *T {
	var names []string
	for i := range list {
		if called(list[i]) == name {
			return &list[i]
		}
		names = append(names, called(list[i]))
	}
	allowed := "take one of " + source.Quoted(names)
	if n := source.Nearest(name, names); n != "" {
		allowed = fmt.Sprintf("did you mean %q? ", n) + "Take one of " + source.Quoted(names)
	}
	c.Bad(key, fmt.Sprintf("there is no %s %q on the list", what, source.Show(name)), allowed)
	return nil
}

// take puts a bar and a cutter of the lists into the job; nil: it has its own, or it stays open.
func (c *checker) take(bar *process.ShopBar, cutter *process.ShopCutter) {
	j := c.j
	var least, most qty.Diameter
	if bar != nil {
		own := j.Bar
		j.Bar = bar.Bar
		j.Bar.Steps = slices.Clone(bar.Steps)
		j.Bar.FeedBy, j.Bar.Standoff, j.Bar.Outboard, j.Bar.Inboard = own.FeedBy, own.Standoff, own.Outboard, own.Inboard
		j.Bar.QuillOut = own.QuillOut
		switch {
		case !c.Given("bar.cutter_at"):
		case j.Bar.Stands[1] > 0:
			c.clamp(own.CutterAt)
		default:
			j.Bar.CutterAt = own.CutterAt
		}
		for i := range j.Bar.Steps {
			at := source.El("bar.steps", i)
			c.listed("bars", at, at+".diameter", at+".length")
		}
		c.listed("bars", "bar", "bar.name", "bar.steps", "bar.cutter_at")
		least, most = bar.Least, bar.Most
	}
	if cutter != nil {
		own := j.Cutter
		j.Cutter = cutter.Cutter
		list := "cutters"
		if !c.Given(list) {
			list = "bars"
		}
		for _, k := range []struct {
			key  string
			keep func()
		}{
			{"material", func() { j.Cutter.Material = own.Material }}, {"nose_radius", func() { j.Cutter.NoseRadius = own.NoseRadius }},
			{"lead", func() { j.Cutter.Lead = own.Lead }}, {"trail", func() { j.Cutter.Trail = own.Trail }}, {"rake", func() { j.Cutter.Rake = own.Rake }},
			{"edge_radius", func() { j.Cutter.EdgeRadius = own.EdgeRadius }}, {"ahead", func() { j.Cutter.Ahead = own.Ahead }},
			{"behind", func() { j.Cutter.Behind = own.Behind }}, {"beside", func() { j.Cutter.Beside = own.Beside }}, {"set_by", func() { j.Cutter.SetBy = own.SetBy }},
		} {
			if path := "cutter." + k.key; c.Given(path) {
				k.keep()
			} else {
				c.listed(list, path)
			}
		}
		if c.Given("cutter.speed") {
			j.Cutter.SpeedRough, j.Cutter.SpeedFinish = own.SpeedRough, own.SpeedFinish
		} else if cutter.SpeedRough > 0 {
			c.listed(list, "cutter.speed", "cutter.speed.rough", "cutter.speed.finish")
		}
		j.Cutter.Land, j.Cutter.Bar = own.Land, own.Bar
		c.listed(list, "cutter", "cutter.name")
		least = max(least, cutter.Least)
		switch {
		case cutter.Most == 0:
		case bar == nil || bar.Usual:
			most = cutter.Most
		default:
			most = min(most, cutter.Most)
		}
		j.Cutter.Least, j.Cutter.Most = own.Least, own.Most
	}
	if least > 0 && !c.Given("cutter.least") {
		j.Cutter.Least = least
		c.listed("bars", "cutter.least")
	}
	if most > 0 && !c.Given("cutter.most") {
		j.Cutter.Most = most
		c.listed("bars", "cutter.most")
	}
}

// clamp sets a bar of the list, which can be clamped at any length, so that its tip stands where
// the job has it.
func (c *checker) clamp(tip qty.Length) {
	b := &c.j.Bar
	ahead := b.Stickout() - b.CutterAt
	if out := tip + ahead; out < b.Stands[0] || out > b.Stands[1] {
		c.Badf("bar.cutter_at", fmt.Sprintf("from %s to %s, or leave it out and it is chosen", c.Len(b.Stands[0]-ahead), c.Len(b.Stands[1]-ahead)),
			"the bar %s cannot be clamped with its tip %s from the nose", source.Show(b.Name), c.Len(tip))
	} else {
		*b = b.ClampedAt(out)
	}
	b.Stated = true
}

// listed counts keys as given, where a list has them: they stand where it is named.
func (c *checker) listed(list string, paths ...string) {
	for _, p := range paths {
		if _, is := c.j.Places[p]; !is {
			c.j.Places[p] = c.Place(list)
		}
		c.State(p)
	}
}

// With is a job with what it leaves open taken from the shop's lists: nil for what it has. The
// error is as of Job: what of it a job file could not have.
func With(job *process.Job, bar *process.ShopBar, cutter *process.ShopCutter) (*process.Job, error) {
	j := *job
	j.Places, j.Open = maps.Clone(job.Places), candidate.Open{}
	c := &checker{keys.Stated(j.File, j.Units, j.Places, nil, nil), &j}
	c.take(bar, cutter)
	c.fillTools()
	c.checkTools()
	return &j, c.Err()
}

// fillTools fills in what was left out of bar and cutter, once they are known, and the limits
// that follow from them.
func (c *checker) fillTools() {
	if c.j.Open.Any() {
		return
	}
	c.fillOwn()
	c.fillBores()
}

// fillOwn fills in bar and cutter of the job itself.
func (c *checker) fillOwn() {
	c.fillBar()
	c.fillCutter()
	c.j.Limits.SpringUsual = !c.Given("limits.spring_finish")
	if l := &c.j.Limits; !c.Given("limits.setting_error") && !c.Badly("limits.setting_error") {
		l.SettingError, l.SettingUsual = c.j.UsualSettingError(), true
	}
	c.fillOverhang()
}

// checkTools judges them.
func (c *checker) checkTools() {
	if c.j.Open.Any() {
		return
	}
	c.checkBar()
	c.checkCutter()
	c.checkBores()
}
