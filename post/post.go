// Package post writes a plan as an RS-274 program for one control: one program
// for each visit to each bore.
//
// It orders words and nothing else: no depth, feed or size is altered beyond
// the rounding to the decimals that the control takes. A plan that is not
// feasible, a machine without a control, and a control that cannot say what
// the plan asks for are refused; then nothing is written.
//
// X0 Y0 is the true axis of the bores, zero along the feed is the face that
// the spindle enters, and plus is away from the work (ISO 841). A depth d of
// the plan is the position -d.
package post

import (
	"bytes"
	"io"
	"math"
	"strings"

	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/words"
)

// Write writes the program for p.Bores[bore].Visits[visit], both counted from
// 0; bores that are cut through at one setting have one program. It is written
// whole, in one call of w, or not at all; the same plan gives the same bytes.
// What cannot be written is a *Refusal.
func Write(w io.Writer, p *plan.Plan, bore, visit int) error {
	text, err := programText(p, bore, visit)
	if err != nil {
		return err
	}
	_, err = w.Write(stored(text, p.Job.Machine.Control))
	return err
}

// WriteFile writes what FileName names: the program, or all programs of the plan where
// they share a file.
func WriteFile(w io.Writer, p *plan.Plan, bore, visit int) error {
	if p == nil || p.Job == nil || !storageOf(p).OneFile {
		return Write(w, p, bore, visit)
	}
	var all []byte
	for _, at := range p.Programs() {
		text, err := programText(p, at[0], at[1])
		if err != nil {
			return err
		}
		all = append(all, text...)
	}
	_, err := w.Write(stored(all, p.Job.Machine.Control))
	return err
}

// programText is the program of a visit, its lines ended by line feeds, without percent lines.
func programText(p *plan.Plan, bore, visit int) ([]byte, error) {
	j, err := open(p, bore, visit)
	if err != nil {
		return nil, err
	}
	j.program()
	if j.wrong != nil {
		return nil, &Refusal{[]Reason{*j.wrong}}
	}
	// The program is read back before it is given away. A fault here is ours.
	text := stored(j.out.Bytes(), j.c)
	faults, err := rs274.Replay(bytes.NewReader(text), j.d, func(rs274.Event) error { return nil })
	if err != nil {
		return nil, err
	}
	if len(faults) > 0 {
		r := &Refusal{}
		for _, f := range faults {
			r.add(Unread, "the program would not read: line %v", f)
		}
		return nil, r
	}
	return j.out.Bytes(), nil
}

// ClearPlane is how far in front of the face the program for p.Bores[bore].Visits[visit]
// stops and moves to X0 Y0. The error is that of Write.
func ClearPlane(p *plan.Plan, bore, visit int) (qty.Length, error) {
	j, err := open(p, bore, visit)
	if err != nil {
		return 0, err
	}
	return j.home, nil
}

// open checks all that a program needs, and says all that is wrong.
func open(p *plan.Plan, bore, visit int) (*job, error) {
	no := &Refusal{}
	bad := func(format string, a ...any) { no.add(NoVisit, format, a...) }
	switch {
	case p == nil || p.Job == nil:
		bad("there is no plan")
	case !p.Feasible:
		bad("the plan is not feasible; see its reasons, and free one of them")
		for _, r := range p.Reasons {
			bad("%s", strings.TrimPrefix(r.Where+": "+words.In(p.Job.Units).Say(r.What), ": "))
		}
	case bore < 0 || bore >= len(p.Bores):
		bad("bore %d; the plan has %d, counted from 0", bore, len(p.Bores))
	case visit < 0 || visit >= len(p.Bores[bore].Visits):
		bad("visit %d; the bore has %d, counted from 0", visit, len(p.Bores[bore].Visits))
	case p.Job.Machine == nil:
		bad("the job names no machine")
	case p.Job.Machine.Control == nil:
		bad("machine %q has no control: it is worked by hand, from the sheet", p.Job.Machine.ID)
	}
	if len(no.Reasons) > 0 {
		return nil, no
	}
	bore, visit = p.Lead(bore, visit)
	p = p.For(bore, visit)
	j := &job{p: p, bores: throughs(p, bore, visit), index: [2]int{bore, visit}, bore: &p.Bores[bore], visit: &p.Bores[bore].Visits[visit], words: words.In(p.Job.Units), c: p.Job.Machine.Control}
	var wrong []string
	j.d, wrong = dialect(j.c)
	for _, w := range wrong {
		no.add(BadControl, "control: %s", w)
	}
	var err error
	if j.axis, err = feedAxis(j.c, p.Job.Bar.FeedBy); err != nil {
		no.add(BadControl, "control: %v", err)
	}
	if by, in := j.visit.Shift(), j.visit.OffAxis; (by > 0 || in != nil) && j.c.OrientedStop {
		var sense qty.Length
		if j.aside, sense, err = away(j.c.TipAtStop); err != nil {
			no.add(BadControl, "control: %v", err)
		}
		if j.shift = sense * by; in != nil {
			j.off = sense * in.Shift
		}
	}
	if p.Job.Bar.Outboard == nil {
		j.tool, j.table, j.other = j.c.Tool, byte(j.c.TableWord), byte(p.Job.OtherPlaced())
	}
	if j.axis == 'Z' { // along which G43 acts
		j.length = j.c.LengthOffset
	}
	j.wet = j.c.Coolant != 0 && !j.visit.Material.CutDry(p.Job.Cutter.Material)
	if j.c.ProgramNumber > 0 {
		if j.oword = ProgramNumber(p, bore, visit); j.oword > owordMost {
			no.add(BadControl, "program_number = %d in the machine file makes this program O%d, and an O word has 4 digits at most; state program_number = %d or less",
				j.c.ProgramNumber, j.oword, max(j.c.ProgramNumber-(j.oword-owordMost), 0))
		}
	}
	j.checkVisit(no)
	j.named(no)
	if len(no.Reasons) == 0 {
		j.depths(no)
	}
	if len(no.Reasons) > 0 {
		return nil, no
	}
	return j, nil
}

// ProgramNumber is the O number of a visit. A control keeps one program of a
// number, so each visit has its own, and a plan made after measurements takes
// none that a plan before it may have used: an entry moves all of them on by two
// for each bore of the job, which is as many visits as a bore can have.
func ProgramNumber(p *plan.Plan, bore, visit int) int {
	bore, visit = p.Lead(bore, visit)
	n := p.Job.Machine.Control.ProgramNumber
	b := &p.Bores[bore]
	if p.Findings != nil {
		each, at := 2, b.Visits[visit].N-1
		if p.Job.Apart() { // the finish of a work that is roughed apart
			each = 3
			if b.Visits[visit].Part == schedule.Finishing {
				at = 2
			}
		}
		return n + each*(len(p.Job.Bores)*p.Findings.Entries+max(p.Job.BoreAt(b.Bore.Station), 0)) + at
	}
	for i := range bore {
		n += len(p.Bores[i].Visits)
	}
	return n + visit
}

// checkVisit refuses what no program may be made of.
func (j *job) checkVisit(no *Refusal) {
	v, s, say := j.visit, j.bore.Station, j.p.Job.Units.Say
	wrong := func(format string, a ...any) { no.add(BadVisit, format, a...) }
	if len(v.Passes) == 0 {
		wrong("the visit has no passes")
	}
	if v.SetInside {
		wrong("%s: the cutter does not pass the bores on the way; it is put into the bar, set and taken out while the bar stands in the work. That is work for hands, by the sheet: a program of ours sets the cutter outside, or not at all. Plan the job for a mill without control", s.Name)
	}
	if v.Clear > v.From || v.From >= v.To || v.End < v.To {
		wrong("depths out of order: clear %s, from %s, to %s, end %s", say(v.Clear), say(v.From), say(v.To), say(v.End))
	}
	switch in := v.OffAxis; {
	case in == nil:
	case !j.c.OrientedStop:
		wrong("the cutter goes in off the axis, and the control has no oriented stop")
	case in.Shift <= 0 || in.Level <= 0 || in.Level > v.Clear:
		wrong("the cutter goes in off the axis by %s, and back to it with the tip at depth %s; it must be off by more than 0, and back in the work, no deeper than %s", say(in.Shift), say(in.Level), say(v.Clear))
	}
	if s.Blind && v.End > s.To+s.Relief {
		wrong("the cutter would run to %s, past the closed end of the bore with its relief at %s", say(v.End), say(s.To+s.Relief))
	}
	j.checkLine(no)
	for _, p := range v.Passes {
		if b := p.Band; b != nil && (b.To <= v.From || b.To > v.To) {
			wrong("pass %d marks a band to %s; the bore lies from %s to %s", p.N, say(b.To), say(v.From), say(v.To))
		}
		switch out := p.Out; {
		case out.By == process.FeedOut:
		case out.By != process.ShiftOut:
			wrong("pass %d comes out by %q: a program feeds the cutter out or shifts it off the wall; drawing it out is work for hands, by the sheet", p.N, out.By)
		case out.Shift <= 0 || out.Shift != v.Shift():
			wrong("pass %d is shifted off the wall by %s; it must be above 0, and the same after every pass", p.N, say(out.Shift))
		case !j.c.OrientedStop:
			wrong("pass %d is shifted off the wall, and the control has no oriented stop", p.N)
		}
		if p.Feed <= 0 || p.Setting <= 0 || !(p.Speed > 0) || math.IsInf(float64(p.Speed), 0) {
			wrong("pass %d: setting %s, feed %s/rev, speed %v rev/min; all must be above 0", p.N, say(p.Setting.Length()), say(p.Feed), float64(p.Speed))
		}
	}
}
