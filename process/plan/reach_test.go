package plan_test

import (
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/files"
	"borewright/process/place"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/setup"
	"borewright/process/slow"
)

// seatJob is a seat behind a cover, reached by a bar of two steps.
const seatJob = `units    = "in"
number   = "T-5"
revision = "A"
title    = "Test job"
machine  = "hbm-5in"
material = "gray-iron-200hb"
station = [
  { name = "cover", from = 0.0, to = 1.0, diameter = 4.75 },
  { name = "seat", from = 6.0, to = 7.25, diameter = 3.546 },
]
[[bore]]
station = "seat"
repair  = "rebore"
finish  = { diameter = 3.625, fit = "H7" }
wear    = [ { depth = 6.2, at = [0, 90, 180, 270], radius = [1.773, 1.7765, 1.782, 1.7755] } ]
[bar]
steps   = [ { diameter = 3.5, length = 2.0 }, { diameter = 2.5, length = 7.5 } ]
feed_by = "table"
[cutter]
material    = "carbide"
nose_radius = 0.031
least = 1
most = 9
[lineup]
coaxial = 0
`

// blindJob is a blind bore behind a pocket and a wall, sleeved.
const blindJob = `units    = "mm"
number   = "T-6"
revision = "B"
title    = "Test job with a sleeve"
machine  = "cnc-110mm"
material = "gray-iron-200hb"
station = [
  { name = "pocket", from = 0, to = 35, diameter = 110 },
  { name = "wall", from = 184, to = 219, diameter = 100 },
  { name = "idler", from = 368, to = 428, diameter = 80.1, blind = true, relief = 2, wall = 19, wall_most = 32 },
]
[[bore]]
station = "idler"
repair  = "sleeve"
finish  = { diameter = 80, fit = "H7" }
wear    = [ { depth = 376, at = [0, 90, 180, 270], radius = [40.08, 40.36, 40.13, 40.06] } ]
[bar]
steps   = [ { diameter = 108, length = 60 }, { diameter = 57, length = 445 } ]
[cutter]
material    = "carbide"
nose_radius = 0.8
least = 40
most = 140
[sleeve]
material = "steel-1026"
outside  = 86
`

func edited(t *testing.T, text string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(text, pairs[i]) {
			t.Fatalf("no %q to replace", pairs[i])
		}
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// A bar that does not pass makes the plan not feasible, says which part meets
// what, and what would pass.
func TestBarsThatDoNotPass(t *testing.T) {
	rows := []struct {
		why, job string
		edits    []string
		want     string
	}{
		{"too fat for the wall", blindJob, []string{"diameter = 57", "diameter = 101"}, "step 2, Ø101.000 mm, does not pass wall"},
		{"the adapter follows too deep", blindJob, []string{"{ diameter = 108, length = 60 }, { diameter = 57, length = 445 }", "{ diameter = 108, length = 305 }, { diameter = 57, length = 200 }"}, "step 1, Ø108.000 mm, does not pass wall"},
		{"too fat once the sleeve is in", blindJob, []string{"diameter = 57", "diameter = 79.8"}, "bore the sleeve to size in place: the bar does not pass: step 2, Ø79.800 mm,"},
		{"the end strikes the bottom", blindJob, []string{"length = 445 } ]", "length = 445 } ]\ncutter_at = 490"}, "into the bottom of idler"},
		{"no room for chips", blindJob, []string{"diameter = 57", "diameter = 77.5"}, "on radius in idler; at least 1.500 mm is wanted"},
		{"too short: the nose meets the face", seatJob, []string{"length = 7.5", "length = 5.2"}, "spindle nose, Ø9.2500 in"},
		{"a nose that follows without room", seatJob, []string{"diameter = 4.75", "diameter = 9.28", "length = 7.5", "length = 3.0"}, "spindle nose, Ø9.2500 in"},
		{"the quill comes out too far", seatJob, []string{"{ diameter = 3.5, length = 2.0 }, { diameter = 2.5, length = 7.5 }", "{ diameter = 5.0, length = 34 }, { diameter = 2.5, length = 7.5 }", `feed_by = "table"`, "feed_by = \"quill\"\nstandoff = 37"}, "the quill would have to come out"},
		{"the tip stands inside with the quill home", seatJob, []string{`feed_by = "table"`, "feed_by = \"quill\"\nstandoff = 1.5"}, "the tip already stands past where feed begins"},
		{"the quill follows too deep", seatJob, []string{"{ diameter = 3.5, length = 2.0 }, { diameter = 2.5, length = 7.5 }", "{ diameter = 2.5, length = 4.5 }", `feed_by = "table"`, `feed_by = "quill"`}, "quill, Ø5.0000 in, does not pass cover"},
	}
	for i, row := range rows {
		if i%2 != 0 && testing.Short() { // each second of them, with a wall, a nose and a quill in the way
			continue
		}
		t.Run(row.why, func(t *testing.T) {
			p := Attempt(load(t, edited(t, row.job, row.edits...)), nil)
			if p.Feasible || p.Passes() {
				t.Fatal("passes")
			}
			var all []string
			for _, r := range p.Reasons {
				all = append(all, said(p, r.What))
				if strings.Contains(said(p, r.What), "does not pass:") && !strings.HasPrefix(r.Where, "job.toml:") {
					t.Errorf("no place: %+v", r)
				}
			}
			said := strings.Join(all, "\n")
			if !strings.Contains(said, row.want) {
				t.Errorf("want %q in:\n%s", row.want, said)
			}
			if !strings.Contains(said, "largest plain bar that passes is Ø") || !strings.Contains(said, "shortest stickout to the tip") {
				t.Errorf("it does not say what would pass:\n%s", said)
			}
		})
	}
	for why, text := range map[string]string{"a nose thinner than every bore it meets": edited(t, seatJob, "diameter = 4.75", "diameter = 14", "length = 7.5", "length = 3.0"), "as it is": seatJob} {
		if p := Attempt(load(t, text), nil); !p.Passes() {
			t.Errorf("%s: %v", why, p.Reasons)
		}
	}
}

// What would pass, by hand: the bore as found less chips' room on both sides
// and twice the sag; and the nose a millimetre in front of the face when the
// tip is at the end of its feed. A bar of that size passes. It enters behind the
// tip, where the first cut has opened the bore; one thicker by more than that
// does not.
func TestWhatWouldPass(t *testing.T) {
	job := load(t, seatJob)
	p := Attempt(job, nil)
	r := p.Bores[0].Visits[0].Reach
	s, err := setup.New(job)
	if err != nil {
		t.Fatal(err)
	}
	want := 3.546*25.4 - 2*(0.06*25.4+math.Abs(s.Droop(0)))
	if got := r.Largest.MM(); math.Abs(got-want) > 0.003 {
		t.Errorf("largest Ø%.4f mm, want %.4f", got, want)
	}
	if got, want := r.Shortest.MM(), p.Bores[0].Visits[0].End.MM()+1; math.Abs(got-want) > 0.003 {
		t.Errorf("shortest %.4f mm, want %.4f", got, want)
	}
	opened := p.Bores[0].Visits[0].Passes[0].Setting.Minus(p.Bores[0].Visits[0].Start)
	for add, passes := range map[qty.Length]bool{-25 * qty.Micrometre: true, opened + 50*qty.Micrometre: false} {
		j := WithBar(job, func(st []process.Step) bool { st[1].Diameter = r.Largest.Plus(add); return true })
		if got := Attempt(j, nil).Passes(); got != passes {
			t.Errorf("a bar of %v passes: %v", r.Largest.Plus(add).MM(), got)
		}
	}
	// Travel, by hand: from 50 mm in front of the face to the end of the feed.
	if got, want := r.Travel, p.Bores[0].Visits[0].End+50*qty.Millimetre; got != want || r.TravelAxis != "W" || r.TravelHas != 60*qty.Inch {
		t.Errorf("travel %v of %v on %s", got.MM(), r.TravelHas.MM(), r.TravelAxis)
	}
	short := *job.Machine
	short.Travels = append([]process.Travel(nil), job.Machine.Travels...)
	for i := range short.Travels {
		if short.Travels[i].Axis == 'W' {
			short.Travels[i].Travel = 5 * qty.Inch
		}
	}
	j := *job
	j.Machine = &short
	if q := Attempt(&j, nil); q.Passes() || !strings.Contains(said(q, q.Reasons[0].What), "would have to travel") {
		t.Errorf("5 in of travel: %v", q.Reasons)
	}
}

// A cutter set larger than a bore on the way: on a manual mill the sheet says
// how it goes in; a program of ours does not do it.
func TestCutterLargerThanTheWayIn(t *testing.T) {
	// 92.1 through 91: a thin bar shifts off the axis.
	off := edited(t, seatJob, "diameter = 4.75", "diameter = 3.58", "diameter = 2.5, length = 7.5", "diameter = 1.75, length = 7.5", "coaxial = 0", "coaxial = 0\n[limits]\nspring_rough = 0.02\nspring_finish = 0.01\nforce_error = 0.05")
	p := Attempt(load(t, off), nil)
	v := p.Bores[0].Visits[0]
	e := v.Reach.Entries[len(v.Reach.Entries)-1]
	if e.OnAxis || !e.Offset || e.Name != "cover" || len(v.Before) == 0 || !strings.Contains(said(p, v.Before[len(v.Before)-1]), "goes in off the axis") || v.SetInside {
		t.Errorf("%+v\n%q", e, v.Before)
	}
	// Too small for that, and a hand's breadth open behind it.
	in := edited(t, off, "diameter = 3.58", "diameter = 2.4")
	p = Attempt(load(t, in), nil)
	v = p.Bores[0].Visits[0]
	if e = v.Reach.Entries[len(v.Reach.Entries)-1]; e.Offset || !e.Inside || !v.SetInside {
		t.Errorf("%+v", e)
	}
	// No hand gets in where the wall stands close to the seat.
	none := edited(t, in, "to = 1.0", "to = 5.0")
	if p = Attempt(load(t, none), nil); p.Passes() {
		t.Error("passes with 1 in open")
	}
	prog := edited(t, in, "hbm-5in", "cnc-110mm")
	if p = Attempt(load(t, prog), nil); p.Feasible || !strings.Contains(said(p, p.Reasons[0].What), "plan it on a mill without control") {
		t.Errorf("%v", p.Reasons)
	}
}

// What was swept of a bore on the way is taken into the clearance: it stands
// off the line that the bar turns on.
func TestAccessBoreOffTheLine(t *testing.T) {
	with := func(dial string) *place.Reach {
		text := edited(t, seatJob, `diameter = 4.75`, `diameter = 4.75, swept = true`, `diameter = 3.546`, `diameter = 3.546, swept = true`, "coaxial = 0", "coaxial = 0.002") + `
[[sweep]]
station = "cover"
depth = 0.5
at = [0, 90, 180, 270]
dial = ` + dial + `
[[sweep]]
station = "seat"
depth = 6.5
at = [0, 90, 180, 270]
dial = [0, 0, 0, 0]
[[sweep]]
station = "seat"
depth = 7.0
at = [0, 90, 180, 270]
dial = [0, 0, 0, 0]
`
		p := Attempt(load(t, text), nil)
		if p.LineUp == nil {
			t.Fatal(p.Cautions)
		}
		return p.Bores[0].Visits[0].Reach
	}
	gap := func(r *place.Reach) float64 {
		for _, g := range r.Gaps {
			if g.Part == clearance.StepPart(1) && g.Name == "cover" {
				return g.Clearance
			}
		}
		t.Fatal("no gap")
		return 0
	}
	if a, b := gap(with("[0, 0, 0, 0]")), gap(with("[0, 0.03, 0, -0.03]")); a-b < 0.254 {
		t.Errorf("room in the cover %.4f in, and %.4f in when it stands 0.030 in off", a/25.4, b/25.4)
	}
}

// A bar that runs in an outboard bearing goes through every lug, so the
// narrowest of all bounds it, whichever is bored; and no way in by a shift is
// told of it.
func TestOutboardBar(t *testing.T) {
	p := Attempt(shipped(t, "ferry-ramp/job.toml"), nil)
	for _, b := range p.Bores {
		r := b.Visits[0].Reach
		if most := qty.Diameter(qty.FromInches(4.008 - 2*0.06)); r.Largest >= most || r.Largest < most-qty.Diameter(10*qty.Thou) {
			t.Errorf("%s: largest Ø%.4f in", b.Station.Name, r.Largest.Length().Inches())
		}
		for _, e := range r.Entries {
			if e.Offset || !e.OnAxis && !e.Inside {
				t.Errorf("%s: %+v", b.Station.Name, e)
			}
		}
		if r.Travel > 20*qty.Inch || r.Travel < b.Visits[0].End {
			t.Errorf("%s: travel %.3f in", b.Station.Name, r.Travel.Inches())
		}
	}
}

// The shop's bars: the stiffest that passes and sets comes first, and trying
// each by itself gives the same verdict.
func TestChoose(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/lock-winch/bars.toml")
	if err != nil {
		t.Fatal(err)
	}
	list, err := files.Bars("bars.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	bars := list.Bars
	p := made(t, "lock-winch/manual.toml")
	choices, err := p.Choose(bars)
	if err != nil || len(choices) != len(bars) {
		t.Fatalf("%v, %d", err, len(choices))
	}
	rankOf := func(c place.Choice) int {
		switch {
		case !c.Passes():
			return 0
		case !c.Sets:
			return 1
		case c.Verdict == clearance.Tight:
			return 2
		}
		return 3
	}
	rank := 3
	for i, c := range choices {
		if rankOf(c) > rank {
			t.Errorf("%s stands behind what is worse", c.Name)
		}
		if i > 0 && rankOf(choices[i-1]) == rankOf(c) && c.Compliance < choices[i-1].Compliance {
			t.Errorf("%s is stiffer and stands behind", c.Name)
		}
		rank = rankOf(c)
		if !c.Passes() && c.Why.None() {
			t.Errorf("%s: no word why", c.Name)
		}
	}
	if choices[0].Name != "no. 4, 3 in" || !choices[0].Passes() || choices[len(choices)-1].Passes() {
		t.Errorf("%+v", choices)
	}
	// Whatever order the list is in.
	slices.Reverse(bars)
	again, err := p.Choose(bars)
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range again {
		if c.Name != choices[i].Name {
			t.Errorf("place %d: %s; from the list turned round %s", i, choices[i].Name, c.Name)
		}
	}
}

// The bar follows as far as the last station that is bored; what lies beyond
// narrows nothing, unless the bar goes on to a bearing.
func TestNarrowest(t *testing.T) {
	mm := qty.DiameterMM
	job := &process.Job{Stations: []process.Station{{Diameter: mm(120)}, {Diameter: mm(90)}, {Diameter: mm(60)}}}
	for last, want := range []float64{120, 90, 60} {
		job.Bores = []process.Bore{{Station: last}, {Station: 0}}
		if got := Narrowest(job); got != mm(want) {
			t.Errorf("bored to station %d: %v, want %g mm", last, got, want)
		}
	}
	job.Bores, job.Bar.Outboard = job.Bores[1:], &process.Support{}
	if got := Narrowest(job); got != mm(60) {
		t.Errorf("to an outboard bearing: %v", got)
	}
}

// A bar that does not pass is freed by one that does, from the shop or built
// anew, each planned again.
func TestWaysOutOfReach(t *testing.T) {
	t.Parallel()
	slow.Test(t, "every change of a refused job")
	job := load(t, edited(t, seatJob, "diameter = 2.5, length = 7.5", "diameter = 3.5, length = 5.0"))
	job.Shop = []process.ShopBar{{Bar: load(t, seatJob).Bar, Least: 1, Most: qty.Diameter(9 * qty.Inch)}}
	job.Shop[0].Name = "no. 9"
	p := Make(job)
	if p.Feasible {
		t.Fatal("passes")
	}
	free := freed(p)
	if !strings.Contains(free, `the shop's bar "no. 9"`) || !strings.Contains(free, "at most,") {
		t.Errorf("ways out: %s", free)
	}
}

// A quill that cannot bring the tip out to be set is freed by what the reason
// names: the nose further off, or the table.
func TestWaysOutOfTheQuill(t *testing.T) {
	t.Parallel()
	slow.Test(t, "what would free a job of three bores is searched")
	job := shipped(t, "gear-case/job.toml")
	job.Bar.FeedBy, job.Bar.Standoff, job.Bores = process.QuillFeed, 200*qty.Millimetre, job.Bores[:1]
	p := Make(job)
	if p.Feasible || !strings.Contains(said(p, p.Reasons[0].What), "with the quill home") {
		t.Fatalf("%+v", p.Reasons)
	}
	if free := freed(p); !strings.Contains(free, "fed by the table (") || !strings.Contains(free, "(bar.standoff = ") {
		t.Errorf("ways out: %s", free)
	}
}

// On a mill without a control too the nose is stood further off, where with the quill home the
// tip is past where feed begins: as far as the reason says is enough, and the way says a length
// that is round.
func TestWaysOutOfTheNoseTooNear(t *testing.T) {
	t.Parallel()
	slow.Test(t, "what would free a job is searched")
	at := func(standoff string) *Plan {
		return Make(load(t, edited(t, seatJob, `feed_by = "table"`, `feed_by = "quill"`+"\nstandoff = "+standoff)))
	}
	// the tip 9.5 in from the nose stands at depth 8.1766 in with the quill home, and feed
	// begins 0.125 in in front of the seat, at 5.875 in: 2.3016 in nearer
	p := at("1.3234")
	if p.Feasible || !strings.Contains(said(p, p.Reasons[0].What), "stand the nose 2.3016 in further off") {
		t.Fatalf("feasible %v: %s", p.Feasible, said(p, p.Reasons[0].What))
	}
	if free := freed(p); !strings.Contains(free, "bar.standoff = 3.625)") {
		t.Errorf("ways out: %s", free)
	}
	for _, off := range []string{"3.625", "3.6250", "\"92.075 mm\""} {
		if p := at(off); !p.Feasible {
			t.Errorf("%s in from the face, as it was said: %s", off, said(p, p.Reasons[0].What))
		}
	}
}

// On a mill with a control one standoff answers for both: that a program brings the tip out of the
// work, and that the feed begins in front of the bore. It is told once, and it is enough.
func TestStandoffIsToldOnce(t *testing.T) {
	at := func(standoff string) *Plan {
		return Attempt(load(t, edited(t, seatJob, "hbm-5in", "cnc-110mm", `feed_by = "table"`, `feed_by = "quill"`+"\nstandoff = "+standoff)), nil)
	}
	p := at("1.3234")
	if len(p.Reasons) != 1 {
		t.Fatalf("%d reasons: %+v", len(p.Reasons), p.Reasons)
	}
	told := regexp.MustCompile(`state a standoff of ([0-9.]+) in or more`).FindStringSubmatch(said(p, p.Reasons[0].What))
	if told == nil {
		t.Fatal(said(p, p.Reasons[0].What))
	}
	if p = at(told[1]); !p.Passes() {
		t.Errorf("%s in from the face, as it was said: %s", told[1], said(p, p.Reasons[0].What))
	}
}

// A plan counts the way in off the axis once in each pass, and where the cutter passes on
// the axis not at all. By hand, of a pass that is shifted off the wall: the cut, back at
// 1500 mm/min, 0.2 min for the stop, 0.3 to begin, and 0.4 for the way in.
func TestWayInIsCountedOnce(t *testing.T) {
	for name, in := range map[string]float64{"slip-winch": 0.4, "gear-case": 0} {
		data, err := os.ReadFile("../../testdata/jobs/" + name + "/job.toml")
		if err != nil {
			t.Fatal(err)
		}
		job, err := files.Job("job.toml", data, nil)
		if err != nil {
			t.Fatal(err)
		}
		v := Make(job).Bores[0].Visits[0]
		if v.WayIn != in || in > 0 != (v.OffAxis != nil) {
			t.Errorf("%s: %v min, off the axis %v", name, v.WayIn, v.OffAxis)
		}
		if in == 0 {
			continue
		}
		for _, q := range v.Passes {
			if q.Band != nil || q.Out.By != process.ShiftOut {
				continue
			}
			travel := (v.End - v.Clear).MM()
			want := travel/(q.Feed.MM()*float64(q.Speed)) + travel/1500 + 2*v.Clear.MM()/1500 + 0.2 + 0.3 + in
			if math.Abs(q.Minutes-want) > 0.02 {
				t.Errorf("%s, pass %d: %.3f min, by hand %.3f", name, q.N, q.Minutes, want)
			}
		}
	}
}
