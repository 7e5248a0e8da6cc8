package sleeve

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/feature"
	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// sleeveOf gathers what was worked out into the plan's sleeve.
func sleeveOf(job *process.Job, b process.Bore, st process.Station, in fit.SleeveInput, r fit.SleeveResult, trial Trial) *Sleeve {
	sl := job.Sleeve
	long := sl.LengthIn(st)
	hub, assumed := hubOf(st, sl.Outside.Plus(r.Larger))
	out := &Sleeve{
		Material: sl.Material, Fastening: sl.Hold, Fit: sl.Fit, Outside: r.Outside,
		Housing: [2]qty.Diameter{r.HousingLow, r.HousingHigh}, Turned: [2]qty.Diameter{r.OutsideLow, r.OutsideHigh},
		Match: sl.Match, Interference: r.Clearance.Interference(), Length: iso286.Range{Least: long - lengthLess(job.Units), Most: long},
		Wall: r.Wall, Hub: hub, Assumed: assumed,
		InPlace: r.Choice != fit.FinishBefore, Asked: sl.Finish, Why: r.Why,
		Before: r.FinishedBefore.Outward(), Here: r.BoredHere.Outward(),
		Stops: r.Reasons, Service: sl.Service, Found: in.Found, Made: sl.Made, LeadIn: feature.LeadIn{Angle: r.LeadIn.AnglePerSide, Length: r.LeadIn.Length},
	}
	if low, high, ok := in.ForHousing(r.Clearance); ok {
		out.TurnedTo = [2]qty.Diameter{low, high}
	}
	if sl.Hold == process.Bond {
		out.Fit = bondHole // its cautions are those of the way it goes in
	} else {
		out.Cautions = append(out.Cautions, r.Cautions...)
	}
	if assumed {
		out.Cautions = append(out.Cautions, fact.New(HubAssumed, fact.Figure(hub.Least), fact.Figure(hub.Most)))
	}
	if len(out.Stops) == 0 && out.Taken().OffCentre > lineUpAgain && sl.Location == 0 {
		out.Cautions = append(out.Cautions, fact.New(AxisUnstated, fact.Figure(out.Taken().OffCentre)))
	}
	out.Closure = out.Taken().Closure
	out.Other = otherNeeds(in, out, trial)
	taken := r.BoredHere
	if !out.InPlace {
		taken = r.FinishedBefore
	}
	if out.Final = finalOf(b, taken); out.Final != nil && out.Taken().Known() {
		out.Final.warm(sl.Service, r.Grows)
		out.Cautions = append(out.Cautions, out.Final.turns()...)
	}
	out.Joints = joints(job, in, r)
	out.holds(sl)
	out.Stops = append(out.Stops, noWayIn(job, b, out)...)
	if r.Assembled != nil {
		out.pressed(*r.Assembled, *r.Finished)
	}
	if r.Bonded != nil {
		out.Bonding = r.Bonded.Notes
		out.Assembly = []fit.Assembly{{Method: fit.ByBond, Possible: true, HubTo: roomHeat, SleeveTo: roomHeat, Clearance: (-out.Interference.Most).MM(),
			Why: fact.New(fit.SlidesInWithGap, fact.Figure(-out.Interference.Most), fact.Figure(-out.Interference.Least)), Cautions: r.Bonded.Cautions}}
	}
	out.Chuck = chucking(job, b, out)
	if !sl.Made.None() {
		out.raise(job, b)
		out.mindMade(st)
	}
	out.Details = out.madeDetails(job.Units, b.Finish, details(job, st, out, r.LeadIn))
	out.Lathe = latheWork(job, b.Finish, out)
	out.Order = out.order(r.Steps)
	if f := out.Final; f != nil {
		finds, asked := clearance(f.Expected), clearance(f.Asked)
		say := fact.New(TryPart, finds, asked)
		switch {
		case !out.Taken().Known():
			say = fact.New(PartNotKnown, asked)
		case f.Expected.Least < 0:
			say = fact.New(MeasurePart, finds, asked)
		}
		out.Order = append(out.Order, fit.Step{Text: say, Hold: true})
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

func rangeOf(b fit.Band) iso286.Range {
	return iso286.Range{Least: qty.FromMM(b.Least), Most: qty.FromMM(b.Most)}
}

// finalOf is the clearance on the part that goes in, where the job states one.
// What is out of round takes from it at the low end and adds at the high end.
func finalOf(b process.Bore, w fit.Option) *FinalClearance {
	part, f := b.Part, b.Finish
	asked := iso286.Range{Least: f.Low.Minus(part[1]), Most: f.High.Minus(part[0])}
	if f.Mating > 0 {
		part, asked = [2]qty.Diameter{f.Mating, f.Mating}, iso286.Range{Least: f.Clearance[0], Most: f.Clearance[1]}
	}
	if part[1] == 0 {
		return nil
	}
	c := &FinalClearance{Part: part, Asked: asked, PartOf: b.PartOf}
	if !w.Outward().Known() {
		return c
	}
	c.Expected = iso286.Range{Least: w.Low.Minus(part[1]) - w.Across, Most: w.High.Minus(part[0]) + w.Across}
	c.OK = w.Lands && (w.ByOdds || c.Expected.Least >= asked.Least && c.Expected.Most <= asked.Most)
	return c
}

// warm works out the clearance at work, at the coldest and the hottest, °C: the
// bore grows as its housing lets it (fit.SleeveResult.Grows), the part freely.
//
//	ΔD = α D ΔT
func (c *FinalClearance) warm(service [2]float64, bore [2]fit.Band) {
	alpha := setup.SteelAlpha
	if c.PartOf != nil {
		alpha = c.PartOf.Alpha
	}
	for i, t := range service {
		part := alpha * c.Part[1].MM() * (t - roomHeat)
		at := iso286.Range{Least: c.Expected.Least + qty.FromMM(bore[i].Least-part), Most: c.Expected.Most + qty.FromMM(bore[i].Most-part)}
		if i == 0 {
			c.AtWork = at
		}
		c.AtWork = iso286.Range{Least: min(c.AtWork.Least, at.Least), Most: max(c.AtWork.Most, at.Most)}
	}
}

// turns warns where a part that is free in the room is not so at work, or one
// that is tight comes loose.
func (c *FinalClearance) turns() []fact.Fact {
	switch {
	case c.Expected.Least >= 0 && c.AtWork.Least < 0:
		return []fact.Fact{fact.New(GoesTight, fact.Figure(-c.AtWork.Least))}
	case c.Expected.Most <= 0 && c.AtWork.Most > 0:
		return []fact.Fact{fact.New(ComesLoose, fact.Figure(c.AtWork.Most))}
	}
	return nil
}

// clearance tells a range of clearance; below 0 it is tight.
func clearance(c iso286.Range) fact.Fact {
	switch {
	case c.Least >= 0:
		return fact.New(Clear, fact.Figure(c.Least), fact.Figure(c.Most))
	case c.Most <= 0:
		return fact.New(Tight, fact.Figure(-c.Most), fact.Figure(-c.Least))
	}
	return fact.New(TightToLoose, fact.Figure(-c.Least), fact.Figure(c.Most))
}

// otherNeeds says what the way not taken would need to land, or what it would
// cost where it lands as well.
func otherNeeds(in fit.SleeveInput, out *Sleeve, trial Trial) fact.Fact {
	if !out.InPlace {
		switch {
		case !trial.Why.None():
			return fact.New(MillStopped, trial.Why)
		case out.Here.Lands:
			minutes := 0.0
			for _, p := range trial.Passes {
				minutes += p.Minutes
				if p.Hold != nil {
					minutes += p.Hold.Minutes
				}
			}
			return fact.New(MillWouldTake, fact.Count(len(trial.Passes)), fact.Figure(qty.KindWholeMinutes.Of(minutes)),
				fact.Size(out.Here.Low), fact.Size(out.Here.High), fact.Figure(qty.Roughness(in.InPlace.Ra)))
		}
		return fact.New(MillNeeds, fact.List(needs(in, out.Here, 0)...))
	}
	if out.Before.Lands {
		return fact.New(LatheAsWell)
	}
	return fact.New(LatheNeeds, fact.List(needs(in, out.Before, in.Make)...))
}

// needs puts a number on what is missing: how far apart the limits would have
// to be, or how much closer the work.
func needs(in fit.SleeveInput, w fit.Option, lathe qty.Length) (out []fact.Fact) {
	band := w.High.Minus(w.Low) + 2*w.Across
	off := w.OffCentre
	if in.LocationAllowed == 0 {
		band += 2 * off
	}
	limits := in.BoreHigh.Minus(in.BoreLow)
	if band > limits {
		var holds, counted, differs fact.Arg
		if over := band - limits; lathe > 0 && over < lathe*3/4 {
			holds, counted = fact.Figure(lathe-over), fact.Figure(lathe)
		} else if spread := w.Closure.Most - w.Closure.Least; lathe > 0 && spread > limits/2 {
			differs = fact.Figure(spread)
		}
		out = append(out, fact.New(NeedLimits, fact.Figure(band), fact.Figure(limits), holds, counted, differs))
	}
	if in.LocationAllowed > 0 && off > in.LocationAllowed {
		out = append(out, fact.New(NeedLocation, fact.Figure(off), fact.Figure(in.LocationAllowed)))
	}
	if in.Roundness > 0 && w.Roundness > in.Roundness {
		out = append(out, fact.New(NeedRoundness, fact.Figure(w.Roundness), fact.Figure(in.Roundness)))
	}
	return out
}

// pressed fills in what a press fit does. Grip is that of the bore at size,
// stress the higher of the two states, force that of pressing it in.
func (out *Sleeve) pressed(assembled, finished fit.PressResult) {
	out.Effective = rangeOf(assembled.Effective)
	out.Pressure, out.AtWork = finished.Pressure, finished.ServicePressure
	for i, x := range assembled.Stresses {
		if y := finished.Stresses[i]; y.Equivalent*x.Allowed > x.Equivalent*y.Allowed {
			x = y
		}
		out.Stresses = append(out.Stresses, x)
	}
	out.Uneven = max(assembled.Uneven, finished.Uneven)
	out.PressForce, out.Assembly = assembled.PressForce, assembled.Ways
}

// reserve is how many times the load a seat must hold at its loosest. Common
// practice, no source.
const reserve = 2.0

// holds judges the joint taken against the load, or says that none is stated.
func (out *Sleeve) holds(s *process.Sleeve) {
	if len(out.Joints) == 0 {
		return
	}
	switch j := out.Joints[0]; {
	case s.Torque == 0 && s.Thrust == 0:
		out.Cautions = append(out.Cautions, fact.New(NoLoad, method(j.Method)))
	case j.Sound && j.Reserve < reserve && s.Thrust == 0 && s.Made.Pin.Torque(out.Outside) >= reserve*float64(s.Torque):
		out.Cautions = append(out.Cautions, fact.New(PinHolds, fact.Figure(qty.KindShortOf.Of(s.Made.Pin.Torque(out.Outside)/float64(s.Torque))), fact.Figure(qty.KindShortOf.Of(reserve))))
	case j.Sound && j.Reserve < reserve:
		times := func(v float64) fact.Arg { return fact.Figure(qty.KindShortOf.Of(v)) }
		out.Stops = append(out.Stops, fact.New(ShortOfLoad, method(j.Method), times(j.Reserve), times(reserve)))
	}
}

// noWayIn names what the sleeve cannot pass on its way to the seat. It comes in
// from the spindle's side, or from the far end where that is open.
func noWayIn(job *process.Job, b process.Bore, out *Sleeve) []fact.Fact {
	near, far := out.FlangeAt(feature.Near), out.FlangeAt(feature.Far)
	widest := out.Turned[1]
	for _, f := range []*feature.Stop{near, far} {
		if f != nil {
			widest = max(widest, f.Diameter)
		}
	}
	into := &schedule.Visit{N: 2} // what follows: the sleeve goes in before it
	blocked := func(from, to int) (string, qty.Diameter) {
		for i := from; i < to; i++ {
			if d := place.NarrowAt(job, b.Station, i, into); d <= widest {
				return job.Stations[i].Name, d
			}
		}
		return "", 0
	}
	closed := job.Closed
	for _, st := range job.Stations[b.Station:] {
		if st.Blind {
			closed = st.Name
		}
	}
	front, d := blocked(0, b.Station)
	switch {
	case far != nil && closed != "":
		return []fact.Fact{fact.New(FlangeClosed, fact.Size(widest), fact.Name(closed))}
	case far != nil: // it goes in from there
		if back, d := blocked(b.Station+1, len(job.Stations)); back != "" {
			return []fact.Fact{fact.New(FlangeNoWay, fact.Size(widest), fact.Name(back), fact.Size(d))}
		}
		out.Cautions = append(out.Cautions, fact.New(FlangeFarEnd))
		return nil
	case front == "":
		return nil
	case near != nil:
		return []fact.Fact{fact.New(FlangeNoWay, fact.Size(widest), fact.Name(front), fact.Size(d))}
	}
	outside, narrow, at := fact.Size(out.Turned[1]), fact.Name(front), fact.Size(d)
	if closed != "" {
		return []fact.Fact{fact.New(FarEndClosed, outside, narrow, at, fact.Name(closed))}
	}
	if back, d := blocked(b.Station+1, len(job.Stations)); back != "" {
		return []fact.Fact{fact.New(NarrowBothEnds, outside, narrow, at, fact.Name(back), fact.Size(d))}
	}
	out.Cautions = append(out.Cautions, fact.New(FromTheFarEnd, outside, narrow, at))
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
func joints(job *process.Job, in fit.SleeveInput, r fit.SleeveResult) []fit.Joint {
	sl := job.Sleeve
	c := CompoundOf(sl.Compound)
	press := in
	press.Bond = nil
	if in.Bond != nil {
		press.Fit = usualPress
	}
	friction := func(v float64) fact.Arg { return fact.Figure(qty.KindFactor.Of(v)) }
	var out []fit.Joint
	p := r.Finished
	if p == nil {
		if other, err := fit.Sleeve(press); err == nil {
			p = other.Finished
		}
	}
	if p != nil {
		j := p.Joint()
		j.Note = fact.New(ForPress, fact.Name(press.Fit), friction(press.Press.Friction.Least), friction(press.Press.Friction.Most))
		out = append(out, j)
	}
	bonded := r.Bonded
	gap := fit.GapMM(r.Clearance)
	if bonded == nil {
		gap = fit.Band{Least: (UsualGap - 10*qty.Micrometre).MM(), Most: (UsualGap + 10*qty.Micrometre).MM()}
		if b, err := in.BondOf(r.Outside, gap, c); err == nil {
			bonded = &b
		}
	}
	if bonded != nil {
		j := bonded.Joint(c)
		strength := func(mpa float64) fact.Arg { return fact.Figure(qty.KindBondStrength.Of(mpa)) }
		j.Note = fact.New(ForBond, fact.Name(c.Name), strength(bonded.Strength.Least), strength(bonded.Strength.Most), fact.Figure(qty.FromMM(gap.Least)), fact.Figure(qty.FromMM(gap.Most)))
		out = append(out, j)
	}
	for i := range out {
		out[i].Taken = (out[i].Method == fit.ByBond) == (in.Bond != nil)
		// Torque and push act on one surface at right angles: √((2T/d)² + F²).
		if load := math.Hypot(2000*float64(sl.Torque)/r.Outside.MM(), float64(sl.Thrust)); load > 0 {
			out[i].Reserve = out[i].PushOut.Least / load
		}
	}
	slices.SortStableFunc(out, func(a, b fit.Joint) int {
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

// chucking works out how far the sleeve goes lobed in three jaws at the job's
// grip, and the grip that would keep it within a quarter of the roundness asked
// for. The ring is held over its whole length; jaws that hold less of it do
// worse where they stand.
func chucking(job *process.Job, b process.Bore, out *Sleeve) fit.ChuckResult {
	r, _ := fit.Chuck(fit.ChuckInput{Outside: out.Turned[1].MM(), Inside: out.Taken().Inside[0].MM(), Width: out.Length.Most.MM(),
		E: out.Material.E, Jaws: 3, Grip: float64(job.Sleeve.Grip), Allowed: (b.Roundness / 4).MM()})
	return r // where it is no ring, the sizes have been refused already
}
