package ways

import (
	"fmt"
	"testing"

	"borewright/process/files"
	"borewright/process/qty"
)

// plainJob is an open bore behind a wall; %v: room for chips, diameter of the bar.
const plainJob = `
units = "mm"
number = "T-1"
revision = "-"
title = "an open bore"
machine = "hbm-5in"
material = "gray-iron-200hb"
station = [
  { name = "wall", from = 0, to = 30, diameter = 78 },
  { name = "far", from = 200, to = 260, diameter = 80 },
]
[[bore]]
station = "far"
repair = "rebore"
finish = { diameter = 81, fit = "H7" }
[bar]
steps = [{ diameter = %v, length = 340 }]
[cutter]
material = "carbide"
nose_radius = 0.8
most = 100
[limits]
chip_room = %v
`

// A fatter bar leaves twice the room that chips are given, in the narrowest bore on
// its way: the wall of 78.
func TestFatterLeavesRoom(t *testing.T) {
	for _, room := range []float64{1.5, 3, 6} {
		job, err := files.Job("job.toml", []byte(fmt.Sprintf(plainJob, 50, room)), nil)
		if err != nil {
			t.Fatal(err)
		}
		all := fatter(job)
		for _, c := range all {
			if left := (78 - with(job, c).Bar.Steps[0].Diameter.MM()) / 2; left < 2*room {
				t.Errorf("room of %g: a bar that leaves %g on radius", room, left)
			}
		}
		if d := with(job, all[len(all)-1]).Bar.Steps[0].Diameter; d.Plus(2*qty.Millimetre).MM() <= 78-4*room && d.MM() < 50+24 {
			t.Errorf("room of %g: the fattest bar tried is %v", room, d.MM())
		}
	}
}
