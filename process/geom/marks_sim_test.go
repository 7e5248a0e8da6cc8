package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	. "borewright/process/geom"
	"borewright/process/slow"
)

// witnessed is one witness cut in a worn bore that was made up: the wall about the line, the
// cutter's circle about an axis that stands off it by (x, y), the wall read at n places, and
// where the cutter marked. Circle and wall are met along a ray from the line, without small
// angles.
func witnessed(rnd *rand.Rand, n int, x, y float64) Marks {
	r := 30 + 60*rnd.Float64()
	worn, oval := 0.1+0.4*rnd.Float64(), 0.05*rnd.Float64() // to one side; two lobes
	side, long := 2*math.Pi*rnd.Float64(), 2*math.Pi*rnd.Float64()
	wall := func(a float64) float64 { return r + worn*math.Cos(a-side) + oval*math.Cos(2*a-long) }
	m := Marks{Cuts: 0.0125, Reads: 0.014, Line: 0.03, Slip: 0.15}
	m.Made = r + (rnd.Float64()-0.5)*worn // it marks one side of the bore and not the other
	made := m.Made + m.Cuts/1.96*rnd.NormFloat64()
	for i := range n {
		a := 2 * math.Pi * float64(i) / float64(n)
		across := x*math.Cos(a) - y*math.Sin(a)
		reach := x*math.Sin(a) + y*math.Cos(a) + math.Sqrt(made*made-across*across)
		m.At = append(m.At, Mark{
			Clock: 360 * float64(i) / float64(n), Wall: wall(a) + 0.005*rnd.NormFloat64(),
			Cut: reach-wall(a) > 0.005*rnd.Float64(), // thinner than that is not seen
		})
	}
	return m
}

// Where the line was made well, marks advise a move in at most 2 of 100; where it stands off
// by a slip, what they advise leads nearer to the line in 95 of 100 and away from it in at
// most 3, and they advise something in most.
func TestMarksAdviseTheRightWay(t *testing.T) {
	rounds := slow.Rounds(t, "witness cuts of each kind", 200, 15, 600)
	for _, n := range []int{4, 6, 8, 12} {
		rnd := rand.New(rand.NewPCG(16, uint64(n)))
		honest := 0
		for range rounds {
			s := 0.03 / 1.96
			if _, sure := witnessed(rnd, n, s*rnd.NormFloat64(), s*rnd.NormFloat64()).Advice(); sure {
				honest++
			}
		}
		advised, nearer, away := 0, 0, 0
		for range rounds {
			far, way := 0.1+0.4*rnd.Float64(), 2*math.Pi*rnd.Float64()
			x, y := far*math.Sin(way), far*math.Cos(way)
			move, sure := witnessed(rnd, n, x, y).Advice()
			if !sure {
				continue
			}
			advised++
			if math.Hypot(x+move[0].By, y+move[1].By) < far {
				nearer++
			}
			if x*move[0].By+y*move[1].By >= 0 {
				away++
			}
		}
		share := func(k, of int) float64 { return 100 * float64(k) / float64(of) }
		t.Logf("%2d places: honest advised %.1f %%; slips advised %.1f %%, of these nearer %.1f %%, away %.1f %%", n, share(honest, rounds), share(advised, rounds), share(nearer, advised), share(away, advised))
		if share(honest, rounds) > 2 || share(nearer, advised) < 95 || share(away, advised) > 3 {
			t.Errorf("%d places: past what is allowed", n)
		}
	}
}
