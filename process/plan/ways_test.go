package plan_test

import (
	. "borewright/process/plan"
	"borewright/process/slow"
	"fmt"
	"strings"
	"testing"
)

// closedJob is a closed bore behind a wall; %s: machine, bar and cutter.
const closedJob = `
units = "mm"
number = "T-9"
revision = "-"
title = "a closed bore"
machine = "%s"
material = "gray-iron-200hb"
station = [
  { name = "front", from = 0, to = 30, diameter = 90 },
  { name = "far", from = 200, to = 260, diameter = 80, blind = true, relief = 2.5 },
]
[[bore]]
station = "far"
repair = "rebore"
finish = { diameter = 81, fit = "H7" }
wear = [{ depth = 230, at = [0, 90, 180, 270], radius = [40.1, 40.12, 40.15, 40.1] }]
[bar]
%s
[cutter]
material = "carbide"
nose_radius = 0.8
most = 90
%s
`

// What stops a bar is answered with what a machinist would do: a longer bar where
// the quill is too thick to follow, and less ahead of the tip where that runs into
// a closed end. By hand: the groove ends at 262.5, the tip goes to 261.41 and 0.5
// is wanted, so 0.59 may stand ahead of it.
func TestObviousWaysOut(t *testing.T) {
	for _, x := range []struct {
		why, machine, bar, cutter string
		free, not                 string
	}{
		{"quill too thick for the front wall", "hbm-4in", "steps = [{ diameter = 60, length = 100 }]\nfeed_by = \"quill\"", "",
			"270.000 mm from the end of the quill to the tip", ""},
		{"pilot into the bottom", "cnc-110mm", "steps = [{ diameter = 50, length = 300 }, { diameter = 50, length = 20 }]\ncutter_at = 300", "least = 55",
			"a bar that ends 0.500 mm ahead of the tip (now 20.000 mm)", "largest plain bar"},
		{"holder into the bottom", "cnc-110mm", "steps = [{ diameter = 60, length = 320 }]", "ahead = 2\nbehind = 40",
			"a cutter that stands 0.500 mm ahead of its tip (now 2.000 mm)", "largest plain bar"},
	} {
		p := Make(load(t, fmt.Sprintf(closedJob, x.machine, x.bar, x.cutter)))
		if p.Feasible || len(p.Reasons) == 0 {
			t.Errorf("%s: feasible %v", x.why, p.Feasible)
			continue
		}
		r := p.Reasons[0]
		if free := freed(p); !strings.Contains(free, x.free) {
			t.Errorf("%s: %q", x.why, free)
		}
		if x.not != "" && (strings.Contains(said(p, r.What), x.not) || !strings.Contains(said(p, r.What), "does not help")) {
			t.Errorf("%s: %q", x.why, said(p, r.What))
		}
	}
}

// A bond that is too hot or too wide is freed by another kind of compound.
func TestOtherCompounds(t *testing.T) {
	stations := `{ name = "mid", from = 60, to = 110, diameter = 66, swept = true, wall = 20, wall_most = 35 }`
	for more, want := range map[string]string{
		"service = [20, 160]": "hot service",
		"gap = 0.2":           "gap filling",
	} {
		p := Make(load(t, fmt.Sprintf(innerJob, stations, "", "")+"hold = \"bond\"\n"+more+"\n"))
		if p.Feasible || !strings.Contains(freed(p), want) {
			t.Errorf("%s: feasible %v, %+v", more, p.Feasible, p.Reasons)
		}
	}
}

// closeJob is a bore to close limits; %v: its high limit, how the cutter is set, and
// limits.
const closeJob = `
units = "mm"
number = "T-9"
revision = "-"
title = "a bore to close limits"
machine = "hbm-5in"
material = "gray-iron-200hb"
station = [ { name = "far", from = 0, to = 60, diameter = 80 } ]
[[bore]]
station = "far"
repair = "rebore"
finish = { low = 81, high = %v }
[bar]
steps = [{ diameter = 60, length = 180 }]
[cutter]
material = "carbide"
nose_radius = 0.4
set_by = "%s"
[limits]
%s
`

// Limits that a way of setting cannot hold are freed by another way, a finer head or a
// finer gauge, and only by what holds them; the advice, taken, plans. What each holds by
// hand, ± on diameter: over the bar 0.013 is drawn anew after the measurement; by the
// dial of an increment 0.008; a fine head 0.0025.
func TestSettingOtherwiseFrees(t *testing.T) {
	rows := []struct {
		high       float64
		by, limits string
		free, not  string
		take       []string // what the advice says to write, old and new
	}{
		{81.024, "over_bar", "temperature = 1", `set_by = "increment"`, "fine head", []string{`set_by = "over_bar"`, `set_by = "increment"`}},
		{81.018, "over_bar", "temperature = 1", "a fine head of 0.002 mm a graduation, to ±0.0025 mm", "±0.008", nil},
		{81.024, "increment", "temperature = 1\ngauge_error = 0.012", "a fine head of 0.002 mm", "over", nil},
		{81.020, "preset", "temperature = 1\ngauge_error = 0.012", "and a bore gauge good to ±0.006 mm", "", nil},
		{81.018, "increment", "temperature = 1\ngauge_error = 0.012\nsetting_error = 0.002", "a bore gauge good to ±0.006 mm (limits.gauge_error)", "set_by", []string{"gauge_error = 0.012", "gauge_error = 0.006"}},
	}
	few := slow.Rounds(t, "ways to set and to gauge", len(rows), 2)
	for i := range few {
		x := rows[i*len(rows)/few]
		text := fmt.Sprintf(closeJob, x.high, x.by, x.limits)
		p := Make(load(t, text))
		if free := freed(p); p.Feasible || !strings.Contains(free, x.free) || x.not != "" && strings.Contains(free, x.not) {
			t.Errorf("%v %s %q: feasible %v, freed by %q", x.high, x.by, x.limits, p.Feasible, free)
		}
		if x.take != nil {
			if q := Make(load(t, strings.Replace(text, x.take[0], x.take[1], 1))); !q.Feasible {
				t.Errorf("%v %s: the advice taken does not plan: %+v", x.high, x.by, q.Reasons)
			}
		}
	}
}
