package setup

import (
	"math"

	"borewright/process"
	"borewright/process/bar"
	"borewright/process/cut"
	"borewright/process/qty"
)

// swing is how the bar of one stretch of a bore can swing: with quill feed where the
// tip comes in, and where it is deepest. Either can sing first: with the quill out the
// bar is softer, but more of its swing is the spindle's, which damps better than steel.
// With the ratios ζ_s and ζ_b of spindle and bar and the give of each, c_s and c_b, the
// limit goes about with (c_s·ζ_s + c_b·ζ_b)/(c_s + c_b)², which rises with c_s as long
// as c_s < c_b·(1 − 2·ζ_b/ζ_s).
type swing []stand

// stand is the bar with the tip at one depth: on its outboard bearing, or without it
// where the bearing has play.
type stand struct {
	on  *chatterLimit
	off *chatterLimit // nil: no bearing, or one without play
}

// swingAt is the bar along a stretch between two depths of the tip, the longest last.
func (s *Setup) swingAt(from, to qty.Length) swing {
	if s.guided() && from != to { // the bush is furthest off where the cut begins
		return swing{s.standAt(to), s.standAt(from)}
	}
	if s.Job.Bar.FeedBy != process.QuillFeed || s.quillOut(from) == s.quillOut(to) {
		return swing{s.standAt(to)}
	}
	return swing{s.standAt(from), s.standAt(to)}
}

// standAt is the bar with the tip at a depth; each is worked out once.
func (s *Setup) standAt(tip qty.Length) stand {
	out := 0.0
	if s.Job.Bar.FeedBy == process.QuillFeed {
		out = s.quillOut(tip)
	} else if s.guided() {
		out = s.Job.OutboardAt(tip).MM()
	}
	s.kept.mu.Lock()
	defer s.kept.mu.Unlock()
	if w, known := s.kept.stands[out]; known {
		return w
	}
	var w stand
	beam := s.beam
	if out > 0 {
		beam = s.at(tip)
		w.on = newChatterLimit(beam)
	} else {
		w.on = s.chatter()
	}
	if s.free != nil {
		w.off = newChatterLimit(beam.Free())
	}
	s.kept.stands[out] = w
	return w
}

// limit is the stiffest cut, N/mm, that is quiet all along, and where it sings, Hz.
func (w swing) limit(end int, held float64, rubs func(*bar.Beam) float64) (most, hz float64) {
	most = math.Inf(1)
	for _, s := range w {
		if k := s.limit(end, held, rubs); k <= most {
			most, hz = k, s.first(held).hz
		}
	}
	return most, hz
}

// longest is the bar where it is longest.
func (w swing) longest() stand { return w[len(w)-1] }

// limit is the stiffest cut, N/mm, that is quiet at the least or the most damping of
// the bar, with what rubs adds on a bar to its damping. A bearing that does a share held of
// what it can do leaves the bar between the two: how deep the response dips goes straight with
// the share, as the compliance does.
func (w stand) limit(end int, held float64, rubs func(*bar.Beam) float64) float64 {
	on := w.on.limit(end, rubs(w.on.beam))
	if held >= 1 {
		return on
	}
	if w.off == nil { // a line bar has no other hold than its bearings
		return held * on
	}
	return 1 / ((1-held)/w.off.limit(end, rubs(w.off.beam)) + held/on)
}

// first is the first mode, and hz where it sings: of the bar off its bearing where that
// does less than half of what it can.
func (w stand) first(held float64) *chatterLimit {
	if w.off != nil && held < 0.5 {
		return w.off
	}
	return w.on
}

// held is how much of what the bearing can do against a swing it does in a cut.
func (e *Edge) held(f cut.Force, way Way) float64 {
	if e.Soft.gap == nil {
		return 1
	}
	return e.Soft.gap.Held(loadOf(f.By(e.Factor), e.radius, way))
}

// leans is how far back along the feed the tip goes as it swings into the wall, see
// cut.Model.Regen.
func (e *Edge) leans(held float64, way Way) float64 {
	return float64(way) * e.radius * e.swing.longest().first(held).first.Turn
}
