package passes

// What a shop does only where nothing else makes the bore (pass.RoughFeed, pass.LeastFinish).
// It is searched for once more with it where there are no passes without.
type custom struct {
	anyCut      bool    // roughs fed finer than a shop does, and finishes thinner than finishLeast, are tried
	leftOut     *bool   // some were left out that keep their limits
	finishLeast float64 // the least of a finish, mm; 0: any
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
