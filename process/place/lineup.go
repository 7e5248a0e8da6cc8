// Package place says where things stand and whether they pass: the line of bores
// against the spindle with what to move, the size at which a worn bore cleans up,
// and the room of bar and cutter on the way to a bore, with the choice of bars. It
// turns jobs and visits into what process/geom measures, and its answers into
// sizes. It plans no pass and alters no job.
package place

import (
	"fmt"
	"math"
	"strings"

	"borewright/process"
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
	Offset  Place      // of the line from the spindle axis, at the face
	Unsure  qty.Length // of that, ±
	Tilt    [2]float64 // X and Y, mrad
	TiltIs  float64    // known to ± mrad
	Droop   qty.Length // how far the bar hangs at the cutter in the middle of that bore; the advice allows for it

	// Made is set once a cut was measured: the work was moved before it, and is
	// not to be moved by the same sweeps again.
	Made      bool
	Confirmed bool // by a witness cut, where the tilt was assumed

	// Assumption is what the tilt rests on when no sweep shows it, and Confirm
	// what the witness cut must show then; "" when it was swept.
	Assumption, Confirm string
	At                  []AtStation // every station of the line
	Swept               []Swept     // in the order of the job

	Shim       *Shim // nil: none is called for
	Turn       *Turn // nil: none is called for
	Move       [2]Move
	SweepAgain bool // shim or turn come first: the move is checked by a new sweep
	Notes      []string

	line   geom.LineUp
	geom   geom.LineUpInput
	Doubts []string // of Notes, those about a reading that does not go with the others
}

// Place is a place or a shift across the spindle.
type Place struct{ X, Y qty.Length }

// AtStation is where the line stands at one station, against the axis that the
// bar cuts on there, before anything is moved.
type AtStation struct {
	Station string
	Depth   qty.Length
	Place
	Unsure qty.Length // ±, in the worst direction
}

// Swept is what one sweep says, and what it should say when the work has been
// moved.
type Swept struct {
	Station  string
	Depth    qty.Length
	Face     bool
	Place                 // bore: its middle from the spindle axis
	Lean     [2]float64   // face: slope of the axis square to it, mrad
	TIR      qty.Length   // twice the offset; face: diameter times slope
	Read     qty.Length   // largest less least reading
	Form     qty.Length   // what the offset does not explain, peak to valley
	OffLine  qty.Length   // how far this bore stands from the line through all
	At       []float64    // clock positions
	Dial     []qty.Length // as it read
	Further  bool         // what a larger reading means: further; else nearer
	Expected []qty.Length // bore: what the dial should show at them after, zeroed at the first
}

// Move brings spindle and work together along one axis. Spindle and Work say
// which way each would go, the one or the other: "left", "right", "up", "down",
// "" for no move.
type Move struct {
	Axis          string // "X" or "Y"
	By            qty.Length
	Spindle, Work string
	Graduations   float64 // of the machine's axis dial
	AsItStands    bool    // worked out with the tilt left in
}

// Turn is a turn of the table about the vertical.
type Turn struct {
	Mrad    float64    // without sign
	Way     string     // "clockwise" or "counterclockwise", seen from above
	FarEnd  string     // "left" or "right"
	AtStop  qty.Length // how far the table goes at the stop; 0: the table is not stated
	Stop    qty.Length // distance of that stop from the table's centre
	PerSpan qty.Length // the same turn over Span, for a table without a stop
	Span    qty.Length // 12 in or 300 mm
}

// Shim goes under one end of the work.
type Shim struct {
	Under   string     // "near" or "far"
	Thick   qty.Length // 0: the packings are not stated
	Over    qty.Length // distance between them
	PerSpan qty.Length
	Span    qty.Length
}

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
		Tilt: [2]float64{g.Tilt.X, g.Tilt.Y}, TiltIs: g.TiltUncertainty,
		Droop: u.Round(qty.FromMM(set.Stations[bore].Droop)), Assumption: g.Assumption, Notes: g.Notes,
		line: *g, geom: set,
	}
	for i, a := range g.AtStation {
		l.At = append(l.At, AtStation{a.Station, middle(job.Stations[i]), placeOf(u, geom.Vec{X: a.X, Y: a.Y}), u.Up(qty.FromMM(a.Uncertainty))})
	}
	l.advise(job, g.Advice)
	l.after(job)
	l.Doubts = l.doubtful(job)
	l.Notes = append(l.Doubts, l.Notes...)
	l.Notes = append(l.Notes, l.offLine(job)...)
	if l.Assumption != "" {
		l.Confirm = l.confirm(job)
	}
	return l, nil
}

// middleBore is the station that the work is lined up for: of all that are
// bored, the one nearest to the middle of their depths. What tilt is left in is
// then shared out to both ends.
func middleBore(job *process.Job) int {
	lo, hi := qty.Length(math.MaxInt64), qty.Length(math.MinInt64)
	for _, b := range job.Bores {
		m := middle(job.Stations[b.Station])
		lo, hi = min(lo, m), max(hi, m)
	}
	best := job.Bores[0].Station
	off := func(i int) qty.Length { return (middle(job.Stations[i]) - (lo+hi)/2).Abs() }
	for _, b := range job.Bores {
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

func placeOf(u qty.Unit, v geom.Vec) Place {
	return Place{u.Round(qty.FromMM(v.X)), u.Round(qty.FromMM(v.Y))}
}

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
		l.Turn = &Turn{Mrad: math.Abs(a.Turn.Mrad), Way: a.Turn.Sense.String(), FarEnd: a.Turn.FarEnd.String(), AtStop: u.Round(qty.FromMM(a.Turn.AtStop)), PerSpan: over(a.Turn.Mrad), Span: span}
		if t := job.LineUp.Table; t != nil {
			l.Turn.Stop, x = t.Stop, a.Move[0]
		}
	}
	if a.Shim.Sure && a.Shim.Under != geom.NoEnd {
		l.Shim = &Shim{Under: a.Shim.Under.String(), Thick: u.Round(qty.FromMM(a.Shim.Thick)), PerSpan: over(l.Tilt[1]), Span: span}
		if p := job.LineUp.Packs; p != nil {
			l.Shim.Over, y = p.Far-p.Near, a.Move[1]
		}
	}
	l.SweepAgain = l.Turn != nil || l.Shim != nil
	l.Move = [2]Move{
		l.move(job, "X", x, l.Turn != nil && job.LineUp.Table == nil),
		l.move(job, "Y", y, l.Shim != nil && job.LineUp.Packs == nil),
	}
}

// move rounds a move once, to what is printed; its graduations go with that.
func (l *LineUp) move(job *process.Job, axis string, m geom.Move, asItStands bool) Move {
	out := Move{Axis: axis, By: job.Units.Round(qty.FromMM(m.By)), AsItStands: asItStands}
	if out.By == 0 {
		return out
	}
	out.Spindle, out.Work = m.Spindle.String(), m.Work.String()
	if d := job.Machine.Dial; d > 0 {
		out.Graduations = float64(out.By.Abs()) / float64(d)
	}
	return out
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

// stray is how far the bore of a sweep stands from the line through all, mm.
func (l *LineUp) stray(s geom.Swept) geom.Vec {
	return geom.Vec{
		X: s.Offset.X - l.line.Offset.X - l.line.Tilt.X/1e3*s.Depth,
		Y: s.Offset.Y - l.line.Offset.Y - l.line.Tilt.Y/1e3*s.Depth,
	}
}

// after fills in the sweeps, with what the dial should show once the advice is
// followed: the bore's own distance from the line, the tilt left in, and the
// dial's droop against the bar's.
//
//	reading = ±((s_x + t_x·Δz)·sin θ + (s_y + t_y·Δz + d − b)·cos θ) / cos β
//
// s stray, t tilt left, Δz depth from the bore, d droop of the dial, b of the
// bar, β stylus angle, minus where the dial counts up as its plunger is pressed
// in; first order in the offset.
func (l *LineUp) after(job *process.Job) {
	u, left := job.Units, l.tiltLeft()
	for i, s := range l.line.Swept {
		w := job.Sweeps[i]
		out := Swept{
			Station: s.Station, Depth: w.Depth, Face: s.Face, Place: placeOf(u, s.Offset), Lean: [2]float64{s.Tilt.X, s.Tilt.Y},
			TIR: u.Round(qty.FromMM(s.TIR)), Read: u.Round(qty.FromMM(s.Spread)), Form: u.Round(qty.FromMM(s.Form)),
			OffLine: u.Round(qty.FromMM(s.OffLine)), At: w.At, Dial: w.Dial, Further: w.Further,
		}
		if !s.Face {
			e, dz := l.stray(s), s.Depth-l.Depth.MM()
			e.X += left.X * dz
			e.Y += left.Y*dz + w.Droop.MM() - l.geom.Stations[l.geom.Bore].Droop
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
	best := job.Bores[0].Station
	for _, b := range job.Bores {
		if l.At[b.Station].Unsure > l.At[best].Unsure {
			best = b.Station
		}
	}
	return best
}

// doubtful names dial readings that do not go with the others of their sweep.
func (l *LineUp) doubtful(job *process.Job) []string {
	u := job.Units
	var out []string
	for i, s := range l.line.Swept {
		w, in := job.Sweeps[i], "in "
		if s.Face {
			in = "on the face around "
		}
		for _, d := range s.Doubtful {
			out = append(out, fmt.Sprintf("sweep %d, %s%s at %s: the dial's %s does not go with the other readings, which suggest %s. It is used as it stands: sweep again before anything is moved",
				i+1, in, s.Station, clockLabel(w.At[d.Index]), u.Say(w.Dial[d.Index]), u.Say(qty.FromMM(dialSign(w)*d.Expected))))
		}
	}
	return out
}

// offLine says which sweeps stand off the line where they do not agree on one.
func (l *LineUp) offLine(job *process.Job) []string {
	if l.line.Raised <= 1 {
		return nil
	}
	u, n, worst := job.Units, 0, -1
	var off []string
	for i, s := range l.Swept {
		if s.Face {
			continue
		}
		n++
		off = append(off, fmt.Sprintf("sweep %d, in %s at depth %s, by %s", i+1, s.Station, u.Say(s.Depth), u.Say(s.OffLine)))
		if worst < 0 || s.OffLine > l.Swept[worst].OffLine {
			worst = i
		}
	}
	if worst < 0 || l.Swept[worst].OffLine == 0 {
		return nil
	}
	say := fmt.Sprintf("off the line laid through all stand: %s. Sweep number %d again first: it was read wrongly, or that bore stands out of line", strings.Join(off, "; "), worst+1)
	if n <= 3 {
		say += fmt.Sprintf(". %d bore sweeps alone cannot tell for sure which of them is out", n)
	}
	return []string{say}
}

// confirm says what the witness cut must show before "parallel to the machined
// face" is believed.
func (l *LineUp) confirm(job *process.Job) string {
	u := job.Units
	station := job.Stations[l.LeastKnown(job)]
	long := station.Length()
	lean := u.Up(qty.FromMM(l.TiltIs / 1e3 * long.MM()))
	return fmt.Sprintf("The witness cut must show it: take it at both ends of %s and measure wall or pitch from the band to the datum at 12, 3, 6 and 9 o'clock. Near and far end agree within %s (± %.2f mrad over %s); if they do not, the line leans: sweep a second bore or the face, and line up again.",
		station.Name, u.Say(lean), l.TiltIs, u.Say(long))
}

// strays gives for every station where its axis stands from the axis that the
// bar will turn on once the advice is followed, mm: what was swept of it, and
// the tilt that is left in.
func (l *LineUp) strays(job *process.Job, bore int) []geom.Vec {
	out := make([]geom.Vec, len(job.Stations))
	if l == nil {
		return out
	}
	left := l.tiltLeft()
	for i, s := range job.Stations {
		dz := (middle(s) - middle(job.Stations[bore])).MM()
		out[i] = geom.Vec{X: left.X * dz, Y: left.Y * dz}
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
			return a.Unsure
		}
	}
	return l.Unsure
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
