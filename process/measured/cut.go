package measured

import (
	"borewright/process"
	"borewright/process/bar"
	"borewright/process/passes"
)

// springCut is one cut as the model sees it.
type springCut struct {
	set           float64 // radius the cutter was set to, mm; 0: not known
	rLeast, rMost float64 // radii before
	c             float64 // compliance as stated, mm/N
	radial        func(depth float64) float64
	noise, again  float64 // standard deviations: mm, and as a fraction of the spring
}

func newCut(r *passes.Planner, job *process.Job, e process.Measured, rLeast, rMost float64) springCut {
	l := job.Limits
	speed := float64(e.Speed.At(e.Setting))
	c := springCut{
		set: e.Setting.MM() / 2, rLeast: rLeast, rMost: rMost, c: r.Compliance(),
		radial: func(a float64) float64 { return r.Radial(a, e.Feed.MM(), speed) },
		noise:  passes.BySquares(l.SettingError.MM(), l.GaugeError.MM(), r.Warm()) / sigmas, again: passes.SpringRepeats / sigmas,
	}
	if e.Feed <= 0 || e.Speed <= 0 || c.set <= rLeast {
		c.set = 0
	}
	return c
}

// spring is the spring on diameter that the gauge should see at a factor on
// c·F, and the least and the most radius that the cut leaves.
func (c springCut) spring(factor float64) (spring, made, left float64) {
	give := factor * c.c
	made = c.rLeast + bar.DepthFor(c.radial, give, c.set-c.rLeast)
	left = passes.LeftBy(c.rLeast, c.rMost, made, give, c.radial)
	return 2*c.set - made - left, made, left
}
