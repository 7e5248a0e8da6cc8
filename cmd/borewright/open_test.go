package main

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"net/url"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"borewright/cmd/browser"
	"borewright/process/slow"
)

// axeWidest is the widest screen that the rules of axe-core are tried on: they go by words,
// roles and colours, which are the same on every screen; in the long form it is any.
func axeWidest() int64 {
	if slow.Long() {
		return 1280
	}
	return 375
}

// TestPagesAreOpenToAll looks at the HTML as somebody without a mouse, with a reader of
// screens, or with a telephone does: the rules of axe-core (WCAG 2 A and AA and its
// best practice), letters of drawings that can be read at 375 pixels, nothing that has to be
// scrolled and cannot be reached, and boxes that stay ticked.
func TestPagesAreOpenToAll(t *testing.T) {
	slow.Test(t, "looks at every sheet at three widths in a browser")
	rules := browser.Rules(t)
	ctx := browser.Start(t)
	t.Chdir("../..")
	pages, err := filepath.Glob("golden/*/sheet.html")
	for _, more := range []string{"golden/sheets/*.html", "golden/prove/*.html", "golden/*/record.html", "golden/*/*.html"} {
		found, _ := filepath.Glob(more)
		for _, f := range found {
			if !strings.Contains(strings.Join(pages, "\n")+"\n", f+"\n") {
				pages = append(pages, f)
			}
		}
	}
	if err != nil || len(pages) < 10 {
		t.Fatal(pages, err)
	}
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "screen",
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "light"}}}); err != nil {
		t.Fatal(err)
	}
	looks := map[string]bool{}
	for _, page := range pages {
		path, err := filepath.Abs(page)
		if err != nil {
			t.Fatal(err)
		}
		limited, cancel := context.WithTimeout(ctx, 90*time.Second)
		// Loaded once: what a page is on another width is by its style alone.
		if err := chromedp.Do(limited, chromedp.EmulateViewport(375, 900), chromedp.Navigate((&url.URL{Scheme: "file", Path: path}).String())); err != nil {
			t.Fatal(page, err)
		}
		for _, wide := range []int64{375, 820, 1280} {
			name := fmt.Sprintf("%s at %d", page, wide)
			if err := chromedp.Do(limited, chromedp.EmulateViewport(wide, 900)); err != nil {
				t.Fatal(name, err)
			}
			if is, err := chromedp.Run(limited, chromedp.Evaluate[int64](`innerWidth`)); err != nil || is != wide {
				t.Fatalf("%s: the screen is %d wide: %v", name, is, err)
			}
			found, err := chromedp.Run(limited, chromedp.Evaluate[[]string](lookAtPage))
			if err != nil {
				t.Fatal(name, err)
			}
			for _, f := range found {
				t.Errorf("%s: %s", name, f)
			}
			if rules == "" || wide > axeWidest() {
				continue
			}
			options := "{}"
			if !slow.Long() {
				options = `{ rules: { "color-contrast": { enabled: false } } }`
			}
			violations, err := browser.Violations(limited, rules, "document", options)
			if err == nil && !slow.Long() {
				var faint []string
				faint, err = contrasts(limited, rules, looks)
				violations = append(violations, faint...)
			}
			if err != nil {
				t.Fatal(name, err)
			}
			for _, v := range violations {
				t.Errorf("%s: %s", name, v)
			}
		}
		kept, err := chromedp.Run(limited, chromedp.Evaluate[int](`(() => { const b = document.querySelectorAll("input.box"); if (b.length > 1) b[1].click(); return b.length; })()`))
		if err != nil {
			t.Fatal(page, err)
		}
		// A busy browser may load the page again before it has stored the tick: nobody is that
		// quick by hand.
		var ticked string
		for range 10 {
			if err := chromedp.Do(limited, chromedp.Reload()); err != nil {
				t.Fatal(page, err)
			}
			ticked, err = chromedp.Run(limited, chromedp.Evaluate[string](`new Promise(done => {
				const look = () => document.readyState === "complete" ? done([...document.querySelectorAll("input.box")].map(b => +b.checked).join("")) : setTimeout(look, 20);
				look();
			})`, chromedp.EvalAwaitPromise))
			if err != nil || kept < 2 || strings.Contains(ticked, "1") {
				break
			}
		}
		if err != nil || kept > 1 && ticked != "01"+strings.Repeat("0", kept-2) {
			t.Errorf("%s: of %d boxes the second was ticked, and after a reload there is %s, %v", page, kept, ticked, err)
		}
		cancel()
	}
}

// contrasts judges the contrast of text of each look that none had before; in the long form the
// contrast of all text is judged with the other rules, at four times the time. What text looks like
// goes by the style of the page and by names, classes and colours, its own and of all around it.
func contrasts(ctx context.Context, rules string, before map[string]bool) ([]string, error) {
	known, err := json.Marshal(slices.Sorted(maps.Keys(before)))
	if err != nil {
		return nil, err
	}
	looks, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`(before => {
		const style = [...document.querySelectorAll("style")].map(e => e.textContent).join();
		let sum = 0; // of the style, which is long
		for (const c of style) sum = (31 * sum + c.codePointAt(0)) % 4294967291;
		window.fresh = [];
		const looks = [];
		for (const e of document.querySelectorAll("body *")) {
			if (![...e.childNodes].some(n => n.nodeType === Node.TEXT_NODE && n.data.trim())) continue;
			let look = sum + ":";
			for (let a = e; a; a = a.parentElement) look += " " + a.localName + ["class", "style", "fill", "opacity"].map(n => a.hasAttribute(n) ? "/" + a.getAttribute(n) : "").join("");
			if (before.has(look)) continue;
			before.add(look);
			looks.push(look);
			fresh.push(e);
		}
		return looks;
	})(new Set(`+string(known)+`))`))
	if err != nil || len(looks) == 0 {
		return nil, err
	}
	for _, look := range looks {
		before[look] = true
	}
	return browser.Violations(ctx, rules, "{ include: fresh }", `{ runOnly: ["color-contrast"] }`)
}

// lookAtPage finds what is wider than the page, boxes to scroll that no key reaches, and
// letters of drawings below 9 pixels.
const lookAtPage = `(() => {
	for (const d of document.querySelectorAll("details")) d.open = true;
	const w = document.documentElement.clientWidth, out = [];
	if (document.documentElement.scrollWidth > w) out.push("the page is " + document.documentElement.scrollWidth + " wide");
	for (const e of document.querySelectorAll("body *")) {
		if (e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX === "auto" && e.tabIndex < 0) out.push("no key scrolls " + e.className + ": " + e.textContent.slice(0, 40));
	}
	let small = 99, what = "";
	for (const e of document.querySelectorAll("svg text")) {
		const m = e.getScreenCTM(), px = parseFloat(getComputedStyle(e).fontSize) * Math.hypot(m.a, m.b);
		if (px < small && e.textContent.trim()) { small = px; what = e.textContent; }
	}
	if (small < 8) out.push("letters of " + small.toFixed(1) + " pixels in a drawing: " + what);
	for (const e of document.querySelectorAll("th")) if (!e.textContent.trim()) out.push("a header cell has no name: " + e.closest("table").textContent.slice(0, 60));
	return out;
})()`
