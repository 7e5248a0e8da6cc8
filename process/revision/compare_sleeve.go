package revision

import (
	"borewright/process"
	"borewright/process/sleeve"
)

// sleeves compares two sleeves as planned, or one with nothing.
func (c *comparer) sleeves(a, b *sleeve.Sleeve) {
	if a == nil && b == nil {
		return
	}
	if a == nil || b == nil {
		c.fig(process.SpoilsFit, "sleeve worked out", figYesNo(a != nil, "yes", "no"), figYesNo(b != nil, "yes", "no"))
		return
	}
	c.these(a, b)
	c.sentences(process.SpoilsFit, "feature of the sleeve", featureLines(a.Details), featureLines(b.Details))
	c.sentences(process.SpoilsFit, "order of work", orderLines(a.Order), orderLines(b.Order))
}

func featureLines(d []sleeve.Detail) []string {
	var out []string
	for _, x := range d {
		out = append(out, x.What+": "+x.How)
	}
	return out
}

func orderLines(o []sleeve.OrderStep) []string {
	var out []string
	for _, x := range o {
		if x.Hold {
			x.Text = "HOLD: " + x.Text
		}
		out = append(out, x.Text)
	}
	return out
}
