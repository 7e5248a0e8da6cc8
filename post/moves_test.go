package post

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// New numbers, no numbers, other comments and no spaces leave the list of acts
// as it is; a changed depth, feed, speed or stop does not.
func TestActs(t *testing.T) {
	data, err := os.ReadFile("../golden/lock-winch/WG-204-C-idler-1.nc")
	if err != nil {
		t.Fatal(err)
	}
	text := func(program string) []string {
		acts, _, read := Acts([]byte(program), nil)
		if !read {
			t.Fatal("does not read")
		}
		var out []string
		for _, a := range acts {
			out = append(out, a.Text)
		}
		return out
	}
	program := string(data)
	want := text(program)
	if len(want) < 50 {
		t.Fatalf("only %d acts", len(want))
	}
	block := regexp.MustCompile(`(?m)^N\d+ `)
	comment := regexp.MustCompile(`(?m)^\(.*\)\n`)
	for why, same := range map[string]string{
		"without numbers":  block.ReplaceAllString(program, ""),
		"without comments": comment.ReplaceAllString(program, ""),
		"leading zeros":    strings.ReplaceAll(program, "G0 ", "G00 "),
		"without percent":  strings.ReplaceAll(program, "%\n", ""),
	} {
		if diff := cmp.Diff(want, text(same)); diff != "" {
			t.Errorf("%s:\n%s", why, diff)
		}
	}
	rough := regexp.MustCompile(`F0\.\d{4}`).FindString(program)
	for _, edit := range [][2]string{{"Z-16.9373 F0.0050", "Z-16.9372 F0.0050"}, {rough, rough + "9"}, {" M3\n", "0 M3\n"}, {"M0\n", "M1\n"}, {"M19\n", "M5\n"}, {"G4 P", "G4 P9"}} {
		other := strings.Replace(program, edit[0], edit[1], 1)
		if other == program {
			t.Fatalf("nothing to change: %q", edit[0])
		}
		if cmp.Equal(want, text(other)) {
			t.Errorf("%q for %q goes unseen", edit[1], edit[0])
		}
	}
}
