package bar

import (
	"errors"
	"fmt"
)

// Guided is the same bar with its bearing in another place, at mm from the nose: a bush that
// is fitted in the work goes with the work, so that with table feed it comes nearer to the
// nose by as much as is fed. It may stand beyond the cutter or in front of it.
func (b *Beam) Guided(at float64) (*Beam, error) {
	if b.support == nil {
		return nil, errors.New("the bar runs in no bush")
	}
	s := *b.support
	s.At = at
	bar, err := New(b.sections, b.root, b.cutter, &s, b.tip)
	if err != nil {
		return nil, fmt.Errorf("bush %g mm from the nose: %w", at, err)
	}
	return bar, nil
}

// Follows is how far the cutter goes aside with a bearing that stands aside by 1, the bar
// lying on it. By Maxwell and Betti it is the share of a unit load at the cutter that
// the bearing carries:
//
//	u_c/u_b = δ_bc/(δ_bb + 1/k_b)
//
// On a rigid nose, for a plain bar that is long against its diameter and a rigid bearing at b,
// it is c²·(3b−c)/(2b³) at c before it, and 1 + 3·(c−b)/(2b) at c beyond it: more than the
// straight line from the nose, c/b, beyond, and less before it. 0 for a bar without a
// bearing, and for a line bar, which has two.
func (b *Beam) Follows() float64 { return b.bearingShare() }
