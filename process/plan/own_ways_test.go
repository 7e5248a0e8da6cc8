package plan_test

import (
	"os"
	"strings"
	"testing"

	"borewright/process/files"
	. "borewright/process/plan"
	"borewright/process/slow"
	"borewright/process/ways"
	"borewright/sheets/words"
)

// frameWith is the net hauler's frame with keys of its own and of its rear web, and its rack with changes.
func frameWith(t *testing.T, own, rear string, rack ...string) (job, list string) {
	t.Helper()
	read := func(name string) string {
		data, err := os.ReadFile("../../testdata/jobs/net-hauler/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	job = strings.Replace(read("job.toml"), "bars     =", own+"\nbars     =", 1)
	i := strings.LastIndex(job, "repair")
	return job[:i] + rear + "\n" + job[i:], strings.NewReplacer(rack...).Replace(read("rack.toml"))
}

// What a bore names of the lists is freed by another entry: one that the list has, or a new one, as it is
// told. Added to the list and named as the way says, it plans as was told.
func TestWaysOfWhatBoresName(t *testing.T) {
	t.Parallel()
	slow.Test(t, "two searches of ways, each way planned as it is written")
	const own = "bar.name = \"C 60\"\ncutter.name = \"K1 carbide\""
	rows := []struct {
		why, rear string
		rack      []string
		want      []string // of what is told
	}{
		{"a bar too thin", "bar = \"A 40\"", []string{"diameter = 40,", "diameter = 16,", "most  = 80", "least = 17\nmost  = 80"},
			[]string{"instead of \"A 40\": the shop's bar \"E 63 heavy metal\" (bore[2].bar = \"E 63 heavy metal\")", "below; bore[2].bar = \"new 1\"", "instead of \"A 40\": a bar to make: Ø60.000 mm, 330 mm from the nose to the tip, of steel"}},
		{"a cutter that pushes", "cutter = \"K4 broad\"", []string{"nose_radius = 3.0", "nose_radius = 6.0\nspeed = { rough = 200, finish = 240 }"},
			[]string{"instead of \"K4 broad\": the shop's cutter \"K1 carbide\" (bore[2].cutter = \"K1 carbide\")", "to the list of cutters: \"new 1\", below; bore[2].cutter = \"new 1\""}},
	}
	for _, x := range rows {
		text, rack := frameWith(t, own, x.rear, x.rack...)
		job, err := files.Job("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(rack), nil })
		if err != nil {
			t.Fatalf("%s: %v", x.why, err)
		}
		p := Make(job)
		if p.Feasible {
			t.Fatalf("%s: it stands", x.why)
		}
		all := ""
		for _, w := range p.Free() {
			say := words.In(job.Units).Say(w.Fact())
			all += say + "\n"
		}
		for _, want := range x.want {
			if !strings.Contains(all, want) {
				t.Errorf("%s: no %q in:\n%s", x.why, want, all)
			}
		}
		for _, w := range p.Free() {
			asTold(t, x.why, text, rack, w)
		}
	}
}

// asTold plans a job with a way written into it and into its list.
func asTold(t *testing.T, why, text, rack string, w ways.Way) {
	t.Helper()
	as, err := Tooled(applied(t, text, w, rack+"\n"+w.Entry()+"\n"+w.CutterEntry()))
	if err != nil {
		t.Errorf("%s: %v: is not read: %v\n%s%s", why, w.Keys, err, w.Entry(), w.CutterEntry())
		return
	}
	q, passes := Make(as), 0
	for _, b := range q.Bores {
		for _, v := range b.Visits {
			passes += len(v.Passes)
		}
	}
	if !q.Feasible || q.Minutes != w.Minutes || passes != w.Passes {
		t.Errorf("%s: %v: as written feasible %v, %.2f minutes for %.2f, %d passes for %d\n%s%s", why, w.Keys, q.Feasible, q.Minutes, w.Minutes, passes, w.Passes, w.Entry(), w.CutterEntry())
	}
}
