package fit

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"borewright/process/qty"
)

// PressInput is a sleeve (or a solid shaft) held in a hub by interference.
// Lengths are mm, on diameter where they are diameters.
type PressInput struct {
	Units         qty.Unit // of the sentences in the answer; the figures are always SI
	Diameter      float64  // interface, nominal
	Length        float64  // of contact
	Interference  Band     // over all parts within limits, on diameter, as measured over the peaks; may begin below 0
	Hub, Sleeve   Ring
	Blind         bool    // the housing is closed at its far end
	RzHub         float64 // µm, greatest height (ISO 21920-2)
	RzSleeve      float64 // µm
	Friction      Band    // sliding, while the sleeve is pressed in and when it holds
	Reference     float64 // °C at which the sizes hold (ISO 1: 20)
	Service       Band    // °C of the joint at work, both parts alike
	PressCapacity float64 // N that the press has; 0: not stated
	KeepCool      string  // why the housing must not be heated ("seals and babbitt stay in"); "": it may be
}

// PressResult is what the fit does, over the whole tolerance band and the
// whole range of wall around the bore.
type PressResult struct {
	Effective       Band // least: roughness flattened; most: as measured
	Pressure        Band // at room temperature
	ServicePressure Band
	Stresses        []Stress
	Closure         Band       // what the sleeve bore loses on diameter, at room temperature
	Torque          Band       // that the joint holds, least over service
	PushOut         Band       // the same, along the bore
	PressForce      []Stroke   // at quarter depths
	Ways            []Assembly // each way to put it together
	Reasons         []string   // what is wrong with the fit; empty: nothing
	Cautions        []string   // of the fit; those of a way stand with the way
}

// Place is where a stress is looked at.
type Place int

// The places.
const (
	HubBore Place = iota
	SleeveOutside
	SleeveBore
	SolidShaft
)

func (p Place) String() string {
	return [...]string{"hub bore", "sleeve outside", "sleeve bore", "shaft"}[p]
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

func (c Criterion) String() string {
	switch c {
	case BrittleTension:
		return fmt.Sprintf("hoop tension, brittle, %g of tensile strength", brittleShare)
	case BrittleCompression:
		return fmt.Sprintf("hoop compression, brittle, %g of %d times tensile strength", brittleShare, compressionShare)
	}
	return fmt.Sprintf("von Mises, %g of yield", yieldShare)
}

// Stress is the highest stress at one place, against what is allowed there.
type Stress struct {
	Where      Place
	Hoop       Band    // tension positive
	Equivalent float64 // the figure that is held against Allowed
	Allowed    float64
	Criterion  Criterion
	OK         bool
}

// Stroke is the press force at one depth.
type Stroke struct {
	Depth float64
	Force Band
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

func (in PressInput) check() error {
	errs := []error{in.Hub.check("hub"), in.Sleeve.check("sleeve")}
	bad := func(format string, a ...any) { errs = append(errs, fmt.Errorf(format, a...)) }
	say := words{in.Units}.length
	d := in.Diameter
	if !(d > 0) || math.IsInf(d, 0) {
		bad("interface diameter must be above 0, not %g mm", d)
	}
	if !(in.Length > 0) || math.IsInf(in.Length, 0) {
		bad("length of contact must be above 0, not %g mm", in.Length)
	}
	if !(in.Sleeve.Inside >= 0 && in.Sleeve.Inside < d) {
		bad("sleeve: the bore must be 0 (solid) or more and below the interface, %s; it is %s", say(d), say(in.Sleeve.Inside))
	}
	if !(in.Hub.Outside > d) {
		bad("hub: the outside must be above the interface, %s; it is %s", say(d), say(in.Hub.Outside))
	}
	if !(in.Hub.OutsideMost >= in.Hub.Outside) {
		bad("hub: the most outside, %s, is below the least, %s", say(in.Hub.OutsideMost), say(in.Hub.Outside))
	}
	if !in.Interference.ok() || in.Interference.Most > d/10 {
		bad("interference must run from a least to a most, below a tenth of the diameter; it is %g to %g mm", in.Interference.Least, in.Interference.Most)
	}
	if f := in.Friction; !f.ok() || f.Least < 0 || f.Most > 1 {
		bad("friction must run from a least to a most within 0 to 1; it is %g to %g", f.Least, f.Most)
	}
	if !(in.RzHub >= 0 && in.RzSleeve >= 0 && in.RzHub < 1000 && in.RzSleeve < 1000) {
		bad("roughness Rz must be 0 to 1000 µm; it is %g and %g", in.RzHub, in.RzSleeve)
	}
	if !in.Service.ok() || in.Service.Least < -273.15 || in.Service.Most > 1000 {
		bad("service temperature must run from a least to a most within -273 to 1000 °C; it is %g to %g", in.Service.Least, in.Service.Most)
	}
	if !(in.Reference > -50 && in.Reference < 60) {
		bad("room temperature must be -50 to 60 °C, not %g", in.Reference)
	}
	if !(in.PressCapacity >= 0) {
		bad("press capacity must not be negative")
	}
	return errors.Join(errs...)
}

// Press works a press fit out over its whole tolerance band. Lengths in mm,
// stresses in MPa, forces in N, torques in N·m. It fails only on an input that
// makes no sense; a fit that is too loose or too tight comes back with Reasons.
//
//	p = Δ / { d [ (C_o+ν_o)/E_o + (C_i−ν_i)/E_i ] }
//	F = μ p π d x          x  depth pressed in
//	T = μ p π d² L / 2
//
// Assumed: both rings as long as the contact, plane stress, elastic. A hub
// longer than the sleeve is a little stiffer at the ends; where the casting is
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
	change := in.tightens(d)
	atWork := Band{r.Effective.Least + change.Least, r.Effective.Most + change.Most}
	// The parts also rest at room temperature, hot service or not.
	atAny := Band{min(r.Effective.Least, atWork.Least), max(r.Effective.Most, atWork.Most)}

	r.Pressure, r.ServicePressure, r.Closure = emptyBand(), emptyBand(), emptyBand()
	var seats []seat
	for _, outside := range []float64{in.Hub.Outside, in.Hub.OutsideMost} {
		j := newSeat(d, outside, in.Hub, in.Sleeve)
		seats = append(seats, j)
		for _, x := range []float64{r.Effective.Least, r.Effective.Most} {
			p := j.pressure(x)
			r.Pressure.hull(p)
			r.Closure.hull(p * j.boreCloses)
		}
		r.ServicePressure.hull(j.pressure(atWork.Least))
		r.ServicePressure.hull(j.pressure(atWork.Most))
	}
	r.Stresses = in.stresses(seats, atAny)

	area := math.Pi * d * in.Length
	r.PushOut = r.ServicePressure.Times(in.Friction).by(area)
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

// stresses lists the places where a sleeved hub gives way. Von Mises for
// ductile parts, plane stress (σ_z = 0): σ_v = √(σ_θ² − σ_θσ_r + σ_r²). A
// brittle part is held against a share of its tensile strength: the hub by its
// hoop tension, the sleeve, which is squeezed, by compression.
func (in PressInput) stresses(seats []seat, interference Band) []Stress {
	places := []struct {
		where       Place
		ring        Ring
		hoop, mises func(seat) float64
	}{
		{HubBore, in.Hub, func(j seat) float64 { return j.hubHoop }, func(j seat) float64 { return j.hubMises }},
		{SleeveOutside, in.Sleeve, func(j seat) float64 { return -j.ci }, func(j seat) float64 { return j.sleeveOutMises }},
		{SleeveBore, in.Sleeve, func(j seat) float64 { return -j.sleeveBore }, func(j seat) float64 { return j.sleeveBoreMises }},
	}
	if in.Sleeve.Inside == 0 {
		places = places[:2]
		places[1].where = SolidShaft
	}
	var out []Stress
	for _, pl := range places {
		s := Stress{Where: pl.where, Hoop: emptyBand()}
		var mises float64
		for _, j := range seats {
			for _, x := range []float64{interference.Least, interference.Most} {
				p := j.pressure(x)
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

// judge says in words what is wrong with the fit. loss is what roughness takes,
// change what service does to the interference at the least, mm.
func (r *PressResult) judge(in PressInput, loss, change float64) {
	w := words{in.Units}
	no := func(format string, a ...any) { r.Reasons = append(r.Reasons, fmt.Sprintf(format, a...)) }
	mind := func(format string, a ...any) { r.Cautions = append(r.Cautions, fmt.Sprintf(format, a...)) }
	middle := (in.Interference.Least+in.Interference.Most)/2 - loss
	switch {
	case in.Interference.Least <= 0:
		no("loose at one end of the limits: the loosest pair has a clearance of %s; take a tighter class", w.length(-in.Interference.Least))
	case r.Effective.Least <= 0 && middle <= 0:
		no("hardly any grip: of %s of interference roughness takes %s; take a tighter class or finer surfaces", w.lengths(in.Interference), w.length(loss))
	case r.Effective.Least <= 0:
		// Press bushes are sold for such fits: parts near the middle of their
		// limits grip. The least figures of torque and push-out are 0 all the same.
		mind("the loosest pair may not grip: of its %s of interference roughness takes %s; turn the sleeve to the housing as found, %s to %s larger, or take a tighter class",
			w.length(in.Interference.Least), w.length(loss), w.length(middle+loss), w.length(in.Interference.Most))
	case r.ServicePressure.Least == 0:
		no("comes loose at work: %s of interference is lost between %s and %s, and %s is all there is at the loose end",
			w.length(-change), w.degrees(in.Service.Least), w.degrees(in.Service.Most), w.length(r.Effective.Least))
	case change < 0 && -change > r.Effective.Least/2:
		mind("more than half of the least interference goes at service temperature: %s of %s", w.length(-change), w.length(r.Effective.Least))
	}
	for _, s := range r.Stresses {
		if s.OK {
			continue
		}
		what := "would crack"
		if !s.Criterion.Brittle() {
			what = "would yield or come near it; grip and bore closure are then not as worked out"
		}
		no("%s: %s against %s allowed (%s): it %s; take less interference or more wall",
			s.Where, w.stress(s.Equivalent), w.stress(s.Allowed), s.Criterion, what)
	}
	anyWay := false
	for _, y := range r.Ways {
		anyWay = anyWay || y.Possible
	}
	if !anyWay {
		no("no way to put it together: %s", r.Ways[0].Why)
	}
	if in.Hub.Brittle {
		mind("the hub is brittle: a notch, a tapped hole or an old crack near the bore is worse than the figure says; look for cracks before and after")
	}
	if q := in.Hub.Outside / in.Diameter; q < 1.5 {
		mind("thin hub: its outside is %.2f times the interface at the thinnest; look where the wall is thinnest", q)
	}
	if in.Blind {
		mind("blind bore: air and oil are trapped behind the sleeve; give them a way out (a groove along the sleeve or a vent hole), and plan how the sleeve would ever come out again")
	}
}
