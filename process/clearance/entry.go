package clearance

import (
	"borewright/process/geom"
	"math"
	"slices"
)

// Entry is how the cutter of one pass gets to where feed begins. A cutter set
// larger than a bore on the way can still pass with the spindle stopped and the
// bar shifted away from the tip; or the bar goes in bare and the cutter is put
// in inside.
type Entry struct {
	N       int     // number of the pass in words
	Setting float64 // diameter of the cutter
	Bare    bool    // the bar without the cutter passes
	OnAxis  bool    // passes with the bar on its axis
	// Offset: passes with the bar shifted away from the tip as Shifts say. They
	// are also the way out, backwards.
	Offset bool
	Shifts []Shift
	// ByProgram: comes in off the axis as Reach.OffAxis says, with all passes of the visit.
	ByProgram bool
	// Inside: the bare bar passes, and between the walls in front of the bore
	// there is a length Open, from depth OpenFrom, of at least Needs.Hand. Whether
	// a hand gets there from outside is not known to this package.
	Inside         bool
	Open, OpenFrom float64
	// Blocked is where the cutter fails on the axis: the station that is most too
	// small, and its name; -1 when it passes.
	Blocked int
	Name    string
}

// Way is how a cutter comes to its bore.
type Way int

// The ways, the least trouble first.
const (
	OnTheAxis Way = iota
	BarShifted
	PutInInside
	NoWay
)

// Way is the best way there is.
func (e Entry) Way() Way {
	switch {
	case e.ByProgram:
		return BarShifted
	case e.OnAxis:
		return OnTheAxis
	case e.Offset:
		return BarShifted
	case e.Inside:
		return PutInInside
	}
	return NoWay
}

// Shift is how far the bar may stand off its axis, away from the tip, while
// the tip goes from depth From to To. Outside these it may stand on its axis.
type Shift struct{ From, To, Least, Most float64 }

func (e Entry) verdict() Verdict {
	switch e.Way() {
	case OnTheAxis:
		return Free
	case NoWay:
		return Blocked
	}
	return Tight
}

// enter works the entry of a pass out.
func (w ReachInput) enter(parts []piece, pass int) Entry {
	cut := &w.Passes[pass]
	e := Entry{N: w.number(pass), Setting: cut.Setting, OnAxis: true, Blocked: -1}
	e.Bare = true
	last := -1
	least := math.Inf(1)
	going := &w.onAxis(*cut)[GoingIn]
	for _, p := range parts {
		if p.cutter {
			p.radius = cut.Setting / 2
		}
		for i := range w.Stations {
			s := &w.Stations[i]
			lo, hi := p.inside(s.From, s.To)
			if !(lo < math.Min(hi, cut.Clear)) || p.cutter && s.Through {
				continue
			}
			gap, need := w.radial(p, s, i == w.Bore, cut, going)
			if need.has(gap) {
				continue
			}
			if !p.cutter {
				e.Bare = false
				continue
			}
			e.OnAxis = false
			last = max(last, i)
			if gap < least {
				least, e.Blocked, e.Name = gap, i, s.Name
			}
		}
	}
	if e.OnAxis {
		return e
	}
	if !w.Held {
		e.Shifts, e.Offset = w.shifts(parts, *cut)
	}
	for i := last + 1; i <= w.Bore; i++ { // open lengths past every bore that it fails in
		if i == 0 {
			continue
		}
		if from, to := w.Stations[i-1].To, w.Stations[i].From; to-from > e.Open {
			e.Open, e.OpenFrom = to-from, from
		}
	}
	e.Inside = e.Bare && e.Open > 0 && e.Open >= w.Needs.Hand
	return e
}

// shifts finds the way in with the spindle stopped. The state is (tip depth,
// shift δ). Which parts stand in which bores changes only at certain tip
// depths; between them every part allows an interval of δ:
//
//	part:  |m − δu − p| ≤ K,          K = wall − radius − room
//	tip:   |m + (R_c − δ)u − p| ≤ K,  K = wall − room
//
// m the bar's axis, p the bore's, u towards the tip. Intervals are convex, so
// the bar gets through if and only if neighbours overlap, and it ends at δ = 0.
func (w ReachInput) shifts(parts []piece, cut Pass) ([]Shift, bool) {
	var out []Shift
	for _, x := range w.stretches(parts, cut, cut.Clear) {
		piece := x.Shift
		if !(piece.Least <= piece.Most) {
			return nil, false
		}
		if n := len(out); n > 0 && !out[n-1].meets(piece) {
			return nil, false
		}
		out = append(out, piece)
	}
	if !out[len(out)-1].holds(0) {
		return nil, false
	}
	out[0].From = out[0].To - w.Bar.Length() // anywhere in front; −Inf helps nobody
	return joinShifts(out, cut.Setting), true
}

// stretch is a shift with what bounds it: the stations, -1 where nothing does. stops is the
// station in which the cutter does not turn freely with the bar on its axis, -1: none.
type stretch struct {
	Shift
	least, most int
	stops       int
}

// narrow leaves of a stretch what another allows as well.
func (x *stretch) narrow(by stretch) {
	if by.Least > x.Least {
		x.Least, x.least = by.Least, by.least
	}
	if by.Most < x.Most {
		x.Most, x.most = by.Most, by.most
	}
	x.stops = max(x.stops, by.stops)
}

// stretches are the lengths of the way in, up to the depth clear of the tip, in each of
// which the same parts stand in the same stations.
func (w ReachInput) stretches(parts []piece, cut Pass, clear float64) []stretch {
	u := geom.AtClock(w.TipClock)
	at := w.borders(parts, clear)
	var out []stretch
	for i := 1; i < len(at); i++ {
		x := stretch{Shift{at[i-1], at[i], math.Inf(-1), math.Inf(1)}, -1, -1, -1}
		for _, p := range parts {
			for k, s := range w.Stations {
				lo, hi := p.inside(s.From, s.To)
				if !(math.Max(lo, x.From) < math.Min(hi, x.To)) {
					continue
				}
				m, wall := w.Shift.Minus(s.At), s.Diameter/2
				if k == w.Bore {
					wall = cut.Before / 2
				}
				var a, b float64
				if p.cutter {
					if wall-m.Length()-cut.Setting/2-w.Unsure < w.Needs.Tip.Least {
						x.stops = k
					}
					a, b = w.tipShifts(m, u, cut.Setting/2, wall-w.Unsure-w.Needs.Tip.Least)
				} else {
					a, b = chord(m, u.Times(-1), wall-p.radius-w.Unsure-w.Needs.Chips.Least)
				}
				if a > x.Least {
					x.Least, x.least = a, k
				}
				if b < x.Most {
					x.Most, x.most = b, k
				}
			}
		}
		out = append(out, x)
	}
	return out
}

// borders are the tip depths up to clear at which a part comes into a station or leaves it.
func (w ReachInput) borders(parts []piece, clear float64) []float64 {
	at := []float64{math.Inf(-1), clear}
	for _, p := range parts {
		for _, s := range w.Stations {
			lo, hi := p.inside(s.From, s.To)
			for _, t := range []float64{lo, hi} {
				if !math.IsInf(t, 0) && t < clear {
					at = append(at, t)
				}
			}
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// tipShifts is by how much the bar may be shifted away from its tip at radius r with the
// tip, and as far as the cutter is wide to both sides of it, within k of m's origin.
// Beside its tip the cutter is taken to reach the circle that it turns in.
func (w ReachInput) tipShifts(m, u geom.Vec, r, k float64) (least, most float64) {
	least, most = math.Inf(-1), math.Inf(1)
	for _, c := range w.edges(r) {
		a, b := chord(m.Plus(across(u).Times(c.side)), u, k)
		least, most = math.Max(least, c.out-b), math.Min(most, c.out-a)
	}
	return least, most
}

// corner is a point of the cutter from the bar's axis: out towards the tip, and to the side.
type corner struct{ out, side float64 }

// edges are the tip and what of the cutter stands furthest to both sides of it.
func (w ReachInput) edges(r float64) []corner {
	out := append(make([]corner, 0, 3), corner{r, 0})
	if wide := math.Min(w.Wide, r); wide > 0 {
		x := math.Sqrt(r*r - wide*wide)
		out = append(out, corner{x, wide}, corner{x, -wide})
	}
	return out
}

// across is a quarter turn from u.
func across(u geom.Vec) geom.Vec { return geom.Vec{X: -u.Y, Y: u.X} }

func (s Shift) holds(v float64) bool { return s.Least <= v && v <= s.Most }
func (s Shift) meets(o Shift) bool {
	return math.Max(s.Least, o.Least) <= math.Min(s.Most, o.Most)
}

// joinShifts leaves what a person has to do: one shift for the whole stretch where
// the bar may not stand on its axis, when one will do; else one for each piece
// of it. Bounds are kept within ± most, past which nobody shifts.
func joinShifts(all []Shift, most float64) []Shift {
	first, last := -1, -1
	for i, s := range all {
		if !s.holds(0) {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	if first < 0 {
		return nil
	}
	one := Shift{all[first].From, all[last].To, -most, most}
	for _, s := range all[first : last+1] {
		one.Least, one.Most = math.Max(one.Least, s.Least), math.Min(one.Most, s.Most)
	}
	// The last piece of all holds 0, so there is one behind; the first need not.
	if one.Least <= one.Most && one.meets(all[last+1]) && (first == 0 || one.meets(all[first-1])) {
		return []Shift{one}
	}
	var out []Shift
	for _, s := range all[first : last+1] {
		s.Least, s.Most = math.Max(s.Least, -most), math.Min(s.Most, most)
		if n := len(out); n > 0 && out[n-1].Least == s.Least && out[n-1].Most == s.Most {
			out[n-1].To = s.To
			continue
		}
		out = append(out, s)
	}
	return out
}

// chord is for which ρ |m + ρu| ≤ k; nothing (+Inf, −Inf) when for none.
func chord(m, u geom.Vec, k float64) (lo, hi float64) {
	along := m.Dot(u)
	d := along*along - m.Dot(m) + k*k
	if k < 0 || d < 0 {
		return math.Inf(1), math.Inf(-1)
	}
	d = math.Sqrt(d)
	return -along - d, -along + d
}
