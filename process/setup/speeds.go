package setup

import (
	"math"

	"borewright/process"
	"borewright/process/qty"
)

// feedSteps is the ladder of feeds that a pass may use. A machine with gears
// has its own; on one with a range the steps are those a person would key in:
// near a R20 series (ISO 3), plain in the job's units.
func feedSteps(job *process.Job) []float64 {
	r := job.Machine.Feeds
	steps := r.Steps
	if len(steps) == 0 {
		steps = []float64{0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.12, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.6, 0.8, 1}
		if job.Units == qty.Inches {
			for i, f := range []float64{0.001, 0.0015, 0.002, 0.0025, 0.003, 0.004, 0.005, 0.006, 0.008, 0.010, 0.012, 0.015, 0.020, 0.025, 0.030, 0.035, 0.040} {
				steps[i] = f * 25.4
			}
		}
	}
	var out []float64
	for _, f := range steps {
		if len(r.Steps) == 0 && (f < r.Least || f > r.Most) {
			continue
		}
		if most := job.Limits.FeedMost.MM(); most > 0 && f > most*(1+1e-9) {
			continue
		}
		out = append(out, f)
	}
	return out
}

// SpeedAtMost is the fastest speed of the machine, rev/min, that does not exceed rpm;
// the slowest it has when all do. On a range it is rounded down to two figures,
// as a person would key it in.
func (s *Setup) SpeedAtMost(rpm float64) float64 {
	m := s.Job.Machine
	if len(m.Speeds.Steps) > 0 {
		best := m.Speeds.Steps[0]
		for _, n := range m.Speeds.Steps {
			if n <= rpm {
				best = n
			}
		}
		return best
	}
	rpm = math.Max(m.Speeds.Least, math.Min(m.Speeds.Most, rpm))
	if rpm >= 100 {
		rpm = math.Floor(rpm/10) * 10
	} else {
		rpm = math.Floor(rpm)
	}
	return math.Max(rpm, m.Speeds.Least)
}

// SpeedAtLeast is the slowest speed of the machine, rev/min, that is not below rpm;
// the fastest it has when all are. On a range it is rounded up to two figures.
func (s *Setup) SpeedAtLeast(rpm float64) float64 {
	m := s.Job.Machine
	if steps := m.Speeds.Steps; len(steps) > 0 {
		for _, n := range steps {
			if n >= rpm {
				return n
			}
		}
		return steps[len(steps)-1]
	}
	if rpm >= 100 {
		rpm = math.Ceil(rpm/10) * 10
	} else {
		rpm = math.Ceil(rpm)
	}
	return math.Max(m.Speeds.Least, math.Min(m.Speeds.Most, rpm))
}

// SpeedShare is the share of the band's top speed that suits a slender bar: 1 up to an overhang of 3, 0.85 at 4, 0.75 at 6
// and 0.70 beyond 7. Source: an open derating table, speed 80–90 % at 4 and
// 70–80 % at 6 (one source); the flat end is common practice, no source.
func SpeedShare(overhang float64) float64 {
	return qty.Between(overhang, []float64{3, 4, 6, 7}, []float64{1, 0.85, 0.75, 0.70})
}

// Beyond is whether a bar stands out more diameters than a rule allows: more by what is printed of
// both, a tenth of a diameter.
func Beyond(overhang, rule float64) bool { return overhang > rule+0.05 }

// DepthShare is the share of the job's deepest cut that a slender bar takes: all up
// to an overhang of 3 diameters, 0.75 at 4, 0.55 at 6, 0.35 at 8, 0.25 from 10.
// A bar held at both ends takes all. Source: an open derating table, 70–80 % at
// 4 and 50–60 % at 6 (one source); beyond 6 common practice, no source.
func DepthShare(overhang float64, held bool) float64 {
	if held {
		return 1
	}
	return qty.Between(overhang, []float64{3, 4, 6, 8, 10}, []float64{1, 0.75, 0.55, 0.35, 0.25})
}

// SpeedsAround lists the speeds of a machine from slow to fast, one gear more
// on either side.
func SpeedsAround(r process.Range, slow, fast float64) []float64 {
	var out []float64
	if len(r.Steps) > 0 {
		for _, s := range r.Steps {
			if s >= slow && s <= fast {
				out = append(out, s)
			}
		}
		return out
	}
	slow, fast = math.Max(slow, r.Least), math.Min(fast, r.Most)
	if !(slow > 0 && fast > slow && fast < 1e6) {
		return nil
	}
	const n = 24
	for i := range n + 1 {
		out = append(out, slow*math.Pow(fast/slow, float64(i)/n))
	}
	return out
}
