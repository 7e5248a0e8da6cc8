package geom

import "math"

// Advice is how to bring the axis onto the bar's, in the order to do it: shim,
// turn, sweep again, move. Directions are as the operator sees them who stands
// at the spindle and looks at the work.
type Advice struct {
	Shim Shim
	Turn Turn
	// Move, along X and along Y, is for after shim and turn when the table's centre and the packings
	// are stated, so that it is known what these do; else for the work as it
	// stands.
	Move [2]Move
	// AsItStands is the move without shim and turn: the axis then meets the bar
	// in the middle of the bore only.
	AsItStands [2]Move
}

// Direction is a way across the spindle, as the operator sees it who stands at
// the spindle and looks at the work.
type Direction int

// The directions.
const (
	Still Direction = iota
	Left
	Right
	Up
	Down
)

// Rotation is a sense of turning, seen from above.
type Rotation int

// The senses.
const (
	Untouched Rotation = iota
	Clockwise
	Counterclockwise
)

// End is one end of the work, by depth from the spindle.
type End int

// The ends.
const (
	NoEnd End = iota
	NearEnd
	FarEnd
)

// Move brings spindle and work together along one axis.
type Move struct {
	// By is how much the axis reading goes up (ISO 841: the tool's place relative
	// to the work), mm.
	By float64
	// Spindle is which way the spindle goes, Work which way the work goes if it
	// is the work that moves; Still when By is 0.
	Spindle, Work Direction
	Within        float64 // ± mm, 95 %: how surely the sweeps tell it
}

// Turn is a turn of the table about the vertical.
type Turn struct {
	Mrad   float64 // counterclockwise positive, seen from above
	Sense  Rotation
	FarEnd Direction // which way the far end of the work goes
	AtStop float64   // how far the table goes at the stop block, mm; 0: the table is not stated
	Sure   bool      // the tilt is more than its uncertainty
}

// Shim goes under one end of the work; a table cannot turn a tilt in the
// vertical plane out.
type Shim struct {
	Under End
	Thick float64 // mm; 0: the packings are not stated
	Sure  bool    // the tilt is more than its uncertainty
}

// advise works the moves out. Tilt of the axis by t_x (far end right) is taken
// out by turning the work t_x counterclockwise seen from above, which swings
// the far end left. About a centre at depth z_c the axis x(z) becomes
//
//	x(z) − t_x·(z − z_c) = x(z_c)
//
// at every depth, to the second order of the angle. Tilt t_y (far end high) is
// taken out by raising the near end by t_y times the distance between the
// packings; the far one is the pivot.
func advise(a axis, s LineUpInput) Advice {
	var out Advice
	to := s.Stations[s.Bore]
	here := a.at(to.Depth).Plus(Vec{0, to.Droop})
	within := a.surely(to.Depth)
	out.AsItStands = moves(here, within, within)
	after, withinX, withinY := here, within, within

	sure := a.tiltUncertainty()
	out.Turn = Turn{Mrad: a.t.X * 1e3, Sure: math.Abs(a.t.X) > sure}
	switch {
	case a.t.X > 0:
		out.Turn.Sense, out.Turn.FarEnd = Counterclockwise, Left
	case a.t.X < 0:
		out.Turn.Sense, out.Turn.FarEnd = Clockwise, Right
	}
	if t := s.Table; t != nil {
		out.Turn.AtStop = math.Tan(math.Abs(a.t.X)) * t.Stop
		after.X, withinX = a.at(t.Centre).X, a.surely(t.Centre)
	}
	out.Shim.Sure = math.Abs(a.t.Y) > sure
	if p := s.Packs; p != nil {
		out.Shim.Thick = math.Abs(a.t.Y) * (p.Far - p.Near)
	}
	pivot := 0.0
	switch {
	case a.t.Y > 0:
		out.Shim.Under = NearEnd
		if s.Packs != nil {
			pivot = s.Packs.Far
		}
	case a.t.Y < 0:
		out.Shim.Under = FarEnd
		if s.Packs != nil {
			pivot = s.Packs.Near
		}
	}
	if s.Packs != nil && a.t.Y != 0 {
		after.Y, withinY = a.at(pivot).Y+to.Droop, a.surely(pivot)
	}
	out.Move = moves(after, withinX, withinY)
	return out
}

// moves brings a spindle to a bore that stands at off from it.
func moves(off Vec, withinX, withinY float64) [2]Move {
	one := func(by, within float64, plus, minus Direction) Move {
		m := Move{By: by, Within: within}
		if by > 0 {
			m.Spindle, m.Work = plus, minus
		} else if by < 0 {
			m.Spindle, m.Work = minus, plus
		}
		return m
	}
	return [2]Move{one(clean(off.X), withinX, Right, Left), one(clean(off.Y), withinY, Up, Down)}
}
