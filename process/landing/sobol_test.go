package landing

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"borewright/process/qty"
	"borewright/process/slow"
)

func directionsOf(dimensions int) []directions {
	all := make([]directions, dimensions)
	for i := range all {
		all[i] = sobol(i)
	}
	return all
}

// Every place of the plain sequence is SciPy's (testdata/landing/reference.py).
func TestSobolAgainstReference(t *testing.T) {
	f, err := os.Open("../../testdata/landing/sobol.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 1<<lengthLog || len(rows[0]) != len(primitive)+1 {
		t.Fatalf("%d points of %d places", len(rows), len(rows[0]))
	}
	n := net{directions: directionsOf(len(rows[0])), at: make([]uint32, len(rows[0]))}
	u := make([]float64, len(rows[0]))
	for i, row := range rows {
		n.point(u)
		for j, s := range row {
			if want, _ := strconv.Atoi(s); int(256*u[j]) != want {
				t.Fatalf("point %d, dimension %d: %v, want %d/256", i, j+1, u[j], want)
			}
		}
	}
}

// A scrambled net is a net: each box of volume 2^(t−m) has 2^t of its 2^m points, with t
// the sum of the degrees of the polynomials less one each (Sobol' 1967; H. Niederreiter,
// Random Number Generation and Quasi-Monte Carlo Methods, SIAM 1992, theorem 4.49).
func TestScrambledNetIsNet(t *testing.T) {
	for seed := range uint64(5) {
		const dimensions = 5
		n := newNet(directionsOf(dimensions), rand.New(rand.NewPCG(seed, 1)))
		points := make([][]float64, 1<<lengthLog)
		for i := range points {
			points[i] = make([]float64, dimensions)
			n.point(points[i])
		}
		for s, quality := range map[int]int{1: 0, 2: 0, 3: 1, 4: 3, 5: 5} {
			var halve func(cuts []int, left int)
			halve = func(cuts []int, left int) {
				if len(cuts) < s-1 {
					for c := range left + 1 {
						halve(append(cuts, c), left-c)
					}
					return
				}
				cuts = append(cuts, left)
				boxes := map[int]int{}
				for _, p := range points {
					box := 0
					for j, c := range cuts {
						box = box<<c | int(p[j]*float64(int(1)<<c))
					}
					boxes[box]++
				}
				if len(boxes) != 1<<(lengthLog-quality) {
					t.Fatalf("seed %d, halved %v times: %d boxes of %d have points", seed, cuts, len(boxes), 1<<(lengthLog-quality))
				}
				for _, n := range boxes {
					if n != 1<<quality {
						t.Fatalf("seed %d, halved %v times: a box has %d points, not %d", seed, cuts, n, 1<<quality)
					}
				}
			}
			halve(nil, lengthLog-quality)
		}
	}
}

// Means that are known: ∏(|4x−2|+a)/(1+a) with a = 0, 1, 2, … is 1 on the cube, its variance
// ∏(1 + 1/(3(1+a)²)) − 1 (A. Saltelli and I. M. Sobol', Reliab. Eng. Syst. Saf. 50 (1995)
// 225–239), and exp(Σb·z) of normal draws is exp(Σb²/2), its variance exp(Σb²)·(exp(Σb²) − 1).
// The error told covers what it misses by, and is at most an eighth of that of plain
// draws. Dimensions beyond the table are plain draws: their mean is 1/2 all the same.
func TestKnownMeans(t *testing.T) {
	law := theNormal()
	for _, x := range []struct {
		name           string
		dimensions     int
		f              func(u []float64) float64
		mean, variance float64
		better         float64
	}{
		{"corners", 6, func(u []float64) float64 {
			f := 1.0
			for a, x := range u {
				f *= (math.Abs(4*x-2) + float64(a)) / float64(1+a)
			}
			return f
		}, 1, func() float64 {
			v := 1.0
			for a := range 6 {
				v *= 1 + 1/(3*float64(1+a)*float64(1+a))
			}
			return v - 1
		}(), 8},
		{"exponential", 12, func(u []float64) float64 {
			sum := 0.0
			for _, x := range u {
				sum += 0.1 * law.of(x)
			}
			return math.Exp(sum)
		}, math.Exp(0.06), math.Exp(0.12) * (math.Exp(0.12) - 1), 8},
		{"beyond the table", len(primitive) + 2, func(u []float64) float64 { return u[len(u)-1] }, 0.5, 1. / 12, 0.5},
	} {
		var of [nets]float64
		u := make([]float64, x.dimensions)
		for i := range of {
			n := newNet(directionsOf(x.dimensions), rand.New(rand.NewPCG(5, uint64(i))))
			for range 1 << lengthLog {
				n.point(u)
				of[i] += x.f(u) / (1 << lengthLog)
			}
		}
		got, off := mean(of[:])
		plain := 1.96 * math.Sqrt(x.variance/(nets<<lengthLog))
		if math.Abs(got-x.mean) > 1.5*off || off > plain/x.better {
			t.Errorf("%s: %.6f ± %.6f, want %.6f; plain draws would be good to %.6f", x.name, got, off, x.mean, plain)
		}
	}
}

// The error told covers what the chance misses by in nine of ten scramblings or more
// (a few nets are far off where the chance is near 1, and 95 of 100 are for a normal law), also where settings are rounded to a coarse dial, with and without a
// gauge's error, and where a way out rubs.
func TestErrorTold(t *testing.T) {
	n := slow.Rounds(t, "scramblings of a trial", 400, 30)
	carried := usual()
	carried.Carried, carried.Sigma.Stood, carried.Sprang, carried.Step = true, 0.0066, 0.03, 0.001
	coarse := carried
	coarse.Step = 0.02
	sure := coarse
	sure.Sigma.Gauge = 0
	out := usual()
	out.Passes[2].Out = &Cut{Depth: 0.004, Force: 6, K: 800, Least: 0.0045}
	for name, h := range map[string]Trial{"set anew": usual(), "carried": carried, "coarse dial": coarse, "no gauge's error": sure, "fed out": out} {
		type told struct{ chance, off float64 }
		var measured, blind []told
		for seed := range n {
			b := h.budget(qty.Metric, uint64(seed))
			measured, blind = append(measured, told{b.Chance, b.Error}), append(blind, told{b.Blind, b.BlindError})
		}
		for side, all := range [][]told{measured, blind} {
			mean, covered := 0.0, 0
			for _, x := range all {
				mean += x.chance / float64(n)
			}
			for _, x := range all {
				if math.Abs(x.chance-mean) <= x.off {
					covered++
				}
			}
			share := float64(covered) / float64(n)
			if slack := 3 * math.Sqrt(0.95*0.05/float64(n)); share < 0.90-slack || share > 0.98+slack {
				t.Errorf("%s, side %d: chance %.5f, the error told covers %.3f", name, side, mean, share)
			}
			t.Logf("%s, side %d: chance %.5f, the error told, ± %.5f, covers %.3f", name, side, mean, all[0].off, share)
		}
	}
}

// The tables of the normal law against the standard library.
func TestNormal(t *testing.T) {
	law := theNormal()
	for i := 1; i < 100_000; i++ {
		u := float64(i) / 100_000
		if got, want := law.of(u), math.Sqrt2*math.Erfinv(2*u-1); math.Abs(got-want) > 1e-4 {
			t.Fatalf("below %v lies %v of the draws, the table has %v", want, u, got)
		}
		x := 16*u - 8
		if got, want := law.below(x), math.Erfc(-x/math.Sqrt2)/2; math.Abs(got-want) > 1e-5 {
			t.Fatalf("%v of the draws lie below %v, the table has %v", want, x, got)
		}
	}
}
