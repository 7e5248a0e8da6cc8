package files

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fit/standard"
	"borewright/process/source"
)

// finish works out the size that a bore must come to, in whichever of the four
// ways it is stated. It is empty where it cannot be told.
func (c *checker) finish(at string, f process.Finish) process.Finish {
	if !c.Given(at) {
		return process.Finish{} // missing: already said
	}
	on := func(k string) bool { return c.Given(at + "." + k) }
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
		c.Bad(at, what, four)
		return process.Finish{}
	}
	for _, k := range ways[way] {
		if !c.Has(at + "." + k) {
			return process.Finish{} // already said
		}
	}
	switch way {
	case 0:
		f.Fit = standard.Name(f.Fit)
		l, err := standard.Hole(f.Nominal, f.Fit)
		if err != nil {
			if strings.Contains(f.Fit, "/") {
				err = fmt.Errorf("%q names both parts; give the class of the hole alone, as \"H7\"", source.Show(f.Fit))
			}
			what, allowed := source.Advice(err, `write a class that the standard has at this size, as "H7" or "RC4"`)
			c.Bad(at+".fit", what, allowed)
			return process.Finish{}
		}
		f.Low, f.High = f.Nominal.Plus(l.Lower), f.Nominal.Plus(l.Upper)
	case 1:
		f.Nominal = f.Low
	case 2:
		f.Low, f.High = f.Nominal.Plus(f.Lower), f.Nominal.Plus(f.Upper)
	case 3:
		f.Nominal, f.Low, f.High = f.Mating, f.Mating.Plus(f.Clearance[0]), f.Mating.Plus(f.Clearance[1])
	}
	key := at + "." + [...]string{"fit", "high", "upper", "clearance"}[way]
	switch {
	case f.Low > f.High:
		c.Badf(key, "the low limit comes first", "the limits stand the wrong way round: low %s, high %s", c.Dia(f.Low), c.Dia(f.High))
	case f.Low == f.High:
		c.Bad(key, "the limits leave no tolerance", "write a smallest and a largest size that differ")
	case f.Low <= 0:
		c.Bad(key, "the low limit is not a size", "check the deviations: they are on diameter, with their sign")
	default:
		return f
	}
	return process.Finish{}
}
