package words

import (
	"borewright/process"
	"borewright/process/fact"
)

// jobWords are those of the job as written.
var jobWords = map[fact.Kind]entry{
	process.BarOf:  text("{1} (E {2}, Poisson {3}, {4}, {5} allowed, reach {6})"),
	process.EdgeOf: text("{1} (class {2}, force factor {3}, edge {4}, least chip {5}, rake {6})"),
	process.AnyOf:  text("any from {1:bare} to {2:bare}"),
	process.Gears:  text("{1}"),
	process.Gear:   text("{1:bare}"),
}
