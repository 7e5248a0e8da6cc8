package setup

import (
	"math"

	"borewright/process/cut"
)

// Table is the force and the stiffness of cuts over their depth for each of some feeds,
// made once for all the cuts that a search looks at. On the way in depths are
// whole pitches. On the way out they are small, and force changes most at the
// smallest: they lie as the squares of whole numbers, up to deepest.
type Table struct {
	Pitch float64   // mm
	Feeds []float64 // mm/rev

	edge      *Edge
	factor    float64       // cut.SpeedFactor that it was made for
	at        [][]cut.Force // [feed][depth]
	stiffness []*stiffRow   // [feed]
	deepest   []float64     // [feed]: on the way out
	back      [][]cut.Force // the same on the way out; nil: no pass of it is fed out
	backStiff []*stiffRow

	speed, by float64 // the cutting speed last asked for, m/min, with its scale
}

// backDepths is how many depths the table has on the way out.
const backDepths = 24

// Table makes one of whole pitches, mm, to the deepest cut, at a cutting speed, m/min, and
// feeds, mm/rev. fed: the passes are fed out.
func (e *Edge) Table(pitch, deepest, speed float64, feeds []float64, fed bool) *Table {
	n := int(math.Ceil(deepest/pitch)) + 1
	t := &Table{Pitch: pitch, Feeds: feeds, edge: e, factor: cut.SpeedFactor(speed)}
	pressure := e.in.Pressure(speed, e.land)
	for _, f := range feeds {
		fresh := e.row(rowOf{pitch, speed, f, n})
		row, stiff := make([]cut.Force, n+1), fresh.stiffness
		if stiff == nil { // it hangs on what the worn edge feels
			stiff = newStiffRow(n, e.touching(f, speed, pitch, fresh.contact))
		}
		most := 0.0
		for i := 1; i <= n; i++ {
			row[i] = fresh.force[i].Plus(fresh.contact[i].Pressed(pressure))
			if fed {
				most = math.Max(most, e.Middle.Push(row[i], e.radius, In))
			}
		}
		t.at, t.stiffness = append(t.at, row), append(t.stiffness, stiff)
		if !fed {
			continue
		}
		most = math.Max(1.5*most, 1e-3) // a slow speed pushes harder
		depth := func(i int) float64 {
			x := float64(i) / backDepths
			return most * x * x
		}
		row = make([]cut.Force, backDepths+1)
		stiff = newStiffRow(backDepths, func(i int) Stiffness { return e.Stiffness(depth(i), f, speed, Out) })
		for i := 1; i <= backDepths; i++ {
			row[i] = e.Force(depth(i), f, speed, Out)
		}
		t.back, t.backStiff, t.deepest = append(t.back, row), append(t.backStiff, stiff), append(t.deepest, most)
	}
	return t
}

// rowOf is what a row of a table is made for: so many whole pitches, mm, a cutting speed,
// m/min, and a feed, mm/rev.
type rowOf struct {
	pitch, speed, feed float64
	n                  int
}

// row is what of a row does not hang on how far the edge is worn.
type row struct {
	force     []cut.Force
	contact   []cut.Contact
	stiffness *stiffRow // nil where an outboard bearing has play: there it hangs on the force
}

// stiffRow is the stiffness of the cuts of a row, each worked out when it is asked for.
type stiffRow struct {
	of    func(i int) Stiffness
	at    []Stiffness
	known []bool
}

// newStiffRow is that of entries 0, of no depth, to n.
func newStiffRow(n int, of func(i int) Stiffness) *stiffRow {
	return &stiffRow{of, make([]Stiffness, n+1), make([]bool, n+1)}
}

// touching is the stiffness of cuts on the way in, by what touches at whole pitches.
func (e *Edge) touching(feed, speed, pitch float64, contact []cut.Contact) func(i int) Stiffness {
	return func(i int) Stiffness { return e.stiffnessOf(e.in, float64(i)*pitch, feed, speed, In, contact[i]) }
}

func (r *stiffRow) entry(i int) Stiffness {
	if i > 0 && !r.known[i] {
		r.at[i], r.known[i] = r.of(i), true
	}
	return r.at[i]
}

func (e *Edge) row(of rowOf) *row {
	r := e.rows[of]
	if r == nil {
		r = &row{force: make([]cut.Force, of.n+1), contact: make([]cut.Contact, of.n+1)}
		if e.Soft.gap == nil {
			r.stiffness = newStiffRow(of.n, e.touching(of.feed, of.speed, of.pitch, r.contact))
		}
		for i := 1; i <= of.n; i++ {
			depth := float64(i) * of.pitch
			r.force[i], r.contact[i] = e.in.Force(depth, of.feed, of.speed), e.in.Contact(depth, of.feed)
		}
		e.rows[of] = r
	}
	return r
}

// StiffBy is the wear, mm, that the stiffness of cuts hangs on: none but where an outboard bearing
// has play, because the force says there what the bearing does.
func (e *Edge) StiffBy() float64 {
	if e.Soft.gap == nil {
		return 0
	}
	return e.land
}

// Depths is how many whole pitches it has, and one for no depth at all.
func (t *Table) Depths() int { return len(t.at[0]) }

// scale is the force at another cutting speed, m/min, over that of the table: force
// goes as cut.SpeedFactor.
func (t *Table) scale(speed float64) float64 {
	if speed != t.speed {
		t.speed, t.by = speed, cut.SpeedFactor(speed)/t.factor
	}
	return t.by
}

// Force is that at a feed of the table, a depth, mm, and a cutting speed, m/min, straight
// between entries.
func (t *Table) Force(feed int, depth, speed float64, way Way) cut.Force {
	return t.force(feed, depth, way).By(t.scale(speed))
}

func (t *Table) force(feed int, depth float64, way Way) cut.Force {
	if depth <= 0 {
		return cut.Force{}
	}
	a, b, w := t.between(feed, depth, way)
	return cut.Force{
		Cutting: a.Cutting + w*(b.Cutting-a.Cutting), Feed: a.Feed + w*(b.Feed-a.Feed), Radial: a.Radial + w*(b.Radial-a.Radial),
		Area: a.Area + w*(b.Area-a.Area), Chip: a.Chip + w*(b.Chip-a.Chip),
	}
}

// place is where a depth above 0 lies among the entries: 1 at the first above none.
func (t *Table) place(feed int, depth float64, way Way) float64 {
	if way == Out {
		return backDepths * math.Sqrt(depth/t.deepest[feed])
	}
	return depth / t.Pitch
}

// between gives the entries on both sides of a depth above 0, and how far it lies from the
// first to the second: 0 to 1.
func (t *Table) between(feed int, depth float64, way Way) (a, b *cut.Force, w float64) {
	row, x := t.at[feed], t.place(feed, depth, way)
	if way == Out {
		row = t.back[feed]
	}
	i := int(x)
	if i >= len(row)-1 {
		last := &row[len(row)-1]
		return last, last, 0
	}
	return &row[i], &row[i+1], x - float64(i)
}

// Stroke is the stroke of passes at a feed of the table and a cutting speed, m/min,
// with the tip at a radius, mm.
func (t *Table) Stroke(feed int, speed, radius float64, fed bool) Stroke {
	g, scale := t.edge.Middle, t.scale(speed)
	return NewStroke(func(way Way) Push {
		return func(depth float64) float64 {
			if depth <= 0 {
				return 0
			}
			a, b, w := t.between(feed, depth, way)
			return g.Push(cut.Force{Radial: scale * (a.Radial + w*(b.Radial-a.Radial)), Feed: scale * (a.Feed + w*(b.Feed-a.Feed))}, radius, way)
		}
	}, fed)
}

// Stiffness is that of a cut, from the entry above its depth.
func (t *Table) Stiffness(feed int, depth, speed float64, way Way) Stiffness {
	row := t.stiffness
	if way == Out {
		row = t.backStiff
	}
	return row[feed].entry(t.Entry(feed, depth, way)).By(t.scale(speed))
}

// Entry is the number of the entry above a depth, that its stiffness is taken from.
func (t *Table) Entry(feed int, depth float64, way Way) int {
	most := len(t.at[feed]) - 1
	if way == Out {
		most = backDepths
	}
	return min(int(math.Ceil(t.place(feed, depth, way)-1e-9)), most)
}
