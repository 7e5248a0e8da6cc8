package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"borewright/process/geom"
	"borewright/process/qty"
)

const hangJob = `
units = "mm"
number = "T-6"
revision = "-"
title = "a far bore"
machine = "hbm-5in"
material = "gray-iron-200hb"
station = [
  { name = "near", from = 0, to = 60, diameter = 160, swept = true },
  { name = "far", from = 760, to = 820, diameter = 150, swept = true },
]
[[bore]]
station = "far"
repair = "rebore"
finish = { diameter = 152, fit = "H8" }
[bar]
%s
[cutter]
material = "carbide"
nose_radius = 0.8
[[sweep]]
station = "near"
depth = 30
at = [0, 90, 180, 270]
dial = [0, 0, 0, 0]
[[sweep]]
station = "far"
depth = 790
at = [0, 90, 180, 270]
dial = [0, 0, 0, 0]
`

// With the quill out to a depth, the bar hangs as much as one that has that
// length of quill for its first step. The tip stands 50 mm from the face with
// the quill home, so it is out by 840 − 100 mm in the middle of the bore.
func TestHangGrowsWithTheQuill(t *testing.T) {
	quill := planned(t, fmt.Sprintf(hangJob, `steps = [{ diameter = 100, length = 100 }]
standoff = 50
feed_by = "quill"`))
	whole := planned(t, fmt.Sprintf(hangJob, `steps = [{ diameter = 127, length = 740 }, { diameter = 100, length = 100 }]
feed_by = "table"`))
	q, w := quill.LineUp, whole.LineUp
	if q.Droop != w.Droop || q.Droop < 50*qty.Micrometre {
		t.Errorf("hangs %v by quill feed, %v as one bar", q.Droop, w.Droop)
	}
	if rest := qty.FromMM(q.Move[1].By) - q.Droop; rest.Abs() > 25*qty.Thou/100 || q.Move[1].Spindle != geom.Up {
		t.Errorf("the spindle is not set high by the hang: %+v", q.Move[1])
	}
	if near, far := q.At[0].Y, q.At[1].Y; near*4 > far {
		t.Errorf("the cutter hangs %v at the near station and %v at the far one", near, far)
	}
	if s := said(quill, quill.Cautions...); !strings.Contains(s, "leans down by the difference") {
		t.Error("no caution that the hang grows along the cut:", s)
	}
}
