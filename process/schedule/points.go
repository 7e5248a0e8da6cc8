package schedule

import (
	"borewright/process/fact"
	"borewright/process/qty"
)

// SpringPoint is one place along the bore.
type SpringPoint struct {
	Depth  qty.Length
	Spring qty.Length   // on diameter
	Size   qty.Diameter // left there
}

// SpringCurve is one pass along the bore.
type SpringCurve struct {
	Pass   int // Pass.N
	Kind   Kind
	Points []SpringPoint // from the mouth to the bottom; two where nothing changes along it
}

// QuietPoint is how quiet a cut is at one speed.
type QuietPoint struct {
	Speed  qty.RevPerMin
	Margin float64 // stiffest cut that stays quiet over the stiffness of this one, at the middle of what damps it; below 1 it is more likely to chatter than not
}

// QuietCurve is one pass at other speeds, its depth and feed unchanged.
type QuietCurve struct {
	Pass   int // Pass.N
	At     QuietPoint
	Points []QuietPoint
}

// BudgetPart is one thing that keeps the size from being known.
type BudgetPart struct {
	Cause     fact.Kind
	PlusMinus qty.Length // on diameter, 95 %
	Straight  bool       // adds in full; the others add by squares
}

// SizeDoubt is what remains unknown of the size that a visit lands, against what
// its limits leave.
type SizeDoubt struct {
	Pass           int
	Parts          []BudgetPart
	Total, Allowed qty.Length // ± on diameter
}
