package verify

import (
	"math"
	"slices"

	"borewright/post/verify/around"
	"borewright/post/verify/through"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// span is a length of the bore under the cutter that has one radius.
type span struct {
	wall         // radius is the least: what the bar must clear
	mean float64 // mm, radius in the mean as found or as set: what the metal is reckoned from
	cut  bool    // by the program
}

// shape are the stations that are bored, as they are at this moment of the program.
type shape struct {
	station process.Station // the last: that which may be closed
	spans   []span          // in order of depth, without gaps, over each whole station
	floor   *wall           // the closed end; nil: open
}

// newShape are the bores as found.
func newShape(bores []through.Bore) *shape {
	s := &shape{}
	for _, b := range bores {
		st, v := b.Station, b.Visit
		w := wall{name: st.Name, station: b.Index, from: min(st.From, v.From), to: max(st.To, v.To), radius: down(v.Start)}
		s.spans = append(s.spans, span{wall: w, mean: (v.Start.MM() + max(v.Start, v.StartMost).MM()) / 4})
		if s.station = st; st.Blind {
			s.floor = &wall{name: st.Name, station: b.Index, from: st.To + st.Relief, to: endless, floor: true}
		}
	}
	return s
}

// cut opens the bore from one depth to another to the setting: less what the
// bar springs on the wall that is left, the setting itself in the reckoning of
// metal. It gives the metal removed in mm³: π·(R² − r²)·l over each length, and
// nothing where the bore was wider already.
func (s *shape) cut(from, to qty.Length, setting qty.Diameter, spring func(station int) qty.Length) float64 {
	s.split(from)
	s.split(to)
	set := setting.MM() / 2
	removed := 0.0
	for i := range s.spans {
		p := &s.spans[i]
		if p.from < from || p.to > to {
			continue
		}
		removed += math.Pi * max(0, set*set-p.mean*p.mean) * (p.to - p.from).MM()
		p.radius = max(p.radius, down(setting-qty.Diameter(max(0, spring(p.station)))))
		p.mean = max(p.mean, set)
		p.cut = true
	}
	return removed
}

// spansMost bounds what a program that never cuts to the same depth twice can
// make us keep.
const spansMost = 500

// split makes a border at a depth.
func (s *shape) split(at qty.Length) {
	if len(s.spans) >= spansMost {
		return
	}
	for i := range s.spans {
		if s.spans[i].from < at && at < s.spans[i].to {
			s.spans = slices.Insert(s.spans, i+1, s.spans[i])
			s.spans[i].to, s.spans[i+1].from = at, at
			return
		}
	}
}

// wallsOf are the stations that are not bored now. Those that are bored before stand at their least
// size, sleeved or not, the others as found.
func wallsOf(p *plan.Plan, bores []through.Bore) []wall {
	before := around.Before(p, bores[0].Visit, bores[0].Index)
	var out []wall
	for i, st := range p.Job.Stations {
		if slices.ContainsFunc(bores, func(b through.Bore) bool { return b.Index == i }) {
			continue
		}
		out = append(out, wall{name: st.Name, station: i, from: st.From, to: st.To, radius: down(around.WideAt(p.Job, before, i))})
		if st.Blind {
			out = append(out, wall{name: st.Name, station: i, from: st.To + st.Relief, to: endless, floor: true})
		}
	}
	return out
}
