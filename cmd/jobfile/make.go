package jobfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"borewright/cmd/store"
	"borewright/post"
	"borewright/post/verify"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets"
	"borewright/sheets/document"
	"borewright/sheets/programs"
)

// KeepWorkedTo refuses a folder that holds the plan that was worked to before
// the last measurement: what was cut from stays as it was.
func KeepWorkedTo(p *plan.Plan, dir string) error {
	var there struct {
		Job struct{ Number, Revision string }
	}
	old, err := Read(filepath.Join(dir, "plan.json"))
	if l, ok, e := store.Of(dir); e == nil && ok && l.Number+l.Revision != "" {
		there.Job.Number, there.Job.Revision = l.Number, l.Revision
	} else if err != nil || json.Unmarshal(old, &there) != nil {
		return nil // nothing there to keep
	}
	if there.Job.Number != p.Job.Number || there.Job.Revision != p.Job.Revision {
		return fmt.Errorf("make: %s holds the plan of job %q, revision %q, and this one is job %q, revision %q; name another folder with --out",
			dir, there.Job.Number, there.Job.Revision, p.Job.Number, p.Job.Revision)
	}
	if p.Findings == nil {
		return nil
	}
	if now, err := document.Write(p); err != nil || bytes.Equal(now, old) {
		return err
	}
	return fmt.Errorf("make: %s holds an earlier plan of this job, which was worked to; name another folder with --out, or leave --out away", dir)
}

// Strangers are files in a folder that have a name as programs of this job have, and that the
// plan just written does not have: they may be of another revision, or of another hand.
func Strangers(dir string, p *plan.Plan, written []store.File) (names []string, err error) {
	entries, err := os.ReadDir(dir)
	for _, e := range entries {
		if !e.IsDir() && post.Alike(p, e.Name()) && !slices.ContainsFunc(written, func(f store.File) bool { return f.Name == e.Name() }) {
			names = append(names, e.Name())
		}
	}
	return names, err
}

// SheetFiles is the operation sheet in its three faces, and plan.json.
func SheetFiles(p *plan.Plan, all []programs.Program, as Choice) ([]store.File, error) {
	data, sum, err := document.WithSum(p)
	if err != nil {
		return nil, err
	}
	faces, err := as.Sheets(p, append(ProgramsSaid(p, all), sheets.WithSum(sum))...)
	return append([]store.File{{Name: "plan.json", Data: data}}, faces...), err
}

// FilesOf are the files of programs, each once.
func FilesOf(all []programs.Program) (files []store.File) {
	for i, w := range all {
		if i == 0 || w.Name != all[i-1].Name {
			files = append(files, store.File{Name: w.Name, Data: w.Data})
		}
	}
	return files
}

// Proven writes every program of a plan and replays each. bad is
// whether one of them failed; say is given those that did.
func Proven(p *plan.Plan, say func(verify.Report, string)) (all []programs.Program, bad bool, err error) {
	all, err = programs.Of(p)
	for _, f := range all {
		if r := verify.Check(f.Data, f.Name, p, f.Bore, f.Visit); !r.Proven {
			say(r, f.Name)
			bad = true
		}
	}
	return all, bad, err
}

// ProgramsSaid is what the sheet says of programs: of each visit the one that it is cut by.
func ProgramsSaid(p *plan.Plan, all []programs.Program) []sheets.Option {
	var names []string
	var planes []qty.Length
	for _, at := range p.Find("", 0) {
		for _, w := range all {
			if b, v := p.Lead(at[0], at[1]); w.Bore != b || w.Visit != v {
				continue
			}
			names = append(names, w.Called.String())
			if home, err := post.ClearPlane(p, w.Bore, w.Visit); err == nil {
				planes = append(planes, home)
			}
		}
	}
	return []sheets.Option{sheets.WithPrograms(names...), sheets.WithPlanes(planes...)}
}

// NoteOf is what the list of a made folder says of a plan: what it was made of, and how many
// passes each bore has.
func NoteOf(p *plan.Plan, job []byte) store.Note {
	n := store.Note{Of: SumOf(job), Passes: map[string]int{}}
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			for _, q := range v.Passes {
				n.Passes[b.Station.Name] = max(n.Passes[b.Station.Name], q.N)
			}
		}
		if b.Home != nil {
			n.Passes[b.Station.Name] = max(n.Passes[b.Station.Name], b.Home.N)
		}
	}
	return n
}
