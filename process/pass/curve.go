package pass

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// SpringCurve gives spring and size against depth for one pass, from a bore of a least and a most
// radius, mm.
func (r *Judge) SpringCurve(places []setup.Place, q *schedule.Pass, rLeast, rMost float64) schedule.SpringCurve {
	c := schedule.SpringCurve{Pass: q.N, Kind: q.Kind}
	for k, at := range places {
		if q.Band != nil && at.Depth > q.Band.To {
			if k > 0 && places[k-1].Depth >= q.Band.To {
				break
			}
			at.Depth = q.Band.To
		}
		stroke := r.Stroke(at.Give, q.Feed.MM(), float64(q.Cutting), q.Setting.MM()/2, q.Out.By == process.FeedOut)
		in, out := stroke.Take(q.Setting.MM()/2, rLeast)
		made := rLeast + in + out
		spring := stroke.In(in)
		if stroke.Out != nil {
			spring = stroke.Out(out)
		}
		size := made + stroke.Left(rLeast, rMost, made)
		if q.Band != nil { // it is gauged where it cut
			size = 2 * made
		}
		c.Points = append(c.Points, schedule.SpringPoint{Depth: at.Depth, Spring: qty.FromMM(2 * spring), Size: qty.DiameterMM(size)})
	}
	return c
}

// SizeDoubt is what a finish may be out by, part by part, with what is known after measuring and
// what its shape adds across the bore.
func (r *Judge) SizeDoubt(q *schedule.Pass, c, semi Cut, d Doubts, across float64) schedule.SizeDoubt {
	b := schedule.SizeDoubt{Pass: q.N, Allowed: r.Visit.Limits.High.Minus(r.Visit.Limits.Low) / 2}
	taper := q.Taper.MM()/2 + r.WearTaper(c)
	for _, part := range []struct {
		cause    fact.Kind
		mm       float64
		straight bool
	}{
		{schedule.DoubtSetting, d.Setting, false},
		{schedule.DoubtGauge, d.Gauge, false},
		{schedule.DoubtTemperature, d.Warm, false},
		{schedule.DoubtSpring, d.Repeat, false},
		{schedule.DoubtForce, d.Force, false},
		{schedule.DoubtWear, d.Wear, false},
		{schedule.DoubtTaper, taper, true},
		{schedule.DoubtShape, across, true},
	} {
		b.Parts = append(b.Parts, schedule.BudgetPart{Cause: part.cause, PlusMinus: qty.FromMM(part.mm), Straight: part.straight})
	}
	rubs := math.Abs(r.Rubs(c) - r.Rubs(semi))
	if c.Fed {
		b.Parts = append(b.Parts, schedule.BudgetPart{Cause: schedule.DoubtWayOut, PlusMinus: qty.FromMM(rubs), Straight: true})
	}
	b.Total = qty.FromMM(d.All() + taper + across + rubs)
	return b
}

// AcrossOf is by how much a two-point diameter of a planned pass stands above and below its middle.
func (r *Judge) AcrossOf(p *schedule.Pass, c Cut) float64 {
	return p.OutOfRound.MM() - r.Uneven(c) + r.Across(c)
}
