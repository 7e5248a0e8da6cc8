package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/cmd/jobfile"
	"borewright/cmd/store"
	"borewright/process/plan"
	"borewright/process/qty"
)

// A program that fails its proof is not written, and neither is anything else.
// The plan is spoiled behind the writer's back: a wall on the way grows after
// the passes were planned, which the writer does not look at and the proof does.
func TestUnprovenIsNotWritten(t *testing.T) {
	t.Chdir("../..")
	job, err := jobfile.Load("testdata/jobs/lock-winch/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	p := plan.Make(job)
	job.Stations[1].Diameter -= qty.Diameter(qty.Inch)
	dir := filepath.Join(t.TempDir(), "out")
	cmd := makeCommand()
	var out, errs bytes.Buffer
	cmd.SetOut(&out)
	cmd.SetErr(&errs)
	if err := makeFolder(cmd, p, store.Note{}, dir, false, jobfile.Choice{NoPDF: true}); err != errNo {
		t.Errorf("the answer is %v, want no", err)
	}
	if !strings.Contains(out.String(), "NOT PROVEN") || !strings.Contains(out.String(), "bearing wall") {
		t.Errorf("does not say what is wrong:\n%s", out.String())
	}
	if _, err := os.Stat(dir); !os.IsNotExist(err) {
		t.Errorf("something was written: %v", err)
	}
}
