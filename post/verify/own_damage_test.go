package verify

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"borewright/post"
	"borewright/process/slow"
)

// controlsOf are the controls that the programs to be damaged are written for,
// beside the built-in ones: each way of saying things once (TestEveryWordIsDamaged).
var controlsOf = []string{
	"", // the machine's own
	"feed_per_rev = false\noriented_stop = true\ntip_at_stop = \"-Y\"\nfeed_axis = \"Z\"\nquill_axis = \"W\"\nprogram_number = 1200\nwork_offset = \"G55\"",
	fedOut,
	"feed_per_rev = true\noriented_stop = true\ntip_at_stop = \"+X\"\nfeed_axis = \"Z\"\nquill_axis = \"W\"\ndrop_zeros = \"none\"\nrestart_step = 1000\ncoolant = \"M8\"\n" +
		"tool = 12\nlength_offset = 12\nhome_word = \"G28\"\nhome_axes = [\"feed\", \"X\"]\ngear = [ { word = \"M41\", speeds = [1, 100] }, { word = \"M42\", speeds = [50, 9000] } ]",
	"oriented_stop = true\ntip_at_stop = \"+Y\"\norient_word = \"S\"\norient_angle = 90\norient_settle = 0.5\nfeed_axis = \"Z\"\nquill_axis = \"W\"\nwhole_places = 3\n" +
		"spring_again = \"/\"\nother_slide = \"placed\"\ntable_word = \"B\"\ntable_angle = 90\nhold_out = 300\nhome_word = \"G53\"\nhome_at = [-1.5]",
	"oriented_stop = true\ntip_at_stop = \"-X\"\norient_word = \"R\"\norient_angle = 270\nfeed_axis = \"Z\"\nquill_axis = \"W\"\ndecimal_point = false\ndrop_zeros = \"none\"\n" +
		"spring_again = \"/\"\nother_slide = \"stated\"\ncoolant = \"M7\"\nblock_numbers = false\nrestart_step = 1000\nremarks = \"short\"",
}

// fedOut is a control without an oriented stop: the bar is fed out turning.
const fedOut = "cycles = true\nreturn_words = true\nfeed_per_rev = true\nfeed_axis = \"Z\"\nquill_axis = \"W\"\npercent = false\ncharacters = \"plain\""

// ownPrograms are what the writer makes of every job on every control above.
func ownPrograms(t *testing.T) (all []victim) {
	most := []string{"winch", "ramp, one lug, outboard bearing", "new, mm, blind", "new, mm, by quill"} // jobs with all that the last two controls may say
	every, n := slow.Rounds(t, "is the step from control to control", 1, 8), 0
	for _, v := range variants {
		for _, c := range controlsOf {
			for _, m := range controlled() {
				if m != "cnc-110mm" && c != "" {
					continue // its short Z would refuse the most of them
				}
				if strings.Contains(c, "spring_again") && !slices.Contains(most[:slow.Rounds(t, "jobs have every word", len(most), 1)], v.name) {
					continue
				}
				if strings.Contains(c, "hold_out") && strings.Contains(v.name, "quill") {
					continue // the quill does not come so far out
				}
				if n++; n%every != 0 {
					continue
				}
				p := planned(t, v.text(t), m, c)
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
	for i, fed := range []bool{false, true, false, true}[:slow.Rounds(t, "ways out of a bar off its axis", 4, 1)] {
		c := append(slices.Clone(controlsOf[:2]), controlsOf[4:]...)[i]
		p := planned(t, offAxisJob(fed, i > 1)(t), "cnc-110mm", c)
		all = append(all, victim{fmt.Sprintf("off the axis %.12q, fed %v", c, fed), p, 0, 0, written(t, p, 0, 0)})
	}
	lines := []struct {
		text    func(testing.TB) string
		control string
	}{{lugsJob, ""}, {lugsJob, controlsOf[3]}, {websJob, controlsOf[1]}, {websJob, fedOut}, {lugsJob, fedOut}, {websJob, controlsOf[4]}}
	for i, l := range lines[:slow.Rounds(t, "ways to cut through a line", len(lines), 3)] {
		p := planned(t, l.text(t), "cnc-110mm", l.control)
		for _, at := range p.Programs() {
			all = append(all, victim{fmt.Sprintf("in line %d %.12q, bore %d, visit %d", i, l.control, at[0], at[1]), p, at[0], at[1], written(t, p, at[0], at[1])})
		}
	}
	return all
}

// TestEveryWordIsDamaged: every word that a machine file can ask for stands in a program
// that is damaged.
func TestEveryWordIsDamaged(t *testing.T) {
	slow.Test(t, "some hundred programs")
	all := ownPrograms(t)
	for what, re := range map[string]string{
		"a tool": `T12 M6`, "its length": `G43 H12`, "home by G28": `G91 G28 Z`, "home across": `G91 G28 X`, "home by G53": `G53 G0 Z-`,
		"coolant M8": `\bM8\n`, "coolant M7": `\bM7\n`, "dry": `IS CUT DRY`, "a range": `\bM41\n`, "another": `\bM42\n`, "a restart mark": `(?m)^N2000 `,
		"every place written": `X000\.0000|X0000\.000`, "every digit of fixed format": `X00000000`, "the table": `G0 B90\.`,
		"the other slide placed": `G0 W0\.0`, "the other slide stated": `OTHER SLIDE: W STANDS|OTHER SLIDE: Z STANDS`,
		"an angle in S": `S90 M19`, "its dwell": `M19\n(N\d+ )?G4 P0\.5`, "an angle in R": `R0270`, "a spring pass once more": `\n/(N\d+ )?G1 `,
		"the hold further out": `G0 Z11\.8110`, "remarks in short": `(?s)^%\n\([^\n]*\n\(BORE [^\n]*\n\(CHECK SUM [^\n]*\n\(BAR`,
		"a cycle": `G85 `, "a work offset": `G55`, "feed a turn": `G95`, "a number": `O1200`,
	} {
		if is := regexp.MustCompile(re); !slices.ContainsFunc(all, func(v victim) bool { return is.Match(v.text) }) {
			t.Errorf("%s: in none of %d programs", what, len(all))
		}
	}
}

// TestDamageToOurOwn makes seeded edits of the writer's programs: at least 200
// of every kind that fingers make most. All that change what happens at the
// machine must be found.
//
//	go test ./post/verify -run TestDamageToOurOwn -v
func TestDamageToOurOwn(t *testing.T) {
	slow.Test(t, "some ten thousand replays")
	counts := damageAll(t, ownPrograms(t), slow.Rounds(t, "edits of each kind to each program", 5, 5, 20), 2000)
	for _, kind := range []string{
		"sign", "decimal point", "stop lost", "G0 for G1", "plane", "units", "neighbours swapped", "lines swapped",
		"feed or speed a hundred times", "speed where nothing is cut", "rapid to the bottom",
	} {
		if c := counts[kind]; c == nil || c.made < 200 {
			t.Errorf("%s: fewer than 200 edits", kind)
		}
	}
}
