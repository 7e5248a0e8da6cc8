package plan_test

import (
	"fmt"
	"testing"

	"borewright/process"
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

// BenchmarkWear plans them by an edge that pushes harder as it wears, and by one that does not.
func BenchmarkWear(b *testing.B) {
	for _, name := range []string{"lock-winch", "gear-case"} {
		for _, wears := range []bool{true, false} {
			job := shipped(b, name+"/job.toml")
			of := map[*process.Material]*process.Material{}
			dull := func(m *process.Material) *process.Material {
				if of[m] == nil && m != nil {
					hard := *m
					hard.Flank = 0
					of[m] = &hard
				}
				return of[m]
			}
			if !wears {
				job.Material = dull(job.Material)
				if job.Sleeve != nil {
					sleeve := *job.Sleeve
					sleeve.Material = dull(sleeve.Material)
					job.Sleeve = &sleeve
				}
			}
			b.Run(fmt.Sprintf("%s/wear=%v", name, wears), func(b *testing.B) {
				for b.Loop() {
					if p := Make(job); !p.Feasible {
						b.Fatal(p.Reasons)
					}
				}
			})
		}
	}
}

// BenchmarkRefused plans jobs that are stopped, with all that would free them: most of them by nothing.
func BenchmarkRefused(b *testing.B) {
	for _, x := range refused {
		b.Run(x.name, func(b *testing.B) {
			job := load(b, x.text(b))
			for b.Loop() {
				p := Make(job)
				if p.Feasible {
					b.Fatal("it is planned")
				}
				p.Free()
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
