package links

import (
	"fmt"
	"io"
	"strings"

	"rsc.io/qr"
)

// quiet is the margin that a square code needs, in modules (ISO/IEC 18004, from memory).
const quiet = 4

// WriteCode prints a text as a square code (ISO/IEC 18004) that a camera reads off a terminal:
// two rows of it in a line, its light modules drawn, whatever colours the terminal has.
func WriteCode(w io.Writer, text string) error {
	c, err := qr.Encode(text, qr.L)
	if err != nil {
		return fmt.Errorf("the square code of a link cannot be made: %w", err)
	}
	light := func(x, y int) bool { return !c.Black(x, y) } // outside it is light too
	var b strings.Builder
	for y := -quiet; y < c.Size+quiet; y += 2 {
		b.WriteString("  \x1b[97;40m")
		for x := -quiet; x < c.Size+quiet; x++ {
			up, down := light(x, y), light(x, y+1) && y+1 < c.Size+quiet
			switch {
			case up && down:
				b.WriteRune('█')
			case up:
				b.WriteRune('▀')
			case down:
				b.WriteRune('▄')
			default:
				b.WriteRune(' ')
			}
		}
		b.WriteString("\x1b[0m\n")
	}
	_, err = io.WriteString(w, b.String())
	return err
}
