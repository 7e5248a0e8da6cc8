package sheets

import (
	"bytes"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/sheets/words"
)

// What is printed of why lists every limit of every pass, with how much of it the pass takes,
// the nearest first; and the plan has them all: of a rough what edge, bar and spindle can take,
// of a finish besides what it must come to.
func TestWhyListsEveryLimit(t *testing.T) {
	const name = "../testdata/jobs/hand-pump/job.toml"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job(name, text, os.ReadFile)
	if err != nil {
		t.Fatal(err)
	}
	p := plan.Make(job)
	var out bytes.Buffer
	if err := WriteWhy(&out, p); err != nil {
		t.Fatal(err)
	}
	rest, speak := strings.Join(strings.Fields(out.String()), " "), words.In(job.Units)
	cut := []fact.Kind{schedule.LimitDepth, schedule.LimitNose, schedule.LimitRub, schedule.LimitChip, schedule.LimitPower, schedule.LimitTorque, schedule.LimitStress}
	made := append(slices.Clone(cut), schedule.LimitSpring, schedule.LimitRa, schedule.LimitRoundness, schedule.LimitSize)
	for _, at := range p.Find("", 0) {
		for _, q := range p.Bores[at[0]].Visits[at[1]].Passes {
			lines, kinds, last := []string{fmt.Sprintf("pass %d (%s), and how much", q.N, q.Kind)}, []fact.Kind{}, q.Limits[0].Used
			for _, l := range q.Limits {
				kinds = append(kinds, l.What.Kind)
				lines = append(lines, fmt.Sprintf("%.0f %% %s", 100*l.Used, speak.Say(l.What)))
				if l.Used > last {
					t.Errorf("pass %d: %s is not in its order", q.N, l.What.Kind)
				}
				last = l.Used
			}
			for _, line := range lines {
				_, after, ok := strings.Cut(rest, strings.Join(strings.Fields(line), " "))
				if !ok {
					t.Fatalf("no %q behind what stands before it", line)
				}
				rest = after
			}
			want := cut
			if q.Kind == schedule.Finish {
				want = made
			}
			for _, k := range want {
				if !slices.Contains(kinds, k) {
					t.Errorf("pass %d (%s) has no %s among its limits", q.N, q.Kind, k)
				}
			}
		}
	}
}
