package serve

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"borewright/cmd/browser"
	"borewright/cmd/jobfile"
	"borewright/process/record"
	"borewright/process/slow"
)

// browse starts a browser. These tests look at the pages as hands at the
// mill do; like those of the sheets they run where CI is set.
func browse(t *testing.T) context.Context {
	t.Helper()
	if os.Getenv("CI") == "" {
		t.Skip("CI is not set: the pages are not looked at in a browser")
	}
	return browser.Start(t)
}

// screen is one browser window as a person at the mill uses it: a telephone, by touch.
type screen struct {
	t    *testing.T
	ctx  context.Context
	mu   sync.Mutex
	said []string // by the console, less what a lost network says
	out  []string // asked of others than the server
}

// newScreen opens a window; ctx is that of a browser, or of a window for one more beside it.
func newScreen(t *testing.T, ctx context.Context, web *httptest.Server) *screen {
	t.Helper()
	tab, done := chromedp.NewContext(ctx)
	t.Cleanup(done)
	s := &screen{t: t, ctx: tab}
	if err := chromedp.Do(tab); err != nil {
		t.Fatal(err)
	}
	err := chromedp.Listen(tab, func(ev any) {
		s.mu.Lock()
		defer s.mu.Unlock()
		switch ev := ev.(type) {
		case *runtime.EventExceptionThrown:
			s.said = append(s.said, "exception: "+ev.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			if ev.Entry.Source != "network" {
				s.said = append(s.said, ev.Entry.Text)
			}
		case *network.EventRequestWillBeSent:
			if !strings.HasPrefix(ev.Request.URL, web.URL+"/") {
				s.out = append(s.out, ev.Request.URL)
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	call := func(_ any, err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	call(chromedp.Call(tab, network.Enable, network.EnableParams{}))
	call(chromedp.Call(tab, log.Enable, cdp.Empty{}))
	call(chromedp.Call(tab, runtime.Enable, cdp.Empty{}))
	s.do(chromedp.EmulateViewport(375, 740, chromedp.EmulateTouch))
	t.Cleanup(func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		if len(s.said)+len(s.out) > 0 {
			t.Errorf("the console says %q; others are asked for %q", s.said, s.out)
		}
	})
	return s
}

func (s *screen) do(a ...chromedp.Action[chromedp.Void]) {
	s.t.Helper()
	limited, cancel := context.WithTimeout(s.ctx, 60*time.Second)
	defer cancel()
	if err := chromedp.Do(limited, a...); err != nil {
		s.t.Fatal(err)
	}
}

// eval gives what an expression comes to, as JSON has it.
func eval[T any](s *screen, js string) T {
	s.t.Helper()
	v, err := try[T](s, js)
	for range 3 {
		if err == nil || s.ctx.Err() != nil {
			break
		}
		time.Sleep(100 * time.Millisecond) // the page was left for the next one meanwhile
		v, err = try[T](s, js)
	}
	if err != nil {
		s.t.Fatalf("%s: %v", js, err)
	}
	return v
}

// try is eval for what may well fail, as on a page that is left for the next one.
func try[T any](s *screen, js string) (T, error) {
	limited, cancel := context.WithTimeout(s.ctx, 20*time.Second)
	defer cancel()
	return chromedp.Run(limited, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
}

// until waits for something to be so. No figure of time is asserted but that it comes at all.
func (s *screen) until(what, js string) {
	s.t.Helper()
	for end := time.Now().Add(30 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if yes, err := try[bool](s, "!!("+js+")"); err == nil && yes {
			return
		}
	}
	s.t.Fatalf("%s: never; the page says %s", what, eval[string](s, "document.body.innerText.slice(0, 1500)"))
}

// tap touches what a selector finds whose text begins with words, in its middle, as a finger does.
// A page still moves while it loads, and a touch beside has no effect: it waits for the page, and
// touches again as a person does.
func (s *screen) tap(selector, words string) {
	s.t.Helper()
	q, _ := json.Marshal([]string{selector, words})
	find := fmt.Sprintf(`(([q, w]) => [...document.querySelectorAll(q)].find(e => e.textContent.trim().startsWith(w) && e.offsetParent && !e.disabled && document.readyState === "complete"))(%s)`, q)
	touch := `new Promise(ok => {
		window.untouched = true;
		const e = ` + find + `;
		if (!e) { ok([]); return; }
		addEventListener("click", at => { if (e.contains(at.target)) window.untouched = false; }, { capture: true });
		e.scrollIntoView({ block: "center" });
		requestAnimationFrame(() => { const r = e.getBoundingClientRect(); ok([r.x + r.width / 2, r.y + r.height / 2]); });
	})`
	for range 5 {
		s.until("there is "+selector+" "+words, find)
		at, err := try[[]float64](s, touch)
		if err != nil || len(at) == 0 { // another page was loaded since
			continue
		}
		s.do(chromedp.TapXY(at[0], at[1]))
		for end := time.Now().Add(3 * time.Second); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
			if did, err := try[bool](s, "window.untouched !== true"); err == nil && did { // also on a page loaded since
				return
			}
		}
	}
	s.t.Fatalf("%s %s is touched without effect; the page says %s", selector, words, eval[string](s, "document.body.innerText.slice(0, 1500)"))
}

// size types a size on the keypad at a place and a clock position, and takes it.
func (s *screen) size(place, clock, size string) {
	s.t.Helper()
	s.tap("#measure .pick label", place)
	s.tap("#measure .pick label", clock)
	for _, k := range size {
		s.tap("#keys button", string(k))
	}
	s.until("the keypad shows "+size, `document.getElementById("size").textContent === "`+size+`"`)
	s.tap("#put", "")
}

func (s *screen) by(name string) {
	s.t.Helper()
	eval[bool](s, `(() => { const b = document.getElementById("by"); b.value = "`+name+`"; b.dispatchEvent(new Event("input")); return true; })()`)
}

// toMeasure goes on by the big button until there is something to measure.
func (s *screen) toMeasure() {
	s.t.Helper()
	for range 40 {
		if eval[bool](s, `!!document.getElementById("measure")`) {
			return
		}
		was := eval[string](s, `location.search`)
		s.tap(".go .next", "")
		s.until("the next task", `location.search !== "`+was+`" && document.readyState === "complete"`)
	}
	s.t.Fatal("nothing to measure comes")
}

const atTop = `document.getElementById("news").innerText`

// TestBoredByTouch bores a job through all its stops on a telephone. Each entry is held against
// the results file, each next setting against the planner.
func TestBoredByTouch(t *testing.T) {
	ctx := browse(t)
	dir := shop(t)
	_, web := open(t, dir, Options{}, nil)
	s := newScreen(t, ctx, web)
	s.do(chromedp.Navigate(web.URL + "/"))
	s.tap("a.job", "SW-58")
	path := filepath.Join(dir, "SW-58.toml")
	for stop := range 4 {
		p, err := jobfile.PlanOf(path)
		if err != nil {
			t.Fatal(err)
		}
		b, q, ok := record.Next(p, "")
		if !ok {
			break
		}
		first := b.Visits[0].Passes[0]
		s.until("the setting of the planner", fmt.Sprintf(`document.querySelector("tbody td:nth-child(3)").textContent === "%s"`, p.Job.Units.Format(first.Setting.Length())))
		s.toMeasure()
		size := p.Job.Units.Format(q.Expected.Length())
		near := "near end"
		if q.Band != nil {
			near = "in the band"
		}
		s.size(near, "12 - 6", size)
		s.size(near, "3 - 9", size)
		if q.Band != nil {
			for _, h := range []string{"12", "3", "6", "9"} {
				s.tap("#measure fieldset:nth-of-type(3) label", h)
			}
		}
		if stop == 0 {
			if !eval[bool](s, `document.getElementById("keep").disabled`) {
				t.Error("it keeps without a name")
			}
			s.by("A. Hand")
		}
		s.tap("#keep", "Keep 2 readings")
		s.until("it is kept", atTop+`.startsWith("Kept: pass `+fmt.Sprint(q.N)+`")`)
		all := entriesOf(t, dir)
		if len(all) != stop+1 || all[stop].By != "A. Hand" || all[stop].Pass != q.N || len(all[stop].Sizes) != 2 || p.Job.Units.Format(all[stop].Mean().Length()) != size {
			t.Fatalf("after stop %d: %+v", stop, all)
		}
	}
	s.until("it is finished", `document.body.innerText.includes("Every bore is finished")`)
	if n := len(entriesOf(t, dir)); n != 3 {
		t.Errorf("%d entries for three stops", n)
	}
	// A slip on the way back: the finish is measured again, with two digits changed.
	s.tap(".cuts a", "Measure again")
	s.size("near end", "12 - 6", "92.81")
	s.tap("#keep", "Keep 1 reading")
	s.until("a slip is asked about", atTop+`.startsWith("Not kept yet")`)
	if n := len(entriesOf(t, dir)); n != 3 {
		t.Errorf("the slip was entered: %d entries", n)
	}
	s.tap("#news button", "Change it")
	s.until("it is left", `!`+atTop)
	s.tap("#readings button", "Take out")
	s.size("near end", "12 - 6", "92.015")
	s.tap("#keep", "Keep 1 reading")
	s.until("a replacement is asked about", atTop+`.startsWith("Not kept yet")`)
	s.tap("#news button", "It is right")
	s.until("it is kept", atTop+`.startsWith("Kept: pass 4")`)
	s.until("both stand there", `document.querySelector(".cuts .replaced").innerText.includes("replaced by A. Hand")`)
}

// TestTwoScreens: what one screen enters stands on the other without a touch, and an entry of
// the same pass is asked about.
func TestTwoScreens(t *testing.T) {
	ctx := browse(t)
	dir := shop(t)
	_, web := open(t, dir, Options{}, nil)
	a, b := newScreen(t, ctx, web), newScreen(t, ctx, web)
	for _, s := range []*screen{a, b} {
		s.do(chromedp.Navigate(web.URL + "/mill/SW-58.toml"))
		s.toMeasure()
	}
	b.size("in the band", "12 - 6", "90.336")
	a.size("in the band", "12 - 6", "90.338")
	a.tap("#measure fieldset:nth-of-type(3) label", "12")
	a.by("A. Hand")
	a.tap("#keep", "Keep 1 reading")
	a.until("it is kept", atTop+`.startsWith("Kept")`)
	begun := time.Now()
	b.until("the other screen has it", `document.querySelector(".cuts").innerText.includes("A. Hand") && document.querySelector(".task h2").innerText.includes("pass 2")`)
	t.Logf("on the other screen after %v", time.Since(begun).Round(10*time.Millisecond))
}

// cable is a network that can be cut: before a request comes in, or after it was done and
// before the answer gets out.
type cable struct{ cut, deaf atomic.Bool }

func (c *cable) through(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if c.cut.Load() {
			panic(http.ErrAbortHandler)
		}
		if c.deaf.Load() && r.Method == http.MethodPost {
			next.ServeHTTP(httptest.NewRecorder(), r)
			c.cut.Store(true)
			panic(http.ErrAbortHandler)
		}
		next.ServeHTTP(w, r)
	})
}

// TestNetworkCut: what is entered without a network stays on the device, also when its page is
// closed, is sent when the network is back, and is entered once though an answer was lost.
func TestNetworkCut(t *testing.T) {
	ctx := browse(t)
	for _, lost := range []string{"the way there", "the way back"} {
		dir := shop(t)
		c := &cable{}
		_, web := open(t, dir, Options{}, c.through)
		s := newScreen(t, ctx, web)
		s.do(chromedp.Navigate(web.URL + "/mill/SW-58.toml"))
		s.toMeasure()
		s.size("in the band", "12 - 6", "90.338")
		s.tap("#measure fieldset:nth-of-type(3) label", "12")
		s.by("A. Hand")
		want := 0
		if lost == "the way back" {
			c.deaf.Store(true)
			want = 1
		} else {
			c.cut.Store(true)
		}
		s.tap("#keep", "Keep 1 reading")
		s.until("it says that it is not kept", atTop+`.includes("stays on this device")`)
		if n := len(entriesOf(t, dir)); n != want {
			t.Errorf("%s: %d entries while it is cut", lost, n)
		}
		s.until("it tries again", `performance.getEntriesByType("resource").filter(e => e.name.includes("/enter/")).length > 1`)
		s.do(chromedp.Navigate("about:blank")) // the page is closed
		s.mu.Lock()
		s.out = nil
		s.mu.Unlock()
		c.deaf.Store(false)
		c.cut.Store(false)
		s.do(chromedp.Navigate(web.URL + "/mill/SW-58.toml"))
		s.until("it is kept", atTop+`.startsWith("Kept")`)
		all := entriesOf(t, dir)
		if len(all) != 1 || all[0].By != "A. Hand" {
			t.Errorf("%s: %+v", lost, all)
		}
		if n := eval[int](s, `JSON.parse(localStorage.getItem("waits SW-58.toml")).length`); n != 0 {
			t.Errorf("%s: %d entries still wait", lost, n)
		}
	}
}

// TestPagesAreForAll looks at each page at three widths, on white and in the dark: the rules of
// axe-core with contrast of 7:1, nothing wider than the screen, nothing to touch that is
// smaller than 48 pixels.
func TestPagesAreForAll(t *testing.T) {
	ctx := browse(t)
	rules := browser.Rules(t)
	dir := shop(t)
	revise(t, dir)
	s0, web := open(t, dir, Options{}, nil)
	if err := s0.keep("SW-58.toml", seat("00000000001a")); err != nil {
		t.Fatal(err)
	}
	c := client(t)
	for _, do := range []string{"approve", "withdraw", "approve"} {
		_, text, _ := get(t, c, web.URL+"/compare/SW-58-B.toml?with=SW-58.toml")
		send(t, c, web.URL+"/approve/SW-58-B.toml", formOf(t, text, "R. Dale", do))
	}
	s := newScreen(t, ctx, web)
	for _, look := range []string{"light", "dark"} {
		s.do(chromedp.Navigate(web.URL + "/look/" + look))
		for _, page := range []string{"/", "/mill/winch/WG-204.toml", "/mill/winch/WG-204.toml?at=2&of=0", "/mill/winch/WG-204.toml?at=3&of=0", "/mill/winch/WG-204.toml?at=4&of=0", "/mill/SW-58.toml", "/compare/SW-58-B.toml", "/compare/SW-58-B.toml?with=SW-58.toml", "/record/SW-58.toml", "/card/SW-58.toml", "/desk/winch/WG-204.toml", "/mill/torn.toml", "/mill/none.toml"} {
			// Loaded once: what a page is on another width is by its style alone.
			s.do(chromedp.EmulateViewport(375, 900), chromedp.Navigate(web.URL+page))
			if got := eval[string](s, `document.documentElement.className`); (got == "dark") != (look == "dark") {
				t.Fatalf("%s: the page is %q, %s expected", page, got, look)
			}
			for _, wide := range []int64{375, 820, 1280} {
				name := fmt.Sprintf("%s, %s at %d", page, look, wide)
				s.do(chromedp.EmulateViewport(wide, 900))
				if is := eval[int64](s, `innerWidth`); is != wide {
					t.Fatalf("%s: the screen is %d wide", name, is)
				}
				if file := os.Getenv("LOOK"); file != "" {
					shot, err := chromedp.Run(s.ctx, chromedp.FullScreenshot(100))
					if err == nil {
						os.WriteFile(filepath.Join(file, strings.NewReplacer("/", "_", "?", "_", ", ", "_", " ", "_").Replace(name)+".png"), shot, 0o644)
					}
				}
				for _, f := range eval[[]string](s, `(() => {
					const out = [], w = document.documentElement.clientWidth;
					if (document.documentElement.scrollWidth > w) out.push("the page is " + document.documentElement.scrollWidth + " wide");
					for (const e of document.querySelectorAll("a, button, input:not([type=radio]):not([type=checkbox]), .pick label")) {
						const r = e.getBoundingClientRect();
						if (r.width > 0 && (r.width < 48 || r.height < 48)) out.push("too small to touch: " + e.outerHTML.slice(0, 80) + " " + r.width + " by " + r.height);
					}
					return out;
				})()`) {
					t.Errorf("%s: %s", name, f)
				}
				if rules == "" || wide > 375 && !slow.Long() { // they go by words, roles and colours, the same on every screen
					continue
				}
				limited, cancel := context.WithTimeout(s.ctx, 60*time.Second)
				options := `{ rules: { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } } }`
				if look == "dark" && !slow.Long() { // the same page in other colours
					options = `{ runOnly: ["color-contrast", "color-contrast-enhanced"] }`
				}
				violations, err := browser.Violations(limited, rules, "document", options)
				cancel()
				if err != nil {
					t.Fatal(name, err)
				}
				for _, v := range violations {
					t.Errorf("%s: %s", name, v)
				}
			}
		}
	}
}
