package report

import (
	"slices"
	"strings"
	"testing"

	"borewright/sheets/page"
)

// TestLineTable: a line that itself begins with dashes is a line, and a difference
// that is not shown is said in one row.
func TestLineTable(t *testing.T) {
	cells := func(b *page.Table) (out []string) {
		for _, r := range b.Rows {
			out = append(out, r.Across+strings.Join(r.Cells, "|"))
		}
		return out
	}
	got := cells(lineTable("", unified("a", "b", []byte("-- old\nG0\n"), []byte("++ new\nG0\n"))))
	if want := []string{"@@ -1,2 +1,2 @@", "-|-- old", "+|++ new", "|G0"}; !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	got = cells(lineTable("", unified("a", "b", []byte("\x00"), []byte("G0\n"))))
	if want := []string{"a and b differ; they are not text."}; !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	if got := lineTable("", "").Rows; len(got) > 0 {
		t.Errorf("an empty file has %v", got)
	}
}
