// Package approval is who approved which revision of a job, and when: the entries of the file
// beside the job that holds them. An approval is of what was looked at then, by check sums: the
// job file, the files that it names, the plan and the programs. When one of them is otherwise
// now, the approval has lapsed.
package approval

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/grown"
	"borewright/process/qty"
	"borewright/process/source"
)

// File is a file as it was, by its check sum: SHA-256 of a job and of what it names, in
// hexadecimal; of a program the sum that it states.
type File struct{ Name, Sum string }

// Describe says what its keys are.
func (f *File) Describe(d *field.Desc) {
	d.Text(&f.Name, "name").Need().Example(`"our-mill.toml"`).Says("the file, as the job names it")
	d.Text(&f.Sum, "sum").Need().Example(`"14EB-766B"`).Says("its check sum when it was approved")
}

// Work is what there is to approve.
type Work struct {
	Number, Revision string
	Job              string // SHA-256 of the job file
	Files            []File // that the job names
	Plan             string // check sum of its plan.json before anything is measured; "": not worked out
	Programs         []File
}

// Approval is one entry.
type Approval struct {
	ID string
	Work
	Against    string // what it was compared with; "": nothing
	AgainstSum string
	Withdrawn  bool // takes back all approvals of the job before it
	Remark     string
	By, When   string
	Place      string // "job.approved.toml:2:1"
}

// Describe says what the keys of an entry are.
func (a *Approval) Describe(d *field.Desc) {
	d.Name(&a.ID, "id").Example(`"5f1c09aa31d2"`).Says("tells this entry from all others")
	d.Name(&a.Number, "number").Need().Example(`"WG-204"`).Says("the job")
	d.Name(&a.Revision, "revision").Need().Example(`"C"`).Says("its revision")
	d.Name(&a.By, "by").Need().Example(`"R. Dale"`).Says("who approves")
	d.Text(&a.When, "when").Otherwise("not said").Example(`"2026-03-02 14:20"`).Says("when")
	d.Flag(&a.Withdrawn, "withdrawn").Otherwise("false").Example("true").Says("this entry takes back the approvals before it")
	d.Text(&a.Job, "job_file").Need().Example(`"9c56cc51b374c3ba189210d5b6d4bf57790d351c96c47c02190ecf1e430635ab"`).Says("check sum of the job file (SHA-256)")
	field.List(d, &a.Files, "file", 0, 100).Example(`[ { name = "our-mill.toml", sum = "9c56cc51" } ]`).Says("the files that the job names")
	d.Name(&a.Plan, "plan").Otherwise("not said").Example(`"ACDC-1F45"`).Says("check sum of the plan, as plan.json and the sheet state it")
	field.List(d, &a.Programs, "program", 0, 100).Example(`[ { name = "WG-204-C-idler-1.nc", sum = "14EB-766B" } ]`).Says("the programs, by the sums that they state")
	d.Text(&a.Against, "against").Otherwise("not compared").Example(`"WG-204-B.toml"`).Says("what it was compared with")
	d.Text(&a.AgainstSum, "against_sum").Otherwise("not said").Example(`"9c56cc51"`).Says("check sum of that: of a job file, or of the plan of a folder")
	d.Text(&a.Remark, "remark").Otherwise("none").Example(`"bar of 2.25 in only"`).Says("what else is to be said")
}

// List is the approvals of a job, in their order.
type List struct {
	File string
	All  []Approval
	Torn int // line at which an entry begins that was not written whole, and is not counted; 0: none
}

// written is an entry with its check; entries is a file of them.
type (
	written struct {
		Approval
		check string
	}
	entries struct{ all []written }
)

func (e *written) Describe(d *field.Desc) {
	e.Approval.Describe(d)
	d.Name(&e.check, "check").Example(`"0a1b2c3d"`).
		Says("sum of the entry's bytes (CRC-32, IEEE 802.3), which shows that it was written whole and not changed since")
}

func (e *entries) Describe(d *field.Desc) {
	field.List(d, &e.all, entryName, 0, 2000).Example(`[ { number = "WG-204", revision = "C", by = "R. Dale", job_file = "9c56cc51" } ]`).
		Says("an approval, one entry each; written by \"borewright approve\", added at the end, never changed")
}

const entryName = "approved"

// Read reads the approvals of a job. The error, if any, is of type source.Errors.
func Read(name string, data []byte) (*List, error) {
	whole, torn := SplitTorn(data)
	l := &List{File: source.FileName(name), Torn: grown.TornAt(whole, torn)}
	var file entries
	r, err := keys.ReadIn(qty.Metric, name, "file of approvals", whole, &file)
	if err != nil {
		return nil, err
	}
	for i := range file.all {
		a, at := &file.all[i].Approval, source.El(entryName, i)
		p := r.Place(at)
		a.Place = fmt.Sprintf("%s:%d:%d", r.File, p.Line, p.Col)
		grown.Held(r, at, file.all[i].check, whole, "borewright approve")
		l.All = append(l.All, *a)
	}
	grown.Twice(r, len(l.All), func(i int) (at, id string) { return source.El(entryName, i), l.All[i].ID })
	if err := r.Err(); err != nil {
		return nil, err
	}
	return l, nil
}

// SplitTorn parts a file of approvals from a last entry that was cut short while it was written.
func SplitTorn(data []byte) (whole, torn []byte) { return grown.SplitTorn(entryName, data) }

// Entry is an approval as it stands in its file.
func Entry(a *Approval) []byte {
	return grown.Entry(entryName, keys.WriteTOML(a, qty.Metric, func(any) string { return "" }))
}

// Standing is an approval and what has come between since.
type Standing struct {
	Approval
	Since []string // what is otherwise now, in words; none: it stands
}

// Stands is whether the approval holds.
func (s *Standing) Stands() bool { return len(s.Since) == 0 }

// Now holds the approvals against what there is now; withdrawals are not among them. Of what is
// not known now (no Plan) the files alone are judged.
func (l *List) Now(now Work) (out []Standing) {
	if l == nil {
		return nil
	}
	for i, a := range l.All {
		if a.Withdrawn {
			continue
		}
		s := Standing{Approval: a, Since: a.since(now)}
		if k := slices.IndexFunc(l.All[i:], func(b Approval) bool { return b.Withdrawn }); k >= 0 {
			s.Since = append([]string{"withdrawn by " + strings.Trim(l.All[i+k].By+", "+l.All[i+k].When, ", ")}, s.Since...)
		}
		out = append(out, s)
	}
	return out
}

// since is what is otherwise now. What follows from an edit of a file is not said beside it.
func (a *Approval) since(now Work) (out []string) {
	if a.Number != now.Number || a.Revision != now.Revision {
		out = append(out, fmt.Sprintf("it was of %s, revision %s", a.Number, a.Revision))
	}
	if a.Job != now.Job {
		out = append(out, "the job file was changed")
	}
	for _, f := range a.Files {
		if i := slices.IndexFunc(now.Files, func(n File) bool { return n.Name == f.Name }); i < 0 {
			out = append(out, f.Name+" is not there")
		} else if now.Files[i].Sum != f.Sum {
			out = append(out, f.Name+" was changed")
		}
	}
	if len(out) > 0 || now.Plan == "" {
		return out
	}
	if a.Plan != now.Plan {
		return append(out, "the plan comes out otherwise")
	}
	if !slices.Equal(a.Programs, now.Programs) {
		out = append(out, "the programs come out otherwise")
	}
	return out
}

// Held is the last approval that stands; nil: none does.
func Held(all []Standing) *Standing {
	for i := len(all) - 1; i >= 0; i-- {
		if all[i].Stands() {
			return &all[i]
		}
	}
	return nil
}
