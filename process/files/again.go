package files

import (
	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/source"
)

// Again completes a job that was read and has been changed since, and checks bar, cutter
// and sleeve as those of a file are. What followed from other keys as the job was, and is
// not stated, is worked out anew. stated are the paths of the keys that the change
// writes, without those that it takes out. The error is as of Job.
func Again(was, j *process.Job, stated, without []string) error {
	c := &checker{keys.Stated(j.File, j.Units, j.Places, stated, without), j}
	if j.Sleeve != nil { // its fit is written as the standard has it, and other jobs may share the sleeve
		s := *j.Sleeve
		j.Sleeve = &s
	}
	before := *was // what of it follows from other keys, worked out
	if was.Sleeve != nil {
		s := *was.Sleeve
		before.Sleeve = &s
	}
	d := &checker{keys.Stated(j.File, j.Units, j.Places, nil, nil), &before}
	d.follow()
	for path, follows := range map[string]bool{
		"bar.standoff":         before.Bar.Standoff == was.Bar.Standoff,
		"bar.cutter_at":        before.Bar.CutterAt == was.Bar.CutterAt,
		"cutter.rake":          before.Cutter.Rake == was.Cutter.Rake,
		"cutter.edge_radius":   before.Cutter.EdgeRadius == was.Cutter.EdgeRadius,
		"cutter.least":         before.Cutter.Least == was.Cutter.Least,
		"cutter.most":          before.Cutter.Most == was.Cutter.Most,
		"cutter.bar":           before.Cutter.Bar == was.Cutter.Bar,
		"limits.setting_error": before.Limits.SettingError == was.Limits.SettingError,
		"limits.overhang":      before.Limits.Overhang == was.Limits.Overhang,
	} {
		if !follows {
			c.State(path)
		}
	}
	if was.Sleeve != nil && before.Sleeve.Outside != was.Sleeve.Outside {
		c.State("sleeve.outside")
	}
	for i := range j.Bar.Steps { // another bar may have more
		at := source.El("bar.steps", i)
		c.State(at + ".diameter")
		c.State(at + ".length")
	}
	c.follow()
	c.checkBar()
	c.checkCutter()
	c.checkBores()
	c.checkSleeve()
	return c.Err()
}

// follow works out what follows from other keys where it is not stated.
func (c *checker) follow() {
	if !c.Given("bar.standoff") {
		c.j.Bar.Standoff = 0
	}
	c.fillTools()
	if c.j.Sleeve != nil && !c.Given("sleeve.outside") { // a change of how it is held writes its fit or its gap
		c.chooseOutside()
	}
}

// fillOverhang sets the caution on overhang by the slender part of the bar.
func (c *checker) fillOverhang() {
	steps := c.j.Bar.Steps
	if c.Given("limits.overhang") || len(steps) == 0 {
		return
	}
	thin := steps[0]
	for _, s := range steps {
		if s.Diameter < thin.Diameter {
			thin = s
		}
	}
	c.j.Limits.Overhang = thin.Material.Reach
}
