package plan

import (
	"fmt"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/qty"
)

// Sofar is what was measured on a job before a plan for the rest was made, and
// what follows from it.
type Sofar struct {
	Entries int // of the results file: tells this plan from those before it
	Cuts    []CutSeen
	Factors []FactorSeen // by work material, in the order in which they were cut
	Says    []string     // what follows, a sentence each
}

// CutSeen is one pass that was measured, beside what was planned for it.
type CutSeen struct {
	Station           string
	Bore, Visit, Pass int // bore counts from 0
	Kind              string
	Setting           qty.Diameter
	Low, High         qty.Diameter // what was to be expected
	Least, Mean, Most qty.Diameter // found
	Limits            Limits       // of the visit
	Predicted, Seen   qty.Length   // spring on diameter: by the model alone, and setting less size found
	Counts            bool         // the spring was learned from: the pass cut all round
	Bar               qty.Diameter // of the step that gives way most
	Stickout          qty.Length
	Ra                qty.Length // measured; 0: not
	Uneven, Taper     qty.Length // of the sizes entered: see formOf
	BarGive, RootGive float64    // spring on diameter that bar and spindle would give each, by the model, at the depth that was cut, mm
	Noise             float64    // standard deviation of the spring seen, mm
	Material          string
	Place             string // of the entry
	Remark, By, When  string
}

// FactorSeen is spring seen over spring predicted for one work material, with
// what remains unknown of it.
type FactorSeen struct {
	Material string
	Factor   float64
	Doubt    float64 // fraction of it, 95 %
	Cuts     int     // that it was learned from
}

// MakeAfter plans what is left of a job after what was measured. It is the same
// planner: with no results it gives what Make gives. The spring seen corrects
// the model (see learn.go), each visit goes on from the size that was found,
// and passes are numbered on.
func MakeAfter(job *process.Job, results *process.Results) *Plan {
	if results == nil {
		return Make(job)
	}
	p := makeAfter(job, results)
	if results.Torn > 0 {
		p.Cautions = append(p.Cautions, fmt.Sprintf("%s:%d: the last entry was not written whole and is not counted: enter it again.", results.File, results.Torn))
	}
	return p
}

func makeAfter(job *process.Job, results *process.Results) *Plan {
	if len(results.Entries) == 0 {
		return Make(job)
	}
	k, err := learn(job, results)
	if err != nil {
		p := try(job, nil, true)
		p.stop("", err.Error())
		return p // nothing but another entry frees it
	}
	p := try(job, k, true)
	p.Sofar = k.sofar
	if p.Feasible && len(p.Bores) == 0 {
		k.sofar.Says = append(k.sofar.Says, "Every bore of the job is finished: nothing is left to cut.")
	}
	return finished(p)
}

// state is where a visit stands by its last measurement.
type state struct {
	pass         int
	heavy, light float64 // radii, mm
	last         *process.Measured
	kind         Kind
	limits       Limits // of the visit
}

// rest takes what is finished out of the visits of a bore and starts the others
// from what was found. n is the number of the next pass.
func (p *Plan) rest(s *setup, bore int, visits []Visit, n int) ([]Visit, int) {
	k := p.known
	if k == nil || len(k.at[bore]) == 0 {
		return visits, n
	}
	current := 0
	for i := range visits {
		if st := k.at[bore][i]; st != nil {
			current, n = i, st.pass+1
		}
	}
	if current >= len(visits) || k.at[bore][current] == nil {
		return visits, n // what was measured belongs to a visit that this order of work does not have
	}
	st, v := k.at[bore][current], &visits[current]
	switch done, stopped := p.judge(v, st, bore); {
	case stopped:
		return nil, n
	case done:
		return visits[current+1:], n
	}
	v.Behind = st.pass
	v.Before = nil
	v.Title += fmt.Sprintf(", the rest after pass %d", st.pass)
	v.Start, v.StartMost = qty.DiameterMM(2*st.heavy), qty.DiameterMM(2*st.light)
	return visits[current:], n
}

// judge says what a measurement means for its visit: finished, oversize, or
// how much is left. It stops the plan where there is no going on.
func (p *Plan) judge(v *Visit, st *state, bore int) (done, stopped bool) {
	u := p.Job.Units
	name := p.Job.Stations[p.Job.Bores[bore].Station].Name
	m := st.last
	at := fmt.Sprintf("%s, pass %d", name, st.pass)
	sizes := fmt.Sprintf("%s to %s", u.Format(m.Least().Length()), u.Say(m.Most().Length()))
	switch {
	case m.Most() > v.Limits.High && (st.kind != Witness && v.StartMost <= v.Limits.High || m.Least() > v.Limits.High):
		what := fmt.Sprintf("%s found %s, and the limits end at %s: it is %s too large", at, sizes,
			u.Say(u.Down(v.Limits.High.Length())), u.Say(m.Most().Minus(v.Limits.High)))
		switch {
		case v.Material == p.Job.Material && p.Job.Bores[bore].Repair == process.SleeveRepair:
			what += "; a bigger sleeve is needed"
		case p.Job.Bores[bore].Repair == process.SleeveRepair:
			what += "; the sleeve has to come out and another go in"
		default:
			what += "; only a sleeve brings it back, unless the customer takes the size as it is"
		}
		p.stop(m.Place, what)
		return false, true
	case m.Least() >= v.Limits.Low && m.Most() <= v.Limits.High:
		if st.kind != Finish {
			p.Cautions = append(p.Cautions, fmt.Sprintf("%s, a %s pass, already stands within the limits (%s): look at its roughness; no cut is planned after it.", at, st.kind, sizes))
		}
		return true, false
	}
	if why := p.known.line[bore]; why != "" {
		p.stop(m.Place, at+": "+why)
		return false, true
	}
	return false, false
}

// lastOne tries to finish from a measured bore in one cut: the spring is known
// from the cuts before it.
func (r *room) lastOne(best *chain, t *table, pick speedPick, w *chain, radius float64) *chain {
	depth := r.aim - radius
	if depth <= 0 || depth > r.depth*(1+1e-9) || depth > semiMost {
		return best
	}
	minutes := w.minutes + r.minutesOf(t.feeds[0], pick.rpm) + r.job.Limits.HoldMinutes
	scale := t.scale(pick.speed)
	c := cutAt{depth: depth, feed: t.feeds[0], pick: pick, force: t.look(0, depth).by(scale), radius: r.aim}
	light := leftBy(radius, w.light, r.aim, r.c, func(a float64) float64 { return scale * t.look(0, a).radial })
	if !r.onlyVerdict(c, light-r.aim).ok() {
		return best
	}
	doubt, half := r.onlyDoubt(c, light-r.aim)
	cost := w.cost + minutes - w.minutes + unrest(r.hear(t, 0, depth, pick.speed)) + missMinutes*missChance(doubt, half)
	if best != nil && cost > best.cost-1e-9 {
		return best
	}
	return &chain{minutes: minutes, cost: cost, light: light, from: w, passes: w.passes + 1, last: step{
		kind: Finish, made: r.aim, depth: depth, feed: c.feed, pick: pick, lightAfter: light}}
}

// onlyVerdict judges a last pass that follows a measurement and no semi-finish
// of its own.
func (r *room) onlyVerdict(c cutAt, left float64) verdict {
	doubt, half := r.onlyDoubt(c, left)
	v := r.lastVerdict(c, left, doubt, half)
	r.chips(&v, c)
	return v
}

func (r *room) onlyDoubt(c cutAt, left float64) (doubt, half float64) {
	return r.doubtLearned(2*r.c*c.force.radial) + r.taper(c)/2 + left, r.v.Limits.High.Minus(r.v.Limits.Low).MM() / 2
}

// doubtLearned is what remains unknown (± on diameter, 95 %) of the size that a
// pass leaves when the spring has been learned: setting, temperature, repeat of
// the spring, and what is still unknown of it. The gauge's error stands in the
// last. Added by squares (JCGM 100, the usual law).
func (r *room) doubtLearned(now float64) float64 {
	return quad(r.job.Limits.SettingError.MM(), r.warm(), springRepeats*now, r.forceDoubt*now)
}

// tooThin says that the stock left is less than the edge can cut, or "".
func (r *room) tooThin() string {
	left := r.aim - r.heavy
	if !r.measured || left >= r.model.LeastDepth() {
		return ""
	}
	u := r.job.Units
	return fmt.Sprintf("only %s is left on diameter, and the edge rubs below %s: no cut can be planned for it; hone or lap it to size, or ask whether the size found is taken",
		u.Say(qty.FromMM(2*left)), u.Say(qty.FromMM(2*r.model.LeastDepth())))
}

// biggerSleeve is the next sleeve whose housing cleans up, where a housing was
// found too large for the one planned; or a sleeve where a rebored bore was.
func biggerSleeve(job *process.Job, k *known) []change {
	if k == nil {
		return nil
	}
	step, least := qty.Millimetre, 2*qty.Millimetre
	if job.Units == qty.Inches {
		step, least = qty.Inch/16, qty.Inch/12
	}
	var out []change
	for i, b := range job.Bores {
		st := k.at[i][0]
		if st == nil {
			continue
		}
		found := st.last.Most()
		j := *job
		if b.Repair == process.Rebore {
			if found <= b.Finish.High {
				continue
			}
			j.Bores = slices.Clone(job.Bores)
			j.Bores[i].Repair = process.SleeveRepair
			steel := process.MaterialByID("steel-1026")
			sleeve := process.Sleeve{Material: steel, Hold: process.Press, Fit: "H7/r6", Allowance: 400 * qty.Micrometre}
			if job.Sleeve != nil {
				sleeve = *job.Sleeve
			}
			wall := max(least, qty.Length(b.Finish.High)/30)
			sleeve.Outside = max(sleeve.Outside, b.Finish.High.Plus(2*wall)/qty.Diameter(step)*qty.Diameter(step))
			j.Sleeve = &sleeve
		} else if job.Sleeve == nil || found < job.Sleeve.Outside {
			continue
		}
		for range 8 {
			sleeve := *j.Sleeve
			sleeve.Outside = (sleeve.Outside/qty.Diameter(step) + 1) * qty.Diameter(step)
			j.Sleeve = &sleeve
			if sleeve.Outside.Minus(found) < least/4 {
				continue
			}
			what := "a bigger sleeve, outside "
			if b.Repair == process.Rebore {
				what = "a sleeve of " + sleeve.Material.Name + ", outside "
			}
			again := j
			out = append(out, change{what + job.Units.Say(sleeve.Outside.Length()), &again})
		}
	}
	return out
}

// lineUp holds the marks of a witness cut against the readings of the worn
// bore: where the bore stands inside the cutter's circle it must have marked,
// where it stands outside it cannot have. It says what it finds, what stops the
// plan, and whether the line-up is confirmed.
func lineUp(job *process.Job, b process.Bore, m *process.Measured, made float64) (says, stops string, sure bool) {
	if len(m.Marked)+len(m.Bare) == 0 {
		return "", "", false
	}
	u := job.Units
	tell := quad(job.Limits.GaugeError.MM(), job.Limits.SettingError.MM()/2, 0.01) // a mark thinner than this is not seen
	worst, where, held := 0.0, "", 0
	look := func(angles []float64, marked bool) {
		for _, a := range angles {
			least, most := math.Inf(1), math.Inf(-1)
			for _, w := range b.Wear {
				for i, at := range w.At {
					if i < len(w.Radius) && math.Abs(math.Remainder(at-a, 360)) < 1 {
						least, most = math.Min(least, w.Radius[i].MM()), math.Max(most, w.Radius[i].MM())
					}
				}
			}
			if math.IsInf(least, 1) {
				continue
			}
			held++
			off := least - made // marked: at least one depth stood inside
			if !marked {
				off = made - most
			}
			if off > tell && off > worst {
				verb := map[bool]string{true: "it marked at %s, where the readings put the wall %s outside of the cutter", false: "it left %s bare, where the readings put the wall %s inside of the cutter"}[marked]
				worst, where = off, fmt.Sprintf(verb, clock(a), u.Say(qty.FromMM(off)))
			}
		}
	}
	look(m.Marked, true)
	look(m.Bare, false)
	switch {
	case held == 0:
		return "The marks of the witness cut stand at clock positions where no radius was read: they confirm nothing.", "", false
	case worst > 0:
		return "", "the witness cut does not confirm the line-up: " + where + "; sweep again, move the work, and take the witness cut again before anything deeper", false
	}
	return fmt.Sprintf("The witness cut confirms the line-up: its marks agree with the readings at all %d clock positions, to %s.", held, u.Say(qty.FromMM(tell))), "", true
}

// clock is a clock position as a person says it.
func clock(degrees float64) string {
	half := int(math.Round(degrees / 15)) // half hours
	h, m := half/2%12, half%2*30
	if h == 0 {
		h = 12
	}
	if m == 0 {
		return fmt.Sprintf("%d o'clock", h)
	}
	return fmt.Sprintf("%d:%02d", h, m)
}

// say puts what was learned into sentences.
func (k *known) say(job *process.Job) {
	u := job.Units
	for _, f := range k.sofar.Factors {
		more := "as predicted"
		switch d := f.Factor - 1; {
		case d > 0.02:
			more = fmt.Sprintf("%.0f %% more than predicted", 100*d)
		case d < -0.02:
			more = fmt.Sprintf("%.0f %% less than predicted", -100*d)
		}
		k.sofar.Says = append(k.sofar.Says, fmt.Sprintf("%s: the bar springs %s (factor %.2f, ±%.0f %%, from %s).",
			f.Material, more, f.Factor, 100*f.Doubt, plural(f.Cuts, "measured cut")))
	}
	for i := range job.Bores {
		for v := range 9 { // no bore has more visits; in their order
			st := k.at[i][v]
			if st == nil {
				continue
			}
			name := job.Stations[job.Bores[i].Station].Name
			if st.kind == Fitted {
				k.sofar.Says = append(k.sofar.Says, fmt.Sprintf("%s: the sleeve is home and measures %s to %s.", name, u.Format(st.last.Least().Length()), u.Say(st.last.Most().Length())))
				continue
			}
			says := fmt.Sprintf("%s, visit %d, stands at %s to %s after pass %d", name, v+1,
				u.Format(st.last.Least().Length()), u.Say(st.last.Most().Length()), st.pass)
			if left := st.limits.Aim.Minus(qty.DiameterMM(2 * st.heavy)); left > 0 && st.last.Least() < st.limits.Low {
				says += fmt.Sprintf("; %s is left on diameter to the size aimed at", u.Say(left))
				if st.light > st.heavy+0.01 { // the old shape still shows
					reach := qty.DiameterMM(2 * st.light)
					says += fmt.Sprintf(", and the old bore reaches %s about the true axis: it %s", u.Say(reach.Length()),
						map[bool]string{true: "cleans up", false: "does not clean up"}[reach <= st.limits.High])
				}
			}
			k.sofar.Says = append(k.sofar.Says, says+".")
		}
	}
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
