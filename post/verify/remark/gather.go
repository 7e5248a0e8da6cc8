package remark

import (
	"slices"

	"borewright/post/rs274"
)

// Comments that are kept for one stop, and stops that are kept: more than any
// program has.
const (
	remarksMost = 200
	stopsMost   = 5000
)

// Apart are comments that belong to no stop: the header, or those beside moves.
type Apart struct {
	Header bool
	Said   []Remark
}

// Gathered are the comments of a program, by what they belong to. A program is
// gathered block by block.
type Gathered struct {
	Stops map[int][]Remark // those of a stop, by its line
	Apart []Apart

	said []Remark // since the last block that does more than stop
	open int      // line of the stop after which nothing has been done yet; 0: none
}

// Take takes the comments of the next block; moved reports that an axis has moved
// before it. To a stop belong those on lines right before it, on its own, and
// right after it. M1, M5, coolant, and after the first stop codes that set a state may
// stand between; any other block begins anew.
// Comments between two stops are those of the second.
func (g *Gathered) Take(b *rs274.Block, moved bool) {
	stop, plain := false, true
	for _, x := range b.Words {
		switch {
		case x.Is('M', 0):
			stop = true
		case x.Letter == 'N', x.Is('M', 1), x.Is('M', 5), x.Is('M', 7), x.Is('M', 8), x.Is('M', 9):
		case x.Letter == 'G' && len(g.Stops) > 0 && modal(x):
		default:
			plain = false
		}
	}
	if !plain {
		g.assign(moved)
	}
	for _, c := range b.Comments {
		if len(g.said) < remarksMost {
			g.said = append(g.said, Remark{b.Line, c.Text})
		}
	}
	if stop {
		if len(g.Stops) < stopsMost {
			if g.Stops == nil {
				g.Stops = map[int][]Remark{}
			}
			g.Stops[b.Line] = slices.Clone(g.said)
			g.open = b.Line
		}
		g.said = g.said[:0]
	}
}

// modal reports a code that only sets a state: no motion, no dwell, no cycle.
func modal(x rs274.Word) bool {
	return x.Value >= 17 && x.Value < 81 && !x.Is('G', 28) && !x.Is('G', 30) && !x.Is('G', 53) || x.Value >= 90 && x.Value < 100 && !x.Is('G', 92)
}

// assign gives the comments gathered to the stop they follow, or to none.
func (g *Gathered) assign(moved bool) {
	switch {
	case len(g.said) == 0:
	case g.open > 0:
		g.Stops[g.open] = append(g.Stops[g.open], g.said...)
	case len(g.Apart) < stopsMost:
		g.Apart = append(g.Apart, Apart{!moved && len(g.Stops) == 0, slices.Clone(g.said)})
	}
	g.open, g.said = 0, g.said[:0]
}
