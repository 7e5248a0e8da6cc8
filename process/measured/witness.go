package measured

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/geom"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// A mark thinner than leastMark is not seen; a mistake in lining up is some tenths of a
// millimetre, or as far as the line stood off when the work went the wrong way. mm, common
// practice, no source.
const (
	leastMark = 0.01
	leastSlip = 0.15
)

// LineKnown is how well the sweeps tell where the line is at a station, ±, and how far off it
// stood before anything was moved.
type LineKnown struct{ Within, Off qty.Length }

// toMove is what the marks say to move, as slides are moved; or that they do not tell it.
func toMove(job *process.Job, m geom.Marks) fact.Fact {
	advice, sure := m.Advice()
	var moves []fact.Fact
	for i, a := range advice {
		by, dial := job.Units.Round(qty.FromMM(a.By)), job.Machine.Dial
		var turns, of fact.Arg
		if job.Machine.Control == nil && dial > 1 { // by hand: half graduations of the slide's dial
			halves := math.Round(2 * a.By / dial.MM())
			by = qty.Length(halves) * (dial / 2)
			turns, of = fact.Figure(qty.KindNumber.Of(math.Abs(halves)/2)), fact.Figure(qty.Graduation(dial))
		}
		if by == 0 {
			continue
		}
		way := []string{"X", "Y"}[i] + " plus"
		if by < 0 {
			way = []string{"X", "Y"}[i] + " minus"
		}
		moves = append(moves, fact.New(MoveByMarks, fact.Name(way), fact.Figure(by.Abs()), a.Spindle.Fact(), a.Work.Fact(), turns, of))
	}
	if !sure || len(moves) == 0 {
		return fact.New(MarksTooFew)
	}
	return fact.New(MarksTell, fact.List(moves...))
}

// lineUp holds the marks of a witness cut against the readings of the worn
// bore, those of its band where it marked the near end alone: where the bore stands inside the cutter's circle it must have marked,
// where it stands outside it cannot have. It says what it finds, what stops the
// plan, with what to move by the marks, and whether the line-up is confirmed.
func lineUp(job *process.Job, b process.Bore, st process.Station, m *process.Measured, made float64, line LineKnown) (says, stops fact.Fact, sure bool) {
	if len(m.Marked)+len(m.Bare) == 0 {
		return says, stops, false
	}
	tell := pass.BySquares(job.Limits.GaugeError.MM(), job.Limits.SettingError.MM()/2, leastMark)
	worst, where, held := 0.0, fact.Fact{}, 0
	all := geom.Marks{
		Made: made, Cuts: job.Limits.SettingError.MM() / 2, Reads: pass.BySquares(job.Limits.GaugeError.MM(), leastMark),
		Line: line.Within.MM(), Slip: math.Max(leastSlip, line.Off.MM()),
	}
	worn := b.Wear
	if m.CutTo > 0 {
		worn = schedule.WornNear(&b, st.From, m.CutTo)
	}
	look := func(angles []float64, marked bool) {
		for _, a := range angles {
			least, most := math.Inf(1), math.Inf(-1)
			for _, w := range worn {
				for i, at := range w.At {
					if i < len(w.Radius) && math.Abs(math.Remainder(at-a, 360)) < 1 {
						least, most = math.Min(least, w.Radius[i].MM()), math.Max(most, w.Radius[i].MM())
					}
				}
			}
			if math.IsInf(least, 1) {
				continue
			}
			held++
			off, wall := least-made, least // marked: at least one depth stood inside
			if !marked {
				off, wall = made-most, most
			}
			all.At = append(all.At, geom.Mark{Clock: a, Wall: wall, Cut: marked})
			if off > tell && off > worst {
				kind := BareInside
				if marked {
					kind = MarkedOutside
				}
				worst, where = off, fact.New(kind, fact.Figure(qty.KindClock.Of(a)), fact.Figure(qty.FromMM(off)))
			}
		}
	}
	look(m.Marked, true)
	look(m.Bare, false)
	switch {
	case held == 0:
		return fact.New(MarksElsewhere), stops, false
	case worst > 0:
		return says, fact.New(MarksDisagree, where, toMove(job, all)), false
	}
	return fact.New(MarksAgree, fact.Count(held), fact.Figure(qty.FromMM(tell))), stops, true
}
