package document

import (
	"os"
	"path/filepath"
	"testing"

	"borewright/process/qty"
)

// FuzzRead: whatever the bytes, a plan that can be written, or an error; never a panic. What
// is written need not read: an older document leaves out what every plan says.
func FuzzRead(f *testing.F) {
	names, err := filepath.Glob("../../golden/*/plan.json")
	if err != nil || len(names) == 0 {
		f.Fatal("no plan.json in golden", err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, false)
	}
	for _, text := range []string{
		``, `{}`, `[]`, `{"schema":"borewright/plan/1"}`, `{"schema":"borewright/plan/1","job":{"units":"in"},"bores":[{}]}`,
		`{"schema":"borewright/plan/1","bores":[{"station":"a","visits":[{"visit":1,"passes":[{"n":1,"kind":"finish","cutter_setting_mm":80.5,"rev_per_min":1e308}]}]}]}`,
		`{"schema":"borewright/plan/1","bores":null,"job":null}`, `{"schema":"borewright/plan/1","schema":"else/1"}`,
	} {
		f.Add([]byte(text), true)
	}
	f.Fuzz(func(t *testing.T, data []byte, inches bool) {
		u := qty.Metric
		if inches {
			u = qty.Inches
		}
		p, err := Read(data, u)
		if (p == nil) == (err == nil) {
			t.Fatalf("plan %v, error %v", p, err)
		}
		if err != nil {
			return
		}
		if _, err := Write(p); err != nil {
			t.Fatalf("read and not to be written: %v", err)
		}
	})
}
