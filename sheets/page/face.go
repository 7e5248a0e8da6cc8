package page

import "strings"

// What the faces for paper share.

// hasKey is whether a table is read from a distance.
func (t *Table) hasKey() bool {
	for _, c := range t.Columns {
		if c.Key {
			return true
		}
	}
	return false
}

// said is what stands under a drawing.
func (f Figure) said() string {
	s := f.Caption
	for i, w := range f.Words {
		if i == 0 && s != "" {
			s += "."
		}
		s += " " + w
	}
	return strings.TrimSpace(s)
}

// tails gives for each column the longest part from the decimal point on, so
// that points stand under each other.
func (t *Table) tails() []string {
	out := make([]string, len(t.Columns))
	for _, r := range t.Rows {
		for i, s := range r.Cells {
			if i < len(out) && isNumber(s) {
				if k := strings.LastIndexByte(s, '.'); k >= 0 && len(s)-k > len(out[i]) {
					out[i] = s[k:]
				}
			}
		}
	}
	return out
}

// padTail is what a number lacks to the longest tail of its column.
func padTail(s, tail string) string {
	if !isNumber(s) {
		return ""
	}
	if k := strings.LastIndexByte(s, '.'); k >= 0 {
		return tail[min(len(tail), len(s)-k):]
	}
	return tail
}

// group is what is kept on one page where it fits: a heading with what stands
// under it. Long ones (a table read from a distance, a long list) may be
// parted.
type group struct {
	blocks []Block
	long   bool
}

func groups(blocks []Block) []group {
	var out []group
	for i, b := range blocks {
		if _, head := b.(*Heading); i == 0 || head {
			out = append(out, group{})
		}
		g := &out[len(out)-1]
		g.blocks = append(g.blocks, b)
		switch b := b.(type) {
		case *Table:
			g.long = g.long || b.hasKey() || len(b.Rows) > 15
		case *Checklist:
			g.long = g.long || len(b.Items) > 8
		case *Cautions:
			g.long = g.long || len(b.Items) > 5
		case *KeyValues:
			g.long = g.long || len(b.Items) > 15
		case *Figures:
			g.long = true // drawings are never parted themselves
		}
	}
	return out
}
