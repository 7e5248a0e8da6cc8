// Package clearance tests whether a bar gets to a bore without touching what
// stands in front of it, going in, cutting and coming out, and how its cutter gets
// in; and which bar would. Pure functions; millimetres and degrees, which way is
// which as in geom.
package clearance

import (
	"math"

	"borewright/process/fact"
	"borewright/process/geom"
	"borewright/process/qty"
)

// Station is one piece of the line of bores, a ring of metal from From to To.
// Depths and diameter in mm; the metal is taken to reach outward without end.
type Station struct {
	Name     string
	From, To float64
	Diameter float64
	Blind    bool     // closed behind To + Relief
	Relief   float64  // run-out groove at the closed end
	At       geom.Vec // its axis from the axis of the line
	Through  bool     // the cutter cuts through it on its way to the bore, at the same setting
	Bush     bool     // a bush is in it, that the bar turns in: there is no room to measure
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
	Shift    geom.Vec // the bar's axis from the axis of the line: the line-up correction
	TipClock float64  // where the tip points when the spindle is stopped, degrees
	Held     bool     // in an outboard bearing: the bar cannot be shifted on its way in
	Wide     float64  // of the cutter to either side of its tip, where it stands still; 0: a point
	// Program: the machine goes by a program. A cutter that does not pass on the axis goes in
	// by one shift, after an oriented stop, or not at all.
	Program, Oriented bool
	Take              float64 // the shift to take of those that do; 0, or none of them: the middle
	Unsure            float64 // taken off every radial clearance: uncertainty of the line-up, sag
	Needs             Needs

	off *OffAxis // as all passes go in
}

// Verdict is the answer.
type Verdict int

// The answers.
const (
	Free Verdict = iota
	Tight
	Blocked
)

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

// Phase is what the bar is doing.
type Phase int

// The phases of a pass.
const (
	GoingIn Phase = iota
	Cutting
	ComingOut
)

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
	Least   Gap       // the one that matters most
	Gaps    []Gap     // the worst of every part against every station, in order of the bar
	Entries []Entry   // how the cutter of each pass gets in
	OffAxis *OffAxis  // how a program takes it in where one does not pass on the axis; nil: not so
	NotOff  fact.Fact // why not
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
	r := w.judged()
	w.quill(r)
	r.Best = w.passing()
	return r, nil
}

// judged is the bar, cutter and all, against every station.
func (w ReachInput) judged() *Reach {
	parts := w.parts()
	r := &Reach{Entries: make([]Entry, 0, len(w.Passes)), Gaps: make([]Gap, 0, len(parts)*len(w.Stations))}
	worst := make([][2]int, len(parts)*len(w.Stations)) // by part and station, radial and axial: index into Gaps and one more; 0: none yet
	for pass := range w.Passes {
		r.Entries = append(r.Entries, w.enter(parts, pass))
	}
	w.goOffAxis(parts, r)
	var gaps []Gap
	for pass, entry := range r.Entries {
		r.Verdict = max(r.Verdict, entry.verdict())
		legs := w.legs(w.Passes[pass])
		for i, p := range parts {
			for s := range w.Stations {
				gaps = w.gaps(gaps[:0], legs, p, s, pass, entry.OnAxis)
				for _, g := range gaps {
					at := &worst[i*len(w.Stations)+s][0]
					if g.Axial {
						at = &worst[i*len(w.Stations)+s][1]
					}
					if *at == 0 {
						r.Gaps = append(r.Gaps, g)
						*at = len(r.Gaps)
					} else if g.worse(r.Gaps[*at-1]) {
						r.Gaps[*at-1] = g
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
	return r
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
	if r.NoseBack < sumError {
		r.NoseBack = 0
	}
	r.QuillShort = math.Max(0, r.QuillOut-w.Spindle.Travel)
	if r.QuillShort > 0 || r.NoseBack > 0 {
		r.Verdict = Blocked
	}
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
	positive := func(v float64) bool { return v > 0 && finite(v) }
	counts := func(v float64) bool { return v >= 0 && finite(v) }
	if w.Bore < 0 || w.Bore >= len(w.Stations) {
		return fact.New(NoSuchBore, fact.Count(w.Bore+1), fact.Count(len(w.Stations))).Err()
	}
	for i, s := range w.Stations {
		if !finite(s.From) || !finite(s.To) || s.To <= s.From || !positive(s.Diameter) || !counts(s.Relief) || !s.At.Finite() {
			return fact.New(NotAStation, fact.Name(s.Name), fact.PlainMM(s.From), fact.PlainMM(s.To), fact.PlainMM(s.Diameter), fact.PlainMM(s.Relief)).Err()
		}
		if i > 0 && s.From < w.Stations[i-1].To {
			return fact.New(StationsOverlap, fact.Name(s.Name), fact.PlainMM(s.From), fact.Name(w.Stations[i-1].Name), fact.PlainMM(w.Stations[i-1].To)).Err()
		}
		if s.Blind && i < len(w.Stations)-1 {
			return fact.New(BehindBlind, fact.Name(s.Name), fact.Name(w.Stations[i+1].Name)).Err()
		}
	}
	b := w.Bar
	if len(b.Steps) == 0 {
		return fact.New(NoSteps).Err()
	}
	for i, s := range b.Steps {
		if !positive(s.Diameter) || !positive(s.Length) {
			return fact.New(NotAStep, fact.Count(i+1), fact.PlainMM(s.Diameter), fact.PlainMM(s.Length)).Err()
		}
	}
	if !positive(b.CutterAt) || b.CutterAt > b.Length()*(1+1e-12) || !counts(b.Ahead) || !counts(b.Behind) || !counts(b.Modulus) {
		return fact.New(CutterOffBar, fact.PlainMM(b.CutterAt), fact.PlainMM(b.Length())).Err()
	}
	if !positive(w.Spindle.Nose) || b.QuillFeed && (!positive(w.Spindle.Quill) || !counts(w.Spindle.Travel) || !finite(b.Standoff)) {
		return fact.New(NotASpindle, fact.PlainMM(w.Spindle.Nose), fact.PlainMM(w.Spindle.Quill), fact.PlainMM(w.Spindle.Travel), fact.PlainMM(b.Standoff)).Err()
	}
	if len(w.Passes) == 0 {
		return fact.New(NoPass).Err()
	}
	for i, p := range w.Passes {
		if !positive(p.Setting) || !positive(p.Before) || !finite(p.Clear) || !finite(p.End) || p.End < p.Clear || !counts(p.Retract) {
			return fact.New(NotAPass, fact.Count(i+1), fact.PlainMM(p.Setting), fact.PlainMM(p.Before), fact.PlainMM(p.Clear), fact.PlainMM(p.End), fact.PlainMM(p.Retract)).Err()
		}
	}
	if !w.Shift.Finite() || !finite(w.TipClock) || !counts(w.Unsure) || !counts(w.Wide) || !counts(w.Take) {
		return fact.New(NotAShift, fact.Value(qty.KindAngle, w.TipClock), fact.PlainMM(w.Unsure)).Err()
	}
	return nil
}

func finite(f float64) bool { return !math.IsNaN(f) && !math.IsInf(f, 0) }
