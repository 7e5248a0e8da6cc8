package report

import (
	"fmt"

	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/field/si"
	"borewright/process/landing"
	"borewright/process/qty"
	"borewright/process/revision"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// CompareSchema names the layout of the report as JSON. Fields are added,
// never renamed.
const CompareSchema = "borewright/compare/1"

// comparison is the report as JSON.
type comparison struct {
	u        qty.Unit
	old, new string
	twin     string
	differ   bool
	changes  []revision.Change
	effects  []revision.Effect
	programs []ProgramChange
	sheet    string // line by line
}

// Describe is the page.
func (c *comparison) Describe(d *field.Desc) {
	d.Is("schema", func() any { return CompareSchema })
	d.Text(&c.old, "old")
	d.Text(&c.new, "new")
	d.Text(&c.twin, "twin").OmitEmpty()
	d.Flag(&c.differ, "differ")
	field.ListBy(d, &c.changes, "changes", c.change)
	field.ListBy(d, &c.effects, "effects", effectFields)
	field.ListBy(d, &c.programs, "programs", programFields)
	d.Text(&c.sheet, "sheet_diff")
}

func (c *comparison) change(d *field.Desc, x *revision.Change) {
	d.Is("spoils", func() any { return spoils(x.Spoils) })
	d.Is("from", func() any { return [...]string{"result", "edited", "filled in"}[x.From] })
	d.Text(&x.Key, "key").OmitEmpty()
	d.Fact(&x.Where, "where")
	d.Text(&x.What, "what")
	d.Group("old", side(c.u, x.Old))
	d.Group("new", side(c.u, x.New))
	d.Is("effect", func() any { // the part of effects[] that says what it comes to
		e, _ := revision.EffectOf(*x, c.effects)
		return fact.New(e.Part)
	}).When(func() bool { _, known := revision.EffectOf(*x, c.effects); return known })
}

// side holds one figure under the name of its unit; none: nothing is there.
func side(u qty.Unit, v field.Value) func(d *field.Desc) {
	if v.Is == field.ValueNone {
		return func(d *field.Desc) {}
	} else if v.Is != field.ValueFigure {
		return func(d *field.Desc) { d.Is("text", func() any { return valueIn(u, v, v) }).OmitEmpty() }
	}
	number, unit := qty.Metric.Plain(v.Figure)
	name := "number"
	switch k := v.Figure.Kind; {
	case k == qty.KindRoughness:
		name, number, unit = "ra_um", qty.FromMM(v.Figure.Value).Microns(), ""
	case k == qty.KindExactCuttingSpeed:
		name, unit = "m_per_min", ""
	case k.IsLength():
		name, unit = "mm", ""
	default:
		unit += v.Unit
	}
	return func(d *field.Desc) {
		d.Is(name, func() any { return number })
		d.Is("unit", func() any { return unit }).OmitEmpty()
	}
}

func effectFields(d *field.Desc, e *revision.Effect) {
	of := func(key string, v any) *field.Field { return d.Is(key, func() any { return v }) }
	of("part", fact.New(e.Part))
	of("feasible", []any{e.Feasible[0], e.Feasible[1]})
	of("old_finish_spring_mm", e.Spring[0].MM())
	of("new_finish_spring_mm", e.Spring[1].MM())
	of("old_chance_of_size", e.Chance[0])
	of("new_chance_of_size", e.Chance[1])
	of("chance_given", fact.New(landing.IfQuiet))
	for i, key := range []string{"old_voice", "new_voice"} {
		of(key, fact.New(e.Voice[i])).When(func() bool { return e.Voice[i] != "" })
	}
	of("old_minutes", e.Minutes[0])
	of("new_minutes", e.Minutes[1])
}

func programFields(d *field.Desc, p *ProgramChange) {
	d.Text(&p.Name, "name")
	d.Text(&p.Was, "was")
	d.Flag(&p.ByMove, "by_move")
	d.Flag(&p.Bytes, "bytes_differ")
	d.Count(&p.Comments, "comments_that_differ")
	field.ListBy(d, &p.Acts, "changes", func(d *field.Desc, c *ActChange) {
		lines := func(d *field.Desc, a *Act) {
			d.Count(&a.Line, "line")
			d.Text(&a.Text, "text")
		}
		d.Text(&c.After, "after")
		field.ListBy(d, &c.Old, "old", lines)
		field.ListBy(d, &c.New, "new", lines)
	})
	d.Text(&p.Unified, "diff").OmitEmpty()
}

// CompareJSON is the revision report as JSON, SI units, and whether there is
// any difference.
func CompareJSON(old, new Revision) (data []byte, differ bool, err error) {
	x := differences(old, new)
	c := &comparison{u: head.Of(new.Plan).U, old: old.Name, new: new.Name, twin: string(new.Twin), effects: x.effects, changes: x.changes, programs: x.programs, sheet: x.sheet, differ: x.differ}
	w := words.In(c.u)
	data, err = si.Write(c, func(f fact.Fact, _ bool) string { return w.Say(f) })
	return data, c.differ, err
}

// effect says in a line what a part of the changes comes to, made alone.
func effect(u qty.Unit, e revision.Effect) string {
	if !e.Feasible[0] || !e.Feasible[1] {
		return said(words.In(u), e.Part) + ", " + feasibility(e)
	}
	return fmt.Sprintf("alone, finish spring %s -> %s, chance of size %s -> %s %% if the bar stays quiet (%s), %s -> %s min", u.Bare(qty.Fine(e.Spring[0])), u.Bare(qty.Fine(e.Spring[1])),
		words.In(u).InHundred(e.Chance[0]), words.In(u).InHundred(e.Chance[1]), voices(u, e), qty.KindWholeMinutes.Bare(e.Minutes[0]), qty.KindWholeMinutes.Bare(e.Minutes[1]))
}

// said is a fact without figures in words; of none nothing.
func said(w words.Words, k fact.Kind) string {
	if k == "" {
		return ""
	}
	return w.Say(fact.New(k))
}

// voices says it before and after a change.
func voices(u qty.Unit, e revision.Effect) string {
	w := words.In(u)
	was, is := said(w, e.Voice[0]), said(w, e.Voice[1])
	if was == is {
		return is
	}
	return was + " -> " + is
}

// effects prints what the changes come to.
func (t writer) effects(u qty.Unit, list []revision.Effect) {
	tab := effectTable(u, list)
	if tab == nil {
		return
	}
	t.Line("")
	t.Line("What the changes come to, spring in " + u.Word() + " on diameter")
	t.Rule("-")
	t.Block(tab)
}

// effectTable holds what the changes come to, part by part; nil where nothing is
// known of it.
func effectTable(u qty.Unit, list []revision.Effect) *page.Table {
	if len(list) == 0 {
		return nil
	}
	tab := &page.Table{Columns: []page.Column{{Head: []string{"change"}}, {Head: []string{"finish spring"}}, {Head: []string{"chance of size", "if it stays quiet"}}, {Head: []string{"the bar"}}, {Head: []string{"minutes"}}}}
	for _, e := range list {
		row := []string{said(words.In(u), e.Part), "", "", "", ""}
		if e.Feasible[1] && e.Feasible[0] {
			row[1] = u.Bare(qty.Fine(e.Spring[0])) + " -> " + u.Bare(qty.Fine(e.Spring[1]))
			row[2] = words.In(u).InHundred(e.Chance[0]) + " -> " + words.In(u).InHundred(e.Chance[1]) + " %"
			row[3] = voices(u, e)
			row[4] = qty.KindWholeMinutes.Bare(e.Minutes[0]) + " -> " + qty.KindWholeMinutes.Bare(e.Minutes[1])
		} else {
			row[1] = feasibility(e)
		}
		tab.Rows = append(tab.Rows, page.Row{Cells: row})
	}
	return tab
}
