// Package report lays out what is read away from the machine: what changed
// between two revisions of a job (the plans in the terms of the job, the programs
// by what the machine does, the sheets line by line), the as-built record for
// the customer, and what finished jobs say of a shop's machines.
package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/revision"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// Revision is everything that was made of one revision of a job.
type Revision struct {
	Name     string // how the report calls it: "B", or a folder
	Plan     *plan.Plan
	Programs []File // in the order of bores and visits
	Sheet    []byte // the operation sheet as text
	Filed    bool   // read from a made folder: what only a job knows is not in Plan
	Twin     Twin   // of the new side: what it is to the old one, by what was given
}

// Twin is what the two sides of a comparison are to each other before they are read.
type Twin string

// The twins; "" are any two.
const (
	OneFile   Twin = "one file"
	OneFolder Twin = "one folder"
	SameBytes Twin = "the same bytes"
)

// noDifference says that there is none, and where that is no wonder, why.
func noDifference(old, new Revision) string {
	switch {
	case new.Twin == "":
		return "No difference: job, programs and sheet are the same."
	case old.Name == new.Name:
		return "No difference: both are " + new.Name + "."
	case new.Twin == SameBytes:
		return fmt.Sprintf("No difference: %s and %s hold the same bytes.", old.Name, new.Name)
	}
	return fmt.Sprintf("No difference: %s and %s are %s.", old.Name, new.Name, new.Twin)
}

// File is a file by its name.
type File struct {
	Name string
	Data []byte

	Acts     []Act         // programs: what the machine does
	Comments []string      // and what is said beside
	Read     bool          // Acts can be trusted
	Drawn    []page.Figure // what it does; none: not drawn
}

// writer prints a report.
type writer struct{ *page.Printer }

// WriteCompare prints what changed from one revision to the next in a few lines:
// what was edited, what it does to the plan, what to do with programs and sheet. all
// adds the full list: what was edited with what follows from it, the results worst
// first, then the programs and the sheet line by line as unified diffs. differ says
// whether there is any difference at all. Lines are at most 80 columns but those of
// programs and sheet, which are as long as they are.
func WriteCompare(w io.Writer, old, new Revision, all bool) (differ bool, err error) {
	t := writer{&page.Printer{}}
	b, o := head.Of(new.Plan), head.Of(old.Plan)
	d := differences(old, new)
	if !d.differ && new.Twin != "" { // a report of two that are one says nothing more
		t.Hang("", "", noDifference(old, new))
		_, err = t.WriteTo(w)
		return false, err
	}
	t.Rule("=")
	t.Ends("REVISION REPORT", b.Name())
	t.Hang("", "", b.Job.Title)
	t.Rule("=")
	t.Line("")
	t.Block(&page.KeyValues{Items: []page.KeyValue{
		page.KV("Old", old.Name+feasibleWords(o.Plan)), page.KV("New", new.Name+feasibleWords(b.Plan)),
	}})
	if !d.differ {
		t.Line("")
		t.Hang("", "", noDifference(old, new))
		_, err = t.WriteTo(w)
		return false, err
	}
	for _, p := range briefOf(old, new, d).parts() {
		t.head(p.title)
		t.Block(&page.KeyValues{Items: p.lines})
	}
	t.Line("")
	if !all {
		t.Hang("", "", moreOf(d))
		_, err = t.WriteTo(w)
		return true, err
	}

	t.Hang("", "", "In full: "+summary(d.changes))
	t.effects(b.U, d.effects)
	if list := written(d.changes); len(list) > 0 {
		t.head("Edited, and what is filled in by it")
		t.changes(b.U, list, d.effects)
	}
	for s := process.SpoilsProof; s <= process.SpoilsWords; s++ {
		if list := weighing(of(d.changes, revision.Result), s); len(list) > 0 {
			t.head(title(s))
			t.changes(b.U, list, d.effects)
		}
	}
	t.head("Programs")
	t.programs(d.programs)
	t.head("Operation sheet")
	switch {
	case len(old.Sheet) == 0 && len(new.Sheet) == 0:
		t.Line("None in either revision.")
	case d.sheet == "":
		t.Line("The same.")
	}
	t.Raw(visible(d.sheet))
	_, err = t.WriteTo(w)
	return true, err
}

// head begins a part of a report.
func (t writer) head(title string) {
	t.Line("")
	t.Line(title)
	t.Rule("-")
}

func feasibleWords(p *plan.Plan) string {
	if p.Feasible {
		return ""
	}
	return " - " + page.NotFeasible
}

// spoils are the heads of the report's first part.
func spoils(s field.Rank) string {
	return [...]string{"whether it can be done", "the finished bore", "the fit of the sleeve", "reach and clearance",
		"cutter setting and depth", "speed, feed and time", "words only"}[s]
}

// title is what a rank spoils as the head of a list.
func title(s field.Rank) string { return strings.ToUpper(spoils(s)[:1]) + spoils(s)[1:] }

// weighing are the changes of one rank.
func weighing(changes []revision.Change, s field.Rank) (out []revision.Change) {
	for _, c := range changes {
		if c.Spoils == s {
			out = append(out, c)
		}
	}
	return out
}

// written are the changes of the job: those of one part of it together, what was
// edited before what is filled in.
func written(changes []revision.Change) []revision.Change {
	out := append(of(changes, revision.Edited), of(changes, revision.Follows)...)
	var parts []fact.Kind
	for _, c := range out {
		if !slices.Contains(parts, c.Part) {
			parts = append(parts, c.Part)
		}
	}
	slices.SortStableFunc(out, func(a, b revision.Change) int {
		return slices.Index(parts, a.Part) - slices.Index(parts, b.Part)
	})
	return out
}

func summary(changes []revision.Change) string {
	if len(changes) == 0 {
		return "no change."
	}
	var n [process.SpoilsWords + 1]int
	for _, c := range changes {
		n[c.Spoils]++
	}
	var s []string
	for k, v := range n {
		if v > 0 {
			s = append(s, fmt.Sprintf("%s %d", spoils(field.Rank(k)), v))
		}
	}
	noun := "changes"
	if len(changes) == 1 {
		noun = "change"
	}
	return fmt.Sprintf("%d %s, by what they can spoil, worst first (old -> new): %s.", len(changes), noun, strings.Join(s, ", "))
}

// changes prints a list of changes, a heading for each place in the
// job and under it "what  old -> new". Sentences stand under each other.
func (t writer) changes(u qty.Unit, all []revision.Change, effects []revision.Effect) {
	type row struct {
		at                           fact.Fact
		where, comes, what, from, to string
	}
	const figureMost = 26 // a longer one is a sentence
	var rows []row
	var what, from int
	for _, c := range all {
		comes, what1 := "", c.What
		if e, ok := revision.EffectOf(c, effects); ok && e.Part != revision.WholeJob {
			comes = ": " + effect(u, e)
		}
		if c.From == revision.Follows {
			what1 = "so " + what1
		}
		r := row{c.Where, t.Put(words.In(u).Say(c.Where)), comes, t.Put(what1), t.Put(valueIn(u, c.Old, c.New)), t.Put(valueIn(u, c.New, c.Old))}
		rows = append(rows, r)
		if max(utf8.RuneCountInString(r.what), utf8.RuneCountInString(r.from), utf8.RuneCountInString(r.to)) <= figureMost {
			what, from = max(what, utf8.RuneCountInString(r.what)), max(from, utf8.RuneCountInString(r.from))
		}
	}
	for i, r := range rows {
		if i == 0 || !fact.Equal(r.at, rows[i-1].at) {
			t.Hang("", "  ", r.where+r.comes)
		}
		l := "  " + page.Pad(r.what, what) + "  " + page.Pad(r.from, from) + " -> " + r.to
		if utf8.RuneCountInString(l) <= page.Columns && max(utf8.RuneCountInString(r.what), utf8.RuneCountInString(r.from)) <= figureMost {
			t.Line(l)
			continue
		}
		t.Hang("  ", "    ", r.what)
		t.Hang("    old: ", "         ", r.from)
		t.Hang("    new: ", "         ", r.to)
	}
}

// fileName is how a diff names a file of a revision. It stays on one line
// whatever the name holds.
func fileName(revision, name string) string {
	return page.Clean(strings.Trim(revision+"/"+name, "/"))
}

// valueIn prints one side of a change. Old and new are given together, so that
// both carry enough decimals to be told apart.
func valueIn(u qty.Unit, v, beside field.Value) string {
	switch v.Is {
	case field.ValueNone:
		return "none"
	case field.ValueText:
		return v.Text
	case field.ValueFact:
		return words.In(u).Say(v.Fact)
	case field.ValueSentence:
		return words.In(u).Sentence(v.Fact)
	}
	if v.Figure.Kind == qty.KindExactCuttingSpeed {
		return u.Say(v.Figure)
	}
	if v.Figure.Kind.IsLength() {
		s, _ := u.SayApart(v.Figure, beside.Figure)
		return s
	}
	x, unit := u.Plain(v.Figure)
	y, _ := u.Plain(beside.Figure)
	s := qty.KindNumber.Bare(x)
	if u == qty.Inches && unit != v.Figure.Kind.Base() && v.Figure.Kind.Base() != "" { // the reader's own: four figures of it, and as many more as tell old and new apart
		for n := 4; n < 12; n++ {
			if s = figures(x, n); s != figures(y, n) {
				break
			}
		}
	} else if beside.Is == v.Is && x != y && s == qty.KindNumber.Bare(y) {
		s = strconv.FormatFloat(x, 'g', -1, 64)
	} else if x != 0 && math.Abs(x) < 0.001 {
		s = strconv.FormatFloat(x, 'g', 4, 64)
	}
	return qty.Join(s, unit+v.Unit)
}

// figures rounds to n figures.
func figures(x float64, n int) string {
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'e', n-1, 64), 64)
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// difference is what differs between two revisions.
type difference struct {
	changes  []revision.Change // in the terms of the job
	effects  []revision.Effect // what they come to
	programs []ProgramChange   // by what the machine does
	sheet    string            // line by line
	differ   bool
}

func differences(old, new Revision) difference {
	d := difference{changes: revision.Compare(old.Plan, new.Plan), programs: Programs(old, new)}
	d.sheet = unified(fileName(old.Name, "sheet.txt"), fileName(new.Name, "sheet.txt"), old.Sheet, new.Sheet)
	d.differ = len(d.changes) > 0 || d.sheet != ""
	for i := range d.programs {
		d.differ = d.differ || d.programs[i].differ()
	}
	if d.differ {
		d.effects = revision.Effects(old.Plan, new.Plan)
	}
	return d
}
