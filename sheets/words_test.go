package sheets

import (
	"bytes"
	"strings"
	"testing"

	"borewright/process"
)

// What a program does around its cuts by words of the machine file stands on the sheet,
// where the operator needs it; without them nothing of it does.
func TestMachineWordsOnTheSheet(t *testing.T) {
	text := func(change func(*process.Control)) string {
		p := pump()
		p.Job.Bar.Outboard, p.Job.Machine.Control.QuillAxis = nil, 'Z'
		change(p.Job.Machine.Control)
		var programs []string
		for i := range p.Bores {
			for range p.Bores[i].Visits {
				programs = append(programs, "a.nc")
			}
		}
		var out bytes.Buffer
		if err := Build(p, WithPrograms(programs...)).WriteText(&out); err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(out.String()), " ")
	}
	plain := text(func(*process.Control) {})
	for _, r := range []struct {
		change func(c *process.Control)
		want   string
	}{
		{func(c *process.Control) { c.Tool = 12 }, "T12, called by the program at its start"},
		{func(c *process.Control) { c.LengthOffset, c.GaugeLine = 9, 12e6 }, "H9 holds the length of this bar as it is held"},
		{func(c *process.Control) {
			c.HomeWord, c.HomeAxes = 28, []process.HomeAxis{process.HomeFeed, process.HomeX}
		}, "Z, then X by G28: way clear, hands off"},
		{func(c *process.Control) { c.Coolant = 8 }, "M8 while a pass cuts; off before each stop"},
		{func(c *process.Control) { c.Gears = []process.GearRange{{Word: 41, Least: 1, Most: 9999}} }, "M41: pass"},
		{func(c *process.Control) { c.RestartStep = 1000 }, "N1000 times its number: pass 1 at N1000"},
	} {
		if strings.Contains(plain, r.want) {
			t.Errorf("%q on every sheet", r.want)
		}
		if got := text(r.change); !strings.Contains(got, r.want) {
			t.Errorf("no %q on the sheet", r.want)
		}
	}
}
