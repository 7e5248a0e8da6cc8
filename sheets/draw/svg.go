package draw

import (
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"
)

// SVG renders the scene as one svg element that stands by itself, scales with
// what holds it, and is named and described for those who cannot see it. id
// tells the drawings of one page apart.
func (s *Scene) SVG(id string) string {
	var b strings.Builder
	id = html.EscapeString(id)
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s" role="img" aria-labelledby="%s-t %s-d">`, num(s.W), num(s.H), id, id)
	fmt.Fprintf(&b, "\n<title id=\"%s-t\">%s</title>\n<desc id=\"%s-d\">%s</desc>\n", id, html.EscapeString(s.Title), id, html.EscapeString(s.Desc))
	b.WriteString(`<g fill="none" stroke="#000" stroke-linecap="butt" stroke-linejoin="round" font-family="DejaVu Sans Condensed,Arial,Liberation Sans,Helvetica,sans-serif">` + "\n")
	for _, it := range s.items {
		switch it := it.(type) {
		case path:
			b.WriteString(`<path d="`)
			for _, run := range it.runs {
				for i, p := range run {
					if i == 0 {
						b.WriteByte('M')
					} else {
						b.WriteByte('L')
					}
					b.WriteString(num(p.X) + " " + num(p.Y))
				}
				if it.closed {
					b.WriteByte('Z')
				}
			}
			b.WriteString(`"` + svgStyle(it.pen, it.fill) + "/>\n")
		case circle:
			fmt.Fprintf(&b, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"%s/>\n", num(it.c.X), num(it.c.Y), num(it.r), svgStyle(it.pen, it.fill))
		case text:
			fmt.Fprintf(&b, `<text x="%s" y="%s" font-size="%s" stroke="none" fill="#000"`, num(it.at.X), num(it.at.Y), num(it.height/capital))
			if it.anchor != Start {
				b.WriteString(` text-anchor="` + [...]string{"start", "middle", "end"}[it.anchor] + `"`)
			}
			if it.bold {
				b.WriteString(` font-weight="bold"`)
			}
			if it.up {
				fmt.Fprintf(&b, ` transform="rotate(-90 %s %s)"`, num(it.at.X), num(it.at.Y))
			}
			b.WriteString(">" + html.EscapeString(it.s) + "</text>\n")
		}
	}
	b.WriteString("</g></svg>\n")
	return b.String()
}

// grays of the fills, 0 black to 255 white.
var grays = [...]int{None: 0, White: 255, Gray: 222, Black: 0}

func svgStyle(p Pen, f Fill) string {
	out := ""
	if f != None {
		g := grays[f]
		out += fmt.Sprintf(` fill="#%02x%02x%02x"`, g, g, g)
	}
	if p.Width == 0 {
		return out + ` stroke="none"`
	}
	out += ` stroke-width="` + num(p.Width) + `"`
	if len(p.Dash) > 0 {
		var d []string
		for _, x := range p.Dash {
			d = append(d, num(x))
		}
		out += ` stroke-dasharray="` + strings.Join(d, " ") + `"`
	}
	return out
}

// num prints millimetres to two decimals: finer than any printer.
func num(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) { // no "-0", and nothing that no reader takes
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
