package draw

import "codeberg.org/go-pdf/fpdf"

// Font names a font that a PDF already holds in the styles "" and "B".
type Font struct {
	Family string
	Safe   func(string) string // replaces what the font does not have
}

// PDF draws the scene on the current page with its upper left corner at x, y,
// in mm. It leaves pen, fill and font changed.
func (s *Scene) PDF(f *fpdf.Fpdf, font Font, x, y float64) {
	f.SetDrawColor(0, 0, 0)
	f.SetLineJoinStyle("round")
	f.SetLineCapStyle("butt")
	for _, it := range s.items {
		switch it := it.(type) {
		case path:
			style := pdfStyle(f, it.pen, it.fill)
			if style == "" {
				continue
			}
			for _, run := range it.runs {
				for i, p := range run {
					if i == 0 {
						f.MoveTo(x+p.X, y+p.Y)
					} else {
						f.LineTo(x+p.X, y+p.Y)
					}
				}
				if it.closed {
					f.ClosePath()
				}
			}
			f.DrawPath(style)
		case circle:
			if style := pdfStyle(f, it.pen, it.fill); style != "" {
				f.Circle(x+it.c.X, y+it.c.Y, it.r, style)
			}
		case text:
			style := ""
			if it.bold {
				style = "B"
			}
			f.SetFont(font.Family, style, it.height/capital*72/25.4)
			str := font.Safe(it.s)
			back := f.GetStringWidth(str) * float64(it.anchor) / 2
			at := Pt{x + it.at.X, y + it.at.Y}
			if it.up {
				f.TransformBegin()
				f.TransformRotate(90, at.X, at.Y)
				f.Text(at.X-back, at.Y, str)
				f.TransformEnd()
			} else {
				f.Text(at.X-back, at.Y, str)
			}
		}
	}
	f.SetDashPattern(nil, 0)
}

// pdfStyle sets pen and fill and names the way to paint.
func pdfStyle(f *fpdf.Fpdf, p Pen, fill Fill) string {
	style := ""
	if fill != None {
		g := grays[fill]
		f.SetFillColor(g, g, g)
		style = "F"
	}
	if p.Width > 0 {
		f.SetLineWidth(p.Width)
		f.SetDashPattern(p.Dash, 0)
		style += "D"
	}
	return style
}
