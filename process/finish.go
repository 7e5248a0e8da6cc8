package process

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/fit"
	"borewright/process/qty"
)

// finish reads the size that a bore must come to, in whichever of the four
// ways it is stated.
func (c *checker) finish(at string) Finish {
	if !c.given[at] {
		return Finish{} // missing: already said
	}
	on := func(k string) bool { return c.given[at+"."+k] }
	ways := [][]string{{"diameter", "fit"}, {"low", "high"}, {"diameter", "upper", "lower"}, {"mating", "clearance"}}
	const four = "write one of { diameter, fit }, { low, high }, { diameter, upper, lower } or { mating, clearance }"
	var there []string
	for _, k := range []string{"diameter", "fit", "low", "high", "upper", "lower", "mating", "clearance"} {
		if on(k) {
			there = append(there, k)
		}
	}
	way := slices.IndexFunc(ways, func(w []string) bool {
		return len(w) == len(there) && !slices.ContainsFunc(there, func(k string) bool { return !slices.Contains(w, k) })
	})
	if way < 0 {
		what := "states no size"
		if len(there) > 0 {
			what = "is stated by " + strings.Join(there, ", ")
			for _, w := range ways { // part of one way: name what is missing
				if !slices.ContainsFunc(there, func(k string) bool { return !slices.Contains(w, k) }) {
					what += " alone"
					break
				}
			}
		}
		c.bad(at, what, four)
		return Finish{}
	}
	for _, k := range ways[way] {
		if !c.has(at + "." + k) {
			return Finish{} // already said
		}
	}
	var f Finish
	switch way {
	case 0:
		f.Nominal, f.Fit = c.diameter(at+".diameter"), c.text(at+".fit")
		l, err := fit.Hole(f.Nominal, f.Fit)
		if err != nil {
			if strings.Contains(f.Fit, "/") {
				err = fmt.Errorf("%q names both parts; give the class of the hole alone, as \"H7\"", show(f.Fit))
			}
			what, allowed := advice(err, `write a hole class that the standard has at this size, as "H7"`)
			c.bad(at+".fit", what, allowed)
			return Finish{}
		}
		f.Low, f.High = f.Nominal.Plus(l.Lower), f.Nominal.Plus(l.Upper)
	case 1:
		f.Low, f.High = c.diameter(at+".low"), c.diameter(at+".high")
		f.Nominal = f.Low
	case 2:
		f.Nominal = c.diameter(at + ".diameter")
		f.Low, f.High = f.Nominal.Plus(c.length(at+".lower")), f.Nominal.Plus(c.length(at+".upper"))
	case 3:
		gap := list[qty.Length](c.reader, at+".clearance")
		if len(gap) != 2 {
			return Finish{}
		}
		f.Mating, f.Clearance = c.diameter(at+".mating"), [2]qty.Length{gap[0], gap[1]}
		f.Nominal, f.Low, f.High = f.Mating, f.Mating.Plus(gap[0]), f.Mating.Plus(gap[1])
	}
	key := at + "." + [...]string{"fit", "high", "upper", "clearance"}[way]
	switch {
	case f.Low > f.High && way == 3:
		c.badf(key, "write the least first", "the least clearance, %s, is above the most, %s", c.len(f.Clearance[0]), c.len(f.Clearance[1]))
	case f.Low > f.High:
		c.badf(key, "the low limit comes first", "the limits stand the wrong way round: low %s, high %s", c.dia(f.Low), c.dia(f.High))
	case f.Low == f.High:
		c.bad(key, "the limits leave no tolerance", "write a smallest and a largest size that differ")
	case f.Low <= 0:
		c.bad(key, "the low limit is not a size", "check the deviations: they are on diameter, with their sign")
	default:
		return f
	}
	return Finish{}
}
