package revision

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/plan"
)

// rackJob is the net hauler's frame: roughed with C 60, the front web finished with F 80 and a square
// cutter, the rear one with the job's own B 50 and K1 carbide. edits are pairs, old and new, of the job
// and of its list.
func rackJob(t *testing.T, edits ...string) *process.Job {
	t.Helper()
	edit := strings.NewReplacer(edits...)
	read := func(name string) ([]byte, error) {
		data, err := os.ReadFile(filepath.Join("../../testdata/jobs/net-hauler", name))
		text := strings.Replace(string(data), "bars     =", "rough = { bar = \"C 60\", cutter = \"K1 carbide\" }\nbar = { name = \"B 50\" }\ncutter = { name = \"K1 carbide\" }\nbars =", 1)
		text = strings.Replace(text, "station = \"front web\"\nrepair", "station = \"front web\"\nbar = \"F 80\"\ncutter = \"K2 square\"\nrepair", 1)
		return []byte(edit.Replace(text)), err
	}
	data, err := read("job.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, read)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

const (
	stout  = "{ diameter = 80, length = 340 }"
	square = "name        = \"K2 square\"\nmaterial    = \"carbide-coated\"\nnose_radius = 0.4"
	rear   = "station = \"rear web\"\nrepair"
)

// TestToolsOfBoresCompared: what differs of bars and cutters is told once: which a bore names with the
// bore, what a list says of one by its name and its bores, the job's own as ever. What follows from it
// is no edit.
func TestToolsOfBoresCompared(t *testing.T) {
	front := inBore("front web", 0)
	named := func(kind fact.Kind, name string, bores ...fact.Fact) fact.Fact {
		return fact.New(kind, fact.Name(name), fact.List(bores...))
	}
	for _, c := range []struct {
		why       string
		old, new  []string
		where     fact.Fact
		what, key string
	}{
		{"another bar for a bore", nil, []string{`bar = "F 80"`, `bar = "C 60"`}, front, "bar", "bore[0].bar"},
		{"another cutter for a bore", nil, []string{`cutter = "K2 square"`, `cutter = "K1 carbide"`}, front, "cutter", "bore[0].cutter"},
		{"another bar that roughs", nil, []string{`rough = { bar = "C 60"`, `rough = { bar = "B 50"`}, fact.New(InJob), "bar that roughs", "rough.bar"},
		{"the bar of a bore is thinner", nil, []string{stout, "{ diameter = 78, length = 340 }"}, named(InNamedBar, "F 80", front), "step 2 diameter", "bar.steps[1].diameter"},
		{"a bar that roughs both", nil, []string{"{ diameter = 60, length = 340 }", "{ diameter = 58, length = 340 }"},
			named(InNamedBar, "C 60", front, inBore("rear web", 1)), "step 2 diameter", "bar.steps[1].diameter"},
		{"the cutter of two bores, in two bars", []string{rear, "cutter = \"K2 square\"\n" + rear}, []string{rear, "cutter = \"K2 square\"\n" + rear, square, strings.Replace(square, "0.4", "0.8", 1)},
			named(InNamedCutter, "K2 square", front, inBore("rear web", 1)), "nose radius", "cutter.nose_radius"},
		{"the range of a bar", nil, []string{"least = 86", "least = 88"}, named(InNamedBar, "F 80", front), "smallest setting", "cutter.least"},
		{"the range of a bar in which the job's own cutter stands", []string{"cutter = \"K2 square\"", ""}, []string{"cutter = \"K2 square\"", "", "least = 86", "least = 88"},
			named(InNamedBar, "F 80", front), "smallest setting", "cutter.least"},
		{"the job's own cutter, which cuts with the bar of a bore, too", nil, []string{"name        = \"K1 carbide\"\nmaterial    = \"carbide\"\nnose_radius = 0.8", "name        = \"K1 carbide\"\nmaterial    = \"carbide\"\nnose_radius = 0.6"},
			fact.New(InCutter), "nose radius", "cutter.nose_radius"},
	} {
		a, b := rackJob(t, c.old...), rackJob(t, c.new...)
		var edits []Change
		for _, x := range Compare(&plan.Plan{Job: a}, &plan.Plan{Job: b}) {
			if x.From == Edited {
				edits = append(edits, x)
			}
		}
		if len(edits) != 1 || !fact.Equal(edits[0].Where, c.where) || edits[0].What != c.what || edits[0].Key != c.key {
			t.Errorf("%s: %+v", c.why, edits)
		}
	}
}

// TestToolsOfBoresAlone: a part changed alone leaves bores the tools that they name. The bar of
// the job is no longer that of a bore which names it; its cutter is that of all bores which name none.
func TestToolsOfBoresAlone(t *testing.T) {
	parts := func(a, b *process.Job) (m map[fact.Kind]*process.Job) {
		m = map[fact.Kind]*process.Job{}
		for _, x := range changedAlone(a, b) {
			m[x.part] = x.job
		}
		return m
	}
	ofRear := []string{rear, "bar = \"B 50\"\n" + rear}
	got := parts(rackJob(t, ofRear...), rackJob(t, append([]string{`bar = { name = "B 50" }`, `bar = { name = "A 40" }`}, ofRear...)...))
	j := got[TheBar]
	if len(got) != 1 || j == nil || j.Bar.Name != "A 40" || j.Using(j.ToolsOf(1, false)).Bar.Name != "B 50" {
		t.Errorf("the job's bar alone: %v", got)
	}
	own := []string{"bar = \"F 80\"\ncutter = \"K2 square\"", "bar = \"F 80\""}
	nose := []string{"name        = \"K1 carbide\"\nmaterial    = \"carbide\"\nnose_radius = 0.8", "name        = \"K1 carbide\"\nmaterial    = \"carbide\"\nnose_radius = 0.6"}
	got = parts(rackJob(t, own...), rackJob(t, append(nose, own...)...))
	if j = got[TheCutter]; j == nil {
		t.Fatalf("the job's cutter alone: %v", got)
	}
	if r := j.Using(j.ToolsOf(0, false)).Cutter.NoseRadius.MM(); r != 0.6 {
		t.Errorf("the bore that names a bar alone is cut with a nose of %v", r)
	}
	got = parts(rackJob(t), rackJob(t, stout, "{ diameter = 78, length = 340 }"))
	if j = got[StationsAndBores]; len(got) != 1 || j == nil || j.Using(j.ToolsOf(0, false)).Bar.Steps[1].Diameter.MM() != 78 {
		t.Errorf("the bar of a bore alone: %v", got)
	}
}
