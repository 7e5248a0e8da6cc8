package bar

import "math"

// soft is a length of a section beside a shoulder that bends more than its
// diameter says.
type soft struct {
	length float64 // mm
	give   float64 // on top of 1/(E·I), 1/(N·mm²)
}

// shoulders is how far the section i is softened at its end toward the nose and at
// the other. Where a bar steps from D down to d, the corner of the large section
// carries nothing: bending spreads into it from the diameter d. That is as if the
// small section were longer by
//
//	ΔL = 0.25·d·(1 − (d/D)³)^1.75
//
// with the modulus of the large section. Fitted to turned solids by finite elements
// (sharp corner, ν 0.3, D/d 1.1 to 5), which it meets within 2 % of ΔL for solid
// bars and 11 % with a hole of half to 0.7 of d; solid_test.go holds it to them.
// The rule of rotor dynamics, a cone of 45° in the large section (API 684), gives
// about half of it; a rigid stub on a half-space (Johnson, Contact Mechanics), less
// what a clamped end is stiffer, gives 0.25·d for D much larger than d.
//
// It is spread over 0.25·d of the large section. A collar too short to take it up
// gives f = F·(1 − exp(−w/F)) of it, F being what its shoulders would give and w
// what it would bend more if it were no thicker than its neighbour.
//
// The end of the bar at the nose has no shoulder: a stiffness of the nose that was
// measured has its own in it.
func (b *Beam) shoulders(i int) (near, far soft) {
	s := b.sections[i]
	full, least := 0.0, s.inertia()
	at := func(k int) (add, length float64) {
		if k < 0 || k >= len(b.sections) {
			return 0, 0
		}
		n := b.sections[k]
		if n.D >= s.D || n.inertia() >= s.inertia() {
			return 0, 0
		}
		least = min(least, n.inertia())
		add = shoulderReach * n.D * math.Pow(1-math.Pow(n.D/s.D, 3), 1.75) / (s.E * n.inertia())
		return add, shoulderReach * n.D
	}
	addNear, lengthNear := at(i - 1)
	addFar, lengthFar := at(i + 1)
	if full = addNear + addFar; full == 0 {
		return soft{}, soft{}
	}
	w := s.Length / s.E * (1/least - 1/s.inertia())
	share := (1 - math.Exp(-w/full))
	if both := lengthNear + lengthFar; both > s.Length {
		lengthNear, lengthFar = lengthNear*s.Length/both, lengthFar*s.Length/both
	}
	if addNear > 0 {
		near = soft{lengthNear, share * addNear / lengthNear}
	}
	if addFar > 0 {
		far = soft{lengthFar, share * addFar / lengthFar}
	}
	return near, far
}

// shoulderReach is the ΔL of a shoulder to a very large section, over d.
const shoulderReach = 0.25

// inertia is the second moment of area, mm⁴.
func (s Section) inertia() float64 {
	return math.Pi / 64 * (math.Pow(s.D, 4) - math.Pow(s.Hole, 4))
}
