package plan_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"borewright/process/plan"
	"borewright/process/slow"
)

// TestBothFacesSeatASleeve seats the sleeve of the far face in exact geometry, by depths of the casting
// from its near face. The housing is bored where the spindle runs after a half turn and a sweep; the
// sleeve goes on the axis of its housing, its near end towards the far face, its inside as far off as the
// lathe leaves it; the work is lined up and swept again, and the inside bored where the spindle runs then.
// The cut of the inside runs over the whole of the sleeve and the cut of the housing over the housing,
// neither into what lies behind by more than its run-out; the inside is bored clean all round, its wall
// is no thinner than the plan has it, and the axes stand within what each visit claims.
func TestBothFacesSeatASleeve(t *testing.T) {
	const through = 700
	text := swingSleeve(t, example(t, "swing-bridge/both.toml"))
	r := rand.New(rand.NewPCG(18, 11))
	for _, out := range [][2]float64{{0, 0}, {12, 40}} {
		x := text
		if out != [2]float64{} {
			if testing.Short() {
				continue
			}
			x = edited(t, text, "outside = 176", "outside = 176\nstands_out = [12, 40]")
		}
		job := swung(t, x)
		p := plan.Attempt(job, nil)
		if !p.Feasible || len(p.Bores[1].Visits) != 2 || !p.Bores[1].Sleeve.InPlace {
			t.Fatal(p.Reasons)
		}
		s, house, inside := p.Bores[1].Sleeve, p.Bores[1].Visits[0], p.Bores[1].Visits[1]
		// From the near face: the housing is 60 mm deep from the far face, the middle web ends at 340.
		cut := func(v plan.Visit) (from, to float64) { return through - v.End.MM(), through - v.Clear.MM() }
		for k, want := range [][2]float64{{through - 60, through}, {through - 60 - out[1], through + out[0]}} {
			from, to := cut(p.Bores[1].Visits[k])
			if from > want[0] || from < want[0]-5 || from < 340 || to <= want[1] || to > want[1]+10 {
				t.Errorf("out %v, visit %d: cut from %g to %g, and what is bored lies from %g to %g", out, k+1, from, to, want[0], want[1])
			}
		}
		seen := *p.For(1, 1).Job
		m, clean, in, n := job.Machine, 0, [2]int{}, slow.Rounds(t, "sleeves seated", 600, 100)
		thin := math.Inf(1)
		for range n {
			first := halfTurned(r, casting{along: [3]float64{0, 0, 1}}, through, 350, m.IndexPlace.MM(), m.IndexAngle)
			again := seen
			l, a := sweptThrough(t, r, first, &again)
			again = seen
			l2, b := sweptThrough(t, r, a, &again) // lined up afresh, from where it stands
			// a and b are the near bore's axis, seen from the spindle at each visit: the housing's axis stands from
			// the spindle of the second visit by b − a.
			off := 0.0
			axes := [2]casting{a, b}
			claims := [2]float64{l.AxisWithin(seen.Units, "bridge seat", 0).MM(), l2.AxisWithin(seen.Units, "bridge seat", 0).MM()}
			for k := range axes {
				ok := true
				for _, depth := range []float64{-out[0], 60 + out[1]} {
					at := axes[k].off(depth)
					ok = ok && math.Max(math.Abs(at[0]), math.Abs(at[1])) <= claims[k]
					x, y := a.off(depth), b.off(depth)
					off = math.Max(off, math.Hypot(y[0]-x[0], y[1]-x[1]))
				}
				if ok {
					in[k]++
				}
			}
			off += job.Sleeve.Runout.MM() / 2 // of the inside against the outside
			if inside.StartMost.MM()/2+off < inside.Limits.Low.MM()/2 {
				clean++
			}
			housing := house.Limits.Low.MM() / 2
			thin = math.Min(thin, housing-off-inside.Limits.High.MM()/2)
		}
		inShare(t, "housing", in[0], n, false)
		inShare(t, "inside", in[1], n, false)
		if clean < n || thin < s.Wall.MM()-inside.Axis.MM()-house.Axis.MM()-job.Sleeve.Runout.MM()/2 {
			t.Errorf("out %v: %d of %d insides are bored clean, the thinnest wall is %.3f mm, the plan has %v", out, clean, n, thin, s.Wall)
		}
		if far := s.Length.Most.MM(); math.Abs(far-60-out[0]-out[1]) > 0.6 {
			t.Errorf("the sleeve is %.2f mm long, and sits in 60 mm with %v standing out", far, out)
		}
		if !strings.Contains(string(inside.Before[0].Kind), "sleeve") {
			t.Errorf("before the inside: %v", inside.Before)
		}
		t.Logf("out %v: wall %v, thinnest %.3f; axes %d and %d of %d", out, s.Wall, thin, in[0], in[1], n)
	}
}
