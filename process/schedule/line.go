package schedule

import (
	"borewright/process"
	"borewright/process/fact"
)

// A cutter that is drawn out stopped cuts a line: nothing presses on the bar any more,
// so the tip stands where it was set, and what the bar sprang it is deeper than the
// bore all round. The next pass cuts the line away where it leaves the bore no smaller
// than that setting, for certain: its least size counts.

// LineKept is the first pass of a visit that leaves a line which the pass after it may
// not cut away, by its index; -1 is the pass that was measured before them, and false
// says that there is none. Where the job allows a line, none is looked for.
func (v *Visit) LineKept() (pass int, kept bool) {
	line := v.Lined
	for i := range v.Passes {
		p := &v.Passes[i]
		if line > p.Low {
			return i - 1, true
		}
		line = 0
		if p.Out.By == process.DrawOut && p.Out.Why.Kind == OutDrawn {
			line = p.Setting
		}
	}
	return 0, false
}

// OutOfLine has the roughing passes of a visit come out as the last ones do, because
// drawn along the wall a line of theirs would be left.
func (v *Visit) OutOfLine(pass int) {
	p, next := &v.Passes[pass], &v.Passes[pass+1]
	v.RoughOut = v.LastOut
	v.RoughOut.Why = fact.New(OutKeepsLine, fact.Count(p.N), fact.Size(p.Setting), fact.Size(next.Low))
}

// LineStays says that the line of the pass measured before may show after the first of
// these.
func (v *Visit) LineStays() fact.Fact {
	p := &v.Passes[0]
	return fact.New(LineMayStay, fact.Count(v.Behind), fact.Size(v.Lined), fact.Count(p.N), fact.Size(p.Low))
}
