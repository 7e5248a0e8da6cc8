package verify

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"

	"borewright/post/rs274"
)

// findingsMost bounds what a hopeless program can make us keep.
const findingsMost = 300

// findings collects what is wrong. A place is a line and, until done, the
// letter of the word to blame: events know their line, not their column.
type findings struct {
	list []noted
	seen map[Finding]bool
}

type noted struct {
	Finding
	letter byte
}

// add notes a finding at a line; letter is the word to blame, 0 for none.
func (l *findings) add(line int, letter byte, kind Kind, what, want string) {
	l.put(noted{Finding{Line: line, Kind: kind, What: what, Want: want}, letter})
}

func (l *findings) put(n noted) {
	if l.seen == nil {
		l.seen = map[Finding]bool{}
	}
	if !l.seen[n.Finding] && !l.full() {
		l.seen[n.Finding] = true
		l.list = append(l.list, n)
	}
}

// full reports that the program is hopeless: it is not replayed further.
func (l *findings) full() bool { return len(l.list) >= findingsMost }

// done gives the findings by place, each with its column.
func (l *findings) done(program []byte, d rs274.Dialect) []Finding {
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
	if l.full() {
		out = append(out, Finding{
			Line: out[len(out)-1].Line, Col: 1, Kind: KindPlan,
			What: fmt.Sprintf("%d findings: the rest of the program was not looked at", findingsMost),
			Want: "mend the first ones and prove the program again",
		})
	}
	return out
}

// columns reads the program once more, as far as the last finding, and looks
// up the word that each finding blames.
func (l *findings) columns(program []byte, d rs274.Dialect) {
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
