package sheets

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/process/plan"
	"borewright/process/slow"
	"borewright/sheets/draw"
	"borewright/sheets/page"
)

// faces are the sheets that the paper faces are tried on.
func faces() map[string]*page.Sheet {
	return map[string]*page.Sheet{
		"winch":   Build(winch()),
		"pump":    Build(pump(), WithPrograms("P-17-2-front.ngc", "P-17-2-rear.ngc")),
		"stopped": Build(stopped()),
		"crowded": Build(crowded(), WithPrograms("cross-head.ngc")),
	}
}

func htmlOf(t testing.TB, s *page.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.WriteHTML(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func pdfOf(t testing.TB, s *page.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := s.WritePDF(&b, page.A4); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestHTMLGolden(t *testing.T) {
	for name, s := range faces() {
		golden(t, name+".html", []byte(htmlOf(t, s)))
	}
}

// The same sheet gives the same bytes, however often.
func TestFacesSameBytes(t *testing.T) {
	a, b := Build(winch()), Build(winch())
	if htmlOf(t, a) != htmlOf(t, b) {
		t.Error("two HTML files of one sheet differ")
	}
	if !bytes.Equal(pdfOf(t, a), pdfOf(t, b)) {
		t.Error("two PDF files of one sheet differ")
	}
}

// Text of a job that looks like markup, style or script stays text.
func TestMarkupIsText(t *testing.T) {
	p := winch()
	evil := `</style></title><script>alert(1)</script><img src=x onerror=alert(2)> " ; } @page { } '& \`
	p.Job.Title, p.Job.Number, p.Job.Stations[0].Name, p.Job.Bar.Name = evil, evil, evil, evil
	p.Job.Notes = []string{evil}
	s := htmlOf(t, Build(p))
	for _, bad := range []string{"<script>alert", "<img", "onerror=alert(2)>"} {
		if strings.Contains(s, bad) {
			t.Errorf("%q stands in the file as markup", bad)
		}
	}
	if n := strings.Count(s, "</style>"); n != 1 {
		t.Errorf("%d ends of the style sheet", n)
	}
	if !strings.Contains(s, "&lt;script&gt;alert(1)&lt;/script&gt;") {
		t.Error("the text is not shown")
	}
}

// The accessibility that a file can show by itself: language, one main, a
// heading to each section, scope on every head of a table, a name and a
// description for every drawing, no reference to anything outside.
// Source: WCAG 2.2, 1.1.1, 1.3.1, 2.4.1, 3.1.1 (from memory).
func TestHTMLBasics(t *testing.T) {
	for name, s := range faces() {
		h := htmlOf(t, s)
		for _, once := range []string{`<html lang="en">`, "<main>", "<h1>", "<header class"} {
			if n := strings.Count(h, once); n != 1 {
				t.Errorf("%s: %d of %s", name, n, once)
			}
		}
		if a, b := strings.Count(h, "<section"), strings.Count(h, "<h2 id="); a != b || a != len(s.Sections) {
			t.Errorf("%s: %d sections, %d headings", name, a, b)
		}
		if a, b := strings.Count(h, "<th"), strings.Count(h, `<th scope="col"`)+strings.Count(h, "<thead>"); a != b {
			t.Errorf("%s: %d heads of tables, %d with scope", name, a, b)
		}
		if a, b, c := strings.Count(h, "<svg "), strings.Count(h, "<desc id="), strings.Count(h, `role="img"`); a != b || a != c || a == 0 {
			t.Errorf("%s: %d drawings, %d described, %d named", name, a, b, c)
		}
		body := h[strings.Index(h, "<body>"):]
		if m := regexp.MustCompile(`(?i)\b(href=|src=|url\(|@import)`).FindString(strings.ReplaceAll(h, "http://www.w3.org/2000/svg", "")); m != "" {
			t.Errorf("%s: refers to something outside: %s", name, m)
		}
		wellFormed(t, name, body[:strings.Index(body, "</body>")+7])
	}
}

// wellFormed reads the body as XML, so that no element is left open.
func wellFormed(t *testing.T, name, s string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(strings.ReplaceAll(s, "<br>", "<br/>")))
	d.Entity = xml.HTMLEntity
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			t.Errorf("%s: %v", name, err)
			return
		}
	}
}

// Whatever a job says, both faces print, and every page of a plan that is not
// feasible says so.
func TestFacesTakeAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Build(drawPlan(t))
		var h, p bytes.Buffer
		if err := s.WriteHTML(&h); err != nil {
			t.Fatal(err)
		}
		if rapid.IntRange(0, 9).Draw(t, "pdf?") > 0 { // fonts take their time
			return
		}
		if err := s.WritePDF(&p, page.A4); err != nil {
			t.Fatal(err)
		}
	})
}

// poppler finds one of its programs or skips the test where that is allowed.
func poppler(t *testing.T, prog string) string {
	t.Helper()
	path, err := exec.LookPath(prog)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not installed (package poppler-utils)", prog)
		}
		t.Skipf("%s is not installed (package poppler-utils): the PDF is not looked at from outside", prog)
	}
	return path
}

func ask(t *testing.T, data []byte, prog string, args ...string) string {
	t.Helper()
	path := t.TempDir() + "/sheet.pdf"
	if err := os.WriteFile(path, data, 0o666); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = path
		}
	}
	out, err := exec.Command(poppler(t, prog), args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", prog, err, out)
	}
	return string(out)
}

// The PDF as poppler sees it: fonts inside, text that can be taken out, the
// pages it should have, each with the job, its number and the stamp.
func TestPDFFromOutside(t *testing.T) {
	for name, s := range faces() {
		data := pdfOf(t, s)
		fonts := strings.Split(strings.TrimSpace(ask(t, data, "pdffonts", "FILE")), "\n")
		if len(fonts) < 4 {
			t.Errorf("%s: fonts\n%s", name, strings.Join(fonts, "\n"))
		}
		for _, l := range fonts[2:] {
			if f := strings.Fields(l); len(f) < 6 || f[len(f)-5] != "yes" || f[len(f)-3] != "yes" {
				t.Errorf("%s: not embedded, or without its letters: %s", name, l)
			}
		}
		text := ask(t, data, "pdftotext", "-layout", "FILE", "-")
		golden(t, name+".pdf.txt", []byte(text))
		each := strings.Split(strings.TrimSuffix(text, "\f"), "\f")
		if info := ask(t, data, "pdfinfo", "FILE"); !strings.Contains(info, "Pages:           "+strconv.Itoa(len(each))+"\n") {
			t.Errorf("%s: %d pages of text, but\n%s", name, len(each), info)
		}
		job := s.Job[:min(len(s.Job), 20)]
		for i, page := range each {
			foot := "page " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(each))
			if !strings.Contains(page, foot) || strings.Count(page, job) < 2 {
				t.Errorf("%s: page %d lacks %q or the job", name, i+1, foot)
			}
			if s.Stamp != "" && !strings.Contains(page, s.Stamp) {
				t.Errorf("%s: page %d does not say %s", name, i+1, s.Stamp)
			}
		}
		// Every item to be ticked off is in it.
		flat := strings.Join(strings.Fields(text), "")
		for _, sec := range s.Sections {
			for _, b := range sec.Blocks {
				if c, ok := b.(*page.Cautions); ok {
					for _, item := range c.Items {
						if w := strings.Join(strings.Fields(item), ""); !strings.Contains(strings.ReplaceAll(flat, "!", ""), strings.ReplaceAll(w, "!", "")) {
							t.Errorf("%s: a caution is lost: %s", name, item)
						}
					}
				}
			}
		}
	}
}

// Every kind of block comes out in every face, told by a word that only it has.
func TestEveryBlockEverywhere(t *testing.T) {
	drawing := draw.New(60, 20, "zzdrawing", "zzdesc")
	drawing.Text(draw.Pt{X: 1, Y: 5}, draw.Plain, draw.Start, "zzindrawing")
	s := &page.Sheet{Kind: "zzkind", Job: "zzjob", Title: "zztitle", Stamp: "zzstamp"}
	s.Add("zzsection", page.Head("zzheading"), &page.Paragraph{Text: "zzparagraph"}, &page.Paragraph{Text: "zzstrong", Strong: true},
		&page.KeyValues{Items: []page.KeyValue{page.KV("zzkey", "zzvalue"), page.KV("", "zzmore")}},
		&page.Table{Caption: "zzcaption", Columns: []page.Column{{Head: []string{"zzhead"}}, {Head: []string{"zznumber"}, Align: page.Decimal, Key: true}, {Head: []string{"zzblank"}, Blank: true}},
			Rows: []page.Row{{Cells: []string{"zzcell", "1.5", ""}, Other: []string{"", "zzother", ""}}, {Across: "zzacross", Stop: true}}, Notes: []page.Note{{Mark: "zzm)", Text: "zznote"}}},
		page.Ticks([]string{"zzcheck"}), &page.Blanks{Items: []page.Blank{page.Fill("zzlabel", "zzunit")}}, page.Mind([]string{"zzcaution"}),
		&page.Figures{Items: []page.Figure{{Scene: drawing, Caption: "zzfigure", Words: []string{"zzwords"}}}})
	words := map[string]bool{}
	s.EachText(func(x *string) {
		for _, w := range strings.Fields(*x) {
			if w = strings.Trim(w, "=)"); strings.HasPrefix(w, "zz") {
				words[w] = true
			}
		}
	})
	var text bytes.Buffer
	if err := s.WriteText(&text); err != nil {
		t.Fatal(err)
	}
	faces := map[string]string{"text": strings.ToLower(text.String()), "HTML": htmlOf(t, s)}
	if _, err := exec.LookPath("pdftotext"); err == nil || os.Getenv("CI") != "" {
		faces["PDF"] = ask(t, pdfOf(t, s), "pdftotext", "-layout", "FILE", "-")
	}
	for face, out := range faces {
		for w := range words {
			switch {
			case face == "text" && (w == "zzother" || w == "zzdrawing" || w == "zzdesc"): // small print and drawings are for paper
			case face == "PDF" && (w == "zzdrawing" || w == "zzdesc"): // they name a drawing for those who cannot see it: HTML has the way
			case !strings.Contains(out, w):
				t.Errorf("%s: %s is lost", face, w)
			}
		}
	}
}

// However far down the page a section begins, a heading, the caption of a table,
// its head and its first row stand on one page, and on the next page its head
// stands over the rows that follow.
func TestNothingPartsFromItsHead(t *testing.T) {
	step := 60 / slow.Rounds(t, "heights of a table's head on the page", 60, 3)
	for _, rows := range []int{1, 4, 60} {
		for n := 0; n < 60; n += step {
			s := &page.Sheet{Kind: "Sheet", Job: "J-1", Title: "heads"}
			var above, cells = &page.Checklist{}, []page.Row{{Cells: []string{"zzrow", "1.5", ""}}}
			for range n {
				above.Items = append(above.Items, "a line above")
			}
			for len(cells) < rows {
				cells = append(cells, page.Row{Cells: []string{"more", "2.5", ""}})
			}
			s.Add("first", above, page.Head("zzheading"), &page.Table{Caption: "zzcaption", Rows: cells,
				Columns: []page.Column{{Head: []string{"zzhead", "of two lines"}}, {Head: []string{"size"}, Align: page.Decimal}, {Head: []string{"found"}, Blank: rows > 1}}})
			for _, page := range strings.Split(ask(t, pdfOf(t, s), "pdftotext", "-layout", "FILE", "-"), "\f") {
				if strings.Contains(page, "zzheading") != strings.Contains(page, "zzrow") || strings.Contains(page, "zzcaption") != strings.Contains(page, "zzrow") ||
					(strings.Contains(page, "zzrow") || strings.Contains(page, "more")) && !strings.Contains(page, "zzhead") {
					t.Fatalf("%d rows under %d lines: the table parts from its head:\n%s", rows, n, page)
				}
			}
		}
	}
}

// However far down the page a form begins, the rows that are filled in stand on the page of the
// texts that say what they are of.
func TestNoFormPartsFromItsStop(t *testing.T) {
	step := 60 / slow.Rounds(t, "heights of a form on the page", 60, 4)
	for n := 0; n < 60; n += step {
		s := &page.Sheet{Kind: "Sheet", Job: "J-1", Title: "forms"}
		above := &page.Checklist{}
		for range n {
			above.Items = append(above.Items, "a line above")
		}
		form := &page.Table{Columns: []page.Column{{Head: []string{"where"}}, {Head: []string{"found"}, Blank: true}}}
		for _, stop := range strings.Split("123456789", "") {
			form.Rows = append(form.Rows, page.Row{Across: "zzstop" + stop, Stop: true, Boxes: []string{"by"}}, page.Row{Across: "zzbore" + stop})
			for _, end := range []string{"near", "middle", "far"} {
				form.Rows = append(form.Rows, page.Row{Cells: []string{"zz" + end + stop, ""}})
			}
		}
		s.Add("first", above, form)
		for _, page := range strings.Split(ask(t, pdfOf(t, s), "pdftotext", "-layout", "FILE", "-"), "\f") {
			for _, stop := range strings.Split("123456789", "") {
				for _, row := range []string{"zzbore", "zznear", "zzmiddle", "zzfar"} {
					if strings.Contains(page, "zzstop"+stop) != strings.Contains(page, row+stop) {
						t.Fatalf("under %d lines: %s%s parts from its stop:\n%s", n, row, stop, page)
					}
				}
			}
		}
	}
}

// A page of each face for a plan with nothing in it.
func TestFacesOfNothing(t *testing.T) {
	for _, p := range []*plan.Plan{nil, {}} {
		s := Build(p)
		htmlOf(t, s)
		pdfOf(t, s)
	}
}

func BenchmarkHTML(b *testing.B) {
	s := Build(winch())
	for b.Loop() {
		htmlOf(b, s)
	}
}

func BenchmarkPDF(b *testing.B) {
	s := Build(winch())
	for b.Loop() {
		pdfOf(b, s)
	}
}
