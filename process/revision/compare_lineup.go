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

// reach compares whether the bar gets there.
func (c *comparer) reach(a, b *place.Reach) {
	word := func(r *place.Reach) field.Value {
		if r == nil {
			return figNone()
		}
		return figFact(r.Verdict.Fact())
	}
	c.fig(process.SpoilsReach, "reach of the bar", word(a), word(b))
}

// cleanUp compares the sizes that the readings ask for.
func (c *comparer) cleanUp(a, b *place.CleanUp) {
	size := func(x *place.CleanUp) (t, own field.Value) {
		if x == nil {
			return figNone(), figNone()
		}
		if t = figSize(x.TrueAxis); x.OwnAxis == 0 {
			return t, figNone()
		}
		return t, figSize(x.OwnAxis)
	}
	at, ao := size(a)
	bt, bo := size(b)
	c.fig(process.SpoilsSize, "cleans up about the true axis at", at, bt)
	c.fig(process.SpoilsSize, "cleans up about its own axis at", ao, bo)
}
