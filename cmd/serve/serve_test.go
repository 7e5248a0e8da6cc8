package serve

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"borewright/cmd/jobfile"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/record"

	"borewright/cmd/serve/links"
)

// shop is a folder with two jobs, a machine of its own and a file that does not read.
func shop(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	put := func(name string, data []byte) {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for name, from := range map[string]string{"winch/WG-204.toml": "lock-winch", "SW-58.toml": "slip-winch"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", from, "job.toml"))
		if err != nil {
			t.Fatal(err)
		}
		put(name, data)
	}
	put("torn.toml", []byte("number = \"T-9\"\nstation = [\n"))
	return dir
}

// open serves a folder to a client that has been let in.
func open(t testing.TB, dir string, o Options, wrap func(http.Handler) http.Handler) (*Server, *httptest.Server) {
	t.Helper()
	s, err := New(dir, o)
	if err != nil {
		t.Fatal(err)
	}
	h := s.Handler()
	if wrap != nil {
		h = wrap(h)
	}
	web := httptest.NewServer(h)
	t.Cleanup(func() { web.Close(); s.Close() })
	return s, web
}

func get(t testing.TB, c *http.Client, url string) (int, string, http.Header) {
	t.Helper()
	r, err := c.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	text, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return r.StatusCode, string(text), r.Header
}

// posted is the answer to a body of some kind, with headers by name and value; it is closed
// when the test ends.
func posted(t testing.TB, c *http.Client, url, kind string, body []byte, headers ...string) *http.Response {
	t.Helper()
	q, err := http.NewRequest("POST", url, bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	q.Header.Set("Content-Type", kind)
	for i := 0; i+1 < len(headers); i += 2 {
		q.Header.Set(headers[i], headers[i+1])
	}
	r, err := c.Do(q)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Body.Close() })
	return r
}

// ofForm is the kind of a body that a form without scripts sends.
const ofForm = "application/x-www-form-urlencoded"

// post sends an entry as the page does.
func post(t testing.TB, c *http.Client, url string, body any, headers ...string) (int, answer) {
	t.Helper()
	data, ok := body.([]byte)
	if !ok {
		data, _ = json.Marshal(body)
	}
	r := posted(t, c, url, "application/json", data, headers...)
	var a answer
	json.NewDecoder(r.Body).Decode(&a)
	return r.StatusCode, a
}

func client(t testing.TB) *http.Client {
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &http.Client{Jar: jar}
}

// seat is an entry of the first stop of SW-58.
func seat(id string) sent {
	return sent{ID: id, Station: "pinion seat", Pass: 1, Sizes: []string{"near@12=90.338"}, Marked: []string{"12", "3", "6", "9"}, By: "A. Hand", When: "2026-03-02 14:20"}
}

func entriesOf(t testing.TB, dir string) []process.Measured {
	t.Helper()
	path := filepath.Join(dir, "SW-58.toml")
	job, err := jobfile.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	r, err := jobfile.Results(path, job)
	if err != nil {
		t.Fatal(err)
	}
	return r.Entries
}

// An entry is kept as the command keeps it, once however often it is sent; a slip is asked
// about; and what the page then shows is what the planner plans.
func TestEntryIsKeptOnce(t *testing.T) {
	dir := shop(t)
	_, web := open(t, dir, Options{}, nil)
	c := client(t)
	at := web.URL + "/enter/SW-58.toml"
	e := seat("00000000000a")
	e.Sizes = []string{"near@12=90.383"} // two digits changed places
	if code, a := post(t, c, at, e); code != http.StatusConflict || len(a.Asks) == 0 || !strings.Contains(a.Asks[0], "90.338") {
		t.Fatalf("a slip: %d %+v", code, a)
	}
	if n := len(entriesOf(t, dir)); n != 0 {
		t.Fatalf("%d entries before anything was kept", n)
	}
	e.Sizes = []string{"near@12=3.5566"} // inches: it cannot be, whatever is said
	e.Sure = true
	if code, a := post(t, c, at, e); code != http.StatusUnprocessableEntity || len(a.Wrong) == 0 {
		t.Fatalf("the other unit: %d %+v", code, a)
	}
	var tabs sync.WaitGroup
	for range 8 { // as tabs of one device do, all at once
		tabs.Go(func() {
			if code, a := post(t, c, at, seat("00000000000a")); code != http.StatusOK || !a.Kept {
				t.Errorf("%d %+v", code, a)
			}
		})
	}
	tabs.Wait()
	if code, a := post(t, c, at, seat("00000000000a")); code != http.StatusOK || !a.Kept {
		t.Fatalf("%d %+v", code, a)
	}
	all := entriesOf(t, dir)
	if len(all) != 1 || all[0].ID != "00000000000a" || all[0].By != "A. Hand" || all[0].When != "2026-03-02 14:20" || all[0].Program == "" {
		t.Fatalf("%+v", all)
	}
	p, err := jobfile.PlanOf(filepath.Join(dir, "SW-58.toml"))
	if err != nil {
		t.Fatal(err)
	}
	_, text, _ := get(t, c, web.URL+"/mill/SW-58.toml")
	next := p.Bores[0].Visits[0].Passes[0]
	if want := "Ø" + p.Job.Units.Format(next.Setting.Length()); !strings.Contains(text, want) || !strings.Contains(text, fmt.Sprintf("for pass %d, %s", next.N, next.Kind)) {
		t.Errorf("the page does not show %s of pass %d:\n%s", want, next.N, text)
	}
	// Measured again: it replaces, with a name, and is asked about first.
	again := seat("00000000000b")
	again.Sizes, again.By = []string{"near@12=90.334"}, "B. Hand"
	if code, a := post(t, c, at, again); code != http.StatusConflict || !strings.Contains(strings.Join(a.Asks, " "), "measured") {
		t.Fatalf("again: %d %+v", code, a)
	}
	again.Sure = true
	if code, a := post(t, c, at, again); code != http.StatusOK || !a.Kept {
		t.Fatalf("again, sure: %d %+v", code, a)
	}
	if _, text, _ := get(t, c, web.URL+"/mill/SW-58.toml"); !strings.Contains(text, "replaced by B. Hand") {
		t.Error("the page does not say who replaced the entry")
	}
	// What comes in beside it, by the command, shows at once.
	_, before, _ := get(t, c, web.URL+"/stands/SW-58.toml")
	job, _ := jobfile.Load(filepath.Join(dir, "SW-58.toml"))
	m := process.Measured{Station: 1, Visit: 1, Pass: 3, Kind: process.SemiFinishCut, Low: 91_799_000, High: 91_836_000, Sizes: []process.Size{{Depth: process.Unplaced, At: -1, Diameter: 91_815_000}}, By: "C. Hand"}
	if err := jobfile.Add(filepath.Join(dir, "SW-58.toml"), job, &m, func(*process.Results) error { return nil }); err != nil {
		t.Fatal(err)
	}
	if _, after, _ := get(t, c, web.URL+"/stands/SW-58.toml"); after == before {
		t.Error("an entry of the command does not change the mark")
	}
	if _, text, _ := get(t, c, web.URL+"/mill/SW-58.toml"); !strings.Contains(text, "C. Hand") {
		t.Error("an entry of the command does not show")
	}
}

// Nothing outside of the folder is read or written, whatever is asked for.
func TestNoPathLeavesTheFolder(t *testing.T) {
	dir := shop(t)
	outside := t.TempDir()
	job, err := os.ReadFile(filepath.Join(dir, "SW-58.toml"))
	if err != nil {
		t.Fatal(err)
	}
	const secret = "OUT-OF-THE-FOLDER"
	secretJob := bytes.Replace(job, []byte("SW-58"), []byte(secret), 1)
	for path, data := range map[string][]byte{filepath.Join(outside, "job.toml"): secretJob, filepath.Join(dir, ".hidden.toml"): secretJob, filepath.Join(dir, "..", secret+".toml"): secretJob} {
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	defer os.Remove(filepath.Join(dir, "..", secret+".toml"))
	for name, to := range map[string]string{"link.toml": filepath.Join(outside, "job.toml"), "linked": outside, "good.toml": filepath.Join(dir, "SW-58.toml")} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
	}
	// A results file that is a link: an entry would go wherever it points.
	if err := os.WriteFile(filepath.Join(dir, "aim.toml"), job, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join(outside, "aimed.toml"), filepath.Join(dir, "aim.results.toml")); err != nil {
		t.Fatal(err)
	}
	// A job that names a file outside.
	naming := bytes.Replace(job, []byte(`"cnc-110mm"`), []byte(`"../`+secret+`.toml"`), 1)
	if err := os.WriteFile(filepath.Join(dir, "naming.toml"), naming, 0o644); err != nil {
		t.Fatal(err)
	}
	_, web := open(t, dir, Options{}, nil)
	c := client(t)
	for _, name := range []string{"../" + secret + ".toml", "..%2f" + secret + ".toml", "%2e%2e/" + secret + ".toml", "winch/../../" + secret + ".toml", "..\\" + secret + ".toml",
		url.PathEscape(filepath.Join(outside, "job.toml")), "link.toml", "linked/job.toml", ".hidden.toml", "aim.toml", "naming.toml", links.FileName, "SW-58.results.toml", "SW-58.toml%00"} {
		code, text, _ := get(t, c, web.URL+"/mill/"+name)
		if code == http.StatusOK || strings.Contains(text, "Slip winch") {
			t.Errorf("%s: %d\n%s", name, code, text)
		}
		if code, a := post(t, c, web.URL+"/enter/"+name, seat("00000000000c")); code == http.StatusOK || a.Kept {
			t.Errorf("entered at %s", name)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(outside, "*")); len(left) != 1 {
		t.Errorf("outside there is %v", left)
	}
	if code, text, _ := get(t, c, web.URL+"/"); code != http.StatusOK || strings.Contains(text, secret) || strings.Contains(text, dir) {
		t.Errorf("the list: %d\n%s", code, text)
	}
}

// Over the network nothing is shown without a link, a link to read enters nothing, and the
// secret is in nothing that a page or an answer holds.
func TestLinks(t *testing.T) {
	dir := shop(t)
	s, web := open(t, dir, Options{LAN: true}, nil)
	plain := &http.Client{}
	for _, path := range []string{"/", "/mill/SW-58.toml", "/stands/SW-58.toml", "/in/" + strings.Repeat("a", 26), "/in/x"} {
		if code, text, _ := get(t, plain, web.URL+path); code != http.StatusForbidden || strings.Contains(text, "Slip winch") {
			t.Errorf("%s without a link: %d", path, code)
		}
	}
	writer, reader := client(t), client(t)
	for c, secret := range map[*http.Client]string{writer: s.secrets.Write, reader: s.secrets.Read} {
		c.CheckRedirect = func(q *http.Request, _ []*http.Request) error {
			if strings.Contains(q.URL.String(), secret) {
				t.Errorf("it goes on to %s", q.URL)
			}
			return nil
		}
		code, text, h := get(t, c, web.URL+"/in/"+secret)
		if code != http.StatusOK || !strings.Contains(text, "Slip winch") || h.Get("Referrer-Policy") != "no-referrer" {
			t.Errorf("a link opens: %d", code)
		}
		at, _ := url.Parse(web.URL)
		for _, k := range c.Jar.Cookies(at) {
			if strings.Contains(k.Value, secret) {
				t.Error("the cookie holds the secret")
			}
		}
		for _, path := range []string{"/", "/mill/SW-58.toml", "/mill/none.toml", "/own/mill.js"} {
			if _, text, h := get(t, c, web.URL+path); strings.Contains(text, secret) || strings.Contains(fmt.Sprint(h), secret) {
				t.Errorf("%s holds the secret", path)
			}
		}
	}
	if code, _ := post(t, reader, web.URL+"/enter/SW-58.toml", seat("00000000000d")); code != http.StatusForbidden {
		t.Errorf("who may read enters: %d", code)
	}
	if code, a := post(t, plain, web.URL+"/enter/SW-58.toml", seat("00000000000d")); code != http.StatusForbidden || a.Kept {
		t.Errorf("who has no link enters: %d", code)
	}
	if code, a := post(t, writer, web.URL+"/enter/SW-58.toml", seat("00000000000d")); code != http.StatusOK || !a.Kept {
		t.Errorf("who has the link does not enter: %d %+v", code, a)
	}
	// The links stay the same, and change when that is asked for.
	same, err := New(dir, Options{LAN: true})
	if err != nil || same.secrets != s.secrets {
		t.Errorf("started again: %v", err)
	}
	other, err := New(dir, Options{LAN: true, Fresh: true})
	if err != nil || other.secrets.Write == s.secrets.Write || other.secrets.Read == s.secrets.Read || other.secrets.Read == other.secrets.Write {
		t.Errorf("made anew: %v", err)
	}
	same.Close()
	other.Close()
	if info, err := os.Stat(filepath.Join(dir, links.FileName)); err != nil || info.Mode().Perm()&0o077 != 0 {
		t.Errorf("others may read the secrets: %v %v", info.Mode(), err)
	}
}

// Pages of others enter nothing and read nothing along, bodies without end are cut off, and
// every answer forbids what is not its own.
func TestGuards(t *testing.T) {
	dir := shop(t)
	_, web := open(t, dir, Options{}, nil)
	c := client(t)
	at := web.URL + "/enter/SW-58.toml"
	for why, headers := range map[string][]string{
		"another origin":         {"Origin", "http://elsewhere.example"},
		"said by the browser":    {"Sec-Fetch-Site", "cross-site"},
		"a form of another page": {"Content-Type", "text/plain"},
	} {
		if code, a := post(t, c, at, seat("00000000000e"), headers...); code < 400 || a.Kept {
			t.Errorf("%s: %d", why, code)
		}
	}
	if code, _ := post(t, c, at, bytes.Repeat([]byte("a"), mostBody+1)); code < 400 {
		t.Errorf("a long body: %d", code)
	}
	for _, host := range []string{"elsewhere.example", "127.0.0.1:80.elsewhere.example", "localhost.elsewhere.example"} {
		q, _ := http.NewRequest("GET", web.URL+"/mill/SW-58.toml", nil)
		q.Host = host
		r, err := c.Do(q)
		if err != nil {
			t.Fatal(err)
		}
		if text, _ := io.ReadAll(r.Body); r.StatusCode == http.StatusOK || strings.Contains(string(text), "Slip winch") {
			t.Errorf("by the name of others, %s: %d", host, r.StatusCode)
		}
	}
	if len(entriesOf(t, dir)) != 0 {
		t.Error("something was entered")
	}
	for _, path := range []string{"/", "/mill/SW-58.toml", "/own/mill.css", "/none"} {
		_, text, h := get(t, c, web.URL+path)
		csp := h.Get("Content-Security-Policy")
		if !strings.Contains(csp, "default-src 'none'") || strings.Contains(csp, "unsafe") || h.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: %v", path, h)
		}
		for _, not := range []string{" style=", "<style", " onclick=", "javascript:", "http://", "https://", "//"} {
			if strings.HasSuffix(path, ".toml") && strings.Contains(strings.ReplaceAll(text, "/mill//", ""), not) {
				t.Errorf("%s holds %s", path, not)
			}
		}
	}
	for back, want := range map[string]string{"/mill/SW-58.toml?at=2": "/mill/SW-58.toml?at=2", "//elsewhere.example": "/", "http://elsewhere.example/": "/", "/\\elsewhere.example": "/"} {
		stay := client(t)
		stay.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
		if _, _, h := get(t, stay, web.URL+"/look/dark?back="+url.QueryEscape(back)); h.Get("Location") != want {
			t.Errorf("back to %q leads to %q", back, h.Get("Location"))
		}
	}
}

// FuzzEnter: whatever a device sends, it is refused in words, asked about, or an entry that the
// results file takes; the server stands.
func FuzzEnter(f *testing.F) {
	job, err := jobfile.Load(filepath.Join("..", "..", "testdata", "jobs", "slip-winch", "job.toml"))
	if err != nil {
		f.Fatal(err)
	}
	p := plan.Make(job)
	for _, e := range []sent{seat("00000000000f"), {ID: "0123456789ab", Station: "pinion seat", Pass: 3, Sizes: []string{"near@12=91.81", "far@3=91.82"}, By: "x", When: "14:20", Sure: true}} {
		data, _ := json.Marshal(e)
		f.Add(data)
	}
	f.Add([]byte(`{"id":"0123456789ab","sizes":["@=-1"],"by":"\u202e"}`))
	f.Add([]byte(`{"id":"0123456789ab","station":"pinion seat","pass":-1,"sizes":["1e9@12:99=1e999in"],"by":"x"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		e, err := sentOf(data)
		if err != nil {
			return
		}
		m, err := e.entry(job, p, time.Date(2026, 3, 2, 14, 20, 0, 0, time.UTC))
		if err != nil {
			return
		}
		for _, s := range record.Slips(p, m) {
			if sentence(job, s.Fact()) == "" {
				t.Errorf("%s: a slip without words: %+v", data, s)
			}
		}
		text := files.Entry(job, &m)
		if _, err := files.Results("r.toml", text, job); err != nil && !strings.Contains(err.Error(), "r.toml:") {
			t.Errorf("%s: %v", data, err)
		}
	})
}
