package rs274

import (
	"fmt"

	"borewright/process/qty"
)

// step is one step of a cycle after the tool stands at R.
type step uint8

const (
	feedDown step = iota // feed to Z
	pause                // dwell P
	rapidOut             // rapid to clear
	feedOut              // feed to clear
	spindleStop
	handOut // program stop; the operator retracts by hand
	spindleOn
)

// cycles are the steps of each. Source: NISTIR 6556, 3.5.16.
var cycles = map[int64][]step{
	810: {feedDown, rapidOut},
	820: {feedDown, pause, rapidOut},
	850: {feedDown, feedOut},
	860: {feedDown, pause, spindleStop, rapidOut, spindleOn},
	880: {feedDown, pause, spindleStop, handOut, spindleOn},
	890: {feedDown, pause, feedOut},
}

var cycleNames = [...]string{"G81", "G82", "G83", "G84", "G85", "G86", "G87", "G88", "G89"}

// repeatsMost bounds L, so that a short text cannot ask for endless work.
const repeatsMost = 999

// runCycle is a block with axis words under G81 to G89.
func (p *Interpreter) runCycle() {
	steps := cycles[p.motion]
	name := cycleNames[p.motion/10-81]
	col := p.firstAxis().Col
	ok := true
	bad := func(col int, what, want string) { ok = false; p.fault(col, what, want) }

	for _, l := range "UVWABC" {
		if w := p.take(byte(l)); w != nil {
			bad(w.Col, fmt.Sprintf("%c%s in a cycle", l, w.Text), "X and Y, and Z for the depth")
		}
	}
	if !p.planeSaid {
		p.once(saidPlane, col, "a cycle before its plane", "G17 in the first block")
	}
	if p.plane != 17 {
		bad(col, fmt.Sprintf("%s in plane G%d", name, p.plane), "G17: the cycle runs along Z")
	}
	if p.increment && (p.get('X') == nil || p.get('Y') == nil) {
		bad(col, name+" in G91 without both X and Y", "both: some readers add an old number for the one left out")
	}
	c := &p.cycle
	if w := p.take('Z'); w != nil {
		c.z, c.hasZ = *w, true
	}
	if w := p.take('R'); w != nil {
		c.r, c.hasR = *w, true
	}
	repeats := 1
	if w := p.take('L'); w != nil {
		if repeats = int(w.Digits); repeats < 1 || repeats > repeatsMost {
			bad(w.Col, "L"+w.Text+" repeats", fmt.Sprintf("1 to %d", repeatsMost))
		}
	}
	dwells, spins := false, false
	for _, s := range steps {
		dwells, spins = dwells || s == pause, spins || s == spindleStop
	}
	if dwells {
		if w := p.take('P'); w != nil {
			c.p, c.hasP = *w, true
		}
		if !c.hasP {
			bad(col, name+" without P", "P, the dwell at the bottom")
		}
	}
	if spins && !p.spindle.Turning() {
		bad(col, name+" with the spindle stopped", "M3 or M4 before it")
	}
	if !c.hasR {
		bad(col, name+" without R", "R, where the feed begins, anew for each cycle")
	}
	if !c.hasZ {
		bad(col, name+" without Z", "Z, the bottom, anew for each cycle")
	}
	back := p.returnLevel(c, col, name)
	if !p.pos.Has(Z) {
		bad(col, name+" from an unknown Z", "G0 Z first")
	}
	feed := p.feedNow(col)
	if !ok {
		p.target()
		return
	}

	r, z := c.r.Length(p.units), c.z.Length(p.units)
	if p.increment {
		r += p.pos.Z
		z += r
	}
	if r < z {
		p.fault(col, name+" with R below Z", "R above Z: the cycle feeds from R to Z")
		p.target()
		return
	}
	wx, wy := p.take('X'), p.take('Y')
	old := p.pos.Z
	out := r
	if back == 98 && old > r {
		out = old
	}
	n := int(p.motion / 10)
	if p.pos.Z < r {
		p.goZ(n, r, Rapid, 0)
	}
	for range repeats {
		to := p.pos
		p.across(&to, X, wx)
		p.across(&to, Y, wy)
		p.goTo(n, to, Rapid, 0)
		p.goZ(n, r, Rapid, 0)
		p.steps(n, steps, z, out, feed)
		if p.err != nil || !p.pos.Has(Z) {
			return
		}
	}
}

// returnLevel is where the run goes back to: 98 to the Z before it, 99 to R.
func (p *Interpreter) returnLevel(c *cycle, col int, name string) int {
	back := p.back
	if back == 0 {
		back = 99
		if !p.d.lacks(ReturnWords) {
			p.once(saidReturn, col, name+" before G98 or G99", "one of them first: controls start differently")
		}
	}
	if c.ok && c.back != back {
		p.fault(col, "G98 and G99 in one run of cycles", "G80 between: readers differ in the level they return to")
	}
	c.ok, c.back = true, back
	return back
}

func (p *Interpreter) across(to *Position, a Axes, w *Word) {
	if w == nil {
		return
	}
	l := w.Length(p.units)
	if p.increment {
		l += *to.linear(a)
	}
	*to.linear(a) = l
	to.Known |= a
}

// goZ moves Z alone.
func (p *Interpreter) goZ(cycle int, l qty.Length, m Motion, feed qty.Length) {
	to := p.pos
	to.Z = l
	p.goTo(cycle, to, m, feed)
}

func (p *Interpreter) goTo(cycle int, to Position, m Motion, feed qty.Length) {
	e := Event{Kind: Move, Motion: m, From: p.pos, To: to, Cycle: cycle}
	if m != Rapid {
		e.Feed, e.PerRev = feed, p.perRev
	}
	p.pos = to
	if e.From != e.To {
		p.send(&e)
	}
}

func (p *Interpreter) steps(n int, steps []step, z, out, feed qty.Length) {
	sense := p.spindle
	for _, s := range steps {
		switch s {
		case feedDown:
			p.goZ(n, z, Feed, feed)
		case pause:
			p.wait(&p.cycle.p, n)
		case rapidOut:
			p.goZ(n, out, Rapid, 0)
		case feedOut:
			p.goZ(n, out, Feed, feed)
		case spindleStop:
			p.spindle = Off
			p.send(&Event{Kind: SpindleOff, Cycle: n})
		case handOut:
			p.send(&Event{Kind: Stop, Cycle: n})
			p.pos.Z, p.pos.Known = 0, p.pos.Known&^Z // wherever the hand left it
		case spindleOn:
			p.spindle = sense
			p.send(&Event{Kind: SpindleOn, Cycle: n})
		}
	}
}
