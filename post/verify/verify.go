// Package verify replays an RS-274 program and proves that it cuts the plan and
// nothing else. It shares no code with the package that writes programs, so a
// mistake there is not made again here; it repairs nothing.
//
//	r := verify.Check(program, "wg-204-1.nc", plan, 0, 0)
//	if !r.Proven {
//		for _, f := range r.Findings { ... }
//	}
//
// What is held against the plan: the start block, the stops at which the cutter
// is set and the bore measured, the order and number of passes, where each
// feed begins and ends, S and F, how the cutter comes out, the way of every
// part of the bar past every wall, the travels, the end, and the size that the
// last pass leaves. A program that does anything the plan does not ask for is
// not proven, even where nobody would be hurt by it. What the comments tell the
// operator is read in remark; how a report prints is for sheets/proof.
//
// Geometry: Z0 is the face that the spindle enters, +Z points away from the
// work (ISO 841), so the depth of the tip is −Z (or −W, whichever slide feeds);
// X0 Y0 is the true axis. The tip is the point that the program steers. Lengths
// are whole nanometres.
package verify

import (
	"fmt"

	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// Report is the answer of Check.
type Report struct {
	Findings  []Finding   // by place in the program; none: proven
	Cuts      []Cut       // the passes that the program cuts, in its order
	Shape     []Piece     // every station as the program leaves it, in order of depth
	Near      []Clearance // the least room at each station, in order of depth
	Minutes   float64     // feed, return and dwell by the program; stops and setting not counted
	FinalSize qty.Diameter
	Assumed   []string // what the proof takes for granted, a sentence each
	Proven    bool     // no findings
}

// Finding is one thing in which the program is not the plan, or is not safe.
type Finding struct {
	Line, Col int // from 1; Line 0: the program as a whole
	Kind      Kind
	What      string // what was found, with figures
	Want      string // what would be right
}

// Kind is what sort of thing a finding is about.
type Kind string

// The kinds of finding.
const (
	KindPlan      Kind = "plan"      // there is nothing to prove: no such visit, or the plan is not feasible
	KindSyntax    Kind = "syntax"    // the control would not read it as meant
	KindStart     Kind = "start"     // the first blocks leave something to chance
	KindCode      Kind = "code"      // a word that no bore needs
	KindPass      Kind = "pass"      // a pass missing, extra or out of order
	KindDepth     Kind = "depth"     // a feed that begins or ends elsewhere than planned
	KindFeed      Kind = "feed"      // feed not the plan's, none, or not the machine's
	KindSpeed     Kind = "speed"     // speed not the plan's, none, or not the machine's
	KindSpindle   Kind = "spindle"   // stopped where it must turn, turning where it must stand, or reversed
	KindDwell     Kind = "dwell"     // missing at a blind bottom, too short, too long, or elsewhere
	KindStop      Kind = "stop"      // a stop missing, extra, or where the cutter cannot be reached
	KindSetting   Kind = "setting"   // a comment states another setting than the plan
	KindRetract   Kind = "retract"   // the cutter would drag, or comes out otherwise than planned
	KindAxis      Kind = "axis"      // off the true axis, or along and across at once
	KindRapid     Kind = "rapid"     // rapid with the tip in metal or on the finished wall
	KindBottom    Kind = "bottom"    // into the blind bottom
	KindClearance Kind = "clearance" // bar, quill, nose or cutter against a wall
	KindTravel    Kind = "travel"    // more than the machine has
	KindLevel     Kind = "level"     // a rapid that ends where no other does
	KindEnd       Kind = "end"       // the program does not end safely
	KindSize      Kind = "size"      // the station is not left within its limits
)

// Cut is one pass as the program cuts it.
type Cut struct {
	Pass     int          // number of the plan's pass it stands for; 0: none
	Setting  qty.Diameter // what the cutter is set to at that time, by the plan
	Diameter qty.Diameter // of the bore it makes, as set: the program knows no spring
	From, To qty.Length   // depth of the tip
	Feed     qty.Length   // a revolution
	Speed    float64      // rev/min
	Removed  float64      // metal, mm³, from the mean of the bore as found; nominal as the setting
	Line     int
}

// Piece is a length of a station as the program leaves it. The limits are those
// of the visit; a station that it does not bore has none.
type Piece struct {
	Station   string
	From, To  qty.Length
	Cut       bool         // by this program
	Diameter  qty.Diameter // where cut, the setting less the spring of the plan; else the smallest as found
	Low, High qty.Diameter
	Within    bool // Low to High
}

// Clearance is the least room that anything on the spindle has at a station.
type Clearance struct {
	Station string
	Part    string     // "bar step 2", "quill", "spindle nose", "cutter"
	Room    qty.Length // radial, or along the bore
	Along   bool       // along the bore, to a closed end
	Depth   qty.Length // of the tip, where it is first that close
	Line    int
}

// Check replays the program and holds it against one visit of the plan. name
// is the program's, for what is said of it as a whole; bore and visit are
// indices into p.Bores and its Visits. Any bytes may be a program: Check never
// panics, and needs no more memory than a few times the longest block.
func Check(program []byte, name string, p *plan.Plan, bore, visit int) Report {
	out := &findings{}
	v := pick(p, bore, visit, out)
	if v == nil {
		return Report{Findings: out.done(program, rs274.Dialect{})}
	}
	control := p.Job.Machine.Control
	d := dialectOf(control)
	words := readWords(program, d, control, p.Job.FeedLetter()[0])
	words.judge(out, control, v, numberOf(p, bore, visit))
	f := newFollower(p, bore, v, out)
	f.said = words.remarks.Stops
	f.judgeApart(words.remarks.Apart)
	f.run(program, d)
	r := Report{
		Findings: out.done(program, d), Cuts: f.cuts, Shape: f.pieces(), Near: f.nearest(), Minutes: f.minutes,
		FinalSize: f.final, Assumed: f.assumed(),
	}
	r.Proven = len(r.Findings) == 0
	for i := range r.Findings {
		if r.Findings[i].Line == 0 && name != "" {
			r.Findings[i].What = name + ": " + r.Findings[i].What
		}
	}
	return r
}

// pick finds the visit, or says why there is none to prove.
func pick(p *plan.Plan, bore, visit int, out *findings) *plan.Visit {
	none := func(what, want string) *plan.Visit {
		out.add(0, 0, KindPlan, what, want)
		return nil
	}
	switch {
	case p == nil || p.Job == nil:
		return none("there is no plan", "plan the job first")
	case p.Job.Machine == nil || p.Job.Machine.Control == nil:
		return none("the plan is for a machine without a control", "a job whose machine has one")
	case bore < 0 || bore >= len(p.Bores):
		return none(fmt.Sprintf("the plan has no bore %d", bore+1), fmt.Sprintf("a bore from 1 to %d", len(p.Bores)))
	}
	b := &p.Bores[bore]
	switch {
	case visit < 0 || visit >= len(b.Visits):
		return none(fmt.Sprintf("%s has no visit %d", b.Station.Name, visit+1), fmt.Sprintf("a visit from 1 to %d", len(b.Visits)))
	case b.Bore.Station < 0 || b.Bore.Station >= len(p.Job.Stations):
		return none("the bore belongs to no station", "plan the job again")
	}
	if !p.Feasible {
		out.add(0, 0, KindPlan, "the plan is not feasible", "a plan that is: no program can be proven against this one")
	}
	v := &b.Visits[visit]
	if v.SetInside {
		return none(b.Station.Name+": the plan puts the cutter into the bar inside the work, by hand", "the sheet: no program sets a cutter in there")
	}
	if len(v.Passes) == 0 {
		return none(b.Station.Name+" has no passes in this visit", "a plan with passes")
	}
	return v
}

// dialectOf is how the control reads a program.
func dialectOf(c *process.Control) rs274.Dialect {
	d := rs274.Dialect{Numbers: rs274.PointMust, Whole: c.WholePlaces, Part: c.PartPlaces, LineMost: c.LineMost, Plain: c.PlainText, UnitsWords: rs274.G20G21, Percent: rs274.Refused}
	if !c.DecimalPoint {
		d.Numbers = rs274.AllDigits
		switch c.DropZeros {
		case "leading":
			d.Numbers = rs274.DropLeading
		case "trailing":
			d.Numbers = rs274.DropTrailing
		}
	}
	if d.Part == 0 {
		d.Part = 3
		if c.Units == qty.Inches {
			d.Part = 4
		}
	}
	if c.UnitsWord == "G70/G71" {
		d.UnitsWords = rs274.G70G71
	}
	switch c.Dwell {
	case "milliseconds":
		d.DwellUnit = rs274.Milliseconds
	case "revolutions":
		d.DwellUnit = rs274.Revolutions
	}
	if c.DwellWord != "" {
		d.DwellWord = c.DwellWord[0]
	}
	if c.Percent {
		d.Percent = rs274.Required
	}
	for _, f := range []struct {
		has  bool
		what rs274.Features
	}{
		{c.Comments, rs274.Comments}, {c.BlockNumbers, rs274.BlockNumbers}, {c.FeedPerRev, rs274.PerRev},
		{c.Cycles, rs274.Cycles}, {c.ReturnWords, rs274.ReturnWords}, {c.OrientedStop, rs274.Oriented},
	} {
		if !f.has {
			d.Lacks |= f.what
		}
	}
	return d
}

// leastInput is the smallest step of a length word: 0.001 mm or 0.0001 in on
// most controls.
func leastInput(c *process.Control) qty.Length {
	places := c.PartPlaces
	if places <= 0 {
		places = 3
		if c.Units == qty.Inches {
			places = 4
		}
	}
	scale := qty.Length(1)
	for range min(places, 6) { // as rs274 reads it
		scale *= 10
	}
	return max((c.Units.Of(1)+scale-1)/scale, 1) // 0.000001 in is 25.4 nm: up
}
