// Package place says where things stand and whether they pass: the line of bores
// against the spindle with what to move, the size at which a worn bore cleans up,
// and the room of bar and cutter on the way to a bore, with the choice of bars. It
// turns jobs and visits into what geom and clearance measure, and rounds its answers
// once, to what is printed; they stay in their types, in mm and mrad. It plans no
// pass and alters no job.
package place

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/geom"
	"borewright/process/qty"
)

// LineUp is where the line of bores stands against the spindle by what was
// swept, and what to move. X is to the right of the operator who stands at the
// spindle and looks at the work, Y up; a tilt is positive where the far end
// stands right or high. Every ± covers 95 %.
type LineUp struct {
	Station string     // the bore that the advice is for
	Depth   qty.Length // its middle
	Offset  geom.Vec   // of the line from the spindle axis, at the face
	Unsure  qty.Length // of that, ±
	Tilt    geom.Vec   // mrad
	TiltIs  float64    // known to ± mrad
	Droop   qty.Length // how far the bar hangs at the cutter in the middle of that bore; the advice allows for it

	// Made is set once a cut was measured: the work was moved before it, and is
	// not to be moved by the same sweeps again.
	Made      bool
	Confirmed bool // by a witness cut, where the tilt was assumed

	// Assumption is what the tilt rests on when no sweep shows it, and Confirm
	// what the witness cut must show then; nothing when it was swept.
	Assumption, Confirm fact.Fact
	At                  []geom.AtStation // every station of the line, before anything is moved
	Swept               []Swept          // in the order of the job

	Shim       *Shim // nil: none is called for
	Turn       *Turn // nil: none is called for
	Move       [2]Move
	SweepAgain bool // shim or turn come first: the move is checked by a new sweep
	Notes      []fact.Fact
	Doubts     []fact.Fact // of Notes, those about a reading that does not go with the others

	rest geom.Vec // of the moves, by rounding: the line stays that far off the spindle, mm
	line geom.LineUp
	geom geom.LineUpInput
}

// Swept is what one sweep says, and what it should say when the work has been
// moved.
type Swept struct {
	geom.Swept
	As       process.Sweep // as it was read
	Expected []qty.Length  // bore: what the dial should show at its places after, zeroed at the first
}

// Move brings spindle and work together along one axis.
type Move struct {
	Axis string // "X" or "Y"
	geom.Move
	Graduations float64 // of the machine's axis dial, whole and half ones
	// Left is what is left alone, because it is no more than Unsure, ±: what the sweeps
	// can tell.
	Left, Unsure qty.Length
	AsItStands   bool // worked out with the tilt left in
}

// Turn is a turn of the table about the vertical.
type Turn struct {
	geom.Turn
	Stop    qty.Length // distance of the stop from the table's centre; 0: the table is not stated
	PerSpan qty.Length // the same turn over Span, for a table without a stop
	Span    qty.Length // 12 in or 300 mm
}

// Shim goes under one end of the work.
type Shim struct {
	geom.Shim
	Over    qty.Length // distance between the packings; 0: they are not stated
	PerSpan qty.Length // what it comes to over Span
	Span    qty.Length // 12 in or 300 mm
}

// Fact is the turn to be compared; nil, which is none, says nothing.
func (t *Turn) Fact() fact.Fact {
	if t == nil {
		return fact.Fact{}
	}
	return fact.New(TurnedBy, t.Sense.Fact(), fact.Figure(qty.KindSlope.Of(math.Abs(t.Mrad))))
}

// Fact is the shim to be compared; nil, which is none, says nothing.
func (s *Shim) Fact() fact.Fact {
	if s == nil {
		return fact.Fact{}
	}
	return fact.New(ShimmedBy, s.Under.Fact(), fact.Figure(qty.KindSlope.Of(s.Slope())))
}

// Slope is the slope that the shim takes out, mrad, by the figures printed.
func (s *Shim) Slope() float64 { return 1e3 * s.PerSpan.MM() / s.Span.MM() }

// NewLineUp works the sweeps of a job out; nil without any. hang is how far the
// bar hangs at the cutter when the tip stands at a depth, mm.
func NewLineUp(job *process.Job, hang func(depth qty.Length) float64) (*LineUp, error) {
	if len(job.Sweeps) == 0 {
		return nil, nil
	}
	bore := middleBore(job)
	set := setting(job, bore, hang)
	g, err := geom.NewLineUp(set)
	if err != nil {
		return nil, err
	}
	u := job.Units
	l := &LineUp{
		Station: job.Stations[bore].Name, Depth: middle(job.Stations[bore]),
		Offset: placeOf(u, g.Offset), Unsure: u.Up(qty.FromMM(g.OffsetUncertainty)),
		Tilt: g.Tilt, TiltIs: g.TiltUncertainty,
		Droop: u.Round(qty.FromMM(set.Stations[bore].Droop)), Assumption: g.Assumption, Notes: g.Notes,
		line: *g, geom: set,
	}
	for _, a := range g.AtStation {
		a.Vec, a.Uncertainty = placeOf(u, a.Vec), up(u, a.Uncertainty)
		l.At = append(l.At, a)
	}
	l.advise(job, g.Advice)
	l.after(job)
	l.Doubts = l.doubtful(job)
	l.Notes = append(slices.Clone(l.Doubts), l.Notes...)
	if off := l.offLine(); !off.None() {
		l.Notes = append(l.Notes, off)
	}
	if !l.Assumption.None() {
		l.Confirm = l.confirm(job)
	}
	return l, nil
}

// middleBore is the station that the work is lined up for: of all that are
// bored, the one nearest to the middle of their depths. What tilt is left in is
// then shared out to both ends.
func middleBore(job *process.Job) int {
	lo, hi := qty.Length(math.MaxInt64), qty.Length(math.MinInt64)
	here := slices.DeleteFunc(slices.Clone(job.Bores), func(b process.Bore) bool { return !job.Here(b) })
	for _, b := range here {
		m := middle(job.Stations[b.Station])
		lo, hi = min(lo, m), max(hi, m)
	}
	best := here[0].Station
	off := func(i int) qty.Length { return (middle(job.Stations[i]) - (lo+hi)/2).Abs() }
	for _, b := range here {
		if off(b.Station) < off(best) {
			best = b.Station
		}
	}
	return best
}

func middle(s process.Station) qty.Length { return (s.From + s.To) / 2 }

// setting turns the job into what the line is laid from.
func setting(job *process.Job, bore int, hang func(depth qty.Length) float64) geom.LineUpInput {
	l := job.LineUp
	set := geom.LineUpInput{
		Dial: geom.Dial{Graduation: l.Dial.MM(), Repeats: l.Repeats.MM()}, Bore: bore,
		Coaxial: l.Coaxial.MM(), Square: l.Square, Parallel: l.Parallel,
	}
	if faces.Turned(job) { // where no sweep shows it, the turn adds its own lean
		set.Parallel = math.Hypot(set.Parallel, job.Machine.IndexAngle)
	}
	if t := l.Table; t != nil {
		set.Table = &geom.Table{Centre: t.Centre.MM(), Stop: t.Stop.MM()}
	}
	if p := l.Packs; p != nil {
		set.Packs = &geom.Packs{Near: p.Near.MM(), Far: p.Far.MM()}
	}
	for _, s := range job.Stations {
		set.Stations = append(set.Stations, geom.Target{Station: s.Name, Depth: middle(s).MM(), Droop: hang(middle(s))})
	}
	for _, w := range job.Sweeps {
		sw := geom.Sweep{
			Station: job.Stations[w.Station].Name, Depth: w.Depth.MM(), Face: w.Face, Clock: w.At,
			Diameter: w.Diameter.MM(), Stylus: w.Stylus, Droop: w.Droop.MM(), OutOfRound: w.OutOfRound.MM(),
		}
		for _, d := range w.Dial {
			sw.Dial = append(sw.Dial, dialSign(w)*d.MM())
		}
		set.Sweeps = append(set.Sweeps, sw)
	}
	return set
}

// dialSign is the sign between what a dial shows and geom.Sweep.Dial, where
// larger is further. A plunger that is pressed in turns the pointer clockwise,
// to larger readings (ISO 463, from memory): the metal stands nearer.
func dialSign(w process.Sweep) float64 {
	if w.Further {
		return 1
	}
	return -1
}

// near, up and down round so many mm to what is printed.
func near(u qty.Unit, mm float64) float64 { return u.Round(qty.FromMM(mm)).MM() }
func up(u qty.Unit, mm float64) float64   { return u.Up(qty.FromMM(mm)).MM() }
func down(u qty.Unit, mm float64) float64 { return u.Down(qty.FromMM(mm)).MM() }

func placeOf(u qty.Unit, v geom.Vec) geom.Vec { return geom.Vec{X: near(u, v.X), Y: near(u, v.Y)} }

// spanOf is the length that a slope is told over where there is no stop.
func spanOf(u qty.Unit) qty.Length {
	if u == qty.Inches {
		return 12 * qty.Inch
	}
	return 300 * qty.Millimetre
}

// advise takes over what geom advises. A tilt within its own uncertainty is
// left alone: turning after it would chase the dial's noise.
func (l *LineUp) advise(job *process.Job, a geom.Advice) {
	u := job.Units
	span := spanOf(u)
	over := func(mrad float64) qty.Length { return u.Round(qty.FromMM(math.Abs(mrad) / 1e3 * span.MM())) }
	x, y := a.AsItStands[0], a.AsItStands[1]
	if a.Turn.Sure && a.Turn.Sense != geom.Untouched {
		l.Turn = &Turn{Turn: a.Turn, PerSpan: over(a.Turn.Mrad), Span: span}
		l.Turn.AtStop = near(u, a.Turn.AtStop)
		if t := job.LineUp.Table; t != nil {
			l.Turn.Stop, x = t.Stop, a.Move[0]
		}
	}
	if a.Shim.Sure && a.Shim.Under != geom.NoEnd {
		l.Shim = &Shim{Shim: a.Shim, PerSpan: over(l.Tilt.Y), Span: span}
		l.Shim.Thick = near(u, a.Shim.Thick)
		if p := job.LineUp.Packs; p != nil {
			l.Shim.Over, y = p.Far-p.Near, a.Move[1]
		}
	}
	l.SweepAgain = l.Turn != nil || l.Shim != nil
	l.Move[0], l.rest.X = l.move(job, "X", x, l.Turn != nil && job.LineUp.Table == nil)
	l.Move[1], l.rest.Y = l.move(job, "Y", y, l.Shim != nil && job.LineUp.Packs == nil)
}

// move leaves alone what is no more than its own doubt: moving after it would chase the
// dial's noise. Else it rounds a move once: to half a graduation of the dial where hands turn it, else
// to what is printed. What that leaves is what the dial will show.
func (l *LineUp) move(job *process.Job, axis string, m geom.Move, asItStands bool) (out Move, rest float64) {
	by, dial := job.Units.Round(qty.FromMM(m.By)), job.Machine.Dial
	if job.Machine.Control == nil && dial > 1 {
		by = qty.Length(math.Round(m.By/(dial/2).MM())) * (dial / 2)
	}
	unsure := job.Units.Up(qty.FromMM(m.Within))
	if left := job.Units.Round(qty.FromMM(m.By).Abs()); left > 0 && left <= unsure {
		return Move{Axis: axis, AsItStands: asItStands, Left: left, Unsure: unsure}, m.By
	}
	if rest = m.By - by.MM(); by == 0 {
		return Move{Axis: axis, AsItStands: asItStands}, rest
	}
	m.By = by.MM()
	out = Move{Axis: axis, Move: m, AsItStands: asItStands}
	if dial > 0 {
		out.Graduations = math.Round(2*float64(by.Abs())/float64(dial)) / 2
	}
	return out, rest
}

// tiltLeft is the tilt that stays in when the advice has been followed, mm/mm.
func (l *LineUp) tiltLeft() geom.Vec {
	t := geom.Vec{X: l.line.Tilt.X / 1e3, Y: l.line.Tilt.Y / 1e3}
	if l.Turn != nil {
		t.X = 0
	}
	if l.Shim != nil {
		t.Y = 0
	}
	return t
}

// LeansWithin is how far the line may still lean from the spindle when the advice has been
// followed, mrad, ±: what the sweeps do not tell, and what of the tilt stays in. No more than
// most, which holds where no sweep shows the tilt.
func (l *LineUp) LeansWithin(most float64) float64 {
	if l == nil || !l.Assumption.None() {
		return most
	}
	left := l.tiltLeft()
	return math.Min(most, l.TiltIs+1e3*math.Max(math.Abs(left.X), math.Abs(left.Y)))
}

// stray is how far the bore of a sweep stands from the line through all, mm.
func (l *LineUp) stray(s geom.Swept) geom.Vec {
	return geom.Vec{
		X: s.Offset.X - l.line.Offset.X - l.line.Tilt.X/1e3*s.Depth,
		Y: s.Offset.Y - l.line.Offset.Y - l.line.Tilt.Y/1e3*s.Depth,
	}
}

// after fills in the sweeps, with what the dial should show once the advice is
// followed: the bore's own distance from the line, the tilt left in, what the moves
// leave by rounding, and the dial's droop against the bar's.
//
//	reading = ±((s_x + m_x + t_x·Δz)·sin θ + (s_y + m_y + t_y·Δz + d − b)·cos θ) / cos β
//
// s stray, m rest of the move, t tilt left, Δz depth from the bore, d droop of the dial, b of the
// bar, β stylus angle, minus where the dial counts up as its plunger is pressed
// in; first order in the offset.
func (l *LineUp) after(job *process.Job) {
	u, left := job.Units, l.tiltLeft()
	for i, s := range l.line.Swept {
		w := job.Sweeps[i]
		out := Swept{Swept: s, As: w}
		out.Offset, out.TIR, out.Spread = placeOf(u, s.Offset), near(u, s.TIR), near(u, s.Spread)
		out.Form, out.OffLine = near(u, s.Form), near(u, s.OffLine)
		if !s.Face {
			e, dz := l.stray(s), s.Depth-l.Depth.MM()
			e.X += l.rest.X + left.X*dz
			e.Y += l.rest.Y + left.Y*dz + w.Droop.MM() - l.geom.Stations[l.geom.Bore].Droop
			var zero float64
			for k, c := range w.At {
				at := geom.AtClock(c)
				v := dialSign(w) * (e.X*at.X + e.Y*at.Y) / math.Cos(w.Stylus*math.Pi/180)
				if k == 0 {
					zero = v
				}
				out.Expected = append(out.Expected, u.Round(qty.FromMM(v-zero)))
			}
		}
		l.Swept = append(l.Swept, out)
	}
}

// LeastKnown is the bored station whose place the sweeps tell least surely.
func (l *LineUp) LeastKnown(job *process.Job) int {
	best := -1
	for _, b := range job.Bores {
		if job.Here(b) && (best < 0 || l.At[b.Station].Uncertainty > l.At[best].Uncertainty) {
			best = b.Station
		}
	}
	return best
}

// doubtful names dial readings that do not go with the others of their sweep.
func (l *LineUp) doubtful(job *process.Job) []fact.Fact {
	var out []fact.Fact
	for i, s := range l.line.Swept {
		w, kind := job.Sweeps[i], DoubtfulDial
		if s.Face {
			kind = DoubtfulOnFace
		}
		for _, d := range s.Doubtful {
			out = append(out, fact.Fact{Kind: kind, Args: []fact.Arg{
				fact.Count(i + 1), fact.Name(s.Station), fact.Figure(qty.KindExactClock.Of(w.At[d.Index])),
				fact.Figure(w.Dial[d.Index]), fact.MM(dialSign(w) * d.Expected)}})
		}
	}
	if off := math.Hypot(l.line.Offset.X, l.line.Offset.Y); off > usualOffset {
		out = append(out, fact.New(FarToMove, fact.MM(off), fact.PlainMM(usualOffset)))
	}
	if lean := math.Hypot(l.Tilt.X, l.Tilt.Y); lean > usualLean {
		out = append(out, fact.New(FarToTilt, fact.Figure(qty.KindSlope.Of(lean)), fact.Figure(qty.KindSlope.Of(usualLean))))
	}
	return out
}

// Work that is set up by eye and straight-edge stands within this of the spindle, mm, and
// leans no more than this, mrad: past it a slip of the hand is likelier. Common practice,
// no source.
const usualOffset, usualLean = 1.0, 5.0

// offLine says which sweeps stand off the line where they do not agree on one.
func (l *LineUp) offLine() fact.Fact {
	if l.line.Raised <= 1 {
		return fact.Fact{}
	}
	worst := -1
	var off []fact.Fact
	for i, s := range l.Swept {
		if s.Face {
			continue
		}
		off = append(off, fact.New(SweepOffLine, fact.Count(i+1), fact.Name(s.Station), fact.MM(s.Depth), fact.MM(s.OffLine)))
		if worst < 0 || s.OffLine > l.Swept[worst].OffLine {
			worst = i
		}
	}
	if worst < 0 || l.Swept[worst].OffLine == 0 {
		return fact.Fact{}
	}
	var few fact.Arg
	if len(off) <= 3 {
		few = fact.Count(len(off))
	}
	return fact.New(SweepsDisagree, fact.List(off...), fact.Count(worst+1), few)
}

// confirm says what the witness cut must show before "parallel to the machined
// face" is believed.
func (l *LineUp) confirm(job *process.Job) fact.Fact {
	station := job.Stations[l.LeastKnown(job)]
	lean := job.Units.Up(qty.FromMM(l.TiltIs / 1e3 * station.Length().MM()))
	return fact.New(WitnessMustShow, fact.Name(station.Name), fact.Figure(lean), fact.Figure(qty.KindSlope.Of(l.TiltIs)), fact.Figure(station.Length()))
}

// strays gives for every station where its axis stands from the axis that the
// bar will turn on once the advice is followed, mm: what was swept of it, the
// tilt that is left in, and what the moves leave.
func (l *LineUp) strays(job *process.Job, bore int) []geom.Vec {
	out := make([]geom.Vec, len(job.Stations))
	if l == nil {
		return out
	}
	left := l.tiltLeft()
	for i, s := range job.Stations {
		dz := (middle(s) - middle(job.Stations[bore])).MM()
		out[i] = geom.Vec{X: l.rest.X + left.X*dz, Y: l.rest.Y + left.Y*dz}
	}
	own := map[int]geom.Vec{} // of the sweeps of one bore, the one furthest off
	for i, s := range l.line.Swept {
		if at := job.Sweeps[i].Station; !s.Face && at != bore {
			if e := l.stray(s); e.Length() > own[at].Length() {
				own[at] = e
			}
		}
	}
	for at, e := range own {
		out[at].X += e.X
		out[at].Y += e.Y
	}
	return out
}

// UnsureAt is how surely the place of a station is known, ±.
func (l *LineUp) UnsureAt(station string) qty.Length {
	for _, a := range l.At {
		if a.Station == station {
			return qty.FromMM(a.Uncertainty)
		}
	}
	return l.Unsure
}

// AxisWithin is how far from the line the axis may stand that is cut at a station, ±:
// what is not known of the line there, what else of that kind there is (back), and what
// the moves leave by rounding.
func (l *LineUp) AxisWithin(u qty.Unit, station string, back qty.Length) qty.Length {
	unsure := math.Hypot(l.UnsureAt(station).MM(), back.MM())
	return u.Up(qty.FromMM(unsure + l.rest.Length()))
}

// unsureMost is how far any bore on the way may stand elsewhere than strays says,
// mm.
func (l *LineUp) unsureMost(job *process.Job) float64 {
	most := 0.0
	if l != nil {
		for _, a := range l.line.AtStation {
			most = math.Max(most, a.Uncertainty)
		}
	}
	return most + job.LineUp.Coaxial.MM()
}

// HalfTurn is how far from what was bored from the near face the spindle may stand at a
// depth after half a turn, ±:
//
//	√(p² + (φ·Δz)²)
//
// p what the turn leaves unknown across, φ of its angle, Δz the distance from the centre of
// the table where that is stated, else from the face. The turn is about the vertical and
// moves nothing up or down.
func HalfTurn(j *process.Job, depth qty.Length) qty.Length {
	if t := j.LineUp.Table; t != nil {
		depth -= t.Centre
	}
	return qty.FromMM(math.Hypot(j.Machine.IndexPlace.MM(), j.Machine.IndexAngle/1e3*depth.MM()))
}
