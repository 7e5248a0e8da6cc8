package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A control that keeps all programs of a job in one file, in capitals, on lines that end in
// CR: made, proven whole, a spoilt one found, the earlier plan's taken away, and compared.
func TestMakeOneFile(t *testing.T) {
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	read := func(name ...string) string {
		data, err := os.ReadFile(filepath.Join(name...))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	t.Chdir(t.TempDir())
	write := func(name, text string) {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	mill := read(root, "process/files/catalog/machines/cnc-110mm.toml")
	job := read(root, "testdata/jobs/lock-winch/job.toml")
	control := "[control]\none_file = true\nfile_capitals = true\nfile_extension = \"tap\"\nremarks = \"short\"\nline_end = \"CR\"\n"
	write("mill.toml", strings.NewReplacer("[control]", control, "program_number = 0", "program_number = 1204").Replace(mill))
	write("job.toml", strings.Replace(job, `"cnc-110mm"`, `"mill.toml"`, 1))
	do := func(want int, args ...string) string {
		t.Helper()
		var out, errs bytes.Buffer
		if code := run(args, strings.NewReader(""), &out, &errs); code != want {
			t.Errorf("%v: exit %d, want %d\n%.2000s%s", args, code, want, out.String(), errs.String())
		}
		return out.String() + errs.String()
	}
	names := func() (all []string) {
		entries, err := os.ReadDir("out/WG-204-C")
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			all = append(all, e.Name())
		}
		return all
	}
	do(exitDone, "make", "job.toml", "--no-pdf")
	made := filepath.Join("out", "WG-204-C", "WG-204-C-ALL.TAP")
	if got := names(); !slices.Contains(got, "WG-204-C-ALL.TAP") || slices.ContainsFunc(got, func(n string) bool { return strings.HasSuffix(n, ".nc") }) {
		t.Errorf("files %q", got)
	}
	sheet := strings.Join(strings.Fields(read("out/WG-204-C/sheet.txt")), " ")
	for _, want := range []string{"WG-204-C-ALL.TAP O1204", "WG-204-C-ALL.TAP O1205", "Comments short in the program", "Clear plane Z2.0000 in, in front of the face", "check by hand that the tip stops at +X"} {
		if !strings.Contains(sheet, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
	said := do(exitDone, "prove", made, "job.toml")
	for _, want := range []string{"idler, visit 1 of 2", "idler, visit 2 of 2", "the sheet says it: machine, units"} {
		if strings.Count(said, ": proven: ") != 2 || !strings.Contains(said, want) {
			t.Errorf("proof:\n%s", said)
			break
		}
	}
	text := read(made)
	write("floor.tap", strings.Replace(text, "O1205", "O1299", 1))
	if said := do(exitNo, "prove", "floor.tap", "job.toml"); !strings.Contains(said, "O1299 is the number of no visit") || !strings.Contains(said, "the file has no program O1205") {
		t.Errorf("a program renumbered:\n%s", said)
	}
	do(exitDone, "prove", "floor.tap", "job.toml", "--visit", "1")
	// One page for the file, and each program drawn.
	if page := do(exitDone, "prove", "--html", made, "job.toml"); strings.Count(page, "<svg") != 2 || !strings.Contains(page, "idler, visit 1: what the program does") ||
		!strings.Contains(page, "idler, visit 2: what the program does") || strings.Contains(page, "NOT PROVEN") {
		t.Errorf("drawn together:\n%.3000s", page)
	}
	if page := do(exitNo, "prove", "--html", "floor.tap", "job.toml"); !strings.Contains(page, "O1299 is the number of no visit") || !strings.Contains(page, "NOT PROVEN") {
		t.Errorf("drawn together, a program renumbered:\n%.3000s", page)
	}
	if said := do(exitDone, "compare", "out/WG-204-C", "job.toml"); !strings.Contains(strings.ToLower(said), "no differ") && !strings.Contains(said, "same") {
		t.Errorf("compared with itself:\n%s", said)
	}
	// The same job for a control with a file for each visit: the one file goes.
	write("mill.toml", strings.NewReplacer("[control]", strings.Replace(control, "one_file = true\n", "", 1), "program_number = 0", "program_number = 1204").Replace(mill))
	if said := do(exitDone, "make", "job.toml", "--no-pdf"); !strings.Contains(said, "removed "+made) {
		t.Errorf("not taken away:\n%s", said)
	}
	if got := names(); slices.Contains(got, "WG-204-C-ALL.TAP") || !slices.Contains(got, "WG-204-C-IDLER-2.TAP") {
		t.Errorf("files %q", got)
	}
}
