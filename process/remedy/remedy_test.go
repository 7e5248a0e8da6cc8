package remedy

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
)

func planned(t *testing.T, job string, edit func(string) string) *plan.Plan {
	t.Helper()
	name := filepath.Join("..", "..", "testdata", "jobs", job, "job.toml")
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	if edit != nil {
		text = edit(text)
	}
	j, err := files.Job("job.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Make(j)
}

func inches(t *testing.T, f fact.Fact, n int) string {
	t.Helper()
	q, ok := fact.AsFigure(f.Nth(n))
	if !ok {
		return ""
	}
	return qty.Inches.Say(q)
}

// The winch, by hand from its job: Ø3.154 with 0.75 in of metal, housing 3.375, finish 3.1496 to
// 3.1508 in. A sleeve leaves 0.75 − (3.375 − 3.154)/2 = 0.6395 in, and is (3.375 − 3.1508)/2 =
// 0.1121 thick. It cleans up at 3.1919 (19 of 20): a part 0.0423 larger, (3.1919 − 3.1496)/2 +
// 1 mm = 0.0605 to build up. What is left there is 0.75 − (3.1919 − 3.154)/2 = 0.7310 or 0.7311.
func TestWaysByHand(t *testing.T) {
	p := planned(t, "lock-winch", nil)
	ways := Ways(p, p.Bores[0])
	want := []struct {
		kind  fact.Kind
		args  []string
		taken bool
	}{
		{Larger, []string{"3.1919 in", "0.0423 in", "0.7311 in", ""}, false},
		{Pressed, []string{"3.3750 in", "0.1121 in", "0.6395 in"}, true},
		{Bonded, []string{"3.3750 in", "0.0020 in", "0.6395 in", "302 °F (150 °C)", "158 °F (70 °C)", ""}, false},
		{Bush, []string{"3.3750 in", "0.1121 in"}, false},
		{BuiltUpIron, []string{"0.0605 in", "3.1919 in"}, false},
	}
	if len(ways) != len(want) {
		t.Fatalf("%d ways", len(ways))
	}
	for i, w := range want {
		got := ways[i]
		if got.Says.Kind != w.kind || got.Taken != w.taken {
			t.Errorf("way %d is %s, taken %v", i, got.Says.Kind, got.Taken)
			continue
		}
		for n, a := range w.args {
			if said := inches(t, got.Says, n+1); said != a {
				t.Errorf("%s, %d: %q, want %q", w.kind, n+1, said, a)
			}
		}
	}
	// As planned: its time is that of its passes and stops, and it goes in by a press or by heat.
	minutes := 0.0
	for _, v := range p.Bores[0].Visits {
		for _, x := range v.Passes {
			minutes += x.Minutes
			if x.Hold != nil {
				minutes += x.Hold.Minutes
			}
		}
	}
	if said := inches(t, ways[1].Says, 7); said != qty.Inches.Say(qty.KindTime.Of(minutes)) || inches(t, ways[1].Says, 4) == "" || inches(t, ways[1].Says, 5) == "" || inches(t, ways[1].Says, 6) == "" {
		t.Errorf("as planned: %+v", ways[1].Says)
	}
}

// A rebore takes a time and no sleeve; without readings and walls nothing is said of them; a wall
// that is too thin for any sleeve says so; steel is not iron.
func TestWaysOfOtherBores(t *testing.T) {
	p := planned(t, "slip-winch", nil)
	ways := Ways(p, p.Bores[0])
	if !ways[0].Taken || ways[0].Says.Kind != LargerAsked || ways[0].Says.Nth(3) == nil || ways[1].Taken || ways[1].Says.Nth(4) != nil {
		t.Errorf("a rebore: %+v", ways)
	}
	b := p.Bores[0]
	b.Station.Wall, b.Station.WallMost = 0, 0
	if w := Ways(p, b); w[0].Says.Nth(2) != nil || w[1].Says.Nth(3) != nil {
		t.Errorf("no wall is stated: %+v", w)
	}
	b.Station.Wall = 2 * qty.Millimetre
	if w := Ways(p, b); len(w) != 3 || w[1].Says.Kind != NoSleeve {
		t.Errorf("a wall of 2 mm: %+v", w)
	}
	steel := *p.Job
	steel.Material = files.MaterialByID("cast-steel")
	p.Job = &steel
	if w := Ways(p, p.Bores[0]); w[len(w)-1].Says.Kind != BuiltUp {
		t.Errorf("cast steel: %+v", w)
	}
}

// A bonded job, and a plan that is not feasible: no time is promised.
func TestWaysOfABond(t *testing.T) {
	p := planned(t, "hand-pump", nil)
	if w := Ways(p, p.Bores[0]); p.Job.Sleeve.Hold != process.Bond || !w[2].Taken || w[1].Taken || w[2].Says.Nth(6) == nil {
		t.Errorf("%+v", w)
	}
	p = planned(t, "hand-pump", func(s string) string { return strings.Replace(s, "[limits]", "[limits]\npasses_most = 1", 1) })
	p.Feasible = false
	if w := Ways(p, p.Bores[0]); w[2].Says.Nth(6) != nil {
		t.Errorf("a time of a plan that cannot be: %+v", w[2])
	}
}
