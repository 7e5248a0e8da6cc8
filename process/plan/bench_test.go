package plan_test

import (
	"os"
	"testing"

	"borewright/process/files"
	. "borewright/process/plan"
)

// BenchmarkBore plans one bore: the gear case has three.
func BenchmarkJob(b *testing.B) {
	data, err := os.ReadFile("../../testdata/jobs/lock-winch/job.toml")
	if err != nil {
		b.Fatal(err)
	}
	job, err := files.Job("job.toml", data, nil)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if p := Make(job); !p.Feasible {
			b.Fatal(p.Reasons)
		}
	}
}

// BenchmarkBore plans one visit without the trials.
func BenchmarkBore(b *testing.B) {
	job := shipped(b, "lock-winch/job.toml")
	for b.Loop() {
		if p := Attempt(job, nil); !p.Feasible {
			b.Fatal(p.Reasons)
		}
	}
}
