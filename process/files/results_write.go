package files

import (
	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/grown"
)

// Entry is the entry as it stands in a results file: a blank line, the entry,
// its check. Every length carries its unit, so that the entry means the same
// whatever the job is written in later.
func Entry(job *process.Job, m *process.Measured) []byte {
	name := func(any) string { return job.Stations[m.Station].Name }
	return grown.Entry(entryName, keys.WriteTOML(m, job.Units, name))
}
