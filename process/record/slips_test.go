package record_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/onebyone"
	"borewright/process/plan"
	"borewright/process/qty"
	. "borewright/process/record"
	"borewright/sheets/words"
)

// Each slip is seen, with the reason; a sound entry passes without a word.
func TestSlips(t *testing.T) {
	winch := plan.Make(recordJob(t, "lock-winch/job.toml"))
	mill := plan.Make(recordJob(t, "gear-case/job.toml"))
	in := func(x float64) qty.Diameter { return qty.Diameter(qty.FromInches(x)) }
	for _, row := range []struct {
		why     string
		p       *plan.Plan
		station int
		pass    int
		set     qty.Diameter
		sizes   []qty.Diameter
		want    string // "": nothing is said
		refuse  bool
	}{
		{"a sound witness cut", winch, 2, 1, 0, []qty.Diameter{in(3.1660), in(3.172)}, "", false},
		{"no marks", winch, 2, 1, 0, []qty.Diameter{in(3.1660)}, "say where it marked and where not", false},
		{"marked and bare", winch, 2, 1, 0, []qty.Diameter{in(3.1660)}, "6 o'clock is said to be marked and to be bare", true},
		{"mm read as inches", winch, 2, 1, 0, []qty.Diameter{in(80.43)}, `Write "80.430 mm"`, true},
		{"inches written as mm", winch, 2, 1, 0, []qty.Diameter{qty.DiameterMM(3.1665)}, "It would be 3.1665 in", true},
		{"inches read as mm", mill, 0, 1, 0, []qty.Diameter{qty.DiameterMM(7.1000)}, `Write "7.1000 in"`, true},
		{"digits changed places", winch, 2, 1, 0, []qty.Diameter{in(3.1566)}, "", false}, // fits as it stands: nobody can tell
		{"digits changed places, out of what was expected", winch, 2, 1, 0, []qty.Diameter{in(3.6165)}, "It would be 3.1665 in", false},
		{"digits changed across the point", mill, 0, 1, 0, []qty.Diameter{qty.DiameterMM(108.400)}, "It would be 180.400 mm", false},
		{"smaller than before", winch, 2, 1, 0, []qty.Diameter{in(3.1490)}, "a bore does not shrink", false},
		{"larger than set", winch, 2, 1, 0, []qty.Diameter{in(3.2100)}, "larger than the cutter was set to", false},
		{"out of order", winch, 2, 5, 0, []qty.Diameter{in(3.3734)}, "pass 5 is out of order", false},
		{"readings far apart", winch, 2, 5, 0, []qty.Diameter{in(3.3727), in(3.3739)}, "lie 0.0012 in apart", false},
		{"another setting", winch, 2, 1, in(3.2), []qty.Diameter{in(3.1665)}, "planned was 3.16", false},
		{"a point one place off", winch, 2, 5, 0, []qty.Diameter{in(33.734)}, "It would be 3.3734 in", true},
		{"a size from another world", winch, 2, 5, 0, []qty.Diameter{in(9.2)}, "cannot be; the bore was", true},
		{"set smaller, came out smaller", winch, 2, 5, in(3.3710), []qty.Diameter{in(3.3697)}, "pass 5 is out of order", false},
		{"set smaller, no spring at all", winch, 2, 4, in(3.3700), []qty.Diameter{in(3.3699)}, "not what was expected, 3.36", false},
		{"the pass before it left out", winch, 2, 5, 0, []qty.Diameter{in(3.3660)}, "was the pass before it left out", false},
		{"setting in mm", winch, 2, 1, in(80.43), []qty.Diameter{in(3.1665)}, `Write "80.430 mm"`, true},
		{"setting with digits changed", winch, 2, 1, in(3.6168), []qty.Diameter{in(3.1665)}, "It would be 3.16", false},
	} {
		m := process.Measured{Station: row.station, Pass: row.pass, Setting: row.set}
		if row.why != "no marks" {
			m.Marked = []float64{0, 180}
		}
		if row.why == "marked and bare" {
			m.Bare = []float64{90, 180}
		}
		for _, d := range row.sizes {
			m.Sizes = append(m.Sizes, process.Size{Depth: process.Unplaced, At: -1, Diameter: d})
		}
		m, err := Fill(row.p, m)
		if err != nil {
			t.Errorf("%s: %v", row.why, err)
			continue
		}
		var says []string
		refused := false
		speak := words.In(row.p.Job.Units)
		for _, s := range Slips(row.p, m) {
			says = append(says, speak.Say(s.Fact()))
			refused = refused || s.Refuse
		}
		all := strings.Join(says, "\n")
		if row.want == "" && all != "" && row.why == "a sound witness cut" || !strings.Contains(all, row.want) || refused != row.refuse {
			t.Errorf("%s: refused %v\n%s", row.why, refused, all)
		}
	}
}

// A micron outside of what is to be expected is no slip.
func TestAMicronOutside(t *testing.T) {
	p := plan.Make(recordJob(t, "gear-case/job.toml"))
	for _, s := range stopsOf(p) {
		for _, mm := range []float64{s.q.Low.MM() - 0.001, s.q.High.MM() + 0.001} {
			if asked(t, p, s.station, s.q.N, []float64{mm}) {
				t.Errorf("pass %d, %v of %v to %v: %v is asked about", s.q.N, s.q.Kind, s.q.Low, s.q.High, mm)
			}
		}
	}
}

// recordJob reads one of the example jobs.
func recordJob(t *testing.T, name string) *process.Job {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", []byte(onebyone.Of(string(data))), nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}
