package report

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/revision"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// brief is what a reviewer reads first: what was edited, what it does to the plan
// with the worst first, and what is to be proven, loaded or printed anew.
type brief struct{ edited, does, papers []page.KeyValue }

// editsMost is how many edits a brief lists one by one.
const editsMost = 8

// briefOf sums a comparison up.
func briefOf(old, new Revision, d difference) brief {
	u, filed := new.Plan.Job.Units, old.Filed || new.Filed
	edited := editedLines(u, d.changes)
	if filed { // what it knows of the job is little more than its name
		if len(of(d.changes, revision.Edited)) == 0 {
			edited = nil
		}
		edited = append(edited, page.KV("not told", "a folder does not hold the job; the two job files tell what was edited"))
	}
	return brief{edited, doesLines(u, old.Plan, new.Plan, d.effects, filed), paperLines(d.programs, d.sheet)}
}

// editedLines are the figures that somebody wrote, worst first; of more than a few,
// the first of each place and how many more stand there.
func editedLines(u qty.Unit, changes []revision.Change) (out []page.KeyValue) {
	edits := of(changes, revision.Edited)
	line := func(c revision.Change, more int) page.KeyValue {
		value := valueIn(u, c.Old, c.New) + " -> " + valueIn(u, c.New, c.Old)
		if more > 0 {
			value += fmt.Sprintf(", and %d more", more)
		}
		return page.KV(words.In(u).Say(c.Where)+", "+c.What, value)
	}
	if len(edits) == 0 {
		return []page.KeyValue{page.KV("nothing", "in the job and the files that it names")}
	}
	if len(edits) <= editsMost {
		for _, c := range edits {
			out = append(out, line(c, 0))
		}
		return out
	}
	places := 0
	for i, c := range edits {
		there := func(x revision.Change) bool { return fact.Equal(x.Where, c.Where) }
		if slices.ContainsFunc(edits[:i], there) {
			continue
		}
		if places++; places <= editsMost {
			more := 0
			for _, x := range edits[i+1:] {
				more += map[bool]int{true: 1}[there(x)]
			}
			out = append(out, line(c, more))
		}
	}
	if places > editsMost {
		out = append(out, page.KV("and", fmt.Sprintf("edits in %s more", count(places-editsMost, "place"))))
	}
	return out
}

// doesLines are what the edits do to the plan: what is worse first, then what is
// better, then what is only otherwise. What does not change is not in them. A plan that is
// filed in a folder says the minutes of its cuts only.
func doesLines(u qty.Unit, old, new *plan.Plan, effects []revision.Effect, filed bool) []page.KeyValue {
	w := words.In(u)
	var worse, better, other []page.KeyValue
	say := func(bad bool, text string) {
		if bad {
			worse = append(worse, page.KV("worse", text))
		} else {
			better = append(better, page.KV("better", text))
		}
	}
	also := func(text string) { other = append(other, page.KV("other", text)) }
	m := revision.Move(old, new)
	if old.Feasible != new.Feasible {
		text := "it can be done now"
		if !new.Feasible {
			text = "it can NOT be done"
			if len(new.Reasons) > 0 {
				text += ": " + w.Say(new.Reasons[0].What)
			}
		}
		say(!new.Feasible, text)
	}
	if all := revision.Whole(old, new); all.Feasible[0] && all.Feasible[1] {
		if all.Voice[0] != all.Voice[1] {
			say(all.Louder(), "the bar: "+voices(u, all))
		}
		if was, is := w.InHundred(all.Chance[0]), w.InHundred(all.Chance[1]); was != is {
			say(all.Chance[1] < all.Chance[0], "chance of size "+was+" -> "+is+" in 100, if the bar stays quiet")
		}
		if was, is := u.Bare(qty.Fine(all.Spring[0])), u.Bare(qty.Fine(all.Spring[1])); was != is {
			say(all.Spring[1] > all.Spring[0], "spring of the finish "+was+" -> "+u.Say(qty.Fine(all.Spring[1]))+" on diameter")
		}
		if was, is := qty.KindWholeMinutes.Bare(all.Minutes[0]), qty.KindWholeMinutes.Bare(all.Minutes[1]); was != is {
			time, stops := "time ", " min, stops included"
			if filed {
				time, stops = "time of cutting ", " min, without stops"
			}
			say(all.Minutes[1] > all.Minutes[0], time+was+" -> "+is+stops)
		}
	}
	for _, c := range m.Cautions {
		worse = append(worse, page.KV("to mind", w.Sentence(c)))
	}
	if new.Feasible && old.Feasible {
		if m.Passes[0] != m.Passes[1] {
			also(fmt.Sprintf("passes %d -> %d", m.Passes[0], m.Passes[1]))
		}
		if m.Settings > 0 {
			also(count(m.Settings, "cutter setting") + " otherwise, most by " + u.Say(m.Most) + ": " + w.Say(m.At))
		}
		if m.Turns > 0 {
			also(count(m.Turns, "pass") + " with another speed or feed")
		}
		if m.Honed[0] != m.Honed[1] {
			also(fmt.Sprintf("edge honed %d -> %d times", m.Honed[0], m.Honed[1]))
		}
		if m.Stops[0] != m.Stops[1] {
			also(fmt.Sprintf("stops to measure %d -> %d", m.Stops[0], m.Stops[1]))
		}
	}
	if len(effects) > 2 { // more than one part was edited: what each comes to by itself
		for _, e := range effects[1:] {
			also(partAlone(u, e))
		}
	}
	out := slices.Concat(worse, better, other)
	if len(out) == 0 {
		out = []page.KeyValue{page.KV("nothing", "that is printed of the plan")}
	}
	return out
}

// partAlone says in a line what a part of the changes comes to.
func partAlone(u qty.Unit, e revision.Effect) string {
	w := words.In(u)
	part := w.Say(fact.New(e.Part)) + ": "
	if !e.Feasible[0] || !e.Feasible[1] {
		return part + feasibility(e)
	}
	return part + fmt.Sprintf("chance %s -> %s in 100, %s, %s -> %s min", w.InHundred(e.Chance[0]), w.InHundred(e.Chance[1]), voices(u, e),
		qty.KindWholeMinutes.Bare(e.Minutes[0]), qty.KindWholeMinutes.Bare(e.Minutes[1]))
}

func feasibility(e revision.Effect) string {
	can := map[bool]string{true: "feasible", false: "NOT feasible"}
	return can[e.Feasible[0]] + " -> " + can[e.Feasible[1]]
}

// paperLines say of each program and of the sheet what is to be done with it.
func paperLines(programs []ProgramChange, sheet string) (out []page.KeyValue) {
	for _, c := range programs {
		name, text := c.Name, ""
		switch {
		case c.Name == "":
			name, text = c.Was, "is gone: take it off the control"
		case c.Was == "":
			text = "is new: prove it"
		case !c.Bytes && c.Name == c.Was:
			text = "the same: what was proven holds"
		case !c.Bytes:
			text = "was " + c.Was + "; the same in every byte"
		case !c.ByMove:
			text = "cannot be read as moves: prove it"
		case len(c.Acts) == 0:
			text = "moves as before, remarks differ: load it anew"
		default:
			text = "moves otherwise in " + count(len(c.Acts), "place") + ": prove it and load it anew"
		}
		out = append(out, page.KV(name, text))
	}
	if sheet == "" {
		return append(out, page.KV("sheet", "the same"))
	}
	return append(out, page.KV("sheet", "differs: print it anew and take the old one down"))
}

// part is one of the three parts of a brief.
type part struct {
	title string
	lines []page.KeyValue
}

func (b brief) parts() []part {
	return []part{{"Edited", b.edited}, {"What it does to the plan", b.does}, {"Programs and sheet", b.papers}}
}

// of are the changes of one origin.
func of(changes []revision.Change, from revision.Origin) (out []revision.Change) {
	for _, c := range changes {
		if c.From == from {
			out = append(out, c)
		}
	}
	return out
}

// moreOf is the line that leads to the full list.
func moreOf(d difference) string {
	var parts []string
	for _, x := range []struct {
		n    int
		noun string
	}{{len(of(d.changes, revision.Edited)), "edit"}, {len(of(d.changes, revision.Follows)), "figure filled in"}, {len(of(d.changes, revision.Result)), "result"}} {
		if x.n > 0 {
			parts = append(parts, strings.Replace(count(x.n, x.noun), "figure filled ins", "figures filled in", 1))
		}
	}
	if len(parts) == 0 {
		return "Programs move by move and the sheet line by line: compare --all."
	}
	return "In all " + strings.Join(parts, ", ") + ": compare --all lists them, the programs move by move and the sheet line by line."
}
