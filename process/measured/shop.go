package measured

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/mat"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// ShopCut is one measured cut of a finished job.
type ShopCut struct {
	Job     string // number and revision
	Machine string // its ID
	Cut
}

// ShopCuts are the cuts of a job that its spring was learned from.
func ShopCuts(job *process.Job, seen *Findings) []ShopCut {
	var out []ShopCut
	if seen == nil {
		return nil
	}
	for _, c := range seen.Cuts {
		if c.Counts {
			out = append(out, ShopCut{Job: job.Number + " " + job.Revision, Machine: job.Machine.ID, Cut: c})
		}
	}
	return out
}

// BarSpring is spring predicted against seen for one bar and stickout.
type BarSpring struct {
	Bar             qty.Diameter
	Stickout        qty.Length
	Cuts            int
	Predicted, Seen qty.Length // mean, on diameter
	Ratio, Spread   float64    // seen over predicted, weighed; its standard deviation between cuts
}

// ShopFit is what the finished jobs of one machine say of it.
type ShopFit struct {
	Machine string
	Cuts    int
	Bars    []BarSpring

	Force, ForceDoubt float64   // cutting force over predicted, and ± (95 %)
	Root, RootDoubt   float64   // stiffness of the nose over stated, and ± (95 %)
	Apart             bool      // the two could be told apart
	Why               fact.Fact // if not: why
	Misfit            float64   // root mean square of what is left, in standard deviations of a measurement
}

// FitShop fits force and root stiffness to measured cuts, a row for each
// machine, by machine. The spring of a cut is
//
//	y = φ·(B + R/κ) + e,   e ~ N(0, σ²)
//
// B and R being what bar and spindle give by the model at the depth that was
// cut, φ the factor on the force and κ the one on the stiffness of the nose. In
// a = φ, b = φ/κ it is straight, and weighed least squares solve it:
//
//	[a b]ᵀ = (XᵀWX)⁻¹·XᵀWy,  W = diag(1/σ²),  cov = s²·(XᵀWX)⁻¹
//
// with s² the mean square of what is left over, taken for no less than 1; κ =
// a/b by the law of propagation (JCGM 100, 5.1; least squares: any text, as
// Draper and Smith, Applied Regression Analysis, from memory). Bars of unlike
// slenderness are needed to tell the two apart: with one stickout only their
// product shows, and then the nose is left as stated.
func FitShop(cuts []ShopCut) []ShopFit {
	by := map[string][]ShopCut{}
	var names []string
	for _, c := range cuts {
		if c.Predicted <= 0 || c.Noise <= 0 {
			continue
		}
		if by[c.Machine] == nil {
			names = append(names, c.Machine)
		}
		by[c.Machine] = append(by[c.Machine], c)
	}
	sort.Strings(names)
	var out []ShopFit
	for _, n := range names {
		f := ShopFit{Machine: n, Cuts: len(by[n]), Root: 1, Bars: barsOf(by[n])}
		f.fit(by[n])
		out = append(out, f)
	}
	return out
}

// rootDoubtMost is how well the stiffness of the nose must come out to be told
// apart from the force at all, as a fraction of it (95 %).
const rootDoubtMost = 0.6

func (f *ShopFit) fit(cuts []ShopCut) {
	n := len(cuts)
	two := mat.NewDense(n, 2, nil)
	one := mat.NewDense(n, 1, nil)
	y := mat.NewVecDense(n, nil)
	for i, c := range cuts {
		two.SetRow(i, []float64{c.BarGive / c.Noise, c.RootGive / c.Noise})
		one.Set(i, 0, (c.BarGive+c.RootGive)/c.Noise)
		y.SetVec(i, c.Seen.MM()/c.Noise)
	}
	if n >= 3 {
		if x, cov, misfit, ok := leastSquares(two, y); ok && x[0] > 0 && x[1] > 0 {
			root := x[0] / x[1]
			relative := cov[0][0]/(x[0]*x[0]) + cov[1][1]/(x[1]*x[1]) - 2*cov[0][1]/(x[0]*x[1])
			doubt := sigmas * root * math.Sqrt(math.Max(0, relative))
			if doubt <= rootDoubtMost*root {
				f.Apart, f.Misfit = true, misfit
				f.Force, f.ForceDoubt = x[0], sigmas*math.Sqrt(cov[0][0])
				f.Root, f.RootDoubt = root, doubt
				return
			}
		}
		f.Why = fact.New(TooAlike)
	} else {
		f.Why = fact.New(TooFewCuts, fact.Count(n))
	}
	if x, cov, misfit, ok := leastSquares(one, y); ok {
		f.Force, f.ForceDoubt, f.Misfit = x[0], sigmas*math.Sqrt(cov[0][0]), misfit
	}
}

// leastSquares solves X·b = y, already weighed, and gives the covariance of b.
func leastSquares(x *mat.Dense, y *mat.VecDense) (b []float64, cov [][]float64, misfit float64, ok bool) {
	n, k := x.Dims()
	var normal mat.Dense
	normal.Mul(x.T(), x)
	var inverse mat.Dense
	if err := inverse.Inverse(&normal); err != nil {
		return nil, nil, 0, false
	}
	var best mat.VecDense
	if err := best.SolveVec(x, y); err != nil { // by QR: better than the normal equations
		return nil, nil, 0, false
	}
	var left mat.VecDense
	left.MulVec(x, &best)
	left.SubVec(y, &left)
	s2 := mat.Dot(&left, &left)
	misfit = math.Sqrt(s2 / float64(n))
	scale := 1.0
	if n > k {
		scale = math.Max(1, s2/float64(n-k))
	}
	for i := range k {
		b = append(b, best.AtVec(i))
		row := make([]float64, k)
		for j := range k {
			row[j] = scale * inverse.At(i, j)
		}
		cov = append(cov, row)
	}
	return b, cov, misfit, true
}

// barsOf sums the cuts up by bar and stickout, the stiffest first.
func barsOf(cuts []ShopCut) []BarSpring {
	type key struct {
		bar      qty.Diameter
		stickout qty.Length
	}
	by := map[key][]ShopCut{}
	var order []key
	for _, c := range cuts {
		k := key{c.Bar, c.Stickout}
		if by[k] == nil {
			order = append(order, k)
		}
		by[k] = append(by[k], c)
	}
	sort.Slice(order, func(i, j int) bool {
		a, b := order[i], order[j]
		if x, y := a.stickout.MM()/a.bar.MM(), b.stickout.MM()/b.bar.MM(); x != y {
			return x < y
		}
		return a.stickout < b.stickout
	})
	var out []BarSpring
	for _, k := range order {
		s := BarSpring{Bar: k.bar, Stickout: k.stickout, Cuts: len(by[k])}
		var predicted, seen, xy, xx float64
		for _, c := range by[k] {
			p, y := c.BarGive+c.RootGive, c.Seen.MM()
			predicted, seen = predicted+p, seen+y
			xy, xx = xy+p*y/(c.Noise*c.Noise), xx+p*p/(c.Noise*c.Noise)
		}
		n := float64(s.Cuts)
		s.Predicted, s.Seen, s.Ratio = qty.FromMM(predicted/n), qty.FromMM(seen/n), xy/xx
		for _, c := range by[k] {
			s.Spread += math.Pow(c.Seen.MM()/(c.BarGive+c.RootGive)-s.Ratio, 2)
		}
		if s.Cuts > 1 {
			s.Spread = math.Sqrt(s.Spread / (n - 1))
		}
		out = append(out, s)
	}
	return out
}
