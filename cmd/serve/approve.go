package serve

import (
	"errors"
	"net/http"
	"net/url"
	"path"
	"strings"

	"borewright/cmd/jobfile"
	"borewright/process/approval"
	"borewright/process/source"
	"borewright/sheets/report"
)

// The longest name and remark of an approval, in characters.
const (
	mostName   = 60
	mostRemark = 200
)

// approvalView is who approved a job, and the form to do so. The form carries the id of the entry
// that it makes, so that what is sent twice is entered once, and the sums of what the page shows,
// so that nothing is approved that was not seen.
type approvalView struct {
	Kept      string // what was kept just now
	All       []approvalLine
	Stands    bool
	ID        string
	Job, Plan string // check sums
	With      string // what it is compared with
	Why       string // why there is nothing to approve
}

type approvalLine struct {
	Says   string
	Lapsed bool
}

// approvalOf is the part of a page; kept is the id of an entry that was made just now.
func approvalOf(x *planned, with, kept string) (v approvalView, err error) {
	all, err := x.Approved(x.approvals, x.first())
	if err != nil {
		return v, err
	}
	for i := range all {
		a := &all[i]
		v.All = append(v.All, approvalLine{report.Approved(a), !a.Stands()})
		v.Stands = v.Stands || a.Stands()
	}
	for _, a := range x.approvals.All {
		if a.ID != "" && a.ID == kept {
			v.Kept = "Kept: approved by " + a.By + "."
			if a.Withdrawn {
				v.Kept = "Kept: withdrawn by " + a.By + "."
			}
		}
	}
	if why := jobfile.Approvable(x.first()); why != nil {
		v.Why = why.Error()
	}
	work, err := x.Work(x.first())
	v.ID, v.Job, v.Plan, v.With = jobfile.NewID(), work.Job, work.Plan, with
	return v, err
}

// errOtherNow is an approval of what was changed while it was looked at.
var errOtherNow = errors.New("the job was changed while this page was open: look at it again, then approve it")

// approve keeps an approval, and goes back to the page that it came from.
func (s *Server) approve(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("job")
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "What came does not read.")
		return
	}
	with := r.PostForm.Get("with")
	err := s.keepApproval(name, with, r.PostForm)
	switch {
	case errors.Is(err, errNoJob):
		s.refuse(w, r, http.StatusNotFound, "There is no such job in this folder.")
		return
	case errors.Is(err, errOtherNow):
		s.refuse(w, r, http.StatusConflict, "Not kept: "+err.Error()+".")
		return
	case err != nil:
		s.refuse(w, r, http.StatusUnprocessableEntity, said(errors.New("Not kept: "+s.withoutPaths(err).Error()))...)
		return
	}
	s.listAnew()
	back := url.URL{Path: path.Join("/compare", name), Fragment: "approval"}
	q := url.Values{"kept": {r.PostForm.Get("id")}}
	if with != "" {
		q.Set("with", with)
	}
	back.RawQuery = q.Encode()
	http.Redirect(w, r, back.String(), http.StatusSeeOther)
}

// keepApproval enters what a form says. It comes back without an error when the entry is on the
// disk, also where it has been there since an earlier try.
func (s *Server) keepApproval(name, with string, form url.Values) error {
	file, err := s.pathOf(name)
	if err != nil {
		return err
	}
	x, err := s.load(name)
	if err != nil {
		return err
	}
	a := approval.Approval{ID: form.Get("id"), By: strings.TrimSpace(form.Get("by")), Remark: strings.TrimSpace(form.Get("remark")), Withdrawn: form.Get("do") == "withdraw"}
	if len(a.ID) != idLong || strings.Trim(a.ID, "0123456789abcdef") != "" {
		return errors.New("the form has no id of its own")
	}
	if a.By == "" {
		return errors.New("say who approves")
	}
	for text, most := range map[string]int{a.By: mostName, a.Remark: mostRemark} {
		if what, allowed := source.CheckText(text, most); text != "" && what != "" {
			return errors.New(what + "; " + allowed)
		}
	}
	if a.Work, err = x.Work(x.first()); err != nil {
		return err
	}
	if form.Get("job") != a.Job || form.Get("plan") != a.Plan {
		return errOtherNow
	}
	if !a.Withdrawn {
		if err := jobfile.Approvable(x.first()); err != nil {
			return err
		}
	}
	if with != "" {
		if a.AgainstSum, err = s.sumOfOther(with); err != nil {
			return err
		}
		a.Against = with
	}
	a.When = s.now().Format("2006-01-02 15:04")
	if err = jobfile.Approve(file, &a); errors.Is(err, jobfile.ErrThere) {
		return nil
	}
	return err
}

// sumOfOther is the check sum of what a job was compared with: of a job file, or of the plan of
// a folder.
func (s *Server) sumOfOther(with string) (string, error) {
	if strings.HasSuffix(with, ".toml") {
		y, err := s.load(with)
		if err != nil {
			return "", err
		}
		return y.Sum, nil
	}
	if _, err := s.madePath(with); err != nil {
		return "", err
	}
	data, err := s.inside(path.Join(with, "plan.json"))
	return jobfile.SumOf(data), err
}
