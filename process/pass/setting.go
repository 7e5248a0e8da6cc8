package pass

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// SetOf is what a hand does to come from one setting to the next; from is 0 where
// nothing is known to move on from.
func (r *Judge) SetOf(from, to qty.Diameter) schedule.Set {
	s, m := schedule.Set{}, r.Job.Machine
	if r.ByIncrement() && from > 0 {
		s.From = from
		by := float64(to.Minus(from)) / float64(m.SetDial)
		half := 2 * int(math.Round(by))
		// Settings are rounded to what is printed, which need not be graduations.
		if off := math.Abs(by-float64(half/2)) * float64(m.SetDial); off > float64(r.Job.Round(0.001, 0.0001)) {
			half = int(math.Round(2 * by))
		}
		if m.DialTurn > 0 {
			whole := int(2 * m.DialTurn / m.SetDial)
			s.Turns, half = half/whole, half%whole
		}
		s.Graduations = float64(half) / 2
		return s
	}
	if r.Job.Cutter.SetBy != process.Preset {
		s.OverBar = r.Job.Units.Round(r.Job.OverBarAndTip(to))
	}
	return s
}

// Lattice is the settings that hands can make: origin, and whole steps from there.
type Lattice struct {
	Origin, Step qty.Length
	Floats       bool       // the origin may lie anywhere: it is chosen for the finish
	Finest       qty.Length // step of the last move, which is read as finely as it can be
}

// Lattice is that of the visit, of so many moves of the cutter; anew: the first of them is set
// over the bar, wherever the cutter stands. By increment it is whole graduations from where the
// cutter stands, or from a first setting that is chosen so that the finish is met;
// over the bar what the last figure of a micrometer gives.
func (r *Judge) Lattice(anew bool, moves int) Lattice {
	finest := r.Job.ReadsTo()
	switch {
	case r.ByIncrement() && anew && moves == 1 && r.Visit.Stands.At > 0: // nothing but the micrometer has a say
		step := 2 * r.Job.Round(0.001, 0.0001)
		return Lattice{-r.Job.Cutter.Bar.Length(), step, false, step}
	case r.ByIncrement():
		return Lattice{r.Visit.Stands.At.Length(), r.Job.Machine.SetDial, anew || r.Visit.Stands.At == 0, finest}
	case r.Job.Cutter.SetBy == process.OverBar:
		return Lattice{-r.Job.Cutter.Bar.Length(), finest, false, finest}
	}
	return Lattice{Step: finest, Finest: finest}
}

// Near are the settings of the lattice about one, the nearest first, as u prints them.
func (l Lattice) Near(d qty.Diameter, u qty.Unit) (out [4]qty.Diameter) {
	steps := math.Floor(float64(d.Length()-l.Origin) / float64(l.Step))
	for i := range out {
		out[i] = qty.Diameter(u.Round(l.Origin + qty.Length(steps+float64(i-1))*l.Step))
	}
	slices.SortStableFunc(out[:], func(a, b qty.Diameter) int { return cmp.Compare(a.Minus(d).Abs(), b.Minus(d).Abs()) })
	return out
}

// Aside is by how much the size misses the aim, mm on diameter, because the cutter is moved to it
// by whole steps from where it was found to stand; radius is what the stroke finds, and made what
// it is to make of it: less than the aim where a spring pass follows.
func (r *Judge) Aside(s setup.Stroke, radius, made float64) float64 {
	l := r.Lattice(r.Anew, 1)
	if l.Step = l.Finest; l.Floats {
		return 0
	}
	want := qty.FromMM(2 * s.SettingFor(radius, made))
	return math.Abs(l.Near(qty.Diameter(want), r.Job.Units)[0].MM() - want.MM())
}

// Missed is by how much the middle of what a last pass leaves misses the aim, mm on diameter.
func (r *Judge) Missed(c Cut, left float64) float64 { return math.Abs(2*(c.Radius-r.Aim) + left) }

// Opened is how far the cutter is opened for a pass from where it stood, mm on diameter: by
// increment as the dial says, without what the sheet rounds.
func (r *Judge) Opened(p *schedule.Pass, from qty.Diameter) float64 {
	if m := r.Job.Machine; p.Set.From > 0 {
		return float64(p.Set.Turns)*m.DialTurn.MM() + p.Set.Graduations*m.SetDial.MM()
	}
	return p.Setting.Minus(from).MM()
}

// Pitches are the grid steps of a search, on diameter, that leave sizes a person likes to
// read off a gauge.
func Pitches(u qty.Unit) []float64 {
	if u == qty.Inches {
		return []float64{0.001 * 25.4, 0.002 * 25.4, 0.005 * 25.4, 0.010 * 25.4, 0.020 * 25.4, 0.050 * 25.4}
	}
	return []float64{0.02, 0.05, 0.1, 0.2, 0.5, 1}
}

// SetMinutes is the time to stop and set the cutter without measuring the bore.
func (r *Judge) SetMinutes() float64 { return r.Job.Limits.HoldMinutes / 2 }
