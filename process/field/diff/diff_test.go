package diff_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process/field"
	"borewright/process/field/diff"
	"borewright/process/qty"
)

// A ring is read by radii or across, at clock positions.
type ring struct {
	At             []float64
	Radius, Across []qty.Length
}

func (r *ring) Describe(d *field.Desc) {
	d.Numbers(&r.At, "at", "°", 1, 9).Clock()
	d.Lengths(&r.Radius, "radius", 1, 9).Weighs(1, "radius").Clocked(&r.At)
	d.Lengths(&r.Across, "across", 1, 9).Weighs(2, "across").Clocked(&r.At)
}

// A reading that was taken elsewhere is one difference, of the readings that there
// are; one that only one side has shows as such.
func TestReadingsAtClockPositions(t *testing.T) {
	mm := func(all ...float64) (out []qty.Length) {
		for _, x := range all {
			out = append(out, qty.FromMM(x))
		}
		return out
	}
	a := &ring{At: []float64{0, 90, 180}, Radius: mm(40, 41, 42)}
	for _, c := range []struct {
		why  string
		b    ring
		want []string
	}{
		{"the same", *a, nil},
		{"read elsewhere", ring{At: []float64{0, 95, 180}, Radius: mm(40, 41, 42)}, []string{"radius, point 2, clock position"}},
		{"another size", ring{At: []float64{0, 90, 180}, Radius: mm(40, 41, 43)}, []string{"radius, point 3"}},
		{"one more", ring{At: []float64{0, 90, 180, 270}, Radius: mm(40, 41, 42, 43)}, []string{"radius, point 4"}},
		{"one less", ring{At: []float64{0, 90}, Radius: mm(40, 41)}, []string{"radius, point 3"}},
		{"across instead", ring{At: []float64{0, 90, 180}, Across: mm(80, 82, 84)},
			[]string{"radius, point 1", "radius, point 2", "radius, point 3", "across, point 1", "across, point 2", "across, point 3"}},
	} {
		var got []string
		for _, d := range diff.Compare(qty.Metric, a, &c.b) {
			got = append(got, d.What)
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: %s", c.why, d)
		}
	}
}
