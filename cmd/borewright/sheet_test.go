package main

import (
	"bytes"
	"strings"
	"testing"
)

// sheet prints the same faces that make writes, and make leaves the PDF out
// when asked to.
func TestSheetFaces(t *testing.T) {
	t.Chdir("../..")
	const job = "testdata/jobs/lock-winch/job.toml"
	made := makeInto(t, job)
	for flag, name := range map[string]string{"--html": "sheet.html", "--pdf": "sheet.pdf"} {
		var out, errs bytes.Buffer
		if code := run([]string{"sheet", job, flag}, strings.NewReader(""), &out, &errs); code != exitDone {
			t.Fatalf("sheet %s: exit %d: %s", flag, code, errs.String())
		}
		if out.String() != made[name] {
			t.Errorf("sheet %s prints another %s than make writes", flag, name)
		}
	}
	for _, tc := range []struct {
		args []string
		code int
		says string
	}{
		{[]string{"sheet", job, "--pdf", "--paper", "a4"}, exitDone, ""},
		{[]string{"sheet", job, "--pdf", "--paper", "a5"}, exitWrong, `--paper: there is no paper "a5"; give a4 or letter`},
		{[]string{"sheet", job, "--pdf", "--html"}, exitWrong, "html pdf"},
	} {
		var out, errs bytes.Buffer
		if code := run(tc.args, strings.NewReader(""), &out, &errs); code != tc.code || !strings.Contains(errs.String(), tc.says) {
			t.Errorf("%v: exit %d, %q", tc.args, code, errs.String())
		}
	}
	dir := t.TempDir()
	var out, errs bytes.Buffer
	if code := run([]string{"make", job, "--no-pdf", "--out", dir}, strings.NewReader(""), &out, &errs); code != exitDone {
		t.Fatal(errs.String())
	}
	if _, there := readFolder(t, dir)["sheet.pdf"]; there {
		t.Error("--no-pdf wrote one all the same")
	}
}
