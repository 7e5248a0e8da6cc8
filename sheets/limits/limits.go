// Package limits lays the limits of a fit out for reading: a drawing of its
// tolerance zones, its sizes in both systems with their source, and the figures
// for JSON. The limits themselves come from process/fit.
package limits

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/fit/iso286"
	"borewright/process/fit/standard"
	"borewright/process/qty"
	"borewright/sheets/page"
)

// Report is a fit for reading: the drawing of Sketch, which ends in the
// limits and the range in the units of the designation; the same in the other
// units; what the fit is for; and where the figures come from. At most 80 columns.
func Report(f standard.Fit) string {
	var out strings.Builder
	out.WriteString(Sketch(f))
	out.WriteString("\n")
	other, unit := qty.Inches-f.Units, "µm"
	if other == qty.Inches {
		unit = "in"
	}
	row := func(name, class string, l *iso286.Limits) {
		if l == nil {
			return
		}
		low, high := l.Sizes(f.Nominal)
		fmt.Fprintf(&out, "%-13s %s %s   (%s / %s %s)\n", name+" "+class, sizes(other, low, high), other, deviation(other, l.Lower), deviation(other, l.Upper), unit)
	}
	row("hole ", f.Hole, f.HoleLimits)
	row("shaft", f.Shaft, f.ShaftLimits)
	if c, ok := f.Clearance(); ok {
		plain := func(l qty.Length) string { return strings.TrimPrefix(deviation(other, l), "+") }
		fmt.Fprintf(&out, "%-13s %s\n", c.Kind(), sayRange(c, plain, unit))
	}
	if m := meaning(f); m != "" {
		out.WriteString("\n" + headed("means", m))
	}
	out.WriteString("\n")
	var notes []string
	for _, s := range f.Sources {
		if !slices.Contains(notes, s) {
			notes = append(notes, s)
		}
	}
	out.WriteString(headed("figures", notes...))
	return out.String()
}

// headed is paragraphs behind one head, folded.
func headed(head string, all ...string) string {
	var out strings.Builder
	for _, s := range all {
		for _, line := range page.Fold(s, 66) {
			out.WriteString(strings.TrimRight(fmt.Sprintf("%-13s %s", head, line), " ") + "\n")
			head = ""
		}
	}
	return out.String()
}

// deviation prints a deviation in µm, or in inches to five decimals.
func deviation(u qty.Unit, l qty.Length) string {
	if u != qty.Inches {
		return signed(l.Microns(), 2)
	}
	s := u.Decimals(l.Abs(), 5)
	switch {
	case strings.Trim(s, "0.") == "":
		return "0"
	case l < 0:
		return "−" + s
	}
	return "+" + s
}
