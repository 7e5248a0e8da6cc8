package desk

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/qty"
	"borewright/process/source"
)

// jobs are job files as people write them.
func jobs(t testing.TB) map[string][]byte {
	t.Helper()
	all := map[string][]byte{"new, in": files.Template(qty.Inches), "new, mm": files.Template(qty.Metric)}
	names, err := filepath.Glob(filepath.Join("..", "..", "..", "testdata", "jobs", "*", "job.toml"))
	if err != nil || len(names) < 5 {
		t.Fatal(names, err)
	}
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Base(filepath.Dir(n))] = data
	}
	return all
}

func fieldsOf(t testing.TB, data []byte) (all []Field) {
	t.Helper()
	f, err := FormOf(data, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range f.Groups {
		all = append(all, g.Fields...)
	}
	return all
}

// valuesOf are the values of a file as written, by path.
func valuesOf(t testing.TB, data []byte) map[string]string {
	t.Helper()
	all, err := source.Written(data)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, v := range all {
		out[v.Path] = v.Text
	}
	return out
}

// other is another text for a figure, of the same kind.
func other(f Field) string {
	switch {
	case f.Is == "word":
		for _, w := range f.Words {
			if w != f.Value {
				return w
			}
		}
	case strings.ContainsAny(f.Value[len(f.Value)-1:], "0123456789"):
		last := f.Value[len(f.Value)-1]
		return f.Value[:len(f.Value)-1] + string('0'+(last-'0'+1)%10)
	}
	return f.Value + "x"
}

// Every figure of a file stands in the form; filled in as it is, it changes no byte; changed, it
// changes its own value alone; changed back, the file is what it was. Nothing is excused but a
// figure that a person would not write so, as "01".
func TestAFigureChangesItsOwnBytes(t *testing.T) {
	for name, data := range jobs(t) {
		if testing.Short() && name != "lock-winch" {
			continue
		}
		fields, values := fieldsOf(t, data), valuesOf(t, data)
		if len(fields) < len(values) {
			t.Errorf("%s: %d figures of %d stand in the form", name, len(fields), len(values))
		}
		for _, f := range fields {
			if f.Added {
				continue
			}
			if same, faults := Changed(data, []Change{{f.Path, f.Value}}); len(faults) > 0 || !bytes.Equal(same, data) {
				t.Errorf("%s: %s as it is: %v\n%s", name, f.Path, faults, same)
			}
			now, faults := Changed(data, []Change{{f.Path, other(f)}})
			if len(faults) > 0 || bytes.Equal(now, data) {
				t.Errorf("%s: %s to %q: %v", name, f.Path, other(f), faults)
				continue
			}
			was, is := maps.Clone(values), valuesOf(t, now)
			delete(was, f.Path)
			delete(is, f.Path)
			if !maps.Equal(was, is) {
				t.Errorf("%s: %s changes other values", name, f.Path)
			}
			from, to := firstApart(data, now)
			if text := values[f.Path]; to-from > len(text)+2 {
				t.Errorf("%s: %s changes %d bytes, and its value has %d", name, f.Path, to-from, len(text))
			}
			if back, faults := Changed(now, []Change{{f.Path, f.Value}}); len(faults) > 0 || !bytes.Equal(back, data) {
				t.Errorf("%s: %s and back: %v\n%s", name, f.Path, faults, back)
			}
		}
	}
}

// firstApart are where two texts begin and end to differ, in the first.
func firstApart(a, b []byte) (from, to int) {
	for from < len(a) && from < len(b) && a[from] == b[from] {
		from++
	}
	to = len(a)
	for k := len(b); to > from && k > from && a[to-1] == b[k-1]; k-- {
		to--
	}
	return from, to
}

// A station, a sweep, a sleeve and a figure are added and filled in, and taken out again.
func TestAddAndTakeOut(t *testing.T) {
	data := jobs(t)["new, in"]
	form, err := FormOf(data, []string{"station[2]", "cutter.edge_radius", "sleeve", "nonsense", "station[9]"})
	if err != nil {
		t.Fatal(err)
	}
	var added []string
	for _, g := range form.Groups {
		for _, f := range g.Fields {
			if f.Added {
				added = append(added, f.Path)
			}
		}
	}
	for _, want := range []string{"station[2].name", "station[2].from", "station[2].to", "station[2].diameter", "cutter.edge_radius", "sleeve.material"} {
		if !slices.Contains(added, want) {
			t.Errorf("%s is not asked for: %q", want, added)
		}
	}
	if slices.ContainsFunc(added, func(p string) bool { return strings.Contains(p, "nonsense") || strings.HasPrefix(p, "station[9]") }) {
		t.Errorf("asked for is %q", added)
	}
	now, faults := Changed(data, []Change{{"station[2].name", "rear wall"}, {"station[2].from", "8"}, {"station[2].to", "9.5"}, {"station[2].diameter", "3.75"}, {"cutter.edge_radius", "0.0008"}})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	job, faults := Load("job.toml", now, nil)
	if job == nil || len(job.Stations) != 3 || job.Stations[2].Name != "rear wall" {
		t.Fatalf("%v\n%s", faults, now)
	}
	back, faults := Changed(now, []Change{{"station[2]", ""}, {"cutter.edge_radius", ""}})
	if job, more := Load("job.toml", back, nil); len(faults) > 0 || job == nil || len(job.Stations) != 2 {
		t.Fatalf("%v %v\n%s", faults, more, back)
	}
	for _, c := range []Change{{"station[0]", ""}, {"station[4].name", "x"}, {"station", "x"}, {"bore[0].horsepower", "3"}, {"machine.quill", "3"}, {"notes[9]", "x"}} {
		if same, faults := Changed(data, []Change{c}); len(faults) != 1 || !bytes.Equal(same, data) {
			t.Errorf("%v: %v", c, faults)
		}
	}
}

// What is typed is a value, never TOML or another key.
func TestTextIsNeverTOML(t *testing.T) {
	data := jobs(t)["lock-winch"]
	for _, evil := range []string{"x\"\nrevision = \"Z", "3 }\n[evil]", "\\u0000", "'''", "1.5 # remark", "[1, 2", "\"", "]]", "{ a = 1 }", "x\r\ny = 2", "\x00", "\u202e"} {
		for _, path := range []string{"title", "bore[0].ra", "bore[0].wear[0].radius", "bar.feed_by", "station[0].swept", "cutter.nose_radius"} {
			now, faults := Changed(data, []Change{{path, evil}})
			if len(faults) > 0 {
				continue
			}
			was, is := valuesOf(t, data), valuesOf(t, now)
			delete(was, path)
			delete(is, path)
			if !maps.Equal(was, is) {
				t.Errorf("%q at %s writes\n%s", evil, path, now)
			}
		}
	}
}

// FuzzForm fills in whatever is sent: the form is made or refused, and what goes in changes
// one value.
func FuzzForm(f *testing.F) {
	for _, data := range jobs(f) {
		f.Add(data, "bore[0].ra", "32")
		f.Add(data, "station[1].diameter", "80 mm")
		f.Add(data, "notes", "one\ntwo")
		f.Add(data, "bore[0].wear[0].at", "12, 4:30")
		f.Add(data, "sweep[0]", "")
	}
	f.Add([]byte("\xef\xbb\xbfunits = \"in\"\nnotes = []\nbore = []\n"), "notes", "a")
	f.Add([]byte("a = [[1], {b = 2}]\n\"b.c\" = 1\n[x.y]\nz = '''\n'''"), "x.y.z", "1")
	f.Add([]byte("xzy.s=''"), "xzy.s", "d")
	f.Fuzz(func(t *testing.T, data []byte, path, text string) {
		form, err := FormOf(data, []string{path})
		if err != nil {
			return
		}
		if form.Groups == nil {
			t.Fatal("no group")
		}
		now, faults := Changed(data, []Change{{path, text}})
		if len(faults) > 0 {
			if !bytes.Equal(now, data) {
				t.Fatalf("%v, and yet it changed", faults)
			}
			return
		}
		was, is := valuesOf(t, data), valuesOf(t, now)
		for p, v := range was {
			if p != path && !strings.HasPrefix(p, path+".") && !strings.HasPrefix(p, path+"[") && is[p] != v {
				t.Fatalf("%s = %q changes %s from %q to %q", path, text, p, v, is[p])
			}
		}
		for p := range is {
			if _, ok := was[p]; !ok && p != path {
				t.Fatalf("%s = %q makes %s", path, text, p)
			}
		}
	})
}

// A figure that is being typed is a figure too: "5" of a bar of 56 mm is planned, and refused.
func TestAFigureHalfTyped(t *testing.T) {
	data, faults := Changed(files.Template(qty.Metric), []Change{{"bar.steps[1].diameter", "5"}})
	job, more := Load("job.toml", data, nil)
	if job == nil {
		t.Fatal(faults, more)
	}
	p := Planned(job, &process.Results{})
	if p.Feasible || len(p.Reasons) == 0 || FiguresOf(p).Chance != none || Picture(p) == "" {
		t.Error("a bar of 5 mm is planned with")
	}
}
