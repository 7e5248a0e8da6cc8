package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/geom"
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

// Entry is how the cutter of one pass comes to its bore.
type Entry struct {
	Pass    int
	Setting qty.Diameter
	Way     string // "on the axis", "bar shifted", "put in inside", noWay
	OnAxis  bool
	Offset  bool // passes with the bar shifted away from the tip, spindle stopped
	Inside  bool // the bare bar passes and there is room to put the cutter in inside
	Blocked string
	Shifts  []EntryShift
	Open    [2]qty.Length // where it can be put in: from, to
}

// noWay is an Entry's way when there is none.
const noWay = "no way"

// EntryShift is how far the bar stands off its axis, away from the tip, while
// the tip goes from one depth to another.
type EntryShift struct{ From, To, Least, Most qty.Length }

// wayOf turns a visit into what geom measures.
func (s *setup) wayOf(l *LineUp, bore int, v *Visit) geom.ReachInput {
	job := s.job
	u := job.Units
	b := job.Bar
	w := geom.ReachInput{
		Spindle: geom.Spindle{Nose: job.Machine.Nose.MM(), Quill: job.Machine.Quill.MM(), Travel: job.Machine.QuillTravel.MM()},
		Bar:     barOf(job, b),
		Bore:    bore,
		Needs:   roomOf(job),
		Unsure:  l.unsure(job) + math.Abs(s.hang(max(v.End, v.To))),
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
			Name: st.Name, From: st.From.MM(), To: st.To.MM(), Diameter: narrowAt(job, bore, i).MM(),
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

// narrowAt is the smallest that a station can be while a bore is cut, and its
// sleeve put in. Bores are cut in the order of the job: those before it stand at
// their finished size, those after it as found. The bore itself may have its
// sleeve in.
func narrowAt(job *process.Job, bore, station int) qty.Diameter {
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

// after names the bores that must be at size before the bar passes to the bore of
// a visit, "" where it passes as found.
func (r *Reach) after(job *process.Job, bore int, v *Visit) string {
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

// hang is how far the bar hangs at the cutter when the tip stands at a depth,
// mm. With quill feed the bar is longer the deeper it works, and the quill hangs
// with it.
func (s *setup) hang(tip qty.Length) float64 {
	beam := s.beam
	if s.job.Bar.FeedBy == process.QuillFeed {
		if long, err := s.beam.Extended(s.quill, s.out(tip)); err == nil {
			beam = long
		}
	}
	drop, _ := beam.Sag()
	return drop
}

// out is how far the quill stands out of the nose when the tip is at a depth,
// mm, by quill feed.
func (s *setup) out(tip qty.Length) float64 {
	return math.Max(0, (tip - s.job.Bar.TipHome()).MM())
}

// reach measures one visit.
func (s *setup) reach(l *LineUp, bore int, v *Visit) (*Reach, error) {
	w := s.wayOf(l, bore, v)
	g, err := geom.NewReach(w)
	if err != nil {
		return nil, err
	}
	u := s.job.Units
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
		x := s.entry(w, e)
		r.Entries = append(r.Entries, x)
		if x.Way == noWay && r.Passes { // held in an outboard bearing, where geom would shift it
			r.Passes, r.Verdict = false, geom.Blocked.String()
		}
	}
	if s.job.Bar.Outboard != nil { // it goes through what lies behind the bore too
		for i, st := range w.Stations {
			d := st.Diameter
			if i == bore {
				d = w.Passes[0].Before
			}
			free := d - 2*(st.At.Length()+w.Unsure+w.Needs.Chips.Least)
			r.Largest = min(r.Largest, qty.Diameter(u.Down(qty.FromMM(free))))
		}
	}
	s.travel(r, v)
	return r, nil
}

// entry puts how a cutter gets in into words and lengths.
func (s *setup) entry(w geom.ReachInput, e geom.Entry) Entry {
	u := s.job.Units
	out := Entry{Pass: e.N, Setting: qty.Diameter(u.Round(qty.FromMM(e.Setting))), OnAxis: e.OnAxis, Offset: e.Offset, Inside: e.Inside}
	if e.Blocked >= 0 {
		out.Blocked = w.Stations[e.Blocked].Name
	}
	if s.job.Bar.Outboard != nil { // the bearing holds it on the axis
		out.Offset, e.Shifts = false, nil
	}
	switch {
	case e.OnAxis:
		out.Way = "on the axis"
	case out.Offset:
		out.Way = "bar shifted"
	case e.Inside:
		out.Way = "put in inside"
	default:
		out.Way = noWay
	}
	for _, x := range e.Shifts {
		out.Shifts = append(out.Shifts, EntryShift{u.Round(qty.FromMM(x.From)), u.Round(qty.FromMM(x.To)), u.Up(qty.FromMM(x.Least)), u.Down(qty.FromMM(x.Most))})
	}
	if e.Inside {
		out.Open = [2]qty.Length{qty.FromMM(e.OpenFrom), qty.FromMM(e.OpenFrom + e.Open)}
	}
	return out
}

// travel holds what the table has to go against what it has. A program brings
// the tip out in front of the face to be set; a bar that runs in an outboard
// bearing only goes from where the feed of the first bore begins.
func (s *setup) travel(r *Reach, v *Visit) {
	job := s.job
	if job.Bar.FeedBy != process.TableFeed {
		return
	}
	from := -qty.Length(outside)
	if job.Bar.Outboard != nil {
		from = v.Clear
		for _, b := range job.Bores {
			from = min(from, job.Stations[b.Station].From-(v.From-v.Clear))
		}
	}
	r.Travel = max(v.End, v.To) - from
	axis, has := tableTravel(job.Machine)
	if has == 0 {
		return
	}
	r.TravelAxis, r.TravelHas = axis, has
	if r.Travel > has {
		r.Passes, r.Verdict = false, geom.Blocked.String()
		u := job.Units
		r.Why = append(r.Why, fmt.Sprintf("the slide that feeds (%s) would have to travel %s, and has %s", axis, u.Say(r.Travel), u.Say(has)))
	}
}

// tableTravel is the travel of the slide that feeds along the spindle when the
// table (or column) does: the control's feed axis; without a control, of Z and
// W the one that is not the quill. 0: not stated.
func tableTravel(m *process.Machine) (string, qty.Length) {
	for _, t := range m.Travels {
		along := t.Axis == "Z" || t.Axis == "W"
		switch {
		case !along || t.Travel == 0:
		case m.Control != nil && t.Axis == m.Control.FeedAxis, m.Control == nil && t.Travel != m.QuillTravel:
			return t.Axis, t.Travel
		}
	}
	return "", 0
}

// refusal says why a bar does not pass and which would.
func (r *Reach) refusal(u qty.Unit) string {
	why := "the bar does not pass"
	for i, s := range r.Why {
		why += map[bool]string{true: ": ", false: "; "}[i == 0] + s
	}
	ahead, other := r.ahead()
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

// ahead is how much shorter what stands ahead of the tip must be to keep clear of
// a closed end, 0 where it does; other is whether anything else blocks.
func (r *Reach) ahead() (shorter qty.Length, other bool) {
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

// bringIn settles how the cutter of a visit comes to its bore, or says why it
// cannot. What a program of ours does not do, the sheet of a manual mill can.
func (s *setup) bringIn(r *Reach, v *Visit) string {
	worst := -1
	for i, e := range r.Entries {
		if !e.OnAxis && (worst < 0 || e.Setting > r.Entries[worst].Setting) {
			worst = i
		}
	}
	if worst < 0 {
		return ""
	}
	e, job := r.Entries[worst], s.job
	u := job.Units
	what := fmt.Sprintf("the cutter, set to Ø%s, does not pass %q on the axis", u.Say(e.Setting.Length()), e.Blocked)
	var can []string
	if e.Offset {
		can = append(can, "enter with the spindle stopped and the bar shifted away from the tip by "+shiftWords(u, e.Shifts))
	}
	if e.Inside {
		can = append(can, fmt.Sprintf("be put in inside, where the line is open from %s to %s deep", u.Format(e.Open[0]), u.Say(e.Open[1])))
	}
	switch {
	case len(can) == 0:
		return what + "; it does not pass with the bar shifted either, and nowhere in front of the bore is there room to put it in by hand"
	case job.Machine.Control != nil:
		return what + fmt.Sprintf("; it could %s, which is work for the sheet and not for a program: plan it on a mill without control", strings.Join(can, ", or "))
	case e.Offset:
		v.Before = append(v.Before, fmt.Sprintf("The cutter goes in off the axis (%s). Stop the spindle with the tip up, lock it, and lower the spindle by %s. Then bring it back to the axis, and take the same way out.",
			what, shiftWords(u, e.Shifts)))
	default:
		v.SetInside = true
		first := "The bar goes in"
		if job.Bar.Outboard != nil {
			first = "Thread the bar through"
		}
		v.Before = append(v.Before, fmt.Sprintf("%s with the cutter out (%s). Bring it to %s, lock the spindle, put the cutter in and set it there; take it out there again before the bar is moved back. The line is open from %s to %s deep: see first that a hand and the wrench get there.",
			first, what, u.Say(v.Clear), u.Format(e.Open[0]), u.Say(e.Open[1])))
	}
	return ""
}

func shiftWords(u qty.Unit, shifts []EntryShift) string {
	var out []string
	for _, x := range shifts {
		out = append(out, fmt.Sprintf("%s to %s while the tip goes from %s to %s", u.Format(x.Least), u.Say(x.Most), u.Format(x.From), u.Say(x.To)))
	}
	return strings.Join(out, ", then ")
}

// ReachVerdict is the worst of all visits: "clear", "tight" or "does not pass".
func (p *Plan) ReachVerdict() string {
	worst := geom.Free
	seen := false
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			seen = true
			switch {
			case v.Reach == nil || !v.Reach.Passes:
				return geom.Blocked.String()
			case v.Reach.Verdict == geom.Tight.String():
				worst = geom.Tight
			}
		}
	}
	if !seen {
		return geom.Blocked.String()
	}
	return worst.String()
}

// Passes is whether every visit of the plan has room.
func (p *Plan) Passes() bool { return p.ReachVerdict() != geom.Blocked.String() }
