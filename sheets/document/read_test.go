package document

import (
	"bytes"
	"encoding/json"
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process/plan"
	"borewright/process/qty"
)

// plan.json read back compares as the plan's own passes do.
func TestReadDocument(t *testing.T) {
	p := plan.Make(shipped(t, "lock-winch/job.toml"))
	data, err := Write(p)
	if err != nil {
		t.Fatal(err)
	}
	q, err := Read(data, qty.Inches)
	if err != nil {
		t.Fatal(err)
	}
	// The document says its units; an older one leaves them to whoever reads it.
	if m, err := Read(data, qty.Metric); err != nil || m.Job.Units != qty.Inches {
		t.Errorf("units %v, %v", m.Job.Units, err)
	}
	older := bytes.Replace(data, []byte(`    "units": "in",`+"\n"), nil, 1)
	for _, u := range []qty.Unit{qty.Inches, qty.Metric} {
		if m, err := Read(older, u); err != nil || m.Job.Units != u || len(older) == len(data) {
			t.Errorf("an older document for a reader in %v: %v, %v", u, m.Job.Units, err)
		}
	}
	// Head and passes come back whole; line-up, sleeve and chance, which
	// need the job, do not.
	again, err := Write(q)
	if err != nil {
		t.Fatal(err)
	}
	type head struct {
		Schema   string
		Job      map[string]string
		Feasible bool
		Reasons  []string
		Bores    []struct {
			Station string
			Passes  []map[string]any
		}
	}
	var want, got head
	if err := errors.Join(json.Unmarshal(data, &want), json.Unmarshal(again, &got)); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" || len(want.Bores[0].Passes) == 0 {
		t.Error(diff)
	}
	for _, bad := range []string{"", "{}", `{"schema":"else/1"}`, "[]"} {
		if _, err := Read([]byte(bad), qty.Metric); err == nil {
			t.Errorf("%q reads as a plan", bad)
		}
	}
}
