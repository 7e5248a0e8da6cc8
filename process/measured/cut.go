package measured

import (
	"math"

	"borewright/process"
	"borewright/process/pass"
	"borewright/process/passes"
	"borewright/process/setup"
)

// springCut is one pass as the model sees it.
type springCut struct {
	set           float64                                 // radius the cutter was set to, mm; 0: not known
	rLeast, rMost float64                                 // radii before
	strokes       func(factor, feed float64) setup.Stroke // with the push, and the feed force besides, so many times as stated
	noise, again  float64                                 // standard deviations: mm, and as a fraction of the spring
}

func newCut(r *passes.Planner, job *process.Job, e process.Measured, rLeast, rMost float64) springCut {
	l := job.Limits
	set := l.SettingError.MM()
	if job.Cutter.SetBy == process.Increment { // then where the cutter stands is learned apart
		set = 0
	}
	bare := r.Middle.By(1/r.Factor, 1/r.Feed)
	speed := float64(e.Speed.At(e.Setting))
	edge := r.Edge // as the job begins with it
	if e.Land > 0 {
		edge = r.Worn(e.Land.MM())
	}
	c := springCut{
		set: e.Setting.MM() / 2, rLeast: rLeast, rMost: rMost,
		strokes: func(factor, feed float64) setup.Stroke {
			return edge.Stroke(bare.By(factor, feed), e.Feed.MM(), speed, e.Setting.MM()/2, e.WayOut == process.FeedOut)
		},
		noise: pass.BySquares(set, l.GaugeError.MM(), r.Warm()) / sigmas, again: pass.SpringRepeats / sigmas,
	}
	if e.Feed <= 0 || e.Speed <= 0 || c.set <= rLeast {
		c.set = 0
		return c
	}
	// A way out shallower than the edge cuts for certain may have cut or rubbed:
	// the size is one of two, as likely either, that lie 2·out apart.
	if _, out := c.strokes(1, 1).Take(c.set, rLeast); out < r.LeastDepth() {
		c.noise = pass.BySquares(c.noise, out)
	}
	return c
}

// spring is the spring on diameter that the gauge should see at a factor on
// the push and one more on feed force, and the least and the most radius that the pass
// leaves.
func (c springCut) spring(factor, feed float64) (spring, made, left float64) {
	s := c.strokes(factor, feed)
	in, out := s.Take(c.set, c.rLeast)
	made = c.rLeast + in + out
	left = s.Left(c.rLeast, c.rMost, made)
	return 2*c.set - made - left, made, left
}

// byFeed is by how much that spring grows for a feed force larger by the whole of it.
func (c springCut) byFeed(factor, feed float64) float64 {
	const step = 1e-3
	at, _, _ := c.spring(factor, feed)
	more, _, _ := c.spring(factor, feed*(1+step))
	return (more - at) / step
}

// push is how far the cut that a pass ends with pushes the tip off, mm, at a pair of factors, at
// the depth that it has at another.
func (c springCut) push(atFactor, atFeed, factor, feed float64) float64 {
	in, out := c.strokes(atFactor, atFeed).Take(c.set, c.rLeast)
	if s := c.strokes(factor, feed); s.Out == nil {
		return s.In(in)
	} else {
		return s.Out(out)
	}
}

// beyond is by how much more the tip springs, on diameter, for each millimetre on
// diameter that it stands beyond its setting.
func (c springCut) beyond(factor, feed float64) float64 {
	const step = 1e-3
	at, _, _ := c.spring(factor, feed)
	c.set += step / 2
	more, _, _ := c.spring(factor, feed)
	return (more - at) / step
}

// seenAt is the spring on diameter by the model, with nothing learned, of the pass
// that leaves a bore of such a radius, mm.
func (c springCut) seenAt(made float64) float64 {
	stroke := c.strokes(1, 1)
	in, out := stroke.Split(math.Max(0, made-c.rLeast))
	if stroke.Out != nil {
		return 2 * stroke.Out(out)
	}
	return 2 * stroke.In(in)
}
