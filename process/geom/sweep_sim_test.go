package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"borewright/process/fact"
	"borewright/process/slow"
)

// lineOfBores is a line on a mill, made up for a test: what the dial shows is worked out
// here, to the first order.
type lineOfBores struct {
	x, y, tx, ty float64 // at depth 0, mm and mm/mm
	rnd          *rand.Rand
	noise        float64 // standard deviation of a reading
	grad         float64
}

// sweep reads a bore that stands off the line by up to coaxial and is oval by up to form
// from peak to valley, with three lobes of half that height.
func (l lineOfBores) sweep(station string, z float64, at []float64, form, coaxial float64) Sweep {
	s := Sweep{Station: station, Depth: z, Clock: at}
	off, way := coaxial*math.Sqrt(l.rnd.Float64()), 2*math.Pi*l.rnd.Float64()
	x, y := l.x+l.tx*z+off*math.Cos(way), l.y+l.ty*z+off*math.Sin(way)
	oval, three := 2*math.Pi*l.rnd.Float64(), 2*math.Pi*l.rnd.Float64()
	for _, deg := range at {
		a := deg * math.Pi / 180
		v := x*math.Sin(a) + y*math.Cos(a) + form/2*math.Cos(2*a-oval) + form/4*math.Cos(3*a-three) + l.noise*l.rnd.NormFloat64()
		s.Dial = append(s.Dial, math.Round(v/l.grad)*l.grad)
	}
	return s
}

func (l lineOfBores) places(kind string, n int) (at []float64) {
	turn := 360 * l.rnd.Float64()
	for i := range n {
		switch kind {
		case "even":
			at = append(at, math.Mod(turn+360*float64(i)/float64(n), 360))
		case "uneven":
			at = append(at, math.Mod(turn+(float64(i)+0.8*(l.rnd.Float64()-0.5))*360/float64(n), 360))
		case "one side":
			at = append(at, math.Mod(turn+160*float64(i)/float64(n-1), 360))
		}
	}
	return at
}

// The ± of the line covers the truth along either axis, at both ends and in between, in
// 94 of 100 lines or more: with any number of places, even, uneven or on one side, form
// stated or as bores have it, bores off the line by what is stated. A kind that holds in 86
// of 100 only is seen in 98 of 100 runs, and all kinds of one form together, a point off.
func TestLineIsKnownAsSaid(t *testing.T) {
	rounds := slow.Rounds(t, "lines of a kind", 200, 5, 1500)
	all := map[string][2]int{} // held, and of how many, by how the form is known
	for _, places := range []string{"even", "uneven", "one side"} {
		for _, n := range []int{3, 4, 5, 6, 8, 12} {
			for _, c := range []struct {
				why           string
				form, coaxial float64
			}{{"form stated", 0.02, 0}, {"form as it is", 0, 0}, {"coaxial stated", 0.02, 0.02}} {
				rnd := rand.New(rand.NewPCG(uint64(n), uint64(len(places))))
				held, of := 0, 0
				for range rounds {
					l := lineOfBores{0.2 * rnd.NormFloat64(), 0.2 * rnd.NormFloat64(), 2e-4 * rnd.NormFloat64(), 2e-4 * rnd.NormFloat64(), rnd, 0.001, 0.002}
					in := LineUpInput{Dial: Dial{Graduation: 0.002, Repeats: 0.002}, Coaxial: c.coaxial, Stations: []Target{{Depth: 0}, {Depth: 200}, {Depth: 400}}}
					for k, z := range []float64{10, 300} {
						form := c.form
						if form == 0 { // 3 µm, half or twice as much in one bore of three
							form = 0.003 * math.Pow(2, rnd.NormFloat64())
						}
						s := l.sweep(string(rune('a'+k)), z, l.places(places, n), form, c.coaxial)
						s.OutOfRound = c.form
						in.Sweeps = append(in.Sweeps, s)
					}
					got, err := NewLineUp(in)
					if err != nil {
						t.Fatal(err)
					}
					for _, a := range got.AtStation {
						for _, off := range []float64{a.X - l.x - l.tx*a.Depth, a.Y - l.y - l.ty*a.Depth} {
							of++
							if math.Abs(off) <= a.Uncertainty {
								held++
							}
						}
					}
				}
				all[c.why] = [2]int{all[c.why][0] + held, all[c.why][1] + of}
				share := float64(held) / float64(of)
				t.Logf("%s, %d places, %s: %.3f", places, n, c.why, share)
				// Six figures of one line hang together: two standard errors of its share.
				if least := 0.94 - 2*math.Sqrt(0.94*0.06/float64(rounds)); share < least {
					t.Errorf("%s, %d places, %s: the line is where it is said to be in %.3f, under %.3f", places, n, c.why, share, least)
				}
			}
		}
	}
	for why, a := range all {
		share, lines := float64(a[0])/float64(a[1]), float64(a[1])/6
		t.Logf("%s: %.4f", why, share)
		if least := 0.95 - 2*math.Sqrt(0.95*0.05/lines); share < least {
			t.Errorf("%s: over all places the line is where it is said to be in %.3f, under %.3f", why, share, least)
		}
	}
}

// What a sweep cannot tell is told, with what to add; and what is told to add does it.
func TestSweepsThatCannotTell(t *testing.T) {
	told := func(at ...float64) []fact.Kind {
		var kinds []fact.Kind
		for _, n := range lineUp(t, LineUpInput{Sweeps: []Sweep{{Station: "a", Depth: 5, Clock: at, Dial: make([]float64, len(at))}}}).Notes {
			kinds = append(kinds, n.Kind)
		}
		return kinds
	}
	for _, c := range []struct {
		why  string
		at   []float64
		want fact.Kind
	}{
		{"half a turn and no more", []float64{0, 45, 90, 135, 180}, OneSided},
		{"a quarter", []float64{300, 330, 0, 30}, OneSided},
		{"three places", []float64{0, 120, 240}, ThreeReadings},
		{"four at the quarters", quarters, LobesAsOffset},
		{"five even", []float64{0, 72, 144, 216, 288}, ""},
		{"eight even", []float64{0, 45, 90, 135, 180, 225, 270, 315}, ""},
	} {
		switch got := told(c.at...); {
		case c.want == "" && len(got) > 0, c.want != "" && (len(got) != 1 || got[0] != c.want):
			t.Errorf("%s: %v, want %q", c.why, got, c.want)
		}
	}
}
