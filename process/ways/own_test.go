package ways_test

import (
	"reflect"
	"strings"
	"sync"
	"testing"

	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/files"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/ways"
	"borewright/sheets/words"
)

// rackOfOwn are the lists that twoBores names its bars and cutters from.
const rackOfOwn = `units = "mm"
[[bar]]
name = "thick"
steps = [ { diameter = 90, length = 60 }, { diameter = 60, length = 240 } ]
[[bar]]
name = "thin"
most = 92
steps = [ { diameter = 90, length = 60 }, { diameter = 40, length = 240 } ]
[[bar]]
name = "new 1"
steps = [ { diameter = 90, length = 60 }, { diameter = 44, length = 240 } ]
most = 92
[[cutter]]
name = "bit"
material = "carbide"
nose_radius = 0.8
speed = { rough = 80, finish = 100 }
[[cutter]]
name = "fine"
material = "carbide"
nose_radius = 0.4
good_for = "finish"
`

// twoBores are two bores, of which the second has bar and cutter of its own.
const twoBores = `
units = "mm"
number = "T-2"
revision = "-"
title = "two bores"
machine = "hbm-5in"
material = "gray-iron-200hb"
bars = "rack.toml"
bar.name = "thick"
cutter.name = "bit"
order = "bore_by_bore"
station = [{ name = "near", from = 0, to = 40, diameter = 89 }, { name = "far", from = 100, to = 140, diameter = 70 }]
[[bore]]
station = "near"
repair = "rebore"
finish = { diameter = 90.2, fit = "H7" }
[[bore]]
station = "far"
bar = "thin"
cutter = "bit"
repair = "rebore"
finish = { diameter = 71, fit = "H7" }
`

// A bar or a cutter that a bore names is changed by an entry of its list, under a name that the list does
// not have, and named where it was; what it leaves alone stays. Written so the bore has the tools that
// were tried, and the other bore those it had.
func TestWhatABoreNamesIsAnEntry(t *testing.T) {
	read := func(text, list string) *process.Job {
		t.Helper()
		job, err := files.Job("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(list), nil })
		if err != nil {
			t.Fatalf("%v in\n%s\n%s", err, text, list)
		}
		return job
	}
	far := func(j *process.Job) *process.Job { return j.Using(j.Bores[1].CutBy) }
	thin := func(j *process.Job) process.Step { return far(j).Bar.Steps[1] }
	for _, x := range []struct {
		want   string
		how    string
		stands func(j *process.Job) bool
	}{
		{`instead of "thin": the shop's bar "new 1" (bore[2].bar = "new 1")`, "", func(j *process.Job) bool { return far(j).Bar.Name == "new 1" && thin(j).Diameter == qty.DiameterMM(44) }},
		{`instead of "thin": a bar of 52 mm diameter (to the list of bars: "new 2", below; bore[2].bar = "new 2")`, "", func(j *process.Job) bool { return thin(j).Diameter > qty.DiameterMM(44) }},
		{`instead of "thin": stickout 275.000 mm`, "", func(j *process.Job) bool { return far(j).Bar.Stickout() < 300*qty.Millimetre }},
		{`instead of "thin": the same bar of cemented carbide (to the list of bars: "new 2", below; bore[2].bar = "new 2")`, "", func(j *process.Job) bool { return thin(j).Material.ID == "carbide" }},
		{`instead of "bit": the shop's cutter "fine"`, "good for both", func(j *process.Job) bool { return far(j).Cutter.Name == "fine" }},
		{`instead of "bit": a nose radius of 0.4 mm (to the list of cutters: "new 1", below; bore[2].cutter = "new 1")`, "", func(j *process.Job) bool {
			return far(j).Cutter.NoseRadius < 800*qty.Micrometre && j.Bores[1].Bar == "thin"
		}},
		{`instead of "bit": a cutting speed of 40 m/min`, "", func(j *process.Job) bool { return far(j).Cutter.SpeedFinish < 90 }},
		{`instead of "bit": an edge of High-speed steel`, "", func(j *process.Job) bool {
			return far(j).Cutter.Material.Class == "hss" && far(j).Cutter.Rake == far(j).Cutter.Material.Rake
		}},
		{`instead of "thin": a bar of 64 mm diameter and instead of "bit": a lead of 93° (to the list of bars: "new 2", below; to the list of cutters: "new 2", below; bore[2].bar = "new 2"; bore[2].cutter = "new 2")`, "both", func(j *process.Job) bool { return thin(j).Diameter > qty.DiameterMM(44) }},
	} {
		list := rackOfOwn
		if x.how == "good for both" {
			list = strings.Replace(list, "good_for = \"finish\"\n", "", 1)
		}
		job := read(twoBores, list)
		before := job.Bar.Steps[1].Diameter
		got := missed(job, func(j *process.Job) (short float64) {
			if !x.stands(j) || j.Bar.Steps[1].Diameter != before {
				short++
			}
			if x.how == "both" && far(j).Cutter.Lead <= 75 {
				short++
			}
			return short
		})
		if len(got) == 0 || !strings.Contains(told(got), x.want) {
			t.Errorf("no %q in:\n%s", x.want, told(got))
			continue
		}
		for _, w := range got {
			text := twoBores
			for _, k := range w.Keys {
				path, value, _ := strings.Cut(words.In(qty.Metric).Say(k), " = ")
				key := strings.TrimPrefix(path, "bore[2].")
				text = strings.Replace(text, key+" = \"thin\"\n", key+" = "+value+"\n", 1)
				if i := strings.LastIndex(text, "cutter = \"bit\"\n"); key == "cutter" {
					text = text[:i] + "cutter = " + value + "\n" + text[i+len("cutter = \"bit\"\n"):]
				}
			}
			if as := read(text, list+w.Entry()+w.CutterEntry()); !x.stands(as) || as.Bar.Steps[1].Diameter != before || as.Cutter.NoseRadius != job.Cutter.NoseRadius {
				t.Errorf("%s: as written the bore has %s\n%s\n%s%s", told([]ways.Way{w}), described(far(as)), text, w.Entry(), w.CutterEntry())
			}
		}
	}
}

// What roughs is changed where it is named, by one key for all bores or by one of a bore; a bore that is finished
// with it, too, by both. A cutter that is good for finishing alone is not advised for roughing.
func TestWhatRoughsIsAnEntry(t *testing.T) {
	for _, x := range []struct{ keys, bore, want string }{
		{"rough.bar = \"thin\"\nrough.cutter = \"bit\"", "", `; rough.bar = "new 2")`},
		{"", "rough.bar = \"thin\"", `; bore[2].rough.bar = "new 2")`},
		{"", "bar = \"thin\"\nrough.bar = \"thin\"", `; bore[2].rough.bar = "new 2"; bore[2].bar = "new 2")`},
		{"rough.bar = \"thin\"", "rough.bar = \"thin\"\nrough.cutter = \"bit\"", `; rough.bar = "new 2"; bore[2].rough.bar = "new 2")`},
	} {
		text := strings.Replace(twoBores, "order = \"bore_by_bore\"\n", x.keys+"\n", 1)
		text = strings.Replace(text, "bar = \"thin\"\ncutter = \"bit\"\n", x.bore+"\n", 1)
		job, err := files.Job("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(rackOfOwn), nil })
		if err != nil {
			t.Fatalf("%v in\n%s", err, text)
		}
		got := told(judged(job, func(j *process.Job) bool {
			return j.Using(j.Bores[1].RoughBy).Bar.Steps[1].Diameter > qty.DiameterMM(44)
		}))
		if !strings.Contains(got, `instead of "thin": a bar of 52 mm diameter (to the list of bars: "new 2", below`+x.want) {
			t.Errorf("no %s in:\n%s", x.want, got)
		}
		if got := told(judged(job, func(j *process.Job) bool { return j.Using(j.Bores[1].RoughBy).Cutter.Name == "fine" })); got != "" {
			t.Errorf("a cutter for finishing is to rough:\n%s", got)
		}
	}
}

// Bars that are thin and long enough, and stopped by something else: no change is tried that changes nothing,
// neither of the job's own bar nor of one that a bore names. All that is tried differs in what is compared here.
func TestNoChangeOfNothing(t *testing.T) {
	job, err := files.Job("job.toml", []byte(twoBores), func(string) ([]byte, error) { return []byte(rackOfOwn), nil })
	if err != nil {
		t.Fatal(err)
	}
	cut := func(j *process.Job) []any {
		out := []any{j.Limits, *j.Machine}
		for i := range j.Bores {
			by := j.Using(j.ToolsOf(i, false))
			bar, cutter := by.Bar, by.Cutter
			bar.Name, cutter.Name = "", ""
			out = append(out, bar, cutter, j.Bores[i].Finish)
		}
		return out
	}
	stops := &place.Reach{Verdict: clearance.Blocked, Largest: qty.DiameterMM(120), Shortest: 200 * qty.Millimetre}
	var mu sync.Mutex
	n := 0
	ways.Free(&ways.Asked{Job: job, Visits: []ways.Visit{{Reach: stops}, {Reach: stops, Tools: job.Bores[1].CutBy}}, Try: func(j *process.Job, _ ways.Effort) ways.Outcome {
		mu.Lock()
		defer mu.Unlock()
		if n++; reflect.DeepEqual(cut(j), cut(job)) {
			t.Errorf("the job itself is tried, with %s and %s", j.Bar.Called(), j.Using(j.Bores[1].CutBy).Bar.Called())
		}
		return ways.Outcome{Stops: 1, Short: 1}
	}}, ways.Outcome{Stops: 1, Short: 1})
	if n < 20 {
		t.Errorf("only %d changes are tried", n)
	}
}
