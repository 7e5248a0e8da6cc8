package links

import (
	"fmt"

	"rsc.io/qr"

	"borewright/sheets/draw"
)

// module is the side of a module on paper, mm: a camera reads it at arm's length (common practice,
// no source).
const module = 1.2

// drawn is a text as a square code for paper, with the margin that it needs.
func drawn(text, title, says string) (*draw.Scene, error) {
	c, err := qr.Encode(text, qr.M) // oil and folds take some of it
	if err != nil {
		return nil, fmt.Errorf("the square code of a link cannot be made: %w", err)
	}
	side := float64(c.Size+2*quiet) * module
	s := draw.New(side, side, title, says)
	s.Rect(draw.Pen{}, draw.White, draw.Pt{}, draw.Pt{X: side, Y: side})
	const over = 0.02 // mm, so that no seam shows between two rows
	for y := range c.Size {
		for x := 0; x < c.Size; x++ {
			from := x
			for x < c.Size && c.Black(x, y) {
				x++
			}
			if x > from {
				at := func(x, y int) draw.Pt { return draw.Pt{X: float64(quiet+x) * module, Y: float64(quiet+y) * module} }
				a, b := at(from, y), at(x, y+1)
				b.Y += over
				s.Rect(draw.Pen{}, draw.Black, a, b)
			}
		}
	}
	return s, nil
}
