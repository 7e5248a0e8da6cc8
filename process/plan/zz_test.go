package plan

import (
	"fmt"
	"testing"
)

func TestZZ(t *testing.T) {
	for _, f := range examples {
		p := Make(shipped(t, f))
		fmt.Println("==", f, p.Feasible, p.Minutes, p.Reasons)
		u := p.Job.Units
		for _, b := range p.Bores {
			for _, v := range b.Visits {
				for _, q := range v.Passes {
					fmt.Printf("   %2d %-11s set %s  %s %s %s  a %s f %s n %.0f  Fp %.0f spr %s ra %s oor %s min %.1f %v| %s\n", q.N, q.Kind, u.Format(q.Setting.Length()), u.Format(q.Low.Length()), u.Format(q.Expected.Length()), u.Format(q.High.Length()), u.Format(q.Depth), u.Format(q.Feed), q.Speed, q.RadialForce, u.FormatFine(q.Spring), u.FormatRa(q.Ra), u.Format(q.OutOfRound), q.Minutes, q.Stability, q.LimitedBy)
				}
				fmt.Println("      budget", *v.Budget, u.Format(v.Budget.Low.Length()), u.Format(v.Budget.High.Length()))
			}
		}
	}
}
