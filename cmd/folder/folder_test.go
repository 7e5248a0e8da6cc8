package folder_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	. "borewright/cmd/folder"
)

// fill puts n jobs into folders of a thousand, after the examples.
func fill(tb testing.TB, n int) string {
	tb.Helper()
	dir := tb.TempDir()
	var texts []string
	for _, name := range []string{"lock-winch", "gear-case", "hand-pump", "slip-winch", "tide-pump", "ferry-ramp"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name, "job.toml"))
		if err != nil {
			tb.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	for i := range n {
		text := texts[i%len(texts)]
		from := strings.Index(text, "number")
		end := from + strings.Index(text[from:], "\n")
		text = text[:from] + fmt.Sprintf("number = \"T-%05d\"", i) + text[end:]
		at := filepath.Join(dir, fmt.Sprintf("year-%02d", i/1000))
		if err := os.MkdirAll(at, 0o755); err != nil {
			tb.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(at, fmt.Sprintf("T-%05d.toml", i)), []byte(text), 0o644); err != nil {
			tb.Fatal(err)
		}
	}
	return dir
}

// Every job is found, once, in the order of the files' names; what is no job is not.
func TestFindsEveryJob(t *testing.T) {
	dir := fill(t, 2100)
	for name, text := range map[string]string{
		"mill.toml": "name = \"a mill\"\nspeeds = [1, 2]\n", "T.results.toml": "[[measured]]\n", ".hidden.toml": "number = \"H\"\n",
		"note.txt": "number = \"N\"\n", "broken.toml": "= 3\n", "year-00/made-by-borewright.toml": "",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	outside := filepath.Join(t.TempDir(), "outside.toml")
	if err := os.WriteFile(outside, []byte("number = \"O\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, filepath.Join(dir, "link.toml")); err != nil {
		t.Log(err)
	}
	jobs, err := Find(dir, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(jobs) != 1101 { // a folder with a list was made: year-00 holds no jobs
		t.Errorf("%d jobs", len(jobs))
	}
	if jobs[0].File != "broken.toml" || jobs[0].State != NotRead || !strings.Contains(jobs[0].Problem, "broken.toml:1:") {
		t.Errorf("%+v", jobs[0])
	}
	for i, j := range jobs[1:] {
		if want := fmt.Sprintf("T-%05d", 1000+i); j.Number != want || j.State != NotPlanned || j.Title == "" {
			t.Fatalf("%d: %+v, want %s", i, j, want)
		}
	}
}

// All answers come, in the order of the jobs, however long each takes; the code is the worst;
// and no more jobs are in hand than there are cores.
func TestAllInOrder(t *testing.T) {
	jobs := make([]Job, 300)
	for i := range jobs {
		jobs[i] = Job{Number: fmt.Sprint("N", i), Revision: "A"}
	}
	jobs[7] = Job{File: "seven.toml", State: NotRead, Problem: "seven.toml:1:1: torn"}
	var hand, most atomic.Int64
	var out, bar bytes.Buffer
	worst, err := All(jobs, &out, &bar, func(j *Job) Answer {
		n := hand.Add(1)
		for m := most.Load(); n > m && !most.CompareAndSwap(m, n); m = most.Load() {
		}
		defer hand.Add(-1)
		if j.Number == "N0" {
			time.Sleep(20 * time.Millisecond)
		}
		return Answer{Says: "done", Code: len(j.Number) % 2}
	})
	if err != nil || worst != 2 {
		t.Errorf("%d, %v", worst, err)
	}
	lines := strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
	if len(lines) != len(jobs) {
		t.Fatalf("%d lines", len(lines))
	}
	for i, l := range lines {
		want := fmt.Sprintf("N%d A: done", i)
		if i == 7 {
			want = "seven.toml: seven.toml:1:1: torn"
		}
		if l != want {
			t.Errorf("line %d: %q", i, l)
		}
	}
	if m := most.Load(); m > int64(runtime.GOMAXPROCS(0)) {
		t.Errorf("%d jobs in hand at once", m)
	}
	if s := bar.String(); s != "" && !strings.HasSuffix(s, "\r\x1b[K") {
		t.Errorf("how far it is stays behind: %q", s)
	}
}

// BenchmarkFind lists ten thousand jobs.
func BenchmarkFind(b *testing.B) {
	dir := fill(b, 10000)
	for b.Loop() {
		if jobs, err := Find(dir, Options{}); err != nil || len(jobs) != 10000 {
			b.Fatal(len(jobs), err)
		}
	}
}

// TestTornAtItsHead: a job that breaks off above its number is told, a file of another kind is not.
func TestTornAtItsHead(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"half.toml": "units = \"in\"\ntitle = \"Pump\"\nnumber = ", "first.toml": "units = ", "mill.toml": "units = \"mm\"\nname = \"a mill\"\nspeeds = [1, 2",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	jobs, err := Find(dir, Options{})
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, j := range jobs {
		found = append(found, j.File+" "+j.Problem)
	}
	if len(jobs) != 2 || jobs[0].File != "first.toml" || jobs[1].File != "half.toml" || jobs[0].State != NotRead || jobs[1].State != NotRead || !strings.Contains(jobs[1].Problem, "half.toml:3:9: ") {
		t.Errorf("%q", found)
	}
}
