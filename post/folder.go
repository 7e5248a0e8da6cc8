package post

import (
	"fmt"

	"borewright/process/plan"
)

// FolderName is a name for the folder of a job's revision, in characters that
// every file system takes: number and revision.
func FolderName(p *plan.Plan) string {
	if p.Findings != nil { // a plan for the rest never goes where the one before it lies
		before := *p
		before.Findings = nil
		return fmt.Sprintf("%s-measured-%d", FolderName(&before), p.Findings.Entries)
	}
	number, revision := fileText(p.Job.Number, 40), fileText(p.Job.Revision, 20)
	switch {
	case number == "" && revision == "":
		return "job"
	case number == "" || revision == "":
		return number + revision
	}
	return number + "-" + revision
}
