package plan

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process/qty"
)

// plan.json read back compares as the plan's own passes do.
func TestReadDocument(t *testing.T) {
	p := Make(shipped(t, "lock-winch/job.toml"))
	data, err := p.JSON()
	if err != nil {
		t.Fatal(err)
	}
	q, err := ReadDocument(data, qty.Inches)
	if err != nil {
		t.Fatal(err)
	}
	// Head and passes come back whole; line-up, sleeve and chance, which
	// need the job, do not.
	want, got := p.Document(), q.Document()
	if diff := cmp.Diff([]any{want.Schema, want.Job, want.Feasible, want.Reasons}, []any{got.Schema, got.Job, got.Feasible, got.Reasons}); diff != "" {
		t.Error(diff)
	}
	for i, b := range want.Bores {
		if diff := cmp.Diff(b.Passes, got.Bores[i].Passes); diff != "" {
			t.Errorf("%s:\n%s", b.Station, diff)
		}
	}
	for _, bad := range []string{"", "{}", `{"schema":"else/1"}`, "[]"} {
		if _, err := ReadDocument([]byte(bad), qty.Metric); err == nil {
			t.Errorf("%q reads as a plan", bad)
		}
	}
}
