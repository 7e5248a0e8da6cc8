package page

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"

	"borewright/sheets/draw"
)

// Paper is what a PDF is laid out for. What is printed keeps within what both
// papers hold, so that a sheet for one also prints on the other.
type Paper int

// The papers.
const (
	A4 Paper = iota
	Letter
)

// Millimetres of the page. The text stands in a column that fits both papers.
const (
	pageLeft  = 15.0
	pageTop   = 19.0
	pageWidth = Width
	pageDeep  = 279.4 - 36 // of Letter, the shorter
)

// WritePDF prints the sheet as a PDF with its fonts inside it, job and stamp
// at the head and foot of every page. Nothing in it depends on the clock, so
// the same sheet gives the same bytes.
func (s *Sheet) WritePDF(w io.Writer, paper Paper) error {
	size := "A4"
	if paper == Letter {
		size = "Letter"
	}
	f := fpdf.New("P", "mm", size, "")
	epoch := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) // fixed: fpdf would take the clock
	f.SetCatalogSort(true)
	f.SetCreationDate(epoch)
	f.SetModificationDate(epoch)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(pageLeft, pageTop, 0)
	f.SetCellMargin(0)
	f.AddUTF8FontFromBytes("sheet", "", dejavusanscondensed.TTF)
	f.AddUTF8FontFromBytes("sheet", "B", dejavusanscondensedbold.TTF)
	f.SetLang("en")
	p := &pdfFace{f: f, sheet: s, y: pageTop, body: body}
	f.SetTitle(p.safe(s.Job+", "+s.Kind), true)
	f.SetSubject(p.safe(s.Title), true)
	f.SetCreator("borewright", true)
	p.document()
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return fmt.Errorf("PDF: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// pdfFace lays blocks out on pages, from the top down. y is where the next one
// begins.
type pdfFace struct {
	f     *fpdf.Fpdf
	sheet *Sheet
	y     float64
	dry   bool    // measure only
	body  float64 // points of running text
}

// safe replaces characters that the font does not have by an empty box, which
// says that something stood there. The HTML face shows them where the computer
// that reads it can.
func (p *pdfFace) safe(s string) string {
	return strings.Map(func(r rune) rune {
		for _, has := range fontHas {
			if r >= has[0] && r <= has[1] {
				return r
			}
		}
		return '□'
	}, Clean(s))
}

// fontHas are the blocks of characters that the font has whole, and that stand
// one after the other: Latin, Greek, Cyrillic, punctuation, arrows, signs.
var fontHas = [...][2]rune{{' ', '~'}, {0xa1, 0x24f}, {0x391, 0x3a1}, {0x3a3, 0x3c9}, {0x400, 0x45f}, {0x2010, 0x2027}, {0x2030, 0x203a}, {0x2190, 0x21ff}, {0x2200, 0x22ff}, {'□', '□'}}

func (p *pdfFace) font(style string, points float64) { p.f.SetFont("sheet", style, points) }

// lineHeight is the pitch of lines of the given size, mm.
func lineHeight(points float64) float64 { return points * 25.4 / 72 * 1.32 }

func (p *pdfFace) document() {
	s := p.sheet
	p.f.AddPage()
	if s.startsWithCard() { // the running head has the rest
		p.para(orKind(s), "B", body, 0, pageWidth)
	} else {
		p.rule(p.y, 0.5)
		p.y += 1.5
		p.ends(s.Kind, s.Job, 11, 14, "", "B")
		p.para(orKind(s), "B", 16, 0, pageWidth)
		p.y += 1
		p.rule(p.y, 0.5)
		p.y += 1
	}
	if s.Stamp != "" {
		p.stamp(s.Stamp+": do not cut from this paper", 15)
	}
	for i, sec := range s.Sections {
		p.body = body
		switch {
		case i > 0 && (sec.OwnPage || sec.Card):
			p.newPage()
		case p.y > pageTop && !sec.Card:
			p.y += 3
		}
		if sec.Card {
			p.body = arm
		}
		p.section(sec)
	}
	p.running()
}

func (p *pdfFace) section(sec Section) {
	gs := groups(sec.Blocks)
	need := 9.0 // a title does not part from what it heads
	if len(gs) > 0 {
		need += p.together(gs[0])
	}
	p.room(min(need, pageDeep))
	p.ends(sec.Title, p.sheet.Job, 14, 9, "B", "")
	p.rule(p.y+0.4, 0.5)
	p.y += 2.2
	if p.sheet.Stamp != "" {
		p.stamp(p.sheet.Stamp, 10)
	}
	for i, g := range gs {
		if i > 0 {
			need := p.together(g)
			if p.y < pageTop+pageDeep/3 { // no page is left so empty
				need = min(need, p.first(g))
			}
			p.room(need)
		}
		for _, b := range g.blocks {
			p.block(b)
		}
	}
}

// together is how much of a group stands on one page: all of it where it is
// short, else its first part.
func (p *pdfFace) together(g group) float64 {
	h := p.heightOf(g)
	if !g.long && h < pageDeep-12 {
		return h
	}
	return min(h, p.first(g))
}

// first is the part of a group that stands on one page in any case.
func (p *pdfFace) first(g group) float64 {
	first := 45.0
	for k, b := range g.blocks {
		switch b := b.(type) {
		case *Heading:
			continue
		case *Figures: // a heading does not part from its first row of drawings
			first = 80
		case *Table:
			first = p.heightOf(group{blocks: g.blocks[:k]}) + p.begin(b)
		}
		break
	}
	return first
}

// heightOf measures a group without drawing it.
func (p *pdfFace) heightOf(g group) float64 {
	y := p.y
	p.dry, p.y = true, 0
	for _, b := range g.blocks {
		p.block(b)
	}
	h := p.y
	p.dry, p.y = false, y
	return h
}

// room begins a page where less than h mm are left on this one.
func (p *pdfFace) room(h float64) bool {
	if p.dry || p.y+h <= pageTop+pageDeep || p.y <= pageTop+0.01 {
		return false
	}
	p.newPage()
	return true
}

func (p *pdfFace) newPage() {
	p.f.AddPage()
	p.y = pageTop
}

// running writes head and foot of every page, when their number is known.
func (p *pdfFace) running() {
	n := p.f.PageCount()
	for i := 1; i <= n; i++ {
		p.f.SetPage(i)
		// The page ended in some font; going through another makes sure that
		// the one asked for is named on it.
		p.font("B", 7)
		p.font("", 9)
		p.font("B", 9)
		right := p.sheet.Kind
		if p.sheet.Stamp != "" {
			right = "*** " + p.sheet.Stamp + " ***"
		}
		rw := p.f.GetStringWidth(p.safe(right))
		p.f.Text(pageLeft, pageTop-6, p.cut(p.sheet.Job, pageWidth-rw-6))
		p.f.Text(pageLeft+pageWidth-rw, pageTop-6, p.safe(right))
		p.font("", 9)
		foot := fmt.Sprintf("page %d of %d", i, n)
		fw := p.f.GetStringWidth(foot)
		p.f.Text(pageLeft, pageTop+pageDeep+7, p.cut(p.sheet.Job, pageWidth-fw-6))
		p.f.Text(pageLeft+pageWidth-fw, pageTop+pageDeep+7, foot)
	}
}

// cut shortens a text to w mm in the font that is set.
func (p *pdfFace) cut(s string, w float64) string {
	s = p.safe(s)
	if p.f.GetStringWidth(s) <= w {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && p.f.GetStringWidth(string(r)+"...") > w {
		r = r[:len(r)-1]
	}
	return string(r) + "..."
}

func (p *pdfFace) rule(y, width float64) { p.lineAt(0, y, pageWidth, y, width) }

func (p *pdfFace) lineAt(x1, y1, x2, y2, width float64) {
	if !p.dry {
		p.f.SetLineWidth(width)
		p.f.Line(pageLeft+x1, y1, pageLeft+x2, y2)
	}
}

func (p *pdfFace) rect(x, y, w, h, width float64, style string) {
	if !p.dry {
		p.f.SetLineWidth(width)
		p.f.SetFillColor(228, 228, 228)
		p.f.Rect(pageLeft+x, y, w, h, style)
	}
}

// write puts one line at x with its base line at y.
func (p *pdfFace) write(x, y float64, s string) {
	if !p.dry && s != "" {
		p.f.Text(pageLeft+x, y, s)
	}
}

// lines breaks a text to w mm in the font that is set, at spaces where there
// are any.
func (p *pdfFace) lines(s string, w float64) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(p.safe(s)) {
		if line != "" && p.f.GetStringWidth(line+" "+word) <= w {
			line += " " + word
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		for p.f.GetStringWidth(word) > w {
			r := []rune(word)
			n := len(r)
			for n > 1 && p.f.GetStringWidth(string(r[:n])) > w {
				n = n * 7 / 8
			}
			if n == len(r) {
				break
			}
			out, word = append(out, string(r[:n])), string(r[n:])
		}
		line = word
	}
	return append(out, line)
}

// para writes a text wrapped from x on, w mm wide, and moves down.
func (p *pdfFace) para(s, style string, points, x, w float64) {
	p.font(style, points)
	h := lineHeight(points)
	for _, l := range p.lines(s, w) {
		if p.room(h) {
			p.font(style, points)
		}
		p.write(x, p.y+h*0.76, l)
		p.y += h
	}
}

// ends writes one text at the left and one at the right.
func (p *pdfFace) ends(left, right string, lp, rp float64, ls, rs string) {
	p.font(rs, rp)
	r := p.lines(right, pageWidth*0.45)
	w := 0.0
	for _, l := range r {
		w = max(w, p.f.GetStringWidth(l))
	}
	p.font(ls, lp)
	l := p.lines(left, pageWidth-w-6)
	h := lineHeight(max(lp, rp))
	for i := range max(len(l), len(r)) {
		if i < len(l) {
			p.font(ls, lp)
			p.write(0, p.y+h*0.76, l[i])
		}
		if i < len(r) {
			p.font(rs, rp)
			p.write(pageWidth-p.f.GetStringWidth(r[i]), p.y+h*0.76, r[i])
		}
		p.y += h
	}
}

func (p *pdfFace) stamp(s string, points float64) {
	h := lineHeight(points) + 2
	p.room(h + 2)
	p.rect(0, p.y+0.5, pageWidth, h, 0.8, "D")
	p.font("B", points)
	s = p.cut(s, pageWidth-6)
	p.write((pageWidth-p.f.GetStringWidth(s))/2, p.y+0.5+1+lineHeight(points)*0.76, s)
	p.y += h + 2.5
}

func (p *pdfFace) box(x, y float64) { p.rect(x, y, 4, 4, 0.4, "D") }

// Points of running text, and of all that is read at arm's length.
const (
	body = 10.5
	arm  = 14.0
)

func (p *pdfFace) block(b Block) {
	switch b := b.(type) {
	case *Heading:
		p.y += 2
		p.para(b.Text, "B", 12, 0, pageWidth)
		p.y += 0.8
	case *Paragraph:
		p.paragraph(b)
	case *KeyValues:
		p.keyValues(b)
	case *Table:
		p.table(b)
	case *Checklist:
		p.list(b.Items, func(y float64) { p.box(0.5, y+0.4) })
	case *Cautions:
		p.list(b.Items, func(y float64) {
			if !p.dry {
				p.f.SetLineWidth(0.4)
				p.f.Circle(pageLeft+2.5, y+2.4, 2.2, "D")
			}
			p.font("B", 9)
			p.write(2.5-p.f.GetStringWidth("!")/2, y+3.5, "!")
		})
	case *Blanks:
		p.blanks(b)
	case *Figures:
		p.figures(b)
	}
}

func (p *pdfFace) paragraph(b *Paragraph) {
	if !b.Strong {
		p.para(b.Text, "", p.body, 0, pageWidth)
		p.y += 1
		return
	}
	p.font("B", p.body)
	for _, l := range p.lines(b.Text, pageWidth-4) {
		h := lineHeight(p.body)
		if p.room(h) {
			p.font("B", p.body)
		}
		p.lineAt(0.6, p.y, 0.6, p.y+h, 1.2)
		p.write(4, p.y+h*0.76, l)
		p.y += h
	}
	p.y += 1
}

func (p *pdfFace) list(items []string, mark func(y float64)) {
	for _, s := range items {
		p.font("", p.body)
		h := lineHeight(p.body)
		p.room(h * float64(len(p.lines(s, pageWidth-8))))
		mark(p.y + lineHeight(p.body)/2 - lineHeight(body)/2)
		p.para(s, "", p.body, 8, pageWidth-8)
		p.y += 1.2
	}
	p.y += 0.8
}

func (p *pdfFace) keyValues(b *KeyValues) {
	p.font("B", p.body)
	col := 20.0
	for _, kv := range b.Items {
		col = max(col, min(4*p.body, p.f.GetStringWidth(p.safe(kv.Key))))
	}
	for _, kv := range b.Items {
		p.font("B", p.body)
		keys := p.lines(kv.Key, col)
		p.font("", p.body)
		vals := p.lines(kv.Value, pageWidth-col-4)
		h := lineHeight(p.body)
		for i := range max(len(keys), len(vals)) {
			p.room(h)
			if i < len(keys) {
				p.font("B", p.body)
				p.write(0, p.y+h*0.76, keys[i])
			}
			if i < len(vals) {
				p.font("", p.body)
				p.write(col+4, p.y+h*0.76, vals[i])
			}
			p.y += h
		}
		p.y += 0.4
	}
	p.y += 1.2
}

// blanks puts places to write in side by side, as many as have room to write.
func (p *pdfFace) blanks(b *Blanks) {
	const least, gap = 24.0, 5.0
	p.font("", p.body)
	cost := func(x Blank) float64 {
		return p.f.GetStringWidth(p.safe(x.Label)) + least + p.f.GetStringWidth(p.safe(x.Unit)) + 3
	}
	for i := 0; i < len(b.Items); {
		used, j := cost(b.Items[i]), i+1
		for ; j < len(b.Items) && used+gap+cost(b.Items[j]) <= pageWidth; j++ {
			used += gap + cost(b.Items[j])
		}
		p.room(9)
		p.font("", p.body)
		spare := max(0, pageWidth-used) / float64(j-i)
		x := 0.0
		for _, it := range b.Items[i:j] {
			label := p.cut(it.Label, pageWidth-least-10)
			w := p.f.GetStringWidth(label)
			unit := p.cut(it.Unit, 30)
			p.write(x, p.y+7, label)
			p.lineAt(x+w+1.5, p.y+7.4, x+w+1.5+least+spare, p.y+7.4, 0.3)
			p.write(x+w+3+least+spare, p.y+7, unit)
			x += w + 3 + least + spare + p.f.GetStringWidth(unit) + gap
		}
		p.y += 9
		i = j
	}
	p.y += 2
}

// figures puts drawings side by side as far as they have room.
func (p *pdfFace) figures(b *Figures) {
	const gap = 3.5
	for i := 0; i < len(b.Items); {
		used, j, high := b.Items[i].Scene.W, i+1, b.Items[i].Scene.H
		for ; j < len(b.Items) && used+gap+b.Items[j].Scene.W <= pageWidth+0.01; j++ {
			used += gap + b.Items[j].Scene.W
			high = max(high, b.Items[j].Scene.H)
		}
		text := 0.0
		for _, f := range b.Items[i:j] {
			p.font("", 9)
			if c := f.said(); c != "" {
				text = max(text, float64(len(p.lines(c, f.Scene.W)))*lineHeight(9)+0.5)
			}
		}
		p.room(high + text + 2)
		x := 0.0
		for _, f := range b.Items[i:j] {
			if !p.dry {
				f.Scene.PDF(p.f, draw.Font{Family: "sheet", Safe: p.safe}, pageLeft+x, p.y+high-f.Scene.H)
			}
			if c := f.said(); c != "" {
				y := p.y
				p.y += high + 0.5
				p.font("", 9)
				h := lineHeight(9)
				for _, l := range p.lines(c, f.Scene.W) {
					p.write(x, p.y+h*0.76, l)
					p.y += h
				}
				p.y = y
			}
			x += f.Scene.W + gap
		}
		p.y += high + text + 3
		i = j
	}
}
