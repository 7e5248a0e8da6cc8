package files

import (
	"os"
	"strings"
	"testing"

	"borewright/process/qty"
)

// What people hold, ± on diameter, 19 times in 20: a dial 0.0003 in, a fine head
// 0.0001, a micrometer over bar and tip 0.0005, a gauge 0.0004. Common practice,
// no source. What the job states goes before.
func TestSettingErrorThatPeopleHold(t *testing.T) {
	mill, err := os.ReadFile("catalog/machines/hbm-5in.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		say   string // in [cutter]
		dial  string
		limit string
		want  float64 // in
		usual bool
		first float64 // first setting of a visit: over the bar where the rest is by increment
	}{
		{"", "0.001", "", 0.0003, true, 0.0005},
		{`set_by = "increment"`, "0.001", "", 0.0003, true, 0.0005},
		{`set_by = "increment"`, "0.0002", "", 0.0001, true, 0.0005},
		{`set_by = "increment"`, "0.00025", "", 0.0003, true, 0.0005},
		{`set_by = "over_bar"`, "0.0002", "", 0.0005, true, 0.0005},
		{`set_by = "preset"`, "0.001", "", 0.0004, true, 0.0004},
		{`set_by = "over_bar"`, "0.001", "setting_error = 0.0002", 0.0002, false, 0.0002},
		{`set_by = "increment"`, "0.001", "setting_error = 0.001", 0.001, false, 0.001},
		{`set_by = "increment"`, "0.001", "setting_error = 0", 0, false, 0.0005},
	} {
		text := strings.Replace(reboreJob, `nose_radius = 0.031`, "nose_radius = 0.031\n"+x.say, 1)
		text = strings.Replace(text, `"hbm-5in"`, `"mill.toml"`, 1) + "\n[limits]\n" + x.limit + "\n"
		j, err := Job("job.toml", []byte(text), func(string) ([]byte, error) {
			return []byte(strings.Replace(string(mill), "set_dial  = 0.001", "set_dial  = "+x.dial, 1)), nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if got := j.Limits.SettingError; got != qty.FromInches(x.want) || j.Limits.SettingUsual != x.usual {
			t.Errorf("%+v: %v, usual %v", x, got.Inches(), j.Limits.SettingUsual)
		}
		if got := j.FirstSettingError(); got != qty.FromInches(x.first) {
			t.Errorf("%+v: the first setting %v", x, got.Inches())
		}
		if j.Cutter.Bar != j.Bar.Steps[len(j.Bar.Steps)-1].Diameter {
			t.Errorf("the bar at the cutter %v", j.Cutter.Bar)
		}
	}
}
