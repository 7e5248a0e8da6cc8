package mouth_test

import (
	"bytes"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"borewright/post"
	"borewright/post/verify"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/slow"
)

// tidePump is the example whose mill cuts a counterbore and a lead-in.
func tidePump(t *testing.T, change func(c *process.Control)) *plan.Plan {
	t.Helper()
	data, err := os.ReadFile("../../../testdata/jobs/tide-pump/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	j, err := files.Job("job.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	change(j.Machine.Control)
	p := plan.Make(j)
	if !p.Feasible {
		t.Fatal("not feasible")
	}
	return p
}

func written(t *testing.T, p *plan.Plan) string {
	t.Helper()
	var out bytes.Buffer
	if err := post.Write(&out, p, 0, 0); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

var (
	oneDigit  = regexp.MustCompile(`[0-9]`)
	dwell     = regexp.MustCompile(`G4 P([0-9.]+)`)
	onlySigns = regexp.MustCompile(`[^A-Z0-9.]`)
)

// TestDamageAtTheMouth spoils the cuts at the mouth: every line left out, said twice, put
// behind the next, every digit changed, every figure's sign, every word of a few swapped for
// another. What the machine does, or what the remarks say, changes: then the program is not
// proven.
func TestDamageAtTheMouth(t *testing.T) {
	for name, change := range map[string]func(c *process.Control){
		"as it is":               func(c *process.Control) {},
		"coolant, feed a minute": func(c *process.Control) { c.Coolant, c.FeedPerRev = 8, false },
	} {
		if testing.Short() && name != "as it is" {
			continue
		}
		p := tidePump(t, change)
		good := written(t, p)
		if r := verify.Check([]byte(good), "", p, 0, 0); !r.Proven {
			t.Fatalf("%s: %v", name, r.Findings)
		}
		lines := strings.SplitAfter(good, "\n")
		first := slices.IndexFunc(lines, func(l string) bool { return strings.Contains(l, "MOUTH 1 OF") })
		last := slices.IndexFunc(lines, func(l string) bool { return strings.Contains(l, "MOUTH DONE") }) + 1
		if first < 0 || last <= first {
			t.Fatal("no cuts at the mouth")
		}
		does := func(program string) (string, string) {
			acts, said, read := post.Acts([]byte(program), p.Job.Machine.Control)
			var all []string
			for _, a := range acts {
				all = append(all, a.Text)
			}
			if !read {
				all = append(all, "unread")
			}
			return strings.Join(all, "\n"), onlySigns.ReplaceAllString(strings.ToUpper(strings.Join(said, "")), "")
		}
		wasDone, wasSaid := does(good)
		edits, harmful := 0, 0
		stride := 1 + 1500/slow.Rounds(t, "edits of the cuts at the mouth", 400, 10, 3000)
		try := func(what string, edited []string) {
			program := strings.Join(edited, "")
			if program == good {
				return
			}
			if edits++; edits%stride != 0 {
				return
			}
			done, said := does(program)
			if done == wasDone && said == wasSaid && !strings.HasPrefix(what, "deleted") && !strings.HasPrefix(what, "twice: (") {
				return
			}
			if m := dwell.FindStringSubmatch(what); strings.HasPrefix(what, "digit") && m != nil {
				if s, _ := strconv.ParseFloat(m[1], 64); s >= 60./590 && s <= 4*60./590 {
					return // one to four turns are free
				}
			}
			harmful++
			if r := verify.Check([]byte(program), "", p, 0, 0); r.Proven {
				t.Errorf("%s: proven: %s", name, what)
			}
		}
		with := func(i int, line ...string) []string {
			return slices.Concat(lines[:i], line, lines[i+1:])
		}
		swaps := []string{"M3", "M4", "M5", "M3", "G1 ", "G0 ", "G0 ", "G1 ", "G90", "G91", "M0", "M1", "M0", "", "G4", "G0", "G21", "G20", "M9", "M8", "Z-", "Z", "X0.000", "X1.000", "LEAVES", "TAKES", "COUNTERBORE", "LEAD-IN", "OUTER", "INNER", "SQUARE", "ROUND"}
		for i := first; i < last; i++ {
			l := lines[i]
			try("left out: "+l, with(i))
			try("twice: "+l, with(i, l, l))
			if i+1 < last {
				try("turned round: "+l, slices.Concat(lines[:i], []string{lines[i+1], l}, lines[i+2:]))
			}
			try("deleted: "+l, with(i, "/"+l))
			from := 0
			if m := regexp.MustCompile(`^N[0-9]+ `).FindString(l); m != "" {
				from = len(m)
			}
			for _, at := range oneDigit.FindAllStringIndex(l[from:], -1) {
				k := from + at[0]
				for _, add := range []byte{1, 5} {
					d := (l[k]-'0'+add)%10 + '0'
					edited := l[:k] + string(d) + l[k+1:]
					try("digit: "+edited, with(i, edited))
				}
			}
			for s := 0; s < len(swaps); s += 2 {
				try(swaps[s]+" to "+swaps[s+1]+": "+l, with(i, strings.Replace(l, swaps[s], swaps[s+1], 1)))
			}
		}
		try("the whole of it left out", slices.Concat(lines[:first], lines[last:]))
		try("put in front of the last stop", slices.Concat(lines[:first-2], lines[first:last], lines[first-2:first], lines[last:]))
		t.Logf("%s: %d edits, %d harmful", name, edits, harmful)
		if harmful*stride < 1000 {
			t.Errorf("%s: only %d edits did harm", name, harmful)
		}
	}
}
