package figure

import (
	"fmt"
	"math"
	"strings"

	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/draw"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// Mouth draws the wall of a housing at its mouth as the cuts there leave it, with the edge of
// the lead-in bit at the end of its feed; nil where nothing is cut there.
func Mouth(h head.Head, bore, visit int) []page.Block {
	h = h.For(bore, visit)
	v := h.Plan.Bores[bore].Visits[visit]
	if len(v.Mouth) == 0 {
		return nil
	}
	r := v.Limits.Aim.MM() / 2
	seat, wide := v.From.MM(), r // where the seat begins, and the largest radius there
	var lead *schedule.MouthCut
	for i := range v.Mouth {
		m := &v.Mouth[i]
		wide = math.Max(wide, m.Leaves.MM()/2)
		if m.Kind == schedule.LeadIn {
			lead = m
		} else {
			seat = m.End.MM()
		}
	}
	lo, hi := v.From.MM()-6, seat+10
	if lead != nil {
		lo = math.Min(lo, lead.Begin.MM()-2)
		wide = math.Max(wide, lead.Setting.MM()/2)
	}
	below, above := r-6, wide+5
	if !drawable(lo, hi, above-math.Min(below, 0)) {
		return nil
	}
	scale := 0.2
	for _, k := range setupScales {
		if scale = k / 2; (hi-lo)/scale <= 100 && (above-below)/scale <= 46 {
			break
		}
	}
	const left, top = 40.0, 10.0
	pt := func(x, r float64) draw.Pt { return draw.Pt{X: left + (x-lo)/scale, Y: top + (above-r)/scale} }
	s := draw.New(page.Width, top+(above-below)/scale+20, "The mouth of the housing", "")
	from, face := v.From.MM(), []draw.Pt{pt(v.From.MM(), above)}
	u := h.U
	var words []string
	marks := []draw.Mark{{At: pt(from, r), Text: u.Format(v.From)}}
	add := func(x qty.Length) { marks = append(marks, draw.Mark{At: pt(x.MM(), r), Text: u.Format(x)}) }
	if seat > from {
		c := v.Mouth[0].Leaves
		for _, m := range v.Mouth {
			if m.Kind == schedule.Counterbore {
				c = m.Leaves
			}
		}
		face = append(face, pt(from, c.MM()/2), pt(seat, c.MM()/2))
		add(qty.FromMM(seat))
		words = append(words, fmt.Sprintf("Counterbore Ø%s to depth %s.", u.Bare(c), u.Format(qty.FromMM(seat))))
	}
	if lead != nil {
		at := seat + h.Job.Sleeve.Made.Mouth.Length.MM()
		face = append(face, pt(seat, lead.Leaves.MM()/2), pt(at, r))
		add(qty.FromMM(at))
		words = append(words, fmt.Sprintf("Lead-in %s a side, Ø%s at the mouth; the outer end of the edge, set to Ø%s, stops at depth %s.", qty.KindAngle.Say(lead.Angle), u.Bare(lead.Leaves), u.Bare(lead.Setting), u.Format(lead.End)))
	} else {
		face = append(face, pt(seat, r))
	}
	face = append(face, pt(hi, r), pt(hi, above))
	s.Hatch(2, false, face)
	s.Line(draw.Outline(), face[:len(face)-1]...)
	s.Break(pt(hi, above), pt(hi, r-1))
	if lead != nil {
		tan := math.Tan(lead.Angle * math.Pi / 180)
		end, set, edge := lead.End.MM(), lead.Setting.MM()/2, lead.Edge.MM()
		s.Line(draw.Marked(), pt(end, set), pt(end+edge, set-edge*tan))
		s.Line(draw.Thin(), pt(end, set), pt(end, below), pt(end+edge, below), pt(end+edge, set-edge*tan))
		s.Leader(pt(end, set), draw.Pt{X: pt(end, set).X - 6, Y: top - 3}, "edge, set Ø"+u.Bare(lead.Setting)+", stops at "+u.Format(lead.End))
	}
	s.Leader(pt(hi-3, r), draw.Pt{X: pt(hi, r).X + 8, Y: pt(hi, r).Y + 8}, "bore Ø"+u.Bare(v.Limits.Aim))
	s.Running(pt(from, below), pt(from, below).Y+2, marks)
	s.Desc = strings.Join(words, " ")
	return []page.Block{&page.Figures{Items: []page.Figure{{Scene: s, Words: words, Caption: "The mouth of the housing when it is done; depths from the face"}}}}
}
