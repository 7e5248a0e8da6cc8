package page

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"sync"
)

// Inside is the HTML of the sheet's sections for a page that has a frame of its own and
// InsideStyle: no style and no script stands in it, so that the page's policy may forbid both.
func (s *Sheet) Inside() string {
	h := &htmlFace{sheet: s, inside: true}
	h.sections()
	return h.b.String()
}

// PrintStyle is the running head and foot of the sheet on paper, for a page that has Inside.
func (s *Sheet) PrintStyle() string { return (&htmlFace{sheet: s}).pageStyle() }

// plainHTML is a text that is HTML already.
type plainHTML string

// wide is how wide a drawing is, mm on paper.
func (h *htmlFace) wide(mm float64) plainHTML {
	if h.inside {
		return plainHTML(fmt.Sprintf(` class="mm%.0f"`, math.Ceil(mm)))
	}
	return plainHTML(fmt.Sprintf(` style="flex: 0 1 %.1fmm; --wide: %.1fmm"`, mm, mm))
}

// goesOn is a value that goes on with the one before it.
func (h *htmlFace) goesOn() plainHTML {
	if h.inside {
		return ` class="on"`
	}
	return ` style="grid-column: 2"`
}

// InsideStyle is the style of sheets for what Inside gives, inside an element of the class
// "paper". Its colours are those of the page around it: --ink on --page, --keys for a ground.
var InsideStyle = sync.OnceValue(func() string {
	var b strings.Builder
	text := strings.NewReplacer("#000", "var(--ink)", "#fff", "var(--page)", "#e4e4e4", "var(--keys)").Replace(style)
	text = cssRemark.ReplaceAllString(text, "")
	for len(text) > 0 {
		i := strings.IndexAny(text, "{}")
		if i < 0 {
			break
		}
		head := strings.TrimSpace(text[:i])
		switch {
		case text[i] == '}': // the end of a group for paper or screen
			b.WriteString("}\n")
			text = text[i+1:]
		case strings.HasPrefix(head, "@"):
			b.WriteString(head + " {\n")
			text = text[i+1:]
		default:
			end := i + strings.IndexByte(text[i:], '}') + 1
			if head != ":root" { // light or dark is the page's to say
				b.WriteString(scoped(head) + text[i:end] + "\n")
			}
			text = text[end:]
		}
	}
	b.WriteString(".paper dd.on { grid-column: 2; }\n@media print { .paper > section.card:first-child { break-before: auto; } }\n")
	for mm := range int(math.Ceil(Width)) {
		fmt.Fprintf(&b, ".mm%d{flex:0 1 %dmm;--wide:%dmm}\n", mm+1, mm+1, mm+1)
	}
	return b.String()
})

var cssRemark = regexp.MustCompile(`(?s)/\*.*?\*/`)

// scoped has the selectors of a rule hold inside of the class alone. That of the whole page
// holds for the class itself.
func scoped(selectors string) string {
	var out []string
	for s := range strings.SplitSeq(selectors, ",") {
		switch s = strings.TrimSpace(s); s {
		case "body":
			out = append(out, ".paper")
		default:
			out = append(out, ".paper "+s)
		}
	}
	return strings.Join(out, ", ") + " "
}
