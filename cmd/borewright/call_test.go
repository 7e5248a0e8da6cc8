package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// TestHelpIsNarrow: a terminal of 80 columns breaks no line of any help.
func TestHelpIsNarrow(t *testing.T) {
	verbs := []string{""}
	for _, c := range rootCommand().Commands() {
		verbs = append(verbs, c.Name())
	}
	if len(verbs) < 20 {
		t.Fatalf("%d commands", len(verbs))
	}
	for _, verb := range verbs {
		_, help, errs := call(strings.Fields(verb + " --help")...)
		if errs != "" || !strings.Contains(help, "Usage:") {
			t.Errorf("%s: %s", verb, errs)
		}
		for _, line := range strings.Split(help, "\n") {
			if n := utf8.RuneCountInString(line); n > 80 {
				t.Errorf("%s: %d columns: %s", verb, n, line)
			}
		}
	}
}

// TestTroubleWithFiles: what is wrong with a name or a folder is said in words, with the name that
// was given, never in those of the system or with the name that a file has while it is written.
func TestTroubleWithFiles(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	for link, to := range map[string]string{"broken.toml": "gone.toml", "loop.toml": "loop.toml"} {
		if err := os.Symlink(to, at(link)); err != nil {
			t.Skip(err)
		}
	}
	job := "../../testdata/jobs/hand-pump/job.toml"
	for _, c := range []struct {
		call []string
		says string
	}{
		{[]string{"plan", ""}, "the name of a file is empty; give one"},
		{[]string{"plan", at("broken.toml")}, at("broken.toml") + ": a link to gone.toml, which is not there"},
		{[]string{"plan", at("loop.toml")}, at("loop.toml") + ": a link that leads to itself; name the file"},
		{[]string{"plan", at(strings.Repeat("x", 300) + ".toml")}, "the name is too long; give a shorter one"},
		{[]string{"compare", at("none.toml"), job}, at("none.toml") + ": there is no such file"},
		{[]string{"new", at("no/such/job.toml")}, "there is no folder " + at("no/such") + "; make it first"},
		{[]string{"make", job, "--out", job}, "a file stands where a folder should"},
		{[]string{"approve", job, "--by", ""}, "approve: say who, with --by NAME"},
		{[]string{"plan", "-job.toml"}, "; a file of that name is ./-job.toml"},
		{[]string{"serve", dir, "--port", "abc"}, `invalid argument "abc" for "--port" flag: a whole number is wanted`},
		{[]string{"serve", dir, "--port", "99999"}, "serve: there is no port 99999; give one from 0 to 65535 with --port"},
		{[]string{"plan", job, "--json=maybe"}, "true or false is wanted"},
		{[]string{"fit", "50", "--for", "running", "--speed", "x"}, ": a number is wanted"},
	} {
		code, _, errs := call(c.call...)
		if code != exitWrong || !strings.Contains(errs, c.says) || strings.Count(strings.TrimSpace(errs), "\n") > 0 {
			t.Errorf("%q: %d %s, want %q", c.call, code, errs, c.says)
		}
		for _, raw := range []string{"strconv", "open ", "stat ", "mkdir ", "listen tcp", ".borewright-"} {
			if strings.Contains(errs, raw) {
				t.Errorf("%q: %s", c.call, errs)
			}
		}
	}
}
