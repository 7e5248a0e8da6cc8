package report

import (
	"slices"
	"testing"
)

// Side by side no move of either program is lost, none changes its place, and what is in
// place of something stands beside it.
func TestMovesSideBySide(t *testing.T) {
	acts := func(texts ...string) (out []Act) {
		for i, s := range texts {
			out = append(out, Act{Line: 10 * (i + 1), Text: s})
		}
		return out
	}
	old := acts("a", "b", "c", "d", "e", "f")
	new := acts("a", "B", "c", "d", "x", "y", "f", "g")
	_, moves := actChanges(old, new)
	var left, right []Act
	for _, m := range moves {
		if m.Old != nil {
			left = append(left, *m.Old)
		}
		if m.New != nil {
			right = append(right, *m.New)
		}
	}
	if !slices.Equal(left, old) || !slices.Equal(right, new) {
		t.Errorf("%v and %v are left of %v and %v", left, right, old, new)
	}
	if m := moves[1]; m.Old == nil || m.New == nil || m.Old.Text != "b" || m.New.Text != "B" || m.alike() {
		t.Errorf("B is not beside b: %v", m)
	}
	tab := besides("", moves)
	alike := 0
	for _, r := range tab.Rows {
		if r.Cells[1] == "b" || r.Cells[3] == "B" {
			t.Errorf("a difference without its sign: %v", r.Cells)
		}
		if r.Cells[1] == "c" {
			alike++
		}
	}
	if alike != 1 {
		t.Errorf("what stands next to a difference is shown once: %v", tab.Rows)
	}
}
