package passes

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
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

// Quiet gives the margin against chatter over spindle speed for every pass of
// a visit, at the middle of what damps it: spindle, land of the edge in that pass and
// indentation force. A machine with gears has a point for each gear near those used; on one with a
// range the speeds are even on a log scale.
//
// The boundary is the one under all lobes, bar.CutLimit, against the stiffness
// of the cut, cut.Model.Regen: on a boring mill lobes lie so close that nothing
// is gained between them. Slower is quieter, because the flank rubs on a
// shorter wave (process damping, see bar.Beam.ProcessDamping). There is no
// depth limit to draw: inside the nose radius a shallower cut is a stiffer one
// (the chip thins), and a deeper one rubs along more edge.
func (s *Planning) Quiet(v schedule.Visit, st process.Station) []schedule.QuietCurve {
	r, ok := s.again(v, st)
	if !ok {
		return nil
	}
	slow, fast := math.Inf(1), 0.0
	for _, q := range r.Visit.Passes {
		slow, fast = math.Min(slow, float64(q.Speed)), math.Max(fast, float64(q.Speed))
	}
	speeds := setup.SpeedsAround(s.Job.Machine.Speeds, slow/2.6, fast*2.6)
	var curves []schedule.QuietCurve
	for _, q := range r.Visit.Passes {
		at := r.QuietAt(q.Depth.MM(), q.Feed.MM(), q.Land)
		if at == nil {
			continue
		}
		margin := func(n float64) schedule.QuietPoint {
			return schedule.QuietPoint{Speed: qty.RevPerMin(n), Margin: at(float64(qty.RevPerMin(n).At(r.Visit.Limits.Aim))).Middle()}
		}
		c := schedule.QuietCurve{Pass: q.N, At: margin(float64(q.Speed))}
		for _, n := range speeds {
			c.Points = append(c.Points, margin(n))
		}
		curves = append(curves, c)
	}
	return curves
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
