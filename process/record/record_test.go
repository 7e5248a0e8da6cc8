package record_test

import (
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	. "borewright/process/record"
	"borewright/process/schedule"
	"borewright/sheets/words"
)

// A sleeve finished on the lathe: once the housing is bored, its sheet goes by
// the housing as measured, and the job is not finished before the sleeve was
// measured at home. Sizes by hand: the middle of 2.7504 and 2.7506 in less a gap
// of 0.0016 to 0.0024 in is 2.7481 to 2.7489 in.
func TestSleeveAtHome(t *testing.T) {
	job := recordJob(t, "hand-pump/job.toml")
	p := plan.Make(job)
	if h := p.Bores[0].Home; h == nil || h.N != 5 || h.Kind != schedule.Fitted {
		t.Fatalf("%+v", h)
	}
	results := func(list ...process.Measured) *process.Results {
		return &process.Results{File: "job.results.toml", Entries: list}
	}
	house, err := Fill(p, process.Measured{Station: job.Bores[0].Station, Pass: 4, Place: "job.results.toml:2:1", Sizes: []process.Size{
		{Depth: p.Bores[0].Station.From, At: 0, Diameter: qty.DiameterMM(25.4 * 2.7504)}, {Depth: p.Bores[0].Station.From, At: 90, Diameter: qty.DiameterMM(25.4 * 2.7506)}}})
	if err != nil {
		t.Fatal(err)
	}
	q := plan.MakeAfter(job, results(house))
	if len(q.Bores) != 1 || len(q.Bores[0].Visits) != 0 || q.Bores[0].Home == nil || q.Bores[0].Home.N != 5 {
		t.Fatalf("%+v", q.Bores)
	}
	if h := q.Bores[0].Home; h.N != 5 || h.Hold == nil || len(h.Hold.Measure) == 0 {
		t.Errorf("of the sleeve at home: %+v", h)
	}
	s := q.Bores[0].Sleeve
	for i, in := range []float64{2.7481, 2.7489} {
		if d := s.TurnedTo[i].MM()/25.4 - in; d > 0.00005 || d < -0.00005 {
			t.Errorf("turned to %v for this housing, by hand %.4f in", s.TurnedTo[i], in)
		}
	}
	if rows := Of(p, q); len(rows) != 2 || !rows[0].Done || rows[1].Done || !rows[1].AtHome {
		t.Errorf("%+v", rows)
	}
	m, err := Fill(q, process.Measured{Station: job.Bores[0].Station, Pass: 5})
	if err != nil || m.Kind != process.SleeveFitted || m.Visit != 2 || m.Setting != 0 {
		t.Fatal(m, err)
	}
	at := func(in float64) process.Measured {
		n := m
		n.Sizes = []process.Size{{Depth: process.Unplaced, At: -1, Diameter: qty.DiameterMM(25.4 * in)}}
		return n
	}
	for in, want := range map[float64]string{2.4977: "", 2.5010: "expected", 63.5: "mixed up", 2.4: "no sleeve moves that far"} {
		said, speak := "", words.In(job.Units)
		for _, s := range Slips(q, at(in)) {
			said += speak.Say(s.Fact())
		}
		if (want == "") != (said == "") || !strings.Contains(said, want) {
			t.Errorf("%.4f: %q", in, said)
		}
	}
	if r := plan.MakeAfter(job, results(house, at(2.4977))); !r.Feasible || len(r.Bores) != 0 || !Of(p, r)[1].In {
		t.Errorf("at home: %+v", r.Bores)
	}
	r := plan.MakeAfter(job, results(house, at(2.4990)))
	if what := words.In(job.Units).Say(r.Reasons[0].What); r.Feasible || !strings.Contains(what, "another go in") {
		t.Errorf("too large: %+v", r.Reasons)
	}
}

// Ra as measured is held against what is asked for: as rough is in, rougher is
// out, and out is a fault of form.
func TestRaAsMeasured(t *testing.T) {
	job := recordJob(t, "gear-case/job.toml")
	p := plan.Make(job)
	v := p.Bores[0].Visits[len(p.Bores[0].Visits)-1]
	last := v.Passes[len(v.Passes)-1]
	for over, in := range map[qty.Length]bool{-qty.Micrometre / 10: true, 0: true, qty.Micrometre / 10: false} {
		m, err := Fill(p, process.Measured{Station: job.Bores[0].Station, Pass: last.N, Ra: v.Ra + over, Sizes: []process.Size{
			{Depth: process.Unplaced, At: -1, Diameter: last.Expected}}})
		if err != nil {
			t.Fatal(err)
		}
		row := Of(p, plan.MakeAfter(job, &process.Results{File: "job.results.toml", Entries: []process.Measured{m}}))[0]
		if row.RaIn != in || row.FormOut() == in {
			t.Errorf("Ra %v asked for, %v found: in %v, form out %v", v.Ra, m.Ra, row.RaIn, row.FormOut())
		}
	}
}
