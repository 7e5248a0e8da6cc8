package serve

import (
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"borewright/cmd/jobfile"
)

// keys presses keys, one after the other, wherever the focus is.
func (s *screen) keys(keys string) {
	s.t.Helper()
	s.do(chromedp.KeyEvent(keys))
}

// tabTo goes on by the tabulator until what has the focus answers; it must be seen to have it.
func (s *screen) tabTo(what, js string) {
	s.t.Helper()
	for range 80 {
		s.keys(kb.Tab)
		if eval[bool](s, `(() => { const e = document.activeElement; return !!(`+js+`); })()`) {
			if !eval[bool](s, `(() => { const e = document.activeElement, o = e.matches(".pick input") ? e.nextElementSibling : e;
				const r = o.getBoundingClientRect(); return getComputedStyle(o).outlineStyle !== "none" && r.width > 0 && r.top >= 0 && r.bottom <= innerHeight; })()`) {
				s.t.Errorf("%s has the focus, and it does not show", what)
			}
			return
		}
	}
	s.t.Fatalf("the tabulator does not come to %s", what)
}

// press presses Enter and waits for the next page.
func (s *screen) press() {
	s.t.Helper()
	was := eval[string](s, `location.href`)
	s.keys(kb.Enter)
	s.until("the next page", `location.href !== "`+was+`" && document.readyState === "complete"`)
}

// TestByKeyboardAlone goes from the list of jobs to a stop, enters what the gauge said, looks at
// two revisions and approves one, without a touch.
func TestByKeyboardAlone(t *testing.T) {
	ctx := browse(t)
	dir := shop(t)
	revise(t, dir)
	_, web := open(t, dir, Options{}, nil)
	s := newScreen(t, ctx, web)
	s.do(chromedp.EmulateViewport(1280, 800), chromedp.Navigate(web.URL+"/"))
	s.tabTo("the field to find a job", `e.id === "find"`)
	s.keys("SW-58.toml")
	s.until("one job is listed", `document.querySelectorAll("a.job").length === 1`)
	s.tabTo("the job", `e.matches("a.job")`)
	s.press()
	for range 20 {
		if eval[bool](s, `!!document.getElementById("measure")`) {
			break
		}
		s.tabTo("the next task", `e.matches(".go .next")`)
		s.press()
	}
	p, err := jobfile.PlanOf(filepath.Join(dir, "SW-58.toml"))
	if err != nil {
		t.Fatal(err)
	}
	q := p.Bores[0].Visits[0].Passes[0]
	size := p.Job.Units.Format(q.Expected.Length())
	s.tabTo("the place", `e.name === "place"`)
	s.tabTo("the clock", `e.name === "clock"`)
	s.keys(kb.ArrowRight)
	s.until("the second clock position", `document.querySelectorAll("#clocks input")[1].checked`)
	s.keys(size) // typed where the focus is: the digits go to the size
	s.until("the size shows", `document.getElementById("size").textContent === "`+size+`"`)
	s.tabTo("the key that takes it", `e.id === "put"`)
	s.keys(kb.Enter)
	s.until("it is taken", `document.querySelectorAll("#readings li").length === 1`)
	s.tabTo("where it marked", `e.name === "marked"`)
	s.keys(" ")
	s.tabTo("who measures", `e.id === "by"`)
	s.keys("A. Hand")
	s.tabTo("keep", `e.id === "keep"`)
	s.keys(kb.Enter)
	s.until("it is kept", atTop+`.startsWith("Kept: pass 1")`)
	all := entriesOf(t, dir)
	if len(all) != 1 || all[0].By != "A. Hand" || p.Job.Units.Format(all[0].Mean().Length()) != size || len(all[0].Marked) != 1 {
		t.Fatalf("%+v", all)
	}
	s.do(chromedp.Navigate(web.URL + "/"))
	s.tabTo("the other revision", `e.matches("a.job") && e.textContent.includes("SW-58 B")`)
	s.press()
	s.tabTo("compare", `e.matches("footer a") && e.textContent === "Compare"`)
	s.press()
	s.tabTo("the revision before", `e.matches("a.job") && e.textContent.includes("SW-58 A")`)
	s.press()
	s.tabTo("who approves", `e.id === "by"`)
	if name := eval[string](s, `document.getElementById("by").value`); name != "A. Hand" {
		t.Errorf("the device was told a name, and the form has %q", name)
	}
	s.keys("; B. Hand")
	s.tabTo("approve", `e.value === "approve"`)
	s.press()
	s.until("it is kept", `document.querySelector(".kept").innerText.includes("approved by")`)
	if all := approvalsOf(t, dir); len(all) != 1 || all[0].Against != "SW-58.toml" {
		t.Errorf("%+v", all)
	}
}
