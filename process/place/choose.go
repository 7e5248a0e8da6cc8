package place

import (
	"fmt"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/geom"
	"borewright/process/qty"
)

// Choice is one bar of the shop's list, tried on every visit of a plan.
type Choice struct {
	Name       string
	Verdict    string
	Passes     bool
	Sets       bool    // its cutter can be set to every size of the plan
	Compliance float64 // of the bar alone at the tip, clamped at the nose, µm/N
	Stickout   qty.Length
	Least      Gap    // the tightest place
	Why        string // what blocks first; "" when nothing does
	least      geom.Gap
	verdict    geom.Verdict
}

// usable ranks a choice: clear and settable first, blocked last.
func (c Choice) usable() int {
	switch {
	case !c.Passes:
		return 0
	case !c.Sets:
		return 1
	case c.verdict == geom.Tight:
		return 2
	}
	return 3
}

// Choose tries the bars of a list on the visits whose room was worked out: those
// that pass come first, the stiffest before the others.
func Choose(asked *process.Job, visits []*Reach, bars []process.ShopBar) ([]Choice, error) {
	var out []Choice
	for _, b := range bars {
		job := *asked
		b.FeedBy, b.Standoff = job.Bar.FeedBy, job.Bar.Standoff
		job.Bar = b.Bar
		c := Choice{Name: b.Name, Stickout: b.Stickout(), Sets: true, Verdict: geom.Free.String(), Passes: true}
		first := true
		for _, seen := range visits {
			w := seen.way
			w.Bar = barOf(&job, b.Bar)
			r, err := geom.NewReach(w)
			if err != nil {
				return nil, fmt.Errorf("bar %q: %w", b.Name, err)
			}
			c.Compliance = math.Max(c.Compliance, w.Compliance(r.QuillOut)*1e3)
			if r.Verdict > c.verdict {
				c.verdict = r.Verdict
			}
			if why := r.Why(func(x float64) string { return job.Units.Say(qty.FromMM(x)) }); len(why) > 0 && c.Why == "" {
				c.Why = why[0]
			}
			if len(r.Gaps) > 0 && (first || r.Least.Clearance-r.Least.Need.Wanted < c.least.Clearance-c.least.Need.Wanted) {
				first, c.least = false, r.Least
			}
			for _, q := range w.Passes {
				d := qty.DiameterMM(q.Setting)
				c.Sets = c.Sets && d >= b.Least && d <= b.Most
			}
		}
		u := job.Units
		g := c.least
		c.Verdict, c.Passes = c.verdict.String(), c.verdict != geom.Blocked
		c.Least = Gap{
			Verdict: g.Verdict.String(), Room: u.Round(qty.FromMM(g.Clearance)), Wanted: u.Round(qty.FromMM(g.Need.Wanted)), Needed: u.Round(qty.FromMM(g.Need.Least)),
			Axial: g.Axial, Bottom: g.Bottom, Part: g.Part.String(), Diameter: qty.DiameterMM(g.Diameter), Station: g.Name, Phase: g.Phase.String(), Pass: g.N, Tip: u.Round(qty.FromMM(g.Tip)),
		}
		if !c.Sets && c.Why == "" {
			c.Why = fmt.Sprintf("its cutter sets from Ø%s to Ø%s only", u.Format(b.Least.Length()), u.Say(b.Most.Length()))
		}
		out = append(out, c)
	}
	slices.SortStableFunc(out, func(a, b Choice) int {
		if x, y := a.usable(), b.usable(); x != y {
			return y - x
		}
		switch {
		case a.Compliance < b.Compliance:
			return -1
		case a.Compliance > b.Compliance:
			return 1
		}
		return 0
	})
	return out, nil
}
