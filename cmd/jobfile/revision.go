package jobfile

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"borewright/cmd/store"
	"borewright/post"
	"borewright/post/verify"
	"borewright/post/verify/path"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets"
	"borewright/sheets/document"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/programs"
	"borewright/sheets/report"
)

// ProgramMost is the longest program that is read.
const ProgramMost = 50 << 20

// ReadProgram reads a program, whole.
func ReadProgram(path string) ([]byte, error) {
	data, err := ReadUpTo(path, ProgramMost+1)
	if err == nil && len(data) > ProgramMost {
		err = fmt.Errorf("%s: longer than %d MB, which no boring program is", path, ProgramMost>>20)
	}
	return data, err
}

// RevisionOf writes the programs and the sheet of a plan in memory, for a comparison that calls
// it name.
func RevisionOf(name string, p *plan.Plan) (report.Revision, error) {
	r := report.Revision{Name: name, Plan: p}
	all, err := programs.Of(p)
	if err != nil {
		return r, err
	}
	for _, f := range FilesOf(all) {
		r.Programs = append(r.Programs, programOf(f.Name, f.Data, p.Job.Machine.Control))
	}
	var text bytes.Buffer
	err = sheets.Build(p, append(ProgramsSaid(p, all), sheets.WithCorrections(CorrectionsOf(p)), sheets.Only(TextPart(p)))...).WriteText(&text)
	r.Sheet = text.Bytes()
	return r, err
}

// onPaper is whether a file of a folder is only read by people.
func onPaper(name string) bool { return strings.HasPrefix(name, "sheet.") || name == "card.pdf" }

// FolderRevision reads a folder that make has written: whole, or with what was changed in it by
// hand since.
func FolderRevision(name, dir string, edited bool) (report.Revision, error) {
	r := report.Revision{Name: name, Filed: true}
	list, listed, err := store.Of(dir)
	if err == nil && listed {
		if err = list.Settled(dir); err == nil && !edited {
			if err = errors.Join(list.Check(dir, onPaper), list.Alone(dir)); err != nil {
				err = fmt.Errorf("%w\n--edited compares what was changed by hand as it is", err)
			}
		}
	}
	if err != nil {
		return r, err
	}
	if r.Sheet, err = Read(filepath.Join(dir, "sheet.txt")); err != nil && !errors.Is(err, os.ErrNotExist) {
		return r, err
	}
	units := qty.Metric // what an older plan.json leaves unsaid stands in the sheet
	if bytes.Contains(r.Sheet, []byte("sizes are diameters")) && bytes.Contains(r.Sheet, []byte("inches;")) {
		units = qty.Inches
	}
	data, err := Read(filepath.Join(dir, "plan.json"))
	if err != nil {
		return r, fmt.Errorf("%s is not a folder that make has written: %w", dir, err)
	}
	if r.Plan, err = document.Read(data, units); err != nil {
		return r, fmt.Errorf("%s: %w", filepath.Join(dir, "plan.json"), err)
	}
	entries, err := os.ReadDir(dir) // by name
	for _, e := range entries {
		nc := strings.EqualFold(filepath.Ext(e.Name()), ".nc")
		if _, ours := list.Sums[e.Name()]; listed && !ours && !edited {
			continue // a note that somebody put there
		}
		if e.IsDir() || !nc && (e.Name() == "plan.json" || onPaper(e.Name()) || strings.HasPrefix(e.Name(), ".")) {
			continue
		}
		data, err := ReadProgram(filepath.Join(dir, e.Name()))
		if err != nil && !nc {
			continue // no program is as long
		} else if err != nil {
			return r, err
		}
		if f := programOf(e.Name(), data, nil); nc || f.Read && len(f.Acts) > 0 { // a control may have its files end otherwise
			r.Programs = append(r.Programs, f)
		}
	}
	return r, err
}

// programOf is a program with what it makes the machine do.
func programOf(name string, data []byte, c *process.Control) report.File {
	acts, comments, read := post.Acts(data, c)
	f := report.File{Name: name, Data: data, Comments: comments, Read: read}
	for _, a := range acts {
		f.Acts = append(f.Acts, report.Act{Line: a.Line, Text: a.Text})
	}
	return f
}

// Alike brings a job down to what a folder holds of it where the other side is a folder: what
// only a job knows is no difference.
func Alike(old, new *report.Revision) error {
	if old.Filed == new.Filed {
		return nil
	}
	side := old
	if old.Filed {
		side = new
	}
	data, err := document.Write(side.Plan)
	if err != nil {
		return err
	}
	side.Plan, err = document.Read(data, side.Plan.Job.Units)
	return err
}

// Draw draws what each program does, against the bores of its own job; a folder does not know
// them, so that its programs are drawn in those of the job on the other side. It comes before
// Alike, which takes them away.
func Draw(old, new *report.Revision) {
	for _, side := range []*report.Revision{old, new} {
		in := side.Plan
		if side.Filed {
			other := new
			if side == new {
				other = old
			}
			in = other.Plan
		}
		for i := range side.Programs {
			f := &side.Programs[i]
			f.Drawn = drawn(f, in, side.Filed)
		}
	}
}

// drawn are the drawings of a file, one for each visit whose program stands in it.
func drawn(f *report.File, p *plan.Plan, strange bool) (out []page.Figure) {
	if p == nil || p.Job == nil || p.Job.Machine == nil || p.Job.Machine.Control == nil || !p.Feasible || !f.Read {
		return nil
	}
	var visits [][2]int
	if strange {
		if bore, visit, ok := verify.Identify(f.Data, p); ok {
			visits = append(visits, [2]int{bore, visit})
		}
	} else {
		for _, at := range p.Programs() {
			if post.FileName(p, at[0], at[1]) == f.Name {
				visits = append(visits, at)
			}
		}
	}
	for _, at := range visits {
		r := verify.Check(f.Data, f.Name, p, at[0], at[1])
		r.Findings = nil // of another job's program nothing is to be proven here
		steps, _ := path.Of(f.Data, p, at[0], at[1])
		if fig := figure.Program(head.Of(p), at[0], at[1], steps, r); fig != nil {
			out = append(out, fig.Items...)
		}
	}
	return slices.Clip(out)
}
