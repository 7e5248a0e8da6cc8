package record

import (
	"slices"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Correction is what the cutter is set to for the next pass where the gauge has said so.
type Correction struct {
	Low, High qty.Diameter  // what the gauge says, the mean of its readings: from, to
	Next      schedule.Pass // the next pass as it is planned then
}

// Steps that bore gauges show, from the finest (common practice, no source).
var (
	stepsInch = []qty.Length{2540, 5080, 12700, 25400}       // 0.0001, 0.0002, 0.0005, 0.001 in
	stepsMM   = []qty.Length{1000, 2000, 5000, 10000, 20000} // 0.001 to 0.02 mm
)

// mostSteps is how many steps of the gauge the window may have in a table that is read at the mill.
const mostSteps = 10

// gaugeStep is the finest step of which the window of a pass has no more than that; 0: it has
// more of the coarsest, and no table is short enough.
func gaugeStep(u qty.Unit, q *schedule.Pass) qty.Length {
	steps := stepsMM
	if u == qty.Inches {
		steps = stepsInch
	}
	for _, s := range steps {
		if q.High.Minus(q.Low) <= mostSteps*s {
			return s
		}
	}
	return 0
}

// Corrections are what the next pass is set to by what the gauge says after a pass, by the
// indices of bore, visit and pass: at every step of the gauge over its window and, by half of the
// window's width either way, as far beyond as the visit goes on by the same passes at the same
// speeds and feeds. Steps with the same setting stand together. Each is what an entry of that size at both
// ends, across two directions, has planned. None: the setting does not hang on the size, or
// from no size the rest is as planned.
func Corrections(p *plan.Plan, bore, visit, k int) (out []Correction) {
	x := p.Bores[bore]
	v := x.Visits[visit]
	q := v.Passes[k]
	if q.Band != nil || q.Hold == nil || k+1 >= len(v.Passes) {
		return nil
	}
	step := qty.Diameter(gaugeStep(p.Job.Units, &q))
	if step == 0 {
		return nil
	}
	first, last := (q.Low+step-1)/step, q.High/step // within the window
	resume := p.Resume(bore, visit)
	add := func(n qty.Diameter) bool {
		m, err := Fill(p, process.Measured{Station: x.Bore.Station, Pass: q.N, Sizes: AtEnds(x.Station, n*step)})
		if err != nil {
			return false
		}
		rest := resume(m)
		if rest == nil || !sameWay(rest.Passes, v.Passes[k+1:]) {
			return false
		}
		out = append(out, Correction{n * step, n * step, rest.Passes[0]})
		return true
	}
	beyond := (last - first + 1) / 2
	for n := first - 1; n >= first-beyond && add(n); n-- {
	}
	slices.Reverse(out)
	for n := first; n <= last; n++ {
		add(n)
	}
	for n := last + 1; n <= last+beyond && add(n); n++ {
	}
	return together(out, step)
}

// AtEnds is a bore read alike at both its ends across two directions.
func AtEnds(s process.Station, d qty.Diameter) (out []process.Size) {
	for _, depth := range []qty.Length{s.From, s.To} {
		for _, at := range []float64{0, 90} {
			out = append(out, process.Size{Depth: depth, At: at, Diameter: d})
		}
	}
	return out
}

// together puts neighbouring sizes with one setting together.
func together(all []Correction, step qty.Diameter) (out []Correction) {
	for _, c := range all {
		if i := len(out) - 1; i >= 0 && out[i].High+step == c.Low && sameSet(&out[i].Next, &c.Next) {
			out[i].High = c.High
			continue
		}
		out = append(out, c)
	}
	return out
}

// sameSet is whether the hand does the same for two passes.
func sameSet(a, b *schedule.Pass) bool {
	moved := a.Set.From > 0 // by the dial, from wherever that size has shown it to stand
	same := a.Set.Turns == b.Set.Turns && a.Set.Graduations == b.Set.Graduations && a.Set.OverBar == b.Set.OverBar
	return moved == (b.Set.From > 0) && same && (moved || a.Setting == b.Setting) && (a.Hone == nil) == (b.Hone == nil)
}

// sameWay is whether passes are of the same kinds, speeds, feeds and ways out.
func sameWay(a, b []schedule.Pass) bool {
	return slices.EqualFunc(a, b, func(a, b schedule.Pass) bool {
		return a.Kind == b.Kind && a.Speed == b.Speed && a.Feed == b.Feed && a.Out.By == b.Out.By
	})
}
