// Package script reads a program as it is written, without running it: the dialect
// of its control, the codes before the first move, words that boring has no use
// for, and the comments, which post/verify/remark reads. It keeps the findings of
// text and replay alike, each at its line and column.
package script

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/post/rs274"
	"borewright/post/verify/remark"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Words is what the text of a program says that its motion does not: the codes
// before the first move, and every word that boring has no use for.
type Words struct {
	first    int             // line of the first block that moves an axis; 0: none
	before   map[string]bool // codes that stand in that block or before it: "G17"
	program  int             // O number, -1: none
	numbered int             // its line
	own      map[string]bool // codes that this control asks for
	cycles   bool            // a cycle is used
	noted    []noted         // words without a use
	Remarks  remark.Gathered
	lone     []loneSpeed // S words without M3 or M4 beside them
	turning  bool
	orient   process.Letter   // of the angle beside M19
	Numbers  map[int][]int    // lines of N words, where the control has restart marks
	Deleted  []int            // lines with / where the visit's program has such
	NoSpeeds map[float64]bool // S words that Judge found to be the speed of no pass
}

// loneSpeed is an S word that starts nothing. On a turning spindle the new speed
// holds at once, whether or not anything moves after it.
type loneSpeed struct {
	line, col int
	v         float64
	turning   bool
}

// letters are those that a boring program is made of. All others are findings:
// the plan asks for none of them. So it is with the codes below.
const letters = "N G X Y F S M, the letter of the slide that feeds, and R P Z in cycles"

var allowedG = map[string]bool{
	"G0": true, "G1": true, "G4": true, "G17": true, "G20": true, "G21": true, "G70": true, "G71": true,
	"G40": true, "G49": true, "G80": true, "G85": true, "G86": true, "G89": true, "G90": true,
	"G61": true, "G64": true, "G94": true, "G95": true, "G97": true, "G98": true, "G99": true,
}

var unitsWords = map[string]bool{"G20": true, "G21": true, "G70": true, "G71": true}

var allowedM = map[string]bool{
	"M0": true, "M1": true, "M2": true, "M3": true, "M4": true, "M5": true, "M7": true, "M8": true, "M9": true, "M19": true, "M30": true,
}

// instead tells about codes that one meets: what each is, and what to write. Those
// that are apart do no harm by themselves: another hand writes so, and this tool does not.
var instead = map[string]struct {
	what, want string
	apart      bool
}{
	"G18": {"another plane than XY", "G17: the bore runs along Z", true},
	"G19": {"another plane than XY", "G17: the bore runs along Z", true},
	"G91": {"incremental positions", "G90: a program that is stopped and started again must not add up", true},
	"G28": {"goes home by machine positions, which the program does not know", "G0 to the clear plane; where this control has it so, home_word = \"G28\" in its machine file", true},
	"G53": {"goes by machine positions, which the program does not know", "G0 to the clear plane; where this control has it so, home_word = \"G53\" in its machine file", true},
	"G43": {"a tool length offset", "G49, and Z0 set at the face with the cutter in the bar", true},
	"G15": {"polar positions given back, which the program has none of", "nothing: X and Y are lengths", true},
	"G69": {"a turn of the positions given back, which the program has none of", "nothing: X and Y are not turned", true},
	"G81": {"a cycle that comes out at rapid with the spindle turning: it scores the bore", "G85, G89, or the moves written out", false},
	"G82": {"a cycle that comes out at rapid with the spindle turning: it scores the bore", "G85, G89, or the moves written out", false},
	"G88": {"a cycle that leaves the retract to the hand: the control does not know where Z is after it", "G85, G89, or the moves written out", false},
	"G2":  {"an arc", "straight moves: the spindle makes the circle", false},
	"G3":  {"an arc", "straight moves: the spindle makes the circle", false},
	"M6":  {"a tool change", "M0: the cutter is set in the bar by hand", true},
	"M48": {"feed override given free or locked", "nothing: overrides stay with the operator", true},
	"M49": {"feed override locked: the operator cannot slow the cut", "nothing: overrides stay with the operator", false},
}

// ReadWords goes once through the program's text. again says that a pass of the visit
// stands once more in blocks with /.
func ReadWords(program []byte, d rs274.Dialect, j *process.Job, again bool) *Words {
	c, feed := j.Machine.Control, byte(j.FeedLetter())
	w := &Words{before: map[string]bool{}, program: -1, own: ownCodes(j), orient: c.OrientWord}
	s := rs274.NewScanner(bytes.NewReader(program), d)
	ended := false
	for s.Scan() {
		b := s.Block()
		if ended {
			continue // the replay has said so
		}
		w.Remarks.Take(b, w.first > 0)
		w.spins(b)
		if b.Delete && again {
			if len(w.Deleted) < Most {
				w.Deleted = append(w.Deleted, b.Line)
			}
		} else if b.Delete {
			w.note(b.Line, 1, "a block that the operator's switch can skip", "no /: the program must do one thing only")
		}
		moves, cycle, home := false, false, false
		called := false // by a word that is noted: its number is no second mistake
		for _, x := range b.Words {
			called = called || x.Is('M', 6) && !w.own["M6"] || x.Is('G', 43) && !w.own["G43"]
			home = home || x.Is('G', 28) // of which G91 is a part
			cycle = cycle || x.Is('G', 85) || x.Is('G', 86) || x.Is('G', 89)
		}
		for _, x := range b.Words {
			switch x.Letter {
			case 'G', 'M':
				if x.Is('G', 91) && home {
					continue // for this block alone: the replay holds it
				}
				w.code(b.Line, x, c)
				ended = ended || x.Is('M', 2) || x.Is('M', 30)
			case 'X', 'Y':
				moves = moves || !dwells(b, x)
			case feed, 'Z', 'W':
				moves = true
				if x.Letter != feed && !w.own[string(x.Letter)] {
					w.blame(b.Line, x.Col, KindCode, fmt.Sprintf("%c moves the slide that stands still", x.Letter), fmt.Sprintf("%c: the slide that feeds in this job", feed))
				}
			case 'B':
				if moves = true; !w.own["B"] {
					w.blame(b.Line, x.Col, KindCode, "word B"+x.Text, "only "+letters)
				}
			case 'O':
				if first := b.Words[0]; first.Col != x.Col && first.Letter != 'N' || len(b.Words) > 1 && first.Letter == 'N' && b.Words[1].Col != x.Col {
					continue // a letter in a number: the replay says so
				}
				if w.program >= 0 {
					w.blame(b.Line, x.Col, KindCode, "a second program number", "one O word a program")
				}
				w.program, w.numbered = int(x.Digits), b.Line
			case 'S':
				w.speed(b, x)
			case 'N':
				if n := int(x.Digits); c.RestartStep > 0 && n > 0 && n%c.RestartStep == 0 && n/c.RestartStep <= Most && len(w.Numbers[n]) < 2 {
					if w.Numbers == nil {
						w.Numbers = map[int][]int{}
					}
					w.Numbers[n] = append(w.Numbers[n], b.Line)
				}
			case 'T', 'H':
				if !called {
					w.numbersOf(b.Line, x, c)
				}
			case 'F', 'P', 'R':
			default:
				w.blame(b.Line, x.Col, KindCode, fmt.Sprintf("word %c%s", x.Letter, x.Text), "only "+letters)
			}
		}
		w.cycles = w.cycles || cycle
		if moves && w.first == 0 {
			w.first = b.Line
		}
	}
	return w
}

// ownCodes are the codes that a control's machine file asks for, beyond those that any
// program may have. A bar in an outboard support is never drawn or turned about.
func ownCodes(j *process.Job) map[string]bool {
	c, own := j.Machine.Control, map[string]bool{}
	free := j.Bar.Outboard == nil
	for _, g := range c.Gears {
		own[g.Word.String()] = true
	}
	own[c.HomeWord.String()], own["M6"] = c.HomeWord != 0, c.Tool != 0
	own["G43"] = c.LengthOffset != 0 && j.FeedLetter() == 'Z'
	own["Z"], own["W"] = free && c.OtherSlide == process.OtherPlaced, free && c.OtherSlide == process.OtherPlaced
	own["B"] = free && c.TableWord == 'B'
	return own
}

// numbersOf takes T and H: the number of the tool and of its length.
func (w *Words) numbersOf(line int, x rs274.Word, c *process.Control) {
	want := c.Tool
	if x.Letter == 'H' {
		want = c.LengthOffset
	}
	switch {
	case want == 0 || x.Letter == 'H' && !w.own["G43"]:
		w.note(line, x.Col, fmt.Sprintf("word %c%s", x.Letter, x.Text), "only "+letters)
	case int(x.Digits) != want:
		w.blame(line, x.Col, KindTool, fmt.Sprintf("%c%s: another tool's", x.Letter, x.Text), fmt.Sprintf("%c%d: this bar's number", x.Letter, want))
	}
}

// spins notes whether the spindle turns after a block.
func (w *Words) spins(b *rs274.Block) {
	for _, m := range b.Words {
		switch {
		case m.Is('M', 3), m.Is('M', 4):
			w.turning = true
		case m.Is('M', 5), m.Is('M', 19):
			w.turning = false
		}
	}
}

// speed takes an S word. Beside M19 many controls read it as the angle of the
// stop, and beside M5 some do: the tip would then point where nobody expects it.
func (w *Words) speed(b *rs274.Block, x rs274.Word) {
	for _, m := range b.Words {
		switch {
		case m.Is('M', 19) && w.orient == 'S':
			return // the replay holds the angle
		case m.Is('M', 19):
			w.blame(b.Line, x.Col, KindCode, fmt.Sprintf("S%s beside M19: many controls take it for the angle at which the spindle stops", x.Text), "M19 alone: the tip stops where the machine has it")
			return
		case m.Is('M', 5):
			w.blame(b.Line, x.Col, KindCode, fmt.Sprintf("S%s beside M5, where nothing is to turn", x.Text), "M5 alone, and S with M3")
			return
		}
	}
	for _, m := range b.Words {
		if m.Is('M', 3) || m.Is('M', 4) {
			return // the replay holds it
		}
	}
	if len(w.lone) < Most {
		w.lone = append(w.lone, loneSpeed{b.Line, x.Col, x.Value, w.turning})
	}
}

// dwells reports that the word is the length of a G4, not an axis.
func dwells(b *rs274.Block, x rs274.Word) bool {
	for _, g := range b.Words {
		if g.Is('G', 4) {
			return x.Letter == 'X'
		}
	}
	return false
}

// note takes what another hand writes and this tool does not; blame, what is wrong.
func (w *Words) note(line, col int, what, want string) {
	if len(w.noted) < Most {
		w.noted = append(w.noted, noted{Finding: Finding{Line: line, Col: col, Kind: KindCode, What: what, Want: want, OtherWay: true}})
	}
}

func (w *Words) blame(line, col int, kind Kind, what, want string) {
	if len(w.noted) < Most {
		w.noted = append(w.noted, noted{Finding: Finding{Line: line, Col: col, Kind: kind, What: what, Want: want}})
	}
}

// code takes a G or M word.
func (w *Words) code(line int, x rs274.Word, c *process.Control) {
	name := plainCode(x)
	if w.first == 0 {
		w.before[name] = true
	}
	if want := unitsCode(c); name != want && unitsWords[name] {
		w.blame(line, x.Col, KindStart, name+" sets the wrong units", want+": this control's programs are in "+c.Units.Word())
	}
	switch {
	case allowedG[name] || allowedM[name] || w.own[name] || name == c.WorkOffset.String():
	case x.Letter == 'M' && x.Value >= 40 && x.Value <= 45:
		if len(c.Gears) > 0 {
			var words []string
			for _, g := range c.Gears {
				words = append(words, g.Word.String())
			}
			w.blame(line, x.Col, KindCode, name+": no range of this machine", strings.Join(words, ", ")+" are")
			return
		}
		w.blame(line, x.Col, KindCode, name+": this control has no words for ranges of the spindle", "S alone; where it has them, gear in its machine file")
	case instead[name].apart:
		w.note(line, x.Col, name+": "+instead[name].what, instead[name].want)
	case instead[name].what != "":
		w.blame(line, x.Col, KindCode, name+": "+instead[name].what, instead[name].want)
	case name == "G54" || name == "G55" || name == "G56" || name == "G57" || name == "G58" || name == "G59":
		want := "none: this control's work has no offset of its own"
		if c.WorkOffset != 0 {
			want = c.WorkOffset.String() + ": the one that was set on this work"
		}
		w.blame(line, x.Col, KindCode, name+": another work offset", want)
	default:
		w.blame(line, x.Col, KindCode, name+" has no use in boring", "nothing in its place")
	}
}

// plainCode is a G or M word without leading zeros: "G1" for G01.
func plainCode(x rs274.Word) string {
	t := strings.TrimLeft(x.Text, "+0")
	if i := strings.IndexByte(t, '.'); i >= 0 {
		t = strings.TrimRight(t[:i]+"."+strings.TrimRight(t[i+1:], "0"), ".")
	}
	if t == "" || t[0] == '.' {
		t = "0" + t
	}
	return string(x.Letter) + t
}

// unitsCode is the code that the control's units need.
func unitsCode(c *process.Control) string {
	inch, mm := "G20", "G21"
	if c.UnitsWord == process.G70G71 {
		inch, mm = "G70", "G71"
	}
	if c.Units == qty.Inches {
		return inch
	}
	return mm
}

// Judge says what is wrong with the words. number is the O number that the
// program must have, 0 for none.
func (w *Words) Judge(out *Findings, c *process.Control, v *plan.Visit, number int) {
	for _, n := range w.noted {
		out.put(n)
	}
	w.NoSpeeds = map[float64]bool{}
	for _, s := range w.lone {
		if slices.ContainsFunc(v.Passes, func(p schedule.Pass) bool { return math.Abs(s.v-float64(p.Speed)) <= 0.5 }) {
			continue
		}
		what := "S%.6g while the spindle stands, which is the speed of no pass"
		if s.turning {
			what = "S%.6g while the spindle turns, which is the speed of no pass"
			w.NoSpeeds[s.v] = true
		}
		out.Put(Finding{Line: s.line, Col: s.col, Kind: KindSpeed, What: fmt.Sprintf(what, s.v), Want: "S with M3, at the pass's speed"})
	}
	start := func(what, want string) { out.Add(w.first, 0, KindStart, what, want) }
	if w.first == 0 {
		out.Add(0, 0, KindStart, "the program moves nothing", "the passes of the plan")
		return
	}
	mode := "G94"
	if c.FeedPerRev {
		mode = "G95"
		if w.before["G94"] && !w.before["G95"] {
			mode = "" // a control that has G95 takes G94 as well
		}
	}
	offset := ""
	if c.WorkOffset != 0 {
		offset = c.WorkOffset.String()
	}
	for _, need := range []struct{ code, why string }{
		{unitsCode(c), "no units before the first move"},
		{"G17", "no plane before the first move"},
		{"G90", "nothing says before the first move that positions are absolute"},
		{"G40", "cutter compensation is not cancelled before the first move"},
		{"G49", "a tool length offset is not cancelled before the first move"},
		{"G80", "cycles are not cancelled before the first move"},
		{mode, "no feed mode before the first move"},
		{offset, "no work offset before the first move"},
	} {
		if need.code == "" || w.before[need.code] || need.code == "G80" && !c.Cycles || need.code == "G49" && w.own["G43"] && w.before["G43"] {
			continue
		}
		start(need.why, need.code+" in the first blocks")
	}
	if w.cycles && c.ReturnWords && !w.before["G98"] && !w.before["G99"] {
		start("the return level of cycles is left to what the control starts with", "G98 in the first blocks")
	}
	switch {
	case number == w.program || number == 0 && w.program < 0:
	case number == 0:
		out.Add(w.numbered, 'O', KindStart, fmt.Sprintf("program number O%d", w.program), "no O word: this control's programs go without")
	default:
		what := "no program number"
		if w.program >= 0 {
			what = fmt.Sprintf("program number O%d", w.program)
		}
		start(what, fmt.Sprintf("O%04d, the number of this visit by this plan: the control files the program by it", number))
	}
}

// NumberOf is the O number of a visit, 0 for none. Those of a first plan count
// up from the control's first; a plan made after measurements has two of its own
// for every bore of the job and every entry, so that no program takes the place
// of one that was worked to.
func NumberOf(p *plan.Plan, bore, visit int) int {
	first := p.Job.Machine.Control.ProgramNumber
	if first <= 0 {
		return 0
	}
	if p.Findings == nil {
		n := first + visit
		for i := range bore {
			n += len(p.Bores[i].Visits)
		}
		return n
	}
	b := &p.Bores[bore]
	before := len(p.Job.Bores)*p.Findings.Entries + max(p.Job.BoreAt(b.Bore.Station), 0)
	switch v := &b.Visits[visit]; {
	case !p.Job.Apart():
		return first + 2*before + v.N - 1
	case v.Part == schedule.Finishing:
		return first + 3*before + 2
	default:
		return first + 3*before + v.N - 1
	}
}
