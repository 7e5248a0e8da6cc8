package sleeve

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fit"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
)

// sleeveOf gathers what was worked out into the plan's sleeve.
func sleeveOf(job *process.Job, b process.Bore, st process.Station, in fit.SleeveInput, r fit.SleeveResult, trial Trial) *Sleeve {
	sl := job.Sleeve
	length := sleeveLength(job, st)
	hub, assumed := hubOf(st, sl.Outside)
	out := &Sleeve{
		Material: sl.Material, Fastening: sl.Hold, Fit: sl.Fit, Outside: r.Outside,
		Housing: [2]qty.Diameter{r.HousingLow, r.HousingHigh}, Turned: [2]qty.Diameter{r.OutsideLow, r.OutsideHigh},
		Match: sl.Match, Interference: span(r.Clearance.Interference()), Length: Span{length - lengthLess(job.Units), length},
		Wall: r.Wall, Hub: hub, Assumed: assumed,
		InPlace: r.Choice != fit.FinishBefore, Asked: sl.Finish, Why: upperFirst(r.Why),
		Before: roundedWay(r.FinishedBefore), Here: roundedWay(r.BoredHere),
		Stops: r.Reasons, Service: sl.Service, Found: in.Found,
	}
	if low, high, ok := in.ForHousing(r.Clearance); ok {
		out.TurnedTo = [2]qty.Diameter{low, high}
	}
	if sl.Hold == process.Bond {
		out.Fit = "H7" // its cautions are those of the way it goes in
	} else {
		for _, c := range r.Cautions {
			out.Cautions = append(out.Cautions, upperFirst(c)+".")
		}
	}
	if assumed {
		out.Cautions = append(out.Cautions, fmt.Sprintf("The metal around the housing is not stated: %s to %s is assumed, a third to two thirds of the diameter. Measure it, and state wall and wall_most; pressure, stress and closure hang on it.",
			job.Units.Format(hub.Least), job.Units.Say(hub.Most)))
	}
	if len(out.Stops) == 0 && out.Taken().OffCentre > lineUpAgain && sl.Location == 0 {
		out.Cautions = append(out.Cautions, fmt.Sprintf("The finished axis can stand %s off; no location is stated, so the size limits were made to hold it.", job.Units.Say(out.Taken().OffCentre)))
	}
	out.Here.Ra = in.InPlace.Ra
	out.Closure = out.Taken().Closure
	out.Other = otherNeeds(job, b, in, out, trial)
	taken := r.BoredHere
	if !out.InPlace {
		taken = r.FinishedBefore
	}
	if out.Final = finalOf(b, taken); out.Final != nil && out.Taken().Known() {
		out.Final.warm(sl.Service, r.Grows)
		out.Cautions = append(out.Cautions, out.Final.turns(job.Units)...)
	}
	out.Joints = joints(job, in, r)
	out.holds(job.Units, sl)
	out.Stops = append(out.Stops, noWayIn(job, b, out)...)
	if r.Assembled != nil {
		out.pressed(*r.Assembled, *r.Finished)
	}
	if r.Bonded != nil {
		out.Bonding = r.Bonded.Notes
		out.Assembly = []Assembly{{Name: fit.ByBond.String(), Possible: true, HubTo: roomHeat, SleeveTo: roomHeat, Clearance: -out.Interference.Most,
			Why: fmt.Sprintf("slides in with a gap of %s to %s", job.Units.Format(-out.Interference.Most), job.Units.Say(-out.Interference.Least)), Cautions: r.Bonded.Cautions}}
	}
	out.Chuck = chucking(job, b, out)
	out.Details = details(job, st, out, r.LeadIn)
	out.Lathe = latheWork(job, out)
	for _, x := range r.Steps {
		out.Order = append(out.Order, OrderStep{x.Text, x.Hold})
	}
	if f := out.Final; f != nil {
		finds, asked := clearanceWords(job.Units, f.Expected), clearanceWords(job.Units, f.Asked)
		say := ""
		switch {
		case !out.Taken().Known():
			say = fmt.Sprintf("Measure the part that goes in against the bore: what it will find is not known, %s is asked for.", asked)
		case f.Expected.Least < 0:
			say = fmt.Sprintf("Measure the part that goes in against the bore: it finds %s on diameter, %s is asked for.", finds, asked)
		default:
			say = fmt.Sprintf("Try the part that goes in: it finds %s on diameter, %s is asked for; it turns and slides by hand with nothing forced.", finds, asked)
		}
		out.Order = append(out.Order, OrderStep{say, true})
	}
	return out
}

// lengthLess is how much shorter than its seat a sleeve may be: it must not
// stand out of the face. Common practice, no source.
func lengthLess(u qty.Unit) qty.Length {
	if u == qty.Inches {
		return qty.Inch / 100
	}
	return qty.Millimetre / 4
}

func span(r fit.Range) Span           { return Span{r.Least, r.Most} }
func spanMM(b fit.Band) Span          { return Span{qty.FromMM(b.Least), qty.FromMM(b.Most)} }
func pair(b fit.Band) [2]float64      { return [2]float64{b.Least, b.Most} }
func forces2(b fit.Band) [2]qty.Force { return [2]qty.Force{qty.Force(b.Least), qty.Force(b.Most)} }

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// roundedWay rounds outward what is known to no more than a tenth of a micrometre.
func roundedWay(o fit.Option) SleeveWay {
	const fine = qty.Micrometre / 10
	o.Low, o.High = o.Low/qty.Diameter(fine)*qty.Diameter(fine), (o.High+qty.Diameter(fine)-1)/qty.Diameter(fine)*qty.Diameter(fine)
	o.Roundness = (o.Roundness + fine - 1) / fine * fine
	return SleeveWay{
		Inside: [2]qty.Diameter{o.InsideLow, o.InsideHigh}, Closure: span(o.Closure), Stock: span(o.Stock),
		Low: o.Low, High: o.High, Roundness: o.Roundness, OffCentre: o.OffCentre, Lands: o.Fits, Why: o.Why,
	}
}

// finalOf is the clearance on the part that goes in, where the job states one.
// What is out of round takes from it at the low end and adds at the high end.
func finalOf(b process.Bore, w fit.Option) *FinalClearance {
	part, f := b.Part, b.Finish
	asked := Span{f.Low.Minus(part[1]), f.High.Minus(part[0])}
	if f.Mating > 0 {
		part, asked = [2]qty.Diameter{f.Mating, f.Mating}, Span{f.Clearance[0], f.Clearance[1]}
	}
	if part[1] == 0 {
		return nil
	}
	c := &FinalClearance{Part: part, Asked: asked, PartOf: b.PartOf}
	if !roundedWay(w).Known() {
		return c
	}
	c.Expected = Span{w.Low.Minus(part[1]) - w.Roundness, w.High.Minus(part[0]) + w.Roundness}
	c.OK = w.Fits && c.Expected.Least >= asked.Least && c.Expected.Most <= asked.Most
	return c
}

// warm works out the clearance at work, at the coldest and the hottest, °C: the
// bore grows as its housing lets it (fit.SleeveResult.Grows), the part freely.
//
//	ΔD = α D ΔT
func (c *FinalClearance) warm(service [2]float64, bore [2]fit.Band) {
	alpha := passes.SteelAlpha
	if c.PartOf != nil {
		alpha = c.PartOf.Alpha
	}
	for i, t := range service {
		part := alpha * c.Part[1].MM() * (t - roomHeat)
		at := Span{c.Expected.Least + qty.FromMM(bore[i].Least-part), c.Expected.Most + qty.FromMM(bore[i].Most-part)}
		if i == 0 {
			c.AtWork = at
		}
		c.AtWork = Span{min(c.AtWork.Least, at.Least), max(c.AtWork.Most, at.Most)}
	}
}

// turns warns where a part that is free in the room is not so at work, or one
// that is tight comes loose.
func (c *FinalClearance) turns(u qty.Unit) []string {
	switch {
	case c.Expected.Least >= 0 && c.AtWork.Least < 0:
		return []string{fmt.Sprintf("The part that goes in is free in the room and can be %s tight at work: ask for more clearance, or be sure of the temperatures.", u.Say(-c.AtWork.Least))}
	case c.Expected.Most <= 0 && c.AtWork.Most > 0:
		return []string{fmt.Sprintf("The part that goes in is tight in the room and can be %s loose at work: hold it endwise, or take a tighter fit.", u.Say(c.AtWork.Most))}
	}
	return nil
}

// clearanceWords tells a range of clearance; below 0 it is tight.
func clearanceWords(u qty.Unit, c Span) string {
	switch {
	case c.Least >= 0:
		return fmt.Sprintf("%s to %s of clearance", u.Format(c.Least), u.Say(c.Most))
	case c.Most <= 0:
		return fmt.Sprintf("%s to %s of interference", u.Format(-c.Most), u.Say(-c.Least))
	}
	return fmt.Sprintf("%s tight to %s loose", u.Say(-c.Least), u.Say(c.Most))
}

// otherNeeds says what the way not taken would need to land, or what it would
// cost where it lands as well.
func otherNeeds(job *process.Job, b process.Bore, in fit.SleeveInput, out *Sleeve, trial Trial) string {
	u := job.Units
	if !out.InPlace {
		switch {
		case trial.Why != "":
			return "To bore in place it would take a set-up that can plan the cut; this one is stopped: " + trial.Why
		case out.Here.Lands:
			minutes := 0.0
			for _, p := range trial.Passes {
				minutes += p.Minutes
				if p.Hold != nil {
					minutes += p.Hold.Minutes
				}
			}
			return fmt.Sprintf("To bore in place would take a second visit: %d passes, about %.0f min and lining up again; it would hold %s to %s, Ra %s.",
				len(trial.Passes), minutes, u.Format(out.Here.Low.Length()), u.Say(out.Here.High.Length()), u.Say(qty.Roughness(in.InPlace.Ra)))
		}
		return "To bore in place it would need " + needs(u, in, out.Here, 0)
	}
	if out.Before.Lands {
		return "Finished before it would land as well, without a second visit."
	}
	return "Finished before it would need " + needs(u, in, out.Before, in.Make)
}

// needs puts a number on what is missing: how far apart the limits would have
// to be, or how much closer the work.
func needs(u qty.Unit, in fit.SleeveInput, w SleeveWay, lathe qty.Length) string {
	band := w.High.Minus(w.Low) + 2*w.Roundness
	off := w.OffCentre
	if in.LocationAllowed == 0 {
		band += 2 * off
	}
	limits := in.BoreHigh.Minus(in.BoreLow)
	say := ""
	if band > limits {
		say = fmt.Sprintf("limits %s apart where they are %s", u.Say(band), u.Say(limits))
		if over := band - limits; lathe > 0 && over < lathe*3/4 {
			say += fmt.Sprintf(", or a lathe or hone that holds %s where %s is counted on", u.Say(lathe-over), u.Say(lathe))
		} else if spread := w.Closure.Most - w.Closure.Least; lathe > 0 && spread > limits/2 {
			say += fmt.Sprintf(" (closure alone differs by %s)", u.Say(spread))
		}
	}
	if in.LocationAllowed > 0 && off > in.LocationAllowed {
		if say != "" {
			say += "; "
		}
		say += fmt.Sprintf("a location of %s where %s is asked for", u.Say(off), u.Say(in.LocationAllowed))
	}
	if in.Roundness > 0 && w.Roundness > in.Roundness {
		if say != "" {
			say += "; "
		}
		say += fmt.Sprintf("a roundness of %s where %s is asked for", u.Say(w.Roundness), u.Say(in.Roundness))
	}
	if say == "" {
		say = "what is named above"
	}
	return say + "."
}

// pressed fills in what a press fit does. Grip is that of the bore at size,
// stress the higher of the two states, force that of pressing it in.
func (out *Sleeve) pressed(assembled, finished fit.PressResult) {
	out.Effective = spanMM(assembled.Effective)
	out.Pressure, out.AtWork = pair(finished.Pressure), pair(finished.ServicePressure)
	for i, x := range assembled.Stresses {
		if y := finished.Stresses[i]; y.Equivalent*x.Allowed > x.Equivalent*y.Allowed {
			x = y
		}
		out.Stresses = append(out.Stresses, SleeveStress{x.Where.String(), pair(x.Hoop), x.Equivalent, x.Allowed, x.Criterion.String(), x.OK})
	}
	for _, x := range assembled.PressForce {
		out.PressForce = append(out.PressForce, PressStroke{qty.FromMM(x.Depth), forces2(x.Force)})
	}
	for _, y := range assembled.Ways {
		out.Assembly = append(out.Assembly, Assembly{y.Method.String(), y.Possible, y.HubTo, y.SleeveTo, qty.FromMM(y.Clearance), qty.Force(y.Force), y.Why, y.Cautions})
	}
}

// reserve is how many times the load a seat must hold at its loosest. Common
// practice, no source.
const reserve = 2.0

// holds judges the joint taken against the load, or says that none is stated.
func (out *Sleeve) holds(u qty.Unit, s *process.Sleeve) {
	if len(out.Joints) == 0 {
		return
	}
	switch j := out.Joints[0]; {
	case s.Torque == 0 && s.Thrust == 0:
		out.Cautions = append(out.Cautions, fmt.Sprintf("No load is stated. Hold what the %s carries at the least, in the table, against what the bore has to carry; a pin, screw or shoulder takes what is missing.", j.Way))
	case j.Sound && j.Reserve < reserve:
		out.Stops = append(out.Stops, fmt.Sprintf("held by %s the seat bears %.2g times the load stated at the least, %.0f times are wanted; take a tighter fit or the other way of holding, or pin it and state no load", j.Way, j.Reserve, reserve))
	}
}

// noWayIn names what the sleeve cannot pass on its way to the seat. It comes in
// from the spindle's side, or from the far end where that is open.
func noWayIn(job *process.Job, b process.Bore, out *Sleeve) []string {
	blocked := func(from, to int) (string, qty.Diameter) {
		for i := from; i < to; i++ {
			if d := place.NarrowAt(job, b.Station, i); d <= out.Turned[1] {
				return job.Stations[i].Name, d
			}
		}
		return "", 0
	}
	say := func(d qty.Diameter) string { return job.Units.Say(d.Length()) }
	front, d := blocked(0, b.Station)
	if front == "" {
		return nil
	}
	why := fmt.Sprintf("the sleeve, %s, does not pass %q (%s) to its seat", say(out.Turned[1]), front, say(d))
	for _, st := range job.Stations[b.Station:] {
		if st.Blind {
			return []string{why + fmt.Sprintf(", and from the far end %q is closed", st.Name)}
		}
	}
	if back, d := blocked(b.Station+1, len(job.Stations)); back != "" {
		return []string{why + fmt.Sprintf(", nor %q (%s) from the far end", back, say(d))}
	}
	out.Cautions = append(out.Cautions, upperFirst(why)+" from the spindle's side: it goes in from the far end.")
	return nil
}

// usualPress is the press fit that a bonded sleeve is compared with, and
// usualGap the gap, on diameter, of a bond that a pressed one is.
const (
	usualPress = "H7/r6"
	UsualGap   = 50 * qty.Micrometre
)

// joints puts press and bond side by side over their whole ranges, both for the
// bore at size.
func joints(job *process.Job, in fit.SleeveInput, r fit.SleeveResult) []Joint {
	sl := job.Sleeve
	c := CompoundOf(sl.Compound)
	press := in
	press.Bond = nil
	if in.Bond != nil {
		press.Fit = usualPress
	}
	var out []Joint
	p := r.Finished
	if p == nil {
		if other, err := fit.Sleeve(press); err == nil {
			p = other.Finished
		}
	}
	if p != nil {
		j := jointOf(p.Joint())
		j.Note = fmt.Sprintf("%s, friction %.2f to %.2f, bore at size", press.Fit, press.Press.Friction.Least, press.Press.Friction.Most)
		out = append(out, j)
	}
	bonded := r.Bonded
	gap := r.Clearance.GapMM()
	if bonded == nil {
		gap = fit.Band{Least: (UsualGap - 10*qty.Micrometre).MM(), Most: (UsualGap + 10*qty.Micrometre).MM()}
		if b, err := in.BondOf(r.Outside, gap, c); err == nil {
			bonded = &b
		}
	}
	if bonded != nil {
		j := jointOf(bonded.Joint(c))
		j.Note = fmt.Sprintf("%s compound, %s in shear here, gap %s", c.Name, job.Units.SayRange(qty.KindBondStrength.Of(bonded.Strength.Least), qty.KindBondStrength.Of(bonded.Strength.Most)),
			job.Units.SayRange(qty.FromMM(gap.Least), qty.FromMM(gap.Most)))
		out = append(out, j)
	}
	for i := range out {
		out[i].Taken = (out[i].Way == fit.ByBond.String()) == (in.Bond != nil)
		// Torque and push act on one surface at right angles: √((2T/d)² + F²).
		if load := math.Hypot(2000*float64(sl.Torque)/r.Outside.MM(), float64(sl.Thrust)); load > 0 {
			out[i].Reserve = float64(out[i].PushOut[0]) / load
		}
	}
	slices.SortStableFunc(out, func(a, b Joint) int {
		if a.Taken == b.Taken {
			return 0
		}
		if a.Taken {
			return -1
		}
		return 1
	})
	return out
}

func jointOf(h fit.Joint) Joint {
	return Joint{
		Way: h.Method.String(), Torque: [2]qty.Torque{qty.Torque(h.Torque.Least), qty.Torque(h.Torque.Most)}, PushOut: forces2(h.PushOut),
		Closure: spanMM(h.Closure), HubHoop: h.HubHoop, OffCentre: qty.FromMM(h.OffCentre), HottestUse: h.ServiceMost,
		Sound: h.Sound, Reasons: h.Reasons,
	}
}

// chucking works out how far the sleeve goes lobed in three jaws at the job's
// grip, and the grip that would keep it within a quarter of the roundness asked
// for. The ring is held over its whole length; jaws that hold less of it do
// worse where they stand.
func chucking(job *process.Job, b process.Bore, out *Sleeve) Chucking {
	in := fit.ChuckInput{Units: job.Units, Outside: out.Turned[1].MM(), Inside: out.Taken().Inside[0].MM(), Width: out.Length.Most.MM(),
		E: out.Material.E, Jaws: 3, Grip: float64(job.Sleeve.Grip)}
	c := Chucking{Grip: job.Sleeve.Grip, Allowed: b.Roundness / 4, OuterDia: out.Turned[1], Bored: out.Taken().Inside[0]}
	r, err := fit.Chuck(in)
	if err != nil {
		return c // no ring: the sizes have been refused already
	}
	c.Lobes, c.SixPads, c.Rough, c.Instead = qty.FromMM(r.Lobes), qty.FromMM(r.SixPadLobes), r.Thick, r.Instead
	if most, err := fit.GripMost(in, c.Allowed.MM()); err == nil && !math.IsInf(most, 0) {
		c.GripMost = qty.Force(most)
	}
	return c
}
