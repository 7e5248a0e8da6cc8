package bar

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// solid is a turned body in bending as a solid, not as a beam: displacements
// u·cos θ along r, v·sin θ round and w·cos θ along z (first harmonic of Fourier),
// quadrilaterals of eight nodes over the half section, three by three Gauss points
// (Zienkiewicz & Taylor, The Finite Element Method, semi-analytical finite element
// processes; from memory, held by TestSolidItself to what is exact). Nothing of it is
// shared with Beam.
type solid struct {
	e, nu  float64
	rs, zs []float64 // lines of the mesh
	at     map[[2]int]int
	where  [][2]float64 // of each node, r and z
	cells  [][2]int
}

// spread are points from a to b, n pieces and more, that lie close at the ends
// that are told.
func spread(a, b float64, n int, nearA, nearB bool) []float64 {
	out := make([]float64, 0, n+1)
	for i := range n + 1 {
		t := float64(i) / float64(n)
		switch {
		case nearA && nearB:
			t = t * t * (3 - 2*t)
		case nearA:
			t = t * t
		case nearB:
			t = 1 - (1-t)*(1-t)
		}
		out = append(out, a+(b-a)*t)
	}
	return out
}

// newSolid meshes cylinders end to end, per times as fine as it must be.
func newSolid(s []Section, per int) *solid {
	m := &solid{e: s[0].E, nu: s[0].Nu, at: map[[2]int]int{}}
	var radii []float64
	for _, x := range s {
		radii = append(radii, x.Hole/2, x.D/2)
	}
	slices.Sort(radii)
	radii = slices.Compact(radii)
	outer := radii[len(radii)-1]
	for i := 1; i < len(radii); i++ {
		a, b := radii[i-1], radii[i]
		n := max(2, int(math.Ceil(float64(3*per)*(b-a)/outer)))
		p := spread(a, b, n, i > 1, i < len(radii)-1)
		if i > 1 {
			p = p[1:]
		}
		m.rs = append(m.rs, p...)
	}
	m.zs = []float64{0}
	z := 0.0
	for i, x := range s {
		n := max(3*per, int(math.Ceil(float64(per)*x.Length/outer)))
		m.zs = append(m.zs, spread(z, z+x.Length, n, i > 0, i < len(s)-1)[1:]...)
		z += x.Length
	}
	inside := func(r, z float64) bool {
		for _, x := range s {
			if z < x.Length {
				return r > x.Hole/2 && r < x.D/2
			}
			z -= x.Length
		}
		return false
	}
	for j := 0; j+1 < len(m.zs); j++ {
		for i := 0; i+1 < len(m.rs); i++ {
			if inside((m.rs[i]+m.rs[i+1])/2, (m.zs[j]+m.zs[j+1])/2) {
				m.cells = append(m.cells, [2]int{i, j})
			}
		}
	}
	// Nodes at corners and middles of sides, numbered along z last so that the band is narrow.
	used := map[[2]int]bool{}
	for _, c := range m.cells {
		for _, k := range eight {
			used[[2]int{2*c[0] + k[0], 2*c[1] + k[1]}] = true
		}
	}
	half := func(x []float64, i int) float64 { return (x[i/2] + x[(i+1)/2]) / 2 }
	for j := 0; j < 2*len(m.zs)-1; j++ {
		for i := 0; i < 2*len(m.rs)-1; i++ {
			if k := [2]int{i, j}; used[k] {
				m.at[k] = len(m.where)
				m.where = append(m.where, [2]float64{half(m.rs, i), half(m.zs, j)})
			}
		}
	}
	return m
}

// eight are the nodes of an element, in half steps of the mesh.
var eight = [8][2]int{{0, 0}, {2, 0}, {2, 2}, {0, 2}, {1, 0}, {2, 1}, {1, 2}, {0, 1}}

// shapes are the eight functions and their slopes at a point of −1…1 each way.
func shapes(x, y float64) (n, nx, ny [8]float64) {
	for k, e := range eight {
		a, b := float64(e[0]-1), float64(e[1]-1)
		switch {
		case a != 0 && b != 0:
			n[k] = (1 + a*x) * (1 + b*y) * (a*x + b*y - 1) / 4
			nx[k] = a * (1 + b*y) * (2*a*x + b*y) / 4
			ny[k] = b * (1 + a*x) * (a*x + 2*b*y) / 4
		case a == 0:
			n[k] = (1 - x*x) * (1 + b*y) / 2
			nx[k], ny[k] = -x*(1+b*y), (1-x*x)*b/2
		default:
			n[k] = (1 - y*y) * (1 + a*x) / 2
			nx[k], ny[k] = (1-y*y)*a/2, -y*(1+a*x)
		}
	}
	return n, nx, ny
}

// stiffness assembles the band, without supports.
func (m *solid) stiffness() *mat.SymBandDense {
	width := 0
	nodes := make([][8]int, len(m.cells))
	for c, cell := range m.cells {
		lo, hi := 1<<30, 0
		for k, e := range eight {
			n := m.at[[2]int{2*cell[0] + e[0], 2*cell[1] + e[1]}]
			nodes[c][k] = n
			lo, hi = min(lo, n), max(hi, n)
		}
		width = max(width, 3*(hi-lo)+2)
	}
	k := mat.NewSymBandDense(3*len(m.where), width, nil)
	raw := k.RawSymBand()
	g := m.e / (2 * (1 + m.nu))
	lame := m.e * m.nu / ((1 + m.nu) * (1 - 2*m.nu))
	for c, cell := range m.cells {
		r0, r1, z0, z1 := m.rs[cell[0]], m.rs[cell[0]+1], m.zs[cell[1]], m.zs[cell[1]+1]
		var ke [24][24]float64
		for _, gx := range gaussThree {
			for _, gy := range gaussThree {
				n, nx, ny := shapes(gx[0], gy[0])
				r := (r0+r1)/2 + gx[0]*(r1-r0)/2
				w := gx[1] * gy[1] * (r1 - r0) / 2 * (z1 - z0) / 2 * r * math.Pi
				var b [6][24]float64 // strains rr, zz, θθ, rz, rθ, zθ of u, v, w at each node
				for i := range 8 {
					dr, dz := nx[i]*2/(r1-r0), ny[i]*2/(z1-z0)
					u, v, ww := 3*i, 3*i+1, 3*i+2
					b[0][u], b[1][ww] = dr, dz
					b[2][u], b[2][v] = n[i]/r, n[i]/r
					b[3][u], b[3][ww] = dz, dr
					b[4][u], b[4][v] = -n[i]/r, dr-n[i]/r
					b[5][v], b[5][ww] = dz, -n[i]/r
				}
				for i := range 24 {
					vol := lame * (b[0][i] + b[1][i] + b[2][i])
					s := [6]float64{vol + 2*g*b[0][i], vol + 2*g*b[1][i], vol + 2*g*b[2][i], g * b[3][i], g * b[4][i], g * b[5][i]}
					for j := i; j < 24; j++ {
						sum := 0.0
						for q := range 6 {
							sum += s[q] * b[q][j]
						}
						ke[i][j] += w * sum
					}
				}
			}
		}
		for i := range 24 {
			for j := i; j < 24; j++ {
				p, q := 3*nodes[c][i/3]+i%3, 3*nodes[c][j/3]+j%3
				if p > q {
					p, q = q, p
				}
				raw.Data[p*raw.Stride+q-p] += ke[i][j]
			}
		}
	}
	return k
}

var gaussThree = [3][2]float64{{-math.Sqrt(0.6), 5.0 / 9}, {0, 8.0 / 9}, {math.Sqrt(0.6), 5.0 / 9}}

// solve holds freedoms fast and gives the work of each load under each, as a
// matrix: for unit loads the flexibility.
func (m *solid) solve(t testing.TB, held []int, loads ...[]float64) [][]float64 {
	t.Helper()
	k := m.stiffness()
	for _, h := range held {
		k.SetSymBand(h, h, k.At(h, h)*1e9)
	}
	var chol mat.BandCholesky
	if !chol.Factorize(k) {
		t.Fatal("the solid is not held")
	}
	out := make([][]float64, len(loads))
	for i, f := range loads {
		var x mat.VecDense
		if err := chol.SolveVecTo(&x, mat.NewVecDense(len(f), f)); err != nil {
			t.Fatal(err)
		}
		for _, g := range loads {
			out[i] = append(out[i], mat.Dot(&x, mat.NewVecDense(len(g), g)))
		}
	}
	return out
}

// face gives the nodes at z and what a traction of 1 there along u, of the form p(r), is at
// each: π·∫N·p·r·dr.
func (m *solid) face(z float64, p func(r float64) float64) map[int]float64 {
	out := map[int]float64{}
	j := 2 * slices.IndexFunc(m.zs, func(x float64) bool { return math.Abs(x-z) < 1e-9 })
	for i := 0; i+1 < len(m.rs); i++ {
		var ns [3]int
		ok := true
		for k := range 3 {
			n, is := m.at[[2]int{2*i + k, j}]
			ns[k], ok = n, ok && is
		}
		if !ok {
			continue
		}
		for _, g := range gaussThree {
			x := g[0]
			r := (m.rs[i]+m.rs[i+1])/2 + x*(m.rs[i+1]-m.rs[i])/2
			for k, n := range [3]float64{x * (x - 1) / 2, 1 - x*x, x * (x + 1) / 2} {
				out[ns[k]] += math.Pi * n * p(r) * r * g[1] * (m.rs[i+1] - m.rs[i]) / 2
			}
		}
	}
	return out
}

// pull is a unit force across at the face z, spread evenly over it; turn a unit moment,
// as bending spreads it.
func (m *solid) pull(z, d, hole float64) []float64 {
	f := make([]float64, 3*len(m.where))
	area := math.Pi / 4 * (d*d - hole*hole)
	for n, x := range m.face(z, func(float64) float64 { return 1 / area }) {
		f[3*n] += x
		f[3*n+1] -= x
	}
	return f
}

func (m *solid) turn(z, d, hole float64) []float64 {
	f := make([]float64, 3*len(m.where))
	inertia := math.Pi / 64 * (math.Pow(d, 4) - math.Pow(hole, 4))
	for n, x := range m.face(z, func(r float64) float64 { return r / inertia }) {
		f[3*n+2] += x
	}
	return f
}

// root is the face z = 0 held flat: w = 0, and where clamped u and v too, else only
// against moving across.
func (m *solid) root(clamped bool) (held []int) {
	for n, p := range m.where {
		if p[1] == 0 {
			held = append(held, 3*n+2)
			if clamped {
				held = append(held, 3*n, 3*n+1)
			} else if p[0] == m.rs[0] || len(held) == 1 {
				held = append(held, 3*n, 3*n+1)
			}
		}
	}
	return held
}
