package place

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/fact"
	"borewright/process/qty"
)

// Choice is one bar of the shop's list, tried on every visit of a plan.
type Choice struct {
	Name       string
	Verdict    clearance.Verdict
	Sets       bool    // its cutter can be set to every size of the plan
	Compliance float64 // of the bar alone at the tip, clamped at the nose, µm/N
	Stickout   qty.Length
	Least      *clearance.Gap // the tightest place; nil: nothing is near
	Why        fact.Fact      // what blocks first; nothing when nothing does
}

// Passes is whether the bar gets to every bore.
func (c Choice) Passes() bool { return c.Verdict != clearance.Blocked }

// usable ranks a choice: clear and settable first, blocked last.
func (c Choice) usable() int {
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

// Choose tries the bars of a list on the visits whose room was worked out: those
// that pass come first, the stiffest before the others.
func Choose(asked *process.Job, visits []*Reach, bars []process.ShopBar) ([]Choice, error) {
	var out []Choice
	for _, b := range bars {
		job := *asked
		b.FeedBy, b.Standoff = job.Bar.FeedBy, job.Bar.Standoff
		job.Bar = b.Bar
		c := Choice{Name: b.Name, Stickout: b.Stickout(), Sets: true}
		for _, seen := range visits {
			w := seen.way
			w.Bar = barOf(&job, b.Bar)
			r, err := clearance.NewReach(w)
			if err != nil {
				return nil, fact.New(BarUnusable, fact.Name(b.Name), failed(err)).Err()
			}
			c.Compliance = math.Max(c.Compliance, w.Compliance(r.QuillOut)*1e3)
			c.Verdict = max(c.Verdict, r.Verdict)
			if why := r.Why(); len(why) > 0 && c.Why.None() {
				c.Why = why[0]
			}
			if len(r.Gaps) > 0 && (c.Least == nil || r.Least.Clearance-r.Least.Need.Wanted < c.Least.Clearance-c.Least.Need.Wanted) {
				c.Least = &r.Least
			}
			for _, q := range w.Passes {
				d := qty.DiameterMM(q.Setting)
				c.Sets = c.Sets && d >= b.Least && d <= b.Most
			}
		}
		if c.Least != nil {
			g := rounded(job.Units, *c.Least)
			g.Diameter = c.Least.Diameter // as the list of bars has it
			c.Least = &g
		}
		if !c.Sets && c.Why.None() {
			c.Why = fact.New(SetsOnly, fact.Figure(b.Least), fact.Figure(b.Most))
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
