package pass

import (
	"math"

	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// QuietCurves are the margins against chatter over spindle speed, of every pass of a visit
// at the middle of what damps it: spindle, land of the edge in that pass and indentation
// force. A machine with gears has a point for each gear near those used; on one with a range
// the speeds are even on a log scale.
//
// The boundary is the one under all lobes, bar.CutLimit, against the stiffness
// of the cut, cut.Model.Regen: on a boring mill lobes lie so close that nothing
// is gained between them. Slower is quieter, because the flank rubs on a
// shorter wave (process damping, see bar.Beam.ProcessDamping). There is no
// depth limit to draw: inside the nose radius a shallower cut is a stiffer one
// (the chip thins), and a deeper one rubs along more edge.
func QuietCurves(e *setup.Edge, v *schedule.Visit, has process.Range) (curves []schedule.QuietCurve) {
	slow, fast := math.Inf(1), 0.0
	for _, q := range v.Passes {
		slow, fast = math.Min(slow, float64(q.Speed)), math.Max(fast, float64(q.Speed))
	}
	speeds := setup.SpeedsAround(has, slow/2.6, fast*2.6)
	for _, q := range v.Passes {
		at := e.QuietAt(q.Depth.MM(), q.Feed.MM(), q.Land)
		if at == nil {
			continue
		}
		margin := func(n float64) schedule.QuietPoint {
			return schedule.QuietPoint{Speed: qty.RevPerMin(n), Margin: at(float64(qty.RevPerMin(n).At(v.Limits.Aim))).Middle()}
		}
		c := schedule.QuietCurve{Pass: q.N, At: margin(float64(q.Speed))}
		for _, n := range speeds {
			c.Points = append(c.Points, margin(n))
		}
		curves = append(curves, c)
	}
	return curves
}
