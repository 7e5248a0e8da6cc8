package serve

import (
	"bytes"
	"fmt"
	"html/template"
	"mime"
	"net"
	"net/http"
	"net/url"
	"strings"

	"borewright/cmd/jobfile"
	"borewright/cmd/serve/links"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// sheetView is a sheet as a page: the record, or the cards.
type sheetView struct {
	frame
	Kind, Number, Work string
	PDF                string // address of the same as a PDF
	Coded              bool   // its last page is a square code
	Sheet              template.HTML
}

// kinds are the sheets that have a page, by the word in its address.
var kinds = map[string]string{"record": "As-built record", "card": "Card", "compare": "Revision report"}

// sheetPage shows a sheet, or hands its PDF out.
func (s *Server) sheetPage(w http.ResponseWriter, r *http.Request, name, kind string, x *planned, sheet *page.Sheet) {
	ask := url.Values{"as": {"pdf"}}
	coded := kind == "card" && r.URL.Query().Get("with") == "code"
	if coded {
		ask.Set("with", "code")
	}
	address := (&url.URL{Path: "/" + kind + "/" + name, RawQuery: ask.Encode()}).String()
	if r.URL.Query().Get("as") == "pdf" {
		var b bytes.Buffer
		as := jobfile.Choice{}
		if err := as.PDF(sheet, x.plan)(&b); err != nil {
			s.refuse(w, r, http.StatusInternalServerError, err.Error())
			return
		}
		file := strings.Map(func(c rune) rune {
			if c == ' ' || c == '/' || c == '\\' {
				return '-'
			}
			return c
		}, x.job.Number+"-"+x.job.Revision+"-"+kind+".pdf")
		w.Header().Set("Content-Type", "application/pdf")
		w.Header().Set("Content-Disposition", mime.FormatMediaType("inline", map[string]string{"filename": file}))
		w.Write(b.Bytes())
		return
	}
	v := sheetView{frame: s.frame(r, sheet.Job+", "+sheet.Kind), Kind: sheet.Kind, Number: sheet.Job, Work: sheet.Title, PDF: address, Coded: coded, Sheet: template.HTML(sheet.Inside())}
	v.Job, v.Paper, v.Running = name, true, kind
	s.show(w, http.StatusOK, "sheet.html", v)
}

// recordPage is the record that the command prints.
func (s *Server) recordPage(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("job")
	x, ok := s.loaded(w, r, name)
	if !ok {
		return
	}
	built, err := jobfile.RecordOf(x.Source, x.approvals, x.results)
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, said(s.withoutPaths(err))...)
		return
	}
	s.sheetPage(w, r, name, "record", x, built.Sheet())
}

// cardPage is the cards of what is left, as make writes them to card.pdf; with their code where
// that is asked for.
func (s *Server) cardPage(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("job")
	x, ok := s.loaded(w, r, name)
	if !ok {
		return
	}
	sheet, err := jobfile.Card(x.plan)
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, said(s.withoutPaths(err))...)
		return
	}
	if len(sheet.Sections) == 0 {
		s.refuse(w, r, http.StatusNotFound, "There is no card: no visit is left to be cut.")
		return
	}
	if r.URL.Query().Get("with") == "code" {
		at, _ := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
		link, err := s.secrets.ToRead(at, name)
		var code page.Section
		if err == nil {
			code, err = links.Page(link)
		}
		if err != nil {
			s.refuse(w, r, http.StatusNotFound, err.Error())
			return
		}
		sheet.Sections = append(sheet.Sections, code)
	}
	s.sheetPage(w, r, name, "card", x, sheet)
}

// running is the running head and foot of a sheet on paper, a style sheet.
func (s *Server) running(w http.ResponseWriter, r *http.Request) {
	x, err := s.load(r.PathValue("job"))
	kind := kinds[r.PathValue("kind")]
	if err != nil || kind == "" {
		s.refuse(w, r, http.StatusNotFound, "There is no such page.")
		return
	}
	w.Header().Set("Content-Type", "text/css; charset=utf-8")
	fmt.Fprint(w, (&page.Sheet{Kind: kind, Job: head.Of(x.plan).Name()}).PrintStyle())
}
