package landing

import (
	"math"
	"sync"
)

// normal is the standard normal law by straight lines between places of a table,
// for the trials: math.Erfinv and math.Erfc take half of their time.
type normal struct {
	quantile [1025]float64 // at shares from 0 to 1
	share    [769]float64  // at −6 to 6
}

// theNormal is the one that all use: nobody writes to it.
var theNormal = sync.OnceValue(func() *normal {
	var n normal
	for i := range n.quantile {
		n.quantile[i] = quantile(float64(i) / float64(len(n.quantile)-1))
	}
	for i := range n.share {
		n.share[i] = math.Erfc(-(float64(i)/64-6)/math.Sqrt2) / 2
	}
	return &n
})

func quantile(u float64) float64 { return math.Sqrt2 * math.Erfinv(2*u-1) }

// of is the draw below which the share u lies, to 10⁻⁴.
func (n *normal) of(u float64) float64 {
	const tail = 1. / 32 // where the table bends too much
	if u < tail || u > 1-tail {
		return quantile(u)
	}
	at := u * float64(len(n.quantile)-1)
	i := int(at)
	return n.quantile[i] + (at-float64(i))*(n.quantile[i+1]-n.quantile[i])
}

// below is the share that lies below a draw of x, to 10⁻⁵.
func (n *normal) below(x float64) float64 {
	at := (x + 6) * 64
	if !(at > 0) {
		return 0
	}
	if at >= float64(len(n.share)-1) {
		return 1
	}
	i := int(at)
	return n.share[i] + (at-float64(i))*(n.share[i+1]-n.share[i])
}
