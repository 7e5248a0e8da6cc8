package revision

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/place"
	"borewright/process/qty"
)

// moves compares what the plan says to move.
func (c *comparer) moves(a, b *place.LineUp) {
	type figures struct{ x, y, turn, shim field.Value }
	of := func(l *place.LineUp) (f figures) {
		if l == nil {
			return f
		}
		f.x, f.y = figLength(qty.FromMM(l.Move[0].By)), figLength(qty.FromMM(l.Move[1].By))
		f.turn, f.shim = figLength(0), figLength(0)
		if l.Turn != nil {
			f.turn = figFact(l.Turn.Fact())
		}
		if l.Shim != nil {
			f.shim = figFact(l.Shim.Fact())
		}
		return f
	}
	o, n := of(a), of(b)
	c.on(NoPart).at("lining up")
	c.fig(process.SpoilsSize, "move X", o.x, n.x)
	c.fig(process.SpoilsSize, "move Y", o.y, n.y)
	c.fig(process.SpoilsSize, "turn of the table", o.turn, n.turn)
	c.fig(process.SpoilsSize, "shim", o.shim, n.shim)
}
