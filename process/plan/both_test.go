package plan_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/turns"
)

// swingSleeve gives the bridge seat of a swing bridge a sleeve.
func swingSleeve(t *testing.T, text string) string {
	t.Helper()
	at := strings.LastIndex(text, "[[bore]]")
	return text[:at] + edited(t, text[at:],
		`"rebore"`, `"sleeve"`, "diameter = 162", "diameter = 160", "[bar]", "[sleeve]\nmaterial = \"leaded-bronze\"\noutside = 176\nfit = \"H7/s6\"\n\n[bar]", "= 165", "= 180")
}

// swung is a job of a text, with a list of bars and cutters beside it, as it is planned.
func swung(t *testing.T, text string) *process.Job {
	t.Helper()
	job, err := plan.Tooled(files.Job("both.toml", []byte(text), func(string) ([]byte, error) {
		return []byte(`units = "mm"
[[bar]]
name  = "thick"
steps = [ { diameter = 128, length = 70 }, { diameter = 100, length = 200 } ]
most  = 200
[[bar]]
name  = "long"
steps = [ { diameter = 128, length = 70 }, { diameter = 90, length = 250 } ]
most  = 190
[[bar]]
name  = "drawn"
steps = [ { diameter = 128, length = 70 }, { diameter = 90, length = 250 } ]
most  = 190
stickout = [100, 320]
[[bar]]
name  = "needle"
steps = [ { diameter = 128, length = 70 }, { diameter = 18, length = 250 } ]
most  = 190
[[bar]]
name  = "short"
steps = [ { diameter = 128, length = 40 } ]
most  = 200
[[cutter]]
name        = "C1"
material    = "carbide-coated"
nose_radius = 0.8
lead        = 75
[[cutter]]
name        = "C2"
material    = "carbide-coated"
nose_radius = 0.4
lead        = 90
`), nil
	}))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// TestBothFacesWithASleeve: a sleeve of the far face is cut, turned and bored as in a job that the
// far face has alone, measured or not; it stands out of its housing where nothing is beside it, seen from there.
func TestBothFacesWithASleeve(t *testing.T) {
	ledIn := func(name string) string {
		return edited(t, swingSleeve(t, example(t, name)), "outside = 176", "outside = 176\nmouth = { angle = 20, length = 1.5 }")
	}
	text := ledIn("swing-bridge/both.toml")
	two := plan.Make(swung(t, text))
	one := plan.Make(swung(t, ledIn("swing-bridge/far.toml")))
	if !two.Feasible || !one.Feasible {
		t.Fatal(two.Reasons, one.Reasons)
	}
	a, b := two.Bores[1], one.Bores[0]
	if len(a.Visits) != 2 || len(b.Visits) != 2 {
		t.Fatalf("%d and %d visits, want housing and inside", len(a.Visits), len(b.Visits))
	}
	for v := range b.Visits {
		x, y := a.Visits[v], b.Visits[v]
		if len(x.Passes) != len(y.Passes) || x.Limits != y.Limits || x.Clear != y.Clear || x.To != y.To || !slices.Equal(x.Mouth, y.Mouth) {
			t.Fatalf("visit %d: %d passes to %v, alone %d to %v", v+1, len(x.Passes), x.Limits, len(y.Passes), y.Limits)
		}
		for k := range y.Passes {
			// Its edge has cut the shore seat before, and pushes a little harder.
			if p, q := x.Passes[k], y.Passes[k]; math.Abs(p.Setting.Minus(q.Setting).MM()) > 0.0015 || p.Feed != q.Feed {
				t.Errorf("visit %d, pass %d: set %v, alone %v", v+1, k+1, p.Setting, q.Setting)
			}
		}
	}
	if a.Sleeve.Turned != b.Sleeve.Turned || a.Sleeve.InPlace != b.Sleeve.InPlace || a.Sleeve.Closure != b.Sleeve.Closure {
		t.Errorf("the sleeve is turned to %v, alone %v", a.Sleeve.Turned, b.Sleeve.Turned)
	}
	// Measured, and on the way: the housing's last pass but one came out as planned. What is left of
	// the visit is that of the job of the far face, as one entry more is reckoned beside a hold and as
	// the whole job is planned anew.
	n := len(b.Visits[0].Passes) - 2
	find := func(p *plan.Plan, bore int) process.Measured {
		return after(p, bore, 1, p.Bores[bore].Visits[0].Passes[n].N, b.Visits[0].Passes[n].Expected.MM(), 0)
	}
	first := two.Bores[0].Visits[0].Passes
	shore := after(two, 0, 1, first[len(first)-1].N, first[len(first)-1].Expected.MM(), 0)
	alone := plan.MakeAfter(one.Job, results(find(one, 0)))
	both := plan.MakeAfter(two.Job, results(shore, find(two, 1)))
	if !alone.Feasible || !both.Feasible {
		t.Fatal(alone.Reasons, both.Reasons)
	}
	beside := two.Resume(1, 0)(find(two, 1))
	if beside == nil {
		t.Fatal("beside the hold: no way on")
	}
	want := alone.Bores[0].Visits
	const anew = "planned anew"
	for what, got := range map[string][]plan.Visit{anew: both.Bores[0].Visits, "beside the hold": {*beside}} {
		for v := range got {
			x, y := got[v], want[v]
			if len(x.Passes) != len(y.Passes) || x.N != y.N || x.Limits != y.Limits || x.Clear != y.Clear || x.To != y.To || what == anew && !slices.Equal(x.Mouth, y.Mouth) { // what comes behind the last pass no hold asks for
				t.Fatalf("%s, visit %d: %d passes to %v, from %v to %v, at the mouth %v; alone %d to %v, from %v to %v, at the mouth %v", what, v+1, len(x.Passes), x.Limits, x.Clear, x.To, x.Mouth, len(y.Passes), y.Limits, y.Clear, y.To, y.Mouth)
			}
			for k := range y.Passes {
				if p, q := x.Passes[k], y.Passes[k]; p.N != q.N || math.Abs(p.Setting.Minus(q.Setting).MM()) > 0.0015 || p.Feed != q.Feed {
					t.Errorf("%s, visit %d: pass %d set %v, alone %d set %v", what, v+1, p.N, p.Setting, q.N, q.Setting)
				}
			}
		}
	}
	// A flange at the far end, as its face has it, cannot go in from behind where the near side is closed.
	shut := edited(t, text, `face = "near", from = 320, to = 340`, `face = "near", blind = true, relief = 3, from = 320, to = 340`,
		"outside = 176", "outside = 176\nstop = { by = \"flange\", end = \"far\", diameter = 190, thickness = 7 }")
	at := strings.LastIndex(shut, "[[sweep]]") // from the far face the shore seat is not seen
	shut = shut[:at] + shut[strings.Index(shut, "[lineup]"):]
	p := plan.Attempt(swung(t, shut), nil)
	if p.Feasible {
		t.Fatal("a flange goes in through a closed end")
	}
	if says := said(p, p.Reasons[0].What); !strings.Contains(says, `"middle web" is closed; put the flange at the near end`) {
		t.Errorf("a flange behind a closed end: %s", says)
	}
	for out, says := range map[string]string{"[0, 200]": "", "[0, 320]": `at the far end it would stand in "middle web"`} {
		_, err := files.Job("both.toml", []byte(edited(t, text, "outside = 176", "outside = 176\nstands_out = "+out)), nil)
		if (err == nil) != (says == "") || err != nil && !strings.Contains(err.Error(), says) {
			t.Errorf("stands_out = %s: %v", out, err)
		}
	}
}

// TestBothFacesChoose: bar and cutter of a job of both faces are chosen, for all bores or for each,
// and so is how far a bar stands out; what is chosen reaches from each face, and a bar that is too
// short for its seat is not. A bore has its own.
func TestBothFacesChoose(t *testing.T) {
	text := swingSleeve(t, example(t, "swing-bridge/both.toml"))
	open := text[:strings.Index(text, "[bar]")] + text[strings.Index(text, "[[sweep]]"):]
	list := func(keys string) string {
		return edited(t, open, "order  ", "bars = \"list.toml\"\n"+keys+"\norder  ")
	}
	for what, x := range map[string]string{
		"one for all":  list(""),
		"by bore":      list(`choose = "by_bore"`),
		"a bore's own": edited(t, list("bar.name = \"thick\"\ncutter.name = \"C1\""), "face      = \"far\"", "face      = \"far\"\nbar       = \"long\"\ncutter    = \"C2\""),
		"its stickout": edited(t, list("bar.name = \"thick\"\ncutter.name = \"C1\""), "face      = \"far\"", "face      = \"far\"\nbar       = \"drawn\"\ncutter    = \"C2\""),
		"stickout":     edited(t, text, "[bar]\n", "[bar]\nstickout = [100, 400]\n"),
	} {
		if testing.Short() && what != "a bore's own" {
			continue
		}
		job := swung(t, x)
		p := plan.Make(job)
		if !p.Feasible {
			t.Errorf("%s: %v", what, p.Reasons)
			continue
		}
		for i := range p.Bores {
			// The tip goes to the end of the seat: 70 mm and 60 mm deep, whichever face is in use.
			if q := p.For(i, 0); q.Job.Bar.CutterAt.MM() < []float64{70, 60}[i] {
				t.Errorf("%s: the tip stands %v out and does not get to the end of %s", what, q.Job.Bar.CutterAt, p.Bores[i].Station.Name)
			}
		}
		switch own := p.For(1, 0).Job; {
		case what == "a bore's own" && (own.Bar.Name != "long" || own.Cutter.Name != "C2" || p.For(0, 0).Job.Bar.Name != "thick"):
			t.Errorf("the bridge seat is cut with %s and %s, the shore seat with %s", own.Bar.Name, own.Cutter.Name, p.For(0, 0).Job.Bar.Name)
		case strings.HasSuffix(what, "stickout") && len(job.Stickouts) < 2:
			t.Errorf("of %d stickouts was chosen", len(job.Stickouts))
		}
	}
}

// TestBothFacesNarrowShore: a sleeve of the far face, behind which the line is narrow: no bar gets to it from the
// near face. Its inside, cut in place, is there after its housing, and so is what is left of it beside a hold.
func TestBothFacesNarrowShore(t *testing.T) {
	text := edited(t, swingSleeve(t, example(t, "swing-bridge/both.toml")),
		"{ name = \"shore seat\", from = 0, to = 70, diameter = 160.10", "{ name = \"shore seat\", from = 0, to = 70, diameter = 104.10", "diameter = 162, fit", "diameter = 106, fit",
		"[80.06, 80.08, 80.15, 80.21, 80.16, 80.07]", "[52.06, 52.08, 52.15, 52.21, 52.16, 52.07]", "[80.05, 80.07, 80.12, 80.18, 80.13, 80.06]", "[52.05, 52.07, 52.12, 52.18, 52.13, 52.06]",
		"diameter   = 162.02", "diameter   = 106.01", "order  ", "bars = \"list.toml\"\norder  ", "face      = \"far\"", "face      = \"far\"\nbar       = \"thick\"",
		"{ diameter = 128, length = 70 }, { diameter = 100, length = 200 }", "{ diameter = 80, length = 220 }", "most        = 180", "most        = 125")
	p := plan.Attempt(swung(t, text), nil)
	if !p.Feasible || len(p.Bores[1].Visits) != 2 {
		t.Fatalf("%d visits to the bridge seat: %v", len(p.Bores[1].Visits), p.Reasons)
	}
	done := func(bore int) process.Measured {
		all := p.Bores[bore].Visits[0].Passes
		last := all[len(all)-1]
		return after(p, bore, 1, last.N, last.Expected.MM(), 0)
	}
	first := p.Bores[1].Visits[1].Passes[0]
	q := plan.MakeAfter(p.Job, results(done(0), done(1)))
	if !q.Feasible || len(q.Bores) != 1 || len(q.Bores[0].Visits) != 1 {
		t.Fatalf("behind the housing: %v", q.Reasons)
	}
	left := q.Resume(0, 0)(after(p, 1, 2, first.N, first.Expected.MM(), 0))
	if n := len(p.Bores[1].Visits[1].Passes) - 1; left == nil || left.N != 2 || len(left.Passes) != n {
		t.Errorf("beside the hold after the first pass inside: %v, want %d passes more", left, n)
	}
	// The visits that an entry is learned by are those of the far face, too: a bar that went in from neither face
	// would not get past the shore seat, and the sleeve would be one without a second visit.
	if q := plan.MakeAfter(p.Job, results(done(0), done(1), after(p, 1, 2, first.N, first.Expected.MM(), 0))); !q.Feasible || len(q.Bores) != 1 || len(q.Bores[0].Visits[0].Passes) != len(left.Passes) {
		t.Errorf("behind the first pass inside: %v", q.Reasons)
	}
}

// TestBothFacesToldOnce: bars are judged from the face that they cut from, and from no other: what is wrong
// with one, and what is to be minded of it, is said once.
func TestBothFacesToldOnce(t *testing.T) {
	text := example(t, "swing-bridge/both.toml")
	text = edited(t, text[:strings.Index(text, "[bar]")]+text[strings.Index(text, "[[sweep]]"):], "order  ", "bars = \"list.toml\"\nbar.name = \"thick\"\ncutter.name = \"C1\"\norder  ",
		"face      = \"far\"", "face      = \"far\"\nbar       = \"needle\"")
	p := plan.Attempt(swung(t, text), nil)
	said := 0
	for _, r := range p.Reasons {
		if r.What.Kind == plan.BarTooLong {
			said++
		}
	}
	if said != 1 {
		t.Errorf("a bar of fourteen diameters for the bridge seat is refused %d times: %v", said, p.Reasons)
	}
}

// TestBothFacesInLineWithASleeve: housing and inside of a sleeve of the far face stand in line
// with the near bore within what each visit claims: in exact geometry, set by the half turn alone.
func TestBothFacesInLineWithASleeve(t *testing.T) {
	job := swung(t, swingSleeve(t, example(t, "swing-bridge/both.toml")))
	alone := *job
	alone.Sweeps = slices.DeleteFunc(slices.Clone(job.Sweeps), func(s process.Sweep) bool { return s.From == process.FarFace })
	p := plan.Make(&alone)
	within := claimed(t, p, turns.SecondOnly)
	r, m := rand.New(rand.NewPCG(18, 8)), job.Machine
	in, n := 0, 20000
	for range n {
		far := halfTurned(r, casting{along: [3]float64{0, 0, 1}}, 700, 350, m.IndexPlace.MM(), m.IndexAngle)
		if math.Abs(far.off(0)[0]) <= within {
			in++
		}
	}
	if share := float64(in) / float64(n); share < 0.945 || share > 0.965 {
		t.Errorf("%.1f in 100 within ± %.3f mm", 100*share, within)
	}
	for _, v := range p.Bores[1].Visits {
		if v.Axis.MM() < within {
			t.Errorf("visit %d: the axis within ± %v, and the half turn alone leaves ± %.3f mm", v.N, v.Axis, within)
		}
	}
}

// withInner has a second seat behind the bridge seat, cut through at its setting.
func withInner(t *testing.T, with string) string {
	t.Helper()
	text := edited(t, example(t, "swing-bridge/both.toml"), "60, diameter = 160.10, wall = 30 },\n]",
		"60, diameter = 160.10, wall = 30 },\n  { name = \"inner seat\", face = \"far\", from = 90, to = 130, diameter = 160.10, wall = 30 },\n]")
	at, bar := strings.LastIndex(text, "[[bore]]"), strings.Index(text, "[bar]")
	inner := edited(t, text[at:bar], `"bridge seat"`, "\"inner seat\"\nwith      = \""+with+`"`, "depth = 12", "depth = 95", "depth = 50", "depth = 120")
	return text[:bar] + inner + text[bar:]
}

// TestBothFacesAtOneSetting: bores of one face are cut through at one setting; in exact geometry
// each stands in line with the near bore within what its own axis is known to. Bores of two faces
// are never at one setting.
func TestBothFacesAtOneSetting(t *testing.T) {
	job := swung(t, withInner(t, "bridge seat"))
	p := plan.Make(job)
	if !p.Feasible {
		t.Fatal(p.Reasons)
	}
	for i := 1; i <= 2; i++ {
		if with := p.Bores[i].Visits[0].Together; len(with) != 2 {
			t.Errorf("%s is cut with %v", p.Bores[i].Station.Name, with)
		}
	}
	r, m, seen := rand.New(rand.NewPCG(18, 9)), job.Machine, *p.For(1, 0).Job
	ends := map[string][2]float64{"bridge seat": {0, 60}, "inner seat": {90, 130}}
	in, n := map[string]int{}, 300
	for range n {
		far := halfTurned(r, casting{along: [3]float64{0, 0, 1}}, 700, 350, m.IndexPlace.MM(), m.IndexAngle)
		l, bored := sweptThrough(t, r, far, &seen)
		for name, depths := range ends {
			ok := true
			for _, at := range depths {
				off := bored.off(at)
				ok = ok && math.Max(math.Abs(off[0]), math.Abs(off[1])) <= l.AxisWithin(seen.Units, name, 0).MM()
			}
			if ok {
				in[name]++
			}
		}
	}
	for name := range ends {
		inShare(t, name, in[name], n, false)
	}
	_, err := files.Job("both.toml", []byte(withInner(t, "shore seat")), nil)
	if err == nil || !strings.Contains(err.Error(), "one setting is of one face") {
		t.Errorf("bores of two faces at one setting: %v", err)
	}
}
