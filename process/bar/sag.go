package bar

// Sag is what the bar's own weight, and that of the head, does at the cutter of
// a level bar: drop, mm, and slope of the bar there, rad, positive when the
// free end hangs down. Sag moves the axis of the bore, which is bored round all
// the same, and tilts it where the stickout changes; it does not change size.
// The slope is that of the section (bending and root), without the shear angle.
// Unit loads, as Beam.influence. A bearing is taken to stand on the unsagged axis:
// the bar sinks through half of its play, and then it carries its share of the weight.
// A line bar lies in the middle of where its play lets it lie; see Loose.
func (b *Beam) Sag() (drop, slope float64) {
	drop, slope = b.hangAt(b.cutter)
	if b.line != nil {
		for _, s := range b.seats() {
			drop, slope = drop+s.of*s.g/2, slope+s.by*s.g/2
		}
	}
	if b.support == nil {
		return drop, slope
	}
	at, _ := b.hangAt(b.support.At)
	force := max(0, at-b.support.Play/2) / b.bearingGive()
	bc, _ := b.influence(b.support.At, b.cutter)
	return drop - force*bc, slope - force*b.slopeUnder(b.cutter, b.support.At)
}

// slopeUnder is the slope at p under a unit load at q, rad/N:
//
//	θ = ∫ (q−x)/EI dx + q/k_θ,  x from 0 to the lesser of p, q
func (b *Beam) slopeUnder(p, q float64) float64 {
	if b.line != nil {
		t, _ := b.between(p, q, true)
		return t
	}
	t := q / b.root.Tilt
	for _, s := range b.parts {
		to := min(s.to, p, q)
		if to <= s.from {
			break
		}
		t += (to - s.from) * (q - (s.from+to)/2) * s.give
	}
	return t
}

// hangAt is the drop and slope at p of the bar without its bearing. Weight inside
// a part is spread evenly, and the influence of a load at y is a cubic of y (a
// square of y beyond p), so three points a part are exact.
func (b *Beam) hangAt(p float64) (drop, slope float64) {
	add := func(weight, at float64) {
		d, _ := b.influence(p, at)
		drop += weight * d
		slope += weight * b.slopeUnder(p, at)
	}
	for _, s := range b.parts {
		mid, half := (s.from+s.to)/2, (s.to-s.from)/2
		for _, g := range gauss3 {
			add(s.weight*g[1]*half, mid+g[0]*half)
		}
	}
	add(b.tip*gravity, b.cutter)
	return drop, slope
}
