package plate

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process/files"
)

// What was learned goes into every built-in machine's file, and nothing else
// in it changes.
func TestWithLearned(t *testing.T) {
	for _, m := range files.Machines() {
		data, err := files.BuiltIn("machines", m.ID)
		if err != nil {
			t.Fatal(err)
		}
		out, err := WithLearned("our.toml", data, Learned{Root: 0.8, Force: 1.1, Remark: "12 cuts of 4 jobs, least squares"})
		if err != nil {
			t.Fatalf("%s: %v\n%s", m.ID, err, out)
		}
		got, err := files.Machine("our.toml", out)
		if err != nil {
			t.Fatal(err)
		}
		near := func(a, b float64) bool { return math.Abs(a-b) < 0.006*b } // three figures
		if !near(got.Radial, 0.8*m.Radial) || !near(got.Tilt, 0.8*m.Tilt) || !near(got.ForceFactor, 1.1) {
			t.Errorf("%s: radial %v, tilt %v, force %v", m.ID, got.Radial, got.Tilt, got.ForceFactor)
		}
		got.Radial, got.Tilt, got.ForceFactor, got.Name, got.ID, got.Source = m.Radial, m.Tilt, m.ForceFactor, m.Name, m.ID, m.Source
		if diff := cmp.Diff(m, got); diff != "" {
			t.Errorf("%s:\n%s", m.ID, diff)
		}
		again, err := WithLearned("our.toml", out, Learned{Root: 1, Force: 1, Remark: "again"})
		if err != nil {
			t.Fatal(err)
		}
		if m2, _ := files.Machine("our.toml", again); !near(m2.Tilt, 0.8*m.Tilt) || !near(m2.ForceFactor, 1.1) {
			t.Errorf("%s: learned twice, %v %v", m.ID, m2.Tilt, m2.ForceFactor)
		}
	}
	if _, err := files.BuiltIn("machines", "../materials/brass"); err == nil {
		t.Error("any file is given away")
	}
}

// FuzzWithLearned: a line put into the file of a machine gives one that reads, or is refused.
func FuzzWithLearned(f *testing.F) {
	for _, m := range files.Machines() {
		data, err := files.BuiltIn("machines", m.ID)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(data))
		f.Add(string(data[:len(data)/2]))
	}
	f.Fuzz(func(t *testing.T, file string) {
		learned, err := WithLearned("own.toml", []byte(file), Learned{Root: 1.1, Force: 0.9, Remark: "own cuts"})
		if err != nil {
			return
		}
		if _, err := files.Machine("own.toml", learned); err != nil {
			t.Fatalf("does not read with what was learned: %v\n%s", err, learned)
		}
	})
}
