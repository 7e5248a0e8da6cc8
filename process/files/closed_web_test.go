package files

import (
	"os"
	"strings"
	"testing"
)

// TestBearingBehindAClosedWeb: what carries the end of the bar and cannot be reached, because a web of the
// line is closed, is told once and where it is written, whatever bars and cutters the bores name; and
// left out, as the advice has it, the job is read.
func TestBearingBehindAClosedWeb(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/swing-bridge/both.toml")
	if err != nil {
		t.Fatal(err)
	}
	through := string(data)
	from, to := strings.Index(through, "[[sweep]]                 # from the far face"), strings.Index(through, "[lineup]")
	closed := strings.NewReplacer("diameter = 180 }", "diameter = 180, blind = true }", "order        =", "bars = \"rack.toml\"\norder        =").
		Replace(through[:from] + through[to:])
	rack := "units = \"mm\"\n[[bar]]\nname = \"stub\"\nsteps = [ { diameter = 128, length = 70 }, { diameter = 100, length = 200 } ]\n" +
		"[[cutter]]\nname = \"bit\"\nmaterial = \"carbide-coated\"\nnose_radius = 0.8\nlead = 75\nmost = 165\n"
	read := func(text string) error {
		_, err := Job("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(rack), nil })
		return err
	}
	at := func(text, where, line string) string {
		t.Helper()
		if !strings.Contains(text, where) {
			t.Fatalf("no %q", where)
		}
		return strings.Replace(text, where, where+line, 1)
	}
	const shore, bridge, bar = "station   = \"shore seat\"\n", "station   = \"bridge seat\"\n", "feed_by = \"table\"\n"
	bit := at(closed, bridge, "cutter = \"bit\"\n")
	both := at(bit, shore, "cutter = \"bit\"\n")
	const bearing = "outboard = { at = 400 }\n"
	said := `: bar.outboard: the bar cannot come out to a bearing: "middle web" is closed; leave outboard out, or the line is not blind`
	for _, row := range []struct{ why, job, where, line, want string }{
		{"all bores with the job's own", closed, bar, bearing, said},
		{"one with a cutter of its own", bit, bar, bearing, said},
		{"each with a cutter of its own", both, bar, bearing, said},
		{"a bush in a bore behind it", closed, bar, "outboard = { station = \"bridge seat\" }\n",
			`: bar.outboard.station: "bridge seat" lies behind "middle web", which is closed: the bar does not come to it from the near face; leave outboard out: no open station lies behind what is bored`},
		{"the same of one bore", closed, shore, "guide = { station = \"bridge seat\" }\n",
			`: bore[1].guide.station: "bridge seat" lies behind "middle web", which is closed: the bar does not come to it from the near face; leave guide out: no open station lies behind what is bored`},
		{"a bush in the closed web", closed, shore, "guide = { station = \"middle web\" }\n",
			`: bore[1].guide: "middle web" is closed, and the bar slides on through a bush as it cuts; leave it out: no open station lies behind what is bored`},
	} {
		switch err := read(at(row.job, row.where, row.line)); {
		case err == nil:
			t.Errorf("%s: it is read", row.why)
		case strings.Count(err.Error(), "job.toml:") != 1 || !strings.HasSuffix(err.Error(), row.want):
			t.Errorf("%s:\n%v\nwant %s", row.why, err, row.want)
		}
		if err := read(row.job); err != nil {
			t.Errorf("%s: with it left out: %v", row.why, err)
		}
	}
}
