package main

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"image"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"borewright/cmd/browser"
	"borewright/process/slow"
)

// The PDF of every example, as poppler reads and draws it, is held to the HTML
// of the same sheet, whose bytes are golden: every word, every table under its
// head, every stroke of every drawing, and the page itself. What is measured
// here is measured on paper, in mm from the upper left corner.
const (
	inkDots   = 120               // dots an inch of the drawn page
	dot       = 25.4 / inkDots    // mm
	pt        = 25.4 / 72         // mm
	emHeight  = 1.164             // height of a word's box over the size of its type: ascent and descent of DejaVu
	descent   = 0.236             // of which below the base line
	capital   = 0.73              // height of capitals over the size of type
	marginMM  = 12.0              // nothing nearer to the edge: what a printer reaches, and a hole punch spares
	paperWide = 210.0 - marginMM  // of A4, the narrower
	runningMM = 9.0               // the same above and below, for the running head and foot
	paperDeep = 279.4 - runningMM // of Letter, the shorter
	smallest  = 5.0               // points: what is read at a desk
	keySize   = 13.0              // points: what is read at arm's length
	head      = marginMM + 7      // where the running head ends, and
	foot      = 279.4 - 19        // the running foot begins
)

// paperWord is a word on a page.
type paperWord struct {
	s                      string
	left, top, right, base float64
	size                   float64 // points; of a word written upward, nothing
}

// paperPage is a page: its words as they are read, and its ink.
type paperPage struct {
	words []paperWord
	ink   *image.Gray
}

func (p *paperPage) dark(x, y float64) bool {
	i, j := int(x/dot), int(y/dot)
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			if q := (image.Point{i + dx, j + dy}); q.In(p.ink.Rect) && p.ink.GrayAt(q.X, q.Y).Y < 170 {
				return true
			}
		}
	}
	return false
}

// lines are the words of a page line by line, from left to right, without the
// spaces.
func (p *paperPage) lines() (out []paperWord) {
	words := slices.Clone(p.words)
	sort.SliceStable(words, func(i, j int) bool { return words[i].base < words[j].base })
	for len(words) > 0 {
		n := 1
		for n < len(words) && words[n].base-words[0].base < 0.4 {
			n++
		}
		row := words[:n]
		sort.SliceStable(row, func(i, j int) bool { return row[i].left < row[j].left })
		l := row[0]
		l.s = ""
		for _, w := range row {
			l.s += w.s
		}
		out, words = append(out, l), words[n:]
	}
	return out
}

// readPaper has poppler read the words of a PDF and draw its pages.
func readPaper(t *testing.T, pdf string) (pages []paperPage) {
	t.Helper()
	out, err := exec.Command(browser.Program(t, "words and their places", "pdftotext"), "-bbox", pdf, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Pages []struct {
			Words []struct {
				XMin float64 `xml:"xMin,attr"`
				YMin float64 `xml:"yMin,attr"`
				XMax float64 `xml:"xMax,attr"`
				YMax float64 `xml:"yMax,attr"`
				S    string  `xml:",chardata"`
			} `xml:"word"`
		} `xml:"body>doc>page"`
	}
	if err := xml.Unmarshal(out, &doc); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if msg, err := exec.Command(browser.Program(t, "pages drawn", "pdftoppm"), "-r", strconv.Itoa(inkDots), "-gray", pdf, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, msg)
	}
	drawn, _ := filepath.Glob(filepath.Join(dir, "page-*.pgm"))
	sort.Strings(drawn)
	if len(drawn) != len(doc.Pages) {
		t.Fatalf("%d pages of words, %d drawn", len(doc.Pages), len(drawn))
	}
	for i, p := range doc.Pages {
		page := paperPage{ink: grayPicture(t, drawn[i])}
		for _, w := range p.Words {
			high := w.YMax - w.YMin
			q := paperWord{s: w.S, left: w.XMin * pt, top: w.YMin * pt, right: w.XMax * pt, base: (w.YMax - high*descent/emHeight) * pt, size: high / emHeight}
			if len(w.S) > 3 && high > 1.1*(w.XMax-w.XMin) { // written upward
				q.size, q.base = 0, w.YMax*pt
			}
			page.words = append(page.words, q)
		}
		pages = append(pages, page)
	}
	return pages
}

// grayPicture reads the picture that pdftoppm writes unless told otherwise: a
// line each for the kind, the size and the lightest level, then a byte a dot.
func grayPicture(t *testing.T, path string) *image.Gray {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	parts := bytes.SplitN(data, []byte("\n"), 4)
	var w, h int
	if len(parts) < 4 || string(parts[0]) != "P5" || string(parts[2]) != "255" {
		t.Fatalf("%s: a picture of another kind: %.30q", path, data)
	}
	if _, err := fmt.Sscan(string(parts[1]), &w, &h); err != nil || len(parts[3]) != w*h {
		t.Fatalf("%s: %d bytes for %s dots", path, len(parts[3]), parts[1])
	}
	return &image.Gray{Pix: parts[3], Stride: w, Rect: image.Rect(0, 0, w, h)}
}

// TestPaper looks at every page of every example's PDF.
func TestPaper(t *testing.T) {
	browser.Program(t, "pages drawn", "pdftoppm")
	t.Chdir("../..")
	for _, e := range examples[:slow.Rounds(t, "examples drawn page by page", len(examples), 1)] {
		t.Run(e.golden, func(t *testing.T) {
			made := makeInto(t, filepath.Join("testdata", "jobs", e.job))
			pdf := filepath.Join(t.TempDir(), "sheet.pdf")
			if err := os.WriteFile(pdf, []byte(made["sheet.pdf"]), 0o666); err != nil {
				t.Fatal(err)
			}
			pages, want := readPaper(t, pdf), readHTML(t, made["sheet.html"])
			for i := range pages {
				pageIsSound(t, i+1, &pages[i])
			}
			pagesAreUsed(t, e.golden, pages)
			wordsAreThere(t, pages, want)
			tablesHaveHeads(t, pages, want)
			for _, d := range want.drawings {
				drawingIsThere(t, pages, d)
			}
		})
	}
}

// operatorPages is how many pages a person at the machine has at the most.
var operatorPages = map[string]int{"lock-winch": 6, "lock-winch-manual": 6, "hand-pump": 5}

// pagesAreUsed: no page but the last of all is less than a third full, and what is worked
// through at the machine, in front of the annex, is short.
func pagesAreUsed(t *testing.T, golden string, pages []paperPage) {
	t.Helper()
	annex := slices.IndexFunc(pages, func(p paperPage) bool {
		return slices.ContainsFunc(p.lines(), func(l paperWord) bool { return regexp.MustCompile(`^\d+\.Thejob`).MatchString(l.s) })
	})
	if annex < 0 {
		t.Fatal("no page begins the annex")
	}
	if most, known := operatorPages[golden]; known && annex > most {
		t.Errorf("%d pages before the annex, %d at the most", annex, most)
	}
	for n, p := range pages[:len(pages)-1] {
		deep := 0.0
		for _, w := range p.words {
			if w.base < foot {
				deep = math.Max(deep, w.base)
			}
		}
		if full := (deep - head) / (foot - head); full < 1.0/3 {
			t.Errorf("page %d is %.0f hundredths full", n+1, 100*full)
		}
	}
}

// pageIsSound: something stands on the page, within its margins, in type that
// can be read, and no word on another.
func pageIsSound(t *testing.T, n int, p *paperPage) {
	t.Helper()
	body := 0
	for i, w := range p.words {
		if w.base > head && w.base < foot {
			body++
		}
		if w.size > 0 && w.size < smallest {
			t.Errorf("page %d: %q is set in %.1f points", n, w.s, w.size)
		}
		for _, v := range p.words[i+1:] {
			// From the height of capitals to the base line.
			if over := math.Min(w.right, v.right) - math.Max(w.left, v.left); over > 0.3 &&
				math.Min(w.base, v.base)-math.Max(w.base-capital*w.size*pt, v.base-capital*v.size*pt) > 0.2 {
				t.Errorf("page %d: %q stands on %q, %.0f mm from the left, %.0f mm from the top", n, w.s, v.s, w.left, w.base)
			}
		}
	}
	if body < 5 {
		t.Errorf("page %d is all but empty", n)
	}
	for y := range p.ink.Rect.Dy() {
		for x, light := range p.ink.Pix[y*p.ink.Stride:][:p.ink.Rect.Dx()] {
			if light >= 200 {
				continue
			}
			if mx, my := float64(x)*dot, float64(y)*dot; mx < marginMM || mx > paperWide || my < runningMM || my > paperDeep {
				t.Errorf("page %d: ink in the margin, %.0f mm from the left, %.0f mm from the top", n, mx, my)
				return
			}
		}
	}
}

// said is what a sheet says, as its HTML has it.
type said struct {
	words    []string
	keys     map[string]bool // words that are read at arm's length
	tables   []saidTable
	drawings []drawing
}

type saidTable struct {
	head []string    // words
	rows [][2]string // without spaces, small second figures left out: up to the last cell, and with it
}

// drawing is a figure of the HTML, in mm from its own corner.
type drawing struct {
	title string
	paths []stroke
	texts []label
}

type stroke struct {
	runs   [][][2]float64
	drawn  bool // solid, so that ink is everywhere on it
	filled bool
}

type label struct {
	s      string
	x, y   float64
	anchor string
	up     bool
}

// readHTML reads the sheet's HTML by general means.
func readHTML(t *testing.T, text string) *said {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	out := &said{keys: map[string]bool{}}
	var open []xml.StartElement
	in := func(name, class string) bool {
		return slices.ContainsFunc(open, func(e xml.StartElement) bool {
			return e.Name.Local == name && (class == "" || slices.Contains(strings.Fields(attr(e, "class")), class))
		})
	}
	row, lead := "", ""
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			open = append(open, tok.Copy())
			switch tok.Name.Local {
			case "svg":
				out.drawings = append(out.drawings, drawing{})
			case "path":
				dr := &out.drawings[len(out.drawings)-1]
				dr.paths = append(dr.paths, stroke{runs: runsOf(t, attr(tok, "d")), drawn: attr(tok, "stroke") != "none" && attr(tok, "stroke-dasharray") == "", filled: attr(tok, "fill") != ""})
			case "circle":
				dr := &out.drawings[len(out.drawings)-1]
				cx, cy, r := number(attr(tok, "cx")), number(attr(tok, "cy")), number(attr(tok, "r"))
				var ring [][2]float64
				for k := range 25 {
					s, c := math.Sincos(float64(k) / 24 * 2 * math.Pi)
					ring = append(ring, [2]float64{cx + r*c, cy + r*s})
				}
				dr.paths = append(dr.paths, stroke{runs: [][][2]float64{ring}, drawn: attr(tok, "stroke") != "none" && attr(tok, "stroke-dasharray") == "", filled: attr(tok, "fill") != ""})
			case "text":
				dr := &out.drawings[len(out.drawings)-1]
				dr.texts = append(dr.texts, label{x: number(attr(tok, "x")), y: number(attr(tok, "y")), anchor: attr(tok, "text-anchor"), up: attr(tok, "transform") != ""})
			case "table":
				out.tables = append(out.tables, saidTable{})
			case "tr":
				row = ""
			case "td":
				lead = row
			}
		case xml.EndElement:
			open = open[:len(open)-1]
			if tok.Name.Local == "tr" && in("tbody", "") && row != "" {
				tb := &out.tables[len(out.tables)-1]
				tb.rows = append(tb.rows, [2]string{lead, row})
			}
		case xml.CharData:
			words := strings.Fields(string(tok))
			switch {
			case in("head", "") || in("style", "") || in("script", "") || in("desc", "") || in("span", "pad") || len(words) == 0:
				continue
			case in("svg", "") && in("title", ""):
				out.drawings[len(out.drawings)-1].title = string(tok)
				continue
			case in("text", ""):
				dr := &out.drawings[len(out.drawings)-1]
				dr.texts[len(dr.texts)-1].s = string(tok)
			case in("thead", ""):
				tb := &out.tables[len(out.tables)-1]
				tb.head = append(tb.head, words...)
			case in("tbody", "") && !in("span", "o"):
				row += strings.Join(words, "")
				if in("td", "key") {
					out.keys[words[0]] = true
				}
			}
			out.words = append(out.words, words...)
		}
	}
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func number(s string) float64 {
	f, _ := strconv.ParseFloat(s, 64)
	return f
}

// runsOf reads the data of a path: moves, lines and closings.
func runsOf(t *testing.T, data string) (runs [][][2]float64) {
	t.Helper()
	for run := range strings.SplitSeq(data, "M") {
		if run == "" {
			continue
		}
		run, closed := strings.CutSuffix(run, "Z")
		var pts [][2]float64
		for p := range strings.SplitSeq(run, "L") {
			x, y, ok := strings.Cut(p, " ")
			if !ok {
				t.Fatalf("a path that is not read: %.60q", data)
			}
			pts = append(pts, [2]float64{number(x), number(y)})
		}
		if closed {
			pts = append(pts, pts[0])
		}
		runs = append(runs, pts)
	}
	return runs
}

// wordsAreThere: every word of the HTML is in the PDF at least as often, and
// the figures of the cut in large type.
func wordsAreThere(t *testing.T, pages []paperPage, want *said) {
	t.Helper()
	got, large := map[string]int{}, map[string]bool{}
	for i := range pages {
		for _, w := range pages[i].words {
			got[w.s]++
			large[w.s] = large[w.s] || w.size >= keySize
		}
	}
	for _, w := range want.words {
		if got[w]--; got[w] == -1 {
			t.Errorf("%q is fewer times in the PDF than in the HTML", w)
		}
	}
	for w := range want.keys {
		if !large[w] {
			t.Errorf("%q is read at arm's length and is not in type of %g points", w, keySize)
		}
	}
}

// tablesHaveHeads: above every row of a table, on its page, stands the head.
func tablesHaveHeads(t *testing.T, pages []paperPage, want *said) {
	t.Helper()
	found := map[int]bool{}
	for i := range pages {
		above := map[string]bool{}
		for _, l := range pages[i].lines() {
			var tables []int // that have such a row; its last cell may go on below
			for k, tb := range want.tables {
				if slices.ContainsFunc(tb.rows, func(r [2]string) bool {
					return r[1] == l.s || r[0] != "" && len(l.s) > len(r[0]) && strings.HasPrefix(r[1], l.s)
				}) {
					tables = append(tables, k)
				}
			}
			for _, w := range pages[i].words {
				if w.base < l.base-0.4 {
					above[w.s] = true
				}
			}
			headed := len(tables) == 0
			for _, k := range tables {
				found[k] = true
				if !slices.ContainsFunc(want.tables[k].head, func(w string) bool { return !above[w] }) {
					headed = true
				}
			}
			if !headed {
				t.Errorf("page %d: row %q has no head %q above it", i+1, l.s, want.tables[tables[0]].head)
			}
		}
	}
	for k, tb := range want.tables {
		if !found[k] && len(tb.rows) > 0 {
			t.Errorf("no row of the table under %q is on paper; its first is %q", tb.head, tb.rows[0])
		}
	}
}

// drawingIsThere finds a drawing by its labels and looks for its strokes.
func drawingIsThere(t *testing.T, pages []paperPage, d drawing) {
	t.Helper()
	type place struct{ page, x, y int } // half millimetres
	votes, level := map[place]int{}, 0
	sum := map[place][2]float64{}
	for _, l := range d.texts {
		words := strings.Fields(l.s)
		if l.up || len(words) == 0 || len(words) > 1 && l.anchor != "" {
			continue // of several words the first is looked for, where the label begins with it
		}
		level++
		for i := range pages {
			for _, w := range pages[i].words {
				if w.s != words[0] {
					continue
				}
				x := map[string]float64{"": w.left, "middle": (w.left + w.right) / 2, "end": w.right}[l.anchor] - l.x
				y := w.base - l.y
				at := place{i, int(math.Round(2 * x)), int(math.Round(2 * y))}
				votes[at]++
				sum[at] = [2]float64{sum[at][0] + x, sum[at][1] + y}
			}
		}
	}
	var best []place // those where most labels stand: another visit's drawing may have the same
	most := 0
	for at, n := range votes {
		if n > most {
			best, most = nil, n
		}
		if n == most {
			best = append(best, at)
		}
	}
	slices.SortFunc(best, func(a, b place) int {
		return cmp.Or(a.page-b.page, a.x-b.x, a.y-b.y)
	})
	if level < 2 {
		return // one label may be the same word elsewhere: where the drawing stands is not known
	}
	if most < 2 || 2*most < level {
		t.Errorf("drawing %q: only %d of its %d labels stand together on a page", d.title, most, level)
		return
	}
	var first []string
	for n, at := range best {
		missing := strokesMissing(&pages[at.page], d, sum[at][0]/float64(most), sum[at][1]/float64(most))
		if len(missing) == 0 {
			return
		}
		if n == 0 {
			first = missing
		}
	}
	for _, m := range first {
		t.Errorf("drawing %q on page %d: %s", d.title, best[0].page+1, m)
	}
}

// strokesMissing are the strokes of a drawing that a page does not have, where its corner stands there, mm.
func strokesMissing(p *paperPage, d drawing, x0, y0 float64) (missing []string) {
	for k, s := range d.paths {
		if !s.drawn {
			continue
		}
		dark, all := 0, 0
		for _, run := range s.runs {
			for i := 1; i < len(run); i++ {
				a, b := run[i-1], run[i]
				n := max(1, int(math.Hypot(b[0]-a[0], b[1]-a[1])/0.5))
				for j := range n {
					f := (float64(j) + 0.5) / float64(n)
					q := [2]float64{a[0] + (b[0]-a[0])*f, a[1] + (b[1]-a[1])*f}
					if slices.ContainsFunc(d.paths[k+1:], func(s stroke) bool { return s.filled && inside(s.runs, q) }) {
						continue // covered
					}
					all++
					if p.dark(x0+q[0], y0+q[1]) {
						dark++
					}
				}
			}
		}
		least := all * 8
		if all <= 10 { // of a short thin stroke the ends may fall between the dots
			least = all * 5
		}
		if dark*10 < least {
			missing = append(missing, fmt.Sprintf("a stroke from %.1f is drawn in %d of %d places", s.runs[0][0], dark, all))
		}
	}
	return missing
}

// inside is whether a place is within a face, holes by the even-odd rule.
func inside(face [][][2]float64, q [2]float64) bool {
	in := false
	for _, run := range face {
		for i := range run {
			a, b := run[i], run[(i+1)%len(run)]
			if (a[1] > q[1]) != (b[1] > q[1]) && q[0] < a[0]+(b[0]-a[0])*(q[1]-a[1])/(b[1]-a[1]) {
				in = !in
			}
		}
	}
	return in
}
