package sheets

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/geom"
	"borewright/process/place"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/slow"
	"borewright/sheets/page"
)

// shipped is the plan of one of the example jobs, made once for all tests; each has a copy.
func shipped(t interface{ Fatal(...any) }, name string) *plan.Plan {
	p, is := shippedPlans.Load(name)
	if !is {
		p, _ = shippedPlans.LoadOrStore(name, madeOf(t, name))
	}
	return copied(reflect.ValueOf(p)).Interface().(*plan.Plan)
}

var shippedPlans sync.Map // of shipped, by name

func madeOf(t interface{ Fatal(...any) }, name string) *plan.Plan {
	data, err := os.ReadFile(filepath.Join("..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return plan.Make(job)
}

// copied is all of a value that scramble reaches: what stands behind a pointer or in a
// slice is made anew.
func copied(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	out.Set(v)
	switch {
	case v.Kind() == reflect.Pointer && !v.IsNil():
		out.Set(reflect.New(v.Type().Elem()))
		out.Elem().Set(copied(v.Elem()))
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				out.Field(i).Set(copied(v.Field(i)))
			}
		}
	case v.Kind() == reflect.Array, v.Kind() == reflect.Slice && !v.IsNil():
		if v.Kind() == reflect.Slice {
			out.Set(reflect.MakeSlice(v.Type(), v.Len(), v.Len()))
		}
		for i := range v.Len() {
			out.Index(i).Set(copied(v.Index(i)))
		}
	}
	return out
}

// Whatever stands in a line-up, a worn bore or a reach, the page fits.
func TestLineUpFits(t *testing.T) {
	jobs := []string{"lock-winch/manual.toml", "ferry-ramp/job.toml", "gear-case/job.toml"} // the last plans longest
	jobs = jobs[:slow.Rounds(t, "jobs", len(jobs), 2)]
	rapid.Check(t, func(t *rapid.T) {
		p := shipped(t, rapid.SampledFrom(jobs).Draw(t, "job"))
		choices := []place.Choice{{Name: "a"}, {Name: "b", Why: fact.AsWritten("c")}}
		scramble(t, reflect.ValueOf(p).Elem(), rapid.Bool().Draw(t, "figures"))
		scramble(t, reflect.ValueOf(&choices).Elem(), true)
		var text, ascii, line, reach bytes.Buffer
		s := Build(p)
		for _, err := range []error{s.WriteText(&text), s.WriteASCII(&ascii), WriteLineUp(&line, p, qty.DiameterMM(90)), WriteReach(&reach, p, choices)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		fitsPaper(t, text.String(), false)
		fitsPaper(t, ascii.String(), true)
		fitsPaper(t, line.String(), false)
		fitsPaper(t, reach.String(), false)
	})
}

// The sheet of every example tells what to move and by how much, in the words
// and figures of the plan.
func TestSheetTellsWhatToMove(t *testing.T) {
	for _, name := range []string{"lock-winch/job.toml", "lock-winch/manual.toml", "gear-case/job.toml", "ferry-ramp/job.toml"} {
		p := shipped(t, name)
		var b bytes.Buffer
		if err := Build(p).WriteText(&b); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(b.String()), " ")
		u := p.Job.Units
		way := map[geom.Direction]string{geom.Left: "left", geom.Right: "right", geom.Up: "up", geom.Down: "down"}
		sense := map[geom.Rotation]string{geom.Clockwise: "clockwise", geom.Counterclockwise: "counterclockwise"}
		for _, m := range p.LineUp.Move {
			if m.By != 0 && !strings.Contains(text, u.Say(qty.FromMM(m.By).Abs())+": the spindle goes "+way[m.Spindle]+", or the work "+way[m.Work]) {
				t.Errorf("%s: no word of %+v", name, m)
			}
		}
		if tn := p.LineUp.Turn; tn != nil && !strings.Contains(text, "Turn the table "+sense[tn.Sense]+", seen from above: far end "+way[tn.FarEnd]+", "+u.Say(qty.FromMM(tn.AtStop))) {
			t.Errorf("%s: no word of %+v", name, tn)
		}
		if s := p.LineUp.Shim; s != nil && !strings.Contains(text, "Shim "+u.Say(qty.FromMM(s.Thick))+" under the "+map[geom.End]string{geom.NearEnd: "near", geom.FarEnd: "far"}[s.Under]+" end") {
			t.Errorf("%s: no word of %+v", name, s)
		}
		for _, x := range p.Bores {
			for _, want := range []string{"Clean-up size of " + x.Station.Name, "Ø" + u.Format(x.CleanUp.TrueAxis.Length()), "Ø" + u.Format(x.CleanUp.OwnAxis.Length())} {
				if !strings.Contains(text, want) {
					t.Errorf("%s: no %q", name, want)
				}
			}
		}
		if !strings.Contains(text, "least room: ") || !strings.Contains(text, "found") {
			t.Errorf("%s: no reach, or nothing to fill in", name)
		}
	}
}

// A sweep that cannot be used is not told as none.
func TestLineUpSaysWhyThereIsNone(t *testing.T) {
	text := "units = \"mm\"\nnumber = \"1\"\nrevision = \"-\"\ntitle = \"face only\"\nmachine = \"cnc-110mm\"\nmaterial = \"gray-iron-200hb\"\n" +
		"station = [{ name = \"a\", from = 0, to = 60, diameter = 80, swept = true }]\n[[bore]]\nstation = \"a\"\nrepair = \"rebore\"\nfinish = { diameter = 82, fit = \"H7\" }\n" +
		"[bar]\nsteps = [{ diameter = 60, length = 200 }]\n[cutter]\nmaterial = \"carbide\"\nnose_radius = 0.8\n" +
		"[[sweep]]\nstation = \"a\"\nface = true\ndiameter = 100\nat = [0, 90, 180, 270]\ndial = [0, 0, 0, 0]\n"
	job, err := files.Job("job.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	if err := WriteLineUp(&b, plan.Make(job), 0); err != nil {
		t.Fatal(err)
	}
	if s := strings.Join(strings.Fields(b.String()), " "); strings.Contains(s, "holds no sweep") || !strings.Contains(s, "no bore was swept") {
		t.Error(s)
	}
}

// What readings on one side do not tell is said to be not known.
func TestOneSidedReadings(t *testing.T) {
	p := &plan.Plan{Job: &process.Job{Units: qty.Metric}}
	c := &place.CleanUp{TrueAxis: qty.DiameterMM(80.6), Axis: true, Depths: []place.Circles{{Readings: 4}, {Readings: 4}}}
	kv := newBuilder(p).CleanUpBlocks(plan.Bore{CleanUp: c})[0].(*page.KeyValues)
	got := map[string]string{}
	for _, x := range kv.Items {
		got[x.Key] = x.Value
	}
	if got["About its own axis"] != "not known" || got["Taper"] != "not known" {
		t.Errorf("%v", got)
	}
}
