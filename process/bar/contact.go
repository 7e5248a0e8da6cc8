package bar

import "math"

// Contact is how a bar runs in a bearing with play while it cuts.
type Contact struct {
	Push   float64 // of the tip toward smaller radius, mm, in the mean of a turn
	Uneven float64 // the most over the least of it in a turn, mm, once a turn (which only moves the axis) taken out
	Held   float64 // 0 to 1: how much of what the bearing can do against a small radial motion it does where it does least
	Moves  float64 // how far the bar moves in the bearing at most, mm
	Idle   bool    // it touches nowhere in the turn
}

// Meet solves the contact of bar and bearing for a load that turns with the tip while
// the weight of the bar stays down. The bar is free until it has moved through half of
// the play; there the bearing pushes back along the line to its middle, without friction.
// A round bar gives alike all ways, so it moves along the line e that it would move
// free, and the force N follows at once:
//
//	|e| − N·δ_bb = g + N/k_b,  N = (|e| − g)/(δ_bb + 1/k_b),  g half of the play
//
// (contact with a gap, any text on structures). Against a small motion the bearing
// does cos²φ + (1 − g/|e|)·sin²φ of what it does without play, φ between the motion and
// e: along e it is stiff, across it the bar rolls in its bush.
//
// Without a bearing or without play it is Push. The bush is taken as short, as
// round and true to the axis, and without its film of oil.
func (b *Beam) Meet(l Load) Contact {
	if b.line == nil && b.support == nil {
		return Contact{Push: b.Push(l), Idle: true}
	}
	if b.Gap() == nil {
		return Contact{Push: b.Push(l), Held: 1}
	}
	return b.Gap().Meet(l)
}

// Gap is a bar in a bearing with play, worked out once: what Meet depends on.
type Gap struct {
	g             float64 // half of the play
	cutter, arm   float64 // of the free bar at the cutter, as Compliance and ArmCompliance
	bush, bushArm float64 // at the bearing for force and moment at the cutter
	give          float64 // of bar and bearing between them
	hang          float64 // of the free bar at the bearing

	line *lineGap // of a line bar; nothing else is used then

	turned [clock][2]float64  // sine and cosine of the places of a turn
	half   [clock / 2]float64 // cosines of the places in the middle between, of half a turn
}

// Gap is nil where the bar has no bearing, or none with play.
func (b *Beam) Gap() *Gap {
	if b.line != nil {
		if b.line[0].Play == 0 && b.line[1].Play == 0 {
			return nil
		}
		return &Gap{line: &lineGap{seats: b.seats(), cutter: b.Compliance(), arm: b.ArmCompliance()}}
	}
	if b.support == nil || b.support.Play == 0 {
		return nil
	}
	k := &Gap{g: b.support.Play / 2, give: b.bearingGive(), arm: b.slopeUnder(b.cutter, b.cutter)}
	k.cutter, _ = b.influence(b.cutter, b.cutter)
	k.bush, _ = b.influence(b.support.At, b.cutter)
	k.bushArm = b.slopeUnder(b.cutter, b.support.At)
	k.hang, _ = b.hangAt(b.support.At)
	for i := range k.half {
		k.half[i] = math.Cos(2 * math.Pi * (float64(i) + 0.5) / clock)
	}
	for i := range k.turned {
		k.turned[i][0], k.turned[i][1] = math.Sincos(2 * math.Pi * float64(i) / clock)
	}
	return k
}

// clock is how many places of a turn are looked at.
const clock = 24

// Push is the Push of Meet alone. In the mean of a turn nothing but the size r of the
// movement that the cut makes at the bearing decides how far the bearing takes it back:
// along it, not across. Where the bar, h off the middle of the bearing by its weight, touches
// all round, it takes back r − g·M, M the mean of cos φ over a turn, in closed form:
//
//	r < h: M = r/(2h)·F(½, ½; 2; r²/h²);  r > h: M = F(½, −½; 1; h²/r²)
//
// F is Gauss's series (DLMF 15.2.1; M is a sum of complete elliptic integrals). Elsewhere half of a
// turn, from one end of that line to the other, stands for the whole.
func (k *Gap) Push(l Load) float64 {
	if k.line != nil {
		return k.line.push(l)
	}
	free := k.cutter*l.Radial - k.arm*l.Arm
	in, across := k.bush*l.Radial-k.bushArm*l.Arm, k.bush*l.Tangential
	square, h := in*in+across*across, k.hang
	if 4*square <= h*h && 2*(h-k.g) >= h { // so r is a half of h at the most, and h − r at least g
		return free - (1-k.g/(2*h)*series(&lying, square/(h*h)))*in*k.bush/k.give
	}
	r := math.Sqrt(square)
	if r == 0 || r+h <= k.g {
		return free // it touches nowhere, or all round alike
	}
	if r >= 2*h && r-h >= k.g {
		return free - (1-k.g/r*series(&carried, h*h/square))*in*k.bush/k.give
	}
	var back float64
	twice, rest := 2*r*h, square+h*h
	for _, cos := range k.half {
		if e2 := rest + twice*cos; e2 > k.g*k.g {
			back += (1 - k.g/math.Sqrt(e2)) * (r + h*cos)
		}
	}
	return free - back/float64(len(k.half))*in/r*k.bush/k.give
}

// Coefficients of F(½, ½; 2; x), of a bar that lies at the bottom of its bearing, and F(½, −½; 1; x),
// of one that the cut carries round: for x up to a quarter the rest is below 1e-13.
var lying, carried = gauss(0.5, 0.5, 2), gauss(0.5, -0.5, 1)

// gauss are the coefficients of F(a, b; c; x), of rising powers of x.
func gauss(a, b, c float64) (out [20]float64) {
	out[0] = 1
	for n := range len(out) - 1 {
		k := float64(n)
		out[n+1] = out[n] * (a + k) * (b + k) / ((c + k) * (1 + k))
	}
	return out
}

// series is the sum of coefficients by rising powers of x, 0 to a quarter.
func series(of *[20]float64, x float64) float64 {
	sum, power := 1.0, x
	for _, c := range of[1:] {
		more := c * power
		sum += more
		if math.Abs(more) < 1e-16 {
			break
		}
		power *= x
	}
	return sum
}

// Held is the Held of Meet alone: where the bar touches,
//
//	cos²φ + (1 − g/|e|)·sin²φ = 1 − g·y²/|e|³,  y what of e is across the motion
func (k *Gap) Held(l Load) float64 {
	if k.line != nil {
		return k.line.meet(l).Held
	}
	in, across := k.bush*l.Radial-k.bushArm*l.Arm, k.bush*l.Tangential
	most := 0.0 // y⁴/e⁶
	for _, at := range &k.turned {
		x, y := in+k.hang*at[1], across+k.hang*at[0]
		y *= y
		e := x*x + y
		if e <= k.g*k.g {
			return 0
		}
		most = max(most, y*y/(e*e*e))
	}
	return min(1, 1-k.g*math.Sqrt(most))
}

// Meet is that of the beam.
func (k *Gap) Meet(l Load) Contact {
	if k.line != nil {
		return k.line.meet(l)
	}
	in, across := k.bush*l.Radial-k.bushArm*l.Arm, k.bush*l.Tangential
	out := Contact{Held: 1, Idle: true, Moves: math.Hypot(in, across) + k.hang}
	var push [clock]float64
	back := k.bush / k.give
	for i := range push {
		s, c := k.turned[i][0], k.turned[i][1]
		x, y := in+k.hang*c, across+k.hang*s
		e := math.Sqrt(x*x + y*y)
		if e <= k.g {
			out.Held = 0
			continue
		}
		out.Idle = false
		along, free := x*x/(e*e), 1-k.g/e
		out.Held = min(out.Held, along+free*(1-along))
		push[i] = -back * free * x
	}
	out.Push = k.cutter*l.Radial - k.arm*l.Arm
	var cos, sin, mean float64
	for i, p := range push {
		s, c := k.turned[i][0], k.turned[i][1]
		mean, cos, sin = mean+p, cos+p*c, sin+p*s
	}
	mean, cos, sin = mean/clock, cos/(clock/2), sin/(clock/2)
	least, most := math.Inf(1), math.Inf(-1)
	for i, p := range push {
		s, c := k.turned[i][0], k.turned[i][1]
		p -= cos*c + sin*s
		least, most = min(least, p), max(most, p)
	}
	out.Push += mean
	out.Uneven = most - least
	return out
}

// Free is the same bar without its bearing.
func (b *Beam) Free() *Beam {
	free := &Beam{sections: b.sections, root: b.root, cutter: b.cutter, tip: b.tip, length: b.length}
	free.cut()
	return free
}

// Yielding is the same bar in a spindle that gives so many times as much, or in two bearings
// that do; 0 is rigid.
func (b *Beam) Yielding(times float64) *Beam {
	other := &Beam{sections: b.sections, root: b.root, cutter: b.cutter, support: b.support, line: b.line, tip: b.tip, length: b.length}
	if b.line == nil {
		other.root.Radial, other.root.Tilt = b.root.Radial/times, b.root.Tilt/times
	} else {
		other.line = &pair{b.line[0], b.line[1]}
		other.line[0].Stiffness, other.line[1].Stiffness = b.line[0].Stiffness/times, b.line[1].Stiffness/times
	}
	other.cut()
	return other
}
