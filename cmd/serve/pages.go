package serve

import (
	"bytes"
	"embed"
	"errors"
	"html/template"
	"net/http"
	"net/url"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"borewright/cmd/folder"
	"borewright/process/source"
	"borewright/sheets/page"
)

//go:embed own
var own embed.FS

// pages are the templates; own holds them beside style and scripts.
var pages = template.Must(template.New("").Funcs(template.FuncMap{"keys": keypad, "hours": hours}).ParseFS(own, "own/*.html"))

// keypad are the keys of a size, in the order of a telephone.
func keypad() []string { return strings.Split("1 2 3 4 5 6 7 8 9 . 0 ←", " ") }

// hours are the clock positions at which a witness cut is looked at.
func hours() []string { return strings.Split("12 1:30 3 4:30 6 7:30 9 10:30", " ") }

// frame is what every page has.
type frame struct {
	Title   string
	Dark    bool
	Here    string // the address, for the way back from the choice of look
	Reads   bool   // this device may read only
	LAN     bool   // the server is open to the shop's network
	Job     string // the file of the job that the page is of; "" for others
	Paper   bool   // it has the style of a sheet
	Desk    bool   // and that of a form
	Running string // of a page that holds a sheet: its kind, for the head and foot on paper
}

func (s *Server) frame(r *http.Request, title string) frame {
	c, err := r.Cookie(lookName)
	return frame{Title: title, Dark: err == nil && c.Value == "dark", Here: r.URL.RequestURI(), Reads: s.rightOf(r) != writes, LAN: s.lan}
}

// show makes a page whole before the first byte of it goes out.
func (s *Server) show(w http.ResponseWriter, code int, name string, data any) {
	var b bytes.Buffer
	if err := pages.ExecuteTemplate(&b, name, data); err != nil {
		http.Error(w, "The page could not be made: "+err.Error(), http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(code)
	w.Write(b.Bytes())
}

// refuse says why there is no page.
func (s *Server) refuse(w http.ResponseWriter, r *http.Request, code int, why ...string) {
	s.show(w, code, "refused.html", struct {
		frame
		Why []string
	}{s.frame(r, "Not here"), why})
}

// ownFile is one of the style sheets and scripts.
func (s *Server) ownFile(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("file")
	kind := map[string]string{"mill.css": "text/css; charset=utf-8", "icon.svg": "image/svg+xml", "jobs.js": "text/javascript; charset=utf-8", "mill.js": "text/javascript; charset=utf-8", "approve.js": "text/javascript; charset=utf-8", "desk.js": "text/javascript; charset=utf-8", "desk.css": "text/css; charset=utf-8"}[name]
	data, err := own.ReadFile("own/" + name)
	if name == "paper.css" {
		kind, data, err = "text/css; charset=utf-8", []byte(page.InsideStyle()), nil
	}
	if kind == "" || err != nil {
		s.refuse(w, r, http.StatusNotFound, "There is no such page.")
		return
	}
	w.Header().Set("Content-Type", kind)
	w.Write(data)
}

// setLook keeps how a device wants the page, and goes back.
func (s *Server) setLook(w http.ResponseWriter, r *http.Request) {
	look := "light"
	if r.PathValue("look") == "dark" {
		look = "dark"
	}
	http.SetCookie(w, &http.Cookie{Name: lookName, Value: look, Path: "/", HttpOnly: true, SameSite: http.SameSiteLaxMode, MaxAge: 400 * 24 * 3600})
	back := r.URL.Query().Get("back")
	if u, err := url.Parse(back); err != nil || u.Host != "" || u.Scheme != "" || !strings.HasPrefix(back, "/") || strings.HasPrefix(back, "//") || strings.ContainsAny(back, "\\\r\n") {
		back = "/"
	}
	http.Redirect(w, r, back, http.StatusSeeOther)
}

// mostListed is how many jobs a page lists; more are found by typing.
const mostListed = 200

// jobsPage lists the jobs of the folder.
func (s *Server) jobsPage(w http.ResponseWriter, r *http.Request) {
	jobs, err := s.jobs()
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, err.Error())
		return
	}
	typed := source.Clip(r.URL.Query().Get("find"), 100)
	words := strings.Fields(typed)
	jobs = slices.Clone(jobs)
	s.foretold(jobs)
	jobs = slices.DeleteFunc(jobs, func(j folder.Job) bool { return !j.Fits(words) })
	all := len(jobs)
	v := struct {
		frame
		Find  string
		All   string
		Going string // how far the planning is, while it goes on
		More  int
		Jobs  []folder.Job
	}{frame: s.frame(r, "Jobs"), Find: typed, All: source.CountOf(all, "job"), Going: s.going(), Jobs: jobs[:min(all, mostListed)]}
	v.More = all - len(v.Jobs)
	s.show(w, http.StatusOK, "jobs.html", v)
}

// freshFor is how long a list of the jobs holds before the folder is looked through again, at the
// least: a folder that takes long holds four times as long.
const freshFor = 2 * time.Second

// listAnew has the folder looked through again: something in it was written here.
func (s *Server) listAnew() {
	s.listMu.Lock()
	defer s.listMu.Unlock()
	s.listed = time.Time{}
}

// jobs are those of the folder, as of freshFor ago.
func (s *Server) jobs() ([]folder.Job, error) {
	s.listMu.Lock()
	defer s.listMu.Unlock()
	if began := time.Now(); began.Sub(s.listed) > max(freshFor, 4*s.looking) {
		s.list, s.listErr = folder.Find(s.dir, folder.Options{Beside: func(file string) func(string) ([]byte, error) {
			rel, err := filepath.Rel(s.dir, file)
			return func(other string) ([]byte, error) {
				if err != nil {
					return nil, err
				}
				_, data, err := s.beside(filepath.ToSlash(rel), other)
				return data, err
			}
		}})
		for i := range s.list { // a page tells no paths of this machine
			s.list[i].Problem = strings.ReplaceAll(s.list[i].Problem, s.dir+string(filepath.Separator), "")
		}
		s.listed = time.Now()
		s.looking = s.listed.Sub(began)
	}
	return s.list, s.listErr
}

// said is an error for the page: its mistakes, a line each.
func said(err error) []string {
	var all source.Errors
	if errors.As(err, &all) {
		var lines []string
		for _, p := range all {
			lines = append(lines, p.Error())
		}
		return lines
	}
	return strings.Split(err.Error(), "\n")
}
