package schedule

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/qty"
)

// Band is the stretch of the bore that a witness cut marks, by depth of the tip. Behind
// it the old bore stands as it was found. It lies at the near end: a tip that stands
// further out than the wall cannot get to the other end without cutting its way there.
type Band struct {
	From, To qty.Length
	Bare     qty.Diameter // most that the gauge reads across in it where it did not mark all round; 0: it marks everywhere, or no reading shows
}

// Describe says what documents and a comparison have of it.
func (b *Band) Describe(d *field.Desc) {
	d.Length(&b.From, "from_mm").Weighs(process.SpoilsReach, "band from")
	d.Length(&b.To, "to_mm").Weighs(process.SpoilsReach, "band to")
	d.Diameter(&b.Bare, "bare_across_mm").Weighs(process.SpoilsSetting, "across where it is bare").ZeroIsNone()
}
