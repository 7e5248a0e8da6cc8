package verify

import (
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
