package hub

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// rows of a table of finite-element figures: the name, and the figures.
func rows(t *testing.T, file string, named int) (names []string, all [][]float64) {
	t.Helper()
	f, err := os.Open("../../testdata/fit/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil || len(lines) < 5 {
		t.Fatal(file, err)
	}
	for _, l := range lines[1:] {
		var v []float64
		for _, s := range l[named:] {
			x, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(file, err)
			}
			v = append(v, x)
		}
		names, all = append(names, strings.Join(l[:named], "")), append(all, v)
	}
	return names, all
}

// TestEccentricRings holds the closed form against nine rings by finite elements.
func TestEccentricRings(t *testing.T) {
	_, all := rows(t, "eccentric_rings.csv", 0)
	for _, v := range all {
		a, b, e := v[0], v[1], v[2]
		if got, want := Eccentric(a, b, e), max(v[3], v[4]); math.Abs(got-want) > 0.003*want {
			t.Errorf("%v: tension %.4f, elements %.4f", v[:3], got, want)
		}
		thin, thick := b-a-e, b-a+e
		if got := OutOfRound(1, 1, a, thin, thick, true) / a; got < v[5] || got > 1.5*v[5]+0.03 {
			t.Errorf("%v: out of round %.4f, elements %.4f", v[:3], got, v[5])
		}
	}
	if got, want := Eccentric(50, 90, 0), (90.*90+2500)/(90*90-2500); math.Abs(got-want) > 1e-9 {
		t.Errorf("no offset: %v, Lamé %v", got, want)
	}
	if got := Eccentric(50, 90, 0.01); math.Abs(got-1.8929) > 0.001 {
		t.Errorf("a small offset jumps: %v", got)
	}
}

// A hole under pressure at f = 2a from a straight edge: 4/3 on the edge, 5/3 in the
// bore, by hand from the formulas of Jeffery.
func TestFlatByHand(t *testing.T) {
	if got := Flat(50, 100); math.Abs(got-5./3) > 1e-12 {
		t.Error(got)
	}
	if got := Flat(50, 60); math.Abs(got-10000./1100) > 1e-12 {
		t.Error(got)
	}
}

// TestSleevedHubs holds the worst case against 25 sleeved hubs by finite elements:
// never below them, and no more above than the shape being unknown explains. The
// pressure is Lamé's, worked out here.
func TestSleevedHubs(t *testing.T) {
	const r, eHub, nuHub, interference = 50, 105e3, 0.26, 0.060
	pressure := func(outside, inside, e, nu float64) float64 {
		co := (outside*outside + 1e4) / (outside*outside - 1e4)
		ci := (1e4 + inside*inside) / (1e4 - inside*inside)
		return interference / (100 * ((co+nuHub)/eHub + (ci-nu)/e))
	}
	names, all := rows(t, "uneven_hubs.csv", 1)
	if len(all) != 25 {
		t.Fatal(len(all))
	}
	for i, v := range all {
		name, thin := names[i], v[2]
		thick := v[0] - r // of flats
		round := strings.Contains("Ee", name[:1])
		switch name[0] {
		case 'E', 'e':
			thick += v[1]
		case 'L': // the end of the shank
			thick = map[string]float64{"1": 200, "2": 175, "3": 175, "4": 150}[name[2:]]
		}
		sleeve := [3]float64{90, 206e3, 0.30}
		if name[1] == 'B' {
			sleeve = [3]float64{86, 100e3, 0.34}
		}
		worst := func(round bool) (most float64) {
			for _, c := range Cases(r, thin, thick, round) {
				most = max(most, c.Tension*pressure(c.Outside, sleeve[0], sleeve[1], sleeve[2]))
			}
			return most
		}
		found := max(v[4], v[5])
		any, known := worst(false), worst(round)
		if any < 0.999*found || known < 0.999*found {
			t.Errorf("%s: %.2f, known %.2f MPa is below %.2f of the elements", name, any, known, found)
		}
		if round && known > 1.11*found {
			t.Errorf("%s: %.2f MPa is far above %.2f", name, known, found)
		}
		if strings.Contains("FfT", name[:1]) && any > 1.4*found {
			t.Errorf("%s: %.2f MPa is far above %.2f", name, any, found)
		}
		if name[0] == 'L' { // the eye's own case, the last
			all := Cases(r, thin, thick, false)
			c := all[len(all)-1]
			if eye := c.Tension * pressure(c.Outside, sleeve[0], sleeve[1], sleeve[2]); eye < 0.999*v[4] || eye > 1.25*v[4] {
				t.Errorf("%s: as an eye %.2f MPa, elements %.2f in the bore", name, eye, v[4])
			}
		}
		// Out of round by the pressure of the elements, in µm.
		oval := 1000 * OutOfRound(v[3], eHub, r, thin, thick, round)
		if oval < v[7] || strings.Contains("FfT", name[:1]) && oval > 2.5*v[7] {
			t.Errorf("%s: out of round %.2f, elements %.2f", name, oval, v[7])
		}
	}
}

// The shares that say how far out of round a hub comes are those of the steel sleeves, rounded up
// by no more than a tenth; no bronze sleeve, none of which set them, needs more.
func TestSharesAreSetBySteel(t *testing.T) {
	names, all := rows(t, "uneven_hubs.csv", 1)
	most := map[string]float64{}
	held := 0
	for i, v := range all {
		name, thin, round := names[i], v[2], strings.Contains("Ee", names[i][:1])
		if v[7] == 0 {
			continue
		}
		thick := v[0] - 50
		switch name[0] {
		case 'E', 'e':
			thick += v[1]
		case 'L':
			thick = map[string]float64{"1": 200, "2": 175, "3": 175, "4": 150}[name[2:]]
		}
		more := thick/thin - 1
		if !round {
			more = min(1, more)
		}
		share := v[7] / 1000 * 105e3 * thin / (v[3] * 50 * 50) / more
		kind := map[bool]string{true: "round", false: "flat"}[round] + name[1:2]
		most[kind] = max(most[kind], share)
		if name[1] == 'B' {
			held++
		}
	}
	for kind, share := range map[string]float64{"round": roundShare, "flat": flatShare} {
		if set := most[kind+"S"]; set > share || share > 1.12*set {
			t.Errorf("%s: steel needs %.3f, the share is %.3f", kind, set, share)
		}
		if out := most[kind+"B"]; out > share || out < 0.8*share {
			t.Errorf("%s: bronze needs %.3f, the share is %.3f", kind, out, share)
		}
	}
	if held < 12 {
		t.Errorf("only %d hubs with bronze", held)
	}
}

// Nothing jumps where the wall is nearly even.
func TestNearlyEven(t *testing.T) {
	even := Cases(50, 20, 20, false)
	if len(even) != 1 {
		t.Fatal(even)
	}
	for _, c := range Cases(50, 20, 20.02, false) {
		if c.Tension > even[0].Tension*1.002 {
			t.Errorf("%+v jumps from %+v", c, even[0])
		}
	}
	if got := OutOfRound(10, 1e5, 50, 20, 20, false); got != 0 {
		t.Error(got)
	}
	if got := OutOfRound(10, 1e5, 50, 20, 20.02, false); got > 1e-4 {
		t.Error(got)
	}
}

// Readings of a circle about another centre give it back; of a flat they do not.
func TestAround(t *testing.T) {
	const r, b, e = 40., 70., 12.
	thin := 100. // clock position
	var circle, flat, four []Reading
	for k := range 8 {
		at := float64(k) * 45
		th := (at - thin) * math.Pi / 180
		metal := -e*math.Cos(th) + math.Sqrt(b*b-e*e*math.Pow(math.Sin(th), 2)) - r
		circle = append(circle, Reading{at, metal})
		if k%2 == 0 {
			four = append(four, Reading{at, metal})
		}
		m := b - r
		if c := math.Cos(at * math.Pi / 180); c > 0 {
			m = min(m, 52/c-r) // flat 52 from the axis, at 12 o'clock
		}
		flat = append(flat, Reading{at, m})
	}
	w := Around(r, circle)
	if !w.Round || math.Abs(w.Thin-18) > 1e-6 || math.Abs(w.Thick-42) > 1e-6 || math.Abs(w.At-100) > 1e-4 {
		t.Errorf("%+v", w)
	}
	if w := Around(r, flat); w.Round || w.Thin != 12 || w.Thick != 30 || w.At != 0 {
		t.Errorf("%+v", w)
	}
	if w := Around(r, four); w.Round {
		t.Errorf("four readings do not tell a circle from a flat: %+v", w)
	}
}
