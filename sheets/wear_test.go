package sheets

import (
	"bytes"
	"strings"
	"testing"

	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// What the sheet says of the edge: as the first pass finds it, and before which pass it is
// honed, for its true reason.
func TestTheEdgeOnTheSheet(t *testing.T) {
	text := func(change func(ps []schedule.Pass)) string {
		p := winch()
		change(p.Bores[0].Visits[0].Passes)
		var out bytes.Buffer
		if err := Build(p).WriteText(&out); err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(out.String()), " ")
	}
	honed := func(why fact.Fact) func([]schedule.Pass) {
		return func(ps []schedule.Pass) {
			ps[1].Hone = &schedule.Hone{Worn: 0.0254, Most: 0.1, Smaller: 5080, Why: why, Minutes: 4}
		}
	}
	spring := fact.New(schedule.HoneLimit, fact.Count(2), fact.New(schedule.LimitSpring, fact.FineMM(0.0254), fact.FineMM(0.02032)))
	for _, r := range []struct {
		change func([]schedule.Pass)
		want   string
	}{
		{func([]schedule.Pass) {}, "Cutter sharp, tight, on centre"},
		{func(ps []schedule.Pass) { ps[0].Edge.Before.Likely = 0.0254 }, "Cutter's edge as found: land worn to about 0.0010 in, not chipped, tight, on centre"},
		{func(ps []schedule.Pass) { ps[0].Edge.Before.Likely = 0.00001 }, "Cutter sharp, tight, on centre"},
		{func(ps []schedule.Pass) {
			ps[0].Edge.Before.Likely, ps[0].Hone = 0.0254, &schedule.Hone{Why: fact.New(schedule.HonePays)}
		}, "Cutter sharp, tight, on centre"},
		{honed(spring), "HONE the edge before pass 2: pass 2 breaks a limit (spring) ==="},
		{honed(spring), "worn, pass 2 breaks a limit (spring: 0.00100 in on diameter, 0.00080 in allowed). Hone the edge or change the bit: not honed, its land is worn to about 0.0010 in"},
		{honed(fact.New(schedule.HonePays)), "HONE the edge before pass 2: it saves more than it takes"},
		{honed(fact.New(schedule.HoneDull, fact.Figure(qty.Plain(101600)))), "HONE the edge before pass 2: its land would be over 0.004 in"},
	} {
		if got := text(r.change); !strings.Contains(got, r.want) {
			i := max(0, strings.Index(got, "HONE"))
			t.Errorf("no %q on the sheet: %s", r.want, got[i:min(len(got), i+200)])
		}
	}
}

// A stop stands on one line of 80 columns, whatever the units and the passes, and where a reason
// is longer it goes on below its own words.
func TestStopsOnOneLine(t *testing.T) {
	for _, r := range []struct {
		why   fact.Fact
		lines []string
	}{
		{fact.New(schedule.HoneDull, fact.Figure(qty.Plain(99060))), []string{"    === HONE the edge before pass 10: its land would be over 0.0039 in ==="}},
		{fact.New(schedule.HoneLimit, fact.Count(11), fact.New(schedule.LimitRoundness, fact.MM(0.02), fact.MM(0.01))), []string{"    === HONE the edge before pass 10: pass 11 breaks a limit (roundness) ==="}},
		{fact.New(schedule.HoneLimit, fact.Count(11), fact.New(schedule.LimitStays, fact.MM(0.02), fact.MM(0.01))), []string{
			"    === HONE the edge before pass 10: pass 11 breaks a limit (what must stay", "        for the next passes) ==="}},
	} {
		p := winch()
		pass := &p.Bores[0].Visits[0].Passes[1]
		pass.N, pass.Hone = 10, &schedule.Hone{Worn: 0.0254, Most: 0.1, Smaller: 5080, Why: r.why, Minutes: 4}
		var out bytes.Buffer
		if err := WritePasses(&out, p); err != nil {
			t.Fatal(err)
		}
		if want := strings.Join(r.lines, "\n") + "\n"; !strings.Contains(out.String(), want) {
			t.Errorf("not there:\n%s\nin:\n%s", want, out.String())
		}
	}
}
