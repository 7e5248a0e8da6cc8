package pass

import (
	"math"
	"slices"

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
	prices [][]prices           // of passes that cut on one way alone, by feed and, of the few there are, by speed
	both   map[priced]float64   // of semi-finishes that cut on both
	splits map[whole][2]float64 // Split, as far as it is known
}

// whole is a pass by all that it takes on both ways, mm/1e6.
type whole struct {
	rpm   float64
	total int64
}

// prices are those of a feed and a speed of the spindle, by entry; NaN is not known.
type prices struct {
	rpm     float64
	chatter []float64
	least   []float64 // of chatter, the least from an entry on; nil: not known
	last    []lastPrice
}

// lastPrice is that of a last pass of a depth, mm, and a second one on the way out.
type lastPrice struct {
	depth, second float64
	Price
}

// pricesOf is what a table's prices hang on in one visit: they are those of a new edge, and hang on
// the wear of the table's own edge only where the bar lies in a bearing with play.
type pricesOf struct {
	pitch, speed, first, last float64
	feeds, depths             int
	worn                      float64
}

// Price is what a last pass costs for chatter, in minutes, and besides where it is turned
// faster than the pass before it.
type Price struct {
	Chatter, Faster float64
}

// of gives the prices of a feed and a speed.
func (t *Table) of(feed int, rpm float64) *prices {
	for i := range t.prices[feed] {
		if p := &t.prices[feed][i]; p.rpm == rpm {
			return p
		}
	}
	t.prices[feed] = append(t.prices[feed], prices{rpm: rpm, chatter: slices.Repeat([]float64{math.NaN()}, t.Depths())})
	return &t.prices[feed][len(t.prices[feed])-1]
}

// priced is all that the price of a semi-finish hangs on that cuts on both ways: the entries that the
// stiffness of the cut is taken from, and the speed.
type priced struct {
	in, out int
	rpm     float64
}

// NewTable makes one of whole pitches, mm, to the deepest cut, at a cutting speed, m/min, and
// feeds, mm/rev.
func (r *Judge) NewTable(pitch, deepest, speed float64, feeds []float64, out schedule.WayOut) *Table {
	fed := out.By == process.FeedOut
	t := &Table{Table: r.Table(pitch, deepest, speed, feeds, fed), r: r, fed: fed, both: map[priced]float64{}, splits: map[whole][2]float64{}}
	of := pricesOf{pitch, speed, feeds[0], feeds[len(feeds)-1], len(feeds), t.Depths(), r.StiffBy()}
	if t.prices = r.priced[of]; t.prices == nil {
		t.prices = make([][]prices, len(feeds))
		r.priced[of] = t.prices
	}
	return t
}

// Springs is the table of spring passes behind finishes of a table, of some depths, mm, and speeds, from the
// fastest. They take what the bar sprang off: it has whole pitches of a power of two, so that edges worn
// otherwise share it.
func (r *Judge) Springs(t *Table, speeds []Pick, depths []float64) *Table {
	sprung, push := 0.0, t.Stroke(0, speeds[len(speeds)-1].Speed, r.Aim).In
	for _, depth := range depths {
		sprung = math.Max(sprung, 1.5*push(depth)) // more than that there is none
	}
	return r.NewTable(math.Exp2(math.Ceil(math.Log2(sprung/64))), sprung, speeds[0].Speed, t.Feeds, r.Visit.LastOut)
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
	if !t.fed {
		return t.taking(setup.Stroke{}, feed, total, 0, pick, speed, radius)
	}
	s := t.Stroke(feed, speed, radius)
	in, second := s.Split(total)
	return t.taking(s, feed, in, second, pick, speed, radius)
}

// Sprung is a pass at the first feed with the tip set to a radius, in a bore of a radius, mm, that
// is aimed at the size.
func (t *Table) Sprung(tip, bore float64, pick Pick) Cut {
	s := t.Stroke(0, pick.At(t.r.Aim), t.r.Aim)
	in, second := s.Take(tip, bore)
	return t.taking(s, 0, in, second, pick, pick.At(t.r.Aim), t.r.Aim)
}

// taking is a pass of a stroke that cuts so deep on either way.
func (t *Table) taking(s setup.Stroke, feed int, in, second float64, pick Pick, speed, radius float64) Cut {
	c := Cut{Depth: in, Feed: t.Feeds[feed], Pick: pick, Force: t.Force(feed, in, speed, setup.In), Radius: radius, Fed: t.fed}
	if c.Fed {
		c.Second, c.Back, c.Rise = second, t.Force(feed, second, speed, setup.Out), RiseAt(s.Out, second)
	}
	return c
}

// Split is what a pass at the first feed that takes so much, mm, takes on each way, with the tip
// near the size aimed at. Many last passes take as much from other bores.
func (t *Table) Split(pick Pick, total float64) (in, out float64) {
	if !t.fed {
		return total, 0
	}
	key := whole{pick.RPM, int64(math.Round(total * 1e6))}
	s, ok := t.splits[key]
	if !ok {
		s[0], s[1] = t.Stroke(0, pick.At(t.r.Aim), t.r.Aim).Split(total)
		t.splits[key] = s
	}
	return s[0], s[1]
}

// Far is whether a semi-finish that is fed out and takes so much, mm, springs further than the job limits it,
// wherever near the size it is cut to: by more than a tenth at the size, for other radii and speeds change it by a hundredth.
func (t *Table) Far(pick Pick, total float64) bool {
	most := t.r.Job.Limits.SpringRough.MM()
	in, _ := t.Split(pick, total)
	return t.fed && most > 0 && 2*math.Abs(t.r.Soft.Push(t.Force(0, in, pick.At(t.r.Aim), setup.In), t.r.Aim, setup.In)) > 1.1*most
}

// Stability is that of a pass.
func (t *Table) Stability(feed int, c Cut, land cut.Land) setup.Stability {
	v := c.Pick.At(c.Radius)
	return t.r.StrokeStability(c.Depth, c.Second, v, land, func(depth float64, way setup.Way) setup.Stiffness { return t.Stiffness(feed, depth, v, way) })
}

// Price is what the chance of chatter costs a pass, in minutes, by a new edge: no way is
// preferred because the edge is worn.
func (t *Table) Price(feed int, c Cut) float64 {
	if c.Second > 0 || c.Radius != t.r.Aim {
		return ChatterPrice(t.Stability(feed, c, t.r.NewLand()))
	}
	p := &t.of(feed, c.Pick.RPM).chatter[t.Entry(feed, c.Depth, setup.In)]
	if math.IsNaN(*p) {
		*p = ChatterPrice(t.Stability(feed, c, t.r.NewLand()))
	}
	return *p
}

// LastPrice is that of one of the last passes, at the cutting speed of the size aimed at, by its
// depths, exactly: a few hundredths of a millimetre lie between two entries. Many endings have the
// same.
func (t *Table) LastPrice(pick Pick, depth, second float64) Price {
	of := t.of(0, pick.RPM)
	for i := range of.last {
		if p := &of.last[i]; p.depth == depth && p.second == second {
			return p.Price
		}
	}
	c := Cut{Pick: pick, Depth: depth, Second: second, Radius: t.r.Aim, Feed: t.Feeds[0]}
	s := t.r.StabilityOf(c, t.r.NewLand())
	p := lastPrice{depth, second, Price{Chatter: ChatterPrice(s)}}
	if second > 0 { // the land may say which way is the worse
		s = t.r.StabilityOf(c, t.r.LastLand())
	}
	p.Faster = t.r.FasterPrice(s) // whether it is quiet goes by the least land, which is that of a new edge
	of.last = append(of.last, p)
	return p.Price
}

// Chatter is what a semi-finish costs for chatter: between two entries as a power of the depth
// has it, price being the logarithm of the margin.
func (t *Table) Chatter(pick Pick, depth, second float64) float64 {
	if second > 0 {
		key := priced{t.Entry(0, depth, setup.In), t.Entry(0, second, setup.Out), pick.RPM}
		p, ok := t.both[key]
		if !ok {
			p = t.Price(0, Cut{Pick: pick, Depth: depth, Second: second, Radius: t.r.Aim})
			t.both[key] = p
		}
		return p
	}
	of := t.of(0, pick.RPM)
	above := t.Entry(0, depth, setup.In)
	high := t.chatter(of, above)
	x := depth / t.Pitch
	if above < 2 || x > float64(above)-1e-6 || high == 0 {
		return high
	}
	low := t.chatter(of, above-1)
	n := float64(above)
	return low + (high-low)*math.Log(x/(n-1))/math.Log(n/(n-1))
}

// chatter is what a semi-finish as deep as an entry costs.
func (t *Table) chatter(of *prices, entry int) float64 {
	p := &of.chatter[entry]
	if math.IsNaN(*p) {
		*p = ChatterPrice(t.Stability(0, Cut{Pick: Pick{RPM: of.rpm}, Depth: float64(entry) * t.Pitch, Radius: t.r.Aim}, t.r.NewLand()))
	}
	return *p
}

// LeastChatter is the least that a semi-finish so deep or deeper costs for chatter.
func (t *Table) LeastChatter(pick Pick, depth float64) float64 {
	if t.fed {
		return 0
	}
	of := t.of(0, pick.RPM)
	if of.least == nil {
		of.least = make([]float64, t.Depths())
		least := math.Inf(1)
		for entry := t.Depths() - 1; entry > 0; entry-- {
			least = math.Min(least, t.chatter(of, entry))
			of.least[entry] = least
		}
	}
	return of.least[min(max(1, int(depth/t.Pitch)), len(of.least)-1)]
}
