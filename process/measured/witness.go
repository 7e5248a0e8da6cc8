package measured

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/passes"
	"borewright/process/qty"
)

// lineUp holds the marks of a witness cut against the readings of the worn
// bore: where the bore stands inside the cutter's circle it must have marked,
// where it stands outside it cannot have. It says what it finds, what stops the
// plan, and whether the line-up is confirmed.
func lineUp(job *process.Job, b process.Bore, m *process.Measured, made float64) (says, stops string, sure bool) {
	if len(m.Marked)+len(m.Bare) == 0 {
		return "", "", false
	}
	u := job.Units
	tell := passes.BySquares(job.Limits.GaugeError.MM(), job.Limits.SettingError.MM()/2, 0.01) // a mark thinner than this is not seen
	worst, where, held := 0.0, "", 0
	look := func(angles []float64, marked bool) {
		for _, a := range angles {
			least, most := math.Inf(1), math.Inf(-1)
			for _, w := range b.Wear {
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
				verb := map[bool]string{true: "it marked at %s, where the readings put the wall %s outside of the cutter", false: "it left %s bare, where the readings put the wall %s inside of the cutter"}[marked]
				worst, where = off, fmt.Sprintf(verb, qty.KindClock.Say(a), u.Say(qty.FromMM(off)))
			}
		}
	}
	look(m.Marked, true)
	look(m.Bare, false)
	switch {
	case held == 0:
		return "The marks of the witness cut stand at clock positions where no radius was read: they confirm nothing.", "", false
	case worst > 0:
		return "", "the witness cut does not confirm the line-up: " + where + "; sweep again, move the work, and take the witness cut again before anything deeper", false
	}
	return fmt.Sprintf("The witness cut confirms the line-up: its marks agree with the readings at all %d clock positions, to %s.", held, u.Say(qty.FromMM(tell))), "", true
}
