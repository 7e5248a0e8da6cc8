package sleeve

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/feature"
	"borewright/process/fit"
	"borewright/process/qty"
)

// order puts what the features ask for into the order of work: the seat of a stop is
// made with the housing, grooves with the sleeve; holes of a sleeve that is bored in place are
// drilled when it is home, before the last cut, and so is the pin, whose drill would pull
// toward the softer part of a finished bore.
func (out *Sleeve) order(steps []fit.Step) []fit.Step {
	m := out.Made
	if m.None() {
		return steps
	}
	var all []fit.Step
	do := func(hold bool, k fact.Kind, args ...fact.Arg) {
		all = append(all, fit.Step{Text: fact.New(k, args...), Hold: hold})
	}
	home := func() { // the sleeve is home, and nothing is finished inside
		if s := m.Stop; s != nil {
			do(true, StopBears, fact.Name(s.By.String()), fact.Figure(feeler))
		}
		if p := m.Pin; p != nil {
			do(false, PinIn, fact.Name(p.By.String()), plain(p.Diameter.Length()), plain(p.Length), clocks(p.At), fact.Name(p.End.String()))
		}
		if out.InPlace {
			for _, h := range m.Holes {
				do(false, DrillAtHome, plain(h.Diameter.Length()), clocks(h.At), plain(h.Depth))
			}
		}
	}
	for _, s := range steps {
		switch s.Text.Kind {
		case fit.MeasureFinished:
			if len(m.Holes) > 0 {
				do(false, OilWayFree)
			}
		case fit.StepAssemble, fit.StepBond:
			if at := out.marked(); at != nil {
				do(false, SetByLine, at)
			}
		}
		all = append(all, s)
		switch s.Text.Kind {
		case fit.BoreHousing, fit.HousingBored:
			if st := m.Stop; st != nil {
				kind := SeatAsFound
				if m.SeatCut() {
					kind = FaceSeat
				}
				if m.Recess != nil {
					kind = CutRecess
				}
				do(false, kind, fact.Name(st.By.String()))
			}
		case fit.TurnSleeve:
			if len(m.Grooves) > 0 {
				do(false, CutGrooves, fact.Count(len(m.Grooves)))
			}
			if !out.InPlace {
				for _, h := range m.Holes {
					do(false, DrillOnBench, plain(h.Diameter.Length()), clocks(h.At), plain(h.Depth))
				}
			}
		case fit.MeasureClosed, fit.StepStrength:
			home()
		}
	}
	return all
}

// feeler is the blade that must not go in where a stop bears. Common practice, no source.
const feeler = 50 * qty.Micrometre

// marked are the clock positions that the sleeve is set by when it goes in; nil where it
// is alike all round.
func (out *Sleeve) marked() fact.Arg {
	if !out.InPlace && len(out.Made.Holes) > 0 {
		return clocks(out.Made.Holes[0].At[:1])
	}
	for _, g := range out.Made.Grooves {
		if g.Along() {
			return clocks(g.At[:1])
		}
	}
	if v := out.Made.Vent; v != nil && v.By != feature.Drilled {
		return clocks([]float64{v.At})
	}
	return nil
}

// latheMade is what the lathe and the bench make besides the two diameters.
func (out *Sleeve) latheMade(u qty.Unit, finish process.Finish) (all []fact.Fact) {
	for _, e := range []feature.End{feature.Near, feature.Far} {
		if f := out.FlangeAt(e); f != nil {
			all = append(all, fact.New(LatheFlange, plain(f.Diameter.Length()), plain(f.Thickness), fact.Name(e.String())))
		}
	}
	for _, g := range out.Made.Grooves {
		if g.Along() {
			all = append(all, fact.New(CutAlong, grooveAt(g), plain(out.GrooveTurned(u, finish, g).Length())))
			continue
		}
		all = append(all, fact.New(TurnGroove, grooveAt(g), plain(out.GrooveTurned(u, finish, g).Length())))
	}
	return all
}

// madeDetails puts what was written in the place of what is usual.
func (out *Sleeve) madeDetails(u qty.Unit, finish process.Finish, usual []Detail) (all []Detail) {
	m := out.Made
	for _, d := range usual {
		switch k := d.What.Kind; {
		case k == VentBlind && m.Vent != nil:
			v := m.Vent
			all = append(all, Detail{d.What, fact.New(VentStated, fact.Name(v.By.String()), clocks([]float64{v.At}),
				orNone(v.Width), orNone(v.Depth))})
		case k == Ends && m.Stop != nil && m.Stop.By == feature.Flange:
			all = append(all, Detail{fact.New(StopOfSleeve), fact.New(FlangeHow, plain(m.Stop.Diameter.Length()), plain(m.Stop.Thickness), fact.Name(m.Stop.End.String()))})
		case k == OilGrooves && len(m.Grooves) > 0:
			for _, g := range m.Grooves {
				how := GrooveHow
				if g.Kind == feature.Seal {
					how = SealHow
				}
				all = append(all, Detail{fact.New(GrooveOf, fact.Name(g.Kind.String())), fact.New(how, grooveAt(g), plain(out.GrooveTurned(u, finish, g).Length()))})
			}
		case k == OilHoles && len(m.Holes) > 0:
			for _, h := range m.Holes {
				how := HoleBench
				if out.InPlace {
					how = HoleHome
				}
				all = append(all, Detail{d.What, fact.New(how, plain(h.Diameter.Length()), clocks(h.At), plain(h.Depth))})
			}
		default:
			all = append(all, d)
		}
	}
	if s := m.Stop; s != nil && s.By == feature.Shoulder {
		all = append(all, Detail{fact.New(StopOfSleeve), fact.New(ShoulderHow)})
	} else if s != nil && out.has(VentBlind, usual) {
		all = append(all, Detail{fact.New(StopOfSleeve), fact.New(FlangeHow, plain(s.Diameter.Length()), plain(s.Thickness), fact.Name(s.End.String()))})
	}
	if p := m.Pin; p != nil {
		all = append(all, Detail{fact.New(PinOfJoint), fact.New(PinHow, fact.Name(p.By.String()), plain(p.Diameter.Length()), plain(p.Length), clocks(p.At), fact.Name(p.End.String()),
			fact.Value(qty.KindSeatTorque, p.Torque(out.Outside)))})
	}
	return all
}

func (out *Sleeve) has(k fact.Kind, all []Detail) bool {
	for _, d := range all {
		if d.What.Kind == k {
			return true
		}
	}
	return false
}

func orNone(l qty.Length) fact.Arg {
	if l == 0 {
		return nil
	}
	return plain(l)
}
