package verify

import (
	"math"
	"math/rand/v2"
	"testing"

	"borewright/process"
	"borewright/process/qty"
)

// sampled is meet by brute force: the move in many small steps, at each of
// which the part either overlaps the wall or does not.
func sampled(p *part, w *wall, m *stroke, n int) (gap float64, ok bool) {
	gap = math.Inf(1)
	for i := 0; i <= n; i++ {
		t := float64(i) / float64(n)
		d := float64(m.d0) + t*float64(m.d1-m.d0)
		end := func(pl place) float64 {
			if pl.follows {
				return float64(pl.at) + d
			}
			return float64(pl.at)
		}
		back, front := end(p.back), end(p.front)
		if front < back || front <= float64(w.from) || back >= float64(w.to) {
			continue
		}
		if front == back && p.front.follows != p.back.follows {
			continue // a quill that is all the way in
		}
		x := float64(m.x0+p.offX) + t*float64(m.x1-m.x0)
		y := float64(m.y0+p.offY) + t*float64(m.y1-m.y0)
		ok = true
		gap = math.Min(gap, float64(w.radius)-float64(p.radius)-math.Hypot(x, y))
	}
	return gap, ok
}

// drawn is a random case on a coarse grid (multiples of 1 µm up to 40), so that
// a sampling in steps of 0.1 µm falls into every interval there can be.
func drawn(rng *rand.Rand) (part, wall, stroke) {
	grid := func(n int) qty.Length { return qty.Length(rng.IntN(2*n+1)-n) * qty.Micrometre }
	up := func(n int) qty.Length { return qty.Length(rng.IntN(n+1)) * qty.Micrometre }
	back := grid(20)
	p := part{back: place{back, true}, front: place{back + up(20), true}, radius: up(20)}
	switch rng.IntN(5) {
	case 0: // a nose that stands still
		p.back.follows, p.front.follows = false, false
	case 1: // a quill: it grows out of a nose that stands still
		p.back.follows = false
	case 2: // a tip after an oriented stop
		p.front, p.radius = p.back, 0
		p.offX, p.offY = grid(20), grid(20)
	}
	from := grid(20)
	w := wall{from: from, to: from + up(15), radius: up(40)}
	m := stroke{x0: grid(5), y0: grid(5), d0: grid(20)}
	m.x1, m.y1, m.d1 = m.x0, m.y0, m.d0
	switch rng.IntN(3) {
	case 0:
		m.d1 = grid(20)
	case 1:
		m.x1 = grid(5)
	case 2:
		m.d1, m.x1, m.y1 = grid(20), grid(5), grid(5)
	}
	return p, w, m
}

func TestMeetAgainstSampling(t *testing.T) {
	rng := rand.New(rand.NewPCG(841, 6983))
	met := 0
	for i := range 20000 {
		p, w, m := drawn(rng)
		n := 10 * int(max((m.d1-m.d0).Abs(), (m.x1-m.x0).Abs(), (m.y1-m.y0).Abs())/qty.Micrometre)
		n = max(n, 1)
		want, wantOK := sampled(&p, &w, &m, n)
		got, depth, ok := p.meet(&w, &m)
		if ok != wantOK {
			t.Fatalf("case %d: meets %v, sampled %v: %+v %+v %+v", i, ok, wantOK, p, w, m)
		}
		if !ok {
			continue
		}
		met++
		// Along the bore the gap does not change, and sampling finds it
		// exactly; across, a sample may miss the end of the interval by one
		// step, over which the axis moves at most 0.15 µm.
		slack := 2.0
		if m.d0 != m.d1 && (m.x0 != m.x1 || m.y0 != m.y1) {
			slack = 2 + math.Hypot(float64(m.x1-m.x0), float64(m.y1-m.y0))/float64(n)
		}
		if float64(got) > want+2 || float64(got) < want-slack {
			t.Fatalf("case %d: gap %d nm, sampled %.1f: %+v %+v %+v", i, got, want, p, w, m)
		}
		if depth < min(m.d0, m.d1) || depth > max(m.d0, m.d1) {
			t.Fatalf("case %d: depth %v outside the move", i, depth)
		}
	}
	if met < 4000 {
		t.Errorf("only %d of 20000 cases meet", met)
	}
}

// A move that need not be straight is never judged milder than the straight one.
func TestBentIsNoMilder(t *testing.T) {
	rng := rand.New(rand.NewPCG(274, 1))
	for i := range 5000 {
		p, w, m := drawn(rng)
		straight, _, ok := p.meet(&w, &m)
		m.bent = true
		bent, _, bentOK := p.meet(&w, &m)
		if ok != bentOK || ok && bent > straight {
			t.Fatalf("case %d: bent %v %v, straight %v %v", i, bent, bentOK, straight, ok)
		}
	}
}

// A wall a thousandth of a millimetre thick, anywhere on a metre of travel, is
// never missed: sampling at any usual step would.
func TestThinWallIsFound(t *testing.T) {
	p := part{back: place{0, true}, front: place{0, true}, radius: mm(10)}
	m := stroke{d0: -mm(100), d1: mm(900)}
	for _, at := range []float64{-99.999, 0, 123.4567, 899.998} {
		w := wall{from: mm(at), to: mm(at) + qty.Micrometre, radius: mm(9)}
		if gap, depth, ok := p.meet(&w, &m); !ok || gap != -mm(1) || depth != mm(at) {
			t.Errorf("wall at %v: %v at %v, %v", at, gap, depth, ok)
		}
	}
}

// Where the parts of a bar stand, by hand: table feed moves all of it with the
// tip; with quill feed the nose stays and the quill grows.
func TestPartsOf(t *testing.T) {
	j := planMM().Job
	tip := mm(100)
	for _, row := range []struct {
		by                  process.FeedBy
		name                string
		back, front, radius float64
	}{
		{process.TableFeed, "spindle nose", math.Inf(-1), -390, 115},
		{process.TableFeed, "bar step 1", -390, -330, 50},
		{process.TableFeed, "bar step 2", -330, 110, 28.5},
		{process.QuillFeed, "quill", -500, -390, 55},
		{process.QuillFeed, "spindle nose", math.Inf(-1), -500, 115},
		{process.QuillFeed, "bar step 2", -330, 110, 28.5},
	} {
		j.Bar.FeedBy, j.Bar.Standoff = row.by, mm(500)
		found := false
		for _, p := range partsOf(j) {
			if p.name != row.name {
				continue
			}
			found = true
			back := p.back.when(tip).MM()
			if math.IsInf(row.back, -1) {
				back = math.Inf(-1)
			}
			if back != row.back || p.front.when(tip).MM() != row.front || p.radius.MM() != row.radius {
				t.Errorf("%s feed, %s: %v to %v, radius %v", row.by, p.name, back, p.front.when(tip).MM(), p.radius.MM())
			}
		}
		if !found {
			t.Errorf("%s feed has no %s", row.by, row.name)
		}
	}
}
