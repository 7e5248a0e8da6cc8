package jobfile

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/source"
	"borewright/sheets/report"
)

// ReadRevision reads one side of a comparison: a job file, an out folder, or
// REVISION:PATH of a job file under version control. as is the path that files
// beside the job are looked for at, "" for its own; edited takes files
// of a folder that were changed by hand.
func ReadRevision(path, as string, edited bool) (report.Revision, error) {
	info, err := os.Stat(path)
	switch {
	case err == nil && info.IsDir():
		return FolderRevision(shown(path), path, edited)
	case err == nil:
		return fileRevision(path, as)
	}
	if rev, name, ok := strings.Cut(path, ":"); ok && rev != "" && !strings.HasPrefix(rev, "-") && !strings.Contains(rev, string(filepath.Separator)+".") {
		if r, gitErr := gitRevision(path, rev, name); gitErr == nil || len(rev) > 1 { // C:\job.toml is a file
			return r, gitErr
		}
	}
	if errors.Is(err, fs.ErrNotExist) {
		err = missing(path)
	}
	return report.Revision{}, err
}

// fileRevision plans a job file; what was measured on it counts when it stands
// where it belongs.
func fileRevision(path, as string) (report.Revision, error) {
	if as == "" {
		job, err := Load(path)
		if err != nil {
			return report.Revision{}, err
		}
		p, err := PlanNow(job, path)
		if err != nil {
			return report.Revision{}, err
		}
		return RevisionOf(shown(path), p)
	}
	data, err := Read(path)
	if err != nil {
		return report.Revision{}, err
	}
	job, err := plan.Tooled(files.Job(as, data, Beside(as)))
	if err != nil {
		return report.Revision{}, err
	}
	return RevisionOf(shown(as), MakeAfter(job, nil))
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
	if data, err := gitShow(rev, ResultsPath(name)); err == nil {
		if results, err = files.Results(ResultsPath(path), data, job); err != nil {
			return report.Revision{}, err
		}
	}
	return RevisionOf(shown(path), MakeAfter(job, results))
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

// shown is a path as it may be printed: no longer than the longest path of the systems that this
// runs on, without what would drive a terminal.
func shown(path string) string { return source.Clip(path, 5000) }

// TwinOf is what two sides of a comparison are to each other: one file or folder, by whatever
// names and links, or files of the same bytes.
func TwinOf(old, new string) report.Twin {
	a, errA := os.Stat(old)
	b, errB := os.Stat(new)
	switch {
	case errA != nil || errB != nil:
		return ""
	case os.SameFile(a, b) && a.IsDir():
		return report.OneFolder
	case os.SameFile(a, b):
		return report.OneFile
	case !a.Mode().IsRegular() || !b.Mode().IsRegular() || a.Size() != b.Size():
		return ""
	}
	x, errA := Read(old)
	y, errB := Read(new)
	if errA != nil || errB != nil || !bytes.Equal(x, y) {
		return ""
	}
	return report.SameBytes
}
