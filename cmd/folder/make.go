package folder

import (
	"fmt"
	"path/filepath"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/post"
	"borewright/post/verify"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/source"
	"borewright/sheets/words"
)

// Plan plans a job and says what came of it.
func Plan(j *Job) Answer {
	p, err := jobfile.PlanOf(j.Path)
	if err != nil {
		return wrong(err)
	}
	return Said(p)
}

// wrong is a job that does not read, or what cannot be written.
func wrong(err error) Answer {
	var j Job
	j.notRead(err)
	return Answer{source.Clip(j.Problem, 400), 2}
}

// Said is what came of a plan, in one line.
func Said(p *plan.Plan) Answer {
	if !p.Feasible {
		s := "not feasible"
		if len(p.Reasons) > 0 {
			s += ": " + words.In(p.Job.Units).Say(p.Reasons[0].What)
		}
		if n := len(p.Reasons) - 1; n > 0 {
			s += fmt.Sprintf(" (and %d more)", n)
		}
		return Answer{source.Clip(s, 400), 1}
	}
	if len(p.Bores) == 0 {
		return Answer{"every bore is finished", 0}
	}
	n := 0
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			n += len(v.Passes)
		}
	}
	passes := "1 pass"
	if n != 1 {
		passes = fmt.Sprintf("%d passes", n)
	}
	return Answer{passes + ", " + qty.KindTime.Say(p.Minutes), 0}
}

// Maker makes jobs into a folder of each below one.
type Maker struct {
	Out   string
	As    jobfile.Choice
	Twice map[string]string // see there
}

// Make plans a job, proves it and writes its folder, as the command of one job does.
func (m Maker) Make(j *Job) Answer {
	if first, ok := m.Twice[j.Path]; ok {
		return Answer{fmt.Sprintf("%s has number and revision of %s: give it a revision of its own", j.File, first), 2}
	}
	data, err := jobfile.Read(j.Path)
	if err != nil {
		return wrong(err)
	}
	p, err := jobfile.PlanOf(j.Path)
	if err != nil {
		return wrong(err)
	}
	a := Said(p)
	if a.Code != 0 || len(p.Bores) == 0 {
		return a
	}
	dir := filepath.Join(m.Out, post.FolderName(p))
	if err := jobfile.KeepWorkedTo(p, dir); err != nil {
		return wrong(err)
	}
	found := ""
	all, bad, err := jobfile.Proven(p, func(r verify.Report, name string) { found = name })
	if err != nil {
		return wrong(err)
	}
	if bad {
		return Answer{fmt.Sprintf("not proven, nothing is written: %s; borewright make %s says what", found, j.Path), 1}
	}
	files, err := jobfile.SheetFiles(p, all, m.As)
	if err != nil {
		return wrong(err)
	}
	left, err := store.WriteNoted(dir, p.Job.Number, p.Job.Revision, jobfile.NoteOf(p, data), append(files, jobfile.FilesOf(all)...))
	if err != nil {
		return wrong(err)
	}
	a.Says += ", in " + dir
	if len(left) > 0 {
		a.Says += fmt.Sprintf("; %s of an earlier plan taken away", source.CountOf(len(left), "file"))
	}
	return a
}

// Twice names the jobs that have number and revision of a job above them, by their place in
// the list: they would be written to one folder.
func Twice(jobs []Job) map[string]string {
	first, twice := map[string]string{}, map[string]string{}
	for _, j := range jobs {
		key := j.Number + "\x00" + j.Revision
		if j.State == NotRead {
			continue
		} else if at, there := first[key]; there {
			twice[j.Path] = at
		} else {
			first[key] = j.File
		}
	}
	return twice
}
