package passes_test

import (
	"math"
	"testing"

	"borewright/process"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// radius of the wall that the tip made at a place along the bore: the bottom of the feed
// marks there.
func (p *wallProfile) radius(at, feed float64) (most float64) {
	mid, round := int(at/p.dz), int(feed/p.dz)+1
	for _, r := range p.r[mid-round : mid+round] {
		most = math.Max(most, r)
	}
	return most
}

// A bar followed through a witness cut and the passes behind it: the cut leaves a band
// of the size that the plan says and the old bore behind it as it was found. What the
// passes after it leave is told for the whole bore, where the old wall stood and in the
// band: the least and the most radius are those of the plan, within 2 µm and 2 % of the
// spring. The next pass cuts all along, as deep into the old bore as the plan says.
func TestBandAlongTheWall(t *testing.T) {
	jobs := wallJobs()[:8]
	n := slow.Rounds(t, "bars with a witness cut", len(jobs), 1)
	for k := range n {
		i := (k*len(jobs) + len(jobs)/2) / n % len(jobs)
		m := &jobs[i]
		m.witness, m.start = true, math.Min(m.start, 98.4)
		_, ps := m.plan(t)
		if ps[0].Kind != schedule.Witness {
			t.Fatalf("job %d begins with %s", i, ps[0].Kind)
		}
		bar := newWallSimOf(m, 6)
		inBand, behind := 0.25*bar.along, 0.75*bar.along
		for j := range ps {
			q := &ps[j]
			end := bar.along + 2*m.nose
			if q.Band != nil {
				end = bar.along / 2
			}
			spring := bar.through(q, end)
			near := 0.002 + 0.02*spring
			least, most := math.Inf(1), 0.0
			for w, off := range []float64{-m.offset, 0, m.offset} {
				p := &bar.wall[w]
				band, rest := p.radius(inBand, q.Feed.MM()), p.radius(behind, q.Feed.MM())
				if j == 0 && rest != m.start/2+off {
					t.Errorf("job %d: behind the band the wall stands at %.4f, found at %.4f", i, rest, m.start/2+off)
				}
				if j == 1 && (band <= ps[0].Expected.MM()/2+0.01 || rest <= m.start/2+off) {
					t.Errorf("job %d: pass 2 leaves %.4f in the band of %.4f", i, band, ps[0].Expected.MM()/2)
				}
				if bite, said := rest-(m.start/2-m.offset), q.Depth.MM()+q.OutDepth.MM(); j == 1 && w == 0 && math.Abs(bite-said) > near {
					t.Errorf("job %d: pass 2 takes %.4f off the old bore behind the band, the plan says %.4f", i, bite, said)
				}
				if j == 0 {
					rest = band
				}
				least, most = math.Min(least, math.Min(band, rest)), math.Max(most, math.Max(band, rest))
			}
			said := q.Expected.MM() - least - most
			if j == 0 { // where it cut: a gauge across
				said = q.Expected.MM() - 2*least
				if low, high := q.Low.MM(), q.High.MM(); 2*least < low || 2*least > high || high-low > 0.06+spring {
					t.Errorf("job %d: the band is %.4f, the plan says %.4f to %.4f", i, 2*least, low, high)
				}
			}
			if math.Abs(said) > near {
				t.Errorf("job %d pass %d: the bar leaves %.4f to %.4f, the plan says %.4f across: %.1f µm apart, spring %.1f", i, q.N, 2*least, 2*most, q.Expected.MM(), 1e3*said, 1e3*spring)
			}
			if d := most - least + m.runout - q.OutOfRound.MM(); math.Abs(d) > near {
				t.Errorf("job %d pass %d: the bar leaves %.4f uneven, the plan says %.4f", i, q.N, most-least+m.runout, q.OutOfRound.MM())
			}
		}
	}
}

// through takes one pass in to a place along the bore, and back where the cutter is fed
// out turning. It gives how far the bar sprang where most was to be cut, on diameter.
func (t *wallSim) through(q *schedule.Pass, end float64) (spring float64) {
	set, feed, speed := q.Setting.MM()/2, q.Feed.MM(), float64(q.Cutting)
	room := 2 * t.mill.nose
	for i := range t.wall {
		p := &t.wall[i]
		at := -room
		for ; at < end; at += feed {
			if tip := t.revolve(p, set, at, speed); at > 0 && at < t.along {
				spring = math.Max(spring, 2*(set-tip))
			}
		}
		if q.Out.By == process.FeedOut {
			for at -= feed * 0.4; at > -room; at -= feed { // never in its own marks
				t.revolve(p, set, at, speed)
			}
		}
	}
	return spring
}
