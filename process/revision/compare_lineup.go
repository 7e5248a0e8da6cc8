package revision

import (
	"strconv"

	"borewright/process"
	"borewright/process/place"
)

// lineUp compares what the work is lined up with, as the job states it.
func (c *comparer) lineUp(a, b process.LineUp) {
	c.fig(SpoilsSize, "graduation of the dial", figFine(a.Dial), figFine(b.Dial))
	c.fig(SpoilsSize, "repeatability of the dial", figFine(a.Repeats), figFine(b.Repeats))
	c.fig(SpoilsSize, "one bore off the line, most", figFine(a.Coaxial), figFine(b.Coaxial))
	c.fig(SpoilsSize, "swept face off square, most", figNumber(a.Square, "mrad"), figNumber(b.Square, "mrad"))
	c.fig(SpoilsSize, "line off the machined face, most", figNumber(a.Parallel, "mrad"), figNumber(b.Parallel, "mrad"))
	t := func(r *process.Rotary) (Figure, Figure) {
		if r == nil {
			return figNone(), figNone()
		}
		return figLength(r.Centre), figLength(r.Stop)
	}
	ac, as := t(a.Table)
	bc, bs := t(b.Table)
	c.fig(SpoilsSize, "centre of the table", ac, bc)
	c.fig(SpoilsSize, "stop of the table", as, bs)
	p := func(k *process.Packs) (Figure, Figure) {
		if k == nil {
			return figNone(), figNone()
		}
		return figLength(k.Near), figLength(k.Far)
	}
	an, af := p(a.Packs)
	bn, bf := p(b.Packs)
	c.fig(SpoilsSize, "near packing", an, bn)
	c.fig(SpoilsSize, "far packing", af, bf)
}

// shop compares the lists of bars; which bars a shop owns spoils nothing.
func (c *comparer) shop(a, b []process.ShopBar) {
	names := func(list []process.ShopBar) (out []string) {
		for _, x := range list {
			out = append(out, x.Name)
		}
		return out
	}
	c.sentences(SpoilsWords, "bar on the list", names(a), names(b))
}

// moves compares what the plan says to move.
func (c *comparer) moves(a, b *place.LineUp) {
	type figures struct{ x, y, turn, shim Figure }
	of := func(l *place.LineUp) (f figures) {
		if l == nil {
			return f
		}
		f.x, f.y = figLength(l.Move[0].By), figLength(l.Move[1].By)
		f.turn, f.shim = figLength(0), figLength(0)
		if l.Turn != nil {
			f.turn = figText(l.Turn.Way + " " + number(l.Turn.Mrad) + " mrad")
		}
		if l.Shim != nil {
			f.shim = figText("under the " + l.Shim.Under + " end, " + number(1e3*l.Shim.PerSpan.MM()/l.Shim.Span.MM()) + " mrad")
		}
		return f
	}
	o, n := of(a), of(b)
	c.on(NoPart).at("lining up")
	c.fig(SpoilsSize, "move X", o.x, n.x)
	c.fig(SpoilsSize, "move Y", o.y, n.y)
	c.fig(SpoilsSize, "turn of the table", o.turn, n.turn)
	c.fig(SpoilsSize, "shim", o.shim, n.shim)
}

// reach compares whether the bar gets there.
func (c *comparer) reach(a, b *place.Reach) {
	word := func(r *place.Reach) Figure {
		if r == nil {
			return figNone()
		}
		return figText(r.Verdict)
	}
	c.fig(SpoilsReach, "reach of the bar", word(a), word(b))
}

// cleanUp compares the sizes that the readings ask for.
func (c *comparer) cleanUp(a, b *place.CleanUp) {
	size := func(x *place.CleanUp) (t, own Figure) {
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
	c.fig(SpoilsSize, "cleans up about the true axis at", at, bt)
	c.fig(SpoilsSize, "cleans up about its own axis at", ao, bo)
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }
