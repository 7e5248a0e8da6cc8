package words

import (
	"borewright/process/fact"
	"borewright/process/revision"
)

// ofRevision are the words of process/revision.
var ofRevision = map[fact.Kind]entry{
	revision.InPlan:        text("the plan"),
	revision.InJob:         text("the job"),
	revision.InBar:         text("the bar"),
	revision.InCutter:      text("the cutter"),
	revision.InSleeve:      text("the sleeve"),
	revision.InMachine:     text("the machine"),
	revision.InMaterial:    text("the work material"),
	revision.InLimits:      text("limits allowed"),
	revision.InLiningUp:    text("lining up"),
	revision.InShop:        text("the shop's bars"),
	revision.InNamedBar:    text("bar {1} for {2}"),
	revision.InNamedCutter: text("cutter {1} for {2}"),
	revision.InStation:     text("station {1}"),
	revision.InBore:        text("bore {1}"),
	revision.InBoreAt:      text("bore at station {1}"),
	revision.InSweep:       text("sweep {1}"),
	revision.InVisit:       text("{1}, visit {2}"),
	revision.InBoreSleeve:  text("{1}, sleeve"),
	revision.InPass:        text("{1}, pass {2} ({3}){?, was pass {4}}"),
	revision.InOldPass:     text("{1}, old pass {2}"),
	revision.InNewPass:     text("{1}, new pass {2}"),

	revision.WholeJob:         text("all together"),
	revision.StationsAndBores: text("stations and bores alone"),
	revision.TheSleeve:        text("the sleeve alone"),
	revision.TheBar:           text("the bar alone"),
	revision.TheCutter:        text("the cutter alone"),
	revision.TheMachine:       text("the machine alone"),
	revision.TheMaterial:      text("the work material alone"),
	revision.TheLimits:        text("limits allowed alone"),

	revision.Feature:   text("{1}: {2}"),
	revision.HoldPoint: text("HOLD: {1}"),
}
