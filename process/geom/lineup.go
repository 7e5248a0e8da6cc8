package geom

import (
	"cmp"
	"math"

	"borewright/process/fact"
	"borewright/process/qty"

	"gonum.org/v1/gonum/mat"
)

// LineUpInput is everything that is known when the work is lined up. Lengths in
// mm, angles in mrad; every ± figure covers 95 %.
type LineUpInput struct {
	Sweeps   []Sweep
	Dial     Dial
	Stations []Target
	Bore     int // which of Stations the advice is for

	// Coaxial is how far a single bore may stand from the line that the bores
	// were made on.
	Coaxial float64
	// Square is how far a swept face may lean from square to the bores.
	Square float64
	// Parallel is how far the axis may lean from the spindle when nothing was
	// swept that shows tilt; 0: UsualParallel.
	Parallel float64

	Table *Table // nil: not stated
	Packs *Packs // nil: not stated
}

// UsualParallel is the tilt allowed for when the work is set to its machined
// face: 0.03 mm in 300 mm. Common practice, no source.
const UsualParallel = 0.1 // mrad, ±

// Target is a depth that the axis is carried to.
type Target struct {
	Station string
	Depth   float64 // from the face that the spindle enters
	// Droop is how far the boring bar hangs below the spindle axis where it cuts.
	Droop float64
}

// Table is the rotary table that the work stands on.
type Table struct {
	Centre float64 // depth of its centre, from the face that the spindle enters
	Stop   float64 // distance from its centre to the stop block or dial that an angle is set by
}

// Packs are the two ends that the work rests on, by depth; Near the nearer to
// the spindle.
type Packs struct{ Near, Far float64 }

// LineUp is where the axis of the bores stands against the spindle, and what
// to do about it.
type LineUp struct {
	// Offset of the axis from the spindle axis at the face that the spindle
	// enters (depth 0), droop taken out.
	Offset            Vec
	OffsetUncertainty float64
	Tilt              Vec
	TiltUncertainty   float64
	// Assumption is what the tilt rests on when no sweep shows it.
	Assumption fact.Fact
	AtStation  []AtStation
	Swept      []Swept
	Advice     Advice
	Notes      []fact.Fact

	// Raised is how many times the uncertainty was raised because the sweeps do
	// not lie on one line as well as the dial reads; 1: they do.
	Raised float64
}

// AtStation is where the axis stands at one depth, against the axis that the
// bar cuts on there.
type AtStation struct {
	Station     string
	Depth       float64
	Vec                 // its place
	Uncertainty float64 // ±, 95 %, in the worst direction
}

// NewLineUp lays a line through what the sweeps show:
//
//	centre(z) = p + t·z, a bore sweep measures p + t·z, a face sweep t
//
// by generalised least squares. A bore's sweeps share its want of coaxiality,
// so two depths of one bore do not make it twice as sure. Uncertainty is
// carried to every depth: far from the swept depths it grows as z/Δz.
func NewLineUp(s LineUpInput) (*LineUp, error) {
	l := &LineUp{}
	bores, shows := 0, false // whether tilt is shown
	for _, sw := range s.Sweeps {
		got, err := sw.read(s.Dial)
		if err != nil {
			return nil, err
		}
		if sw.Face {
			shows = true
		} else {
			bores++
			for _, other := range l.Swept {
				shows = shows || !other.Face && other.Depth != sw.Depth
			}
		}
		l.Swept = append(l.Swept, got)
	}
	if bores == 0 {
		return nil, fact.New(NoBoreSwept).Err()
	}
	if err := s.check(); err != nil {
		return nil, err
	}
	if !shows {
		l.Assumption = fact.New(TiltAssumed)
	}
	line, err := layLine(l.Swept, s, !shows)
	if err != nil {
		return nil, err
	}
	l.Offset, l.Tilt = line.at(0), line.t.Times(1e3)
	l.OffsetUncertainty, l.TiltUncertainty = line.uncertainty(0), 1e3*line.tiltUncertainty()
	for i, sw := range l.Swept {
		if !sw.Face {
			l.Swept[i].OffLine = clean(sw.Offset.Distance(line.at(sw.Depth)))
		}
		clock := func(deg float64) fact.Arg { return fact.Figure(qty.KindClock.Of(deg)) }
		switch un := sw.Unswept; {
		case un != nil:
			l.Notes = append(l.Notes, fact.New(OneSided, fact.Name(sw.Station), fact.MM(sw.Depth), clock(un[0]), clock(un[1])))
		case len(s.Sweeps[i].Clock) == 3:
			l.Notes = append(l.Notes, fact.New(ThreeReadings, fact.Name(sw.Station)))
		case sw.AsOffset > 0 && !sw.Face:
			l.Notes = append(l.Notes, fact.New(LobesAsOffset, fact.Name(sw.Station), fact.MM(sw.Depth), fact.Count(sw.AsOffset)))
		}
	}
	if l.Raised = line.birge; line.birge > 1 {
		l.Notes = append(l.Notes, fact.New(OffOneLine, fact.Figure(qty.KindRatio.Of(line.birge))))
	}
	if parallel := s.parallel(); shows && l.TiltUncertainty > parallel {
		l.Notes = append(l.Notes, fact.New(TiltUnsure, fact.Value(qty.KindSlope, l.TiltUncertainty), fact.Value(qty.KindSlope, parallel)))
	}
	for _, t := range s.Stations {
		p := line.at(t.Depth).Plus(Vec{0, t.Droop})
		l.AtStation = append(l.AtStation, AtStation{t.Station, t.Depth, p, line.uncertainty(t.Depth)})
	}
	if len(s.Stations) > 0 {
		l.Advice = advise(line, s)
	}
	return l, nil
}

// parallel is the tilt that is allowed for without a sweep that shows it.
func (s LineUpInput) parallel() float64 { return cmp.Or(s.Parallel, UsualParallel) }

func (s LineUpInput) check() error {
	for _, v := range []float64{s.Dial.Graduation, s.Dial.Repeats, s.Coaxial, s.Square, s.Parallel} {
		if !(v >= 0) || !finite(v) {
			return fact.New(NegativeDoubt).Err()
		}
	}
	for _, t := range s.Stations {
		if !finite(t.Depth) || !finite(t.Droop) {
			return fact.New(NotATarget, fact.Name(t.Station)).Err()
		}
	}
	if len(s.Stations) > 0 && (s.Bore < 0 || s.Bore >= len(s.Stations)) {
		return fact.New(NoSuchTarget, fact.Count(s.Bore+1), fact.Count(len(s.Stations))).Err()
	}
	if t := s.Table; t != nil && (!finite(t.Centre) || !finite(t.Stop) || t.Stop < 0) {
		return fact.New(NotATable, fact.PlainMM(t.Centre), fact.PlainMM(t.Stop)).Err()
	}
	if p := s.Packs; p != nil && (!finite(p.Near) || !finite(p.Far) || p.Far <= p.Near) {
		return fact.New(PacksInverted, fact.PlainMM(p.Near), fact.PlainMM(p.Far)).Err()
	}
	return nil
}

// axis is a fitted line with the covariance of (x, y, tx, ty) at a depth.
type axis struct {
	p, t  Vec // mm and mm/mm
	depth float64
	cov   *mat.SymDense
	// assumed: no sweep shows the tilt.
	assumed bool
	birge   float64 // what the covariance was raised by, on the standard uncertainty
}

func (a axis) at(depth float64) Vec { return a.p.Plus(a.t.Times(depth - a.depth)) }

// uncertainty at a depth: twice the standard uncertainty along the worst
// direction.
func (a axis) uncertainty(depth float64) float64 {
	z := depth - a.depth
	c := func(i, j int) float64 {
		return a.cov.At(i, j) + z*(a.cov.At(i, j+2)+a.cov.At(i+2, j)) + z*z*a.cov.At(i+2, j+2)
	}
	return 2 * worst(c(0, 0), c(0, 1), c(1, 1))
}

// surely is how surely the sweeps tell its place at a depth. A tilt that is assumed makes
// the place there less sure, but nothing that was swept: a move by what was swept is
// right all the same.
func (a axis) surely(depth float64) float64 {
	if a.assumed {
		return a.uncertainty(a.depth)
	}
	return a.uncertainty(depth)
}

func (a axis) tiltUncertainty() float64 {
	return 2 * worst(a.cov.At(2, 2), a.cov.At(2, 3), a.cov.At(3, 3))
}

// worst is the root of the larger eigenvalue of a 2 by 2 covariance.
func worst(xx, xy, yy float64) float64 {
	return math.Sqrt(math.Max(0, (xx+yy)/2+math.Hypot((xx-yy)/2, xy)))
}

// clean turns rounding error into nought, so that nobody is told to turn a
// table by 1e-17: a picometre, or a picometre in a millimetre.
func clean(v float64) float64 {
	if math.Abs(v) < 1e-9 {
		return 0
	}
	return v
}

// layLine solves the generalised least squares.
func layLine(swept []Swept, s LineUpInput, assumeParallel bool) (axis, error) {
	a := axis{birge: 1, assumed: assumeParallel}
	n := 0
	for _, sw := range swept {
		if !sw.Face {
			a.depth += sw.Depth
			n++
		}
	}
	a.depth /= float64(n)

	rows := 2 * len(swept)
	if assumeParallel {
		rows += 2
	}
	h := mat.NewDense(rows, 4, nil)
	v := mat.NewSymDense(rows, nil)
	y := mat.NewVecDense(rows, nil)
	for i, sw := range swept {
		r := 2 * i
		seen := sw.Offset
		shared := square(s.Coaxial / 2)
		if sw.Face {
			h.Set(r, 2, 1)
			h.Set(r+1, 3, 1)
			seen, shared = sw.Tilt.Times(1e-3), square(s.Square/2e3)
		} else {
			z := sw.Depth - a.depth
			h.SetRow(r, []float64{1, 0, z, 0})
			h.SetRow(r+1, []float64{0, 1, 0, z})
		}
		y.SetVec(r, seen.X)
		y.SetVec(r+1, seen.Y)
		v.SetSym(r, r, sw.cov[0]+shared)
		v.SetSym(r, r+1, sw.cov[1])
		v.SetSym(r+1, r+1, sw.cov[2]+shared)
		for j, other := range swept[:i] {
			if other.Station == sw.Station && other.Face == sw.Face {
				v.SetSym(r, 2*j, shared)
				v.SetSym(r+1, 2*j+1, shared)
			}
		}
	}
	if assumeParallel {
		for k := range 2 {
			r := rows - 2 + k
			h.Set(r, 2+k, 1)
			v.SetSym(r, r, square(s.parallel()/2e3))
		}
	}

	var weight mat.Cholesky
	if !weight.Factorize(v) {
		return a, fact.New(SweepsContradict).Err()
	}
	var vh mat.Dense // V⁻¹H
	if err := weight.SolveTo(&vh, h); err != nil {
		return a, fact.New(SweepsContradict).Err()
	}
	var m mat.Dense
	m.Mul(h.T(), &vh)
	sym := mat.NewSymDense(4, nil)
	for i := range 4 {
		for j := range i + 1 {
			sym.SetSym(j, i, (m.At(i, j)+m.At(j, i))/2)
		}
	}
	var normal mat.Cholesky
	if !normal.Factorize(sym) {
		return a, fact.New(NoLine).Err()
	}
	var rhs, beta mat.VecDense
	rhs.MulVec(vh.T(), y)
	// A condition number that is large only because mm and mm/mm differ is no
	// failure; SolveVecTo reports it as an error with the answer given.
	_ = normal.SolveVecTo(&beta, &rhs)
	a.cov = mat.NewSymDense(4, nil)
	_ = normal.InverseTo(a.cov)
	for i := range 4 {
		if !finite(beta.AtVec(i)) || !finite(a.cov.At(i, i)) {
			return a, fact.New(NoLine).Err()
		}
	}
	a.p = Vec{clean(beta.AtVec(0)), clean(beta.AtVec(1))}
	a.t = Vec{clean(beta.AtVec(2)), clean(beta.AtVec(3))}

	// More was swept than a line needs: when it does not fit as well as it
	// should, everything is that much less sure (Birge ratio).
	if free := rows - 4; free > 0 && !assumeParallel {
		var left, wl mat.VecDense
		left.MulVec(h, &beta)
		left.SubVec(y, &left)
		if err := weight.SolveVecTo(&wl, &left); err == nil {
			if b := math.Sqrt(mat.Dot(&left, &wl) / float64(free)); b > 1 {
				a.birge = b
				a.cov.ScaleSym(b*b, a.cov)
			}
		}
	}
	return a, nil
}
