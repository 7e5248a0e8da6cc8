package files

import (
	"borewright/process"
	"borewright/process/field/keys"
)

// Again completes a job that was read and then changed: what follows from other keys
// is worked out anew where neither its file nor the change states it, and bar, cutter
// and sleeve are checked as those of a file are. stated are the paths of the keys that
// the change writes. The error is as of Job.
func Again(j *process.Job, stated ...string) error {
	if j.Places == nil {
		return nil // made by no file: it says all that there is
	}
	c := &checker{keys.Stated(j.File, j.Units, j.Places, stated), j}
	if !c.Given("bar.standoff") {
		j.Bar.Standoff = 0
	}
	c.fillBar()
	c.fillCutter()
	c.fillSleeve()
	if !c.Given("limits.setting_error") {
		j.Limits.SettingError, j.Limits.SettingUsual = j.UsualSettingError(), true
	}
	c.fillOverhang()
	c.checkBar()
	c.checkCutter()
	c.checkSleeve()
	return c.Err()
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
