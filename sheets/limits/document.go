package limits

import (
	"borewright/process/field"
	"borewright/process/field/si"
	"borewright/process/fit/iso286"
	"borewright/process/fit/standard"
	"borewright/process/qty"
)

// document is a fit as JSON: deviations and clearance in µm, exact; negative clearance
// is interference.
type document struct{ standard.Fit }

// Describe is the page.
func (f *document) Describe(d *field.Desc) {
	c, pair := f.Clearance()
	um := func(d *field.Desc, key string, l qty.Length) { d.Is(key, func() any { return l.Microns() }) }
	part := func(key string, l *iso286.Limits) {
		if l != nil {
			d.Group(key, func(d *field.Desc) { um(d, "upper_um", l.Upper); um(d, "lower_um", l.Lower) })
		}
	}
	d.Is("fit", func() any { return f.String() })
	d.Is("standard", func() any { return standardOf(f.Fit) })
	if m := meaning(f.Fit); m != "" {
		d.Is("means", func() any { return m })
	}
	d.Is("nominal_mm", func() any { return f.Nominal.MM() })
	part("hole", f.HoleLimits)
	part("shaft", f.ShaftLimits)
	if pair {
		d.Group("clearance_um", func(d *field.Desc) { um(d, "min", c.Least); um(d, "max", c.Most) })
	}
}

// WriteJSON is a fit as JSON.
func WriteJSON(f standard.Fit) ([]byte, error) { return si.Write(&document{f}, nil) }
