package ways_test

import (
	"os"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/setup"
	"borewright/process/ways"
	"borewright/sheets/words"
)

// A change of a bar that is the shop's is an entry for its list: with it the job has the very bar
// and the very range of the cutter that were tried.
func TestListedBarIsAnEntry(t *testing.T) {
	const bars = `units = "in"
[[bar]]
name = "new 1"
steps = [ { diameter = 4, length = 2 }, { diameter = 1.75, length = 9 } ]
[[bar]]
name = "thin"
steps = [ { diameter = "90 mm", length = "60 mm" }, { diameter = "52 mm", length = "240 mm", hole = "8 mm" } ]
%s
[[cutter]]
name = "bit"
material = "carbide"
nose_radius = "0.8 mm"
`
	from := strings.Index(boreJob, "[bar]")
	base := boreJob[:from] // keys of tables stand behind
	for _, x := range []struct{ why, keys, bar string }{
		{"left as usual", "", ""},
		{"with a range of its own", "", "least = \"55 mm\"\nmost = \"88 mm\""},
		{"named", "bar.name = \"thin\"\n", ""},
		{"cutter not at the end", "", "cutter_at = \"292 mm\""},
		{"heavy metal", "", "material = \"tungsten-alloy\""},
	} {
		open := func(list string) func(string) ([]byte, error) {
			return func(string) ([]byte, error) { return []byte(list), nil }
		}
		read := func(name, list string) *process.Job {
			t.Helper()
			text := "bars = \"rack.toml\"\ncutter.name = \"bit\"\nbar.name = \"" + name + "\"\n" + base
			job, err := files.Job("job.toml", []byte(text), open(list))
			if err != nil {
				t.Fatalf("%s: %v", x.why, err)
			}
			return job
		}
		list := strings.Replace(bars, "%s", x.bar, 1)
		job := read("thin", list)
		if x.keys == "" { // as where it was chosen
			job.Places["bar.name"] = job.Places["bars"]
		}
		tried := map[string]*process.Job{}
		found := ways.Free(&ways.Asked{Job: job, Try: func(j *process.Job, _ ways.Effort) ways.Outcome {
			s := j.Bar.Steps[1]
			if s.Diameter > qty.DiameterMM(55) || s.Material.ID != job.Bar.Steps[1].Material.ID || j.Bar.CutterAt < job.Bar.CutterAt {
				tried[described(j)] = j
				return ways.Outcome{Feasible: true, Passes: 4, Minutes: 30, Chance: 0.99, Noisiest: setup.Stability{Margin: [2]float64{2, 9}}}
			}
			return ways.Outcome{Stops: 1, Short: 1}
		}}, ways.Outcome{Stops: 1, Short: 1})
		names := map[string]bool{"new 1": true, "thin": true}
		for _, w := range found.Ways {
			if len(w.Bars) == 0 {
				t.Errorf("%s: %v is no entry", x.why, w.Keys)
				continue
			}
			if names[w.Bars[0].Name] {
				t.Errorf("%s: there is a %q", x.why, w.Bars[0].Name)
			}
			names[w.Bars[0].Name] = true
			if named := len(w.Keys) > 0; named != (x.keys != "") {
				t.Errorf("%s: keys %v", x.why, w.Keys)
			}
			for line := range strings.Lines(w.Entry()) {
				if len(strings.TrimSpace(line)) > 76 { // a terminal of 80 columns would break it
					t.Errorf("%s: too long a line: %s", x.why, line)
				}
			}
			if got := described(read(w.Bars[0].Name, list+"\n"+w.Entry())); tried[got] == nil {
				t.Errorf("%s: %sgives %s, which was not tried", x.why, w.Entry(), got)
			}
		}
		want := 3
		if x.why == "heavy metal" { // Ø52 mm is too thick for solid carbide
			want = 2
		}
		if len(found.Ways) < want {
			t.Errorf("%s: %s", x.why, told(found.Ways))
		}
	}
}

// described is all of bar and cutter that an entry can change.
func described(j *process.Job) string {
	var b strings.Builder
	for _, s := range j.Bar.Steps {
		b.WriteString(qty.Metric.Format(s.Diameter.Length()) + "x" + qty.Metric.Format(s.Length) + "(" + qty.Metric.Format(s.Hole.Length()) + ")" + s.Material.ID + " ")
	}
	return b.String() + qty.Metric.Format(j.Bar.CutterAt) + " " + qty.Metric.Format(j.Cutter.Least.Length()) + ".." + qty.Metric.Format(j.Cutter.Most.Length())
}

// A bar of any stickout as an entry says how far it can be clamped; and for a job whose bar runs in a bush no bar
// of the list is advised that cannot: as it is named the job would not be read. What is tried runs in the bush.
func TestListedBarsAsTheyAreHeld(t *testing.T) {
	const list = `units = "in"
[[bar]]
name = "slim"
steps = [ { diameter = 0.75, length = 36 } ]
cutter_at = 16
most = 4
[[bar]]
name = "open"
steps = [ { diameter = 3.5, length = 1.5 }, { diameter = 2.25, length = 34.5 } ]
cutter_at = 16
stickout = [30, 36]
most = 4
[[bar]]
name = "stout"
steps = [ { diameter = 2.0, length = 36 } ]
cutter_at = 16
most = 4
`
	data, err := os.ReadFile("../../testdata/jobs/reel-stand/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	from, to := strings.Index(text, "[bar]"), strings.Index(text, "[cutter]")
	read := func(bar, held, list string) (*process.Job, error) {
		t.Helper()
		bar = "[bar]\nname = \"" + bar + "\"\nfeed_by = \"table\"\n" + held
		return files.Job("job.toml", []byte("bars = \"rack.toml\"\n"+text[:from]+bar+text[to:]), func(string) ([]byte, error) { return []byte(list), nil })
	}
	const bush = "outboard = { station = \"second seat\", clearance = 0.0012, place_error = 0.0005 }\n"
	for _, x := range []struct {
		bar, held string
		stands    func(j *process.Job) bool
	}{
		{"slim", bush, func(j *process.Job) bool { return j.Bar.Steps[0].Diameter > qty.DiameterMM(25.4) }},
		{"slim", bush + "cutter_at = 15.5\n", func(j *process.Job) bool { return j.Bar.Steps[0].Diameter > qty.DiameterMM(25.4) }},
		{"open", "", func(j *process.Job) bool { return j.Bar.Steps[len(j.Bar.Steps)-1].Diameter > qty.DiameterMM(58.52) }},
	} {
		job, err := read(x.bar, x.held, list)
		if err != nil {
			t.Fatal(err)
		}
		var shop []place.Choice
		for _, b := range job.Shop {
			shop = append(shop, place.Choice{Name: b.Name, Sets: true})
		}
		found := ways.Free(&ways.Asked{Job: job, Shop: shop, Try: func(j *process.Job, _ ways.Effort) ways.Outcome {
			if !x.stands(j) {
				return ways.Outcome{Stops: 1, Short: 1}
			}
			return ways.Outcome{Feasible: true, Passes: 4, Minutes: 30, Chance: 0.99, Noisiest: setup.Stability{Margin: [2]float64{2, 9}}}
		}}, ways.Outcome{Stops: 1, Short: 1}).Ways
		if len(found) == 0 {
			t.Fatalf("%s: nothing frees it", x.bar)
		}
		for _, w := range found {
			for _, k := range w.Keys {
				name, is := strings.CutPrefix(words.In(qty.Inches).Say(k), "bar.name = ")
				if !is {
					continue
				}
				as, err := read(strings.Trim(name, `"`), x.held, list+w.Entry())
				if err != nil || !x.stands(as) {
					t.Errorf("%s: %s: as written %v\n%s", x.bar, told([]ways.Way{w}), err, w.Entry())
				}
			}
		}
	}
}
