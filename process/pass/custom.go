package pass

import (
	"borewright/process"
	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

// RoughFeed is the finest feed that a shop roughs at, mm (0.003 in). Common practice, no
// source.
const RoughFeed = 0.003 * 25.4

// thinFinish is the least that a shop takes in a finish, radial, mm (0.0015 in): with
// less neither the dial nor the edge can be trusted, and limits of IT7 or wider need no
// less. Common practice, no source.
const thinFinish = 0.0015 * 25.4

// LeastFinish is the least that a shop takes in a finish to such limits, radial, mm; 0: any. A
// setting comes to the nearest graduation: the pass may be a quarter of one thinner than was
// searched for.
func LeastFinish(job *process.Job, low, high qty.Diameter) float64 {
	it7, err := iso286.Grade(low, "IT7")
	switch {
	case err != nil || high.Minus(low) < it7:
		return 0
	case job.Cutter.SetBy == process.Increment:
		return thinFinish + job.Machine.SetDial.MM()/4
	}
	return thinFinish
}

// Custom is what a shop does only where nothing else makes the bore (RoughFeed, LeastFinish). It is
// searched for once more with it where there are no passes without.
type Custom struct {
	AnyCut  bool  // roughs fed finer than a shop does, and finishes thinner than Finish, are tried
	LeftOut *bool // some were left out that keep their limits
	Finish  float64
}

// CustomOf is that of finishes to such limits.
func CustomOf(job *process.Job, low, high qty.Diameter) Custom {
	return Custom{LeftOut: new(bool), Finish: LeastFinish(job, low, high)}
}

// Leaves is whether a pass is left out that keeps its limits: one that takes or is fed so
// much, mm, where a shop takes at least so much.
func (c *Custom) Leaves(much, least float64) bool {
	if !c.Against(much, least) {
		return false
	}
	*c.LeftOut = true
	return true
}

// Against is whether a pass is left out whether it keeps its limits or not.
func (c *Custom) Against(much, least float64) bool { return !c.AnyCut && much < least-1e-9 }

// Thin is whether so little is to be cut, mm on radius, that a semi-finish may be lighter than the
// finish: less than three times LeastCut is too little for two such cuts. light: nothing lands so.
// Then it may be wherever the deepest finish takes more than half: where a lighter one springs so little that a spring
// pass after it has less to take than the edge can cut. Common practice, no source.
func (r *Judge) Thin(stock float64, light bool) bool {
	if light {
		return stock < 2*DeepestFinish
	}
	return stock < 3*r.LeastCut()
}
