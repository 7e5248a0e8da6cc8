package iso286

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"borewright/process/qty"
)

// Designation is a size with one class or a pair, as a drawing writes it:
// 50 H7/p6.
type Designation struct {
	Nominal     qty.Diameter
	Units       qty.Unit // what the size was written in
	Hole, Shaft string   // classes; one of them may be ""
}

// number is how a size is written: a decimal number or a fraction of an inch.
const number = `[+-]?(?:[0-9]+[ -]+)?[0-9]+/[0-9]+|[-+.0-9]+(?:,[0-9]+)?`

// written takes a size and what follows it apart: number, unit, classes.
var written = regexp.MustCompile(`^(` + number + `)\s*(?:(mm|in|inch|inches)(?:$|[^0-9a-z])|(")|)`)

// classFirst is the size behind the classes, with its unit behind both: H7/p6 50, 2.125 H7/r6 in.
var (
	classFirst = regexp.MustCompile(`^([A-Za-z]+[0-9]+(?:\s*[/ -]?\s*[A-Za-z]+[0-9]+)?)\s+[Øø⌀]?\s*((?:` + number + `).*)$`)
	unitLast   = regexp.MustCompile(`^(.*[0-9])\s+(mm|in|inch|inches|")$`)
	twoClasses = regexp.MustCompile(`^([A-Za-z]+[0-9]+)\s*[/ -]?\s*([A-Za-z]+[0-9]+)$`)
)

// Parse reads `50 H7/p6`, `50 H7-p6`, `50H7p6`, `H7/p6 50`, `2.0000in H7/s6`, `2 1/8 H7`,
// `2.125 H7/r6 in`, `80mm H7` or `Ø30 g6`. A number
// without a unit is in millimetres, as in the standard; a fraction is of an inch. A fit
// without a size has no limits. The classes are checked against the
// tables, so that a designation that parses has limits.
func Parse(text string) (Designation, error) {
	var d Designation
	t := strings.TrimSpace(text)
	t = strings.TrimSpace(strings.TrimLeft(t, "Øø⌀"))
	if utf8.RuneCountInString(t) > 64 {
		return d, fmt.Errorf("%s is too long for a size and a fit; write \"50 H7/p6\"", quote(t))
	}
	if t == "" {
		return d, fmt.Errorf("no size and fit given; write them as in \"50 H7/p6\" or \"2.0000in H7/s6\"")
	}
	if m := classFirst.FindStringSubmatch(t); m != nil {
		t = m[2] + " " + m[1]
		if u := unitLast.FindStringSubmatch(m[2]); u != nil {
			t = u[1] + u[2] + " " + m[1]
		}
	}
	m := written.FindStringSubmatch(t)
	if m == nil {
		return d, fmt.Errorf("%s has no size; limits depend on it: write \"50 %s\" (mm) or \"2.0000in %s\"", quote(text), clip(t), clip(t))
	}
	num, unit := m[1], m[2]+m[3]
	rest := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(t[len(num):]), unit))
	if u := unitLast.FindStringSubmatch(rest); u != nil && unit == "" {
		rest, unit = u[1], u[2]
	}
	if strings.Contains(num, ",") {
		return d, fmt.Errorf("%s has a decimal comma; write \"%s\"", quote(text), clip(strings.Replace(t, ",", ".", 1)))
	}
	if unit == "" && strings.Contains(num, "/") || strings.HasPrefix(unit, "i") || unit == `"` {
		unit, d.Units = "in", qty.Inches
	} else {
		unit = "mm"
	}
	var err error
	if d.Nominal, err = qty.ParseDiameter(num + unit); err != nil {
		return Designation{}, fmt.Errorf("%s: %w", quote(text), err)
	}
	pair := twoClasses.FindStringSubmatch(rest)
	switch {
	case rest == "":
		err = fmt.Errorf("%s has no class; write it after the size, as in \"%s%s H7\" or \"%s%s H7/p6\"", quote(text), num, unit, num, unit)
	case pair != nil || strings.Contains(rest, "/"):
		if pair != nil {
			rest = pair[1] + "/" + pair[2]
		}
		if d.Hole, d.Shaft, err = splitPair(rest); err == nil {
			_, _, err = Pair(d.Nominal, rest)
		}
	case strings.ContainsAny(rest, " \t"):
		err = fmt.Errorf("%s has more than a size and a class; write them as in \"%s%s H7\" or \"%s%s H7/p6\"", quote(text), num, unit, num, unit)
	case rest[0] >= 'a' && rest[0] <= 'z':
		d.Shaft = rest
		_, err = Shaft(d.Nominal, rest)
	default:
		d.Hole = rest
		_, err = Hole(d.Nominal, rest)
	}
	if err != nil {
		return Designation{}, err
	}
	return d, nil
}

// String writes the designation as Parse reads it.
func (d Designation) String() string {
	size := mm(d.Nominal)
	if d.Units == qty.Inches { // four decimals at least, as a drawing has them
		for n := 4; n <= 8; n++ { // eight tell one nanometre from the next
			size = d.Units.Decimals(d.Nominal.Length(), n) + "in"
			if again, err := qty.ParseDiameter(size); err == nil && again == d.Nominal {
				break
			}
		}
	}
	switch {
	case d.Hole == "":
		return size + " " + d.Shaft
	case d.Shaft == "":
		return size + " " + d.Hole
	}
	return size + " " + d.Hole + "/" + d.Shaft
}

func trimZeros(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

func splitPair(pair string) (h, s string, err error) {
	h, s, ok := strings.Cut(strings.TrimSpace(pair), "/")
	h, s = strings.TrimSpace(h), strings.TrimSpace(s)
	switch {
	case !ok || h == "" || s == "" || strings.Contains(s, "/"):
		return "", "", fmt.Errorf("%s is not a fit; write hole and shaft with a stroke between, as in H7/p6", quote(pair))
	case strings.ContainsAny(h+s, " \t"):
		return "", "", fmt.Errorf("%s is not a fit; write hole and shaft with one stroke between, as in H7/p6", quote(pair))
	case isLower(h) && !isLower(s):
		return "", "", fmt.Errorf("%s: the hole comes first; write %s/%s", quote(pair), clip(s), clip(h))
	}
	return h, s, nil
}

func isLower(s string) bool { return s[0] >= 'a' && s[0] <= 'z' }

// splitClass takes "JS7" apart. It does not ask whether the letter exists.
func splitClass(class string) (letter string, g grade, err error) {
	n := strings.IndexAny(class, "0123456789")
	if n < 0 {
		return "", 0, fmt.Errorf("no grade; a class is a letter and a grade, as in H7 or p6")
	}
	if n == 0 {
		return "", 0, fmt.Errorf("no letter; a class is a letter and a grade, as in H7 or p6")
	}
	g, ok := parseGrade(class[n:], "")
	if !ok {
		return "", 0, fmt.Errorf("%s is not a grade; the grades are 01, 0 and 1 to 18", quote(class[n:]))
	}
	return class[:n], g, nil
}

// quote puts a word of the user's in quotation marks, cut to a readable length.
func quote(s string) string { return fmt.Sprintf("%q", clip(s)) }

// clip shortens a word of the user's and takes out what a terminal would obey.
func clip(s string) string {
	s = strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return '?'
		}
		return r
	}, s)
	if r := []rune(s); len(r) > 32 {
		return string(r[:32]) + "…"
	}
	return s
}
