package post

import (
	"fmt"
	"strings"

	"borewright/post/sum"
	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/process/storage"
)

// FolderName is a name for the folder of a job's revision, in characters that
// every file system takes: number and revision.
func FolderName(p *plan.Plan) string {
	if p.Findings != nil { // a plan for the rest never goes where the one before it lies
		before := *p
		before.Findings = nil
		return fmt.Sprintf("%s-measured-%d", FolderName(&before), p.Findings.Entries)
	}
	number, revision := identity(p.Job.Number), identity(p.Job.Revision)
	switch {
	case number == "" && revision == "":
		return "job"
	case number == "" || revision == "":
		return number + revision
	}
	return number + "-" + revision
}

// FileName is the name for the program: number, revision, station and visit,
// in characters that every file system takes, or what the control's pattern puts
// together. Two visits of a plan never share a name (Write refuses such a pattern) unless
// they share a file, nor does a plan made after measurements use one of the first plan's.
// Bores that are cut through at one setting have the name of the
// first. It is "" where the plan has no such visit.
func FileName(p *plan.Plan, bore, visit int) string {
	if p == nil || p.Job == nil || bore < 0 || bore >= len(p.Bores) || visit < 0 || visit >= len(p.Bores[bore].Visits) {
		return ""
	}
	bore, visit = p.Lead(bore, visit)
	s := storageOf(p)
	name := usualName(p, bore, visit)
	if s.FileName != "" || s.FileNameMost > 0 || s.OneFile {
		name = patternName(p, s, bore, visit)
	}
	name += ending(s)
	if s.FileCapitals {
		name = strings.ToUpper(name)
	}
	return name
}

// ending is that of a program's file, with its point.
func ending(s storage.Storage) string {
	switch s.FileExtension {
	case "none":
		return ""
	case "":
		return ".nc"
	}
	return "." + s.FileExtension
}

// storageOf is how the plan's control stores programs; as usual where there is none.
func storageOf(p *plan.Plan) storage.Storage {
	if p.Job.Machine == nil || p.Job.Machine.Control == nil {
		return storage.Storage{}
	}
	return p.Job.Machine.Control.Storage
}

// usualName is the name without its ending where the control has no pattern.
func usualName(p *plan.Plan, bore, visit int) string {
	var parts []string
	for _, s := range []string{identity(p.Job.Number), identity(p.Job.Revision), stationText(p, bore)} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	if len(parts) == 0 {
		parts = append(parts, "program")
	}
	if likeNames(p) { // then all are numbered
		parts = append(parts, fmt.Sprintf("bore%d", bore+1))
	}
	return strings.Join(parts, "-") + "-" + visitName(p, p.Bores[bore].Visits[visit], visit)
}

// likeNames reports two stations of the same name in a file's characters.
func likeNames(p *plan.Plan) bool {
	seen := map[string]bool{}
	for i := range p.Bores {
		seen[strings.ToLower(stationText(p, i))] = true
	}
	return len(seen) < len(p.Bores)
}

// patternName puts a name together as the control's pattern says. What is too long is cut
// at the end of the bore's name, then of the job's number: what tells programs apart stays.
func patternName(p *plan.Plan, s storage.Storage, bore, visit int) string {
	pattern := s.FileName
	switch {
	case pattern == "" && s.OneFile:
		pattern = storage.NumberPart + "-" + storage.RevisionPart + "-" + storage.VisitPart
	case pattern == "":
		pattern = storage.NumberPart + "-" + storage.RevisionPart + "-" + storage.BorePart + "-" + storage.VisitPart
	}
	v := visitName(p, p.Bores[bore].Visits[visit], visit)
	if s.OneFile {
		if v = "all"; p.Findings != nil {
			v = fmt.Sprintf("measured-%d", p.Findings.Entries)
		}
		bore, visit = 0, 0
	}
	if s.FileNameMost > 0 { // 2-after-3 is 2a3
		v = strings.NewReplacer("-rough", "r", "-finish", "f", "-after-", "a", "-measured-", "m", "measured-", "m").Replace(v)
	}
	number, revision, station, digit := identity(p.Job.Number), identity(p.Job.Revision), stationText(p, bore), ""
	if likeNames(p) {
		digit = fmt.Sprint(bore + 1)
	}
	for {
		name := strings.NewReplacer(storage.NumberPart, number, storage.RevisionPart, revision, storage.BorePart, station+digit, storage.VisitPart, v,
			storage.ProgramPart, fmt.Sprintf("%04d", ProgramNumber(p, bore, visit))).Replace(pattern)
		for strings.Contains(name, "--") { // where a part is empty
			name = strings.ReplaceAll(name, "--", "-")
		}
		name = strings.Trim(name, "-_")
		switch {
		case s.FileNameMost == 0 || len(name) <= s.FileNameMost:
			return name
		case len(station) > 1 && strings.Contains(pattern, storage.BorePart):
			station = station[:len(station)-1]
		case len(revision) > 8 && strings.Contains(pattern, storage.RevisionPart):
			revision = shorter(revision, p.Job.Revision)
		case len(number) > 1 && strings.Contains(pattern, storage.NumberPart):
			number = shorter(number, p.Job.Number)
		default:
			return name // Write refuses it
		}
	}
}

// named refuses a name that is too long, or that another visit has.
func (j *job) named(no *Refusal) {
	s := &j.c.Storage
	name := FileName(j.p, j.index[0], j.index[1])
	base, _, _ := strings.Cut(name, ".")
	switch {
	case base == "":
		no.add(BadControl, "control.file_name %q gives this program no name; put {program} in it, or letters", s.FileName)
	case s.FileNameMost > 0 && len(base) > s.FileNameMost:
		no.add(BadControl, "the file %s has %d characters before its ending, and file_name_most = %d; state a shorter file_name, such as \"{program}\"", name, len(base), s.FileNameMost)
	}
	for _, at := range j.p.Programs() {
		if !s.OneFile && at != j.index && strings.EqualFold(FileName(j.p, at[0], at[1]), name) {
			no.add(BadControl, "%s, visit %d would have the file name %s as well; put what tells them apart in control.file_name: {bore} and {visit}, or {program}", j.p.Bores[at[0]].Station.Name, at[1]+1, name)
			return
		}
	}
}

// Alike reports that a file's name begins and ends as those of this job's programs do, in
// whichever revision.
func Alike(p *plan.Plan, name string) bool {
	s := storageOf(p)
	head, end := FolderName(p)+"-", ending(s)
	if number := identity(p.Job.Number); number != "" {
		head = number + "-"
	}
	if s.FileName != "" || s.FileNameMost > 0 {
		return false // such a name says too little
	}
	if s.FileCapitals {
		head, end = strings.ToUpper(head), strings.ToUpper(end)
	}
	return strings.HasPrefix(name, head) && strings.HasSuffix(name, end) && (end != "" || !strings.Contains(name, "."))
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
	part := ""
	if v.Part != schedule.Whole {
		part = "-" + v.Part.String()
	}
	if v.Behind > 0 {
		return fmt.Sprintf("%d%s-after-%d", n, part, v.Behind)
	}
	if p.Findings != nil {
		return fmt.Sprintf("%d%s-measured-%d", n, part, p.Findings.Entries)
	}
	return fmt.Sprint(n) + part
}

// shorter cuts a character off a number or a revision. Its last two are then the check sum's
// of all of it, so that numbers which begin alike do not share a name. Below four characters
// there is no room for that.
func shorter(text, whole string) string {
	n := len(text) - 1
	if n < 4 {
		return text[:n]
	}
	return text[:n-2] + sum.OfData([]byte(whole))[:2]
}

// stationText is a bore's name in a file's name; bores whose names then are alike are numbered.
func stationText(p *plan.Plan, bore int) string {
	text, _ := fileText(p.Bores[bore].Station.Name, 40)
	return text
}
