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

	// A program of another revision stays, and is told, by make and by who reads the folder.
	for _, other := range []string{"WG-204-C-2-idler-1.nc", "WG-204-B-idler-1.nc"} {
		write(dir+"/"+other, "of another revision")
		do(exitDone, other+" is not of this plan", "make", "job.toml", "--no-pdf")
		do(exitWrong, other+" does not belong there", "compare", dir, "job.toml")
		do(exitWrong, other+" does not belong there", "compare", "job.toml", dir)
		if got, err := os.ReadFile(dir + "/" + other); err != nil || string(got) != "of another revision" {
			t.Errorf("%s, %v", got, err)
		}
		if err := os.Remove(dir + "/" + other); err != nil {
			t.Fatal(err)
		}
	}
	write(dir+"/notes.txt", "a note of the shop")
	do(exitDone, "", "compare", dir, "job.toml")
	// Another job does not come in.
	do(exitWrong, `holds the plan of job "WG-204", revision "C"`, "make", "hand.toml", "--no-pdf", "--out", dir)

	// A folder of an earlier borewright has no list: it is read as before.
	if err := os.Remove(dir + "/" + store.ListName); err != nil {
		t.Fatal(err)
	}
	do(exitDone, "", "compare", dir, "job.toml")
	do(exitWrong, `holds the plan of job "WG-204", revision "C"`, "make", "hand.toml", "--no-pdf", "--out", dir)
}

// An entry that was cut short is told wherever a program of the job is given away or judged, and in
// every document.
func TestTornEntryIsTold(t *testing.T) {
	job, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	program, err := os.ReadFile(filepath.Join("..", "..", "golden", "lock-winch", "WG-204-C-idler-1.nc"))
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for name, data := range map[string]string{"job.toml": string(job), "floor.nc": string(program), "job.results.toml": "\n[[measured]]\nid = \"0123\"\nstat"} {
		if err := os.WriteFile(name, []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile("job.approved.toml", []byte("\n[[approved]]\nid = \"0123\"\nnum"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{ // the last approves, which mends the file of approvals
		{"record", "job.toml"}, {"record", "--json", "job.toml"}, {"jobs", "."}, {"jobs", ".", "--json"}, {"approve", "job.toml"}, {"approve", "job.toml", "--by", "A. Hand"},
	} {
		var out, errs bytes.Buffer
		run(args, strings.NewReader(""), &out, &errs)
		for _, file := range []string{"job.results.toml:2", "job.approved.toml:2"} {
			if said := strings.Join(strings.Fields(out.String()+errs.String()), " "); !strings.Contains(said, file+": the last entry was not written whole") {
				t.Errorf("%v does not say it of %s\n%s%.300s", args, file, out.String(), errs.String())
			}
		}
	}
	for _, args := range [][]string{
		{"lineup", "job.toml"}, {"lineup", "--json", "job.toml"}, {"reach", "job.toml"}, {"reach", "--json", "job.toml"}, {"sleeve", "job.toml"}, {"sleeve", "--json", "job.toml"},
		{"plan", "job.toml"}, {"plan", "--json", "job.toml"}, {"post", "job.toml", "--visit", "1"}, {"prove", "floor.nc", "job.toml"}, {"prove", "--json", "floor.nc", "job.toml"},
		{"prove", "--html", "floor.nc", "job.toml"}, {"record", "job.toml"}, {"record", "--json", "job.toml"}, {"sheet", "job.toml"}, {"measured", "job.toml", "--pass", "5", "--size", "3.3720", "--by", "A. Hand", "--sure"},
	} {
		var out, errs bytes.Buffer
		run(args, strings.NewReader(""), &out, &errs)
		if said := strings.Join(strings.Fields(out.String()+errs.String()), " "); !strings.Contains(said, "the last entry was not written whole") {
			t.Errorf("%v does not say it\n%.300s", args, errs.String())
		}
	}
}
