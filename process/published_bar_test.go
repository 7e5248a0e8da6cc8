package process_test

import (
	"math"
	"testing"

	"borewright/process/bar"
)

var rigid = bar.Root{Radial: math.Inf(1), Tilt: math.Inf(1)}

func beamOf(t *testing.T, root bar.Root, head float64, sections ...bar.Section) *bar.Beam {
	t.Helper()
	var length float64
	for _, s := range sections {
		length += s.Length
	}
	b, err := bar.New(sections, root, length, nil, head)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// hertz is the first natural frequency: that at which the response of a bar
// with next to no damping dips.
func hertz(b *bar.Beam) float64 {
	const zeta = 1e-4
	_, hz := b.LeastReal(bar.Least, zeta)
	return hz / math.Sqrt(1+2*zeta)
}

// publishedBars are bars: how they give, ring and chatter.
func publishedBars(t *testing.T) []published {
	// E. Isakov, article on the deflection of boring bars, July 2019, worked
	// example: steel, 25.4 mm, overhang 101.6 mm, 911.1 N, E 206 000: 0.0757 mm by
	// F·L³/(3·E·I). Shear, which it leaves out, adds 3 %.
	b := beamOf(t, rigid, 0, bar.Section{D: 25.4, Length: 101.6, E: 206000, Nu: 0.3, Rho: 7850})
	spring := published{what: "steel bar, worked example: deflection", band: 0.05,
		points: []point{{"25.4 mm by 101.6 mm, 911 N", 911.1 * b.Compliance(), 0.0757}}}
	return append([]published{spring}, append(clampedRods(t), textbookMode(t))...)
}

// clampedRods: rods of 7075, clamped over 10 mm and tapped; first frequencies
// read off the curves to ±5 Hz. J. Li, experiment on receptance coupling,
// repository leekunhwee/Dynamics (2019).
func clampedRods(t *testing.T) []published {
	rod := func(d, length float64) bar.Section {
		return bar.Section{D: d, Length: length, E: 72000, Nu: 0.33, Rho: 2810}
	}
	rods := []struct {
		at       string
		sections []bar.Section
		hz       float64
	}{
		{"16 mm by 190 mm", []bar.Section{rod(16, 190)}, 293},
		{"16 mm by 140 mm", []bar.Section{rod(16, 140)}, 524},
		{"16 mm by 140 mm and 10 mm by 50 mm", []bar.Section{rod(16, 140), rod(10, 50)}, 401},
	}
	// The tilt of the clamp that the longest rod rings with.
	low, high := 1e6, 1e9
	for range 60 {
		mid := math.Sqrt(low * high)
		if hertz(beamOf(t, bar.Root{Radial: math.Inf(1), Tilt: mid}, 0, rods[0].sections...)) < rods[0].hz {
			low = mid
		} else {
			high = mid
		}
	}
	clamp := bar.Root{Radial: math.Inf(1), Tilt: low}
	stiff := published{what: "rods in a clamp taken as rigid: first frequency", band: 0.12}
	fitted := published{what: "rods in the clamp that the longest shows: first frequency", band: 0.05}
	for i, r := range rods {
		stiff.points = append(stiff.points, point{r.at, hertz(beamOf(t, rigid, 0, r.sections...)), r.hz})
		if i > 0 {
			fitted.points = append(fitted.points, point{r.at, hertz(beamOf(t, clamp, 0, r.sections...)), r.hz})
		}
	}
	return []published{stiff, fitted}
}

// textbookMode: one mode of 250 Hz, ζ 0.012, k 2.26e8 N/m at 30° to the normal of
// the chip, K_f 1000 MPa: b_lim 7.32 mm, below which no speed chatters. Inputs:
// Altintas, Manufacturing Automation, shaping example, seen in two public
// solutions; b_lim = 2·(k/cos² 30°)·ζ·(1+ζ)/K_f, worked by hand. The mode is a
// short light bar that carries a head of k/(2π·250 Hz)² = 91.6 kg.
func textbookMode(t *testing.T) published {
	const k = 2.26e5 // N/mm
	s := bar.Section{D: 80, Length: 160, E: 200000, Nu: 0.3, Rho: 1}
	head := k * 1e3 / math.Pow(2*math.Pi*250, 2)
	s.E *= k * beamOf(t, rigid, head, s).Compliance()
	b := beamOf(t, rigid, head, s)
	limit := b.CutLimit(bar.Least, 0.012) / math.Pow(math.Cos(math.Pi/6), 2) / 1000
	return published{what: "one mode of a textbook: width that no speed chatters at", band: 0.02,
		points: []point{{"250 Hz, 1000 N/mm²", limit, 7.32}, {"its frequency", hertz(b), 250}}}
}
