package report

import (
	"fmt"
	"strings"

	"borewright/process/approval"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/record"
	"borewright/sheets/document"
	"borewright/sheets/head"
	"borewright/sheets/made"
	"borewright/sheets/page"
)

// asBuilt is the as-built record being laid out.
type asBuilt struct {
	head.Head
	sheet *page.Sheet
}

// Record lays out the as-built record of a job, for the customer to keep:
// who approved it, what was found, what was planned, what was cut and measured, against what
// limits. first is the plan before anything was cut, now the plan after what
// was measured, programs those that were written to the first, entries all that was
// entered.
func Record(first, now *plan.Plan, approvals []approval.Standing, programs []document.Program, entries []record.Entry) *page.Sheet {
	h := head.Of(first)
	b := &asBuilt{Head: h, sheet: &page.Sheet{Kind: "As-built record", Job: h.Name(), Title: h.Job.Title}}
	rows := record.Of(first, now)
	b.recordHead(rows, approvals, programs)
	b.recordSizes(rows)
	for _, a := range rows {
		b.recordVisit(a)
	}
	b.recordDeviations(rows)
	b.recordReadings(entries)
	b.recordAxis()
	b.recordRest(now)
	b.sheet.Number()
	b.sheet.Clean()
	return b.sheet
}

func (b *asBuilt) recordHead(rows []record.AsBuilt, approvals []approval.Standing, programs []document.Program) {
	open, out, rough := 0, 0, 0
	for _, a := range rows {
		switch {
		case !a.Done:
			open++
		case !a.In:
			out++
		case a.FormOut():
			rough++
		}
	}
	var says *page.Paragraph
	switch {
	case len(rows) == 0:
		says = &page.Paragraph{Strong: true, Text: "There was no feasible plan: nothing was to be cut."}
	case open > 0:
		says = &page.Paragraph{Strong: true, Text: fmt.Sprintf("NOT FINISHED: %d of %d visits to the bores are not finished and measured.", open, len(rows))}
	case out > 0:
		says = &page.Paragraph{Strong: true, Text: "OUT OF LIMITS: see the sizes below. The customer decides whether the part is taken as it is."}
	case rough > 0:
		says = &page.Paragraph{Strong: true, Text: "NOT AS ASKED: the sizes lie within their limits, roughness or roundness does not; see below. The customer decides whether the part is taken as it is."}
	default:
		says = &page.Paragraph{Text: "All sizes measured lie within their limits."}
	}
	job := page.KVs(b.Lines("", ""))
	for i := range approvals {
		job.Items = append(job.Items, page.KV("Approved", Approved(&approvals[i])))
	}
	for _, p := range programs {
		job.Items = append(job.Items, page.KV("Cut by", cutBy(p)))
	}
	job.Items = append(job.Items, page.KV("Made by", made.By()))
	blocks := []page.Block{job, says}
	if len(approvals) > 0 && approval.Held(approvals) == nil {
		blocks = append(blocks, &page.Paragraph{Strong: true, Text: "NOT APPROVED as it is now: the approvals above have lapsed or were withdrawn."})
	}
	b.sheet.Add("The job", blocks...)
}

// Approved is an approval in words: who, when, of what, and whether it still stands.
func Approved(s *approval.Standing) string {
	text := "revision " + s.Revision + " by " + s.By
	if s.When != "" {
		text += ", " + s.When
	}
	if s.Plan != "" {
		text += "; plan " + s.Plan
	}
	if s.Against != "" {
		text += "; compared with " + s.Against
	}
	if s.Remark != "" {
		text += "; " + s.Remark
	}
	if !s.Stands() {
		text += ". LAPSED: " + strings.Join(s.Since, ", ")
	}
	return text
}

// cutBy says which program cut which of the passes that were measured.
func cutBy(p document.Program) string {
	var passes []string
	for _, n := range p.Passes {
		passes = append(passes, fmt.Sprint(n))
	}
	s := p.String() + ", pass "
	if n := len(passes); n > 1 {
		s += strings.Join(passes[:n-1], ", ") + " and "
	}
	s += passes[len(passes)-1] + " as measured"
	if !p.Noted {
		s += " (not noted then: by the plan)"
	}
	return s
}

// recordSizes is the table the customer looks at first.
func (b *asBuilt) recordSizes(rows []record.AsBuilt) {
	t := &page.Table{Columns: []page.Column{{Head: []string{"bore"}}, {Head: []string{"visit"}, Align: page.Decimal}, {Head: []string{"limits", "low"}, Align: page.Decimal}, {Head: []string{"limits", "high"}, Align: page.Decimal},
		{Head: []string{"found", "least"}, Align: page.Decimal}, {Head: []string{"found", "most"}, Align: page.Decimal}, {Head: []string{"in or out"}}}}
	for _, a := range rows {
		least, most := "", ""
		if len(a.Cuts) > 0 {
			least, most = b.U.Bare(a.Least), b.U.Bare(a.Most)
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{a.Station, fmt.Sprint(a.Visit), b.U.Format(b.U.Up(a.Limits.Low.Length())), b.U.Format(b.U.Down(a.Limits.High.Length())), least, most, b.verdict(a)}})
	}
	b.sheet.Add("Sizes as built, in "+b.U.Word(), t)
}

func (b *asBuilt) verdict(a record.AsBuilt) string {
	switch {
	case len(a.Cuts) == 0 && a.AtHome:
		return "not measured"
	case len(a.Cuts) == 0:
		return "not cut"
	case !a.Done && a.Off <= 0:
		return "not finished"
	case a.In:
		return "in"
	case a.Off > 0:
		return "OUT, " + b.U.Say(a.Off) + " over"
	}
	return "OUT, " + b.U.Say(-a.Off) + " under"
}

func (b *asBuilt) recordVisit(a record.AsBuilt) {
	title := fmt.Sprintf("%s, visit %d: %s", a.Station, a.Visit, b.Words.Say(a.Title))
	kv := &page.KeyValues{}
	add := func(k, v string) { kv.Items = append(kv.Items, page.KV(k, v)) }
	switch {
	case a.AtHome:
		add("Expected", b.U.SayRange(a.Found[0], a.Found[1])+", as the lathe makes it and the fit closes it")
	case a.Visit > 1:
		add("Expected", b.U.SayRange(a.Found[0], a.Found[1])+" inside, about the true axis")
	case a.Found[1] > a.Found[0]:
		add("Found", b.U.SayRange(a.Found[0], a.Found[1])+", about the true axis")
	default:
		add("Found", b.U.SayBoth(a.Found[0]))
	}
	asked := b.U.SayLimitsOfSize(a.Limits.Low, a.Limits.High)
	if a.Limits.Fit != "" {
		asked += " (" + a.Limits.Fit + ")"
	}
	add("Asked for", asked+", Ra "+b.U.Say(qty.Roughness(a.Ra))+", round within "+b.U.Say(qty.Fine(a.Roundness))+" of radius")
	switch {
	case a.Rougher != "" && a.Rougher != a.With:
		add("Tools", a.Rougher+" to rough, "+a.With+" to finish")
	case a.With != "":
		add("Tools", a.With)
	}
	if len(a.Cuts) == 0 {
		b.sheet.Add(title, kv, &page.Paragraph{Text: "Nothing was measured in this visit."})
		return
	}
	at := ""
	if a.Known20 {
		at = " at " + b.U.Say(qty.FromCelsius(20))
	}
	add("Measured last", b.U.SayRange(a.Least, a.Most)+at+": "+b.verdict(a))
	form := "not shown: one size at each depth"
	if a.Uneven >= 0 {
		form = b.U.Say(qty.Fine(a.Uneven)) + " of radius between the two-point sizes at one depth"
	}
	switch a.Round {
	case record.ShownOut:
		form += ": OUT, " + b.U.Say(qty.Fine(a.Roundness)) + " asked for"
	case record.InDoubt:
		form += ": more than asked for, by less than the gauge's own doubt"
	}
	if a.Uneven >= 0 {
		form += "; lobes of odd number do not show in them"
	}
	add("Out-of-round", form)
	if a.Taper > 0 {
		add("Taper", b.U.Say(a.Taper)+" on diameter over the depths measured")
	}
	switch {
	case a.RaFound == 0:
		add("Roughness", "not measured")
	case a.RaIn:
		add("Roughness", "Ra "+b.U.Say(qty.Roughness(a.RaFound))+": in")
	default:
		add("Roughness", "Ra "+b.U.Say(qty.Roughness(a.RaFound))+": OUT, "+b.U.Say(qty.Roughness(a.Ra))+" asked for")
	}
	if a.Pair != "" {
		add("Press fit", "interference "+b.U.SayRange(a.Interference[0], a.Interference[1])+", by the housing as found and the sleeve's limits ("+a.Pair+")")
	}
	if a.ClearanceAsked[1] > 0 {
		s := "clearance " + b.U.SayRange(a.Clearance[0], a.Clearance[1]) + ", asked for " + b.U.SayRange(a.ClearanceAsked[0], a.ClearanceAsked[1])
		if a.ClearanceIn {
			s += ": in"
		} else {
			s += ": OUT"
		}
		add("Mating part", s)
	}
	t := &page.Table{Caption: "Cut and measured:", Columns: []page.Column{{Head: []string{"no"}, Align: page.Decimal}, {Head: []string{"pass"}}, {Head: []string{"cutter", "set"}, Align: page.Decimal},
		{Head: []string{"planned", "low"}, Align: page.Decimal}, {Head: []string{"planned", "high"}, Align: page.Decimal}, {Head: []string{"found", "least"}, Align: page.Decimal}, {Head: []string{"found", "most"}, Align: page.Decimal},
		{Head: []string{"spring", "seen"}, Align: page.Decimal}}}
	for _, c := range a.Cuts {
		low, high, seen := "", "", ""
		if c.High > 0 {
			low, high = b.U.Bare(c.Low), b.U.Bare(c.High)
		}
		if c.Counts {
			seen = b.U.Bare(qty.Fine(c.Seen))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(c.Pass), c.Kind.String(), b.SetTo(c), low, high, b.U.Bare(c.Least), b.U.Bare(c.Most), seen}})
	}
	blocks := []page.Block{kv, t}
	if len(a.BeforeWork) > 0 {
		var items []page.KeyValue
		for i, s := range b.Words.Sentences(a.BeforeWork) {
			items = append(items, page.KV(fmt.Sprintf("%d)", i+1), s))
		}
		blocks = append(blocks, page.Head("Work before this visit, as planned"), &page.KeyValues{Items: items})
	}
	if notes := remarks(a); len(notes.Items) > 0 {
		blocks = append(blocks, page.Head("Remarks"), notes)
	}
	b.sheet.Add(title, blocks...)
}

func remarks(a record.AsBuilt) *page.KeyValues {
	kv := &page.KeyValues{}
	for _, c := range a.Cuts {
		s, by := c.Remark, c.By
		if by != "" {
			by = "by " + by
		}
		for _, x := range []string{by, c.When} {
			if x != "" && s != "" {
				s += "; "
			}
			s += x
		}
		if s != "" {
			kv.Items = append(kv.Items, page.KV(fmt.Sprintf("Pass %d", c.Pass), s))
		}
	}
	return kv
}

// recordRest holds notes, cautions and signatures.
func (b *asBuilt) recordRest(now *plan.Plan) {
	var notes []page.Block
	for _, n := range b.Job.Notes {
		notes = append(notes, &page.Paragraph{Text: n})
	}
	if now.Findings != nil {
		for _, s := range b.Words.Sentences(now.Findings.Says) {
			notes = append(notes, &page.Paragraph{Text: s})
		}
	}
	for _, r := range now.Reasons {
		notes = append(notes, &page.Paragraph{Strong: true, Text: b.Words.Say(r.What)})
	}
	if len(notes) > 0 {
		b.sheet.Add("Notes", notes...)
	}
	items := []string{
		"Sizes are those that were entered from the bore gauge, at the places that the entries name; they are as good as gauge, master and temperature were: " + b.gaugeWords() + ".",
		"A sleeve is checked again after the first hours of service: that it has not moved, and that the bearing seat is still in size.",
		"Where the part carries load, holds pressure or is part of a lifting device, this record releases nothing: local codes and licensed practice do.",
	}
	if b.Job.Sleeve == nil {
		items = append(items[:1], items[2:]...)
	}
	blocks := []page.Block{page.Mind(items)}
	if len(now.Cautions) > 0 {
		blocks = append([]page.Block{page.Head("From the plan"), page.Mind(b.Words.Sentences(now.Cautions)), page.Head("In every record")}, blocks...)
	}
	b.sheet.Add("Cautions", blocks...)
	var signs []page.Block
	for _, who := range []string{"Bored by", "Measured by", "Released by"} {
		signs = append(signs, &page.Blanks{Items: []page.Blank{page.Fill(who, ""), page.Fill("Date", "")}})
	}
	b.sheet.Add("Signatures", signs...)
}

func (b *asBuilt) gaugeWords() string {
	l := b.Job.Limits
	return "gauge ±" + b.U.Say(qty.Plain(l.GaugeError)) + ", work and master within " + b.U.Say(qty.KindWarmer.Of(l.Temperature))
}
