package serve

import (
	"bytes"
	"html"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"borewright/cmd/folder"
	"borewright/cmd/jobfile"
	"borewright/process/slow"
)

// revise writes another revision of the slip winch beside it, its bar longer by 10 mm.
func revise(t testing.TB, dir string) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "SW-58.toml"))
	if err != nil {
		t.Fatal(err)
	}
	for from, to := range map[string]string{`revision = "A"`: `revision = "B"`, "length = 190 }": "length = 200 }"} {
		if n := strings.Count(string(data), from); n != 1 {
			t.Fatalf("%q stands there %d times", from, n)
		}
		data = bytes.Replace(data, []byte(from), []byte(to), 1)
	}
	if err := os.WriteFile(filepath.Join(dir, "SW-58-B.toml"), data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// makeInto writes the folder of a job as make does.
func makeInto(t testing.TB, job, dir string) {
	t.Helper()
	jobs := []folder.Job{{Path: job}}
	a := folder.Maker{Out: filepath.Dir(dir), As: jobfile.Choice{NoPDF: true}}.Make(&jobs[0])
	if a.Code != 0 {
		t.Fatal(a.Says)
	}
}

// paperOf is what stands on the sheet in a page, without its marks.
func paperOf(t testing.TB, page string) string {
	t.Helper()
	_, rest, ok := strings.Cut(page, `<div class="paper">`)
	if !ok {
		t.Fatalf("there is no sheet in the page:\n%s", page)
	}
	rest, _, _ = strings.Cut(rest, "</main>")
	rest = regexp.MustCompile(`(?s)<svg.*?</svg>`).ReplaceAllString(rest, " ")
	return html.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(rest, " "))
}

// The page compares a job with another revision in the folder and with what was made of one:
// the few lines first, then the setups over each other, each program before and after, and the
// lines of the programs folded away. What it says is what the command says.
func TestComparePage(t *testing.T) {
	dir := shop(t)
	revise(t, dir)
	makeInto(t, filepath.Join(dir, "SW-58.toml"), filepath.Join(dir, "out", "SW-58-A"))
	_, web := open(t, dir, Options{}, nil)
	c := client(t)
	code, text, _ := get(t, c, web.URL+"/compare/SW-58-B.toml")
	for _, want := range []string{`href="/compare/SW-58-B.toml?with=SW-58.toml"`, `href="/compare/SW-58-B.toml?with=out%2FSW-58-A"`} {
		if code != http.StatusOK || !strings.Contains(text, want) {
			t.Errorf("%d: it does not offer %s:\n%s", code, want, text)
		}
	}
	if _, found, _ := get(t, c, web.URL+"/compare/SW-58-B.toml?find=lock"); !strings.Contains(found, "with=winch%2FWG-204.toml") {
		t.Error("another job is not found by typing")
	}
	for _, with := range []string{"SW-58.toml", "out/SW-58-A"} {
		code, text, _ := get(t, c, web.URL+"/compare/SW-58-B.toml?with="+url.QueryEscape(with))
		if code != http.StatusOK || strings.Contains(text, "style=") {
			t.Fatalf("%s: %d\n%s", with, code, text)
		}
		at := 0
		for _, want := range []string{"Edited", "What it does to the plan", "Programs and sheet", "SW-58-B-pinion-seat-1.nc", "prove it and load it anew",
			"old and new", "Old, SW-58-A-pinion-seat-1.nc", "New, SW-58-B-pinion-seat-1.nc", "<details>", ">Programs<"} {
			i := strings.Index(text[at:], want)
			if i < 0 {
				t.Fatalf("%s: %q does not stand where it should", with, want)
			}
			at += i
		}
		if job := strings.HasSuffix(with, ".toml"); job != strings.Contains(text, "The new setup in full lines, the old one in dashes") {
			t.Errorf("%s: the setups laid over each other: %v", with, !job)
		}
	}
	// Against itself nothing differs; what does not read, or is not there, is told.
	if _, text, _ := get(t, c, web.URL+"/compare/SW-58.toml?with=SW-58.toml"); !strings.Contains(text, "No difference") {
		t.Error("a job differs from itself")
	}
	if err := os.WriteFile(filepath.Join(dir, "out", "SW-58-A", "SW-58-A-pinion-seat-1.nc"), []byte("%\nM30\n%\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for with, want := range map[string]string{"torn.toml": "torn.toml:2", "none.toml": "no such job", "out": "no such folder", "out/SW-58-A": "not as it was written"} {
		code, text, _ := get(t, c, web.URL+"/compare/SW-58-B.toml?with="+url.QueryEscape(with))
		if code != http.StatusUnprocessableEntity || !strings.Contains(text, want) || strings.Contains(text, dir) {
			t.Errorf("%s: %d, it does not say %q:\n%s", with, code, want, text)
		}
	}
}

// No folder outside is compared with, whatever is asked for and wherever links lead.
func TestNoMadeFolderOutside(t *testing.T) {
	dir, outside := shop(t), t.TempDir()
	job := filepath.Join(dir, "SW-58.toml")
	makeInto(t, job, filepath.Join(outside, "SW-58-A"))
	for _, in := range []string{"in", ".in"} {
		if err := os.CopyFS(filepath.Join(dir, in), os.DirFS(outside)); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(filepath.Join(outside, "SW-58-A"), filepath.Join(dir, "linked")); err != nil {
		t.Skip(err)
	}
	program := filepath.Join(dir, "in", "SW-58-A", "SW-58-A-pinion-seat-1.nc")
	if err := os.Rename(program, filepath.Join(outside, "a.nc")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join(outside, "a.nc"), program); err != nil {
		t.Fatal(err)
	}
	_, web := open(t, dir, Options{}, nil)
	for _, with := range []string{"../" + filepath.Base(outside) + "/SW-58-A", filepath.Join(outside, "SW-58-A"), "linked", "in/SW-58-A", "in/../../x", ".in/SW-58-A", "in\\SW-58-A", "in/SW-58-A\x00"} {
		code, text, _ := get(t, client(t), web.URL+"/compare/SW-58.toml?with="+url.QueryEscape(with))
		if code == http.StatusOK || strings.Contains(text, `class="paper"`) {
			t.Errorf("%q is compared with: %d", with, code)
		}
	}
}

// The record as a page says what the command prints, word for word, of every example.
func TestRecordPage(t *testing.T) {
	dir, jobs := allExamples(t)
	_, web := open(t, dir, Options{}, nil)
	for _, j := range jobs[:slow.Rounds(t, "examples", len(jobs), 1)] {
		r, err := jobfile.ReadRecord(j.Path)
		if err != nil {
			t.Fatal(err)
		}
		sheet := r.Sheet()
		var printed strings.Builder
		if err := sheet.WriteText(&printed); err != nil {
			t.Fatal(err)
		}
		code, text, _ := get(t, client(t), web.URL+"/record/"+j.File)
		if code != http.StatusOK || !strings.Contains(text, html.EscapeString(sheet.Title)) || !strings.Contains(text, sheet.Job) {
			t.Fatalf("%s: %d\n%s", j.File, code, text)
		}
		there := wordsOf(paperOf(t, text) + " " + sheet.Job + " " + sheet.Kind + " " + sheet.Title)
		for _, w := range wordsOf(printed.String()) {
			if !slices.Contains(there, w) {
				t.Errorf("%s: the page does not say %q", j.File, w)
			}
		}
	}
}

// wordsOf are the words and figures of a text in small letters.
func wordsOf(s string) (out []string) {
	for _, w := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" \n\t_=-|*:;,()[]!", r) }) {
		if !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}
