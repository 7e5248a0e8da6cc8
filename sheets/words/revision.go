package words

import (
	"borewright/process/fact"
	"borewright/process/revision"
)

// ofRevision are the words of process/revision.
var ofRevision = map[fact.Kind]entry{
	revision.Feature:   text("{1}: {2}"),
	revision.HoldPoint: text("HOLD: {1}"),
	revision.Stopped:   text("{1}{? (would free it: {2:;})}"),
}
