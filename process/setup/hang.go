package setup

import (
	"math"

	"borewright/process"
	"borewright/process/bar"
	"borewright/process/field"
	"borewright/process/qty"
)

// Bar is how the bar hangs and rings with the tip at one depth.
type Bar struct {
	Hang    qty.Length // at the cutter, by its own weight
	Doubt   qty.Length // ± of it (95 %)
	Hz      float64    // first natural frequency
	Damping [2]float64 // of that mode, least and most
	Joint   float64    // share of spindle and bearing in the energy of that mode
	Held    bool       // by an outboard bearing that it touches
}

// Describe says what documents have of it. It follows from bar and machine, and is not
// compared.
func (b *Bar) Describe(d *field.Desc) {
	d.Length(&b.Hang, "hang_mm").Decimals(4)
	d.Length(&b.Doubt, "hang_doubt_mm").Decimals(4)
	d.Figure(&b.Hz, qty.KindFrequency, "first_hz").Decimals(1)
	d.Number(&b.Damping[0], "damping_least", "").Decimals(4)
	d.Number(&b.Damping[1], "damping_most", "").Decimals(4)
	d.Number(&b.Joint, "spindle_share", "").Decimals(3)
	d.Flag(&b.Held, "on_bearing")
}

// BarAt is the bar with the tip at a depth.
func (s *Setup) BarAt(tip qty.Length) Bar {
	beam := s.at(tip)
	hang, _ := beam.Sag()
	// What is not known: the nose by a factor of 1.5 either way, the rest by 3 %.
	softer, _ := beam.Yielding(RootFactor).Sag()
	out := Bar{Hang: qty.FromMM(hang), Doubt: qty.FromMM(math.Hypot(softer-hang, 0.03*hang) + beam.Loose()), Held: s.Held}
	if m, err := beam.First(); err == nil {
		out.Hz, out.Damping, out.Joint = m.Hz, m.Damping, m.Joint
	}
	return out
}

// Follows is how far the cutter goes aside with a bush in the work that stands aside by 1, the tip
// at a depth.
func (s *Setup) Follows(tip qty.Length) float64 { return s.at(tip).Follows() }

// RootFactor is how well the stiffness of spindle and socket is known, as a
// factor either way (95 %): a factor of 1.5. Common practice, no source; the
// figures in the machine files are ranges of two to one.
const RootFactor = 1.5

// at is the bar with the tip at a depth: with quill feed it is longer the deeper it works, and a
// bush in the work comes nearer to the nose.
func (s *Setup) at(tip qty.Length) *bar.Beam {
	if s.Job.Bar.FeedBy == process.QuillFeed {
		if long, err := s.beam.Extended(s.quill, s.quillOut(tip)); err == nil {
			return long
		}
	}
	if s.guided() {
		if there, err := s.beam.Guided(s.Job.OutboardAt(tip).MM()); err == nil {
			return there
		}
		return s.beam.Free() // its end is not in the bush there
	}
	return s.beam
}

// Droop is how far the bar hangs at the cutter when the tip stands at a depth,
// mm. With quill feed the bar is longer the deeper it works, and the quill hangs
// with it.
func (s *Setup) Droop(tip qty.Length) float64 {
	drop, _ := s.at(tip).Sag()
	return drop
}

// quillOut is how far the quill stands out of the nose when the tip is at a depth,
// mm, by quill feed.
func (s *Setup) quillOut(tip qty.Length) float64 {
	return math.Max(0, (tip - s.Job.Bar.TipHome()).MM())
}
