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

// WornNear are the readings of the worn bore between two depths, or those of the depth
// nearest to them where none lies between.
func WornNear(b *process.Bore, from, to qty.Length) []process.Reading {
	off := func(r process.Reading) qty.Length { return max(0, from-r.Depth, r.Depth-to) }
	var out []process.Reading
	for _, r := range b.Wear {
		switch {
		case len(out) == 0 || off(r) == off(out[0]):
			out = append(out, r)
		case off(r) < off(out[0]):
			out = append(out[:0], r)
		}
	}
	return out
}
