package passes

import (
	"borewright/process"
	"borewright/process/cut"
	"borewright/process/pass"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// table is the force of the cuts of a search.
type table struct {
	*setup.Table
	r      *Planner
	prices map[float64][]price // of passes that cut on one way alone, by speed and entry
	both   map[priced]price    // of the others
}

// price is what a last pass costs for chatter, and besides where it is turned faster than the
// pass before it.
type price struct {
	chatter, faster float64
	known           bool
}

// priced is all that the price of a last pass hangs on that cuts on both ways: the entries that the
// stiffness of the cut is taken from, and the speed.
type priced struct {
	in, out int
	rpm     float64
}

func (r *Planner) newTable(pitch, deepest, speed float64, feeds []float64, out schedule.WayOut) *table {
	return &table{r.Table(pitch, deepest, speed, feeds, out.By == process.FeedOut), r, map[float64][]price{}, map[priced]price{}}
}

// stroke is the stroke of passes at a feed of the table and a cutting speed, m/min,
// with the tip at a radius, mm.
func (t *table) stroke(feed int, speed, radius float64, out schedule.WayOut) setup.Stroke {
	return t.Stroke(feed, speed, radius, out.By == process.FeedOut)
}

// cut is a pass that takes so much, mm, on both ways together.
func (t *table) cut(feed int, total float64, pick pass.Pick, radius float64, out schedule.WayOut) pass.Cut {
	return t.cutAt(feed, total, pick, pick.At(radius), radius, out)
}

// cutAt is the same with the forces of another cutting speed, m/min.
func (t *table) cutAt(feed int, total float64, pick pass.Pick, speed, radius float64, out schedule.WayOut) pass.Cut {
	c := pass.Cut{Depth: total, Feed: t.Feeds[feed], Pick: pick, Radius: radius, Fed: out.By == process.FeedOut}
	if c.Fed {
		s := t.stroke(feed, speed, radius, out)
		c.Depth, c.Second = s.Split(total)
		c.Back, c.Rise = t.Force(feed, c.Second, speed, setup.Out), pass.RiseAt(s.Out, c.Second)
	}
	c.Force = t.Force(feed, c.Depth, speed, setup.In)
	return c
}

// stability is that of a pass.
func (t *table) stability(feed int, c pass.Cut, land cut.Land) setup.Stability {
	v := c.Pick.At(c.Radius)
	return t.r.StrokeStability(c.Depth, c.Second, v, land, func(depth float64, way setup.Way) setup.Stiffness { return t.Stiffness(feed, depth, v, way) })
}

// price is what the chance of chatter costs a pass, in minutes, by a new edge: no way is
// preferred because the edge is worn.
func (t *table) price(feed int, c pass.Cut) float64 {
	return chatterPrice(t.stability(feed, c, t.r.NewLand()))
}

// lastPrice is that of one of the last passes, at the cutting speed of the size aimed at, by its
// depths: many endings have the same.
func (t *table) lastPrice(pick pass.Pick, depth, second float64) price {
	in := t.Entry(0, depth, setup.In)
	work := func() price {
		c := pass.Cut{Pick: pick, Depth: depth, Second: second, Radius: t.r.Aim}
		return price{t.price(0, c), t.r.fasterPrice(t.stability(0, c, t.r.LastLand())), true}
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
		row = make([]price, t.Depths())
		t.prices[pick.RPM] = row
	}
	if !row[in].known {
		row[in] = work()
	}
	return row[in]
}
