package clearance

import (
	"math"

	"borewright/process/geom"
)

// piece is one part of what turns, by where it lies from the tip: at tip depth
// t it fills t+from to t+to.
type piece struct {
	part     Part
	from, to float64
	radius   float64
	cutter   bool
	fixed    bool // stays where it is: from and to are depths
}

// parts lists the bar from the spindle outward, then the cutter (whose radius
// a pass sets).
func (w ReachInput) parts() []piece {
	b := w.Bar
	back := math.Inf(-1)
	var out []piece
	if b.QuillFeed {
		out = append(out,
			piece{part: Nose, from: back, to: -b.Standoff, radius: w.Spindle.Nose / 2, fixed: true},
			piece{part: Quill, from: back, to: -b.CutterAt, radius: w.Spindle.Quill / 2})
	} else {
		out = append(out, piece{part: Nose, from: back, to: -b.CutterAt, radius: w.Spindle.Nose / 2})
	}
	at := -b.CutterAt
	for i, s := range b.Steps {
		out = append(out, piece{part: StepPart(i), from: at, to: at + s.Length, radius: s.Diameter / 2})
		at += s.Length
	}
	return append(out, piece{part: Cutter, from: -b.Behind, to: b.Ahead, cutter: true})
}

// inside gives the tip depths at which p stands in a ring from a to b, an open
// interval.
func (p piece) inside(a, b float64) (lo, hi float64) {
	if p.fixed {
		if p.to > a && p.from < b {
			return math.Inf(-1), math.Inf(1)
		}
		return math.Inf(1), math.Inf(-1)
	}
	return a - p.to, b - p.from
}

// leg is one phase of a pass: tip depths and where the bar's axis is.
type leg struct {
	phase   Phase
	lo, hi  float64
	centre  geom.Vec
	stopped bool // the cutter is a tip pointing one way, not a disk
}

func (w ReachInput) legs(p Pass) []leg {
	if w.off == nil {
		return w.onAxis(p)
	}
	u := geom.AtClock(w.TipClock)
	aside, level := w.Shift.Minus(u.Times(w.off.Shift)), math.Min(w.off.Level, p.Clear)
	return []leg{
		{phase: GoingIn, lo: math.Inf(-1), hi: level, centre: aside, stopped: true},
		{phase: GoingIn, lo: level, hi: p.Clear, centre: w.Shift},
		{phase: Cutting, lo: p.Clear, hi: p.End, centre: w.Shift},
		{phase: ComingOut, lo: level, hi: p.End, centre: w.Shift.Minus(u.Times(p.Retract)), stopped: p.Retract > 0},
		{phase: ComingOut, lo: math.Inf(-1), hi: level, centre: aside, stopped: true},
	}
}

// onAxis are the legs of a pass that goes in with the bar on its axis.
func (w ReachInput) onAxis(p Pass) []leg {
	away := geom.AtClock(w.TipClock).Times(-p.Retract)
	return []leg{
		{phase: GoingIn, lo: math.Inf(-1), hi: p.Clear, centre: w.Shift},
		{phase: Cutting, lo: p.Clear, hi: p.End, centre: w.Shift},
		// Coming out covers what going in did as well, now shifted.
		{phase: ComingOut, lo: math.Inf(-1), hi: p.End, centre: w.Shift.Plus(away), stopped: p.Retract > 0},
	}
}

// gaps adds to out one part against one station over all legs of a pass. onAxis
// says that the cutter passes the bores on the way without help; when it does
// not, Entry has the answer and the cutter is measured from where feed begins.
func (w *ReachInput) gaps(out []Gap, legs []leg, p piece, station, pass int, onAxis bool) []Gap {
	cut, s := &w.Passes[pass], &w.Stations[station]
	if p.cutter {
		p.radius = cut.Setting / 2
	} else if s.Bush && !p.fixed {
		return nil
	}
	add := func(g Gap) {
		g.Part, g.Station, g.Name, g.N, g.Diameter = p.part, station, s.Name, w.number(pass), 2*p.radius
		g.Verdict = g.Need.judge(g.Clearance)
		out = append(out, g)
	}
	for i := range legs {
		l := &legs[i]
		lo := l.lo
		if p.cutter && !onAxis && w.off == nil {
			lo = math.Max(lo, cut.Clear)
		}
		radial, need := w.radial(p, s, station == w.Bore, cut, l)
		a, b := p.inside(s.From, s.To)
		a, b = math.Max(a, lo), math.Min(b, l.hi)
		own := p.cutter && station == w.Bore
		switch {
		case p.cutter && s.Through: // it cuts there, and comes out of its own cut
		case own && l.phase != GoingIn: // it cuts there, or comes out of its own cut by the shift
		case a < b || p.fixed && !math.IsInf(a, 1):
			add(Gap{Clearance: radial, Tip: tipOf(a, l.hi), Phase: l.phase, Need: need})
		case !own && !p.fixed && !need.has(radial) && s.From-p.to >= l.hi:
			// In front of a face that it does not pass.
			add(Gap{Clearance: s.From - p.to - l.hi, Axial: true, Tip: l.hi, Phase: l.phase, Need: w.Needs.End})
		}
		if s.Blind && !p.fixed {
			add(Gap{Clearance: s.To + s.Relief - p.to - l.hi, Axial: true, Bottom: true, Tip: l.hi, Phase: l.phase, Need: w.Needs.Bottom})
		}
	}
	return out
}

// tipOf is the tip depth to print: where contact begins, or the deepest feed
// for what stands in the way from the start.
func tipOf(begins, deepest float64) float64 {
	if math.IsInf(begins, 0) {
		return deepest
	}
	return begins
}

// sumError is what sums of lengths are off by, mm: lengths are whole nanometres, and less than half of one
// is no length.
const sumError = 0.5e-6

// has is whether so much room is enough to pass.
func (n Need) has(mm float64) bool { return mm >= n.Least-sumError }

func (n Need) judge(mm float64) Verdict {
	switch {
	case !n.has(mm):
		return Blocked
	case mm < n.Wanted:
		return Tight
	}
	return Free
}

// radial is the clearance on radius that part p would have in station s.
func (w *ReachInput) radial(p piece, s *Station, own bool, cut *Pass, l *leg) (float64, Need) {
	centre, wall := s.At, s.Diameter/2
	if own {
		// Behind the tip the bore is as just cut, about the bar's own axis; before
		// it, as it was.
		wall = cut.Before / 2
		if l.phase != GoingIn && p.to <= 0 {
			centre, wall = w.Shift, cut.Setting/2
		}
	}
	if s.Through && l.phase == ComingOut { // as just cut
		centre, wall = w.Shift, cut.Setting/2
	}
	if p.fixed {
		return wall - centre.Distance(w.Shift) - p.radius - w.Unsure, w.Needs.Chips
	}
	if !p.cutter {
		return wall - centre.Distance(l.centre) - p.radius - w.Unsure, w.Needs.Chips
	}
	if !l.stopped {
		return wall - centre.Distance(l.centre) - p.radius - w.Unsure, w.Needs.Tip
	}
	u, far := geom.AtClock(w.TipClock), 0.0
	for _, c := range w.edges(p.radius) {
		far = math.Max(far, centre.Distance(l.centre.Plus(u.Times(c.out)).Plus(across(u).Times(c.side))))
	}
	return wall - far - w.Unsure, w.Needs.Tip
}
