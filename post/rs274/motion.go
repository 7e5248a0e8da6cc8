package rs274

import (
	"fmt"
	"math"
	"math/bits"

	"borewright/process/qty"
)

// target takes the axis words and gives where they lead.
func (p *Interpreter) target() Position {
	to := p.pos
	for m := p.c.have & axisBits; m != 0; m &= m - 1 {
		w := p.c.words[bits.TrailingZeros32(m)]
		l := w.Letter
		a := axisOf(l)
		if p.increment && !p.pos.Has(a) {
			p.fault(w.Col, fmt.Sprintf("an increment of %c from an unknown place", l), fmt.Sprintf("%c in G90 first", l))
		}
		if deg := to.rotary(a); deg != nil {
			if p.increment {
				*deg += w.Value
			} else {
				*deg = w.Value
			}
		} else if lin := to.linear(a); p.increment {
			*lin += w.Length(p.units)
		} else {
			*lin = w.Length(p.units)
		}
		to.Known |= a
	}
	p.takeAxes()
	return to
}

// straight is G0 and G1.
func (p *Interpreter) straight() {
	col := p.firstAxis().Col
	e := Event{Kind: Move, Motion: Rapid, From: p.pos}
	if p.motion == 10 && p.c.have&rotaryBits != 0 {
		for _, l := range "ABC" {
			if w := p.get(byte(l)); w != nil {
				p.fault(w.Col, fmt.Sprintf("%c%s at feed", l, w.Text), "rotary axes by G0, in a block of their own")
			}
		}
	}
	e.To = p.target()
	if p.motion == 10 {
		e.Motion = Feed
		e.Feed, e.PerRev = p.feedNow(col), p.perRev
		if e.To.Known&^e.From.Known != 0 {
			p.fault(col, "a feed move from an unknown place", "G0 to a place in these axes first")
		}
	}
	p.pos = e.To
	if e.From != e.To {
		p.send(&e)
	}
}

// goHome is G28, by way of where its axis words lead, and G53, straight to a machine
// position; beside is the motion code in the block, -1: none. Where the axes stand afterwards
// in the program's own numbers nobody knows. By way of an increment G28 is taken from
// where the axis stands, with 0, alone.
// Source: NISTIR 6556, 3.4 (G28 and G53 are not modal, and G28 stands beside no motion);
// the rest from memory of it.
func (p *Interpreter) goHome(beside int64) {
	w := p.c.home
	e := Event{Kind: Return, Code: int(w.Digits)}
	if w.Places == 1 {
		e.Code /= 10
	}
	for m := p.c.have & axisBits; m != 0; m &= m - 1 {
		e.Axes |= axisOf(p.c.words[bits.TrailingZeros32(m)].Letter)
	}
	switch {
	case e.Axes == 0:
		p.fault(w.Col, "G"+w.Text+" without an axis", "the axis that goes: not all at once")
		return
	case e.Code == 28 && beside >= 0:
		p.fault(w.Col, "G"+w.Text+" beside "+p.codeText(motion), "G28 without a motion")
	case e.Code == 53 && p.motion != 0:
		p.fault(w.Col, "G"+w.Text+" without G0", "G53 G0, and the axis")
	case e.Code == 53 && p.increment:
		p.fault(w.Col, "G"+w.Text+" with G91", "G90: a machine position is absolute")
	}
	switch from := p.pos; {
	case e.Code == 53:
		p.pos = Position{}
		e.Center = p.target()
		p.pos = from
	case p.increment:
		for m := p.c.have & axisBits; m != 0; m &= m - 1 {
			if at := p.c.words[bits.TrailingZeros32(m)]; at.Digits != 0 {
				p.fault(at.Col, fmt.Sprintf("G28 by way of %c%s, an increment", at.Letter, at.Text), fmt.Sprintf("%c0: straight from where it stands", at.Letter))
			}
		}
		p.takeAxes()
	default:
		if to := p.target(); to != from {
			p.pos = to
			p.send(&Event{Kind: Move, Motion: Rapid, From: from, To: to, Code: 28})
		}
	}
	p.send(&e)
	for a := X; a <= C; a <<= 1 {
		if e.Axes&a == 0 {
			continue
		}
		p.pos.Known &^= a
		if l := p.pos.linear(a); l != nil {
			*l = 0
		} else {
			*p.pos.rotary(a) = 0
		}
	}
}

// feedNow is the feed in force, and says what is missing for a feed move.
func (p *Interpreter) feedNow(col int) qty.Length {
	switch {
	case !p.feedModeSaid:
		p.once(saidFeedMode, col, "a feed move before G94 or G95", "the feed mode in the first block")
	case p.perRev && !p.spindle.Turning():
		p.fault(col, "a feed per revolution while the spindle stands", "M3 or M4 first: it never ends")
	}
	if !p.fed {
		p.fault(col, "no F for this feed move", "F in this block or before it, anew after each change of units or of G94 and G95")
		return 0
	}
	if p.speed <= 0 {
		p.fault(col, "no S before this feed move", "S, and M3 or M4")
	}
	return p.feed.Length(p.units)
}

// arcTolerance is how far the radius at the end of an arc may differ from that
// at its start: 0.002 mm or 0.0002 in (from memory of NISTIR 6556, 3.5.3).
func arcTolerance(u qty.Unit) float64 {
	if u == qty.Inches {
		return 0.0002 * 25.4
	}
	return 0.002
}

// arc is G2 and G3. The plane's axes are first and second, so that a turn from
// first to second is counter-clockwise seen from the third axis' plus side.
func (p *Interpreter) arc() {
	col := p.firstAxis().Col
	e := Event{Kind: Move, Motion: Arc, From: p.pos, Plane: p.plane, Clockwise: p.motion == 20}
	if !p.planeSaid {
		p.once(saidPlane, col, "an arc before its plane", "G17, G18 or G19 in the first block")
	}
	first, second, i, j, k := X, Y, byte('I'), byte('J'), byte('K')
	switch p.plane {
	case 18:
		first, second, i, j, k = Z, X, 'K', 'I', 'J'
	case 19:
		first, second, i, j, k = Y, Z, 'J', 'K', 'I'
	}
	ok := true
	bad := func(col int, what, want string) { ok = false; p.fault(col, what, want) }
	for _, l := range "UVWABC" {
		if w := p.take(byte(l)); w != nil {
			bad(w.Col, fmt.Sprintf("%c%s in an arc", l, w.Text), "X, Y and Z")
		}
	}
	at := func(a Axes) bool { return p.get("XYZ"[bit(a)]) != nil }
	if !at(first) && !at(second) {
		bad(col, "an arc without an end in its plane", fmt.Sprintf("both axes of G%d", p.plane))
	}
	wi, wj, wk, wr := p.take(i), p.take(j), p.take(k), p.take('R')
	e.To = p.target()
	e.Feed, e.PerRev = p.feedNow(col), p.perRev
	from := p.pos
	p.pos = e.To
	if !from.Has(first | second) {
		bad(col, "an arc from an unknown place", "G0 to a place in its plane first")
	}
	if wk != nil {
		bad(wk.Col, fmt.Sprintf("%c%s outside the plane G%d", wk.Letter, wk.Text, p.plane), fmt.Sprintf("%c and %c", i, j))
	}
	x0, y0 := from.linear(first).MM(), from.linear(second).MM()
	x1, y1 := e.To.linear(first).MM(), e.To.linear(second).MM()
	tol := arcTolerance(p.units)
	var cx, cy float64
	switch {
	case wr != nil && (wi != nil || wj != nil):
		bad(wr.Col, "R beside a center", fmt.Sprintf("R, or %c and %c", i, j))
	case wr != nil:
		var why string
		if cx, cy, why = center(x0, y0, x1, y1, wr.Length(p.units).MM(), e.Clockwise, tol); why != "" {
			bad(wr.Col, "R"+wr.Text+": "+why, "an arc that closes")
		}
	case wi == nil && wj == nil:
		bad(col, "an arc without a center", fmt.Sprintf("%c and %c, or R", i, j))
	default:
		cx, cy = x0, y0
		if wi != nil {
			cx += wi.Length(p.units).MM()
		}
		if wj != nil {
			cy += wj.Length(p.units).MM()
		}
		r0, r1 := math.Hypot(x0-cx, y0-cy), math.Hypot(x1-cx, y1-cy)
		if r0 == 0 || math.Abs(r0-r1) > tol {
			bad(col, fmt.Sprintf("the arc does not close: radius %.4f mm at its start, %.4f mm at its end", r0, r1),
				fmt.Sprintf("radii that agree within %.4f mm", tol))
		}
	}
	if !ok {
		return
	}
	r := math.Hypot(x0-cx, y0-cy)
	e.Radius = qty.FromMM(r)
	*e.Center.linear(first), *e.Center.linear(second) = qty.FromMM(cx), qty.FromMM(cy)
	e.Center.Known = first | second
	e.Angle = math.Atan2(y1-cy, x1-cx) - math.Atan2(y0-cy, x0-cx)
	if e.Clockwise {
		e.Angle = -e.Angle
	}
	if x0 == x1 && y0 == y1 {
		e.Angle = 2 * math.Pi
	} else if e.Angle <= 0 {
		e.Angle += 2 * math.Pi
	}
	p.send(&e)
}

// bit is the place of X, Y or Z among the three.
func bit(a Axes) int {
	switch a {
	case X:
		return 0
	case Y:
		return 1
	}
	return 2
}

// center finds the center of an arc by its radius: at most half a turn for a
// positive one, more for a negative one. The center of the shorter clockwise
// arc lies to the right of the chord.
func center(x0, y0, x1, y1, r float64, clockwise bool, tol float64) (cx, cy float64, why string) {
	dx, dy := x1-x0, y1-y0
	chord := math.Hypot(dx, dy)
	switch {
	case chord == 0:
		return 0, 0, "the arc ends where it starts, and a radius does not say its center"
	case chord > 2*math.Abs(r)+tol:
		return 0, 0, fmt.Sprintf("the ends are %.4f mm apart, more than the diameter", chord)
	}
	h := math.Sqrt(max(0, r*r-chord*chord/4)) / chord
	if clockwise == (r < 0) {
		h = -h
	}
	return x0 + dx/2 + h*dy, y0 + dy/2 - h*dx, ""
}
