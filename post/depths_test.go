package post

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"borewright/post/rs274"
	"borewright/process/qty"
)

// The depth that is written is the deepest that the control can say without
// passing what was asked for; the reference is exact in fractions.
func TestShallowerWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		depth := qty.Length(rapid.Int64Range(-int64(3*qty.Metre), int64(9*qty.Metre)).Draw(t, "depth"))
		d := rs274.Dialect{Numbers: rs274.PointMust, Part: rapid.IntRange(1, 6).Draw(t, "part")}
		u := qty.Metric
		if rapid.Bool().Draw(t, "inch") {
			u = qty.Inches
		}
		w, err := d.Length('Z', shallowerWord(depth, d, u), u)
		if err != nil {
			t.Fatal(err)
		}
		scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(w.Places)), nil)
		said := func(digits int64) *big.Rat {
			r := new(big.Rat).SetFrac(big.NewInt(digits), scale)
			return r.Mul(r, new(big.Rat).SetInt64(int64(u.Of(1))))
		}
		want := new(big.Rat).SetInt64(int64(depth))
		if w.Places == d.Part && (said(w.Digits).Cmp(want) > 0 || said(w.Digits+1).Cmp(want) <= 0) {
			t.Errorf("%d nm in %v to %d places is written %s", depth, u, d.Part, w.Text)
		}
		if w.Places != d.Part {
			t.Errorf("%d places of %d", w.Places, d.Part)
		}
	})
}
