package serve

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"strings"
	"sync"

	"borewright/cmd/jobfile"
	"borewright/cmd/serve/ahead"
	"borewright/cmd/store"
	"borewright/process"
	"borewright/process/approval"
	"borewright/process/files"
	"borewright/process/plan"
)

// mostRead is the most of a file that is read.
const mostRead = 5<<20 + 1

// errNoJob is an address that leads to no job of the folder.
var errNoJob = errors.New("there is no such job in this folder")

// pathOf is the path of a job by its name in an address: below the folder, none of its parts
// begins with a point, and no link leads out of the folder.
func (s *Server) pathOf(name string) (string, error) {
	if !fs.ValidPath(name) || !strings.HasSuffix(name, ".toml") || strings.HasSuffix(name, ".results.toml") || strings.HasSuffix(name, ".approved.toml") || strings.ContainsAny(name, "\\:\x00") {
		return "", errNoJob
	}
	for part := range strings.SplitSeq(name, "/") {
		if strings.HasPrefix(part, ".") {
			return "", errNoJob
		}
	}
	if info, err := s.root.Stat(name); err != nil || !info.Mode().IsRegular() {
		return "", errNoJob
	}
	for _, beside := range []string{jobfile.ResultsPath(name), jobfile.ApprovalsPath(name)} {
		if info, err := s.root.Lstat(beside); err == nil && !info.Mode().IsRegular() {
			return "", fmt.Errorf("%s is a link or no file: it is not read or written here", beside)
		}
	}
	if !s.holds(path.Dir(name)) {
		return "", errNoJob
	}
	return filepath.Join(s.dir, filepath.FromSlash(name)), nil
}

// holds is whether a folder stands in the folder that is served, wherever links lead.
func (s *Server) holds(name string) bool {
	whole, err := filepath.EvalSymlinks(filepath.Join(s.dir, filepath.FromSlash(name)))
	if err != nil {
		return false
	}
	dir, err := filepath.EvalSymlinks(s.dir)
	if err != nil {
		return false
	}
	rel, err := filepath.Rel(dir, whole)
	return err == nil && filepath.IsLocal(rel)
}

// errNoFolder is an address that leads to no folder that was made of a job.
var errNoFolder = errors.New("there is no such folder of a made job here")

// madePath is the path of a folder that make has written, by its name in an address. Neither it
// nor a file in it is a link.
func (s *Server) madePath(name string) (string, error) {
	if !fs.ValidPath(name) || strings.ContainsAny(name, "\\:\x00") {
		return "", errNoFolder
	}
	for part := range strings.SplitSeq(name, "/") {
		if strings.HasPrefix(part, ".") && part != "." {
			return "", errNoFolder
		}
	}
	if info, err := s.root.Lstat(path.Join(name, store.ListName)); err != nil || !info.Mode().IsRegular() || !s.holds(name) {
		return "", errNoFolder
	}
	dir, err := s.root.Open(filepath.FromSlash(name))
	if err != nil {
		return "", errNoFolder
	}
	defer dir.Close()
	entries, err := dir.ReadDir(-1)
	for _, e := range entries {
		if e.Type()&fs.ModeSymlink != 0 {
			return "", fmt.Errorf("%s holds a link: it is not read here", name)
		}
	}
	return filepath.Join(s.dir, filepath.FromSlash(name)), err
}

// inside reads a file of the folder; a link that leads out of it is refused by the system.
func (s *Server) inside(name string) ([]byte, error) {
	f, err := s.root.Open(filepath.FromSlash(name))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is no file", name)
	}
	return io.ReadAll(io.LimitReader(f, mostRead))
}

// beside reads a file that a job names, and says where in the folder it stands.
func (s *Server) beside(job, other string) (at string, data []byte, err error) {
	at = path.Join(path.Dir(job), filepath.ToSlash(other))
	if filepath.IsAbs(other) || !filepath.IsLocal(at) {
		return ".", nil, errors.New("it lies outside of the folder that is served")
	}
	data, err = s.inside(at)
	return at, data, err
}

func (s *Server) seen(name string) (x ahead.Seen) {
	if info, err := s.root.Stat(filepath.FromSlash(name)); err == nil {
		x = ahead.Seen{Size: info.Size(), When: info.ModTime()}
	}
	return x
}

// planned is a job as it was read and planned.
type planned struct {
	jobfile.Source
	job       *process.Job
	results   *process.Results
	approvals *approval.List
	plan      *plan.Plan
	first     func() *plan.Plan     // before anything was measured
	of        map[string]ahead.Seen // the files that it was made of
	sums      map[string]ahead.Sum  // and their bytes
}

// mostPlans is how many plans are kept.
const mostPlans = 64

// load reads and plans a job, unless that has been done and no file has changed since.
func (s *Server) load(name string) (*planned, error) {
	file, err := s.pathOf(name)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	kept := s.plans[name]
	s.mu.Unlock()
	if kept != nil && s.unchanged(kept) {
		return kept, nil
	}
	x, err := s.planOf(name, file)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.plans) >= mostPlans {
		clear(s.plans)
	}
	s.plans[name] = x
	return x, nil
}

// planOf reads and plans a job. What it was read from is known where it does not read, too.
func (s *Server) planOf(name, file string) (*planned, error) {
	x := &planned{of: map[string]ahead.Seen{}, sums: map[string]ahead.Sum{}}
	look := func(name string) { x.of[name] = s.seen(name) }
	look(name)
	results := jobfile.ResultsPath(name)
	look(results)
	look(jobfile.ApprovalsPath(name))
	data, err := s.inside(name)
	if err != nil {
		return x, err
	}
	x.sums[name] = sha256.Sum256(data)
	x.Source, err = jobfile.Sourced(name, data, func(other string) ([]byte, error) {
		at, data, err := s.beside(name, other)
		look(at)
		x.sums[at] = sha256.Sum256(data)
		return data, err
	})
	if err != nil {
		return x, err
	}
	x.job = x.Job
	if x.approvals, err = jobfile.Approvals(file); err != nil {
		return x, err
	}
	x.results = &process.Results{File: results}
	if text, err := store.ReadLocked(jobfile.ResultsPath(file), mostRead); err == nil {
		x.sums[results] = sha256.Sum256(text)
		if x.results, err = files.Results(results, text, x.job); err != nil {
			return x, err
		}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return x, err
	}
	x.plan = jobfile.MakeAfter(x.job, x.results)
	x.first = func() *plan.Plan { return x.plan }
	if len(x.results.Entries) > 0 {
		x.first = sync.OnceValue(func() *plan.Plan { return jobfile.MakeAfter(x.job, nil) })
	}
	return x, nil
}

func (s *Server) unchanged(x *planned) bool {
	for name, was := range x.of {
		if s.seen(name) != was {
			return false
		}
	}
	return true
}

// mark tells one state of a job's files from another: a screen that has another one asks anew.
func (s *Server) mark(name string) string {
	mark := ""
	for _, file := range []string{name, jobfile.ResultsPath(name), jobfile.ApprovalsPath(name)} {
		x := s.seen(file)
		mark += fmt.Sprintf("%d-%x-", x.Size, x.When.UnixNano())
	}
	return mark
}
