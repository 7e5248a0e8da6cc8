package choice

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/cores"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/setup"
)

// A bar that can be clamped at any length is clamped at the shortest that reaches with the room that
// is wanted along it, by steps that a rule can be set to. The quill is drawn out where it may be
// and the bar, so much shorter, then gives less.

// stand is one way for the bar of a job to stand out.
type stand struct {
	job        *process.Job // with it
	quill, out qty.Length   // out: nose to free end
	alone      float64      // µm/N
	why        fact.Fact    // what stops it; nothing: it reaches
}

// held is how much the bar gives at its tip in the spindle, which gives and tilts at the nose, µm/N.
func (s *stand) held() float64 {
	l, m := s.job.Bar.CutterAt.MM(), s.job.Machine
	return s.alone + 1/m.Radial + l*l/(m.Tilt*1e6)
}

// candidate is what is told of it.
func (s *stand) candidate() candidate.Stickout {
	return candidate.Stickout{Quill: s.quill, Out: s.out, ToTip: s.job.Bar.CutterAt, Alone: s.alone, Why: s.why}
}

// Stickout takes the stickout of a job whose bar is named and leaves it open. Where none reaches the
// longest is taken, and the plan says what stops it.
func Stickout(a *Asked) *process.Job {
	seed := a.Lay(a.Job)
	if !laidOut(seed) {
		return a.Job
	}
	all := stands(a.Job, seed)
	if len(all) == 0 {
		return a.Job
	}
	return a.told(all)
}

// told is the job with the first of some ways of standing out, and the table of all of them, each
// planned in full.
func (a *Asked) told(all []stand) *process.Job {
	got := make([]Outcome, len(all))
	cores.Each(len(all), workers, func(i int) {
		if all[i].why.None() || i == 0 {
			got[i] = a.Try(all[i].job)
		}
	})
	var radial qty.Force // of the finishes as chosen, the most
	for _, visits := range got[0].Bores {
		for _, v := range visits {
			if n := len(v.Passes); n > 0 && got[0].Feasible {
				radial = max(radial, v.Passes[n-1].RadialForce)
			}
		}
	}
	job := *all[0].job
	job.Stickouts = nil
	for i := range all {
		c := all[i].candidate()
		c.Feasible, c.Minutes = got[i].Feasible, got[i].Minutes
		if !c.Feasible && c.Why.None() {
			c.Why = got[i].Why
		}
		for _, visits := range got[i].Bores {
			for _, v := range visits {
				c.Give = math.Max(c.Give, v.Compliance[1])
			}
		}
		c.Spring = job.Units.Round(qty.FromMM(2 * float64(radial) * c.Give / 1e3))
		job.Stickouts = append(job.Stickouts, c)
	}
	return &job
}

// longer is how many longer stickouts are told beside the one that is chosen.
const longer = 3

// stands are the ways for a bar to stand out: the best that reaches, then what it is told
// beside: the shortest with the quill home and with it drawn out furthest, and some that are longer.
// The last resort, where none reaches, is the longest with the quill home.
func stands(job *process.Job, seed Outcome) []stand {
	var all []stand
	for _, quill := range draws(job) {
		if s, ok := shortest(job, seed, quill); ok {
			all = append(all, s)
		}
	}
	if len(all) == 0 {
		if s, ok := clamped(job, furthest(job), 0); ok {
			s.why = fact.New(NoStickout)
			if w, err := setup.New(s.job); err == nil {
				if why, _ := along(w, seed); !why.None() {
					s.why = why
				}
			}
			return []stand{s}
		}
		return nil
	}
	best := slices.MinFunc(all, func(x, y stand) int {
		return cmp.Or(cmp.Compare(x.held(), y.held()), cmp.Compare(x.quill, y.quill))
	})
	out := []stand{best}
	for _, s := range []stand{all[0], all[len(all)-1]} {
		if !slices.ContainsFunc(out, func(o stand) bool { return o.quill == s.quill }) {
			out = append(out, s)
		}
	}
	last := best
	unit := step(job)
	room := (furthest(job) + best.quill - best.out) / unit
	for k := 1; k <= longer; k++ {
		n := room * qty.Length(k) / longer
		if s, ok := clamped(job, best.out-best.quill+n*unit, best.quill); ok && n > 0 && s.out > last.out {
			out, last = append(out, s), s
		}
	}
	slices.SortStableFunc(out[1:], func(x, y stand) int { return cmp.Or(cmp.Compare(x.quill, y.quill), cmp.Compare(x.out, y.out)) })
	return out
}

// clampAs takes the first of some ways for the bar of a pair to stand out.
func (p *pair) clampAs(all []stand) {
	p.stand = slices.Clone(all)
	for i, s := range all {
		if j, ok := clamped(p.job, s.out-s.quill, s.quill); ok {
			j.why = s.why
			p.stand[i] = j
		}
	}
	first := p.stand[0]
	p.job, p.Stickout, p.Give = first.job, first.job.Bar.CutterAt, first.alone
}

// step is what a stickout is set to by a rule: 5 mm or 1/4 in. Common practice, no source.
func step(job *process.Job) qty.Length { return job.Round(5, 0.25) }

// furthest is the furthest that a bar can stand out, without the quill.
func furthest(job *process.Job) qty.Length {
	if b := job.Bar; b.Stands[1] > 0 {
		return b.Stands[1]
	}
	return job.Bar.Stickout()
}

// draws are how far the quill may be drawn out: home, and by whole inches or 25 mm.
func draws(job *process.Job) []qty.Length {
	out := []qty.Length{0}
	if job.Bar.FeedBy != process.TableFeed {
		return out
	}
	unit := job.Round(25, 1)
	far := min(job.Bar.QuillOut, job.Machine.QuillTravel)
	for n := qty.Length(1); n*unit <= far; n++ {
		out = append(out, n*unit)
	}
	if last := out[len(out)-1]; far > last {
		out = append(out, far)
	}
	return out
}

// shortest is the bar clamped as far in as it reaches with the room that is wanted along it; where none
// has that, with the least that it needs. ok: there is one.
func shortest(job *process.Job, seed Outcome, quill qty.Length) (found stand, ok bool) {
	unit, last := step(job), furthest(job)
	least := last
	if s := job.Bar.Stands; s[1] > 0 {
		least = s[0]
	}
	for out := least; ; out = min((out/unit+1)*unit, last) {
		if s, is := clamped(job, out, quill); is {
			if w, err := setup.New(s.job); err == nil {
				switch why, tight := along(w, seed); {
				case why.None() && !tight:
					return s, true
				case why.None() && !ok:
					found, ok = s, true
				}
			}
		}
		if out >= last {
			return found, ok
		}
	}
}

// clamped is a job with its bar clamped so, and the quill drawn out. ok: a job could be so.
func clamped(job *process.Job, out, quill qty.Length) (s stand, ok bool) {
	j := *job
	j.Bar = job.Bar.ClampedAt(out)
	if quill > 0 {
		j.Bar.Steps = slices.Insert(j.Bar.Steps, 0, process.Step{Diameter: job.Machine.Quill, Length: quill, Material: *files.BarMaterialByID("steel")})
		j.Bar.CutterAt += quill
		j.Bar.Drawn = quill
	}
	if files.Again(job, &j, nil, nil) != nil {
		return s, false
	}
	return stand{job: &j, quill: quill, out: out + quill, alone: give(j.Bar)}, true
}

// along is why a bar does not get to a bore; and where it does, whether it has less room along
// it than is wanted: between a shoulder and a face.
func along(s *setup.Setup, seed Outcome) (why fact.Fact, tight bool) {
	why = reaching(s, seed, func(r *place.Reach) {
		for _, g := range r.Gaps {
			tight = tight || g.Axial && !g.Bottom && g.Clearance < g.Need.Wanted
		}
	})
	return why, tight
}
