// Package passes plans the passes of one visit: which cuts take the bore from what
// was found to its limits, with the setting, the spring, the sizes to expect and
// the stops to measure, the chance of landing on size, and what stops it where
// there is no way. It knows the job, the bar in the machine and how an edge cuts.
// It knows nothing of line-up or sleeves, nor of what was measured but for a
// factor on the spring, and it puts no visits together: that is process/plan.
package passes

import (
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/landing"
	"borewright/process/qty"
)

// Visit is one time at the machine for one bore, cut without other work
// between. Rebored bores have one; a sleeved bore has two: the housing, then
// the inside of the sleeve in place, or the housing alone where the sleeve
// comes finished from the lathe. Each visit is one program.
type Visit struct {
	N        int               // 1, 2 within the bore
	Title    fact.Fact         // "bore the housing for the sleeve"
	Before   []fact.Fact       // work to be done before it, a sentence each
	After    []fact.Fact       // and after
	Material *process.Material // what is cut

	From, To qty.Length // depth of the piece to be bored
	Clear    qty.Length // depth at which the tip stands clear in front of From: feed begins here
	End      qty.Length // depth that the tip feeds to, run-out included; never past To+Relief when blind

	Start, StartMost qty.Diameter    // smallest and largest of the bore as found
	Limits           Limits          // what this visit must land
	Ra, Roundness    qty.Length      // asked for
	Compliance       [2]float64      // at the cutter, least and most along the cut, µm/N
	Along            []AlongPoint    // the same against depth
	Budget           *landing.Budget // of the size that the last pass lands; nil where there are no passes
	Overhang         float64         // stickout over diameter
	Passes           []Pass
	Behind           int // the pass that was measured last: these are the rest; 0: none
	Retract          Retract
	SetInside        bool // the cutter does not pass the bores on the way: it is put into the bar when the bar stands at Clear, and taken out there
}

// AlongPoint is the compliance at the cutter with the tip at one depth, µm/N.
type AlongPoint struct {
	Depth      qty.Length
	Compliance float64
}

// Limits are limits of size with the size aimed at.
type Limits struct {
	Low, Aim, High qty.Diameter
	Fit            string // as asked for: "H7", or "" for limits
}

// Retract is how the cutter comes out without dragging a line in the bore.
type Retract struct {
	Shift qty.Length // with an oriented stop: how far the bar moves off the wall, opposite to the tip; 0: the cutter feeds out, turning
	Why   fact.Fact
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

func (k Kind) String() string {
	return [...]string{"witness", "rough", "semi-finish", "spring", "finish", "fitted"}[k]
}

// Pass is one cut through the bore.
type Pass struct {
	N                   int // counts through all visits of the bore, from 1
	Kind                Kind
	Setting             qty.Diameter  // what the cutter is set to, spring allowed for
	Low, Expected, High qty.Diameter  // what the bore gauge should say
	Depth               qty.Length    // radial depth of cut, nominal
	Feed                qty.Length    // a revolution, one the machine has
	Speed               qty.RevPerMin // one the machine has
	Cutting             qty.CuttingSpeed

	CuttingForce, FeedForce, RadialForce qty.Force
	Spring                               qty.Length // elastic push-off, on diameter
	Power                                qty.Power
	Torque                               qty.Torque
	Stress                               float64    // highest bending stress in the bar, MPa
	Ra                                   qty.Length // expected
	OutOfRound                           qty.Length // expected after the pass, radial peak to valley
	Minutes                              float64    // cut and return, without the stop
	Taper                                qty.Length // the bore is so much larger, on diameter, where the bar is stiffest than where it is softest
	Stability                            Stability  // against chatter
	LimitedBy                            fact.Fact  // what bound depth or feed
	Hold                                 *Hold      // nil: go straight on to setting the next pass
}

// Hold is a stop after a pass to measure before anything else is cut.
type Hold struct {
	Measure []fact.Fact // what to measure, one line each
	Then    fact.Fact   // what to do with the answer
	Minutes float64
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

func KindOf(s string) Kind {
	for k := Witness; k <= Fitted; k++ {
		if k.String() == s {
			return k
		}
	}
	return Rough
}
