package serve

import (
	"bytes"
	"encoding/json"
	"errors"
	"html/template"
	"io"
	"io/fs"
	"mime"
	"net/http"
	"sync"
	"time"

	"borewright/cmd/jobfile"
	"borewright/cmd/serve/desk"
	"borewright/cmd/store"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/source"
)

// desks is what the server knows of the forms that are open.
type desks struct {
	mu    sync.Mutex
	of    map[string][]byte       // files that forms were made from, by their sums
	stood map[string]desk.Figures // and what their plans came to
	saves map[string]saved        // the last save by a page, by the job's file
	write sync.Mutex              // one save at a time
	slots chan struct{}           // plans that are worked out for forms at once
}

// saved is a save by a page.
type saved struct {
	sum, by string
	when    time.Time
}

// Bounds of what is kept for forms, and of what is worked out for them at once.
const (
	mostForms = 64
	mostAtOne = 2
)

func newDesks() desks {
	return desks{of: map[string][]byte{}, stood: map[string]desk.Figures{}, saves: map[string]saved{}, slots: make(chan struct{}, mostAtOne)}
}

// keep keeps a file that a form is made from.
func (d *desks) keep(data []byte) (sum string) {
	sum = jobfile.SumOf(data)
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.of) >= mostForms {
		clear(d.of)
		clear(d.stood)
	}
	d.of[sum] = data
	return sum
}

func (d *desks) kept(sum string) []byte {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.of[sum]
}

// deskView is the page of a job at the desk.
type deskView struct {
	frame
	Number, Work string
	Of           string // the sum of the file that the form was made from
	Form         *formView
	deskWork
}

// formView is the form as a template has it.
type formView struct {
	*desk.Form
	Reads  bool
	Faults map[string][]string
	n      int
}

// N counts what needs an id of its own.
func (f *formView) N() int { f.n++; return f.n }

// Said are the mistakes at a figure.
func (f *formView) Said(path string) []string { return f.Faults[path] }

// deskWork is what the planner makes of a form.
type deskWork struct {
	Faults  []string // that stand at no figure of the form
	Picture template.HTML
	Planned bool
	Reasons []string
	Passes  []desk.Passes
	Moves   []desk.Move
}

// deskPage shows a job as a form, as the file has it.
func (s *Server) deskPage(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("job")
	if _, err := s.pathOf(name); err != nil {
		s.refuse(w, r, http.StatusNotFound, "There is no such job in this folder.")
		return
	}
	data, err := s.inside(name)
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, err.Error())
		return
	}
	form, err := desk.FormOf(data, nil)
	if err != nil {
		lines := []string{"This file cannot be shown as a form before its layout reads. Mend it with a text editor."}
		for _, f := range desk.FaultsOf("file", err) {
			lines = append(lines, f.Says)
		}
		s.refuse(w, r, http.StatusUnprocessableEntity, lines...)
		return
	}
	v := deskView{frame: s.frame(r, "At the desk: "+name), Of: s.desks.keep(data)}
	v.Job, v.Desk = name, true
	job, p, faults := s.worked(name, data)
	if job != nil {
		v.Number, v.Work = job.Number+" "+job.Revision, job.Title
		v.Title = "At the desk: " + v.Number
	}
	at, rest := placed(form, nil, faults)
	v.Form = &formView{Form: form, Reads: v.Reads, Faults: at}
	v.deskWork = workOf(p, p)
	v.Faults = rest
	s.desks.mu.Lock()
	s.desks.stood[v.Of] = desk.FiguresOf(p)
	s.desks.mu.Unlock()
	s.show(w, http.StatusOK, "desk.html", &v)
}

// worked reads and plans a file as it stands in the folder, or would.
func (s *Server) worked(name string, data []byte) (*process.Job, *plan.Plan, []desk.Fault) {
	job, results, faults := s.read(name, data)
	if job == nil {
		return nil, nil, faults
	}
	return job, desk.Planned(job, results), faults
}

// read reads a file with what it names and with its results. Results that do not fit it are
// told, and left out.
func (s *Server) read(name string, data []byte) (*process.Job, *process.Results, []desk.Fault) {
	job, faults := desk.Load(name, data, func(other string) ([]byte, error) {
		_, data, err := s.beside(name, other)
		return data, err
	})
	if job == nil {
		return nil, nil, faults
	}
	none := &process.Results{File: jobfile.ResultsPath(name)}
	file, err := s.pathOf(name)
	if err != nil {
		return job, none, append(faults, desk.Fault{Says: err.Error()})
	}
	text, err := store.ReadLocked(jobfile.ResultsPath(file), mostRead)
	if errors.Is(err, fs.ErrNotExist) {
		return job, none, faults
	} else if err == nil {
		var results *process.Results
		if results, err = files.Results(none.File, text, job); err == nil {
			return job, results, faults
		}
	}
	faults = append(faults, desk.Fault{Says: "What was measured does not fit this: planned as if nothing had been measured."})
	return job, none, append(faults, desk.FaultsOf("", err)...)
}

// workOf is what a page shows of a plan, beside the plan before it; nil where there is none.
func workOf(was, now *plan.Plan) deskWork {
	if now == nil {
		return deskWork{}
	}
	return workBeside(desk.FiguresOf(was), now)
}

func workBeside(was desk.Figures, now *plan.Plan) deskWork {
	d := deskWork{Planned: true, Picture: template.HTML(desk.Picture(now)), Moves: desk.Moves(was, desk.FiguresOf(now))}
	d.Passes, d.Reasons = desk.PassesOf(now)
	return d
}

// placed puts mistakes at the figures of a form: at the figure that they name, at the list that
// they name a value of, or at the first figure of the table; and gives the rest.
func placed(form *desk.Form, changes []desk.Change, faults []desk.Fault) (at map[string][]string, rest []string) {
	there := map[string]bool{}
	var order []string
	see := func(path string) {
		if !there[path] {
			there[path] = true
			order = append(order, path)
		}
	}
	for _, g := range form.Groups {
		for _, f := range g.Fields {
			see(f.Path)
		}
	}
	for _, c := range changes {
		see(c.Path)
	}
	at = map[string][]string{}
	for _, f := range faults {
		path := f.Path
		if i := lastNumber(path); !there[path] && i > 0 && there[path[:i]] {
			path = path[:i]
		}
		if !there[path] && path != "" {
			for _, p := range order {
				if len(p) > len(path) && p[:len(path)] == path && (p[len(path)] == '.' || p[len(path)] == '[') {
					f.Says = source.Counted(f.Path) + ": " + f.Says
					path = p
					break
				}
			}
		}
		switch {
		case there[path]:
			at[path] = append(at[path], f.Says)
		case path != "":
			rest = append(rest, source.Counted(path)+": "+f.Says)
		default:
			rest = append(rest, f.Says)
		}
	}
	return at, rest
}

// lastNumber is where the number of an element begins at the end of a path.
func lastNumber(path string) int {
	for i := len(path) - 1; i >= 0; i-- {
		if path[i] == '[' {
			return i
		}
		if path[i] == '.' {
			break
		}
	}
	return -1
}

// part makes a part of a page.
func part(name string, data any) string {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		return template.HTMLEscapeString("The page could not be made: " + err.Error())
	}
	return b.String()
}

// askedOf reads what a page at the desk sends, or says why not.
func askedOf(w http.ResponseWriter, r *http.Request) *desk.Asked {
	if kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind != "application/json" {
		reply(w, http.StatusUnsupportedMediaType, deskAnswer{Wrong: []string{"what is changed comes as JSON"}})
		return nil
	}
	data, err := io.ReadAll(r.Body)
	var large *http.MaxBytesError
	if errors.As(err, &large) {
		reply(w, http.StatusRequestEntityTooLarge, deskAnswer{Wrong: []string{"too much was changed at once"}})
		return nil
	} else if err != nil {
		return nil // the page went away
	}
	a, err := desk.AskedOf(data)
	if err != nil {
		reply(w, http.StatusBadRequest, deskAnswer{Wrong: []string{err.Error()}})
		return nil
	}
	return a
}

func reply(w http.ResponseWriter, code int, a any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(code)
	json.NewEncoder(w).Encode(a)
}
