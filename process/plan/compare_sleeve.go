package plan

import (
	"borewright/process"
	"borewright/process/qty"
)

// sleeveWork reports how the sleeve is to be made, put in and brought to size.
func (c *comparer) sleeveWork(s, t process.Sleeve) {
	if s.Outside != 0 && t.Outside != 0 { // else the sleeve itself came or went
		c.fig(SpoilsSize, "inside brought to size", figText(s.Finish.String()), figText(t.Finish.String()))
	}
	c.fig(SpoilsFit, "outside chosen by", figYesNo(s.Chosen, "standard sizes", "the author"), figYesNo(t.Chosen, "standard sizes", "the author"))
	for i := range max(len(s.Standard), len(t.Standard)) {
		at := func(l []qty.Diameter) Figure {
			if i < len(l) {
				return figSize(l[i])
			}
			return figNone()
		}
		c.fig(SpoilsFit, "standard outside", at(s.Standard), at(t.Standard))
	}
	c.fig(SpoilsFit, "least wall of the sleeve", figOptLength(s.Wall), figOptLength(t.Wall))
	c.fig(SpoilsFit, "turned to the housing within", figFine(s.Match), figFine(t.Match))
	c.fig(SpoilsFit, "lathe holds inside", figFine(s.Lathe), figFine(t.Lathe))
	c.fig(SpoilsFit, "runout as turned", figFine(s.Runout), figFine(t.Runout))
	for i, what := range [...]string{"Rz of the housing", "Rz of the sleeve"} {
		c.fig(SpoilsFit, what, figRa(s.Rz[i]), figRa(t.Rz[i]))
	}
	for i, end := range [...]string{", least", ", most"} {
		c.fig(SpoilsFit, "friction"+end, figNumber(s.Friction[i], ""), figNumber(t.Friction[i], ""))
		c.fig(SpoilsFit, "temperature at work"+end, figNumber(s.Service[i], "°C"), figNumber(t.Service[i], "°C"))
	}
	c.fig(SpoilsSize, "location allowed", figFine(s.Location), figFine(t.Location))
	c.fig(SpoilsFit, "press capacity", figNumber(float64(s.PressCapacity), "N"), figNumber(float64(t.PressCapacity), "N"))
	c.fig(SpoilsFit, "kept cool because", figOptText(s.KeepCool), figOptText(t.KeepCool))
	c.fig(SpoilsFit, "grip of a jaw", figNumber(float64(s.Grip), "N"), figNumber(float64(t.Grip), "N"))
	c.fig(SpoilsFit, "bonding compound", figOptText(s.Compound), figOptText(t.Compound))
}
