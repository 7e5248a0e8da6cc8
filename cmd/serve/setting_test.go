package serve

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"borewright/cmd/jobfile"
	"borewright/process/record"
)

// hinge is a folder with the ferry ramp, its three lugs cut through at one setting.
func hinge(t *testing.T) (dir string) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "ferry-ramp", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	dir = t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "FR-9.toml"), data, 0o644); err != nil {
		t.Fatal(err)
	}
	return dir
}

// After the stop of a setting the page opens one bore after the other until all are entered, the
// form at once, whichever was entered first; one that is entered can be measured again meanwhile.
func TestGaugedLugByLug(t *testing.T) {
	ctx := browse(t)
	dir := hinge(t)
	path := filepath.Join(dir, "FR-9.toml")
	// The rest takes its time once: the page asks meanwhile whether anything is new, and is told so.
	var slow sync.Once
	_, web := open(t, dir, Options{}, func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if r.URL.Query().Has("after") {
				slow.Do(func() { time.Sleep(1500 * time.Millisecond) })
			}
			next.ServeHTTP(w, r)
		})
	})
	s := newScreen(t, ctx, web)
	s.do(chromedp.Navigate(web.URL + "/mill/FR-9.toml"))
	s.toMeasure()
	title := func() string { return eval[string](s, `document.getElementById("task").innerText`) }
	enter := func() string {
		p, err := jobfile.PlanOf(path)
		if err != nil {
			t.Fatal(err)
		}
		b, q, ok := record.Next(p, "")
		if !ok {
			t.Fatal("nothing is left")
		}
		if at := eval[string](s, `document.getElementById("measure").dataset.station`); at != b.Station.Name {
			t.Errorf("the form is of the %s, %s is next; %s", at, b.Station.Name, title())
		}
		s.size("near end", "12 - 6", p.Job.Units.Format(q.Expected.Length()))
		s.by("A. Hand")
		s.tap("#keep", "Keep 1 reading")
		s.until("it is kept", atTop+`.startsWith("Kept: pass ") && `+atTop+`.includes("in the `+b.Station.Name+`")`)
		return eval[string](s, atTop)
	}
	if said := enter(); !strings.HasSuffix(said, "Gauge the middle lug and inner lug next.") {
		t.Error(said)
	}
	if at := eval[string](s, "location.search"); at != "?after=outer%20lug" {
		t.Errorf("what is next to the lug opens at %s", at)
	}
	if got := title(); !strings.HasPrefix(got, "Measure the middle lug after pass ") {
		t.Errorf("then %q", got)
	}
	if got := eval[string](s, `document.querySelector(".task .lines").innerText.replace(/\s+/g, " ")`); !strings.Contains(got, "Entered outer lug To gauge middle lug and inner lug") {
		t.Errorf("the form says %q", got)
	}
	if wide := eval[float64](s, `document.documentElement.scrollWidth`); wide > 375 {
		t.Errorf("the page is %g px wide", wide)
	}
	if at := os.Getenv("PICTURES"); at != "" {
		shot, err := chromedp.Run(s.ctx, chromedp.FullScreenshot(100))
		if err != nil {
			t.Fatal(err)
		}
		os.WriteFile(filepath.Join(at, "lugs.png"), shot, 0o644)
	}
	s.tap("nav.bores a", "outer lug")
	s.until("it can be measured again", `document.getElementById("task")?.innerText.endsWith("again")`)
	s.tap(".go .back", "")
	s.until("the next to gauge", `document.getElementById("measure")?.dataset.station === "middle lug"`)
	s.tap("nav.bores a", "inner lug") // out of their order
	s.until("the inner lug", `document.getElementById("measure")?.dataset.station === "inner lug"`)
	s.do(chromedp.Navigate(web.URL + "/mill/FR-9.toml?bore=outer+lug"))
	if said := enter(); !strings.HasSuffix(said, "Gauge the inner lug next.") {
		t.Error(said)
	}
	if said := enter(); !strings.HasSuffix(said, "The rest is planned from it.") {
		t.Error(said)
	}
	if all := entriesIn(t, path); all != 3 {
		t.Errorf("%d entries", all)
	}
	// The rest goes on in front of the first lug again, at its finish.
	if got := eval[string](s, `document.querySelector("nav.bores [aria-current]").innerText`); got != "outer lug" {
		t.Errorf("the rest opens at %q", got)
	}
}

// entriesIn is how many entries the results of a job have.
func entriesIn(t *testing.T, path string) int {
	t.Helper()
	p, err := jobfile.PlanOf(path)
	if err != nil || p.Findings == nil {
		t.Fatal(err)
	}
	return p.Findings.Entries
}
