package pass

import (
	"borewright/process/fact"
	"borewright/process/qty"
)

// Figures of the physics as arguments.

func mm(x float64) fact.Arg             { return fact.Figure(qty.FromMM(x)) }
func fine(x float64) fact.Arg           { return fact.Figure(qty.Fine(qty.FromMM(x))) }
func of(k qty.Kind, x float64) fact.Arg { return fact.Figure(k.Of(x)) }
