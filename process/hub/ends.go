package hub

import "math"

// Ends is what the ends of a joint do to it, over a joint of two rings of one length that
// never end (Lamé): along the bore its closure differs, and with it the pressure.
type Ends struct {
	Least   float64 // closure where it is least: where the sleeve ends with its hub
	Most    float64 // and where it is most: at its end inside the hub, or at a closed bottom
	Mean    float64 // of pressure, and of closure
	Tension float64 // highest of the hub, which is at its open face
}

// EndsOf is that of a sleeve of a length in a hub of a length and an outside, with a bore
// d, mm. Where a shorter sleeve sits in its hub is not known: at a face, or inside.
//
// Figures by finite elements (axisymmetric, 8-node, mesh halved, two codes): sleeves of
// steel, wall 0.05 d, without friction, in iron hubs 1.3 and 1.8 d outside and as long as the bore
// is wide. Of hubs between the two, and sleeves between those lengths, by straight lines; outside
// of them as at the nearest. The disturbance dies out 0.4 to 0.5 d from an end, so that it
// is the same in a longer hub. With a joint that does not slip the mean is the same
// within 3 %, and the tension at the very edge higher.
func EndsOf(d, outside, hub, sleeve float64, blind bool) Ends {
	e := Ends{1, 1, 1, 1}
	thick := math.Max(0, math.Min(1, (outside/d-1.3)/0.5))
	if share := sleeve / hub; share < 1 {
		from := math.Min(1, (1-share)/0.2) // nothing of it where the sleeve is as long
		e.Least -= from * (0.12 - 0.05*thick)
		e.Most += from * (0.37 - 0.10*thick)
		e.Tension += from * 0.21
		e.Mean += between(share, []float64{0.2, 0.4, 0.8, 1}, []float64{0.252, 0.157, 0.05, 0})
	}
	if blind {
		e.Least, e.Most = math.Min(e.Least, 0.96), math.Max(e.Most, 1.26)
		e.Tension, e.Mean = math.Max(e.Tension, 1.11), math.Max(e.Mean, 1.04)
	}
	return e
}

// Even is whether the ends do nothing.
func (e Ends) Even() bool { return e == Ends{1, 1, 1, 1} }

// between is y at x by straight lines between rising places, flat beyond them.
func between(x float64, xs, ys []float64) float64 {
	if x <= xs[0] {
		return ys[0]
	}
	for i := 1; i < len(xs); i++ {
		if x <= xs[i] {
			return ys[i-1] + (x-xs[i-1])/(xs[i]-xs[i-1])*(ys[i]-ys[i-1])
		}
	}
	return ys[len(ys)-1]
}
