package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/geom"
	"borewright/process/place"
	. "borewright/process/plan"
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

// What a bar hangs is told of the bores that it cuts alone: with the quill hardly out in the near
// bore, the bar that cuts it does not hang as the one does that cuts the far bore.
func TestHangsWhereItCuts(t *testing.T) {
	const rack = `units = "mm"
[[bar]]
name = "stout"
steps = [{ diameter = 100, length = 100 }]
[[bar]]
name = "slender"
steps = [{ diameter = 80, length = 100 }]
[[cutter]]
name = "plain"
most = 200
material = "carbide"
nose_radius = 0.8
`
	text := strings.Replace(fmt.Sprintf(hangJob, "name = \"stout\"\nstandoff = 50\nfeed_by = \"quill\""), "machine =", "bars = \"rack.toml\"\nrough = { bar = \"%s\" }\nmachine =", 1)
	text = strings.Replace(text, "material = \"carbide\"\nnose_radius = 0.8", "name = \"plain\"", 1)
	text = strings.Replace(text, "[[bore]]", "[[bore]]\nstation = \"near\"\nrepair = \"rebore\"\nfinish = { diameter = 162, fit = \"H8\" }\n[[bore]]\nbar = \"slender\"", 1)
	for _, rough := range []string{"stout", "slender"} {
		job, err := files.Job("job.toml", []byte(fmt.Sprintf(text, rough)), func(string) ([]byte, error) { return []byte(rack), nil })
		if err != nil {
			t.Fatal(err)
		}
		hang := map[string]bool{}
		for _, f := range Make(job).Cautions {
			if f.Kind == OfTools {
				of, _ := fact.AsName(f.Nth(1))
				in := f.Nth(2).(fact.Fact).Kind
				hang[of] = hang[of] || in == place.QuillHangs || in == place.QuillLeans
			}
		}
		if hang["stout and plain"] != (rough == "stout") || !hang["slender and plain"] {
			t.Errorf("all roughed with the %s bar: hangs %v", rough, hang)
		}
	}
}
