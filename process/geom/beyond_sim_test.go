package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"borewright/process/slow"
)

// wornCasting is a worn bore made up for a test, with formulas of its own: radius about
// the true axis at an angle (radians) and a depth.
type wornCasting struct {
	r, from, to        float64
	x, y, leanX, leanY float64 // of the middle at depth 0, mm and mm/mm
	taper              float64 // radius with depth
	lobes              int
	high, turned       float64
	nearMouth, mouth   float64 // height and depth of the flare at the ends
	farMouth           float64

	gouge, gougeAt, wide  float64 // depth of a gouge, its middle and half width, degrees
	gougeDepth, gougeLong float64 // and along the bore, mm
}

func (c wornCasting) radius(a, z float64) float64 {
	r := c.r + c.taper*(z-c.from) + (c.x+c.leanX*z)*math.Sin(a) + (c.y+c.leanY*z)*math.Cos(a)
	r += c.high * math.Cos(float64(c.lobes)*(a-c.turned))
	if c.mouth > 0 {
		r += c.nearMouth*square(math.Max(0, 1-(z-c.from)/c.mouth)) + c.farMouth*square(math.Max(0, 1-(c.to-z)/c.mouth))
	}
	off := math.Abs(math.Remainder(a*180/math.Pi-c.gougeAt, 360))
	if c.gouge > 0 && off < c.wide && math.Abs(z-c.gougeDepth) < c.gougeLong {
		r += c.gouge * (1 - off/c.wide)
	}
	return r
}

// largest looks at every third degree and 20 depths.
func (c wornCasting) largest() float64 {
	var most float64
	for i := range 21 {
		z := c.from + (c.to-c.from)*float64(i)/20
		for third := range 120 {
			most = math.Max(most, c.radius(float64(third)*math.Pi/60, z))
		}
	}
	return most
}

func (c wornCasting) read(rnd *rand.Rand, n int, depths ...float64) []Section {
	var out []Section
	for _, z := range depths {
		s := Section{Depth: z}
		for i := range n {
			deg := 360 * float64(i) / float64(n)
			s.Points = append(s.Points, Point{deg, c.radius(deg*math.Pi/180, z) + 0.002*rnd.NormFloat64()})
		}
		out = append(out, s)
	}
	return out
}

// drawCasting draws a bore of a kind. Lobes at 80 mm are 0.025 mm high, half or twice as
// much in one bore of three, mouths to 0.1 mm: common practice, no source.
func drawCasting(rnd *rand.Rand, kind string) wornCasting {
	c := wornCasting{r: 30 + 20*rnd.Float64(), from: 5}
	c.to = c.from + 40 + 60*rnd.Float64()
	c.x, c.y = 0.1*rnd.NormFloat64(), 0.1*rnd.NormFloat64()
	c.lobes, c.turned = 2, 7*rnd.Float64()
	c.high = 0.025 * math.Pow(2, rnd.NormFloat64()) * c.r / 40
	switch kind {
	case "three lobes":
		c.lobes = 3
	case "three lobes, 0.1 mm": // at 80 mm
		c.lobes, c.high = 3, LobesHeld*2*c.r
	case "five lobes":
		c.lobes = 5
	case "five lobes, 0.1 mm":
		c.lobes, c.high = 5, LobesHeld*2*c.r
	case "lean":
		c.leanX, c.leanY, c.taper = 4e-3*rnd.NormFloat64(), 4e-3*rnd.NormFloat64(), 1e-3*rnd.NormFloat64()
	case "bell-mouth":
		c.mouth = (c.to - c.from) * (0.1 + 0.2*rnd.Float64())
		c.nearMouth, c.farMouth = 0.1*rnd.Float64(), 0.1*rnd.Float64()
	case "gouge":
		c.gouge, c.wide = 0.1+0.4*rnd.Float64(), 5+10*rnd.Float64()
		c.gougeAt, c.gougeDepth, c.gougeLong = 360*rnd.Float64(), c.from+(c.to-c.from)*rnd.Float64(), 3+7*rnd.Float64()
	}
	return c
}

// The size told for 19 of 20 bores holds for 19 of 20, of every kind and with every
// number of readings; from 8 readings on it is on the mean no more than 0.35 mm over what
// the wall reaches. A gouge is outside what is told: the wall round it is held, and what
// was read of it.
func TestBeyondCoversWornBores(t *testing.T) {
	rounds := slow.Rounds(t, "worn bores of a kind", 80, 4, 400)
	gouges := 0
	for _, kind := range []string{"two lobes", "three lobes", "three lobes, 0.1 mm", "five lobes", "five lobes, 0.1 mm", "lean", "bell-mouth", "gouge"} {
		ofKind := 0 // bores that stay within, with any number of readings
		for _, n := range []int{4, 6, 8, 12} {
			rnd := rand.New(rand.NewPCG(16, uint64(n)))
			held, missed, wide := 0, 0, 0.0
			for range rounds {
				c := drawCasting(rnd, kind)
				l := c.to - c.from
				depths := []float64{c.from + l*(0.1+0.1*rnd.Float64()), c.from + l*(0.5+0.4*rnd.Float64())}
				if c.lobes > 2 && c.high > 0.06*c.r/40 { // as an offset they go unseen the more often the more depths agree on it
					depths = append(depths, c.from+l*rnd.Float64(), c.from+l*rnd.Float64())
				}
				w, err := CleanUp(c.read(rnd, n, depths...))
				if err != nil {
					t.Fatal(err)
				}
				b := w.Beyond(Span{c.from, c.to, 2 * c.r})
				if b == nil {
					t.Fatal("not known")
				}
				most := max(b.Most(0.95), w.TrueAxis)
				if c.gouge > 0 && most < 2*c.largest() {
					missed++
				}
				c.gouge = 0
				if most >= 2*c.largest() {
					held++
				}
				wide += (most - 2*c.largest()) / float64(rounds)
			}
			share := float64(held) / float64(rounds)
			t.Logf("%s, %d readings: held %.3f, by %.3f mm more on diameter; gouges not seen %d", kind, n, share, wide, missed)
			if n >= 8 && wide > 0.35 && kind != "gouge" {
				t.Errorf("%s, %d readings: %.3f mm over what the wall reaches", kind, n, wide)
			}
			// Two standard errors of a share of 0.95.
			if least := 0.95 - 2*math.Sqrt(0.95*0.05/float64(rounds)); share < least {
				t.Errorf("%s, %d readings: the size holds %.3f of the bores, under %.3f", kind, n, share, least)
			}
			gouges, ofKind = gouges+missed, ofKind+held
		}
		// A kind that stays within in 88 of 100 only is seen in 98 of 100 runs.
		of := float64(4 * rounds)
		if share, least := float64(ofKind)/of, 0.95-2*math.Sqrt(0.95*0.05/of); share < least {
			t.Errorf("%s: the size holds %.3f of the bores, under %.3f", kind, share, least)
		}
	}
	if gouges < rounds/2 {
		t.Errorf("of %d gouges %d lie outside: is it still so that readings do not show them?", 4*rounds, gouges)
	}
}

// A bore that leans 4 mrad, read 10 and 25 mm from one end: at the far end it stands
// 0.3 mm off, and that is carried there.
func TestLeanIsCarriedToTheEnds(t *testing.T) {
	c := wornCasting{r: 40, from: 0, to: 80, leanX: 4e-3, lobes: 2}
	w, err := CleanUp(c.read(rand.New(rand.NewPCG(1, 2)), 8, 10, 25))
	if err != nil {
		t.Fatal(err)
	}
	b := w.Beyond(Span{0, 80, 80})
	if b.Far != 55 || b.Near != 10 {
		t.Errorf("carried %v and %v", b.Near, b.Far)
	}
	if got := b.Most(0.5); got < 80.55 || got > 80.8 {
		t.Errorf("as likely as not %v, the wall reaches 80.64", got)
	}
	if p := b.Clean(w.TrueAxis); p > 0.05 {
		t.Errorf("clean at %v with a chance of %v", w.TrueAxis, p)
	}
}

// By hand: n readings tell (n−1)/2 harmonics; diameters tell no odd number of lobes.
func TestLobesNotShown(t *testing.T) {
	for _, c := range []struct{ n, lobes int }{{4, 2}, {6, 3}, {8, 4}, {12, 0}} {
		w, err := CleanUp([]Section{{Depth: 5, Points: roundBore(Vec{}, 40, c.n)}})
		if err != nil {
			t.Fatal(err)
		}
		if got := w.Beyond(Span{0, 50, 80}).Lobes; got != c.lobes {
			t.Errorf("%d readings: %d lobes are not shown, want %d", c.n, got, c.lobes)
		}
	}
	var across []Across
	for i := range 6 {
		across = append(across, Across{30 * float64(i), 80})
	}
	w, err := CleanUp([]Section{{Depth: 5, Points: Opposed(across), Across: true}})
	if err != nil {
		t.Fatal(err)
	}
	if got := w.Beyond(Span{0, 50, 80}).Lobes; got != 3 {
		t.Errorf("six diameters: %d lobes are not shown, want 3", got)
	}
}

func BenchmarkBeyond(b *testing.B) {
	c := drawCasting(rand.New(rand.NewPCG(1, 1)), "lean")
	w, err := CleanUp(c.read(rand.New(rand.NewPCG(1, 2)), 8, c.from+5, c.to-5))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		w.Beyond(Span{c.from, c.to, 2 * c.r})
	}
}
