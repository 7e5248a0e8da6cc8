package passes

import (
	"math"

	"borewright/process/landing"
	"borewright/process/pass"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// landing collects the passes from the one before the semi-finish on; what came
// before them no longer matters to the size. What is not known is taken from the
// job's limits, which are half-widths (95 %). Its force is the radial one that springs the
// bar as the cut does, with the arm of the feed force; how much of that is the spindle's is
// taken as of the radial force.
func (r *Planner) landing() landing.Trial {
	l := r.Job.Limits
	h := landing.Trial{
		Limits: [2]float64{r.Visit.Limits.Low.MM(), r.Visit.Limits.High.MM()}, Bar: r.Middle.Radial,
		Grows: r.Visit.Material.Alpha * r.Visit.Limits.Aim.MM(), BarGrows: setup.SteelAlpha * r.Visit.Limits.Aim.MM(),
		Sigma: landing.Sigma{
			Force: r.Doubt.All / 1.96, Feed: r.Doubt.Feed / 1.96, With: r.Doubt.Together, Set: l.SettingError.MM() / 1.96, Gauge: l.GaugeError.MM() / 1.96,
			Root: math.Log(setup.RootFactor) / 1.96, Kelvin: l.Temperature / 1.96, Spring: pass.SpringRepeats / 1.96,
		},
	}
	if rigid := r.Rigid().Radial; rigid < h.Bar {
		h.Bar, h.Root = rigid, h.Bar-rigid
	}
	first := len(r.Visit.Passes)
	for first > 0 && r.Visit.Passes[first-1].Kind >= schedule.SemiFinish {
		first--
	}
	first = max(0, first-1)
	h.Step = r.Job.ReadsTo().MM()
	if h.Carried = r.ByIncrement(); h.Carried { // before the move of the first pass
		begins := r.in(first)
		sprang := begins.Sprang()
		h.Sprang, h.ByFeed, h.Sigma.Stood = sprang.All, sprang.Feed, math.Sqrt(math.Max(0, square(begins.Placed(r.wears.Moves(first)))-square(l.SettingError.MM())))/1.96
		h.Sigma.Anew = r.Job.FirstSettingError().MM() / 1.96
	}
	h.Start = (r.rLeast + r.rMost) / 2 // the middle of what is found, as after a pass
	if first > 0 {
		h.Start = r.Visit.Passes[first-1].Expected.MM() / 2
	}
	if n := len(r.Visit.Passes); n > 0 {
		last, p := r.in(n-1), &r.Visit.Passes[n-1]
		h.Form = last.AcrossOf(p, last.planned(p))
	}
	rLeast, rMost := r.rLeast, r.rMost
	for i, p := range r.Visit.Passes {
		if rLeast, rMost = r.in(i).after(&p, rLeast, rMost); i < first {
			continue
		}
		i -= first
		r := r.in(first + i)
		d, second, stroke, c := p.Depth.MM(), p.OutDepth.MM(), r.strokeOf(&p), r.Middle.Radial
		if i == 0 { // from the middle of what it finds, not the place of least radius
			d, second = stroke.Take(p.Setting.MM()/2, h.Start)
		}
		planned := r.planned(&p)
		wearIn, wearOut := r.WornMore(planned)
		feedIn, feedOut := r.ByFeed(planned)
		pass := landing.Pass{
			Wear: wearIn / c / 1.96, Feed: feedIn / c, Anew: p.Edge.Honed && i > 0,
			Setting: p.Setting.MM(), Depth: d, Rounded: p.Expected.MM() - rLeast - rMost,
			Force: stroke.In(d) / c, K: stroke.In.Rise(math.Max(d, 1e-4)) / c,
			Measured: p.Kind == schedule.SemiFinish, Again: p.Kind == schedule.Spring,
		}
		if stroke.Out != nil && second > 0 {
			pass.Out = &landing.Cut{Depth: second, Force: stroke.Out(second) / c, K: stroke.Out.Rise(second) / c, Wear: wearOut / c / 1.96, Feed: feedOut / c, Least: r.LeastDepth()}
		}
		h.Passes = append(h.Passes, pass)
	}
	return h
}

func square(x float64) float64 { return x * x }
