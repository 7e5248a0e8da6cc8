package passes

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// What follows are the plan's figures as rows of points, for those who would
// rather look than read. They are worked out with the same limits as the
// passes and change nothing.

// Springs gives spring and size against depth for every pass of a visit. The
// cutter stays set; where the quill feeds, the bar gives more with depth.
func (s *Planning) Springs(v schedule.Visit, st process.Station) []schedule.SpringCurve {
	r, ok := s.again(v, st)
	if !ok {
		return nil
	}
	places, err := r.Between(r.Visit.From, r.Visit.To)
	if err != nil {
		return nil
	}
	rLeast, rMost := r.rLeast, r.rMost
	var curves []schedule.SpringCurve
	for i := range r.Visit.Passes {
		q, r := &r.Visit.Passes[i], r.in(i)
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
		curves = append(curves, c)
		rLeast, rMost = r.after(q, rLeast, rMost)
	}
	return curves
}

// Quiet gives the margin against chatter over spindle speed for every pass of a visit.
func (s *Planning) Quiet(v schedule.Visit, st process.Station) []schedule.QuietCurve {
	r, ok := s.again(v, st)
	if !ok {
		return nil
	}
	return pass.QuietCurves(r.Edge, r.Visit, s.Job.Machine.Speeds)
}

// SizeBudget gives the budget of the finish pass of a visit; false when it has
// no finish that follows a measured pass.
func (s *Planning) SizeBudget(v schedule.Visit, st process.Station) (schedule.SizeDoubt, bool) {
	r, ok := s.again(v, st)
	n := 0
	if ok {
		n = len(r.Visit.Passes)
	}
	if n < 2 || r.Visit.Passes[n-1].Kind != schedule.Finish {
		return schedule.SizeDoubt{}, false
	}
	q, before := &r.Visit.Passes[n-1], &r.Visit.Passes[n-2]
	was := r.in(n - 2)
	r = r.in(n - 1)
	c, semi := r.planned(q), was.planned(before)
	d := r.AfterMeasuring(was.SwingsOf(semi), r.SwingsOf(c), r.wears.moves(n-2))
	b := schedule.SizeDoubt{Pass: q.N, Allowed: r.Visit.Limits.High.Minus(r.Visit.Limits.Low) / 2}
	taper, across := q.Taper.MM()/2+r.WearTaper(c), r.across(q, c)
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
	return b, true
}

// again prepares a planned visit once more; false when it has no passes.
func (s *Planning) again(v schedule.Visit, st process.Station) (*Planner, bool) {
	end := v.End
	if len(v.Passes) == 0 || v.Material == nil {
		return nil, false
	}
	r, err := s.Prepare(&v, st, false) // of a copy: preparing writes to it
	if err != nil {
		return nil, false
	}
	v.End = end
	for i := range v.Passes {
		r.wears = append(r.wears, v.Passes[i].Edge)
	}
	return r, true
}
