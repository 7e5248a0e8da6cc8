// Package mouth holds the cuts at the mouth of a housing against the plan: counterbore and
// lead-in, each with a bit of its own, after the last pass. They stand in a part of the
// program between two remarks, which Apart takes out, so that the passes are proven without
// it; Check replays the whole program and judges that part alone.
//
// It has formulas of its own: where a straight edge at an angle must stop for the mouth to
// come to its size is worked out from the job, not from the plan's figures, and the two are
// compared. It shares no code with what writes programs.
package mouth

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Asked is whether the program of a visit has cuts at the mouth.
func Asked(v *schedule.Visit) bool { return len(v.Mouth) > 0 && !v.Mouth[0].Hand }

// part is where the cuts at the mouth stand: lines from 1, first and last included.
func part(program []byte) (first, last int) {
	n := 0
	for line := range bytes.Lines(program) {
		n++
		switch text := letters(string(line)); {
		case first == 0 && strings.Contains(text, "----MOUTH1OF"):
			first = n
		case first > 0 && strings.Contains(text, "----MOUTHDONE"):
			last = n
		}
	}
	// The last remark may go on for more lines: those in parentheses alone.
	if last > 0 {
		k := 0
		for line := range bytes.Lines(program) {
			if k++; k == last+1 && bytes.HasPrefix(bytes.TrimSpace(line), []byte("(")) && !bytes.Contains(line, []byte("----")) {
				last++
			}
		}
	}
	return first, last
}

// Apart is the program without its cuts at the mouth: their lines are empty, so that all
// others keep their numbers. A program of a visit without such cuts stays as it is.
func Apart(program []byte, v *schedule.Visit) []byte {
	if !Asked(v) {
		return program
	}
	return Without(program)
}

// Without is a program without what stands between the remarks of cuts at a mouth.
func Without(program []byte) []byte {
	first, last := part(program)
	if first == 0 || last == 0 {
		return program
	}
	var out []byte
	n := 0
	for line := range bytes.Lines(program) {
		if n++; n >= first && n <= last {
			line = line[len(bytes.TrimRight(line, "\r\n")):]
		}
		out = append(out, line...)
	}
	return out
}

// letters are the capitals and figures of a text, their points, and the dashes in front.
func letters(s string) string {
	var b strings.Builder
	for i, r := range s {
		switch {
		case r >= 'a' && r <= 'z':
			b.WriteRune(r - 'a' + 'A')
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '.' && i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9':
			b.WriteRune(r)
		}
	}
	return b.String()
}

// check is one program being held against its cuts at the mouth.
type check struct {
	job         *process.Job
	c           *process.Control
	v           *schedule.Visit
	out         *script.Findings
	letter      byte
	axis        rs274.Axes
	half        qty.Length // of the least that the control can say
	first, last int
	plane       qty.Length // depth of the clear plane outside the work
	known       bool

	cut     int // that is under way, from 0
	step    int // of its steps
	line    int
	coolant []int // its codes since the last step
	wrong   bool  // said: what follows in this cut hangs on it
	said    strings.Builder
}

// Check holds the cuts at the mouth in a program against the visit. d is the language that
// the control reads.
func Check(program []byte, d rs274.Dialect, j *process.Job, v *schedule.Visit, out *script.Findings) {
	if !Asked(v) {
		return
	}
	k := &check{job: j, c: j.Machine.Control, v: v, out: out, letter: byte(j.FeedLetter()), axis: rs274.Z}
	if k.letter == 'W' {
		k.axis = rs274.W
	}
	k.half = script.LeastInput(k.c)/2 + 1
	k.first, k.last = part(program)
	if k.first == 0 || k.last == 0 {
		k.add(0, script.KindPass, "the cuts at the mouth of the housing are missing, or the remarks that they stand between", fmt.Sprintf("%d cuts after the last pass, from MOUTH 1 to MOUTH DONE", len(v.Mouth)))
		return
	}
	k.plan()
	k.words(program)
	d.DeleteOn = false
	if j.Bar.Outboard == nil {
		d.HandsAtStop = rs274.X | rs274.Y | k.axis
	}
	faults, err := rs274.Replay(bytes.NewReader(program), d, func(e rs274.Event) error {
		switch {
		case e.Line >= k.first && e.Line <= k.last:
			k.line = e.Line
			k.event(&e)
		case e.Kind == rs274.Move && !k.known && e.To.Has(k.axis) && e.Line < k.first:
			k.plane, k.known = -e.To.Linear(k.letter), true // that all passes go out to, proven with them
		}
		return nil
	})
	for _, f := range faults {
		if f.Line >= k.first && f.Line <= k.last && !k.wrong {
			k.line = f.Line
			k.add(0, script.KindSyntax, f.What, f.Want)
		}
	}
	if err != nil || len(faults) > 0 || k.wrong {
		return
	}
	k.line = k.last
	if k.cut < len(v.Mouth) {
		k.add(0, script.KindPass, fmt.Sprintf("%d cuts at the mouth", k.cut), fmt.Sprintf("%d", len(v.Mouth)))
		return
	}
	k.remarks()
}

func (k *check) add(letter byte, kind script.Kind, what, want string) {
	k.wrong = true
	k.out.Add(k.line, letter, kind, what, want)
}

func (k *check) say(l qty.Length) string { return k.c.Units.Say(l) }

// same is whether a depth is one of the plan, as near as the control can say it: never
// deeper, and shallower by less than the least that it can say.
func (k *check) same(is, want qty.Length) bool {
	return is-want <= k.half && want-is < script.LeastInput(k.c)
}

// plan holds the figures of the plan against the job. For a lead-in of length ℓ at α a side
// the edge stands with its outer end, at half the setting s, before the face f of the seat:
//
//	z = f − (s/2 − r)/tan α, where the edge is at the radius r on the face
//
// r the bore's as it touches, the bore's and ℓ tan α when the mouth is done.
func (k *check) plan() {
	m, seat := k.job.Sleeve.Made, k.v.From
	if m.Recess != nil {
		seat += m.Recess.Depth
	}
	near := func(a, b float64) bool { return math.Abs(a-b) < 0.02 } // mm: rounded to what a sheet prints
	for _, q := range k.v.Mouth {
		ok := q.Feed > 0 && q.Speed > 0 && q.Begin < q.End
		switch {
		case q.Kind == schedule.Counterbore && m.Recess != nil:
			ok = ok && near(q.End.MM(), seat.MM()) && q.Begin <= k.v.From && q.Setting <= m.Recess.Diameter && (!q.Last || q.Setting == m.Recess.Diameter)
		case q.Kind == schedule.LeadIn && m.Mouth != nil:
			tan := math.Tan(m.Mouth.Angle * math.Pi / 180)
			bore, set := k.v.Limits.Aim.MM()/2, q.Setting.MM()/2
			mouth := bore + m.Mouth.Length.MM()*tan
			ok = ok && set > mouth && near(q.Touch.MM(), seat.MM()-(set-bore)/tan) && near(q.End.MM(), seat.MM()-(set-mouth)/tan) &&
				q.Begin < q.Touch && near(q.Leaves.MM(), 2*mouth) && q.Angle == m.Mouth.Angle
		default:
			ok = false
		}
		if !ok {
			k.add(0, script.KindPlan, fmt.Sprintf("the plan's %s at the mouth is not what the job asks for", q.Kind), "plan the job again")
			return
		}
	}
}

// words holds the G words of this part against those that the passes have, and finds
// blocks with /.
func (k *check) words(program []byte) {
	seen := map[string]bool{"G0": true, "G1": true, "G4": true}
	n := 0
	for line := range bytes.Lines(Without(program)) {
		for _, w := range code.FindAllString(string(line), -1) {
			seen[norm(w)] = true
		}
	}
	for line := range bytes.Lines(program) {
		if n++; n < k.first || n > k.last {
			continue
		}
		k.line = n
		if bytes.HasPrefix(bytes.TrimSpace(line), []byte("/")) {
			k.add('/', script.KindCode, "a block with / at the mouth", "the cuts at the mouth are always made")
			return
		}
		if bytes.Contains(line, []byte("(")) {
			continue
		}
		for _, w := range code.FindAllString(string(line), -1) {
			if !seen[norm(w)] {
				k.add('G', script.KindCode, norm(w)+" at the mouth, which no pass has", "the words of the passes")
				return
			}
		}
	}
}

var code = regexp.MustCompile(`[Gg] ?0*[0-9]+(?:\.[0-9]+)?`)

// norm is a code without spaces and zeros in front.
func norm(w string) string {
	w = strings.ToUpper(strings.ReplaceAll(w, " ", ""))
	if d := strings.TrimLeft(w[1:], "0"); d != "" {
		return w[:1] + d
	}
	return w[:1] + "0"
}

// The steps of one cut.
const (
	spindleOff = iota
	theStop
	spindleOn
	goHome
	toAxis
	toBegin
	feedIn
	dwelt
	feedOut
	offAgain
	outAgain
	steps
)

var stepWords = [...]string{"M5", "M0 for the bit", "M3 with the planned S", "out to the clear plane", "X0 Y0 there", "rapid to where the feed begins", "the feed in", "a dwell of a turn", "the feed out", "M5", "rapid out to the clear plane"}

// outsideOf is the least that the tip stands before the face where bar and bit are clear of
// the work: 50 mm, and what the bar carries past its cutter.
func (k *check) outsideOf() qty.Length {
	return 50*qty.Millimetre + max(0, k.job.Bar.Stickout()-k.job.Bar.CutterAt)
}

// wet is whether the housing is cut with coolant.
func (k *check) wet() bool {
	return k.c.Coolant != 0 && !k.v.Material.CutDry(k.job.Cutter.Material)
}

// event is one thing that the machine does in this part.
func (k *check) event(e *rs274.Event) {
	if e.Kind == rs274.Message {
		k.said.WriteString(e.Text)
		return
	}
	if k.wrong {
		return
	}
	if k.cut >= len(k.v.Mouth) {
		k.add(0, script.KindPass, "does more than the cuts at the mouth", fmt.Sprintf("%d cuts", len(k.v.Mouth)))
		return
	}
	switch e.Kind {
	case rs274.Gear:
		return // judged by what speeds it has: the words around the cuts
	case rs274.LengthOffset:
		if e.Code != k.c.LengthOffset {
			k.add('H', script.KindTool, "another length offset at the mouth", fmt.Sprintf("H%d", k.c.LengthOffset))
		}
		return
	case rs274.Coolant:
		k.coolant = append(k.coolant, e.Code)
		return
	}
	var want []int // since the step before
	switch {
	case k.step == spindleOff && k.c.Coolant != 0, k.step == offAgain && k.wet():
		want = []int{9}
	case k.step == feedIn && k.wet():
		want = []int{int(k.c.Coolant)}
	}
	if !slices.Equal(k.coolant, want) {
		k.add('M', script.KindCoolant, "coolant at the mouth is not as planned before this", "on as the feed begins where the passes are cut with it, and M9 before each M5")
		return
	}
	k.coolant = nil
	k.follow(e)
}

// follow holds an event against the step that is due.
func (k *check) follow(e *rs274.Event) {
	q := &k.v.Mouth[k.cut]
	out := -e.To.Linear(k.letter)
	home := e.To.Has(k.axis) && out <= -k.outsideOf()+k.half && k.known && (out-k.plane).Abs() <= k.half
	if e.Kind == rs274.Move && e.Offset != int(k.c.WorkOffset) {
		k.add('G', script.KindCode, fmt.Sprintf("work offset G%d at the mouth", e.Offset), fmt.Sprintf("G%d", int(k.c.WorkOffset)))
	}
	along := e.Kind == rs274.Move && e.From.Moved(e.To)&^k.axis == 0
	switch k.step {
	case spindleOff, offAgain:
		k.due(e.Kind == rs274.SpindleOff, script.KindSpindle)
	case theStop:
		k.due(e.Kind == rs274.Stop && !e.Optional && e.Spindle == rs274.Off, script.KindStop)
	case spindleOn:
		k.due(e.Kind == rs274.SpindleOn && e.Spindle == rs274.Clockwise, script.KindSpindle)
		if !k.wrong && math.Abs(e.Speed-float64(q.Speed)) > 0.5 {
			k.add('S', script.KindSpeed, fmt.Sprintf("S%.6g at the mouth", e.Speed), fmt.Sprintf("S%.6g", float64(q.Speed)))
		}
	case goHome, outAgain:
		k.due(e.Kind == rs274.Move && e.Motion == rs274.Rapid && along && home, script.KindLevel)
	case toAxis:
		k.due(e.Kind == rs274.Move && e.Motion == rs274.Rapid && e.To.Has(rs274.X|rs274.Y) && e.To.X.Abs() <= k.half && e.To.Y.Abs() <= k.half && home && e.From.Moved(e.To)&k.axis == 0, script.KindAxis)
	case toBegin:
		k.due(e.Kind == rs274.Move && e.Motion == rs274.Rapid && along && k.same(-e.To.Linear(k.letter), q.Begin), script.KindDepth)
	case feedIn:
		k.feed(e, q, q.End, along)
	case feedOut:
		k.feed(e, q, q.Begin, along)
	case dwelt:
		k.due(e.Kind == rs274.Dwell && e.Spindle == rs274.Clockwise, script.KindDwell)
		turns := e.Revs
		if e.Seconds > 0 && k.c.Dwell != process.DwellRevolutions {
			turns = e.Seconds * float64(q.Speed) / 60
		}
		if !k.wrong && (turns < 1-0.001*float64(q.Speed)/60-0.01 || turns > 4) {
			k.add(0, script.KindDwell, fmt.Sprintf("a dwell of %.2f turns at the mouth", turns), "1 to 4 turns")
		}
	}
	if k.step++; k.step == steps {
		k.step, k.cut = 0, k.cut+1
	}
}

func (k *check) due(ok bool, kind script.Kind) {
	if !ok {
		k.add(0, kind, fmt.Sprintf("cut %d at the mouth does not go as planned here", k.cut+1), "next is "+stepWords[k.step])
	}
}

// feed is a feed in or out to a depth.
func (k *check) feed(e *rs274.Event, q *schedule.MouthCut, to qty.Length, along bool) {
	if k.due(e.Kind == rs274.Move && e.Motion == rs274.Feed && along && e.Spindle == rs274.Clockwise, script.KindDepth); k.wrong {
		return
	}
	if at := -e.To.Linear(k.letter); !k.same(at, to) {
		k.add(k.letter, script.KindDepth, fmt.Sprintf("cut %d at the mouth: the feed ends at %s", k.cut+1, k.say(at)), "it ends at "+k.say(to))
		return
	}
	want := []float64{float64(q.Feed)}
	if !e.PerRev { // by the speed as called, or as planned
		want = []float64{float64(q.Feed) * e.Speed, float64(q.Feed) * float64(q.Speed)}
	}
	if !slices.ContainsFunc(want, func(w float64) bool { return math.Abs(float64(e.Feed)-w) <= float64(k.half) }) {
		k.add('F', script.KindFeed, fmt.Sprintf("cut %d at the mouth: feed %s", k.cut+1, k.say(e.Feed)), k.say(qty.Length(want[0])))
	}
}

// remarks holds what the stops tell hands: bit, setting, depths. The words are this
// package's own; signs and spaces do not count.
func (k *check) remarks() {
	u := k.job.Units
	num := func(l qty.Length) string { return u.Format(l) }
	size := func(l qty.Length) string { return num(l) + u.String() }
	var want strings.Builder
	for i, q := range k.v.Mouth {
		fmt.Fprintf(&want, "---- MOUTH %d of %d: %s", i+1, len(k.v.Mouth), q.Kind)
		if p := k.v.Passes[len(k.v.Passes)-1]; i == 0 && p.Hold != nil {
			fmt.Fprintf(&want, "Only if the hold after pass %d found dia %s to %s.", p.N, num(p.Low.Length()), size(p.High.Length()))
		}
		switch {
		case q.Kind == schedule.LeadIn:
			fmt.Fprintf(&want, "Bit: edge at %s deg to the axis, %s long or more along it.", number(q.Angle), size(q.Edge))
		case i == 0:
			want.WriteString("Bit: square corner, for the seat of the flange.")
		default:
			want.WriteString("Bit: the same.")
		}
		fmt.Fprintf(&want, "Set its outer end to dia %s, where the tip of the last bit stood along the bar.", size(q.Setting.Length()))
		if q.Kind == schedule.LeadIn {
			fmt.Fprintf(&want, "Touches at depth %s, feed", num(q.Touch))
		} else {
			want.WriteString("Feed")
		}
		fmt.Fprintf(&want, " ends at %s, leaves dia %s.", size(q.End), size(q.Leaves.Length()))
		want.WriteString("Lock the bit, tools out, guards shut. Then start: spindle turns, tool moves.")
	}
	want.WriteString("---- MOUTH DONE. Look at the edge, no burr; then gauge the bore once more.")
	plain := func(s string) []string { return strings.Split(noDashes(letters(s)), ".") }
	got, asked := plain(k.said.String()), plain(want.String())
	for i, w := range asked {
		if i >= len(got) || got[i] != w {
			k.add(0, script.KindRemark, "a remark at the mouth says something else than the plan, near "+near(got, i), near(asked, i))
			return
		}
	}
	if len(got) > len(asked) {
		k.add(0, script.KindRemark, "a remark more at the mouth: "+near(got, len(asked)), "none")
	}
}

// noDashes leaves the sign of a figure alone.
func noDashes(s string) string {
	var out strings.Builder
	for i := range len(s) {
		if s[i] == '-' && (i+1 == len(s) || s[i+1] < '0' || s[i+1] > '9') {
			continue
		}
		out.WriteByte(s[i])
	}
	return out.String()
}

func near(all []string, i int) string {
	return strings.Join(slices.Clone(all[min(i, len(all)-1):min(i+2, len(all))]), ".")
}

// number is a plain number without zeros behind.
func number(x float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.4f", x), "0"), ".")
}
