package landing

import (
	"math/rand/v2"
	"runtime"
	"sync"

	"borewright/process/qty"
)

// Budget cuts the passes over and over; sizes are rounded as u prints them. Draws come from fixed streams, one
// for each block of trials, and are only counted, so that the answer is the
// same on any number of cores.
func (h Trial) Budget(u qty.Unit) *Budget {
	h.setGain()
	const block = 5000
	const bins = 4096
	spread := 3 * (h.Limits[1] - h.Limits[0])
	low := h.Limits[0] - spread
	width := (h.Limits[1] - h.Limits[0] + 2*spread) / bins
	type count struct {
		in, blind int
		bins      [bins]int32
	}
	perWidth := 1 / width
	blocks := make(chan int, trials/block)
	for b := range trials / block {
		blocks <- b
	}
	close(blocks)
	counts := make([]count, max(1, min(runtime.GOMAXPROCS(0), 8)))
	var wait sync.WaitGroup
	for w := range counts {
		wait.Add(1)
		go func(n *count) {
			defer wait.Done()
			z := make([]float64, h.causes())
			for b := range blocks {
				rng := rand.New(rand.NewPCG(0x626f7265, uint64(b)))
				for range block / 4 {
					for i := range z {
						z[i] = rng.NormFloat64()
					}
					// Each draw serves four trials, mirrored as a whole
					// and by halves: as good a sample, and drawing is
					// what takes the time.
					for turn := range 4 {
						d, q := h.cut(z)
						if d >= h.Limits[0] && d <= h.Limits[1] {
							n.in++
						}
						if q >= h.Limits[0] && q <= h.Limits[1] {
							n.blind++
						}
						n.bins[min(bins-1, max(0, int((d-low)*perWidth)))]++
						end := len(z)
						if turn == 1 {
							end /= 2
						}
						for i := range z[:end] {
							z[i] = -z[i]
						}
					}
				}
			}
		}(&counts[w])
	}
	wait.Wait()
	total := &counts[0]
	for i := range counts[1:] {
		c := &counts[i+1]
		total.in += c.in
		total.blind += c.blind
		for j := range total.bins {
			total.bins[j] += c.bins[j]
		}
	}
	quantile := func(share float64) qty.Diameter {
		want, sum := int32(share*trials), int32(0)
		for i, n := range total.bins {
			if sum += n; sum > want {
				return qty.Diameter(u.Round(qty.FromMM(low + (float64(i)+0.5)*width)))
			}
		}
		return qty.DiameterMM(h.Limits[1])
	}
	return &Budget{
		Trials: trials, Gain: h.gain, Chance: float64(total.in) / trials, Blind: float64(total.blind) / trials,
		Low: quantile(0.025), High: quantile(0.975), Shares: h.shares(),
	}
}
