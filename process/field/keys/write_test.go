package keys

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/process/qty"
)

// Any length is written so that it reads back exactly.
func TestExactLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := qty.Length(rapid.Int64Range(1, 2_000_000_000).Draw(t, "nm"))
		for _, u := range []qty.Unit{qty.Inches, qty.Metric} {
			got, err := qty.ParseLength(strings.Trim(exact(u, l), `"`))
			if err != nil || got != l {
				t.Fatalf("%d nm is written %s and reads %d (%v)", l, exact(u, l), got, err)
			}
		}
	})
}
