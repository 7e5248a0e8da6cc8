package hub

import (
	"math"

	"borewright/process/qty"
)

// Ends is what the ends of a joint do to it, over a joint of two rings of one length that
// never end (Lamé): along the bore its closure differs, and with it the pressure.
type Ends struct {
	Least   float64 // closure where it is least: where the sleeve ends with its hub
	Most    float64 // and where it is most: at its end inside the hub, or at a closed bottom
	Mean    float64 // of pressure, and of closure
	Tension float64 // highest of the hub, which is at its open face
}

// Joint is a sleeve in its hub, mm.
type Joint struct {
	Bore, Outside float64    // of the hub
	Hub, Sleeve   float64    // how long each is in the other; a shorter sleeve sits at a face, or inside: not known
	Wall          float64    // of the sleeve, with Out
	Nu            float64    // Poisson's ratio of the sleeve, with Out
	Out           [2]float64 // how far the sleeve stands out at either end
	Blind         bool       // the hub is closed at its far end
}

// Ends is what its ends do to the joint.
//
// Figures by finite elements (axisymmetric, 8-node, mesh halved, two codes): sleeves of
// steel, wall 0.05 d, without friction, in iron hubs 1.3 and 1.8 d outside and as long as the bore
// is wide. Of hubs between the two, and sleeves between those lengths, by straight lines; outside
// of them as at the nearest. The disturbance dies out 0.4 to 0.5 d from an end, so that it
// is the same in a longer hub. With a joint that does not slip the mean is the same
// within 3 %, and the tension at the very edge higher.
//
// Where a sleeve stands out, see free.
func (j Joint) Ends() Ends {
	e := Ends{1, 1, 1, 1}
	thick := math.Max(0, math.Min(1, (j.Outside/j.Bore-1.3)/0.5))
	if share := j.Sleeve / j.Hub; share < 1 {
		from := math.Min(1, (1-share)/0.2) // nothing of it where the sleeve is as long
		e.Least -= from * (0.12 - 0.05*thick)
		e.Most += from * (0.37 - 0.10*thick)
		e.Tension += from * 0.21
		e.Mean += qty.Between(share, []float64{0.2, 0.4, 0.8, 1}, []float64{0.252, 0.157, 0.05, 0})
	}
	if j.Blind {
		e.Least, e.Most = math.Min(e.Least, 0.96), math.Max(e.Most, 1.26)
		e.Tension, e.Mean = math.Max(e.Tension, 1.11), math.Max(e.Mean, 1.04)
	}
	for _, out := range j.Out {
		if out > 0 {
			j.free(out, &e)
		}
	}
	return e
}

// free puts on the ends what an end of the sleeve does that stands out by so much, mm.
// The sleeve is a thin shell of mean radius a and wall t, pressed evenly up to the face of
// the hub, free beyond it (Timoshenko, Theory of Plates and Shells, bending of long
// cylindrical shells, from memory). Its free end closes, over the closure far inside, by
//
//	e^−ξ (cos ξ − sin ξ),  ξ = out · (3(1 − ν²))^¼ / √(a t)
//
// which is 1 for no length, and −e^−π/2 at the least, at ξ = π/2: the end opens a little.
// Farther out it is taken to open so much. The face of the hub presses on the sleeve
// besides, as on √(a t) times 0.27 more of length, and is itself stressed to 1.55 times:
// by finite elements of four sleeves that stand out by 10 to 35 mm (steel and bronze, in
// hubs 1.8 d outside). A joint that does not slip presses 2 % more in the mean.
func (j Joint) free(out float64, e *Ends) {
	length := math.Sqrt((j.Bore - j.Wall) / 2 * j.Wall)
	xi := math.Min(math.Pi/2, out*math.Pow(3*(1-j.Nu*j.Nu), 0.25)/length)
	e.Least = math.Min(e.Least, math.Exp(-xi)*(math.Cos(xi)-math.Sin(xi)))
	part := math.Min(1, out/(0.6*length)) // of what the face does, for a short end
	e.Mean += part * 0.27 * length / j.Hub
	e.Tension = math.Max(e.Tension, 1+0.55*part)
}

// Even is whether the ends do nothing.
func (e Ends) Even() bool { return e == Ends{1, 1, 1, 1} }
