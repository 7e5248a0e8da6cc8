package sheets

import (
	"fmt"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/record"
)

// BuildRecord lays out the as-built record of a job, for the customer to keep:
// what was found, what was planned, what was cut and measured, against what
// limits. first is the plan before anything was cut, now the plan after what
// was measured.
func BuildRecord(first, now *plan.Plan) *Sheet {
	b := newBuilder(first)
	b.sheet.Kind = "As-built record"
	rows := record.Of(first, now)
	b.recordHead(rows)
	b.recordSizes(rows)
	for _, a := range rows {
		b.recordVisit(a)
	}
	b.recordRest(now, rows)
	for i := range b.sheet.Sections {
		s := &b.sheet.Sections[i]
		s.Title = fmt.Sprintf("%d. %s", i+1, s.Title)
	}
	b.sheet.eachText(func(s *string) { *s = clean(*s) })
	return b.sheet
}

// Accepted reports whether every visit of a record is finished, in limits, and as
// round and smooth as asked where that was measured.
func Accepted(rows []record.AsBuilt) bool {
	for _, a := range rows {
		if !a.Done || !a.In || a.FormOut() {
			return false
		}
	}
	return len(rows) > 0
}

func (b *builder) recordHead(rows []record.AsBuilt) {
	kv := &KeyValues{}
	add := func(k, v string) {
		if v != "" {
			kv.Items = append(kv.Items, KeyValue{k, v})
		}
	}
	add("Job", b.in.Number)
	add("Revision", b.in.Revision)
	add("Work", b.in.Title)
	add("Customer", b.in.Customer)
	add("Machine", b.machineName())
	add("Material", materialName(b.in.Material))
	for i, x := range b.plan.Bores {
		add(fmt.Sprintf("Bore %d", i+1), b.boreLine(x))
	}
	if b.in.Sleeve != nil {
		add("Sleeve", b.sleeveLine(b.in.Sleeve))
	}
	add("Units", b.u.Word()+"; sizes are diameters; depths count inward from the face")
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
	var says *Paragraph
	switch {
	case len(rows) == 0:
		says = &Paragraph{Strong: true, Text: "There was no feasible plan: nothing was to be cut."}
	case open > 0:
		says = &Paragraph{Strong: true, Text: fmt.Sprintf("NOT FINISHED: %d of %d visits to the bores are not finished and measured.", open, len(rows))}
	case out > 0:
		says = &Paragraph{Strong: true, Text: "OUT OF LIMITS: see the sizes below. The customer decides whether the part is taken as it is."}
	case rough > 0:
		says = &Paragraph{Strong: true, Text: "NOT AS ASKED: the sizes lie within their limits, roughness or roundness does not; see below. The customer decides whether the part is taken as it is."}
	default:
		says = &Paragraph{Text: "All sizes measured lie within their limits."}
	}
	b.sheet.section("The job", kv, says)
}

// recordSizes is the table the customer looks at first.
func (b *builder) recordSizes(rows []record.AsBuilt) {
	t := &Table{Columns: []Column{{Head: []string{"bore"}}, {Head: []string{"visit"}, Align: Decimal}, {Head: []string{"limits", "low"}, Align: Decimal}, {Head: []string{"limits", "high"}, Align: Decimal},
		{Head: []string{"found", "least"}, Align: Decimal}, {Head: []string{"found", "most"}, Align: Decimal}, {Head: []string{"in or out"}}}}
	for _, a := range rows {
		least, most := "", ""
		if len(a.Cuts) > 0 {
			least, most = b.u.Bare(a.Least), b.u.Bare(a.Most)
		}
		t.Rows = append(t.Rows, Row{Cells: []string{a.Station, fmt.Sprint(a.Visit), b.u.Format(b.u.Up(a.Limits.Low.Length())), b.u.Format(b.u.Down(a.Limits.High.Length())), least, most, b.verdict(a)}})
	}
	b.sheet.section("Sizes as built, in "+b.u.Word(), t)
}

func (b *builder) verdict(a record.AsBuilt) string {
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
		return "OUT, " + b.u.Say(a.Off) + " over"
	}
	return "OUT, " + b.u.Say(-a.Off) + " under"
}

func (b *builder) recordVisit(a record.AsBuilt) {
	title := fmt.Sprintf("%s, visit %d: %s", a.Station, a.Visit, a.Title)
	kv := &KeyValues{}
	add := func(k, v string) { kv.Items = append(kv.Items, KeyValue{k, v}) }
	switch {
	case a.AtHome:
		add("Expected", b.u.SayRange(a.Found[0], a.Found[1])+", as the lathe makes it and the fit closes it")
	case a.Visit > 1:
		add("Expected", b.u.SayRange(a.Found[0], a.Found[1])+" inside, about the true axis")
	case a.Found[1] > a.Found[0]:
		add("Found", b.u.SayRange(a.Found[0], a.Found[1])+", about the true axis")
	default:
		add("Found", b.u.SayBoth(a.Found[0]))
	}
	asked := b.u.SayLimitsOfSize(a.Limits.Low, a.Limits.High)
	if a.Limits.Fit != "" {
		asked += " (" + a.Limits.Fit + ")"
	}
	add("Asked for", asked+", Ra "+b.u.Say(qty.Roughness(a.Ra))+", round within "+b.u.Say(qty.Fine(a.Roundness))+" of radius")
	if len(a.Cuts) == 0 {
		b.sheet.section(title, kv, &Paragraph{Text: "Nothing was measured in this visit."})
		return
	}
	add("Measured last", b.u.SayRange(a.Least, a.Most)+": "+b.verdict(a))
	form := "not shown: one size at each depth"
	if a.Uneven >= 0 {
		form = b.u.Say(qty.Fine(a.Uneven)) + " of radius between the two-point sizes at one depth"
	}
	switch a.Round {
	case record.ShownOut:
		form += ": OUT, " + b.u.Say(qty.Fine(a.Roundness)) + " asked for"
	case record.InDoubt:
		form += ": more than asked for, by less than the gauge's own doubt"
	}
	if a.Uneven >= 0 {
		form += "; lobes of odd number do not show in them"
	}
	add("Out-of-round", form)
	if a.Taper > 0 {
		add("Taper", b.u.Say(a.Taper)+" on diameter over the depths measured")
	}
	switch {
	case a.RaFound == 0:
		add("Roughness", "not measured")
	case a.RaIn:
		add("Roughness", "Ra "+b.u.Say(qty.Roughness(a.RaFound))+": in")
	default:
		add("Roughness", "Ra "+b.u.Say(qty.Roughness(a.RaFound))+": OUT, "+b.u.Say(qty.Roughness(a.Ra))+" asked for")
	}
	if a.Pair != "" {
		add("Press fit", "interference "+b.u.SayRange(a.Interference[0], a.Interference[1])+", by the housing as found and the sleeve's limits ("+a.Pair+")")
	}
	if a.ClearanceAsked[1] > 0 {
		s := "clearance " + b.u.SayRange(a.Clearance[0], a.Clearance[1]) + ", asked for " + b.u.SayRange(a.ClearanceAsked[0], a.ClearanceAsked[1])
		if a.ClearanceIn {
			s += ": in"
		} else {
			s += ": OUT"
		}
		add("Mating part", s)
	}
	t := &Table{Caption: "Cut and measured:", Columns: []Column{{Head: []string{"no"}, Align: Decimal}, {Head: []string{"pass"}}, {Head: []string{"cutter", "set"}, Align: Decimal},
		{Head: []string{"planned", "low"}, Align: Decimal}, {Head: []string{"planned", "high"}, Align: Decimal}, {Head: []string{"found", "least"}, Align: Decimal}, {Head: []string{"found", "most"}, Align: Decimal},
		{Head: []string{"spring", "seen"}, Align: Decimal}}}
	for _, c := range a.Cuts {
		low, high, seen := "", "", ""
		if c.High > 0 {
			low, high = b.u.Bare(c.Low), b.u.Bare(c.High)
		}
		if c.Counts {
			seen = b.u.Bare(qty.Fine(c.Seen))
		}
		t.Rows = append(t.Rows, Row{Cells: []string{fmt.Sprint(c.Pass), c.Kind, b.setTo(c), low, high, b.u.Bare(c.Least), b.u.Bare(c.Most), seen}})
	}
	blocks := []Block{kv, t}
	if len(a.BeforeWork) > 0 {
		var items []KeyValue
		for i, s := range a.BeforeWork {
			items = append(items, KeyValue{fmt.Sprintf("%d)", i+1), s})
		}
		blocks = append(blocks, &Heading{"Work before this visit, as planned"}, &KeyValues{items})
	}
	if notes := remarks(a); len(notes.Items) > 0 {
		blocks = append(blocks, &Heading{"Remarks"}, notes)
	}
	b.sheet.section(title, blocks...)
}

func remarks(a record.AsBuilt) *KeyValues {
	kv := &KeyValues{}
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
			kv.Items = append(kv.Items, KeyValue{fmt.Sprintf("Pass %d", c.Pass), s})
		}
	}
	return kv
}

// recordRest holds notes, cautions and signatures.
func (b *builder) recordRest(now *plan.Plan, rows []record.AsBuilt) {
	var notes []Block
	for _, n := range b.in.Notes {
		notes = append(notes, &Paragraph{Text: n})
	}
	if now.Findings != nil {
		for _, s := range now.Findings.Says {
			notes = append(notes, &Paragraph{Text: s})
		}
	}
	for _, r := range now.Reasons {
		notes = append(notes, &Paragraph{Strong: true, Text: r.What})
	}
	if len(notes) > 0 {
		b.sheet.section("Notes", notes...)
	}
	items := []string{
		"Sizes are those that were entered from the bore gauge, at the places that the entries name; they are as good as gauge, master and temperature were: " + b.gaugeWords() + ".",
		"A sleeve is checked again after the first hours of service: that it has not moved, and that the bearing seat is still in size.",
		"Where the part carries load, holds pressure or is part of a lifting device, this record releases nothing: local codes and licensed practice do.",
	}
	if b.in.Sleeve == nil {
		items = append(items[:1], items[2:]...)
	}
	blocks := []Block{&Cautions{items}}
	if len(now.Cautions) > 0 {
		blocks = append([]Block{&Heading{"From the plan"}, &Cautions{now.Cautions}, &Heading{"In every record"}}, blocks...)
	}
	b.sheet.section("Cautions", blocks...)
	var signs []Block
	for _, who := range []string{"Bored by", "Measured by", "Released by"} {
		signs = append(signs, &Blanks{[]Blank{{who, ""}, {"Date", ""}}})
	}
	b.sheet.section("Signatures", signs...)
}

func (b *builder) gaugeWords() string {
	l := b.in.Limits
	return "gauge ±" + b.u.Say(qty.Plain(l.GaugeError)) + ", work and master within " + b.u.Say(qty.KindWarmer.Of(l.Temperature))
}
