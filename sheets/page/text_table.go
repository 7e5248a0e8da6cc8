package page

import "strings"

// column is a Column being laid out.
type column struct {
	Column
	cells []string
	wide  int // runes
	least int // to which wrapping may narrow it
}

// table prints a table no wider than the page: the gaps between columns shrink
// first, then text is wrapped, and rows whose figures alone are too wide are
// printed one figure a line.
func (t *Printer) table(b *Table) {
	if b.Caption != "" {
		t.Hang("", "", b.Caption)
		t.Line("")
	}
	cols := t.columns(b)
	gaps, ok := narrowed(cols)
	if !ok {
		t.stacked(b)
	} else {
		t.tableHead(cols, gaps)
		at := 0
		for _, r := range b.Rows {
			if t.across(r) {
				continue
			}
			t.tableRow(cols, gaps, at)
			at++
		}
	}
	if len(b.Notes) > 0 {
		t.Line("")
	}
	mark := 0
	for _, n := range b.Notes {
		mark = max(mark, runes(t.Put(n.Mark)))
	}
	for _, n := range b.Notes {
		t.Hang("  "+Pad(t.Put(n.Mark), mark)+" ", strings.Repeat(" ", mark+3), n.Text)
	}
}

// across prints a row that has one text; false where it has cells. A stop is ruled
// with equals signs; what it has to say too much for one line goes on below its words.
func (t *Printer) across(r Row) bool {
	switch {
	case r.Stop:
		t.Hang("    === ", "        ", r.Across+" ===")
	case r.Across != "":
		t.Hang("    ", "    ", r.Across)
	}
	if len(r.Boxes) > 0 {
		boxes := &Blanks{}
		for _, b := range r.Boxes {
			boxes.Items = append(boxes.Items, Blank{Label: b})
		}
		t.blanks(boxes)
	}
	return r.Stop || r.Across != ""
}

func (t *Printer) columns(b *Table) []column {
	const blank = 10 // underscores for a figure by hand
	cols := make([]column, len(b.Columns))
	for i, c := range b.Columns {
		col := column{Column: c}
		col.Head = nil
		for _, h := range c.Head {
			col.Head = append(col.Head, t.Put(h))
			col.least = max(col.least, runes(t.Put(h)))
		}
		for _, r := range b.Rows {
			if r.Across != "" {
				continue
			}
			s := ""
			if i < len(r.Cells) {
				s = t.Put(r.Cells[i])
			}
			col.cells = append(col.cells, s)
		}
		if c.Align == Decimal {
			alignPoints(col.cells)
		}
		col.wide = col.least
		for _, s := range col.cells {
			col.wide = max(col.wide, runes(s))
		}
		switch {
		case c.Blank:
			col.wide = max(col.wide, blank)
			col.least = col.wide
		case c.Align == Decimal:
			col.least = col.wide
		default:
			col.least = min(col.wide, max(col.least, 6))
		}
		cols[i] = col
	}
	return cols
}

// narrowed makes the columns narrower until they fit and gives the gap after each. Text is
// wrapped before the gaps between figures shrink, and narrowed further only
// when that is not enough.
func narrowed(cols []column) (gaps []int, ok bool) {
	if len(cols) == 0 {
		return nil, true
	}
	const easy = 16 // runes of text that still read well
	total := func(gap int) int {
		n := gap * (len(cols) - 1)
		for _, c := range cols {
			n += c.wide
		}
		return n
	}
	narrow := func(gap, least int) bool {
		for total(gap) > Columns {
			widest := -1
			for i, c := range cols {
				if c.wide > max(c.least, least) && (widest < 0 || c.wide > cols[widest].wide) {
					widest = i
				}
			}
			if widest < 0 {
				return false
			}
			cols[widest].wide--
		}
		return true
	}
	if !narrow(2, easy) && !narrow(1, 0) {
		return nil, false
	}
	gaps = make([]int, len(cols))
	for i := range cols[:len(cols)-1] {
		gaps[i] = 1
	}
	// Two spaces where there is room, between figures first: text is set off by
	// its own raggedness.
	spare := Columns - total(1)
	for _, figures := range []bool{true, false} {
		for i := range cols[:len(cols)-1] {
			if between := cols[i].Align == Decimal && cols[i+1].Align == Decimal; between == figures && spare > 0 {
				gaps[i]++
				spare--
			}
		}
	}
	if total(3) <= Columns {
		for i := range cols[:len(cols)-1] {
			gaps[i] = 3
		}
	}
	return gaps, true
}

// alignPoints pads numbers so that their decimal points stand under each other
// when the cells are set against the right edge. Cells that are no numbers stay.
func alignPoints(cells []string) {
	after := func(s string) int { // runes from the point on
		if i := strings.LastIndexByte(s, '.'); i >= 0 {
			return runes(s[i:])
		}
		return 0
	}
	most := 0
	for _, s := range cells {
		if isNumber(s) {
			most = max(most, after(s))
		}
	}
	for i, s := range cells {
		if isNumber(s) {
			cells[i] = s + strings.Repeat(" ", most-after(s))
		}
	}
}

func isNumber(s string) bool {
	return s != "" && strings.Trim(s, "+-0123456789.") == "" && strings.Trim(s, "+-.") != ""
}

func (t *Printer) tableHead(cols []column, gaps []int) {
	deep := 0
	for _, c := range cols {
		deep = max(deep, len(c.Head))
	}
	if deep == 0 {
		return
	}
	for row := range deep {
		var l strings.Builder
		for i, c := range cols {
			h := ""
			if k := row - (deep - len(c.Head)); k >= 0 {
				h = c.Head[k]
			}
			l.WriteString(c.set(h) + strings.Repeat(" ", gaps[i]))
		}
		t.Line(l.String())
	}
	var l strings.Builder
	for i, c := range cols {
		l.WriteString(strings.Repeat("-", c.wide) + strings.Repeat(" ", gaps[i]))
	}
	t.Line(l.String())
}

func (c column) set(s string) string {
	if c.Align == Decimal || c.Blank {
		return padLeft(s, c.wide)
	}
	return Pad(s, c.wide)
}

func (t *Printer) tableRow(cols []column, gaps []int, at int) {
	cells := make([][]string, len(cols))
	deep := 1
	for i, c := range cols {
		switch s := c.cells[at]; {
		case c.Blank && s == "":
			cells[i] = []string{strings.Repeat("_", c.wide)}
		case c.Align == Decimal || c.Blank:
			cells[i] = []string{s} // never broken: trailing spaces hold the point
		default:
			cells[i] = wrap(s, c.wide)
		}
		deep = max(deep, len(cells[i]))
	}
	for k := range deep {
		var l strings.Builder
		for i, c := range cols {
			s := ""
			if k < len(cells[i]) {
				s = cells[i][k]
			}
			l.WriteString(c.set(s) + strings.Repeat(" ", gaps[i]))
		}
		t.Line(l.String())
	}
}

// stacked is the table when its figures do not fit side by side.
func (t *Printer) stacked(b *Table) {
	for i, r := range b.Rows {
		if i > 0 {
			t.Line("")
		}
		if t.across(r) {
			continue
		}
		var kv KeyValues
		for k, c := range b.Columns {
			if k < len(r.Cells) && (r.Cells[k] != "" || c.Blank) {
				v := r.Cells[k]
				if v == "" {
					v = strings.Repeat("_", 10)
				}
				kv.Items = append(kv.Items, KeyValue{strings.Join(c.Head, " "), v})
			}
		}
		t.keyValues(&kv)
	}
}
