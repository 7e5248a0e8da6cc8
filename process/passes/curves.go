package passes

import (
	"borewright/process"
	"borewright/process/pass"
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
		c := r.SpringCurve(places, q, rLeast, rMost)
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
	n := len(v.Passes)
	if !ok || n < 2 || r.Visit.Passes[n-1].Kind != schedule.Finish {
		return schedule.SizeDoubt{}, false
	}
	q, before := &r.Visit.Passes[n-1], &r.Visit.Passes[n-2]
	was := r.in(n - 2)
	r = r.in(n - 1)
	c, semi := r.planned(q), was.planned(before)
	d := r.AfterMeasuring(was.SwingsOf(semi), r.SwingsOf(c), r.wears.Moves(n-2))
	return r.SizeDoubt(q, c, semi, d, r.AcrossOf(q, c)), true
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
