package serve

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"borewright/cmd/jobfile"
	"borewright/cmd/serve/desk"
	"borewright/process/slow"

	"borewright/cmd/serve/links"
)

// atDesk sends what a form would, and gives the last answer to it.
func atDesk(t testing.TB, c *http.Client, url string, a desk.Asked, headers ...string) (int, deskAnswer) {
	t.Helper()
	data, err := json.Marshal(a)
	if err != nil {
		t.Fatal(err)
	}
	r := posted(t, c, url, "application/json", data, headers...)
	var last deskAnswer
	for d := json.NewDecoder(r.Body); ; {
		var next deskAnswer
		if d.Decode(&next) != nil {
			return r.StatusCode, last
		}
		if last.More && next.More {
			t.Error("more than one answer in advance")
		}
		if last.Form != "" {
			next.Form, next.Slides = last.Form, last.Slides
		}
		last = next
	}
}

func readOf(t testing.TB, dir, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// What is filled in is worked out as the commands would, mistakes stand at their figures in the
// words of the loader, and nothing is written.
func TestDeskWorksItOut(t *testing.T) {
	dir := shop(t)
	_, web := open(t, dir, Options{}, nil)
	c := client(t)
	was := readOf(t, dir, "SW-58.toml")
	sum := jobfile.SumOf(was)
	code, page, _ := get(t, c, web.URL+"/desk/SW-58.toml")
	if code != http.StatusOK || !strings.Contains(page, `data-of="`+sum+`"`) || !strings.Contains(page, "<svg") || !strings.Contains(page, "pinion seat") {
		t.Fatalf("%d\n%s", code, page)
	}
	change := desk.Change{Path: "cutter.nose_radius", Text: "0.6"}
	code, a := atDesk(t, c, web.URL+"/desk/SW-58.toml", desk.Asked{Of: sum, Changes: []desk.Change{change}})
	if code != http.StatusOK || len(a.Faults)+len(a.Rest) > 0 || a.Others != nil || a.Nothing || a.Form != "" {
		t.Fatalf("%d %+v", code, brief(a))
	}
	// The same file on the disk, by the commands.
	path := filepath.Join(t.TempDir(), "SW-58.toml")
	text, _ := desk.Changed(was, []desk.Change{change})
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	p, err := jobfile.PlanOf(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range p.Bores[0].Visits {
		for _, q := range v.Passes {
			if want := "<td>" + p.Job.Units.Format(q.Setting.Length()) + "</td>"; !strings.Contains(a.Plan, want) {
				t.Errorf("pass %d: no %s in\n%s", q.N, want, a.Plan)
			}
		}
	}
	before, err := jobfile.PlanOf(filepath.Join(dir, "SW-58.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if was, now := desk.FiguresOf(before), desk.FiguresOf(p); was.Spring == now.Spring || !strings.Contains(a.Moves, was.Spring+"</span> → <b>"+now.Spring+"</b>") || !strings.Contains(a.Moves, now.Time) || !strings.Contains(a.Moves, now.Chance) {
		t.Errorf("the figures %+v are not in\n%s", now, a.Moves)
	}
	// Mistakes.
	code, a = atDesk(t, c, web.URL+"/desk/SW-58.toml", desk.Asked{Of: sum, Changes: []desk.Change{{Path: "cutter.lead", Text: "900"}, {Path: "bar.steps[0].length", Text: "long"}, {Path: "revision", Text: ""}}})
	for path, words := range map[string]string{"cutter.lead": "900° is out of range; allowed is 30 to 95°", "bar.steps[0].length": `"long" is not a length`, "revision": "is missing"} {
		if !strings.Contains(strings.Join(a.Faults[path], " "), words) {
			t.Errorf("%s: %q", path, a.Faults[path])
		}
	}
	if code != http.StatusOK || a.Plan != "" || a.Picture != "" {
		t.Errorf("%d: a job that does not load is planned", code)
	}
	if now := readOf(t, dir, "SW-58.toml"); !bytes.Equal(now, was) {
		t.Error("the file changed without a save")
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "*")); len(left) != 3 {
		t.Errorf("there is %v", left)
	}
}

// A save changes the bytes of what was changed, and what others have written meanwhile stays.
func TestDeskSaves(t *testing.T) {
	dir := shop(t)
	_, web := open(t, dir, Options{Clock: func() time.Time { return time.Date(2026, 3, 2, 14, 20, 0, 0, time.Local) }}, nil)
	c := client(t)
	const name = "winch/WG-204.toml"
	was := readOf(t, dir, name)
	sum := jobfile.SumOf(was)
	get(t, c, web.URL+"/desk/"+name)
	ours := desk.Asked{Of: sum, By: "A. Hand", Changes: []desk.Change{{Path: "bore[0].wear[0].radius", Text: "1.5780, 1.5815, 1.5890, 1.5905, 1.5800, 1.5770, 1.5770, 1.5791"}, {Path: "bar.steps[1].diameter", Text: "2.375"}}}
	want := bytes.Replace(bytes.Replace(was, []byte("1.5770, 1.5790]"), []byte("1.5770, 1.5791]"), 1), []byte("diameter = 2.25,"), []byte("diameter = 2.375,"), 1)
	code, a := atDesk(t, c, web.URL+"/changes/"+name, ours)
	if code != http.StatusOK || a.Nothing || len(a.Wrong) > 0 || strings.Count(a.Changes, "<span") != 4 || !strings.Contains(a.Changes, "2.375") {
		t.Fatalf("%d %+v", code, brief(a))
	}
	if now := readOf(t, dir, name); !bytes.Equal(now, was) {
		t.Fatal("asking what changes has changed it")
	}
	if code, a = atDesk(t, c, web.URL+"/save/"+name, ours); code != http.StatusOK || !a.Saved || a.Of != jobfile.SumOf(want) {
		t.Fatalf("%d %+v", code, brief(a))
	}
	if now := readOf(t, dir, name); !bytes.Equal(now, want) {
		t.Fatalf("saved is\n%s", now)
	}
	// Another form, made from the file before.
	theirs := desk.Asked{Of: sum, By: "B. Hand", Changes: []desk.Change{{Path: "title", Text: "theirs"}}}
	code, a = atDesk(t, c, web.URL+"/save/"+name, theirs)
	if code != http.StatusConflict || a.Saved || a.Others == nil || !strings.Contains(a.Others.Who, "A. Hand, at 2026-03-02 14:20") || !strings.Contains(a.Others.What, "2.375") {
		t.Fatalf("%d %+v %+v", code, a, a.Others)
	}
	if now := readOf(t, dir, name); !bytes.Equal(now, want) {
		t.Fatal("a save over another's went through")
	}
	// Anew, with the changes on top.
	theirs.Of, theirs.Form = "", true
	code, a = atDesk(t, c, web.URL+"/desk/"+name, theirs)
	if code != http.StatusOK || a.Of != jobfile.SumOf(want) || !strings.Contains(a.Form, `value="theirs"`) || !strings.Contains(a.Form, `value="2.375"`) || a.Others != nil {
		t.Fatalf("%d of %s", code, a.Of)
	}
	theirs.Of = a.Of
	if code, a = atDesk(t, c, web.URL+"/save/"+name, theirs); code != http.StatusOK || !a.Saved {
		t.Fatalf("%d %+v", code, brief(a))
	}
	// An editor beside the page.
	theirs.Of, theirs.Changes[0].Text = a.Of, "once more"
	mine := append(readOf(t, dir, name), "# by hand\n"...)
	if err := os.WriteFile(filepath.Join(dir, name), mine, 0o644); err != nil {
		t.Fatal(err)
	}
	get(t, c, web.URL+"/desk/"+name)
	if code, a = atDesk(t, c, web.URL+"/save/"+name, theirs); code != http.StatusConflict || a.Others == nil || !strings.Contains(a.Others.Who, "by somebody, beside this page") {
		t.Fatalf("%d %+v", code, a.Others)
	}
	// What does not load is not saved over what does, and what is no key is not written.
	for why, change := range map[string]desk.Change{"a mistake": {Path: "cutter.lead", Text: "900"}, "no key": {Path: "evil", Text: "1"}} {
		if code, a := atDesk(t, c, web.URL+"/save/"+name, desk.Asked{Changes: []desk.Change{change}}); code != http.StatusUnprocessableEntity || a.Saved || len(a.Wrong) == 0 {
			t.Errorf("%s: %d %+v", why, code, a)
		}
	}
	if now := readOf(t, dir, name); !bytes.Equal(now, mine) {
		t.Error("the file is not what was written by hand")
	}
	if left, _ := filepath.Glob(filepath.Join(dir, "winch", "*")); len(left) != 1 {
		t.Errorf("there is %v", left)
	}
}

// The guards of the mill hold at the desk: links, other pages, paths, bodies; and no text of a
// file becomes a part of a page.
func TestDeskIsGuarded(t *testing.T) {
	dir := shop(t)
	outside := filepath.Join(t.TempDir(), "aim.toml")
	job := readOf(t, dir, "SW-58.toml")
	if err := os.WriteFile(outside, job, 0o644); err != nil {
		t.Fatal(err)
	}
	for name, to := range map[string]string{"out.toml": outside, "in.toml": "SW-58.toml", "linked": filepath.Dir(outside)} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Skip(err)
		}
	}
	s, web := open(t, dir, Options{LAN: true}, nil)
	reader, writer := client(t), client(t)
	get(t, reader, web.URL+"/in/"+s.secrets.Read)
	get(t, writer, web.URL+"/in/"+s.secrets.Write)
	change := []desk.Change{{Path: "title", Text: `"><script>alert(1)</script>`}}
	for _, path := range []string{"/desk/", "/changes/", "/save/"} {
		if code, a := atDesk(t, reader, web.URL+path+"SW-58.toml", desk.Asked{Changes: change}); code != http.StatusForbidden || a.Saved {
			t.Errorf("%s: who may read writes: %d", path, code)
		}
		if code, _ := atDesk(t, &http.Client{}, web.URL+path+"SW-58.toml", desk.Asked{Changes: change}); code != http.StatusForbidden {
			t.Errorf("%s: who has no link writes: %d", path, code)
		}
		for why, h := range map[string][]string{"origin": {"Origin", "http://elsewhere.example"}, "site": {"Sec-Fetch-Site", "cross-site"}, "kind": {"Content-Type", "text/plain"}} {
			if code, a := atDesk(t, writer, web.URL+path+"SW-58.toml", desk.Asked{Changes: change}, h...); code < 400 || a.Saved {
				t.Errorf("%s, %s: %d", path, why, code)
			}
		}
		for _, name := range []string{"out.toml", "linked/aim.toml", "..%2faim.toml", ".hidden.toml", "SW-58.results.toml", links.FileName} {
			if code, a := atDesk(t, writer, web.URL+path+name, desk.Asked{Changes: change}); code != http.StatusNotFound || a.Saved {
				t.Errorf("%s%s: %d", path, name, code)
			}
		}
		if code, _ := atDesk(t, writer, web.URL+path+"SW-58.toml", desk.Asked{Changes: []desk.Change{{Path: "title", Text: strings.Repeat("x", mostBody)}}}); code != http.StatusRequestEntityTooLarge {
			t.Errorf("%s: a body without end: %d", path, code)
		}
	}
	if code, a := atDesk(t, writer, web.URL+"/save/in.toml", desk.Asked{Changes: change}); code != http.StatusUnprocessableEntity || len(a.Wrong) == 0 || !strings.Contains(a.Wrong[0], "link") {
		t.Errorf("a link is written over: %d %+v", code, a)
	}
	for _, path := range []string{outside, filepath.Join(dir, "SW-58.toml")} {
		if now, _ := os.ReadFile(path); !bytes.Equal(now, job) {
			t.Errorf("%s was written", path)
		}
	}
	if _, page, _ := get(t, reader, web.URL+"/desk/SW-58.toml"); strings.Contains(page, "data-path") || strings.Contains(page, "desk.js") || !strings.Contains(page, "Slip winch") {
		t.Error("who may read gets a form, or no figures")
	}
	code, a := atDesk(t, writer, web.URL+"/desk/SW-58.toml", desk.Asked{Changes: change, Form: true})
	if code != http.StatusOK || strings.Contains(a.Form, "<script") || !strings.Contains(a.Form, "&lt;script") {
		t.Errorf("%d: a title becomes a part of the page", code)
	}
	if code, a := atDesk(t, writer, web.URL+"/save/SW-58.toml", desk.Asked{Changes: change}); code != http.StatusOK || !a.Saved {
		t.Fatalf("%d %+v", code, brief(a))
	}
	if _, page, _ := get(t, reader, web.URL+"/desk/SW-58.toml"); strings.Contains(page, "<script") {
		t.Error("a title becomes a script")
	}
}

// A job is begun once, in the folder, under a name that can be one; its number is the file's.
func TestNewJob(t *testing.T) {
	dir := shop(t)
	out := t.TempDir()
	if err := os.Symlink(out, filepath.Join(dir, "linked")); err != nil {
		t.Skip(err)
	}
	s, web := open(t, dir, Options{LAN: true}, nil)
	reader, writer := client(t), client(t)
	get(t, reader, web.URL+"/in/"+s.secrets.Read)
	get(t, writer, web.URL+"/in/"+s.secrets.Write)
	begin := func(c *http.Client, name, units string, headers ...string) (int, string) {
		t.Helper()
		r := posted(t, c, web.URL+"/new", ofForm, []byte(url.Values{"name": {name}, "units": {units}}.Encode()), headers...)
		return r.StatusCode, r.Request.URL.Path
	}
	for _, x := range []struct{ name, units, at string }{{"HP-7", "mm", "/desk/HP-7.toml"}, {"winch/WG-205.toml", "in", "/desk/winch/WG-205.toml"}} {
		if code, at := begin(writer, x.name, x.units); code != http.StatusOK || at != x.at {
			t.Errorf("%s: %d at %s", x.name, code, at)
		}
		p, err := jobfile.PlanOf(filepath.Join(dir, strings.TrimPrefix(x.at, "/desk/")))
		if err != nil || !p.Feasible || p.Job.Units.String() != x.units || p.Job.Number+".toml" != filepath.Base(x.at) {
			t.Errorf("%s: %v", x.name, err)
		}
	}
	if _, text, _ := get(t, reader, web.URL+"/"); !strings.Contains(text, "HP-7") {
		t.Error("the list has not got it")
	}
	was := readOf(t, dir, "HP-7.toml")
	for _, name := range []string{"HP-7", "SW-58.toml", "../x", "..", "", " ", ".hidden", "a/.b", "a\\b", "x\x00", "none/x", "linked/x", "x.results.toml", "x.approved.toml", "made-by-borewright", "/etc/x", "a\nb", "x<y>", strings.Repeat("n", 70)} {
		if code, at := begin(writer, name, "mm"); code < 400 {
			t.Errorf("%q: %d at %s", name, code, at)
		}
	}
	if code, _ := begin(writer, "HP-8", "ft"); code < 400 {
		t.Error("a job in feet")
	}
	if code, _ := begin(reader, "HP-8", "mm"); code != http.StatusForbidden {
		t.Errorf("who may read begins a job: %d", code)
	}
	if code, _ := begin(writer, "HP-8", "mm", "Origin", "http://elsewhere.example"); code != http.StatusForbidden {
		t.Errorf("another page begins a job: %d", code)
	}
	if now := readOf(t, dir, "HP-7.toml"); !bytes.Equal(now, was) {
		t.Error("a job that was there is written over")
	}
	all, _ := filepath.Glob(filepath.Join(dir, "*"))
	if left, _ := os.ReadDir(out); len(all) != 6 || len(left) > 0 {
		t.Errorf("there is %q", all)
	}
}

// TestKilledSaves kills the server with no warning while a form is saved over and over: the file
// is whole, the one before or the one that was being saved, and no older than what was told.
func TestKilledSaves(t *testing.T) {
	for round := range slow.Rounds(t, "servers killed while forms are saved", 8, 1) {
		dir := shop(t)
		cmd, at := started(t, dir)
		versions := [][]byte{readOf(t, dir, "SW-58.toml")}
		told := make(chan int, 1)
		begun := make(chan bool, 1)
		go func() {
			last := 0
			defer func() { told <- last }()
			for i := 1; ; i++ {
				a := desk.Asked{Of: jobfile.SumOf(versions[i-1]), Changes: []desk.Change{{Path: "title", Text: strings.Repeat("x", 1+i%150)}, {Path: "notes", Text: strings.Repeat(strings.Repeat("n", 190)+"\n", 1+i%25)}}}
				text, _ := desk.Changed(versions[i-1], a.Changes)
				versions = append(versions, text)
				data, _ := json.Marshal(a)
				r, err := http.Post(at+"/save/SW-58.toml", "application/json", bytes.NewReader(data))
				if err != nil {
					return
				}
				var answer deskAnswer
				err = json.NewDecoder(r.Body).Decode(&answer)
				r.Body.Close()
				if err != nil {
					return
				}
				if !answer.Saved {
					t.Errorf("%d: %+v", i, brief(answer))
					return
				}
				if last = i; i == 1 {
					begun <- true
				}
			}
		}()
		<-begun
		time.Sleep(time.Duration(rand.IntN(120)) * time.Millisecond)
		cmd.Process.Kill()
		cmd.Wait()
		last := <-told
		now, good := readOf(t, dir, "SW-58.toml"), false
		for _, v := range versions[last:] {
			good = good || bytes.Equal(v, now)
		}
		if !good {
			t.Errorf("round %d: after %d saves that were told there is\n%s", round, last, now)
		}
		t.Logf("round %d: killed after %d saves", round, last)
	}
}

// brief is an answer without its drawing and its pages.
func brief(a deskAnswer) deskAnswer {
	a.Picture, a.Plan, a.Form, a.Slides = "", "", "", ""
	return a
}
