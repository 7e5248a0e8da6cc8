package script

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"

	"borewright/post/rs274"
)

// Most bounds what a hopeless program can make us keep.
const Most = 300

// Findings collects what is wrong. A place is a line and, until Done, the
// letter of the word to blame: events know their line, not their column.
type Findings struct {
	list []noted
	seen map[Finding]bool
}

type noted struct {
	Finding
	letter byte
}

// Add notes a finding at a line; letter is the word to blame, 0 for none.
func (l *Findings) Add(line int, letter byte, kind Kind, what, want string) {
	l.put(noted{Finding{Line: line, Kind: kind, What: what, Want: want}, letter})
}

// Put notes a finding whose column is known.
func (l *Findings) Put(f Finding) { l.put(noted{Finding: f}) }

func (l *Findings) put(n noted) {
	if l.seen == nil {
		l.seen = map[Finding]bool{}
	}
	if !l.seen[n.Finding] && !l.Full() {
		l.seen[n.Finding] = true
		l.list = append(l.list, n)
	}
}

// Unreadable leaves nothing but the first faults of a program that cannot be read as
// meant, and how many more there are.
func (l *Findings) Unreadable(first []rs274.Fault, more int, atLeast bool) {
	l.list, l.seen = nil, nil
	var last rs274.Fault
	for _, x := range first {
		l.Put(Finding{Line: x.Line, Col: x.Col, Kind: KindSyntax, What: x.What, Want: x.Want})
		last = x
	}
	least := ""
	if atLeast {
		least = "at least "
	}
	l.Put(Finding{Line: last.Line, Col: last.Col, Kind: KindSyntax, What: fmt.Sprintf("%s%d more faults are not shown: the program does not read, and was not held against the plan", least, more),
		Want: "mend these and prove it again"})
}

// Has reports that something was found in the lines.
func (l *Findings) Has(from, to int) bool {
	return slices.ContainsFunc(l.list, func(n noted) bool { return from <= n.Line && n.Line <= to })
}

// Wrong reports that something wrong was found in the lines, not only another way.
func (l *Findings) Wrong(from, to int) bool {
	return slices.ContainsFunc(l.list, func(n noted) bool { return from <= n.Line && n.Line <= to && !n.OtherWay })
}

// Blames reports that a finding of the kind stands at the line.
func (l *Findings) Blames(line int, k Kind) bool {
	return slices.ContainsFunc(l.list, func(n noted) bool { return n.Line == line && n.Kind == k })
}

// Said reports that a finding says already what the reader says of a word: that its code
// is not known, that there is no feed, or whether the spindle turns.
func (l *Findings) Said(x rs274.Fault) bool {
	code, unknown := strings.CutPrefix(x.What, "unknown code ")
	if strings.HasSuffix(x.What, " while the spindle stands") && slices.ContainsFunc(l.list, func(n noted) bool { return n.Kind == KindSpindle || n.Line == x.Line }) {
		return true
	}
	return slices.ContainsFunc(l.list, func(n noted) bool {
		return n.Line == x.Line && (unknown && n.Col == x.Col && strings.HasPrefix(n.What, code+" ") ||
			n.Kind == KindCode && (n.Col == x.Col || x.What == "a motion without a code" || strings.HasSuffix(x.What, " from an unknown place")) || way(n.Finding) >= 0 && strings.HasSuffix(x.What, " from an unknown place") || n.Kind == KindFeed && n.What == NoFeed && strings.HasPrefix(x.What, "no F ") ||
			(n.Kind == KindSpindle || n.Kind == KindEnd) && strings.HasSuffix(x.What, " with the spindle turning"))
	})
}

// NoFeed is what is found of a feed move without a feed.
const NoFeed = "feeds without a feed"

// Full reports that the program is hopeless: it is not replayed further.
func (l *Findings) Full() bool { return len(l.list) >= Most }

// Done gives the findings by place, each with its column.
func (l *Findings) Done(program []byte, d rs274.Dialect) []Finding {
	if len(l.list) == 0 {
		return nil
	}
	slices.SortStableFunc(l.list, func(a, b noted) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
	l.columns(program, d)
	out := make([]Finding, 0, len(l.list)+1)
	for _, n := range l.list {
		out = append(out, n.Finding)
	}
	if l.Full() {
		out = append(out, Finding{
			Line: out[len(out)-1].Line, Col: 1, Kind: KindPlan,
			What: fmt.Sprintf("%d findings: the rest of the program was not looked at", Most),
			Want: "mend the first ones and prove the program again",
		})
	}
	return out
}

// columns reads the program once more, as far as the last finding, and looks
// up the word that each finding blames.
func (l *Findings) columns(program []byte, d rs274.Dialect) {
	i := 0
	for i < len(l.list) && l.list[i].Line == 0 {
		i++
	}
	s := rs274.NewScanner(bytes.NewReader(program), d)
	for i < len(l.list) && s.Scan() {
		b := s.Block()
		for ; i < len(l.list) && l.list[i].Line <= b.Line; i++ {
			n := &l.list[i]
			if n.Col > 0 {
				continue
			}
			n.Col = 1
			if n.Line != b.Line || n.letter == 0 {
				continue
			}
			if n.letter == '(' {
				if len(b.Comments) > 0 {
					n.Col = b.Comments[0].Col
				}
			} else if w, ok := b.Word(n.letter); ok {
				n.Col = w.Col
			}
		}
	}
	for ; i < len(l.list); i++ {
		l.list[i].Col = max(l.list[i].Col, 1)
	}
	slices.SortStableFunc(l.list, func(a, b noted) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
}
