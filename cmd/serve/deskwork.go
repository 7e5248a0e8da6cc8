package serve

import (
	"encoding/json"
	"net/http"
	"time"

	"borewright/cmd/jobfile"
	"borewright/cmd/serve/desk"
)

// deskAnswer is what a form is told of its changes. Where the plan takes long the drawing comes
// first, and the rest behind it in an answer of its own.
type deskAnswer struct {
	Wrong   []string            `json:"wrong,omitempty"` // why nothing was worked out
	Of      string              `json:"of,omitempty"`    // the file that the form is made from
	Faults  map[string][]string `json:"faults"`          // at figures
	Rest    []string            `json:"rest,omitempty"`  // mistakes at none
	Form    string              `json:"form,omitempty"`  // where it was asked for
	Slides  string              `json:"slides,omitempty"`
	Picture string              `json:"picture,omitempty"` // the drawing; none: as before
	Moves   string              `json:"moves,omitempty"`   // figures old and new
	Plan    string              `json:"plan,omitempty"`    // and the passes; none: as before
	More    bool                `json:"more,omitempty"`    // they follow
	Changes string              `json:"changes,omitempty"` // what a save would change in the file
	Nothing bool                `json:"nothing,omitempty"` // there is nothing to save
	Others  *othersView         `json:"others,omitempty"`  // the file was changed by somebody meanwhile
	Saved   bool                `json:"saved,omitempty"`
}

// othersView is what somebody else has done to a file.
type othersView struct {
	Who  string `json:"who"`
	What string `json:"what"`
}

// soon is how long a plan is waited for before the drawing goes out alone.
const soon = 40 * time.Millisecond

// asked is a request of a form with the files that it is about.
type asked struct {
	*desk.Asked
	name      string
	base, now []byte // that the form was made from; as the folder has it
	text      []byte // base with the changes
	faults    []desk.Fault
}

// askedFor reads a request of a form. It is nil where that has been answered.
func (s *Server) askedFor(w http.ResponseWriter, r *http.Request) *asked {
	name := r.PathValue("job")
	if _, err := s.pathOf(name); err != nil {
		reply(w, http.StatusNotFound, deskAnswer{Wrong: []string{err.Error()}})
		return nil
	}
	a := &asked{Asked: askedOf(w, r), name: name}
	if a.Asked == nil {
		return nil
	}
	var err error
	if a.now, err = s.inside(name); err != nil {
		reply(w, http.StatusInternalServerError, deskAnswer{Wrong: []string{err.Error()}})
		return nil
	}
	if a.base = a.now; a.Of != "" && jobfile.SumOf(a.now) != a.Of {
		if a.base = s.desks.kept(a.Of); a.base == nil {
			reply(w, http.StatusConflict, deskAnswer{Others: s.others(a, nil)})
			return nil
		}
	}
	a.text, a.faults = desk.Changed(a.base, a.Changes)
	return a
}

// deskWorks works a form out again.
func (s *Server) deskWorks(w http.ResponseWriter, r *http.Request) {
	a := s.askedFor(w, r)
	if a == nil {
		return
	}
	select { // one that was asked before and is not wanted any more is not begun
	case s.desks.slots <- struct{}{}:
		defer func() { <-s.desks.slots }()
	case <-r.Context().Done():
		return
	}
	answer := deskAnswer{Of: s.desks.keep(a.base)}
	form, err := desk.FormOf(a.text, a.Shown)
	if err != nil {
		reply(w, http.StatusUnprocessableEntity, deskAnswer{Wrong: said(err)})
		return
	}
	job, results, more := s.read(a.name, a.text)
	answer.Faults, answer.Rest = placed(form, a.Changes, append(a.faults, more...))
	answer.Nothing = string(a.text) == string(a.base)
	if string(a.base) != string(a.now) {
		answer.Others = s.others(a, a.base)
	}
	if a.Form {
		f := &formView{Form: form, Faults: answer.Faults}
		answer.Slides, answer.Form = part("desk-slides", f), part("desk-form", f)
	}
	out := json.NewEncoder(w)
	w.Header().Set("Content-Type", "application/x-ndjson")
	if job == nil {
		out.Encode(answer)
		return
	}
	planned := make(chan deskWork, 1)
	was := s.stood(a)
	go func() {
		defer func() {
			if bad := recover(); bad != nil { // our own fault; the pages at the mill go on
				planned <- deskWork{Planned: true, Reasons: []string{"The planner stopped at a fault of its own: it plans nothing with these figures."}}
			}
		}()
		planned <- workBeside(was, desk.Planned(job, results))
	}()
	var d deskWork
	select {
	case d = <-planned:
	case <-time.After(soon):
		answer.Picture, answer.More = desk.Picture(desk.Sketched(job)), true
		out.Encode(answer)
		http.NewResponseController(w).Flush()
		d = <-planned
		answer.More, answer.Form, answer.Slides = false, "", ""
	}
	answer.Picture, answer.Moves, answer.Plan = string(d.Picture), part("desk-moves", d), part("desk-plan", d)
	out.Encode(answer)
}

// stood are the figures of the file that a form was made from.
func (s *Server) stood(a *asked) desk.Figures {
	sum := jobfile.SumOf(a.base)
	s.desks.mu.Lock()
	f, ok := s.desks.stood[sum]
	s.desks.mu.Unlock()
	if ok {
		return f
	}
	_, p, _ := s.worked(a.name, a.base)
	f = desk.FiguresOf(p)
	s.desks.mu.Lock()
	s.desks.stood[sum] = f
	s.desks.mu.Unlock()
	return f
}
