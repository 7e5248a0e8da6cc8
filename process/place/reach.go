package place

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Reach is whether the bar gets to its bore and through its passes without
// touching anything, the cutter set as each pass sets it.
type Reach struct {
	Verdict clearance.Verdict
	Least   *clearance.Gap    // the tightest place; nil: nothing is near
	Gaps    []clearance.Gap   // the worst of every part against every station, from the spindle outward
	Entries []clearance.Entry // how the cutter of each pass comes to its bore
	Why     []fact.Fact       // what blocks

	QuillOut, QuillShort, NoseBack qty.Length // quill feed: how far it comes out; more than it can; nose to stand further off
	Travel, TravelHas              qty.Length // what the slide that feeds has to travel, and what it has; 0: not stated
	TravelAxis                     string

	// What would pass in principle: the largest plain bar, the shortest stickout
	// to the tip, and the stiffest stepped bar, from the nose outward.
	Largest  qty.Diameter
	Shortest qty.Length
	Steps    []process.Step
	// CutterStops: no bar passes, because the cutter does not.
	CutterStops bool

	offAxis *clearance.OffAxis // how a program takes the cutter in where it does not pass on the axis
	notOff  fact.Fact          // why it cannot

	way clearance.ReachInput
}

// Passes is whether the bar gets there.
func (r *Reach) Passes() bool { return r.Verdict != clearance.Blocked }

// rounded is a gap by the figures that are printed.
func rounded(u qty.Unit, g clearance.Gap) clearance.Gap {
	g.Clearance, g.Diameter, g.Tip = near(u, g.Clearance), near(u, g.Diameter), near(u, g.Tip)
	g.Need = clearance.Need{Wanted: near(u, g.Need.Wanted), Least: near(u, g.Need.Least)}
	return g
}

// wayOf turns a visit into what geom measures.
func wayOf(s *setup.Setup, l *LineUp, bore int, v *schedule.Visit) clearance.ReachInput {
	job := s.Job
	u := job.Units
	b := job.Bar
	w := clearance.ReachInput{
		Spindle: clearance.Spindle{Nose: job.Machine.Nose.MM(), Quill: job.Machine.Quill.MM(), Travel: job.Machine.QuillTravel.MM()},
		Bar:     barOf(job, b),
		Bore:    bore,
		Needs:   roomOf(job),
		Held:    b.Outboard != nil,
		Unsure:  l.unsureMost(job) + math.Abs(s.Droop(max(v.End, v.To))),
	}
	if b.FeedBy == process.QuillFeed && b.Steps[0].Diameter == job.Machine.Quill {
		w.Spindle.Travel -= b.Steps[0].Length.MM() // drawn out already
	}
	if c := job.Machine.Control; c != nil {
		w.Program, w.Oriented = true, c.OrientedStop && c.TipAtStop != process.TipUnknown
		w.TipClock, w.Wide = c.TipAtStop.Clock(), cutterWide(job.Cutter, b)
	}
	if v.LastOut.By == process.ShiftOut { // where one pass of a visit is shifted, the last is
		w.TipClock = v.LastOut.Clock
	}
	stray, bush := l.strays(job, bore), job.Guide()
	for i, st := range job.Stations {
		from, to := st.From, st.To
		if i == bore {
			from, to = from-v.Out[0], to+v.Out[1]
		}
		w.Stations = append(w.Stations, clearance.Station{
			Name: st.Name, From: from.MM(), To: to.MM(), Diameter: NarrowAt(job, bore, i, v).MM(),
			Blind: st.Blind, Relief: st.Relief.MM(), At: stray[i],
			Bush: bush != nil && bush.Name == st.Name && i > bore,
		})
		if i < bore && slices.Contains(v.Together, st.Name) { // none of them is cut before the others
			w.Stations[i].Through, w.Stations[i].Diameter = true, st.Diameter.MM()
		}
	}
	if last := job.Stations[len(job.Stations)-1].To; job.ClosedAt > last { // the back of a closed end of the other face
		w.Stations = append(w.Stations, clearance.Station{Name: job.Closed, From: last.MM(), To: job.ClosedAt.MM(), Diameter: openBehind * job.Machine.Nose.MM(), Blind: true})
	}
	before := v.Start
	end := max(v.End, v.To)
	add := func(n int, setting qty.Diameter, out schedule.WayOut) {
		w.Passes = append(w.Passes, clearance.Pass{
			Setting: setting.MM(), Before: before.MM(), Clear: v.Clear.MM(), End: end.MM(), Retract: out.Shift.MM(), N: n,
		})
	}
	for _, p := range v.Passes {
		add(p.N, p.Setting, p.Out)
		before = max(before, p.Low)
	}
	if len(v.Passes) == 0 { // none could be planned: what it would come to
		add(0, qty.Diameter(u.Round(v.Limits.High.Length())), v.LastOut)
	}
	return w
}

// openBehind is how wide, of the spindle nose, the casting is taken to be in front of the back of a closed end: it
// holds nothing up but the end of the bar.
const openBehind = 10

// cutterWide is how far a cutter stands out to either side of its tip, mm: as the job says,
// else a quarter of the bar that carries it. Common practice, no source.
func cutterWide(c process.Cutter, b process.Bar) float64 {
	if c.Beside > 0 {
		return c.Beside.MM()
	}
	at, d := qty.Length(0), b.Steps[0].Diameter
	for _, s := range b.Steps {
		if at < b.CutterAt {
			d = s.Diameter
		}
		at += s.Length
	}
	return d.MM() / 4
}

// barOf is the bar as geom measures it.
func barOf(job *process.Job, b process.Bar) clearance.Bar {
	out := clearance.Bar{
		CutterAt: b.CutterAt.MM(), Ahead: job.Cutter.Ahead.MM(), Behind: job.Cutter.Behind.MM(),
		QuillFeed: b.FeedBy == process.QuillFeed, Standoff: b.Standoff.MM(),
	}
	for _, s := range b.Steps {
		out.Steps = append(out.Steps, clearance.Step{Diameter: s.Diameter.MM(), Length: s.Length.MM()})
	}
	if n := len(b.Steps); n > 0 {
		out.Modulus = b.Steps[n-1].Material.E
	}
	return out
}

// roomOf is the room asked for: the job's for chips, the trade's for the rest.
func roomOf(job *process.Job) clearance.Needs {
	return clearance.UsualNeeds(job.Limits.ChipRoom.MM())
}

// NarrowAt is the smallest that a station can be while a visit to a bore is cut, and its sleeve put
// in. Bores are cut in the order of the job, those first that are finished before the others: those
// before it stand at their finished size or, where all are roughed first, at what roughing leaves,
// those after it as found. Where all are roughed first, or the other is bored from the other face, its
// sleeve may be in: a sleeve that may come from the lathe is put in once its housing is finished, and
// before one is bored in place all others may be in. The bore itself may have its sleeve in.
func NarrowAt(job *process.Job, bore, station int, v *schedule.Visit) qty.Diameter {
	found, begun := job.Stations[station].Diameter, true // begun before the bore that is cut
	withSleeve := func(size qty.Diameter, b process.Bore) qty.Diameter {
		sleeved := b.Repair == process.SleeveRepair && job.Sleeve != nil
		if sleeved && (v.N > 1 || !job.Here(b) || begun && v.Part != schedule.Roughing && job.Sleeve.Finish != process.BoreInPlace) {
			return min(size, b.Finish.Low)
		}
		return size
	}
	for _, b := range job.InTurn() {
		own := b.Station == bore
		switch {
		case own && b.Station == station:
			if b.Repair == process.SleeveRepair && job.Sleeve != nil && job.Sleeve.Finish != process.FinishBefore {
				return min(found, b.Finish.Low.Plus(-job.Sleeve.Allowance))
			}
			return found
		case own:
			if b.First || !job.Apart() { // it is finished before those after it are begun
				return found
			}
			begun = false
		case b.Station != station || b.Finish.Low <= 0:
		case !job.Here(b) || !begun:
			return withSleeve(found, b)
		case job.Apart() && !b.First: // as the casting rests
			return withSleeve(max(found, b.Finish.Low.Plus(-job.Limits.RestStock)), b)
		default:
			return b.Finish.Low
		}
	}
	return found
}

// After says which bores must be at size before the bar passes to the bore of a
// visit; nothing where it passes as found.
func (r *Reach) After(job *process.Job, bore int, v *schedule.Visit) fact.Fact {
	w := r.way
	w.Stations = slices.Clone(w.Stations)
	var first []fact.Fact
	for i, st := range job.Stations {
		if d := st.Diameter.MM(); i != bore && w.Stations[i].Diameter > d {
			w.Stations[i].Diameter = d
			first = append(first, fact.New(Quoted, fact.Name(st.Name)))
		}
	}
	if len(first) == 0 {
		return fact.Fact{}
	}
	found, err := clearance.NewReach(w)
	stops := err != nil || found.Verdict == clearance.Blocked
	for i := 0; !stops && i < len(found.Entries); i++ {
		e := found.Entries[i]
		stops = !e.OnAxis && r.Entries[i].OnAxis && !(v.SetInside && e.Inside)
	}
	if in := v.OffAxis; in != nil && !stops { // the shift of the plan must do
		o := found.OffAxis
		stops = o == nil || in.Shift.MM() < o.Least || in.Shift.MM() > o.Most
	}
	if !stops {
		return fact.Fact{}
	}
	return fact.New(BringFirst, fact.List(first...))
}

// why says what blocks a bar, with how far the nose must stand back and how much more the
// quill needs rounded up: written back as it is said, that is enough. Where a program cannot even
// bring the tip out of the work, the standoff told with that is enough for the nose, too.
func why(job *process.Job, g *clearance.Reach) []fact.Fact {
	u, out := job.Units, g.Why()
	if !QuillShort(job).None() {
		out = slices.DeleteFunc(out, func(f fact.Fact) bool { return f.Kind == clearance.NoseTooNear })
	}
	for i := range out {
		switch out[i].Kind {
		case clearance.NoseTooNear:
			out[i] = fact.New(clearance.NoseTooNear, fact.Figure(u.Up(qty.FromMM(g.NoseBack))))
		case clearance.QuillTooShort:
			out[i] = fact.New(clearance.QuillTooShort, fact.MM(g.QuillOut), fact.Figure(u.Up(qty.FromMM(g.QuillShort))))
		}
	}
	return out
}

// NewReach measures the room of one visit.
func NewReach(s *setup.Setup, l *LineUp, bore int, v *schedule.Visit) (*Reach, error) {
	w := wayOf(s, l, bore, v)
	g, err := clearance.NewReach(w)
	if err == nil && g.OffAxis != nil {
		if w.Take = wellRead(s.Job.Units, qty.FromMM(g.OffAxis.Least), qty.FromMM(g.OffAxis.Most)).MM(); w.Take > 0 {
			g, err = clearance.NewReach(w)
		}
	}
	if err != nil {
		return nil, err
	}
	best := g.Best
	another := w                      // what another bar is tried with
	if s.Job.Machine.Control == nil { // by hand a bar with no room to be shifted comes out another way
		another.Passes = slices.Clone(w.Passes)
		for i := range another.Passes {
			another.Passes[i].Retract = 0
		}
		fed, err := clearance.NewReach(another)
		if err != nil {
			return nil, err
		}
		best = fed.Best
	}
	u := s.Job.Units
	r := &Reach{
		Verdict:  g.Verdict,
		QuillOut: u.Round(qty.FromMM(g.QuillOut)), QuillShort: u.Up(qty.FromMM(g.QuillShort)), NoseBack: u.Up(qty.FromMM(g.NoseBack)),
		Largest:  qty.Diameter(u.Down(qty.FromMM(best.Diameter))),
		Shortest: u.Up(qty.FromMM(best.Stickout)),
		Why:      why(s.Job, g), CutterStops: best.Cutter,
		offAxis: g.OffAxis, notOff: g.NotOff, way: another,
	}
	for _, x := range best.Steps {
		r.Steps = append(r.Steps, process.Step{Diameter: qty.Diameter(u.Down(qty.FromMM(x.Diameter))), Length: u.Up(qty.FromMM(x.Length))})
	}
	for _, x := range g.Gaps {
		r.Gaps = append(r.Gaps, rounded(u, x))
	}
	if len(g.Gaps) > 0 {
		r.Least = new(rounded(u, g.Least))
	}
	for _, e := range g.Entries {
		e = entry(s.Job, e)
		r.Entries = append(r.Entries, e)
		if e.Way() == clearance.NoWay { // held in an outboard bearing, where geom would shift it
			r.Verdict = clearance.Blocked
		}
	}
	if s.Job.Bar.Outboard != nil { // it goes through what lies behind the bore too
		for i, st := range w.Stations {
			d := st.Diameter
			if i == bore {
				d = w.Passes[0].Before
			}
			free := d - 2*(st.At.Length()+w.Unsure+w.Needs.Chips.Least)
			if st.Bush { // the bar turns in it, wherever it stands
				free = d - 2*process.BushWall.MM()
			}
			r.Largest = min(r.Largest, qty.Diameter(u.Down(qty.FromMM(free))))
		}
	}
	r.travel(s.Job, v)
	return r, nil
}

// Tight warns of a place that passes and is no more than that; nothing where
// there is room, or where the bar does not pass.
func (r *Reach) Tight() fact.Fact {
	g := r.Least
	if g == nil || !r.Passes() || g.Verdict != clearance.Tight || g.Bottom {
		return fact.Fact{}
	}
	return fact.New(TightPlace, g.Part.Fact(), fact.MM(g.Clearance), fact.Name(g.Name), fact.MM(g.Need.Wanted))
}

// Refusal says why a bar does not pass and which would.
func (r *Reach) Refusal() fact.Fact {
	why := fact.List(r.Why...)
	ahead, other := r.Ahead()
	switch {
	case ahead > 0 && !other:
		return fact.New(TooLongAhead, why, fact.Figure(ahead))
	case r.CutterStops:
		return fact.New(NoCutterPasses, why)
	case r.Largest <= 0:
		return fact.New(NoBarPasses, why)
	case r.Shortest == 0:
		return fact.New(SpindleFollows, why)
	}
	return fact.New(BarDoesNotPass, why, fact.Figure(r.Largest), fact.Figure(r.Shortest))
}

// Ahead is how much shorter what stands ahead of the tip must be to keep clear of
// a closed end, 0 where it does; other is whether anything else blocks.
func (r *Reach) Ahead() (shorter qty.Length, other bool) {
	for _, g := range r.Gaps {
		switch {
		case g.Verdict != clearance.Blocked:
		case g.Bottom:
			shorter = max(shorter, qty.FromMM(g.Need.Wanted-g.Clearance))
		default:
			other = true
		}
	}
	return shorter, other || r.NoseBack > 0 || r.QuillShort > 0 || r.TravelHas > 0 && r.Travel > r.TravelHas
}
