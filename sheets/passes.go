package sheets

import (
	"fmt"
	"io"

	"borewright/process/plan"
	"borewright/process/qty"
)

// WritePasses prints what a terminal shows of a plan, at most 80 columns: what
// stops it, the pass table of every visit, and the cautions.
func WritePasses(w io.Writer, p *plan.Plan) error {
	b := newBuilder(p)
	t := &printer{}
	title := jobName(b.in)
	if b.in.Title != "" {
		title += ": " + b.in.Title
	}
	t.hang("", "  ", title)
	if !b.plan.Feasible {
		t.line("")
		for i, x := range stops(b.plan) {
			if i > 0 {
				t.line("")
			}
			t.block(x)
		}
	}
	if b.plan.Feasible && len(b.plan.Bores) == 0 && b.plan.Findings != nil {
		return nil // that all is finished has been said
	}
	for _, x := range b.plan.Bores {
		if x.Home != nil && len(x.Visits) == 0 {
			t.line("")
			t.hang("", "  ", fmt.Sprintf("%s: make the sleeve to the housing as measured, put it in, and enter what it measures at home as pass %d: expected is %s, allowed %s.",
				x.Station.Name, x.Home.N, b.u.SayLimitsOfSize(x.Home.Low, x.Home.High), b.u.SayLimitsOfSize(x.Bore.Finish.Low, x.Bore.Finish.High)))
		}
		for k, v := range x.Visits {
			t.line("")
			s := x.Station.Name
			if len(x.Visits) > 1 {
				s += fmt.Sprintf(", visit %d of %d", k+1, len(x.Visits))
			}
			if v.Title != "" {
				s += ": " + v.Title
			}
			if !b.plan.Feasible {
				s = notProven + ": " + s
			}
			t.hang("", "  ", s)
			found := "found"
			switch {
			case v.Behind > 0:
				found = "stands at"
			case v.N > 1:
				found = "inside"
			}
			t.hang("", "  ", fmt.Sprintf("%s Ø%s to Ø%s, to land %s%s", found, b.u.Bare(v.Start), b.u.Bare(v.StartMost), b.u.SayLimitsOfSize(v.Limits.Low, v.Limits.High), b.fit(x, k)))
			t.line("")
			t.block(b.passTable(v, true))
		}
	}
	if b.plan.Feasible && len(b.plan.Bores) > 0 {
		t.line("")
		t.hang("", "  ", "In all "+say(qty.KindTime, b.plan.Minutes)+", stops to measure included.")
	}
	if len(b.plan.Cautions) > 0 {
		t.line("")
		t.line("Mind:")
		t.block(&Cautions{b.plan.Cautions})
	}
	_, err := io.WriteString(w, t.b.String())
	return err
}
