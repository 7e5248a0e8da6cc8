package plan

import (
	"fmt"
	"os"
	"testing"

	"borewright/process"
)

func TestZZ(t *testing.T) {
	for _, f := range []string{"lock-winch/job.toml", "lock-winch/manual.toml", "gear-case/job.toml", "ferry-ramp/job.toml"} {
		data, _ := os.ReadFile("../../testdata/jobs/" + f)
		job, err := process.Load(f, data, nil)
		if err != nil {
			fmt.Println(err)
			continue
		}
		p := Make(job)
		fmt.Println("==", f, p.Feasible, p.Minutes)
		for _, r := range p.Reasons {
			fmt.Println("  reason", r.Where, r.What, r.Free)
		}
		for _, c := range p.Cautions {
			fmt.Println("  caution", c)
		}
		u := job.Units
		for _, b := range p.Bores {
			for _, v := range b.Visits {
				fmt.Println(" ", b.Station.Name, v.Title, "start", u.Format(v.Start.Length()), u.Format(v.StartMost.Length()), "lim", u.Format(v.Limits.Low.Length()), u.Format(v.Limits.High.Length()), "c", v.Compliance, "oh", v.Overhang, "clear", u.Format(v.Clear), u.Format(v.End), v.Retract)
				for _, s := range v.Before {
					fmt.Println("     before:", s)
				}
				su, _ := newSetup(job)
				vv := v
				rm, _ := su.newRoom(&vv, b.Station, false)
				m, _ := su.beam.Modes(2)
				fmt.Println("     modes", m)
				for _, q := range v.Passes {
					k := rm.model.Regen(q.Depth.MM(), q.Feed.MM(), float64(q.Cutting))
					d := job.Machine.Damping
					fmt.Printf("      regen %.0f push %.0f margins %.2f %.2f\n", k, rm.model.Push(q.Depth.MM(), q.Feed.MM(), float64(q.Cutting)), su.beam.Margin(k, float64(q.Speed), d[0]), su.beam.Margin(k, float64(q.Speed), d[1]))
					fmt.Printf("   %2d %-11s set %s  %s %s %s  a %s f %s n %.0f  Fc %.0f Ff %.0f Fp %.0f spr %s P %.0f M %.0f s %.0f ra %s oor %s min %.1f | %s\n", q.N, q.Kind, u.Format(q.Setting.Length()), u.Format(q.Low.Length()), u.Format(q.Expected.Length()), u.Format(q.High.Length()), u.Format(q.Depth), u.Format(q.Feed), q.Speed, q.CuttingForce, q.FeedForce, q.RadialForce, u.FormatFine(q.Spring), q.Power, q.Torque, q.Stress, u.FormatRa(q.Ra), u.Format(q.OutOfRound), q.Minutes, q.LimitedBy)
				}
			}
		}
	}
}
