package ask

import (
	"fmt"
	"math"
	"strings"

	"github.com/BurntSushi/toml"
)

// stated is what the text says so far, by path.
func (f *form) stated() map[string]any {
	var m map[string]any
	have := map[string]any{}
	if _, err := toml.Decode(string(f.text), &m); err == nil {
		flatten("", m, have)
	}
	return have
}

// Size of the drawing, in characters.
const (
	drawWide = 60
	drawHigh = 6 // above the axis
)

// drawing is the line of bores in characters, to scale along it, and the bar with its tip
// at the end of the first worn bore. "" where nothing is known.
func (f *form) drawing() string {
	mm := func(path string) float64 { return f.mm(f.answers[path]) }
	type piece struct{ from, to, radius float64 }
	var all []piece
	var legend []string
	deep, wide, tip := 0.0, 0.0, 0.0
	for i := 0; f.answers[fmt.Sprintf("station[%d].name", i)] != ""; i++ {
		at := fmt.Sprintf("station[%d].", i)
		p := piece{mm(at + "from"), mm(at + "to"), mm(at+"diameter") / 2}
		if !(p.to > p.from && p.radius > 0) {
			return ""
		}
		all = append(all, p)
		name := f.answers[at+"name"]
		if name == f.answers["bore[0].station"] {
			tip = p.to
			name += ", worn"
		}
		legend = append(legend, fmt.Sprintf("  %c  %s, Ø%s, %s to %s", 'a'+rune(i%26), name, f.answers[at+"diameter"], f.answers[at+"from"], f.answers[at+"to"]))
		deep, wide = max(deep, p.to), max(wide, p.radius)
	}
	if len(all) == 0 {
		return ""
	}
	column := func(depth float64) int { return int(math.Round(depth / deep * drawWide)) }
	outside := 1.5 * wide
	var bars []piece
	length := 0.0
	for i := 0; mm(fmt.Sprintf("bar.steps[%d].length", i)) > 0; i++ {
		at := fmt.Sprintf("bar.steps[%d].", i)
		l := mm(at + "length")
		bars = append(bars, piece{length, length + l, mm(at+"diameter") / 2})
		length += l
	}
	var rows []string
	for r := drawHigh; r >= -drawHigh; r-- {
		y := math.Abs(float64(r)) / drawHigh * outside
		row := []byte(strings.Repeat(" ", drawWide+1))
		for _, p := range all {
			for c := column(p.from); c <= max(column(p.from), column(p.to)-1); c++ {
				if y >= p.radius {
					row[c] = '#'
				}
			}
		}
		for i, b := range bars {
			for c := max(0, column(tip-length+b.from)); tip > 0 && c < column(tip-length+b.to); c++ {
				if y <= b.radius && row[min(c, drawWide)] == ' ' {
					row[min(c, drawWide)] = '='
				}
			}
			if i == len(bars)-1 && r == 0 && tip > 0 {
				row[max(0, column(tip)-1)] = '>'
			}
		}
		if r == 0 {
			for c := range row {
				if row[c] == ' ' && c%2 == 0 {
					row[c] = '-'
				}
			}
		}
		rows = append(rows, "  |"+strings.TrimRight(string(row), " "))
	}
	marks := []byte(strings.Repeat(" ", drawWide+1))
	for i, p := range all {
		marks[(column(p.from)+max(column(p.from), column(p.to)-1))/2] = byte('a' + i%26)
	}
	rows = append(rows, "   "+strings.TrimRight(string(marks), " "))
	return strings.Join(append(rows, legend...), "\n")
}
