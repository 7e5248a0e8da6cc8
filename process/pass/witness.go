package pass

import (
	"cmp"
	"math"
	"slices"

	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// WitnessDepth is how deep a witness cut goes where most is to be cut, radial:
// enough to show all round where the axis is, little enough to spoil nothing.
// Common practice, no source.
const WitnessDepth = 0.15

// Witness is a witness cut.
type Witness struct {
	Made, Depth, Feed float64 // radius after it and what it takes, mm; mm/rev
	Pick              Pick
	Minutes, Cost     float64 // its time, with its stop; and with the price of chatter
}

// Witnesses are the witness cuts that a bore of a radius, mm, may begin with, at some speeds, the
// cheapest first; none where the stock is too thin to spare one: the semi-finish then shows the
// axis. All have the feed nearest to 0.1 mm/rev, which leaves a mark that can be seen and measured.
func (r *Judge) Witnesses(rLeast float64, speeds []Pick) (out []Witness) {
	if r.Aim-rLeast < WitnessDepth+2*UsualFinish {
		return nil
	}
	made := float64(r.Job.Units.Round(qty.FromMM(2*(rLeast+WitnessDepth)))) / 2e6
	depth, nearest := made-rLeast, math.Inf(1)
	for _, feed := range r.Feeds {
		off := math.Abs(math.Log(feed / 0.1))
		if off >= nearest {
			continue
		}
		var at []Witness
		for _, pick := range speeds {
			c := r.CutFor(depth, feed, pick, made, r.Visit.RoughOut)
			c.Left = r.Aim - made
			if !r.SemiVerdict(c).OK() {
				continue
			}
			minutes := r.WitnessMinutes(feed, pick.RPM, r.Visit.RoughOut)
			at = append(at, Witness{made, depth, feed, pick, minutes + r.Job.Limits.HoldMinutes, minutes + ChatterPrice(r.StabilityOf(c, r.NewLand()))})
		}
		if at != nil {
			out, nearest = at, off
		}
	}
	slices.SortStableFunc(out, func(a, b Witness) int { return cmp.Compare(a.Cost, b.Cost) })
	return out
}

// Bored is the bore, its least and its most radius, after a stroke that makes it so large.
// A witness cut leaves a band of that radius: behind it the old bore stands as it was, and
// the band counts as one of its places where less is to be cut.
func Bored(kind schedule.Kind, stroke setup.Stroke, rLeast, rMost, made float64) (float64, float64) {
	if kind == schedule.Witness {
		return rLeast, math.Max(rMost, made)
	}
	return made, stroke.Left(rLeast, rMost, made)
}
