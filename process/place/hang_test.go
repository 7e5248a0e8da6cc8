package place

import (
	"math"
	"testing"

	"borewright/process/files"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// The room that a bar has is measured with all the doubt there is of where bar
// and bores stand: how surely the line is known, and how far bar and quill hang
// at the end of the cut. The hang is that of the beam of bar and quill.
func TestRoomAllowsForTheHang(t *testing.T) {
	job, err := files.Job("job.toml", []byte(`
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
steps = [{ diameter = 100, length = 100 }]
standoff = 50
feed_by = "quill"
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
`), nil)
	if err != nil {
		t.Fatal(err)
	}
	s, err := setup.New(job)
	if err != nil {
		t.Fatal(err)
	}
	l, err := NewLineUp(job, s.Droop)
	if err != nil {
		t.Fatal(err)
	}
	mm := qty.FromMM
	v := schedule.Visit{N: 1, From: mm(760), To: mm(820), Clear: mm(757), End: mm(822), Start: qty.DiameterMM(150), StartMost: qty.DiameterMM(150),
		Limits: schedule.Limits{Low: qty.DiameterMM(152), Aim: qty.DiameterMM(152.03), High: qty.DiameterMM(152.063)}}
	r, err := NewReach(s, l, 1, &v)
	if err != nil {
		t.Fatal(err)
	}
	unsure := qty.Length(0)
	for _, a := range l.At {
		unsure = max(unsure, qty.FromMM(a.Uncertainty))
	}
	want := unsure.MM() + job.LineUp.Coaxial.MM() + math.Abs(s.Droop(v.End))
	if got := r.way.Unsure; math.Abs(got-want) > 0.001 || want < 0.05 {
		t.Errorf("room is measured with %.4f mm of doubt, want %.4f", got, want)
	}
}
