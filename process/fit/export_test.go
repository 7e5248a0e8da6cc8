package fit

// What the tests see of the arithmetic; they stand outside, where facts have
// words.
var (
	NewSeat           = newSeat
	RingCoefficients  = ringCoefficients
	AssemblyClearance = assemblyClearance
)

// Tightened is how the interference changes from the room to work.
func (in PressInput) Tightened(d float64) Band { return in.tightens(d) }

// BoreGrown is how the finished bore grows from the room to t °C.
func (in PressInput) BoreGrown(d, t float64, bonded bool) Band { return in.boreGrows(d, t, bonded) }
