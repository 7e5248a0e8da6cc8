// Package document is a plan as JSON, in SI: plan.json, and what lineup, reach,
// sleeve and record print. What stands in them is described under each struct of the plan;
// here are the pages.
package document

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"

	crc "borewright/post/sum"
	"borewright/process"
	"borewright/process/approval"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/field/si"
	"borewright/process/landing"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/record"
	"borewright/process/schedule"
	"borewright/process/ways"
	"borewright/sheets/made"
	"borewright/sheets/words"
)

// The layouts. Fields are added, never renamed.
const (
	LineUpSchema = "borewright/lineup/1"
	ReachSchema  = "borewright/reach/1"
	SleeveSchema = "borewright/sleeve/1"
	RecordSchema = "borewright/record/1"
)

// Write is plan.json. It carries its own check sum.
func Write(p *plan.Plan) ([]byte, error) {
	data, _, err := WithSum(p)
	return data, err
}

// WithSum is plan.json, and the check sum that it carries.
func WithSum(p *plan.Plan) (data []byte, sum string, err error) {
	if data, err = write(p, p); err != nil {
		return nil, "", err
	}
	sum = crc.OfData(data)
	first := bytes.IndexByte(data, ',') + 1 // behind the schema
	return slices.Concat(data[:first], []byte("\n  \"check_sum\": \""+sum+"\",\n  \"made_by\": "+strconv.Quote(made.By())+","), data[first:]), sum, nil
}

// WriteWays is plan.json with what would better the plan, or free it where something stops
// it. The check sum is that of plan.json without them.
func WriteWays(p *plan.Plan, found []ways.Way) ([]byte, error) {
	return write(p, page(func(d *field.Desc) {
		d.Also(p)
		d.Is("check_sum", func() any { return Sum(p) })
		field.List(d, &found, "ways", 0, field.Any)
		none := p.NoBar()
		d.Fact(&none, "no_bar_to_make").Sentence().OmitEmpty()
		metals := p.Metals()
		field.List(d, &metals, "bar_to_make_of", 0, field.Any).OmitEmpty()
	}))
}

// PlanSchema is the JSON Schema of plan.json.
func PlanSchema() map[string]any {
	var p plan.Plan
	var found []ways.Way
	sum, by := "", ""
	var none fact.Fact
	var metals []ways.Metal
	out := si.Schema(keys.Draft, "borewright plan.json", page(func(d *field.Desc) {
		d.Also(&p)
		d.Text(&sum, "check_sum").Says("CRC-32 of the document without this line and made_by")
		d.Text(&by, "made_by").OmitEmpty()
		field.List(d, &found, "ways", 0, field.Any).OmitEmpty()
		d.Fact(&none, "no_bar_to_make").OmitEmpty()
		field.List(d, &metals, "bar_to_make_of", 0, field.Any).OmitEmpty()
	}))
	out["properties"].(map[string]any)["schema"] = map[string]any{"const": plan.Schema}
	return out
}

// Sum is the check sum of a plan: CRC-32 (the polynomial of IEEE 802.3) of its
// plan.json, the lines of the sum and of what made it left out, in two groups of four hexadecimal digits. It
// is "" where the plan cannot be written.
func Sum(p *plan.Plan) string {
	data, err := write(p, p)
	if err != nil {
		return ""
	}
	return crc.OfData(data)
}

// write writes a page in the words of the job.
func write(p *plan.Plan, page field.Described) ([]byte, error) {
	w := words.InDocument(p.Job.Units)
	return si.Write(page, func(f fact.Fact, sentence bool) string {
		if sentence {
			return w.Sentence(f)
		}
		return w.Say(f)
	})
}

// page is a document that is put together of a plan.
type page func(d *field.Desc)

// Describe is the page.
func (p page) Describe(d *field.Desc) { p(d) }

// head begins every page but plan.json.
func head(d *field.Desc, schema string, p *plan.Plan) {
	d.Is("schema", func() any { return schema })
	p.DescribeJob(d)
}

// WriteLineUp is the line-up and the clean-up sizes. The line-up stands at the top,
// and so does the clean-up size of the bore that it is for; bores holds every worn
// bore. size, over 0, adds the shadow that a bore of that diameter would leave.
func WriteLineUp(p *plan.Plan, size qty.Diameter) ([]byte, error) {
	var bores []*page
	var first *place.CleanUp
	for _, b := range p.Bores {
		if b.CleanUp == nil {
			continue
		}
		c := *b.CleanUp
		if size > 0 {
			c.Shadows = append([]place.Shadow{c.Shadow(size)}, c.Shadows...)
		}
		bores = append(bores, inBore(b.Station.Name, &c))
		if first == nil && (p.LineUp == nil || p.LineUp.Station == b.Station.Name) {
			first = &c
		}
	}
	return write(p, page(func(d *field.Desc) {
		head(d, LineUpSchema, p)
		if p.LineUp != nil {
			d.Also(p.LineUp)
		}
		d.Is("no_line_up", func() any { return p.NoLineUp() }).Sentence().OmitEmpty()
		if first != nil {
			d.Only([]string{"cleanup_diameter_mm"}, first)
		}
		field.Rows(d, "bores", func() []*page { return bores }, nil)
	}))
}

// inBore is what belongs to a bore, under its name.
func inBore(station string, of field.Described) *page {
	p := page(func(d *field.Desc) {
		d.Is("station", func() any { return station })
		d.Also(of)
	})
	return &p
}

// WriteReach is whether the bar gets there, which of the shop's would, and what bar and cutter were
// chosen from where the job leaves them open.
func WriteReach(p *plan.Plan, choices []place.Choice) ([]byte, error) {
	var visits []*page
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			if v.Reach == nil {
				continue
			}
			visit := page(func(d *field.Desc) {
				d.Is("station", func() any { return b.Station.Name })
				d.Is("visit", func() any { return v.N })
				d.Is("part", func() any { return v.Part.String() }).When(func() bool { return v.Part != schedule.Whole })
				d.Also(v.Reach)
			})
			visits = append(visits, &visit)
		}
	}
	return write(p, page(func(d *field.Desc) {
		head(d, ReachSchema, p)
		d.Is("verdict", func() any { return p.ReachVerdict().Fact() })
		field.Rows(d, "visits", func() []*page { return visits }, nil)
		field.List(d, &choices, "bars", 0, field.Any)
		field.List(d, &p.Job.Candidates, "candidates", 0, field.Any).OmitEmpty()
		field.List(d, &p.Job.Stickouts, "stickouts", 0, field.Any).OmitEmpty()
	}))
}

// WriteSleeves is the sleeves of a job.
func WriteSleeves(p *plan.Plan) ([]byte, error) {
	var sleeves []*page
	for _, b := range p.Bores {
		if b.Sleeve != nil {
			sleeves = append(sleeves, inBore(b.Station.Name, b.Sleeve))
		}
	}
	return write(p, page(func(d *field.Desc) {
		head(d, SleeveSchema, p)
		d.Only([]string{"feasible", "reasons"}, p)
		field.Rows(d, "sleeves", func() []*page { return sleeves }, nil)
	}))
}

// WriteRecord is the record of the bores as built: first is the plan before anything
// was cut, now the one after what was measured, approvals who approved it, programs those that cut what was measured, rows what was made of it, entries all
// that was entered.
func WriteRecord(first, now *plan.Plan, approvals []approval.Standing, programs []Program, rows []record.AsBuilt, entries []record.Entry) ([]byte, error) {
	return write(first, page(func(d *field.Desc) {
		head(d, RecordSchema, first)
		d.Is("plan_check_sum", func() any { return Sum(first) })
		d.Is("made_by", func() any { return made.By() })
		if len(approvals) > 0 {
			field.Rows(d, "approvals", func() []*page { return approved(approvals) }, nil)
		}
		field.Rows(d, "programs", func() []*page { return pages(programs) }, nil)
		d.Is("accepted", func() any { return record.Accepted(rows) })
		field.List(d, &rows, "visits", 0, field.Any)
		deviations := record.Deviations(rows)
		d.Facts(&deviations, "deviations").Sentence()
		field.List(d, &entries, "entries", 0, field.Any)
		d.Facts(&now.Cautions, "cautions").Sentence()
		d.Text(&first.Job.Material.Name, "material")
		if s := first.Job.Sleeve; s != nil {
			d.Text(&s.Material.Name, "sleeve_material")
		}
		if first.LineUp != nil {
			d.Group("line_up", func(d *field.Desc) { d.Also(first.LineUp) })
		}
	}))
}

// approved are the approvals of a job, each with whether it stands, and why not.
func approved(all []approval.Standing) (out []*page) {
	for i := range all {
		a := &all[i]
		stands := a.Stands()
		one := page(func(d *field.Desc) {
			d.Text(&a.By, "by")
			d.Text(&a.When, "when").OmitEmpty()
			d.Text(&a.Revision, "revision")
			d.Flag(&stands, "stands")
			d.Is("lapsed", func() any { return a.Since }).When(func() bool { return !stands })
			d.Text(&a.Job, "job_file_sha256")
			d.Text(&a.Plan, "plan_check_sum").OmitEmpty()
			field.List(d, &a.Files, "files", 0, field.Any).OmitEmpty()
			field.List(d, &a.Programs, "programs", 0, field.Any).OmitEmpty()
			d.Text(&a.Against, "compared_with").OmitEmpty()
			d.Text(&a.Remark, "remark").OmitEmpty()
		})
		out = append(out, &one)
	}
	return out
}

// Program is a program by its file's name and its check sum. In a record: the passes
// measured that it cut, and whether their entries name it.
type Program struct {
	Name, Sum string
	Passes    []int
	Noted     bool
}

func (p Program) String() string { return p.Name + " (check sum " + p.Sum + ")" }

func pages(programs []Program) (all []*page) {
	for _, x := range programs {
		var passes []float64
		for _, n := range x.Passes {
			passes = append(passes, float64(n))
		}
		one := page(func(d *field.Desc) {
			d.Text(&x.Name, "program")
			d.Text(&x.Sum, "check_sum")
			d.Numbers(&passes, "measured_passes", "", 0, field.Any)
			d.Flag(&x.Noted, "named_by_entries")
		})
		all = append(all, &one)
	}
	return all
}

// Read reads a plan.json back: units, number, revision, stations, passes by visit and the
// chance of each, which is all that is taken of it. Minutes are those of cutting: stops are
// not written. Figures print in u where it does not say the units, as older ones do not.
func Read(data []byte, u qty.Unit) (*plan.Plan, error) {
	var schema string
	var p plan.Plan
	var bores []readBore
	if err := si.Read(data, page(func(d *field.Desc) {
		d.Text(&schema, "schema")
		d.Group("job", func(d *field.Desc) { d.Units(&u, "units") })
		field.List(d, &bores, "bores", 0, field.Any)
	})); err != nil {
		return nil, err
	}
	if schema != plan.Schema {
		return nil, fmt.Errorf("its schema is %q; %q is read", schema, plan.Schema)
	}
	if err := si.Read(data, &p); err != nil {
		return nil, err
	}
	if p.Job == nil {
		p.Job = &process.Job{}
	}
	p.Job.Units, p.LineUp, p.Findings = u, nil, nil
	for i := range p.Bores {
		b := &p.Bores[i]
		p.Job.Stations = append(p.Job.Stations, process.Station{Name: b.Station.Name})
		b.Bore.Station, b.Sleeve, b.CleanUp, b.Home = i, nil, nil, nil
		b.Visits = bores[i].visits(b.Visits)
		for j := range b.Visits {
			for k := range b.Visits[j].Passes {
				q := &b.Visits[j].Passes[k]
				q.Cutting = q.Speed.At(q.Setting)
				p.Minutes += q.Minutes
			}
		}
	}
	return &p, nil
}

// readBore is what tells which passes of a bore are one visit, and how likely it lands.
type readBore struct {
	all  []readVisit
	odds []readBudget
}

type readVisit struct{ n, first, last int }

type readBudget struct{ landing.Budget }

func (b *readBore) Describe(d *field.Desc) {
	field.List(d, &b.all, "visits", 0, field.Any)
	field.List(d, &b.odds, "landing", 0, field.Any)
}

func (v *readVisit) Describe(d *field.Desc) {
	d.Count(&v.n, "n")
	d.Count(&v.first, "first_pass")
	d.Count(&v.last, "last_pass")
}

func (b *readBudget) Describe(d *field.Desc) {
	d.Fact(&b.Voice, "voice")
	d.Only([]string{"chance", "chance_error", "chance_unmeasured", "chance_unmeasured_error", "correction", "low_mm", "high_mm"}, &b.Budget)
}

// visits parts passes that were read in one row by the visits of the document. Where it does
// not say them, as older ones do not, they stay one visit, the first.
func (b *readBore) visits(read []plan.Visit) (out []plan.Visit) {
	if len(read) != 1 {
		return read
	}
	row := read[0].Passes
	for i, v := range b.all {
		n := 0
		for n < len(row) && v.first <= row[n].N && row[n].N <= v.last {
			n++
		}
		one := plan.Visit{Visit: schedule.Visit{N: max(v.n, 1), Passes: row[:n:n]}}
		if row = row[n:]; len(b.odds) == len(b.all) {
			one.Budget = &b.odds[i].Budget
		}
		out = append(out, one)
	}
	if len(row) > 0 || len(out) == 0 {
		read[0].N = 1
		return read
	}
	return out
}
