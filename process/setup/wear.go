package setup

import (
	"math"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/field"
	"borewright/process/qty"
)

// How far a flank may wear, mm of land beyond that of a new edge, before it is honed
// or changed. 0.3 is the usual end of an edge's life (ISO 3685, even wear, from
// memory); the last passes of a bore end with a third of that, because at 0.3 the edge
// pushes three times as hard as a new one. Common practice, no source.
const (
	RoughLand  = 0.3
	FinishLand = 0.1
)

// honeWorth is the share of the land allowed that must be worn before honing is worth
// its time. Common practice, no source.
const honeWorth = 0.25

// HoneMinutes is how long it takes to stone an edge, or to change the bit (from
// memory).
const HoneMinutes = 4.0

// Flank is the flank of an edge as it wears: the land worn onto it beyond what touches of
// a new edge, mm.
type Flank struct {
	Least, Likely, Most float64
	Metres              float64 // cut since it was honed, or since the job began
}

// Land is how wide it is at the least and at the most.
func (f Flank) Land() cut.Land { return cut.Land{Least: f.Least, Most: f.Most} }

// halfWay is a flank half way from one to another.
func (f Flank) halfWay(to Flank) Flank {
	return Flank{(f.Least + to.Least) / 2, (f.Likely + to.Likely) / 2, (f.Most + to.Most) / 2, (f.Metres + to.Metres) / 2}
}

// Run is what a pass asks of the edge.
type Run struct {
	Metres float64 // that it cuts
	Speed  float64 // cutting speed, m/min
	Last   bool    // at the speeds of the table for finishing
	Most   float64 // land that it, and those joined to it, may end with: RoughLand or FinishLand
	Joined bool    // it goes with the pass before: no honing between the two
	Honed  bool    // the edge is honed before it, however little it is worn
}

// Wear is the edge in one pass.
type Wear struct {
	Honed         bool  // before it
	Dull          bool  // or it, and those joined to it, would end with a wider land than they may
	Before, After Flank // honed where it is
	Mean          Flank // half way through: what its spring is worked out with
	IfNot         Flank // the same without the honing before it
}

// Describe says what documents and a comparison have of it.
func (w *Wear) Describe(d *field.Desc) {
	d.Group("worn_mm", func(d *field.Desc) {
		d.Number(&w.Before.Least, "least", "mm").Decimals(4).Weighs(process.SpoilsFeed, "land worn, least")
		d.Number(&w.Mean.Likely, "likely", "mm").Decimals(4).Weighs(process.SpoilsSetting, "land worn, likely")
		d.Number(&w.After.Most, "most", "mm").Decimals(4).Weighs(process.SpoilsFeed, "land worn, most")
	})
	d.Figure(&w.After.Metres, qty.KindCutLength, "metres_since_honing").Decimals(1).Weighs(process.SpoilsFeed, "cut since the edge was honed")
	d.Worked("beside the honing", &w.Honed, &w.Dull, &w.IfNot)
	d.Worked("in what is said", &w.Before, &w.After, &w.Mean)
}

// ChainWear is the edge in each of the passes that follow one another.
type ChainWear []Wear

// HonedBy is the pass before which the edge was honed last, up to pass i; -1: before none.
func (w ChainWear) HonedBy(i int) int {
	for i = min(i, len(w)-1); i >= 0 && !w[i].Honed; {
		i--
	}
	return i
}

// Moves is how often the cutter was moved on up to pass i since it was set first, or
// set anew because the edge was honed.
func (w ChainWear) Moves(i int) int { return i - max(0, w.HonedBy(i)) }

// Wearing follows the edge through passes, from a flank as it is before the first of
// them, and says before which it is honed. Between passes that are joined it never is:
// what the gauge says of the one would not hold for the other.
func (e *Edge) Wearing(at Flank, passes []Run) []Wear {
	out := make([]Wear, len(passes))
	for i, p := range passes {
		w, end := Wear{Before: at}, e.After(at, p)
		w.IfNot = at.halfWay(end)
		for n := i + 1; n < len(passes) && passes[n].Joined; n++ {
			end = e.After(end, passes[n])
		}
		dull := end.Likely > p.Most && at.Likely >= honeWorth*p.Most
		if !p.Joined && (dull || p.Honed && at != Flank{}) {
			w.Honed, w.Dull, w.Before = true, dull, Flank{}
		}
		w.After = e.After(w.Before, p)
		w.Mean = w.Before.halfWay(w.After)
		at, out[i] = w.After, w
	}
	return out
}

// Through follows the edge through several bores that each pass cuts one after the other, from a
// flank as it is before the first: the wear in each pass, bore by bore. It is honed in front of the
// first bore alone, and what is honed for that is honed for all.
func (e *Edge) Through(at Flank, bores [][]Run) [][]Wear {
	var all []Run
	for n := range bores[0] {
		for i := range bores {
			run := bores[i][n]
			if i > 0 {
				run.Joined, run.Honed = true, false
			}
			all = append(all, run)
		}
	}
	wear, out := e.Wearing(at, all), make([][]Wear, len(bores))
	for n := range wear {
		w := wear[n]
		w.Honed = wear[n-n%len(bores)].Honed
		out[n%len(bores)] = append(out[n%len(bores)], w)
	}
	return out
}

// After is a flank after a pass more. A rate is known as a factor, and its likely value is
// the geometric mean of the least and the most.
func (e *Edge) After(f Flank, p Run) Flank {
	least, most := e.wears(p.Speed, p.Last)
	return Flank{f.Least + least*p.Metres, f.Likely + math.Sqrt(least*most)*p.Metres, f.Most + most*p.Metres, f.Metres + p.Metres}
}

// wears is how much land a metre of cut wears onto the flank, mm, at a cutting speed,
// m/min. The range of the material is for the speeds of its table. Below them an edge lasts
// longer, by Taylor's law
//
//	v·Tⁿ = const, so that the wear of a metre goes as v^(1/n − 1),
//
// with n 0.125 for high-speed steel and 0.25 for carbide (textbooks, from memory). What
// is then left is what the metal grinds off, whatever the speed: at the most the middle
// of the range (an assumption).
func (e *Edge) wears(speed float64, last bool) (least, most float64) {
	class := e.s.Job.Cutter.Material.Class
	table := e.metal.Speeds[class]
	fastest, power := float64(table.Rough[1]), 3.0
	if last {
		fastest = float64(table.Finish[1])
	}
	if class == "hss" {
		power = 7
	}
	least, most = table.Wear[0], table.Wear[1]
	if slower := speed / fastest; slower < 1 {
		most = math.Max(math.Sqrt(least*most), most*math.Pow(slower, power))
	}
	return least, most
}

// Worth is how far an edge cuts, at a cutting speed, m/min, until its land is likely so wide, mm.
func (e *Edge) Worth(land, speed float64, last bool) (metres float64) {
	least, most := e.wears(speed, last)
	if rate := math.Sqrt(least * most); rate > 0 {
		metres = land / rate
	}
	return metres
}

// NewLand is what of a new edge touches the work behind its tip, mm.
func (e *Edge) NewLand() cut.Land { return cut.NewEdge(e.s.Job.Cutter.EdgeRadius.MM()) }

// Begun is the flank before the first cut of the job.
func (s *Setup) Begun() Flank {
	l := s.Job.Cutter.Land.MM()
	return Flank{Least: l, Likely: l, Most: l}
}

// Wears is how much more land a metre of cut wears onto the flank, mm, at any speed: by it
// cuts are judged against chatter.
func (e *Edge) Wears() cut.Land {
	w := e.metal.Speeds[e.s.Job.Cutter.Material.Class].Wear
	return cut.Land{Least: w[0], Most: w[1]}
}

// Worn is the edge with a land worn onto its flank, mm: it pushes harder.
func (e *Edge) Worn(land float64) *Edge {
	worn := *e
	worn.land = land
	return &worn
}

// Beside is the same edge with tables of its own.
func (e *Edge) Beside() *Edge {
	other := *e
	other.rows, other.marks = map[rowOf]*row{}, map[marksOf]float64{}
	return &other
}

// LandForce is what a land, mm, adds to Force.
func (e *Edge) LandForce(depth, feed, speed, land float64, way Way) cut.Force {
	return e.model(way).Worn(depth, feed, speed, land)
}

// feels is what an edge with the land of this one feels.
func (e *Edge) feels(m *cut.Model, depth, feed, speed float64) cut.Force {
	return m.Force(depth, feed, speed).Plus(m.Worn(depth, feed, speed, e.land))
}
