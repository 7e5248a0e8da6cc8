package process_test

import (
	"fmt"
	"testing"
	"os"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

func TestTryPlan(t *testing.T) {
	for _, u := range []qty.Unit{qty.Inches, qty.Metric} {
		j, err := process.Load("new.toml", process.Template(u), nil)
		if err != nil { t.Fatal(err) }
		show(plan.Make(j), u)
	}
	for _,f := range []string{"ferry-ramp/job","gear-case/job","lock-winch/job","lock-winch/manual"} {
		d,_ := os.ReadFile("../testdata/jobs/"+f+".toml")
		j, err := process.Load(f, d, nil)
		fmt.Println(f, err)
		if err == nil { show(plan.Make(j), j.Units) }
	}
}
func show(p *plan.Plan, u qty.Unit){
	fmt.Println(p.Feasible, p.Minutes)
	for _, r := range p.Reasons { fmt.Println("  R", r.Where, r.What, r.Free) }
	for _, c := range p.Cautions { fmt.Println("  C", c) }
	for _, b := range p.Bores { for _, v := range b.Visits { for _, x := range v.Passes { fmt.Println("  P", x.N, x.Kind, u.Format(qty.Length(x.Setting)), u.Format(qty.Length(x.Expected)), "depth", u.Format(x.Depth), "f", u.Format(x.Feed), "n", x.Speed, "Fr", x.RadialForce, "spring", u.FormatFine(x.Spring), x.LimitedBy) } } }
}
