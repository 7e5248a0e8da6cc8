package cut

import "math"

// The section of the chip, seen along the cutting speed. The feed goes to the
// right (+x), the bore's wall is below (y = 0 at the tip), the old surface is
// y = a. C is the centre of the nose, K the tool (a wedge with a round point),
// K′ the tool one revolution before, K shifted by the feed f to the left. The
// chip is what lies in K, not in K′, below y = a.
//
//	  y = a ───────────────Q──╱──  old surface
//	       ╲  K′   ╱     ╱  ╱ straight edge, angle κ
//	        ╲     ╱ chip  ╱
//	    trail ╲  ╱  . C ╱
//	            ╲ _____╱ arc: angle θ of its tangent, −κ′ … κ
//
// From every point of the edge a ray runs along the normal into the chip. It
// ends where it enters K′, where it leaves the old surface, or where the
// opposite edge is nearer (only when f exceeds the nose radius). These rays
// cover the chip once: pieces between them add to its exact area.

// pieces are short stretches of engaged edge, one panel at a time.
type pieces struct {
	n    int
	h    [8]float64 // chip thickness along the normal, mm
	sin  [8]float64 // of the edge's angle κ there: share of thrust along the feed
	cos  [8]float64 // share of thrust along the radius
	edge [8]float64 // length of edge, mm
	turn [8]float64 // angle it turns through, rad: edge/r on the arc, 0 on the flanks
	free [8]bool    // the ray ends at the old surface
}

// Quadrature on 0…1, Gauss-Legendre. The fading nodes are those of t² with
// weight 2t·dt: they gather at 0, where the chip fades to nothing as a power
// of the distance that is not whole, and converge there as fast as elsewhere.
type node struct{ x, w float64 }

var (
	plain2 = [2]node{{0.2113248654051871, 0.5}, {0.7886751345948129, 0.5}}
	plain4 = [4]node{
		{0.0694318442029737, 0.1739274225687269}, {0.3300094782075719, 0.3260725774312731},
		{0.6699905217924281, 0.3260725774312731}, {0.9305681557970263, 0.1739274225687269},
	}
	fading4 = [4]node{
		{0.0694318442029737 * 0.0694318442029737, 2 * 0.0694318442029737 * 0.1739274225687269},
		{0.3300094782075719 * 0.3300094782075719, 2 * 0.3300094782075719 * 0.3260725774312731},
		{0.6699905217924281 * 0.6699905217924281, 2 * 0.6699905217924281 * 0.3260725774312731},
		{0.9305681557970263 * 0.9305681557970263, 2 * 0.9305681557970263 * 0.1739274225687269},
	}
	fading8 = [8]node{
		fading(0.0198550717512319, 0.0506142681451881), fading(0.1016667612931866, 0.1111905172266872),
		fading(0.2372337950418355, 0.1568533229389437), fading(0.4082826787521751, 0.1813418916891810),
		fading(0.5917173212478249, 0.1813418916891810), fading(0.7627662049581645, 0.1568533229389437),
		fading(0.8983332387068134, 0.1111905172266872), fading(0.9801449282487681, 0.0506142681451881),
	}
)

func fading(t, w float64) node { return node{t * t, 2 * t * w} }

// span is the engaged edge for one depth and feed. Angles on the arc are kept
// as u = tan(θ/2), which needs no trigonometry: sin θ = 2u/(1+u²),
// cos θ = (1−u²)/(1+u²), dθ = 2du/(1+u²).
type span struct {
	a, f     float64
	from, to float64 // ends of the engaged arc, as u
	flank    float64 // length of straight edge engaged in front, mm
	behind   float64 // length of the edge behind, mm
	line     float64 // u above which rays meet the straight part of K′
	free     float64 // u above which rays meet the old surface
	open     bool    // the edge begins in the old surface too, not on the revolution before
}

// engage finds which part of the edge is in the cut.
func (m *Model) engage(a, f float64) span {
	r := m.r
	s := span{a: a, f: f, to: m.uk, free: math.Inf(1)}
	var xa float64 // where the edge passes y = a
	if a <= m.yk {
		xa = math.Sqrt(a * (2*r - a))
		s.to = xa / (2*r - a)
	} else {
		s.flank = (a - m.yk) / m.sk
		xa = r*m.sk + s.flank*m.ck
	}
	// The point of K′ at θ = κ, seen from C; or, when C is not in K′, the
	// tangent from C to K′, above which rays end at C.
	if f*m.sk < r {
		px, py := r*m.sk-f, r*m.ck
		s.line = px / (math.Sqrt(px*px+py*py) + py)
	} else {
		s.line = -math.Sqrt((f - r) / (f + r))
	}
	// Q, the edge of K′ at y = a. Above the centre no ray of the arc is free.
	if a < r {
		qx := xa - f
		s.free = qx / (math.Sqrt(qx*qx+(r-a)*(r-a)) + r - a)
	}
	m.trailing(&s)
	if a < m.yt { // shallower than the arc behind: the cut ends at the old surface
		if begins := -xa / (2*r - a); begins > s.from {
			s.from, s.open = begins, true
		}
		s.behind = 0
	} else if s.behind > 0 && m.sp > 0 {
		if most := (a - m.yt) / m.sp; most < s.behind {
			s.behind, s.open = most, true
		}
	}
	s.from = min(s.from, s.to)
	return s
}

// trailing finds where the engaged edge begins: on the arc at θ = −asin(f/2r)
// as a rule, further round or on the edge behind at coarse feeds.
func (m *Model) trailing(s *span) {
	r, f := m.r, s.f
	half := f / (2 * r)
	switch {
	case half <= m.sp && (half <= m.sk || m.ck <= 0 && half <= 1):
		s.from = -half / (1 + math.Sqrt(1-half*half))
		return
	case half > m.sk && m.ck > 0: // the straight edge of K′ cuts the arc
		if c := 1 - f*m.sk/r; c > -1 {
			if θ := rad(m.edge.Lead) - math.Acos(c); θ >= -rad(m.edge.Trail) {
				s.from = math.Tan(θ / 2)
				return
			}
		}
	}
	s.from = m.ut
	deep := f * m.sp
	if deep <= r { // K′ is met on its arc
		back := math.Sqrt(deep * (2*r - deep))
		if back*m.cΣ-(r-deep)*m.sΣ <= 0 {
			s.behind = max(0, f*m.cp-back)
			return
		}
	}
	s.behind = max(0, f*m.cp-(r-(r-deep)*m.cΣ)/m.sΣ)
}

// each hands the engaged edge to take, panel by panel. The panels are cut
// where the end of the ray passes from one thing to the next, so that h is
// smooth in each.
func (m *Model) each(s *span, to *sum) {
	var p pieces
	m.arc(s, to, &p)
	if s.flank > 0 {
		m.front(s, &p)
		to.take(m.law, &p)
	}
	if s.behind > 0 {
		m.back(s, &p)
		to.take(m.law, &p)
	}
}

// length of the engaged edge, mm.
func (m *Model) length(s *span) float64 {
	return s.flank + s.behind + 2*m.r*(math.Atan(s.to)-math.Atan(s.from))
}

// arc walks the nose.
func (m *Model) arc(s *span, to *sum, p *pieces) {
	end := max(s.from, min(s.free, s.to))
	line := max(s.from, min(s.line, end))
	r, f := m.r, s.f
	if w := line - s.from; w > 0 { // rays end on the arc of K′
		p.n, p.free = len(fading8), [8]bool{}
		for i := range p.n {
			m.on(p, i, s.from+w*fading8[i].x, w*fading8[i].w)
			d, fc := 0.0, f*p.cos[i]
			if in := (r - fc) * (r + fc); in > 0 {
				d = max(0, math.Sqrt(in)-f*p.sin[i])
			}
			p.h[i] = r - d
		}
		to.take(m.law, p)
	}
	if w := end - line; w > 0 { // on the straight edge of K′
		p.n, p.free = len(plain4), [8]bool{}
		for i := range p.n {
			m.on(p, i, line+w*plain4[i].x, w*plain4[i].w)
			d := 0.0
			if in, c := r-f*m.sk, m.ck*p.cos[i]+m.sk*p.sin[i]; in > 0 && c > 0 {
				d = min(r, in/c)
			}
			p.h[i] = r - d
		}
		to.take(m.law, p)
	}
	if w := s.to - end; w > 0 { // on the old surface
		m.open(s, end, p)
		to.take(m.law, p)
	}
}

// open is the panel of the arc whose rays end at the old surface, from u on.
func (m *Model) open(s *span, from float64, p *pieces) {
	w, up := s.to-from, m.r-s.a
	p.n = len(fading8)
	for i := range p.n {
		m.on(p, i, s.to-w*fading8[i].x, w*fading8[i].w)
		p.h[i], p.free[i] = m.r-up/p.cos[i], true
	}
}

// on sets piece i of the arc at u = tan(θ/2), du wide.
func (m *Model) on(p *pieces, i int, u, du float64) {
	k := 1 / (1 + u*u)
	turn := 2 * du * k
	p.sin[i], p.cos[i] = 2*u*k, (1-u*u)*k
	p.edge[i], p.turn[i] = m.r*turn, turn
}

// front walks the straight edge in front. Its chip is f·sin κ thick, thins to
// nothing at the old surface and, for κ over 90°, is thicker next to the nose.
// Where κ is over 90° the corner of the chip above the end of the edge is
// reckoned as if the edge went on to it, so that no area is lost.
func (m *Model) front(s *span, p *pieces) {
	p.n = 0
	put := func(h, edge float64, free bool) {
		i := p.n
		p.h[i], p.sin[i], p.cos[i], p.edge[i], p.turn[i], p.free[i] = h, m.sk, m.ck, edge, 0, free
		p.n++
	}
	h0 := s.f * m.sk
	corner := s.f * math.Abs(m.ck) // length over which the chip thins at the top
	low, top, end := 0.0, s.flank, s.flank+corner
	if m.ck > 0 {
		top, end = max(0, s.flank-corner), s.flank
	}
	if m.ck < 0 { // next to the nose rays end on the arc of K′
		low = min(top, corner)
		for _, n := range plain2 {
			t := n.x*low - corner
			h := m.r + h0 - math.Sqrt(max(0, m.r*m.r-t*t))
			put(min(h, m.r+n.x*low*m.ridge), n.w*low, false)
		}
	} else if h0 > m.r { // next to the nose the opposite edge is nearer
		low = min(top, (h0-m.r)/m.ridge)
		for _, n := range plain2 {
			put(m.r+n.x*low*m.ridge, n.w*low, false)
		}
	}
	if top > low {
		put(h0, top-low, false)
	}
	if end > top {
		for _, n := range fading4 {
			d := (end - top) * n.x // distance from the end
			put(min(d*m.sk/math.Abs(m.ck), m.r+(end-d)*m.ridge), (end-top)*n.w, m.ck > 0)
		}
	}
}

// back walks the edge behind the nose, which cuts when f > 2·r·sin κ′. There
// the chip presses the tool against the feed.
func (m *Model) back(s *span, p *pieces) {
	r, f := m.r, s.f
	p.n = len(fading8)
	for i := range p.n {
		d := s.behind * (1 - fading8[i].x) // from the nose
		t, deep := f*m.cp-d, f*m.sp
		h := math.Inf(1)
		in := r*r - t*t // K′ is met on its arc, if the ray starts below it
		if in >= 0 {
			h = r - deep - math.Sqrt(in)
		}
		if in < 0 || h < 0 || t*m.cΣ-(r-h-deep)*m.sΣ > 0 { // or on its straight edge
			h = math.Inf(1)
			if m.cΣ > 0 {
				h = r - deep - (r-t*m.sΣ)/m.cΣ
			}
		}
		up := (s.a - m.yt - d*m.sp) / m.cp
		h = min(h, r+d*m.ridge)
		p.h[i], p.free[i] = max(0, min(h, up)), up < h
		p.sin[i], p.cos[i], p.edge[i], p.turn[i] = -m.sp, m.cp, s.behind*fading8[i].w, 0
	}
}
