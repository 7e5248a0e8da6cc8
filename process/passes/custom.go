package passes

import (
	"borewright/process"
	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

// What a shop does only where nothing else makes the bore. It is searched for once
// more with it where there are no passes without.
type custom struct {
	anyCut      bool    // roughs fed finer than roughFeed, and finishes thinner than finishLeast, are tried
	leftOut     *bool   // some were left out that keep their limits
	finishLeast float64 // the least of a finish; 0: any
}

// roughFeed is the finest feed that a shop roughs at, mm (0.003 in). Common practice, no
// source.
const roughFeed = 0.003 * 25.4

// thinFinish is the least that a shop takes in a finish, radial, mm (0.0015 in): with
// less neither the dial nor the edge can be trusted, and limits of IT7 or wider need no
// less. Common practice, no source.
const thinFinish = 0.0015 * 25.4

// newCustom is that of a bore with such limits. A setting comes to the nearest graduation:
// the pass may be a quarter of one thinner than was searched for.
func newCustom(job *process.Job, low, high qty.Diameter) custom {
	c := custom{leftOut: new(bool)}
	if it7, err := iso286.Grade(low, "IT7"); err == nil && high.Minus(low) >= it7 {
		c.finishLeast = thinFinish
		if job.Cutter.SetBy == process.Increment {
			c.finishLeast += job.Machine.SetDial.MM() / 4
		}
	}
	return c
}

// leaves is whether a pass is left out that keeps its limits: one that takes or is fed so
// much, mm, where a shop takes at least so much.
func (c *custom) leaves(much, least float64) bool {
	if c.anyCut || much >= least-1e-9 {
		return false
	}
	*c.leftOut = true
	return true
}
