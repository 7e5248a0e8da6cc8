// Package sleeve works out the sleeve of a bore: sizes, fit or bond, where its
// inside comes to size, the work on lathe and bench, and the order of the repair.
// The stresses and fits themselves are process/fit's; the visits that it lays out
// are given their passes by process/plan.
package sleeve

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/qty"
)

// Sleeve is the sleeve of one bore worked out: what the lathe makes, how it is
// held and goes in, and where its inside comes to size. What a tolerance moves
// is given as a range. Stresses and pressures are MPa, temperatures °C.
type Sleeve struct {
	Material     *process.Material
	Fastening    process.Hold
	Fit          string       // "H7/r6"; "H7" where a gap is left for a bond
	Outside      qty.Diameter // nominal, between sleeve and housing
	Housing      [2]qty.Diameter
	Turned       [2]qty.Diameter // limits of the sleeve's outside by the fit alone
	Found        [2]qty.Diameter // the housing as bored and measured, least and most; zero: not yet
	TurnedTo     [2]qty.Diameter // what the outside is turned to for it; zero: not measured, or made by limits alone
	Match        qty.Length      // turned to the housing as measured, ± on diameter about the middle; 0: by limits alone
	Interference Span            // sleeve over housing as assembled, on diameter; negative: a gap
	Length       Span            // limits of its length
	Wall         qty.Length      // least when finished
	Hub          Span            // metal around the bored housing
	Assumed      bool            // Hub was not stated and is assumed

	InPlace bool             // the way taken: bored in place; false: finished before
	Asked   process.Sleeving // by the job
	Why     string           // why this way, with the figures
	Other   string           // what the other way would need
	Before  SleeveWay
	Here    SleeveWay

	Final      *FinalClearance // nil: no mating part is stated
	Effective  Span            // press: interference that is left once roughness is flattened, and all of it
	Closure    Span            // of the bore at assembly, on diameter, the way taken
	Pressure   [2]float64      // at the seat, bore at size, at room temperature
	Service    [2]float64      // °C at work
	AtWork     [2]float64      // pressure over them
	Stresses   []SleeveStress  // press: as assembled and at size, the higher
	PressForce []PressStroke   // press: along the stroke
	Joints     []Joint         // press and bond side by side, the one taken first
	Assembly   []Assembly      // ways to put it in
	Bonding    []string        // bond: cleaning, gap and setting
	Chuck      Chucking
	Details    []Detail    // chamfers, lead-in, grooves, holes
	Lathe      []string    // the lathe's sequence
	Order      []OrderStep // of the whole repair, with hold points
	Cautions   []string    // of this fit and what was assumed; those of a way of assembly stand with it. No page leaves them out; a program, which cuts and does not assemble, has no room for them
	Stops      []string    // what is wrong; empty: nothing
}

// Describe says what documents and a comparison have of a sleeve.
func (s *Sleeve) Describe(d *field.Desc) {
	const proof, size, fit, words = process.SpoilsProof, process.SpoilsSize, process.SpoilsFit, process.SpoilsWords
	taken := func(inPlace bool) func() field.Rank { // the way that neither plan takes spoils nothing
		return func() field.Rank {
			if s.InPlace == inPlace {
				return size
			}
			return words
		}
	}
	stressed := func() bool { return len(s.Stresses) > 0 }
	known := func() bool { return s.Taken().Known() }
	d.Is("material", func() any { return s.Material.Called() }).Weighs(fit, "made of")
	field.Word(d, &s.Fastening, "hold", process.Press, process.Bond).Weighs(fit, "held by, as planned")
	d.Text(&s.Fit, "fit").Weighs(fit, "fit planned").ZeroIsNone()
	d.Either(&s.InPlace, "finish", "before", "in place")
	d.Flag(&s.InPlace, "in_place").NoJSON().Weighs(size, "bored in place")
	field.Word(d, &s.Asked, "asked", process.Decide, process.BoreInPlace, process.FinishBefore).NoJSON().Weighs(size, "finish asked for")
	d.Text(&s.Why, "why").Weighs(words, "why so").ZeroIsNone()
	d.Text(&s.Other, "other").Weighs(words, "what the other way needs").ZeroIsNone()
	d.Diameter(&s.Outside, "outside_mm").Weighs(fit, "outside, nominal")
	sizes(d, &s.Housing, "housing_mm").WeighsAll(fit, "housing")
	sizes(d, &s.Turned, "outside_limits_mm").WeighsAll(fit, "outside turned to")
	d.DiameterPair(&s.Found, "found").NoJSON().ZeroIsNone().WeighEnds(fit, "housing measured, low", "housing measured, high")
	d.DiameterPair(&s.TurnedTo, "turned_to").NoJSON().ZeroIsNone().WeighEnds(fit, "outside for this housing, low", "outside for this housing, high")
	microns(d, &s.Interference, "interference_um").WeighsAll(fit, "interference")
	d.Length(&s.Match, "match_um").Microns().Weighs(fit, "matched within").Fine()
	lengths(d, &s.Length, "length_mm", 6).WeighsAll(fit, "length made")
	d.Length(&s.Wall, "wall_mm").Weighs(fit, "wall finished")
	d.Is("weight_kg", func() any { return s.Weight() }).Decimals(3) // as turned
	lengths(d, &s.Hub, "housing_metal_mm", 3).WeighsAll(fit, "metal around the housing")
	d.Flag(&s.Assumed, "housing_metal_assumed").Weighs(fit, "metal around the housing assumed")
	d.Table(&s.Before, "finished_before").Weighs(size, "finished before").RankBy(taken(false))
	d.Table(&s.Here, "bored_in_place").Weighs(size, "bored in place").RankBy(taken(true))
	field.Maybe(d, &s.Final, "final_clearance").OmitEmpty().With(func(d *field.Desc) {
		d.Find("expected_um").When(known)
		d.Find("at_work_um").When(known)
	})
	microns(d, &s.Closure, "bore_closure_um").WeighsAll(size, "bore closes by")
	microns(d, &s.Effective, "effective_um").NoJSON().WeighsAll(fit, "interference, roughness flattened")
	numbers(d, &s.Pressure, "pressure_mpa", qty.KindStress, 2).When(stressed).WeighsAll(fit, "pressure")
	numbers(d, &s.Service, "service_c", qty.KindTemperature, 1).WeighsAll(fit, "temperature at work, as planned")
	numbers(d, &s.AtWork, "service_pressure_mpa", qty.KindStress, 2).When(stressed).WeighsAll(fit, "pressure at work")
	field.List(d, &s.Stresses, "stresses", 0, field.Any).OmitEmpty().Weighs(fit, "stress")
	field.List(d, &s.PressForce, "press_force", 0, field.Any).OmitEmpty().Weighs(fit, "press force, place")
	field.List(d, &s.Joints, "joints", 0, field.Any).Weighs(fit, "held by")
	field.List(d, &s.Assembly, "assembly", 0, field.Any).Weighs(fit, "put in by")
	d.Table(&s.Chuck, "chuck")
	field.List(d, &s.Details, "details", 0, field.Any).NoJSON()
	d.Texts(&s.Bonding, "bonding", 0, field.Any).NoJSON().Weighs(fit, "bonding")
	d.Texts(&s.Lathe, "lathe", 0, field.Any).NoJSON().Weighs(fit, "lathe work")
	field.List(d, &s.Order, "order", 0, field.Any)
	d.Texts(&s.Cautions, "cautions", 0, field.Any).Weighs(words, "caution of the sleeve")
	d.Texts(&s.Stops, "stops", 0, field.Any).Weighs(proof, "what is wrong with the sleeve")
	d.Worked("by name", &s.Material)
}

// sizes are a least and a most diameter.
func sizes(d *field.Desc, p *[2]qty.Diameter, key string) *field.Field {
	return d.Group(key, func(d *field.Desc) {
		d.Diameter(&p[0], "min").Weighs(0, "low")
		d.Diameter(&p[1], "max").Weighs(0, "high")
	})
}

// lengths are a span in mm, microns one in µm.
func lengths(d *field.Desc, p *Span, key string, decimals int) *field.Field {
	return d.Group(key, func(d *field.Desc) {
		d.Length(&p.Least, "min").Decimals(decimals).Weighs(0, "least").Fine()
		d.Length(&p.Most, "max").Decimals(decimals).Weighs(0, "most").Fine()
	})
}

func microns(d *field.Desc, p *Span, key string) *field.Field {
	return d.Group(key, func(d *field.Desc) {
		d.Length(&p.Least, "min").Microns().Decimals(1).Weighs(0, "least").Fine()
		d.Length(&p.Most, "max").Microns().Decimals(1).Weighs(0, "most").Fine()
	})
}

// numbers are a least and a most of a kind of quantity.
func numbers[T ~float64](d *field.Desc, p *[2]T, key string, k qty.Kind, decimals int) *field.Field {
	return d.Group(key, func(d *field.Desc) {
		field.Quantity(d, &p[0], k, "min").Decimals(decimals).Weighs(process.SpoilsFit, "least")
		field.Quantity(d, &p[1], k, "max").Decimals(decimals).Weighs(process.SpoilsFit, "most")
	})
}

// Span is a least and a most.
type Span struct{ Least, Most qty.Length }

// SleeveWay is one of the two orders of work for the sleeve's inside.
type SleeveWay struct {
	Inside    [2]qty.Diameter // limits it is made to before assembly
	Closure   Span            // on diameter, at assembly
	Stock     Span            // left to bore in place, on diameter; zero when finished before
	Low, High qty.Diameter    // what the bore is when all is done, without what is out of round
	Roundness qty.Length      // radial
	OffCentre qty.Length      // radial, beyond the line-up that both ways share
	Ra        qty.Length      // as planned; 0: as asked of the lathe
	Lands     bool
	Why       []string // what does not fit
}

// Describe says what documents and a comparison have of a way.
func (w *SleeveWay) Describe(d *field.Desc) {
	sizes(d, &w.Inside, "inside_mm").WeighsAll(0, "inside as turned")
	microns(d, &w.Closure, "bore_closure_um").WeighsAll(0, "closes by")
	microns(d, &w.Stock, "stock_um").WeighsAll(0, "left for the mill")
	d.Group("size_mm", func(d *field.Desc) {
		d.Diameter(&w.Low, "min").Weighs(0, "low")
		d.Diameter(&w.High, "max").Weighs(0, "high")
	}).WeighsAll(0, "size when done")
	d.Length(&w.Roundness, "roundness_um").Microns().Decimals(2).Weighs(0, "out of round").Fine()
	d.Length(&w.OffCentre, "off_centre_um").Microns().Decimals(2).Weighs(0, "axis off").Fine()
	d.Rough(&w.Ra, "ra_um").Decimals(2).Weighs(0, "Ra").Step(process.RaStep)
	d.Flag(&w.Lands, "lands").Weighs(0, "lands")
	d.Texts(&w.Why, "why", 0, field.Any).Weighs(0, "does not fit")
}

// Known is whether this way could be worked out: what boring in place holds is
// not known where no passes were found for it.
func (w SleeveWay) Known() bool {
	return w.Lands || w.High.Minus(w.Low) > qty.Micrometre/5 // twice what roundedWay rounds to
}

// FinalClearance is what the part that goes in finds, on diameter.
type FinalClearance struct {
	Part     [2]qty.Diameter
	Asked    Span              // by the job: clearance, or what the limits allow
	Expected Span              // as planned, out-of-round counted; means nothing where the way taken is not known
	AtWork   Span              // the same over Sleeve.Service, bore and part equally warm
	PartOf   *process.Material // nil: not stated, steel is assumed
	OK       bool
}

// Describe says what documents and a comparison have of it.
func (f *FinalClearance) Describe(d *field.Desc) {
	const size = process.SpoilsSize
	sizes(d, &f.Part, "part_mm").WeighsAll(size, "part that goes in")
	microns(d, &f.Asked, "asked_um").WeighsAll(size, "clearance asked for")
	microns(d, &f.Expected, "expected_um").WeighsAll(size, "clearance expected")
	microns(d, &f.AtWork, "at_work_um").WeighsAll(process.SpoilsFit, "clearance at work")
	d.Is("part_material", func() any { return f.PartOf.Called() })
	d.Flag(&f.OK, "ok").Weighs(size, "final clearance as asked")
	d.Worked("by name, and compared in the job", &f.PartOf)
}

// SleeveStress is the highest stress at one place against what is allowed.
type SleeveStress struct {
	Where               string
	Hoop                [2]float64 // tension positive
	Equivalent, Allowed float64
	Criterion           string
	OK                  bool
}

// Describe says what documents and a comparison have of a stress.
func (x *SleeveStress) Describe(d *field.Desc) {
	d.Text(&x.Where, "where").Names().Weighs(process.SpoilsFit, "where").ZeroIsNone()
	numbers(d, &x.Hoop, "hoop_mpa", qty.KindStress, 1).WeighsAll(process.SpoilsFit, "hoop")
	d.Figure(&x.Equivalent, qty.KindStress, "equivalent_mpa").Decimals(1).Weighs(process.SpoilsFit, "judged")
	d.Figure(&x.Allowed, qty.KindStress, "allowed_mpa").Decimals(1).Weighs(process.SpoilsFit, "allowed")
	d.Text(&x.Criterion, "criterion").Weighs(process.SpoilsFit, "by").ZeroIsNone()
	d.Flag(&x.OK, "ok").Weighs(process.SpoilsProof, "borne")
}

// PressStroke is the press force at one depth.
type PressStroke struct {
	Depth qty.Length
	Force [2]qty.Force
}

// Describe says what documents and a comparison have of a stroke.
func (p *PressStroke) Describe(d *field.Desc) {
	d.Length(&p.Depth, "depth_mm").Decimals(3).Weighs(process.SpoilsFit, field.Itself)
	numbers(d, &p.Force, "force_n", qty.KindForce, 0)
}

// Joint is what one way of holding does, over the whole range.
type Joint struct {
	Way        string
	Taken      bool
	Torque     [2]qty.Torque
	PushOut    [2]qty.Force
	Closure    Span
	HubHoop    float64    // highest tension in the housing
	OffCentre  qty.Length // radial
	HottestUse float64    // °C; 0: not bound by the joint
	Reserve    float64    // least hold over the load asked for; 0: no load is stated
	Sound      bool
	Note       string // what it assumes
	Reasons    []string
}

// Describe says what documents and a comparison have of a joint.
func (j *Joint) Describe(d *field.Desc) {
	const fit = process.SpoilsFit
	d.Text(&j.Way, "way").Names().Weighs(fit, field.Itself).ZeroIsNone()
	d.Flag(&j.Taken, "taken").Weighs(fit, "taken")
	numbers(d, &j.Torque, "torque_nm", qty.KindTorque, 1).WeighsAll(fit, "torque")
	numbers(d, &j.PushOut, "push_out_n", qty.KindForce, 0).WeighsAll(fit, "push-out")
	microns(d, &j.Closure, "bore_closure_um").WeighsAll(fit, "bore closes by")
	d.Figure(&j.HubHoop, qty.KindStress, "housing_hoop_mpa").Decimals(1).Weighs(fit, "tension in the housing")
	d.Length(&j.OffCentre, "off_centre_um").Microns().Decimals(1).Weighs(fit, "axis off").Fine()
	d.Figure(&j.HottestUse, qty.KindTemperature, "hottest_use_c").Weighs(fit, "hottest use")
	d.Number(&j.Reserve, "times_load", "").Decimals(2).Weighs(fit, "times the load")
	d.Flag(&j.Sound, "sound").Weighs(fit, "sound")
	d.Text(&j.Note, "note").Weighs(fit, "for").ZeroIsNone()
	d.Texts(&j.Reasons, "reasons", 0, field.Any).Weighs(fit, "unsound because")
}

// Assembly is one way to put the sleeve in.
type Assembly struct {
	Name            string
	Possible        bool
	HubTo, SleeveTo float64    // °C
	Clearance       qty.Length // on diameter, tightest pair, as they meet; negative: they do not pass
	Force           qty.Force  // most, pressed home; 0: it slides in
	Why             string
	Cautions        []string
}

// Describe says what documents and a comparison have of a way in.
func (a *Assembly) Describe(d *field.Desc) {
	const fit, words = process.SpoilsFit, process.SpoilsWords
	d.Text(&a.Name, "way").Names().Weighs(fit, field.Itself).ZeroIsNone()
	d.Flag(&a.Possible, "possible").Weighs(fit, "possible")
	d.Figure(&a.HubTo, qty.KindTemperature, "housing_to_c").Decimals(1).Weighs(fit, "housing at")
	d.Figure(&a.SleeveTo, qty.KindTemperature, "sleeve_to_c").Decimals(1).Weighs(fit, "sleeve at")
	d.Length(&a.Clearance, "clearance_um").Microns().Decimals(1).Weighs(fit, "clearance").Fine()
	d.Newtons(&a.Force, "force_n").Decimals(0).Weighs(fit, "force")
	d.Text(&a.Why, "why").Weighs(words, "why").ZeroIsNone()
	d.Texts(&a.Cautions, "cautions", 0, field.Any).Weighs(words, "caution")
}

// Chucking is the thin ring in a three-jaw chuck.
type Chucking struct {
	Grip, GripMost  qty.Force  // of one jaw: taken, and the most that keeps the lobes within Allowed
	Lobes, SixPads  qty.Length // out of round, radial range: three jaws, and six pads with the same grip in all
	Allowed         qty.Length // a quarter of the roundness asked for
	Rough           bool       // the wall is thick for the formula: the figures are low
	OuterDia, Bored qty.Diameter
	Instead         []string
}

// Describe says what documents and a comparison have of it.
func (c *Chucking) Describe(d *field.Desc) {
	const fit = process.SpoilsFit
	d.Newtons(&c.Grip, "grip_n").Decimals(0).Weighs(fit, "chuck, grip of a jaw")
	d.Length(&c.Lobes, "lobes_um").Microns().Decimals(2).Weighs(fit, "chuck, lobes").Fine()
	d.Length(&c.SixPads, "six_pads_um").Microns().Decimals(2).Weighs(fit, "chuck, lobes on six pads").Fine()
	d.Length(&c.Allowed, "allowed_um").Microns().Decimals(2).Weighs(fit, "chuck, lobes allowed").Fine()
	d.Newtons(&c.GripMost, "grip_most_n").Decimals(0).Weighs(fit, "chuck, most grip")
	d.Flag(&c.Rough, "thick").NoJSON().Weighs(fit, "chuck, thick for the formula")
	d.Diameter(&c.OuterDia, "outside").NoJSON().Weighs(fit, "chuck, outside")
	d.Diameter(&c.Bored, "inside").NoJSON().Weighs(fit, "chuck, inside")
	d.Texts(&c.Instead, "instead", 0, field.Any).Weighs(process.SpoilsWords, "chuck, instead")
}

// Detail is one feature of the sleeve or its housing.
type Detail struct{ What, How string }

// Describe says what is known of a feature.
func (x *Detail) Describe(d *field.Desc) {
	d.Text(&x.What, "what")
	d.Text(&x.How, "how")
}

// OrderStep is one step of the order of work; at a hold nothing goes on before
// the measurement is written down and found good.
type OrderStep struct {
	Text string
	Hold bool
}

// Describe says what documents have of a step.
func (o *OrderStep) Describe(d *field.Desc) {
	d.Text(&o.Text, "text")
	d.Flag(&o.Hold, "hold")
}

// Taken is the way taken.
func (s *Sleeve) Taken() SleeveWay {
	if s.InPlace {
		return s.Here
	}
	return s.Before
}
