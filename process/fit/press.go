package fit

import (
	"errors"
	"fmt"
	"math"
	"strings"

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
	Friction      Band    // sliding, while the sleeve is pressed in
	Holding       Band    // friction of the finished joint; zero: as Friction
	Room          float64 // °C at which the sizes hold
	Service       Band    // °C of the joint at work, both parts alike
	BrittleShare  float64 // share of the tensile strength allowed in a brittle part, 0: 0.4
	YieldShare    float64 // share of the yield strength allowed, 0: 0.8
	PressCapacity float64 // N that the press has; 0: not stated
	Clearance     float64 // mm on diameter wanted to slide the parts together hot or cold; 0: 0.0005·Diameter, at least 0.025
	KeepCool      string  // why the housing must not be heated ("seals and babbitt stay in"); "": it may be
	WarmUp        float64 // K the sleeve gains between bath and seat; 0: 15
}

// PressResult is what the fit does, over the whole tolerance band and the
// whole range of wall around the bore.
type PressResult struct {
	Effective       Band     `json:"effective_interference_mm"` // least: roughness flattened; most: as measured
	RoughnessLoss   float64  `json:"roughness_loss_mm"`
	ServiceChange   Band     `json:"service_change_mm"` // of the interference, at service temperature; negative: lost
	Pressure        Band     `json:"pressure_mpa"`      // at room temperature
	ServicePressure Band     `json:"service_pressure_mpa"`
	Stresses        []Stress `json:"stresses"`
	Closure         Band     `json:"bore_closure_mm"` // what the sleeve bore loses on diameter, at room temperature
	HubGrowth       Band     `json:"hub_growth_mm"`   // outside of the hub, on diameter
	HubOpens        Band     `json:"hub_bore_opens_mm"`
	SleeveGives     Band     `json:"sleeve_outside_gives_mm"`
	Torque          Band     `json:"torque_nm"`      // that the joint holds, least over service
	PushOut         Band     `json:"push_out_n"`     // the same, along the bore
	PressForce      []Stroke `json:"press_force"`    // at quarter depths
	Work            Band     `json:"press_work_j"`   // of pressing home
	Ways            []Way    `json:"assembly"`       // each way to put it together
	Reasons         []string `json:"reasons"`        // what is wrong with the fit; empty: nothing
	Cautions        []string `json:"cautions"`       // of the fit; those of a way stand with the way
	Closing         float64  `json:"closure_of_fit"` // bore closure over interference, –, at the least wall of hub
}

// Stress is the highest stress at one place, against what is allowed there.
type Stress struct {
	Where      string  `json:"where"`
	Hoop       Band    `json:"hoop_mpa"`       // tension positive
	Equivalent float64 `json:"equivalent_mpa"` // the figure that is held against Allowed
	Allowed    float64 `json:"allowed_mpa"`
	Criterion  string  `json:"criterion"`
	OK         bool    `json:"ok"`
}

// Stroke is the press force at one depth.
type Stroke struct {
	Depth float64 `json:"depth_mm"`
	Force Band    `json:"force_n"`
}

// compressionShare is what grey iron bears in compression over tension: about
// 3 (EN 1561 informative annex gives 3.3 for the 250 grade). From memory.
const compressionShare = 3

// RoughnessLoss is the interference that flattened peaks take away, mm on
// diameter, for roughnesses Rz in µm: 0.8·(Rz + Rz). Source: DIN 7190, from
// memory.
func RoughnessLoss(rzHub, rzSleeve float64) float64 { return 0.8 * (rzHub + rzSleeve) / 1000 }

func (in PressInput) defaults() PressInput {
	set := func(v *float64, d float64) {
		if *v == 0 {
			*v = d
		}
	}
	set(&in.BrittleShare, 0.4)
	set(&in.YieldShare, 0.8)
	set(&in.Clearance, max(0.025, 0.0005*in.Diameter)) // common practice; DIN 7190 asks for 0.001 of the diameter (from memory)
	set(&in.WarmUp, 15)
	set(&in.Hub.OutsideMost, in.Hub.Outside)
	if in.Holding == (Band{}) {
		in.Holding = in.Friction
	}
	return in
}

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
	for _, f := range []struct {
		what string
		b    Band
	}{{"friction", in.Friction}, {"holding friction", in.Holding}} {
		if !f.b.ok() || f.b.Least < 0 || f.b.Most > 1 {
			bad("%s must run from a least to a most within 0 to 1; it is %g to %g", f.what, f.b.Least, f.b.Most)
		}
	}
	if !(in.RzHub >= 0 && in.RzSleeve >= 0 && in.RzHub < 1000 && in.RzSleeve < 1000) {
		bad("roughness Rz must be 0 to 1000 µm; it is %g and %g", in.RzHub, in.RzSleeve)
	}
	if !in.Service.ok() || in.Service.Least < -273.15 || in.Service.Most > 1000 {
		bad("service temperature must run from a least to a most within -273 to 1000 °C; it is %g to %g", in.Service.Least, in.Service.Most)
	}
	if !(in.Room > -50 && in.Room < 60) {
		bad("room temperature must be -50 to 60 °C, not %g", in.Room)
	}
	if !(in.BrittleShare > 0 && in.BrittleShare <= 1 && in.YieldShare > 0 && in.YieldShare <= 1) {
		bad("the share of strength allowed must be above 0 and up to 1; it is %g brittle, %g yield", in.BrittleShare, in.YieldShare)
	}
	if !(in.Clearance >= 0 && in.WarmUp >= 0 && in.PressCapacity >= 0) {
		bad("assembly clearance, warm-up and press capacity must not be negative")
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
	in = in.defaults()
	if err := in.check(); err != nil {
		return PressResult{}, err
	}
	d := in.Diameter
	r := PressResult{RoughnessLoss: RoughnessLoss(in.RzHub, in.RzSleeve)}
	// The loss is an estimate. Counting it at the loose end only flatters
	// neither end: grip is not overrated, stress is not underrated.
	r.Effective = Band{in.Interference.Least - r.RoughnessLoss, in.Interference.Most}
	r.ServiceChange = in.tightens(d)
	atWork := Band{r.Effective.Least + r.ServiceChange.Least, r.Effective.Most + r.ServiceChange.Most}
	// The parts also rest at room temperature, hot service or not.
	atAny := Band{min(r.Effective.Least, atWork.Least), max(r.Effective.Most, atWork.Most)}

	r.Pressure, r.ServicePressure = emptyBand(), emptyBand()
	r.Closure, r.HubGrowth, r.HubOpens, r.SleeveGives = emptyBand(), emptyBand(), emptyBand(), emptyBand()
	var joints []joint
	for _, outside := range []float64{in.Hub.Outside, in.Hub.OutsideMost} {
		j := newJoint(d, outside, in.Hub, in.Sleeve)
		joints = append(joints, j)
		for _, x := range []float64{r.Effective.Least, r.Effective.Most} {
			p := j.pressure(x)
			r.Pressure.hull(p)
			r.Closure.hull(p * j.boreCloses)
			r.HubGrowth.hull(p * j.hubGrows)
			r.HubOpens.hull(p * j.hubOpens)
			r.SleeveGives.hull(p * j.sleeveGives)
		}
		r.ServicePressure.hull(j.pressure(atWork.Least))
		r.ServicePressure.hull(j.pressure(atWork.Most))
	}
	r.Closing = joints[0].closing()
	r.Stresses = in.stresses(joints, atAny)

	area := math.Pi * d * in.Length
	r.PushOut = r.ServicePressure.Times(in.Holding).by(area)
	r.Torque = r.PushOut.by(d / 2 / 1000)
	home := r.Pressure.Times(in.Friction).by(area)
	for q := 1; q <= 4; q++ {
		part := float64(q) / 4
		r.PressForce = append(r.PressForce, Stroke{in.Length * part, home.by(part)})
	}
	r.Work = home.by(in.Length / 2 / 1000)
	r.Ways = in.ways(home)
	r.judge(in)
	return r, nil
}

// stresses lists the places where a sleeved hub gives way. Von Mises for
// ductile parts, plane stress (σ_z = 0): σ_v = √(σ_θ² − σ_θσ_r + σ_r²). A
// brittle part is held against a share of its tensile strength: the hub by its
// hoop tension, the sleeve, which is squeezed, by compression.
func (in PressInput) stresses(joints []joint, interference Band) []Stress {
	places := []struct {
		where       string
		ring        Ring
		hoop, mises func(joint) float64
	}{
		{"hub bore", in.Hub, func(j joint) float64 { return j.hubHoop }, func(j joint) float64 { return j.hubMises }},
		{"sleeve outside", in.Sleeve, func(j joint) float64 { return -j.ci }, func(j joint) float64 { return j.sleeveOutMises }},
		{"sleeve bore", in.Sleeve, func(j joint) float64 { return -j.sleeveBore }, func(j joint) float64 { return j.sleeveBoreMises }},
	}
	if in.Sleeve.Inside == 0 {
		places = places[:2]
		places[1].where = "shaft"
	}
	var out []Stress
	for i, pl := range places {
		s := Stress{Where: pl.where, Hoop: emptyBand()}
		var mises float64
		for _, j := range joints {
			for _, x := range []float64{interference.Least, interference.Most} {
				p := j.pressure(x)
				s.Hoop.hull(p * pl.hoop(j))
				mises = max(mises, p*pl.mises(j))
			}
		}
		switch {
		case !pl.ring.Brittle:
			s.Equivalent, s.Allowed = mises, in.YieldShare*pl.ring.Yield
			s.Criterion = fmt.Sprintf("von Mises, %g of yield", in.YieldShare)
		case i == 0:
			s.Equivalent, s.Allowed = s.Hoop.Most, in.BrittleShare*pl.ring.Tensile
			s.Criterion = fmt.Sprintf("hoop tension, brittle, %g of tensile strength", in.BrittleShare)
		default:
			s.Equivalent, s.Allowed = -s.Hoop.Least, in.BrittleShare*compressionShare*pl.ring.Tensile
			s.Criterion = fmt.Sprintf("hoop compression, brittle, %g of %d times tensile strength", in.BrittleShare, compressionShare)
		}
		s.OK = s.Equivalent <= s.Allowed
		out = append(out, s)
	}
	return out
}

// judge says in words what is wrong with the fit.
func (r *PressResult) judge(in PressInput) {
	w := words{in.Units}
	no := func(format string, a ...any) { r.Reasons = append(r.Reasons, fmt.Sprintf(format, a...)) }
	mind := func(format string, a ...any) { r.Cautions = append(r.Cautions, fmt.Sprintf(format, a...)) }
	middle := (in.Interference.Least+in.Interference.Most)/2 - r.RoughnessLoss
	switch {
	case in.Interference.Least <= 0:
		no("loose at one end of the limits: the loosest pair has a clearance of %s; take a tighter class", w.length(-in.Interference.Least))
	case r.Effective.Least <= 0 && middle <= 0:
		no("hardly any grip: of %s of interference roughness takes %s; take a tighter class or finer surfaces", w.lengths(in.Interference), w.length(r.RoughnessLoss))
	case r.Effective.Least <= 0:
		// Press bushes are sold for such fits: parts near the middle of their
		// limits grip. The least figures of torque and push-out are 0 all the same.
		mind("the loosest pair may not grip: of its %s of interference roughness takes %s; turn the sleeve to the housing as found, %s to %s larger, or take a tighter class",
			w.length(in.Interference.Least), w.length(r.RoughnessLoss), w.length(middle+r.RoughnessLoss), w.length(in.Interference.Most))
	case r.ServicePressure.Least == 0:
		no("comes loose at work: %s of interference is lost between %s and %s, and %s is all there is at the loose end",
			w.length(-r.ServiceChange.Least), w.degrees(in.Service.Least), w.degrees(in.Service.Most), w.length(r.Effective.Least))
	case r.ServiceChange.Least < 0 && -r.ServiceChange.Least > r.Effective.Least/2:
		mind("more than half of the least interference goes at service temperature: %s of %s", w.length(-r.ServiceChange.Least), w.length(r.Effective.Least))
	}
	for _, s := range r.Stresses {
		if s.OK {
			continue
		}
		what := "would crack"
		if !strings.Contains(s.Criterion, "brittle") {
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
