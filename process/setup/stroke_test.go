package setup

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Where the push rises straight with the depth, by k going in and by q coming out,
// the way in takes 1/(1+k) of what the tip overlaps, and the way out 1/(1+q) of the
// rest; of an uneven bore each way leaves k/(1+k) or q/(1+q).
func TestStrokeOfStraightPushes(t *testing.T) {
	for _, c := range [][2]float64{{0.2, 0.3}, {0.05, 0}, {2, 0.5}, {-0.1, 0.4}} {
		k, q := c[0], c[1]
		s := Stroke{In: func(a float64) float64 { return k * a }, Out: func(a float64) float64 { return q * a }}
		in, out := s.Take(40.12, 40)
		wantIn := 0.12 / (1 + k)
		wantOut := math.Max(0, (0.12-wantIn)/(1+q))
		if math.Abs(in-wantIn) > 1e-9 || math.Abs(out-wantOut) > 1e-9 {
			t.Errorf("pushes %v: takes %.6f and %.6f, by hand %.6f and %.6f", c, in, out, wantIn, wantOut)
		}
		if k < 0 {
			continue
		}
		left := s.Left(40, 40.05, 40+in+out) - 40 - in - out
		if want := 0.05 * k / (1 + k) * q / (1 + q); math.Abs(left-want) > 2e-6 {
			t.Errorf("pushes %v: leaves %.6f of 0.05, by hand %.6f", c, left, want)
		}
		if tip := s.SettingFor(40, 40+in+out); math.Abs(tip-40.12) > 1e-8 {
			t.Errorf("pushes %v: set to %.6f", c, tip)
		}
	}
	one := Stroke{In: func(a float64) float64 { return 0.2 * a }}
	if in, out := one.Take(40.12, 40); math.Abs(in-0.1) > 1e-9 || out != 0 {
		t.Errorf("with no way out that cuts: %v and %v", in, out)
	}
	if in, out := one.Take(39.9, 40); in != 0 || out != 0 {
		t.Errorf("a tip that does not reach the wall takes %v and %v", in, out)
	}
}

// Split, SettingFor and Take say the same of one stroke, whatever the bar.
func TestStrokeSplits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(what string) Push {
			k, p := rapid.Float64Range(0, 2).Draw(t, what+", mm/mm"), rapid.Float64Range(0.4, 1.2).Draw(t, what+", power")
			return func(a float64) float64 { return k * math.Pow(a, p) }
		}
		s := Stroke{draw("in"), draw("out")}
		depth := rapid.Float64Range(1e-3, 3).Draw(t, "depth")
		in, out := s.Split(depth)
		if math.Abs(in+out-depth) > 1e-9*depth || in < 0 || out < 0 {
			t.Fatalf("%g is split into %g and %g", depth, in, out)
		}
		tip := s.SettingFor(50, 50+depth)
		gotIn, gotOut := s.Take(tip, 50)
		if math.Abs(gotIn-in) > 1e-6*depth || math.Abs(gotOut-out) > 1e-6*depth {
			t.Fatalf("split into %g and %g, taken %g and %g", in, out, gotIn, gotOut)
		}
	})
}
