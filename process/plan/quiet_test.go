package plan_test

import (
	"fmt"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/sheets/words"
)

// thinBarJob is a plain 1.5 in steel bar in a bore of 2 in on a manual mill.
func thinBarJob(t *testing.T, length, nose float64, cutter, metal, more string) *process.Job {
	t.Helper()
	text := fmt.Sprintf(`units = "in"
number = "Q-1"
revision = "-"
title = "a plain bore"
machine = "hbm-4in"
material = %q
station = [ { name = "case", from = 0, to = 2, diameter = 1.97, swept = true } ]
[[bore]]
station = "case"
repair = "rebore"
finish = { low = 2.0000, high = 2.0015 }
ra = 125
witness = false
[bar]
steps = [ { diameter = 1.5, length = %g } ]
[cutter]
material = %q
nose_radius = %g
%s`, metal, length, cutter, nose, more)
	job, err := files.Job("job.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// A steel bar of eight to nine diameters, with a high-speed bit of a small nose in
// gray iron, is used daily: turned slowly, at two thirds and less of what a short bar
// takes (common practice, no source). It is planned, and not as one that will sing.
func TestShopsBoreSo(t *testing.T) {
	for _, length := range []float64{12, 13, 14} {
		for _, nose := range []float64{1. / 64, 1. / 32} {
			p := Make(thinBarJob(t, length, nose, "hss", "gray-iron-200hb", ""))
			if !p.Feasible {
				t.Errorf("%g in out, nose %.3f in: %s", length, nose, said(p, p.Reasons[0].What))
				continue
			}
			for _, q := range p.Bores[0].Visits[0].Passes {
				// The table gives 30 to 35 m/min to a finish.
				if q.Stability.Chatter() == setup.WillChatter || q.Cutting > 21 {
					t.Errorf("%g in out, nose %.3f in: the %s at %.0f m/min stands at %v", length, nose, q.Kind, float64(q.Cutting), q.Stability.Margin)
				}
			}
		}
	}
}

// A finish that will sing is refused, whatever the ratio of length to diameter,
// unless the job allows it; what would free it is tried, and its odds are said to
// hold only if the bar stays quiet.
func TestFinishThatSingsIsRefused(t *testing.T) {
	const wide = "[limits]\nspring_rough = 0.02\nspring_finish = 0.006\n"
	p := Make(thinBarJob(t, 16.5, 0.047, "carbide", "cast-aluminum", wide))
	if p.Feasible || !strings.Contains(said(p, p.Reasons[0].What), "chatter: at best") {
		t.Fatalf("feasible %v: %v", p.Feasible, p.Reasons)
	}
	free := freed(p)
	if !strings.Contains(free, "stickout") { // letting it sing comes last, behind five that do not need it
		t.Errorf("no way out by stickout: %s", free)
	}
	p = Make(thinBarJob(t, 16.5, 0.047, "carbide", "cast-aluminum", wide+"sing = true\n"))
	if !p.Feasible {
		t.Fatalf("%v", p.Reasons)
	}
	v := p.Bores[0].Visits[0]
	if v.Voice() != setup.WillChatter {
		t.Fatalf("the bar is said to be: %s", v.Voice())
	}
	if s := words.In(p.Job.Units).Say(v.Budget.Fact()); !strings.Contains(s, "if the bar stays quiet (it will sing)") {
		t.Error(s)
	}
}

// A spring pass is so shallow that little of the flank rubs: where it stands below half of the
// edge it is refused like any finish, though the finish before it stands above.
func TestShallowSpringPassThatSingsIsRefused(t *testing.T) {
	p := Attempt(load(t, shallowSpring), nil)
	for _, q := range p.Bores[0].Visits[0].Passes {
		if q.Kind > schedule.SemiFinish && q.Stability.Margin[1] < 0.5 {
			t.Errorf("the %s is planned at %.2f of the edge at best", q.Kind, q.Stability.Margin[1])
		}
		for _, l := range q.Limits {
			if l.Used > 1.01 {
				t.Errorf("pass %d takes %.3f of a limit: %s", q.N, l.Used, said(p, l.What))
			}
		}
	}
}

// No finish that may sing is turned faster than the roughing pass before it, on any
// of the example jobs, and its semi-finish is cut as it is.
func TestQuietBeforeFast(t *testing.T) {
	for _, name := range []string{"lock-winch/job.toml", "lock-winch/manual.toml", "gear-case/job.toml", "hand-pump/job.toml", "ferry-ramp/job.toml"} {
		p := made(t, name)
		for _, b := range p.Bores {
			for _, v := range b.Visits {
				for i, q := range v.Passes[1:] {
					was := v.Passes[i]
					if q.Kind >= schedule.SemiFinish && was.Kind == schedule.Rough && q.Stability.Chatter() != setup.Quiet && q.Speed > was.Speed {
						t.Errorf("%s: pass %d turns at %v, the rough before it at %v, and it is at %v", name, q.N, q.Speed, was.Speed, q.Stability.Margin)
					}
					if q.Kind > schedule.SemiFinish && (q.Feed != was.Feed || q.Speed != was.Speed) {
						t.Errorf("%s: passes %d and %d are not cut alike", name, was.N, q.N)
					}
				}
			}
		}
	}
}

// A rough that could be fed faster, and is not because the bar is likelier to sing so, says that and
// the feed: one that it is cut at where hardly anything vibrates.
func TestFedFinerForQuiet(t *testing.T) {
	job := func() *process.Job {
		job, err := files.Job("job.toml", []byte(`units = "in"
number = "Q-2"
revision = "-"
title = "much stock, a bar of five diameters"
machine = "cnc-fixed-format"
material = "ductile-iron-400"
station = [ { name = "seat", from = 8.2709, to = 9.5481, diameter = 2.4275, blind = true, relief = 0.12 } ]
[[bore]]
station = "seat"
repair = "rebore"
finish = { diameter = 2.928, fit = "H10" }
ra = 63
wear = [ { depth = 8.5263, at = [0, 90, 180, 270], radius = [1.2138, 1.2644, 1.2982, 1.2475] }, { depth = 9.2927, at = [0, 90, 180, 270], radius = [1.2138, 1.2644, 1.2982, 1.2475] } ]
[bar]
steps = [ { diameter = 2.4375, length = 1.6875 }, { diameter = 1.9313, length = 9.5625 } ]
[cutter]
material = "hss"
nose_radius = 0.016
lead = 75
`), nil)
		if err != nil {
			t.Fatal(err)
		}
		return job
	}
	feeds := func(j *process.Job) (all []string, why string) {
		p := Make(j)
		if !p.Feasible {
			t.Fatal(said(p, p.Reasons[0].What))
		}
		for _, q := range p.Bores[0].Visits[0].Passes {
			if q.Kind == schedule.Rough {
				all = append(all, j.Units.Format(q.Feed))
				if q.LimitedBy.Kind == schedule.ByQuiet {
					why = said(p, q.LimitedBy)
				}
			}
		}
		return all, why
	}
	fed, why := feeds(job())
	_, faster, is := strings.Cut(why, "likelier to sing at the next feed up (")
	if !is {
		t.Fatalf("roughs fed %v: %q", fed, why)
	}
	faster, _, _ = strings.Cut(faster, " a rev")
	dead := job()
	dead.Machine.Joint = [2]float64{0.5, 0.5}
	if quiet, why := feeds(dead); why != "" || len(quiet) == 0 || quiet[0] != faster || fed[0] == faster {
		t.Errorf("fed %v, as damped as can be %v (%q), %q is told", fed, quiet, why, faster)
	}
}
