package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"borewright/cmd/store"
	"borewright/process/slow"
)

// command is borewright as a process of its own.
func command(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return &exec.Cmd{Path: self, Args: append([]string{"borewright"}, args...)}
}

// call runs a command in this process.
func call(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(args, strings.NewReader(""), &o, &e)
	return code, o.String(), e.String()
}

// edits is the hand pump as two files, before and after its title was changed: both go to one
// folder.
func edits(t *testing.T, dir string) [2]string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/jobs/hand-pump/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	var paths [2]string
	for i, title := range []string{"KA", "KB"} {
		paths[i] = filepath.Join(dir, title+".toml")
		lines := strings.SplitAfter(string(data), "\n")
		for n, line := range lines {
			if strings.HasPrefix(line, "title") {
				lines[n] = "title = \"Hand pump " + title + "\"\n"
			}
		}
		if err := os.WriteFile(paths[i], []byte(strings.Join(lines, "")), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return paths
}

// ofOne says whether a folder is called whole, and fails where it is and is not of one edit alone,
// or misses a file.
func ofOne(t *testing.T, out string) bool {
	t.Helper()
	l, ok, err := store.Of(out)
	if err != nil || !ok || !l.Whole {
		return false
	}
	if err := l.Check(out, func(string) bool { return false }); err != nil {
		t.Error(err)
	}
	found := ""
	for _, name := range []string{"plan.json", "sheet.txt", "sheet.html"} {
		data, err := os.ReadFile(filepath.Join(out, name))
		if err != nil {
			t.Fatal(err)
		}
		for _, title := range []string{"Hand pump KA", "Hand pump KB"} {
			if bytes.Contains(data, []byte(title)) {
				found += title[len(title)-1:]
			}
		}
	}
	if found != "AAA" && found != "BBB" {
		t.Errorf("called whole, and its files are of %q", found)
	}
	return true
}

// Two processes make two edits into one folder, and a third enters what was measured; all
// are killed at a random moment, from their start on. What compare takes is one plan; what was
// entered is kept; the next make needs no help.
func TestKilledMakes(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 8))
	whole, torn, none := 0, 0, 0
	dir := t.TempDir()
	jobs := edits(t, dir)
	entered, kept := winchJob(t), map[string]bool{}
	for n := range slow.Rounds(t, "killed makes", 40, 2, 500) {
		out := filepath.Join(dir, "out")
		list := filepath.Join(out, store.ListName)
		if n%4 == 0 { // else over what the last round left
			os.RemoveAll(out)
		}
		var all []*exec.Cmd
		for _, job := range jobs {
			all = append(all, command(t, "make", job, "-o", out, "--no-pdf"))
		}
		enters := adder(t, entered, "n"+strconv.Itoa(n), 50)
		var said bytes.Buffer
		enters.Stdout, enters.Stderr = &said, nil
		all = append(all, enters)
		for _, c := range all {
			if err := c.Start(); err != nil {
				t.Fatal(err)
			}
		}
		wait := rng.IntN(200_000) // half of them from the start on, half while files are put in place
		if n%2 == 0 {
			before, _ := os.Stat(list)
			for tries, now := 0, before; tries < 10_000 && (now == nil || before != nil && now.ModTime().Equal(before.ModTime())); now, _ = os.Stat(list) {
				time.Sleep(time.Millisecond)
				tries++
			}
			wait = rng.IntN(6_000)
		}
		time.Sleep(time.Duration(wait) * time.Microsecond)
		for _, c := range all {
			c.Process.Kill()
		}
		for _, c := range all {
			c.Wait()
		}
		for line := range strings.Lines(said.String()) {
			if strings.HasSuffix(line, "\n") {
				kept[strings.TrimSpace(line)] = true
			}
		}
		took := ofOne(t, out)
		code, _, errs := call("compare", out, jobs[0])
		switch _, err := os.Stat(filepath.Join(out, "plan.json")); {
		case err != nil:
			none++
		case took:
			if whole++; code == exitWrong {
				t.Errorf("whole, and compare refuses it: %s", errs)
			}
		default:
			if torn++; code != exitWrong || !strings.Contains(errs, "whole") {
				t.Errorf("not whole, and compare: %d %s", code, errs)
			}
		}
	}
	if code, _, errs := call("make", jobs[1], "-o", filepath.Join(dir, "out"), "--no-pdf"); code != exitDone {
		t.Errorf("make after it: %d %s", code, errs)
	}
	if !ofOne(t, filepath.Join(dir, "out")) {
		t.Error("made anew and not whole")
	}
	left, _ := filepath.Glob(filepath.Join(dir, "out", ".borewright-*"))
	if len(left) > 0 {
		t.Errorf("left behind: %q", left)
	}
	got := remarksIn(t, entered)
	for remark := range kept {
		if got[remark] != 1 {
			t.Errorf("%s was acknowledged and stands in the file %d times", remark, got[remark])
		}
	}
	if !testing.Short() && (whole < 1 || torn < 1) {
		t.Errorf("%d whole, %d not: too few of one kind", whole, torn)
	}
	t.Logf("%d whole, %d not, %d without a plan; %d entries kept", whole, torn, none, len(kept))
}

// smallDisk runs do on a disk of so many kB, or skips the test where none can be had.
func smallDisk(t *testing.T, kb int, do func(disk string)) {
	t.Helper()
	disk := t.TempDir()
	if err := exec.Command("mount", "-t", "tmpfs", "-o", "size="+strconv.Itoa(kb)+"k", "tmpfs", disk).Run(); err != nil {
		t.Skip("no small disk can be had here: ", err)
	}
	defer func() {
		if err := exec.Command("umount", disk).Run(); err != nil {
			t.Error(err)
		}
	}()
	do(disk)
}

// On a disk that is full make does its work or says why not, and leaves no half of a file: at
// every size that the files of a job come to, and over the files of another edit.
func TestMakeOnAFullDisk(t *testing.T) {
	slow.Test(t, "makes a job on disks of many sizes")
	jobs := edits(t, t.TempDir())
	full, done := 0, 0
	for kb := 16; kb <= 640; kb += 48 {
		smallDisk(t, kb, func(disk string) {
			out := filepath.Join(disk, "out")
			for _, job := range jobs {
				code, said, errs := call("make", job, "-o", out)
				took := ofOne(t, out)
				switch {
				case code == exitDone:
					if done++; !took || !strings.Contains(said, "Written to") {
						t.Errorf("%d kB: done, and whole is %v: %s", kb, took, said)
					}
				default:
					if full++; !strings.Contains(errs, ": the disk is full") || strings.Contains(errs, ".borewright-") {
						t.Errorf("%d kB: exit %d, and it does not say why: %s", kb, code, errs)
					}
				}
				if left, _ := filepath.Glob(filepath.Join(out, ".borewright-*")); len(left) > 0 {
					t.Errorf("%d kB: left behind: %q", kb, left)
				}
			}
		})
	}
	if full < 5 || done < 5 {
		t.Errorf("full %d times, done %d times", full, done)
	}
}

// What was acknowledged before a disk was full is in the results, what was not is not, and the
// next entry goes in when there is room.
func TestEnteringOnAFullDisk(t *testing.T) {
	smallDisk(t, 64, func(disk string) {
		path := filepath.Join(disk, "job.toml")
		data, err := os.ReadFile(winchJob(t))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		filler := filepath.Join(disk, "filler")
		os.WriteFile(filler, make([]byte, 54<<10), 0o644)
		enter := func(who string, most int) (kept []string, errs string, err error) {
			var out, said bytes.Buffer
			c := adder(t, path, who, most)
			c.Stdout, c.Stderr = &out, &said
			err = c.Run()
			return strings.Fields(out.String()), said.String(), err
		}
		kept, errs, err := enter("full", 400)
		if err == nil || len(kept) == 0 || !strings.Contains(errs, "no space left") {
			t.Fatalf("%d entered, %v: %s", len(kept), err, errs)
		}
		os.Remove(filler)
		if _, errs, err := enter("room", 1); err != nil {
			t.Fatalf("with room again: %s", errs)
		}
		got := remarksIn(t, path)
		for _, remark := range append(kept, "room-0") {
			if got[remark] != 1 {
				t.Errorf("%s was acknowledged and stands in the file %d times", remark, got[remark])
			}
		}
		if len(got) != len(kept)+1 {
			t.Errorf("%d acknowledged, %d in the file", len(kept)+1, len(got))
		}
	})
}

// On a disk that is full new says so and leaves no file, so that it goes again by the same name when
// there is room.
func TestNewOnAFullDisk(t *testing.T) {
	smallDisk(t, 16, func(disk string) {
		path, filler := filepath.Join(disk, "job.toml"), filepath.Join(disk, "filler")
		os.WriteFile(filler, make([]byte, 16<<10), 0o644) // as much of it as there is room for
		code, said, errs := call("new", path)
		if code != exitWrong || said != "" || !strings.HasPrefix(errs, path+": the disk is full") {
			t.Errorf("exit %d: %s%s", code, said, errs)
		}
		if left, err := os.ReadDir(disk); err != nil || len(left) != 1 {
			t.Errorf("left behind: %v, %v", left, err)
		}
		os.Remove(filler)
		if code, _, errs := call("new", path); code != exitDone {
			t.Errorf("with room again: exit %d: %s", code, errs)
		}
	})
}
