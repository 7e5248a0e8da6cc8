package files

import (
	"errors"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/doubt"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/slow"
	"borewright/process/source"
)

// FuzzLoad: whatever the bytes, either a job or a list of problems that can be
// printed, never both, never neither, never a panic.
func FuzzLoad(f *testing.F) {
	for _, seed := range []string{
		reboreJob, sleeveJob, string(Template(qty.Inches)), string(Template(qty.Metric)), "", "\xef\xbb\xbf", "\x00", "units", "units = ", "a.b.c = {",
		"[[bore]]\n[bore.finish]\n[[bore.wear]]\nat=[]\n", "station = [[[[[]]]]]", "bar = { steps = [ { } ] }", "[bar]\nsteps = [{},{}]\n[cutter]\nlead = nan",
		`"\u202e" = 1`, "limits = { temperature = 1e-999, force_error = inf }", "units = \"in\"\nUNITS = \"mm\"", "[sleeve]\n[sleeve]\n", "x = 1979-05-27T07:32:00Z\r\n",
		"machine = \"own.toml\"\nmaterial = \"own.toml\"\n[cutter]\nmaterial = \"own.toml\"",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, file string) {
		open := func(string) ([]byte, error) { return []byte(file), nil }
		job, err := Job("job.toml", []byte(file), open)
		if (job == nil) == (err == nil) {
			t.Fatalf("job %v, error %v", job, err)
		}
		if err != nil {
			wellTold(t, err)
			return
		}
		for i, b := range job.Bores {
			if b.Station < 0 || b.Station >= len(job.Stations) || b.Finish.Low >= b.Finish.High || b.Roundness <= 0 {
				t.Fatalf("bore %d is %+v", i, b)
			}
		}
		if job.Machine == nil || job.Material == nil || job.Cutter.Material == nil || job.Bar.Stickout() <= 0 || job.Cutter.Least >= job.Cutter.Most {
			t.Fatalf("half a job: %+v", job)
		}
		for _, d := range doubt.Of(job) {
			for n := range d.Args {
				if s, _ := fact.AsName(d.Nth(n + 1)); strings.ContainsFunc(s, source.Unprintable) {
					t.Fatalf("doubt %q does not print", d)
				}
			}
		}
	})
}

// wellTold: the mistakes of a file have each a place and words that print, in the order
// of the lines.
func wellTold(t *testing.T, err error) {
	t.Helper()
	var list source.Errors
	if !errors.As(err, &list) || len(list) == 0 {
		t.Fatalf("error is %T", err)
	}
	for i, p := range list {
		if p.Line < 1 || p.Col < 1 || p.What == "" || p.File == "" {
			t.Fatalf("problem %+v", p)
		}
		if strings.ContainsFunc(p.Error(), source.Unprintable) {
			t.Fatalf("problem %q does not print", p.Error())
		}
		if i > 0 && list[i-1].File == p.File && list[i-1].Line > p.Line {
			t.Fatalf("problems are not in order: %v", err)
		}
	}
}

// seedsOf are the sound files of a kind, each whole and cut short, and files that are none.
func seedsOf(f *testing.F, kind string, add func(text string)) {
	for _, text := range goodFiles(f)[kind] {
		add(text)
		add(text[:len(text)/2])
	}
	for _, text := range []string{"", "\xef\xbb\xbf", "\x00", "units = \"in\"", "name = [", "[source]\n[source]\n"} {
		add(text)
	}
}

// FuzzMachine: whatever the bytes, a machine whose figures are all there, or mistakes that
// are well told.
func FuzzMachine(f *testing.F) {
	seedsOf(f, "machine file", func(text string) { f.Add(text) })
	f.Fuzz(func(t *testing.T, file string) {
		m, err := Machine("own.toml", []byte(file))
		if (m == nil) == (err == nil) {
			t.Fatalf("machine %v, error %v", m, err)
		}
		if err != nil {
			wellTold(t, err)
			return
		}
		if m.Name == "" || m.Quill <= 0 || m.Power <= 0 || len(m.Speeds.Steps) == 0 && m.Speeds.Least >= m.Speeds.Most || len(m.Feeds.Steps) == 0 && m.Feeds.Least > m.Feeds.Most {
			t.Fatalf("half a machine: %+v", m)
		}
	})
}

// FuzzMaterial: the same of a material of work, cutter or bar.
func FuzzMaterial(f *testing.F) {
	kinds := []string{"material file", "cutter material file", "bar material file"}
	for n, kind := range kinds {
		seedsOf(f, kind, func(text string) { f.Add(text, byte(n)) })
	}
	f.Fuzz(func(t *testing.T, file string, kind byte) {
		var err error
		var sound bool
		switch kind % 3 {
		case 0:
			var m *process.Material
			if m, err = Material("own.toml", []byte(file)); err == nil {
				sound = m.Kc11 > 0 && m.E > 0 && m.Hardness > 0 && m.Indentation[0] <= m.Indentation[1]
			}
		case 1:
			var m *process.CutterMaterial
			if m, err = CutterMaterial("own.toml", []byte(file)); err == nil {
				sound = m.Force > 0 && m.Edge > 0
			}
		case 2:
			var m *process.BarMaterial
			if m, err = BarMaterial("own.toml", []byte(file)); err == nil {
				sound = m.E > 0 && m.Rho > 0 && m.Damping[0] <= m.Damping[1]
			}
		}
		if err != nil {
			wellTold(t, err)
		} else if !sound {
			t.Fatalf("%s is read by half:\n%s", kinds[kind%3], file)
		}
	})
}

// FuzzBars: the same of a list of bars, and of the files it names.
func FuzzBars(f *testing.F) {
	seedsOf(f, "list of bars", func(text string) { f.Add(text) })
	f.Add("units = \"mm\"\n[[bar]]\nname = \"a\"\nmaterial = \"own.toml\"\nsteps = [ { diameter = 60, length = 300 } ]\n")
	f.Fuzz(func(t *testing.T, file string) {
		list, err := Bars("bars.toml", []byte(file), func(string) ([]byte, error) { return []byte(file), nil })
		if (list == nil) == (err == nil) {
			t.Fatalf("list %v, error %v", list, err)
		}
		if err != nil {
			wellTold(t, err)
			return
		}
		for i, b := range list.Bars {
			if b.Name == "" || b.Stickout() <= 0 || b.Material.E <= 0 || b.Least >= b.Most {
				t.Fatalf("bar %d is %+v", i, b)
			}
		}
	})
}

// TestLargeFiles: files to 5 MB are answered, each in a way that could be
// slow; a larger one is refused unread.
func TestLargeFiles(t *testing.T) {
	slow.Test(t, "reads 70 MB")
	const mb5 = source.LargestFile
	fill := func(head, piece, tail string) string {
		return head + strings.Repeat(piece, (mb5-len(head)-len(tail))/len(piece)) + tail
	}
	for _, row := range []struct{ why, file, want string }{
		{"a sound job and a long remark", fill(reboreJob+"# ", "x", ""), ""},
		{"a sound job and many remarks", fill(reboreJob, "# a remark\n", ""), ""},
		{"one byte too many", fill(reboreJob+"# ", "x", "") + strings.Repeat("x", 20), "job.toml:1:1: the file is 5.0 MB; files to 5 MB are read; a job is a few kB"},
		{"nested lists", fill("a = ", "[", ""), "nested thousands deep"},
		{"nested tables", fill("a = ", "{a=", ""), "nested thousands deep"},
		{"a dotted key", fill("", "a.", "a = 1"), "nested more than 12 deep"},
		{"a dotted table", fill("[", "a.", "a]"), "nested more than 12 deep"},
		{"a long list on one line", fill("a = [", "1,", "]"), "more than 50000 values"},
		{"many keys", fill("", "a = 1\n", ""), "more than 50000 values"},
		{"many tables", fill("", "[[bore]]\n", ""), "more than 50000 values"},
		{"one long text", fill(`title = "`, "x", `"`), "characters long"},
		{"one long key", fill("", "x", " = 1"), "is not a key of the job file"},
		{"one long number", fill("a = ", "1", ""), "too large"},
		{"as many keys as are taken", fill("", "# remark remark remark remark remark remark remark remark remark remark\n", "a = ["+strings.Repeat("1,", 40_000)+"]\n"), "is not a key"},
	} {
		t.Run(row.why, func(t *testing.T) {
			_, err := Job("job.toml", []byte(row.file), nil)
			switch {
			case row.want == "" && err != nil:
				t.Error(err)
			case row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)):
				t.Errorf("%.300v", err)
			}
			if err != nil && len(err.Error()) > 100_000 {
				t.Errorf("the answer has %d bytes", len(err.Error()))
			}
		})
	}
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Job("job.toml", []byte(reboreJob), nil); err != nil {
			b.Fatal(err)
		}
	}
}
