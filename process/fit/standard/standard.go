// Package standard reads a fit by whichever standard names it: ISO 286, 50 H7/p6, or
// ANSI B4.1, 2.125 RC4. It looks nothing up itself.
package standard

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"borewright/process/fit/ansib41"
	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

// Fit is a size with the limits that a standard gives it.
type Fit struct {
	iso286.Fit
	Class      string       // of ANSI B4.1, "RC4", which names both parts; "": ISO 286
	Symbols    [2]string    // of a class: those of hole and shaft, "" where the standard has none
	Over, Upto qty.Diameter // the range of sizes that share the limits
	Sources    []string     // where the figures were seen
}

// String writes the fit as Parse reads it.
func (f Fit) String() string {
	if f.Class == "" {
		return f.Designation.String()
	}
	size, _, _ := strings.Cut(iso286.Designation{Nominal: f.Nominal, Units: f.Units}.String(), " ")
	if f.Units != qty.Inches {
		size += "mm" // a bare number is in inches here
	}
	return size + " " + f.Class
}

// Hole gives the limits of a bore: of a hole class, "H7", or of the hole of a class of
// ANSI B4.1, "RC4".
func Hole(nominal qty.Diameter, class string) (iso286.Limits, error) {
	if c, ok := ansib41.Name(class); ok {
		r, err := ansib41.Limits(nominal, c)
		return r.Hole, err
	}
	return iso286.Hole(nominal, class)
}

// Pair gives the limits of both parts: "H7/p6", or "FN2".
func Pair(nominal qty.Diameter, fit string) (hole, shaft iso286.Limits, err error) {
	for part := range strings.SplitSeq(fit, "/") {
		if c, ok := ansib41.Name(part); ok && strings.Contains(fit, "/") {
			return hole, shaft, fmt.Errorf("%s names hole and shaft together; write %[1]s", c)
		}
	}
	if c, ok := ansib41.Name(fit); ok {
		r, err := ansib41.Limits(nominal, c)
		return r.Hole, r.Shaft, err
	}
	return iso286.Pair(nominal, fit)
}

// Name is a fit as its standard writes it: "RC4" where a hand wrote "rc 4".
func Name(fit string) string {
	if c, ok := ansib41.Name(fit); ok {
		return c
	}
	return fit
}

// Inch is whether a fit is one of ANSI B4.1.
func Inch(fit string) bool {
	_, ok := ansib41.Name(fit)
	return ok
}

// HoleOf is what the hole of a fit is called: "H7" of "H7/p6", "FN2" of "FN2".
func HoleOf(fit string) string {
	hole, _, _ := strings.Cut(fit, "/")
	return hole
}

// named finds a class of ANSI B4.1 in a text; beside are what hands write around it.
var (
	named  = regexp.MustCompile(`(?i)(^|[^A-Za-z])((?:RC|LC|LT|LN|FN)[ -]?[0-9]*)($|[^A-Za-z0-9])`)
	lasts  = regexp.MustCompile(`(?i)^(.*[0-9])((?:RC|LC|LT|LN|FN)[0-9]*)$`)
	first  = regexp.MustCompile(`[0-9.]+(?:[ -]+[0-9]+/[0-9]+)?`)
	number = regexp.MustCompile(`^[-+0-9./,]+(?:[ -]+[0-9]+/[0-9]+)?$`)
)

// Parse reads what iso286.Parse reads, and the classes of ANSI B4.1: `2.125 RC4`,
// `2 1/8 FN2`, `RC4 2.125`, `2.125in rc 4`, `50mm FN2`. With them a number without a unit
// is in inches, as in the standard. What parses has limits.
func Parse(text string) (Fit, error) {
	t := strings.TrimSpace(text)
	m := named.FindStringSubmatchIndex(t)
	var class, size string
	if m != nil {
		class, size = t[m[4]:m[5]], strings.TrimSpace(t[:m[4]]+" "+t[m[5]:])
	} else if l := lasts.FindStringSubmatch(t); l != nil {
		class, size = l[2], l[1]
	} else {
		return parseISO(text)
	}
	class, _ = ansib41.Name(class)
	size = strings.Trim(strings.TrimLeft(size, "Øø⌀"), " -")
	if len(t) > 64 {
		return Fit{}, fmt.Errorf("that is too long for a size and a fit; write \"2.125in RC4\"")
	}
	if size == "" {
		return Fit{}, fmt.Errorf("%q has no size; limits depend on it: write \"2.0000in %s\"", t, sound(class))
	}
	num, units := strings.TrimSpace(size), qty.Inches
	for _, u := range []string{"inches", "inch", "in", `"`, "mm"} {
		if n, ok := strings.CutSuffix(num, u); ok {
			num = strings.TrimSpace(n)
			if u == "mm" {
				units = qty.Metric
			}
			break
		}
	}
	if !number.MatchString(num) {
		good := Fit{Class: class}
		good.Units = units
		if d, err := qty.ParseDiameter(first.FindString(num) + units.String()); err == nil {
			good.Nominal = d
		}
		if _, err := ansib41.Limits(good.Nominal, class); err != nil {
			good.Nominal, good.Units, good.Class = 2*qty.Diameter(qty.Inch), qty.Inches, sound(class)
		}
		return Fit{}, fmt.Errorf("%q: %s names hole and shaft together, and needs a size alone; write \"%s\"", t, class, good)
	}
	if strings.Contains(num, ",") {
		return Fit{}, fmt.Errorf("%q has a decimal comma; write \"%s%s %s\"", t, strings.Replace(num, ",", ".", 1), units, class)
	}
	d, err := qty.ParseDiameter(num + units.String())
	if err != nil {
		return Fit{}, fmt.Errorf("%q: %w", t, err)
	}
	f := Fit{Class: class}
	f.Nominal, f.Units, f.Hole, f.Shaft = d, units, class, class
	r, err := ansib41.Limits(d, class)
	var no *ansib41.Refusal
	switch mm := qty.DiameterMM(d.Length().Inches()); {
	case errors.As(err, &no):
		f.Class = no.Nearest
		return Fit{}, fmt.Errorf("%s; write \"%s\"", no.Why(), f)
	case err != nil && units == qty.Inches && mm > 0 && mm <= ansib41.Largest:
		return Fit{}, fmt.Errorf("ANSI B4.1 goes up to 19.69 in; %s is taken in inches: for mm write \"%[1]smm %s\"", num, class)
	case err != nil:
		return Fit{}, err
	}
	f.HoleLimits, f.ShaftLimits = &r.Hole, &r.Shaft
	f.Symbols, f.Over, f.Upto, f.Sources = r.Symbols, r.Over, r.Upto, []string{class + ": ANSI B4.1-1967 (R1987); " + r.Source}
	return f, nil
}

// bare is a number without a unit.
var bare = regexp.MustCompile(`^[-+0-9.]+$`)

// ParseSize reads a size alone, "110", "4.3307 in", "2 1/8", with the units that it is
// written in. A bare number is in mm, a fraction of an inch.
func ParseSize(text string) (qty.Diameter, qty.Unit, error) {
	t := strings.TrimSpace(strings.TrimLeft(strings.TrimSpace(text), "Øø⌀"))
	if bare.MatchString(t) {
		t += "mm"
	}
	d, err := qty.ParseDiameter(t)
	switch {
	case err != nil:
		return 0, 0, err
	case d <= 0:
		return 0, 0, fmt.Errorf("%q: a size is above 0; write it as in \"110 mm\" or \"4.3307 in\"", text)
	case strings.ContainsAny(t, "i\"/"):
		return d, qty.Inches, nil
	}
	return d, qty.Metric, nil
}

// sound is the class itself, or the one nearest to it that there is at 2 in.
func sound(class string) string {
	var no *ansib41.Refusal
	if _, err := ansib41.Limits(2*qty.Diameter(qty.Inch), class); errors.As(err, &no) {
		return no.Nearest
	}
	return class
}

// parseISO is Parse of a designation of ISO 286.
func parseISO(text string) (Fit, error) {
	d, err := iso286.Parse(text)
	if err != nil {
		return Fit{}, err
	}
	f := Fit{}
	if f.Fit, err = d.Resolve(); err != nil {
		return Fit{}, err
	}
	f.Over, f.Upto, _ = iso286.SizeRange(f.Nominal)
	for _, class := range []string{f.Hole, f.Shaft} {
		if class == "" {
			continue
		}
		from, err := iso286.Source(f.Nominal, class)
		if err != nil {
			return Fit{}, err
		}
		f.Sources = append(f.Sources, from...)
	}
	return f, nil
}
