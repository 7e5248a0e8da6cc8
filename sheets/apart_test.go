package sheets

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"borewright/process/files"
	"borewright/process/plan"
)

// Two bores that get sleeves are roughed first: the rough leaves a size, the finish of the housing
// lands the fit of the sleeve's outside, and the sleeve is told behind it.
func TestHousingsRoughedApart(t *testing.T) {
	job, err := files.Job("job.toml", []byte(`units = "mm"
number = "T-7"
revision = "-"
title = "two housings"
machine = "hbm-4in"
material = "gray-iron-200hb"
station = [
  { name = "front", from = 0, to = 30, diameter = 66.9, swept = true, wall = 25 },
  { name = "mid", from = 60, to = 110, diameter = 66, wall = 25 },
]
bore = [
  { station = "front", repair = "sleeve", finish = { diameter = 66, fit = "H7" } },
  { station = "mid", repair = "sleeve", finish = { diameter = 66, fit = "H7" } },
]
[bar]
steps = [{ diameter = 52, length = 160 }]
[cutter]
material = "carbide"
nose_radius = 0.4
[sleeve]
material = "steel-1026"
outside = 74
`), nil)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	s := Build(plan.Make(job), Only(AnnexPart))
	if err := s.WriteText(&out); err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(out.String()), " ")
	for _, want := range []string{"To leave Ø73.480 to Ø73.520 mm, aim", "To land Ø74.000 to Ø74.030 mm (Ø74.000 H7), aim", "To land Ø66.000 to Ø66.030 mm (Ø66.000 H7), aim"} {
		if strings.Count(text, want) != 2 {
			t.Errorf("%q stands %d times, want once a bore", want, strings.Count(text, want))
		}
	}
	var heads []string
	for _, x := range s.Sections {
		if _, of, is := strings.Cut(x.Title, "front, "); is && strings.Contains(x.Title, "Bore 1") {
			heads = append(heads, of)
		}
	}
	want := []string{"visit 1 of 2: bore the housing for the sleeve, rough", "visit 1 of 2: bore the housing for the sleeve, semi-finish and finish",
		"the sleeve: the repair", "the sleeve: its fit", "visit 2 of 2: bore the sleeve to size in place"}
	if len(heads) < len(want) || !slices.Equal(heads[:len(want)], want) {
		t.Errorf("in this order: %q", heads)
	}
}
