package seats

import "borewright/process/qty"

// widths are how far below its nominal size the mean diameter of a ring may be, µm, up to
// and including so many mm: ISO 492, Normal class, bore and outside; from memory.
var widths = []struct{ upto, bore, outside float64 }{
	{18, 8, 8}, {30, 10, 9}, {50, 12, 11}, {80, 15, 13}, {120, 20, 15}, {150, 25, 18}, {180, 25, 25},
	{250, 30, 30}, {315, 35, 35}, {400, 40, 40}, {500, 45, 45},
}

// tolerance is how wide the ring's surface at a seat is; 0: not known at this size.
func tolerance(d qty.Diameter, p Part) qty.Length {
	for _, w := range widths {
		if d.MM() <= w.upto && d.MM() > 6 {
			if p == Housing {
				return qty.FromMM(w.outside / 1000)
			}
			return qty.FromMM(w.bore / 1000)
		}
	}
	return 0
}
