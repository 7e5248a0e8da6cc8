package words

import (
	"borewright/process/choice"
	"borewright/process/fact"
)

// ofChoice are the words of process/choice.
var ofChoice = map[fact.Kind]entry{
	choice.GoodFor:    text("is good for {1} only, and the bore is roughed and finished by one cutter"),
	choice.ForRough:   text("roughing"),
	choice.ForFinish:  text("finishing"),
	choice.NoStickout: text("no length that it can be clamped at reaches"),
	choice.NoRough:    text("no roughing pass keeps every limit"),
	choice.NoFineFeed: text("no feed of the machine is fine enough for Ra {1} with this nose"),
}
