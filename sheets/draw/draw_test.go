package draw

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"pgregory.net/rapid"
)

func some() *Scene {
	s := New(100, 60, "A <part>", `cut & "hatched"`)
	square := []Pt{{10, 10}, {40, 10}, {40, 30}, {10, 30}}
	s.Polygon(Outline(), None, square...)
	s.Hatch(2, false, square)
	s.Across(Pt{10, 30}, Pt{40, 30}, 40, "30")
	s.Across(Pt{60, 30}, Pt{62, 30}, 40, "2.0000 in")
	s.Running(Pt{10, 30}, 45, []Mark{{Pt{10, 30}, "0"}, {Pt{40, 30}, "30"}})
	s.Leader(Pt{20, 20}, Pt{50, 8}, "<b>not markup</b>")
	s.Break(Pt{70, 10}, Pt{90, 10})
	s.Arc(Axis(), Pt{80, 30}, 8, 0, 90)
	s.Balloon(Pt{5, 5}, "1")
	return s
}

// A drawing comes out the same twice, reads as XML, and its text stays text.
func TestSVG(t *testing.T) {
	a := some().SVG("f1")
	if a != some().SVG("f1") {
		t.Error("two drawings of one scene differ")
	}
	if strings.Contains(a, "<b>") || !strings.Contains(a, "&lt;b&gt;not markup") {
		t.Error("text came out as markup")
	}
	d := xml.NewDecoder(strings.NewReader(a))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	if strings.Contains(a, "NaN") || strings.Contains(a, "Inf") {
		t.Error("a number that no reader takes")
	}
}

func onPaper() ([]byte, error) {
	f := fpdf.New("P", "mm", "A4", "")
	f.SetCatalogSort(true)
	f.SetCreationDate(time.Unix(0, 0).UTC())
	f.SetModificationDate(time.Unix(0, 0).UTC())
	f.AddUTF8FontFromBytes("x", "", dejavusanscondensed.TTF)
	f.AddUTF8FontFromBytes("x", "B", dejavusanscondensedbold.TTF)
	f.AddPage()
	some().PDF(f, Font{"x", func(s string) string { return s }}, 10, 10)
	var b bytes.Buffer
	err := f.Output(&b)
	return b.Bytes(), err
}

func TestPDFSameBytes(t *testing.T) {
	a, err := onPaper()
	if err != nil {
		t.Fatal(err)
	}
	if b, _ := onPaper(); !bytes.Equal(a, b) {
		t.Error("two PDFs of one scene differ")
	}
}

// The table of widths against the font itself, as fpdf reads it.
func TestWidth(t *testing.T) {
	f := fpdf.New("P", "mm", "A4", "")
	f.AddUTF8FontFromBytes("x", "", dejavusanscondensed.TTF)
	f.SetFont("x", "", 10)
	for _, s := range []string{"16.9550", "Worn bore at depth", "tightest: 0.0177 in (step 2)", "~{|}"} {
		size := 10 * 25.4 / 72 // mm
		if got, want := Width(s, size*capital), f.GetStringWidth(s); math.Abs(got-want) > 0.01*want {
			t.Errorf("%q: %.3f mm, the font says %.3f", s, got, want)
		}
	}
}

// Hatching stays inside its face and has the length that fits: area over
// pitch, as many lines cross a face as it is wide across them.
func TestHatch(t *testing.T) {
	for _, left := range []bool{false, true} {
		s := New(200, 200, "", "")
		outer := []Pt{{20, 20}, {120, 20}, {120, 100}, {20, 100}}
		hole := []Pt{{50, 40}, {80, 40}, {80, 70}, {50, 70}}
		s.Hatch(2, left, outer, hole)
		sum := 0.0
		for _, run := range s.items[0].(path).runs {
			sum += math.Hypot(run[1].X-run[0].X, run[1].Y-run[0].Y)
			for _, at := range []float64{0.01, 0.5, 0.99} {
				x, y := run[0].X+(run[1].X-run[0].X)*at, run[0].Y+(run[1].Y-run[0].Y)*at
				if x < 20 || x > 120 || y < 20 || y > 100 || x > 50 && x < 80 && y > 40 && y < 70 {
					t.Fatalf("hatched outside at %.2f %.2f", x, y)
				}
			}
		}
		if want := (100.0*80 - 30*30) / 2; math.Abs(sum-want) > 0.02*want {
			t.Errorf("%.0f mm of hatching, %.0f expected", sum, want)
		}
	}
	s := New(100, 100, "", "") // far larger than the paper: no endless work
	s.Hatch(1, false, []Pt{{-1e12, -1e12}, {1e12, -1e12}, {1e12, 1e12}, {-1e12, 1e12}})
	if n := len(s.items[0].(path).runs); n > 300 {
		t.Errorf("%d lines", n)
	}
}

// Spread keeps the order, the pitch, and what need not move.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "n")
		at := make([]float64, n)
		x := 0.0
		for i := range at {
			x += rapid.Float64Range(0, 20).Draw(t, "step")
			at[i] = x
		}
		out := Spread(at, 4, -1000, 1000)
		apart := true
		for i := range out {
			if i > 0 {
				if out[i]-out[i-1] < 4-1e-9 {
					t.Errorf("%v: %g and %g are too close", at, out[i-1], out[i])
				}
				apart = apart && at[i]-at[i-1] >= 4
			}
		}
		for i := range out {
			if apart && math.Abs(out[i]-at[i]) > 1e-9 {
				t.Errorf("%v moved to %v though there was room", at, out)
			}
		}
	})
}

// A short dimension has its figure outside its arrows.
func TestShortDimension(t *testing.T) {
	s := New(100, 60, "", "")
	s.Across(Pt{60, 30}, Pt{62, 30}, 40, "2.0000 in")
	for _, it := range s.items {
		if x, ok := it.(text); ok && x.at.X < 62+2*arrowLong {
			t.Errorf("the figure stands at %.1f, between the arrows", x.at.X)
		}
	}
}

func TestTicks(t *testing.T) {
	for _, tc := range []struct {
		lo, hi float64
		n, few int
		want   string
	}{
		{0, 10, 5, 0, "0 2 4 6 8 10"}, {3.374, 3.3775, 5, 4, "3.3740 3.3750 3.3760 3.3770"}, {14.5, 16.875, 4, 0, "15 16"}, {1, 1, 5, 0, ""},
	} {
		var got []string
		for _, x := range Ticks(tc.lo, tc.hi, tc.n, tc.few) {
			got = append(got, x.Text)
		}
		if s := strings.Join(got, " "); s != tc.want {
			t.Errorf("%g to %g: %q, want %q", tc.lo, tc.hi, s, tc.want)
		}
	}
}
