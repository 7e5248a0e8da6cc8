package geom

import (
	"math"

	"borewright/process/fact"
	"borewright/process/qty"

	"gonum.org/v1/gonum/mat"
)

// Sweep is one run of a dial round a bore or a face, the spindle turned by
// hand. Lengths in mm.
type Sweep struct {
	Station string
	Depth   float64   // where the dial runs, from the face that the spindle enters
	Face    bool      // the dial runs on a face, on a circle of Diameter
	Clock   []float64 // degrees
	// Dial readings: larger is further from the spindle axis (bore) or further
	// in (face).
	Dial     []float64
	Diameter float64 // face: circle the dial runs on. Bore: its diameter, 0: not known
	// Stylus is the angle between the way a lever dial's stylus travels and the
	// direction measured, degrees: true = reading·cos(Stylus). 0: plunger dial.
	Stylus float64
	// Droop is how far the dial is carried below the spindle axis by the weight
	// of bar, arm and dial. It hangs down wherever the spindle stands, so a bore
	// that is true reads high by Droop. Not used on a face.
	Droop float64
	// OutOfRound is what is known of the form of the bore (radial peak to valley)
	// or the flatness of the face; 0: what is usual and what the readings show.
	OutOfRound float64
}

// Dial is the instrument.
type Dial struct {
	Graduation float64 // mm; read to the nearest
	Repeats    float64 // ± mm, 95 %
}

// Swept is what one sweep says.
type Swept struct {
	Station string
	Depth   float64
	Face    bool
	// Bore: its middle from the spindle axis, droop taken out.
	Offset Vec
	// Face: slope of the axis that stands square to it.
	Tilt Vec
	// TIR is the total indicator reading that the offset alone would show,
	// 2·offset; on a face, diameter times slope. Spread is largest less least
	// reading.
	TIR    float64
	Spread float64
	// Form is peak to valley of what the offset does not explain: out-of-round,
	// scatter, or (on a face) want of flatness. 0 with three readings.
	Form float64
	// OffLine is how far this bore stands from the line laid through all.
	OffLine float64

	// Doubtful are readings that do not go with the others of the sweep. They are
	// used all the same.
	Doubtful []Outlying

	// Unswept is the side that was not swept, half a turn or more: clock positions
	// from and to; nil: all round.
	Unswept *[2]float64
	// AsOffset is the least number of lobes, 2 or 3, that these places take for an
	// offset; 0: none.
	AsOffset int

	cov [3]float64 // xx, xy, yy of Offset (mm²) or Tilt (rad²)
}

// dialRadius is the radius that dial readings are laid on to be judged as those of a
// worn bore are, mm; it takes no part in the answer.
const dialRadius = 100

// doubts judges a sweep's readings by Doubtful. data are the readings along the
// direction measured, without what an offset of a round bore adds to them.
func (s Sweep) doubts(data, along []float64) []Outlying {
	ps := make([]Point, len(data))
	for k, c := range s.Clock {
		ps[k] = Point{c, dialRadius + data[k]}
	}
	var out []Outlying
	for _, d := range Doubtful(ps) {
		added := data[d.Index] - along[d.Index]
		out = append(out, Outlying{d.Index, (d.Expected - dialRadius - added) / math.Cos(s.Stylus*math.Pi/180)})
	}
	return out
}

// leastUncertainty is the least standard uncertainty a reading is credited with, mm: a
// tenth of a micron. It keeps a perfect dial from dividing by nothing.
const leastUncertainty = 1e-4

// read fits a sweep.
//
//	bore: dial_k·cos β = c + x·sin θ_k + y·cos θ_k − (R − √(R²−s_k²))
//	face: dial_k·cos β = c + (D/2)(g_x·sin θ_k + g_y·cos θ_k)
//
// and what the form adds; see believed.
// s_k is the offset square to the direction of the dial; the bracket is the
// second harmonic that a round bore shows when it is off by much, and is left
// out when its diameter is not stated. The tilt of a swept bore adds Rφ²/2 to
// it, a fraction of a micron.
func (s Sweep) read(d Dial) (Swept, error) {
	out := Swept{Station: s.Station, Depth: s.Depth, Face: s.Face}
	n := len(s.Clock)
	refuse := func(k fact.Kind, args ...fact.Arg) error {
		return fact.New(SweepRefused, fact.Name(s.Station), fact.PlainMM(s.Depth), fact.Fact{Kind: k, Args: args}).Err()
	}
	switch {
	case n != len(s.Dial):
		return out, refuse(UnlikeLengths, fact.Count(n), fact.Count(len(s.Dial)))
	case n < 3:
		return out, refuse(UnderThree, fact.Count(n))
	case !finite(s.Depth) || !finite(s.Diameter) || s.Diameter < 0 || s.Face && s.Diameter == 0:
		return out, refuse(NoCircleSwept, fact.PlainMM(s.Diameter))
	case !(math.Abs(s.Stylus) < 85) || !finite(s.Droop) || !(s.OutOfRound >= 0) || !finite(s.OutOfRound):
		return out, refuse(NotADial, fact.Value(qty.KindAngle, s.Stylus), fact.PlainMM(s.Droop), fact.PlainMM(s.OutOfRound))
	}
	tilted := math.Cos(s.Stylus * math.Pi / 180)
	a := mat.NewDense(n, 3, nil)
	y := make([]float64, n)
	lo, hi := math.Inf(1), math.Inf(-1)
	for k, c := range s.Clock {
		if !finite(c) || !finite(s.Dial[k]) {
			return out, refuse(NotADialReading, fact.Count(k+1))
		}
		u := AtClock(c)
		a.SetRow(k, []float64{1, u.X, u.Y})
		y[k] = s.Dial[k] * tilted
		lo, hi = math.Min(lo, s.Dial[k]), math.Max(hi, s.Dial[k])
	}
	out.Spread = hi - lo
	var normal mat.SymDense
	normal.SymOuterK(1, a.T())
	var chol mat.Cholesky
	if !chol.Factorize(&normal) || chol.Cond() > 1e8 {
		return out, refuse(ClocksTooNear)
	}
	var e Vec
	var fit mat.VecDense
	res, laid := make([]float64, n), make([]float64, n)
	for range 20 { // contracts by offset over radius
		data := mat.NewVecDense(n, nil)
		for k, c := range s.Clock {
			data.SetVec(k, y[k])
			if r := s.Diameter / 2; !s.Face && r > 0 {
				side := clampTo(e.cross(AtClock(c)), -r, r)
				data.SetVec(k, y[k]+r-math.Sqrt(r*r-side*side))
			}
		}
		var rhs mat.VecDense
		rhs.MulVec(a.T(), data)
		if err := chol.SolveVecTo(&fit, &rhs); err != nil {
			return out, refuse(ClocksTooNear)
		}
		for k := range res {
			laid[k] = data.AtVec(k)
			res[k] = data.AtVec(k) - mat.Dot(a.RowView(k), &fit)
		}
		next := Vec{fit.AtVec(1), fit.AtVec(2)}
		moved := next.Distance(e)
		e = next
		if moved < 1e-10 {
			break
		}
	}
	var sum float64
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, r := range res {
		sum += r * r
		lo, hi = math.Min(lo, r), math.Max(hi, r)
	}
	out.Form = hi - lo
	if out.Form < 1e-9 {
		out.Form = 0
	}
	if !s.Face && s.Diameter > 0 && e.Length() >= s.Diameter/2 {
		return out, refuse(OffsetOverRadius, fact.MM(e.Length()))
	}
	out.Doubtful = s.doubts(laid, y)

	// One reading: graduation as a rectangle, repeatability as stated.
	u := math.Sqrt(square(d.Graduation)/12 + square(d.Repeats/2))
	scatter := 0.0
	if n > 3 {
		scatter = math.Sqrt(sum / float64(n-3))
	}
	e, out.cov = s.believed(laid, math.Max(u, leastUncertainty), scatter)
	out.TIR = 2 * e.Length()
	out.doubted(s, a, &chol)
	if !s.Face {
		out.Offset = e.Minus(Vec{0, s.Droop})
		return out, nil
	}
	// Further in at 3 o'clock means that the square axis leans left as it goes
	// in: slope = −gradient.
	r := s.Diameter / 2
	out.Tilt = e.Times(-1e3 / r)
	for i := range out.cov {
		out.cov[i] /= r * r
	}
	return out, nil
}
