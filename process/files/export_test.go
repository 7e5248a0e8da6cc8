package files

import "borewright/process"

// Lookups that only tests need: a job names machine and cutter, and the loader
// finds them.
func MachineByID(id string) *process.Machine { return lookUp("machines", id, Machine) }

// What the tests of doubts see; they stand outside, where doubts have words.
const (
	ReboreJob = reboreJob
	SleeveJob = sleeveJob
)

var (
	MustLoad = mustLoad
	Edit     = edit
	Catalog  = catalog
)
