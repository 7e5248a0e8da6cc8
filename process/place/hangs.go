package place

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/setup"
)

// How far a bar hangs by its own weight.
const (
	BarHangs   fact.Kind = "place.bar hangs"       // by
	LineHangs  fact.Kind = "place.line bar hangs"  // by
	LineStands fact.Kind = "place.line bar stands" // above, by
	QuillHangs fact.Kind = "place.quill hangs"     // by, at the far end of station
	QuillLeans fact.Kind = "place.quill leans"     // by at the near end, station, by at its far end
)

// Hangs tells how far the bar hangs at the most in the bores that it cuts; nothing where it matters
// to none of them.
func Hangs(s *setup.Setup) fact.Fact {
	const least = 0.003 // mm: less is within any line-up; common practice, no source
	length := func(mm float64) fact.Arg { return fact.Figure(qty.FromMM(mm)) }
	var most, from float64
	var at process.Station
	for i, b := range s.Job.Bores {
		if !s.Job.Here(b) || !s.Job.Cuts(i) {
			continue
		}
		st := s.Job.Stations[b.Station]
		if h := s.Droop(st.To); math.Abs(h) > math.Abs(most) {
			most, from, at = h, s.Droop(st.From), st
		}
	}
	switch {
	case math.Abs(most) <= least:
		return fact.Fact{}
	case s.Job.Bar.Inboard != nil && most < 0:
		return fact.New(LineStands, length(-most))
	case s.Job.Bar.Inboard != nil:
		return fact.New(LineHangs, length(math.Abs(most)))
	case s.Job.Bar.FeedBy != process.QuillFeed:
		return fact.New(BarHangs, length(math.Abs(most)))
	case most-from <= least:
		return fact.New(QuillHangs, length(most), fact.Name(at.Name))
	}
	return fact.New(QuillLeans, length(from), fact.Name(at.Name), length(most))
}
