package words

import (
	"borewright/process/fact"
	"borewright/process/record"
)

// ofRecord are the words of process/record.
var ofRecord = map[fact.Kind]entry{
	record.SleeveHome: text("the sleeve, finished on the lathe and home"),
}
