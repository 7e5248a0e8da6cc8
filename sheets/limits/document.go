package limits

import "borewright/process/fit"

// Figures is a fit for JSON: deviations and clearance in µm, exact.
type Figures struct {
	Nominal   float64           `json:"nominal_mm"`
	Hole      *DeviationFigures `json:"hole,omitempty"`
	Shaft     *DeviationFigures `json:"shaft,omitempty"`
	Clearance *ClearanceFigures `json:"clearance_um,omitempty"`
}

// DeviationFigures are the two limit deviations of one part, µm.
type DeviationFigures struct {
	Upper float64 `json:"upper_um"`
	Lower float64 `json:"lower_um"`
}

// ClearanceFigures is a range of clearance, µm; negative is interference.
type ClearanceFigures struct {
	Min float64 `json:"min"`
	Max float64 `json:"max"`
}

// Document gives a fit for JSON.
func Document(f fit.Fit) Figures {
	j := Figures{Nominal: f.Nominal.MM()}
	part := func(l *fit.Limits) *DeviationFigures {
		if l == nil {
			return nil
		}
		return &DeviationFigures{l.Upper.Microns(), l.Lower.Microns()}
	}
	j.Hole, j.Shaft = part(f.HoleLimits), part(f.ShaftLimits)
	if c, ok := f.Clearance(); ok {
		j.Clearance = &ClearanceFigures{c.Least.Microns(), c.Most.Microns()}
	}
	return j
}
