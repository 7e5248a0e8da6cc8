package serve

import (
	"errors"
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"borewright/cmd/folder"
	"borewright/cmd/jobfile"
	"borewright/process/source"
	"borewright/sheets/report"
)

// compareView is the page of two revisions.
type compareView struct {
	frame
	Number, Revision, Work string
	Old                    string   // how the other side is called; "" where none is chosen yet
	Why                    []string // why it cannot be compared
	Report                 template.HTML
	Round                  string // the same turned round; "" where the other side is a folder
	Find                   string
	Others                 []other
	Approval               approvalView
}

// other is something that a job can be compared with.
type other struct{ Name, Says, Title, Address string }

// comparePage lays two revisions side by side, or asks which.
func (s *Server) comparePage(w http.ResponseWriter, r *http.Request) {
	name, with := r.PathValue("job"), r.URL.Query().Get("with")
	x, ok := s.loaded(w, r, name)
	if !ok {
		return
	}
	v := compareView{frame: s.frame(r, "Compare "+x.job.Number+" "+x.job.Revision), Number: x.job.Number, Revision: x.job.Revision, Work: x.job.Title,
		Find: source.Clip(r.URL.Query().Get("find"), 100)}
	v.Job, v.Paper, v.Running = name, true, "compare"
	jobs, err := s.jobs()
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, err.Error())
		return
	}
	v.Others = others(jobs, name, x.job.Number, v.Find)
	code := http.StatusOK
	if v.Approval, err = approvalOf(x, with, r.URL.Query().Get("kept")); err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, said(s.withoutPaths(err))...)
		return
	}
	if with != "" {
		v.Old = with
		sheet, err := s.compared(name, x, with)
		if err != nil {
			code, v.Why = http.StatusUnprocessableEntity, said(s.withoutPaths(err))
		}
		v.Report = sheet
		if strings.HasSuffix(with, ".toml") {
			v.Round = compareAddress(with, name)
		}
	}
	s.show(w, code, "compare.html", v)
}

// withoutPaths takes the paths of this machine out of an error.
func (s *Server) withoutPaths(err error) error {
	return errors.New(strings.ReplaceAll(err.Error(), s.dir+"/", ""))
}

// loaded is a job, read and planned, or a page that says why not.
func (s *Server) loaded(w http.ResponseWriter, r *http.Request, name string) (*planned, bool) {
	x, err := s.load(name)
	if errors.Is(err, errNoJob) {
		s.refuse(w, r, http.StatusNotFound, "There is no such job in this folder.")
	} else if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, said(err)...)
	}
	return x, err == nil
}

// compared is the report of a job against another one, or against a folder that was made.
func (s *Server) compared(name string, x *planned, with string) (template.HTML, error) {
	new, err := jobfile.RevisionOf(name, x.plan)
	if err != nil {
		return "", err
	}
	var old report.Revision
	if strings.HasSuffix(with, ".toml") {
		y, err := s.load(with)
		if err != nil {
			return "", err
		}
		old, err = jobfile.RevisionOf(with, y.plan)
		if err != nil {
			return "", err
		}
	} else {
		dir, err := s.madePath(with)
		if err != nil {
			return "", err
		}
		if old, err = jobfile.FolderRevision(with, dir, false); err != nil {
			return "", err
		}
	}
	jobfile.Draw(&old, &new)
	if err := jobfile.Alike(&old, &new); err != nil {
		return "", err
	}
	sheet, _ := report.CompareSheet(old, new)
	return template.HTML(sheet.Inside()), nil
}

func compareAddress(name, with string) string {
	u := url.URL{Path: "/compare/" + name, RawQuery: url.Values{"with": {with}}.Encode()}
	return u.String()
}

// mostFound is how many jobs are offered that were found by typing.
const mostFound = 50

// others are what a job can be compared with: what has its number, and the jobs that were found.
func others(jobs []folder.Job, name, number, find string) (out []other) {
	add := func(j *folder.Job) {
		out = append(out, other{j.Number + " " + j.Revision, j.Says(), j.Title, compareAddress(name, j.File)})
	}
	words := strings.Fields(find)
	for i := range jobs {
		if j := &jobs[i]; j.Number == number && j.File != name && j.State != folder.NotRead {
			add(j)
		}
	}
	if at := slices.IndexFunc(jobs, func(j folder.Job) bool { return j.File == name }); at >= 0 {
		for _, m := range jobs[at].Made {
			out = append(out, other{number + " " + m.Revision, "as made", m.Dir, compareAddress(name, m.Dir)})
		}
	}
	most := len(out) + mostFound
	for i := range jobs {
		if j := &jobs[i]; len(words) > 0 && len(out) < most && j.Number != number && j.State != folder.NotRead && j.Fits(words) {
			add(j)
		}
	}
	return out
}
