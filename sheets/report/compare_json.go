package report

import (
	"encoding/json"
	"fmt"

	"borewright/process/fact"
	"borewright/process/field"
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

type compareDocument struct {
	Schema   string            `json:"schema"`
	Old      string            `json:"old"`
	New      string            `json:"new"`
	Differ   bool              `json:"differ"`
	Changes  []changeDocument  `json:"changes"`
	Effects  []effectDocument  `json:"effects"`
	Programs []programDocument `json:"programs"`
	Sheet    string            `json:"sheet_diff"`
}

type changeDocument struct {
	Spoils string       `json:"spoils"`
	Where  string       `json:"where"`
	What   string       `json:"what"`
	Old    sideDocument `json:"old"`
	New    sideDocument `json:"new"`
	Effect string       `json:"effect,omitempty"` // the part of effects[] that says what it comes to
}

// sideDocument holds one figure under the name of its unit; none of them: not
// there.
type sideDocument struct {
	Text    string   `json:"text,omitempty"`
	MM      *float64 `json:"mm,omitempty"`
	Ra      *float64 `json:"ra_um,omitempty"`
	Surface *float64 `json:"m_per_min,omitempty"`
	Number  *float64 `json:"number,omitempty"`
	Unit    string   `json:"unit,omitempty"`
}

type effectDocument struct {
	Part       string  `json:"part"`
	Feasible   [2]bool `json:"feasible"`
	OldSpring  float64 `json:"old_finish_spring_mm"`
	NewSpring  float64 `json:"new_finish_spring_mm"`
	OldChance  float64 `json:"old_chance_of_size"`
	NewChance  float64 `json:"new_chance_of_size"`
	Given      string  `json:"chance_given"`
	OldVoice   string  `json:"old_voice,omitempty"`
	NewVoice   string  `json:"new_voice,omitempty"`
	OldMinutes float64 `json:"old_minutes"`
	NewMinutes float64 `json:"new_minutes"`
}

type programDocument struct {
	Name     string        `json:"name"`
	Was      string        `json:"was"`
	ByMove   bool          `json:"by_move"`
	Bytes    bool          `json:"bytes_differ"`
	Comments int           `json:"comments_that_differ"`
	Acts     []actDocument `json:"changes"`
	Unified  string        `json:"diff,omitempty"`
}

type actDocument struct {
	After string         `json:"after"`
	Old   []lineDocument `json:"old"`
	New   []lineDocument `json:"new"`
}

type lineDocument struct {
	Line int    `json:"line"`
	Text string `json:"text"`
}

// CompareJSON is the revision report as JSON, SI units, and whether there is
// any difference.
func CompareJSON(old, new Revision) (data []byte, differ bool, err error) {
	d := compareDocument{Schema: CompareSchema, Old: old.Name, New: new.Name, Changes: []changeDocument{}, Effects: []effectDocument{}, Programs: []programDocument{}}
	effects, u := revision.Effects(old.Plan, new.Plan), head.Of(new.Plan).U
	w := words.In(u)
	for _, c := range revision.Compare(old.Plan, new.Plan) {
		e, _ := revision.EffectOf(c, effects)
		d.Changes = append(d.Changes, changeDocument{spoils(c.Spoils), w.Say(c.Where), c.What, side(u, c.Old), side(u, c.New), said(w, e.Part)})
	}
	for _, e := range effects {
		d.Effects = append(d.Effects, effectDocument{said(w, e.Part), e.Feasible, e.Spring[0].MM(), e.Spring[1].MM(), e.Chance[0], e.Chance[1],
			w.Say(fact.New(landing.IfQuiet)), said(w, e.Voice[0]), said(w, e.Voice[1]), e.Minutes[0], e.Minutes[1]})
	}
	d.Differ = len(d.Changes) > 0
	for _, p := range Programs(old, new) {
		x := programDocument{p.Name, p.Was, p.ByMove, p.Bytes, p.Comments, []actDocument{}, p.Unified}
		for _, c := range p.Acts {
			x.Acts = append(x.Acts, actDocument{c.After, lineDocuments(c.Old), lineDocuments(c.New)})
		}
		d.Programs = append(d.Programs, x)
		d.Differ = d.Differ || p.differ()
	}
	d.Sheet = unified(fileName(old.Name, "sheet.txt"), fileName(new.Name, "sheet.txt"), old.Sheet, new.Sheet)
	d.Differ = d.Differ || d.Sheet != ""
	data, err = json.MarshalIndent(d, "", "  ")
	return append(data, '\n'), d.Differ, err
}

func lineDocuments(acts []Act) []lineDocument {
	out := []lineDocument{}
	for _, a := range acts {
		out = append(out, lineDocument(a))
	}
	return out
}

func side(u qty.Unit, v field.Value) sideDocument {
	if v.Is != field.ValueNone && v.Is != field.ValueFigure {
		return sideDocument{Text: figure(u, v, v)}
	} else if v.Is == field.ValueNone {
		return sideDocument{}
	}
	number, unit := qty.Metric.Plain(v.Figure)
	switch k := v.Figure.Kind; {
	case k == qty.KindRoughness:
		number = qty.FromMM(v.Figure.Value).Microns()
		return sideDocument{Ra: &number}
	case k == qty.KindExactCuttingSpeed:
		return sideDocument{Surface: &number}
	case k.IsLength():
		return sideDocument{MM: &number}
	}
	return sideDocument{Number: &number, Unit: unit + v.Unit}
}

// effect says in a line what a part of the changes comes to, made alone.
func effect(u qty.Unit, e revision.Effect) string {
	if !e.Feasible[0] || !e.Feasible[1] {
		can := map[bool]string{true: "feasible", false: "NOT feasible"}
		return said(words.In(u), e.Part) + ", " + can[e.Feasible[0]] + " -> " + can[e.Feasible[1]]
	}
	return fmt.Sprintf("alone, finish spring %s -> %s, chance of size %s -> %s %% if the bar stays quiet (%s), %s -> %s min", u.Bare(qty.Fine(e.Spring[0])), u.Bare(qty.Fine(e.Spring[1])),
		qty.KindChance.Bare(e.Chance[0]), qty.KindChance.Bare(e.Chance[1]), voices(u, e), qty.KindWholeMinutes.Bare(e.Minutes[0]), qty.KindWholeMinutes.Bare(e.Minutes[1]))
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
			row[2] = qty.KindChance.Bare(e.Chance[0]) + " -> " + qty.KindChance.Bare(e.Chance[1]) + " %"
			row[3] = voices(u, e)
			row[4] = qty.KindWholeMinutes.Bare(e.Minutes[0]) + " -> " + qty.KindWholeMinutes.Bare(e.Minutes[1])
		} else {
			can := map[bool]string{true: "feasible", false: "NOT feasible"}
			row[1] = can[e.Feasible[0]] + " -> " + can[e.Feasible[1]]
		}
		tab.Rows = append(tab.Rows, page.Row{Cells: row})
	}
	return tab
}
