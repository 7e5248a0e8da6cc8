package verify

import (
	"bytes"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"

	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// Any bytes may be a program.
func TestNoBytesPanic(t *testing.T) {
	rounds := slow.Rounds(t, "spoiled copies of each program", 400, 60)
	rng := rand.New(rand.NewPCG(7, 1))
	for _, g := range good {
		p, text := g.plan(), program(t, g.file)
		for range rounds {
			bad := bytes.Clone(text)
			for range 1 + rng.IntN(8) {
				i := rng.IntN(len(bad))
				switch rng.IntN(3) {
				case 0:
					bad[i] = byte(rng.IntN(256))
				case 1:
					bad = append(bad[:i], bad[i+1:]...)
				default:
					bad = append(bad[:i], append([]byte("999999999999999"), bad[i:]...)...)
				}
			}
			Check(bad, "damaged", p, 0, 0)
			Identify(bad, p)
		}
	}
	for _, s := range []string{"", "%", "%\n%", "\x00\xff", "(", strings.Repeat("(", 5000), "G91 G21 G0 Z999999999999999.\n" + strings.Repeat("Z999999999999999.\n", 50)} {
		if r := Check([]byte(s), "", planMM(), 0, 0); r.Proven || len(r.Findings) == 0 {
			t.Errorf("%.20q is proven", s)
		}
	}
}

// Any plan may be handed in, half filled too.
func TestNoPlanPanics(t *testing.T) {
	text := program(t, "shift-mm.nc")
	for i, p := range []*plan.Plan{
		nil, {}, {Job: &process.Job{}}, {Job: &process.Job{Machine: &process.Machine{Control: &process.Control{}}}},
		{Job: &process.Job{Machine: &process.Machine{Control: &process.Control{}}}, Bores: []plan.Bore{{Visits: []plan.Visit{{}}}}},
		{Job: &process.Job{Machine: &process.Machine{Control: &process.Control{PartPlaces: 99, WholePlaces: -1, LineMost: -5}},
			Stations: make([]process.Station, 1)}, Bores: []plan.Bore{{Visits: []plan.Visit{{Visit: schedule.Visit{Passes: make([]schedule.Pass, 2)}}}}}},
	} {
		for _, at := range [][2]int{{0, 0}, {-1, 0}, {0, -1}, {5, 0}, {0, 5}} {
			if r := Check(text, "x.nc", p, at[0], at[1]); r.Proven {
				t.Errorf("plan %d at %v is proven", i, at)
			}
		}
		Identify(text, p)
	}
	p := planMM()
	for i := range p.Bores[0].Visits[0].Passes {
		p.Bores[0].Visits[0].Passes[i].Speed = qty.RevPerMin(math.NaN())
	}
	if r := Check(text, "", p, 0, 0); r.Proven {
		t.Error("a plan without speeds is proven")
	}
}

// Findings are bounded, whatever the length, and so is memory.
func TestLongPrograms(t *testing.T) {
	lines := []string{
		"G1 X1.5 Y-2. Z-3.25 F100.\nG0 Z-500.\n(SET CUTTER TO DIA 9)\nM0\n", // wrong in every way
		"(NOTHING)\n", "M5\nM0\n", "G0 X0.\nG0 X0.001\n",
	}
	for _, line := range lines[:slow.Rounds(t, "long programs", len(lines), 1)] {
		text := []byte("G17 G21 G40 G90 G94\n" + strings.Repeat(line, 1<<20/len(line)))
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		r := Check(text, "", planMM(), 0, 0)
		runtime.GC()
		runtime.ReadMemStats(&after)
		if r.Proven || len(r.Findings) > script.Most+1 {
			t.Errorf("%.10q: %d findings", line, len(r.Findings))
		}
		if after.HeapAlloc > before.HeapAlloc+8<<20 {
			t.Errorf("%.10q: %d bytes kept", line, after.HeapAlloc-before.HeapAlloc)
		}
	}
}

// The same program and plan give the same report.
func TestDeterministic(t *testing.T) {
	text := bytes.ReplaceAll(program(t, "shift-mm.nc"), []byte("Z-431.5"), []byte("Z-43.15"))
	first := Check(text, "a", planMM(), 0, 0)
	for range 5 {
		next := Check(text, "a", planMM(), 0, 0)
		if len(first.Findings) != len(next.Findings) {
			t.Fatal("not the same number of findings")
		}
		for i := range first.Findings {
			if first.Findings[i] != next.Findings[i] {
				t.Errorf("%s\n%s", said(first.Findings[i]), said(next.Findings[i]))
			}
		}
	}
}
