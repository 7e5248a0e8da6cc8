package fit

import (
	"math"
	"slices"

	"borewright/process/fact"
	"borewright/process/fit/iso286"
	"borewright/process/fit/standard"
	"borewright/process/qty"
)

// LeastWall is the least wall of a repair sleeve round a finished bore: 2.5 mm
// up to 100 mm, 3 mm above, and never under 0.025 of the bore. Common
// practice, no source; engine-block dry liners of 2.4 to 3.2 mm agree.
func LeastWall(finish qty.Diameter) qty.Length {
	wall := 2.5
	if finish > qty.DiameterMM(100) {
		wall = 3
	}
	return qty.FromMM(max(wall, 0.025*finish.MM()))
}

// StandardOutsides are sleeve outsides to choose from when the shop names
// none: whole millimetres to 120 mm and fives above, or sixteenths of an inch
// to 6 in and eighths above. Common practice, no source.
func StandardOutsides(u qty.Unit, from, upto qty.Diameter) []qty.Diameter {
	fine, coarse, change := qty.Diameter(qty.Millimetre), 5*qty.Diameter(qty.Millimetre), qty.DiameterMM(120)
	if u == qty.Inches {
		fine, coarse, change = qty.Diameter(qty.Inch)/16, qty.Diameter(qty.Inch)/8, 6*qty.Diameter(qty.Inch)
	}
	var out []qty.Diameter
	for d := max(from, 0); d <= upto && d <= qty.DiameterMM(3150); {
		step := fine
		if d >= change {
			step = coarse
		}
		if d > 0 && d%step == 0 {
			out = append(out, d)
		}
		d += step - d%step
	}
	return out
}

// pairLimits gives the limits of housing and sleeve at one nominal size.
func (in SleeveInput) pairLimits(d qty.Diameter) (housing, sleeve iso286.Limits, err error) {
	if in.Fit == "" {
		return in.Housing, in.Sleeve, nil
	}
	return standard.Pair(d, in.Fit)
}

// outsideDoes says whether an outside cleans the old bore up and leaves wall;
// why is the kind of what it fails by, with its figures, and "" when it does.
func (in SleeveInput) outsideDoes(d qty.Diameter) (why fact.Kind, figures []fact.Arg, err error) {
	housing, sleeve, err := in.pairLimits(d)
	if err != nil {
		return "", nil, err
	}
	low, _ := housing.Sizes(d)
	thin, _ := sleeve.Sizes(d)
	wall := thin.Minus(in.BoreHigh) / 2
	switch {
	case low < in.CleanUp:
		return OutsideSmall, []fact.Arg{fact.Size(low), fact.Size(in.CleanUp)}, nil
	case wall < in.wall():
		return OutsideThin, []fact.Arg{fact.Size(d), fact.Figure(wall), fact.Figure(in.wall())}, nil
	}
	return "", nil, nil
}

func (in SleeveInput) wall() qty.Length {
	if in.Wall > 0 {
		return in.Wall
	}
	return LeastWall(in.BoreHigh)
}

// chooseOutside takes the outside stated, or the smallest standard one that
// cleans up and leaves wall.
func (in SleeveInput) chooseOutside() (d qty.Diameter, reasons []fact.Fact, err error) {
	sizes := slices.Sorted(slices.Values(in.Standard))
	if len(sizes) == 0 {
		from := max(in.CleanUp, in.BoreHigh)
		sizes = StandardOutsides(in.Units, from.Plus(-in.wall()), from.Plus(8*in.wall()+50*qty.Millimetre))
	}
	var best qty.Diameter
	var last error
	for _, s := range sizes {
		why, _, err := in.outsideDoes(s)
		if err == nil && why == "" {
			best = s
			break
		}
		last = err
	}
	if in.Outside == 0 {
		if best == 0 && last != nil {
			return 0, nil, last
		}
		if best == 0 {
			return 0, nil, fact.New(NoOutside, fact.Size(in.CleanUp), fact.Figure(in.wall()), fact.Size(sizes[len(sizes)-1])).Err()
		}
		return best, nil, nil
	}
	why, figures, err := in.outsideDoes(in.Outside)
	if err != nil || why == "" {
		return in.Outside, nil, err
	}
	if best != 0 {
		figures = append(figures, fact.Size(best))
	}
	return in.Outside, []fact.Fact{fact.New(why, figures...)}, nil
}

// Chamfer is a lead-in for pressing.
type Chamfer struct {
	AnglePerSide float64
	Length       qty.Length // along the axis
	OnDiameter   qty.Length
	Why          fact.Fact
}

// LeadIn suggests a lead-in chamfer for the nose of a sleeve of wall t: 15° a
// side over 1.5 to 3 mm, but at most a third of the wall, or it is a fine
// taper of 5°. Common practice, no source; one overhaul manual asks for 20°.
func LeadIn(u qty.Unit, outside qty.Diameter, wall qty.Length, interference qty.Length) Chamfer {
	c := Chamfer{AnglePerSide: 15}
	step := 0.5 // a chamfer is set to half a millimetre or a thirty-second of an inch
	if u == qty.Inches {
		step = 25.4 / 32
	}
	long := math.Floor(min(3, max(1.5, 0.025*outside.MM()))/step+0.5) * step
	radial := func() float64 { return long * math.Tan(c.AnglePerSide*math.Pi/180) }
	if radial() > wall.MM()/3 {
		c.AnglePerSide = 5
	}
	return Nose(c.AnglePerSide, qty.FromMM(long), interference)
}

// Nose is a lead-in of so many degrees a side and so long.
func Nose(a float64, long qty.Length, interference qty.Length) Chamfer {
	c := Chamfer{AnglePerSide: a, Length: long, OnDiameter: qty.FromMM(2 * long.MM() * math.Tan(a*math.Pi/180))}
	angle, along, on := fact.Figure(qty.KindAngle.Of(c.AnglePerSide)), fact.Figure(c.Length), fact.Figure(c.OnDiameter)
	c.Why = fact.New(LeadInTaper, angle, along, on)
	if c.OnDiameter <= interference {
		c.Why = fact.New(LeadInShort, angle, along, on, fact.Figure(interference))
	}
	return c
}
