package cut

import "math"

// Contact is the engaged edge as its flank land feels it: the length of the edge
// and its sums over the local angle κ of the edge, all in mm.
type Contact struct {
	Edge   float64 // ∫ db
	Feed   float64 // ∫ sin κ db: what of it stands against the feed
	Radial float64 // ∫ cos κ db: what of it stands against the wall
	// Squares, for what goes as a motion along the normal times a force along it.
	Feed2, Both, Radial2 float64 // ∫ sin²κ db, ∫ sin κ·cos κ db, ∫ cos²κ db
}

// Contact is the engaged edge for a depth and a feed, mm, in closed form: an arc
// and two straight pieces. It is zero where nothing is cut.
func (m *Model) Contact(depth, feed float64) Contact {
	if !cuts(depth, feed) {
		return Contact{}
	}
	s := m.engage(depth, feed)
	s0, c0 := ofHalf(s.from)
	s1, c1 := ofHalf(s.to)
	rises, along := m.reach(&s)
	turn := 2 * (math.Atan(s.to) - math.Atan(s.from))
	wave := s1*c1 - s0*c0
	return Contact{
		Edge:    m.r*turn + s.flank + s.behind,
		Feed:    rises,
		Radial:  along,
		Feed2:   m.r/2*(turn-wave) + s.flank*m.sk*m.sk + s.behind*m.sp*m.sp,
		Both:    m.r/2*(s1*s1-s0*s0) + s.flank*m.sk*m.ck - s.behind*m.sp*m.cp,
		Radial2: m.r/2*(turn+wave) + s.flank*m.ck*m.ck + s.behind*m.cp*m.cp,
	}
}

// Along is the edge as a motion sees it that goes back along the feed by lean for 1
// into the wall, mm: ∫(cos κ − lean·sin κ)² db, as in Model.Regen.
func (c Contact) Along(lean float64) float64 {
	return c.Radial2 - 2*lean*c.Both + lean*lean*c.Feed2
}

// landFriction is the friction of a flank land on the new surface: drag along the
// cut over force normal to it. Source: μ about 0.3, ploughing literature after
// Wu, Trans. ASME J. Eng. Ind. 111 (1989), from memory; worn edges in finish
// turning of steel (Canal & Borille 2022, in testdata) show 0.30 to 0.61.
const landFriction = 0.3

// Worn is what a flank land adds to Force, N: a pressure on the land, normal to
// the edge and hardly dependent on feed,
//
//	dF_n = q·VB·db,  dF_c = μ·dF_n
//
// with q Work.Flank, N/mm², and VB the land beyond that of a new edge, mm, whose
// own force stands in the constants of Force. The direction follows the edge, as
// in Force. Area and chip thickness are 0. It was measured at 350 m/min; that it goes
// with the cutting speed, m/min, as Force does is an assumption. At VB 0.3 each part
// is within 25 % of the measurements that q comes from, at VB 0.1 the radial part
// within 30 %.
func (m *Model) Worn(depth, feed, speed, land float64) Force {
	if !(land > 0) {
		return Force{}
	}
	return m.Contact(depth, feed).Pressed(m.Pressure(speed, land))
}

// Pressure is what a flank land, mm, adds on each mm of edge at a cutting speed, m/min: q·VB
// of Worn, N/mm.
func (m *Model) Pressure(speed, land float64) float64 {
	return m.work.Flank * land * SpeedFactor(speed)
}

// Pressed is what a pressure adds along the edge, as Worn has it.
func (c Contact) Pressed(q float64) Force {
	return Force{Cutting: landFriction * q * c.Edge, Feed: q * c.Feed, Radial: q * c.Radial}
}

// Land is how wide a flank land may be, mm.
type Land struct{ Least, Most float64 }

// Plus is a land after more wear.
func (l Land) Plus(more Land) Land { return Land{l.Least + more.Least, l.Most + more.Most} }

// Times is a land so many times as wide: wear a metre times metres.
func (l Land) Times(x float64) Land { return Land{l.Least * x, l.Most * x} }

// Middle is what to reckon with where one figure is wanted: the mean.
func (l Land) Middle() float64 { return (l.Least + l.Most) / 2 }

// NewEdge is the contact that an edge of a rounding, mm, has behind its tip before
// anything is worn but what the first minutes of cutting take: 0.6 to 1.8 times the
// rounding, which is 5 to 15 µm on a ground edge (rounding 8 µm) and 12 to 36 µm on a
// honed one (20 µm), and at the most 20 µm more that run in.
// Source: edge literature, from memory.
func NewEdge(rounding float64) Land { return Land{0.6 * rounding, 1.8*rounding + 0.020} }

// Metres is how far, m, the edge cuts in a pass: πD for each feed of its travel.
// Diameter, travel and feed in mm.
func Metres(diameter, travel, feed float64) float64 {
	if !(feed > 0) {
		return 0
	}
	return math.Pi * diameter * travel / feed / 1e3
}
