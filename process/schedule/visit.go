// Package schedule holds the passes of one visit as planned: what is to be cut and
// to what limits, each pass with its setting, feed, speed, size to expect, stop to
// measure and way out, and the facts that go with them. It plans nothing: that is
// process/passes, which fills it in.
package schedule

import (
	"slices"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/landing"
	"borewright/process/qty"
	"borewright/process/setup"
)

// Visit is one time at the machine for one bore, cut without other work
// between. What is done to a bore has a number: a rebored bore has one such work, a
// sleeved bore two: the housing, then the inside of the sleeve in place, or the housing
// alone where the sleeve comes finished from the lathe. A work is one visit, or two where
// the bore is roughed apart (Part). Passes count on through all visits of a bore. Each
// visit is one program.
type Visit struct {
	N        int               // of its work, 1 or 2 within the bore, as an entry of the results has it
	Part     Part              // of that work
	Title    fact.Fact         // "bore the housing for the sleeve"
	Before   []fact.Fact       // work to be done before it, a sentence each
	After    []fact.Fact       // and after
	Material *process.Material // what is cut
	Tools    *process.Tools    // what it is cut with; nil: bar and cutter of the job

	From, To qty.Length    // depth of the piece to be bored
	Out      [2]qty.Length // how far it stands out of its station at either end, as a sleeve may
	Clear    qty.Length    // depth at which the tip stands clear in front of From: feed begins here
	End      qty.Length    // depth that the tip feeds to, run-out included; never past To+Relief when blind

	Start, StartMost qty.Diameter    // smallest and largest of the bore as found
	Limits           Limits          // what this visit must land; of roughing apart, what it leaves
	RoughTo          qty.Diameter    // of roughing apart: no larger than this
	Ra, Roundness    qty.Length      // asked for
	Compliance       [2]float64      // at the cutter, least and most along the cut, µm/N
	Along            []AlongPoint    // the same against depth
	Budget           *landing.Budget // of the size that the last pass lands; nil where there are no passes
	Overhang         float64         // stickout over diameter
	Bar              setup.Bar       // with the tip at the end of the cut
	Passes           []Pass
	Stands           Stands        // by increment: where the cutter stands before the first of them
	Behind           int           // the pass that was measured last: these are the rest; 0: none
	Lined            qty.Diameter  // the size that a line in the bore reaches which that pass left; 0: none
	Flank            *EdgeFound    // as the first of them finds the edge; nil: as the job begins
	Unexplained      bool          // that pass came out as no spring explains: the next cut is no finish
	Rested           bool          // that pass was a rough, and the casting has rested since: the next cut is no finish
	Banded           qty.Diameter  // of the band that a witness cut left in it; 0: none
	Turned           qty.RevPerMin // at which that pass was cut; 0: not known, or none
	RoughOut         WayOut        // how the cutter comes out after witness cut and roughing
	LastOut          WayOut        // and after the passes behind them: always alike
	Short            float64       // by how much the nearest pass misses its limit, times, where none keeps it; 0: one does
	NoWayOut         fact.Fact     // why the way out that the job asks for cannot be; nothing: it can
	OffAxis          *OffAxis      // how a program takes the cutter past stations that it does not pass on the axis; nil: it passes all on the axis, or hands take it in
	WayIn            float64       // minutes that going in and out off the axis adds to each pass
	Mouth            []MouthCut    // cut at the mouth of the housing after the last pass, each with its bit
	Together         []string      // stations of the bores that are cut through at one setting with this one, itself among them, in their order; nil: it is cut alone
	SetInside        bool          // the cutter does not pass the bores on the way: it is put into the bar when the bar stands at Clear, and taken out there
}

// Part is what of a work a visit does.
type Part int

// The parts.
const (
	Whole     Part = iota // from the bore as it stands to its limits
	Roughing              // down to what stays for the finish
	Finishing             // from there to its limits
)

func (p Part) String() string { return [...]string{"whole", "rough", "finish"}[p] }

// Describe says what documents and a comparison have of a visit. Documents have
// little: the passes of all visits of a bore stand in one list.
func (v *Visit) Describe(d *field.Desc) {
	d.Table(&v.Limits, "limits").NoJSON()
	d.Rough(&v.Ra, "ra").NoJSON().Weighs(process.SpoilsSize, "Ra")
	d.Length(&v.Roundness, "roundness").NoJSON().Weighs(process.SpoilsSize, "roundness").Fine()
	d.Table(&v.RoughOut, "rough_out").NoJSON()
	d.Table(&v.LastOut, "last_out").NoJSON()
	d.Table(&v.Stands, "stands").NoJSON()
	d.Facts(&v.Before, "before").Sentence().NoJSON().Weighs(process.SpoilsFit, "work before")
	d.Facts(&v.After, "after").Sentence().NoJSON().Weighs(process.SpoilsFit, "work after")
	d.Length(&v.From, "from").NoJSON().Weighs(process.SpoilsReach, "from")
	d.Length(&v.To, "to").NoJSON().Weighs(process.SpoilsReach, "to")
	d.Length(&v.Clear, "clear").NoJSON().Weighs(process.SpoilsReach, "feed begins at")
	d.Length(&v.End, "end").NoJSON().Weighs(process.SpoilsReach, "feed ends at")
	field.Part(d, &v.Budget, func(b *landing.Budget) {
		d.Is("landing", func() any { return b.Fact() }).NoJSON().Weighs(process.SpoilsSize, "chance of landing on size")
	})
	d.NumberPair(&v.Compliance, "compliance_um_per_n", "µm/N").Decimals(4).NoJSON().WeighEnds(process.SpoilsSetting, "compliance, least", "compliance, most")
	d.Number(&v.Overhang, "overhang", "").Decimals(2).NoJSON().Weighs(process.SpoilsReach, "stickout over diameter")
	d.Diameter(&v.RoughTo, "rough_to").NoJSON().Weighs(process.SpoilsSetting, "roughed apart, to at the most").ZeroIsNone()
	d.Flag(&v.SetInside, "set_inside").NoJSON().Weighs(process.SpoilsReach, "cutter goes in").YesNo("inside, at the bore", "outside")
	d.Count(&v.Behind, "behind").NoJSON().Weighs(process.SpoilsSetting, "the rest, after pass").ZeroIsNone()
	d.Diameter(&v.Start, "start").NoJSON().Weighs(process.SpoilsSetting, "as found, smallest")
	d.Diameter(&v.StartMost, "start_most").NoJSON().Weighs(process.SpoilsSetting, "as found, largest")
	d.Is("material", func() any { return v.Material.Called() }).NoJSON().Weighs(process.SpoilsSetting, "material cut")
	d.Count(&v.N, "n").Weighs(process.SpoilsWords, "visit number")
	field.Word(d, &v.Part, "part", Whole, Roughing, Finishing).When(func() bool { return v.Part != Whole }).Weighs(process.SpoilsWords, "part of the work")
	d.Fact(&v.Title, "title").Weighs(process.SpoilsWords, "title")
	d.Table(&v.Bar, "bar")
	field.Maybe(d, &v.OffAxis, "entry").OmitEmpty()
	field.List(d, &v.Mouth, "mouth", 0, field.Any).OmitEmpty().Weighs(process.SpoilsFit, "at the mouth")
	d.Group("edge_found", v.edgeFound)
	d.Group("flank", v.flank)
	d.Texts(&v.Together, "one_setting", 0, 30).OmitEmpty().Weighs(process.SpoilsSetting, "cut through at one setting")
	d.Is("first_pass", func() any { return v.numbered(0) })
	d.Is("last_pass", func() any { return v.numbered(len(v.Passes) - 1) })
	field.Part(d, &v.Tools, func(t *process.Tools) { // that are not those of the job
		d.Group("cut_with", func(d *field.Desc) {
			d.Is("bar", func() any { return t.Bar.Name }).Weighs(process.SpoilsReach, "cut with the bar")
			d.Is("cutter", func() any { return t.Cutter.Name }).Weighs(process.SpoilsReach, "cut with the cutter")
			d.Is("nose_to_tip_mm", func() any { return t.Bar.CutterAt.MM() }).Decimals(5)
		}).OmitEmpty()
	})
	d.Worked("by name", &v.Material)
	d.Worked("in the list of the bore, and compared in pairs", &v.Passes)
	d.Worked("for charts", &v.Along)
	d.Worked("stops the plan", &v.NoWayOut, &v.Short)
	d.Worked("in the time of each pass", &v.WayIn)
	d.Worked("in the depths of the piece", &v.Out)
	d.Worked("of the entry measured", &v.Turned, &v.Lined, &v.Unexplained, &v.Rested, &v.Banded, &v.Flank)
}

// EdgeFound is the edge as a visit begins with it: used on from the one before, unless it is
// honed before the first pass.
type EdgeFound struct {
	setup.Flank
	From string // the station that it cut before; empty: it has cut nothing since the job began
}

// EdgeAfter is the edge as a visit at a station leaves it.
func (v *Visit) EdgeAfter(station string) *EdgeFound {
	if len(v.Passes) == 0 {
		return v.Flank
	}
	return &EdgeFound{v.Passes[len(v.Passes)-1].Edge.After, station}
}

// edgeFound is what documents have of it.
func (v *Visit) edgeFound(d *field.Desc) {
	of := func(x func(e *EdgeFound) any) func() any { return func() any { return x(v.Flank) } }
	known := func() bool { return v.Flank != nil }
	d.Is("from", of(func(e *EdgeFound) any { return e.From })).NullUnless(func() bool { return known() && v.Flank.From != "" })
	d.Is("least_mm", of(func(e *EdgeFound) any { return e.Least })).Decimals(4).NullUnless(known)
	d.Is("likely_mm", of(func(e *EdgeFound) any { return e.Likely })).Decimals(4).NullUnless(known)
	d.Is("most_mm", of(func(e *EdgeFound) any { return e.Most })).Decimals(4).NullUnless(known)
	d.Is("metres_since_honing", of(func(e *EdgeFound) any { return e.Metres })).Decimals(1).NullUnless(known)
}

// flank is what of the metal damps the bar as the flank rubs, besides the land of
// each pass: how hard the land is pressed back.
func (v *Visit) flank(d *field.Desc) {
	of := func(x func(m *process.Material) float64) func() any {
		return func() any { return x(v.Material) }
	}
	known := func() bool { return v.Material != nil }
	d.Is("indentation_least_n_per_mm3", of(func(m *process.Material) float64 { return m.Indentation[0] })).Decimals(0).NullUnless(known)
	d.Is("indentation_most_n_per_mm3", of(func(m *process.Material) float64 { return m.Indentation[1] })).Decimals(0).NullUnless(known)
	d.Is("hardness_hb", of(func(m *process.Material) float64 { return m.Hardness })).Decimals(0).NullUnless(known)
}

// Voice is how the loudest pass of a visit stands against chatter.
func (v *Visit) Voice() fact.Kind {
	voice := setup.Quiet
	for i := range v.Passes {
		voice = setup.Louder(voice, v.Passes[i].Stability.Chatter())
	}
	return voice
}

// numbered is the number of a pass of the visit, 0 where it has none.
func (v *Visit) numbered(i int) int {
	if len(v.Passes) == 0 {
		return 0
	}
	return v.Passes[i].N
}

// Landing is what documents have of the chance that a visit lands on size.
type Landing struct{ *Visit }

// Describe puts the chance and what it rests on side by side.
func (l *Landing) Describe(d *field.Desc) {
	v := l.Visit
	if v == nil {
		v = &Visit{}
	}
	b := v.Budget
	if b == nil {
		b = &landing.Budget{}
	}
	d.Also(b)
	d.Only([]string{"compliance_um_per_n", "overhang"}, v)
	d.Worked("part by part", &l.Visit)
}

// Stands is where the cutter stands after the pass that was cut last: a cutter moved
// on by increment is moved from there.
type Stands struct {
	At     qty.Diameter // 0: not known, as before a first setting
	Known  qty.Length   // ± on diameter (95 %), besides what is not known of Sprang
	Sprang qty.Length   // spring on diameter of the cut whose size told it; 0: none did
	ByFeed qty.Length   // by how much that grows for a feed force larger by the whole of it
}

// Describe says what a comparison has of it.
func (s *Stands) Describe(d *field.Desc) {
	d.Diameter(&s.At, "at_mm").Weighs(process.SpoilsSetting, "cutter stands at").ZeroIsNone()
	d.Length(&s.Known, "known_mm").Weighs(process.SpoilsSetting, "which is known to ±").Fine().ZeroIsNone()
	d.Length(&s.Sprang, "sprang_mm").Weighs(process.SpoilsSetting, "spring there").Fine().ZeroIsNone()
	d.Length(&s.ByFeed, "by_feed_mm").Weighs(process.SpoilsSetting, "of which feed force makes").Fine().ZeroIsNone()
}

// AlongPoint is the compliance at the cutter with the tip at one depth, µm/N.
type AlongPoint struct {
	Depth      qty.Length
	Compliance float64
}

// SpringMost is how far the finish may spring, on diameter: as far as the job states or, where it states
// nothing, as is usual and, where the limits of size are wide, half of them (common practice, no source):
// aimed at their middle, the cutter is then set no wider than the high limit, and a cut that springs less
// than was reckoned does not spoil the bore. Bores that are cut at one setting spring each by its own:
// there it is what is usual.
func (v *Visit) SpringMost(l *process.Limits) qty.Length {
	if l.SpringUsual && v.Together == nil {
		return max(l.SpringFinish, v.Limits.High.Minus(v.Limits.Low)/2)
	}
	return l.SpringFinish
}

// Limits are limits of size with the size aimed at.
type Limits struct {
	Low, Aim, High qty.Diameter
	Fit            string     // as asked for: "H7", or "" for limits
	Warm           qty.Length // that they are over those at 20 °C, for work that was gauged warm
}

// Describe says what a comparison has of limits.
func (l *Limits) Describe(d *field.Desc) {
	d.Diameter(&l.Low, "low_mm").Weighs(process.SpoilsSize, "low limit")
	d.Diameter(&l.High, "high_mm").Weighs(process.SpoilsSize, "high limit")
	d.Diameter(&l.Aim, "aim_mm").Weighs(process.SpoilsSize, "size aimed at")
	d.Text(&l.Fit, "fit").Weighs(process.SpoilsSize, "fit").ZeroIsNone()
	d.Length(&l.Warm, "over_20_c_mm").Weighs(process.SpoilsSize, "limits over those at 20 °C").OmitEmpty()
}

// InWork is the limits as a gauge reads them in work in which it reads larger by warm than at
// 20 °C. The size aimed at is moved by whole steps of what u prints, so that it stays one.
func (l Limits) InWork(u qty.Unit, warm qty.Length) Limits {
	return Limits{l.Low.Plus(warm), l.Aim.Plus(u.Round(warm)), l.High.Plus(warm), l.Fit, l.Warm + warm}
}

// Kind is what a pass is for.
type Kind int

// The kinds of pass.
const (
	Witness Kind = iota // light cut that shows where the axis is
	Rough
	SemiFinish
	Spring // same setting again, to take what the bar sprang off
	Finish
	Fitted // no cut: a sleeve finished on the lathe is home, and measured
)

// Cut is the kind as an entry of the results has it.
func (k Kind) Cut() process.CutKind { return process.WitnessCut + process.CutKind(k) }

func (k Kind) String() string { return k.Cut().String() }

// Pass is one cut through the bore, or of a witness cut into its near end.
type Pass struct {
	N                   int // counts through all visits of the bore, from 1
	Kind                Kind
	Setting             qty.Diameter  // what the cutter is set to, spring allowed for
	Set                 Set           // what a hand does for it
	Low, Expected, High qty.Diameter  // what the bore gauge should say
	Depth               qty.Length    // radial depth of cut, nominal
	Feed                qty.Length    // a revolution, one the machine has
	Speed               qty.RevPerMin // one the machine has
	Cutting             qty.CuttingSpeed

	CuttingForce, FeedForce, RadialForce qty.Force
	Spring                               qty.Length // setting less the size that the gauge finds, on diameter
	SpringIn                             qty.Length // elastic push-off on the way in, on diameter: Spring, but for a way out that cuts
	Power                                qty.Power
	Torque                               qty.Torque
	Stress                               float64         // highest bending stress in the bar, MPa
	Ra                                   qty.Length      // expected
	OutOfRound                           qty.Length      // expected after the pass, radial peak to valley
	Minutes                              float64         // cut and return, without the stop
	Taper                                qty.Length      // the bore is so much larger, on diameter, where the bar is stiffest than where it is softest
	Land                                 cut.Land        // that touches the work behind the edge: least as the pass begins, most as it ends
	Edge                                 setup.Wear      // as it wears in the pass
	Band                                 *Band           // that a witness cut marks; nil: it goes through the bore
	Hone                                 *Hone           // before the pass; nil: the edge is used on as it is
	Stability                            setup.Stability // against chatter
	LimitedBy                            fact.Fact       // what bound depth or feed
	Out                                  WayOut          // how the cutter comes out
	OutDepth                             qty.Length      // radial depth that a way out cuts; 0: it cuts nothing
	OutRadial                            qty.Force       // there
	Limits                               []Limit         // every limit that it keeps, the nearest first
	Hold                                 *Hold           // nil: go straight on to setting the next pass
}

// Describe says what documents and a comparison have of a pass. Symbols of ISO
// 3002-1 and -4: depth a_p (radial), feed f, speed n, forces F_c, F_f, F_p. What
// follows from other figures without being set by hand is not compared: forces,
// power, torque, stress.
func (p *Pass) Describe(d *field.Desc) {
	const setting, feed = process.SpoilsSetting, process.SpoilsFeed
	left := func() field.Rank { // of a pass that others follow it is only a setting
		if p.Kind == Finish {
			return process.SpoilsSize
		}
		return setting
	}
	// What is left of the old bore and how it cuts is read first (Last).
	d.Count(&p.N, "n")
	field.Word(d, &p.Kind, "kind", Witness, Rough, SemiFinish, Spring, Finish, Fitted)
	d.Diameter(&p.Setting, "cutter_setting_mm").Weighs(setting, "cutter setting").Last()
	d.Table(&p.Set, "set")
	d.Group("diameter_mm", func(d *field.Desc) {
		d.Diameter(&p.Low, "low").Weighs(setting, "expected, low")
		d.Diameter(&p.Expected, "expected").Weighs(setting, "expected")
		d.Diameter(&p.High, "high").Weighs(setting, "expected, high")
	}).Last()
	d.Length(&p.Depth, "depth_of_cut_mm").Decimals(4).Weighs(setting, "depth of cut").Last()
	d.Length(&p.Feed, "feed_mm_per_rev").Weighs(feed, "feed").PerTurn().Last()
	d.Turns(&p.Speed, "speed_rev_per_min").Weighs(feed, "spindle speed").Last()
	d.Newtons(&p.CuttingForce, "cutting_force_n").Decimals(1)
	d.Newtons(&p.FeedForce, "feed_force_n").Decimals(1)
	d.Newtons(&p.RadialForce, "radial_force_n").Decimals(1)
	d.Length(&p.Spring, "spring_mm").Decimals(5).Weighs(setting, "spring").Fine().Last()
	d.Length(&p.SpringIn, "spring_in_mm").Decimals(5).Fine()
	d.Power(&p.Power, "power_w").Decimals(1)
	d.Torque(&p.Torque, "torque_nm").Decimals(2)
	d.Rough(&p.Ra, "ra_um").Decimals(2).Weighs(setting, "Ra expected").RankBy(left).Step(process.RaStep)
	d.Figure(&p.Minutes, qty.KindMinutes, "minutes").Decimals(2).Weighs(feed, "time").Last()
	field.List(d, &p.Limits, "limits", 0, field.Any)
	d.Fact(&p.LimitedBy, "limited_by").Weighs(process.SpoilsWords, "limited by")
	d.Length(&p.OutOfRound, "out_of_round_mm").Decimals(5).Weighs(setting, "out-of-round left").RankBy(left).Step(process.FormStep).Fine()
	d.Length(&p.Taper, "taper_mm").Decimals(5).Weighs(process.SpoilsSize, "taper").Fine()
	d.Figure(&p.Stress, qty.KindStress, "bar_stress_mpa").Decimals(1)
	d.Group("land_mm", func(d *field.Desc) {
		d.Number(&p.Land.Least, "least", "mm").Decimals(4).Weighs(feed, "land of the edge, least").Last()
		d.Number(&p.Land.Most, "most", "mm").Decimals(4).Weighs(feed, "land of the edge, most").Last()
	})
	d.Table(&p.Edge, "edge")
	field.Maybe(d, &p.Band, "band")
	field.Maybe(d, &p.Hone, "hone")
	d.Table(&p.Stability, "chatter")
	d.Group("way_out", p.wayOut)
	d.Speed(&p.Cutting, "cutting_speed").NoJSON()
	field.Maybe(d, &p.Hold, "hold")
}

// Limit is one limit of a pass.
type Limit struct {
	What fact.Fact // the limit, with what the pass comes to
	Used float64   // what the pass comes to over what is allowed; 1 at the limit
}

// Describe says what documents have of a limit.
func (l *Limit) Describe(d *field.Desc) {
	d.Fact(&l.What, "limit")
	d.Number(&l.Used, "used", "").Decimals(3)
}

// Hone is a stop before a pass to hone the edge or to change the bit.
type Hone struct {
	Worn    float64    // likely land, mm, beyond that of a new edge, that the pass would be cut with if it were not
	Most    float64    // land that the pass, and those that go with it, may end with
	Smaller qty.Length // the bore comes out so much smaller, on diameter, if it is not
	SetAnew bool       // by increment: where the bit stood is lost, and it is set over the bar
	Why     fact.Fact
	Minutes float64
}

// Describe says what documents have of it. It is compared as a whole.
func (h *Hone) Describe(d *field.Desc) {
	d.Number(&h.Worn, "worn_if_not_mm", "mm").Decimals(4)
	d.Number(&h.Most, "worn_allowed_mm", "mm").Decimals(4)
	d.Length(&h.Smaller, "smaller_if_not_mm").Decimals(5)
	d.Flag(&h.SetAnew, "set_anew")
	d.Fact(&h.Why, "why")
	d.Figure(&h.Minutes, qty.KindMinutes, "minutes")
}

// Fact says it in one; nil says nothing.
func (h *Hone) Fact() fact.Fact {
	if h == nil {
		return fact.Fact{}
	}
	how := fact.Fact{}
	if h.SetAnew {
		how = fact.New(SetAnew)
	}
	return fact.New(HoneFirst, fact.Figure(qty.FromMM(h.Worn)), fact.Figure(h.Smaller), how)
}

// Hold is a stop after a pass to measure before anything else is cut.
type Hold struct {
	Measure []fact.Fact // what to measure, one line each
	Then    fact.Fact   // what to do with the answer
	Minutes float64
}

// Describe says what documents have of a stop. It is compared as a whole.
func (h *Hold) Describe(d *field.Desc) {
	d.Facts(&h.Measure, "measure")
	d.Fact(&h.Then, "then")
	d.Figure(&h.Minutes, qty.KindMinutes, "minutes")
}

// Fact says the stop in one; nil, which is no stop, says nothing.
func (h *Hold) Fact() fact.Fact {
	if h == nil {
		return fact.Fact{}
	}
	return fact.New(HoldIs, fact.Figure(qty.KindNumber.Of(h.Minutes)), fact.List(h.Measure...), h.Then)
}

// Asks is whether the stop asks for something of this kind to be measured.
func (h *Hold) Asks(kinds ...fact.Kind) bool {
	return slices.ContainsFunc(h.Measure, func(f fact.Fact) bool { return slices.Contains(kinds, f.Kind) })
}

// FinishLimits are the limits of a bore with the size aimed at, which can be read
// in u.
func FinishLimits(u qty.Unit, b process.Bore) Limits {
	return Limits{Low: b.Finish.Low, Aim: aimOf(u, b.Finish), High: b.Finish.High, Fit: b.Finish.Fit}
}

// aimOf is the size to aim at: the middle of the limits, as it can be read.
func aimOf(u qty.Unit, f process.Finish) qty.Diameter {
	return qty.Diameter(u.Round(f.Aim().Length()))
}

// Minutes is the time of the visit, stops included, of so many minutes each; station is that of its bore.
func (v *Visit) Minutes(stop float64, station string) (all float64) {
	for k, q := range v.Passes {
		all += q.Minutes
		if q.Hone != nil {
			all += q.Hone.Minutes
		}
		switch again := k+1 < len(v.Passes) && v.Passes[k+1].Kind == Spring; {
		case q.Hold != nil:
			all += q.Hold.Minutes
		case !again && v.Leads(station): // the cutter is set anew
			all += stop / 2
		}
	}
	for _, m := range v.Mouth { // and the bit is changed
		all += m.Minutes + stop/2
	}
	return all
}
