package plan_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/doubt"
	"borewright/process/fact"
	"borewright/process/marks"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// twoBars is the net hauler's frame roughed with a stout bar and finished with slender ones, each
// bore with its own.
func twoBars(t testing.TB) *process.Job { return roughedWith(t, "C 60") }

// roughedWith is the same with another bar for roughing.
func roughedWith(t testing.TB, bar string) *process.Job {
	t.Helper()
	return fromRack(t, "net-hauler", func(path string, data []byte) []byte {
		if path != "job.toml" {
			return data
		}
		data = bytes.Replace(data, []byte(`bars     = "rack.toml"`), []byte("bars = \"rack.toml\"\nrough = { bar = \""+bar+"\", cutter = \"K1 carbide\" }\nbar = { name = \"B 50\" }\ncutter = { name = \"K1 carbide\" }"), 1)
		return bytes.Replace(data, []byte("station = \"front web\"\nrepair"), []byte("station = \"front web\"\nbar = \"F 80\"\ncutter = \"K2 square\"\nrepair"), 1)
	})
}

// TestVisitsByTheirTools: each visit is planned with the bar and the cutter that the job gives it.
// The spring of each is that of a job which has these tools alone; an edge that has not cut is
// not worn by the roughing of another, and the same cutter in another bar is.
func TestVisitsByTheirTools(t *testing.T) {
	p := Make(twoBars(t))
	if !p.Feasible {
		t.Fatal(said(p, p.Reasons[0].What))
	}
	type by struct{ bar, cutter string }
	want := map[string]by{"front web rough": {"C 60", "K1 carbide"}, "rear web rough": {"C 60", "K1 carbide"}, "front web finish": {"F 80", "K2 square"}, "rear web finish": {"B 50", "K1 carbide"}}
	changes, seen := 0, map[string]*Visit{}
	for _, at := range p.Turns() {
		b := &p.Bores[at[0]]
		v := &b.Visits[at[1]]
		name := b.Station.Name + " " + v.Part.String()
		job := p.For(at[0], at[1]).Job
		if got := (by{job.Bar.Name, job.Cutter.Name}); got != want[name] {
			t.Errorf("%s is cut with %v, want %v", name, got, want[name])
		}
		seen[name] = v
		for _, f := range v.Before {
			if f.Kind == TakeTools {
				changes++
			}
		}
		alone := *job // a job that has these alone
		for i := range alone.Bores {
			alone.Bores[i].CutBy, alone.Bores[i].RoughBy = nil, nil
		}
		bar, err := setup.New(&alone)
		if err != nil {
			t.Fatal(err)
		}
		edge, err := bar.Edge(v.Material, v.Start.MM()/2, v.From, v.End)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := v.Compliance[0], edge.Stiff.Radial*1e3; got < 0.999*want || got > 1.001*want {
			t.Errorf("%s gives %.4f µm/N, and %s alone gives %.4f", name, got, job.Bar.Name, want)
		}
	}
	if changes != 3 {
		t.Errorf("the tools are taken %d times, want 3: for roughing, and for each finish", changes)
	}
	if e := seen["front web finish"].Flank; e == nil || e.Most != 0 || e.From != "" {
		t.Errorf("the edge that cuts the front web to size comes worn: %+v", e)
	}
	if e := seen["rear web finish"].Flank; e == nil || e.Most == 0 || e.From != "rear web" {
		t.Errorf("the edge that roughed comes to the rear web as new: %+v", e)
	}
	slender := Make(fromRack(t, "net-hauler", func(path string, data []byte) []byte {
		return bytes.Replace(data, []byte(`bars     = "rack.toml"`), []byte("bars = \"rack.toml\"\nbar = { name = \"B 50\" }\ncutter = { name = \"K1 carbide\" }"), 1)
	}))
	rough := func(p *Plan) float64 { // minutes, with what may sing, as priceOf reckons it
		only := &Plan{Feasible: p.Feasible}
		for _, b := range p.Bores {
			v := b.Visits[0]
			v.Budget = nil
			only.Bores = append(only.Bores, Bore{Visits: []Visit{v}})
			for _, q := range v.Passes {
				only.Minutes += q.Minutes
			}
		}
		return priceOf(only)
	}
	if a, b := rough(p), rough(slender); a >= b {
		t.Errorf("roughing takes %.1f min by the stout bar, %.1f by the slender one", a, b)
	} else {
		t.Logf("roughing: %.1f min by the stout bar, %.1f by the slender one; all %.1f, %.1f", a, b, priceOf(p), priceOf(slender))
	}
}

// TestLearnedOfItsTools: what a rough shows of the spring of its bar is nothing for the bar that
// finishes; where the bore stands is known all the same, the other edge comes as it was, and the
// next cut is no finish.
func TestLearnedOfItsTools(t *testing.T) {
	job := twoBars(t)
	first := Make(job)
	v := first.Bores[0].Visits[0]
	last := v.Passes[len(v.Passes)-1]
	m := after(first, 0, 1, last.N, last.Setting.MM()-0.09, 0)
	m.Tooling = marks.Tooling(job.Using(job.ToolsOf(0, true)))
	q := MakeAfter(job, results(m))
	if f := q.Findings.Factors; len(f) != 1 || !strings.Contains(f[0].Material, "C 60") {
		t.Fatalf("learned: %+v", f)
	}
	for _, b := range q.Bores {
		for _, w := range b.Visits {
			was := first.Bores[0].Visits
			for i := range was {
				if b.Station.Name == "front web" && was[i].Part == w.Part && w.Tools != v.Tools && w.Compliance != was[i].Compliance {
					t.Errorf("%s: gives %v, and gave %v before another bar was measured", b.Station.Name, w.Compliance, was[i].Compliance)
				}
			}
			if b.Station.Name != "front web" {
				continue
			}
			if w.Tools != job.ToolsOf(0, false) || w.Passes[0].Kind == schedule.Finish || w.Flank.Most != 0 {
				t.Errorf("goes on with pass %d (%s) by %+v, the edge %+v", w.Passes[0].N, w.Passes[0].Kind, w.Tools, w.Flank)
			}
		}
	}
	k := q.Bores[1].Visits[0] // the other bore is roughed with the bar that was measured
	if k.Part != schedule.Roughing || k.Flank == nil || k.Flank.From != "front web" {
		t.Errorf("rear web, roughing: %v, the edge %+v", k.Part, k.Flank)
	}
	if was := first.Bores[1].Visits[0]; k.Passes[1].Spring == was.Passes[1].Spring || k.Passes[1].Kind != was.Passes[1].Kind {
		t.Errorf("rear web, roughing: springs by %v, as before the spring of its bar was measured", k.Passes[1].Spring)
	}
	m.Tooling = marks.Tooling(job.Using(job.ToolsOf(0, false)))
	if f := MakeAfter(job, results(m)).Findings.Factors; len(f) != 1 || !strings.Contains(f[0].Material, "F 80") {
		t.Errorf("the rough was cut with the bar that finishes, and taught: %+v", f)
	}
}

// TestRoughedByTheJobsOwn: where bar and cutter of the job rough, and another cutter finishes, the
// land that was seen on the one is not on the other.
func TestRoughedByTheJobsOwn(t *testing.T) {
	job := roughedWith(t, "B 50")
	if job.ToolsOf(0, true) != nil {
		t.Fatalf("the job's own tools are %+v", job.ToolsOf(0, true))
	}
	first := Make(job)
	list := first.Bores[0].Visits[0].Passes
	last := list[len(list)-1]
	m := after(first, 0, 1, last.N, last.Setting.MM()-0.09, 0)
	m.Tooling, m.Land = marks.Tooling(job), qty.FromMM(0.2)
	for _, b := range MakeAfter(job, results(m)).Bores {
		v := b.Visits[0]
		if b.Station.Name == "front web" && (v.Flank == nil || v.Flank.Most != 0) {
			t.Errorf("the front web is cut to size by a worn edge: %+v", v.Flank)
		}
		if b.Station.Name == "rear web" && (v.Flank == nil || v.Flank.Likely < 0.19) {
			t.Errorf("the rear web is roughed by an edge as new: %+v", v.Flank)
		}
	}
}

// TestToolsAtTheControl: a control that calls a tool and its length calls others for other tools,
// and those of the job for the job's own.
func TestToolsAtTheControl(t *testing.T) {
	job := twoBars(t)
	m, c := *job.Machine, *job.Machine.Control
	c.Tool, c.LengthOffset, m.Control, job.Machine = 12, 30, &c, &m
	seen := map[int]*process.Tools{12: nil}
	for _, tools := range job.AllTools() {
		used := job.Using(tools).Machine.Control
		if was, is := seen[used.Tool]; is && was != tools || used.LengthOffset-30 != used.Tool-12 {
			t.Errorf("%+v is called as T%d with H%d", tools, used.Tool, used.LengthOffset)
		}
		seen[used.Tool] = tools
		if again := job.Using(tools).Using(tools).Machine.Control; again.Tool != used.Tool {
			t.Errorf("T%d becomes T%d", used.Tool, again.Tool)
		}
	}
	if c.Tool != 12 {
		t.Errorf("the machine itself calls T%d", c.Tool)
	}
}

// TestMindsOfItsOwnBar: what is to be minded of a bar is said of the visits that are cut with it,
// by its name, and of no other.
func TestMindsOfItsOwnBar(t *testing.T) {
	p := Make(twoBars(t))
	said := map[string]bool{}
	for i, b := range p.Bores {
		for k, v := range b.Visits {
			name := p.Job.Using(v.Tools).ToolsCalled()
			for _, f := range p.CautionsOf(i, k) {
				if f.Kind != OfTools {
					continue
				}
				of, _ := fact.AsName(f.Nth(1))
				in := f.Nth(2).(fact.Fact)
				if said[name] = true; of != name {
					t.Errorf("%s, cut with %s, minds of %s", b.Station.Name, name, of)
				}
				if x, is := fact.AsFigure(in.Nth(1)); in.Kind == StandsOut && (!is || x != qty.KindRatio.Of(v.Overhang)) {
					t.Errorf("%s stands out %v of its diameters, told %v", name, v.Overhang, x)
				}
			}
		}
	}
	if len(said) < 2 {
		t.Errorf("minded of %v", said)
	}
}

// hauler is the net hauler's frame with lines for the job, for its front web and for the list of the shop.
func hauler(t *testing.T, top, front, list string) *process.Job {
	t.Helper()
	return fromRack(t, "net-hauler", func(path string, data []byte) []byte {
		if path != "job.toml" {
			return append(data, list...)
		}
		data = bytes.Replace(data, []byte(`bars     = "rack.toml"`), []byte("bars = \"rack.toml\"\n"+top), 1)
		return bytes.Replace(data, []byte("station = \"front web\"\nrepair"), []byte("station = \"front web\"\n"+front+"\nrepair"), 1)
	})
}

// TestAsksOfItsOwnCutter: a doubt of a cutter is one of the visits that it cuts, by its name, and is
// asked once; of a cutter that cuts nothing none is asked.
func TestAsksOfItsOwnCutter(t *testing.T) {
	const flat = "\n[[cutter]]\nname = \"K9 flat\"\nmaterial = \"carbide\"\nnose_radius = 0.8\nlead = 40\n"
	asked := func(top, front string) (by []string) {
		p := Make(hauler(t, top, front, flat))
		for _, c := range p.Cautions {
			in, is := c.Nth(2).(fact.Fact)
			switch of, _ := fact.AsName(c.Nth(1)); {
			case c.Kind == doubt.AskLead:
				by = append(by, "the job")
			case c.Kind == OfTools && is && in.Kind == doubt.AskLead:
				by = append(by, of)
				for _, at := range p.Turns() {
					its := p.For(at[0], at[1]).Job.ToolsCalled() == of
					if told := slices.ContainsFunc(p.CautionsOf(at[0], at[1]), func(f fact.Fact) bool { return fact.Reads(p.Job.Units, f, c) }); told != its {
						t.Errorf("visit %v: asked of %s: %v, cut with it: %v", at, of, told, its)
					}
				}
			}
		}
		return by
	}
	for _, row := range []struct {
		top, front string
		want       []string
	}{
		{"bar = { name = \"B 50\" }\ncutter = { name = \"K1 carbide\" }", `cutter = "K9 flat"`, []string{"B 50 and K9 flat"}},
		{"order = \"bore_by_bore\"\nbar = { name = \"B 50\" }\ncutter = { name = \"K9 flat\" }", "cutter = \"K1 carbide\"", []string{"B 50 and K9 flat"}},
		{"rough = { cutter = \"K1 carbide\" }\nbar = { name = \"B 50\" }\ncutter = { name = \"K9 flat\" }", "", []string{"B 50 and K9 flat"}},
		{"bar = { name = \"B 50\" }\ncutter = { name = \"K9 flat\" }", "", []string{"the job"}},
	} {
		if got := asked(row.top, row.front); !slices.Equal(got, row.want) {
			t.Errorf("%s; %s: asked of %q, want %q", row.top, row.front, got, row.want)
		}
	}
	job := hauler(t, "bar = { name = \"B 50\" }\ncutter = { name = \"K9 flat\" }", "", flat)
	for i := range job.Bores { // the job's own cut nothing
		job.Bores[i].CutBy = &process.Tools{N: 1, Bar: job.Bar, Cutter: job.Cutter}
		job.Bores[i].RoughBy = job.Bores[i].CutBy
	}
	for _, f := range doubt.Of(job) {
		if doubt.OfTools(f.Kind) {
			t.Errorf("%s is asked of tools that cut nothing", f.Kind)
		}
	}
}

// TestStoppedAtItsKey: a bar of a bore that no pass is planned with stops the plan at the key that
// names it.
func TestStoppedAtItsKey(t *testing.T) {
	const thin = "\n[[bar]]\nname = \"G 25\"\nsteps = [ { diameter = 90, length = 60 }, { diameter = 25, length = 340 } ]\nmost = 110\n"
	job := hauler(t, "bar = { name = \"B 50\" }\ncutter = { name = \"K1 carbide\" }", "bar = \"G 25\"", thin)
	p := Make(job)
	want := job.Where("bore[0].bar")
	if want == job.Where("bore[0].station") || want == job.Where("bar") {
		t.Fatalf("the key has no place of its own: %s", want)
	}
	for _, r := range p.Reasons {
		if r.What.Kind == BarTooLong {
			if r.Where != want {
				t.Errorf("stopped at %s, want %s", r.Where, want)
			}
			return
		}
	}
	t.Errorf("nothing says that it is too long: %v", p.Reasons)
}

// TestHeldAsTheJobSays: how a bar of the list is fed and held the job says, and it is not asked after.
func TestHeldAsTheJobSays(t *testing.T) {
	job := hauler(t, "bar = { name = \"C 60\", feed_by = \"quill\", standoff = 100 }\ncutter = { name = \"K1 carbide\" }", `bar = "F 80"`, "")
	for _, tools := range job.AllTools() {
		for _, f := range doubt.Of(job.Using(tools)) {
			if f.Kind == doubt.AskSetBack {
				t.Errorf("%s: asked for the standoff that the job states: %+v", job.Using(tools).ToolsCalled(), f)
			}
		}
	}
}

// TestNoBarInPlaceOfNone: bars are tried in the place of the job's own where that cuts something, and nowhere else.
func TestNoBarInPlaceOfNone(t *testing.T) {
	p := Attempt(hauler(t, "bar = { name = \"B 50\" }\ncutter = { name = \"K1 carbide\" }", "bar = \"F 80\"", ""), nil)
	for _, left := range []bool{true, false} {
		got, err := p.Choose(p.Job.Shop)
		if err != nil || (len(got) > 0) != left {
			t.Errorf("something left for the job's own bar %v: %d bars are tried, %v", left, len(got), err)
		}
		for i := range p.Bores {
			p.Bores[i].Visits = slices.DeleteFunc(p.Bores[i].Visits, func(v Visit) bool { return v.Tools == nil })
		}
	}
}
