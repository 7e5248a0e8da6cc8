// Package remedy puts the ways to bring a worn bore back side by side: what each asks of
// this bore, by its own figures. Which is right is for the shop and the drawing to say.
package remedy

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/fit"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/sleeve"
)

// The ways. Minutes are there for the way that is planned, what is left of the metal around
// the bore where the job states it.
const (
	Larger      fact.Kind = "remedy.larger"        // size it cleans up at, over the size that is asked for, metal left, minutes
	LargerAsked fact.Kind = "remedy.larger.asked"  // size that is asked for, metal left, minutes
	Pressed     fact.Kind = "remedy.pressed"       // outside, wall of the sleeve, metal left, tension of the housing, heat it goes in by, force it goes in by, minutes
	Bonded      fact.Kind = "remedy.bonded"        // outside, gap, metal left, hottest it stands, hottest at work, minutes
	Bush        fact.Kind = "remedy.bush"          // outside, wall of the bush
	NoSleeve    fact.Kind = "remedy.no_sleeve"     // outside that it would take, metal that there is
	BuiltUp     fact.Kind = "remedy.built_up"      // layer, size that is cleaned first
	BuiltUpIron fact.Kind = "remedy.built_up.iron" // the same, in metal that cracks
)

// Way is one way to repair a bore.
type Way struct {
	Says  fact.Fact
	Taken bool // as planned
}

// bare is what a bore that cleans up at just some size is bored beyond it, on diameter, so that
// bright metal shows all round, and what is built up beyond the size asked for, radial, so that
// it can be bored. Common practice, no source.
const (
	bare    = qty.Millimetre / 4
	toCutUp = qty.Millimetre
)

// Ways are the ways to repair a bore, the one with no joint first.
func Ways(p *plan.Plan, b plan.Bore) []Way {
	w := ways{job: p.Job, b: b}
	w.clean = max(b.Station.Diameter, b.Bore.MostWorn()).Plus(bare)
	if c := b.CleanUp; c != nil {
		w.clean = max(c.TrueAxis, c.Most)
	}
	w.clean = qty.Diameter(p.Job.Units.Up(w.clean.Length()))
	if p.Feasible {
		minutes := 0.0
		for _, v := range b.Visits {
			for _, x := range v.Passes {
				minutes += x.Minutes
				if x.Hold != nil {
					minutes += x.Hold.Minutes
				}
			}
		}
		if minutes > 0 {
			w.minutes = fact.Figure(qty.KindTime.Of(minutes))
		}
	}
	sleeved := b.Bore.Repair == process.SleeveRepair
	out := []Way{{w.larger(), !sleeved}}
	outside, gap := w.outside()
	if left, stated := w.left(outside); stated && left <= 0 {
		return append(out, Way{fact.New(NoSleeve, fact.Size(outside), fact.Figure(b.Station.Wall)), false}, Way{w.builtUp(), false})
	}
	bonded := sleeved && p.Job.Sleeve.Hold == process.Bond
	return append(out, Way{w.pressed(outside, sleeved && !bonded), sleeved && !bonded}, Way{w.bonded(outside, gap, bonded), bonded},
		Way{fact.New(Bush, fact.Size(outside), fact.Figure(outside.Minus(b.Bore.Finish.High)/2)), false}, Way{w.builtUp(), false})
}

type ways struct {
	job     *process.Job
	b       plan.Bore
	clean   qty.Diameter // size that the bore cleans up at
	minutes fact.Arg     // of the way that is planned; nil: not known
}

// left is the metal that is left around a bore of so much, at its thinnest; false where the
// job does not state it.
func (w ways) left(bore qty.Diameter) (qty.Length, bool) {
	return w.b.Station.Wall - bore.Minus(w.b.Station.Diameter)/2, w.b.Station.Wall > 0
}

func (w ways) metal(bore qty.Diameter) fact.Arg {
	if left, ok := w.left(bore); ok {
		return fact.Figure(left)
	}
	return nil
}

// outside is what a sleeve would have outside: as planned, or the smallest standard size that
// cleans the bore up and leaves the least wall; and the gap of a bond.
func (w ways) outside() (d qty.Diameter, gap qty.Length) {
	gap = w.job.Units.Round(sleeve.UsualGap)
	if s := w.job.Sleeve; s != nil && w.b.Bore.Repair == process.SleeveRepair {
		if s.Gap > 0 {
			gap = s.Gap
		}
		return s.Outside, gap
	}
	finish := w.b.Bore.Finish.High
	need := max(w.clean, finish.Plus(2*fit.LeastWall(finish)))
	for _, d := range fit.StandardOutsides(w.job.Units, need, need.Plus(50*qty.Millimetre)) {
		if d >= need {
			return d, gap
		}
	}
	return need, gap
}

func (w ways) larger() fact.Fact {
	f, minutes := w.b.Bore.Finish, w.minutes
	if w.b.Bore.Repair == process.SleeveRepair {
		minutes = nil
	}
	if f.Low >= w.clean || w.b.Bore.Repair != process.SleeveRepair {
		return fact.New(LargerAsked, fact.Size(f.High), w.metal(f.High), minutes)
	}
	return fact.New(Larger, fact.Size(w.clean), fact.Figure(w.clean.Minus(f.Low)), w.metal(w.clean), minutes)
}

// joint is what was worked out of a way of holding; nil where nothing was.
func (w ways) joint(m fit.Method) *fit.Joint {
	if s := w.b.Sleeve; s != nil {
		for i := range s.Joints {
			if s.Joints[i].Method == m {
				return &s.Joints[i]
			}
		}
	}
	return nil
}

func (w ways) pressed(outside qty.Diameter, taken bool) fact.Fact {
	var tension, heat, force, minutes fact.Arg
	if j := w.joint(fit.ByPress); j != nil {
		tension = fact.Value(qty.KindStress, j.HubHoop)
	}
	if taken {
		minutes = w.minutes
		for _, a := range w.assembly() {
			switch {
			case a.Possible && a.Method == fit.ByHeat:
				heat = fact.Value(qty.KindTemperature, a.HubTo)
			case a.Possible && a.Method == fit.ByPress:
				force = fact.Value(qty.KindPressHome, a.Force)
			}
		}
	}
	return fact.New(Pressed, fact.Size(outside), fact.Figure(outside.Minus(w.b.Bore.Finish.High)/2), w.metal(outside), tension, heat, force, minutes)
}

func (w ways) bonded(outside qty.Diameter, gap qty.Length, taken bool) fact.Fact {
	var stands, work, minutes fact.Arg
	if j := w.joint(fit.ByBond); j != nil {
		stands, work = fact.Value(qty.KindTemperature, j.ServiceMost), fact.Value(qty.KindTemperature, w.b.Sleeve.Service[1])
	}
	if taken {
		minutes = w.minutes
	}
	return fact.New(Bonded, fact.Size(outside), fact.Figure(gap), w.metal(outside), stands, work, minutes)
}

// builtUp is a layer over the bore as cleaned, with what it takes to bore it again. Heat on
// iron is for those who are licensed to it.
func (w ways) builtUp() fact.Fact {
	layer := max(0, w.clean.Minus(w.b.Bore.Finish.Low)/2) + toCutUp
	kind := BuiltUp
	if m := w.job.Material; m.Brittle || m.Group == "K" { // ISO 513: K is cast iron
		kind = BuiltUpIron
	}
	return fact.New(kind, fact.Figure(layer), fact.Size(w.clean))
}

// assembly are the ways to put the sleeve in; none where it could not be worked out.
func (w ways) assembly() []fit.Assembly {
	if w.b.Sleeve == nil {
		return nil
	}
	return w.b.Sleeve.Assembly
}
