// Package sentence holds what the remarks of a program tell the people at the machine
// against the plan, whole: settings, sizes to expect, limits, conditions, the
// correction and its direction, bar, zero, clear plane, shift, feeds and speeds,
// job, revision, bore and visit. It has a book of all that may be said of a visit,
// in sentences of its own made from the plan's figures; a remark is one of them,
// word for word as far as words weigh, or it is wrong, or it is none of them and
// is not held. Whoever proves a program lists those.
//
// What the planner says in facts (cautions, what to measure, what to do before
// and after) is worded by sheets/words, as on the sheet: a wrong word there is on
// both papers and is not found here.
package sentence

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/post/sum"
	"borewright/post/verify/script"
	"borewright/post/verify/through"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/words"
)

// sentence is something that may be said. of is the index of the pass that it
// speaks of, -1 for those that hold anywhere; after: at the stop after the pass,
// else at the one before it.
type sentence struct {
	said   string
	all    []token // once they are asked for
	of     int
	after  bool
	more   int    // the next one of the same words, -1: none
	topic  string // that is not said whole without it; "": of none
	spoken bool   // it has been said where it may be
}

func (s *sentence) tokens() []token {
	if s.all == nil {
		s.all = tokens(nil, s.said)
	}
	return s.all
}

type pass = schedule.Pass

// Book is all that the remarks of one visit's program may say.
type Book struct {
	p      *plan.Plan
	b      *plan.Bore
	v      *plan.Visit
	bores  []through.Bore // that the program cuts, v is the visit of the first
	c      *process.Control
	u      qty.Unit
	letter byte
	words  words.Words
	home   qty.Length // the clear plane
	list   []sentence
	exact  map[string]int // by key
	open   []int          // sentences with a part that is not held
	slack  []int          // sentences with a number that the control may have rounded
	text   []byte
	work   int      // remarks compared with every sentence
	topic  string   // of the sentences that are added
	topics []string // in the order of a program
}

// New makes the book of a visit. home is the clear plane of the program, in front
// of the face; 0 where it has none.
func New(p *plan.Plan, bore, visit int, home qty.Length) *Book {
	j := p.Job
	k := &Book{
		p: p, b: &p.Bores[bore], v: &p.Bores[bore].Visits[visit], c: j.Machine.Control, u: j.Units, letter: byte(j.FeedLetter()),
		words: words.In(j.Units), home: home, exact: make(map[string]int, 100), list: make([]sentence, 0, 100),
	}
	k.bores, _ = through.Bores(p, bore, visit)
	k.header(bore, visit, home)
	k.cautions(bore, visit)
	for i := range k.v.Passes {
		k.pass(i)
		if k.v.Passes[i].Hold != nil {
			k.hold(i)
		}
	}
	return k
}

// Sum lets the remark stand that states a check sum; whether it is that of the program
// the caller says.
func (k *Book) Sum(stated string) {
	if stated != "" {
		k.on("")
		k.add(-1, false, "%s", sum.Remark(stated))
	}
}

// add puts a sentence in the book.
func (k *Book) add(of int, after bool, format string, a ...any) {
	s := plainly(fmt.Sprintf(format, a...))
	k.text = key(k.text[:0], s, false)
	if len(k.text) == 0 {
		return
	}
	i := len(k.list)
	k.list = append(k.list, sentence{said: s, of: of, after: after, more: -1, topic: k.topic})
	if strings.IndexByte(s, openMark) >= 0 {
		k.open = append(k.open, i)
		return
	}
	if strings.IndexByte(s, slackMark) >= 0 {
		k.slack = append(k.slack, i)
	}
	if before, ok := k.exact[string(k.text)]; ok {
		k.list[i].more = before
	}
	k.exact[string(k.text)] = i
}

// FaceTopic is the face that a program of a job of both faces is for. It must be said at every
// stop to set the cutter: the same program runs at the wrong face, too.
const FaceTopic = "face at the spindle"

// on names what the sentences that follow speak of; "": nothing that is missed.
func (k *Book) on(topic string) {
	if k.topic = topic; topic != "" && !slices.Contains(k.topics, topic) {
		k.topics = append(k.topics, topic)
	}
}

// Unsaid are the topics of the visit that the remarks held so far do not say whole, in the
// order of a program.
func (k *Book) Unsaid() (all []string) {
	for _, t := range k.topics {
		if slices.ContainsFunc(k.list, func(s sentence) bool { return s.topic == t && !s.spoken }) {
			all = append(all, t)
		}
	}
	return all
}

// Text of a job is held where it prints as it is written: words of the common
// characters, none longer than a line takes, no longer than a comment may be.
const (
	wordMost = 40
	saidMost = 500
)

func plainly(s string) string {
	if strings.ContainsFunc(s, func(r rune) bool { return r > '~' }) {
		s = spell.Replace(s)
	}
	if strings.IndexByte(s, '~') >= 0 {
		s = strings.ReplaceAll(s, "~", "-")
	}
	long := len(s) > saidMost
	if long {
		s = s[:100]
	}
	plain := true
	for i := 0; i < len(s) && plain; i++ {
		c := s[i]
		plain = c >= ' ' && c <= '~' && strings.IndexByte(`[]{}#^$@*`, c) < 0 || c == openMark || c == slackMark
	}
	if plain && !long && longest(s) <= wordMost {
		return s
	}
	fields := strings.Fields(s)
	for i, w := range fields {
		if strings.ContainsFunc(w, func(r rune) bool { return r < ' ' && r != slackMark || r > '~' || strings.ContainsRune(`[]{}#^$@*`, r) }) || len(w) > wordMost {
			fields[i] = string(openMark)
		}
	}
	if s = strings.Join(fields, " "); long {
		if i := strings.LastIndexByte(s, ' '); i >= 0 {
			s = s[:i]
		}
		s += " " + string(openMark)
	}
	return s
}

func longest(s string) int {
	most, n := 0, 0
	for i := range len(s) {
		if n++; s[i] == ' ' {
			n = 0
		}
		most = max(most, n)
	}
	return most
}

func (k *Book) bare(l qty.Length) string { return k.u.Format(l) }
func (k *Book) size(l qty.Length) string { return k.u.Format(l) + " " + k.u.String() }

// about is a length that the control's decimals may have changed by slack.
func (k *Book) about(l, slack qty.Length) string {
	return fmt.Sprintf("%s\x02%.9f", k.u.Format(l), k.u.Number(slack))
}

// in is a length as the control can say it, to the nearest.
func (k *Book) in(l qty.Length) qty.Length {
	step := float64(script.LeastInput(k.c))
	return qty.Length(math.Round(math.Round(float64(l)/step) * step))
}

// end is where the feed ends as the control can say it: never deeper in a closed bore.
func (k *Book) end() qty.Length {
	if k.b.Station.Blind {
		return k.v.End - k.v.End%script.LeastInput(k.c)
	}
	return k.in(k.v.End)
}

func (k *Book) header(bore, visit int, home qty.Length) {
	j, v, least := k.p.Job, k.v, script.LeastInput(k.c)
	say := func(format string, a ...any) { k.add(-1, false, format, a...) }
	k.on("job and revision")
	say("%s rev %s: %s", j.Number, j.Revision, j.Title)
	k.on("bore and visit")
	say("Bore %s, visit %d of %d: %s", k.b.Station.Name, v.N, k.b.Works(), k.words.Say(v.Title))
	if len(k.bores) > 1 {
		say("Cut through at the same setting: %s", strings.Join(k.names()[1:], ", "))
	}
	k.on("machine")
	say("Machine: %s", j.Machine.Name)
	k.on("units")
	spelled := map[qty.Unit]string{qty.Inches: "inch", qty.Metric: "mm"}
	if k.c.Units == j.Units {
		say("Units: %s, in words and in text", spelled[j.Units])
	} else {
		say("Units: words of the program in %s, sizes in text in %s", spelled[k.c.Units], spelled[j.Units])
	}
	k.on("zero and axes")
	say("Zero: X0 Y0 on the true axis of the bores")
	say("%c0 at the face that the spindle enters, %c plus away from the work", k.letter, k.letter)
	say("%c feeds: %s. Positions are of the tip, relative to the work", k.letter, j.Bar.FeedBy)
	k.on("clear plane")
	if home > 0 {
		further := ""
		if out := k.out(home); out > 0 {
			further = fmt.Sprintf(", but for those to measure and the next after each, at %c%s", k.letter, k.c.Units.Format(out))
		}
		say("Clear plane outside the work: %c%s %s. Moves to X0 Y0 and all stops are made there%s", k.letter, k.c.Units.Format(home), k.c.Units, further)
	}
	k.on("way in")
	k.wayIn()
	k.on("tool")
	if n := k.c.Tool; n > 0 && j.Bar.Outboard != nil {
		in := "an outboard support"
		if j.Bar.Inboard != nil {
			in = "two bearings"
		}
		say("Tool: none is called. The bar runs in %s and is put in by hand", in)
	} else if n > 0 && k.c.HomeWord != 0 {
		say("Tool: T%d is this bar, called once at the start by M6", n)
	} else if n > 0 {
		say("Tool: T%d is this bar, called once at the start by M6. Bar out of the work first: the slides do not go home before it", n)
	}
	if h := k.c.LengthOffset; h > 0 && k.letter == 'Z' {
		long := j.Bar.CutterAt + k.c.GaugeLine
		for _, s := range j.Bar.Steps { // what is as thick as the quill is quill
			if s.Diameter != j.Machine.Quill {
				break
			}
			long -= s.Length
		}
		say("Length offset: H%d, from the gauge line to the tip, %s by the job. Measure it on this bar as it is held: a bar held by its stickout has another length each time it is clamped", h, k.size(long))
	}
	k.on("way home")
	if k.c.HomeWord != 0 && j.Bar.Outboard == nil {
		var turn, at []string
		for i, a := range k.c.HomeAxes {
			letter := a.String()
			if a == process.HomeFeed {
				letter = string(rune(k.letter))
			}
			turn = append(turn, letter)
			if k.c.HomeWord == 53 {
				at = append(at, k.c.Units.Format(k.c.HomeAt[i]))
			}
		}
		to := ""
		if len(at) > 0 {
			to = ", to " + strings.Join(at, " and ")
		}
		say("At the start and at the end the slides go home by %s: %s%s. The way must be clear", k.c.HomeWord, strings.Join(turn, ", then "), to)
		say("Now the slides go home: %s. Way clear, hands off", strings.Join(turn, ", then "))
	}
	k.places()
	k.on("restart marks")
	if step, n := k.c.RestartStep, len(v.Passes); step > 0 && n > 0 {
		first, last := v.Passes[0].N, v.Passes[n-1].N
		say("Restart marks: the stop before a pass is N%d times its number, pass %d at N%d to pass %d at N%d", step, first, step*first, last, step*last)
	}
	k.on("bar")
	say("Bar from the spindle nose: %s", k.bar())
	c := j.Cutter
	of := ""
	if c.Name != "" {
		of = c.Name + ": "
	}
	if c.Material != nil {
		of += c.Material.Name + ", "
	}
	k.on("cutter")
	say("Cutter: %snose radius %s, lead %.4g deg, rake %.4g deg", of, k.size(c.NoseRadius), c.Lead, c.Rake)
	k.on("coolant")
	if dry := v.Material != nil && c.Material != nil && v.Material.Speeds[c.Material.Class].Dry; k.c.Coolant != 0 && dry {
		say("Coolant: none. %s is cut dry with this cutter", v.Material.Called())
	} else if k.c.Coolant != 0 {
		say("Coolant: %s while a pass cuts, M9 before each stop", k.c.Coolant)
	}
	k.on("depths")
	if len(k.bores) == 1 {
		say("Bore from depth %s to %s, feed ends at %s %s", k.bare(v.From), k.bare(v.To), k.about(k.end(), k.last()), k.u)
	} else {
		k.line()
	}
	k.on("what to do before and after")
	for _, b := range k.bores {
		for _, s := range k.words.Sentences(b.Visit.Before) {
			say("Before: %s", s)
		}
		for _, s := range k.words.Sentences(b.Visit.After) {
			say("Then: %s", s)
		}
	}
	k.on("list of passes")
	say("Passes: %d. %s", len(v.Passes), k.must())
	if s := k.must(); s != "" {
		k.on("")
		say("%s", s)
	}
	k.on("list of passes")
	for i := range v.Passes {
		p := &v.Passes[i]
		end := ""
		if p.Hold != nil {
			end = ", then hold and measure"
		}
		if p.Band != nil {
			end = fmt.Sprintf(", feed ends at %s %s%s", k.about(k.in(p.Band.To), k.last()), k.u, end)
		}
		for _, g := range k.c.Gears {
			if n := float64(p.Speed); g.Least <= n && n <= g.Most {
				end = " in range " + g.Word.String() + end
				break
			}
		}
		var feed string
		if k.c.FeedPerRev {
			feed = k.about(k.in(p.Feed), k.last())
			if k.c.Units == k.u {
				feed = k.bare(k.in(p.Feed))
			}
		} else {
			feed = k.about(p.Feed, k.last()+qty.Length(float64(least)/float64(p.Speed)))
		}
		say("%d %s: set dia %s, depth %s radial, feed %s/rev, S%s%s", p.N, p.Kind, k.bare(p.Setting.Length()), k.deep(i), feed, rate(p.Speed), end)
	}
	k.on("way out")
	k.wayOut()
}

// places says where the other slide and the table stand.
func (k *Book) places() {
	j := k.p.Job
	by := "The program puts it there once, before the first pass, the spindle stopped and the tip at the clear plane"
	if k.c.HomeWord != 0 {
		by = "The program puts it there once, at the start, from where the slides are at home"
	}
	alone := j.Bar.Outboard != nil
	k.on("other slide")
	if k.c.OtherSlide != process.OtherUnsaid {
		other, out := "W", qty.Length(0)
		if k.letter == 'W' {
			other = "Z"
		}
		for _, s := range j.Bar.Steps { // what is as thick as the quill is quill
			if s.Diameter != j.Machine.Quill {
				break
			}
			out += s.Length
		}
		stands := "the quill home"
		if out > 0 {
			stands = "the quill out of the spindle nose by " + k.size(out)
		}
		if j.Bar.FeedBy == process.QuillFeed {
			stands = fmt.Sprintf("the spindle nose %s in front of the face", k.size(j.Bar.Standoff))
		}
		how := by
		if alone || k.c.OtherSlide != process.OtherPlaced {
			how = "Put it there and clamp it before the start"
		}
		k.add(-1, false, "Other slide: %s stands at %s0, %s. %s. It never moves in a pass", other, other, stands, how)
	}
	k.on("table")
	if k.c.TableWord != 0 {
		angle := k.c.TableAngle
		if k.b.Bore.Face == process.FarFace { // the table came half round
			angle = (angle + 180) % 360
		}
		how := by + ". The corners of the work swing: way clear all round"
		if alone {
			how = "Turn and clamp it before the bar goes in"
		}
		k.add(-1, false, "Table: at %s%d, where the face of depth 0 looks at the spindle. %s", k.c.TableWord, angle, how)
	}
}

// out is how far in front of the face the bore is measured, where that is further out than
// the clear plane; 0: there.
func (k *Book) out(home qty.Length) qty.Length {
	if out := k.digits(k.c.HoldOut); k.p.Job.Bar.Outboard == nil && out > home {
		return out
	}
	return 0
}

// digits is a length as the control can say it, worked in its decimals: the least input in
// whole nanometres is too coarse for six of them.
func (k *Book) digits(l qty.Length) qty.Length {
	places := k.c.PartPlaces
	if places <= 0 {
		places = map[qty.Unit]int{qty.Inches: 4, qty.Metric: 3}[k.c.Units]
	}
	unit, scale := float64(k.c.Units.Of(1)), math.Pow10(places)
	return qty.Length(math.Round(math.Round(float64(l)/unit*scale) * unit / scale))
}

// last is the last decimal of sizes in text.
func (k *Book) last() qty.Length {
	if k.u == qty.Inches {
		return qty.Thou / 10
	}
	return qty.Micrometre
}

// rate is a speed as an S word may say it: whole or in tenths, on a geared step the
// nearest that there is.
func rate(n qty.RevPerMin) string { return fmt.Sprintf("%.6g\x020.5", float64(n)) }

func (k *Book) bar() string {
	b := k.p.Job.Bar
	var s []string
	for _, t := range b.Steps {
		s = append(s, fmt.Sprintf("dia %s x %s %s", k.bare(t.Diameter.Length()), k.size(t.Length), t.Material.Name))
	}
	name := ""
	if b.Name != "" {
		name = b.Name + ": "
	}
	return fmt.Sprintf("%s%s; tip at %s", name, strings.Join(s, ", "), k.size(b.CutterAt))
}

// must is what the visit has to land; limits are never said wider than they are.
func (k *Book) must() string {
	l := k.v.Limits
	if l.Low <= 0 || l.High < l.Low {
		return ""
	}
	lands := "Finish"
	if k.v.Part == schedule.Roughing {
		lands = "Rough"
	}
	s := fmt.Sprintf("%s size: dia %s to %s", lands, k.bare(k.u.Up(l.Low.Length())), k.size(k.u.Down(l.High.Length())))
	if l.Fit != "" {
		s += ", " + l.Fit
	}
	return s
}

// wayOut says how the cutter comes out.
func (k *Book) wayOut() {
	n := len(k.v.Passes)
	if n == 0 {
		return
	}
	why := k.words.Say(k.v.Passes[n-1].Out.Why)
	by := k.v.Shift()
	if by == 0 && k.hops() {
		k.add(-1, false, "Retract: feed out with the spindle turning, at rapid from bore to bore, stop, then rapid. %s", why)
		return
	}
	if by == 0 {
		k.add(-1, false, "Retract: feed out with the spindle turning, stop, then rapid. %s", why)
		return
	}
	to := map[process.TipSide]string{process.TipPlusX: "X minus", process.TipMinusX: "X plus", process.TipPlusY: "Y minus", process.TipMinusY: "Y plus"}[k.c.TipAtStop]
	at := ""
	if k.c.OrientWord != 0 {
		at = fmt.Sprintf(" at %d deg", k.c.OrientAngle)
	}
	k.add(-1, false, "Retract: oriented stop%s, bar moves to %s by %s %s, off the wall. Before the first run check by hand that the tip stops at %s. %s",
		at, to, k.about(k.in(by), k.last()), k.u, k.c.TipAtStop, why)
	k.add(-1, false, "Retract by oriented stop: tip at %s, bar moves the other way", k.c.TipAtStop)
}

// wayIn says how a bar goes in that does not pass on its axis.
func (k *Book) wayIn() {
	in := k.v.OffAxis
	if in == nil {
		return
	}
	to := map[process.TipSide]string{process.TipPlusX: "X minus", process.TipMinusX: "X plus", process.TipPlusY: "Y minus", process.TipMinusY: "Y plus"}[k.c.TipAtStop]
	at := ""
	if k.c.OrientWord != 0 {
		at = fmt.Sprintf(" at %d deg", k.c.OrientAngle)
	}
	least := script.LeastInput(k.c)
	k.add(-1, false, "Way in and out: oriented stop%s, bar moves to %s by %s %s at the clear plane, back to X0 Y0 at %c-%s %s. Before the first run check by hand that the tip stops at %s",
		at, to, k.about(k.in(in.Shift), k.last()), k.u, k.letter, k.c.Units.Format(in.Level-in.Level%least), k.c.Units, k.c.TipAtStop)
	k.add(-1, false, "In off the axis, spindle stopped: tip at %s, bar moves the other way", k.c.TipAtStop)
	k.add(-1, false, "Out off the axis, the way it came in")
}

func (k *Book) cautions(bore, visit int) {
	k.on("cautions")
	say := func(format string, a ...any) { k.add(-1, false, "CAUTION: "+format, a...) }
	say("prove out above the work first, in single block, with the rapid turned down")
	say("check clamping of the work, the bar and the cutter. Guards shut before the spindle turns")
	say("no hand or gauge in the bore unless the spindle is stopped and held. Chips are sharp: no bare hands")
	say("the person at the machine decides. Local codes and shop rules come first")
	if bar := k.p.Job.Bar; bar.Inboard != nil {
		say("the bar runs in two bearings, turned by a driver that floats. Both must be lined up, and X0 Y0 set, before the driver is coupled. The cutter stays between them")
	} else if bar.Outboard != nil {
		say("the bar runs in an outboard support. X0 Y0 must be set, and the support lined up, before the bar goes in")
	}
	for i := range k.p.Bores {
		for n := range k.p.Bores[i].Visits {
			if len(k.bores) == 1 && (i != bore || n != visit) || len(k.bores) > 1 && !k.cuts(&k.p.Bores[i].Visits[n]) {
				continue
			}
			for _, s := range k.p.CautionsOf(i, n) {
				say("%s", k.words.Sentence(s))
			}
		}
	}
}

// expected is what the gauge should say after a pass.
func (k *Book) expected(p *schedule.Pass) string {
	return fmt.Sprintf("dia %s to %s", k.bare(p.Low.Length()), k.size(p.High.Length()))
}

// FaceSaid is what a program says of the face that it is for.
func (k *Book) FaceSaid() string {
	if k.b.Bore.Face == process.FarFace {
		return "Only with the far face at the spindle"
	}
	return "Only with the near face at the spindle"
}

// pass is what may be said at the stop before pass i.
func (k *Book) pass(i int) {
	all := k.v.Passes
	p := &all[i]
	say := func(format string, a ...any) { k.add(i, false, format, a...) }
	k.on("stops to set the cutter")
	say("PASS %d, %d of %d: %s", p.N, i+1, len(all), p.Kind)
	k.on("")
	say("PASS %d, %s", p.N, p.Kind)
	if k.p.Job.Seen != nil { // of a job of both faces
		k.on(FaceTopic)
		say("%s", k.FaceSaid())
	}
	k.on("stops to set the cutter")
	if i > 0 && all[i-1].Hold != nil {
		say("Only if the hold after pass %d found %s", all[i-1].N, k.found(i-1))
	}
	if p.Hone != nil {
		say("%s", k.words.Sentence(p.Hone.Fact()))
	}
	if i > 0 && all[i-1].Setting == p.Setting {
		say("Leave cutter at dia %s: same setting again", k.size(p.Setting.Length()))
	} else {
		say("Set cutter to dia %s, spring allowed for", k.size(p.Setting.Length()))
	}
	if p.Low > 0 {
		k.on("sizes to expect")
		for _, s := range k.expects(i) {
			say("Expect %s after this pass", s)
		}
	}
	k.on("stops to set the cutter")
	k.add(-1, false, "Lock the cutter, tools out, guards shut. Then start: spindle turns, tool moves")
}

// hold is what may be said at the stop after pass i.
func (k *Book) hold(i int) {
	p := &k.v.Passes[i]
	say := func(format string, a ...any) { k.add(i, true, format, a...) }
	k.on("stops to measure")
	say("HOLD after pass %d: measure before anything else is cut", p.N)
	k.measures(i, say)
	k.on("")
	if k.p.Job.Bar.Outboard == nil {
		k.on("room for the gauge")
	}
	room := "move table or bar away by hand, bar out of the work first"
	if out := k.out(k.home); out > 0 {
		room = fmt.Sprintf("the tip stands at %c%s %s", k.letter, k.c.Units.Format(out), k.c.Units)
	}
	k.add(-1, false, "Room for the gauge: %s. The program goes back to the clear plane, then to X0 Y0", room)
	k.on("")
	if k.p.Job.Bar.Inboard != nil {
		k.on("room for the gauge")
		k.add(-1, false, "The bar stays in its bearings: gauge beside it, or draw it out by hand and put it back as it was marked")
		k.on("")
	}
	if p.Low > 0 {
		for _, s := range k.expects(i) {
			say("Expect %s", s)
		}
	}
	if k.c.SpringAgain != 0 && p.Kind == schedule.Spring {
		k.on("spring pass once more")
		say("Once more: the spring pass stands again in blocks with /. Block delete on skips it, off takes it; choose by the switch before the start, and not again before the next stop. "+
			"It takes dia %s at most: only where the bore measured under dia %s", k.size(k.u.Up(p.Spring)), k.size(k.u.Down(k.v.Limits.High.Length()-p.Spring)))
		k.add(i, false, "PASS %d again: %s, only with block delete off", p.N, p.Kind)
		k.add(i, false, "Leave cutter at dia %s: same setting again", k.size(p.Setting.Length()))
		say("HOLD after pass %d again: measure before anything else is cut", p.N)
	}
	k.on("how to correct")
	if !p.Hold.Then.None() {
		say("Then: %s", k.words.Sentence(p.Hold.Then))
	}
	k.on("stops to measure")
	k.add(-1, false, "Outside the size expected: do not go on. Enter the sizes and plan the rest anew")
}
