package verify

import (
	"slices"
	"strings"
	"testing"

	"borewright/post/verify/through"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Bores before this one by the job stand at their least finished size, wider or
// narrower than found, and even when they are finished and no longer in the
// plan; those after it stand as found.
func TestWallsGoByTheOrderOfTheJob(t *testing.T) {
	mm := qty.DiameterMM
	bore := func(station int, low float64) process.Bore {
		return process.Bore{Station: station, Finish: process.Finish{Low: mm(low), High: mm(low + 0.05)}}
	}
	job := &process.Job{
		Stations: []process.Station{{Name: "a", Diameter: mm(73)}, {Name: "b", Diameter: mm(66)}, {Name: "c", Diameter: mm(90)}, {Name: "d", Diameter: mm(70)}},
		Bores:    []process.Bore{bore(0, 80), bore(2, 85), bore(1, 67), bore(3, 75)},
	}
	p := &plan.Plan{Job: job, Bores: []plan.Bore{{Bore: job.Bores[2]}, {Bore: job.Bores[3]}}} // the first two are finished
	want := map[string]float64{"a": 80, "c": 85, "d": 70}
	walls := wallsOf(p, []through.Bore{{Index: job.Bores[2].Station}})
	for _, w := range walls {
		if got := 2 * w.radius.MM(); got != want[w.name] {
			t.Errorf("%s: Ø%v, want %v", w.name, got, want[w.name])
		}
	}
	if len(walls) != len(want) {
		t.Errorf("%d walls, want %d", len(walls), len(want))
	}
}

// TestWhatOthersStandAt: a station that a program does not cut is told, and held against the bar, by
// the size that it has then: finished from the other face, roughed, or as found still, because a bore that is
// listed later is finished first.
func TestWhatOthersStandAt(t *testing.T) {
	first := strings.Replace(shipped("gear-case/job.toml")(t), `station   = "far side"`+"\nrepair ", `station   = "far side"`+"\nfirst = true\nrepair ", 1)
	for _, row := range []struct {
		why, text, bore string
		part            schedule.Part
		of              string
		want            float64
	}{
		{"finished before from the other face", shipped("swing-bridge/both.toml")(t), "bridge seat", schedule.Whole, "shore seat", 162},
		{"not begun yet from the other face", shipped("swing-bridge/both.toml")(t), "shore seat", schedule.Whole, "bridge seat", 160.1},
		{"roughed, the casting not at rest yet", shipped("gear-case/job.toml")(t), "middle web", schedule.Roughing, "drive side", 181.5},
		{"finished", shipped("gear-case/job.toml")(t), "middle web", schedule.Finishing, "drive side", 182},
		{"listed before, and cut after it", first, "far side", schedule.Whole, "drive side", 180.1},
	} {
		p := planned(t, row.text, "cnc-110mm", "")
		for b, x := range p.Bores {
			for k, v := range x.Visits {
				if x.Station.Name != row.bore || v.Part != row.part {
					continue
				}
				got := Check(written(t, p, b, k), "p.nc", p, b, k)
				i := slices.IndexFunc(got.Shape, func(s Piece) bool { return s.Station == row.of })
				if !got.Proven || i < 0 || got.Shape[i].Diameter.MM() != row.want {
					t.Errorf("%s: proven %v, %+v; want Ø%v", row.why, got.Proven, got.Shape, row.want)
				}
				row.bore = ""
			}
		}
		if row.bore != "" {
			t.Errorf("%s: the plan has no such visit", row.why)
		}
	}
}
