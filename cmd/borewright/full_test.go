package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/cmd/jobfile"
)

// full is a device without room.
type full struct{}

var errFull = errors.New("no space left on device")

func (full) Write([]byte) (int, error) { return 0, errFull }

// What cannot be printed is said, and the exit code is that of trouble, whatever the verb.
func TestAFullDeviceIsSaid(t *testing.T) {
	winch := filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml")
	out := filepath.Join(t.TempDir(), "out")
	if code := run([]string{"make", winch, "--no-pdf", "-o", out}, strings.NewReader(""), &bytes.Buffer{}, &bytes.Buffer{}); code != exitDone {
		t.Fatal("not made")
	}
	for _, args := range [][]string{
		{"--help"}, {"plan", "--help"}, {"help", "plan"}, {"completion", "bash"}, {"explain", "bar.steps"}, {"explain"}, {"list"}, {"list", "machines", "hbm-5in"}, {"version"}, {"new", "-"}, {"fit", "50H7/p6"},
		{"plan", winch}, {"prove", filepath.Join(out, "WG-204-C-idler-1.nc"), winch}, {"compare", out, out}, {"lineup", winch}, {"reach", winch}, {"sleeve", winch}, {"measured", winch, "--show"},
	} {
		var errs bytes.Buffer
		if code := run(args, strings.NewReader(""), full{}, &errs); code != exitWrong || !strings.Contains(errs.String(), errFull.Error()) {
			t.Errorf("%v: exit code %d, and says %q", args, code, errs.String())
		}
	}
}

// Nor is all well where a caution cannot be printed: an entry that looks like a slip, a torn one.
func TestAFullDeviceForErrors(t *testing.T) {
	path := winchJob(t)
	if err := os.WriteFile(jobfile.ResultsPath(path), []byte("\n[[measured]]\nid = \"0123\"\nstat"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"post", path, "--visit", "1"}, {"measured", path, "--pass", "4", "--size", "3.3558", "--sure"}} {
		if code := run(args, strings.NewReader(""), &bytes.Buffer{}, full{}); code != exitWrong {
			t.Errorf("%v: exit code %d", args, code)
		}
	}
}

// An entry that is kept is said to be, where what follows from it cannot be printed.
func TestAKeptEntryIsSaidOnAFullDevice(t *testing.T) {
	path := winchJob(t)
	var errs bytes.Buffer
	code := run([]string{"measured", path, "--pass", "4", "--size", "near@12=3.3558", "--size", "far@12=3.3557", "--sure", "--by", "A. Hand"}, strings.NewReader(""), full{}, &errs)
	data, err := os.ReadFile(jobfile.ResultsPath(path))
	if err != nil || !strings.Contains(string(data), "3.3558") {
		t.Fatalf("nothing was entered: %v: %s", err, errs.String())
	}
	if code != exitWrong || !strings.Contains(errs.String(), "the entry is on the disk") || !strings.Contains(errs.String(), "not to be entered again") {
		t.Errorf("exit code %d, and says %q", code, errs.String())
	}
}
