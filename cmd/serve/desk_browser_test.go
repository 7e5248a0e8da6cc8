package serve

import (
	"bytes"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"borewright/cmd/jobfile"
)

// field finds what a figure is filled in by, in the form or beside the drawing.
func field(where, path string) string {
	return fmt.Sprintf(`[...document.querySelectorAll(%q)].find(e => e.dataset.path === %q)`, where+" [data-path]", path)
}

// fill fills a figure in as fingers do: what stands there is marked, and typed over.
func (s *screen) fill(path, text string) {
	s.t.Helper()
	s.until("there is "+path, field("#form", path))
	eval[bool](s, `(() => { const e = `+field("#form", path)+`; e.focus(); if (e.select) e.select(); return true; })()`)
	if eval[string](s, field("#form", path)+`.tagName`) == "SELECT" {
		eval[bool](s, fmt.Sprintf(`(() => { const e = %s; e.value = %q; e.dispatchEvent(new Event("input", { bubbles: true })); return true; })()`, field("#form", path), text))
		return
	}
	s.do(chromedp.KeyEvent(text))
}

// wrong is what stands at a figure.
func wrong(path string) string {
	return fmt.Sprintf(`[...document.querySelectorAll("[data-wrong]")].find(e => e.dataset.wrong === %q).textContent`, path)
}

const drawn = `document.getElementById("picture").textContent`

// TestDeskInBrowser drags a figure, makes a mistake and mends it, adds a figure, saves, and meets
// the save of another.
func TestDeskInBrowser(t *testing.T) {
	ctx := browse(t)
	dir := shop(t)
	_, web := open(t, dir, Options{}, nil)
	s := newScreen(t, ctx, web)
	s.do(chromedp.EmulateViewport(1280, 900))
	s.do(chromedp.Navigate(web.URL + "/desk/winch/WG-204.toml"))
	was := readOf(t, dir, "winch/WG-204.toml")
	s.until("the script is there", `!document.getElementById("do").hidden`)
	// A slider, by the keyboard: two steps of a sixteenth.
	eval[bool](s, field("#slides", "bar.steps[1].diameter")+`.focus() || true`)
	s.do(chromedp.KeyEvent(kb.ArrowRight + kb.ArrowRight))
	s.until("the drawing follows", drawn+`.includes("Ø2.3750")`)
	s.until("the figures follow", `document.querySelectorAll("#moves .moved").length > 0`)
	if v := eval[string](s, field("#form", "bar.steps[1].diameter")+`.value`); v != "2.375" {
		t.Errorf("the form has %s", v)
	}
	// A mistake, in the words of the loader, at its figure.
	s.fill("cutter.lead", "900")
	s.until("the mistake stands there", wrong("cutter.lead")+`.startsWith("900° is out of range; allowed is 30 to 95°")`)
	if !eval[bool](s, field("#form", "cutter.lead")+`.getAttribute("aria-invalid") === "true" && !document.getElementById("stale").hidden`) {
		t.Error("the figure is not marked, or the drawing not told to be of before")
	}
	s.tap("#save", "")
	s.until("it is not to be saved", `document.getElementById("ask").open && document.getElementById("why").textContent.includes("900°") && document.getElementById("write").hidden`)
	s.tap("#close", "")
	s.fill("cutter.lead", "75")
	s.until("it is mended", wrong("cutter.lead")+` === "" && document.getElementById("stale").hidden`)
	// A figure more.
	eval[bool](s, `(() => { const g = [...document.querySelectorAll(".group")].find(e => e.dataset.group === "station[1]"), a = g.querySelector("[data-add]"); a.value = "station[1].swept"; return true; })()`)
	eval[bool](s, `(() => { [...document.querySelectorAll(".group")].find(e => e.dataset.group === "station[1]").querySelector("[data-puts]").click(); return true; })()`)
	s.fill("station[1].swept", "true")
	s.until("it is drawn", drawn+`.includes("bearing wall, sweep")`)
	// What changes is shown, and then written.
	s.tap("#save", "")
	s.until("the changes are shown", `document.getElementById("ask").open && document.querySelectorAll("#lines .old").length === 2 && document.querySelectorAll("#lines .new").length === 2`)
	if now := readOf(t, dir, "winch/WG-204.toml"); !bytes.Equal(now, was) {
		t.Fatal("it is written before it is asked for")
	}
	eval[bool](s, `(() => { document.getElementById("by").value = "A. Hand"; return true; })()`)
	s.tap("#write", "")
	s.until("it is saved", atTop+`.startsWith("Saved")`)
	want := bytes.Replace(bytes.Replace(was, []byte("diameter = 2.25,"), []byte("diameter = 2.375,"), 1), []byte("diameter = 3.9370 }"), []byte("diameter = 3.9370, swept = true }"), 1)
	if now := readOf(t, dir, "winch/WG-204.toml"); !bytes.Equal(now, want) {
		t.Fatalf("saved is\n%s", now)
	}
	// Another desk, with the file before the next save.
	other := newScreen(t, ctx, web)
	other.do(chromedp.EmulateViewport(820, 900), chromedp.Navigate(web.URL+"/desk/winch/WG-204.toml"))
	other.until("the script is there", `!document.getElementById("do").hidden`)
	s.until("the script is there", `!document.getElementById("do").hidden`)
	s.fill("revision", "D")
	other.fill("cutter.rake", "8")
	for _, x := range []*screen{s, other} {
		x.tap("#save", "")
		x.until("the changes are shown", `document.getElementById("ask").open`)
	}
	s.tap("#write", "")
	s.until("it is saved", atTop+`.startsWith("Saved") && document.querySelector("h1").innerText.startsWith("WG-204 D,")`)
	other.tap("#write", "")
	other.until("it is refused", atTop+`.includes("changed by A. Hand") && `+atTop+`.includes("revision = \"D\"")`)
	other.tap("#news button", "Load it anew")
	other.until("both stand there", field("#form", "revision")+`.value === "D" && `+field("#form", "cutter.rake")+`.value === "8"`)
	other.tap("#save", "")
	other.until("the changes are shown", `document.getElementById("ask").open && document.querySelectorAll("#lines .new").length === 1`)
	other.tap("#write", "")
	other.until("it is saved", atTop+`.startsWith("Saved")`)
	want = bytes.Replace(bytes.Replace(want, []byte(`revision = "C"`), []byte(`revision = "D"`), 1), []byte("rake        = 10"), []byte("rake        = 8"), 1)
	if now := readOf(t, dir, "winch/WG-204.toml"); !bytes.Equal(now, want) {
		t.Fatalf("saved is\n%s", now)
	}
}

// TestOlderAnswerStaysOut: an answer that was asked for earlier and comes later shows nothing.
func TestOlderAnswerStaysOut(t *testing.T) {
	ctx := browse(t)
	dir := shop(t)
	var held, let atomic.Int32
	free := make(chan struct{})
	release := sync.OnceFunc(func() { close(free) })
	_, web := open(t, dir, Options{}, func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if r.Method == http.MethodPost && held.CompareAndSwap(0, 1) {
				<-free
				defer let.Add(1)
			}
			next.ServeHTTP(w, r)
		})
	})
	t.Cleanup(release) // before the server is closed
	s := newScreen(t, ctx, web)
	s.do(chromedp.Navigate(web.URL + "/desk/winch/WG-204.toml"))
	s.until("the script is there", `!document.getElementById("do").hidden`)
	s.fill("bar.steps[1].diameter", "2.5")
	for end := time.Now().Add(20 * time.Second); held.Load() == 0 && time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
	}
	s.fill("bar.steps[1].diameter", "2.125")
	s.until("the newer one is drawn", drawn+`.includes("Ø2.1250")`)
	release()
	for end := time.Now().Add(20 * time.Second); let.Load() == 0 && time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
	}
	time.Sleep(300 * time.Millisecond)
	if !eval[bool](s, drawn+`.includes("Ø2.1250")`) || let.Load() == 0 {
		t.Error("the older answer took its place")
	}
}

// TestKeyToPicture tells how long it takes from a key to the picture and to the passes, in a job of one
// bore and in one of several. No time is asserted.
func TestKeyToPicture(t *testing.T) {
	ctx := browse(t)
	dir := shop(t)
	for name, from := range map[string]string{"several.toml": "gear-case"} {
		data := readOf(t, filepath.Join("..", "..", "testdata", "jobs", from), "job.toml")
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	_, web := open(t, dir, Options{}, nil)
	s := newScreen(t, ctx, web)
	for _, name := range []string{"winch/WG-204.toml", "several.toml"} {
		s.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(web.URL+"/desk/"+name))
		s.until("the script is there", `!document.getElementById("do").hidden`)
		times := eval[[][]float64](s, `(async () => {
			const slide = document.querySelector("#slides input[type=range]"), all = [];
			const seen = id => new Promise(ok => new MutationObserver((_, o) => { o.disconnect(); requestAnimationFrame(() => ok(performance.now())); }).observe(document.getElementById(id), { childList: true }));
			for (let i = 0; i < 15; i++) {
				const picture = seen("picture"), plan = seen("plan"), begun = performance.now();
				i % 2 ? slide.stepDown() : slide.stepUp();
				slide.dispatchEvent(new Event("input", { bubbles: true }));
				all.push([await picture - begun, await plan - begun]);
				await new Promise(ok => setTimeout(ok, 100));
			}
			const middle = k => all.map(x => x[k]).sort((a, b) => a - b);
			return [middle(0), middle(1)];
		})()`)
		for i, what := range []string{"picture", "passes"} {
			t.Logf("%s, key to %s: least %.0f, middle %.0f, most %.0f ms", name, what, times[i][0], times[i][7], times[i][14])
		}
	}
}

// at goes on by the tab key until what an expression finds has the focus.
func (s *screen) at(what, find string) {
	s.t.Helper()
	for range 400 {
		if eval[bool](s, `document.activeElement === (`+find+`)`) {
			return
		}
		s.do(chromedp.KeyEvent(kb.Tab))
	}
	s.t.Fatalf("the tab key does not come to %s", what)
}

// TestJobByTheKeyboard begins a job, fills it in, adds a figure and saves it, by the keyboard alone.
func TestJobByTheKeyboard(t *testing.T) {
	ctx := browse(t)
	dir := shop(t)
	_, web := open(t, dir, Options{}, nil)
	s := newScreen(t, ctx, web)
	s.do(chromedp.EmulateViewport(1280, 900), chromedp.Navigate(web.URL+"/"))
	s.at("the number", `document.getElementById("name")`)
	s.do(chromedp.KeyEvent("HP-9"), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent("m"), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent(kb.Enter))
	s.until("the form is there", `location.pathname === "/desk/HP-9.toml" && !document.getElementById("do").hidden`)
	for path, text := range map[string]string{"title": "Hand pump: rebore", "revision": "B", "bar.steps[1].diameter": "56"} {
		s.at(path, field("#form", path))
		s.do(chromedp.KeyEvent(text))
		s.until(path+" is taken", field("#form", path)+`.value === "`+text+`"`)
	}
	group := `[...document.querySelectorAll(".group")].find(e => e.dataset.group === "cutter")`
	s.at("figures to add", group+`.querySelector("[data-add]")`)
	s.do(chromedp.KeyEvent("edge"), chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent(kb.Enter))
	s.until("it is to be filled in", `document.activeElement === `+field("#form", "cutter.edge_radius"))
	s.do(chromedp.KeyEvent("0.02"))
	s.until("it is worked out", drawn+`.includes("Ø56.000") && document.querySelectorAll("[aria-invalid=true]").length === 0`)
	s.at("save", `document.getElementById("save")`)
	s.do(chromedp.KeyEvent(kb.Enter))
	s.until("the changes are shown", `document.getElementById("ask").open`)
	s.at("write", `document.getElementById("write")`)
	s.do(chromedp.KeyEvent(kb.Enter))
	s.until("it is saved", atTop+`.startsWith("Saved")`)
	p, err := jobfile.PlanOf(filepath.Join(dir, "HP-9.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if j := p.Job; j.Number != "HP-9" || j.Title != "Hand pump: rebore" || j.Revision != "B" || j.Bar.Steps[1].Diameter.Length().MM() != 56 || j.Cutter.EdgeRadius.MM() != 0.02 || j.Units.String() != "mm" {
		t.Errorf("saved is\n%s", readOf(t, dir, "HP-9.toml"))
	}
	s.until("it is shown so", field("#form", "title")+`.value === "Hand pump: rebore"`)
}
