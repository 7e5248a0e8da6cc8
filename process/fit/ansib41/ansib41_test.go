package ansib41

import (
	"errors"
	"math"
	"strconv"
	"testing"

	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

func thou(l qty.Length) float64 { return math.Round(l.Inches()*1e8) / 1e5 }

// Rows as handbooks print them: ANSI B4.1-1967 (R1987) in Machinery's Handbook, Tables 8a to
// 12, in thousandths of an inch; written down from memory, apart from the table of the program.
func TestRowsOfHandbooks(t *testing.T) {
	for _, r := range []struct {
		inches               float64
		class                string
		hole, low, high      float64 // the hole's high limit; the shaft's limits
		printed0, printed1   float64 // least and most clearance
		overInches, uptoInch float64
	}{
		{2.5, "RC3", 1.2, -1.9, -1.2, 1.2, 3.1, 1.97, 3.15},
		{2.125, "RC4", 1.8, -2.4, -1.2, 1.2, 4.2, 1.97, 3.15},
		{1, "RC5", 1.2, -2.4, -1.6, 1.6, 3.6, 0.71, 1.19},
		{1, "RC1", 0.4, -0.55, -0.3, 0.3, 0.95, 0.71, 1.19},
		{4, "RC7", 3.5, -7.2, -5.0, 5.0, 10.7, 3.15, 4.73},
		{2, "LC3", 1.8, -1.2, 0, 0, 3.0, 1.97, 3.15},
		{2.5, "LT3", 1.2, 0.1, 0.8, -0.8, 1.1, 1.97, 3.15},
		{2.5, "LN2", 1.2, 1.4, 2.1, -2.1, -0.2, 1.97, 3.15},
		{2.125, "FN2", 1.2, 2.0, 2.7, -2.7, -0.8, 1.97, 2.56},
		{0.8, "FN1", 0.5, 0.7, 1.1, -1.1, -0.2, 0.71, 0.95},
		{4, "FN4", 1.4, 6.0, 6.9, -6.9, -4.6, 3.94, 4.73},
	} {
		got, err := Limits(qty.Diameter(qty.FromInches(r.inches)), r.class)
		c := iso286.Clearance(got.Hole, got.Shaft)
		have := [...]float64{0, thou(got.Hole.Upper), thou(got.Shaft.Lower), thou(got.Shaft.Upper), thou(c.Least), thou(c.Most), thou(got.Over.Length()) / 1000, thou(got.Upto.Length()) / 1000}
		want := [...]float64{thou(got.Hole.Lower), r.hole, r.low, r.high, r.printed0, r.printed1, r.overInches, r.uptoInch}
		if err != nil || have != want {
			t.Errorf("%g %s: %v, %v, want %v", r.inches, r.class, have, err, want)
		}
	}
}

// The columns of clearance and interference are printed beside the limits, and were
// copied apart from them: they agree in every row.
func TestPrintedFitFollowsFromLimits(t *testing.T) {
	for _, r := range rows() {
		c := iso286.Clearance(r.Hole, r.Shaft)
		if c.Least != r.printed[0] || c.Most != r.printed[1] {
			t.Errorf("%s over %v: %g to %g, printed %g to %g", r.Class, r.Over, thou(c.Least), thou(c.Most), thou(r.printed[0]), thou(r.printed[1]))
		}
	}
}

// The holes are ISO's grades in inches, rounded: within 14 % of ISO 286 (27 % up to 0.12 in,
// where the standard rounds to 0.05 thou), and the letters that both standards share, held
// where ISO's table has them, lie within the same. So no row is grossly wrong.
func TestGradesAreThoseOfISO(t *testing.T) {
	for _, r := range rows() {
		d := (r.Over + r.Upto) / 2
		for i, l := range []iso286.Limits{r.Hole, r.Shaft} {
			if r.Symbols[i] == "" {
				continue
			}
			grade := r.Symbols[i][1:]
			if _, err := strconv.Atoi(grade); err != nil {
				grade = grade[1:] // js
			}
			iso, err := iso286.Grade(d, "IT"+grade)
			if err != nil {
				t.Fatal(err)
			}
			// A shaft of interference is rounded at both ends, to 0.1 thou each.
			slack := 2540 * qty.Nanometre * 2
			if off := (l.Tolerance() - iso).Abs(); float64(off) > 0.14*float64(iso) && off > slack {
				t.Errorf("%s over %g in: %s is %g thou wide, ISO's grade %g", r.Class, r.Over.Length().Inches(), r.Symbols[i], thou(l.Tolerance()), thou(iso))
			}
		}
		if r.Hole.Lower != 0 {
			t.Errorf("%s over %v: the hole begins at %v", r.Class, r.Over, r.Hole.Lower)
		}
	}
}

// Every class has one row at every size up to 19.69 in, but for three that begin later.
func TestEverySizeHasOneRow(t *testing.T) {
	begins := map[string]float64{"LT3": 0.24, "LT4": 0.24, "FN3": 0.95}
	upto := map[string]qty.Diameter{}
	for _, r := range rows() {
		if at, ok := upto[r.Class]; ok && at != r.Over || !ok && math.Abs(r.Over.Length().Inches()-begins[r.Class]) > 1e-9 || r.Over >= r.Upto {
			t.Errorf("%s over %v: the row before ends at %v", r.Class, r.Over, at)
		}
		upto[r.Class] = r.Upto
	}
	if len(upto) != 34 {
		t.Errorf("%d classes", len(upto))
	}
	for c, at := range upto {
		if at != Largest {
			t.Errorf("%s ends at %v", c, at)
		}
	}
}

// The range is over the first size and up to and including the second, and an inch is exact.
func TestRangesEndIncluded(t *testing.T) {
	for in, want := range map[float64]float64{1.97: 1.6, 1.970001: 1.8, 3.15: 1.8, 19.69: 4} {
		r, err := Limits(qty.Diameter(qty.FromInches(in)), "RC4")
		if err != nil || thou(r.Hole.Upper) != want {
			t.Errorf("%g in: %g, %v, want %g", in, thou(r.Hole.Upper), err, want)
		}
	}
}

// What a refusal names is there.
func TestNearestIsThere(t *testing.T) {
	for _, in := range []float64{0.05, 0.2, 0.5, 1, 5, 19.69} {
		for _, class := range []string{"RC", "RC0", "RC10", "LC12", "LT7", "LT3", "LN4", "FN", "FN3", "FN6", "FN99999999999999999999", "XX1"} {
			d := qty.Diameter(qty.FromInches(in))
			_, err := Limits(d, class)
			var no *Refusal
			if err == nil {
				continue
			}
			if !errors.As(err, &no) {
				t.Errorf("%g %s: %v", in, class, err)
			} else if _, err := Limits(d, no.Nearest); err != nil {
				t.Errorf("%g %s: %v: the advice is refused: %v", in, class, no, err)
			}
		}
	}
}
