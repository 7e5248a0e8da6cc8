package cut

// Force is what the edge feels. Each figure may be off by ErrorBand.
type Force struct {
	Cutting float64 // F_c, along the cutting speed, N
	Feed    float64 // F_f, against the feed, N
	Radial  float64 // F_p, passive force: pushes the cutter off the wall, N
	Area    float64 // of the chip, mm²
	Chip    float64 // mean chip thickness, area over engaged edge, mm
}

// By is the forces k times as large, of the same chip.
func (f Force) By(k float64) Force {
	f.Cutting, f.Feed, f.Radial = f.Cutting*k, f.Feed*k, f.Radial*k
	return f
}

// Plus is the force with that of a land (Model.Worn) on the same chip.
func (f Force) Plus(land Force) Force {
	f.Cutting, f.Feed, f.Radial = f.Cutting+land.Cutting, f.Feed+land.Feed, f.Radial+land.Radial
	return f
}

// Force gives the forces for a radial depth of cut and a feed per revolution,
// mm, at a cutting speed, m/min. It is zero where nothing is cut (depth or
// feed not above 0), rises with depth and with feed for lead angles up to 90° (but the
// radial force falls by up to 2 % where a square edge goes in deeper than its nose),
// and does not allocate. Forces are good to ±ErrorBand.
func (m *Model) Force(depth, feed, speed float64) Force {
	if !cuts(depth, feed) {
		return Force{}
	}
	s := m.engage(depth, feed)
	var to sum
	m.each(&s, &to)
	v, c := SpeedFactor(speed), m.chord(&s)
	thrust := to.thrust * m.thrust * v
	return Force{
		Cutting: to.cutting * m.cutting * v,
		Feed:    thrust * c.feed,
		Radial:  thrust * c.radial,
		Area:    to.area,
		Chip:    to.area / m.length(&s),
	}
}

// Push is ∂F_p/∂a_p, N/mm: how much harder the cutter is pushed off for each
// millimetre of depth, the feed unchanged, when the depth is the same for
// revolutions on end. It is what copies the old shape of the bore: on a bar of
// compliance c one pass leaves c·k/(1 + c·k) of it. With T the thrust, s the chord, and
// F and R its parts, as Force has them,
//
//	k = T′·R/s + T·F·(F·R′ − R·F′)/s³
//
// Primes are slopes against depth. Thrust grows only where the edge meets the old
// surface: by dt/cos κ on the arc, by t/sin κ on a straight edge, t being the thrust on
// a millimetre of it. The chord grows at its ends in the old surface: by F′ = 1 and
// R′ = cot κ of the end. Deep behind the nose of a square edge little is left of k. It
// is 0 where nothing is cut. Good to ±ErrorBand.
func (m *Model) Push(depth, feed, speed float64) float64 {
	if !cuts(depth, feed) {
		return 0
	}
	s := m.engage(depth, feed)
	var all sum
	m.each(&s, &all)
	to := sum{slopes: true}
	var p pieces
	if from := max(s.from, min(s.free, s.to)); from < s.to {
		m.open(&s, from, &p)
		to.take(m.law, &p)
	}
	if s.behind > 0 {
		m.back(&s, &p)
		to.take(m.law, &p)
	}
	rise := to.rise
	if s.flank > 0 {
		h := feed * m.sk
		if m.ck > 0 {
			h = min(h, s.flank*m.sk/m.ck)
		}
		a, b, x := m.law.cell(min(h, m.r+s.flank*m.ridge))
		rise += (a.t + x*(b.t-a.t)) / m.sk
	}
	return (rise*m.chord(&s).radial + all.thrust*m.turn(&s)) * m.thrust * SpeedFactor(speed)
}

// Regen is the stiffness of the cut against a quick motion of a bar, N/mm: the
// change of what drives that motion when the edge moves into the wall while the
// wave that the last revolution left stays where it is. The end of a swinging bar
// turns, so that its tip moves back along the feed by lean for 1 into the wall (its
// radius times the turn, bar.Mode.Turn; negative where it is fed toward the root).
// All the engaged edge takes part, by how much the motion goes along its normal,
// and drives the bar in the same measure,
//
//	k_r = ∫ (dt/dh)·(cos κ − lean·sin κ)² db,
//
// so it is several times Push when the nose does most of the cutting. It is
// the gain of regenerative chatter, to be set against the bar's response:
// see bar.CutLimit. Where the ray ends at the old surface the whole motion into the
// wall counts, as in Push. Pieces by their own normal are how published stability of
// round noses has it (Ozlu & Budak 2007, from memory). In one direction, as Force has
// them, they would come to 0.8 to 1.6 times as much, at most depths 1.3; the boring bar
// that was measured (testdata) chatters later than even the pieces say. Good to ±ErrorBand.
func (m *Model) Regen(depth, feed, speed, lean float64) float64 {
	if !cuts(depth, feed) {
		return 0
	}
	s := m.engage(depth, feed)
	to := sum{slopes: true, lean: lean}
	m.each(&s, &to)
	if s.flank > 0 && m.ck < 1e-6 { // a square shoulder grows longer by the motion; no ray of it ends at the old surface
		a, b, x := m.law.cell(min(feed*m.sk, m.r+s.flank*m.ridge))
		to.push -= lean * (a.t + x*(b.t-a.t))
	}
	return (to.push + to.regen) * m.thrust * SpeedFactor(speed)
}

// Edge is the length of edge in the cut, mm.
func (m *Model) Edge(depth, feed float64) float64 {
	if !cuts(depth, feed) {
		return 0
	}
	s := m.engage(depth, feed)
	return m.length(&s)
}

// cuts reports whether there is a cut to work out. Nothing on a boring mill is
// deeper or coarser than the limits; NaN is no cut.
func cuts(depth, feed float64) bool {
	return depth > 0 && feed > 0 && depth <= 1e3 && feed <= 1e3
}

// sum adds pieces up: forces, or their slopes.
type sum struct {
	slopes                bool
	lean                  float64 // of Regen
	cutting, thrust, area float64
	rise                  float64 // of the thrust with the depth
	push, regen           float64
}

// take adds pieces. On the arc a chip of thickness h is narrower at its back
// than at the edge; each further layer dh of it is (edge − turn·h) wide, so the
// piece's force is ∫(edge − turn·h) dc. It grows with h as long as h < r, and
// is k_c times the area when k_c is constant.
func (s *sum) take(l *law, p *pieces) {
	if s.slopes {
		for i := range p.n {
			a, b, x := l.cell(p.h[i])
			k := (a.dt + x*(b.dt-a.dt)) * (p.edge[i] - p.turn[i]*p.h[i])
			if p.free[i] { // h = … /cos κ: the motion along the feed does nothing
				s.push += k * (1 - s.lean*p.sin[i]/p.cos[i])
				s.rise += k / p.cos[i]
			} else {
				along := p.cos[i] - s.lean*p.sin[i]
				s.regen += k * along * along
			}
		}
		return
	}
	for i := range p.n {
		h, edge, turn := p.h[i], p.edge[i], p.turn[i]
		a, b, x := l.cell(h)
		s.cutting += edge*(a.c+x*(b.c-a.c)) - turn*(a.cc+x*(b.cc-a.cc))
		s.thrust += edge*(a.t+x*(b.t-a.t)) - turn*(a.tt+x*(b.tt-a.tt))
		s.area += h * (edge - turn*h/2)
	}
}
