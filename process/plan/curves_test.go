package plan_test

import (
	"math"
	"testing"

	"borewright/process/onebyone"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// The points of the charts agree with the pass table, and with sums by hand.
func TestCurves(t *testing.T) {
	jobs := []string{"ferry-ramp/job.toml", "lock-winch/job.toml", "lock-winch/manual.toml", "gear-case/job.toml"}
	for _, name := range jobs[:slow.Rounds(t, "jobs", len(jobs), 2)] {
		p := madeOf(t, onebyone.Of(example(t, name)))
		for b, x := range p.Bores {
			for k, v := range x.Visits {
				u := p.Job.Units
				springs := p.Springs(b, k)
				if len(springs) != len(v.Passes) {
					t.Fatalf("%s: %d curves of %d passes", name, len(springs), len(v.Passes))
				}
				for i, c := range springs { // the table feeds: the bar gives alike all along
					if d := (c.Points[0].Spring - v.Passes[i].Spring).Abs(); d > qty.Micrometre/5 {
						t.Errorf("%s pass %d: spring %v, the table says %v", name, c.Pass, c.Points[0].Spring, v.Passes[i].Spring)
					}
					if d := c.Points[0].Size.Minus(v.Passes[i].Expected).Abs(); d > qty.Micrometre*2 {
						t.Errorf("%s pass %d: size %s, the table says %s", name, c.Pass, u.Format(c.Points[0].Size.Length()), u.Format(v.Passes[i].Expected.Length()))
					}
				}
				last := v.Passes[len(v.Passes)-1]
				g, ok := p.SizeBudget(b, k)
				if last.Kind != schedule.Finish { // a spring pass has no budget of its own
					continue
				}
				if half := last.High.Minus(last.Low) / 2; !ok || (g.Total-half).Abs() > 3*qty.Micrometre {
					t.Errorf("%s: budget ±%v, the table ±%v", name, g.Total, half)
				}
				var squares, straight float64
				for _, part := range g.Parts {
					if part.Straight {
						straight += part.PlusMinus.MM()
					} else {
						squares += part.PlusMinus.MM() * part.PlusMinus.MM()
					}
				}
				if sum := math.Sqrt(squares) + straight; math.Abs(sum-g.Total.MM()) > 1e-5 {
					t.Errorf("%s: the parts make ±%.6f mm, in all ±%.6f", name, sum, g.Total.MM())
				}
				for _, c := range p.Quiet(b, k) {
					for i := 1; i < len(c.Points); i++ {
						if c.Points[i].Margin > c.Points[i-1].Margin*1.02 {
							t.Errorf("%s pass %d: quieter at %v than at %v rev/min, process damping fades with speed", name, c.Pass, c.Points[i].Speed, c.Points[i-1].Speed)
						}
					}
				}
			}
			for _, r := range p.WornRings(b) {
				if r.CleanUp != x.Visits[0].StartMost {
					t.Errorf("%s: clean-up %v, the visit starts at %v", name, r.CleanUp, x.Visits[0].StartMost)
				}
			}
		}
	}
}

// The winch's bar ends at the tip, so the tightest place is the blind bottom:
// depth of the relief less the end of feed, by hand.
func TestTightest(t *testing.T) {
	p := made(t, "lock-winch/job.toml")
	c := p.Bores[0].Visits[0].Reach.Least
	st := p.Bores[0].Station
	if want := st.To + st.Relief - p.Bores[0].Visits[0].End; c == nil || !c.Bottom || (qty.FromMM(c.Clearance)-want).Abs() > 1 {
		t.Errorf("%+v, want %v to the bottom", c, want)
	}
}
