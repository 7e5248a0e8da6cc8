package serve

import (
	"html"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sync"
	"testing"
	"time"

	"borewright/cmd/folder"
	"borewright/cmd/jobfile"
	"borewright/process/record"
	"borewright/process/slow"
)

var nextTask = regexp.MustCompile(`<a class="next" href="([^"]*)"`)

// allExamples is a folder with the examples and the finished jobs, and what it holds.
func allExamples(t testing.TB) (dir string, jobs []folder.Job) {
	t.Helper()
	dir = t.TempDir()
	for _, from := range []string{"jobs", "finished"} {
		if err := os.CopyFS(filepath.Join(dir, from), os.DirFS(filepath.Join("..", "..", "testdata", from))); err != nil {
			t.Fatal(err)
		}
	}
	jobs, err := folder.Find(dir, folder.Options{})
	if err != nil || len(jobs) < 8 {
		t.Fatal(len(jobs), err)
	}
	return dir, jobs
}

// Every example has its page, task after task up to the first stop, by links alone; the stop is
// that of the planner. A finished one says so.
func TestEveryExampleHasItsPage(t *testing.T) {
	dir, jobs := allExamples(t)
	_, web := open(t, dir, Options{}, nil)
	c := client(t)
	step := slow.Rounds(t, "is the step from example to example", 1, 3)
	for i, j := range jobs {
		if i%step != 0 {
			continue
		}
		p, err := jobfile.PlanOf(j.Path)
		if err != nil {
			t.Fatal(err)
		}
		at, text, done := "/mill/"+j.File, "", 0
		for {
			code, page, _ := get(t, c, web.URL+at)
			if code != http.StatusOK {
				t.Fatalf("%s: %d\n%s", at, code, page)
			}
			text = page
			m := nextTask.FindStringSubmatch(page)
			if m == nil {
				break
			}
			if at = html.UnescapeString(m[1]); done > 40 {
				t.Fatalf("%s: the tasks come to no end", j.File)
			}
			done++
		}
		_, q, left := record.Next(p, "")
		switch {
		case !p.Feasible:
			if !regexp.MustCompile(`nothing is to be cut`).MatchString(text) {
				t.Errorf("%s: not feasible, and the page does not say so", j.File)
			}
		case !left:
			if !regexp.MustCompile(`Every bore is finished`).MatchString(text) {
				t.Errorf("%s: finished, and the page does not say so", j.File)
			}
		default:
			low, high := p.Job.Units.Format(q.Low.Length()), p.Job.Units.Format(q.High.Length())
			if !regexp.MustCompile(`the gauge should say <b>` + regexp.QuoteMeta(low+" to "+high)).MatchString(text) {
				t.Errorf("%s: the stop does not say %s to %s", j.File, low, high)
			}
			if done < 3 {
				t.Errorf("%s: %d tasks before the stop", j.File, done)
			}
		}
	}
}

// BenchmarkScreens has fifty screens ask as they do, each for the mark of its job and every
// tenth time for the page, and tells the median of the answers.
func BenchmarkScreens(b *testing.B) {
	dir := shop(b)
	_, web := open(b, dir, Options{}, nil)
	var mu sync.Mutex
	var all []time.Duration
	c := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 100}}
	for b.Loop() {
		var screens sync.WaitGroup
		for n := range 50 {
			screens.Go(func() {
				at := web.URL + "/stands/SW-58.toml"
				if n%10 == 0 {
					at = web.URL + "/mill/winch/WG-204.toml"
				}
				begun := time.Now()
				if code, _, _ := get(b, c, at); code != http.StatusOK {
					b.Error(code)
				}
				mu.Lock()
				all = append(all, time.Since(begun))
				mu.Unlock()
			})
		}
		screens.Wait()
	}
	slices.Sort(all)
	b.ReportMetric(float64(all[len(all)/2].Microseconds())/1000, "ms/answer-median")
	b.ReportMetric(float64(all[len(all)*95/100].Microseconds())/1000, "ms/answer-95")
}
