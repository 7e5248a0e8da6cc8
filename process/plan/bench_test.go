package plan_test

import (
	"testing"

	. "borewright/process/plan"
)

// BenchmarkJob plans the main example, and the job with the most bores.
func BenchmarkJob(b *testing.B) {
	for _, name := range []string{"lock-winch", "gear-case"} {
		job := shipped(b, name+"/job.toml")
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if p := Make(job); !p.Feasible {
					b.Fatal(p.Reasons)
				}
			}
		})
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
