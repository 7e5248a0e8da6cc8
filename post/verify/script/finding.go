package script

// Finding is one thing in which the program is not the plan, or is not safe.
type Finding struct {
	Line, Col int // from 1; Line 0: the program as a whole
	Kind      Kind
	What      string // what was found, with figures
	Want      string // what would be right
	OtherWay  bool   // not wrong in itself: another way than this tool's, which it does not follow
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
	KindCoolant   Kind = "coolant"   // off where the pass is cut with it, on where it is cut dry, or on at a stop
	KindDwell     Kind = "dwell"     // missing at a blind bottom, too short, too long, or elsewhere
	KindStop      Kind = "stop"      // a stop missing, extra, or where the cutter cannot be reached
	KindSetting   Kind = "setting"   // a comment states another setting than the plan
	KindRemark    Kind = "remark"    // a remark tells the operator something else than the plan
	KindRetract   Kind = "retract"   // the cutter would drag, or comes out otherwise than planned
	KindAxis      Kind = "axis"      // off the true axis, or along and across at once
	KindRapid     Kind = "rapid"     // rapid with the tip in metal or on the finished wall
	KindBottom    Kind = "bottom"    // into the blind bottom
	KindClearance Kind = "clearance" // bar, quill, nose or cutter against a wall
	KindTravel    Kind = "travel"    // more than the machine has
	KindLevel     Kind = "level"     // a rapid that ends where no other does
	KindTool      Kind = "tool"      // the bar is not called, or moves without its length
	KindHome      Kind = "home"      // a slide does not go home where it is to, or goes where it is not
	KindEnd       Kind = "end"       // the program does not end safely
	KindSize      Kind = "size"      // the station is not left within its limits
)
