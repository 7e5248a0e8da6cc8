package passes

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"borewright/process"
	"borewright/process/landing"
	"borewright/process/qty"
	"borewright/process/slow"
)

// plain cuts the last passes of a trial once, everything drawn anew, by formulas of
// its own: the edge gives way until depth and push together are what it overlaps
// by, which for a straight force is one division. The bore's diameter at 20 °C. What the gauge
// finds is held against what is expected.
func plain(h *landing.Trial, gain, expected float64, rng draws) float64 {
	s := h.Sigma
	root := h.Root * math.Exp(s.Root*rng.NormFloat64())
	force := math.Max(0.2, 1+s.Force*rng.NormFloat64())
	worn := rng.NormFloat64() // one edge in all passes
	feed := s.Feed * rng.NormFloat64()
	work, bar, rubs := s.Kelvin*rng.NormFloat64(), s.Kelvin*rng.NormFloat64(), rng.IntN(2) == 0
	stood := s.Stood*rng.NormFloat64() + h.Sprang*((h.Bar+root)*force/(h.Bar+h.Root)-1) + h.ByFeed*feed
	if !h.Carried {
		stood = 0
	}
	bore, turned, missed := 2*h.Start, 0.0, stood
	for _, p := range h.Passes {
		if !p.Again {
			draw := s.Set * rng.NormFloat64()
			switch {
			case h.Carried && p.Anew: // over the bar, by an edge just honed
				stood = s.Anew / s.Set * draw
				missed = stood
			case h.Carried:
				stood += draw
				missed = stood
			default:
				missed = draw
			}
		}
		tip := p.Setting + h.BarGrows*bar + missed + turned
		give := 2 * (h.Bar + root) * force * (1 + s.Spring*rng.NormFloat64()) // on diameter, for 1 N
		cuts := func(force, k, depth, least float64) {
			d := (tip - bore - give*(force-k*depth)) / (1 + give*k/2) // a diameter: twice the depth
			if d > 0 && d >= 2*least {
				bore += d
			}
		}
		cuts(p.Force+p.Wear*worn+p.Feed*feed, p.K, p.Depth, 0)
		if p.Out != nil {
			least := 0.0
			if rubs {
				least = p.Out.Least
			}
			cuts(p.Out.Force+p.Out.Wear*worn+p.Out.Feed*feed, p.Out.K, p.Out.Depth, least)
		}
		if p.Measured {
			found := bore + s.Gauge*rng.NormFloat64()
			shift := -gain * (found - expected)
			if h.Step > 0 {
				shift = math.Round(shift/h.Step) * h.Step
			}
			turned += shift
		}
	}
	return bore - h.Grows*work
}

// draws are where errors come from.
type draws interface {
	NormFloat64() float64
	IntN(n int) int
}

// none draws that nothing is off, and that no edge rubs.
type none struct{}

func (none) NormFloat64() float64 { return 0 }
func (none) IntN(n int) int       { return n - 1 }

// expects is the bore that the gauge finds where nothing is off, as it is printed.
func expects(h landing.Trial) float64 {
	i := slices.IndexFunc(h.Passes, func(p landing.Pass) bool { return p.Measured })
	h.Passes = h.Passes[:i+1]
	if i < 0 {
		return 0
	}
	return plain(&h, 0, 0, none{}) + h.Passes[i].Rounded
}

// The chance of landing against a million plain trials of the test's own (four in the long form), on the
// example jobs and where a coarse dial's steps or a way out that cuts stand in the
// way of a smooth mean. The error that is told is no larger than that of 100,000
// plain trials would be. 95 of 100 lie between the sizes told.
func TestChanceAgainstPlainTrials(t *testing.T) {
	n := slow.Rounds(t, "plain trials of a job, measured and not", 1_000_000, 100_000, 4_000_000)
	narrow := func(by float64) func(*landing.Trial) {
		return func(h *landing.Trial) {
			middle, half := (h.Limits[0]+h.Limits[1])/2, (h.Limits[1]-h.Limits[0])/2
			h.Limits = [2]float64{middle - half*by, middle + half*by}
		}
	}
	for _, x := range []struct {
		name, job string
		change    func(*process.Job)
		then      func(*landing.Trial)
	}{
		{"lock winch", "lock-winch/job.toml", nil, narrow(1)},
		{"gear case", "gear-case/job.toml", nil, narrow(0.5)},
		{"ferry ramp", "ferry-ramp/job.toml", nil, narrow(0.5)},
		{"hand pump", "hand-pump/job.toml", nil, narrow(0.5)},
		{"coarse dial", "lock-winch/job.toml", func(j *process.Job) {
			j.Cutter.SetBy, j.Machine.SetDial = process.Increment, 25*qty.Micrometre
		}, narrow(0.8)},
		{"fed out", "lock-winch/job.toml", nil, func(h *landing.Trial) {
			for i := range h.Passes {
				p := &h.Passes[i]
				p.Out = &landing.Cut{Depth: 0.01, Force: 10, K: 800, Least: 0.012}
			}
		}},
	} {
		r := firstPlanner(t, exampleJob(t, x.job), x.change)
		h := r.landing()
		x.then(&h)
		b := h.Budget(r.Job.Units)
		rng, unit := rand.New(rand.NewPCG(31, 41)), r.Job.Round(0.001, 0.0001).MM()
		for _, side := range []struct {
			name         string
			gain, of, at float64
			low, high    qty.Diameter
		}{{"measured", b.Gain, b.Chance, b.Error, b.Low, b.High}, {"unmeasured", 0, b.Blind, b.BlindError, b.Unmeasured().Low, b.Unmeasured().High}} {
			in := 0
			expected := expects(h)
			var under, over [2]float64 // shares beyond the sizes told, by half of what they are rounded to nearer and further
			for range n {
				d := plain(&h, side.gain, expected, rng)
				if d-h.Form >= h.Limits[0] && d+h.Form <= h.Limits[1] {
					in++
				}
				for i, half := range []float64{-unit / 2, unit / 2} {
					if d < side.low.MM()+half {
						under[i] += 1 / float64(n)
					}
					if d > side.high.MM()-half {
						over[i] += 1 / float64(n)
					}
				}
			}
			// The ends come from 4,096 trials: as many plain ones know such a share to ± 0.0024.
			sure := 0.0016 + 3*math.Sqrt(0.025*0.975/float64(n))
			if under[0] > 0.025+sure || under[1] < 0.025-sure || over[0] > 0.025+sure || over[1] < 0.025-sure {
				t.Errorf("%s, %s: 95 of 100 from %v to %v, by plain trials %.4f of them lie below and %.4f above", x.name, side.name, side.low, side.high, under, over)
			}
			p := float64(in) / float64(n)
			one := math.Sqrt(p * (1 - p))
			if off := 4 * math.Hypot(one/math.Sqrt(float64(n)), side.at/2); math.Abs(side.of-p) > off {
				t.Errorf("%s, %s: %.5f ± %.5f, by plain trials %.5f (%.5f allowed)", x.name, side.name, side.of, side.at, p, off)
			}
			if most := 1.96 * one / math.Sqrt(90_000); side.at > most {
				t.Errorf("%s, %s: %.5f ± %.5f, 90,000 plain trials are good to %.5f", x.name, side.name, side.of, side.at, most)
			}
			t.Logf("%s, %s: %.5f ± %.5f, by plain trials %.5f ± %.5f; 90,000 of them ± %.5f", x.name, side.name, side.of, side.at,
				p, 1.96*one/math.Sqrt(float64(n)), 1.96*one/math.Sqrt(90_000))
		}
	}
}
