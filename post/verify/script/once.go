package script

import (
	"cmp"
	"slices"
	"strings"

	"borewright/post/rs274"
)

// How findings begin, or end, from which others follow.
const (
	NotCut    = "not cut"                    // a pass: what stands in its place is no mistake of its own
	Nothing   = "where nothing is to be cut" // feeds there: the pass is missing
	Elsewhere = "a remark of another stop"
)

// Once leaves one finding of what follows from one mistake. stops are the lines of the
// program's stops, misread those of words that were not read as they stand, cuts those
// where passes begin to be cut; each in order.
//
//   - From a word that was not read to the next stop the motion is a guess, and is not judged.
//   - Where a pass is not cut, what is done in its place is not judged.
//   - A line says one thing of its motion: the first in the order of ways.
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
		if n.Kind == KindCode && (strings.HasPrefix(n.What, "G28: ") || strings.HasPrefix(n.What, "G53: ")) {
			misread = append(misread, n.Line)
		}
	}
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
		if w := way(n.Finding); w >= 0 {
			if had, ok := ofLine[n.Line]; !ok || w < way(had) {
				ofLine[n.Line] = n.Finding
			}
		}
	}
	left := slices.DeleteFunc(slices.Clone(l.list), func(n noted) bool {
		motion := way(n.Finding) >= 0
		if n.Line == 0 || n.Kind == KindSyntax || n.OtherWay && !motion {
			return false
		}
		follows := motion || n.Kind == KindStop || n.Kind == KindPass || n.Kind == KindSize || n.Kind == KindEnd || n.Kind == KindRemark && strings.HasPrefix(n.What, Elsewhere)
		if from, ok := guessed[stretch(n.Line)]; ok && n.Line >= from && (follows || n.Kind == KindSpeed) {
			return true
		}
		if cause, ok := missing[idle(n.Line)]; ok && follows {
			return n.Finding != cause
		}
		return motion && n.Finding != ofLine[n.Line]
	})
	if len(left) > 0 { // else what was wrong is said as it was found
		l.list = left
	}
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
		" without P", " without X", " without F", " without a speed", " without an axis", " without a code", "unknown code ", " has no use in this block", "a second ", "axis words after ",
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
	return slices.DeleteFunc(slices.Clone(all), func(x rs274.Fault) bool {
		if strings.HasPrefix(x.What, "no S ") && slices.ContainsFunc(all, func(y rs274.Fault) bool { return strings.HasSuffix(y.What, " without a speed") }) {
			return true
		}
		return follows(x) && slices.ContainsFunc(all, func(y rs274.Fault) bool { return y.Line == x.Line && Misread(y) && !follows(y) })
	})
}
