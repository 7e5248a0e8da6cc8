// Package folder is the jobs of a folder: which there are, where each stands, and planning or
// making all of them on all cores. What is known of a job without planning it is known from its
// file, its results file and the list of the folder that was made of it.
package folder

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/process/approval"
	"borewright/process/cores"
	"borewright/process/files"
	"borewright/process/measured"
	"borewright/process/plan"
	"borewright/process/source"
)

// State is where a job stands.
type State string

// The states, the one that asks for a person first.
const (
	NotRead    State = "does not read"
	Out        State = "out"
	Held       State = "held"
	Cut        State = "cut"
	Changed    State = "changed"
	Planned    State = "planned"
	NotPlanned State = "not planned"
	Finished   State = "finished"
)

// Job is one job of a folder.
type Job struct {
	Path     string // of its file
	File     string // the same from the folder on, with slashes
	Number   string
	Revision string
	Title    string
	State    State
	Station  string   // Cut, Held, Out: the bore that says so; "" where several do
	Pass     int      // that was measured last there; 0: none
	Passes   int      // the last that is planned there; 0: not known
	Bores    int      // 0: not read
	Done     int      // bores that are finished
	Problem  string   // NotRead: why, with its place
	Made     []Made   // folders made of this number, of any revision
	Torn     []string // what is to be said of entries beside it that were not written whole
	Approved string   // by whom, as far as the files tell; "" nobody, or it has lapsed
	Lapsed   bool     // it was approved, and is not as it is now
	Comes    string   // what planning it comes to, where somebody has planned it; "" by Find
	ComesNo  bool     // and that is no plan to be cut
}

// Made is a folder that make has written.
type Made struct{ Dir, Revision string } // Dir from the folder on, with slashes

// Says is where a job stands, in words.
func (j *Job) Says() string {
	pass := fmt.Sprintf("pass %d", j.Pass)
	if j.Passes > 0 && j.Passes >= j.Pass {
		pass += fmt.Sprintf(" of %d", j.Passes)
	}
	switch {
	case j.State == Cut && j.Pass == 0:
		return fmt.Sprintf("%d of %d bores finished", j.Done, j.Bores)
	case j.State == Cut:
		return pass + " cut"
	case j.State == Held && j.Pass > 0:
		return "held after " + pass
	case j.State == Out && j.Pass > 0:
		return "out after " + pass
	case j.State == NotPlanned && j.Comes != "":
		return "not made"
	case j.State == Changed:
		return "changed since planned"
	}
	return string(j.State)
}

// Approval is whether somebody approved it, in words; "" where nobody ever did.
func (j *Job) Approval() string {
	switch {
	case j.Approved != "":
		return "approved by " + j.Approved
	case j.Lapsed:
		return "approval lapsed"
	}
	return ""
}

// Options are how a folder is looked through.
type Options struct {
	Whole  bool                                                // check every figure of every job
	Beside func(path string) func(name string) ([]byte, error) // reads the files that a job names; nil: wherever they stand
}

// Find lists the jobs of a folder and of the folders in it, by their files' names. Nothing is
// planned: a job file is read to its end for its syntax; one with results, or where all are to be
// checked, is read and checked in every figure.
func Find(dir string, o Options) ([]Job, error) {
	if info, err := os.Stat(dir); err != nil {
		return nil, fmt.Errorf("%s: there is no such folder", dir)
	} else if !info.IsDir() {
		return nil, fmt.Errorf("%s is no folder; give the folder that holds the jobs", dir)
	}
	if o.Beside == nil {
		o.Beside = jobfile.Beside
	}
	w := &walk{dir: dir, Options: o, made: map[string][]store.List{}, folders: map[string][]Made{}, beside: map[string]bool{}}
	if err := w.files(); err != nil {
		return nil, err
	}
	cores.Each(len(w.lists), runtime.GOMAXPROCS(0), w.readList)
	for _, f := range w.folders {
		slices.SortFunc(f, func(a, b Made) int { return cmp.Compare(a.Dir, b.Dir) })
	}
	jobs := make([]*Job, len(w.toml))
	cores.Each(len(w.toml), runtime.GOMAXPROCS(0), func(i int) { jobs[i] = w.look(w.toml[i]) })
	var out []Job
	for _, j := range jobs {
		if j != nil {
			out = append(out, *j)
		}
	}
	slices.SortStableFunc(out, func(a, b Job) int { return cmp.Compare(a.File, b.File) })
	return out, nil
}

// walk is one look through a folder.
type walk struct {
	Options
	dir     string
	toml    []string        // that may be jobs
	lists   []string        // of made folders
	beside  map[string]bool // results files and files of approvals
	mu      sync.Mutex
	made    map[string][]store.List // by number and revision
	folders map[string][]Made       // by number
}

// files finds the files. Folders that make has written hold no jobs; what begins with a point
// is not looked into. A link is not followed: in the folder it would show a job twice, and what is
// outside of it is no job of the folder.
func (w *walk) files() error {
	type found struct{ lists, toml, beside []string }
	slots := make(chan struct{}, 2*runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	var look func(dir string, first bool)
	keep := func(f found) {
		w.mu.Lock()
		defer w.mu.Unlock()
		w.lists, w.toml = append(w.lists, f.lists...), append(w.toml, f.toml...)
		for _, b := range f.beside {
			w.beside[b] = true
		}
	}
	var broken error
	look = func(dir string, first bool) {
		defer all.Done()
		slots <- struct{}{}
		entries, err := os.ReadDir(dir)
		<-slots
		if err != nil {
			if first {
				w.mu.Lock()
				broken = err
				w.mu.Unlock()
			}
			return
		}
		var f found
		for _, e := range entries {
			name := e.Name()
			switch path := filepath.Join(dir, name); {
			case strings.HasPrefix(name, "."):
			case e.Type()&fs.ModeSymlink != 0:
			case e.IsDir():
				all.Add(1)
				go look(path, false)
			case name == store.ListName:
				f.lists = append(f.lists, path)
			case strings.HasSuffix(name, ".results.toml"), strings.HasSuffix(name, ".approved.toml"):
				f.beside = append(f.beside, path)
			case strings.HasSuffix(name, ".toml"):
				f.toml = append(f.toml, path)
			}
		}
		if len(f.lists) > 0 {
			f.toml = nil
		}
		keep(f)
	}
	all.Add(1)
	look(w.dir, true)
	all.Wait()
	return broken
}

func (w *walk) readList(i int) {
	l, ok, err := store.Of(filepath.Dir(w.lists[i]))
	if err != nil || !ok || !l.Whole {
		return
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	key := l.Number + "\x00" + l.Revision
	w.made[key] = append(w.made[key], l)
	if rel, err := filepath.Rel(w.dir, filepath.Dir(w.lists[i])); err == nil {
		w.folders[l.Number] = append(w.folders[l.Number], Made{filepath.ToSlash(rel), l.Revision})
	}
}

// look reads one file; nil where it is no job. What does not read is taken for one where it
// names a job's number or bore, or where no more can be read of it than may stand above them.
func (w *walk) look(path string) *Job {
	j := &Job{Path: path, State: NotPlanned}
	if rel, err := filepath.Rel(w.dir, path); err == nil {
		j.File = filepath.ToSlash(rel)
	}
	data, err := jobfile.Read(path)
	if err != nil {
		return j.notRead(err)
	}
	h, prob := source.HeadOf(path, data)
	of := func(keys ...string) func(name string) bool {
		return func(name string) bool { return slices.Contains(keys, name) }
	}
	above := of("units", "title", "customer", "notes")
	if !slices.ContainsFunc(h.Names, of("bore", "station", "revision", "number")) &&
		(prob == nil || slices.ContainsFunc(h.Names, func(name string) bool { return !above(name) })) {
		return nil
	}
	j.Number, j.Revision, j.Title = h.Texts["number"], h.Texts["revision"], h.Texts["title"]
	if prob != nil {
		return j.notRead(prob)
	}
	j.Made = w.folders[j.Number]
	lists := w.made[j.Number+"\x00"+j.Revision]
	if len(lists) > 0 {
		j.State = Changed
		sum := jobfile.SumOf(data)
		for _, l := range lists {
			if l.Of == "" || l.Of == sum {
				j.State = Planned
			}
		}
	}
	if w.beside[jobfile.ApprovalsPath(path)] || w.beside[jobfile.ResultsPath(path)] {
		j.Torn = jobfile.TornBeside(path)
	}
	if w.beside[jobfile.ApprovalsPath(path)] {
		if err := j.approvals(data, w.Beside(path)); err != nil {
			return j.notRead(err)
		}
	}
	if has := w.beside[jobfile.ResultsPath(path)]; has || w.Whole {
		return j.whole(path, data, w.Beside(path), lists)
	}
	return j
}

// approvals looks whether an approval holds, by the files alone: whether the plan comes out as
// it did is known where the job is planned.
func (j *Job) approvals(data []byte, beside func(string) ([]byte, error)) error {
	list, err := jobfile.Approvals(j.Path)
	if err != nil {
		return err
	}
	now := approval.Work{Number: j.Number, Revision: j.Revision, Job: jobfile.SumOf(data)}
	for _, a := range list.All {
		for _, f := range a.Files {
			if text, err := beside(f.Name); err == nil {
				now.Files = append(now.Files, approval.File{Name: f.Name, Sum: jobfile.SumOf(text)})
			}
		}
	}
	all := list.Now(now)
	if a := approval.Held(all); a != nil {
		j.Approved = a.By
	}
	j.Lapsed = len(all) > 0 && j.Approved == ""
	return nil
}

// whole reads a job in every figure, and what was measured on it.
func (j *Job) whole(path string, data []byte, beside func(string) ([]byte, error), lists []store.List) *Job {
	job, err := plan.Tooled(files.Job(path, data, beside))
	if err != nil {
		return j.notRead(err)
	}
	j.Bores = len(job.Bores)
	results, err := jobfile.Results(path, job)
	if err != nil {
		return j.notRead(err)
	}
	at := measured.StandOf(job, results)
	j.Station, j.Pass, j.Done = at.Station, at.Pass, at.Done
	for _, l := range lists {
		j.Passes = max(j.Passes, l.Passes[at.Station])
	}
	switch at.Work {
	case measured.InWork:
		j.State = Cut
	case measured.Held:
		j.State = Held
	case measured.Finished:
		j.State = Finished
	case measured.Out:
		j.State = Out
	}
	return j
}

// notRead says why a job does not read: the first of its mistakes, and how many more there are.
func (j *Job) notRead(err error) *Job {
	j.State, j.Problem = NotRead, err.Error()
	var all source.Errors
	if errors.As(err, &all) && len(all) > 0 {
		j.Problem = all[0].Error()
		if n := len(all) - 1; n > 0 {
			j.Problem += fmt.Sprintf(" (and %d more)", n)
		}
	}
	if errors.Is(err, fs.ErrPermission) {
		j.Problem = j.File + ": it may not be read; ask whoever owns it"
	}
	return j
}

// Fits is whether every word stands in what is known of a job, large letters or small.
func (j *Job) Fits(words []string) bool {
	all := strings.ToLower(strings.Join([]string{j.Number, j.Revision, j.Title, j.File, j.Says(), j.Station, j.Approval(), j.Comes}, " "))
	for _, w := range words {
		if !strings.Contains(all, strings.ToLower(w)) {
			return false
		}
	}
	return true
}
