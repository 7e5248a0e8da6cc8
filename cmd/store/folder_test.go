package store

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"borewright/process/slow"
)

// planOf is the files of an invented plan: each says in its first line whose it is. Plans differ
// in how many they have.
func planOf(n int) []File {
	files := []File{{"plan.json", nil}, {"sheet.txt", nil}}
	for i := range 2 + n%3 {
		files = append(files, File{fmt.Sprintf("P-%d.nc", i), nil})
	}
	for i := range files {
		files[i].Data = append(fmt.Appendf(nil, "plan %d\n", n), bytes.Repeat([]byte{byte('a' + i)}, 40_000)...)
	}
	return files
}

// whose are the plans that the files of a folder are of, each once.
func whose(t *testing.T, dir string, names []string) (all []string) {
	t.Helper()
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		line, _, _ := strings.Cut(string(data), "\n")
		if len(data) != len(line)+1+40_000 {
			t.Errorf("%s: %d bytes", name, len(data))
		}
		if !slices.Contains(all, line) {
			all = append(all, line)
		}
	}
	return all
}

func inFolder(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if e.Name() != ListName {
			names = append(names, e.Name())
		}
	}
	return names
}

func none(string) bool { return false }

func TestWrite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out", "WG-1")
	write := func(n int) []Left {
		t.Helper()
		left, err := WriteNoted(dir, "WG-1", "C", Note{}, planOf(n))
		if err != nil {
			t.Fatal(err)
		}
		return left
	}
	check := func(want string) {
		t.Helper()
		l, ok, err := Of(dir)
		if err == nil && ok {
			err = l.Check(dir, func(name string) bool { return name == "sheet.txt" })
		}
		if !ok || want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("ok %v, %v; want %q", ok, err, want)
		}
	}
	put := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(2) // four programs
	check("")
	put("notes.txt", "mine")
	put(tempHead+strings.Repeat("A", tempTail), "of a run that was killed")
	put(".borewright-serve", "secrets of the pages")
	put("P-3.nc", "changed at the control")
	check("P-3.nc is not as it was written")
	if left := write(0); !slices.Equal(left, []Left{{"P-2.nc", ""}, {"P-3.nc", "P-3.nc.earlier"}}) { // two programs
		t.Errorf("left: %+v", left)
	}
	check("")
	if got := inFolder(t, dir); !slices.Equal(got, []string{".borewright-serve", "P-0.nc", "P-1.nc", "P-3.nc.earlier", "notes.txt", "plan.json", "sheet.txt"}) {
		t.Errorf("in the folder: %q", got)
	}
	if err := os.Remove(filepath.Join(dir, "sheet.txt")); err != nil {
		t.Fatal(err)
	}
	check("") // it may be left out
	if err := os.Remove(filepath.Join(dir, "P-1.nc")); err != nil {
		t.Fatal(err)
	}
	check("P-1.nc is missing")

	// Another job, or another revision, leaves all as it is.
	for _, id := range [][2]string{{"WG-2", "C"}, {"WG-1", "D"}} {
		if _, err := WriteNoted(dir, id[0], id[1], Note{}, planOf(1)); err == nil || !strings.Contains(err.Error(), `job "WG-1", revision "C"`) {
			t.Errorf("%q: %v", id, err)
		}
	}
	check("P-1.nc is missing")

	// A file that cannot be put in its place: nothing has moved.
	write(0)
	if err := os.MkdirAll(filepath.Join(dir, "P-2.nc", "in"), 0o777); err != nil {
		t.Fatal(err)
	}
	if _, err := WriteNoted(dir, "WG-1", "C", Note{}, planOf(1)); err == nil || !strings.Contains(err.Error(), "a folder stands where a file is to be written") {
		t.Errorf("%v", err)
	}
	check("")
	if got := whose(t, dir, []string{"plan.json", "sheet.txt", "P-0.nc", "P-1.nc"}); !slices.Equal(got, []string{"plan 0"}) {
		t.Errorf("%q", got)
	}

	// A list that was cut short, and one that points out of the folder.
	for _, text := range []string{"", "schema = \"borewright/cont", "schema = \"borewright/contents/1\"\nwhole = true\n[sha256]\n\"../plan.json\" = \"00\"\n"} {
		put(ListName, text)
		if _, _, err := Of(dir); err == nil || !strings.Contains(err.Error(), "is not whole: "+ListName+" does not read") {
			t.Errorf("%q: %v", text, err)
		}
	}
	if err := os.RemoveAll(filepath.Join(dir, "P-2.nc")); err != nil {
		t.Fatal(err)
	}
	write(1)
	check("")
}

// Writers of one folder at once: at the end the files are of one plan.
func TestWritersAtOnce(t *testing.T) {
	dir := t.TempDir()
	var all sync.WaitGroup
	for w := range 4 {
		all.Go(func() {
			for i := range 5 {
				if _, err := WriteNoted(dir, "a", "b", Note{}, planOf(5*w+i)); err != nil {
					t.Error(err)
				}
				l, ok, err := Of(dir)
				if !ok || err != nil || !l.Whole {
					t.Errorf("%v %v %v", ok, err, l.Whole)
				}
			}
		})
	}
	all.Wait()
	if got := whose(t, dir, inFolder(t, dir)); len(got) != 1 {
		t.Errorf("files of %q", got)
	}
}

// A writer that is killed at any moment leaves files of one plan, or a folder that says that it
// is not whole; the next writer makes it whole.
func TestKilledWriters(t *testing.T) {
	if dir := os.Getenv("BOREWRIGHT_WRITE_TO"); dir != "" {
		for n := 0; ; n++ {
			if _, err := WriteNoted(dir, "a", "b", Note{}, planOf(n)); err != nil {
				fmt.Println(err)
				os.Exit(2)
			}
		}
	}
	rng := rand.New(rand.NewPCG(19, 1))
	whole, torn := 0, 0
	for range slow.Rounds(t, "killed writers of a folder", 120, 4, 500) {
		dir := t.TempDir()
		var writers []*exec.Cmd
		for range 2 {
			cmd := exec.Command(os.Args[0], "-test.run=^TestKilledWriters$")
			cmd.Env = append(os.Environ(), "BOREWRIGHT_WRITE_TO="+dir)
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			writers = append(writers, cmd)
		}
		for !exists(filepath.Join(dir, "plan.json")) {
			time.Sleep(time.Millisecond)
		}
		time.Sleep(time.Duration(rng.IntN(20_000)) * time.Microsecond)
		for _, cmd := range writers {
			cmd.Process.Kill()
			cmd.Wait()
		}
		l, ok, err := Of(dir)
		switch {
		case err == nil && ok && l.Whole:
			whole++
			if err := l.Check(dir, none); err != nil {
				t.Error(err)
			}
			var names []string
			for name := range l.Sums {
				names = append(names, name)
			}
			if got := whose(t, dir, names); len(got) != 1 {
				t.Errorf("called whole, and of %q", got)
			}
		case err != nil || ok:
			torn++
		default:
			t.Error("files without a list")
		}
		if _, err := WriteNoted(dir, "a", "b", Note{}, planOf(1)); err != nil {
			t.Fatal(err)
		}
		if got := whose(t, dir, []string{"plan.json", "sheet.txt", "P-0.nc", "P-1.nc", "P-2.nc"}); !slices.Equal(got, []string{"plan 1"}) {
			t.Errorf("made anew: %q", got)
		}
		for _, name := range inFolder(t, dir) {
			if strings.HasPrefix(name, tempHead) {
				t.Errorf("%s is left of a run that was killed", name)
			}
		}
	}
	if !testing.Short() && (whole < 10 || torn < 10) {
		t.Errorf("%d whole, %d not: too few of one kind", whole, torn)
	}
}

// What a run that was killed has left beside a single file goes with the next that is written
// there, where it has stood for an hour; what another may be writing stays, and so does what has
// such a name for another reason.
func TestLeftBesideASingleFile(t *testing.T) {
	dir := t.TempDir()
	name := func(c string) string { return tempHead + strings.Repeat(c, tempTail) }
	for file, old := range map[string]time.Duration{name("A"): 2 * time.Hour, name("B"): 0, ".borewright-serve": 2 * time.Hour, tempHead + "mine": 2 * time.Hour} {
		path, then := filepath.Join(dir, file), time.Now().Add(-old)
		if err := errors.Join(os.WriteFile(path, nil, 0o600), os.Chtimes(path, then, then)); err != nil {
			t.Fatal(err)
		}
	}
	for _, write := range []func() error{
		func() error { return Put(dir, []File{{"job.toml", []byte("a")}}) },
		func() error { return New(filepath.Join(dir, "new.toml"), []byte("a")) },
	} {
		path, then := filepath.Join(dir, name("A")), time.Now().Add(-2*time.Hour)
		if err := errors.Join(os.WriteFile(path, nil, 0o600), os.Chtimes(path, then, then), write()); err != nil {
			t.Fatal(err)
		}
		for file, stays := range map[string]bool{name("A"): false, name("B"): true, ".borewright-serve": true, tempHead + "mine": true} {
			if exists(filepath.Join(dir, file)) != stays {
				t.Errorf("%s stands there: %v", file, !stays)
			}
		}
	}
}
