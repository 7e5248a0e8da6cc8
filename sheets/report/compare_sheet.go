package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/qty"
	"borewright/process/revision"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// CompareSheet lays the difference between two revisions out as a sheet, for
// the faces that a browser or a printer shows: what changed in the terms of the
// job, what to do with programs and sheet; then, folded away, what WriteCompare lists
// in full. The words are those of WriteCompare.
func CompareSheet(old, new Revision) (s *page.Sheet, differ bool) {
	b, o := head.Of(new.Plan), head.Of(old.Plan)
	s = &page.Sheet{Kind: "Revision report", Job: b.Name(), Title: b.Job.Title}
	d := differences(old, new)
	s.Add("Revisions", &page.KeyValues{Items: []page.KeyValue{
		page.KV("Old", old.Name+feasibleWords(o.Plan)), page.KV("New", new.Name+feasibleWords(b.Plan)),
	}})
	if !d.differ {
		s.Add("", &page.Paragraph{Text: noDifference(old, new)})
		s.Clean()
		return s, false
	}
	for _, p := range briefOf(old, new, d).parts() {
		s.Add(p.title, &page.KeyValues{Items: p.lines})
	}
	folded := func(title string, blocks ...page.Block) {
		s.Add(title, blocks...)
		s.Sections[len(s.Sections)-1].Folded = true
	}
	if both := figure.Overlay(o, b); both != nil && moved(d.changes) {
		s.Add("The setups laid over each other", both)
	}
	for _, c := range d.programs {
		if figs := besideEachOther(old, new, c); figs != nil {
			s.Add(c.called()+", old and new", figs)
		}
	}
	if tab := effectTable(b.U, d.effects); tab != nil {
		folded("What the changes come to, spring in "+b.U.Word()+" on diameter", tab)
	}
	if list := written(d.changes); len(list) > 0 {
		folded("Edited, and what is filled in by it", changeTable(b.U, list, d.effects))
	}
	for k := process.SpoilsProof; k <= process.SpoilsWords; k++ {
		if list := weighing(of(d.changes, revision.Result), k); len(list) > 0 {
			folded(title(k), changeTable(b.U, list, d.effects))
		}
	}
	folded("Programs", programBlocks(d.programs)...)
	if d.sheet != "" {
		folded("Operation sheet", lineTable("", d.sheet))
	}
	s.Clean()
	return s, true
}

// besideEachOther are the drawings of two programs that have the machine do other things, the
// old one first; nil where none of them is drawn.
func besideEachOther(old, new Revision, c ProgramChange) *page.Figures {
	if !c.differ() || c.ByMove && len(c.Acts) == 0 {
		return nil
	}
	out := &page.Figures{}
	for _, side := range []struct {
		word, name string
		of         []File
	}{{"Old", c.Was, old.Programs}, {"New", c.Name, new.Programs}} {
		for _, f := range side.of {
			if f.Name != side.name {
				continue
			}
			for _, d := range f.Drawn {
				d.Caption = side.word + ", " + f.Name + ": " + strings.ToLower(d.Caption[:1]) + d.Caption[1:]
				out.Items = append(out.Items, d)
			}
		}
	}
	if len(out.Items) == 0 {
		return nil
	}
	return out
}

// moved is whether anything of the line of bores or the bar is otherwise.
func moved(changes []revision.Change) bool {
	return slices.ContainsFunc(changes, func(c revision.Change) bool {
		return c.Part == revision.TheBar || c.Part == revision.StationsAndBores || c.Part == revision.TheMachine
	})
}

// changeTable holds a list of changes.
func changeTable(u qty.Unit, list []revision.Change, effects []revision.Effect) *page.Table {
	t := &page.Table{Columns: []page.Column{{Head: []string{"where"}}, {Head: []string{"what"}}, {Head: []string{"old"}}, {Head: []string{"new"}}}}
	for _, c := range list {
		t.Rows = append(t.Rows, page.Row{Cells: []string{words.In(u).Say(c.Where), c.What, valueIn(u, c.Old, c.New), valueIn(u, c.New, c.Old)}})
	}
	if slices.ContainsFunc(list, func(c revision.Change) bool { return c.From != revision.Result }) {
		t.Columns = append(t.Columns, page.Column{Head: []string{"comes to"}})
		for i, c := range list {
			comes := ""
			if e, ok := revision.EffectOf(c, effects); ok {
				comes = effect(u, e)
			}
			if c.From == revision.Follows {
				comes = "filled in"
			}
			t.Rows[i].Cells = append(t.Rows[i].Cells, comes)
		}
	}
	return t
}

// programBlocks is the second part of a revision report.
func programBlocks(list []ProgramChange) []page.Block {
	if len(list) == 0 {
		return []page.Block{&page.Paragraph{Text: "None in either revision."}}
	}
	var out []page.Block
	for _, c := range list {
		name := c.called()
		switch {
		case c.Was == "":
			out = append(out, lineTable(c.Name+" is new", c.Unified))
		case c.Name == "":
			out = append(out, lineTable(c.Was+" is gone", c.Unified))
		case !c.Bytes:
			out = append(out, &page.Paragraph{Text: name + ": the same."})
		case !c.ByMove:
			out = append(out, lineTable(name, c.Unified))
		case len(c.Acts) == 0:
			out = append(out, &page.Paragraph{Text: name + ": the machine does the same" + folded(c.Comments) + "."})
		default:
			out = append(out, besides(fmt.Sprintf("%s: %s%s.", name, count(len(c.Acts), "place")+" in which the machine moves otherwise", folded(c.Comments)), c.Moves))
		}
	}
	return out
}

// besides sets two programs side by side, move by move. Of what both do alike, the moves
// next to a difference are shown, the others are counted.
func besides(caption string, moves []MovePair) *page.Table {
	const near = 2
	t := &page.Table{Caption: caption, Small: true, Columns: []page.Column{{Head: []string{"line"}}, {Head: []string{"old"}}, {Head: []string{"line"}}, {Head: []string{"new"}}}}
	differs := func(i int) bool { return i >= 0 && i < len(moves) && !moves[i].alike() }
	shown := func(i int) bool {
		for k := i - near; k <= i+near; k++ {
			if differs(k) {
				return true
			}
		}
		return false
	}
	for i := 0; i < len(moves); i++ {
		if !shown(i) {
			n := 0
			for ; i < len(moves) && !shown(i); i++ {
				n++
			}
			i--
			t.Rows = append(t.Rows, page.Row{Cells: []string{"", count(n, "move") + " alike", "", ""}})
			continue
		}
		var cells []string
		for k, a := range []*Act{moves[i].Old, moves[i].New} {
			line, text := "", ""
			if a != nil {
				line, text = strconv.Itoa(a.Line), a.Text
			}
			if differs(i) && text != "" {
				text = []string{"- ", "+ "}[k] + text
			}
			cells = append(cells, line, text)
		}
		t.Rows = append(t.Rows, page.Row{Cells: cells})
	}
	return t
}

// lineTable is a line by line difference: the sign, and the line. Two lines that
// name the files lead it; one line alone says why nothing is shown.
func lineTable(caption, unified string) *page.Table {
	t := &page.Table{Caption: caption, Small: true, Columns: []page.Column{{Head: []string{""}}, {Head: []string{"line"}}}}
	all := strings.Split(strings.TrimSuffix(visible(unified), "\n"), "\n")
	for i, l := range all {
		switch {
		case l == "":
		case len(all) == 1 || l[0] == '@':
			t.Rows = append(t.Rows, page.Row{Across: l})
		case i > 1:
			t.Rows = append(t.Rows, page.Row{Cells: []string{strings.TrimSpace(l[:1]), l[1:]}})
		}
	}
	return t
}
