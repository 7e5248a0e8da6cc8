package revision

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/fit"
	"borewright/process/sleeve"
)

// sleeves compares two sleeves as planned, or one with nothing.
func (c *comparer) sleeves(a, b *sleeve.Sleeve) {
	if a == nil && b == nil {
		return
	}
	if a == nil || b == nil {
		c.fig(process.SpoilsFit, "sleeve worked out", oneOf(a != nil, "yes", "no"), oneOf(b != nil, "yes", "no"))
		return
	}
	c.these(a, b)
	c.facts(process.SpoilsFit, "feature of the sleeve", features(a.Details), features(b.Details))
	c.facts(process.SpoilsFit, "order of work", steps(a.Order), steps(b.Order))
}

func features(d []sleeve.Detail) []fact.Fact {
	var out []fact.Fact
	for _, x := range d {
		out = append(out, fact.New(Feature, x.What, x.How))
	}
	return out
}

func steps(o []fit.Step) []fact.Fact {
	var out []fact.Fact
	for _, x := range o {
		if x.Hold {
			x.Text = fact.New(HoldPoint, x.Text)
		}
		out = append(out, x.Text)
	}
	return out
}
