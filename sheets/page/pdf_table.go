package page

import "math"

// pdfColumn is a column of a table on paper, mm.
type pdfColumn struct {
	Column
	x, w       float64
	least      float64 // that it can be narrowed to
	head, size float64 // points of its head and its cells
	style      string
}

const cellPad = 1.0 // on either side

// table prints a table across the page. Its head stands again on every page
// that it goes on to.
func (p *pdfFace) table(t *Table) {
	size := p.body
	switch {
	case p.body == arm:
	case t.Small:
		size = 8.5
	case t.hasKey():
		size = 11.5
	}
	if !p.dry {
		p.room(p.begin(t))
	}
	if t.Caption != "" {
		p.para(t.Caption, "B", min(size, body), 0, pageWidth)
		p.y += 0.5
	}
	cols := p.tableColumns(t, size)
	if len(cols) > 0 {
		p.tableHead(cols)
	}
	for _, rows := range t.kept() {
		if p.room(p.rowsDeep(t, cols, rows)) {
			p.tableHead(cols)
		}
		for _, r := range rows {
			p.tableRow(t, cols, r)
		}
	}
	p.y += 1.2
	for _, n := range t.Notes {
		p.font("", 9)
		h := lineHeight(9)
		lines := p.lines(n.Text, pageWidth-8)
		p.room(h * float64(len(lines)))
		p.font("", 9)
		p.write(0, p.y+h*0.76, p.cut(n.Mark, 7))
		p.para(n.Text, "", 9, 8, pageWidth-8)
	}
	p.y += 1.5
}

// rowsDeep is how deep rows are that stand on one page; nothing where none have to.
func (p *pdfFace) rowsDeep(t *Table, cols []pdfColumn, rows []Row) float64 {
	if p.dry || len(rows) < 2 {
		return 0
	}
	y := p.y
	p.dry = true
	for _, r := range rows {
		p.tableRow(t, cols, r)
	}
	h := p.y - y
	p.dry, p.y = false, y
	if h > pageDeep/2 { // they part all the same
		return 0
	}
	return h
}

// begin is how much of a table stands on the page that it begins on: all of a
// short one; of others at least the caption, the head and the first row.
func (p *pdfFace) begin(t *Table) float64 {
	h := p.heightOf(group{blocks: []Block{t}})
	if !t.hasKey() && h <= pageDeep*0.6 {
		return h
	}
	first := *t
	first.Rows, first.Notes = t.Rows[:min(1, len(t.Rows))], nil
	return min(h, max(45, p.heightOf(group{blocks: []Block{&first}})))
}

// tableColumns finds the widths. Where all do not fit, text is narrowed first,
// then everything is set smaller.
func (p *pdfFace) tableColumns(t *Table, size float64) []pdfColumn {
	for {
		cols := make([]pdfColumn, len(t.Columns))
		total := 0.0
		for i, c := range t.Columns {
			col := pdfColumn{Column: c, size: size, head: min(p.body-1.5, 10, size)}
			if c.Key {
				col.size, col.style = size*1.25, "B"
				if p.body == arm {
					col.size = size
				}
			}
			if t.Small {
				col.head = min(8, size)
			}
			p.measure(&col, t, i)
			cols[i] = col
			total += col.w
		}
		over := total - pageWidth
		for over > 0.001 { // narrow the widest text
			at := -1
			for i, c := range cols {
				if c.w > c.least+0.01 && (at < 0 || c.w > cols[at].w) {
					at = i
				}
			}
			if at < 0 {
				break
			}
			step := math.Min(math.Min(1, over), cols[at].w-cols[at].least)
			cols[at].w -= step
			over -= step
		}
		if over > 0.001 && size > 4 {
			size *= 0.93
			continue
		}
		if spare := -over; spare > 0 && len(cols) > 0 { // room is shared
			for i := range cols {
				cols[i].w += spare / float64(len(cols))
			}
		}
		x := 0.0
		for i := range cols {
			cols[i].x = x
			x += cols[i].w
		}
		return cols
	}
}

// measure finds how wide a column wants to be and how narrow it may get.
func (p *pdfFace) measure(c *pdfColumn, t *Table, i int) {
	p.font(c.style, c.head)
	for _, h := range c.Head {
		c.w = math.Max(c.w, p.f.GetStringWidth(p.safe(h)))
	}
	heads := c.w
	p.font(c.style, c.size)
	longest := 0.0
	for _, r := range t.Rows {
		if r.Across != "" || i >= len(r.Cells) {
			continue
		}
		s := p.safe(r.Cells[i])
		w := p.f.GetStringWidth(s)
		if c.Align == Decimal && isNumber(s) {
			w += p.f.GetStringWidth(padTail(s, t.tails()[i]))
		}
		longest = math.Max(longest, w)
	}
	c.w = math.Max(c.w, longest)
	switch {
	case c.Blank:
		c.w = math.Max(c.w, 24)
		c.least = math.Max(heads, 18)
	case c.Align == Decimal:
		c.least = c.w
	default:
		c.least = math.Min(c.w, math.Max(heads, 2.2*c.size))
	}
	c.w += 2 * cellPad
	c.least += 2 * cellPad
}

func (p *pdfFace) tableHead(cols []pdfColumn) {
	deep := 0
	for _, c := range cols {
		deep = max(deep, len(c.Head))
	}
	if deep == 0 {
		p.rule(p.y, 0.4)
		return
	}
	h := lineHeight(cols[0].head)
	for k := range deep {
		for _, c := range cols {
			if at := k - (deep - len(c.Head)); at >= 0 {
				p.font(c.style, c.head)
				s := p.safe(c.Head[at])
				x := c.x + cellPad
				if c.Align == Decimal {
					x = c.x + c.w - cellPad - p.f.GetStringWidth(s)
				}
				p.write(x, p.y+h*0.76, s)
			}
		}
		p.y += h
	}
	p.y += 0.5
	p.rule(p.y, 0.4)
}

func (p *pdfFace) tableRow(t *Table, cols []pdfColumn, r Row) {
	if r.Across != "" {
		p.acrossRow(cols, r)
		return
	}
	high, big := 0.0, 0.0
	cells := make([][]string, len(cols))
	for i, c := range cols {
		s := ""
		if i < len(r.Cells) {
			s = r.Cells[i]
		}
		p.font(c.style, c.size)
		cells[i] = []string{p.safe(s)}
		if c.Align != Decimal {
			cells[i] = p.lines(s, c.w-2*cellPad)
		}
		h := lineHeight(c.size) * float64(len(cells[i]))
		if i < len(r.Other) && r.Other[i] != "" {
			h += 2.9
		}
		if c.Blank && s == "" {
			h = 4.6 // with its rules a line of 6 mm, as of a closely ruled pad
		}
		high, big = math.Max(high, h), math.Max(big, lineHeight(c.size))
	}
	const pad = 0.7
	high += 2 * pad
	if p.room(high) {
		p.tableHead(cols)
	}
	top := p.y
	for i, c := range cols {
		lh := lineHeight(c.size)
		base := top + pad + big*0.76 // all first lines on one base line
		p.font(c.style, c.size)
		if c.Blank && (i >= len(r.Cells) || r.Cells[i] == "") {
			p.rect(c.x, top, c.w, high, 0.2, "D")
			continue
		}
		for k, s := range cells[i] {
			x := c.x + cellPad
			if c.Align == Decimal {
				x = c.x + c.w - cellPad - p.f.GetStringWidth(s) - p.f.GetStringWidth(padTail(s, t.tails()[i]))
			}
			p.write(x, base+float64(k)*lh, s)
		}
		if i < len(r.Other) && r.Other[i] != "" {
			p.font("", 7.5)
			s := p.safe(r.Other[i])
			p.write(c.x+c.w-cellPad-p.f.GetStringWidth(s), base+3.2, s)
		}
	}
	p.y = top + high
	p.rule(p.y, 0.2)
}

func (p *pdfFace) acrossRow(cols []pdfColumn, r Row) {
	size := max(11.5, p.body)
	p.font("B", size)
	write := 24.0 // mm of a place to write in
	if n := len(r.Boxes); n > 2 {
		write = 64/float64(n) - 4.5
	}
	boxes := 0.0
	for _, b := range r.Boxes {
		boxes += p.f.GetStringWidth(p.safe(b)) + write + 5
	}
	lines := p.lines(r.Across, pageWidth-12-boxes)
	h := lineHeight(size)
	high := h*float64(len(lines)) + 1.2
	if p.room(high) {
		p.tableHead(cols)
		p.font("B", size)
	}
	p.rect(0, p.y, pageWidth, high, 0.5, "FD")
	left := cellPad
	if r.Stop {
		left = 8
		p.whiteBox(1.5, p.y+high/2-2, 4, 4)
	}
	for i, l := range lines {
		p.write(left, p.y+0.6+float64(i)*h+h*0.76, l)
	}
	x := pageWidth - boxes
	for _, b := range r.Boxes {
		w := p.f.GetStringWidth(p.safe(b)) + 1.5
		p.write(x, p.y+0.6+h*0.76, p.safe(b))
		p.whiteBox(x+w, p.y+0.6, write, high-1.2)
		x += w + write + 3.5
	}
	p.y += high
}

// whiteBox is a box to write in on gray ground.
func (p *pdfFace) whiteBox(x, y, w, h float64) {
	if !p.dry {
		p.f.SetFillColor(255, 255, 255)
		p.f.SetLineWidth(0.4)
		p.f.Rect(pageLeft+x, y, w, h, "FD")
	}
}
