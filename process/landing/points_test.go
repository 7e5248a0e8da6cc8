package landing

import (
	"math/rand/v2"
	"testing"
)

// The points that are kept are those of the nets, point by point, whichever number of dimensions was
// asked for before, and of a seed of its own.
func TestPointsAreThoseOfNets(t *testing.T) {
	law := theNormal()
	for _, x := range []struct {
		seed       uint64
		dimensions int
	}{{theSeed, 3}, {theSeed, 9}, {theSeed, 5}, {7, 4}, {theSeed, len(primitive) + 3}} {
		p := pointsOf(x.seed, x.dimensions)
		for i := range nets {
			n, of := newNet(directionsOf(x.dimensions), rand.New(rand.NewPCG(x.seed, uint64(i)))), p.net(i)
			u := make([]float64, x.dimensions)
			for k := range 1 << lengthLog {
				n.point(u)
				for j, u := range u[:x.dimensions-1] {
					if of.normal[j][k] != law.of(u) {
						t.Fatalf("seed %d, net %d of %d dimensions: point %d, dimension %d is %v, want %v", x.seed, i, x.dimensions, k, j, of.normal[j][k], law.of(u))
					}
				}
				for part, draw := range of.last[k] {
					if want := law.of((float64(part) + u[x.dimensions-1]) / each); draw != want {
						t.Fatalf("seed %d, net %d: point %d, part %d of the last dimension is %v, want %v", x.seed, i, k, part, draw, want)
					}
				}
			}
		}
	}
}
