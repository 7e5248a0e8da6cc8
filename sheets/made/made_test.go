package made

import (
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"
)

// Every module that the program is built of is listed with the licence that its own
// LICENSE file states, on each system that it is built for.
func TestLicences(t *testing.T) {
	if testing.Short() {
		t.Skip("asks the Go tools for the modules of three systems")
	}
	// A sentence of each licence, as the SPDX list has them, from memory.
	text := map[string]string{
		"MIT":          "Permission is hereby granted, free of charge, to any person obtaining a copy",
		"BSD-3-Clause": "Redistribution and use in source and binary forms",
		"Apache-2.0":   "Apache License",
	}
	seen := map[string]bool{}
	for _, system := range []string{"linux", "windows", "darwin"} {
		cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Dir}}{{end}}{{end}}", "borewright/cmd/borewright")
		cmd.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(out)) {
			path, dir, ok := strings.Cut(strings.TrimSpace(line), " ")
			if !ok || seen[path] {
				continue
			}
			seen[path] = true
			licence, listed := licences[path]
			if !listed {
				t.Errorf("%s has no licence here", path)
				continue
			}
			files, _ := filepath.Glob(filepath.Join(dir, "LICENSE*"))
			more, _ := filepath.Glob(filepath.Join(dir, "COPYING*"))
			found := false
			for _, f := range append(files, more...) {
				data, err := os.ReadFile(f)
				found = found || err == nil && strings.Contains(strings.Join(strings.Fields(string(data)), " "), text[licence])
			}
			if !found {
				t.Errorf("%s: its licence file does not read as %s", path, licence)
			}
		}
	}
	for path := range licences {
		if !seen[path] {
			t.Errorf("%s is listed, and the program is built without it", path)
		}
	}
}

// What version prints of builds that are made up: of a tagged commit, of a folder that was changed
// since, of one without version control, of none that says anything.
func TestVersionInWords(t *testing.T) {
	set := func(kv ...string) (all []debug.BuildSetting) {
		for i := 0; i < len(kv); i += 2 {
			all = append(all, debug.BuildSetting{Key: kv[i], Value: kv[i+1]})
		}
		return all
	}
	const unnumbered = "borewright, built without a version number\n"
	for _, x := range []struct {
		why  string
		info *debug.BuildInfo
		want string
	}{
		{"a version", &debug.BuildInfo{GoVersion: "go1.26", Main: debug.Module{Version: "v0.3.1"}, Settings: set("vcs.revision", "0a1b2c", "vcs.time", "2026-11-02T10:00:00Z", "vcs.modified", "false", "GOOS", "linux", "GOARCH", "arm64")},
			"borewright v0.3.1\ncommit 0a1b2c of 2026-11-02T10:00:00Z\ngo1.26, linux/arm64\n"},
		{"changed since", &debug.BuildInfo{GoVersion: "go1.26", Main: debug.Module{Version: "(devel)"}, Settings: set("vcs.revision", "0a1b2c", "vcs.time", "2026-11-02T10:00:00Z", "vcs.modified", "true", "GOOS", "windows", "GOARCH", "amd64")},
			unnumbered + "commit 0a1b2c of 2026-11-02T10:00:00Z, and changed since\ngo1.26, windows/amd64\n"},
		{"modules", &debug.BuildInfo{GoVersion: "go1.26", Settings: set("GOOS", "linux", "GOARCH", "amd64"), Deps: []*debug.Module{
			{Path: "github.com/spf13/cobra", Version: "v1.10.2"}, {Path: "example.org/theirs", Version: "v1.0.0", Replace: &debug.Module{Path: "example.org/ours", Version: "v1.0.1"}}}},
			unnumbered + "commit not known: it was built outside of its repository, or with -buildvcs=false\ngo1.26, linux/amd64\ngithub.com/spf13/cobra v1.10.2, Apache-2.0\nexample.org/ours v1.0.1, licence: see the module\n"},
		{"nothing", nil, unnumbered + "The binary holds no data of its build.\n"},
	} {
		said := By()
		if x.info != nil {
			said = version(x.info)
		}
		if got := said + "\n" + built(x.info); got != x.want {
			t.Errorf("%s:\n%s\nwant\n%s", x.why, got, x.want)
		}
	}
}
