package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// What is made of measured results, held to golden/measured.
func TestMeasuredGolden(t *testing.T) {
	t.Chdir("../..")
	for _, row := range []struct {
		name string
		args []string
		code int
	}{
		{"record-winch.txt", []string{"record", "testdata/finished/winch/job.toml"}, exitDone},
		{"record-lug.txt", []string{"record", "testdata/finished/lugs/job.toml"}, exitDone},
		{"record-winch.json", []string{"record", "--json", "testdata/finished/winch/job.toml"}, exitDone},
		{"show-winch.txt", []string{"measured", "testdata/finished/winch/job.toml", "--show"}, exitDone},
		{"record-not-cut.txt", []string{"record", "testdata/jobs/ferry-ramp/job.toml"}, exitNo},
		{"learn.txt", []string{"learn", "testdata/finished"}, exitDone},
	} {
		var out, errs bytes.Buffer
		if code := run(row.args, strings.NewReader(""), &out, &errs); code != row.code {
			t.Errorf("%s: exit %d\n%s", row.name, code, errs.String())
		}
		path := filepath.Join("golden", "measured", row.name)
		if os.Getenv("UPDATE_GOLDEN") != "" {
			if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), out.String()); diff != "" {
			t.Errorf("%s: golden (-) and got (+) differ; UPDATE_GOLDEN=1 rewrites:\n%s", row.name, diff)
		}
		for line := range strings.Lines(out.String()) {
			if n := len([]rune(strings.TrimRight(line, "\n"))); n > 80 && strings.HasSuffix(row.name, ".txt") {
				t.Errorf("%s: a line of %d columns: %s", row.name, n, line)
			}
		}
	}
}

// A machine file from finished jobs is one that a job can name.
func TestLearnedMachineIsTaken(t *testing.T) {
	dir := t.TempDir()
	mill := filepath.Join(dir, "our-mill.toml")
	var out, errs bytes.Buffer
	if code := run([]string{"learn", "../../testdata/finished", "--out", mill}, nil, &out, &errs); code != exitDone {
		t.Fatal(errs.String())
	}
	job, err := os.ReadFile("../../testdata/jobs/lock-winch/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "job.toml")
	if err := os.WriteFile(path, bytes.Replace(job, []byte(`"cnc-110mm"`), []byte(`"our-mill.toml"`), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	if code := run([]string{"plan", path}, nil, &out, &errs); code != exitDone {
		t.Errorf("%s%s", out.String(), errs.String())
	}
	if code := run([]string{"learn", "../../testdata/finished", "--out", mill}, nil, &out, &errs); code != exitWrong || !strings.Contains(errs.String(), "is there already") {
		t.Errorf("exit %d: %s", code, errs.String())
	}
}
