package landing

import (
	"math/rand/v2"
	"sync"
)

// points are the points of nets, one net after the other, by the normal law.
type points struct {
	normal [][]float64     // by dimension but for the last: the draw at each point
	last   [][each]float64 // of the last: one draw from each of so many parts of the law
}

// net are the points of one net.
func (p *points) net(i int) points {
	from, to := i<<lengthLog, (i+1)<<lengthLog
	n := points{last: p.last[from:to]}
	for _, of := range p.normal {
		n.normal = append(n.normal, of[from:to])
	}
	return n
}

// dimension is one of the points, as far as it was asked for.
type dimension struct {
	even   []float64        // between 0 and 1
	normal func() []float64 // by the normal law
	last   func() [][each]float64
}

// theSeed is that of the nets of every budget: their points are made once.
const theSeed = 0x626f7265

var made struct {
	sync.Mutex
	dimensions []dimension
}

// dimensionsOf are those of the points of all nets of a seed. What a dimension is does not hang on those after
// it, but where there are more than the table of directions has.
func dimensionsOf(seed uint64, dimensions int) []dimension {
	if seed != theSeed || dimensions > len(primitive)+1 {
		return makePoints(seed, dimensions)
	}
	made.Lock()
	defer made.Unlock()
	if len(made.dimensions) < dimensions {
		made.dimensions = makePoints(seed, dimensions)
	}
	return made.dimensions[:dimensions]
}

// pointsOf are the points of all nets of a seed, the last dimension drawn in parts.
func pointsOf(seed uint64, dimensions int) *points {
	all := dimensionsOf(seed, dimensions)
	p := &points{last: all[dimensions-1].last()}
	for _, d := range all[:dimensions-1] {
		p.normal = append(p.normal, d.normal())
	}
	return p
}

func makePoints(seed uint64, dimensions int) (all []dimension) {
	plain, at, u := make([]directions, dimensions), make([][]float64, dimensions), make([]float64, dimensions)
	for j := range plain {
		plain[j] = sobol(j)
		at[j] = make([]float64, 0, nets<<lengthLog)
	}
	for i := range uint64(nets) {
		n := newNet(plain, rand.New(rand.NewPCG(seed, i)))
		for range 1 << lengthLog {
			n.point(u)
			for j, x := range u {
				at[j] = append(at[j], x)
			}
		}
	}
	law := theNormal()
	for _, at := range at {
		all = append(all, dimension{at, sync.OnceValue(func() []float64 {
			out := make([]float64, len(at))
			for k, u := range at {
				out[k] = law.of(u)
			}
			return out
		}), sync.OnceValue(func() [][each]float64 {
			out := make([][each]float64, len(at))
			for k, u := range at {
				for i := range out[k] {
					out[k][i] = law.of((float64(i) + u) / each)
				}
			}
			return out
		})})
	}
	return all
}
