package process

import (
	"borewright/process/feature"
	"borewright/process/field"
	"borewright/process/fit"
	"borewright/process/qty"
)

// Hold is how a sleeve is held in its housing.
type Hold int

// The ways.
const (
	Press Hold = iota
	Bond
)

func (h Hold) String() string {
	if h == Bond {
		return "bond"
	}
	return "press"
}

// Sleeving says where the inside of a sleeve is brought to size.
type Sleeving int

// The ways.
const (
	Decide       Sleeving = iota // work both out and take the one that lands
	BoreInPlace                  // at the mill, when the sleeve is home
	FinishBefore                 // on the lathe, before it goes in
)

func (s Sleeving) String() string {
	return map[Sleeving]string{Decide: "decide", BoreInPlace: "in place", FinishBefore: "before"}[s]
}

// Sleeve is the liner that brings an oversize bore back to size.
type Sleeve struct {
	Material  *Material
	Outside   qty.Diameter // nominal interface diameter
	Chosen    bool         // Outside was not written: the loader took the smallest standard size that does
	Hold      Hold
	Fit       string        // ISO 286 pair, "H7/r6", or ANSI B4.1, "FN2"; for a bond the gap stands in Gap
	Gap       qty.Length    // bonded: diametral gap aimed at
	Allowance qty.Length    // left inside for boring in place, on diameter
	Length    qty.Length    // 0: as deep as the station
	StandsOut [2]qty.Length // beyond its housing, at the end that the spindle enters and at the far end

	Finish   Sleeving
	Standard []qty.Diameter // outsides that the shop has tube for; nil: the usual steps
	Wall     qty.Length     // least wall when finished; 0: what a pressed or bonded sleeve needs at all
	Match    qty.Length     // turned to the housing as measured, ± on diameter; 0: to limits alone
	Lathe    qty.Length     // tolerance on diameter that the lathe holds inside
	Runout   qty.Length     // of the inside against the outside as turned, full reading of the dial
	Rz       [2]qty.Length  // greatest height of the seat's roughness, housing and sleeve (ISO 21920-2); zero: five times Ra
	Friction [2]float64     // least and most while it is pressed in; zero: by the pair of metals
	Service  [2]float64     // °C at work, least and most
	Location qty.Length     // how far the finished axis may stand off, radial; 0: not stated

	Torque        qty.Torque   // that the seat must hold; 0: not stated
	Thrust        qty.Force    // along the bore, together with Torque
	PressCapacity qty.Force    // that the shop's press has; 0: not stated
	KeepCool      string       // why the housing must not be heated; "": it may be
	Grip          qty.Force    // of one chuck jaw on the lathe
	Load          fit.Load     // what the seat bears at work
	Wet           fit.Wet      // what reaches a bond at work
	Joining       qty.Length   // clearance wanted to slide the parts together hot or cold, on diameter; 0: the usual
	Heated        qty.Diameter // what of the housing is heated about the bore; 0: the whole casting
	Casting       qty.Diameter // the cold casting around it, with Heated
	Web           qty.Length   // of the cold web that the boss stands on, with Heated; 0: as thick as the boss
	Compound      string       // bonding compound, by property: a name of fit.Compounds

	Made feature.Made // stop, holes, grooves, pin, lead-in, vent
}

// Describe says what the keys of a sleeve are.
func (s *Sleeve) Describe(d *field.Desc) {
	d.Link(&s.Material, "material").Need().Example(`"steel-1026"`).Says("what it is made of, from the same list as material")
	d.Diameter(&s.Outside, "outside").Otherwise("the smallest standard size that cleans up and leaves wall").Span(spanDiameters).Example("3.375|86").
		Says("nominal diameter between sleeve and housing").
		Weighs(SpoilsFit, "outside").ZeroIsNone()
	d.Diameters(&s.Standard, "standard", 1, 60).Otherwise("sixteenths of an inch to 6 in and eighths above (1 mm to 120 mm, 5 mm above)").Span(spanDiameters).Example("[3.25, 3.375, 3.5]|[84, 86, 90]").
		Says("outsides to choose from, where outside is left out").
		Weighs(SpoilsFit, "standard outside")
	d.Length(&s.Wall, "wall").Otherwise("0.1 in (2.5 mm), 0.12 in (3 mm) above 4 in (100 mm) and a fortieth of the bore at least, where outside is left out; else 0.04 in (1 mm) and a hundredth of the outside").Span(">0..4|>0..100").Example("0.1|2.5").
		Says("least wall of the finished sleeve").
		Weighs(SpoilsFit, "least wall of the sleeve").ZeroIsNone()
	field.Word(d, &s.Hold, "hold", Press, Bond).Default("press").Example(`"press"`).Says("pressed or shrunk in, or bonded").
		Weighs(SpoilsFit, "held by")
	d.Name(&s.Fit, "fit").Otherwise("H7/r6 when pressed").Example(`"H7/r6"`).Says("press fit of ISO 286, housing then sleeve, as H7/r6; or of ANSI B4.1, as FN2").
		Weighs(SpoilsFit, "fit in the housing").ZeroIsNone()
	d.Length(&s.Gap, "gap").Otherwise("0.002 in (0.05 mm) when bonded").Span(">0..0.04|>0..1").Example("0.002|0.05").
		Says("bonded: gap aimed at, on diameter").
		Weighs(SpoilsFit, "gap").ZeroIsNone()
	d.Length(&s.Allowance, "allowance").Default("0.016|0.4").Span("0..0.4|0..10").Example("0.016|0.4").Says("left inside for boring in place, on diameter").
		Weighs(SpoilsFit, "left inside for boring").ZeroIsNone()
	field.Word(d, &s.Finish, "finish", Decide, BoreInPlace, FinishBefore).Default("decide").Example(`"in place"`).
		Says("where the inside comes to size: bored in place, or before on the lathe; decide works both out and takes the lathe where that lands").
		Weighs(SpoilsSize, "inside brought to size")
	d.Length(&s.Match, "match").Default("0.0004|0.01").Span("0..0.02|0..0.5").Example("0.0004|0.01").
		Says("how near the sleeve is turned to the housing as measured, ± on diameter, about the middle of the fit; 0: to the limits of the fit alone").
		Weighs(SpoilsFit, "turned to the housing within").Fine()
	d.Length(&s.Lathe, "lathe").Default("0.0008|0.02").Span(">0..0.04|>0..1").Example("0.0008|0.02").
		Says("tolerance on diameter that the lathe holds inside the sleeve").
		Weighs(SpoilsFit, "lathe holds inside").Fine()
	d.Length(&s.Runout, "runout").Default("0.0004|0.01").Span("0..0.04|0..1").Example("0.0004|0.01").
		Says("inside against outside of the turned sleeve, full reading of the dial").
		Weighs(SpoilsFit, "runout as turned").Fine()
	d.RoughPair(&s.Rz, "rz").Otherwise("five times the Ra asked for").Span("1..6000|0.02..150").Example("[320, 250]|[8, 6.3]").
		Says("greatest height of roughness of the seat (ISO 21920-2), housing then sleeve; some of the interference flattens it").
		WeighEnds(SpoilsFit, "Rz of the housing", "Rz of the sleeve")
	d.NumberPair(&s.Friction, "friction", "").Otherwise("by the two metals, oiled").Span(">0..1").Example("[0.06, 0.12]").Rising().
		Says("friction while the sleeve is pressed in, least and most").
		WeighEnds(SpoilsFit, "friction, least", "friction, most")
	d.NumberPair(&s.Service, "service", "°C").Otherwise("20 to 70 °C").Span("-100..400").Example("[20, 70]").Rising().Says("coldest and hottest that the bore gets at work").
		WeighEnds(SpoilsFit, "temperature at work, least", "temperature at work, most")
	d.Length(&s.Location, "location").Default("0").Span("0..0.1|0..2.5").Example("0.001|0.025").
		Says("how far the axis of the finished bore may stand off, radial; 0: not stated, and the size limits have to hold it").
		Weighs(SpoilsSize, "location allowed").Fine()
	d.Torque(&s.Torque, "torque").Default("0").Span("0..100000|0..150000").Example(`"150 ft·lb"|"200 N·m"`).
		Says("torque that the seat must hold; 0: not stated").
		Weighs(SpoilsFit, "torque to hold")
	d.Force(&s.Thrust, "thrust").Default("0").Span("0..50000").Example("5").
		Says("push along the bore that the seat must hold, together with torque; 0: not stated").
		Weighs(SpoilsFit, "push to hold")
	field.Word(d, &s.Load, "load", fit.Steady, fit.Swelling, fit.Reversing, fit.Shock).Default("steady").Example(`"reversing"`).
		Says("what the seat bears: steady; swelling, which comes and goes one way; reversing; or shock. A bond keeps less under all but the first, and so does friction").
		Weighs(SpoilsFit, "load of the seat")
	field.Word(d, &s.Wet, "wet_by", fit.Dry, fit.Oil, fit.Water, fit.Solvent).Default("nothing").Example(`"oil"`).
		Says("what reaches a bond at work, hot: oil; water, with or without glycol; fuel or solvent").
		Weighs(SpoilsFit, "bond reached by")
	d.Length(&s.Joining, "joining_clearance").Otherwise("0.001 of the outside, 0.002 in (0.05 mm) at least").Span(">0..0.1|>0..2").Example("0.004|0.1").
		Says("clearance wanted to slide the sleeve in hot or cold, on diameter").
		Weighs(SpoilsFit, "clearance to slide it in").ZeroIsNone()
	d.Diameter(&s.Heated, "heated").Otherwise("the whole casting, evenly").Span(spanDiameters).Example("5|130").
		Says("diameter about the bore that is heated, where the rest of the casting stays cold: the bore then opens less").
		Weighs(SpoilsFit, "heated about the bore").ZeroIsNone()
	d.Diameter(&s.Casting, "casting").Span(spanDiameters).Example("20|500").
		Says("diameter of the cold casting around it, with heated").
		Weighs(SpoilsFit, "cold casting around it").ZeroIsNone()
	d.Length(&s.Web, "web").Otherwise("as thick as the boss is long").Span(">0..100|>0..2500").Example("0.5|12").
		Says("thickness of the cold web that the heated boss stands on, with heated").
		Weighs(SpoilsFit, "cold web under the boss").ZeroIsNone()
	d.Force(&s.PressCapacity, "press_capacity").Default("0").Span("0..50000").Example("300").Says("force that the shop's press has; 0: not stated").
		Weighs(SpoilsFit, "press capacity")
	d.Text(&s.KeepCool, "keep_cool").Example(`"the babbitt of the next bearing stays in"`).
		Says("why the housing must not be heated; left out: it may be, to the limit of its material").
		Weighs(SpoilsFit, "kept cool because").ZeroIsNone()
	d.Force(&s.Grip, "grip").Default("2").Span(">0..200").Example("2").Says("force of one of three chuck jaws on the sleeve in the lathe").
		Weighs(SpoilsFit, "grip of a jaw")
	d.Choice(&s.Compound, "compound", compounds()...).Default("high strength").Example(`"high strength"`).
		Says("bonding compound by its property; also what a pressed sleeve is compared with").
		Weighs(SpoilsFit, "bonding compound").ZeroIsNone()
	d.Length(&s.Length, "length").Otherwise("as deep as the station").Span("0..100|0..2500").Example("2.375|60").Says("length of the sleeve").
		Weighs(SpoilsFit, "length").ZeroIsNone()
	d.LengthPair(&s.StandsOut, "stands_out").Otherwise("nothing stands out").Span("0..20|0..500").Example("[0.75, 0]|[20, 0]").
		Says("how far the sleeve stands out of its housing, at the end that the spindle enters and at the far end; it is bored there too").
		WeighEnds(SpoilsFit, "stands out, near", "stands out, far")
	s.Made.Describe(d)
	d.Worked("by the loader: outside was not written", &s.Chosen)
}

// LeastWall is the least wall that the finished sleeve may have: the author's
// own, or 1 mm and a hundredth of the outside, below which it can hardly be
// pressed or bonded and bored (common practice, no source).
func (s *Sleeve) LeastWall() qty.Length {
	if s.Wall > 0 {
		return s.Wall
	}
	return s.leastAnywhere()
}

func (s *Sleeve) leastAnywhere() qty.Length {
	return max(qty.Millimetre, qty.Length(s.Outside)/100)
}

// LengthIn is how long the sleeve of a station is, what stands out of it included.
func (s *Sleeve) LengthIn(st Station) qty.Length {
	if s.Length > 0 {
		return s.Length
	}
	return st.Length() - s.Made.Sunk() + s.StandsOut[0] + s.StandsOut[1]
}

// Extent is from which depth to which a station goes, and a sleeve that stands out of it.
func (j *Job) Extent(station int) (from, to qty.Length) {
	st := j.Stations[station]
	if i := j.BoreAt(station); i >= 0 && j.Bores[i].Repair == SleeveRepair && j.Sleeve != nil {
		return st.From - j.Sleeve.StandsOut[0], st.To + j.Sleeve.StandsOut[1]
	}
	return st.From, st.To
}

// OutOfStop is whether the sleeve is to stand out at an end that has a flange or, of its
// housing, a lead-in.
func (s *Sleeve) OutOfStop() bool {
	near, far := s.StandsOut[0] > 0, s.StandsOut[1] > 0
	return near && (s.Made.Mouth != nil || s.Made.FlangeAt(feature.Near)) || far && s.Made.FlangeAt(feature.Far)
}

// Body is the sleeve of a bore in its station, for its features.
func (j *Job) Body(b Bore) feature.Body {
	s, st := j.Sleeve, j.Stations[b.Station]
	body := feature.Body{Units: j.Units, Outside: s.Outside, Bore: b.Finish.High, Length: s.LengthIn(st), Least: s.leastAnywhere(), Blind: st.Blind, Step: st.Blind}
	if st.Wall > 0 {
		body.Hub = st.Wall - s.Outside.Minus(st.Diameter)/2
	}
	if i := b.Station - 1; i >= 0 && j.Stations[i].To == st.From {
		body.Front = j.Stations[i].Diameter
	}
	if i := b.Station + 1; i < len(j.Stations) && j.Stations[i].From == st.To && j.Stations[i].Diameter < s.Outside {
		body.Step = true
	}
	return body
}

// compounds are the bonding compounds that a job can name, by property.
func compounds() []string {
	var out []string
	for _, c := range fit.Compounds() {
		out = append(out, c.Name)
	}
	return out
}
