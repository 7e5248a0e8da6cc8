package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/cmd/store"
)

// A folder is one plan or the other: what was changed in it, what a killed run left and what is
// of another revision is told, and nothing of others is taken away.
func TestFolderIsOfOnePlan(t *testing.T) {
	job, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "hand-pump", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	mill, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	do := func(want int, says string, args ...string) {
		t.Helper()
		var out, errs bytes.Buffer
		if code := run(args, strings.NewReader(""), &out, &errs); code != want || !strings.Contains(out.String()+errs.String(), says) {
			t.Errorf("%v: exit %d, want %d and %q\n%.1500s%s", args, code, want, says, out.String(), errs.String())
		}
	}
	write("hand.toml", string(job))
	write("job.toml", string(mill))
	const dir, program = "out/WG-204-C", "out/WG-204-C/WG-204-C-idler-1.nc"
	do(exitDone, "Written to "+filepath.FromSlash(dir), "make", "job.toml", "--no-pdf")
	do(exitDone, "", "compare", dir, "job.toml")

	// The sheet was taken to the mill; a program was edited; a list says that a run was killed.
	if err := os.Remove(dir + "/sheet.html"); err != nil {
		t.Fatal(err)
	}
	do(exitDone, "", "compare", dir, "job.toml")
	text, err := os.ReadFile(program)
	if err != nil {
		t.Fatal(err)
	}
	write(program, string(text)+"\n")
	do(exitWrong, "WG-204-C-idler-1.nc is not as it was written", "compare", dir, "job.toml")
	do(exitNo, "moves as before, remarks differ", "compare", "--edited", dir, "job.toml")
	do(exitDone, "", "prove", program, "job.toml")
	list, err := os.ReadFile(dir + "/" + store.ListName)
	if err != nil {
		t.Fatal(err)
	}
	write(dir+"/"+store.ListName, strings.Replace(string(list), "whole = true", "whole = false", 1))
	do(exitWrong, "is not whole: a run that wrote to it did not come to its end", "compare", dir, "job.toml")
	do(exitWrong, "is not whole: a run that wrote to it did not come to its end", "prove", program, "job.toml")
	write("floor.nc", string(text))
	do(exitDone, "", "prove", "floor.nc", "job.toml")

	// A program of a revision that begins alike stays, and is told.
	write(dir+"/WG-204-C-2-idler-1.nc", "of revision C-2")
	do(exitDone, "WG-204-C-2-idler-1.nc is not of this plan", "make", "job.toml", "--no-pdf")
	do(exitDone, "", "compare", dir, "job.toml")
	if got, err := os.ReadFile(dir + "/WG-204-C-2-idler-1.nc"); err != nil || string(got) != "of revision C-2" {
		t.Errorf("%s, %v", got, err)
	}
	// Another job does not come in.
	do(exitWrong, `holds the plan of job "WG-204", revision "C"`, "make", "hand.toml", "--no-pdf", "--out", dir)

	// A folder of an earlier borewright has no list: it is read as before.
	if err := os.Remove(dir + "/" + store.ListName); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(dir + "/WG-204-C-2-idler-1.nc"); err != nil {
		t.Fatal(err)
	}
	do(exitDone, "", "compare", dir, "job.toml")
	do(exitWrong, `holds the plan of job "WG-204", revision "C"`, "make", "hand.toml", "--no-pdf", "--out", dir)
}
