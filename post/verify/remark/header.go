package remark

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"borewright/process/qty"
)

// Setting is a size of the header that the cutter is to be set to, and the number
// of the pass whose line it stands in; 0: of none.
type Setting struct {
	Pass int
	Size Size
}

// Settings looks for SET DIA and a number, after the number of the pass that
// begins its line. Other numbers of a header are of bar, bore and cutter.
func Settings(said []Remark) (out []Setting) {
	var all []token
	var lines, passes []int
	pass := 0
	for _, r := range said {
		for i, t := range tokens(r.Text) {
			if i == 0 && !strings.HasPrefix(r.Text, " ") {
				if pass = 0; t.number && t.v == math.Trunc(t.v) && t.v > 0 && t.v < 1000 {
					pass = int(t.v)
				}
			}
			all, lines, passes = append(all, t), append(lines, r.Line), append(passes, pass)
		}
	}
	for i, t := range all {
		if t.text != "SET" {
			continue
		}
		for k := i + 1; k < min(i+6, len(all)); k++ {
			if !all[k].number {
				if !between[all[k].text] {
					break
				}
				continue
			}
			s := Setting{Pass: passes[i], Size: Size{Line: lines[k], Text: all[k].text, Value: all[k].v}}
			if k+1 < len(all) {
				s.Size.inUnit(all[k+1].text)
			}
			out = append(out, s)
			break
		}
	}
	return out
}

// between are words that may stand between SET and its size.
var between = map[string]bool{"CUTTER": true, "TOOL": true, "TIP": true, "TO": true, "AT": true, "THE": true, "DIA": true, "DIAMETER": true}

var (
	tipRE   = regexp.MustCompile(`\bTIP (?:STOPS )?(?:AT|TO|POINTS TO) ([+-][XY])\b`)
	unitsRE = regexp.MustCompile(`\bUNITS\W+(?:WORDS OF THE PROGRAM IN )?(INCH|MM)\b(?:\W+SIZES IN TEXT IN (INCH|MM)\b)?`)
)

// Tips is where the comments have the tip point at the oriented stop: "+X".
func Tips(said []Remark) (out []Remark) {
	text, line := joined(near(said, "TIP"))
	for _, m := range tipRE.FindAllStringSubmatchIndex(text, -1) {
		out = append(out, Remark{line(m[2]), text[m[2]:m[3]]})
	}
	return out
}

// UnitsSaid is a unit that the header names: of the program's words, or of the
// sizes in its text.
type UnitsSaid struct {
	Line   int
	Unit   qty.Unit
	OfText bool
}

// Units is which units the comments say that the program is in.
func Units(said []Remark) (out []UnitsSaid) {
	named := map[string]qty.Unit{"INCH": qty.Inches, "MM": qty.Metric}
	text, line := joined(near(said, "UNITS"))
	for _, m := range unitsRE.FindAllStringSubmatchIndex(text, -1) {
		out = append(out, UnitsSaid{line(m[2]), named[text[m[2]:m[3]]], false})
		if m[4] >= 0 {
			out = append(out, UnitsSaid{line(m[4]), named[text[m[4]:m[5]]], true})
		}
	}
	return out
}

// near is the remarks in which a word stands, in whichever letters, each with the
// one after it: what is said of it goes on there.
func near(said []Remark, word string) (out []Remark) {
	after := false
	for _, r := range said {
		here := false
		for i := 0; i+len(word) <= len(r.Text) && !here; i++ {
			here = r.Text[i]|0x20 == word[0]|0x20 && strings.EqualFold(r.Text[i:i+len(word)], word)
		}
		if here || after {
			out = append(out, r)
		}
		after = here
	}
	return out
}

// joined is the text of remarks in one line of capitals, and the line of the
// program on which a place of it stands.
func joined(said []Remark) (string, func(at int) int) {
	var b strings.Builder
	var ends []int
	for _, r := range said {
		b.WriteString(strings.Join(strings.Fields(strings.ToUpper(r.Text)), " ") + " ")
		ends = append(ends, b.Len())
	}
	return b.String(), func(at int) int {
		return said[slices.IndexFunc(ends, func(end int) bool { return at < end })].Line
	}
}
