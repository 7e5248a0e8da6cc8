package geom

import (
	"fmt"
	"math"
)

// Station is one piece of the line of bores, a ring of metal from From to To.
// Depths and diameter in mm; the metal is taken to reach outward without end.
type Station struct {
	Name     string
	From, To float64
	Diameter float64
	Blind    bool    // closed behind To + Relief
	Relief   float64 // run-out groove at the closed end
	At       Vec     // its axis from the axis of the line
}

// Step is one cylinder of the bar, from the spindle nose outward.
type Step struct{ Diameter, Length float64 }

// Bar is what stands out of the spindle, in mm.
type Bar struct {
	Steps    []Step  // from the spindle nose outward, adapter included
	CutterAt float64 // from the nose to the cutter's tip, before the quill feeds
	// Ahead and Behind are how far the cutter and its holder stand out along the
	// bar before and behind the tip, at the tip's radius.
	Ahead, Behind float64
	// QuillFeed: the quill carries the bar in while the nose stays at Standoff in
	// front of the face. Else the nose follows the bar.
	QuillFeed bool
	Standoff  float64
	Modulus   float64 // MPa; 0: steel, 210 000
}

// Length is the bar's from nose to free end.
func (b Bar) Length() float64 {
	var l float64
	for _, s := range b.Steps {
		l += s.Length
	}
	return l
}

// Spindle is what the bar stands in.
type Spindle struct{ Nose, Quill, Travel float64 }

// Pass is one cut, as far as room is concerned.
type Pass struct {
	Setting float64 // diameter the cutter is set to
	Before  float64 // least diameter of the bore before it
	Clear   float64 // depth of the tip where feed begins
	End     float64 // and where it ends
	Retract float64 // shift away from the tip for coming out, spindle stopped; 0: feeds out turning
	N       int     // its number in words; 0: counted from 1
}

// Need is room asked for, mm: under Wanted is tight, under Least does not pass.
type Need struct{ Wanted, Least float64 }

// Needs is what has to stay free.
type Needs struct {
	Chips  Need    // round the bar, radial
	Tip    Need    // round the cutter where it does not cut, radial
	End    Need    // before a shoulder and a face that it would run into, axial
	Bottom Need    // before the bottom of a blind bore, axial
	Hand   float64 // open length between walls to put a cutter in by hand
}

// UsualNeeds is the trade's round a bar that must have at least chips, mm, on
// radius for chips to come out, and twice that for comfort. Common practice, no
// source.
func UsualNeeds(chips float64) Needs {
	return Needs{Chips: Need{2 * chips, chips}, Tip: Need{1, 0.5}, End: Need{5, 1}, Bottom: Need{0.5, 0.2}, Hand: 100}
}

// ReachInput is a bar on its way to a bore.
type ReachInput struct {
	Spindle  Spindle
	Bar      Bar
	Stations []Station
	Bore     int // which station is bored
	Passes   []Pass
	Shift    Vec     // the bar's axis from the axis of the line: the line-up correction
	TipClock float64 // where the tip points when the spindle is stopped, degrees
	Unsure   float64 // taken off every radial clearance: uncertainty of the line-up, sag
	Needs    Needs
}

// Verdict is the answer.
type Verdict int

// The answers.
const (
	Free Verdict = iota
	Tight
	Blocked
)

func (v Verdict) String() string { return [...]string{"clear", "tight", "does not pass"}[v] }

// Part is one piece of what turns: the spindle's, the cutter, or a step of the
// bar, which counts from 0 at the nose (see StepPart).
type Part int

// The parts that are no steps of the bar.
const (
	Nose Part = -1 - iota
	Quill
	Cutter
)

// StepPart is a step of the bar, by its index in Bar.Steps.
func StepPart(index int) Part { return Part(index) }

func (p Part) String() string {
	switch p {
	case Nose:
		return "spindle nose"
	case Quill:
		return "quill"
	case Cutter:
		return "cutter"
	}
	return fmt.Sprintf("step %d", int(p)+1)
}

// Phase is what the bar is doing.
type Phase int

// The phases of a pass.
const (
	GoingIn Phase = iota
	Cutting
	ComingOut
)

func (p Phase) String() string { return [...]string{"going in", "cutting", "coming out"}[p] }

// Gap is the room between one part of the bar and one station.
type Gap struct {
	Verdict   Verdict
	Clearance float64 // less than 0: they would overlap by so much
	Axial     bool    // between a shoulder and a face, or an end and the bottom; else radial
	Bottom    bool    // of a blind bore
	Part      Part
	Diameter  float64 // of the part
	Station   int     // index into ReachInput.Stations
	Name      string  // of the station
	Tip       float64 // depth of the tip at which it first is so small
	N         int     // number of the pass, as Pass.N
	Phase     Phase
	Need      Need // what is asked for there
}

// Reach is whether a bar gets there.
type Reach struct {
	Verdict Verdict
	Least   Gap     // the one that matters most
	Gaps    []Gap   // the worst of every part against every station, in order of the bar
	Entries []Entry // how the cutter of each pass gets in
	// Quill feed: how far the quill stands out at the deepest feed, by how much
	// that is more than its travel, and by how much the nose must stand further
	// off so that feed can begin with the quill right in. 0 where all is well.
	QuillOut, QuillShort, NoseBack float64
	Best                           Best
}

// NewReach looks at every part of the bar against every station at every depth
// of feed, for every pass: going in, cutting, and coming out. Motion is along
// the spindle, so which part stands in which station is a matter of intervals
// and nothing between samples can be missed.
func NewReach(w ReachInput) (*Reach, error) {
	if err := w.check(); err != nil {
		return nil, err
	}
	r := &Reach{}
	worst := map[[3]int]int{} // part, station, axial -> index into Gaps
	parts := w.parts()
	for pass := range w.Passes {
		entry := w.enter(parts, pass)
		r.Entries = append(r.Entries, entry)
		r.Verdict = max(r.Verdict, entry.verdict())
		for i, p := range parts {
			for s := range w.Stations {
				for _, g := range w.gaps(p, s, pass, entry.OnAxis) {
					key := [3]int{i, s, 0}
					if g.Axial {
						key[2] = 1
					}
					if at, seen := worst[key]; !seen {
						worst[key] = len(r.Gaps)
						r.Gaps = append(r.Gaps, g)
					} else if g.worse(r.Gaps[at]) {
						r.Gaps[at] = g
					}
				}
			}
		}
	}
	for i, g := range r.Gaps {
		r.Verdict = max(r.Verdict, g.Verdict)
		if i == 0 || g.worse(r.Least) {
			r.Least = g
		}
	}
	w.quill(r)
	r.Best = w.best()
	return r, nil
}

// quill works out how far it has to come out.
func (w ReachInput) quill(r *Reach) {
	b := w.Bar
	if !b.QuillFeed {
		return
	}
	home := b.CutterAt - b.Standoff // depth of the tip with the quill right in
	for _, p := range w.Passes {
		r.QuillOut = math.Max(r.QuillOut, p.End-home)
		r.NoseBack = math.Max(r.NoseBack, home-p.Clear)
	}
	r.QuillShort = math.Max(0, r.QuillOut-w.Spindle.Travel)
	if r.QuillShort > 0 || r.NoseBack > 0 {
		r.Verdict = Blocked
	}
}

// Why says in words what blocks, one sentence each; nothing when nothing does.
// say writes a length of so many millimetres in the reader's units.
func (r *Reach) Why(say func(mm float64) string) []string {
	var out []string
	add := func(format string, a ...any) { out = append(out, fmt.Sprintf(format, a...)) }
	for _, g := range r.Gaps {
		if g.Verdict != Blocked {
			continue
		}
		where := fmt.Sprintf("pass %d, %s, tip at %s", g.N, g.Phase, say(g.Tip))
		part := fmt.Sprintf("%s, Ø%s", g.Part, say(g.Diameter))
		switch {
		case g.Bottom && g.Clearance < 0:
			add("%s, would run %s into the bottom of %s (%s)", part, say(-g.Clearance), g.Name, where)
		case g.Bottom:
			add("%s, comes to %s from the bottom of %s; at least %s is wanted (%s)", part, say(g.Clearance), g.Name, say(g.Need.Least), where)
		case g.Axial:
			add("%s, comes to %s from the face of %s, which it does not pass; at least %s is wanted (%s)", part, say(g.Clearance), g.Name, say(g.Need.Least), where)
		case g.Clearance < 0:
			add("%s, does not pass %s: %s too large on radius (%s)", part, g.Name, say(-g.Clearance), where)
		default:
			add("%s, has %s on radius in %s; at least %s is wanted (%s)", part, say(g.Clearance), g.Name, say(g.Need.Least), where)
		}
	}
	for _, e := range r.Entries {
		if e.verdict() == Blocked && e.Bare {
			add("pass %d: the cutter, set to Ø%s, passes neither on the axis nor with the bar shifted, and the %s open in front of the bore is too short to put it in by hand", e.N, say(e.Setting), say(e.Open))
		}
	}
	if r.NoseBack > 0 {
		add("with the quill right in the tip already stands past where feed begins: stand the nose %s further off", say(r.NoseBack))
	}
	if r.QuillShort > 0 {
		add("the quill would have to come out %s, %s more than it can", say(r.QuillOut), say(r.QuillShort))
	}
	return out
}

// number of a pass in words.
func (w ReachInput) number(pass int) int {
	if n := w.Passes[pass].N; n > 0 {
		return n
	}
	return pass + 1
}

// worse orders gaps: verdict first, then how much of what is wanted is there.
func (g Gap) worse(h Gap) bool {
	if g.Verdict != h.Verdict {
		return g.Verdict > h.Verdict
	}
	share := func(g Gap) float64 { return g.Clearance - g.Need.Wanted }
	return share(g) < share(h)
}

func (w ReachInput) check() error {
	bad := func(format string, a ...any) error {
		return fmt.Errorf("%w: %s", ErrBadValue, fmt.Sprintf(format, a...))
	}
	positive := func(v float64) bool { return v > 0 && finite(v) }
	counts := func(v float64) bool { return v >= 0 && finite(v) }
	if w.Bore < 0 || w.Bore >= len(w.Stations) {
		return bad("station number %d of %d is to be bored", w.Bore+1, len(w.Stations))
	}
	for i, s := range w.Stations {
		if !finite(s.From) || !finite(s.To) || s.To <= s.From || !positive(s.Diameter) || !counts(s.Relief) || !s.At.finite() {
			return bad("station %q: from %g to %g mm, diameter %g, relief %g; it must end deeper than it begins and be open", s.Name, s.From, s.To, s.Diameter, s.Relief)
		}
		if i > 0 && s.From < w.Stations[i-1].To {
			return bad("station %q begins at %g mm, before %q ends at %g; give them inward and apart", s.Name, s.From, w.Stations[i-1].Name, w.Stations[i-1].To)
		}
		if s.Blind && i < len(w.Stations)-1 {
			return bad("station %q is blind, and %q lies behind it", s.Name, w.Stations[i+1].Name)
		}
	}
	b := w.Bar
	if len(b.Steps) == 0 {
		return bad("the bar has no steps")
	}
	for i, s := range b.Steps {
		if !positive(s.Diameter) || !positive(s.Length) {
			return bad("step %d of the bar: diameter %g, length %g mm", i+1, s.Diameter, s.Length)
		}
	}
	if !positive(b.CutterAt) || b.CutterAt > b.Length()*(1+1e-12) || !counts(b.Ahead) || !counts(b.Behind) || !counts(b.Modulus) {
		return bad("the cutter stands at %g mm of a bar of %g mm", b.CutterAt, b.Length())
	}
	if !positive(w.Spindle.Nose) || b.QuillFeed && (!positive(w.Spindle.Quill) || !counts(w.Spindle.Travel) || !finite(b.Standoff)) {
		return bad("spindle nose Ø%g, quill Ø%g, travel %g, standoff %g mm", w.Spindle.Nose, w.Spindle.Quill, w.Spindle.Travel, b.Standoff)
	}
	if len(w.Passes) == 0 {
		return bad("no pass is given")
	}
	for i, p := range w.Passes {
		if !positive(p.Setting) || !positive(p.Before) || !finite(p.Clear) || !finite(p.End) || p.End < p.Clear || !counts(p.Retract) {
			return bad("pass %d: set to %g, bore %g, from %g to %g mm, retract shift %g", i+1, p.Setting, p.Before, p.Clear, p.End, p.Retract)
		}
	}
	if !w.Shift.finite() || !finite(w.TipClock) || !counts(w.Unsure) {
		return bad("shift %v, tip at %g°, unsure %g mm", w.Shift, w.TipClock, w.Unsure)
	}
	return nil
}
