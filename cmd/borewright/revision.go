package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/post"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets"
	"borewright/sheets/document"
	"borewright/sheets/programs"
	"borewright/sheets/report"
)

// readRevision reads one side of a comparison: a job file, an out folder, or
// REVISION:PATH of a job file under version control. as is the path that files
// beside the job are looked for at, "" for its own; edited takes files
// of a folder that were changed by hand.
func readRevision(path, as string, edited bool) (report.Revision, error) {
	info, err := os.Stat(path)
	switch {
	case err == nil && info.IsDir():
		return folderRevision(path, edited)
	case err == nil:
		return fileRevision(path, as)
	}
	if rev, name, ok := strings.Cut(path, ":"); ok && rev != "" && !strings.HasPrefix(rev, "-") && !strings.Contains(rev, string(filepath.Separator)+".") {
		if r, gitErr := gitRevision(path, rev, name); gitErr == nil || len(rev) > 1 { // C:\job.toml is a file
			return r, gitErr
		}
	}
	return report.Revision{}, err
}

// fileRevision plans a job file; what was measured on it counts when it stands
// where it belongs.
func fileRevision(path, as string) (report.Revision, error) {
	if as == "" {
		job, err := jobfile.Load(path)
		if err != nil {
			return report.Revision{}, err
		}
		p, err := jobfile.PlanNow(job, path)
		if err != nil {
			return report.Revision{}, err
		}
		return planned(path, p)
	}
	data, err := jobfile.Read(path)
	if err != nil {
		return report.Revision{}, err
	}
	job, err := plan.Tooled(files.Job(as, data, jobfile.Beside(as)))
	if err != nil {
		return report.Revision{}, err
	}
	return planned(as, plan.Make(job))
}

// gitRevision plans a job file as it stood in a revision, with the files beside
// it as they stood then.
func gitRevision(path, rev, name string) (report.Revision, error) {
	data, err := gitShow(rev, name)
	if err != nil {
		return report.Revision{}, err
	}
	job, err := plan.Tooled(files.Job(path, data, func(beside string) ([]byte, error) {
		return gitShow(rev, filepath.ToSlash(filepath.Join(filepath.Dir(name), beside)))
	}))
	if err != nil {
		return report.Revision{}, err
	}
	var results *process.Results
	if data, err := gitShow(rev, jobfile.ResultsPath(name)); err == nil {
		if results, err = files.Results(jobfile.ResultsPath(path), data, job); err != nil {
			return report.Revision{}, err
		}
	}
	return planned(path, plan.MakeAfter(job, results))
}

// gitShow gives a file as it stands in a revision. A path is that of the
// working folder, as it is everywhere else on the command line.
func gitShow(rev, name string) ([]byte, error) {
	if !filepath.IsAbs(name) && !strings.HasPrefix(name, ".") {
		name = "./" + name
	}
	var out, errs bytes.Buffer
	cmd := exec.Command("git", "show", "--no-textconv", "--end-of-options", rev+":"+name)
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("%s:%s: %s", rev, name, strings.TrimSpace(or(errs.String(), err.Error())))
	}
	return out.Bytes(), nil
}

func or(a, b string) string {
	if strings.TrimSpace(a) == "" {
		return b
	}
	return a
}

// planned writes the programs and the sheet of a plan in memory.
func planned(name string, p *plan.Plan) (report.Revision, error) {
	r := report.Revision{Name: shown(name), Plan: p}
	all, err := programs.Of(p)
	if err != nil {
		return r, err
	}
	for _, f := range jobfile.FilesOf(all) {
		r.Programs = append(r.Programs, programOf(f.Name, f.Data, p.Job.Machine.Control))
	}
	var text bytes.Buffer
	err = sheets.Build(p, append(jobfile.ProgramsSaid(p, all), sheets.WithCorrections(sheets.CorrectionsOf(p)), sheets.Only(jobfile.TextPart(p)))...).WriteText(&text)
	r.Sheet = text.Bytes()
	return r, err
}

// onPaper is whether a file of a folder is only read by people.
func onPaper(name string) bool { return strings.HasPrefix(name, "sheet.") || name == "card.pdf" }

// folderRevision reads a folder that make has written: whole, or with what was changed in it by
// hand since.
func folderRevision(dir string, edited bool) (report.Revision, error) {
	r := report.Revision{Name: shown(dir)}
	list, listed, err := store.Of(dir)
	if err == nil && listed {
		if err = list.Settled(dir); err == nil && !edited {
			if err = list.Check(dir, onPaper); err != nil {
				err = fmt.Errorf("%w\n--edited compares what was changed by hand as it is", err)
			}
		}
	}
	if err != nil {
		return r, err
	}
	if r.Sheet, err = jobfile.Read(filepath.Join(dir, "sheet.txt")); err != nil && !errors.Is(err, os.ErrNotExist) {
		return r, err
	}
	units := qty.Metric // what an older plan.json leaves unsaid stands in the sheet
	if bytes.Contains(r.Sheet, []byte("sizes are diameters")) && bytes.Contains(r.Sheet, []byte("inches;")) {
		units = qty.Inches
	}
	data, err := jobfile.Read(filepath.Join(dir, "plan.json"))
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
			continue // make warns of it
		}
		if e.IsDir() || !nc && (e.Name() == "plan.json" || onPaper(e.Name()) || strings.HasPrefix(e.Name(), ".")) {
			continue
		}
		data, err := readProgram(filepath.Join(dir, e.Name()))
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
