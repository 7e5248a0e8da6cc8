package fit

import (
	"cmp"
	"math"
	"slices"

	"borewright/process/fact"
	"borewright/process/fit/joining"
	"borewright/process/hub"
	"borewright/process/qty"
)

// PressInput is a sleeve (or a solid shaft) held in a hub by interference.
// Lengths are mm, on diameter where they are diameters.
type PressInput struct {
	Diameter      float64 // interface, nominal
	Length        float64 // of contact
	Boss          float64 // length of the housing around the joint; 0: as the contact
	Interference  Band    // over all parts within limits, on diameter, as measured over the peaks; may begin below 0
	Hub, Sleeve   Ring
	Out           [2]float64   // how far the sleeve stands out of the housing, near and far
	Blind         bool         // the housing is closed at its far end
	RzHub         float64      // µm, greatest height (ISO 21920-2)
	RzSleeve      float64      // µm
	Friction      Band         // sliding, while the sleeve is pressed in and when it holds
	Reference     float64      // °C at which the sizes hold (ISO 1: 20)
	Service       Band         // °C of the joint at work, both parts alike
	PressCapacity float64      // N that the press has; 0: not stated
	Zone          joining.Zone // what of the housing is heated; its Length is filled in here
	Joining       float64      // clearance wanted on diameter to slide the parts together hot or cold; 0: the usual
	Load          Load         // what the joint bears at work
	KeepCool      string       // why the housing must not be heated ("seals and babbitt stay in"); "": it may be

	cases []hub.Case // hubCases, where they were worked out before
}

// PressResult is what the fit does, over the whole tolerance band and the
// whole range of wall around the bore.
type PressResult struct {
	Effective       Band // least: roughness flattened; most: as measured
	Pressure        Band // at room temperature
	ServicePressure Band
	Stresses        []Stress
	Uneven          float64     // tension of the hub over that of an even ring of its thinnest wall; 0: the wall is even
	OutOfRound      float64     // mm, peak to valley on the radius, that the uneven wall brings the bore at the most
	Closure         Band        // what the sleeve bore loses on diameter, at room temperature
	Closing         Band        // the same over the interference, without what the ends of the joint do
	Ends            hub.Ends    // what they do
	Torque          Band        // that the joint holds, least over service
	PushOut         Band        // the same, along the bore
	PressForce      []Stroke    // at quarter depths
	Factors         []Factor    // what of its friction is not counted on
	Ways            []Assembly  // each way to put it together
	Reasons         []fact.Fact // what is wrong with the fit; empty: nothing
	Cautions        []fact.Fact // of the fit; those of a way stand with the way
}

// Place is where a stress is looked at.
type Place int

// The places.
const (
	HubBore Place = iota + 1 // 0: none
	SleeveOutside
	SleeveBore
	SolidShaft
)

func (p Place) String() string {
	return [...]string{"", "hub bore", "sleeve outside", "sleeve bore", "shaft"}[p]
}

// Criterion is what a stress is held against.
type Criterion int

// The criteria: the equivalent stress of von Mises against a share of yield in
// a ductile part; hoop tension, or hoop compression, against a share of tensile
// strength in a brittle one.
const (
	VonMises Criterion = iota
	BrittleTension
	BrittleCompression
)

// Brittle is whether a part that goes beyond the criterion cracks; else it
// yields.
func (c Criterion) Brittle() bool { return c != VonMises }

// Fact is the criterion with its shares.
func (c Criterion) Fact() fact.Fact {
	switch c {
	case BrittleTension:
		return fact.New(ByBrittleTension, fact.Value(qty.KindNumber, brittleShare))
	case BrittleCompression:
		return fact.New(ByBrittleCompression, fact.Value(qty.KindNumber, brittleShare), fact.Value(qty.KindNumber, compressionShare))
	}
	return fact.New(ByVonMises, fact.Value(qty.KindNumber, yieldShare))
}

// Stress is the highest stress at one place, against what is allowed there.
type Stress struct {
	Where      Place
	Hoop       Band    // MPa, tension positive
	Equivalent float64 // the figure that is held against Allowed
	Allowed    float64
	Criterion  Criterion
	OK         bool
}

// Stroke is the press force at one depth.
type Stroke struct {
	Depth float64 // mm
	Force Band    // N
}

// compressionShare is what grey iron bears in compression over tension: about
// 3 (EN 1561 informative annex gives 3.3 for the 250 grade). From memory.
const compressionShare = 3

// RoughnessLoss is the interference that flattened peaks take away, mm on
// diameter, for roughnesses Rz in µm: 0.8·(Rz + Rz). Source: DIN 7190, from
// memory.
func RoughnessLoss(rzHub, rzSleeve float64) float64 { return 0.8 * (rzHub + rzSleeve) / 1000 }

// Shares of the strength allowed: of the tensile strength in a brittle part, of
// the yield strength in a ductile one. Common practice, no source.
const brittleShare, yieldShare = 0.4, 0.8

// Temperatures that an input may have, °C.
const (
	coldestAtWork, hottestAtWork = -273.15, 1000
	coldestRoom, hottestRoom     = -50, 60
)

func (in PressInput) check() error {
	var no refusal
	in.Hub.check(&no, "hub")
	in.Sleeve.check(&no, "sleeve")
	d := in.Diameter
	if !(d > 0) || math.IsInf(d, 0) {
		no.bad(BadDiameter, fact.MM(d))
	}
	if !(in.Length > 0) || math.IsInf(in.Length, 0) {
		no.bad(BadContact, fact.MM(in.Length))
	}
	if !(in.Sleeve.Inside >= 0 && in.Sleeve.Inside < d) {
		no.bad(BadBore, fact.MM(d), fact.MM(in.Sleeve.Inside))
	}
	if !(in.Hub.Outside > d) {
		no.bad(BadOutside, fact.MM(d), fact.MM(in.Hub.Outside))
	}
	if !(in.Hub.OutsideMost >= in.Hub.Outside) {
		no.bad(BadOutsideMost, fact.MM(in.Hub.OutsideMost), fact.MM(in.Hub.Outside))
	}
	if !in.Interference.ok() || in.Interference.Most > d/10 {
		no.bad(BadInterference, fact.MM(in.Interference.Least), fact.MM(in.Interference.Most))
	}
	if f := in.Friction; !f.ok() || f.Least < 0 || f.Most > 1 {
		no.bad(BadFriction, fact.Value(qty.KindNumber, f.Least), fact.Value(qty.KindNumber, f.Most))
	}
	if !(in.RzHub >= 0 && in.RzSleeve >= 0 && in.RzHub < 1000 && in.RzSleeve < 1000) {
		ra := func(microns float64) fact.Arg { return fact.Figure(qty.KindRoughness.Of(microns / 1000)) }
		no.bad(BadRoughness, ra(in.RzHub), ra(in.RzSleeve), ra(1000))
	}
	if !in.Service.ok() || in.Service.Least < coldestAtWork || in.Service.Most > hottestAtWork {
		no.bad(BadService, fact.Value(qty.KindTemperature, coldestAtWork), fact.Value(qty.KindTemperature, hottestAtWork), fact.Value(qty.KindTemperature, in.Service.Least), fact.Value(qty.KindTemperature, in.Service.Most))
	}
	if !(in.Reference > coldestRoom && in.Reference < hottestRoom) {
		no.bad(BadRoom, fact.Value(qty.KindTemperature, coldestRoom), fact.Value(qty.KindTemperature, hottestRoom), fact.Value(qty.KindTemperature, in.Reference))
	}
	if !(in.PressCapacity >= 0) {
		no.bad(BadCapacity)
	}
	return no.err()
}

// Press works a press fit out over its whole tolerance band. Lengths in mm,
// stresses in MPa, forces in N, torques in N·m. It fails only on an input that
// makes no sense; a fit that is too loose or too tight comes back with Reasons.
//
//	p = Δ / { d [ (C_o+ν_o)/E_o + (C_i−ν_i)/E_i ] }
//	F = μ p π d x          x  depth pressed in
//	T = μ p π d² L / 2
//
// Assumed: plane stress, elastic. What the ends of the joint do, where the hub is longer or
// closed, is put on it by hub.Joint: pressure at the most by its mean, closure by its
// least and its most, tension of the hub at its open face. Where the casting is
// no ring, give the least and the most wall. Sources: Lamé; Shigley, 8th ed.,
// Eq. 7-39, 7-49; DIN 7190 for roughness, from memory.
func Press(in PressInput) (PressResult, error) {
	in.Hub.OutsideMost = cmp.Or(in.Hub.OutsideMost, in.Hub.Outside)
	if err := in.check(); err != nil {
		return PressResult{}, err
	}
	d := in.Diameter
	var r PressResult
	loss := RoughnessLoss(in.RzHub, in.RzSleeve)
	// The loss is an estimate. Counting it at the loose end only flatters
	// neither end: grip is not overrated, stress is not underrated.
	r.Effective = Band{in.Interference.Least - loss, in.Interference.Most}
	change := in.Tightens(d)
	atWork := Band{r.Effective.Least + change.Least, r.Effective.Most + change.Most}
	// The parts also rest at room temperature, hot service or not.
	atAny := Band{min(r.Effective.Least, atWork.Least), max(r.Effective.Most, atWork.Most)}

	r.Pressure, r.ServicePressure, r.Closure, r.Closing = emptyBand(), emptyBand(), emptyBand(), emptyBand()
	r.Ends = hub.Joint{Bore: d, Outside: in.Hub.Outside, Hub: cmp.Or(in.Boss, in.Length), Sleeve: in.Length,
		Wall: (d - in.Sleeve.Inside) / 2, Nu: in.Sleeve.Nu, Out: in.Out, Blind: in.Blind}.Ends()
	var seats []seat
	for _, outside := range []float64{in.Hub.Outside, in.Hub.OutsideMost} {
		j := newSeat(d, outside, in.Hub, in.Sleeve)
		seats = append(seats, j)
		r.Closing.hull(j.closing())
		for _, x := range []float64{r.Effective.Least, r.Effective.Most} {
			p := j.pressure(x)
			r.Pressure.hull(p)
			r.Pressure.hull(p * r.Ends.Mean)
			r.Closure.hull(p * j.boreCloses * r.Ends.Least)
			r.Closure.hull(p * j.boreCloses * r.Ends.Most)
		}
		r.ServicePressure.hull(j.pressure(atWork.Least))
		r.ServicePressure.hull(j.pressure(atWork.Most) * r.Ends.Mean)
	}
	hubs := in.hubSeats(seats)
	r.Stresses = in.stresses(hubs, seats, atAny, r.Ends)
	if w := in.Hub.Wall; w.Thick > w.Thin {
		most := func(all []seat) (tension float64) {
			for _, j := range all {
				tension = max(tension, j.pressure(r.Effective.Most)*j.hubHoop)
			}
			return tension
		}
		if even := most(hubs[:1]); even > 0 { // a fit that may be loose presses on nothing
			r.Uneven = most(hubs) / even
		}
		r.OutOfRound = hub.OutOfRound(r.Pressure.Most, in.Hub.E, d/2, w.Thin, w.Thick, w.Round)
	}

	area := math.Pi * d * in.Length
	r.PushOut = r.ServicePressure.Times(in.Friction).by(area)
	if f, ok := in.Load.onFriction(); ok {
		r.PushOut = r.PushOut.Times(f.By)
		r.Factors = append(r.Factors, f)
	}
	r.Torque = r.PushOut.by(d / 2 / 1000)
	home := r.Pressure.Times(in.Friction).by(area)
	for q := 1; q <= 4; q++ {
		part := float64(q) / 4
		r.PressForce = append(r.PressForce, Stroke{in.Length * part, home.by(part)})
	}
	r.Ways = in.assemblies(home)
	r.judge(in, loss, change.Least)
	return r, nil
}

// Taper is by how much more the bore closes at one end of the joint than at the other at
// the most, mm on diameter.
func (r PressResult) Taper() float64 { return r.Closure.Most * (1 - r.Ends.Least/r.Ends.Most) }

// hubSeats are the rings that the hub's tension is worked out by, the thinnest first:
// those that its uneven wall can be no worse than, or those of an even wall.
func (in PressInput) hubSeats(even []seat) []seat {
	if in.cases == nil {
		in.cases = in.hubCases()
	}
	if in.cases == nil {
		return even
	}
	var out []seat
	for _, c := range in.cases {
		j := newSeat(in.Diameter, c.Outside, in.Hub, in.Sleeve)
		j.hubHoop, j.hubMises = c.Tension, mises(c.Tension)
		out = append(out, j)
	}
	return out
}

// hubCases are what the uneven wall of a hub can be no worse than; nil where it is even. They hang on the
// hub alone.
func (in PressInput) hubCases() []hub.Case {
	w := in.Hub.Wall
	if !(w.Thick > w.Thin) {
		return nil
	}
	return hub.Cases(in.Diameter/2, w.Thin, w.Thick, w.Round)
}

// stresses lists the places where a sleeved hub gives way. Von Mises for
// ductile parts, plane stress (σ_z = 0): σ_v = √(σ_θ² − σ_θσ_r + σ_r²). A
// brittle part is held against a share of its tensile strength: the hub by its
// hoop tension, the sleeve, which is squeezed, by compression.
func (in PressInput) stresses(hubs, seats []seat, interference Band, ends hub.Ends) []Stress {
	places := []struct {
		where       Place
		ring        Ring
		seats       []seat
		hoop, mises func(seat) float64
		end         float64 // how much more it is at an end
	}{
		{HubBore, in.Hub, hubs, func(j seat) float64 { return j.hubHoop }, func(j seat) float64 { return j.hubMises }, ends.Tension},
		{SleeveOutside, in.Sleeve, seats, func(j seat) float64 { return -j.ci }, func(j seat) float64 { return j.sleeveOutMises }, ends.Most},
		{SleeveBore, in.Sleeve, seats, func(j seat) float64 { return -j.sleeveBore }, func(j seat) float64 { return j.sleeveBoreMises }, ends.Most},
	}
	if in.Sleeve.Inside == 0 {
		places = places[:2]
		places[1].where = SolidShaft
	}
	var out []Stress
	for _, pl := range places {
		s := Stress{Where: pl.where, Hoop: emptyBand()}
		var mises float64
		for _, j := range pl.seats {
			for _, x := range []float64{interference.Least, interference.Most} {
				s.Hoop.hull(j.pressure(x) * pl.hoop(j))
				p := j.pressure(x) * pl.end
				s.Hoop.hull(p * pl.hoop(j))
				mises = max(mises, p*pl.mises(j))
			}
		}
		switch {
		case !pl.ring.Brittle:
			s.Equivalent, s.Allowed = mises, yieldShare*pl.ring.Yield
		case pl.where == HubBore:
			s.Equivalent, s.Allowed = s.Hoop.Most, brittleShare*pl.ring.Tensile
			s.Criterion = BrittleTension
		default:
			s.Equivalent, s.Allowed = -s.Hoop.Least, brittleShare*compressionShare*pl.ring.Tensile
			s.Criterion = BrittleCompression
		}
		s.OK = s.Equivalent <= s.Allowed
		out = append(out, s)
	}
	return out
}

// judge says what is wrong with the fit. loss is what roughness takes, change
// what service does to the interference at the least, mm.
func (r *PressResult) judge(in PressInput, loss, change float64) {
	no := func(k fact.Kind, args ...fact.Arg) { r.Reasons = append(r.Reasons, fact.New(k, args...)) }
	mind := func(k fact.Kind, args ...fact.Arg) { r.Cautions = append(r.Cautions, fact.New(k, args...)) }
	middle := (in.Interference.Least+in.Interference.Most)/2 - loss
	switch {
	case in.Interference.Least <= 0:
		no(PressLoose, fact.MM(-in.Interference.Least))
	case r.Effective.Least <= 0 && middle <= 0:
		no(PressNoGrip, fact.MM(in.Interference.Least), fact.MM(in.Interference.Most), fact.MM(loss))
	case r.Effective.Least <= 0:
		// Press bushes are sold for such fits: parts near the middle of their
		// limits grip. The least figures of torque and push-out are 0 all the same.
		mind(PressMayGrip, fact.MM(in.Interference.Least), fact.MM(loss), fact.MM(middle+loss), fact.MM(in.Interference.Most))
	case r.ServicePressure.Least == 0:
		no(PressLoosens, fact.MM(-change), fact.Value(qty.KindTemperature, in.Service.Least), fact.Value(qty.KindTemperature, in.Service.Most), fact.MM(r.Effective.Least))
	case change < 0 && -change > r.Effective.Least/2:
		mind(PressHalfLost, fact.MM(-change), fact.MM(r.Effective.Least))
	}
	for _, s := range r.Stresses {
		if s.OK {
			continue
		}
		what := Yields
		if s.Criterion.Brittle() {
			what = Cracks
		}
		no(what, fact.Name(s.Where.String()), fact.Value(qty.KindStress, s.Equivalent), fact.Value(qty.KindStress, s.Allowed), s.Criterion.Fact())
	}
	if !slices.ContainsFunc(r.Ways, func(y Assembly) bool { return y.Possible }) {
		no(NoWayTogether, r.Ways[0].Why)
	}
	if in.Hub.Brittle {
		mind(HubBrittle)
	}
	if w := in.Hub.Wall; r.Uneven > 0 {
		mind(HubUneven, fact.MM(w.Thin), fact.MM(w.Thick), fact.Figure(qty.KindFactor.Of(r.Uneven)), unless(!w.Read, fact.Figure(qty.KindClock.Of(w.At))))
	}
	if q := in.Hub.Outside / in.Diameter; q < 1.5 && r.Uneven == 0 {
		mind(HubThin, fact.Figure(qty.KindFactor.Of(q)))
	}
	if in.Blind {
		mind(BlindHousing)
	}
	if !r.Ends.Even() && r.Closure.Most > 0 {
		factor := func(x float64) fact.Arg { return fact.Figure(qty.KindFactor.Of(x)) }
		kind := EndsDiffer
		if in.Out != [2]float64{} {
			kind = EndsOut
		}
		mind(kind, fact.MM(r.Taper()), factor(r.Ends.Least), factor(r.Ends.Most), factor(r.Ends.Tension))
	}
}
