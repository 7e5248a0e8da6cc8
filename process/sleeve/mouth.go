package sleeve

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/storage"
)

// Room at the mouth: how far the outer end of a lead-in bit stands out over the mouth that
// it leaves, and how far before it touches the feed begins. Common practice, no source.
const (
	overMouth  = qty.Millimetre / 2
	beforeEdge = qty.Millimetre
)

// leastStep is the least depth that a counterbore is planned in, radial.
const leastStep = qty.Millimetre / 4

// Mouth plans what is cut at the mouth of the housing after the last pass of its visit: the
// counterbore in steps no deeper than the deepest pass, then the lead-in in one cut. Both
// go at the least feed and speed of the passes, which bar and machine bear; a form cut
// sings sooner than they do. why says what stands against it.
func Mouth(job *process.Job, b process.Bore, v *schedule.Visit) (cuts []schedule.MouthCut, why fact.Fact) {
	if b.Repair != process.SleeveRepair || v.N != 1 || len(v.Passes) == 0 {
		return nil, fact.Fact{}
	}
	m, u := job.Sleeve.Made, job.Units
	if m.Mouth == nil && m.Recess == nil {
		return nil, fact.Fact{}
	}
	feed, speed, deepest := v.Passes[0].Feed, v.Passes[0].Speed, leastStep
	for _, p := range v.Passes {
		feed, speed, deepest = min(feed, p.Feed), min(speed, p.Speed), max(deepest, p.Depth)
	}
	c := job.Machine.Control
	hand := c == nil || !c.Comments || c.Remarks == storage.NoRemarks || v.OffAxis != nil || v.SetInside || job.Bar.Outboard != nil
	add := func(k schedule.MouthCut) {
		k.Feed, k.Speed, k.Hand = feed, speed, hand
		k.Minutes = 2 * (k.End - k.Begin).MM() / (feed.MM() * float64(speed)) // in and out
		cuts = append(cuts, k)
	}
	bore, from := v.Limits.Aim, v.From
	if r := m.Recess; r != nil {
		wide := r.Diameter.Minus(bore) / 2
		n := max(1, int(math.Ceil(wide.MM()/deepest.MM()-1e-9)))
		for i := 1; i <= n; i++ {
			d := qty.Diameter(neat(u, bore.Plus(qty.FromMM(2*wide.MM()*float64(i)/float64(n))).Length()))
			if i == n {
				d = r.Diameter
			}
			add(schedule.MouthCut{Kind: schedule.Counterbore, Setting: d, Leaves: d, Begin: v.Clear, End: from + r.Depth, Last: i == n})
		}
		from += r.Depth
	}
	if l := m.Mouth; l != nil {
		tan := math.Tan(l.Angle * math.Pi / 180)
		leaves := bore.Plus(u.Round(l.Wider()))
		set := leaves.Plus(2 * u.Round(overMouth))
		back := func(d qty.Diameter) qty.Length { return u.Round(qty.FromMM(set.Minus(d).MM() / 2 / tan)) } // of the outer end, where the edge is at d
		touch, end := from-back(bore), from-back(leaves)
		add(schedule.MouthCut{Kind: schedule.LeadIn, Setting: set, Leaves: leaves, Begin: touch - u.Round(beforeEdge), Touch: touch, End: end,
			Angle: l.Angle, Edge: u.Round(qty.FromMM(set.Minus(bore).MM()/2/tan) + beforeEdge), Last: true})
	}
	for _, k := range cuts {
		if most := job.Cutter.Most; k.Setting > most {
			return cuts, fact.New(MouthBeyond, fact.Name(k.Kind.String()), fact.Size(k.Setting), fact.Size(most))
		}
		for i := range b.Station {
			if d := place.NarrowAt(job, b.Station, i, v); d <= k.Setting {
				return cuts, fact.New(MouthNoWay, fact.Name(k.Kind.String()), fact.Size(k.Setting), fact.Name(job.Stations[i].Name), fact.Size(d))
			}
		}
	}
	return cuts, fact.Fact{}
}

// MouthSings says which cuts at the mouth are likelier to sing than not: a broad edge takes its
// whole length at once. Each kind is judged by its deepest cut, with an edge newly ground, at
// the middle of what damps it.
func MouthSings(s *setup.Setup, v *schedule.Visit) (out []fact.Fact) {
	deepest := map[schedule.MouthKind]qty.Length{}
	was := v.Limits.Aim
	for _, k := range v.Mouth {
		if k.Kind == schedule.LeadIn { // inward of what the counterbore left
			was = v.Limits.Aim
		}
		deepest[k.Kind] = max(deepest[k.Kind], k.Leaves.Minus(was)/2)
		was = k.Leaves
	}
	for _, k := range v.Mouth {
		if !k.Last {
			continue
		}
		angle := k.Angle
		if k.Kind == schedule.Counterbore {
			angle = 90
		}
		e, err := s.Broad(angle).Edge(v.Material, k.Leaves.MM()/2, k.Begin, k.End)
		if err != nil {
			continue // no bit that the force model takes: nothing is promised of it
		}
		depth, speed := deepest[k.Kind], math.Pi*k.Leaves.MM()*float64(k.Speed)/1000
		is := e.Stability(e.Stiffness(depth.MM(), k.Feed.MM(), speed, setup.In), speed, e.NewLand())
		if is.Middle() < 1 {
			edge := qty.FromMM(depth.MM() / math.Sin(angle*math.Pi/180))
			out = append(out, fact.New(MouthMaySing, fact.Name(k.Kind.String()), fact.Figure(edge), is.Margins()))
		}
	}
	return out
}
