package pass

import (
	"math"

	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Band is the stretch of the bore that a witness cut marks: half an inch at its near
// end, 12 mm in a metric job, and no more than half of a short bore (common practice, no
// source).
func (r *Judge) Band() schedule.Band {
	long, u := 12*qty.Millimetre, r.Job.Units
	if u == qty.Inches {
		long = qty.Inch / 2
	}
	v := r.Visit
	return schedule.Band{From: v.From, To: v.From + min(long, u.Round((v.To-v.From)/2))}
}

// BandMetres is how far the edge cuts in a band.
func (r *Judge) BandMetres(feed, radius float64, out schedule.WayOut) float64 {
	b := r.Band()
	return r.MetresOf(feed, radius, out) * (b.To - b.From).MM() / (r.Visit.To - r.Visit.From).MM()
}

// Bare is the most that a two-point gauge reads across in a band of a radius, mm, by the
// readings of the worn bore that are nearest to it: where the wall stands off the cutter's
// circle on one side or both. 0: nowhere, or no reading shows it.
func (r *Judge) Bare(b schedule.Band, st process.Station, radius float64) qty.Diameter {
	most := 0.0
	for _, bore := range r.Job.Bores {
		if !r.Job.Here(bore) || r.Job.Stations[bore.Station].Name != st.Name {
			continue
		}
		for _, w := range schedule.WornNear(&bore, b.From, b.To) {
			for i, a := range w.At {
				for k, at := range w.At {
					if i < len(w.Radius) && k < len(w.Radius) && math.Abs(math.Abs(math.Remainder(a-at, 360))-180) < 1 {
						most = math.Max(most, math.Max(radius, w.Radius[i].MM())+math.Max(radius, w.Radius[k].MM()))
					}
				}
				if i < len(w.Across) {
					most = math.Max(most, w.Across[i].MM())
				}
			}
		}
	}
	if most <= 2*radius+1e-6 {
		return 0
	}
	return qty.Diameter(r.Job.Units.Round(qty.FromMM(most)))
}
