package passes

import (
	"math"

	"borewright/process/bar"
	"borewright/process/landing"
)

// rootFactor is how well the stiffness of spindle and socket is known, as a
// factor either way (95 %): a factor of 1.5. Common practice, no source; the
// figures in the machine files are ranges of two to one.
const rootFactor = 1.5

// landing collects the passes from the one before the semi-finish on; what came
// before them no longer matters to the size. What is not known is taken from the
// job's limits, which are half-widths (95 %).
func (r *Planner) landing() landing.Trial {
	l := r.Job.Limits
	h := landing.Trial{
		Limits: [2]float64{r.v.Limits.Low.MM(), r.v.Limits.High.MM()}, Bar: r.c,
		Grows: r.v.Material.Alpha * r.v.Limits.Aim.MM(), BarGrows: SteelAlpha * r.v.Limits.Aim.MM(),
		Sigma: landing.Sigma{
			Force: r.forceDoubt / 1.96, Set: l.SettingError.MM() / 1.96, Gauge: l.GaugeError.MM() / 1.96,
			Root: math.Log(rootFactor) / 1.96, Kelvin: l.Temperature / 1.96, Spring: SpringRepeats / 1.96,
		},
	}
	if rigid := r.factor * r.rigid(); rigid < r.c {
		h.Bar, h.Root = rigid, r.c-rigid
	}
	first := len(r.v.Passes)
	for first > 0 && r.v.Passes[first-1].Kind >= SemiFinish {
		first--
	}
	first = max(0, first-1)
	h.Start = r.v.Start.MM() / 2
	if first > 0 {
		h.Start = r.v.Passes[first-1].Expected.MM() / 2
	}
	for i, p := range r.v.Passes[first:] {
		radial := func(a float64) float64 { return r.Radial(a, p.Feed.MM(), float64(p.Cutting)) }
		d := p.Depth.MM()
		if i == 0 { // from the middle of what it finds, not the place of least radius
			d = bar.DepthFor(radial, r.c, p.Setting.MM()/2-h.Start)
		}
		h.Passes = append(h.Passes, landing.Pass{
			Setting: p.Setting.MM(), Expected: p.Expected.MM(), Depth: d, Force: radial(d),
			K:        r.model.Push(math.Max(d, 1e-4), p.Feed.MM(), float64(p.Cutting)),
			Measured: p.Kind == SemiFinish, Again: p.Kind == Spring,
		})
	}
	return h
}

// SteelAlpha is the expansion of a steel bar, 1/K: 11.5·10⁻⁶ (any handbook).
const SteelAlpha = 11.5e-6

// rigid is the compliance of the same bar on a spindle that does not give.
func (r *Planner) rigid() float64 {
	b, err := bar.New(r.sections, bar.Root{Radial: math.Inf(1), Tilt: math.Inf(1)}, r.Job.Bar.CutterAt.MM(), r.support, 0)
	if err != nil {
		return r.c
	}
	return b.Compliance()
}
