package measured

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/distuv"

	"borewright/process/qty"
	"borewright/process/slow"
)

// simulatedShop is a shop made up for a test, with formulas of its own: bars are held at one
// end by a spindle that gives across and in tilt, and the force of a chip goes with its depth and a power
// of the feed.
type simulatedShop struct {
	rnd         *rand.Rand
	force, nose float64 // over what is predicted and stated
	shared      float64 // share of the variance of gauge and setting that a job has in common
	scatter     float64 // of the force between jobs, standard deviation
	bars        []simulatedBar
	noise       float64 // standard deviation of a spring seen, by gauge and setting, mm
}

// simulatedBar is a round bar of steel, out by so much of what it gives.
type simulatedBar struct{ diameter, length, out float64 }

func newSimulatedShop(rnd *rand.Rand, nose float64, bars int) *simulatedShop {
	s := &simulatedShop{rnd: rnd, force: 0.8 + 0.5*rnd.Float64(), nose: nose, shared: rnd.Float64(), scatter: 0.1 * rnd.Float64(), noise: 0.0033}
	for _, over := range []float64{2.5, 4, 7}[:bars] { // lengths in diameters
		d := 50 + 30*rnd.Float64()
		s.bars = append(s.bars, simulatedBar{d, over * d, 1 + 0.1/1.96*rnd.NormFloat64()})
	}
	return s
}

// job is the cuts of a job, by one bar.
func (s *simulatedShop) job(name string) (out []ShopCut) {
	const modulus, across, tilt = 205e3, 150e3, 1.2e10 // N/mm², N/mm, N·mm/rad
	b := s.bars[s.rnd.IntN(len(s.bars))]
	own := s.force * (1 + s.scatter*s.rnd.NormFloat64())
	common := math.Sqrt(s.shared) * s.noise * s.rnd.NormFloat64()
	for range 3 + s.rnd.IntN(4) {
		depth, feed := 0.3+1.2*s.rnd.Float64(), 0.08+0.2*s.rnd.Float64()
		force := 700 * depth * math.Pow(feed, 0.7) // N, radial
		bar := 2 * force * math.Pow(b.length, 3) / (3 * modulus * math.Pi * math.Pow(b.diameter, 4) / 64)
		root := 2 * force * (1/across + b.length*b.length/tilt)
		c := ShopCut{Job: name, Machine: "mill", Cut: Cut{Bar: qty.DiameterMM(b.diameter), Stickout: qty.FromMM(b.length), BarGive: bar, RootGive: root, Predicted: qty.FromMM(bar + root)}}
		spring := own * (bar*b.out + root/s.nose)
		repeats := 0.025 * spring
		c.Noise = math.Hypot(s.noise, repeats)
		c.Seen = qty.FromMM(spring + common + math.Sqrt(1-s.shared)*s.noise*s.rnd.NormFloat64() + repeats*s.rnd.NormFloat64())
		out = append(out, c)
	}
	return out
}

// What is said of force and nose holds the truth in 94 of 100 shops or more: with a nose
// as stated or not, bars alike or not, few jobs or many, errors of a job its own or in common.
func TestShopIsKnownAsSaid(t *testing.T) {
	rounds := slow.Rounds(t, "shops of a kind", 40, 1)
	type share struct{ force, nose, of int }
	kinds := map[string]*share{}
	count := func(kind string, force, nose bool) {
		if kinds[kind] == nil {
			kinds[kind] = &share{}
		}
		k := kinds[kind]
		k.of++
		if force {
			k.force++
		}
		if nose {
			k.nose++
		}
	}
	apart := 0
	for _, jobs := range []int{2, 5, 20, 100} {
		if jobs == 100 {
			if testing.Short() {
				continue
			}
			rounds /= 3
		}
		for bars := 1; bars <= 3; bars += 2 {
			for _, nose := range []float64{0.7, 1, 1.4} {
				rnd := rand.New(rand.NewPCG(uint64(jobs), uint64(100*nose)+uint64(bars)))
				for range rounds {
					s := newSimulatedShop(rnd, nose, bars)
					var cuts []ShopCut
					for i := range jobs {
						cuts = append(cuts, s.job(fmt.Sprint("J-", i))...)
					}
					f := FitShop(cuts)[0]
					force, root := s.force >= f.ForceWithin[0] && s.force <= f.ForceWithin[1], nose >= f.RootWithin[0] && nose <= f.RootWithin[1]
					count(fmt.Sprint(jobs, " jobs"), force, root)
					count(fmt.Sprint("nose ", nose), force, root)
					if f.Apart && jobs == 100 {
						apart++
					}
					if f.Apart && bars == 1 || !f.Apart && (f.Root != 1 || f.Why.None()) {
						t.Fatalf("%d jobs, %d bars: %+v", jobs, bars, f)
					}
				}
			}
		}
	}
	for kind, k := range kinds {
		for what, n := range map[string]int{"force": k.force, "nose": k.nose} {
			got := float64(n) / float64(k.of)
			t.Logf("%s: %s known in %.3f of %d", kind, what, got, k.of)
			if least := 0.94 - 2*math.Sqrt(0.94*0.06/float64(k.of)); got < least {
				t.Errorf("%s: %s lies where it is said in %.3f of %d shops, under %.3f", kind, what, got, k.of, least)
			}
		}
	}
	if !testing.Short() && apart < rounds { // of three times as many that have unlike bars
		t.Errorf("told apart in %d of %d shops of 100 jobs", apart, 3*rounds)
	}
}

// Given the four figures of the grid the answer is that of generalised least squares with
// the covariance written out, and its likelihood the density of the readings: gonum's matrices and
// its normal law are the check.
func TestShopGivenTheGrid(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	sim := newSimulatedShop(rnd, 0.8, 3)
	var cuts []ShopCut
	for i := range 4 {
		cuts = append(cuts, sim.job(fmt.Sprint("J-", i))...)
	}
	s, n := newShop(cuts), len(cuts)
	dense := func(kappa, rho, scale, tau float64) (force, spread, log float64) {
		v, p, y := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
		for i, c := range cuts {
			p.SetVec(i, c.BarGive+c.RootGive/kappa)
			y.SetVec(i, c.Seen.MM())
		}
		for i, a := range cuts {
			for k, b := range cuts[:i+1] {
				var cov float64
				if a.Bar == b.Bar {
					cov += a.BarGive * b.BarGive * math.Pow(s.force*0.1/1.96, 2)
				}
				if a.Job == b.Job {
					cov += math.Pow(tau*s.force, 2)*p.AtVec(i)*p.AtVec(k) + rho*scale*scale*a.Noise*b.Noise
				}
				if i == k {
					cov += (1 - rho) * scale * scale * a.Noise * a.Noise
				}
				v.SetSym(i, k, cov)
			}
		}
		var chol mat.Cholesky
		if !chol.Factorize(v) {
			t.Fatal("no covariance")
		}
		var vp, vy mat.VecDense
		if chol.SolveVecTo(&vp, p) != nil || chol.SolveVecTo(&vy, y) != nil {
			t.Fatal("not solved")
		}
		pp := mat.Dot(p, &vp)
		force = mat.Dot(p, &vy) / pp
		at := mat.VecDenseCopyOf(p)
		at.ScaleVec(force, at)
		law, ok := distmv.NewNormal(at.RawVector().Data, v, nil)
		if !ok {
			t.Fatal("no law")
		}
		// The force integrated over: a normal law in it of the height of its best.
		return force, 1 / math.Sqrt(pp), law.LogProb(y.RawVector().Data) - math.Log(pp)/2
	}
	var logs [2][]float64
	for _, at := range [][4]float64{{0.7, 0.1, 1, 0}, {1, 0.6, 1.4, 0.08}, {1.6, 0.85, 2, 0.2}} {
		for _, j := range s.jobs {
			j.shared(at[1])
			j.nose(at[0])
		}
		got, ok := s.at(at[2], at[3])
		force, spread, log := dense(at[0], at[1], at[2], at[3])
		if !ok || math.Abs(got.force-force) > 1e-6*force || math.Abs(got.spread-spread) > 1e-6*spread {
			t.Errorf("%v: force %v ±%v, by the covariance %v ±%v", at, got.force, got.spread, force, spread)
		}
		logs[0], logs[1] = append(logs[0], got.mass), append(logs[1], log)
	}
	for i := range logs[0][1:] {
		if got, want := logs[0][i+1]-logs[0][0], logs[1][i+1]-logs[1][0]; math.Abs(got-want) > 1e-6*(1+math.Abs(want)) {
			t.Errorf("likelihood over that of the first %v, by the law %v", got, want)
		}
	}
}

// With one bar, the nose as stated and jobs that differ more than their cuts, the doubt is
// that of the mean of so many jobs by Student's t (1908), however many cuts each has, with what the bar
// is out.
func TestShopByStudent(t *testing.T) {
	for _, jobs := range []int{5, 8, 12} {
		var means []float64
		var cuts []ShopCut
		for i := range jobs {
			// Half normal places: a sample that is what it should be.
			own := 1.1 * (1 + 0.12*distuv.UnitNormal.Quantile((float64(i)+0.5)/float64(jobs)))
			means = append(means, own)
			for range 6 {
				cuts = append(cuts, ShopCut{Job: fmt.Sprint(i), Machine: "mill", Cut: Cut{Bar: qty.DiameterMM(60), Stickout: qty.FromMM(300), BarGive: 0.3, RootGive: 0.1, Predicted: qty.FromMM(0.4), Noise: 0.003, Seen: qty.FromMM(0.4 * own)}})
			}
		}
		f := FitShop(cuts)[0]
		got := (f.ForceIfStated[1] - f.ForceIfStated[0]) / 2
		student := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(jobs - 1)}.Quantile(0.975) * stat.StdDev(means, nil) / math.Sqrt(float64(jobs))
		want := math.Hypot(student, 0.1*0.75*1.1)
		t.Logf("%d jobs: ±%.3f, by Student ±%.3f", jobs, got, want)
		if got < 0.8*want || got > 1.25*want {
			t.Errorf("%d jobs: ±%.3f, by Student ±%.3f", jobs, got, want)
		}
		if f.ForceWithin[1]-f.ForceWithin[0] < 2*got {
			t.Errorf("%d jobs: the nose unknown, and the force known better", jobs)
		}
	}
}

func BenchmarkFitShop(b *testing.B) {
	s := newSimulatedShop(rand.New(rand.NewPCG(1, 2)), 0.8, 3)
	var cuts []ShopCut
	for i := range 20 {
		cuts = append(cuts, s.job(fmt.Sprint(i))...)
	}
	for b.Loop() {
		FitShop(cuts)
	}
}
