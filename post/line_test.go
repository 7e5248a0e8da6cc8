package post

import (
	"bytes"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/qty"
)

// On the shortest line that is taken every block fits, in whatever format.
func TestShortestLineHoldsEveryBlock(t *testing.T) {
	for i := range 8 {
		point, zeros := i < 4, process.Zeros(i%4)
		for _, units := range []qty.Unit{qty.Inches, qty.Metric} {
			ctl := control()
			ctl.DecimalPoint, ctl.WholePlaces, ctl.PartPlaces, ctl.Units, ctl.DropZeros = point, 6, 6, units, zeros
			ctl.FeedPerRev, ctl.BlockStep, ctl.LineMost, ctl.OrientedStop, ctl.Cycles = false, 100, lineLeast, true, true
			p := idler(ctl)
			v := &p.Bores[0].Visits[0]
			for len(v.Passes) < 100 { // block numbers of five digits
				v.Passes = append(v.Passes, v.Passes[len(v.Passes)-1])
			}
			for k := range p.Bores[0].Visits {
				if err := Write(&bytes.Buffer{}, p, 0, k); err != nil {
					t.Errorf("%q zeros dropped, point %v, %v: %v", zeros, point, units, err)
				}
			}
		}
	}
}

// A remark that has to go on is broken so that no dash stands in front of a word: behind a
// figure it would read as minus.
func TestBreaksReadAsWritten(t *testing.T) {
	text := "THE BORE COMES OUT ABOUT 0.00049 IN SMALLER, HONING TAKES THE TIP BACK"
	for most := 24; most <= len(text); most++ {
		lines := wrap(text, most)
		for _, l := range lines {
			if strings.HasPrefix(strings.TrimLeft(l, " "), "- ") || len(l) > most {
				t.Errorf("at %d: %q", most, lines)
			}
		}
		if got := strings.Join(strings.Fields(strings.Join(lines, " ")), " "); got != text {
			t.Errorf("at %d: %q", most, got)
		}
	}
}
