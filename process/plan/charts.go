package plan

import (
	"borewright/process"
	"borewright/process/faces"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Springs gives spring and size against depth for every pass of a visit.
func (p *Plan) Springs(bore, visit int) []schedule.SpringCurve {
	s, v := p.planning(bore, visit)
	if s == nil {
		return nil
	}
	return s.Springs(v.Visit, p.Bores[bore].Station)
}

// Quiet gives the margin against chatter over spindle speed for every pass of a
// visit.
func (p *Plan) Quiet(bore, visit int) []schedule.QuietCurve {
	s, v := p.planning(bore, visit)
	if s == nil {
		return nil
	}
	return s.Quiet(v.Visit, p.Bores[bore].Station)
}

// SizeBudget gives the budget of the finish pass of a visit; false when it has
// no finish that follows a measured pass.
func (p *Plan) SizeBudget(bore, visit int) (schedule.SizeDoubt, bool) {
	s, v := p.planning(bore, visit)
	if s == nil {
		return schedule.SizeDoubt{}, false
	}
	return s.SizeBudget(v.Visit, p.Bores[bore].Station)
}

// planning is what a visit was planned with; nil where its job does not say.
func (p *Plan) planning(bore, visit int) (*passes.Planning, *Visit) {
	v := &p.Bores[bore].Visits[visit]
	if p.Job == nil || p.Job.Machine == nil || p.Job.Cutter.Material == nil || len(p.Job.Bar.Steps) == 0 {
		return nil, v
	}
	s := p.with
	if s != nil && (v.Tools != nil || p.sides != nil) {
		s, _ = p.planningWith(v.Tools, p.Bores[bore].Bore.Face)
	}
	if s == nil {
		bar, err := setup.New(faces.Seen(p.Job, p.Bores[bore].Bore.Face).Using(v.Tools))
		if err != nil {
			return nil, v
		}
		s = passes.New(bar)
		if p.known != nil {
			s.Learned = knownOf{p.known, v.Tools}
		}
	}
	return s, v
}

// WornRings gives the readings of one bore, a ring for each depth.
func (p *Plan) WornRings(bore int) []place.WornRing {
	return place.WornRings(p.Bores[bore].Station, p.Bores[bore].Bore)
}

// Choose tries the bars of a list on every visit that is cut with the job's own: those that pass come
// first, the stiffest before the others. None where no visit is.
func (p *Plan) Choose(bars []process.ShopBar) ([]place.Choice, error) {
	var visits []*place.Reach
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			if v.Reach != nil && v.Tools == nil { // another bar is tried in place of the job's
				visits = append(visits, v.Reach)
			}
		}
	}
	if len(visits) == 0 {
		return nil, nil
	}
	return place.Choose(p.Job, visits, bars)
}
