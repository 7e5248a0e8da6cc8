package main

import (
	"bytes"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/process/plan"
	"borewright/process/slow"
	"borewright/sheets"
)

// The jobs shipped as examples, and the folder of golden/ that each fills.
var examples = []struct{ job, golden string }{
	{"lock-winch/job.toml", "lock-winch"},
	{"lock-winch/manual.toml", "lock-winch-manual"},
	{"hand-pump/job.toml", "hand-pump"},
	{"gear-case/job.toml", "gear-case"},
	{"ferry-ramp/job.toml", "ferry-ramp"},
	{"slip-winch/job.toml", "slip-winch"},
	{"tide-pump/job.toml", "tide-pump"},
	{"wheel-shaft/job.toml", "wheel-shaft"},
	{"swing-bridge/near.toml", "swing-bridge-near"},
	{"swing-bridge/far.toml", "swing-bridge-far"},
	{"swing-bridge/both.toml", "swing-bridge-both"},
	{"net-hauler/job.toml", "net-hauler"},
	{"log-haul/job.toml", "log-haul"},
	{"reel-stand/job.toml", "reel-stand"},
}

// TestGolden runs make on every example and holds each file it writes, and
// what it prints, to the golden folder. UPDATE_GOLDEN=1 rewrites the folder;
// read the difference before you keep it.
func TestGolden(t *testing.T) {
	planAnew(t)
	t.Chdir("../..")
	for _, e := range examples {
		t.Run(e.golden, func(t *testing.T) {
			if e.golden == "log-haul" && os.Getenv("UPDATE_GOLDEN") == "" {
				slow.Test(t, "a choice by bore")
			}
			got := makeInto(t, filepath.Join("testdata", "jobs", e.job))
			delete(got, "sheet.pdf")    // held to the HTML: paper_test.go
			delete(got, "card.pdf")     // held to the plan: card_test.go
			delete(got, store.ListName) // its sums are those of the others
			folder := filepath.Join("golden", e.golden)
			if os.Getenv("UPDATE_GOLDEN") != "" {
				rewrite(t, folder, got)
				return
			}
			want := readFolder(t, folder)
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("golden (-) and got (+) differ; UPDATE_GOLDEN=1 rewrites:\n%s", diff)
			}
		})
	}
}

// planAnew has a test of a full run plan each job anew.
func planAnew(t *testing.T) {
	if testing.Short() {
		return
	}
	plans, tables := jobfile.MakeAfter, jobfile.CorrectionsOf
	jobfile.MakeAfter, jobfile.CorrectionsOf = plan.MakeAfter, sheets.CorrectionsOf
	t.Cleanup(func() { jobfile.MakeAfter, jobfile.CorrectionsOf = plans, tables })
}

// TestSameBytes makes a job twice: same input, same bytes.
func TestSameBytes(t *testing.T) {
	planAnew(t)
	t.Chdir("../..")
	a := makeInto(t, "testdata/jobs/lock-winch/job.toml")
	b := makeInto(t, "testdata/jobs/lock-winch/job.toml")
	if diff := cmp.Diff(a, b); diff != "" {
		t.Error(diff)
	}
}

// makeInto runs make on a job and gives back all it wrote, by file name, and
// what it printed as "stdout.txt".
func makeInto(t *testing.T, job string) map[string]string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "out")
	var out, errs bytes.Buffer
	if code := runGolden(t, []string{"make", job, "--out", dir}, &out, &errs); code != exitDone {
		t.Fatalf("make %s: exit %d\n%s%s", job, code, out.String(), errs.String())
	}
	got := readFolder(t, dir)
	got["stdout.txt"] = strings.ReplaceAll(out.String(), dir, "OUT")
	return got
}

// runGolden runs the program that goldens are made by, and gives its exit code: that of these tests, or
// one built otherwise, which GOLDEN_BY names. .ci/run has one with fused multiply-add and one with the
// race detector, of which nothing is built but the program.
func runGolden(t *testing.T, args []string, out, errs io.Writer) int {
	t.Helper()
	path := os.Getenv("GOLDEN_BY")
	if path == "" {
		return run(args, strings.NewReader(""), out, errs)
	}
	c := exec.Command(path, args...)
	c.Stdout, c.Stderr = out, errs
	if err := c.Run(); c.ProcessState == nil {
		t.Fatal(err)
	}
	return c.ProcessState.ExitCode()
}

func readFolder(t *testing.T, dir string) map[string]string {
	t.Helper()
	got := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		got[d.Name()] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func rewrite(t *testing.T, dir string, files map[string]string) {
	t.Helper()
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// BenchmarkMakeNoPDF leaves out the PDF, whose fonts take the longest.
func BenchmarkMakeNoPDF(b *testing.B) {
	b.Chdir("../..")
	dir := b.TempDir()
	for b.Loop() {
		var out, errs bytes.Buffer
		if code := run([]string{"make", "testdata/jobs/lock-winch/job.toml", "--no-pdf", "--out", dir}, strings.NewReader(""), &out, &errs); code != exitDone {
			b.Fatal(errs.String())
		}
	}
}

// BenchmarkMake is make as a user runs it, without the start of a process.
func BenchmarkMake(b *testing.B) {
	b.Chdir("../..")
	dir := b.TempDir()
	for b.Loop() {
		var out, errs bytes.Buffer
		if code := run([]string{"make", "testdata/jobs/lock-winch/job.toml", "--out", dir}, strings.NewReader(""), &out, &errs); code != exitDone {
			b.Fatal(errs.String())
		}
	}
}
