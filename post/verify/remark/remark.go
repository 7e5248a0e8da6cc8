// Package remark reads what the comments of a program tell the operator: the
// orders to set the cutter and to measure at a stop, the settings in the header's
// list of passes, where the tip stops and in which units. It is lenient in the
// wording: people change comments. It judges nothing and knows no plan;
// post/verify holds what it finds against the plan.
package remark

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"borewright/process/qty"
)

// Remark is a comment in its place.
type Remark struct {
	Line int
	Text string
}

// Orders is what the comments of a stop say.
type Orders struct {
	Set     bool   // to set the cutter, or to leave it
	Leave   bool   // to leave it
	Measure bool   // to measure
	Hone    bool   // to hone the edge, or to change the bit
	Sizes   []Size // numbers where the talk is of the cutter
}

// Any reports that the comments give an order at all.
func (o Orders) Any() bool { return o.Set || o.Measure }

// Size is a diameter as a comment states it.
type Size struct {
	Line  int // of the comment
	Text  string
	Value float64
	Unit  qty.Unit
	Named bool // Unit is written beside it
}

// States reports that the size is the diameter, as it prints in its unit. Without
// a unit it may be in any of those given.
func (s Size) States(d qty.Diameter, units ...qty.Unit) bool {
	if s.Named {
		units = []qty.Unit{s.Unit}
	}
	return slices.ContainsFunc(units, func(u qty.Unit) bool {
		slack := 500 * qty.Nanometre // half of the last decimal that sizes are printed with
		if u == qty.Inches {
			slack = qty.Thou / 20
		}
		return (u.Of(s.Value) - d.Length()).Abs() <= slack+1
	})
}

// inUnit names the unit of a size from the word after it.
func (s *Size) inUnit(word string) {
	switch word {
	case "MM":
		s.Unit, s.Named = qty.Metric, true
	case "IN", "INCH":
		s.Unit, s.Named = qty.Inches, true
	}
}

// Read picks out of the comments of a stop what the operator is told to do. A
// number counts where the words before it are of setting the cutter, not of what
// the gauge should say.
func Read(said []Remark) Orders {
	var all []token
	var lines []int // of each token
	var t Orders
	for _, r := range said {
		from := len(all)
		all = append(all, tokens(r.Text)...)
		lines = append(lines, slices.Repeat([]int{r.Line}, len(all)-from)...)
		if one := all[from:]; len(one) == 2 && one[0].text == "BORE" && (one[1].text == "DIA" || one[1].text == "DIAMETER" || one[1].text == "SIZE") {
			t.Measure = true
		}
	}
	setting := false
	for i, w := range all {
		switch {
		case w.number:
			if setting && !counts(all, i) {
				t.Set = true
				t.Sizes = append(t.Sizes, Size{Line: lines[i], Text: w.text, Value: w.v})
			}
		case w.text == "SET" || w.text == "LEAVE" || w.text == "KEEP":
			if setting = isOrder(all, i); setting {
				t.Set, t.Leave = true, t.Leave || w.text != "SET"
			}
		case measures(all, i):
			// "only if the hold found", "room for the gauge" are no orders
			setting, t.Measure = false, t.Measure || before(all, i) != "THE" && before(all, i) != "A"
		case edgeWork[w.text] && i+1 < len(all) && slices.ContainsFunc(all[i+1:min(i+4, len(all))], func(t token) bool { return edges[t.text] }):
			t.Hone = t.Hone || before(all, i) != "NOT"
		case ends[w.text]:
			setting = false
		case w.text == "DEPTH" || w.text == "FEED" || w.text == "SPEED" || w.text == "SPRING":
			setting = setting && len(t.Sizes) == 0
		case w.text == "CUTTER" || w.text == "TOOL" || w.text == "TIP":
			setting = setting || !t.Measure
		case w.text == "MM" || w.text == "IN" || w.text == "INCH":
			if n := len(t.Sizes); n > 0 && !t.Sizes[n-1].Named {
				t.Sizes[n-1].inUnit(w.text)
			}
		}
	}
	return t
}

// measures reports that a word is of measuring: "CHECK SIZE", "MIC BORE".
func measures(all []token, i int) bool {
	switch all[i].text {
	case "MEASURE", "HOLD", "GAUGE", "GAGE", "MIC", "MICROMETER", "INSPECT":
		return true
	case "CHECK":
		for _, t := range all[i+1 : min(i+4, len(all))] {
			if t.text == "SIZE" || t.text == "BORE" || t.text == "DIA" || t.text == "DIAMETER" {
				return true
			}
		}
	}
	return false
}

// ends are words after which a number is no setting.
var ends = map[string]bool{"EXPECT": true, "EXPECTED": true, "FOUND": true, "SIZE": true, "LIMITS": true, "BORE": true, "AFTER": true}

// edgeWork with one of edges after it is an order to come with a keen edge.
var (
	edgeWork = map[string]bool{"HONE": true, "STONE": true, "CHANGE": true}
	edges    = map[string]bool{"EDGE": true, "BIT": true, "INSERT": true, "TIP": true}
)

// before is the word before one.
func before(all []token, i int) string {
	if i == 0 {
		return ""
	}
	return all[i-1].text
}

// isOrder tells the verb from the set-up, and an order for now from what is
// said of a pass to come: "set the next pass smaller by 0.4 times the difference".
func isOrder(all []token, i int) bool {
	rest := all[i+1 : min(i+6, len(all))]
	if len(rest) > 0 && rest[0].text == "THE" {
		rest = rest[1:]
	}
	switch {
	case len(rest) == 0:
		return true
	case rest[0].text == "UP" || all[i].text == "LEAVE" && rest[0].text == "SET":
		return false
	}
	return rest[0].text != "NEXT" || !slices.ContainsFunc(rest, func(t token) bool {
		return t.text == "SMALLER" || t.text == "LARGER" || t.text == "SETTING"
	})
}

// counts reports that a number counts passes, or belongs to a word of the
// program: PASS 2, 2 OF 5, S64.
func counts(all []token, i int) bool {
	last := before(all, i)
	next := ""
	if i+1 < len(all) {
		next = all[i+1].text
	}
	return last == "PASS" || next == "OF" || last == "OF" && i > 1 && all[i-2].number ||
		len(last) == 1 && strings.Contains("NGMSFXYZW", last)
}

// token is a word or a number of a comment.
type token struct {
	text   string
	number bool
	v      float64
}

// tokens splits a comment into words and numbers: "DIA3.375IN" is three.
func tokens(line string) []token {
	const letter, digit = 1, 2
	class := func(c byte) int {
		switch {
		case c >= 'A' && c <= 'Z':
			return letter
		case c >= '0' && c <= '9' || c == '.' || c == '+' || c == '-':
			return digit
		}
		return 0
	}
	line = strings.ToUpper(line)
	var out []token
	for i := 0; i < len(line); {
		k := class(line[i])
		from := i
		for i < len(line) && class(line[i]) == k {
			i++
		}
		switch text := line[from:i]; k {
		case letter:
			out = append(out, token{text: text})
		case digit:
			trimmed := strings.TrimRight(text, ".-+")
			if v, err := strconv.ParseFloat(trimmed, 64); err == nil && !math.IsInf(v, 0) {
				out = append(out, token{text: trimmed, number: true, v: v})
			}
		}
	}
	return out
}
