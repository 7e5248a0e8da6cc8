package setup

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"borewright/process"
	"borewright/process/bar"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/files"
)

// lockWinch is the set-up of an example job.
func lockWinch(t testing.TB) (*Setup, *process.Job) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	s, err := New(job)
	if err != nil {
		t.Fatal(err)
	}
	return s, job
}

func edgeIn(t testing.TB, s *Setup) *Edge {
	t.Helper()
	e, err := s.Edge(s.Job.Material, 40, s.Job.Stations[0].From, s.Job.Stations[0].To)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// beamTurn is the turn of the first mode at the cutter over its deflection there.
func (s *Setup) beamTurn(t *testing.T) float64 {
	t.Helper()
	m, err := s.beam.First()
	if err != nil {
		t.Fatal(err)
	}
	return m.Turn
}

// The margin read off the table of a set-up is the limit of the bar worked out anew
// for the cut, over the stiffness of the cut.
func TestMarginAgainstBar(t *testing.T) {
	s, _ := lockWinch(t)
	e := edgeIn(t, s)
	for _, c := range [][3]float64{{0.1, 0.05, 15}, {0.3, 0.15, 40}, {1, 0.2, 80}, {2, 0.3, 120}} { // depth, feed, speed
		land := cut.Land{Least: 0.01, Most: 0.08}
		got := e.Stability(e.Stiffness(c[0], c[1], c[2], In), c[2], land).Margin
		for i := range got {
			rub := s.beam.ProcessDamping(e.in.Contact(c[0], c[1]).Along(40*s.beamTurn(t)), s.Job.Material.Indentation[i], []float64{0.01, 0.08}[i], c[2])
			want := s.beam.CutLimit(i, rub) / e.in.Regen(c[0], c[1], c[2], 40*s.beamTurn(t))
			if math.Abs(got[i]/want-1) > 0.02 {
				t.Errorf("%v: margin %.3f, worked out anew %.3f", c, got[i], want)
			}
		}
		if at := e.QuietAt(c[0], c[1], land)(c[2]).Margin; at != got {
			t.Errorf("%v: the curve has %.4f where the pass has %.4f", c, at, got)
		}
	}
}

// The overhang rule as a cross-check of the figures: a plain steel bar of three
// diameters is quiet at the speed of a carbide cutter and one of eleven is not, in the same iron
// with the same cutter. Source: 4 diameters, two workshop articles on boring-bar
// reach; see testdata of the rules in Why.
func TestOverhangRule(t *testing.T) {
	chatter := func(length float64) fact.Kind {
		s, job := lockWinch(t)
		b, err := bar.New([]bar.Section{{D: 57, Length: length, E: 207e3, Nu: 0.29, Rho: 7850, Damping: job.Bar.Material.Damping}},
			bar.Root{Radial: 300e3, Tilt: 4e9, Damping: job.Machine.Joint}, length, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		s.beam, s.chatter = b, func() *chatterLimit { return newChatterLimit(b) }
		e := edgeIn(t, s)
		return e.Stability(e.Stiffness(0.5, 0.15, 100, In), 100, e.NewLand()).Chatter()
	}
	if got := chatter(3 * 57); got != Quiet {
		t.Errorf("3 diameters: %s", got)
	}
	if got := chatter(11 * 57); got == Quiet {
		t.Errorf("11 diameters: %s", got)
	}
}
