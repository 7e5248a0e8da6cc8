package plan_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"borewright/process"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
)

// clampedRack is the net hauler's frame whose bars can be clamped at any length: the job's own, which
// roughs and finishes the front web, and one that the rear web names. Each %s: stickout of F 80 and
// of B 50, and how long each of them then is beyond its shank.
func clampedRack(t *testing.T, own, named string, ownLong, namedLong float64) *process.Job {
	t.Helper()
	return fromRack(t, "net-hauler", func(path string, data []byte) []byte {
		if path != "job.toml" {
			data = bytes.Replace(data, []byte("diameter = 80, length = 340 } ]"), fmt.Appendf(nil, "diameter = 80, length = %g } ]%s", ownLong, own), 1)
			return bytes.Replace(data, []byte("diameter = 50, length = 340 } ]"), fmt.Appendf(nil, "diameter = 50, length = %g } ]%s", namedLong, named), 1)
		}
		data = bytes.Replace(data, []byte(`bars     = "rack.toml"`), []byte("bars = \"rack.toml\"\nbar = { name = \"F 80\" }\ncutter = { name = \"K1 carbide\" }"), 1)
		return bytes.Replace(data, []byte("station = \"rear web\"\nrepair"), []byte("station = \"rear web\"\nbar = \"B 50\"\nrepair"), 1)
	})
}

// TestStickoutOfABoresBar: each bar stands out by the least of whole 5 mm at which it reaches the
// bores that it cuts with the room wanted; the job's own need not reach those that another cuts. The plan
// is that of bars which are so long, and one 5 mm shorter has not that room.
func TestStickoutOfABoresBar(t *testing.T) {
	slow.Test(t, "two tables of stickouts, each row a plan")
	const any = "\nstickout = [62, 420]"
	p := Make(clampedRack(t, any, any, 340, 340))
	if !p.Feasible {
		t.Fatal(said(p, p.Reasons[0].What))
	}
	long := map[string]qty.Length{}
	for _, at := range p.Turns() {
		bar := p.For(at[0], at[1]).Job.Bar
		want := map[string]string{"front web": "F 80", "rear web": "B 50"}[p.Bores[at[0]].Station.Name]
		if bar.Name != want {
			t.Errorf("%s is cut with %s", p.Bores[at[0]].Station.Name, bar.Name)
		}
		if l, is := long[want]; is && l != bar.Stickout() {
			t.Errorf("%s stands out %v and %v", want, l, bar.Stickout())
		}
		long[want] = bar.Stickout()
	}
	if long["B 50"] <= 295*qty.Millimetre || long["B 50"] >= 400*qty.Millimetre {
		t.Errorf("they stand out %v", long)
	}
	fixed := func(own, named float64) *Plan {
		return Make(clampedRack(t, "", "", own-60, named-60))
	}
	a, b := long["F 80"].MM(), long["B 50"].MM()
	q := fixed(a, b)
	if !hasRoom(q) || q.Minutes != p.Minutes {
		t.Errorf("%g min; of bars so long %g", p.Minutes, q.Minutes)
	}
	for i := range p.Bores {
		for k, v := range p.Bores[i].Visits {
			if w := q.Bores[i].Visits[k]; w.Compliance != v.Compliance || len(w.Passes) != len(v.Passes) {
				t.Errorf("bore %d: gives %v, of a bar so long %v", i, v.Compliance, w.Compliance)
			}
		}
	}
	if a != 62 || hasRoom(fixed(a, b-5)) { // the shank of the first goes into its bore
		t.Errorf("the first stands out %g and has room down to 62; or the second has at %g", a, b-5)
	}
	rows := map[string][]float64{}
	for _, s := range p.Job.Stickouts {
		rows[s.Bar] = append(rows[s.Bar], s.Out.MM())
	}
	if len(rows) != 2 || rows[""][0] != a || rows["B 50"][0] != b || len(rows["B 50"]) < 2 {
		t.Errorf("told: %v", rows)
	}
	for _, s := range p.Job.Stickouts {
		x, y := a, b
		if s.Bar == "" {
			x = s.Out.MM()
		} else {
			y = s.Out.MM()
		}
		if q := fixed(x, y); q.Minutes != s.Minutes || q.Feasible != s.Feasible {
			t.Errorf("%s at %v: %g min, of a bar so long %g", s.Bar, s.Out, s.Minutes, q.Minutes)
		}
	}
	if again := p.Another(p.Job); again.Minutes != p.Minutes || again.Job.ToolsOf(1, false) != p.Job.ToolsOf(1, false) {
		t.Error("planned once more the bar stands otherwise")
	}
}

// TestOneBarStandsAlike: a bar that cuts several bores, with whatever cutter, is clamped once, so that
// it reaches all of them.
func TestOneBarStandsAlike(t *testing.T) {
	job := fromRack(t, "net-hauler", func(path string, data []byte) []byte {
		if path != "job.toml" {
			return bytes.Replace(data, []byte("diameter = 60, length = 340 } ]"), []byte("diameter = 60, length = 340 } ]\nstickout = [95, 420]"), 1)
		}
		data = bytes.Replace(data, []byte(`bars     = "rack.toml"`), []byte("bars = \"rack.toml\"\nbar = { name = \"C 60\" }\ncutter = { name = \"K1 carbide\" }"), 1)
		return bytes.Replace(data, []byte("station = \"front web\"\nrepair"), []byte("station = \"front web\"\nbar = \"C 60\"\ncutter = \"K2 square\"\nrepair"), 1)
	})
	p := Make(job)
	all := p.Tools()
	if !p.Feasible || len(all) != 2 {
		t.Fatalf("feasible %v, tools %v", p.Feasible, all)
	}
	for _, t2 := range all {
		if got := p.Job.Using(t2).Bar.Stickout(); got != p.Job.Bar.Stickout() || got <= 295*qty.Millimetre || got >= 400*qty.Millimetre {
			t.Errorf("%s stands out %v", p.Job.Using(t2).ToolsCalled(), got)
		}
	}
	for _, s := range p.Job.Stickouts {
		if strings.TrimSpace(s.Bar) != "" {
			t.Errorf("a table of %s apart", s.Bar)
		}
	}
}
