package turns_test

import (
	"testing"

	"borewright/process"
	"borewright/process/turns"
)

const near, far = process.NearFace, process.FarFace

// least is the fewest half turns by trying every way to go through the stages, one visit at a
// time, with a walk of its own.
func least(stages []turns.Stage, at process.Face, stands bool) int {
	if len(stages) == 0 {
		return 0
	}
	s := stages[0]
	best := -1
	for _, f := range []process.Face{near, far} {
		if !s[f] {
			continue
		}
		rest := append([]turns.Stage{s}, stages[1:]...)
		rest[0][f] = false
		n := least(rest, f, true)
		if stands && f != at {
			n++
		}
		if best < 0 || n < best {
			best = n
		}
	}
	if best < 0 {
		return least(stages[1:], at, stands)
	}
	return best
}

// TestFewestTurns holds the order against every order there is.
func TestFewestTurns(t *testing.T) {
	for all := range 1 << 8 {
		var stages []turns.Stage
		for i := range 4 {
			stages = append(stages, turns.Stage{all>>(2*i)&1 == 1, all>>(2*i+1)&1 == 1})
		}
		for _, first := range []process.Face{near, far} {
			for _, stands := range []bool{false, true} {
				begin, n := turns.Order(stages, first, stands)
				if want := least(stages, first, stands); n != want {
					t.Errorf("%v from the %s face (stands: %v): %d half turns by %v, %d would do", stages, first, stands, n, begin, want)
				}
			}
		}
	}
}

// TestBeginsAtTheFirst: of orders alike that is taken that begins at the face of bore 1.
func TestBeginsAtTheFirst(t *testing.T) {
	for _, first := range []process.Face{near, far} {
		begin, n := turns.Order([]turns.Stage{{}, {true, true}, {true, true}, {}}, first, false)
		if begin[1] != first || begin[2] == first || n != 2 {
			t.Errorf("first %s: %v, %d half turns", first, begin, n)
		}
	}
}
