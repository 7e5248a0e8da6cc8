package document

import (
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
	// Head and passes come back whole; line-up, sleeve and chance, which
	// need the job, do not.
	want, got := Of(p), Of(q)
	if diff := cmp.Diff([]any{want.Schema, want.Job, want.Feasible, want.Reasons}, []any{got.Schema, got.Job, got.Feasible, got.Reasons}); diff != "" {
		t.Error(diff)
	}
	for i, b := range want.Bores {
		if diff := cmp.Diff(b.Passes, got.Bores[i].Passes); diff != "" {
			t.Errorf("%s:\n%s", b.Station, diff)
		}
	}
	for _, bad := range []string{"", "{}", `{"schema":"else/1"}`, "[]"} {
		if _, err := Read([]byte(bad), qty.Metric); err == nil {
			t.Errorf("%q reads as a plan", bad)
		}
	}
}
