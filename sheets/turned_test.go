package sheets

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"borewright/process/files"
	"borewright/process/plan"
)

// TestSheetTurnsABarThatIsHeld: card, set-up and hold page of the face that comes round say what becomes
// of bar, bearings and bush; the turn is asked for on the first card of a visit alone.
func TestSheetTurnsABarThatIsHeld(t *testing.T) {
	data, err := os.ReadFile("../testdata/jobs/swing-bridge/both.toml")
	if err != nil {
		t.Fatal(err)
	}
	const bar = "{ diameter = 128, length = 70 }, { diameter = 100, length = 200 } ]"
	stays := "it stays when the table turns"
	for what, x := range map[string]struct {
		edits []string
		says  map[string]int // how often
	}{
		"in two bearings": {[]string{bar, "{ diameter = 100, length = 2200 } ]\ncutter_at = 1060\ninboard = { at = 950 }\noutboard = { at = 1900 }"}, map[string]int{
			"FIRST: cutter out, bar out of both bearings and of the work, HALF TURN of the table, check it, bar through the work into both bearings, line up from the FAR face, cutter in.": 1,
			"Then driver loose, cutter out, bar out of both bearings": 1, "Bar through the work into both bearings": 1,
			"middles 950 mm and 1900 mm from the nose as before": 1, stays: 4}},
		"in one": {[]string{bar, "{ diameter = 100, length = 1200 } ]\ncutter_at = 270\noutboard = { at = 1100 }"}, map[string]int{
			"FIRST: bar out of its bearing and of the work, HALF TURN of the table, check it, line up from the FAR face, bar through the work into its bearing.": 1,
			"Then bar out of its bearing and of the work.": 1, "Bar through the work into its bearing; one that": 1,
			"beyond the near face now, its middle 1100 mm from the nose as before": 1, stays: 2}},
		"in a bush": {[]string{bar, "{ diameter = 100, length = 800 } ]\ncutter_at = 270\noutboard = { station = \"middle web\" }", "to = 340, diameter = 180", "to = 360, diameter = 140"}, map[string]int{
			"FIRST: bar out of the bush and of the work, HALF TURN of the table, check it, line up from the FAR face, bar through the work into the bush.": 1,
			"into the bush in middle web, which turned with the work":                                                                                      1, "FIRST: bush into middle web": 1, stays: 0}},
	} {
		if testing.Short() && what != "in one" {
			continue
		}
		job, err := files.Job("both.toml", []byte(strings.NewReplacer(x.edits...).Replace(string(data))), nil)
		if err != nil {
			t.Fatal(what, err)
		}
		var out bytes.Buffer
		if err := Build(plan.Make(job)).WriteText(&out); err != nil {
			t.Fatal(err)
		}
		text := strings.NewReplacer(" ! ", " ", " [ ] ", " ").Replace(strings.Join(strings.Fields(out.String()), " "))
		cards, _, _ := strings.Cut(text, "1. Set up")
		x.says["Hold points: bridge seat, from the FAR face"] = 1
		for says, n := range x.says {
			if got := strings.Count(text, says); got < n || n == 0 && got > 0 {
				t.Errorf("%s: %q stands %d times, want %d", what, says, got, n)
			}
		}
		if n := strings.Count(cards, "HALF TURN"); n != 1 {
			t.Errorf("%s: the cards turn the table %d times", what, n)
		}
	}
}
