package sheets

import (
	"fmt"
	"io"
	"strings"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/revision"
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

// WriteCompare prints what changed from one revision to the next: first in the
// terms of the job, worst first, then the programs and the sheet line by line
// as unified diffs. differ says whether there is any difference at all.
// Lines of the first part are at most 80 columns; those of programs and sheet
// are as long as they are.
func WriteCompare(w io.Writer, old, new Revision) (differ bool, err error) {
	t := &printer{}
	b, o := newBuilder(new.Plan), newBuilder(old.Plan)
	t.rule("=")
	t.ends("REVISION REPORT", b.sheet.Job)
	t.hang("", "", b.in.Title)
	t.rule("=")
	t.line("")
	t.keyValues(&KeyValues{Items: []KeyValue{
		{"Old", old.Name + provenWords(o.plan)}, {"New", new.Name + provenWords(b.plan)},
	}})

	changes := revision.Compare(old.Plan, new.Plan)
	programs := Programs(old, new)
	sheet := unified(fileName(old.Name, "sheet.txt"), fileName(new.Name, "sheet.txt"), old.Sheet, new.Sheet)
	differ = len(changes) > 0 || sheet != ""
	for i := range programs {
		differ = differ || programs[i].differ()
	}
	t.line("")
	if !differ {
		t.hang("", "", "No difference: job, programs and sheet are the same.")
		_, err = io.WriteString(w, t.b.String())
		return false, err
	}

	t.hang("", "", "The job: "+summary(changes))
	effects := revision.Effects(old.Plan, new.Plan)
	t.effects(b.u, effects)
	for s := revision.SpoilsProof; s <= revision.SpoilsWords; s++ {
		t.changes(b.u, s, changes, effects)
	}
	t.line("")
	t.line("Programs")
	t.rule("-")
	t.programs(programs)
	t.line("")
	t.line("Operation sheet")
	t.rule("-")
	switch {
	case len(old.Sheet) == 0 && len(new.Sheet) == 0:
		t.line("None in either revision.")
	case sheet == "":
		t.line("The same.")
	}
	t.b.WriteString(visible(sheet))
	_, err = io.WriteString(w, t.b.String())
	return true, err
}

func provenWords(p *plan.Plan) string {
	if p.Feasible {
		return ""
	}
	return " - " + notProven
}

// spoils are the heads of the report's first part.
func spoils(s revision.Spoils) string {
	return [...]string{"whether it can be done", "the finished bore", "the fit of the sleeve", "reach and clearance",
		"cutter setting and depth", "speed, feed and time", "words only"}[s]
}

func summary(changes []revision.Change) string {
	if len(changes) == 0 {
		return "no change."
	}
	var n [revision.SpoilsWords + 1]int
	for _, c := range changes {
		n[c.Spoils]++
	}
	var s []string
	for k, v := range n {
		if v > 0 {
			s = append(s, fmt.Sprintf("%s %d", spoils(revision.Spoils(k)), v))
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
func (t *printer) changes(u qty.Unit, s revision.Spoils, all []revision.Change, effects []revision.Effect) {
	type row struct{ where, comes, what, from, to string }
	const figureMost = 26 // a longer one is a sentence
	var rows []row
	var what, from int
	for _, c := range all {
		if c.Spoils != s {
			continue
		}
		comes := ""
		if e, ok := revision.EffectOf(c, effects); ok && e.Part != "all together" {
			comes = ": " + effect(u, e)
		}
		r := row{t.put(c.Where), comes, t.put(c.What), t.put(figure(u, c.Old, c.New)), t.put(figure(u, c.New, c.Old))}
		rows = append(rows, r)
		if max(runes(r.what), runes(r.from), runes(r.to)) <= figureMost {
			what, from = max(what, runes(r.what)), max(from, runes(r.from))
		}
	}
	if len(rows) == 0 {
		return
	}
	title := spoils(s)
	t.line("")
	t.line(strings.ToUpper(title[:1]) + title[1:])
	t.rule("-")
	for i, r := range rows {
		if i == 0 || r.where != rows[i-1].where {
			t.hang("", "  ", r.where+r.comes)
		}
		l := "  " + pad(r.what, what) + "  " + pad(r.from, from) + " -> " + r.to
		if runes(l) <= width && max(runes(r.what), runes(r.from)) <= figureMost {
			t.line(l)
			continue
		}
		t.hang("  ", "    ", r.what)
		t.hang("    old: ", "         ", r.from)
		t.hang("    new: ", "         ", r.to)
	}
}

// fileName is how a diff names a file of a revision. It stays on one line
// whatever the name holds.
func fileName(revision, name string) string {
	return clean(strings.Trim(revision+"/"+name, "/"))
}
