package report

import (
	"fmt"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/record"
	"borewright/process/warm"
	"borewright/sheets/page"
)

// recordReadings holds every entry with every reading, whether a later one replaced it or not.
func (b *asBuilt) recordReadings(all []record.Entry) {
	var blocks []page.Block
	for _, e := range all {
		m := &e.As
		kv := &page.KeyValues{}
		add := func(k string, parts ...string) {
			if s := joined(parts); s != "" {
				kv.Items = append(kv.Items, page.KV(k, s))
			}
		}
		if e.ReplacedBy > 0 {
			add("Replaced", "by entry "+strconv.Itoa(e.ReplacedBy)+worded(", made by ", e.ReplacedWho)+": these figures do not count")
		}
		add("Measured", worded("by ", m.By), m.When, worded("gauge ", m.Gauge), worded("master ", m.Master), b.degrees("work ", m.WorkTemp), b.degrees("gauge at ", m.GaugeTemp))
		var lack []string
		for _, x := range []struct {
			what string
			not  bool
		}{{"who", m.By == ""}, {"when", m.When == ""}, {"gauge", m.Gauge == ""}, {"master", m.Master == ""}, {"temperatures", !warm.AtReference(*m)}} {
			if x.not {
				lack = append(lack, x.what)
			}
		}
		if len(lack) > 0 {
			add("Not said", strings.Join(lack, ", "))
		}
		add("Cut", b.size("cutter set to ", m.Setting.Length()), b.size("bore before ", m.Before.Length()), strings.TrimSpace(b.size("expected ", m.Low.Length())+b.size(" to ", m.High.Length())))
		var way, turns string
		if m.WayOut != process.OutAsFits {
			way = "way out: " + m.WayOut.String()
		}
		if m.Speed > 0 {
			turns = b.U.Say(m.Speed)
		}
		add("With", e.With)
		add("", b.size("feed ", m.Feed), turns, way, b.size("land ", m.Land), b.size("cut to ", m.CutTo))
		program := m.Program
		if m.ProgramSum != "" {
			program += " (check sum " + m.ProgramSum + ")"
		}
		add("Program", program)
		add("Marked", b.clocks("", m.Marked), b.clocks("bare ", m.Bare))
		if m.Ra > 0 {
			add("Roughness", "Ra "+b.U.Say(qty.Roughness(m.Ra)))
		}
		add("Remark", m.Remark)
		add("Marks", worded("revision ", m.Revision), worded("tooling ", m.Tooling), worded("sweeps ", m.Sweeps), worded("entry ", m.ID))
		kind := ""
		if m.Kind != 0 {
			kind = " (" + m.Kind.String() + ")"
		}
		blocks = append(blocks, page.Head(fmt.Sprintf("Entry %d: %s, visit %d, pass %d%s", e.N, e.Station, m.Visit, m.Pass, kind)), kv, b.readings(e))
	}
	if len(blocks) > 0 {
		b.sheet.Add("Every reading, as entered", blocks...)
	}
}

// readings is the table of one entry.
func (b *asBuilt) readings(e record.Entry) *page.Table {
	t := &page.Table{Columns: []page.Column{{Head: []string{"depth"}, Align: page.Decimal}, {Head: []string{"o'clock"}}, {Head: []string{"as", "read"}, Align: page.Decimal}}}
	if warm.AtReference(e.As) {
		t.Columns = append(t.Columns, page.Column{Head: []string{"at", b.U.Say(qty.FromCelsius(20))}, Align: page.Decimal})
	}
	for _, r := range e.Readings {
		depth, at := "", ""
		if r.Depth >= 0 {
			depth = b.exact(r.Depth)
		}
		if r.At >= 0 {
			at = b.U.Bare(qty.KindExactClock.Of(r.At))
		}
		cells := []string{depth, at, b.exact(r.Diameter.Length())}
		if warm.AtReference(e.As) {
			cells = append(cells, b.U.Bare(r.AtTwenty))
		}
		t.Rows = append(t.Rows, page.Row{Cells: cells})
	}
	return t
}

// exact is a length with all the digits that it was entered with, and never fewer than usual.
func (b *asBuilt) exact(l qty.Length) string {
	s, usual := b.U.Decimals(l, 6), b.U.Format(l)
	for len(s) > len(usual) && strings.HasSuffix(s, "0") {
		s = s[:len(s)-1]
	}
	return s
}

func (b *asBuilt) size(what string, l qty.Length) string {
	if l == 0 {
		return ""
	}
	return what + b.exact(l) + " " + b.U.String()
}

func (b *asBuilt) degrees(what string, t qty.Temperature) string {
	if t == 0 {
		return ""
	}
	return what + b.U.Say(t)
}

func (b *asBuilt) clocks(what string, at []float64) string {
	var all []string
	for _, a := range at {
		all = append(all, b.U.Bare(qty.KindExactClock.Of(a)))
	}
	if len(all) == 0 {
		return ""
	}
	return what + strings.Join(all, ", ")
}

// worded is a text with what it is before it; nothing where there is no text.
func worded(what, s string) string {
	if s == "" {
		return ""
	}
	return what + s
}

func joined(parts []string) string {
	var all []string
	for _, s := range parts {
		if s != "" {
			all = append(all, s)
		}
	}
	return strings.Join(all, "; ")
}

// recordAxis says how the axis was established: by what was swept, and where the line stood.
func (b *asBuilt) recordAxis() {
	for _, h := range b.Sides() {
		b.recordAxisOf(h.Plan.LineUp, h.From())
	}
}

// recordAxisOf is the same of one face.
func (b *asBuilt) recordAxisOf(l *place.LineUp, from string) {
	if l == nil {
		b.sheet.Add("The axis"+from, &page.Paragraph{Text: "The job holds no sweeps: how the work was lined up is not recorded here."},
			&page.Blanks{Items: []page.Blank{page.Fill("Lined up by", "")}})
		return
	}
	t := &page.Table{Caption: "Where the line of bores stood against the spindle before the work was moved, in " + b.U.Word() + ":",
		Columns: []page.Column{{Head: []string{"station"}}, {Head: []string{"depth"}, Align: page.Decimal}, {Head: []string{"X", "+ right"}, Align: page.Decimal},
			{Head: []string{"Y", "+ up"}, Align: page.Decimal}, {Head: []string{"known", "to ±"}, Align: page.Decimal}}}
	for _, a := range l.At {
		t.Rows = append(t.Rows, page.Row{Cells: []string{a.Station, b.mm(a.Depth), b.mm(a.X), b.mm(a.Y), b.mm(a.Uncertainty)}})
	}
	var items []page.KeyValue
	for _, s := range l.Swept {
		var dial []string
		for i, d := range s.As.Dial {
			if i < len(s.As.At) {
				dial = append(dial, b.U.Bare(qty.KindClock.Of(s.As.At[i]))+" "+b.exact(d))
			}
		}
		items = append(items, page.KV("Swept", s.Station+" at "+b.U.Say(qty.Plain(s.As.Depth))+": "+strings.Join(dial, ", ")))
	}
	blocks := []page.Block{&page.KeyValues{Items: items}, t}
	if !l.Assumption.None() {
		blocks = append(blocks, &page.Paragraph{Text: "Assumed, not swept: " + b.Words.Say(l.Assumption) + "."})
	}
	b.sheet.Add("The axis"+from, blocks...)
}

func (b *asBuilt) mm(x float64) string { return b.U.Bare(qty.FromMM(x)) }

// recordDeviations holds what is not as asked, with room for a concession, and the lines of
// the certificates.
func (b *asBuilt) recordDeviations(rows []record.AsBuilt) {
	var blocks []page.Block
	for _, s := range b.Words.Sentences(record.Deviations(rows)) {
		blocks = append(blocks, &page.Paragraph{Strong: true, Text: s})
	}
	if len(blocks) == 0 {
		blocks = append(blocks, &page.Paragraph{Text: "None by what was entered."})
	}
	blocks = append(blocks, &page.Blanks{Items: []page.Blank{page.Fill("Concession no.", ""), page.Fill("Granted by", ""), page.Fill("Date", "")}})
	b.sheet.Add("Deviations and concessions", blocks...)
	certificates := []page.Blank{page.Fill("Work: "+b.Job.Material.Name+", certificate", "")}
	if s := b.Job.Sleeve; s != nil {
		certificates = append(certificates, page.Fill("Sleeve: "+s.Material.Name+", certificate", ""))
		if s.Hold == process.Bond {
			certificates = append(certificates, page.Fill("Compound, batch", ""))
		}
	}
	b.sheet.Add("Material", &page.Blanks{Items: certificates})
}
