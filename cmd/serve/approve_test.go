package serve

import (
	"io"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"borewright/cmd/jobfile"
	"borewright/process/approval"
)

var hidden = regexp.MustCompile(`name="(id|job|plan|with)" value="([^"]*)"`)

// formOf is the form of a page as a browser sends it.
func formOf(t testing.TB, page, by, do string) url.Values {
	t.Helper()
	form := url.Values{"by": {by}, "do": {do}}
	for _, m := range hidden.FindAllStringSubmatch(page, -1) {
		form.Set(m[1], m[2])
	}
	if len(form) != 6 {
		t.Fatalf("the form holds %v:\n%s", form, page)
	}
	return form
}

// send posts a form and follows where it leads.
func send(t testing.TB, c *http.Client, at string, form url.Values, headers ...string) (int, string) {
	t.Helper()
	r := posted(t, c, at, ofForm, []byte(form.Encode()), headers...)
	text, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return r.StatusCode, string(text)
}

func approvalsOf(t testing.TB, dir string) []approval.Approval {
	t.Helper()
	l, err := jobfile.Approvals(filepath.Join(dir, "SW-58-B.toml"))
	if err != nil {
		t.Fatal(err)
	}
	return l.All
}

// A reviewer approves by name what the page shows: kept once, beside the job, and shown on the
// record and on the page at the mill until the job changes.
func TestApproveOnThePage(t *testing.T) {
	dir := shop(t)
	revise(t, dir)
	_, web := open(t, dir, Options{Clock: func() time.Time { return time.Date(2026, 3, 2, 14, 20, 0, 0, time.UTC) }}, nil)
	c := client(t)
	page, at := web.URL+"/compare/SW-58-B.toml?with=SW-58.toml", web.URL+"/approve/SW-58-B.toml"
	_, text, _ := get(t, c, page)
	form := formOf(t, text, "R. Dale", "approve")
	for range 2 { // pressed twice
		if code, text := send(t, c, at, form); code != http.StatusOK || !strings.Contains(text, "Kept: approved by R. Dale") || !strings.Contains(text, "revision B by R. Dale, 2026-03-02 14:20") {
			t.Fatalf("%d\n%s", code, text)
		}
	}
	all := approvalsOf(t, dir)
	old, err := os.ReadFile(filepath.Join(dir, "SW-58.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if len(all) != 1 || all[0].Against != "SW-58.toml" || all[0].AgainstSum != jobfile.SumOf(old) || len(all[0].Programs) != 1 || all[0].Plan != form.Get("plan") {
		t.Fatalf("%+v", all)
	}
	if _, text, _ := get(t, c, web.URL+"/record/SW-58-B.toml"); !strings.Contains(text, "revision B by R. Dale") || strings.Contains(text, "NOT APPROVED") {
		t.Error("the record does not say who approved it")
	}
	// What is measured leaves it standing; an edit does not.
	if _, text, _ := get(t, c, web.URL+"/mill/SW-58-B.toml"); strings.Contains(text, "lapsed") {
		t.Error("the page at the mill says that it has lapsed")
	}
	job := filepath.Join(dir, "SW-58-B.toml")
	data, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	_, text, _ = get(t, c, page)
	seen := formOf(t, text, "S. Moor", "approve")
	if err := os.WriteFile(job, append(data, "# after it was looked at\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, text := send(t, c, at, seen); code != http.StatusConflict || !strings.Contains(text, "was changed while this page was open") {
		t.Errorf("approved unseen: %d\n%s", code, text)
	}
	for _, path := range []string{"/mill/SW-58-B.toml", "/record/SW-58-B.toml", "/compare/SW-58-B.toml", "/compare/SW-58-B.toml?with=SW-58.toml"} {
		if _, text, _ := get(t, c, web.URL+path); !strings.Contains(text, "the job file was changed") {
			t.Errorf("%s does not say that the approval has lapsed", path)
		}
	}
	// A name is needed, and a form of this page; nothing that cannot be cut is approved.
	_, text, _ = get(t, c, page)
	for why, edit := range map[string]func(f url.Values){
		"no name":      func(f url.Values) { f.Set("by", " ") },
		"a long name":  func(f url.Values) { f.Set("by", strings.Repeat("x", mostName+1)) },
		"a bad sign":   func(f url.Values) { f.Set("remark", "a\u202eb") },
		"no id":        func(f url.Values) { f.Del("id") },
		"another plan": func(f url.Values) { f.Set("plan", "0000-0000") },
		"outside":      func(f url.Values) { f.Set("with", "../x.toml") },
	} {
		f := formOf(t, text, "R. Dale", "approve")
		edit(f)
		if code, _ := send(t, c, at, f); code < 400 {
			t.Errorf("%s: %d", why, code)
		}
	}
	if code, _ := send(t, c, at, formOf(t, text, "R. Dale", "approve"), "Origin", "http://elsewhere.example"); code != http.StatusForbidden {
		t.Errorf("from another page: %d", code)
	}
	if n := len(approvalsOf(t, dir)); n != 1 {
		t.Errorf("%d approvals", n)
	}
	if code, _ := send(t, c, at, formOf(t, text, "R. Dale", "approve")); code != http.StatusOK {
		t.Error("not approved again")
	}
	_, text, _ = get(t, c, page)
	if code, text := send(t, c, at, formOf(t, text, "S. Moor", "withdraw")); code != http.StatusOK || !strings.Contains(text, "withdrawn by S. Moor") {
		t.Errorf("%d: not withdrawn\n%s", code, text)
	}
	if _, text, _ := get(t, c, web.URL+"/"); !strings.Contains(text, "approval lapsed") {
		t.Error("the list does not say that the approval has lapsed")
	}
}

// Who may only read approves nothing, and sees no form to do so.
func TestReadersApproveNothing(t *testing.T) {
	dir := shop(t)
	revise(t, dir)
	s, web := open(t, dir, Options{LAN: true}, nil)
	reader, writer := client(t), client(t)
	get(t, reader, web.URL+"/in/"+s.secrets.Read)
	get(t, writer, web.URL+"/in/"+s.secrets.Write)
	if _, text, _ := get(t, reader, web.URL+"/compare/SW-58-B.toml"); strings.Contains(text, "<form id=\"approve\"") {
		t.Error("a form is shown to who may only read")
	}
	_, text, _ := get(t, writer, web.URL+"/compare/SW-58-B.toml")
	if code, _ := send(t, reader, web.URL+"/approve/SW-58-B.toml", formOf(t, text, "R. Dale", "approve")); code != http.StatusForbidden || len(approvalsOf(t, dir)) != 0 {
		t.Errorf("%d: who may only read approves", code)
	}
}
