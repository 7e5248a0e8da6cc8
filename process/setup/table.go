package setup

import (
	"math"

	"borewright/process/cut"
)

// Table is the force and the stiffness of cuts over their depth for each of some feeds,
// each entry worked out once, when it is asked for. On the way in depths are
// whole pitches. On the way out they are small, and force changes most at the
// smallest: they lie as the squares of whole numbers, up to deepest.
type Table struct {
	Pitch float64   // mm
	Feeds []float64 // mm/rev

	edge      *Edge
	factor    float64               // cut.SpeedFactor that it was made for
	at        []*entries[cut.Force] // [feed]
	stiffness []*entries[Stiffness] // [feed]
	deepest   []float64             // [feed]: on the way out
	back      []*entries[cut.Force] // the same on the way out; nil: no pass of it is fed out
	backStiff []*entries[Stiffness]

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
		row, stiff := newEntries(n, func(i int) cut.Force { return fresh.force.entry(i).Plus(fresh.contact.entry(i).Pressed(pressure)) }), fresh.stiffness
		if stiff == nil { // it hangs on what the worn edge feels
			stiff = newEntries(n, e.touching(f, speed, pitch, fresh.contact))
		}
		t.at, t.stiffness = append(t.at, row), append(t.stiffness, stiff)
		if !fed {
			continue
		}
		most := 0.0
		for i := 1; i <= n; i++ {
			most = math.Max(most, e.Middle.Push(*row.entry(i), e.radius, In))
		}
		most = math.Max(1.5*most, 1e-3) // a slow speed pushes harder
		depth := func(i int) float64 {
			x := float64(i) / backDepths
			return most * x * x
		}
		t.back = append(t.back, newEntries(backDepths, func(i int) cut.Force { return e.Force(depth(i), f, speed, Out) }))
		t.backStiff = append(t.backStiff, newEntries(backDepths, func(i int) Stiffness { return e.Stiffness(depth(i), f, speed, Out) }))
		t.deepest = append(t.deepest, most)
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
	force     *entries[cut.Force]
	contact   *entries[cut.Contact]
	stiffness *entries[Stiffness] // nil where an outboard bearing has play: there it hangs on the force
}

// entries are those of a row, each worked out when it is asked for.
type entries[T any] struct {
	of    func(i int) T
	at    []T
	known []bool
}

// newEntries are entries 0, of no depth, to n.
func newEntries[T any](n int, of func(i int) T) *entries[T] {
	return &entries[T]{of, make([]T, n+1), make([]bool, n+1)}
}

func (r *entries[T]) entry(i int) *T {
	if i > 0 && !r.known[i] {
		r.at[i], r.known[i] = r.of(i), true
	}
	return &r.at[i]
}

// touching is the stiffness of cuts on the way in, by what touches at whole pitches.
func (e *Edge) touching(feed, speed, pitch float64, contact *entries[cut.Contact]) func(i int) Stiffness {
	return func(i int) Stiffness {
		return e.stiffnessOf(e.in, float64(i)*pitch, feed, speed, In, *contact.entry(i))
	}
}

func (e *Edge) row(of rowOf) *row {
	r := e.rows[of]
	if r == nil {
		r = &row{
			force:   newEntries(of.n, func(i int) cut.Force { return e.in.Force(float64(i)*of.pitch, of.feed, of.speed) }),
			contact: newEntries(of.n, func(i int) cut.Contact { return e.in.Contact(float64(i)*of.pitch, of.feed) }),
		}
		if e.Soft.gap == nil {
			r.stiffness = newEntries(of.n, e.touching(of.feed, of.speed, of.pitch, r.contact))
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
func (t *Table) Depths() int { return len(t.at[0].at) }

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
	if n := len(row.at) - 1; i >= n {
		last := row.entry(n)
		return last, last, 0
	}
	return row.entry(i), row.entry(i + 1), x - float64(i)
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
	most := len(t.at[feed].at) - 1
	if way == Out {
		most = backDepths
	}
	return min(int(math.Ceil(t.place(feed, depth, way)-1e-9)), most)
}
