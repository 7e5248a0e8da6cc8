package choice

import (
	"cmp"
	"math"
	"reflect"
	"slices"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/cores"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
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

// group is one bar with all that is cut with it: it is clamped once, by the bore that it must reach furthest for.
type group struct {
	name  string           // of a bar that bores name; "": the job's own
	tools []*process.Tools // nil among them: the job's own
	views []view           // of each of them
	all   []stand          // ways for it to stand out, the best that reaches first
}

// view is a job as it is cut with one bar and one cutter alone, and its visits as they are laid out.
type view struct {
	job  *process.Job
	seed Outcome
}

// Stickout takes the stickout of each bar of a job that leaves it open, and carries what each was
// chosen from. Where none reaches the longest is taken, and the plan says what stops it.
func Stickout(a *Asked) *process.Job {
	groups := a.groups()
	if len(groups) == 0 {
		return a.Job
	}
	first := a.stood(groups, nil, stand{})
	if first == nil {
		return a.Job
	}
	got := a.Try(first)
	job := *first
	job.Stickouts = slices.Clone(a.Job.Stickouts)
	for _, g := range groups {
		rows := a.rows(g.all, &got, func(s stand) *process.Job { return a.stood(groups, g, s) }, func(bore int, rough bool) bool {
			return slices.Contains(g.tools, a.Job.ToolsOf(bore, rough))
		})
		for _, c := range rows {
			c.Bar = g.name
			job.Stickouts = append(job.Stickouts, c)
		}
	}
	return &job
}

// Stood is Stickout without what each was chosen from.
func Stood(a *Asked) *process.Job {
	if groups := a.groups(); len(groups) > 0 {
		if job := a.stood(groups, nil, stand{}); job != nil {
			return job
		}
	}
	return a.Job
}

// groups are the bars of a job whose stickout is to be chosen, with the ways for each to stand out.
func (a *Asked) groups() (out []*group) {
	j := a.Job
	for _, t := range j.AllTools() {
		bar := j.Using(t).Bar
		if !bar.Adjustable() || bar.Listed != nil {
			continue
		}
		at := slices.IndexFunc(out, func(g *group) bool { return reflect.DeepEqual(j.Using(g.tools[0]).Bar, bar) })
		if at < 0 {
			at = len(out)
			out = append(out, &group{name: bar.Called()})
		}
		g := out[at]
		if g.tools = append(g.tools, t); t == nil {
			g.name = ""
		}
	}
	if len(out) == 0 {
		return nil
	}
	seed := a.Lay(j)
	if !laidOut(seed) {
		return nil
	}
	return slices.DeleteFunc(out, func(g *group) bool {
		for _, t := range g.tools {
			g.views = append(g.views, seenBy(j, t, seed)...)
		}
		g.all = stands(g.views)
		return len(g.all) == 0
	})
}

// seenBy is a job as if it had some tools of its bores alone, and only the bores that they cut;
// where these are of both faces, one of each face.
func seenBy(job *process.Job, t *process.Tools, seed Outcome) (all []view) {
	if t == nil {
		return []view{{job, seed}}
	}
	for _, f := range []process.Face{process.NearFace, process.FarFace} {
		of := faces.Seen(job, f)
		k, own := *of.Using(t), Outcome{}
		k.Used, k.Rough, k.Bores, k.Sleeve = nil, process.ToolsNamed{}, nil, nil
		for i, b := range of.Bores {
			if b.Face != f || job.ToolsOf(i, false) != t && !(job.RoughsApart(i) && job.ToolsOf(i, true) == t) {
				continue
			}
			b.Bar, b.Cutter, b.Guide, b.Rough, b.CutBy, b.RoughBy = "", "", nil, process.ToolsNamed{}, nil, nil
			k.Bores, own.Bores, own.Lines = append(k.Bores, b), append(own.Bores, seed.Bores[i]), append(own.Lines, seed.line(i))
			if b.Repair == process.SleeveRepair {
				k.Sleeve = job.Sleeve
			}
		}
		if len(k.Bores) > 0 {
			all = append(all, view{&k, own})
		}
	}
	return all
}

// stood is the job with its bars standing out, each as its first way says but for that of one
// group, which stands so. nil: no job can have it.
func (a *Asked) stood(groups []*group, one *group, so stand) *process.Job {
	job := a.Job
	for _, g := range groups {
		s := g.all[0]
		if g == one {
			s = so
		}
		if g.name == "" { // tools with the job's own bar follow it
			c, ok := clamped(job, s.out-s.quill, s.quill)
			if !ok {
				return nil
			}
			job = c.job
		}
	}
	k := *job
	k.Bores = slices.Clone(job.Bores)
	for _, g := range groups {
		s := g.all[0]
		if g == one {
			s = so
		}
		for i, t := range g.tools {
			if g.name == "" {
				break
			}
			c, ok := clamped(g.views[i].job, s.out-s.quill, s.quill)
			if !ok {
				return nil
			}
			n := *t
			n.Bar, n.Cutter = c.job.Bar, c.job.Cutter
			for b := range k.Bores {
				for _, p := range []**process.Tools{&k.Bores[b].CutBy, &k.Bores[b].RoughBy} {
					if *p == t {
						*p = &n
					}
				}
			}
		}
	}
	return &k
}

// standing is the job with the first of some ways for its own bar to stand out, and the table of all.
func (a *Asked) standing(all []stand) *process.Job {
	got := a.Try(all[0].job)
	job := *all[0].job
	job.Stickouts = a.rows(all, &got, func(s stand) *process.Job { return s.job }, func(int, bool) bool { return true })
	return &job
}

// rows is what each way for a bar to stand out would give, by a plan in full: that of the first is
// known. by is the job with it, mine whether the bar cuts a bore, its roughing or all else.
func (a *Asked) rows(all []stand, first *Outcome, by func(stand) *process.Job, mine func(bore int, rough bool) bool) (out []candidate.Stickout) {
	got := make([]Outcome, len(all))
	got[0] = *first
	cores.Each(len(all), workers, func(i int) {
		if i > 0 && all[i].why.None() {
			if job := by(all[i]); job != nil {
				got[i] = a.Try(job)
			}
		}
	})
	each := func(o Outcome, do func(v schedule.Visit)) {
		for b, visits := range o.Bores {
			for _, v := range visits {
				if mine(b, v.Part == schedule.Roughing) {
					do(v)
				}
			}
		}
	}
	var radial qty.Force // of the finishes as chosen, the most
	each(got[0], func(v schedule.Visit) {
		if n := len(v.Passes); n > 0 && got[0].Feasible && v.Part != schedule.Roughing {
			radial = max(radial, v.Passes[n-1].RadialForce)
		}
	})
	for i := range all {
		c := all[i].candidate()
		c.Feasible, c.Minutes = got[i].Feasible, got[i].Minutes
		if !c.Feasible && c.Why.None() {
			c.Why = got[i].Why
		}
		each(got[i], func(v schedule.Visit) { c.Give = math.Max(c.Give, v.Compliance[1]) })
		c.Spring = a.Job.Units.Round(qty.FromMM(2 * float64(radial) * c.Give / 1e3))
		out = append(out, c)
	}
	return out
}

// longer is how many longer stickouts are told beside the one that is chosen.
const longer = 3

// stands are the ways for a bar to stand out: the best that reaches, then what it is told
// beside: the shortest with the quill home and with it drawn out furthest, and some that are longer.
// The last resort, where none reaches, is the longest with the quill home.
func stands(by []view) []stand {
	job := by[0].job
	all := reach(by)
	if len(all) == 0 {
		if s, ok := clamped(job, furthest(job), 0); ok {
			s.why = fact.New(NoStickout)
			for _, v := range by {
				if why, _, ok := v.along(furthest(job), 0); ok && !why.None() {
					s.why = why
					break
				}
			}
			return []stand{s}
		}
		return nil
	}
	best := slices.MinFunc(all, byGive)
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

// reach are the shortest ways for a bar to stand out that reach, by how far the quill is drawn out.
func reach(by []view) (all []stand) {
	for _, quill := range draws(by[0].job) {
		if s, ok := shortest(by, quill); ok {
			all = append(all, s)
		}
	}
	return all
}

func byGive(x, y stand) int {
	return cmp.Or(cmp.Compare(x.held(), y.held()), cmp.Compare(x.quill, y.quill))
}

// closest is the way that is taken of these: the first of stands. ok: one reaches.
func closest(by []view) (s stand, ok bool) {
	all := reach(by)
	if len(all) == 0 {
		return s, false
	}
	return slices.MinFunc(all, byGive), true
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
func shortest(by []view, quill qty.Length) (found stand, ok bool) {
	job := by[0].job
	unit, last := step(job), furthest(job)
	least := last
	if s := job.Bar.Stands; s[1] > 0 {
		least = s[0]
	}
	for out := least; ; out = min((out/unit+1)*unit, last) {
		gets, tight := true, false
		for _, v := range by {
			why, near, is := v.along(out, quill)
			tight = tight || near
			if gets = is && why.None(); !gets {
				break
			}
		}
		if s, is := clamped(job, out, quill); gets && is {
			switch {
			case !tight:
				return s, true
			case !ok:
				found, ok = s, true
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
	was := job.Bar
	j.Bar = was.ClampedAt(out)
	j.Bar.Listed = &was
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

// along is why a bar that stands out so does not get to a bore; and where it does, whether it has less
// room along it than is wanted: between a shoulder and a face. ok: a job could be so.
func (v view) along(out, quill qty.Length) (why fact.Fact, tight, ok bool) {
	c, ok := clamped(v.job, out, quill)
	if !ok {
		return why, false, false
	}
	s, err := setup.New(c.job)
	if err != nil {
		return why, false, false
	}
	why = reaching(s, v.seed, func(r *place.Reach) {
		for _, g := range r.Gaps {
			tight = tight || g.Axial && !g.Bottom && g.Clearance < g.Need.Wanted
		}
	})
	return why, tight, true
}
