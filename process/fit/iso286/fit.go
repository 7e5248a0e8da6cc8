package iso286

// Fit is a designation with its limits.
type Fit struct {
	Designation
	HoleLimits, ShaftLimits *Limits // nil where the designation has no such class
}

// Resolve looks the limits of a designation up.
func (d Designation) Resolve() (Fit, error) {
	f := Fit{Designation: d}
	if d.Hole != "" {
		l, err := Hole(d.Nominal, d.Hole)
		if err != nil {
			return Fit{}, err
		}
		f.HoleLimits = &l
	}
	if d.Shaft != "" {
		l, err := Shaft(d.Nominal, d.Shaft)
		if err != nil {
			return Fit{}, err
		}
		f.ShaftLimits = &l
	}
	return f, nil
}

// Clearance is the range of clearance of the pair; ok is false for one part.
func (f Fit) Clearance() (r Range, ok bool) {
	if f.HoleLimits == nil || f.ShaftLimits == nil {
		return Range{}, false
	}
	return Clearance(*f.HoleLimits, *f.ShaftLimits), true
}
