package plan

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/qty"
)

// Make plans a job: every bore, every visit, every pass, or the reasons why
// not. It never fails on a job that Load accepted; a plan that cannot meet the
// drawing comes back with Feasible false, and its passes are those that could
// be planned.
func Make(job *process.Job) *Plan {
	return finished(attempt(job, nil))
}

// finished adds the ways out of what stops a plan.
func finished(p *Plan) *Plan {
	if !p.Feasible {
		p.Reasons = withWaysOut(p)
	}
	return p
}

// attempt plans without looking for ways out. k is what measurements have
// taught, nil where there are none.
func attempt(job *process.Job, k *known) *Plan {
	p := &Plan{Job: job, Feasible: true, known: k, made: true}
	s, err := newSetup(job)
	if err != nil {
		p.stop(job.Where("bar"), "the bar cannot be worked out: "+err.Error())
		return p
	}
	if why := quillShort(job); why != "" {
		p.stop(job.Where("bar.standoff"), why)
	}
	s.known = k
	p.Cautions = s.cautions()
	for i, b := range job.Bores {
		p.bore(s, i, b)
	}
	return p
}

func (p *Plan) stop(where, what string) {
	p.Feasible = false
	p.Reasons = append(p.Reasons, Reason{Where: where, What: what})
}

// bore plans one bore and adds it to the plan.
func (p *Plan) bore(s *setup, i int, b process.Bore) {
	job := p.Job
	st := job.Stations[b.Station]
	out := Bore{Bore: b, Station: st}
	where := job.Where(fmt.Sprintf("bore[%d]", i))
	shape := findShape(st, b)
	visits, err := visitsOf(job, b, st, shape)
	if err != nil {
		p.stop(where, st.Name+": "+err.Error())
	}
	n := 1
	visits, n = p.rest(s, i, visits, n)
	for k := range visits {
		v := &visits[k]
		s.place(v, st)
		what := st.Name + ", " + v.Title
		if why := passesThrough(job, b.Station, v); why != "" {
			p.stop(where, what+": "+why)
		}
		if r, err := s.newRoom(v, st, b.Witness && k == 0 && n == 1); err != nil {
			p.stop(where, what+": "+err.Error())
		} else if why := r.plan(n); why != "" {
			p.stop(where, what+": "+why)
		} else {
			n += len(v.Passes)
			p.Cautions = append(p.Cautions, r.cautions()...)
		}
		for _, q := range v.Passes {
			p.Minutes += q.Minutes
			if q.Hold != nil {
				p.Minutes += q.Hold.Minutes
			} else {
				p.Minutes += job.Limits.HoldMinutes / 2
			}
		}
	}
	if out.Visits = visits; len(visits) == 0 && err == nil {
		return // finished: nothing of it is left to do
	}
	p.Bores = append(p.Bores, out)
}

// plan finds the passes of one visit, or says why there are none.
func (r *room) plan(first int) string {
	if need := 2 * r.light; need > r.v.Limits.High.MM() {
		return fmt.Sprintf("it does not clean up: the old bore reaches %s about the true axis, the limits end at %s",
			r.job.Units.Say(qty.FromMM(need)), r.job.Units.Say(r.v.Limits.High.Length()))
	}
	if why := r.tooThin(); why != "" {
		return why
	}
	origin := &chain{light: r.light}
	start := r.heavy
	if w, ok := r.witnessStep(); ok {
		minutes := r.minutesOf(w.feed, w.pick.rpm) + r.job.Limits.HoldMinutes
		origin = &chain{light: w.lightAfter, from: origin, last: w, minutes: minutes, passes: 1}
		start = w.made
	}
	best := r.search(origin, start)
	if best == nil {
		return r.diagnose(origin, start)
	}
	r.write(best.steps(), first)
	return ""
}

// clearance is how far in front of the bore the feed begins: the tip stands
// clear of the mouth and of the chips in it.
const clearance = 3 * qty.Millimetre

// place fills in where the visit's feed begins and how the cutter comes out.
func (s *setup) place(v *Visit, st process.Station) {
	u := s.job.Units
	v.From, v.To = st.From, st.To
	gap := qty.Length(clearance)
	if u == qty.Inches {
		gap = qty.Inch / 8
	}
	v.Clear = st.From - gap
	v.Retract = s.retract(v)
}

// retract decides how the cutter comes out: shifted off the wall after an
// oriented stop where the control has one and the bar leaves room, else fed
// out as it went in.
func (s *setup) retract(v *Visit) Retract {
	c := s.job.Machine.Control
	if c == nil {
		return Retract{Why: "feed out with the spindle turning, or stop and turn the tip to a clear place by hand"}
	}
	if !c.OrientedStop {
		return Retract{Why: "no oriented stop on this control: the cutter feeds out, turning"}
	}
	// The bar moves away from the tip, so its far side comes nearer to the
	// wall by the shift: half the room there, a millimetre at most.
	room := (v.Start.Length() - s.barAtCutter().Length()) / 2
	shift := min(qty.Length(qty.Millimetre), s.job.Units.Round(room/2))
	if shift < qty.Millimetre/5 {
		return Retract{Why: fmt.Sprintf("only %s between bar and bore: too tight to shift, the cutter feeds out, turning", s.job.Units.Say(room))}
	}
	if s.job.Bar.Outboard != nil {
		return Retract{Why: "the outboard bearing holds the bar: no shift, the cutter feeds out, turning"}
	}
	if s.job.Units == qty.Inches {
		shift = shift / (qty.Inch / 1000) * (qty.Inch / 1000)
	}
	return Retract{Shift: shift, Why: "oriented stop, then the tip moves off the wall before it comes out"}
}

// barAtCutter is the fattest part of the bar that follows the tip into the
// bore.
func (s *setup) barAtCutter() qty.Diameter {
	at := qty.Length(0)
	d := s.job.Bar.Steps[0].Diameter
	for _, st := range s.job.Bar.Steps {
		if at < s.job.Bar.CutterAt {
			d = st.Diameter
		}
		at += st.Length
	}
	return d
}

// cutterRoom is the least room, radial, for a set cutter to pass through a
// bore on its way in. Common practice, no source.
const cutterRoom = qty.Millimetre / 2

// outside is how far in front of the face a program brings the tip to be set.
const outside = 50 * qty.Millimetre

// quillShort says why a program cannot bring the cutter out of the work with
// the quill alone, or "". On a manual mill the table is moved by hand.
func quillShort(job *process.Job) string {
	home := job.Bar.CutterAt - job.Bar.Standoff // depth of the tip with the quill home
	if job.Bar.FeedBy != process.QuillFeed || job.Machine.Control == nil || home <= -outside {
		return ""
	}
	u := job.Units
	return fmt.Sprintf("quill feed: with the quill home the tip stands at depth %s, and a program must bring it to %s to be set; state a standoff of %s or more, or feed by the table",
		u.Say(home), u.Say(-outside), u.Say(u.Up(job.Bar.CutterAt+outside)))
}

// blocked names the station on the way that the set cutter does not pass, or
// returns false. Stations that this job bores are taken as they were.
func blocked(job *process.Job, station int, v *Visit) (process.Station, bool) {
	for _, st := range job.Stations[:station] {
		if st.Diameter.Minus(v.Limits.High)/2 < cutterRoom {
			return st, true
		}
	}
	return process.Station{}, false
}

// passesThrough says why the cutter cannot be brought to its bore, or "". On a
// bar that runs in an outboard bearing the cutter can be put in when the bar is
// in place; the visit then says so. A program of ours does not do that.
func passesThrough(job *process.Job, station int, v *Visit) string {
	st, no := blocked(job, station, v)
	if !no {
		return ""
	}
	u := job.Units
	what := fmt.Sprintf("the cutter set to %s does not pass %q at %s", u.Say(v.Limits.High.Length()), st.Name, u.Say(st.Diameter.Length()))
	switch {
	case job.Bar.Outboard == nil:
		return what + "; only a bar that is threaded through to an outboard bearing can take its cutter inside"
	case job.Machine.Control != nil:
		return what + "; the cutter would have to be put in inside, which is work for the sheet and not for a program: plan it on a mill without control"
	}
	v.SetInside = true
	v.Before = append(v.Before, fmt.Sprintf("Thread the bar through with the cutter out (%s). Bring it to %s, lock the spindle, put the cutter in and set it there; take it out there again before the bar is moved back.",
		what, u.Say(v.Clear)))
	return ""
}

// cautions are the things to mind about the bar, whatever it cuts.
func (s *setup) cautions() []string {
	var out []string
	if s.job.Bar.Outboard == nil && s.overhang > s.job.Limits.Overhang {
		out = append(out, fmt.Sprintf("The bar stands out %.1f times its diameter; the trade's rule for it is %.1f. Expect to feel for chatter, and trust the gauge before the dial.",
			s.overhang, s.job.Limits.Overhang))
	}
	if drop, _ := s.beam.Sag(); math.Abs(drop) > 0.003 {
		out = append(out, fmt.Sprintf("The bar hangs %s at the cutter by its own weight: the bore comes out true, but that much below the spindle's line.",
			s.job.Units.Say(qty.FromMM(math.Abs(drop)))))
	}
	out = append(out, s.job.Doubts()...)
	return out
}

// cautions of one visit.
func (r *room) cautions() []string {
	var out []string
	u := r.job.Units
	if !r.rough.within {
		out = append(out, fmt.Sprintf("%s: the machine's slowest speed, %.0f rev/min, is faster than %s likes at this diameter.",
			r.v.Title, r.rough.rpm, r.job.Cutter.Material.Name))
	}
	if gap := r.v.Start.Minus(r.barAtCutter()) / 2; gap < chipRoom {
		out = append(out, fmt.Sprintf("%s: only %s between bar and bore all round; stop and clear chips often.", r.v.Title, u.Say(gap)))
	}
	if r.witness && (len(r.v.Passes) == 0 || r.v.Passes[0].Kind != Witness) {
		out = append(out, fmt.Sprintf("%s: too little stock for a witness cut of its own; look at the first cut as if it were one.", r.v.Title))
	}
	return out
}

// chipRoom is the radial clearance below which chips jam. Source: least 1.5 mm
// (from memory).
const chipRoom = 3 * qty.Millimetre / 2
