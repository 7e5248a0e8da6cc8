// Package plan turns a job, and what was measured since, into the answer: bores,
// visits and passes with the reason for each, or what stops it and what would free
// it. It leads the way through the rooms below and puts their answers together:
// passes, place, sleeve, measured. What one trade works out belongs in the room of
// that trade. It formats nothing and opens no file.
package plan

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/measured"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/sleeve"
)

// Plan is the answer to a job.
type Plan struct {
	Job      *process.Job
	Feasible bool
	Reasons  []Reason           // what stops it; empty when feasible
	Cautions []fact.Fact        // what to mind all the same, one sentence each
	Bores    []Bore             // in the order of the job file
	LineUp   *place.LineUp      // nil: nothing was swept
	Minutes  float64            // all visits, stops included
	Findings *measured.Findings // what was measured before this plan was made; nil: nothing

	remarks []remark // cautions that not every visit has

	known  *measured.Learned // what was learned from it
	setup  *passes.Setup     // what it was planned with; nil where it was read back
	noLine fact.Fact         // why the sweeps of the job give no LineUp; nothing: they do, or there are none
	made   bool              // by the planner, from a job that Load accepted
}

// NoLineUp is why the sweeps of the job cannot be used, nothing where they can or where
// there are none.
func (p *Plan) NoLineUp() fact.Fact { return p.noLine }

// Reason is one thing that stops a plan, and what would free it.
type Reason struct {
	Where string    // "job.toml:31:1: bar", or "" when no one key is to blame
	What  fact.Fact // what stops it
	Free  []Way     // what would free it
}

// Way is a change of the job that was tried and frees a plan, with what it gave.
type Way struct {
	Change  fact.Fact // what to change
	Passes  int
	Minutes float64
}

// Fact is a way out as one fact.
func (w Way) Fact() fact.Fact {
	return fact.New(WayOut, w.Change, fact.Count(w.Passes), fact.Figure(qty.KindWholeMinutes.Of(w.Minutes)))
}

// Visit is one time at the machine for one bore, with what was found of the
// room that the bar has there.
type Visit struct {
	passes.Visit
	Reach *place.Reach // nil: it could not be worked out
}

// Bore is the work on one bore.
type Bore struct {
	Bore    process.Bore
	Station process.Station
	Visits  []Visit
	Sleeve  *sleeve.Sleeve // nil: no sleeve, or it could not be worked out
	CleanUp *place.CleanUp // nil: no readings of the worn bore
	Home    *passes.Pass   // a sleeve finished on the lathe, to be measured when it is home; nil: none, or it has been
}
