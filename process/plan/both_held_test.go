package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/marks"
	"borewright/process/plan"
	"borewright/process/slow"
	"borewright/process/turns"
)

// The swing bridge with its bar held at both ends, for each face.
const swingBar = "steps   = [ { diameter = 128, length = 70 }, { diameter = 100, length = 200 } ]\nfeed_by = \"table\""

// inBearing has the bar in an outboard bearing so far from the nose.
func inBearing(t *testing.T, text, at string) string {
	return edited(t, text, swingBar, "steps = [ { diameter = 128, length = 70 }, { diameter = 100, length = 1130 } ]\nfeed_by = \"table\"\ncutter_at = 270\noutboard = { at = "+at+", clearance = 0.03, stiffness = 120 }")
}

// inTwo has a line bar, its bearings so far from the nose.
func inTwo(t *testing.T, text, near, far string) string {
	return edited(t, text, swingBar, "steps = [ { diameter = 100, length = 2200 } ]\nfeed_by = \"table\"\ncutter_at = 1060\ninboard = { at = "+near+", clearance = 0.02, stiffness = 120 }\noutboard = { at = "+far+", clearance = 0.02, stiffness = 120 }")
}

// inWeb has the bar in a bush in the middle web, whichever face is cut.
func inWeb(t *testing.T, text string) string {
	return edited(t, text, swingBar, "steps = [ { diameter = 100, length = 800 } ]\nfeed_by = \"table\"\ncutter_at = 270\noutboard = { station = \"middle web\", clearance = 0.02, stiffness = 80, place_error = 0.03 }",
		"to = 340, diameter = 180", "to = 360, diameter = 140")
}

// inSeat has the bridge seat, bored from the far face, guide the bar for the shore seat, which is
// swept from there as it was found.
func inSeat(t *testing.T, text string) string {
	text = strings.Replace(text, "diameter   = 162.02\n", "", 1)
	return edited(t, text, swingBar, "steps = [ { diameter = 100, length = 1100 } ]\nfeed_by = \"table\"\ncutter_at = 270",
		"station   = \"shore seat\"\nrepair", "station   = \"shore seat\"\nguide     = { station = \"bridge seat\", clearance = 0.02, stiffness = 80 }\nrepair")
}

// unswept is a job by the half turn alone.
func unswept(text string) string {
	from, to := strings.Index(text, "[[sweep]]"), strings.Index(text, "[lineup]")
	return text[:from] + text[to:]
}

// TestBothFacesInBearings: with a bar in an outboard bearing, or in two, each seat is cut as in a job
// that its face has alone: bearings stand on the machine. A bearing stands beyond the casting, 700 mm
// long, as the cut of a seat begins, and the inboard one in front of it as it ends, from each face.
func TestBothFacesInBearings(t *testing.T) {
	text := example(t, "swing-bridge/both.toml")
	for what, bar := range map[string]func(text string) string{
		"in a bearing": func(text string) string { return inBearing(t, text, "1100") },
		"in two":       func(text string) string { return inTwo(t, text, "950", "1900") },
	} {
		if testing.Short() && what == "in two" {
			continue
		}
		two := plan.Attempt(swung(t, bar(text)), nil)
		for i, name := range []string{"near", "far"} {
			one := plan.Attempt(swung(t, bar(example(t, "swing-bridge/"+name+".toml"))), nil)
			if !two.Feasible || !one.Feasible {
				t.Fatal(what, two.Reasons, one.Reasons)
			}
			a, b := two.Bores[i].Visits[0], one.Bores[0].Visits[0]
			if len(a.Passes) != len(b.Passes) || a.Clear != b.Clear || a.End != b.End {
				t.Fatalf("%s, %s face: %d passes from %v to %v, alone %d from %v to %v", what, name, len(a.Passes), a.Clear, a.End, len(b.Passes), b.Clear, b.End)
			}
			for k := range b.Passes {
				// The edge has cut the other seat before, and pushes a little harder.
				if p, q := a.Passes[k], b.Passes[k]; math.Abs(p.Setting.Minus(q.Setting).MM()) > 0.0015 || p.Feed != q.Feed {
					t.Errorf("%s, %s face, pass %d: set %v, alone %v", what, name, k+1, p.Setting, q.Setting)
				}
			}
		}
	}
	// The cut of a seat begins with the tip at its near end, 270 mm from the nose; the far one is let in by 5 mm.
	let := edited(t, text, `{ name = "shore seat", from = 0`, `{ name = "shore seat", from = 5`)
	for _, x := range []struct{ text, says string }{
		{inBearing(t, let, "970"), ""},
		{inBearing(t, let, "969"), `the other face lies at 700 mm, seen from the far face`},
		{inBearing(t, text, "969"), "it must stand at least 970 mm from the nose"},
		{inTwo(t, text, "990", "1900"), ""}, // the tip goes 70 mm deep, 1060 mm from the nose
		{inTwo(t, text, "991", "1900"), "it must stand at most 990 mm from the nose"},
		{inTwo(t, edited(t, text, "to = 60, diameter", "to = 71, diameter"), "990", "1900"), `"bridge seat" begins at 0 mm, seen from the far face`},
		{edited(t, inBearing(t, text, "1100"), "to = 60, diameter = 160.10, wall = 30", "to = 60, blind = true, relief = 3, diameter = 160.10, wall = 30"), `the bar cannot come out to a bearing: "bridge seat" is closed`},
	} {
		_, err := files.Job("both.toml", []byte(x.text), nil)
		if (err == nil) != (x.says == "") || err != nil && (!strings.Contains(err.Error(), x.says) || strings.Count(err.Error(), "\n") > 1) {
			t.Errorf("want %q: %v", x.says, err)
		}
	}
}

// heldBar is a plain bar in nose and bush, of a judge's own: a cantilever on a nose that gives, less
// what the bush holds (superposition; any text on strength of materials), mm and N.
type heldBar struct{ ei, kga, kr, kt, kb float64 }

func barOf(job *process.Job) heldBar {
	steel, d := job.Bar.Steps[0].Material, job.Bar.Steps[0].Diameter.MM()
	return heldBar{
		ei:  steel.E * math.Pi / 64 * math.Pow(d, 4),
		kga: 6 * (1 + steel.Nu) / (7 + 6*steel.Nu) * steel.E / 2 / (1 + steel.Nu) * math.Pi / 4 * d * d,
		kr:  job.Machine.Radial * 1e3, kt: job.Machine.Tilt * 1e9, kb: job.Bar.Outboard.Stiffness * 1e3,
	}
}

// gives is how far the bar goes at p for a unit load at q, without the bush; p ≤ q from the nose.
func (b heldBar) gives(p, q float64) float64 {
	return p*p*(3*q-p)/6/b.ei + p/b.kga + 1/b.kr + p*q/b.kt
}

// follows is how far the cutter, c from the nose, goes with a bush, q from it, that stands aside by 1.
func (b heldBar) follows(c, q float64) float64 { return b.gives(c, q) / (b.gives(q, q) + 1/b.kb) }

// TestBothFacesInABush: in exact geometry, with the spindle where a half turn and a sweep leave it and
// the cutter drawn aside by a bush that stands off the line, the seat that is finished last lies within
// what the plan claims, and within what it claims of the bush. The bush goes with the work: from each
// face it is as far behind the cut as plane geometry has it.
func TestBothFacesInABush(t *testing.T) {
	text := example(t, "swing-bridge/both.toml")
	r := rand.New(rand.NewPCG(18, 10))
	for _, x := range []struct {
		what, text string
		last       int     // bore that is finished last
		bush       float64 // depth of its middle, seen from the face of that bore
		bored      bool    // from the other face
		swept      bool    // from the face of the last bore
	}{
		{"a bush in the web, swept through", inWeb(t, text), 1, 700 - 340, false, true},
		{"a bush in the web, by the half turn alone", unswept(inWeb(t, text)), 1, 700 - 340, false, false},
		{"a bush in the seat of the other face, by the half turn alone", unswept(inSeat(t, text)), 0, 700 - 30, true, false},
	} {
		if testing.Short() && !x.bored {
			continue
		}
		job := swung(t, x.text)
		p := plan.Attempt(job, nil)
		if !p.Feasible {
			t.Fatal(x.what, p.Reasons)
		}
		if turns := p.Turns(); turns[len(turns)-1][0] != x.last {
			t.Fatalf("%s: %v is finished last", x.what, turns)
		}
		v := p.Bores[x.last].Visits[0]
		seen := *p.For(x.last, 0).Job
		bar, o := barOf(&seen), seen.Bar.Outboard
		end := []float64{70, 60}[x.last]
		share := func(depth float64) float64 { return bar.follows(270, 270+x.bush-depth) }
		if most := math.Max(share(0), share(end)); math.Abs(v.Bush.Follows-most) > 1e-4 {
			t.Errorf("%s: the cutter follows %.4f, by a beam of its own %.4f", x.what, v.Bush.Follows, most)
		}
		m := job.Machine
		within := func(most float64) float64 { return most / 1.96 * r.NormFloat64() }
		in, aside, farther := 0, 0, 0
		n := slow.Rounds(t, "castings with a bush", 2000, 500)
		for range n {
			bored := halfTurned(r, casting{along: [3]float64{0, 0, 1}}, 700, 350, m.IndexPlace.MM(), m.IndexAngle)
			claim := v.Axis.MM()
			if x.swept {
				l, after := sweptThrough(t, r, bored, &seen)
				bored, claim = after, l.AxisWithin(seen.Units, "bridge seat", v.Bush.Aside).MM()
			}
			off := within(o.PlaceError.MM())
			if x.bored {
				off += within(m.Runout.MM() / 2)
			}
			play := o.Clearance.MM() / 2 * (2*r.Float64() - 1)
			ok, drawnIn := true, true
			for _, depth := range []float64{0, end} {
				line := bored.off(depth)[0] // of what was bored from the other face, from where the spindle runs
				drawn := share(depth) * (bored.off(x.bush)[0] + off + play)
				ok = ok && math.Abs(drawn-line) <= claim
				if x.bored { // the bush is in what was bored, and the claim is against where the spindle points
					drawnIn = drawnIn && math.Abs(drawn) <= v.Bush.Aside.MM()
				} else {
					drawnIn = drawnIn && math.Abs(share(depth)*(off+play)) <= v.Bush.Aside.MM()
				}
			}
			if ok {
				in++
			}
			if drawnIn {
				aside++
			}
			if d := math.Abs(share(0)*(bored.off(x.bush)[0]+off+play) - bored.off(0)[0]); d > claim/3 {
				farther++
			}
		}
		inShare(t, x.what, in, n, false)
		inShare(t, x.what+", by the bush", aside, n, false)
		if farther < n/20 {
			t.Errorf("%s: only %d of %d castings stand farther off than a third of what is claimed", x.what, farther, n)
		}
		t.Logf("%s: ± %v, bush ± %v aside; %d and %d of %d within", x.what, v.Axis, v.Bush.Aside, in, aside, n)
	}
}

// TestBothFacesGuideInTurn: a bore of one face that carries the bar for one of the other is finished
// before it, through as many half turns as that takes and no more; each bush is fitted after the turn.
func TestBothFacesGuideInTurn(t *testing.T) {
	text := withInner(t, "bridge seat")
	text = edited(t, text, "with      = \"bridge seat\"\n", "")
	at := strings.LastIndex(text, `station   = "bridge seat"`)
	text = text[:at] + edited(t, text[at:], `station   = "bridge seat"`, "station   = \"bridge seat\"\nguide     = { station = \"shore seat\", clearance = 0.02 }")
	text = edited(t, inSeat(t, text), `guide     = { station = "bridge seat"`, `guide     = { station = "inner seat"`)
	p := plan.Attempt(swung(t, text), nil)
	if !p.Feasible {
		t.Fatal(p.Reasons)
	}
	var order []string
	for _, at := range p.Turns() {
		order = append(order, p.Bores[at[0]].Station.Name)
	}
	if want := []string{"inner seat", "shore seat", "bridge seat"}; !slices.Equal(order, want) {
		t.Errorf("cut in the order %v, want %v", order, want)
	}
	kinds := func(bore int) (all []string) {
		for _, f := range p.Bores[bore].Visits[0].Before {
			if kind := string(f.Kind); !strings.HasPrefix(kind, "place.") {
				all = append(all, kind)
			}
		}
		return all
	}
	for bore, want := range map[int][]string{
		0: {"turns.half round", "turns.check", "plan.fit bush", "plan.mind bush"},
		1: {"turns.bush, bar out", "turns.half round", "turns.check", "plan.out of bush", "plan.fit bush", "plan.mind bush"},
		2: nil,
	} {
		if got := kinds(bore); !slices.Equal(got, want) {
			t.Errorf("before %s: %v, want %v", p.Bores[bore].Station.Name, got, want)
		}
	}
	// What each bush hangs on goes on through the chain: the second bush stands where the cutter was drawn to by the first.
	first, second := p.Bores[0].Visits[0].Bush, p.Bores[1].Visits[0].Bush
	if second.Off <= first.Aside || first.Off < p.Job.Machine.IndexPlace {
		t.Errorf("bushes within %v and %v, the first draws the cutter aside by %v", first.Off, second.Off, first.Aside)
	}
}

// TestBothFacesGuideRefused: what no bush can carry is refused, with what to do, and that is taken.
func TestBothFacesGuideRefused(t *testing.T) {
	text := example(t, "swing-bridge/both.toml")
	circle := inSeat(t, text)
	at := strings.LastIndex(circle, `station   = "bridge seat"`)
	circle = circle[:at] + edited(t, circle[at:], `station   = "bridge seat"`, "station   = \"bridge seat\"\nguide     = { station = \"shore seat\" }")
	end := edited(t, inWeb(t, text), "from = 320, to = 360, diameter = 140 }", "from = 320, to = 360, diameter = 180 }", `outboard = { station = "middle web"`, `outboard = { station = "inner web"`)
	end = edited(t, end, "wall = 30 },\n]", "wall = 30 },\n  { name = \"inner web\", face = \"far\", from = 100, to = 130, diameter = 140 },\n]")
	seat := func(bar int) string { // a bar for the bridge seat alone, in a bush in the web
		return edited(t, text, swingBar, fmt.Sprintf("steps = [ { diameter = 100, length = %d } ]\nfeed_by = \"table\"\ncutter_at = 270", bar), "to = 340, diameter = 180", "to = 360, diameter = 140",
			"face      = \"far\"\nrepair", "face      = \"far\"\nguide     = { station = \"middle web\", clearance = 0.02, stiffness = 80 }\nrepair")
	}
	for _, x := range []struct{ text, says, do string }{
		{circle, `the bores guide each other in a circle ("shore seat", then "bridge seat")`, "leave guide out of one of them"},
		{edited(t, inWeb(t, text), `station = "middle web", cl`, `station = "shore seat", cl`), `"shore seat" is bored in this job itself`, "guide = "},
		{edited(t, inSeat(t, text), `to = 60, diameter = 160.10, wall = 30`, `to = 60, blind = true, relief = 3, diameter = 160.10, wall = 30`), `"bridge seat" lies behind "bridge seat", which is closed`, ""},
		{end, `the bar is not all through "inner web" when the cut in "shore seat" begins`, "lengthen the bar beyond the cutter by 80 mm"},
		{edited(t, end, "length = 800", "length = 880"), "", ""},
		// Seen from the far face the web lies 340 to 380 mm deep, and 10 mm in front of the seat the bar is all through it.
		{seat(650), `the bar is not all through "middle web" when the cut in "bridge seat" begins`, "lengthen the bar beyond the cutter by 10 mm"},
		{seat(660), "", ""},
	} {
		_, err := files.Job("both.toml", []byte(x.text), nil)
		if (err == nil) != (x.says == "") || err != nil && (!strings.Contains(err.Error(), x.says) || !strings.Contains(err.Error(), x.do)) {
			t.Errorf("want %q, %q: %v", x.says, x.do, err)
		}
	}
}

// TestBothFacesOwnBarSeenFromItsFace: a bar that a bore names is judged from the face of that bore: the bearing
// beyond the work is refused to one that cannot come out to it through a closed web.
func TestBothFacesOwnBarSeenFromItsFace(t *testing.T) {
	text := example(t, "swing-bridge/both.toml")
	text = text[:strings.LastIndex(text, "[[sweep]]")] + text[strings.Index(text, "[lineup]"):]
	from, to := strings.Index(text, "[bar]"), strings.Index(text, "[cutter]")
	text = edited(t, text[:from]+"[bar]\nname = \"B 100\"\nfeed_by = \"table\"\noutboard = { at = 1100, clearance = 0.03 }\n\n"+text[to:],
		"order  ", "bars = \"list.toml\"\norder  ", "face      = \"far\"\nrepair", "face      = \"far\"\nbar       = \"B 90\"\nrepair")
	const list = "units = \"mm\"\n[[bar]]\nname = \"B 100\"\nsteps = [ { diameter = 100, length = 1200 } ]\ncutter_at = 270\nmost = 200\n" +
		"[[bar]]\nname = \"B 90\"\nsteps = [ { diameter = 90, length = 1200 } ]\ncutter_at = 270\nmost = 200\n"
	for web, refused := range map[string]bool{"from = 320": false, "blind = true, relief = 3, from = 320": true} {
		_, err := files.Job("both.toml", []byte(edited(t, text, "from = 320", web)), func(string) ([]byte, error) { return []byte(list), nil })
		if (err != nil) != refused || refused && (strings.Count(err.Error(), "is closed") != 1 || !strings.Contains(err.Error(), `: bar.outboard: the bar cannot come out to a bearing: "middle web" is closed`)) {
			t.Errorf("%s: %v", web, err)
		}
	}
}

// TestBothFacesEndOfTheBar: from the far face the end of the bar goes no further than the back of what is closed
// there: the web is closed 343 mm from the near face, 357 mm from the far one, and the tip goes 61.5 mm deep.
func TestBothFacesEndOfTheBar(t *testing.T) {
	text := example(t, "swing-bridge/both.toml")
	text = edited(t, text[:strings.LastIndex(text, "[[sweep]]")]+text[strings.Index(text, "[lineup]"):], "from = 320", "blind = true, relief = 3, from = 320")
	for ahead, passes := range map[int]bool{240: true, 290: true, 300: false} {
		bar := fmt.Sprintf("steps = [ { diameter = 128, length = 70 }, { diameter = 100, length = %d } ]\nfeed_by = \"table\"\ncutter_at = 270", 200+ahead)
		p := plan.Attempt(swung(t, edited(t, text, swingBar, bar, "to = 70", "to = 40", "depth = 60", "depth = 35")), nil)
		if r := p.Bores[1].Visits[0].Reach; r == nil || r.Passes() != passes {
			t.Errorf("%d mm of bar beyond the tip: %v", ahead, r)
		}
	}
}

// TestBothFacesSweptTooSoon: a sweep from the other face of a seat at its finished size is refused
// where that face is cut before the seat is finished, and what the refusal says to do is taken.
func TestBothFacesSweptTooSoon(t *testing.T) {
	text := edited(t, example(t, "swing-bridge/both.toml"), `order        = "bore_by_bore"`, `order        = "rough_first"`)
	const sweep = "diameter   = 162.02\n"
	for what, x := range map[string]struct {
		text string
		kind fact.Kind // of what stops it; "": nothing does
	}{
		"roughed first":              {text, turns.TooSoonFirst},
		"as roughed":                 {edited(t, text, sweep, "diameter   = 161.53\n"), ""},
		"as found":                   {edited(t, text, sweep, ""), ""},
		"not swept from there":       {text[:strings.LastIndex(text, "[[sweep]]")] + text[strings.Index(text, "[lineup]"):], ""},
		"finished first":             {edited(t, text, `repair    = "rebore"`, "repair    = \"rebore\"\nfirst     = true"), ""},
		"guided by the other":        {edited(t, inSeat(t, text), "droop      = 0.02", sweep+"droop      = 0.02"), turns.TooSoon},
		"the far one finished first": {edited(t, text, "face      = \"far\"\nrepair", "face      = \"far\"\nfirst     = true\nrepair"), turns.TooSoonFirst},
	} {
		if testing.Short() && x.kind == "" && what != "finished first" {
			continue
		}
		p := plan.Attempt(swung(t, x.text), nil)
		var said []fact.Kind
		for _, r := range p.Reasons {
			said = append(said, r.What.Kind)
		}
		if want := slices.DeleteFunc([]fact.Kind{x.kind}, func(k fact.Kind) bool { return k == "" }); !slices.Equal(said, want) {
			t.Errorf("%s: stopped by %v, want %v", what, said, want)
		}
	}
}

// TestBothFacesSweepAskedForInTime: the bore of the other face that a sweep is asked for of, to know how the
// last face stands to it, is finished when it is asked for: where bores are roughed first no bore is before the
// first cut. Swept then, and written into the job, it is taken.
func TestBothFacesSweepAskedForInTime(t *testing.T) {
	text := example(t, "swing-bridge/both.toml")
	text = text[:strings.LastIndex(text, "[[sweep]]")] + text[strings.Index(text, "[lineup]"):]
	for order, when := range map[string]fact.Kind{"bore_by_bore": turns.BeforeCut, "rough_first": turns.BeforeFinish} {
		p := plan.Attempt(swung(t, edited(t, text, `"bore_by_bore"`, fmt.Sprintf("%q", order))), nil)
		i := slices.IndexFunc(p.Cautions, func(f fact.Fact) bool { return f.Kind == turns.SecondApart || f.Kind == turns.SecondOnly })
		if i < 0 {
			t.Fatalf("%s: no sweep is asked for: %v", order, p.Cautions)
		}
		if got, is := p.Cautions[i].Nth(5).(fact.Fact); !is || got.Kind != when {
			t.Errorf("%s: asked for %v, want %s", order, p.Cautions[i].Nth(5), when)
		}
		if order != "rough_first" {
			continue
		}
		// All is cut but the finish of the shore seat, which is the last.
		var entries []process.Measured
		for _, at := range p.Turns()[:3] {
			v := p.Bores[at[0]].Visits[at[1]]
			last := v.Passes[len(v.Passes)-1]
			entries = append(entries, after(p, at[0], 1, last.N, last.Expected.MM(), 0))
		}
		swept := edited(t, text, `"bore_by_bore"`, `"rough_first"`, "diameter = 160.10, wall = 30 },\n]", "diameter = 160.10, wall = 30, swept = true },\n]", "[lineup]", "[[sweep]]\nstation = \"bridge seat\"\nswept_from = \"near\"\ndepth = 650\ndiameter = 162.02\ndroop = 0.02\nat = [0, 90, 180, 270]\ndial = [0, 0.002, 0.004, 0.001]\n\n[lineup]")
		q := plan.MakeAfter(swung(t, swept), results(entries...))
		if !q.Feasible || !slices.ContainsFunc(q.Cautions, func(f fact.Fact) bool { return f.Kind == turns.SecondSwept }) {
			t.Errorf("with the sweep: feasible %v, %v, %v", q.Feasible, q.Reasons, q.Cautions)
		}
	}
}

// TestBothFacesOneMark: entries of a cut carry one mark of how the bar was held, whatever face the job is
// seen from: what was learned from one face holds for the other.
func TestBothFacesOneMark(t *testing.T) {
	text := example(t, "swing-bridge/both.toml")
	for what, x := range map[string]string{"bearing": inBearing(t, text, "1100"), "web": inWeb(t, text), "seat": inSeat(t, text)} {
		job := swung(t, x)
		for bore := range job.Bores {
			tools := job.ToolsOf(bore, false)
			own := marks.Tooling(job.Using(tools))
			for _, f := range []process.Face{process.NearFace, process.FarFace} {
				if seen := marks.Tooling(faces.Seen(job, f).Using(tools)); seen != own {
					t.Errorf("%s, bore %d: %s from the %s face, %s from neither", what, bore+1, seen, f, own)
				}
			}
		}
	}
}
