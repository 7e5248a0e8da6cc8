// Package marks gives what an entry of the results carries so that nothing is learned of one bar, or of
// one line-up, from a cut of another.
package marks

import (
	"fmt"
	"hash/crc32"

	"borewright/process"
)

// Tooling is a mark of all that the spring of a cut hangs on besides the cut
// itself: bar, how it is held and fed, cutter, stiffness of the spindle. An entry
// carries it, so that nothing is learned of one bar from a cut of another.
func Tooling(j *process.Job) string {
	h := crc32.NewIEEE()
	for _, s := range j.Bar.Steps {
		fmt.Fprintln(h, s.Diameter, s.Hole, s.Length, s.Material.E, s.Material.Nu)
	}
	fmt.Fprintln(h, j.Bar.FeedBy, j.Bar.CutterAt, j.Bar.Standoff)
	if o := j.Bar.Outboard; o != nil {
		at, from := j.OutboardAt(0), j.Bores[0].Face
		if j.Seen != nil {
			from = *j.Seen
		}
		if g := j.Guide(); g != nil && g.Face != from { // by depths from the face that its station counts from: one mark from both
			at += j.Through - (g.From + g.To)
		}
		fmt.Fprintln(h, at, o.Clearance, o.Stiffness)
	}
	if o := j.Bar.Inboard; o != nil {
		fmt.Fprintln(h, o.At, o.Clearance, o.Stiffness)
	}
	c := j.Cutter
	fmt.Fprintln(h, c.Material.ID, c.NoseRadius, c.Lead, c.Trail, c.Rake, c.EdgeRadius)
	fmt.Fprintln(h, j.Machine.Radial, j.Machine.Tilt, j.Machine.ForceFactor)
	return fmt.Sprintf("%08x", h.Sum32())
}

// LinedUpBy is a mark of the sweeps that the work was lined up by.
func LinedUpBy(j *process.Job) string {
	h := crc32.NewIEEE()
	for _, s := range j.Sweeps { // not the face, which entries of old have not in their mark
		fmt.Fprintf(h, "{%v %v %v %v %v %v %v %v %v %v}\n", s.Station, s.Depth, s.Face, s.Diameter, s.At, s.Dial, s.Further, s.Stylus, s.Droop, s.OutOfRound)
	}
	return fmt.Sprintf("%08x", h.Sum32())
}
