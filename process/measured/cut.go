package measured

import (
	"borewright/process"
	"borewright/process/bar"
	"borewright/process/passes"
)

// springCut is one cut as the model sees it.
type springCut struct {
	set          float64 // radius the cutter was set to, mm; 0: not known
	heavy, light float64 // radii before
	c            float64 // compliance as stated, mm/N
	radial       func(depth float64) float64
	noise, again float64 // standard deviations: mm, and as a fraction of the spring
}

func newCut(r *passes.Planner, job *process.Job, e process.Measured, heavy, light float64) springCut {
	l := job.Limits
	speed := float64(e.Speed.At(e.Setting))
	c := springCut{
		set: e.Setting.MM() / 2, heavy: heavy, light: light, c: r.Compliance(),
		radial: func(a float64) float64 { return r.Radial(a, e.Feed.MM(), speed) },
		noise:  passes.BySquares(l.SettingError.MM(), l.GaugeError.MM(), r.Warm()) / sigmas, again: passes.SpringRepeats / sigmas,
	}
	if e.Feed <= 0 || e.Speed <= 0 || c.set <= heavy {
		c.set = 0
	}
	return c
}

// spring is the spring on diameter that the gauge should see at a factor on
// c·F, and the radii that the cut leaves at the heavy and the light place.
func (c springCut) spring(factor float64) (spring, made, left float64) {
	give := factor * c.c
	made = c.heavy + bar.DepthFor(c.radial, give, c.set-c.heavy)
	left = passes.LeftBy(c.heavy, c.light, made, give, c.radial)
	return 2*c.set - made - left, made, left
}
