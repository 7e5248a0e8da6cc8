package setup

import (
	"math"
	"os"
	"testing"

	"borewright/process"
	"borewright/process/bar"
	"borewright/process/files"
	"borewright/process/qty"
)

// webs is the job of testdata/process/good/bush.toml: the tip 23 in from the nose, the middle of the
// bush 17.625 in deep.
func webs(t *testing.T) *process.Job {
	t.Helper()
	data, err := os.ReadFile("../../testdata/process/good/bush.toml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("bush.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// TestBushGoesWithTheWork: with the tip at a depth d the bush is 23 + 17.625 − d in from the nose by
// table feed, and where it was by quill feed. A plain bar of 76.2 mm, E·I in the bar's own
// metal; bent by a unit load at the cutter it is a cantilever less what the bush holds:
//
//	δ = c³/3EI + c/(κ_s·G·A) + 1/k_r + c²/k_θ, and so on (superposition; any text on strength of materials)
func TestBushGoesWithTheWork(t *testing.T) {
	job := webs(t)
	const inch, bush = 25.4, 17.625 * 25.4
	const c, d = 23 * inch, 3 * inch
	steel := job.Bar.Steps[0].Material
	ei := steel.E * math.Pi / 64 * math.Pow(d, 4)
	kga := 6 * (1 + steel.Nu) / (7 + 6*steel.Nu) * steel.E / 2 / (1 + steel.Nu) * math.Pi / 4 * d * d
	kr, kt := job.Machine.Radial*1e3, job.Machine.Tilt*1e9
	free := func(p, q float64) float64 { // at p, for a load at q; p ≤ q
		return p*p*(3*q-p)/6/ei + p/kga + 1/kr + p*q/kt
	}
	s, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	e, err := s.Edge(job.Material, 52, 8*qty.Inch, 11*qty.Inch)
	if err != nil {
		t.Fatal(err)
	}
	if len(e.Along) < 5 {
		t.Fatalf("%d places along the cut", len(e.Along))
	}
	for _, p := range e.Along {
		b := c + bush - p.Depth.MM()
		share := free(c, b) / (free(b, b) + 1/60e3)
		if want := free(c, c) - share*free(c, b); math.Abs(p.Radial-want) > 1e-6*want {
			t.Errorf("at %g the bar gives %g mm/N, want %g", p.Depth.MM(), p.Radial, want)
		}
		if got := s.Follows(p.Depth); math.Abs(got-share) > 1e-6 {
			t.Errorf("at %g the cutter follows by %g, want %g", p.Depth.MM(), got, share)
		}
	}
	if first, last := e.Along[0], e.Along[len(e.Along)-1]; e.Soft.Radial != first.Radial || e.Stiff.Radial != last.Radial {
		t.Error("the bar is softest where the bush is furthest off, at the beginning")
	}
	there, err := bar.New([]bar.Section{{D: d, Length: 36 * inch, E: steel.E, Nu: steel.Nu, Rho: steel.Rho}}, bar.Root{Radial: kr, Tilt: kt}, c, &bar.Support{At: c + bush - 11*inch, Stiffness: 60e3}, 0)
	if err != nil {
		t.Fatal(err)
	}
	if first, err := there.First(); err != nil || math.Abs(s.BarAt(11*qty.Inch).Hz-first.Hz) > 1e-6*first.Hz {
		t.Errorf("rings at %g, want %g (%v)", s.BarAt(11*qty.Inch).Hz, first.Hz, err)
	}
	job.Bar.FeedBy, job.Bar.Standoff = process.QuillFeed, 6*qty.Inch
	for _, tip := range []qty.Length{8 * qty.Inch, 11 * qty.Inch} {
		if got, want := job.OutboardAt(tip), qty.FromMM(6*inch+bush); got != want {
			t.Errorf("by the quill the bush is %g mm from the nose, want %g", got.MM(), want.MM())
		}
	}
}
