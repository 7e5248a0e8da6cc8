package verify

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"borewright/process/qty"
)

// told is what the comments of a stop say.
type told struct {
	set, measure bool   // orders to set the cutter, or to leave it; to measure
	leave        bool   // to leave it
	sizes        []size // numbers where the talk is of the cutter
}

// speaks reports that the comments give an order at all.
func (t told) speaks() bool { return t.set || t.measure }

// size is a diameter as a comment states it.
type size struct {
	text string
	v    float64
	unit string // "MM", "IN" or "" where none is written
}

// readComments picks out of free text what the operator is told to do. It is
// lenient in the wording: people change comments. A number counts where the
// words before it are of setting the cutter, not of what the gauge should say.
func readComments(lines []string) told {
	var all []token
	for _, line := range lines {
		all = append(all, tokens(line)...)
	}
	var t told
	setting := false
	for i, w := range all {
		switch {
		case w.number:
			if setting && !counts(all, i) {
				t.set = true
				t.sizes = append(t.sizes, size{text: w.text, v: w.v})
			}
		case w.text == "SET" || w.text == "LEAVE" || w.text == "KEEP":
			if setting = isOrder(all, i); setting {
				t.set, t.leave = true, t.leave || w.text != "SET"
			}
		case w.text == "MEASURE" || w.text == "HOLD" || w.text == "GAUGE":
			// "only if the hold found", "room for the gauge" are no orders
			setting, t.measure = false, t.measure || before(all, i) != "THE" && before(all, i) != "A"
		case ends[w.text]:
			setting = false
		case w.text == "DEPTH" || w.text == "FEED" || w.text == "SPEED" || w.text == "SPRING":
			setting = setting && len(t.sizes) == 0
		case w.text == "CUTTER" || w.text == "TOOL" || w.text == "TIP":
			setting = setting || !t.measure
		case w.text == "MM" || w.text == "IN" || w.text == "INCH":
			if n := len(t.sizes); n > 0 && t.sizes[n-1].unit == "" {
				t.sizes[n-1].unit = strings.TrimSuffix(w.text, "CH")
			}
		}
	}
	return t
}

// ends are words after which a number is no setting.
var ends = map[string]bool{"EXPECT": true, "EXPECTED": true, "FOUND": true, "SIZE": true, "LIMITS": true, "BORE": true, "AFTER": true}

// before is the word before one.
func before(all []token, i int) string {
	if i == 0 {
		return ""
	}
	return all[i-1].text
}

// isOrder tells the verb from the set-up, and an order for now from what is
// said of a pass to come: "set the next pass smaller by 0.4 times the difference".
func isOrder(all []token, i int) bool {
	rest := all[i+1 : min(i+6, len(all))]
	if len(rest) > 0 && rest[0].text == "THE" {
		rest = rest[1:]
	}
	switch {
	case len(rest) == 0:
		return true
	case rest[0].text == "UP" || all[i].text == "LEAVE" && rest[0].text == "SET":
		return false
	}
	return rest[0].text != "NEXT" || !slices.ContainsFunc(rest, func(t token) bool {
		return t.text == "SMALLER" || t.text == "LARGER" || t.text == "SETTING"
	})
}

// counts reports that a number counts passes, or belongs to a word of the
// program: PASS 2, 2 OF 5, S64.
func counts(all []token, i int) bool {
	last := before(all, i)
	next := ""
	if i+1 < len(all) {
		next = all[i+1].text
	}
	return last == "PASS" || next == "OF" || last == "OF" && i > 1 && all[i-2].number ||
		len(last) == 1 && strings.Contains("NGMSFXYZW", last)
}

// judgeApart holds the settings in comments that belong to no stop against the
// plan: those of the header's list of passes each against its own, all others
// against any.
func (f *follower) judgeApart(all []apart) {
	for _, a := range all {
		f.judgeTip(a.said)
		if a.header {
			f.judgeHeader(a.said)
			f.judgeUnits(a.said)
			continue
		}
		t := readComments(linesOf(a.said))
		for _, n := range t.sizes {
			if t.set && !f.anyPass(0, n) {
				f.wrongSetting(a.said[0].line, n, "a setting of the plan, at its stop")
			}
		}
	}
}

// judgeHeader looks for SET DIA and a number, after the number of the pass that
// begins its line. Other numbers of a header are of bar, bore and cutter.
func (f *follower) judgeHeader(said []remark) {
	var all []token
	var lines []int
	var passes []int
	pass := 0
	for _, r := range said {
		for i, t := range tokens(r.text) {
			if i == 0 && !strings.HasPrefix(r.text, " ") {
				if pass = 0; t.number && t.v == math.Trunc(t.v) && t.v > 0 && t.v < 1000 {
					pass = int(t.v)
				}
			}
			all, lines, passes = append(all, t), append(lines, r.line), append(passes, pass)
		}
	}
	for i, t := range all {
		if t.text != "SET" {
			continue
		}
		for k := i + 1; k < min(i+6, len(all)); k++ {
			if !all[k].number {
				if !between[all[k].text] {
					break
				}
				continue
			}
			n := size{text: all[k].text, v: all[k].v}
			if k+1 < len(all) && (all[k+1].text == "MM" || all[k+1].text == "IN") {
				n.unit = all[k+1].text
			}
			if !f.anyPass(passes[i], n) {
				want := "a setting of the plan"
				for j := range f.v.Passes {
					if p := &f.v.Passes[j]; p.N == passes[i] {
						want = fmt.Sprintf("pass %d is cut at %s", p.N, f.dia(p.Setting))
					}
				}
				f.wrongSetting(lines[k], n, want)
			}
			break
		}
	}
}

var (
	tipRE   = regexp.MustCompile(`\bTIP (?:STOPS )?(?:AT|TO|POINTS TO) ([+-][XY])\b`)
	unitsRE = regexp.MustCompile(`\bUNITS\W+(?:WORDS OF THE PROGRAM IN )?(INCH|MM)\b(?:\W+SIZES IN TEXT IN (INCH|MM)\b)?`)
)

// joined is the text of remarks in one line of capitals, and the line of the
// program on which a place of it stands.
func joined(said []remark) (string, func(at int) int) {
	var b strings.Builder
	var ends []int
	for _, r := range said {
		b.WriteString(strings.Join(strings.Fields(strings.ToUpper(r.text)), " ") + " ")
		ends = append(ends, b.Len())
	}
	return b.String(), func(at int) int {
		return said[slices.IndexFunc(ends, func(end int) bool { return at < end })].line
	}
}

// judgeTip holds what is said of the tip at the oriented stop against the
// control: the operator tries it by hand.
func (f *follower) judgeTip(said []remark) {
	text, line := joined(said)
	for _, m := range tipRE.FindAllStringSubmatchIndex(text, -1) {
		if is, want := text[m[2]:m[3]], f.control.TipAtStop; f.v.Retract.Shift > 0 && is != want {
			f.out.add(line(m[2]), '(', KindRetract, "a comment has the tip stop at "+is, want+": there it stops on this machine")
		}
	}
}

// judgeUnits holds the units that the header names against those of the program
// and of the sizes in its text.
func (f *follower) judgeUnits(said []remark) {
	names := map[qty.Unit]string{qty.Inches: "INCH", qty.Metric: "MM"}
	text, line := joined(said)
	for _, m := range unitsRE.FindAllStringSubmatchIndex(text, -1) {
		if is := text[m[2]:m[3]]; is != names[f.u] {
			f.out.add(line(m[2]), '(', KindStart, "a comment says that the units are "+is, names[f.u]+": the units of this control's programs")
		}
		if m[4] >= 0 && text[m[4]:m[5]] != names[f.job.Units] {
			f.out.add(line(m[4]), '(', KindStart, "a comment says that sizes in text are in "+text[m[4]:m[5]], names[f.job.Units]+": the units of the job")
		}
	}
}

// between are words that may stand between SET and its size.
var between = map[string]bool{"CUTTER": true, "TOOL": true, "TIP": true, "TO": true, "AT": true, "THE": true, "DIA": true, "DIAMETER": true}

func (f *follower) wrongSetting(line int, n size, want string) {
	f.out.add(line, '(', KindSetting, "a comment says to set the cutter to "+n.text, want)
}

// anyPass reports that a size is the setting of the pass with the number, or,
// by number 0 or one that the plan does not have, of any.
func (f *follower) anyPass(number int, n size) bool {
	any := false
	for i := range f.v.Passes {
		ok := f.states(n, f.v.Passes[i].Setting)
		if f.v.Passes[i].N == number {
			return ok
		}
		any = any || ok
	}
	return any
}

// token is a word or a number of a comment.
type token struct {
	text   string
	number bool
	v      float64
}

// tokens splits a comment into words and numbers: "DIA3.375IN" is three.
func tokens(line string) []token {
	const letter, digit = 1, 2
	class := func(c byte) int {
		switch {
		case c >= 'A' && c <= 'Z':
			return letter
		case c >= '0' && c <= '9' || c == '.' || c == '+' || c == '-':
			return digit
		}
		return 0
	}
	line = strings.ToUpper(line)
	var out []token
	for i := 0; i < len(line); {
		k := class(line[i])
		from := i
		for i < len(line) && class(line[i]) == k {
			i++
		}
		switch text := line[from:i]; k {
		case letter:
			out = append(out, token{text: text})
		case digit:
			trimmed := strings.TrimRight(text, ".-+")
			if v, err := strconv.ParseFloat(trimmed, 64); err == nil && !math.IsInf(v, 0) {
				out = append(out, token{text: trimmed, number: true, v: v})
			}
		}
	}
	return out
}

// states reports that a stated size is the diameter, as it prints in its unit.
// Without a unit it may be in the job's or in the program's.
func (f *follower) states(s size, d qty.Diameter) bool {
	same := func(u qty.Unit) bool {
		slack := 500 * qty.Nanometre // half of the last decimal that sizes are printed with
		if u == qty.Inches {
			slack = qty.Thou / 20
		}
		return (u.Of(s.v) - d.Length()).Abs() <= slack+1
	}
	switch s.unit {
	case "MM":
		return same(qty.Metric)
	case "IN":
		return same(qty.Inches)
	}
	return same(f.job.Units) || same(f.u)
}
