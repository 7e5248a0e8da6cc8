package post

import (
	"fmt"
	"strings"

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

// FileName is the name for the program: number, revision, station and visit,
// in characters that every file system takes. Two visits of a plan never share
// a name, nor does a plan made after measurements use one of the first plan's. It
// is "" where the plan has no such visit.
func FileName(p *plan.Plan, bore, visit int) string {
	if p == nil || p.Job == nil || bore < 0 || bore >= len(p.Bores) || visit < 0 || visit >= len(p.Bores[bore].Visits) {
		return ""
	}
	station := func(i int) string { return fileText(p.Bores[i].Station.Name, 40) }
	var parts []string
	for _, s := range []string{fileText(p.Job.Number, 40), fileText(p.Job.Revision, 8), station(bore)} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	if len(parts) == 0 {
		parts = append(parts, "program")
	}
	seen := map[string]bool{}
	for i := range p.Bores {
		seen[strings.ToLower(station(i))] = true
	}
	if len(seen) < len(p.Bores) { // two stations of like names: then all are numbered
		parts = append(parts, fmt.Sprintf("bore%d", bore+1))
	}
	return fmt.Sprintf("%s-%s.nc", strings.Join(parts, "-"), visitName(p, p.Bores[bore].Visits[visit], visit))
}

// visitName is the part of a file name that tells visits apart: the visit's
// number, and the pass after which a plan for the rest takes over, or, where the
// visit is not begun, how many measurements the plan goes by: its settings have
// changed with them. No program ever has the name of the one it takes the place
// of, because a control keeps its programs in one flat store.
func visitName(p *plan.Plan, v plan.Visit, index int) string {
	n := v.N
	if n == 0 {
		n = index + 1
	}
	if v.Behind > 0 {
		return fmt.Sprintf("%d-after-%d", n, v.Behind)
	}
	if p.Findings != nil {
		return fmt.Sprintf("%d-measured-%d", n, p.Findings.Entries)
	}
	return fmt.Sprint(n)
}
