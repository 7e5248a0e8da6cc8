package plan

import (
	"fmt"
	"math"
	"strings"

	"borewright/process"
	"borewright/process/geom"
	"borewright/process/qty"
)

// Make plans a job: every bore, every visit, every pass, or the reasons why
// not. It never fails on a job that Load accepted; a plan that cannot meet the
// drawing comes back with Feasible false, and its passes are those that could
// be planned.
func Make(job *process.Job) *Plan {
	return finished(try(job, nil, true))
}

// finished adds the ways out of what stops a plan.
func finished(p *Plan) *Plan {
	if !p.Feasible {
		p.Reasons = withWaysOut(p)
	}
	return p
}

// attempt plans without looking for ways out and without the trials. k is what
// measurements have taught, nil where there are none.
func attempt(job *process.Job, k *known) *Plan { return try(job, k, false) }

// try plans without looking for ways out. The chance of landing is worked out
// by trial only where trials is set: it changes no pass but for stops.
func try(job *process.Job, k *known, trials bool) *Plan {
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
	s.trials, p.setup = trials, s
	if why := s.tooLong(); why != "" {
		p.stop(job.Where("bar"), why)
	}
	p.Cautions = s.cautions()
	if p.LineUp, err = newLineUp(job, s.hang); err != nil {
		p.noLine = "The sweeps do not line the work up: " + withoutKind(err) + "."
		p.Cautions = append(p.Cautions, p.noLine)
	}
	if l := p.LineUp; l != nil {
		for _, d := range l.doubts {
			p.Cautions = append(p.Cautions, upperFirst(d)+".")
		}
		bored := l.leastKnown(job)
		least := job.Stations[bored].Name
		l.Made, l.Confirmed = k.linedUp(job), k.confirmed(job, bored)
		if l.Assumption != "" && !l.Confirmed {
			p.Cautions = append(p.Cautions, fmt.Sprintf("No sweep shows whether the line runs parallel to the spindle; that is assumed, and %s is known to ± %s only. The witness cut must confirm it before the next cut.",
				least, job.Units.Say(l.unsureAt(least))))
		}
	}
	for i, b := range job.Bores {
		p.bore(s, i, b)
	}
	p.sayRemarks()
	p.Cautions = once(p.Cautions)
	return p
}

// withoutKind is what geom found wrong with readings, without the kind of error in
// front of it, which says nothing to a person at the mill.
func withoutKind(err error) string {
	s := err.Error()
	for _, kind := range []error{geom.ErrTooFew, geom.ErrBadValue, geom.ErrShape} {
		s = strings.TrimPrefix(s, kind.Error()+": ")
	}
	return s
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
	clean, err := newCleanUp(job.Units, b)
	if err != nil {
		p.Cautions = append(p.Cautions, st.Name+": the readings give no clean-up size: "+err.Error()+".")
	}
	sleeve, visits, err := s.visits(b, st, shape)
	out.Sleeve = sleeve
	if err != nil {
		p.stop(where, st.Name+": "+err.Error())
	}
	if out.Sleeve != nil {
		for _, why := range out.Sleeve.Stops {
			p.stop(job.Where("sleeve"), st.Name+": "+why)
		}
	}
	n := 1
	visits, n = p.rest(s, i, visits, n)
	if len(visits) > 0 && visits[0].N == 1 {
		if why := tooLittleLeft(job, st, visits[0].Limits.High, out.Sleeve != nil); why != "" {
			p.stop(job.Where(fmt.Sprintf("station[%d].wall", b.Station)), st.Name+": "+why)
		}
	}
	for k := range visits {
		v := &visits[k]
		s.place(v, st)
		what := st.Name + ", " + v.Title
		if r, err := s.newRoom(v, st, b.Witness && k == 0 && n == 1); err != nil {
			p.stop(where, what+": "+err.Error())
		} else if why := r.plan(n); why != "" {
			p.stop(where, what+": "+why)
		} else {
			n += len(v.Passes)
			for _, c := range r.cautions() {
				p.remark(st.Name, k, c)
			}
		}
		p.reach(s, b.Station, v, what)
		for _, q := range v.Passes {
			p.Minutes += q.Minutes
			if q.Hold != nil {
				p.Minutes += q.Hold.Minutes
			} else {
				p.Minutes += job.Limits.HoldMinutes / 2
			}
		}
	}
	if out.Visits = visits; err == nil {
		if out.Home = p.home(i, out.Sleeve, n); out.Home != nil {
			p.Minutes += out.Home.Hold.Minutes
		}
	}
	if len(visits) == 0 && err == nil && out.Home == nil {
		return // finished: nothing of it is left to do
	}
	if clean != nil && len(visits) > 0 && clean.shows(visits[0]) {
		out.CleanUp = clean
		first := visits[0]
		clean.shadows(first)
		if b.Repair == process.SleeveRepair && first.Limits.High.Minus(clean.TrueAxis) < lastCut {
			clean.Next = nextOutside(job.Units, job.Sleeve.Outside, clean.TrueAxis)
		}
		p.Cautions = append(p.Cautions, clean.cautions(job.Units, st.Name, first.Limits.High)...)
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
	if len(r.feeds) == 0 {
		return "no feed of the machine is within the job's feed_most"
	}
	if u := r.job.Units; r.st.Blind && r.depth < r.model.LeastDepth() {
		return fmt.Sprintf("the run-out at the closed end is %s deep, which leaves a nose radius of %s no room to cut: a smaller nose radius, or a deeper run-out (relief)",
			u.Say(r.st.Relief), u.Say(r.job.Cutter.NoseRadius))
	}
	if steps, ok := r.found[r.task()]; ok {
		r.write(steps, first)
		return ""
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
	steps := best.steps()
	r.found[r.task()] = steps
	r.write(steps, first)
	return ""
}

// task is all that the search for a visit's passes depends on, in one setup.
type task struct {
	start, most, from, to, clear, end qty.Length
	limits                            Limits
	ra, roundness                     qty.Length
	material                          *process.Material
	heavy, light, factor, forceDoubt  float64
	witness, measured                 bool
}

func (r *room) task() task {
	v := r.v
	return task{v.Start.Length(), v.StartMost.Length(), v.From, v.To, v.Clear, v.End, v.Limits, v.Ra, v.Roundness, v.Material,
		r.heavy, r.light, r.factor, r.forceDoubt, r.witness, r.measured}
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

// outside is how far in front of the face a program brings the tip to be set.
const outside = 50 * qty.Millimetre

// quillShort says why a program cannot bring the cutter out of the work with
// the quill alone, or "". On a manual mill the table is moved by hand.
func quillShort(job *process.Job) string {
	home := job.Bar.TipHome()
	if job.Bar.FeedBy != process.QuillFeed || job.Machine.Control == nil || home <= -outside {
		return ""
	}
	u := job.Units
	return fmt.Sprintf("quill feed: with the quill home the tip stands at depth %s, and a program must bring it to %s to be set; state a standoff of %s or more, or feed by the table",
		u.Say(home), u.Say(-outside), u.Say(u.Up(job.Bar.CutterAt+outside)))
}

// reach adds to a visit whether its bar gets there, and stops the plan when it
// does not.
func (p *Plan) reach(s *setup, station int, v *Visit, what string) {
	bar := p.Job.Where("bar")
	r, err := s.reach(p.LineUp, station, v)
	if err != nil {
		p.stop(bar, what+": whether the bar gets there cannot be worked out: "+err.Error())
		return
	}
	v.Reach = r
	if g := r.Least; r.Passes && g.Verdict == geom.Tight.String() && !g.Bottom {
		u := p.Job.Units
		p.Cautions = append(p.Cautions, fmt.Sprintf("%s: it is tight: %s has %s in %s, where %s is comfortable. Run it through by hand, and clear chips often.",
			what, g.Part, u.Say(g.Room), g.Station, u.Say(g.Wanted)))
	}
	why := s.bringIn(r, v)
	if first := r.after(p.Job, station, v); first != "" && r.Passes && why == "" {
		v.Before = append([]string{"First bring " + first + " to size: as found, it does not let the cutter pass."}, v.Before...)
	}
	switch {
	case len(r.Why) > 0:
		p.stop(bar, what+": "+r.refusal(p.Job.Units))
	case why != "":
		p.stop(bar, what+": "+why)
	}
}

// cautions are the things to mind about the bar, whatever it cuts.
func (s *setup) cautions() []string {
	var out []string
	if s.job.Bar.Outboard == nil && s.overhang > s.job.Limits.Overhang {
		out = append(out, fmt.Sprintf("The bar stands out %.1f times its diameter; the trade's rule for it is %.1f. Expect to feel for chatter, and trust the gauge before the dial.",
			s.overhang, s.job.Limits.Overhang))
	}
	if what := s.hangs(); what != "" {
		out = append(out, what)
	}
	out = append(out, s.job.Doubts()...)
	return out
}

// hangs tells how far the bar hangs at the most, or "" where it matters to no
// bore.
func (s *setup) hangs() string {
	const least = 0.003 // mm: less is within any line-up; common practice, no source
	u := s.job.Units
	say := func(mm float64) string { return u.Say(qty.FromMM(mm)) }
	var most, from float64
	var at process.Station
	for _, b := range s.job.Bores {
		st := s.job.Stations[b.Station]
		if h := s.hang(st.To); math.Abs(h) > math.Abs(most) {
			most, from, at = h, s.hang(st.From), st
		}
	}
	switch {
	case math.Abs(most) <= least:
		return ""
	case s.job.Bar.FeedBy != process.QuillFeed:
		return fmt.Sprintf("The bar hangs %s at the cutter by its own weight: the bore comes out true, but that much below the spindle's line.", say(math.Abs(most)))
	case most-from <= least:
		return fmt.Sprintf("Bar and quill hang %s at the cutter by their own weight at the far end of %s: the bore comes out that much below the spindle's line.", say(most), at.Name)
	}
	return fmt.Sprintf("Bar and quill hang by their own weight, and more the further the quill is out: %s at the cutter at the near end of %s, %s at its far end. The bore comes out that much below the spindle's line and leans down by the difference; table feed does not do that.",
		say(from), at.Name, say(most))
}

// tooLong says why a bar is too slender to be planned for at all, or "". The
// trade's rule for a quiet cut is 4 diameters in steel; with light cuts shops
// reach twice that and a little more; at three times the rule a plain bar sings
// at every speed and feed. Common practice, no source.
func (s *setup) tooLong() string {
	most := 3 * s.rule()
	if s.job.Bar.Outboard != nil || s.overhang <= most {
		return ""
	}
	return fmt.Sprintf("the bar stands out %.1f times its diameter; beyond %.0f no cut of a plain bar can be relied on", s.overhang, most)
}

// rule is the trade's overhang rule for the bar's slender step.
func (s *setup) rule() float64 {
	return s.job.Bar.Steps[slenderStep(s.job.Bar.Steps)].Material.Reach
}

// cautions of one visit.
func (r *room) cautions() []string {
	var out []string
	if !r.rough[0].within {
		out = append(out, fmt.Sprintf("%s: the machine's slowest speed, %.0f rev/min, is faster than %s likes at this diameter.",
			upperFirst(r.v.Title), r.rough[0].rpm, r.job.Cutter.Material.Name))
	}
	if what := r.singing(); what != "" {
		out = append(out, what)
	}
	if r.witness && (len(r.v.Passes) == 0 || r.v.Passes[0].Kind != Witness) {
		out = append(out, "There is too little stock for a witness cut of its own: look at the first cut as if it were one.")
	}
	return out
}
