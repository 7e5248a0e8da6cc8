package serve

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"os"
	"strings"

	"borewright/cmd/ask"
	"borewright/cmd/jobfile"
	"borewright/cmd/store"
)

// lineView is a line that a file had, or has.
type lineView struct {
	Mark, Text string
	Old        bool
}

func linesOf(was, now []byte) (all []lineView) {
	for line := range strings.Lines(ask.Changes(was, now)) {
		line = strings.TrimRight(line, "\n")
		all = append(all, lineView{line[:1], line[min(2, len(line)):], line[0] == '-'})
	}
	return all
}

// others says who has changed the file since a form was made from it, and what: nil is a file
// that is not known any more.
func (s *Server) others(a *asked, was []byte) *othersView {
	o := &othersView{Who: "by somebody, beside this page"}
	s.desks.mu.Lock()
	last, ok := s.desks.saves[a.name]
	s.desks.mu.Unlock()
	if ok && last.sum == jobfile.SumOf(a.now) {
		o.Who = fmt.Sprintf("by %s, at %s", last.by, last.when.Format("2006-01-02 15:04"))
	} else if x := s.seen(a.name); !x.When.IsZero() {
		o.Who += fmt.Sprintf(", at %s", x.When.Format("2006-01-02 15:04"))
	}
	if was != nil {
		o.What = part("desk-lines", linesOf(was, a.now))
	}
	return o
}

// deskChanges says what a save would change.
func (s *Server) deskChanges(w http.ResponseWriter, r *http.Request) {
	a := s.askedFor(w, r)
	if a == nil {
		return
	}
	answer := deskAnswer{Of: a.Of, Nothing: bytes.Equal(a.base, a.text), Wrong: s.unfit(a)}
	if !bytes.Equal(a.base, a.now) {
		answer.Others = s.others(a, a.base)
	}
	answer.Changes = part("desk-lines", linesOf(a.base, a.text))
	reply(w, http.StatusOK, answer)
}

// unfit is why a file with its changes is not to be saved: something did not go in, or it does
// not load and the one before does.
func (s *Server) unfit(a *asked) (why []string) {
	job, _, faults := s.read(a.name, a.text)
	if len(a.faults) == 0 && job != nil {
		return nil
	}
	for _, f := range append(a.faults, faults...) {
		says := f.Says
		if f.Path != "" {
			says = fmt.Sprintf("%s: %s", f.Path, says)
		}
		why = append(why, says)
	}
	if len(a.faults) > 0 {
		return why
	}
	if before, _, _ := s.read(a.name, a.base); before == nil {
		return nil // it is no worse than it was
	}
	return why
}

// deskSave writes a form into its file, where nobody else has changed it meanwhile.
func (s *Server) deskSave(w http.ResponseWriter, r *http.Request) {
	a := s.askedFor(w, r)
	if a == nil {
		return
	}
	if why := s.unfit(a); why != nil {
		reply(w, http.StatusUnprocessableEntity, deskAnswer{Wrong: why})
		return
	}
	file, err := s.pathOf(a.name)
	if info, e := os.Lstat(file); err == nil && e == nil && !info.Mode().IsRegular() {
		err = errors.New("this file is a link: open the file that it leads to, and change that")
	}
	if err != nil {
		reply(w, http.StatusUnprocessableEntity, deskAnswer{Wrong: said(s.withoutPaths(err))})
		return
	}
	s.desks.write.Lock()
	defer s.desks.write.Unlock()
	switch err := store.Swap(file, a.base, a.text); {
	case errors.Is(err, store.ErrOther):
		if a.now, err = s.inside(a.name); err != nil {
			reply(w, http.StatusConflict, deskAnswer{Wrong: []string{"The file is not there any more."}})
			return
		}
		reply(w, http.StatusConflict, deskAnswer{Others: s.others(a, a.base)})
	case err != nil:
		reply(w, http.StatusInternalServerError, deskAnswer{Wrong: said(s.withoutPaths(err))})
	default:
		s.listAnew()
		s.desks.mu.Lock()
		by := a.By
		if by == "" {
			by = "somebody at the desk"
		}
		s.desks.saves[a.name] = saved{jobfile.SumOf(a.text), by, s.now()}
		s.desks.mu.Unlock()
		reply(w, http.StatusOK, deskAnswer{Saved: true, Of: jobfile.SumOf(a.text)})
	}
}
