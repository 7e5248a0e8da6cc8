package report

import (
	"fmt"
)

// Act is one thing that a program makes the machine do, with the line it
// stands on.
type Act struct {
	Line int
	Text string
}

// ActChange is a stretch of a program that does other things than before.
type ActChange struct {
	After    string // what both do before it, "" at the start
	Old, New []Act
}

// MovePair is what two programs do at one place, side by side: the same, or one thing in
// place of the other, or what only one of them does (the other nil).
type MovePair struct{ Old, New *Act }

func (p MovePair) alike() bool { return p.Old != nil && p.New != nil && p.Old.Text == p.New.Text }

// ProgramChange is what differs between two programs that pair up.
type ProgramChange struct {
	Name, Was string      // of the new and the old file, "" where there is none
	ByMove    bool        // both could be read: Acts says all that the machine does otherwise
	Acts      []ActChange // none: the machine does the same
	Moves     []MovePair  // all that both do, side by side
	Comments  int         // that were added, dropped or changed
	Bytes     bool        // the files differ in any byte
	Unified   string      // line by line, where they could not be read
}

// differ is whether the files are not the same.
func (p *ProgramChange) differ() bool { return p.Bytes || p.Name != p.Was }

// called is a program by its name, or by both.
func (p *ProgramChange) called() string {
	switch {
	case p.Name == "":
		return p.Was
	case p.Was == "" || p.Was == p.Name:
		return p.Name
	}
	return p.Was + " -> " + p.Name
}

// Programs compares the programs of two revisions: by what the machine does,
// where both can be read, so that new block numbers, comments and spaces do
// not count as changes; else line by line.
func Programs(old, new Revision) []ProgramChange {
	var out []ProgramChange
	for _, p := range pairPrograms(old, new) {
		c := ProgramChange{Bytes: true}
		switch {
		case p.old == nil:
			c.Name = p.new.Name
			c.Unified = unified("/dev/null", fileName(new.Name, p.new.Name), nil, p.new.Data)
		case p.new == nil:
			c.Was = p.old.Name
			c.Unified = unified(fileName(old.Name, p.old.Name), "/dev/null", p.old.Data, nil)
		default:
			c.Name, c.Was = p.new.Name, p.old.Name
			c.Bytes = string(p.old.Data) != string(p.new.Data)
			if c.ByMove = p.old.Read && p.new.Read; c.ByMove {
				c.Acts, c.Moves = actChanges(p.old.Acts, p.new.Acts)
				c.Comments = commentChanges(p.old.Comments, p.new.Comments)
			} else {
				c.Unified = unified(fileName(old.Name, c.Was), fileName(new.Name, c.Name), p.old.Data, p.new.Data)
			}
		}
		out = append(out, c)
	}
	return out
}

type programPair struct{ old, new *File }

// pairPrograms joins programs by name first and then in order, since a name
// may carry the revision. What was dropped comes last.
func pairPrograms(old, new Revision) []programPair {
	taken := make([]bool, len(old.Programs))
	out := make([]programPair, len(new.Programs))
	for i := range new.Programs {
		out[i].new = &new.Programs[i]
		for k := range old.Programs {
			if !taken[k] && old.Programs[k].Name == new.Programs[i].Name {
				out[i].old, taken[k] = &old.Programs[k], true
				break
			}
		}
	}
	for i := range out {
		for k := range old.Programs {
			if out[i].old == nil && !taken[k] {
				out[i].old, taken[k] = &old.Programs[k], true
			}
		}
	}
	for k := range old.Programs {
		if !taken[k] {
			out = append(out, programPair{old: &old.Programs[k]})
		}
	}
	return out
}

func texts(acts []Act) []string {
	out := make([]string, len(acts))
	for i, a := range acts {
		out[i] = a.Text + "\n"
	}
	return out
}

// actChanges are the stretches in which two programs do other things, and all that they
// do side by side.
func actChanges(a, b []Act) (out []ActChange, moves []MovePair) {
	i, j, after, open := 0, 0, "", false
	alone := 0 // place in moves of the first that only the old program does, in this stretch
	for _, e := range edits(texts(a), texts(b)) {
		if e.op == ' ' {
			after, open = a[i].Text, false
			moves = append(moves, MovePair{&a[i], &b[j]})
			i, j = i+1, j+1
			continue
		}
		if !open {
			out, open, alone = append(out, ActChange{After: after}), true, len(moves)
		}
		c := &out[len(out)-1]
		if e.op == '-' {
			c.Old, moves = append(c.Old, a[i]), append(moves, MovePair{Old: &a[i]})
			i++
			continue
		}
		c.New = append(c.New, b[j])
		if alone < len(moves) {
			moves[alone].New = &b[j]
			alone++
		} else {
			moves = append(moves, MovePair{New: &b[j]})
			alone = len(moves)
		}
		j++
	}
	return out, moves
}

func commentChanges(a, b []string) int {
	lines := func(list []string) []string {
		out := make([]string, len(list))
		for i, x := range list {
			out[i] = x + "\n"
		}
		return out
	}
	n := [2]int{}
	for _, e := range edits(lines(a), lines(b)) {
		switch e.op {
		case '-':
			n[0]++
		case '+':
			n[1]++
		}
	}
	return max(n[0], n[1])
}

// programs prints the second part of a revision report.
func (t writer) programs(list []ProgramChange) {
	if len(list) == 0 {
		t.Line("None in either revision.")
	}
	for _, c := range list {
		name := c.Name
		switch {
		case c.Was == "" || c.Name == "":
			t.Line("")
			if c.Unified == "" {
				t.Hang("", "  ", c.Name+c.Was+map[bool]string{true: " is new and empty.", false: " is gone; it was empty."}[c.Was == ""])
			}
			t.Raw(visible(c.Unified))
			continue
		case c.Name != c.Was:
			name = c.Was + " -> " + c.Name
		}
		switch {
		case !c.Bytes && c.Name == c.Was:
			t.Hang("", "  ", name+": the same.")
		case !c.Bytes:
			t.Hang("", "  ", c.Was+" is now called "+c.Name+"; not a line in it changed.")
		case !c.ByMove:
			t.Line("")
			t.Raw(visible(c.Unified))
		case len(c.Acts) == 0:
			t.Hang("", "  ", name+": the machine does the same"+folded(c.Comments)+".")
		default:
			t.Line("")
			t.Hang("", "  ", fmt.Sprintf("%s: %s%s.", name, count(len(c.Acts), "change")+" in what the machine does", folded(c.Comments)))
			for _, x := range c.Acts {
				if x.After != "" {
					t.Hang("  after: ", "         ", x.After)
				} else {
					t.Line("  at the start:")
				}
				for _, a := range x.Old {
					t.Hang(fmt.Sprintf("  - %5d  ", a.Line), "           ", a.Text)
				}
				for _, a := range x.New {
					t.Hang(fmt.Sprintf("  + %5d  ", a.Line), "           ", a.Text)
				}
			}
		}
	}
}

func folded(comments int) string {
	s := "; block numbers and spaces are passed over"
	switch {
	case comments == 1:
		s += ", and 1 comment that differs"
	case comments > 1:
		s += ", and " + count(comments, "comment") + " that differ"
	}
	return s
}
