package pass

import (
	"borewright/process"
	"borewright/process/cut"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Table is the force of the cuts that a search looks at, and what they cost for chatter. All of
// it are passes that come out the same way.
type Table struct {
	*setup.Table
	r      *Judge
	fed    bool
	prices map[float64][]Price // of last passes that cut on one way alone, by speed and entry
	both   map[priced]Price    // of the others
}

// Price is what a last pass costs for chatter, in minutes, and besides where it is turned
// faster than the pass before it.
type Price struct {
	Chatter, Faster float64
	known           bool
}

// priced is all that the price of a last pass hangs on that cuts on both ways: the entries that the
// stiffness of the cut is taken from, and the speed.
type priced struct {
	in, out int
	rpm     float64
}

// NewTable makes one of whole pitches, mm, to the deepest cut, at a cutting speed, m/min, and
// feeds, mm/rev.
func (r *Judge) NewTable(pitch, deepest, speed float64, feeds []float64, out schedule.WayOut) *Table {
	fed := out.By == process.FeedOut
	return &Table{r.Table(pitch, deepest, speed, feeds, fed), r, fed, map[float64][]Price{}, map[priced]Price{}}
}

// Stroke is the stroke of passes at a feed of the table and a cutting speed, m/min,
// with the tip at a radius, mm.
func (t *Table) Stroke(feed int, speed, radius float64) setup.Stroke {
	return t.Table.Stroke(feed, speed, radius, t.fed)
}

// Cut is a pass that takes so much, mm, on both ways together.
func (t *Table) Cut(feed int, total float64, pick Pick, radius float64) Cut {
	return t.CutAt(feed, total, pick, pick.At(radius), radius)
}

// CutAt is the same with the forces of another cutting speed, m/min.
func (t *Table) CutAt(feed int, total float64, pick Pick, speed, radius float64) Cut {
	c := Cut{Depth: total, Feed: t.Feeds[feed], Pick: pick, Radius: radius, Fed: t.fed}
	if c.Fed {
		s := t.Stroke(feed, speed, radius)
		c.Depth, c.Second = s.Split(total)
		c.Back, c.Rise = t.Force(feed, c.Second, speed, setup.Out), RiseAt(s.Out, c.Second)
	}
	c.Force = t.Force(feed, c.Depth, speed, setup.In)
	return c
}

// Stability is that of a pass.
func (t *Table) Stability(feed int, c Cut, land cut.Land) setup.Stability {
	v := c.Pick.At(c.Radius)
	return t.r.StrokeStability(c.Depth, c.Second, v, land, func(depth float64, way setup.Way) setup.Stiffness { return t.Stiffness(feed, depth, v, way) })
}

// Price is what the chance of chatter costs a pass, in minutes, by a new edge: no way is
// preferred because the edge is worn.
func (t *Table) Price(feed int, c Cut) float64 {
	return ChatterPrice(t.Stability(feed, c, t.r.NewLand()))
}

// LastPrice is that of one of the last passes, at the cutting speed of the size aimed at, by its
// depths: many endings have the same.
func (t *Table) LastPrice(pick Pick, depth, second float64) Price {
	in := t.Entry(0, depth, setup.In)
	work := func() Price {
		c := Cut{Pick: pick, Depth: depth, Second: second, Radius: t.r.Aim}
		return Price{t.Price(0, c), t.r.FasterPrice(t.Stability(0, c, t.r.LastLand())), true}
	}
	if second > 0 {
		key := priced{in, t.Entry(0, second, setup.Out), pick.RPM}
		if !t.both[key].known {
			t.both[key] = work()
		}
		return t.both[key]
	}
	row := t.prices[pick.RPM]
	if row == nil {
		row = make([]Price, t.Depths())
		t.prices[pick.RPM] = row
	}
	if !row[in].known {
		row[in] = work()
	}
	return row[in]
}
