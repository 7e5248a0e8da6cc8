// Package report lays out what is read away from the machine: what changed
// between two revisions of a job (the plans in the terms of the job, the programs
// by what the machine does, the sheets line by line), the as-built record for
// the customer, and what finished jobs say of a shop's machines.
package report

import (
	"fmt"
	"io"
	"math"
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
}

// File is a file by its name.
type File struct {
	Name string
	Data []byte

	Acts     []Act    // programs: what the machine does
	Comments []string // and what is said beside
	Read     bool     // Acts can be trusted
}

// writer prints a report.
type writer struct{ *page.Printer }

// WriteCompare prints what changed from one revision to the next: first in the
// terms of the job, worst first, then the programs and the sheet line by line
// as unified diffs. differ says whether there is any difference at all.
// Lines of the first part are at most 80 columns; those of programs and sheet
// are as long as they are.
func WriteCompare(w io.Writer, old, new Revision) (differ bool, err error) {
	t := writer{&page.Printer{}}
	b, o := head.Of(new.Plan), head.Of(old.Plan)
	t.Rule("=")
	t.Ends("REVISION REPORT", b.Name())
	t.Hang("", "", b.Job.Title)
	t.Rule("=")
	t.Line("")
	t.Block(&page.KeyValues{Items: []page.KeyValue{
		page.KV("Old", old.Name+provenWords(o.Plan)), page.KV("New", new.Name+provenWords(b.Plan)),
	}})

	changes, programs, sheet, differ := differences(old, new)
	t.Line("")
	if !differ {
		t.Hang("", "", "No difference: job, programs and sheet are the same.")
		_, err = t.WriteTo(w)
		return false, err
	}

	t.Hang("", "", "The job: "+summary(changes))
	effects := revision.Effects(old.Plan, new.Plan)
	t.effects(b.U, effects)
	for s := process.SpoilsProof; s <= process.SpoilsWords; s++ {
		t.changes(b.U, s, changes, effects)
	}
	t.Line("")
	t.Line("Programs")
	t.Rule("-")
	t.programs(programs)
	t.Line("")
	t.Line("Operation sheet")
	t.Rule("-")
	switch {
	case len(old.Sheet) == 0 && len(new.Sheet) == 0:
		t.Line("None in either revision.")
	case sheet == "":
		t.Line("The same.")
	}
	t.Raw(visible(sheet))
	_, err = t.WriteTo(w)
	return true, err
}

func provenWords(p *plan.Plan) string {
	if p.Feasible {
		return ""
	}
	return " - " + page.NotProven
}

// spoils are the heads of the report's first part.
func spoils(s field.Rank) string {
	return [...]string{"whether it can be done", "the finished bore", "the fit of the sleeve", "reach and clearance",
		"cutter setting and depth", "speed, feed and time", "words only"}[s]
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

// changes prints the changes of one weight, a heading for each place in the
// job and under it "what  old -> new". Sentences stand under each other.
func (t writer) changes(u qty.Unit, s field.Rank, all []revision.Change, effects []revision.Effect) {
	type row struct {
		at                           fact.Fact
		where, comes, what, from, to string
	}
	const figureMost = 26 // a longer one is a sentence
	var rows []row
	var what, from int
	for _, c := range all {
		if c.Spoils != s {
			continue
		}
		comes := ""
		if e, ok := revision.EffectOf(c, effects); ok && e.Part != revision.WholeJob {
			comes = ": " + effect(u, e)
		}
		r := row{c.Where, t.Put(words.In(u).Say(c.Where)), comes, t.Put(c.What), t.Put(figure(u, c.Old, c.New)), t.Put(figure(u, c.New, c.Old))}
		rows = append(rows, r)
		if max(utf8.RuneCountInString(r.what), utf8.RuneCountInString(r.from), utf8.RuneCountInString(r.to)) <= figureMost {
			what, from = max(what, utf8.RuneCountInString(r.what)), max(from, utf8.RuneCountInString(r.from))
		}
	}
	if len(rows) == 0 {
		return
	}
	title := spoils(s)
	t.Line("")
	t.Line(strings.ToUpper(title[:1]) + title[1:])
	t.Rule("-")
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

// figure prints one side of a change. Old and new are given together, so that
// both carry enough decimals to be told apart.
func figure(u qty.Unit, v, beside field.Value) string {
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

// differences is what differs between two revisions: changes in the terms of the
// job, programs by what the machine does, the sheet line by line; and whether
// anything does.
func differences(old, new Revision) (changes []revision.Change, programs []ProgramChange, sheet string, differ bool) {
	changes, programs = revision.Compare(old.Plan, new.Plan), Programs(old, new)
	sheet = unified(fileName(old.Name, "sheet.txt"), fileName(new.Name, "sheet.txt"), old.Sheet, new.Sheet)
	differ = len(changes) > 0 || sheet != ""
	for i := range programs {
		differ = differ || programs[i].differ()
	}
	return changes, programs, sheet, differ
}
