package landing

import "math/rand/v2"

// Draw is what is drawn of one trial that is no pass.
type Draw struct {
	u   []float64
	law *normal
}

// Even is the draw of a cause that is anything between 0 and 1, as likely.
func (d Draw) Even(cause int) float64 { return d.u[cause] }

// Normal is the draw of a cause of a standard normal law.
func (d Draw) Normal(cause int) float64 { return d.law.of(d.u[cause]) }

// Below is what share of a standard normal law lies below x.
func (d Draw) Below(x float64) float64 { return d.law.below(x) }

// Try is the mean over trials of what come gives of a draw of so many causes, and the
// half-width (95 %) of what it is off by: over the nets that passes are tried by.
func Try(causes int, come func(Draw) float64) (chance, off float64) {
	plain := make([]directions, causes)
	for i := range plain {
		plain[i] = sobol(i)
	}
	d := Draw{make([]float64, causes), theNormal()}
	var of [nets]float64
	for i := range of {
		n := newNet(plain, rand.New(rand.NewPCG(0x626f7265, uint64(i))))
		for range 1 << lengthLog {
			n.point(d.u)
			of[i] += come(d) / (1 << lengthLog)
		}
	}
	return mean(of[:])
}
