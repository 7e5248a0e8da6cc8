package proof

import (
	"io"

	"borewright/post/verify"
	"borewright/post/verify/remark"
	"borewright/process/field"
	"borewright/process/field/si"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/document"
)

// schema names the layout of a report as JSON. Fields are added, never renamed.
const schema = "borewright/proof/1"

// answer is the report of a program that was held against p.Bores[bore] and its
// Visits[visit]: always SI, the unit in the field's name.
type answer struct {
	verify.Report
	program     string
	p           *plan.Plan
	bore, visit int
}

// Describe is the page.
func (r *answer) Describe(d *field.Desc) {
	j, b := r.p.Job, &r.p.Bores[r.bore]
	d.Is("schema", func() any { return schema })
	d.Text(&r.program, "program")
	d.Group("job", func(d *field.Desc) {
		d.Text(&j.Number, "number")
		d.Text(&j.Revision, "revision")
		d.Text(&j.Title, "title")
	})
	d.Text(&b.Station.Name, "station")
	d.Count(&b.Visits[r.visit].N, "visit")
	d.Flag(&r.Proven, "proven")
	d.Text(&r.Sum, "check_sum")
	d.Text(&r.Stated, "check_sum_stated").When(func() bool { return r.Stated != "" }) // by the program's remark, since it was written
	d.Is("plan_check_sum", func() any { return document.Sum(r.p) })
	field.ListBy(d, &r.Findings, "findings", func(d *field.Desc, f *verify.Finding) { // line 0 is the program as a whole
		d.Count(&f.Line, "line")
		d.Count(&f.Col, "column")
		d.Is("kind", func() any { return string(f.Kind) })
		d.Text(&f.What, "what")
		d.Text(&f.Want, "want")
		d.Flag(&f.OtherWay, "another_way").When(func() bool { return f.OtherWay }) // not wrong in itself
	})
	field.ListBy(d, &r.Cuts, "cuts", func(d *field.Desc, c *verify.Cut) { // pass 0 is none of the plan
		d.Count(&c.Line, "line")
		d.Count(&c.Pass, "pass")
		d.Diameter(&c.Setting, "cutter_setting_mm")
		d.Diameter(&c.Diameter, "diameter_as_set_mm")
		d.Length(&c.From, "tip_from_mm")
		d.Length(&c.To, "tip_to_mm")
		d.Length(&c.Feed, "feed_mm_per_rev").Decimals(5)
		d.Number(&c.Speed, "speed_rev_per_min", "rev/min")
		d.Figure(&c.Removed, qty.KindVolume, "removed_mm3").Decimals(1)
	})
	field.ListBy(d, &r.Shape, "stations", func(d *field.Desc, s *verify.Piece) {
		bored := func() bool { return s.High > 0 } // else the visit has no limits there
		d.Text(&s.Station, "station")
		d.Length(&s.From, "from_mm")
		d.Length(&s.To, "to_mm")
		d.Flag(&s.Cut, "cut")
		d.Diameter(&s.Diameter, "diameter_mm")
		d.Diameter(&s.Low, "limit_low_mm").When(bored)
		d.Diameter(&s.High, "limit_high_mm").When(bored)
		d.Flag(&s.Within, "within_limits").When(bored)
	})
	field.ListBy(d, &r.Near, "clearances", func(d *field.Desc, c *verify.Clearance) {
		d.Text(&c.Station, "station")
		d.Text(&c.Part, "part")
		d.Length(&c.Room, "room_mm")
		d.Flag(&c.Along, "along_bore") // to a closed end; else radial
		d.Length(&c.Depth, "tip_depth_mm")
		d.Count(&c.Line, "line")
	})
	d.Diameter(&r.FinalSize, "final_size_mm") // 0: nothing was cut
	d.Figure(&r.Minutes, qty.KindMinutes, "motion_minutes").Decimals(2)
	d.Texts(&r.Assumed, "assumed", 0, field.Any)
	d.Texts(&r.Unsaid, "left_to_the_sheet", 0, field.Any)                                   // topics that the remarks leave out
	field.ListBy(d, &r.NotHeld, "remarks_not_held", func(d *field.Desc, l *remark.Remark) { // say nothing of the plan
		d.Count(&l.Line, "line")
		d.Text(&l.Text, "text")
	})
}

// WriteJSON prints the report of a program, held against p.Bores[bore] and its
// Visits[visit], as JSON: in SI, indented, with a line end.
func WriteJSON(w io.Writer, r verify.Report, program string, p *plan.Plan, bore, visit int) error {
	b, err := si.Write(&answer{r, program, p, bore, visit}, nil)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}
