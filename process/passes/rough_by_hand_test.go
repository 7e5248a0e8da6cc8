package passes_test

import (
	"strings"
	"testing"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/words"
)

// A finish that comes out too rough names what makes it so, each reason in a job of
// its own, and what would be enough; a job with that is not stopped by roughness any
// more.
func TestWhyTooRough(t *testing.T) {
	for _, x := range []struct {
		why    string
		change func(*handMill)
		says   []string
		free   func(*handMill)
	}{
		{"the finest feed of the mill is 0.2 mm: 1.7·0.04/(18·√3·0.8) = 2.73 µm, with 1.7·3.6/(9·√3) = 0.39 of the edge 2.76; the nose may leave 1.55",
			func(m *handMill) { m.feeds, m.ra = []float64{0.2, 0.3}, 1.6 },
			[]string{"roughness: Ra 2.76 µm, 1.60 µm asked for", "that is what nose and feed leave: it takes a feed of 0.150 mm or less, or a nose radius of 1.408 mm or more"},
			func(m *handMill) { m.nose = 1.408 }},
		{"a hone of 35 µm: 1.7·10.5/(9·√3) = 1.15 µm",
			func(m *handMill) { m.rounding, m.ra = 0.035, 0.8 },
			[]string{"roughness: Ra", "that is by the hone of the edge, rounded to 35 µm: the crests of the feed marks stay standing. It takes a rounding of "},
			func(m *handMill) { m.rounding = 0.012 }},
		{"graphite torn out to 0.8 µm by carbide, 1.6 by high-speed steel",
			func(m *handMill) { m.torn, m.ra = 0.8, 0.4 },
			[]string{"roughness: Ra 0.80 µm, 0.40 µm asked for", "a metal worked by hand comes no finer than that, whatever the edge, because grains are torn out of it: bore it to that, and hone it"},
			func(m *handMill) { m.ra = 0.8; m.rounding = 0.008 }},
	} {
		m := usualMill()
		x.change(&m)
		p := plan.Make(m.job(t))
		said := reasonOf(p)
		for _, want := range x.says {
			if p.Feasible || !strings.Contains(said, want) {
				t.Errorf("%s: feasible %v, %q, not %q", x.why, p.Feasible, said, want)
			}
		}
		if testing.Verbose() {
			t.Logf("%s:\n%s", x.why, said)
		}
		x.free(&m)
		if said := reasonOf(plan.Make(m.job(t))); strings.Contains(said, "roughness") {
			t.Errorf("%s: freed as told, %q", x.why, said)
		}
	}
	// With an edge that tears less there is a way, and it is named.
	m := usualMill()
	m.torn, m.ra = 0.4, 0.4
	job := m.job(t)
	job.Cutter.Material.Class = "hss" // torn to twice as much
	if said := reasonOf(plan.Make(job)); !strings.Contains(said, "with carbide it can come to Ra 0.40 µm; or hone it after boring") {
		t.Errorf("%q", said)
	}
	// Of two that come to the same the first is named, else both.
	for least, want := range map[float64]string{1: "; with carbide it can come to Ra 0.40 µm; or hone", 0.5: "; with carbide it can come to Ra 0.40 µm or with carbide-coated to Ra 0.20 µm; or hone"} {
		coated := job.Material.Speeds["carbide"]
		coated.RaLeast *= least
		job.Material.Speeds["carbide-coated"] = coated
		if said := reasonOf(plan.Make(job)); !strings.Contains(said, want) {
			t.Errorf("%q", said)
		}
	}
}

// A pass that is too thin for its edge names the hone, and what would be enough.
func TestWhyTooThin(t *testing.T) {
	m := usualMill()
	m.rounding, m.depthMost = 0.035, 0.05 // 2.5 × 0.035 = 0.0875 deep at the least
	p := plan.Make(m.job(t))
	said := reasonOf(p)
	if want := "chip: the edge rubs at depths below 0.088 mm, this is "; p.Feasible || !strings.Contains(said, want) || !strings.Contains(said, "that is by the hone of the edge, rounded to 35 µm: it takes ") {
		t.Errorf("%q", said)
	}
	// An inch reader reads both in inches: 0.035/25.4 = 0.00138.
	if said := words.In(qty.Inches).Say(p.Reasons[0].What); !strings.Contains(said, "rounded to 0.00138 in: it takes 0.00102 in or less") {
		t.Errorf("%q", said)
	}
}

// reasonOf is what stops a plan, as a metric reader reads it.
func reasonOf(p *plan.Plan) string {
	var all []string
	for _, r := range p.Reasons {
		all = append(all, words.In(qty.Metric).Say(r.What))
	}
	return strings.Join(all, "; ")
}
