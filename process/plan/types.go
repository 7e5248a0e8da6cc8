// Package plan turns a job, and what was measured since, into ordered passes
// with the reason for each, or says what stops it and what would free it. It
// decides; it does not format and it opens no file.
package plan

import (
	"borewright/process"
	"borewright/process/qty"
)

// Plan is the answer to a job.
type Plan struct {
	Job      *process.Job
	Feasible bool
	Reasons  []Reason // what stops it; empty when feasible
	Cautions []string // what to mind all the same, one sentence each
	Bores    []Bore   // in the order of the job file
	LineUp   *LineUp  // nil: nothing was swept
	Minutes  float64  // all visits, stops included
	Sofar    *Sofar   // what was measured before this plan was made; nil: nothing

	remarks []remark // cautions that not every visit has

	known  *known // what was learned from it
	setup  *setup // what it was planned with; nil where it was read back
	noLine string // why the sweeps of the job give no LineUp; "": they do, or there are none
	made   bool   // by the planner, from a job that Load accepted
}

// NoLineUp is why the sweeps of the job cannot be used, "" where they can or where
// there are none.
func (p *Plan) NoLineUp() string { return p.noLine }

// Reason is one thing that stops a plan, and what would free it.
type Reason struct {
	Where string   // "job.toml:31:1: bar", or "" when no one key is to blame
	What  string   // what stops it, with figures
	Free  []string // changes that were tried, each with what it gave
}

// Bore is the work on one bore.
type Bore struct {
	Bore    process.Bore
	Station process.Station
	Visits  []Visit
	Sleeve  *Sleeve  // nil: no sleeve, or it could not be worked out
	CleanUp *CleanUp // nil: no readings of the worn bore
	Home    *Pass    // a sleeve finished on the lathe, to be measured when it is home; nil: none, or it has been
}

// Visit is one time at the machine for one bore, cut without other work
// between. Rebored bores have one; a sleeved bore has two: the housing, then
// the inside of the sleeve in place, or the housing alone where the sleeve
// comes finished from the lathe. Each visit is one program.
type Visit struct {
	N        int               // 1, 2 within the bore
	Title    string            // "bore the housing for the sleeve"
	Before   []string          // work to be done before it, a sentence each
	After    []string          // and after
	Material *process.Material // what is cut

	From, To qty.Length // depth of the piece to be bored
	Clear    qty.Length // depth at which the tip stands clear in front of From: feed begins here
	End      qty.Length // depth that the tip feeds to, run-out included; never past To+Relief when blind

	Start, StartMost qty.Diameter // smallest and largest of the bore as found
	Limits           Limits       // what this visit must land
	Ra, Roundness    qty.Length   // asked for
	Compliance       [2]float64   // at the cutter, least and most along the cut, µm/N
	Along            []AlongPoint // the same against depth
	Budget           *Budget      // of the size that the last pass lands; nil where there are no passes
	Overhang         float64      // stickout over diameter
	Passes           []Pass
	Behind           int // the pass that was measured last: these are the rest; 0: none
	Retract          Retract
	Reach            *Reach // nil: it could not be worked out
	SetInside        bool   // the cutter does not pass the bores on the way: it is put into the bar when the bar stands at Clear, and taken out there
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
	Why   string     // in words
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
	LimitedBy                            string     // the limit that bound depth or feed, in words
	Hold                                 *Hold      // nil: go straight on to setting the next pass
}

// Hold is a stop after a pass to measure before anything else is cut.
type Hold struct {
	Measure []string // what to measure, one line each, in the job's units
	Then    string   // what to do with the answer
	Minutes float64
}
