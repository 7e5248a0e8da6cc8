package jobfile

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"borewright/cmd/store"
	"borewright/post/verify"
	"borewright/process"
	"borewright/process/approval"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/sheets/document"
	"borewright/sheets/programs"
)

// ApprovalsPath is the file of approvals beside a job file.
func ApprovalsPath(job string) string { return strings.TrimSuffix(job, ".toml") + ".approved.toml" }

// Approvals reads who approved a job; nothing where there is no such file.
func Approvals(path string) (*approval.List, error) {
	name := ApprovalsPath(path)
	data, err := store.ReadLocked(name, readMost)
	if errors.Is(err, fs.ErrNotExist) {
		return &approval.List{File: name}, nil
	} else if err != nil {
		return nil, err
	}
	return approval.Read(name, data)
}

// Source is a job as it was read, and the files that it was read from.
type Source struct {
	Job   *process.Job
	Sum   string          // of the job file
	Named []approval.File // that it names, by their names
}

// Sourced reads a job file and what it names; beside reads what it names.
func Sourced(path string, data []byte, beside func(name string) ([]byte, error)) (Source, error) {
	s := Source{Sum: SumOf(data)}
	var err error
	s.Job, err = plan.Tooled(files.Job(path, data, func(name string) ([]byte, error) {
		data, err := beside(name)
		if err == nil {
			s.name(name, data)
		}
		return data, err
	}))
	return s, err
}

func (s *Source) name(name string, data []byte) {
	f := approval.File{Name: name, Sum: SumOf(data)}
	if !slices.Contains(s.Named, f) {
		s.Named = append(s.Named, f)
		slices.SortFunc(s.Named, func(a, b approval.File) int { return cmp.Compare(a.Name, b.Name) })
	}
}

// Work is what there is to approve of a job: the plan before anything was measured, and its
// programs. Without a plan the files alone.
func (s Source) Work(first *plan.Plan) (approval.Work, error) {
	w := approval.Work{Number: s.Job.Number, Revision: s.Job.Revision, Job: s.Sum, Files: s.Named}
	if first == nil {
		return w, nil
	}
	w.Plan = document.Sum(first)
	all, err := programs.Of(first)
	for _, p := range all {
		w.Programs = append(w.Programs, approval.File{Name: p.Called.Name, Sum: p.Called.Sum})
	}
	return w, err
}

// Approved holds the approvals of a job against what there is of it now.
func (s Source) Approved(list *approval.List, first *plan.Plan) ([]approval.Standing, error) {
	if len(list.All) == 0 {
		return nil, nil
	}
	w, err := s.Work(first)
	return list.Now(w), err
}

// Approvable is an error where there is nothing that could be approved.
func Approvable(first *plan.Plan) error {
	if !first.Feasible {
		return errors.New("the job has no feasible plan, so there is nothing to approve")
	}
	found := ""
	_, bad, err := Proven(first, func(_ verify.Report, name string) { found = name })
	if err == nil && bad {
		err = fmt.Errorf("%s is not proven, so there is nothing to approve", found)
	}
	return err
}

// Approve puts an approval at the end of its file, as Add does with an entry: under its lock,
// once, and on the disk when it comes back.
func Approve(path string, a *approval.Approval) error {
	name := ApprovalsPath(path)
	return store.Grow(name, func(data []byte) (stay int, text []byte, err error) {
		list, err := approval.Read(name, data)
		if err != nil {
			return 0, nil, fmt.Errorf("%w\nnothing is entered before the file reads", err)
		}
		if a.ID != "" && slices.ContainsFunc(list.All, func(e approval.Approval) bool { return e.ID == a.ID }) {
			return 0, nil, ErrThere
		}
		if a.Withdrawn && (len(list.All) == 0 || list.All[len(list.All)-1].Withdrawn) {
			return 0, nil, errors.New("no approval of this job stands that could be withdrawn")
		}
		if a.ID == "" {
			a.ID = NewID()
		}
		text = approval.Entry(a)
		whole, _ := approval.SplitTorn(data)
		if len(whole) > 0 && !bytes.HasSuffix(whole, []byte("\n")) {
			text = append([]byte("\n"), text...)
		}
		_, err = approval.Read(name, slices.Concat(whole, text)) // what would not be read is not written
		return len(whole), text, err
	})
}
