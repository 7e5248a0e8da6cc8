package plan

import (
	"fmt"

	"borewright/process/fact"
	"borewright/process/geom"
	"borewright/process/passes"
	"borewright/process/place"
)

// reach adds to a visit whether its bar gets there, and stops the plan when it
// does not.
func (p *Plan) reach(s *passes.Setup, station int, v *Visit, what func(fact.Fact) fact.Fact) {
	bar := p.Job.Where("bar")
	r, err := place.NewReach(s, p.LineUp, station, &v.Visit)
	if err != nil {
		p.stop(bar, what(written("whether the bar gets there cannot be worked out: "+err.Error())))
		return
	}
	v.Reach = r
	if g := r.Least; r.Passes && g.Verdict == geom.Tight.String() && !g.Bottom {
		u := p.Job.Units
		p.Cautions = append(p.Cautions, what(written(fmt.Sprintf("it is tight: %s has %s in %s, where %s is comfortable. Run it through by hand, and clear chips often.",
			g.Part, u.Say(g.Room), g.Station, u.Say(g.Wanted)))))
	}
	why := r.BringIn(p.Job, &v.Visit)
	if first := r.After(p.Job, station, &v.Visit); first != "" && r.Passes && why == "" {
		v.Before = append([]fact.Fact{fact.AsWritten("First bring " + first + " to size: as found, it does not let the cutter pass.")}, v.Before...)
	}
	switch {
	case len(r.Why) > 0:
		p.stop(bar, what(written(r.Refusal(p.Job.Units))))
	case why != "":
		p.stop(bar, what(written(why)))
	}
}

// ReachVerdict is the worst of all visits: "clear", "tight" or "does not pass".
func (p *Plan) ReachVerdict() string {
	worst := geom.Free
	seen := false
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			seen = true
			switch {
			case v.Reach == nil || !v.Reach.Passes:
				return geom.Blocked.String()
			case v.Reach.Verdict == geom.Tight.String():
				worst = geom.Tight
			}
		}
	}
	if !seen {
		return geom.Blocked.String()
	}
	return worst.String()
}

// Passes is whether every visit of the plan has room.
func (p *Plan) Passes() bool { return p.ReachVerdict() != geom.Blocked.String() }
