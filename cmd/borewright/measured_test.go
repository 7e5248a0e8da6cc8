package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"borewright/cmd/jobfile"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// winchJob puts the winch into a folder of its own.
func winchJob(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../testdata/jobs/lock-winch/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// addForever is a process that enters results until it is killed: it says
// the remark of each entry once the entry is safe.
func addForever() {
	path, who := os.Args[1], os.Args[2]
	most, _ := strconv.Atoi(os.Args[3])
	job, err := jobfile.Load(path)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(2)
	}
	for i := 0; i < most; i++ {
		m := process.Measured{Station: 2, Visit: 1, Pass: 4, Kind: process.SemiFinishCut, Remark: fmt.Sprintf("%s-%d", who, i),
			Sizes: []process.Size{{Depth: process.Unplaced, At: -1, Diameter: qty.Diameter(qty.FromInches(3.3697))}}}
		if err := jobfile.Add(path, job, &m, func(*process.Results) error { return nil }); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(2)
		}
		fmt.Println(m.Remark)
	}
}

// adder is that process, not yet started.
func adder(t *testing.T, path, who string, most int) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	return &exec.Cmd{Path: self, Args: []string{"add-forever", path, who, strconv.Itoa(most)}, Stderr: os.Stderr}
}

// remarksIn reads a results file and gives the remarks of its entries.
func remarksIn(t *testing.T, path string) map[string]int {
	t.Helper()
	job, err := jobfile.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	res, err := jobfile.Results(path, job)
	if err != nil {
		t.Fatalf("the file does not read: %v", err)
	}
	got := map[string]int{}
	for _, m := range res.Entries {
		got[m.Remark]++
	}
	return got
}

// The process that enters is killed at a random point, a hundred times (500 in the long form). Whatever it
// had acknowledged is in the file, once; no entry is there by half.
func TestKilledWhileEntering(t *testing.T) {
	kills := slow.Rounds(t, "kills", 100, 20, 500)
	aFile := min(50, kills)
	rng := rand.New(rand.NewPCG(8, 500))
	acknowledged, most := 0, 0
	for file := range kills / aFile {
		path := winchJob(t)
		want := map[string]bool{}
		for k := range aFile {
			cmd := adder(t, path, fmt.Sprintf("f%dk%d", file, k), 1000)
			out, err := cmd.StdoutPipe()
			if err != nil {
				t.Fatal(err)
			}
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			lines := bufio.NewReader(out)
			if k%2 == 0 { // half of them in the midst of entering, half from the start of the process on
				line, err := lines.ReadString('\n')
				if err != nil {
					t.Fatal("nothing entered")
				}
				want[strings.TrimSpace(line)] = true
				time.Sleep(time.Duration(rng.IntN(3000)) * time.Microsecond)
			} else {
				time.Sleep(time.Duration(rng.IntN(30000)) * time.Microsecond)
			}
			cmd.Process.Kill()
			rest, _ := io.ReadAll(lines)
			cmd.Wait()
			for line := range strings.Lines(string(rest)) {
				if strings.HasSuffix(line, "\n") {
					want[strings.TrimSpace(line)] = true
				}
			}
		}
		got := remarksIn(t, path)
		for remark := range want {
			if got[remark] != 1 {
				t.Errorf("%s was acknowledged and stands in the file %d times", remark, got[remark])
			}
		}
		for remark, n := range got {
			if n != 1 || remark == "" {
				t.Errorf("%q stands in the file %d times", remark, n)
			}
		}
		if extra := len(got) - len(want); extra < 0 || extra > aFile {
			t.Errorf("%d entries acknowledged, %d in the file", len(want), len(got)) // one each may be safe and not yet said
		}
		acknowledged += len(want)
		most = max(most, len(got))
	}
	t.Logf("%d kills, %d entries acknowledged, none lost", kills, acknowledged)
	if acknowledged < kills/2 {
		t.Errorf("only %d entries: the kills came before anything was entered", acknowledged)
	}
}

// An entry cut short at every byte: the next one goes in, and nothing that was
// whole before is touched.
func TestEnteringAfterATornEntry(t *testing.T) {
	path := winchJob(t)
	job, err := jobfile.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	m := process.Measured{Station: 2, Pass: 4, Remark: "first", Sizes: []process.Size{{Depth: process.Unplaced, At: -1, Diameter: qty.Diameter(qty.FromInches(3.3697))}}}
	fine := func(*process.Results) error { return nil }
	if err := jobfile.Add(path, job, &m, fine); err != nil {
		t.Fatal(err)
	}
	first, _ := os.ReadFile(jobfile.ResultsPath(path))
	torn := m
	torn.ID, torn.Remark = "beef", "torn"
	text := files.Entry(job, &torn)
	step := len(text) / slow.Rounds(t, "places to be cut short at", len(text), 20)
	for n := 0; n < len(text)-1; n += step {
		if err := os.WriteFile(jobfile.ResultsPath(path), append(append([]byte(nil), first...), text[:n]...), 0o644); err != nil {
			t.Fatal(err)
		}
		m.ID, m.Remark = "", "next"
		if err := jobfile.Add(path, job, &m, fine); err != nil {
			t.Fatalf("cut after %d bytes: %v", n, err)
		}
		got := remarksIn(t, path)
		if len(got) != 2 || got["first"] != 1 || got["next"] != 1 {
			t.Fatalf("cut after %d bytes: %v", n, got)
		}
		if now, _ := os.ReadFile(jobfile.ResultsPath(path)); !bytes.HasPrefix(now, first) {
			t.Fatalf("cut after %d bytes: what was whole has changed", n)
		}
	}
}

// What is cut off a results file is kept beside it first, byte for byte, each in a file of
// its own; zero bytes alone are not.
func TestTornIsKeptBeside(t *testing.T) {
	path := winchJob(t)
	job, err := jobfile.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	m := process.Measured{Station: 2, Pass: 4, Sizes: []process.Size{{Depth: process.Unplaced, At: -1, Diameter: qty.Diameter(qty.FromInches(3.3697))}}}
	add := func(tail string) {
		t.Helper()
		f, err := os.OpenFile(jobfile.ResultsPath(path), os.O_APPEND|os.O_WRONLY|os.O_CREATE, 0o644)
		if err == nil {
			_, err = f.WriteString(tail)
			err = errors.Join(err, f.Close())
		}
		m.ID = ""
		if err == nil {
			err = jobfile.Add(path, job, &m, func(*process.Results) error { return nil })
		}
		if err != nil {
			t.Fatalf("%q: %v", tail, err)
		}
	}
	kept := func(n int) string {
		data, err := os.ReadFile(fmt.Sprintf("%s.torn-%d", strings.TrimSuffix(jobfile.ResultsPath(path), ".toml"), n))
		if err != nil {
			return ""
		}
		return string(data)
	}
	add("")
	add("[[measured]]\nid = \"0123\"\nstat")
	add(strings.Repeat("\x00", 512))
	add("[[measured]]\nid = \"4567\"\n\x00\x00")
	if a, b, c := kept(1), kept(2), kept(3); a != "[[measured]]\nid = \"0123\"\nstat" || b != "[[measured]]\nid = \"4567\"\n\x00\x00" || c != "" {
		t.Errorf("kept are %q, %q and %q", a, b, c)
	}
	if got := remarksIn(t, path); got[""] != 4 {
		t.Errorf("of four entries these are there: %v", got)
	}
}

// Eight processes enter at once: all entries are there.
func TestEightEnterAtOnce(t *testing.T) {
	const processes = 8
	each := slow.Rounds(t, "entries of each process", 12, 3)
	path := winchJob(t)
	var wg sync.WaitGroup
	for i := range processes {
		cmd := adder(t, path, fmt.Sprintf("p%d", i), each)
		cmd.Stdout = io.Discard
		wg.Go(func() {
			if err := cmd.Run(); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
	got := remarksIn(t, path)
	if len(got) != processes*each {
		t.Errorf("%d of %d entries are there", len(got), processes*each)
	}
	for remark, n := range got {
		if n != 1 {
			t.Errorf("%s stands there %d times", remark, n)
		}
	}
}

// A person at the terminal: questions, a slip asked about, an entry.
func TestMeasuredAsks(t *testing.T) {
	path := winchJob(t)
	job, err := jobfile.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	passes := plan.Make(job).Bores[0].Visits[0].Passes
	semi := passes[slices.IndexFunc(passes, func(q schedule.Pass) bool { return q.Kind == schedule.SemiFinish })]
	right := fmt.Sprintf("%.4f", semi.Expected.MM()/25.4) // as 3.3719
	slip := []byte(right)                                 // as 3.3179
	slip[3], slip[4] = slip[4], slip[3]
	answers := strings.Join([]string{fmt.Sprint(semi.N), "yes", "", string(slip), "no"}, "\n") + "\n"
	var out, errs bytes.Buffer
	if code := run([]string{"measured", path, "--ask"}, strings.NewReader(answers), &out, &errs); code != exitWrong {
		t.Errorf("exit %d\n%s\n%s", code, out.String(), errs.String())
	}
	for _, want := range []string{"two digits changed places? It would be " + right + " in", fmt.Sprintf("pass %d is out of order", semi.N), "Enter it all the same? (yes or no) [no]: ", "nothing is entered"} {
		if !strings.Contains(errs.String(), want) {
			t.Errorf("it does not say %q:\n%s", want, errs.String())
		}
	}
	if _, err := os.Stat(jobfile.ResultsPath(path)); err == nil {
		t.Error("entered all the same")
	}
	errs.Reset()
	answers = strings.Replace(strings.Replace(answers, string(slip), right, 1), "no\n", "", 1)
	if code := run([]string{"measured", path, "--ask"}, strings.NewReader(answers), &out, &errs); code != exitDone {
		t.Errorf("exit %d\n%s\n%s", code, out.String(), errs.String())
	}
	if !strings.Contains(out.String(), fmt.Sprintf("the rest after pass %d", semi.N)) {
		t.Error(out.String())
	}
}
