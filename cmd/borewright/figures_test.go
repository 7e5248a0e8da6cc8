package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"borewright/process/slow"
)

// One figure of an example job made something else, to nothing, a little more, a
// thousand times as much: the job is made or refused with a reason, and whatever
// is written reads like a sheet. Seeded; eight figures in a hundred are tried.
func TestAnyFigureChanged(t *testing.T) {
	share := float64(slow.Rounds(t, "figures of a hundred", 8, 4, 20)) / 100
	figure := regexp.MustCompile(`-?\b[0-9]+\.?[0-9]*\b`)
	names := []string{"lock-winch/job", "gear-case/job", "hand-pump/job", "lock-winch/manual", "ferry-ramp/job"}
	seed, refused := uint64(13), 1
	if testing.Short() { // those that plan fast, and none that is refused: the search for what frees it takes ten seconds
		names, seed, refused = names[:3], 7, 0
	}
	rng := rand.New(rand.NewPCG(2026, seed))
	dir := t.TempDir()
	bars, err := os.ReadFile("../../testdata/jobs/lock-winch/bars.toml")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "bars.toml"), bars, 0o666); err != nil {
		t.Fatal(err)
	}
	codes := map[int]int{}
	for _, name := range names {
		data, err := os.ReadFile("../../testdata/jobs/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		for _, at := range figure.FindAllStringIndex(text, -1) {
			if strings.Count(text[strings.LastIndexByte(text[:at[0]], '\n')+1:at[0]], `"`)%2 == 1 || rng.Float64() > share {
				continue // within a word
			}
			was, _ := strconv.ParseFloat(text[at[0]:at[1]], 64)
			times := []float64{0, 1e-4, 0.01, 0.3, 0.8, 0.98, 1.02, 1.3, 3, 10, 1000, -1}[rng.IntN(12)]
			what := fmt.Sprintf("%s: %s at byte %d times %g", name, text[at[0]:at[1]], at[0], times)
			job, out := filepath.Join(dir, "job.toml"), filepath.Join(dir, "out")
			if err := os.WriteFile(job, []byte(text[:at[0]]+strconv.FormatFloat(was*times, 'f', -1, 64)+text[at[1]:]), 0o666); err != nil {
				t.Fatal(err)
			}
			var said, errs bytes.Buffer
			code := run([]string{"make", job, "--out", out, "--no-pdf"}, strings.NewReader(""), &said, &errs)
			codes[code]++
			written, err := os.ReadFile(filepath.Join(out, "sheet.txt"))
			if (err == nil) != (code == exitDone) || code != exitDone && said.Len()+errs.Len() == 0 {
				t.Errorf("%s: exit %d, sheet %v\n%s", what, code, err, errs.String())
			}
			for _, bad := range []string{"NaN", "Inf", "%!", "nil>"} {
				if all := said.String() + errs.String() + string(written); strings.Contains(all, bad) {
					t.Errorf("%s: %q is printed", what, bad)
				}
			}
			if err := os.RemoveAll(out); err != nil {
				t.Fatal(err)
			}
		}
	}
	if least := int(100 * share); codes[exitDone] < least || codes[exitNo] < refused*(least+9)/10 || codes[exitWrong] < least {
		t.Errorf("too much of a kind: exits %v", codes)
	}
}
