package proof

import (
	"fmt"
	"strings"

	"borewright/post/verify"
	"borewright/post/verify/path"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/document"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// Sheet lays the report of a program out for a browser and for paper: what it does
// drawn against the bores, and all that WriteText says. text is the program.
func Sheet(r verify.Report, name string, text []byte, p *plan.Plan, bore, visit int) *page.Sheet {
	return Sheets([]Held{{r, bore, visit}}, name, text, p)
}

// Held is the report of one program of a file, and the indices of the visit that it was held
// against.
type Held struct {
	verify.Report
	Bore, Visit int
}

// Sheets is Sheet for a file of several programs: one behind the other, each with a drawing
// of its own. The whole is stamped where one of them is not proven.
func Sheets(all []Held, name string, text []byte, p *plan.Plan) *page.Sheet {
	s := &page.Sheet{Kind: "Proof of a program", Job: head.Of(p).Name(), Title: name}
	if len(all) > 1 {
		kv := &page.KeyValues{}
		for _, r := range all {
			b := &p.Bores[r.Bore]
			kv.Items = append(kv.Items, page.KV(fmt.Sprintf("%s, visit %d", b.Station.Name, b.Visits[r.Visit].N), answers(r.Report)))
		}
		s.Kind = fmt.Sprintf("Proof of %d programs in one file", len(all))
		s.Add("The answers", kv)
	}
	for i, r := range all {
		if !r.Proven {
			s.Stamp = page.NotProven
		}
		one := sections(r.Report, name, text, p, r.Bore, r.Visit)
		for k := range one {
			if len(all) > 1 {
				b := &p.Bores[r.Bore]
				one[k].Title = fmt.Sprintf("%s, visit %d: %s", b.Station.Name, b.Visits[r.Visit].N, strings.ToLower(one[k].Title[:1])+one[k].Title[1:])
				one[k].OwnPage = one[k].OwnPage || k == 0 && i > 0
			}
		}
		s.Sections = append(s.Sections, one...)
	}
	s.Number()
	s.Clean()
	return s
}

// sections are those of one program.
func sections(r verify.Report, name string, text []byte, p *plan.Plan, bore, visit int) []page.Section {
	h, s := head.Of(p), &page.Sheet{}
	b, u := &p.Bores[bore], p.Job.Units
	v := &b.Visits[visit]
	kv := page.KVs([][2]string{
		{"Program", name}, {"Held against", fmt.Sprintf("%s%s, visit %d of %d: %s", b.Station.Name, head.AtSetting(*b, visit), v.N, b.Works(), h.Words.Say(v.Title))},
		{"Work", p.Job.Title}, {"Machine", h.MachineName()}, {"Answer", answers(r)},
		{"Check sums", sums(r) + " Of the plan " + document.Sum(p) + "."},
		{"In motion", u.Say(qty.KindMinutes.Of(r.Minutes)) + ": feed, rapid and dwell; stops to set and measure are not in it"},
		{"Units", u.Word() + "; depths from the face that the spindle enters"},
	})
	s.Add("What was held against what", kv)
	steps, whole := path.Of(text, p, bore, visit)
	switch f := figure.Program(h, bore, visit, steps, r); {
	case r.Unread:
		s.Add("What the program does", &page.Paragraph{Strong: true, Text: "It is not drawn: the program does not read, and what it would do is a guess."})
	case f == nil:
		s.Add("What the program does", &page.Paragraph{Text: "Nothing that could be drawn."})
	default:
		blocks := []page.Block{f}
		if !whole {
			blocks = append(blocks, &page.Paragraph{Strong: true, Text: "The program goes on: only its beginning is drawn."})
		}
		s.Add("What the program does", blocks...)
	}
	if len(r.Findings) > 0 {
		s.Sections = append(s.Sections, page.Section{Title: "What was found", Blocks: []page.Block{findings(r)}, OwnPage: true})
	}
	if len(r.NotHeld) > 0 {
		t := &page.Table{Columns: []page.Column{{Head: []string{"line"}, Align: page.Decimal}, {Head: []string{"remark"}}}}
		for _, l := range r.NotHeld {
			t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(l.Line), l.Text}})
		}
		s.Add("Remarks that are not held", &page.Paragraph{Text: "The plan says nothing of the kind. Read them."}, t)
	}
	if len(r.Unsaid) > 0 {
		s.Add("Left to the sheet", &page.Paragraph{Text: "Not said by the program, or not whole; the sheet says it: " + strings.Join(r.Unsaid, ", ") + "."})
	}
	for _, t := range []struct {
		title, note string
		table       table
	}{{"What was cut", cutsNote, cuts(r, u)}, {"What is left", shapeNote, shape(r, u)}, {"Least room", nearestNote, nearest(r, u)}} {
		if len(t.table.rows) > 0 {
			s.Add(t.title, &page.Paragraph{Text: strings.ToUpper(t.note[:1]) + t.note[1:] + "."}, t.table.block())
		}
	}
	var granted []page.Block
	for _, a := range r.Assumed {
		granted = append(granted, &page.Paragraph{Text: a})
	}
	s.Add("Taken for granted", granted...)
	return s.Sections
}

// answers is the verdict in words.
func answers(r verify.Report) string {
	if r.Proven {
		return fmt.Sprintf("proven: %d cuts", len(r.Cuts))
	}
	return "NOT PROVEN: " + counted(r)
}

// findings is the table of what was found, numbered as in the drawing.
func findings(r verify.Report) *page.Table {
	t := &page.Table{Columns: []page.Column{{Head: []string{"no"}, Align: page.Decimal}, {Head: []string{"line"}, Align: page.Decimal}, {Head: []string{"what"}}, {Head: []string{"right, or taken"}}}}
	for i, f := range r.Findings {
		kind, line := string(f.Kind), ""
		if f.OtherWay {
			kind = "not this tool's way"
		}
		if f.Line > 0 {
			line = fmt.Sprint(f.Line)
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(i + 1), line, kind + ": " + f.What, f.Want}})
	}
	return t
}

// block is a table for paper.
func (t *table) block() *page.Table {
	out := &page.Table{}
	for _, h := range t.head {
		c := page.Column{Head: []string{h}, Align: page.Decimal}
		if t.leftward(h) {
			c.Align = page.Left
		}
		out.Columns = append(out.Columns, c)
	}
	for _, r := range t.rows {
		out.Rows = append(out.Rows, page.Row{Cells: r})
	}
	return out
}
