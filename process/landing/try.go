package landing

// Draw is what is drawn of one trial that is no pass.
type Draw struct {
	of  []dimension
	at  int // of all points
	law *normal
}

// Even is the draw of a cause that is anything between 0 and 1, as likely.
func (d Draw) Even(cause int) float64 { return d.of[cause].even[d.at] }

// Normal is the draw of a cause of a standard normal law.
func (d Draw) Normal(cause int) float64 { return d.of[cause].normal()[d.at] }

// Below is what share of a standard normal law lies below x.
func (d Draw) Below(x float64) float64 { return d.law.below(x) }

// Try is the mean over trials of what come gives of a draw of so many causes, and the
// half-width (95 %) of what it is off by: over the nets that passes are tried by.
func Try(causes int, come func(Draw) float64) (chance, off float64) {
	d := Draw{of: dimensionsOf(theSeed, causes), law: theNormal()}
	var of [nets]float64
	for d.at = range nets << lengthLog {
		of[d.at>>lengthLog] += come(d) / (1 << lengthLog)
	}
	return mean(of[:])
}
