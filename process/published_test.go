package process_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// published is one thing that others measured, or worked out, and what our
// formulas say of it.
type published struct {
	what   string
	band   float64 // how far off our figure may be, as a fraction of the published one
	miss   string  // why some points are outside the band; empty: none may be
	points []point
}

// point is one figure of theirs and ours, in the same unit.
type point struct {
	at            string
	ours, printed float64
}

func (p point) ratio() float64 { return p.ours / p.printed }

func (p published) holds(x point) bool { return math.Abs(x.ratio()-1) <= p.band }

// TestPublished holds the formulas against measurements made by others. A row
// with points outside its band says why, and a row that says why has some. The
// table stands in DEVELOPERS.md; UPDATE_GOLDEN=1 rewrites it there.
func TestPublished(t *testing.T) {
	rows := slices.Concat(publishedForces(t), publishedRoughness(t), publishedBars(t), publishedChatter(t))
	var table, misses strings.Builder
	table.WriteString("| published | points | ours over theirs: least, middle, most | band | outside |\n|---|---|---|---|---|\n")
	for _, r := range rows {
		var ratios []float64
		outside := 0
		for _, p := range r.points {
			mark := ""
			if !r.holds(p) {
				outside++
				mark = "  outside"
			}
			ratios = append(ratios, p.ratio())
			t.Logf("%s: %s: ours %.4g, published %.4g, %.2f of it%s", r.what, p.at, p.ours, p.printed, p.ratio(), mark)
		}
		slices.Sort(ratios)
		n := len(ratios)
		switch {
		case n == 0:
			t.Fatalf("%s: no points", r.what)
		case outside > 0 && r.miss == "":
			t.Errorf("%s: %d of %d points are further off than ±%.0f %%: %.2f", r.what, outside, n, 100*r.band, ratios)
		case outside == 0 && r.miss != "":
			t.Errorf("%s: all points are within ±%.0f %% now; it need not be called a miss", r.what, 100*r.band)
		}
		fmt.Fprintf(&table, "| %s | %d | %.2f %.2f %.2f | ±%.0f %% | %d |\n", r.what, n, ratios[0], (ratios[(n-1)/2]+ratios[n/2])/2, ratios[n-1], 100*r.band, outside)
		if r.miss != "" {
			fmt.Fprintf(&misses, "- %s: %s.\n", r.what, r.miss)
		}
	}
	got := table.String() + "\nOutside, and why:\n\n" + misses.String()
	t.Log("\n" + got)
	holdPage(t, "../DEVELOPERS.md", "<!-- published: go test -run Published -v ./process -->\n", "<!-- end -->\n", got)
}

// holdPage holds what stands between two lines of a page; UPDATE_GOLDEN=1
// rewrites it.
func holdPage(t *testing.T, name, from, to, want string) {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	head, rest, ok := strings.Cut(string(data), from)
	got, tail, end := strings.Cut(rest, to)
	if !ok || !end {
		t.Fatalf("%s has no lines %q and %q", name, from, to)
	}
	if got == want {
		return
	}
	if os.Getenv("UPDATE_GOLDEN") == "" {
		t.Errorf("%s shows another table; UPDATE_GOLDEN=1 go test -run Published ./process rewrites it", name)
		return
	}
	if err := os.WriteFile(name, []byte(head+from+want+to+tail), 0o644); err != nil {
		t.Fatal(err)
	}
}

// record is one line of a table of measurements: columns by name.
type record map[string]string

func (r record) number(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("column %q: %v", column, err)
	}
	return v
}

// records are the lines of a table of testdata/published.
func records(t *testing.T, name string) []record {
	t.Helper()
	f, err := os.Open("../testdata/published/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(name, err)
	}
	var out []record
	for _, line := range lines[1:] {
		r := record{}
		for i, column := range lines[0] {
			r[column] = line[i]
		}
		out = append(out, r)
	}
	return out
}
