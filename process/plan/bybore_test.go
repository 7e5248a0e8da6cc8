package plan_test

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"borewright/process"
	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/slow"
)

// entries are the bars or the cutters of the net hauler's rack, each as it is written.
func entries(t testing.TB, kind string) map[string]string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/jobs/net-hauler/rack.toml")
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, part := range strings.Split(string(data), "[[")[1:] {
		if rest, is := strings.CutPrefix(part, kind+"]]"); is {
			all[regexp.MustCompile(`name *= "([^"]*)"`).FindStringSubmatch(rest)[1]] = "[[" + part
		}
	}
	return all
}

// choices are jobs of two webs, each with a small rack: few enough that all that could be chosen
// is planned.
var choices = []struct {
	name          string
	bars, cutters []string
	change        []string
	more          bool         // by bore it weighs less than by any one pair
	says          [3]string    // what the job names, and what each bore
	only          [4][2]string // and so bar and cutter of the front web, the rear web and the roughing of each; "": any
}{
	{name: "no bar does both", bars: []string{"A 40", "F 80"}, cutters: []string{"K2 square"}, more: true},
	{name: "no bar does both, two cutters", bars: []string{"B 50", "F 80"}, cutters: []string{"K3 high-speed", "K5 short"}, change: []string{"most  = 100", "most  = 80"}, more: true},
	{name: "a slender one sings", bars: []string{"B 50", "D 60 short"}, cutters: []string{"K1 carbide", "K3 high-speed"}, more: true},
	{name: "steel, one cutter to finish", bars: []string{"C 60"}, cutters: []string{"K1 carbide", "K3 high-speed", "K4 broad"}, change: []string{"ductile-iron-400", "steel-1045"}},
	{name: "one at a time", bars: []string{"B 50", "F 80"}, cutters: []string{"K1 carbide", "K2 square"}, change: []string{"units    = \"mm\"\nnumber", "order = \"bore_by_bore\"\nunits    = \"mm\"\nnumber"}, more: true},
	{name: "a bore names its bar", bars: []string{"B 50", "F 80"}, cutters: []string{"K1 carbide", "K3 high-speed"}, says: [3]string{"", "bar = \"F 80\"\n", ""},
		only: [4][2]string{{"F 80"}, {}, {"F 80"}, {}}, more: true},
	{name: "each bore names its bar", bars: []string{"B 50", "F 80"}, cutters: []string{"K2 square", "K3 high-speed"}, change: []string{"lead        = 90", "lead = 90\nmost = 80", "speed       = {", "least = 90\nspeed = {"}, says: [3]string{"", "bar = \"F 80\"\n", "bar = \"B 50\"\n"},
		only: [4][2]string{{"F 80"}, {"B 50"}, {"F 80"}, {"B 50"}}, more: true},
	{name: "a bore names its cutter", bars: []string{"B 50", "F 80"}, cutters: []string{"K1 carbide", "K3 high-speed"}, says: [3]string{"", "", "cutter = \"K3 high-speed\"\n"},
		only: [4][2]string{{}, {"", "K3 high-speed"}, {}, {"", "K3 high-speed"}}, more: true},
	{name: "roughing names its bar", bars: []string{"B 50", "C 60"}, cutters: []string{"K1 carbide", "K3 high-speed"}, says: [3]string{"rough = { bar = \"B 50\" }\n", "", ""},
		only: [4][2]string{{}, {}, {"B 50"}, {"B 50"}}, more: true},
	{name: "the job names its bar, and a bore another", bars: []string{"B 50", "F 80"}, cutters: []string{"K1 carbide", "K3 high-speed"}, says: [3]string{"bar = { name = \"B 50\" }\n", "bar = \"F 80\"\n", ""},
		only: [4][2]string{{"F 80"}, {"B 50"}, {"F 80"}, {"B 50"}}, more: true},
	{name: "the job names its cutter, and a bore another", bars: []string{"B 50", "F 80"}, cutters: []string{"K1 carbide", "K3 high-speed"}, says: [3]string{"cutter = { name = \"K1 carbide\" }\n", "cutter = \"K3 high-speed\"\n", ""},
		only: [4][2]string{{"", "K3 high-speed"}, {"", "K1 carbide"}, {"", "K3 high-speed"}, {"", "K1 carbide"}}, more: true},
	{name: "clamped at any length", bars: []string{"B 50", "F 80"}, cutters: []string{"K3 high-speed"}, change: []string{"diameter = 80, length = 340 } ]", "diameter = 80, length = 340 } ]\nstickout = [62, 400]", "diameter = 50, length = 340 } ]", "diameter = 50, length = 340 } ]\nstickout = [62, 400]"}},
	{name: "too long as the list has it", bars: []string{"A 40", "C 60", "F 80"}, cutters: []string{"K3 high-speed"}, change: []string{"{ diameter = 60, length = 340 } ]\nmost  = 110", "{ diameter = 60, length = 640 } ]\nstickout = [62, 700]\nmost = 90"}, more: true},
	{name: "one clamped at any length", bars: []string{"B 50", "C 60"}, cutters: []string{"K1 carbide"}, change: []string{"diameter = 60, length = 340 } ]", "diameter = 60, length = 340 } ]\nstickout = [62, 400]"}},
	{name: "one does", bars: []string{"C 60", "F 80"}, cutters: []string{"K1 carbide", "K2 square"}},
}

// TestChoiceByBoreAgainstAll writes each bar with each cutter for each bore, its roughing and its
// finish, into a job file of its own, plans all of them, and holds the choice against the best.
func TestChoiceByBoreAgainstAll(t *testing.T) {
	bars, cutters := entries(t, "bar"), entries(t, "cutter")
	for _, row := range choices[:slow.Rounds(t, "jobs, each planned with all that bores could be cut with", len(choices)-1, 1, len(choices))] {
		t.Run(row.name, func(t *testing.T) {
			t.Parallel()
			rack := "units = \"mm\"\n"
			var pairs [][2]string
			for _, b := range row.bars {
				rack += bars[b]
				for _, k := range row.cutters {
					pairs = append(pairs, [2]string{b, k})
				}
			}
			for _, k := range row.cutters {
				rack += cutters[k]
			}
			data, err := os.ReadFile("../../testdata/jobs/net-hauler/job.toml")
			if err != nil {
				t.Fatal(err)
			}
			change := strings.NewReplacer(row.change...)
			read := func(head string, bores ...string) (*process.Job, error) {
				parts := strings.Split(string(data), "[[bore]]\n")
				text := head + "\n" + change.Replace(parts[0])
				for i, b := range bores {
					text += "[[bore]]\n" + b + parts[i+1]
				}
				return files.Job("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(change.Replace(rack)), nil })
			}
			best, one, plans := math.Inf(1), math.Inf(1), 0
			best4 := ""
			apart := !strings.Contains(change.Replace(string(data)), "bore_by_bore")
			n := len(pairs)
			for all := range n * n * n * n {
				front, rear, roughFront, roughRear := pairs[all%n], pairs[all/n%n], pairs[all/n/n%n], pairs[all/n/n/n]
				bore := func(cut, rough [2]string) string {
					s := fmt.Sprintf("bar = %q\ncutter = %q\n", cut[0], cut[1])
					if apart {
						s += fmt.Sprintf("rough = { bar = %q, cutter = %q }\n", rough[0], rough[1])
					}
					return s
				}
				broad := func(p [2]string) bool { return p[1] == "K4 broad" }
				if astray := func(p, only [2]string) bool {
					return only[0] != "" && p[0] != only[0] || only[1] != "" && p[1] != only[1]
				}; astray(front, row.only[0]) || astray(rear, row.only[1]) || astray(roughFront, row.only[2]) || astray(roughRear, row.only[3]) {
					continue
				}
				if broad(roughFront) || broad(roughRear) || !apart && (roughFront != front || roughRear != rear || broad(front) || broad(rear)) {
					continue
				}
				job, err := read(fmt.Sprintf("bar = { name = %q }\ncutter = { name = %q }", front[0], front[1]), bore(front, roughFront), bore(rear, roughRear))
				if err != nil { // such a cutter is not set to such a bore
					continue
				}
				plans++
				w := priceOf(Make(job))
				if w < best {
					best, best4 = w, fmt.Sprint(front, rear, roughFront, roughRear)
				}
				if front == rear && front == roughFront && front == roughRear {
					one = math.Min(one, w)
				}
			}
			open, err := read(row.says[0]+"choose = \"by_bore\"", row.says[1], row.says[2])
			if err != nil {
				t.Fatal(err)
			}
			chosen, err := Tooled(open, nil)
			if err != nil {
				t.Fatal(err)
			}
			got := priceOf(Make(chosen))
			t.Logf("%d plans: the best %.2f (%s), of one pair %.2f; chosen %.2f", plans, best, best4, one, got)
			if got > best+1e-6 || math.IsInf(best, 1) {
				t.Errorf("what is chosen weighs %.2f, the best %s %.2f", got, best4, best)
			}
			if less := best < one-1e-6; less != row.more && row.only == [4][2]string{} {
				t.Errorf("by bore weighs less than by one pair: %v, want %v", less, row.more)
			}
		})
	}
}
