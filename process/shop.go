package process

import (
	"borewright/process/candidate"
	"borewright/process/field"
	"borewright/process/qty"
)

// ShopBar is one bar that the shop owns.
type ShopBar struct {
	Bar
	Least, Most qty.Diameter // what its cutter can be set to
	Usual       bool         // Most was left out, and is what a cutter in such a bar usually reaches
}

// Describe says what the keys of a bar on the list are: those of the job's own
// bar and cutter.
func (b *ShopBar) Describe(d *field.Desc) {
	d.Only([]string{"name", "steps", "material", "cutter_at", "stickout"}, &b.Bar)
	d.Find("name").Need().Says("what the shop calls it")
	d.Only([]string{"least", "most"}, &Cutter{})
	d.Into("least", &b.Least)
	d.Into("most", &b.Most)
	d.Worked("most was left out", &b.Usual)
}

// ShopCutter is one cutter that the shop owns. What of its range is left out is zero: then the
// bar's range holds.
type ShopCutter struct {
	Cutter
	For candidate.Work
}

// Describe says what the keys of a cutter on the list are: those of the job's own cutter, and
// what it is good for.
func (c *ShopCutter) Describe(d *field.Desc) {
	d.Only([]string{"name", "material", "nose_radius", "lead", "trail", "rake", "edge_radius", "least", "most", "ahead", "behind", "beside", "set_by", "speed"}, &c.Cutter)
	d.Find("name").Need().Says("what the shop calls it")
	d.Find("least").Otherwise("as far as the bar lets it")
	d.Find("most").Otherwise("as far as the bar lets it")
	field.Word(d, &c.For, "good_for", candidate.AnyWork, candidate.RoughWork, candidate.FinishWork).Default("both").Example(`"rough"`).
		Says("what it is good for; a bore that is roughed and finished by one cutter takes one that is good for both").
		Weighs(SpoilsSize, "good for")
}
