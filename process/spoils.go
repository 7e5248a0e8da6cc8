package process

import (
	"borewright/process/field"
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
