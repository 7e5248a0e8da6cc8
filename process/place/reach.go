package place

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/geom"
	"borewright/process/passes"
	"borewright/process/qty"
)

// Reach is whether the bar gets to its bore and through its passes without
// touching anything, the cutter set as each pass sets it.
type Reach struct {
	Verdict string // "clear", "tight" or "does not pass"
	Passes  bool   // false: does not pass
	Least   Gap    // the tightest place
	Gaps    []Gap  // the worst of every part against every station, from the spindle outward
	Entries []Entry
	Why     []string // what blocks, one sentence each

	QuillOut, QuillShort, NoseBack qty.Length // quill feed: how far it comes out; more than it can; nose to stand further off
	Travel, TravelHas              qty.Length // what the slide that feeds has to travel, and what it has; 0: not stated
	TravelAxis                     string

	// What would pass in principle: the largest plain bar, the shortest stickout
	// to the tip, and the stiffest stepped bar, from the nose outward.
	Largest  qty.Diameter
	Shortest qty.Length
	Steps    []process.Step

	way geom.ReachInput
}

// Gap is the room between one part of what turns and one station.
type Gap struct {
	Verdict  string
	Room     qty.Length // below 0: they would overlap
	Wanted   qty.Length // under it the place is tight
	Needed   qty.Length // under it the part does not pass
	Axial    bool       // along the spindle; else on radius
	Bottom   bool       // at a closed end
	Part     string     // "step 2", "cutter", "spindle nose", "quill"
	Diameter qty.Diameter
	Station  string
	Tip      qty.Length // depth of the tip at which it first is so small
	Pass     int        // as numbered in the plan
	Phase    string     // "going in", "cutting", "coming out"
}

// wayOf turns a visit into what geom measures.
func wayOf(s *passes.Setup, l *LineUp, bore int, v *passes.Visit) geom.ReachInput {
	job := s.Job
	u := job.Units
	b := job.Bar
	w := geom.ReachInput{
		Spindle: geom.Spindle{Nose: job.Machine.Nose.MM(), Quill: job.Machine.Quill.MM(), Travel: job.Machine.QuillTravel.MM()},
		Bar:     barOf(job, b),
		Bore:    bore,
		Needs:   roomOf(job),
		Unsure:  l.unsureMost(job) + math.Abs(s.Droop(max(v.End, v.To))),
	}
	if b.FeedBy == process.QuillFeed && b.Steps[0].Diameter == job.Machine.Quill {
		w.Spindle.Travel -= b.Steps[0].Length.MM() // drawn out already
	}
	if c := job.Machine.Control; c != nil && c.OrientedStop {
		w.TipClock = map[string]float64{"+X": 90, "-X": 270, "+Y": 0, "-Y": 180}[c.TipAtStop]
	}
	stray := l.strays(job, bore)
	for i, st := range job.Stations {
		w.Stations = append(w.Stations, geom.Station{
			Name: st.Name, From: st.From.MM(), To: st.To.MM(), Diameter: NarrowAt(job, bore, i).MM(),
			Blind: st.Blind, Relief: st.Relief.MM(), At: stray[i],
		})
	}
	before := v.Start
	end := max(v.End, v.To)
	add := func(n int, setting qty.Diameter) {
		w.Passes = append(w.Passes, geom.Pass{
			Setting: setting.MM(), Before: before.MM(), Clear: v.Clear.MM(), End: end.MM(), Retract: v.Retract.Shift.MM(), N: n,
		})
	}
	for _, p := range v.Passes {
		add(p.N, p.Setting)
		before = max(before, p.Low)
	}
	if len(v.Passes) == 0 { // none could be planned: what it would come to
		add(0, qty.Diameter(u.Round(v.Limits.High.Length())))
	}
	return w
}

// barOf is the bar as geom measures it.
func barOf(job *process.Job, b process.Bar) geom.Bar {
	out := geom.Bar{
		CutterAt: b.CutterAt.MM(), Ahead: job.Cutter.Ahead.MM(), Behind: job.Cutter.Behind.MM(),
		QuillFeed: b.FeedBy == process.QuillFeed, Standoff: b.Standoff.MM(),
	}
	for _, s := range b.Steps {
		out.Steps = append(out.Steps, geom.Step{Diameter: s.Diameter.MM(), Length: s.Length.MM()})
	}
	if n := len(b.Steps); n > 0 {
		out.Modulus = b.Steps[n-1].Material.E
	}
	return out
}

// roomOf is the room asked for: the job's for chips, the trade's for the rest.
func roomOf(job *process.Job) geom.Needs {
	return geom.UsualNeeds(job.Limits.ChipRoom.MM())
}

// NarrowAt is the smallest that a station can be while a bore is cut, and its
// sleeve put in. Bores are cut in the order of the job: those before it stand at
// their finished size, those after it as found. The bore itself may have its
// sleeve in.
func NarrowAt(job *process.Job, bore, station int) qty.Diameter {
	found := job.Stations[station].Diameter
	for _, b := range job.Bores {
		own := b.Station == bore
		switch {
		case b.Station == station && !own && b.Finish.Low > 0:
			return b.Finish.Low
		case b.Station == station && own && b.Repair == process.SleeveRepair && job.Sleeve != nil && job.Sleeve.Finish != process.FinishBefore:
			return min(found, b.Finish.Low.Plus(-job.Sleeve.Allowance))
		case own:
			return found
		}
	}
	return found
}

// After names the bores that must be at size before the bar passes to the bore of
// a visit, "" where it passes as found.
func (r *Reach) After(job *process.Job, bore int, v *passes.Visit) string {
	w := r.way
	w.Stations = slices.Clone(w.Stations)
	var first []string
	for i, st := range job.Stations {
		if d := st.Diameter.MM(); i != bore && w.Stations[i].Diameter > d {
			w.Stations[i].Diameter = d
			first = append(first, fmt.Sprintf("%q", st.Name))
		}
	}
	if len(first) == 0 {
		return ""
	}
	found, err := geom.NewReach(w)
	if err != nil || found.Verdict == geom.Blocked {
		return strings.Join(first, " and ")
	}
	for i, e := range found.Entries {
		if !e.OnAxis && r.Entries[i].OnAxis && !(v.SetInside && e.Inside) {
			return strings.Join(first, " and ")
		}
	}
	return ""
}

// NewReach measures the room of one visit.
func NewReach(s *passes.Setup, l *LineUp, bore int, v *passes.Visit) (*Reach, error) {
	w := wayOf(s, l, bore, v)
	g, err := geom.NewReach(w)
	if err != nil {
		return nil, err
	}
	u := s.Job.Units
	mm := func(x float64) qty.Length { return u.Round(qty.FromMM(x)) }
	r := &Reach{
		Verdict: g.Verdict.String(), Passes: g.Verdict != geom.Blocked,
		QuillOut: mm(g.QuillOut), QuillShort: u.Up(qty.FromMM(g.QuillShort)), NoseBack: u.Up(qty.FromMM(g.NoseBack)),
		Largest:  qty.Diameter(u.Down(qty.FromMM(g.Best.Diameter))),
		Shortest: u.Up(qty.FromMM(g.Best.Stickout)),
		Why:      g.Why(func(x float64) string { return u.Say(qty.FromMM(x)) }),
		way:      w,
	}
	for _, x := range g.Best.Steps {
		r.Steps = append(r.Steps, process.Step{Diameter: qty.Diameter(u.Down(qty.FromMM(x.Diameter))), Length: u.Up(qty.FromMM(x.Length))})
	}
	gap := func(x geom.Gap) Gap {
		return Gap{
			Verdict: x.Verdict.String(), Room: mm(x.Clearance), Wanted: mm(x.Need.Wanted), Needed: mm(x.Need.Least),
			Axial: x.Axial, Bottom: x.Bottom, Part: x.Part.String(), Diameter: qty.Diameter(mm(x.Diameter)), Station: x.Name,
			Tip: mm(x.Tip), Pass: x.N, Phase: x.Phase.String(),
		}
	}
	for _, x := range g.Gaps {
		r.Gaps = append(r.Gaps, gap(x))
	}
	if len(g.Gaps) > 0 {
		r.Least = gap(g.Least)
	}
	for _, e := range g.Entries {
		x := entry(s.Job, w, e)
		r.Entries = append(r.Entries, x)
		if x.Way == noWay && r.Passes { // held in an outboard bearing, where geom would shift it
			r.Passes, r.Verdict = false, geom.Blocked.String()
		}
	}
	if s.Job.Bar.Outboard != nil { // it goes through what lies behind the bore too
		for i, st := range w.Stations {
			d := st.Diameter
			if i == bore {
				d = w.Passes[0].Before
			}
			free := d - 2*(st.At.Length()+w.Unsure+w.Needs.Chips.Least)
			r.Largest = min(r.Largest, qty.Diameter(u.Down(qty.FromMM(free))))
		}
	}
	r.travel(s.Job, v)
	return r, nil
}

// Refusal says why a bar does not pass and which would.
func (r *Reach) Refusal(u qty.Unit) string {
	why := "the bar does not pass"
	for i, s := range r.Why {
		why += map[bool]string{true: ": ", false: "; "}[i == 0] + s
	}
	ahead, other := r.Ahead()
	switch {
	case ahead > 0 && !other:
		return why + fmt.Sprintf(". What stands ahead of the tip has to be %s shorter; a bar of another diameter does not help.", u.Say(u.Up(ahead)))
	case r.Largest <= 0:
		return why + ". No bar passes this line with room for chips."
	case r.Shortest == 0:
		return why + ". The spindle itself could follow: no bar is too short."
	}
	return why + fmt.Sprintf(". The largest plain bar that passes is Ø%s, and the shortest stickout to the tip %s.", u.Say(r.Largest.Length()), u.Say(r.Shortest))
}

// Ahead is how much shorter what stands ahead of the tip must be to keep clear of
// a closed end, 0 where it does; other is whether anything else blocks.
func (r *Reach) Ahead() (shorter qty.Length, other bool) {
	for _, g := range r.Gaps {
		switch {
		case g.Verdict != geom.Blocked.String():
		case g.Bottom:
			shorter = max(shorter, g.Wanted-g.Room)
		default:
			other = true
		}
	}
	return shorter, other || r.NoseBack > 0 || r.QuillShort > 0 || r.TravelHas > 0 && r.Travel > r.TravelHas
}
