package measured

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
)

// lineUp holds the marks of a witness cut against the readings of the worn
// bore, those of its band where it marked the near end alone: where the bore stands inside the cutter's circle it must have marked,
// where it stands outside it cannot have. It says what it finds, what stops the
// plan, and whether the line-up is confirmed.
func lineUp(job *process.Job, b process.Bore, st process.Station, m *process.Measured, made float64) (says, stops fact.Fact, sure bool) {
	if len(m.Marked)+len(m.Bare) == 0 {
		return says, stops, false
	}
	tell := pass.BySquares(job.Limits.GaugeError.MM(), job.Limits.SettingError.MM()/2, 0.01) // a mark thinner than this is not seen
	worst, where, held := 0.0, fact.Fact{}, 0
	worn := b.Wear
	if m.CutTo > 0 {
		worn = b.WornNear(st.From, m.CutTo)
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
			off := least - made // marked: at least one depth stood inside
			if !marked {
				off = made - most
			}
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
		return says, fact.New(MarksDisagree, where), false
	}
	return fact.New(MarksAgree, fact.Count(held), fact.Figure(qty.FromMM(tell))), stops, true
}
