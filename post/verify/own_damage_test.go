package verify

import (
	"bytes"
	"fmt"
	"testing"

	"borewright/post"
	"borewright/process/slow"
)

// controlsOf are the controls that the programs to be damaged are written for,
// beside the built-in ones: each way of saying things once.
var controlsOf = []string{
	"", // the machine's own
	"feed_per_rev = false\noriented_stop = true\ntip_at_stop = \"-Y\"\nfeed_axis = \"Z\"\nquill_axis = \"W\"\nprogram_number = 1200\nwork_offset = \"G55\"",
	fedOut,
	"feed_per_rev = true\noriented_stop = true\ntip_at_stop = \"+X\"\nfeed_axis = \"Z\"\nquill_axis = \"W\"\ndrop_zeros = \"none\"\nrestart_step = 1000\ncoolant = \"M8\"\n" +
		"tool = 12\nlength_offset = 12\nhome_word = \"G28\"\nhome_axes = [\"feed\", \"X\"]\ngear = [ { word = \"M41\", speeds = [1, 100] }, { word = \"M42\", speeds = [50, 9000] } ]",
}

// fedOut is a control without an oriented stop: the bar is fed out turning.
const fedOut = "cycles = true\nreturn_words = true\nfeed_per_rev = true\nfeed_axis = \"Z\"\nquill_axis = \"W\"\npercent = false\ncharacters = \"plain\""

// ownPrograms are what the writer makes of every job on every control above.
func ownPrograms(t *testing.T) (all []victim) {
	for _, v := range variants {
		for _, c := range controlsOf {
			for _, m := range controlled() {
				if m != "cnc-110mm" && c != "" {
					continue // its short Z would refuse the most of them
				}
				p := plannedOnce(t, v.text(t), m, c)
				for b := range p.Bores {
					for k := range p.Bores[b].Visits {
						var out bytes.Buffer
						if err := post.Write(&out, p, b, k); err != nil {
							t.Errorf("%s on %s: %v", v.name, m, err)
							continue
						}
						all = append(all, victim{fmt.Sprintf("%s on %s %.12q, bore %d, visit %d", v.name, m, c, b, k), p, b, k, out.Bytes()})
					}
				}
			}
		}
	}
	return all
}

// TestDamageToOurOwn makes seeded edits of the writer's programs: at least 200
// of every kind that fingers make most. All that change what happens at the
// machine must be found.
//
//	go test ./post/verify -run TestDamageToOurOwn -v
func TestDamageToOurOwn(t *testing.T) {
	slow.Test(t, "some ten thousand replays")
	counts := damageAll(t, ownPrograms(t), 10, 2000)
	for _, kind := range []string{
		"sign", "decimal point", "stop lost", "G0 for G1", "plane", "units", "neighbours swapped", "lines swapped",
		"feed or speed a hundred times", "speed where nothing is cut", "rapid to the bottom",
	} {
		if c := counts[kind]; c == nil || c.made < 200 {
			t.Errorf("%s: fewer than 200 edits", kind)
		}
	}
}
