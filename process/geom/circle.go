package geom

import (
	"math"

	"borewright/process/fact"
)

// Circle is a reference circle laid through readings. ISO 12181-1 terms.
type Circle struct {
	X, Y, R float64 // centre from the axis that the readings were taken about, and radius; mm
	// Outer and Inner are the radii of the two concentric circles that hold all
	// readings between them.
	Outer, Inner float64
}

// Centre is where the circle stands.
func (c Circle) Centre() Vec { return Vec{c.X, c.Y} }

// RONt is peak to valley roundness deviation about this circle, mm (ISO
// 12181-1).
func (c Circle) RONt() float64 { return c.Outer - c.Inner }

// circleAt measures all readings from a centre. radius < 0 asks for the mean
// of the outer and inner radius.
func circleAt(vs []Vec, c Vec, radius float64) Circle {
	out := Circle{X: c.X, Y: c.Y, R: radius, Inner: math.Inf(1)}
	for _, v := range vs {
		d := v.Distance(c)
		out.Outer, out.Inner = math.Max(out.Outer, d), math.Min(out.Inner, d)
	}
	if radius < 0 {
		out.R = (out.Outer + out.Inner) / 2
	}
	return out
}

// LeastSquares is the circle with the least sum of squared distances to the
// readings (LSCI of ISO 12181-1), by Gauss-Newton on the true distances, so
// that a large eccentricity is no matter:
//
//	minimise Σ(d_k − R)², d_k = √((x_k−x)² + (y_k−y)²), R = mean(d_k)
//
// The usual closed form a = (2/n)Σδ·cos θ (ISO 4291) is its limit for equal
// spacing and a small eccentricity. At least three readings that do not lie on
// one line.
func LeastSquares(ps []Point) (Circle, error) {
	vs, err := places(ps, 3)
	if err != nil {
		return Circle{}, err
	}
	c, err := startCircle(vs)
	if err != nil {
		return Circle{}, err
	}
	sum, mean := spread(vs, c)
	before := math.Inf(1) // length of the last step taken on trust
	for range 60 {
		// R is eliminated: the columns of the Jacobian are taken about their
		// mean, which leaves a 2 by 2 system.
		var mu Vec
		us := make([]Vec, len(vs))
		ds := make([]float64, len(vs))
		for i, v := range vs {
			ds[i] = v.Distance(c)
			if ds[i] > 0 {
				us[i] = v.Minus(c).Times(1 / ds[i])
			}
			mu = mu.Plus(us[i])
		}
		mu = mu.Times(1 / float64(len(vs)))
		var a, b, d, gx, gy float64
		for i, u := range us {
			w := u.Minus(mu)
			a, b, d = a+w.X*w.X, b+w.X*w.Y, d+w.Y*w.Y
			e := ds[i] - mean
			gx, gy = gx+w.X*e, gy+w.Y*e
		}
		det := a*d - b*b
		if det <= 1e-14*square(a+d) {
			break
		}
		step := Vec{(d*gx - b*gy) / det, (a*gy - b*gx) / det}
		// Near its bottom the sum is too flat to tell a better place from rounding.
		// There the step is taken on trust: residuals are small beside the radius,
		// so steps shrink until rounding is all that is left of them.
		long := step.Length()
		if long <= 1e-6*mean {
			if long >= before/2 {
				break
			}
			before = long
			c = c.Plus(step)
			sum, mean = spread(vs, c)
			continue
		}
		better := false
		for f := 1.0; f > 1e-6 && !better; f /= 2 {
			n := c.Plus(step.Times(f))
			if s, m := spread(vs, n); s < sum {
				c, sum, mean, better = n, s, m, true
			}
		}
		if !better {
			break
		}
	}
	return circleAt(vs, c, mean), nil
}

// spread is the sum of squares about the mean distance, and that mean.
func spread(vs []Vec, c Vec) (sum, mean float64) {
	for _, v := range vs {
		mean += v.Distance(c)
	}
	mean /= float64(len(vs))
	for _, v := range vs {
		sum += square(v.Distance(c) - mean)
	}
	return sum, mean
}

// startCircle is the algebraic circle fit: minimise Σ(x²+y²−2ax−2by−c)², which
// is linear (Kåsa, IEEE Trans. Instrum. Meas. 25 (1976) 8; from memory). It is
// exact for readings that lie on a circle and near enough otherwise.
func startCircle(vs []Vec) (Vec, error) {
	var mid Vec
	for _, v := range vs {
		mid = mid.Plus(v)
	}
	mid = mid.Times(1 / float64(len(vs)))
	var xx, xy, yy, xz, yz float64
	for _, v := range vs {
		w := v.Minus(mid)
		z := w.Dot(w)
		xx, xy, yy = xx+w.X*w.X, xy+w.X*w.Y, yy+w.Y*w.Y
		xz, yz = xz+w.X*z, yz+w.Y*z
	}
	det := xx*yy - xy*xy
	if det <= 1e-12*square(xx+yy) {
		return Vec{}, fact.New(ReadingsOnLine).Err()
	}
	return mid.Plus(Vec{(yy*xz - xy*yz) / (2 * det), (xx*yz - xy*xz) / (2 * det)}), nil
}
