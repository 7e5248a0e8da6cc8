package seats

import (
	"math"

	"borewright/process/fact"
	"borewright/process/fit/ansib41"
	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

// Lube is what a plain bearing runs in.
type Lube int

// The ways.
const (
	Oil    Lube = iota
	Grease      // slow pins
	Liner       // a lining that needs none
)

// Running is what is known of a plain bearing.
type Running struct {
	Size   qty.Diameter
	Speed  float64 // rev/min
	Lube   Lube
	Alpha  [2]float64 // 1/K, of housing and shaft
	AtWork [2]float64 // °C of housing and shaft; both 20: as in the room
}

// Named is a fit with its clearance on diameter.
type Named struct {
	Name      string
	Clearance iso286.Range
}

// Runs is the clearance to choose, on diameter, installed, at 20 °C.
type Runs struct {
	Wanted  iso286.Range
	Nearest []Named // of ISO 286 and of ANSI B4.1, where there is one
	Because []fact.Fact
	Mind    []fact.Fact
}

// The clearance of a plain bearing over its diameter, 1/1000. An oil film: 1.0 in general
// (two sources: an answer of an engineering forum, lecture notes on journals), and by speed
// from where that is more. Grease on slow pins: 1 to 3 (pins of an excavator's service page
// and rebuild practice: two sources). A self-lubricating liner that turns: 1.5 (a trade
// page).
const (
	plainRatio  = 1.0
	greaseLeast = 1.0
	greaseMost  = 3.0
	linerRatio  = 1.5
)

// ratioOf is the clearance over the diameter of an oil-lubricated journal by the speed of
// its surface, u in m/s, 1/1000: ψ = 0.8 u^¼. Source: machine-element texts, after
// Vogelpohl; from memory.
func ratioOf(u float64) float64 { return max(plainRatio, 0.8*math.Pow(u, 0.25)) }

// from and to are how far the clearance may lie from the middle: the rules of the trade do
// not agree nearer than that. Common practice, no source.
const from, to = 0.75, 1.25

// leastRoom is the least clearance that oil or grease gets into, mm: 0.001 in, from an open
// note.
const leastRoom = 0.0254

// The speeds of the surface that the rules span, m/s: above, a bearing is calculated; below,
// no film of oil carries. Common practice, no source.
const fastest, slowest = 30.0, 0.1

// Run chooses the clearance of a plain bearing. A shaft that gets warmer than its housing
// takes from it d [α_s (T_s − 20) − α_h (T_h − 20)]; that is added in the room.
func Run(in Running) Runs {
	var r Runs
	d := in.Size.MM()
	u := math.Pi * d / 1000 * in.Speed / 60
	because := func(k fact.Kind, args ...fact.Arg) { r.Because = append(r.Because, fact.New(k, args...)) }
	mind := func(k fact.Kind, args ...fact.Arg) { r.Mind = append(r.Mind, fact.New(k, args...)) }
	ratio := func(v float64) fact.Arg { return fact.Figure(qty.KindFactor.Of(v)) }
	speed := func(v float64) fact.Arg { return fact.Value(qty.KindCuttingSpeed, v*60) }

	low, high := 0.0, 0.0 // on diameter, mm
	switch in.Lube {
	case Grease:
		low, high = greaseLeast*d/1000, greaseMost*d/1000
		because(ByGrease, ratio(greaseLeast), ratio(greaseMost))
	case Liner:
		low, high = from*linerRatio*d/1000, to*linerRatio*d/1000
		because(ByLiner, ratio(linerRatio))
	default:
		x := ratioOf(u)
		low, high = from*x*d/1000, to*x*d/1000
		if x > plainRatio {
			because(BySpeed, speed(u), ratio(x))
		} else {
			because(ByRule, ratio(x))
		}
		if u > fastest {
			mind(TooFast, speed(u), speed(fastest))
		} else if u < slowest && in.Speed > 0 {
			mind(TooSlow, speed(u))
		}
	}
	if in.Lube != Liner && low < leastRoom {
		high += leastRoom - low
		low = leastRoom
		because(ByLeast, fact.MM(leastRoom))
	}
	takes := d * (in.Alpha[1]*(in.AtWork[1]-20) - in.Alpha[0]*(in.AtWork[0]-20))
	switch {
	case takes > 0:
		low, high = low+takes, high+takes
		because(ShaftWarmer, fact.Value(qty.KindTemperature, in.AtWork[1]), fact.Value(qty.KindTemperature, in.AtWork[0]), fact.MM(takes))
	case takes < -0.001:
		mind(HousingGrows, fact.MM(-takes))
	}
	r.Wanted = iso286.Range{Least: qty.FromMM(low), Most: qty.FromMM(high)}
	r.Nearest = nearest(in.Size, r.Wanted, qty.FromMM(max(0, takes)))
	mind(AfterPress)
	mind(RunsAdvice)
	return r
}

// runningFits are what is chosen from: running fits of fit tables of textbooks, from memory.
var runningFits = []string{"H7/g6", "H7/f7", "H8/f7", "H8/e8", "H9/e9", "H8/d9", "H9/d9", "H11/c11"}

// nearest are the fit of each standard whose middle is nearest to the middle wanted, of
// those that the heat leaves some clearance of.
func nearest(d qty.Diameter, wanted iso286.Range, takes qty.Length) []Named {
	best := func(out *[]Named, all []Named) {
		var pick *Named
		off := func(n Named) qty.Length {
			return (n.Clearance.Least + n.Clearance.Most - wanted.Least - wanted.Most).Abs()
		}
		for i, n := range all {
			if n.Clearance.Least > takes && (pick == nil || off(n) < off(*pick)) {
				pick = &all[i]
			}
		}
		if pick != nil {
			*out = append(*out, *pick)
		}
	}
	var out, iso, inch []Named
	for _, f := range runningFits {
		if hole, shaft, err := iso286.Pair(d, f); err == nil {
			iso = append(iso, Named{f, iso286.Clearance(hole, shaft)})
		}
	}
	for _, c := range []string{"RC2", "RC3", "RC4", "RC5", "RC6", "RC7", "RC8", "RC9"} {
		if r, err := ansib41.Limits(d, c); err == nil {
			inch = append(inch, Named{c, iso286.Clearance(r.Hole, r.Shaft)})
		}
	}
	best(&out, iso)
	best(&out, inch)
	return out
}
