package verify

import (
	"fmt"
	"slices"

	"borewright/post/rs274"
	"borewright/post/verify/around"
	"borewright/post/verify/script"
	"borewright/post/verify/sentence"
	"borewright/post/verify/through"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/schedule"
)

// springAgain is the index of the pass that the control's programs hold once more, in blocks
// with /; -1: there is none.
func springAgain(c *process.Control, v *plan.Visit) int {
	if c.SpringAgain != 0 {
		for i := len(v.Passes) - 1; i >= 0; i-- {
			if v.Passes[i].Kind == schedule.Spring && v.Passes[i].Hold != nil {
				return i
			}
		}
	}
	return -1
}

// withAgain is the visit with the pass cut twice.
func withAgain(v *plan.Visit, at int) *plan.Visit {
	twice := *v
	twice.Passes = slices.Insert(slices.Clone(v.Passes), at+1, v.Passes[at])
	return &twice
}

// holdAgain replays the program once more with block delete off, and holds it against the
// visit with the spring pass cut twice; f has followed it with block delete on. What f has
// found at a line is not said again. The stops of the blocks with / get their places.
func (f *follower) holdAgain(program []byte, d rs274.Dialect, p *plan.Plan, bores []through.Bore, first, at int, words *script.Words) {
	if f.unread {
		return
	}
	if len(words.Deleted) == 0 {
		f.out.Add(f.line, 'M', script.KindPass, fmt.Sprintf("pass %d does not stand once more", f.v.Passes[at].N),
			"its blocks, with both stops, again behind the stop to measure it, each with / in front")
		return
	}
	out := &script.Findings{}
	g := newFollower(p, bores, withAgain(f.v, at), out)
	g.said, g.saidS, g.again = f.said, f.saidS, at+1
	g.around = around.New(p.Job, &p.Bores[first], g.v, g.axis, words.Numbers, out)
	d.DeleteOn = false
	g.run(program, d)
	clean := !f.out.Has(0, 1<<30)
	out.Once(g.stopLines(), g.misread, g.cutLines())
	for _, x := range out.Done(program, d) {
		if own := slices.Contains(words.Deleted, x.Line); own || clean {
			if !f.out.Has(x.Line, x.Line) {
				if x.Kind != script.KindCode {
					x.What += " (block delete off)"
				}
				f.out.Put(x)
			}
		}
	}
	for _, line := range words.Deleted {
		if g.span[0] == 0 || line <= g.span[0] || line > g.span[1] {
			if !f.out.Has(line, line) {
				f.out.Add(line, 0, script.KindCode, "a block that the operator's switch can skip", fmt.Sprintf("/ in front of the blocks of pass %d taken again, and of no others", f.v.Passes[at].N))
			}
			break // one / too many, or a run of them: said once
		}
	}
	for line, x := range g.places {
		if _, seen := f.places[line]; !seen {
			f.places[line] = sentence.Place{Before: before(x.Before, at), After: before(x.After, at)}
		}
	}
}

// before is an index of a pass where one behind at stands twice.
func before(i, at int) int {
	if i > at {
		return i - 1
	}
	return i
}
