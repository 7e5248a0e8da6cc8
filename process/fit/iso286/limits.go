package iso286

import (
	"fmt"
	"strings"

	"borewright/process/qty"
)

// Limits are the limit deviations of a hole or shaft from its nominal size:
// ES and EI, or es and ei, of ISO 286-1.
type Limits struct{ Upper, Lower qty.Length }

// Tolerance is the distance between the limits.
func (l Limits) Tolerance() qty.Length { return l.Upper - l.Lower }

// Sizes are the limits of size, smallest and largest.
func (l Limits) Sizes(nominal qty.Diameter) (low, high qty.Diameter) {
	return nominal.Plus(l.Lower), nominal.Plus(l.Upper)
}

// Range is a least and a most.
type Range struct {
	Least qty.Length
	Most  qty.Length
}

// Clearance is what a hole leaves around a shaft of the same nominal size, on
// diameter, over all parts within limits. Negative clearance is interference.
func Clearance(hole, shaft Limits) Range {
	return Range{Least: hole.Lower - shaft.Upper, Most: hole.Upper - shaft.Lower}
}

// Interference is the same range the other way round: positive where the
// shaft is the larger.
func (r Range) Interference() Range { return Range{Least: -r.Most, Most: -r.Least} }

// Kind is what ISO 286-1 calls a fit by its clearance.
type Kind int

// The kinds of fit.
const (
	ClearanceFit Kind = iota
	TransitionFit
	InterferenceFit
)

func (k Kind) String() string { return [...]string{"clearance", "transition", "interference"}[k] }

// Kind is the kind of a fit with this clearance. One whose least clearance is
// zero is a clearance fit.
func (r Range) Kind() Kind {
	switch {
	case r.Least >= 0:
		return ClearanceFit
	case r.Most <= 0:
		return InterferenceFit
	}
	return TransitionFit
}

// Hole gives the limits of a hole class such as "H7" at a nominal size.
// Source: ISO 286-1:2010 Tables 1 to 7; Source says where each figure was seen.
func Hole(nominal qty.Diameter, class string) (Limits, error) { return limits(nominal, class, hole) }

// Shaft gives the limits of a shaft class such as "p6" at a nominal size.
func Shaft(nominal qty.Diameter, class string) (Limits, error) {
	return limits(nominal, class, shaft)
}

// Pair gives the limits of both parts of a fit written "H7/p6".
func Pair(nominal qty.Diameter, pair string) (holeLimits, shaftLimits Limits, err error) {
	h, s, err := splitPair(pair)
	if err != nil {
		return Limits{}, Limits{}, err
	}
	if holeLimits, err = Hole(nominal, h); err != nil {
		return Limits{}, Limits{}, err
	}
	if shaftLimits, err = Shaft(nominal, s); err != nil {
		return Limits{}, Limits{}, err
	}
	return holeLimits, shaftLimits, nil
}

// Grade gives the standard tolerance of a grade, "IT7", at a nominal size.
// Source: ISO 286-1:2010 Table 1.
func Grade(nominal qty.Diameter, grade string) (qty.Length, error) {
	if err := checkSize(nominal); err != nil {
		return 0, err
	}
	g, ok := parseGrade(grade, "IT")
	if !ok {
		return 0, fmt.Errorf("%s is not a tolerance grade; the grades are IT01, IT0 and IT1 to IT18", quote(grade))
	}
	c, err := tolerance(nominal, g)
	return c.value, err
}

// Source says where the figures of a class at a size come from, one line for
// the tolerance and one for each deviation used.
func Source(nominal qty.Diameter, class string) ([]string, error) {
	k := hole
	if class != "" && class[0] >= 'a' && class[0] <= 'z' {
		k = shaft
	}
	if _, err := limits(nominal, class, k); err != nil {
		return nil, err
	}
	letter, g, _ := splitClass(class)
	t, _ := tolerance(nominal, g)
	tab := data()
	out := []string{g.String() + ": " + tab.note[t.note]}
	row, _ := tab.find(k, letter, nominal, g)
	out = append(out, letter+": "+tab.note[row.note])
	if row.which == "ES+D" {
		d, _ := tab.find(delta, "-", nominal, g)
		out = append(out, "Delta: "+tab.note[d.note])
	}
	return out, nil
}

// limits resolves one class. The two limits are tied by the tolerance:
// es, EI given: the other is value − IT or value + IT; ei, ES given: the other
// way round; ES of K to X in the finer grades is the value plus Delta, which
// makes P7/h6 the same fit as H7/p6 (ISO 286-1:2010, 4.3.2.5).
func limits(nominal qty.Diameter, class string, k kind) (Limits, error) {
	if err := checkSize(nominal); err != nil {
		return Limits{}, err
	}
	letter, g, err := splitClass(class)
	if err != nil {
		return Limits{}, fmt.Errorf("%s: %w", quote(class), err)
	}
	if err := checkLetter(class, letter, k); err != nil {
		return Limits{}, err
	}
	l, ok := resolve(nominal, letter, g, k)
	if !ok {
		return Limits{}, notAtThisSize(nominal, letter, g, k)
	}
	return l, nil
}

// resolve looks a class up; ok is false where the standard's tables have none.
func resolve(nominal qty.Diameter, letter string, g grade, k kind) (Limits, bool) {
	cell, err := tolerance(nominal, g)
	if err != nil {
		return Limits{}, false
	}
	tab, it := data(), cell.value
	row, ok := tab.find(k, letter, nominal, g)
	if !ok || nominal <= qty.Diameter(qty.Millimetre) && (letter == "N" && g > 8 || strings.Contains("a b A B", letter)) {
		return Limits{}, false // a, b, A, B, and N above grade 8 are not used up to 1 mm (footnotes, from memory)
	}
	switch row.which {
	case "es", "ES":
		return Limits{Upper: row.value, Lower: row.value - it}, true
	case "ei", "EI":
		return Limits{Upper: row.value + it, Lower: row.value}, true
	case "js":
		return Limits{Upper: it / 2, Lower: -it / 2}, true
	}
	d, ok := tab.find(delta, "-", nominal, g) // "ES+D"
	es := row.value + d.value
	return Limits{Upper: es, Lower: es - it}, ok
}
