package files

import (
	"errors"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/qty"
)

const rackList = `units = "in"
[[bar]]
name  = "two"
steps = [ { diameter = 3.5, length = 2.0 }, { diameter = 2.5, length = 7.5 } ]
[[bar]]
name  = "three"
steps = [ { diameter = 3.5, length = 2.0 }, { diameter = 3.0, length = 7.5 } ]
least = 3.2
most  = 3.8
[[cutter]]
name        = "bit 7"
material    = "carbide"
nose_radius = 0.016
lead        = 85
[[cutter]]
name        = "bit 8"
material    = "hss"
nose_radius = 0.031
least       = 3.3
most        = 4.4
set_by      = "preset"
`

func openRack(path string) ([]byte, error) {
	switch path {
	case "rack.toml":
		return []byte(rackList), nil
	case "bits.toml":
		return []byte(cutterList), nil
	case "bars.toml":
		return []byte(rackList[:strings.Index(rackList, "[[cutter]]")]), nil
	}
	return nil, errors.New("no such file")
}

// ofRack is the rebore job with other lines for its bar and cutter.
func ofRack(t *testing.T, list, bar, cutter string) string {
	return list + "\n" + edit(t, reboreJob, "[bar]\nsteps   = [ { diameter = 3.5, length = 2.0 }, { diameter = 2.5, length = 7.5 } ]\nfeed_by = \"table\"\n", bar, "[cutter]\nmaterial    = \"carbide\"\nnose_radius = 0.031\n", cutter)
}

// TestNamedFromTheLists: bar and cutter of the lists come into the job as if they were written
// there, and what the job states of them goes over it.
func TestNamedFromTheLists(t *testing.T) {
	load := func(text string) *process.Job {
		t.Helper()
		j, err := Job("job.toml", []byte(text), openRack)
		if err != nil {
			t.Fatal(err)
		}
		return j
	}
	written := load(ofRack(t, `bars = "rack.toml"`, "[bar]\nname = \"two\"\nsteps = [ { diameter = 3.5, length = 2.0 }, { diameter = 2.5, length = 7.5 } ]\n", "[cutter]\nname = \"bit 7\"\nmaterial = \"carbide\"\nnose_radius = 0.016\nlead = 85\n"))
	named := load(ofRack(t, `bars = "rack.toml"`, "[bar]\nname = \"two\"\n", "[cutter]\nname = \"bit 7\"\n"))
	if written.Open.Any() || named.Open.Any() {
		t.Error("something is left open")
	}
	if d := cmp.Diff(written.Bar, named.Bar) + cmp.Diff(written.Cutter, named.Cutter) + cmp.Diff(written.Limits, named.Limits); d != "" {
		t.Errorf("(-written +named)\n%s", d)
	}
	over := load(ofRack(t, `bars = "rack.toml"`, "[bar]\nname = \"three\"\ncutter_at = 9\nfeed_by = \"quill\"\n", "[cutter]\nname = \"bit 8\"\nset_by = \"over_bar\"\nland = 0.002\n"))
	c := over.Cutter
	if over.Bar.CutterAt != 9*qty.Inch || over.Bar.FeedBy != process.QuillFeed || c.SetBy != process.OverBar || c.Land != qty.Inch/500 || c.NoseRadius != qty.FromInches(0.031) {
		t.Errorf("%+v, %+v", over.Bar, c)
	}
	if c.Least != qty.Diameter(qty.FromInches(3.3)) || c.Most != qty.Diameter(qty.FromInches(3.8)) { // no more than either lets it
		t.Errorf("sets from %v to %v", c.Least, c.Most)
	}
	open := load(ofRack(t, `bars = "rack.toml"`, "", ""))
	if open.Open != (candidate.Open{Bar: true, Cutter: true}) || len(open.Shop) != 2 || len(open.Drawer) != 2 {
		t.Errorf("%+v", open.Open)
	}
	if j := load(ofRack(t, "bars = \"rack.toml\"\ncutters = \"bits.toml\"", "", "")); len(j.Drawer) != 2 || j.Drawer[0].SetBy != process.Preset || j.Drawer[1].Name != "bit 8" {
		t.Errorf("%+v", j.Drawer)
	}
	if j := load(ofRack(t, `cutters = "bits.toml"`, "[bar]\nsteps = [ { diameter = 2.5, length = 9.5 } ]\n", "")); j.Open != (candidate.Open{Cutter: true}) {
		t.Errorf("%+v", j.Open)
	}
	// Closed, an open job is the one that names both.
	shut, err := With(open, &open.Shop[0], &open.Drawer[0])
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(named.Bar, shut.Bar) + cmp.Diff(named.Cutter, shut.Cutter) + cmp.Diff(named.Limits, shut.Limits); d != "" || shut.Open.Any() {
		t.Errorf("(-named +chosen)\n%s", d)
	}
}

func TestBadNamesOfTheLists(t *testing.T) {
	for _, row := range []struct{ list, bar, cutter, want string }{
		{`bars = "rack.toml"`, "[bar]\nname = \"tow\"\n", "", `job.toml:22:1: bar.name: there is no bar "tow" on the list; did you mean "two"? Take one of "two" or "three"`},
		{`bars = "rack.toml"`, "", "[cutter]\nname = \"bit 9\"\n", `job.toml:23:1: cutter.name: there is no cutter "bit 9" on the list; did you mean "bit 7"? Take one of "bit 7" or "bit 8"`},
		{`bars = "bars.toml"`, "", "", `job.toml:1:1: cutter: is missing; write [cutter] with material, nose_radius, or list cutters in the file that bars names`},
		{`bars = "bars.toml"`, "", "[cutter]\nmaterial = \"carbide\"\n", `job.toml:22:1: cutter: has no material or no nose_radius, and no cutters are listed; write both, or list cutters in the file that bars names`},
		{`cutters = "bits.toml"`, "", "", `job.toml:1:1: bar: is missing; write [bar] with steps`},
		{`cutters = "bars.toml"`, "[bar]\nsteps = [ { diameter = 2.5, length = 9.5 } ]\n", "", "job.toml:1:1: cutters: the file \"bars.toml\" has mistakes; they are listed below with its name\n" +
			`bars.toml:1:1: cutter: is missing; write cutter = [ { name = "bit 7", material = "carbide", nose_radius = 0.016 } ]`},
		{`bars = "bits.toml"`, "", "", "job.toml:1:1: bars: the file \"bits.toml\" has mistakes; they are listed below with its name\n" +
			`bits.toml:1:1: bar: is missing; write bar = [ { name = "no. 4", steps = [ { diameter = 2.25, length = 17.5 } ] } ]`},
	} {
		_, err := Job("job.toml", []byte(ofRack(t, row.list, row.bar, row.cutter)), openRack)
		if err == nil {
			t.Errorf("%s loads", row.list)
			continue
		}
		if d := cmp.Diff(row.want, err.Error()); d != "" {
			t.Errorf("(-want +got)\n%s", d)
		}
	}
	bad := "units = \"in\"\n[[cutter]]\nname = \"a\"\nmaterial = \"carbide\"\nnose_radius = 0.016\nlead = 95\ntrail = 60\nspeed = { rough = 100 }\n[[cutter]]\nname = \"a\"\nmaterial = \"carbide\"\nnose_radius = 0.016\nleast = 3\nmost = 2\n"
	want := `cutters.toml:7:1: cutter[1].trail: lead 95° and trail 60° leave a point of 25°; lead and trail together are at most 150°
cutters.toml:8:1: cutter[1].speed: gives only one of rough and finish; give both
cutters.toml:9:1: cutter[2]: can be set from Ø3 in to Ø2 in only; the least is below the most
cutters.toml:10:1: cutter[2].name: "a" is already the name of cutter 1; give each cutter its own name`
	_, err := Cutters("cutters.toml", []byte(bad), nil)
	if err == nil {
		t.Fatal("loads")
	}
	if d := cmp.Diff(want, err.Error()); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

// twoBores is a job of two bores with a list, with lines put at its top and into its bores.
func twoBores(t *testing.T, top, first, second string) string {
	text := ofRack(t, "bars = \"rack.toml\"\n"+top, "[bar]\nname = \"two\"\n", "[cutter]\nname = \"bit 7\"\n")
	text = strings.Replace(text, "  { name = \"seat\"", "  { name = \"web\", from = 3.0, to = 4.0, diameter = 3.546 },\n  { name = \"seat\"", 1)
	at := strings.Index(text, "[[bore]]")
	end := strings.Index(text, "[bar]")
	bore := text[at:end]
	web := strings.Replace(strings.Replace(bore, "seat", "web", 1), "depth = 6.2", "depth = 3.2", 1)
	return text[:at] + bore + first + "\n" + web + second + "\n" + text[end:]
}

// TestToolsOfABore: a bore has the bar and the cutter that it names, whole as the list has them,
// and its roughing those that it or the job names for it.
func TestToolsOfABore(t *testing.T) {
	j, err := Job("job.toml", []byte(twoBores(t, `rough = { bar = "three" }`, `cutter = "bit 8"`, `rough = { cutter = "bit 8" }`)), openRack)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		bore        int
		rough       bool
		bar, cutter string
	}{{0, false, "two", "bit 8"}, {0, true, "three", "bit 8"}, {1, false, "two", "bit 7"}, {1, true, "three", "bit 8"}} {
		got := j.Using(j.ToolsOf(row.bore, row.rough))
		if got.Bar.Name != row.bar || got.Cutter.Name != row.cutter {
			t.Errorf("bore %d, rough %v: %s with %s, want %s with %s", row.bore+1, row.rough, got.Bar.Name, got.Cutter.Name, row.bar, row.cutter)
		}
		if row.cutter == "bit 8" && (got.Cutter.SetBy != process.Preset || got.Limits.SettingError == j.Limits.SettingError) {
			t.Errorf("bore %d: bit 8 is set %v to ± %v", row.bore+1, got.Cutter.SetBy, got.Limits.SettingError)
		}
	}
	if j.ToolsOf(1, false) != nil {
		t.Error("the second bore has tools of its own for those of the job")
	}
	if j.ToolsOf(0, true) != j.ToolsOf(1, true) {
		t.Error("the same tools are two")
	}
	if n := len(j.AllTools()); n != 3 {
		t.Errorf("%d pairs of tools, want 3", n)
	}
}

// TestBadToolsOfABore: each mistake once, at its key, with what is on the list.
func TestBadToolsOfABore(t *testing.T) {
	for _, row := range []struct{ top, second, want string }{
		{"", `bar = "thre"`, `bore[2].bar: there is no bar "thre" on the list; did you mean "three"? Take one of "two" or "three"`},
		{"", `cutter = "bit 9"`, `bore[2].cutter: there is no cutter "bit 9" on the list; did you mean "bit 7"? Take one of "bit 7" or "bit 8"`},
		{"", `rough = { bar = "none" }`, `bore[2].rough.bar: there is no bar "none" on the list; take one of "two" or "three"`},
		{`order = "bore_by_bore"`, `rough = { bar = "three" }`, `bore[2].rough: the bore is not roughed apart from its finish; leave rough out; apart are several bores in the order rough_first, but for those with first = true`},
		{"", "first = true\nrough = { bar = \"three\" }", `bore[2].rough: the bore is not roughed apart from its finish; leave rough out; apart are several bores in the order rough_first, but for those with first = true`},
		{"rough = { bar = \"three\" }\norder = \"bore_by_bore\"", "", `rough: nothing is roughed apart from its finish in this job; leave rough out, or have several bores in the order rough_first`},
	} {
		_, err := Job("job.toml", []byte(twoBores(t, row.top, "", row.second)), openRack)
		if err == nil || strings.Count(err.Error(), "\n") > 0 || !strings.HasSuffix(err.Error(), row.want) {
			t.Errorf("%s %s:\n%v\nwant\n%s", row.top, row.second, err, row.want)
		}
	}
}

// TestMistakesOfAListAreToldOnce: where a list cannot be read, what its entries are named by is not told to
// be missing besides.
func TestMistakesOfAListAreToldOnce(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/swing-bridge/both.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.NewReplacer("order        =", "bars = \"rack.toml\"\norder        =",
		"station   = \"bridge seat\"\n", "station   = \"bridge seat\"\nbar = \"stub\"\ncutter = \"bit\"\n").Replace(string(data))
	_, err = Job("job.toml", []byte(text), func(string) ([]byte, error) { return []byte("units = \"mm\"\n[[bar]]\nname = \"stub\"\n"), nil })
	if err == nil || strings.Contains(err.Error(), "bore[2]") || !strings.Contains(err.Error(), "bar[1].steps: is missing") {
		t.Errorf("%v", err)
	}
}
