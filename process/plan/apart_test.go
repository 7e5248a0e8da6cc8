package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	. "borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// turnsOf is the order of the visits in a form that is read at a glance.
func turnsOf(p *Plan) string {
	var s []string
	for _, t := range p.Turns() {
		v := p.Bores[t[0]].Visits[t[1]]
		s = append(s, fmt.Sprintf("%d%c", t[0]+1, v.Part.String()[0]))
	}
	return strings.Join(s, " ")
}

// All bores are roughed, the casting rests, then each is finished (common practice, no source).
// The job may have it otherwise, for all bores or for one that others hang on.
func TestRoughAllThenFinishAll(t *testing.T) {
	rows := []struct {
		change func(*process.Job)
		turns  string
		says   string
	}{
		{func(*process.Job) {}, "1r 2r 3r 1f 2f 3f", "first rough drive side, middle web and far side"},
		{func(j *process.Job) { j.Order = process.BoreByBore }, "1w 2w 3w", "each bore is finished before the next"},
		{func(j *process.Job) { j.Bores[1].First = true }, "2w 1r 3r 1f 3f", "middle web is finished before the others"},
		{func(j *process.Job) { j.Limits.RestStock = 955 * qty.Micrometre }, "1r 2r 1f 2f 3w", "far side is not roughed apart: 1.900 mm stands on it"},
		{func(j *process.Job) { j.Bores = j.Bores[:1] }, "1w", ""},
	}
	for i, x := range rows {
		if i%2 != 0 && testing.Short() {
			continue
		}
		job := shipped(t, "gear-case/job.toml")
		job.Bores = slices.Clone(job.Bores)
		x.change(job)
		p := Make(job)
		if got := turnsOf(p); !p.Feasible || got != x.turns {
			t.Errorf("%s: %s, want %s; %v", x.says, got, x.turns, p.Reasons)
		}
		if says := said(p, p.Order...); !strings.Contains(strings.ToLower(says), strings.ToLower(x.says)) || (x.says == "") != (says == "") {
			t.Errorf("the order's reasons: %q, want %q in them", says, x.says)
		}
		rests := 0
		for i, at := range p.Turns() {
			b := p.Bores[at[0]]
			v := b.Visits[at[1]]
			if v.Rest() != nil {
				rests++
				if strings.Contains(turnsOf(p)[3*i:], "r") || !strings.Contains(turnsOf(p)[:3*i], "r") {
					t.Errorf("%s: the casting rests before visit %d", turnsOf(p), i+1)
				}
			}
			if v.Part != schedule.Finishing {
				continue
			}
			// Passes count on, and the finish begins from what roughing leaves: no less than what was
			// to stay stands on it, and the bore has room for the cutter that was roughed with.
			rough := b.Visits[at[1]-1]
			last := rough.Passes[len(rough.Passes)-1]
			if v.Passes[0].N != last.N+1 || v.N != rough.N {
				t.Errorf("%s: finish begins with pass %d of work %d, roughing ends with %d of %d", b.Station.Name, v.Passes[0].N, v.N, last.N, rough.N)
			}
			if off := v.Start.Minus(last.Expected).Abs(); off > 20*qty.Micrometre || v.StartMost < v.Start {
				t.Errorf("%s: roughed to %v, the finish begins at %v to %v", b.Station.Name, last.Expected, v.Start, v.StartMost)
			}
			if stays := v.Limits.Aim.Minus(last.Expected); stays < job.Limits.RestStock-10*qty.Micrometre { // but for a step of the dial
				t.Errorf("%s: %v stays, %v asked for", b.Station.Name, stays, job.Limits.RestStock)
			}
		}
		if want := strings.Count(x.turns, "r"); (rests > 0) != (want > 0) || rests > 1 {
			t.Errorf("%s: the casting rests %d times", x.turns, rests)
		}
	}
}

// What is entered after the rest is what the finish is planned from: the bore as it was gauged
// then, and no rest any more once all are entered.
func TestFinishFromTheBoreAsRested(t *testing.T) {
	p := made(t, "gear-case/job.toml")
	job := p.Job
	var entries []process.Measured
	for i, b := range p.Bores {
		last := b.Visits[0].Passes[len(b.Visits[0].Passes)-1]
		entries = append(entries, after(p, i, 1, last.N, last.Expected.MM(), 0))
		if i != 1 && testing.Short() {
			continue
		}
		q := MakeAfter(job, results(entries...))
		want := []string{"2r 3r 1w 2f 3f", "3r 1w 2w 3f", "1w 2w 3w"}[i]
		if got := turnsOf(q); !q.Feasible || got != want {
			t.Errorf("%d roughed: %s, want %s", i+1, got, want)
		}
	}
	moved := entries[0] // the same pass again, 0.03 mm smaller after the rest
	moved.Sizes = slices.Clone(moved.Sizes)
	for i := range moved.Sizes {
		moved.Sizes[i].Diameter -= 30 * qty.Diameter(qty.Micrometre)
	}
	q := MakeAfter(job, results(append(entries, moved)...))
	v := q.Bores[0].Visits[0]
	if !q.Feasible || v.Start != moved.Least() || v.Behind != 2 || v.Passes[0].N != 3 {
		t.Errorf("goes on from %v after pass %d with pass %d", v.Start, v.Behind, v.Passes[0].N)
	}
	for _, at := range q.Turns() { // what moved as it rested is taken by a semi-finish, never by the finish
		w := q.Bores[at[0]].Visits[at[1]]
		if n := len(w.Passes); n < 2 || w.Passes[n-2].Kind != schedule.SemiFinish || w.Passes[n-1].Kind != schedule.Finish {
			t.Errorf("%s: passes after the rest: %+v", q.Bores[at[0]].Station.Name, w.Passes)
		}
		if q.Bores[at[0]].Visits[at[1]].Rest() != nil {
			t.Error("the casting rests though all was entered after the rest")
		}
	}
	// The cutter is set anew where another bore was cut since.
	for i, b := range q.Bores[1:] {
		if s := b.Visits[0].Stands; s.At != 0 {
			t.Errorf("bore %d: the cutter stands at %v, and was set for another bore since", i+2, s.At)
		}
	}
}
