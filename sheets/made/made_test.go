package made

import (
	"os"
	"os/exec"
	"path/filepath"
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
