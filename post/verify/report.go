package verify

import (
	"borewright/post/verify/remark"
	"borewright/post/verify/script"
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
	Assumed   []string        // what the proof takes for granted, a sentence each
	Proven    bool            // no findings
	Unsaid    []string        // what the remarks leave out, by topic: the sheet has it
	NotHeld   []remark.Remark // remarks that say what the plan does not, by line: read them
	Sum       string          // check sum of the program (sum.Of)
	Unread    bool            // too many faults to be read as meant: what it does is a guess
	Stated    string          // the one that its remark states, from when it was written; "": none
}

// Finding and Kind are those of the text; every finding of the replay is one.
type (
	Finding = script.Finding
	Kind    = script.Kind
	Cut     = script.Cut
	Piece   = script.Piece
)

// KindName is of a finding that a caller makes, who knows the file's name: it says
// another visit.
const KindName Kind = "name"

// Clearance is the least room that anything on the spindle has at a station.
type Clearance struct {
	Station string
	Part    string     // "bar step 2", "quill", "spindle nose", "cutter"
	Room    qty.Length // radial, or along the bore
	Along   bool       // along the bore, to a closed end
	Depth   qty.Length // of the tip, where it is first that close
	Line    int
}
