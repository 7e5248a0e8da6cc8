package setup

import (
	"borewright/process"
	"borewright/process/bar"
	"borewright/process/cut"
	"borewright/process/qty"
)

// swing is how the bar of one stretch of a bore can swing: on its outboard bearing, or
// without it where the bearing has play.
type swing struct {
	on  *chatterLimit
	off *chatterLimit // nil: no bearing, or one without play
}

// swingAt is the bar with the tip at a depth: with quill feed the longest one sings first.
func (s *Setup) swingAt(tip qty.Length) swing {
	w := swing{on: s.chatter}
	beam := s.beam
	if s.Job.Bar.FeedBy == process.QuillFeed && s.quillOut(tip) > 0 {
		beam = s.at(tip)
		w.on = newChatterLimit(beam)
	}
	if s.free != nil {
		w.off = newChatterLimit(beam.Free())
	}
	return w
}

// limit is the stiffest cut, N/mm, that is quiet at the least or the most damping of
// the bar, with what rubs adds on a bar to its damping. A bearing that does a share held of
// what it can do leaves the bar between the two: how deep the response dips goes straight with
// the share, as the compliance does.
func (w swing) limit(end int, held float64, rubs func(*bar.Beam) float64) float64 {
	on := w.on.limit(end, rubs(w.on.beam))
	if w.off == nil || held >= 1 {
		return on
	}
	return 1 / ((1-held)/w.off.limit(end, rubs(w.off.beam)) + held/on)
}

// first is the first mode, and hz where it sings: of the bar off its bearing where that
// does less than half of what it can.
func (w swing) first(held float64) *chatterLimit {
	if w.off != nil && held < 0.5 {
		return w.off
	}
	return w.on
}

// held is how much of what the bearing can do against a swing it does in a cut.
func (e *Edge) held(f cut.Force, way Way) float64 {
	if c, play := e.Bush(f, e.radius, way); play {
		return c.Held
	}
	return 1
}

// leans is how far back along the feed the tip goes as it swings into the wall, see
// cut.Model.Regen.
func (e *Edge) leans(held float64, way Way) float64 {
	return float64(way) * e.radius * e.swing.first(held).first.Turn
}
