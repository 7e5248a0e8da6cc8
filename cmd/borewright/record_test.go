package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process/slow"
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
		if code := runGolden(t, row.args, &out, &errs); code != row.code {
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

// The record names the program that was in the control when a pass was cut, with the check
// sum that this program states: that of the first plan, that of the rest where it was taken
// up, and the old one where the shop went on with it, as the cutter's setting tells.
func TestRecordNamesTheProgramThatCut(t *testing.T) {
	for _, noted := range []bool{true, false}[:slow.Rounds(t, "ways to name a program", 2, 1)] {
		dir := t.TempDir()
		job, err := os.ReadFile("../../testdata/jobs/lock-winch/job.toml")
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, "job.toml")
		if err := os.WriteFile(path, job, 0o644); err != nil {
			t.Fatal(err)
		}
		call := func(args ...string) string {
			var out, errs bytes.Buffer
			run(args, nil, &out, &errs)
			if errs.Len() > 0 {
				t.Errorf("%v: %s", args, errs.String())
			}
			return out.String()
		}
		setting := func(program []byte, pass string) string {
			return string(regexp.MustCompile(`\(` + pass + ` [A-Z-]+: SET DIA ([0-9.]+)`).FindSubmatch(program)[1])
		}
		called := func(name string) (string, []byte) {
			program, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			sum := regexp.MustCompile(`\(CHECK SUM (\S+)\)`).FindSubmatch(program)
			return filepath.Base(name) + " (check sum " + string(sum[1]) + ")", program
		}
		one, two := filepath.Join(dir, "one"), filepath.Join(dir, "two")
		call("make", path, "--out", one, "--no-pdf")
		first, old := called(filepath.Join(one, "WG-204-C-idler-1.nc"))
		call("measured", path, "--pass", "1", "--size", "near@12=3.1660", "--size", "far@3=3.172", "--marked", "12,6,9", "--bare", "3")
		call("make", path, "--out", two, "--no-pdf")
		rest, anew := called(filepath.Join(two, "WG-204-C-idler-1-after-1.nc"))
		pass := "" // the last that is set otherwise
		for _, m := range regexp.MustCompile(`\((\d+) [A-Z-]+: SET DIA`).FindAllSubmatch(anew, -1) {
			if n := string(m[1]); setting(old, n) != setting(anew, n) {
				pass = n
			}
		}
		if pass == "" {
			t.Fatal("all passes are set alike in both plans: the test shows nothing")
		}
		want := []string{first + ", pass 1 as measured", rest + ", pass " + pass + " as measured"}
		with, by := setting(anew, pass), anew
		if noted { // the shop went on with the first
			with, by, want = setting(old, pass), old, []string{first + ", pass 1 and " + pass + " as measured"}
		}
		expect := regexp.MustCompile(`SET CUTTER TO DIA ` + with + ` IN[^(]*\)\n\(EXPECT BORE DIA ([0-9.]+)`).FindSubmatch(by)
		call("measured", path, "--pass", pass, "--setting", with, "--size", string(expect[1]))
		if !noted {
			results := strings.TrimSuffix(path, ".toml") + ".results.toml"
			text, err := os.ReadFile(results)
			if err != nil {
				t.Fatal(err)
			}
			text = regexp.MustCompile(`(?m)^(program|program_sum|id|check) = .*\n`).ReplaceAll(text, nil)
			if err := os.WriteFile(results, text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		record := strings.Join(strings.Fields(call("record", path)), " ")
		for _, w := range want {
			if !strings.Contains(record, w) {
				t.Errorf("named by its entry %v: no %q in\n%.900s", noted, w, record)
			}
		}
		if strings.Contains(record, "not noted") == noted {
			t.Errorf("named by its entry %v:\n%.900s", noted, record)
		}
	}
}
