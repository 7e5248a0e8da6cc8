package main

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"borewright/cmd/browser"
	"borewright/process/slow"
)

// stamp is what every page of a sheet that nothing is to be cut from says.
var stamp = regexp.MustCompile(`class="stamp">(NOT [A-Z]+)`)

// TestPagesInBrowser opens the HTML of every example in a browser and prints
// it on both papers: nothing said on the console, nothing asked of a network,
// nothing wider than the paper, as many pages as expected, job and page number
// on each.
func TestPagesInBrowser(t *testing.T) {
	slow.Test(t, "prints every sheet twice in a browser")
	ctx := browser.Start(t)
	t.Chdir("../..")
	dir := t.TempDir()
	var mu sync.Mutex
	var said, asked []string
	err := chromedp.Listen(ctx, func(ev any) {
		mu.Lock()
		defer mu.Unlock()
		switch ev := ev.(type) {
		case *runtime.EventConsoleAPICalled:
			said = append(said, string(ev.Type))
		case *runtime.EventExceptionThrown:
			said = append(said, "exception: "+ev.ExceptionDetails.Text)
		case *log.EventEntryAdded:
			said = append(said, ev.Entry.Text)
		case *network.EventRequestWillBeSent:
			asked = append(asked, ev.Request.URL)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, log.Enable, cdp.Empty{}); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, runtime.Enable, cdp.Empty{}); err != nil {
		t.Fatal(err)
	}
	// As they stand in golden: TestGolden holds what is made to them.
	sheets := map[string]string{}
	for _, name := range []string{"sheets/winch", "sheets/pump", "sheets/stopped", "sheets/crowded", "prove/winch-spoiled", "prove/gear-case-web"} {
		data, err := os.ReadFile(filepath.Join("golden", name+".html"))
		if err != nil {
			t.Fatal(err)
		}
		sheets[name] = string(data)
	}
	for _, e := range examples {
		data, err := os.ReadFile(filepath.Join("golden", e.golden, "sheet.html"))
		if err != nil {
			t.Fatal(err)
		}
		sheets[e.golden] = string(data)
	}
	for name, html := range sheets {
		path := filepath.Join(dir, "sheet.html")
		if err := os.WriteFile(path, []byte(html), 0o666); err != nil {
			t.Fatal(err)
		}
		mu.Lock()
		said, asked = nil, nil
		mu.Unlock()
		home := (&url.URL{Scheme: "file", Path: path}).String()
		limited, cancel := context.WithTimeout(ctx, 60*time.Second)
		if err := chromedp.Do(limited, chromedp.Navigate(home)); err != nil {
			t.Fatal(name, err)
		}
		for _, paper := range []struct {
			name string
			wide int64 // of the column of text, CSS pixels
			size chromedp.PaperSize
		}{{"A4", 695, chromedp.PaperA4}, {"Letter", 717, chromedp.PaperLetter}} {
			tooWide(t, limited, name+" on "+paper.name, paper.wide)
			pdf, err := chromedp.Run(limited, chromedp.PrintToPDF(chromedp.PDFPaper(paper.size), chromedp.PDFPreferCSSPageSize()))
			if err != nil {
				t.Fatal(name, err)
			}
			printed(t, name, paper.name, html, pdf)
		}
		cancel()
		mu.Lock()
		if len(said) > 0 {
			t.Errorf("%s: the console says %q", name, said)
		}
		for _, u := range asked {
			if u != home {
				t.Errorf("%s: asks for %s", name, u)
			}
		}
		mu.Unlock()
	}
}

// tooWide reports what would be cut off at the right edge of the paper.
func tooWide(t *testing.T, ctx context.Context, name string, wide int64) {
	t.Helper()
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(wide, 1000)); err != nil {
		t.Fatal(err)
	}
	out, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`(() => {
		const w = document.documentElement.clientWidth, out = [];
		if (document.documentElement.scrollWidth > w) out.push("the page: " + document.documentElement.scrollWidth + " of " + w);
		for (const e of document.querySelectorAll("body *")) {
			const r = e.getBoundingClientRect();
			if (r.width > 0 && (r.right > w + 1 || r.left < -1) && !e.closest("svg")) out.push(e.tagName + " " + e.className + " " + r.left + " to " + r.right + ": " + e.textContent.slice(0, 40));
		}
		for (const e of document.querySelectorAll("svg text")) {
			const r = e.getBoundingClientRect(), s = e.closest("svg").getBoundingClientRect();
			if (r.right > s.right + 2 || r.left < s.left - 2 || r.top < s.top - 2 || r.bottom > s.bottom + 2) out.push("drawing: " + e.textContent);
		}
		return out.slice(0, 5);
	})()`))
	if err != nil {
		t.Fatal(name, err)
	}
	for _, o := range out {
		t.Errorf("%s: cut off: %s", name, o)
	}
}

// printed looks at what the browser printed, through poppler.
func printed(t *testing.T, name, paper, html string, pdf []byte) {
	t.Helper()
	tool := browser.Program(t, "package poppler-utils", "pdftotext")
	path := filepath.Join(t.TempDir(), "printed.pdf")
	if err := os.WriteFile(path, pdf, 0o666); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	key := fmt.Sprintf("%s on %s", name, paper)
	if want := htmlPages[key]; len(pages) != want {
		t.Errorf("%s: prints on %d pages, %d expected", key, len(pages), want)
	}
	for i, p := range pages {
		foot := "page " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(pages))
		if !strings.Contains(p, foot) {
			t.Errorf("%s: page %d does not say %q", key, i+1, foot)
		}
		if m := stamp.FindStringSubmatch(html); m != nil && !strings.Contains(p, m[1]) {
			t.Errorf("%s: page %d does not say %s", key, i+1, m[1])
		}
	}
	// Every item of a list comes out whole.
	flat := strings.Join(strings.Fields(regexp.MustCompile(`page \d+ of \d+`).ReplaceAllString(string(out), "")), "")
	for _, m := range regexp.MustCompile(`<li>(?:<label><input[^>]*>)?([^<]*)(?:</label>)?</li>`).FindAllStringSubmatch(html, -1) {
		words := strings.Join(strings.Fields(unescape.Replace(m[1])), "")
		if len(words) > 40 {
			words = words[:40] // an item may go on over a page's end
		}
		if !strings.Contains(flat, words) {
			t.Errorf("%s: lost in print: %s", key, m[1])
		}
	}
}

var unescape = strings.NewReplacer("&#39;", "'", "&#34;", `"`, "&lt;", "<", "&gt;", ">", "&amp;", "&")

// htmlPages is how many pages each sheet prints on. A number that changes is
// a page to be looked at.
var htmlPages = map[string]int{
	"ferry-ramp on A4":              25,
	"ferry-ramp on Letter":          25,
	"gear-case on A4":               33,
	"gear-case on Letter":           35,
	"hand-pump on A4":               14,
	"hand-pump on Letter":           15,
	"lock-winch on A4":              22,
	"lock-winch on Letter":          22,
	"lock-winch-manual on A4":       22,
	"lock-winch-manual on Letter":   25,
	"log-haul on A4":                36,
	"log-haul on Letter":            38,
	"reel-stand on A4":              11,
	"reel-stand on Letter":          11,
	"net-hauler on A4":              26,
	"net-hauler on Letter":          26,
	"prove/gear-case-web on A4":     2,
	"prove/gear-case-web on Letter": 2,
	"prove/winch-spoiled on A4":     4,
	"prove/winch-spoiled on Letter": 4,
	"sheets/crowded on A4":          10,
	"sheets/crowded on Letter":      11,
	"sheets/pump on A4":             10,
	"sheets/pump on Letter":         11,
	"sheets/stopped on A4":          6,
	"sheets/stopped on Letter":      6,
	"slip-winch on A4":              10,
	"slip-winch on Letter":          11,
	"tide-pump on A4":               23,
	"tide-pump on Letter":           23,
	"swing-bridge-near on A4":       11,
	"swing-bridge-near on Letter":   12,
	"swing-bridge-far on A4":        12,
	"swing-bridge-far on Letter":    12,
	"swing-bridge-both on A4":       22,
	"swing-bridge-both on Letter":   22,
	"wheel-shaft on A4":             25,
	"wheel-shaft on Letter":         27,
	"sheets/winch on A4":            10,
	"sheets/winch on Letter":        12,
}
