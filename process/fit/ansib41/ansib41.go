// Package ansib41 gives the limits of ANSI B4.1, the fits of inch shops: RC, LC, LT,
// LN and FN. A class names hole and shaft together. Limits come from the standard's
// table, never from between two rows; they are exact, in nanometres.
package ansib41

import (
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

//go:embed tables/fits.txt
var fitsText string

// Row is a class in one range of sizes.
type Row struct {
	Class       string       // "RC4"
	Over, Upto  qty.Diameter // sizes over the one, up to and including the other
	Hole, Shaft iso286.Limits
	Symbols     [2]string // of hole and shaft in the standard, "H8" and "f7"; "" where it has none
	Source      string    // where the figures were seen
	printed     [2]qty.Length
}

// Largest is the largest size of the standard.
const Largest = 1969 * qty.Diameter(qty.Inch) / 100

// kinds are the letters of the standard, each with the most of its numbers.
var kinds = []struct {
	letters string
	most    int
}{{"RC", 9}, {"LC", 11}, {"LT", 6}, {"LN", 3}, {"FN", 5}}

// Name reads a class as hands write it, "RC4", "rc 4", "FN-2"; false where the text is
// none of this standard: its two letters and, where there is one, a number. What
// it gives back need not exist.
func Name(text string) (class string, ok bool) {
	t := strings.ToUpper(strings.TrimSpace(text))
	for _, k := range kinds {
		if rest, is := strings.CutPrefix(t, k.letters); is {
			number := strings.TrimLeft(rest, " -")
			return k.letters + number, strings.Trim(number, "0123456789") == ""
		}
	}
	return "", false
}

// Limits gives a class at a nominal size. A refusal says in Nearest what there is.
// Source: ANSI B4.1-1967 (R1987); Row.Source says where each figure was seen.
func Limits(nominal qty.Diameter, class string) (Row, error) {
	near, why := check(class)
	switch {
	case nominal <= 0:
		return Row{}, fmt.Errorf("the nominal size must be above 0 in, not %s in", inches(nominal))
	case nominal > Largest:
		return Row{}, fmt.Errorf("ANSI B4.1 goes up to 19.69 in; %s in is beyond it: state the limits of size instead", inches(nominal))
	case why == "":
		if r, ok := find(nominal, class); ok {
			return r, nil
		}
		why = fmt.Sprintf("ANSI B4.1 has no %s at %s in", class, inches(nominal))
	}
	at := near[:2] // a class that is not at this size: the nearest number that is
	number, _ := strconv.Atoi(near[2:])
	least := math.MaxInt
	for _, c := range Classes() {
		n, _ := strconv.Atoi(c[2:])
		if _, ok := find(nominal, c); ok && c[:2] == at && max(n-number, number-n) < least {
			near, least = c, max(n-number, number-n)
		}
	}
	return Row{}, &Refusal{why: why, Nearest: near}
}

// Refusal is a class that the standard does not have, or not at this size.
type Refusal struct {
	why     string
	Nearest string // the class nearest to it that there is
}

func (r *Refusal) Error() string { return r.why + "; write " + r.Nearest }

// Why is the first half of it, without the advice.
func (r *Refusal) Why() string { return r.why }

// check is the class nearest to one that is not, and why it is not; "" where it is.
func check(class string) (near, why string) {
	for _, k := range kinds {
		number, is := strings.CutPrefix(class, k.letters)
		if !is {
			continue
		}
		goes := fmt.Sprintf("%s goes from %s1 to %s%d", k.letters, k.letters, k.letters, k.most)
		n, err := strconv.Atoi(number)
		switch {
		case number == "":
			return k.letters + strconv.Itoa((k.most+1)/2), "\"" + k.letters + "\" has no number: " + goes
		case err != nil || n > k.most || number[0] == '0':
			if n = max(1, min(n, k.most)); err != nil {
				n = k.most
			}
			return k.letters + strconv.Itoa(n), "ANSI B4.1 has no " + class[:min(len(class), 8)] + ": " + goes
		}
		return class, ""
	}
	return "RC4", "that is no class of ANSI B4.1, which has RC, LC, LT, LN and FN"
}

// Classes are all classes, loosest use first within each letter pair as the standard
// numbers them.
func Classes() []string {
	var out []string
	for _, r := range rows() {
		if !slices.Contains(out, r.Class) {
			out = append(out, r.Class)
		}
	}
	return out
}

func find(d qty.Diameter, class string) (Row, bool) {
	for _, r := range rows() {
		if r.Class == class && d > r.Over && d <= r.Upto {
			return r, true
		}
	}
	return Row{}, false
}

func inches(d qty.Diameter) string {
	s := strings.TrimRight(qty.Inches.Decimals(d.Length(), 6), "0")
	return strings.TrimSuffix(s, ".")
}

// rows reads the table on first use. It is part of the program: a fault in it is ours,
// and a test reads it, so it panics.
var rows = sync.OnceValue(func() []Row {
	notes, out := map[string]string{}, []Row(nil)
	for line := range strings.Lines(fitsText) {
		f := strings.Fields(line)
		switch {
		case len(f) == 0 || f[0] == "#":
		case f[0] == "note":
			notes[f[1]] = strings.Join(f[2:], " ")
		case len(f) != 12 || notes[f[11]] == "":
			panic("fit: tables/fits.txt: " + line)
		default:
			var v [8]qty.Length // in thousandths, but for the range
			for i := range v {
				x, err := strconv.ParseFloat(f[i+1], 64)
				if err != nil {
					panic("fit: tables/fits.txt: " + err.Error())
				}
				v[i] = qty.FromInches(x / 1000)
			}
			r := Row{Class: f[0], Over: qty.Diameter(1000 * v[0]), Upto: qty.Diameter(1000 * v[1]), Source: notes[f[11]],
				Hole: iso286.Limits{Lower: v[2], Upper: v[3]}, Shaft: iso286.Limits{Lower: v[4], Upper: v[5]}, printed: [2]qty.Length{v[6], v[7]}}
			for i, s := range f[9:11] {
				r.Symbols[i] = strings.TrimPrefix(s, "-")
			}
			out = append(out, r)
		}
	}
	return out
})
