package script

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"borewright/post/rs274"
)

// How findings begin, or end, from which others follow.
const (
	NotCut    = "not cut"                    // a pass: what stands in its place is no mistake of its own
	Nothing   = "where nothing is to be cut" // feeds there: the pass is missing
	Elsewhere = "a remark of another stop"
	LeftOut   = NotCut + " in this pass" // a bore of those that are cut at one setting
	Between   = "between two bores"      // feeds there, where others go at rapid
)

// Once leaves one finding of what follows from one mistake. stops are the lines of the
// program's stops, misread those of words that were not read as they stand, cuts those
// where passes begin to be cut; each in order.
//
//   - From a word that was not read to the next stop the motion is a guess, and is not judged.
//   - Where a pass is not cut, what is done in its place is not judged.
//   - From stop to stop one thing is said of the motion, the first; of a line the first in the
//     order of ways. Nor is the stop judged behind it, or the size behind a feed that ends short.
//   - What begins from an unknown place is not judged to the next stop.
//   - A spindle that stands has no speed. Where a stop is missing, its restart mark is, too.
//     Where something else of a way in is wrong, that nothing is cut is no second mistake.
//     Nor is what is fed by an F that does not read. Where something else is wrong with the way of a
//     pass through several bores, what it leaves out or feeds over is none either; but where the
//     last bores are left out, the way out begins too early, and that is none.
//   - A rapid into the metal weighs more than a feed through the air: where the two have changed
//     places, the rapid is the mistake. Nor is a dwell in the air, or a feed between two
//     bores, said beside what is wrong.
//   - Where words stand behind the end of the program, that the end lacks them is no second mistake.
//   - Of the slides that go home before the first cut, or after it, one thing is said.
//
// A second mistake that is left out so is found when the first is mended: the program is
// not proven before.
func (l *Findings) Once(stops, misread, cuts []int) {
	slices.SortStableFunc(l.list, func(a, b noted) int { return cmp.Compare(a.Line, b.Line) })
	stretch := func(line int) int { // from stop to stop, the line of the second with it
		i, _ := slices.BinarySearch(stops, line)
		return i
	}
	guessed := map[int]int{} // stretch: line from which its motion is a guess
	for _, n := range l.list {
		switch {
		case n.Kind == KindCode && (strings.HasPrefix(n.What, "G28: ") || strings.HasPrefix(n.What, "G53: ") || foreign(n.Finding)):
			misread = append(misread, n.Line)
		case units(n.Finding):
			misread = append(misread, n.Line+1)
		}
	}
	firstOf := func(stop int, kind Kind, what string) int { // line of the first such finding in a stretch, or in all; -1: there is none
		i := slices.IndexFunc(l.list, func(n noted) bool {
			return (stop < 0 || stretch(n.Line) == stop) && n.Kind == kind && strings.Contains(n.What, what)
		})
		if i < 0 {
			return -1
		}
		return l.list[i].Line
	}
	if line := firstOf(-1, KindStart, "from an unknown place"); line >= 0 {
		misread = append(misread, line+1)
	}
	inLine := func(line int, is func(Finding) bool) bool {
		return slices.ContainsFunc(l.list, func(n noted) bool { return n.Line == line && is(n.Finding) })
	}
	wrong := map[int]Finding{}  // what is said first of the motion of a stretch
	homes := map[bool]Finding{} // what is said first of the slides that go home, before the first cut and after it
	begun := func(line int) bool { return len(cuts) > 0 && line >= cuts[0] }
	for _, line := range misread {
		if from, ok := guessed[stretch(line)]; !ok || line < from {
			guessed[stretch(line)] = line
		}
	}
	cut := map[int]bool{} // stretch: a pass is cut in it
	for _, line := range cuts {
		cut[stretch(line)] = true
	}
	idle := func(line int) int { // the first of stretches in which nothing is cut; -1: something is
		in := stretch(line)
		for in > 0 && !cut[in] && !cut[in-1] {
			in--
		}
		if cut[in] {
			return -1
		}
		return in
	}
	missing, ofLine := map[int]Finding{}, map[int]Finding{} // idle stretches: what is said of a pass that is not cut in them; line: of its motion
	for _, n := range l.list {
		in := idle(n.Line)
		if n.Line > 0 && in >= 0 && (n.Kind == KindFeed && strings.Contains(n.What, Nothing) || n.Kind == KindPass && strings.HasPrefix(n.What, NotCut)) {
			if had, ok := missing[in]; !ok || had.Kind == KindPass {
				missing[in] = n.Finding
			}
		}
		if w := way(n.Finding); w >= 0 && !n.OtherWay && !dips(n.Finding) {
			here := stretch(n.Line)
			if had, ok := wrong[here]; !ok || n.Line == had.Line && w < way(had) || had.What == NoFeed && crashes(n.Finding) {
				wrong[here] = n.Finding
			}
		}
		if _, ok := homes[begun(n.Line)]; !ok && ofHome(n.Finding) {
			homes[begun(n.Line)] = n.Finding
		}
		if w := way(n.Finding); w >= 0 {
			if had, ok := ofLine[n.Line]; !ok || w < way(had) {
				ofLine[n.Line] = n.Finding
			}
		}
	}
	adds := l.incremental()
	for i := range l.list {
		if adds > 0 && l.list[i].Line == adds && strings.HasPrefix(l.list[i].What, "G91: ") {
			l.list[i].OtherWay = false // it is left on, and what follows is not what was meant
		}
	}
	shifted, short := l.shifted(), l.cutShort()
	left := slices.DeleteFunc(slices.Clone(l.list), func(n noted) bool {
		if adds > 0 && n.Line > adds && stretch(n.Line) == stretch(adds) && (way(n.Finding) >= 0 || n.Kind == KindSyntax && strings.HasSuffix(n.What, " from an unknown place") || n.Kind == KindStop) ||
			shifted > 0 && n.Line > shifted && (n.Kind == KindSetting || n.Kind == KindStop || n.Kind == KindPass || n.Kind == KindSize || n.Kind == KindRemark || n.Kind == KindFeed || n.Kind == KindSpeed) ||
			short > 0 && n.Line >= short && (n.Kind == KindStop || n.Kind == KindSize || n.Kind == KindEnd || n.Kind == KindSyntax) ||
			(n.Kind == KindSyntax || n.Kind == KindCode && strings.HasPrefix(n.What, "word ")) && inLine(n.Line, foreign) ||
			n.Kind == KindFeed && way(n.Finding) < 0 && slices.ContainsFunc(l.list, func(o noted) bool {
				return o.Line == n.Line && o.Kind == KindSyntax && strings.HasSuffix(o.What, " in a number") || units(o.Finding) && o.Line <= n.Line && stretch(o.Line) == stretch(n.Line)
			}) {
			return true
		}
		motion, here := way(n.Finding) >= 0, stretch(n.Line)
		switch line := max(firstOf(here, KindSpindle, "spindle standing"), firstOf(here, KindSpindle, "spindle stopped")); {
		case line >= 0 && line <= n.Line && (n.Kind == KindSpeed && n.What == "feeds without a speed" || n.Kind == KindSyntax && strings.HasPrefix(n.What, "no S ")),
			n.Kind == KindStop && strings.Contains(n.What, "the restart mark ") && firstOf(here, KindStop, " stop before this") >= 0,
			dips(n.Finding) && slices.ContainsFunc(l.list, func(o noted) bool {
				return o.Line > n.Line && stretch(o.Line) == here && way(o.Finding) >= 0 && !o.OtherWay
			}),
			n.Kind == KindFeed && way(n.Finding) < 0 && inLine(n.Line, func(o Finding) bool { return o.Kind == KindSyntax && strings.HasPrefix(o.What, "F") }),
			n.Kind == KindPass && strings.HasPrefix(n.What, NotCut) && slices.ContainsFunc(misread, func(line int) bool { return line < n.Line && idle(line) >= 0 && idle(line) == idle(n.Line) }),
			n.Kind == KindSize && slices.ContainsFunc(l.list, func(o noted) bool { return o.Kind == KindDepth && strings.Contains(o.What, "the feed ends at") }),
			(n.Kind == KindTool || n.Kind == KindHome || n.Kind == KindEnd) && firstOf(-1, KindSyntax, "words after the end") > n.Line,
			ofHome(n.Finding) && n.Finding != homes[begun(n.Line)]:
			return true
		}
		if n.Line == 0 || n.Kind == KindSyntax || n.OtherWay && !motion {
			return false
		}
		follows := motion || n.Kind == KindStop || n.Kind == KindPass || n.Kind == KindSize || n.Kind == KindEnd || n.Kind == KindRemark && strings.HasPrefix(n.What, Elsewhere)
		if from, ok := guessed[stretch(n.Line)]; ok && n.Line >= from && (follows || n.Kind == KindSpeed) {
			return true
		}
		first, ok := wrong[here]
		crash := ok && crashes(first)
		if cause, ok := missing[idle(n.Line)]; ok && follows && !units(n.Finding) && !(crash && cause.OtherWay) {
			return n.Finding != cause
		}
		if crash && n.Line < first.Line && n.Kind == KindFeed && (n.What == NoFeed || n.OtherWay) || ok && n.OtherWay && (n.Kind == KindDwell || strings.HasSuffix(n.What, Between)) {
			return true
		}
		outward := ok && first.Kind == KindRetract && firstOf(here, KindPass, LeftOut) == first.Line // of a pass whose last bores are left out
		if ok && n.Line >= first.Line && n.Finding != first &&
			(strings.HasPrefix(n.What, LeftOut) && !outward || strings.HasSuffix(n.What, " is cut again")) {
			return true
		}
		if n.OtherWay && strings.HasSuffix(n.What, Between) && firstOf(here, KindPass, LeftOut) >= 0 {
			return true
		}
		if ok && n.Line > first.Line && !n.OtherWay && (motion || n.Kind == KindStop) || outward && n.Finding == first {
			return true
		}
		return motion && n.Finding != ofLine[n.Line]
	})
	if len(left) > 0 { // else what was wrong is said as it was found
		l.list = left
	}
}

// foreign is whether a finding is of a code with which a block means something else than its words
// say elsewhere: they are not judged.
func foreign(n Finding) bool {
	return n.Kind == KindCode && (strings.HasSuffix(n.What, " has no use in boring") || strings.HasPrefix(n.What, "G2: ") || strings.HasPrefix(n.What, "G3: ") || strings.HasSuffix(n.What, " moves the slide that stands still"))
}

// units is whether a finding is of a word for the other units: what is cut by them is a guess.
func units(n Finding) bool {
	return n.Kind == KindStart && strings.HasSuffix(n.What, " sets the wrong units")
}

// incremental is the line of a G91 that is the only one of a program, with something wrong in the
// motion from there to the next stop: it was left on by mistake; 0: there is none.
func (l *Findings) incremental() (line int) {
	for _, n := range l.list {
		switch {
		case strings.HasPrefix(n.What, "G91: ") && line > 0:
			return 0 // written so throughout
		case strings.HasPrefix(n.What, "G91: "):
			line = n.Line
		}
	}
	if line > 0 && !slices.ContainsFunc(l.list, func(n noted) bool {
		return n.Line >= line && !n.OtherWay && (way(n.Finding) >= 0 || n.Kind == KindSyntax && strings.HasSuffix(n.What, " from an unknown place"))
	}) {
		return 0
	}
	return line
}

// shifted is the line from which the passes of a program stand at the stops of others, as where a
// pass is there twice, or two have changed places; 0: they do not. What is said of stops and
// passes behind it follows.
func (l *Findings) shifted() (line int) {
	n := 0
	for _, x := range l.list {
		switch {
		case x.Kind == KindRemark && strings.HasPrefix(x.What, Elsewhere):
			if n++; line == 0 {
				line = x.Line
			}
		case x.Kind == KindPass && strings.HasPrefix(x.What, NotCut+" before this stop") && line == 0:
			line = x.Line
		}
	}
	if n < 2 {
		return 0
	}
	return line
}

// cutShort is the last line of a program that ends before its last passes, as a file does that was
// not sent whole: that it has no end follows; 0: it does not.
func (l *Findings) cutShort() int {
	line := 0
	for _, n := range l.list {
		if n.Kind == KindSyntax && (strings.HasSuffix(n.What, " never closes") || strings.HasSuffix(n.What, " has no end")) {
			line = n.Line
		}
	}
	if line > 0 && slices.ContainsFunc(l.list, func(n noted) bool {
		return n.Line == line && n.Kind == KindPass && strings.HasPrefix(n.What, NotCut+": ")
	}) {
		return line
	}
	return 0
}

// dips is whether a finding is that the bar goes in for nothing: it follows where something
// else is wrong behind it.
func dips(n Finding) bool {
	return n.Kind == KindLevel && strings.HasSuffix(n.What, "with nothing cut")
}

// crashes is whether a finding is of a rapid into the metal.
func crashes(n Finding) bool { return n.Kind == KindRapid || n.Kind == KindBottom }

// ofHome is whether a finding is about slides that go home.
func ofHome(n Finding) bool {
	return (n.Kind == KindHome || n.Kind == KindAxis || n.Kind == KindTool) && (strings.Contains(n.What, " goes home ") || strings.HasSuffix(n.What, " has gone home"))
}

// ways are the kinds of what may be wrong with a motion, the cause before what follows.
var ways = []Kind{KindStart, KindRetract, KindBottom, KindFeed, KindAxis, KindClearance, KindLevel, KindDepth, KindSpindle, KindRapid, KindHome, KindTravel, KindDwell, KindCoolant}

// way is where a finding stands among them; -1: it is not of the motion. A wrong F is a
// mistake of its own. What is only another way comes last.
func way(n Finding) int {
	switch {
	case n.Kind == KindFeed && strings.HasPrefix(n.What, "pass "):
		return -1
	case n.OtherWay && n.Kind != KindCode:
		return len(ways)
	}
	return slices.Index(ways, n.Kind)
}

// Misread reports a fault of the text by which a word is not read as it stands.
func Misread(x rs274.Fault) bool {
	return slices.ContainsFunc([]string{
		" without a letter", " without a number", " decimal point", " decimals", " digits", " is negative", " has a sign", " is not a code", " is too long", " is no feed",
		" without P", " without X", " without F", " without a speed", " without an axis", " without a code", "unknown code ", " has no use in this block", "a second ", "axis words after ", " with R below Z", " in a number", "an increment of ",
	}, func(s string) bool { return strings.Contains(x.What, s) })
}

// follows reports a fault of the text that is one only because another word of its block
// was not read.
func follows(x rs274.Fault) bool {
	return strings.HasPrefix(x.What, "G4 without ") || strings.HasPrefix(x.What, "no F ") || strings.HasPrefix(x.What, "no S ") || strings.HasSuffix(x.What, " without a speed") ||
		strings.HasSuffix(x.What, " without an axis word") || strings.HasSuffix(x.What, " has no use in this block")
}

// Faults are those of the text that are mistakes of their own.
func Faults(all []rs274.Fault) []rs274.Fault {
	all = joined(all)
	said := map[[2]int]bool{} // of a word, by its place, one thing
	unknown := false          // an increment from an unknown place is said, the first of the program
	return slices.DeleteFunc(slices.Clone(all), func(x rs274.Fault) bool {
		at := [2]int{x.Line, x.Col}
		if said[at] {
			return true
		}
		said[at] = true
		if strings.HasSuffix(x.What, " from an unknown place") {
			if unknown {
				return true
			}
			unknown = true
		}
		if strings.HasPrefix(x.What, "no S ") && slices.ContainsFunc(all, func(y rs274.Fault) bool { return strings.HasSuffix(y.What, " without a speed") }) {
			return true
		}
		return follows(x) && slices.ContainsFunc(all, func(y rs274.Fault) bool { return y.Line == x.Line && Misread(y) && !follows(y) })
	})
}

// joined makes one fault of what is said of one number: of a character in it that is no figure,
// as a decimal comma, of the figures in front of it, and of those behind it. A character that
// stands several times in a block is one too.
func joined(all []rs274.Fault) (out []rs274.Fault) {
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b rs274.Fault) int { return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col)) })
	for i := 0; i < len(all); i++ {
		x := all[i]
		word := -1 // of the number that ends where x stands: where its faults begin in out
		for k := len(out) - 1; k >= 0 && out[k].Line == x.Line; k-- {
			if text, _, _ := strings.Cut(out[k].What, " "); out[k].Col+len(text) == x.Col {
				word = k
			}
		}
		quoted, stray := strings.CutPrefix(x.What, "character ")
		char, err := strconv.Unquote(quoted)
		switch {
		case stray && err == nil:
			inside := word >= 0
			if next := i + 1; next < len(all) && all[next].Line == x.Line && all[next].Col == x.Col+len(char) && strings.HasSuffix(all[next].What, " without a letter") {
				i, inside = next, true
			}
			if inside {
				x.What += " in a number"
			} else if slices.ContainsFunc(out, func(y rs274.Fault) bool { return y.Line == x.Line && y.What == x.What }) {
				continue
			}
		case word >= 0 && (x.What == "O word after the first block" || x.What == "O without a number"):
			x.What, x.Want = "the letter O in a number", "the figure 0"
		default:
			word = -1
		}
		if word >= 0 {
			out = out[:word]
		}
		out = append(out, x)
	}
	return out
}
