package main

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"borewright/process/slow"
	"borewright/process/source"
)

// Names drive no terminal, and make no line of their own, wherever they come from: the command
// line, an unknown flag, git, a folder.
func TestNamesArePrintedClean(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no such names there")
	}
	job, err := filepath.Abs("../../testdata/jobs/hand-pump/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	winch, err := filepath.Abs("../../testdata/jobs/lock-winch/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	program, err := os.ReadFile("../../golden/lock-winch/WG-204-C-idler-1.nc")
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(winch)
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	const name = "\x1b[31mred\a\r\nPROVEN\u009b\u202e"
	for file, data := range map[string][]byte{name + ".nc": program, name + ".toml": text, "torn.toml": []byte("[[")} {
		if err := os.WriteFile(file, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	calls := [][]string{
		{name}, {"--" + name}, {"-" + name}, {"plan", "--" + name, job}, {"plan", "-" + name}, {"plan", "--json=" + name, job}, {"plan", job, name},
		{"plan", name}, {"plan", "./" + name}, {"plan", "../" + name + "/job.toml"}, {"help", name}, {"explain", name}, {"list", name}, {"list", "machines", name}, {"fit", name}, {"jobs", name}, {"jobs", ".", name}, {"plan", name + "/"},
		{"new", "none/" + name}, {"new", name + ".new"}, {"new", "x", "--units", name}, {"new", "x", "--machine", name}, {"new", "x", "--machine", "hbm-5in", "--set", name},
		{"reach", job, "--bars", name}, {"lineup", job, "--size", name}, {"prove", name, winch}, {"compare", name, job}, {"learn", name}, {"sheet", job, "--paper", name},
		{"compare", "--git", name, "torn.toml", "0", "100644", "torn.toml", "0", "100644", name, "similar"},
		// These plan a job.
		{"sheet", job, "--only", name}, {"compare", "HEAD:" + name, job}, {"compare", name + ":x", job}, {"compare", "--git", name, winch, "0", "100644", winch, "0", "100644"},
		{"prove", name + ".nc", winch, "--station", name}, {"prove", name + ".nc", winch}, {"prove", "--json", name + ".nc", winch}, {"compare", name + ".toml", job}, {"compare", "--json", name + ".toml", winch},
		{"measured", job, "--pass", "1", "--size", name}, {"measured", job, "--pass", "1", "--size", name + "=3"}, {"measured", job, "--station", name, "--size", "3"},
		{"measured", name + ".toml", "--pass", "1", "--size", "3.1660", "--marked", "12", "--sure", "--by", "A. Hand"}, {"record", name + ".toml"},
		{"learn", ".", "--out", name}, {"record", name + ".toml", "--out", name}, {"make", name + ".toml", "--no-pdf", "--out", name + "/" + name},
	}
	for _, args := range calls[:slow.Rounds(t, "calls", len(calls), 27)] {
		var out, errs bytes.Buffer
		run(args, strings.NewReader(""), &out, &errs)
		for what, said := range map[string]string{"output": out.String(), "errors": errs.String()} {
			if i := strings.IndexFunc(said, func(r rune) bool { return r != '\n' && source.Unprintable(r) }); i >= 0 {
				t.Errorf("%q: its %s hold %q", args, what, said[max(0, i-40):min(len(said), i+40)])
			}
			for line := range strings.Lines(said) {
				if strings.HasPrefix(line, "PROVEN") {
					t.Errorf("%q: its %s have a line of their own: %q", args, what, line)
				}
			}
		}
	}
}

// A device or a folder where a job, a program or a list of bars should stand is read or
// refused, and never read without end.
func TestDevicesAreNoJobs(t *testing.T) {
	if _, err := os.Stat("/dev/zero"); err != nil {
		t.Skip("no such devices here")
	}
	winch := filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml")
	for _, row := range []struct {
		args []string
		want string
	}{
		{[]string{"plan", "/dev/zero"}, "files to 5 MB are read"},
		{[]string{"lineup", t.TempDir()}, "a folder stands where a file should"},
		{[]string{"plan", t.TempDir()}, "holds no job file"},
		{[]string{"prove", "/dev/zero", winch}, "longer than 50 MB"},
		{[]string{"reach", winch, "--bars", "/dev/zero"}, "files to 5 MB are read"},
	} {
		var errs bytes.Buffer
		if code := run(row.args, strings.NewReader(""), io.Discard, &errs); code != exitWrong || !strings.Contains(errs.String(), row.want) {
			t.Errorf("%v: exit %d, %q", row.args, code, errs.String())
		}
	}
}
