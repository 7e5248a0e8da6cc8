package sleeve

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/fit/joining"
	"borewright/process/fit/standard"
	"borewright/process/hub"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// WorkOut works the sleeve of one bore out and lays out its visits, without
// passes. Both orders of work are computed: the sleeve finished on the lathe by
// its closure band, and bored in place by a visit planned for trial, which try
// does: the second, by the edge that the first leaves. found is the old bore, twice the
// least and the largest radius; housing what the housing measures, least and most, zero
// before it is bored.
func WorkOut(job *process.Job, b process.Bore, found, housing [2]qty.Diameter, try func(house, inside schedule.Visit) Trial) (*Sleeve, []schedule.Visit, error) {
	st := job.Stations[b.Station]
	in, s, err := sized(job, b, found, housing)
	if err != nil {
		return nil, nil, err
	}
	house, inside := housingVisit(job, b, found, s), insideVisit(job, b, in, s)
	trial := try(house, inside)
	in.InPlace = capability(in, trial)
	r := s.Decide(in.InPlace)
	out := sleeveOf(job, b, st, in, r, trial)
	if !out.InPlace {
		house.Roundness = min(house.Roundness, job.Runout()+b.Roundness/printThrough)
		house.After = []fact.Fact{fact.New(MakeToHousing), fact.New(MeasureAtHome, fact.Size(b.Finish.Low), fact.Size(b.Finish.High))}
		return out, []schedule.Visit{house}, nil
	}
	inside.Before = []fact.Fact{
		fact.New(SleeveSigned),
		fact.New(MeasureInside, fact.Size(out.Here.Inside[0].Plus(-out.Here.Closure.Most)), fact.Size(out.Here.Inside[1].Plus(-out.Here.Closure.Least))),
		fact.New(LineUpAfresh),
	}
	return out, []schedule.Visit{house, inside}, nil
}

// sized is a sleeve with its sizes; what boring in place can hold is not known yet.
func sized(job *process.Job, b process.Bore, found, housing [2]qty.Diameter) (in fit.SleeveInput, s *fit.Sized, err error) {
	if job.Sleeve == nil {
		return in, nil, fact.New(NoSleeve).Err()
	}
	in = sleeveInput(job, b, job.Stations[b.Station], found[1])
	in.Found = housing
	s, err = fit.Size(in)
	return in, s, err
}

// Barred is what stops the sleeve of a bore whatever its visits can hold: a load that its joint does not
// bear, no way to its seat; and the visit to its housing, without passes. found and housing are as of WorkOut.
func Barred(job *process.Job, b process.Bore, found, housing [2]qty.Diameter) ([]fact.Fact, schedule.Visit, error) {
	in, s, err := sized(job, b, found, housing)
	if err != nil {
		return nil, schedule.Visit{}, err
	}
	out := &Sleeve{Made: job.Sleeve.Made, Outside: s.Outside, Turned: [2]qty.Diameter{s.OutsideLow, s.OutsideHigh}, Joints: joints(job, in, s.SleeveResult)}
	out.holds(job.Sleeve)
	return append(out.Stops, noWayIn(job, b, out)...), housingVisit(job, b, found, s), nil
}

// housingVisit is the first visit, without passes: the housing of a sleeve that is bored
// in place.
func housingVisit(job *process.Job, b process.Bore, found [2]qty.Diameter, r *fit.Sized) schedule.Visit {
	low, high, class := r.HousingLow, r.HousingHigh, standard.HoleOf(job.Sleeve.Fit)
	if r.Bonded != nil {
		class = bondHole
	}
	v := schedule.Visit{
		N: 1, Title: fact.New(HousingVisit), Material: job.Material,
		Start: found[0], StartMost: found[1], Ra: b.Ra, Roundness: high.Minus(low) / 2,
		Limits: schedule.Limits{Low: low, Aim: low + qty.Diameter(job.Units.Round(high.Minus(low)/2)), High: high, Fit: class},
	}
	if rz := job.Sleeve.Rz[0]; rz > 0 {
		v.Ra = rz / rzOverRa
	}
	return v
}

// lineUpAgain is how far the bore of a sleeve can stand off the axis that is
// lined up for its second visit, radial. Common practice, no source.
const lineUpAgain = 10 * qty.Micrometre

// heldShare is how far out of round an uneven wall brings a bore whose joint does not
// slip, over one without friction: 0.59 to 0.70 by finite elements in four cases with
// flats. The stock inside is planned by it; what the bore may be at most is told at the
// hold point.
const heldShare = 0.6

// insideVisit is the second visit, without passes: what is inside once the
// sleeve is home, least and most about the axis, and what it must come to.
func insideVisit(job *process.Job, b process.Bore, in fit.SleeveInput, r *fit.Sized) schedule.Visit {
	o := r.BoredHere
	off := in.BeforeLocation + lineUpAgain
	if r.Bonded != nil {
		off += qty.FromMM(r.Bonded.OffCentre)
	}
	// What the uneven wall does to the form grows with the pressure, as closure does.
	var uneven [2]qty.Length
	if o.Closure.Most > 0 {
		most := heldShare * o.Uneven.MM()
		uneven = [2]qty.Length{qty.FromMM(most * o.Closure.Least.MM() / o.Closure.Most.MM()), qty.FromMM(most)}
	}
	return schedule.Visit{
		N: 2, Title: fact.New(InsideVisit), Material: job.Sleeve.Material, Out: job.Sleeve.StandsOut,
		Start:     o.Inside[0].Plus(-o.Closure.Most - 2*off - uneven[1]),
		StartMost: o.Inside[1].Plus(-o.Closure.Least + 2*off + uneven[0]),
		Limits:    schedule.FinishLimits(job.Units, b), Ra: b.Ra, Roundness: b.Roundness,
	}
}

// Trial is a visit planned to see what it can hold; Why says why there are no
// passes.
type Trial struct {
	schedule.Visit
	Why fact.Fact
}

// capability is what boring in place can hold, from the visit planned for it:
// the gauge's band after the last pass, and out-of-round apart from it. Its
// position is that of the line-up, which both ways share.
func capability(in fit.SleeveInput, t Trial) fit.Capability {
	if !t.Why.None() || len(t.Passes) == 0 {
		return fit.Capability{Why: fact.New(fit.NotInPlace, t.Why)}
	}
	last := t.Passes[len(t.Passes)-1]
	aim := in.BoreLow + (in.BoreHigh-in.BoreLow)/2
	across := max(0, last.OutOfRound-in.BeforeForm.Spindle/2) // half of what the spindle makes shows across the bore
	chance := 0.0
	if t.Budget != nil {
		chance = t.Budget.Chance
	}
	return fit.Capability{
		Size:      max(0, max(last.High.Minus(aim), aim.Minus(last.Low))-across),
		Roundness: last.OutOfRound, Across: across, Ra: last.Ra, Chance: chance,
	}
}

// latheForm is how round the lathe leaves a bore, radial, over the tolerance on
// diameter that it holds. Common practice, no source.
const latheForm = 0.25

// printThrough: where the sleeve is finished before it goes in it takes the housing's
// shape on. Of the old shape no more may be left there than this part of what is asked of
// the bore; what the spindle makes comes besides. Common practice, no source.
const printThrough = 4

// rzOverRa: Rz is about 4 to 6 times Ra on a bored or turned surface. Common
// practice, no source.
const rzOverRa = 5

// bondGrade is the tolerance grade that the outside of a bonded sleeve is
// turned to, where it is not matched to its housing.
const bondGrade = "IT7"

// sleeveInput turns job and bore into what fit works from.
func sleeveInput(job *process.Job, b process.Bore, st process.Station, cleanUp qty.Diameter) fit.SleeveInput {
	s := job.Sleeve
	hub, assumed := hubOf(st, s.Outside)
	outsideMost := s.Outside.MM() + 2*hub.Most.MM()
	ring := ringOf(job.Material, s.Outside.MM()+2*hub.Least.MM(), outsideMost)
	if !assumed {
		ring.Wall = unevenWall(st, hub)
	}
	rz := [2]float64{s.Rz[0].Microns(), s.Rz[1].Microns()}
	for i := range rz {
		if rz[i] == 0 {
			rz[i] = rzOverRa * b.Ra.Microns()
		}
	}
	slide := fit.Band{Least: s.Friction[0], Most: s.Friction[1]}
	if slide == (fit.Band{}) {
		slide = frictionOf(s.Material, job.Material)
	}
	service := fit.Band{Least: s.Service[0], Most: s.Service[1]}
	in := fit.SleeveInput{
		Press: fit.PressInput{
			Length: jointLength(job, st).MM(),
			Boss:   st.Length().MM(),
			Out:    [2]float64{s.StandsOut[0].MM(), s.StandsOut[1].MM()},
			Hub:    ring,
			Sleeve: ringOf(s.Material, 0, 0),
			Blind:  st.Blind, RzHub: rz[0], RzSleeve: rz[1], Friction: slide,
			Reference: roomHeat, Service: service,
			PressCapacity: float64(s.PressCapacity), KeepCool: s.KeepCool,
			Load: s.Load, Joining: s.Joining.MM(), Zone: joining.Zone{Heated: s.Heated.MM(), Casting: s.Casting.MM(), Web: s.Web.MM()},
		},
		Wet: s.Wet, Units: job.Units, CleanUp: cleanUp, BoreLow: b.Finish.Low, BoreHigh: b.Finish.High,
		Fit: s.Fit, Match: s.Match, Outside: s.Outside, Standard: s.Standard, Wall: s.LeastWall(),
		Allowance: s.Allowance, Make: s.Lathe,
		Roundness: b.Roundness, Ra: b.Ra, LocationAllowed: s.Location,
		BeforeLocation: s.Runout / 2,
		BeforeForm:     fit.Form{Lathe: qty.FromMM(latheForm * s.Lathe.MM()), Spindle: job.Runout(), Shape: b.Roundness / printThrough},
		Order:          map[process.Sleeving]fit.Order{process.BoreInPlace: fit.BoreInPlace, process.FinishBefore: fit.FinishBefore}[s.Finish],
	}
	if l := s.Made.LeadIn; l != nil {
		in.NoseAngle, in.NoseLong = l.Angle, l.Length
	}
	if s.Hold == process.Bond {
		c := CompoundOf(s.Compound)
		in.Bond = &c
		in.Fit, in.Housing, in.Sleeve = "", housingLimits(s.Outside), gapLimits(s)
	}
	return in
}

// bondHole is the class that a bonded sleeve's housing is bored to.
const bondHole = "H7"

// housingLimits are those of bondHole.
func housingLimits(d qty.Diameter) iso286.Limits {
	l, err := iso286.Hole(d, bondHole)
	if err != nil {
		return iso286.Limits{} // no diameter that a job can state has no H7; fit.Sleeve refuses what is left
	}
	return l
}

// gapLimits are the limits of a sleeve that leaves the gap aimed at in the
// middle of its housing's limits.
func gapLimits(s *process.Sleeve) iso286.Limits {
	h := housingLimits(s.Outside)
	wide := 2 * s.Match
	if wide == 0 {
		wide, _ = iso286.Grade(s.Outside, bondGrade)
	}
	middle := (h.Upper+h.Lower)/2 - s.Gap
	return iso286.Limits{Upper: middle + wide/2, Lower: middle - wide/2}
}

// CompoundOf finds a bonding compound by its property.
func CompoundOf(name string) fit.Compound {
	all := fit.Compounds()
	for _, c := range all {
		if c.Name == name {
			return c
		}
	}
	return all[1] // high strength: the loader's default
}

// jointLength is how much of a sleeve sits in its housing.
func jointLength(job *process.Job, st process.Station) qty.Length {
	s := job.Sleeve
	return s.LengthIn(st) - s.StandsOut[0] - s.StandsOut[1]
}

// Metal around a bore whose job does not say: a third to two thirds of its
// diameter, as castings have it around a bearing. Common practice, no source;
// the sheet says that it was assumed.
const (
	assumedWall     = 1.0 / 3
	assumedWallMost = 2.0 / 3
)

// hubOf is the metal that is left around the housing when it is bored for the
// sleeve: the outer skin stays, the wall gets thinner by what is bored away.
func hubOf(st process.Station, outside qty.Diameter) (hub iso286.Range, assumed bool) {
	if st.Wall == 0 {
		return iso286.Range{Least: qty.FromMM(assumedWall * outside.MM()), Most: qty.FromMM(assumedWallMost * outside.MM())}, true
	}
	gone := outside.Minus(st.Diameter) / 2
	return iso286.Range{Least: st.Wall - gone, Most: max(st.Wall, st.WallMost) - gone}, false
}

// unevenWall is the metal around the bored housing where it is not the same all
// round: thinnest and thickest as hubOf has them, shape and place as they were read.
func unevenWall(st process.Station, left iso286.Range) hub.Wall {
	w, _ := st.WallRound()
	w.Thin, w.Thick = left.Least.MM(), left.Most.MM()
	return w
}

// roomHeat is the temperature the sizes hold at, °C (ISO 1).
const roomHeat = 20.0

func ringOf(m *process.Material, outside, outsideMost float64) fit.Ring {
	return fit.Ring{
		Outside: outside, OutsideMost: outsideMost,
		E: m.E, Nu: m.Nu, Alpha: m.Alpha, Yield: m.Re, Tensile: m.Rm, Brittle: m.Brittle, HeatMost: m.HeatMost,
		Steel: m.Group == "P" && !m.Brittle, // ISO 513: P is steel, M stainless
		Metal: metalOf(m),
	}
}

// metalOf is the family that a metal shrinks with: by its group of ISO 513, and in group N,
// which holds copper and aluminum alike, by its modulus, about 70 GPa in aluminum.
func metalOf(m *process.Material) joining.Metal {
	switch {
	case m.Group == "M":
		return joining.Stainless
	case m.Group == "N" && m.E < 85e3:
		return joining.Aluminum
	case m.Group == "N":
		return joining.Copper
	}
	return joining.Steel
}

// frictionOf picks the sliding friction of the pair from fit's table.
func frictionOf(sleeve, hub *process.Material) fit.Band {
	switch {
	case sleeve.Group == "N":
		return fit.BronzeInMetal.PressedIn()
	case hub.Brittle || hub.Group == "K":
		return fit.SteelInIron.PressedIn()
	}
	return fit.SteelInSteel.PressedIn()
}

// InsideStopped is whether a stop of a sleeve says nothing but that such a reason stops the cut inside. The figures may
// differ: the sleeve is tried by a line that is true, the visit to it planned by the line as it was swept.
func InsideStopped(stop fact.Arg, why fact.Fact) bool {
	f, is := stop.(fact.Fact)
	if !is || f.Kind != fit.OrderMisses {
		return false
	}
	list := fact.AsList(f.Nth(2))
	if len(list) != 1 || list[0].Kind != fit.NotInPlace {
		return false
	}
	inside, is := list[0].Nth(1).(fact.Fact)
	return is && inside.Kind == why.Kind
}
