package page

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"hash/crc32"
	"html"
	"io"
	"strings"
	"unicode/utf8"
)

//go:embed html.css
var style string

//go:embed ticks.js
var ticks string

// WriteHTML prints the sheet as one HTML file that needs nothing beside it: no
// network, drawings inside, one script that keeps the ticked boxes of this very sheet
// on the device. What scrolls can be scrolled by keys. It prints on A4 and Letter, job and
// stamp at the head of every page and the page's number at its foot.
func (s *Sheet) WriteHTML(w io.Writer) error {
	h := &htmlFace{sheet: s}
	h.document()
	if h.boxes > 0 {
		kept := crc32.ChecksumIEEE([]byte(h.b.String())) // another plan begins with empty boxes
		fmt.Fprintf(&h.b, "<script data-sheet=\"%08x\">%s</script>\n", kept, ticks)
	}
	h.b.WriteString("</body>\n</html>\n")
	_, err := io.WriteString(w, h.b.String())
	return err
}

type htmlFace struct {
	b      strings.Builder
	sheet  *Sheet
	inside bool   // of another page
	count  int    // drawings so far, for their ids
	boxes  int    // to tick, so far
	title  string // of the section
}

func (h *htmlFace) put(format string, a ...any) {
	for i, x := range a {
		if s, ok := x.(string); ok {
			a[i] = html.EscapeString(Clean(s))
		}
	}
	fmt.Fprintf(&h.b, format, a...)
}

func (h *htmlFace) document() {
	s := h.sheet
	h.b.WriteString("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n")
	h.b.WriteString("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
	h.b.WriteString("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-" + ticksSum() + "'\">\n")
	h.put("<title>%s, %s</title>\n", s.Job, s.Kind)
	h.b.WriteString("<style>\n" + style + h.pageStyle() + "</style>\n</head>\n<body>\n")
	h.put("<header class=\"sheet\">\n<div class=\"kind\"><span>%s</span><span class=\"job\">%s</span></div>\n<h1>%s</h1>\n</header>\n", s.Kind, s.Job, orKind(s))
	if s.Stamp != "" {
		h.put("<aside class=\"stamp\">%s: do not cut from this paper</aside>\n", s.Stamp)
	}
	h.b.WriteString("<main>\n")
	h.sections()
	h.b.WriteString("</main>\n")
}

func (h *htmlFace) sections() {
	s := h.sheet
	for i, sec := range s.Sections {
		class := ""
		h.title = sec.Title
		switch {
		case sec.Card:
			class = ` class="visit card"`
		case sec.OwnPage:
			class = ` class="visit"`
		}
		fmt.Fprintf(&h.b, "<section%s aria-labelledby=\"s%d\">\n", class, i+1)
		blocks := sec.Blocks
		if first := firstFigure(blocks); first != nil { // the head does not part from it
			h.b.WriteString("<div class=\"group\">\n")
		}
		if sec.Folded {
			h.b.WriteString("<details>\n<summary>")
		}
		h.put("<div class=\"head\"><h2 id=\"s%d\">%s</h2><span class=\"job\">%s</span></div>\n", i+1, sec.Title, s.Job)
		if sec.Folded {
			h.b.WriteString("</summary>\n")
		}
		if s.Stamp != "" {
			h.put("<div class=\"stamp small\">%s</div>\n", s.Stamp)
		}
		if first := firstFigure(blocks); first != nil {
			h.block(first)
			h.b.WriteString("</div>\n")
			blocks = blocks[1:]
		}
		for _, g := range groups(blocks) {
			class := "group"
			if g.long {
				class = "group long"
			}
			h.b.WriteString("<div class=\"" + class + "\">\n")
			for _, b := range g.blocks {
				h.block(b)
			}
			h.b.WriteString("</div>\n")
		}
		if sec.Folded {
			h.b.WriteString("</details>\n")
		}
		h.b.WriteString("</section>\n")
	}
}

// firstFigure is the block of drawings that a section begins with, or nil.
func firstFigure(blocks []Block) Block {
	if len(blocks) > 0 {
		if f, ok := blocks[0].(*Figures); ok {
			return f
		}
	}
	return nil
}

// orKind is the title of a sheet, or what it is where a job has none.
func orKind(s *Sheet) string {
	if s.Title == "" {
		return s.Kind
	}
	return s.Title
}

// pageStyle is the running head and foot of paper. Job text goes into a style
// sheet here, so every character of it that is not a plain letter or digit is
// written by its number.
func (h *htmlFace) pageStyle() string {
	s := h.sheet
	head := cssString(Clean(s.Job))
	right := cssString(Clean(s.Kind))
	if s.Stamp != "" {
		right = cssString("*** " + Clean(s.Stamp) + " ***")
	}
	const box = `font: %s 9pt "DejaVu Sans Condensed", Arial, sans-serif; `
	plain, bold := fmt.Sprintf(box, "normal"), fmt.Sprintf(box, "bold")
	return "@page { margin: 17mm 12mm 15mm 14mm;\n" +
		"  @top-left { content: " + head + "; " + bold + "width: 55%; }\n" +
		"  @top-right { content: " + right + "; " + bold + "width: 45%; }\n" +
		"  @bottom-left { content: " + head + "; " + plain + "width: 75%; }\n" +
		"  @bottom-right { content: \"page \" counter(page) \" of \" counter(pages); " + plain + "width: 25%; }\n}\n"
}

// cssString writes a text as a string of CSS (CSS Syntax Level 3, 4.3.7).
func cssString(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for i, r := range []rune(s) {
		if i == 90 { // two lines of a margin
			b.WriteString("...")
			break
		}
		if r == ' ' || r < 0x80 && (r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z') {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, "\\%06x ", r) // the space ends the number
		}
	}
	b.WriteByte('"')
	return b.String()
}

func (h *htmlFace) block(b Block) {
	switch b := b.(type) {
	case *Heading:
		h.put("<h3>%s</h3>\n", b.Text)
	case *Paragraph:
		if b.Strong {
			h.put("<p class=\"strong\">%s</p>\n", b.Text)
		} else {
			h.put("<p>%s</p>\n", b.Text)
		}
	case *KeyValues:
		h.keyValues(b)
	case *Table:
		h.table(b)
	case *Checklist:
		h.b.WriteString("<ul>\n")
		for _, t := range b.Items {
			h.b.WriteString("<li><label>")
			h.box("")
			h.put("%s</label></li>\n", t)
		}
		h.b.WriteString("</ul>\n")
	case *Blanks:
		h.b.WriteString("<div class=\"blanks\">\n")
		for _, x := range b.Items {
			h.put("<div><span>%s</span><span class=\"line\"></span><span>%s</span></div>\n", x.Label, x.Unit)
		}
		h.b.WriteString("</div>\n")
	case *Cautions:
		h.b.WriteString("<ul class=\"cautions\">\n")
		for _, t := range b.Items {
			h.put("<li>%s</li>\n", t)
		}
		h.b.WriteString("</ul>\n")
	case *Figures:
		h.figures(b)
	}
}

// keyValues is a list of names and values. A line without a name goes on with
// the value before it.
func (h *htmlFace) keyValues(b *KeyValues) {
	h.b.WriteString("<dl>\n")
	for i := 0; i < len(b.Items); i++ {
		h.put("<dt>%s</dt>", b.Items[i].Key)
		h.put("<dd>%s</dd>", b.Items[i].Value)
		for i+1 < len(b.Items) && b.Items[i+1].Key == "" {
			i++
			h.put("\n<dd%s>%s</dd>", h.goesOn(), b.Items[i].Value)
		}
		h.b.WriteString("\n")
	}
	h.b.WriteString("</dl>\n")
}

func (h *htmlFace) table(t *Table) {
	class := ""
	switch {
	case t.Small:
		class = ` class="small"`
	case t.hasKey():
		class = ` class="big"`
	}
	what := t.Caption
	if what == "" {
		what = h.title
	}
	h.put("<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"Table: %s\">", what)
	h.b.WriteString("<table" + class + ">\n")
	if t.Caption != "" {
		h.put("<caption>%s</caption>\n", t.Caption)
	}
	h.b.WriteString("<thead><tr>")
	for _, c := range t.Columns {
		if c.unnamed() {
			h.b.WriteString("<td></td>")
			continue
		}
		h.b.WriteString("<th scope=\"col\"" + cellClass(c) + ">")
		for i, line := range c.Head {
			if i > 0 && line != "" && c.Head[i-1] != "" {
				h.b.WriteString("<br>")
			}
			h.put("%s", line)
		}
		h.b.WriteString("</th>")
	}
	h.b.WriteString("</tr></thead>\n<tbody>\n")
	tails := t.tails()
	for n, rows := range t.kept() {
		if n > 0 && len(rows) > 1 {
			h.b.WriteString("</tbody>\n<tbody>\n")
		}
		h.rows(t, rows, tails)
	}
	h.b.WriteString("</tbody></table></div>\n")
	if len(t.Notes) > 0 {
		h.b.WriteString("<dl class=\"notes\">\n")
		for _, n := range t.Notes {
			h.put("<dt>%s</dt><dd>%s</dd>\n", n.Mark, n.Text)
		}
		h.b.WriteString("</dl>\n")
	}
}

func (h *htmlFace) rows(t *Table, rows []Row, tails []string) {
	for _, r := range rows {
		if r.Across != "" {
			fmt.Fprintf(&h.b, "<tr class=\"across\"><td colspan=\"%d\">", max(1, len(t.Columns)))
			if r.Stop {
				h.box(r.Across)
			}
			h.put("%s", r.Across)
			if len(r.Boxes) > 0 { // in one span, which floats: floated one by one they would stand in turned order
				h.b.WriteString("<span class=\"fills\">")
				for _, b := range r.Boxes {
					h.put("<span class=\"fill\">%s<span class=\"write\"></span></span>", b)
				}
				h.b.WriteString("</span>")
			}
			h.b.WriteString("</td></tr>\n")
			continue
		}
		h.b.WriteString("<tr>")
		for i, c := range t.Columns {
			h.cell(c, r, i, tails[i])
		}
		h.b.WriteString("</tr>\n")
	}
}

func (h *htmlFace) cell(c Column, r Row, i int, tail string) {
	s := ""
	if i < len(r.Cells) {
		s = r.Cells[i]
	}
	if c.Blank && s == "" {
		h.b.WriteString("<td class=\"blank\"></td>")
		return
	}
	class := cellClass(c)
	// A yes or no is not broken, nor a figure with its unit.
	if n := utf8.RuneCountInString(s); n > 0 && class == "" && (n <= 5 || n <= 14 && strings.IndexAny(s, "0123456789+-Ø") == 0) {
		class = ` class="w"`
	}
	tag, scope := "td", ""
	if i == 0 && c.unnamed() {
		tag, scope = "th", ` scope="row"`
	}
	h.b.WriteString("<" + tag + scope + class + ">")
	h.put("%s", s)
	if pad := padTail(s, tail); c.Align == Decimal && pad != "" {
		h.put("<span class=\"pad\" aria-hidden=\"true\">%s</span>", pad)
	}
	if i < len(r.Other) && r.Other[i] != "" {
		h.put("<span class=\"o\">%s</span>", r.Other[i])
	}
	h.b.WriteString("</" + tag + ">")
}

// unnamed is whether a column has no head: the names of the rows stand in it.
func (c Column) unnamed() bool { return strings.TrimSpace(strings.Join(c.Head, "")) == "" }

// box is a box to tick; said names it where no label stands around it.
func (h *htmlFace) box(said string) {
	h.boxes++
	h.b.WriteString("<input type=\"checkbox\" class=\"box\"")
	if said != "" {
		h.put(" aria-label=\"%s\"", said)
	}
	h.b.WriteString("/>")
}

// ticksSum is the sum by which the page allows its one script (CSP Level 2, 4.2.5).
func ticksSum() string {
	sum := sha256.Sum256([]byte(ticks))
	return base64.StdEncoding.EncodeToString(sum[:])
}

func cellClass(c Column) string {
	var k []string
	if c.Align == Decimal {
		k = append(k, "n")
	}
	if c.Key {
		k = append(k, "key")
	}
	if len(k) == 0 {
		return ""
	}
	return ` class="` + strings.Join(k, " ") + `"`
}

func (h *htmlFace) figures(b *Figures) {
	h.b.WriteString("<div class=\"figures\">\n")
	for _, f := range b.Items {
		h.count++
		fmt.Fprintf(&h.b, "<figure%s>\n", h.wide(f.Scene.W))
		said := f.said()
		if said == "" {
			said = h.title
		}
		h.put("<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"Drawing: %s\">", said)
		h.b.WriteString(f.Scene.SVG(fmt.Sprintf("f%d", h.count)))
		h.b.WriteString("</div>\n")
		if said := f.said(); said != "" {
			h.put("<figcaption>%s</figcaption>\n", said)
		}
		h.b.WriteString("</figure>\n")
	}
	h.b.WriteString("</div>\n")
}
