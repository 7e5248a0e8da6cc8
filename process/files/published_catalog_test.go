package files

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"borewright/process"
)

// TestCatalogAgainstHandbooks holds the built-in metals against the figures of
// testdata/published/catalog.csv, where each source stands. The fastest speed of
// a band lies within what was published, 5 % either way for rounding; the slow
// end is for bars that need it. A speed that has no row says it is from memory.
func TestCatalogAgainstHandbooks(t *testing.T) {
	f, err := os.Open("../../testdata/published/catalog.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	metals := map[string]*process.Material{}
	for _, m := range Materials() {
		metals[m.ID] = m
	}
	held := map[string]bool{}
	for _, row := range rows[1:] {
		m := metals[row[0]]
		if m == nil {
			t.Fatalf("there is no metal %q", row[0])
		}
		lowest, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatal(err)
		}
		highest, err := strconv.ParseFloat(row[3], 64)
		if err != nil {
			t.Fatal(err)
		}
		var got float64
		switch class, use, _ := strings.Cut(row[1], " "); {
		case row[1] == "yield":
			got = m.Re
		case row[1] == "density":
			got = m.Rho
		case use == "rough":
			got = float64(m.Speeds[class].Rough[1])
			held[m.ID+" "+class] = true
		case use == "finish":
			got = float64(m.Speeds[class].Finish[1])
			held[m.ID+" "+class] = true
		default:
			t.Fatalf("there is no figure %q", row[1])
		}
		play := 0.05
		if row[1] == "yield" || row[1] == "density" {
			play = 0
		}
		if got < lowest*(1-play) || got > highest*(1+play) {
			t.Errorf("%s, %s: %.4g, published %s to %s (%s)", row[0], row[1], got, row[2], row[3], row[4])
		}
	}
	for _, m := range metals {
		for class, band := range m.Speeds {
			if !held[m.ID+" "+class] && !strings.Contains(band.Source, "from memory") {
				t.Errorf("%s, %s: no published figure stands beside it, and it does not say it is from memory: %q", m.ID, class, band.Source)
			}
		}
	}
}

// Graphite is torn out of iron as it is bored: seldom finer than Ra 0.8 µm (32 µin) with
// high-speed steel, 0.4 (16) with carbide (common practice, no source). No other metal
// has such a floor. Irons are told by their names, steel castings are no irons.
func TestGraphiteIsTornOut(t *testing.T) {
	irons := 0
	for _, m := range Materials() {
		want := map[string]float64{}
		if strings.Contains(m.ID, "iron") {
			irons++
			want = map[string]float64{"hss": 0.8, "carbide": 0.4, "carbide-coated": 0.4}
		}
		for class, b := range m.Speeds {
			if got := b.RaLeast * 1e3; math.Abs(got-want[class]) > 1e-9 {
				t.Errorf("%s with %s: Ra %g µm at the least, want %g", m.ID, class, got, want[class])
			}
		}
	}
	if irons != 4 {
		t.Errorf("%d irons", irons)
	}
}
