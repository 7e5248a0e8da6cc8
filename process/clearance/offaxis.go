package clearance

import (
	"math"
	"slices"

	"borewright/process/fact"
	"borewright/process/geom"
)

// OffAxis is how a program takes a cutter past a station that is too small for the circle
// of its tip: spindle stopped at a known angle, the bar shifted away from the tip in front
// of the work, in to a depth of the tip in front of the bore, and there back onto its axis.
// It comes out the same way. All passes of a visit go so.
type OffAxis struct {
	Shift       float64 // of the bar's axis, away from the tip
	Least, Most float64 // that it may be
	Level       float64 // depth of the tip at which the bar leaves its axis and comes back to it
	Sides       []Sides // the stations that it passes so, from the spindle
}

// Sides is the room on radius in one station on both sides of a shifted bar.
type Sides struct {
	Station  int
	Name     string
	From, To float64 // depths of the tip between which the cutter stands in it; the same where it does not
	Tip      float64 // between cutter and wall; +Inf where it never stands in it
	Back     float64 // between the bar and the wall behind it; +Inf where it never stands in it
}

// goOffAxis finds the way of a program where a pass needs one, and has all passes go so.
// Where there is none, by hand either, it says why.
func (w *ReachInput) goOffAxis(parts []piece, r *Reach) {
	needed := func(e Entry) bool { return !e.OnAxis && e.Bare }
	nowhere := func(e Entry) bool { return e.Bare && e.Way() == NoWay }
	switch {
	case !w.Program: // by hand, by as many shifts as it takes
		if !w.Held && slices.ContainsFunc(r.Entries, nowhere) {
			_, r.NotOff = w.wayOffAxis(parts)
		}
	case !slices.ContainsFunc(r.Entries, needed):
	case w.Held:
		r.NotOff = fact.New(HeldOutboard)
	case !w.Oriented:
		r.NotOff = fact.New(NoOrientedStop)
	default:
		if r.OffAxis, r.NotOff = w.wayOffAxis(parts); r.OffAxis != nil {
			for i := range r.Entries {
				r.Entries[i].ByProgram = true
			}
			w.off = r.OffAxis
		}
	}
}

// wayOffAxis finds shift and level, or says what stands against it. One shift serves for
// the whole way from the work's outside to the level: what every stretch up to there
// allows, for every pass. At the level the bar comes across: all shifts from there to none
// must be free, with room along the bar as before a shoulder, and from there on the cutter
// turns on the axis.
// Of the levels that do, that with most to choose of is taken: where the feed begins, if it
// is one of them, else the middle of those that are equal.
func (w ReachInput) wayOffAxis(parts []piece) (*OffAxis, fact.Fact) {
	all := w.common(parts)
	clear := all[len(all)-1].To
	room := w.Needs.End.Least
	levels := []float64{clear}
	for _, x := range all[:len(all)-1] {
		for _, at := range []float64{x.To + room, x.To - room} {
			if at < clear {
				levels = append(levels, at)
			}
		}
	}
	slices.Sort(levels)
	slices.Reverse(levels)
	furthest := 0.0 // nobody needs more than the tip stands out
	for _, p := range w.Passes {
		furthest = math.Max(furthest, p.Setting/2)
	}
	var best *OffAxis
	var shallow float64
	var why fact.Fact
	short := math.Inf(1)
	for _, at := range levels {
		on, off := w.onAndOff(all, at)
		if on.stops >= 0 || !on.holds(0) {
			if why.None() {
				why = w.noReturn(all, clear)
			}
			break // further out it is none either
		}
		off.Least, off.Most = math.Max(off.Least, 0), math.Min(off.Most, furthest)
		switch lacks := off.Least - off.Most; {
		case off.Most > 0 && lacks <= 0:
			const same = 1e-9 // mm
			if best == nil || off.Most-off.Least > best.Most-best.Least+same {
				best = &OffAxis{Least: off.Least, Most: off.Most, Level: at}
			}
			if off.Most-off.Least > best.Most-best.Least-same {
				shallow = at
			}
		case lacks < short:
			short, why = lacks, w.narrow(off)
		}
	}
	if best == nil {
		return nil, why
	}
	if best.Level < clear {
		best.Level = (best.Level + shallow) / 2
	}
	if best.Shift = (best.Least + best.Most) / 2; best.Least <= w.Take && w.Take <= best.Most {
		best.Shift = w.Take
	}
	best.Sides = w.sides(parts, best.Shift, best.Level)
	return best, fact.Fact{}
}

// common are the stretches up to where the first pass begins its feed, as all passes allow.
func (w ReachInput) common(parts []piece) []stretch {
	clear := w.Passes[0].Clear
	for _, p := range w.Passes {
		clear = math.Min(clear, p.Clear)
	}
	all := w.stretches(parts, w.Passes[0], clear)
	for _, p := range w.Passes[1:] {
		for i, x := range w.stretches(parts, p, clear) {
			all[i].narrow(x)
		}
	}
	return all
}

// onAndOff is what shifts the stretches allow behind a level, and what up to it. Where the
// bar comes across both hold.
func (w ReachInput) onAndOff(all []stretch, level float64) (on, off stretch) {
	on = stretch{Shift{Least: math.Inf(-1), Most: math.Inf(1)}, -1, -1, -1}
	off = on
	for _, x := range all {
		if x.To > level-w.Needs.End.Least {
			on.narrow(x)
		}
		if x.From < level+w.Needs.End.Least {
			off.narrow(x)
		}
	}
	return on, off
}

// noReturn says that there is no length in front of the bore to come back in: the cutter
// still stands in a station where its feed begins, or in the bore already.
func (w ReachInput) noReturn(all []stretch, clear float64) fact.Fact {
	last := len(all) - 1
	for all[last].stops < 0 && all[last].holds(0) { // in some it does not
		last--
	}
	at := max(all[last].stops, all[last].least, 0)
	s := w.Stations[at]
	lacks := s.To + w.Bar.Behind + w.Needs.End.Least - clear
	if at == w.Bore {
		lacks = clear + w.Bar.Ahead - s.From
	}
	return fact.New(NoRoomToReturn, fact.Name(s.Name), fact.Name(w.Stations[w.Bore].Name), fact.MM(lacks))
}

// narrow says which station bounds the tip and which the bar behind it, where no shift is
// left between the two: the first would have to be so much wider, or both where they are one.
func (w ReachInput) narrow(off stretch) fact.Fact {
	tip, bar := off.least, off.most
	if tip < 0 {
		tip = bar
	}
	return fact.New(TooNarrowOff, fact.MM(off.Least-off.Most), fact.Name(w.Stations[tip].Name), fact.Name(w.Stations[bar].Name))
}

// sides measures a bar that is shifted on its way to a level, in every station.
func (w ReachInput) sides(parts []piece, shift, level float64) []Sides {
	aside := w.Shift.Minus(geom.AtClock(w.TipClock).Times(shift))
	var out []Sides
	for i, s := range w.Stations {
		x := Sides{Station: i, Name: s.Name, Tip: math.Inf(1), Back: math.Inf(1)}
		for _, p := range parts {
			lo, hi := p.inside(s.From, s.To)
			if hi = math.Min(hi, level); !(lo < hi) || p.fixed {
				continue
			}
			for _, cut := range w.Passes {
				if p.cutter {
					p.radius = cut.Setting / 2
				}
				room, _ := w.radial(p, &s, i == w.Bore, &cut, &leg{phase: GoingIn, centre: aside, stopped: true})
				if p.cutter {
					x.From, x.To, x.Tip = lo, hi, math.Min(x.Tip, room)
				} else {
					x.Back = math.Min(x.Back, room)
				}
			}
		}
		if !math.IsInf(x.Tip, 1) || !math.IsInf(x.Back, 1) {
			out = append(out, x)
		}
	}
	return out
}
