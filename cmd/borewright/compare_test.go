package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// edited writes a job file of testdata/jobs with a text in it exchanged.
func edited(t *testing.T, job, from, to string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", job))
	if err != nil {
		t.Fatal(err)
	}
	if strings.Count(string(data), from) != 1 {
		t.Fatalf("%s: %q stands there %d times", job, from, strings.Count(string(data), from))
	}
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, []byte(strings.Replace(string(data), from, to, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// One edited figure is read in less than half a page: what was edited first, then what
// it does, the worst first, then what to prove. Back again, what was worse is better.
func TestOneEditIsReadInFewLines(t *testing.T) {
	old := filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml")
	new := edited(t, "lock-winch/job.toml", "length = 17.5 }", "length = 18.0 }")
	there := compared(t, old, new)
	if n := strings.Count(there, "\n"); n > 40 {
		t.Errorf("%d lines, 40 are allowed:\n%s", n, there)
	}
	inOrder(t, there, "Edited", "the bar, step 2 length  17.5000 in -> 18.0000 in", "What it does to the plan",
		"worse   time", "better  chance of size", "better  spring of the finish", "other ", "Programs and sheet", "WG-204-C-idler-1.nc", "prove it", "compare --all")
	if strings.Contains(there, "stickout") {
		t.Errorf("the stickout follows from the length; nobody wrote it:\n%s", there)
	}
	back := compared(t, new, old)
	inOrder(t, back, "worse   chance of size", "worse   spring of the finish", "better  time")

	all := compared(t, "--all", old, new)
	inOrder(t, all, "Edited", "Programs and sheet", "Edited, and what is filled in by it", "  step 2 length", "  so stickout", "Cutter setting and depth", "Programs", "Operation sheet")
	for _, line := range strings.Split(all, "\n") {
		if from, to, ok := strings.Cut(line, " -> "); ok && strings.HasSuffix(strings.TrimSpace(from), strings.TrimSpace(to)) {
			t.Errorf("old and new read alike: %q", line)
		}
	}
}

// compared is what compare prints of revisions that differ.
func compared(t *testing.T, args ...string) string {
	t.Helper()
	var out, errs bytes.Buffer
	if code := run(append([]string{"compare"}, args...), strings.NewReader(""), &out, &errs); code != exitNo {
		t.Fatalf("exit code %d: %s", code, errs.String())
	}
	return out.String()
}

// inOrder fails where the texts do not stand in s one after the other.
func inOrder(t *testing.T, s string, texts ...string) {
	t.Helper()
	rest := s
	for _, x := range texts {
		_, after, ok := strings.Cut(rest, x)
		if !ok {
			t.Errorf("%q is not there, or not behind what it should follow:\n%s", x, s)
			return
		}
		rest = after
	}
}

// What two edits come to by themselves stands in the few lines, too.
func TestTwoEditsAreToldApart(t *testing.T) {
	old := edited(t, "hand-pump/job.toml", "length = 7.0", "length = 7.5")
	new := edited(t, "hand-pump/job.toml", "nose_radius = 0.031", "nose_radius = 0.016")
	said := compared(t, old, new)
	inOrder(t, said, "the bar, step 1 length", "the cutter, nose radius", "What it does", "the bar alone: chance", "the cutter alone: chance")
	if n := strings.Count(said, "\n"); n > 40 {
		t.Errorf("%d lines", n)
	}
}

// Two folders tell what two job files tell of the passes and of the chance, in the same words.
// What was edited, and the time with its stops, a folder does not hold, and it says so.
func TestFoldersSayWhatTheyDoNotHold(t *testing.T) {
	jobs := []string{filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml"), edited(t, "lock-winch/job.toml", "nose_radius = 0.031", "nose_radius = 0.016")}
	var made []string
	for _, job := range jobs {
		out := filepath.Join(t.TempDir(), "made")
		var said, errs bytes.Buffer
		if code := run([]string{"make", job, "--out", out, "--no-pdf"}, strings.NewReader(""), &said, &errs); code != 0 {
			t.Fatalf("exit code %d: %s", code, errs.String())
		}
		made = append(made, out)
	}
	of := func(text, from, to string) string {
		_, rest, _ := strings.Cut(text, from)
		part, _, _ := strings.Cut(rest, to)
		return part
	}
	filed, whole := compared(t, made...), compared(t, jobs...)
	if edits := strings.Join(strings.Fields(of(filed, "Edited", "What it does")), " "); !strings.Contains(edits, "not told a folder does not hold the job") || strings.Contains(edits, "nothing") {
		t.Errorf("the folders say of edits: %s", edits)
	}
	does, want := of(filed, "What it does to the plan", "In all"), of(whole, "What it does to the plan", "In all")
	time := func(text string) string { return "better  time" + of(text, "better  time", "\n") }
	if strings.ReplaceAll(does, time(does), "") != strings.ReplaceAll(want, time(want), "") || !strings.Contains(want, "chance of size") || !strings.Contains(want, "visit 2") {
		t.Errorf("the folders say:\n%s\nthe job files:\n%s", does, want)
	}
	if !strings.HasSuffix(time(does), "min, without stops") || !strings.HasSuffix(time(want), "min, stops included") {
		t.Errorf("%q of the folders, %q of the job files", time(does), time(want))
	}
}
