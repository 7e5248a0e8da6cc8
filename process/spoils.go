package process

import (
	"borewright/process/field"
	"borewright/process/qty"
)

// What a change of a job or of its plan can spoil, worst first.
const (
	SpoilsProof   field.Rank = iota // whether the job can be done at all
	SpoilsSize                      // final size, place, form or surface of the bore
	SpoilsFit                       // how the sleeve is held
	SpoilsReach                     // what the bar passes and how far it gets
	SpoilsSetting                   // what the cutter is set to, and what remains of it
	SpoilsFeed                      // speeds, feeds and time
	SpoilsWords                     // text only
)

// What a cut is reckoned to leave is compared to the last figure that a sheet
// prints of it, a microinch of Ra and a hundredth of a thousandth of an inch of
// form: below that a difference is the arithmetic's, not the bore's.
const (
	RaStep   qty.Length = 25
	FormStep qty.Length = 254
)
