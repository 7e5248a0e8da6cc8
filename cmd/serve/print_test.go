package serve

import (
	"bytes"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"borewright/cmd/folder"
	"borewright/cmd/jobfile"
)

// textOf is what poppler reads in a PDF, its words in order of the alphabet, and how many pages
// there are.
func textOf(t *testing.T, pdf []byte) (words []string, pages int) {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Fatal("no pdftotext is installed (package poppler-utils)")
	}
	path := filepath.Join(t.TempDir(), "a.pdf")
	if err := os.WriteFile(path, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages = bytes.Count(out, []byte("\f"))
	words = strings.Fields(string(out))
	slices.Sort(words)
	return words, pages
}

// without are the words of a that b has not, each as often.
func without(a, b []string) (out []string) {
	left := slices.Clone(b)
	for _, w := range a {
		if i := slices.Index(left, w); i >= 0 {
			left = slices.Delete(left, i, i+1)
		} else {
			out = append(out, w)
		}
	}
	return out
}

// TestCardPrintedFromThePage prints the cards from the page, in the dark look too, and holds
// them to the PDF that make writes: the same words on as many pages.
func TestCardPrintedFromThePage(t *testing.T) {
	ctx := browse(t)
	dir := shop(t)
	_, web := open(t, dir, Options{}, nil)
	s := newScreen(t, ctx, web)
	for _, job := range []string{"SW-58.toml", "winch/WG-204.toml"} {
		paper := chromedp.PaperA4
		if job != "SW-58.toml" {
			paper = chromedp.PaperLetter
		}
		_, text, _ := get(t, client(t), web.URL+"/card/"+job+"?as=pdf")
		want, pages := textOf(t, []byte(text))
		for _, look := range []string{"light", "dark"} {
			s.do(chromedp.Navigate(web.URL+"/look/"+look), chromedp.Navigate(web.URL+"/card/"+job))
			pdf, err := chromedp.Run(s.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper), chromedp.PDFPreferCSSPageSize()))
			if err != nil {
				t.Fatal(err)
			}
			got, n := textOf(t, pdf)
			if n != pages || len(want) < 100 {
				t.Errorf("%s, %s: %d pages, card.pdf has %d and %d words", job, look, n, pages, len(want))
			}
			if more, less := without(got, want), without(want, got); len(more)+len(less) > 0 {
				t.Errorf("%s, %s: printed and not in card.pdf %q; in card.pdf and not printed %q", job, look, more, less)
			}
		}
	}
}

// The PDF of the page is the file that make writes, byte for byte; a job of which nothing is left
// to be cut has none.
func TestCardIsThatOfMake(t *testing.T) {
	dir := shop(t)
	out := filepath.Join(t.TempDir(), "out")
	job := folder.Job{Path: filepath.Join(dir, "SW-58.toml")}
	if a := (folder.Maker{Out: out}).Make(&job); a.Code != 0 {
		t.Fatal(a.Says)
	}
	want, err := os.ReadFile(filepath.Join(out, "SW-58-A", "card.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	_, web := open(t, dir, Options{}, nil)
	c := client(t)
	code, got, h := get(t, c, web.URL+"/card/SW-58.toml?as=pdf")

	if code != http.StatusOK || h.Get("Content-Type") != "application/pdf" || !bytes.Equal([]byte(got), want) {
		t.Errorf("%d, %s: %d bytes, make has written %d", code, h, len(got), len(want))
	}
	p, err := jobfile.PlanOf(job.Path)
	if err != nil {
		t.Fatal(err)
	}
	_, text, _ := get(t, c, web.URL+"/card/SW-58.toml")
	for _, x := range p.Bores[0].Visits[0].Passes {
		if !strings.Contains(text, p.Job.Units.Format(x.Setting.Length())) {
			t.Errorf("the page does not show the setting of pass %d", x.N)
		}
	}
	if code, css, h := get(t, c, web.URL+"/running/card/SW-58.toml"); code != http.StatusOK || !strings.HasPrefix(h.Get("Content-Type"), "text/css") || !strings.Contains(css, "@page") {
		t.Errorf("%d %s", code, css)
	}
	for _, path := range []string{"/running/else/SW-58.toml", "/running/card/none.toml", "/card/none.toml"} {
		if code, _, _ := get(t, c, web.URL+path); code != http.StatusNotFound {
			t.Errorf("%s: %d", path, code)
		}
	}
}
