package measured

import (
	"math"
	"sort"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// ShopCut is one measured cut of a finished job.
type ShopCut struct {
	Job     string // number and revision
	Machine string // its ID
	Cut
}

// ShopCuts are the cuts of a job that its spring was learned from.
func ShopCuts(job *process.Job, seen *Findings) []ShopCut {
	var out []ShopCut
	if seen == nil {
		return nil
	}
	for _, c := range seen.Cuts {
		if c.Counts {
			out = append(out, ShopCut{Job: job.Number + " " + job.Revision, Machine: job.Machine.ID, Cut: c})
		}
	}
	return out
}

// BarSpring is spring predicted against seen for one bar and stickout.
type BarSpring struct {
	Bar             qty.Diameter
	Stickout        qty.Length
	Cuts            int
	Predicted, Seen qty.Length // mean, on diameter
	Ratio, Spread   float64    // seen over predicted, weighed; its standard deviation between cuts
}

// ShopFit is what the finished jobs of one machine say of it.
type ShopFit struct {
	Machine string
	Cuts    int
	Bars    []BarSpring

	Force         float64    // cutting force over predicted
	ForceWithin   [2]float64 // it lies in there 19 times in 20, whatever the nose is
	ForceIfStated [2]float64 // the same if the nose is as stated
	Root          float64    // stiffness of the nose over stated
	RootWithin    [2]float64 // it lies in there 19 times in 20
	Apart         bool       // the two could be told apart; if not, Root is 1
	Why           fact.Fact  // if not: why
	Misfit        float64    // root mean square of what is left, in standard deviations of a measurement
}

// FitShop fits force and stiffness of the nose to measured cuts, a row for each machine,
// by machine. Where the bars are alike only the product of the two shows: the nose is then left
// as stated, the force is what goes with that, and the doubt of each has the other's in it.
func FitShop(cuts []ShopCut) []ShopFit {
	by := map[string][]ShopCut{}
	var names []string
	for _, c := range cuts {
		if c.Predicted <= 0 || c.Noise <= 0 {
			continue
		}
		if by[c.Machine] == nil {
			names = append(names, c.Machine)
		}
		by[c.Machine] = append(by[c.Machine], c)
	}
	sort.Strings(names)
	var out []ShopFit
	for _, n := range names {
		f := ShopFit{Machine: n, Cuts: len(by[n]), Root: 1, Bars: barsOf(by[n])}
		f.fit(by[n])
		out = append(out, f)
	}
	return out
}

// barsOf sums the cuts up by bar and stickout, the stiffest first.
func barsOf(cuts []ShopCut) []BarSpring {
	type key struct {
		bar      qty.Diameter
		stickout qty.Length
	}
	by := map[key][]ShopCut{}
	var order []key
	for _, c := range cuts {
		k := key{c.Bar, c.Stickout}
		if by[k] == nil {
			order = append(order, k)
		}
		by[k] = append(by[k], c)
	}
	sort.Slice(order, func(i, j int) bool {
		a, b := order[i], order[j]
		if x, y := a.stickout.MM()/a.bar.MM(), b.stickout.MM()/b.bar.MM(); x != y {
			return x < y
		}
		return a.stickout < b.stickout
	})
	var out []BarSpring
	for _, k := range order {
		s := BarSpring{Bar: k.bar, Stickout: k.stickout, Cuts: len(by[k])}
		var predicted, seen, xy, xx float64
		for _, c := range by[k] {
			p, y := c.BarGive+c.RootGive, c.Seen.MM()
			predicted, seen = predicted+p, seen+y
			xy, xx = xy+p*y/(c.Noise*c.Noise), xx+p*p/(c.Noise*c.Noise)
		}
		n := float64(s.Cuts)
		s.Predicted, s.Seen, s.Ratio = qty.FromMM(predicted/n), qty.FromMM(seen/n), xy/xx
		for _, c := range by[k] {
			s.Spread += math.Pow(c.Seen.MM()/(c.BarGive+c.RootGive)-s.Ratio, 2)
		}
		if s.Cuts > 1 {
			s.Spread = math.Sqrt(s.Spread / (n - 1))
		}
		out = append(out, s)
	}
	return out
}
