package landing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"borewright/process/landing"
	"borewright/process/qty"
	"borewright/process/slow"
)

// hands is a person who sets a cutter, bores and gauges. What the hands do is
// done here one motion at a time; the package's own trials are not used.
type hands struct {
	method         string  // "over bar", "preset" or "increment"
	bar            float64 // the bar under the micrometer, mm
	graduation     float64 // of the dial, on diameter, mm
	set, stood     float64 // standard deviations, mm on diameter: of a setting or move, and of where the cutter stands at first
	gauge, kelvin  float64
	force, repeat  float64 // of the force and of one spring, as fractions
	give           float64 // of bar and spindle, mm/N
	rows           []row
	start          float64 // diameter
	alpha          float64
	low, high      float64
	share, reading float64 // of a difference that the next setting is shifted by; how fine that can be set, on diameter
}

// row is a line of the card.
type row struct {
	set, expect   float64 // diameters
	depth, f, dfa float64 // radial depth planned, its force N, and how the force grows with depth, N/mm
	hold          bool
}

// bore cuts the rows once and gives the finished size at 20 °C.
func (h *hands) bore(rng *rand.Rand, stop bool) float64 {
	draw := func(sigma float64) float64 { return sigma * rng.NormFloat64() }
	force := 1 + draw(h.force)
	warm := h.alpha * draw(h.kelvin) // what a warm bore is larger by, on diameter
	tip := h.rows[0].set + draw(h.stood)
	size, shift := h.start, 0.0
	for i, row := range h.rows {
		switch h.method {
		case "over bar":
			// The bit is moved until the micrometer reads half of bar and
			// setting together. What it reads is off by half of what the
			// setting is off by: the reading counts twice.
			want := (h.bar + row.set + shift) / 2
			tip = 2*(want+draw(h.set/2)) - h.bar
		case "preset":
			tip = row.set + shift + draw(h.set)
		case "increment":
			turn := 0.0
			if i > 0 {
				turn = (row.set - h.rows[i-1].set + shift) / h.graduation
			}
			tip += turn*h.graduation + draw(h.set)
			shift = 0 // turned once, it stays
		}
		// The bar gives way until the cut that is left makes the force that
		// bends it so far.
		give, lo, hi := h.give*force*(1+draw(h.repeat)), -1.0, 2.0
		for range 45 {
			if a := (lo + hi) / 2; size/2+a+give*(row.f+row.dfa*(a-row.depth)) < tip/2 {
				lo = a
			} else {
				hi = a
			}
		}
		size += 2 * math.Max(0, lo)
		if row.hold && stop {
			found := size + draw(h.gauge)
			shift = -math.Round(h.share*(found-row.expect)/h.reading) * h.reading
		}
	}
	return size - warm
}

// spread is the mean square of how far the finished size is from the middle of
// the limits, and the share that lies within them.
func (h *hands) spread(trials int, stop bool) (square, within float64) {
	rng := rand.New(rand.NewPCG(11, 12))
	for range trials {
		d := h.bore(rng, stop)
		square += (d - (h.low+h.high)/2) * (d - (h.low+h.high)/2)
		if d >= h.low && d <= h.high {
			within++
		}
	}
	return square / float64(trials), within / float64(trials)
}

// For each way of setting a cutter: the chances with and without the measurement
// are those of hands that set so, and no other share of the difference does better
// by more than a little.
func TestEachWayOfSetting(t *testing.T) {
	trials := slow.Rounds(t, "bores by hand for each way of setting", 40_000, 10_000)
	rows := []row{
		{79.436, 79.4, 0.3, 225, 600, false}, {79.83, 79.8, 0.2, 187, 650, true}, {80.034, 80.015, 0.1075, 119, 800, false},
	}
	stiff := []row{{79.4, 79.4, 0.3, 225, 600, false}, {79.8, 79.8, 0.2, 187, 650, true}, {80.015, 80.015, 0.1075, 119, 800, false}}
	for _, x := range []struct {
		name  string
		hands hands
	}{
		{"over the bar, stiff bar", hands{method: "over bar", rows: stiff, give: 1e-9, set: 0.0066}},
		{"over the bar", hands{method: "over bar", rows: rows, give: 8e-5, set: 0.0066}},
		{"to a gauge", hands{method: "preset", rows: rows, give: 8e-5, set: 0.004}},
		{"by increment, stiff bar", hands{method: "increment", rows: stiff, give: 1e-9, set: 0.004, stood: 0.0066}},
		{"by increment", hands{method: "increment", rows: rows, give: 8e-5, set: 0.004, stood: 0.0066}},
		{"by a coarse dial", hands{method: "increment", rows: rows, give: 8e-5, set: 0.004, stood: 0.0066, graduation: 0.02}},
	} {
		t.Run(x.name, func(t *testing.T) {
			h := x.hands
			h.start, h.bar, h.low, h.high, h.alpha = 78.8, 57.14, 80, 80.03, 80*11e-6
			h.gauge, h.kelvin, h.force, h.repeat = 0.0025, 1, 0.14, 0.05
			h.reading = 0.001
			if h.graduation == 0 {
				h.graduation = 0.002
			} else {
				h.reading = h.graduation / 2
			}
			trial := landing.Trial{
				Start: h.start / 2, Limits: [2]float64{h.low, h.high}, Bar: h.give, Grows: h.alpha, Step: h.reading,
				Carried: h.method == "increment",
				Sigma:   landing.Sigma{Force: h.force, Set: h.set, Stood: h.stood, Gauge: h.gauge, Kelvin: h.kelvin, Spring: h.repeat},
			}
			trial.Sigma.Root = 0
			for _, r := range h.rows {
				trial.Passes = append(trial.Passes, landing.Pass{Setting: r.set, Depth: r.depth, Force: r.f, K: r.dfa, Measured: r.hold})
			}
			b := trial.Budget(qty.Metric)
			h.share = b.Gain
			best, within := h.spread(trials, true)
			_, blind := h.spread(trials, false)
			if math.Abs(b.Chance-within) > 0.012 || math.Abs(b.Blind-blind) > 0.012 {
				t.Errorf("%.3f land measured and %.3f unmeasured, by hand %.3f and %.3f", b.Chance, b.Blind, within, blind)
			}
			for _, share := range []float64{0, b.Gain - 0.3, b.Gain + 0.3, 1} {
				if share < 0 || share > 1 || math.Abs(share-b.Gain) < 0.25 {
					continue
				}
				h.share = share
				if square, _ := h.spread(trials, true); square < best {
					t.Errorf("a share of %.1f misses by %.2f µm, %.1f by %.2f", share, 1e3*math.Sqrt(square), b.Gain, 1e3*math.Sqrt(best))
				}
			}
			t.Logf("share %.1f: %.3f land measured, %.3f unmeasured; by hand %.3f and %.3f", b.Gain, b.Chance, b.Blind, within, blind)
		})
	}
}

// What the share is, by the law of propagation (JCGM 100, 5.1). On a stiff bar
// what is found is where the tip stands and what the gauge adds. Set anew, the next
// setting has nothing of it: 0. By increment it has all of it: V/(V + G), V the
// variance of where the tip stands, G that of the gauge; without a gauge's error 1. Where the
// edge was honed before the measured cut, V is that of the setting over the bar alone.
func TestShareOfEachWay(t *testing.T) {
	const anew = 0.005
	share := func(carried, honed bool, stood, set, gauge float64) float64 {
		h := landing.Trial{Start: 39, Limits: [2]float64{80, 80.1}, Bar: 1e-9, Carried: carried, Sigma: landing.Sigma{Set: set, Stood: stood, Gauge: gauge, Anew: anew},
			Passes: []landing.Pass{{Setting: 79, Depth: 0.5, Force: 300, K: 500}, {Setting: 79.6, Depth: 0.3, Force: 200, K: 600, Measured: true, Anew: honed},
				{Setting: 80.05, Depth: 0.225, Force: 150, K: 600}}}
		return h.Budget(qty.Metric).Gain
	}
	for _, x := range []struct{ stood, set, gauge float64 }{{0.006, 0.004, 0}, {0.006, 0.004, 0.0025}, {0.003, 0.002, 0.004}, {0.002, 0.001, 0.003}} {
		if got := share(false, false, x.stood, x.set, x.gauge); got != 0 {
			t.Errorf("set anew, %+v: a share of %.1f", x, got)
		}
		v := x.stood*x.stood + 2*x.set*x.set
		want := math.Round(10*v/(v+x.gauge*x.gauge)) / 10
		if got := share(true, false, x.stood, x.set, x.gauge); math.Abs(got-want) > 1e-9 {
			t.Errorf("by increment, %+v: a share of %.1f, want %.1f", x, got, want)
		}
		want = math.Round(10*anew*anew/(anew*anew+x.gauge*x.gauge)) / 10
		if got := share(true, true, x.stood, x.set, x.gauge); math.Abs(got-want) > 1e-9 {
			t.Errorf("by increment, honed, %+v: a share of %.1f, want %.1f", x, got, want)
		}
	}
}
