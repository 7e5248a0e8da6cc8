// Package ahead plans the jobs of a folder before anybody asks for them: one at a time, while no
// request is being answered. Of each it keeps in a few words what came of it; no plan is held and
// nothing is written.
package ahead

import (
	"context"
	"crypto/sha256"
	"fmt"
	"sync"
	"time"
)

// Bounds of the work.
const (
	most     = 20_000           // jobs of which something is kept
	longest  = 60 * time.Second // of planning one job
	patience = 2 * time.Second  // that it waits while requests are being answered
	pause    = 2 * time.Second  // between two looks at the folder, and
	rest     = 20               // so many times as long as such a look takes
)

// Sum is the SHA-256 of the bytes of a file.
type Sum = [sha256.Size]byte

// Seen is what the disk says of a file; zero: there is none.
type Seen struct {
	Size int64
	When time.Time
}

// File is a file that a job was read from, by its name in the folder.
type File struct {
	Name string
	Seen // before it was read
	Sum  Sum
}

// Found is what came of planning a job.
type Found struct {
	Says  string
	No    bool // not feasible, or it does not read
	Files []File
}

// Work is a folder as the worker needs it.
type Work struct {
	// Jobs are the files of the jobs to be planned, each once, and how many others there are of
	// which the folder says itself where they stand.
	Jobs func() (files []string, others int, err error)
	Plan func(file string) Found
	Seen func(file string) Seen
	Read func(file string) []byte // nil: there is none
}

// Worker plans the jobs of a folder.
type Worker struct {
	work                     Work
	most                     int
	longest, patience, pause time.Duration

	mu      sync.Mutex
	known   map[string]Found
	of      int // jobs of the folder that read
	others  int // that are not to be planned
	running bool
	looked  bool
	asking  int           // requests that are being answered
	quiet   chan struct{} // closed when there is none
	hanging chan struct{} // holds one for each job that is being planned
}

// New makes a worker; Run has it work.
func New(w Work) *Worker {
	quiet := make(chan struct{})
	close(quiet)
	return &Worker{work: w, most: most, longest: longest, patience: patience, pause: pause, known: map[string]Found{}, quiet: quiet, hanging: make(chan struct{}, 2)}
}

// Asked says that a request came; what it gives back, that it was answered.
func (w *Worker) Asked() (answered func()) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.asking++; w.asking == 1 {
		w.quiet = make(chan struct{})
	}
	return func() {
		w.mu.Lock()
		defer w.mu.Unlock()
		if w.asking--; w.asking == 0 {
			close(w.quiet)
		}
	}
}

// Of is what is known of a job.
func (w *Worker) Of(file string) (Found, bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	f, ok := w.known[file]
	return f, ok
}

// Progress is how many of the jobs are planned; going is whether there are some left, or it has
// not looked yet.
func (w *Worker) Progress() (done, of int, going bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	done = w.others + len(w.known)
	return done, w.of, w.running && (!w.looked || done < w.of)
}

// Run plans until ctx ends: what is not known yet, and what has changed since.
func (w *Worker) Run(ctx context.Context) {
	w.mu.Lock()
	w.running = true
	w.mu.Unlock()
	for ctx.Err() == nil {
		began := time.Now()
		todo := w.look()
		turn := max(w.pause, rest*time.Since(began))
		began = time.Now()
		for _, file := range todo {
			if !w.waited(ctx) {
				return
			}
			found := w.one(ctx, file)
			if ctx.Err() != nil {
				return
			}
			w.mu.Lock()
			w.known[file] = found
			w.mu.Unlock()
			if time.Since(began) > turn { // a job that changed meanwhile does not wait for all others
				break
			}
		}
		if _, _, going := w.Progress(); going {
			continue
		}
		select {
		case <-ctx.Done():
		case <-time.After(turn):
		}
	}
}

// look lists what is to be planned, and forgets what is no longer so.
func (w *Worker) look() (todo []string) {
	files, others, err := w.work.Jobs()
	if err != nil {
		return nil
	}
	files = files[:min(len(files), w.most)]
	now := make(map[string]Found, len(files))
	for _, file := range files {
		f, ok := w.Of(file)
		if ok && w.same(&f) {
			now[file] = f
		} else {
			todo = append(todo, file)
		}
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.known, w.of, w.others, w.looked = now, others+len(files), others, true
	return todo
}

// same is whether the files of a job are as they were. One of which the disk says something else
// is read: it may have the same bytes.
func (w *Worker) same(f *Found) bool {
	for i := range f.Files {
		of := &f.Files[i]
		now := w.work.Seen(of.Name)
		if now == of.Seen {
			continue
		}
		if sha256.Sum256(w.work.Read(of.Name)) != of.Sum {
			return false
		}
		of.Seen = now
	}
	return true
}

// waited lets requests go first, some time; it is false where the work ends.
func (w *Worker) waited(ctx context.Context) bool {
	w.mu.Lock()
	quiet := w.quiet
	w.mu.Unlock()
	limit := time.NewTimer(w.patience)
	defer limit.Stop()
	select {
	case <-quiet:
	case <-limit.C:
	case <-ctx.Done():
	}
	return ctx.Err() == nil
}

// one plans a job. One that takes too long is left behind, and the next one is begun; while two of
// them are left behind, no third is begun.
func (w *Worker) one(ctx context.Context, file string) Found {
	select {
	case w.hanging <- struct{}{}:
	case <-ctx.Done():
		return Found{}
	}
	failed := Found{No: true, Files: []File{{file, w.work.Seen(file), sha256.Sum256(w.work.Read(file))}}}
	came := make(chan Found, 1)
	go func() {
		defer func() {
			if bad := recover(); bad != nil { // our own fault; the other jobs go on
				f := failed
				f.Says = fmt.Sprintf("not planned: a fault of this program (%v)", bad)
				came <- f
			}
			<-w.hanging
		}()
		came <- w.work.Plan(file)
	}()
	limit := time.NewTimer(w.longest)
	defer limit.Stop()
	select {
	case f := <-came:
		return f
	case <-ctx.Done():
		return Found{}
	case <-limit.C:
		failed.Says = fmt.Sprintf("not planned: it took longer than %.0f s", w.longest.Seconds())
		return failed
	}
}
