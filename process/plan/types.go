// Package plan turns a job, and what was measured since, into the answer: bores,
// visits and passes with the reason for each, or what stops it and what would free
// it. It leads the way through the rooms below and puts their answers together:
// passes, place, sleeve, measured. What one trade works out belongs in the room of
// that trade. It formats nothing and opens no file.
package plan

import (
	"sync"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/measured"
	"borewright/process/passes"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/sleeve"
	"borewright/process/turns"
	"borewright/process/ways"
)

// Plan is the answer to a job.
type Plan struct {
	Job      *process.Job
	Feasible bool
	Reasons  []Reason           // what stops it; empty when feasible
	Cautions []fact.Fact        // what to mind all the same, one sentence each
	Bores    []Bore             // in the order of the job file
	Order    []fact.Fact        // why the visits come in that order; none where there is one bore
	LineUp   *place.LineUp      // nil: nothing was swept
	Turned   *place.LineUp      // the same of the face that is finished last, where bores of both are
	Minutes  float64            // all visits, stops included
	Findings *measured.Findings // what was measured before this plan was made; nil: nothing
	Seek     func() ways.Found  // searches what would free it; nil: nothing that is known

	remarks []remark // cautions that not every visit has
	turns   [][2]int // the visits in the order of the work, indices of bore and visit; nil: bore by bore

	waits   *measured.Learned              // from all entries, where some wait for those of the other bores of their setting; nil: none waits
	known   *measured.Learned              // what was learned from it
	entered []process.Measured             // the entries that it was learned from
	with    *passes.Planning               // what it was planned with; nil where it was read back
	others  map[cutFrom]*passes.Planning   // the same of visits that are cut with other tools than the job's, or seen from one face of two
	sides   *turns.Sides                   // the job as it is seen from each face; nil: it is of one face
	minded  turns.Minded                   // cautions of one face
	stood   *process.Face                  // that the table stands at, by what was measured; nil: the work is set up first
	edges   map[string]*schedule.EdgeFound // as each cutter goes on, by its name
	bushes  map[string]*place.Bush         // that bars ran in, by the station that was bored so
	noLine  fact.Fact                      // why the sweeps of the job give no LineUp; nothing: they do, or there are none
	made    bool                           // by the planner, from a job that Load accepted
	listed  *sync.Map                      // the visits of its bores, without passes, for those who ask how it goes on
	how     effort                         // that it was planned with
	bars    bool                           // something bars it whatever its passes are
	short   float64                        // by how much that misses its limit, times; 0: nothing does, or it is no figure
}

// Schema names the layout of plan.json. Fields are added, never renamed.
const Schema = "borewright/plan/1"

// Describe says what documents and a comparison have of a plan: always SI, the
// unit in the name. Jobs and bores are compared in pairs, by process/revision.
func (p *Plan) Describe(d *field.Desc) {
	d.Is("schema", func() any { return Schema })
	p.DescribeJob(d)
	d.Flag(&p.Feasible, "feasible").Weighs(process.SpoilsProof, "proof").YesNo("proven", "NOT PROVEN")
	p.DescribeReasons(d)
	p.DescribeTools(d)
	field.List(d, &p.Bores, "bores", 0, field.Any)
	d.Facts(&p.Order, "order").Sentence().OmitEmpty().Weighs(process.SpoilsSetting, "order of the visits")
	d.Is("force_error", func() any { return p.Job.Limits.ForceError }) // every force may be off by this share, either way (95 %), before it is measured
	field.Maybe(d, &p.LineUp, "lineup").OmitEmpty().Apart()
	field.Maybe(d, &p.Turned, "lineup_finished_last").OmitEmpty().Apart()
	d.Is("reach", func() any { return p.ReachVerdict().Fact() })
	field.Maybe(d, &p.Findings, "measured").OmitEmpty().Apart()
	d.Figure(&p.Minutes, qty.KindMinutes, "minutes").NoJSON().Weighs(process.SpoilsFeed, "time in all")
	d.Facts(&p.Cautions, "cautions").Sentence().Weighs(process.SpoilsWords, "caution")
	d.Worked("what it was planned with", &p.remarks, &p.turns, &p.waits, &p.known, &p.entered, &p.with, &p.others, &p.sides, &p.minded, &p.stood, &p.edges, &p.bushes, &p.noLine, &p.made, &p.listed, &p.how, &p.bars, &p.short, &p.Seek)
}

// DescribeJob says which job and which revision of it, in every document.
func (p *Plan) DescribeJob(d *field.Desc) {
	field.Maybe(d, &p.Job, "job").Only("units", "number", "revision", "title").Apart()
}

// DescribeTools says what bar and cutter were chosen from.
func (p *Plan) DescribeTools(d *field.Desc) {
	field.Part(d, &p.Job, func(j *process.Job) {
		field.List(d, &j.Candidates, "candidates", 0, field.Any).OmitEmpty().Apart()
		field.List(d, &j.Stickouts, "stickouts", 0, field.Any).OmitEmpty().Apart()
	})
}

// DescribeReasons says what stops it: what each comes to, in one text.
func (p *Plan) DescribeReasons(d *field.Desc) {
	field.Strings(d, &p.Reasons, "reasons", func(r *Reason) *fact.Fact { return &r.What })
}

// NoLineUp is why the sweeps of the job cannot be used, nothing where they can or where
// there are none.
func (p *Plan) NoLineUp() fact.Fact { return p.noLine }

// Reason is one thing that stops a plan.
type Reason struct {
	Where string    // "job.toml:31:1: bar", or "" when no one key is to blame
	What  fact.Fact // what stops it

	anyBar bool // whatever the bar
}

// Visit is one time at the machine for one bore, with what was found of the
// room that the bar has there.
type Visit struct {
	schedule.Visit
	Reach *place.Reach // nil: it could not be worked out
	Axis  qty.Length   // ± (95 %): how far from the line its axis may stand when it is done; 0: nothing was swept
	Back  qty.Length   // of that, how well a cross slide comes back to its figure before the last pass; 0: it is not moved
	Bush  *place.Bush  // in the work, that the end of the bar runs in; nil: it runs in none
}

// Describe adds the room of the bar and the doubt of the axis to what is said of a
// visit.
func (v *Visit) Describe(d *field.Desc) {
	d.Also(&v.Visit)
	swept := func() bool { return v.Axis > 0 }
	d.Length(&v.Axis, "axis_within_mm").Decimals(5).NullUnless(swept).Weighs(process.SpoilsSize, "axis, true to the line within ±").ZeroIsNone()
	d.Length(&v.Back, "slide_back_within_mm").Decimals(5).NullUnless(swept).Weighs(process.SpoilsSize, "cross slide, back within ±").ZeroIsNone()
	field.Maybe(d, &v.Bush, "bush").OmitEmpty()
	field.Part(d, &v.Reach, func(r *place.Reach) {
		d.Is("reach", func() any { return r.Verdict }).NoJSON().Weighs(process.SpoilsReach, "reach of the bar")
	})
}

// Bore is the work on one bore.
type Bore struct {
	Bore    process.Bore
	Station process.Station
	Visits  []Visit
	Sleeve  *sleeve.Sleeve // nil: no sleeve, or it could not be worked out
	CleanUp *place.CleanUp // nil: no readings of the worn bore
	Home    *schedule.Pass // a sleeve finished on the lathe, to be measured when it is home; nil: none, or it has been
}

// Works is how many works are left to do on the bore at the mill: a work that is roughed apart
// is two visits.
func (b *Bore) Works() int {
	n, last := 0, 0
	for i := range b.Visits {
		if v := &b.Visits[i]; v.N != last || v.N == 0 {
			n, last = n+1, v.N
		}
	}
	return n
}

// Work is which of them a visit belongs to, from 1.
func (b *Bore) Work(visit int) int {
	upTo := Bore{Visits: b.Visits[:visit+1]}
	return upTo.Works()
}

// Describe says what documents have of a bore; its passes count through all visits.
// Bores are compared by process/revision.
func (b *Bore) Describe(d *field.Desc) {
	d.Text(&b.Station.Name, "station")
	field.Rows(d, "passes", func() (all []*schedule.Pass) {
		for i := range b.Visits {
			for j := range b.Visits[i].Passes {
				all = append(all, &b.Visits[i].Passes[j])
			}
		}
		return all
	}, func(n int) (all []*schedule.Pass) {
		v := schedule.Visit{Passes: make([]schedule.Pass, n)}
		for i := range v.Passes {
			all = append(all, &v.Passes[i])
		}
		b.Visits = []Visit{{Visit: v}}
		return all
	})
	field.Rows(d, "landing", func() (all []*schedule.Landing) {
		for i := range b.Visits {
			if v := &b.Visits[i].Visit; v.Budget != nil {
				all = append(all, &schedule.Landing{Visit: v})
			}
		}
		return all
	}, nil)
	field.Rows(d, "visits", func() (all []*Visit) {
		for i := range b.Visits {
			all = append(all, &b.Visits[i])
		}
		return all
	}, nil)
	field.Maybe(d, &b.Sleeve, "sleeve").OmitEmpty().Apart()
	field.Part(d, &b.Home, func(h *schedule.Pass) { // finished on the lathe: what is left to do when it is home
		d.Group("sleeve_to_measure", func(d *field.Desc) {
			d.Only([]string{"n", "diameter_mm"}, h)
			field.Part(d, &h.Hold, func(s *schedule.Hold) { d.Only([]string{"measure"}, s) })
		}).OmitEmpty().Apart()
	})
	field.Part(d, &b.CleanUp, func(c *place.CleanUp) { d.Only([]string{"cleanup_diameter_mm"}, c) })
	d.Find("cleanup_diameter_mm").OmitEmpty()
	d.Worked("in lists of the bore", &b.Visits)
	d.Worked("of the job", &b.Bore, &b.Station)
}
