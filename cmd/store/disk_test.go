package store

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/process/slow"
)

var errFault = errors.New("a fault that was put in")

// How a process fares after a call of its disk has failed.
type fate string

const (
	goesOn    fate = "the process goes on"
	killed    fate = "the process is killed there"   // no call comes after
	powerless fate = "the power fails there as well" // and what was not put onto the disk is lost
)

// faulty is the system's disk of which one call fails, counted from 0. A write that fails has
// written a part. Nothing is put onto the disk in truth; what would not be is known.
type faulty struct {
	system
	fate  fate
	fails int
	calls int
	said  string            // which call it was
	bytes map[string]int64  // how much of a file is on the disk, where not all of it is
	names map[string]func() // what becomes of a name that is not, when the power fails
}

func (d *faulty) dead() bool { return d.fate != goesOn && d.calls > d.fails }

// fault says that a call fails.
func (d *faulty) fault(call, name string) bool {
	was := d.dead()
	if d.calls++; was || d.calls-1 != d.fails {
		return was
	}
	d.said = call + " " + filepath.Base(name)
	return true
}

// lose loses what is not on the disk.
func (d *faulty) lose() {
	if d.fate != powerless {
		return
	}
	for name, n := range d.bytes {
		os.Truncate(name, n)
	}
	for _, undo := range d.names {
		undo()
	}
}

func (d *faulty) MakeFolder(dir string) error {
	if d.fault("make folder", dir) {
		return errFault
	}
	return d.system.MakeFolder(dir)
}

func (d *faulty) New(name string) (file, error) { return d.open("new", name, d.system.New) }

func (d *faulty) Lock(name string) (file, error) { return d.open("lock", name, d.system.Lock) }

func (d *faulty) open(call, name string, open func(string) (file, error)) (file, error) {
	if d.fault(call, name) {
		return nil, errFault
	}
	fresh := !exists(name)
	f, err := open(name)
	if err != nil {
		return nil, err
	}
	if fresh {
		d.names[name] = func() { os.Remove(name) }
	}
	return faultyFile{f, d, name}, nil
}

func (d *faulty) Rename(from, to string) error {
	if d.fault("rename", to) {
		return errFault
	}
	was, err := os.ReadFile(to)
	if _, twice := d.names[to]; !twice {
		d.names[to] = func() {
			if os.Rename(to, from); err == nil {
				os.WriteFile(to, was, 0o644)
			}
		}
	}
	delete(d.names, from)
	if n, some := d.bytes[from]; some {
		d.bytes[to] = n
	}
	return d.system.Rename(from, to)
}

func (d *faulty) Link(from, to string) error {
	if d.fault("link", to) {
		return errFault
	}
	err := d.system.Link(from, to)
	if err == nil {
		d.names[to] = func() { os.Remove(to) }
		if n, some := d.bytes[from]; some {
			d.bytes[to] = n
		}
	}
	return err
}

func (d *faulty) Remove(name string) error {
	if d.fault("remove", name) {
		return errFault
	}
	return d.system.Remove(name)
}

func (d *faulty) SyncNames(dir string) error {
	if d.fault("sync names", dir) {
		return errFault
	}
	maps.DeleteFunc(d.names, func(name string, _ func()) bool { return filepath.Dir(name) == dir })
	return nil
}

type faultyFile struct {
	file
	d    *faulty
	name string
}

func (f faultyFile) Write(data []byte) (n int, err error) {
	dead := f.d.dead()
	if f.d.fault("write", f.name) {
		if !dead {
			n, _ = f.file.Write(data[:len(data)/2])
		}
		return n, errFault
	}
	f.unsynced(math.MaxInt64)
	return f.file.Write(data)
}

// unsynced notes that no more of a file than size, or than stood there, is on the disk.
func (f faultyFile) unsynced(size int64) {
	info, err := os.Stat(f.name)
	if err != nil {
		return
	}
	if n, some := f.d.bytes[f.name]; some {
		size = min(size, n)
	}
	f.d.bytes[f.name] = min(size, info.Size())
}

func (f faultyFile) Truncate(size int64) error {
	if f.d.fault("truncate", f.name) {
		return errFault
	}
	f.unsynced(size)
	return f.file.Truncate(size)
}

func (f faultyFile) Sync() error {
	if f.d.fault("sync", f.name) {
		return errFault
	}
	delete(f.d.bytes, f.name)
	return nil
}

func (f faultyFile) Close() error { // a file that is closed stays closed
	err := f.file.Close()
	if f.d.fault("close", f.name) {
		return errFault
	}
	return err
}

// sound is a disk of which no call fails.
func sound() *faulty {
	return &faulty{fate: goesOn, fails: -1, bytes: map[string]int64{}, names: map[string]func(){}}
}

// everyFault has each call of a piece of work fail, and after the last one none, with each fate.
// The work is told why it is done, and calls ended where its process has come to its end.
func everyFault(t *testing.T, work func(d *faulty, why string)) (faults int) {
	t.Helper()
	step := slow.Rounds(t, "is the step from call to call", 1, 11)
	for i, f := range []fate{goesOn, killed, powerless} {
		for n := i; ; n += step {
			d := sound()
			d.fate, d.fails = f, n
			work(d, fmt.Sprintf("call %d fails, %s", n, f))
			if d.said == "" {
				break
			}
			faults++
		}
	}
	return faults
}

// changed is a program of the plan before that somebody has changed at the control.
const changed = "P-3.nc"

// Each call of a writer of a folder fails in its turn. The folder is of one plan, or says that
// it is not; what is told to be written is; files of others stand there; and the next run makes
// it whole.
func TestEveryFaultOfAFolder(t *testing.T) {
	faults := everyFault(t, func(d *faulty, why string) {
		dir := filepath.Join(t.TempDir(), "out", "WG-1")
		if _, err := writeNoted(sound(), dir, "a", "b", Note{}, planOf(2)); err != nil {
			t.Fatal(err)
		}
		for name, text := range map[string]string{"notes.txt": "mine", changed: "changed at the control"} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		_, err := writeNoted(d, dir, "a", "b", Note{}, planOf(0))
		d.lose()
		if d.said == "" && err != nil || err != nil && !errors.Is(err, errFault) {
			t.Errorf("%s: %v", why, err)
		}
		holdsOnePlan(t, dir, why, err == nil)
		for _, name := range []string{"notes.txt", changed} {
			if name == changed && exists(filepath.Join(dir, name+".earlier")) {
				name += ".earlier"
			}
			if data, err := os.ReadFile(filepath.Join(dir, name)); err != nil || len(data) > 30 {
				t.Errorf("%s: %s is lost: %v", why, name, err)
			}
		}
		if _, err := writeNoted(sound(), dir, "a", "b", Note{}, planOf(1)); err != nil {
			t.Fatalf("%s: not made anew: %v", why, err)
		}
		holdsOnePlan(t, dir, why+", made anew", true)
		for _, name := range inFolder(t, dir) {
			if strings.HasPrefix(name, tempHead) {
				t.Errorf("%s: %s is left", why, name)
			}
		}
	})
	t.Logf("%d faults", faults)
	if faults < 90 && !testing.Short() {
		t.Errorf("only %d calls can fail", faults)
	}
}

// holdsOnePlan: a folder that is called whole is, and one that was told to be written is whole.
func holdsOnePlan(t *testing.T, dir, why string, told bool) {
	t.Helper()
	l, ok, err := Of(dir)
	if err == nil && ok && l.Whole {
		var names []string
		for name := range l.Sums {
			if name != changed {
				names = append(names, name)
			}
		}
		if got := whose(t, dir, names); len(got) != 1 {
			t.Errorf("%s: called whole, and of %q", why, got)
		}
		if bad := l.Check(dir, none); bad != nil && told {
			t.Errorf("%s: %v", why, bad)
		}
	} else if told {
		t.Errorf("%s: told to be written, and is not whole: %v", why, err)
	} else if err == nil && !ok {
		t.Errorf("%s: no list", why)
	}
}

// Each call of a file that is added to fails in its turn. What was added before stands there,
// byte for byte; what is told to be added is, once, and what is told not to be is not, but where
// that is told not to be known; what was cut off is kept beside; and the next goes in.
func TestEveryFaultOfAnEntry(t *testing.T) {
	add := func(d disk, name, text string) error {
		return grow(d, name, func(data []byte) (int, []byte, error) { return len(entries(data)), []byte(text), nil })
	}
	for _, was := range []string{"", "<1><2>", "<1><2><torn", "<1><2>\x00\x00"} {
		faults := everyFault(t, func(d *faulty, why string) {
			why = fmt.Sprintf("%q, %s", was, why)
			name := filepath.Join(t.TempDir(), "job.results.toml")
			if was != "" {
				if err := os.WriteFile(name, []byte(was), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			err := add(d, name, "<3, a longer one>")
			d.lose()
			if d.said == "" && err != nil {
				t.Fatal(err)
			}
			data, _ := os.ReadFile(name)
			got, good := entries(data), entries([]byte(was))
			known := err == nil || !strings.Contains(err.Error(), "look before it is entered again")
			switch {
			case !strings.HasPrefix(got, good):
				t.Errorf("%s: of %q there is %q", why, good, got)
			case err == nil && got != good+"<3, a longer one>":
				t.Errorf("%s: told to be entered, and there is %q", why, data)
			case err != nil && known && got != good:
				t.Errorf("%s: told not to be entered, and there is %q: %v", why, data, err)
			}
			if err := add(sound(), name, "<4>"); err != nil {
				t.Fatalf("%s: the next: %v", why, err)
			}
			if data, _ = os.ReadFile(name); string(data) != got+"<4>" {
				t.Errorf("%s: the next makes %q of %q", why, data, got)
			}
			if kept, _ := os.ReadFile(strings.TrimSuffix(name, ".toml") + ".torn-1"); strings.Contains(was, "<torn") && !strings.HasPrefix(string(kept), "<t") {
				t.Errorf("%s: what was cut off is not kept: %q", why, kept)
			}
		})
		if faults < 8 && !testing.Short() {
			t.Errorf("%q: only %d calls can fail", was, faults)
		}
	}
}

// entries are the whole entries at the head of a file of the test above.
func entries(data []byte) string { return string(data[:bytes.LastIndexByte(data, '>')+1]) }

// Each call of a new file fails: there is the whole file, or none where that is told.
func TestEveryFaultOfANewFile(t *testing.T) {
	everyFault(t, func(d *faulty, why string) {
		name := filepath.Join(t.TempDir(), "job.toml")
		err := newFile(d, name, []byte("units = \"in\""))
		d.lose()
		if data, e := os.ReadFile(name); (err == nil || e == nil) && string(data) != "units = \"in\"" {
			t.Errorf("%s: %v, and there is %q", why, err, data)
		}
	})
}

// Each call of files put into a new folder fails: each is whole or not there, and all are there
// where that is told.
func TestEveryFaultOfPut(t *testing.T) {
	files := []File{{"record.txt", []byte("as built")}, {"record.html", []byte("<as built>")}}
	everyFault(t, func(d *faulty, why string) {
		dir := filepath.Join(t.TempDir(), "record")
		err := putIn(d, dir, files)
		d.lose()
		for _, f := range files {
			if data, e := os.ReadFile(filepath.Join(dir, f.Name)); (err == nil || e == nil) && string(data) != string(f.Data) {
				t.Errorf("%s: %v, and %s holds %q", why, err, f.Name, data)
			}
		}
	})
}

// Each call of a file put in place of what was read fails: there is the old one or the new one,
// whole, and the new one where that is told.
func TestEveryFaultOfSwap(t *testing.T) {
	everyFault(t, func(d *faulty, why string) {
		name := filepath.Join(t.TempDir(), "job.toml")
		if err := os.WriteFile(name, []byte("old = 1"), 0o644); err != nil {
			t.Fatal(err)
		}
		err := swap(d, name, []byte("old = 1"), []byte("new = 22"))
		d.lose()
		data, _ := os.ReadFile(name)
		if got := string(data); got != "new = 22" && (got != "old = 1" || err == nil) {
			t.Errorf("%s: %v, and there is %q", why, err, got)
		}
	})
}

// What somebody else has written, taken away or made a link of stays as it is.
func TestSwapKeepsWhatOthersWrote(t *testing.T) {
	dir := t.TempDir()
	name, aim := filepath.Join(dir, "job.toml"), filepath.Join(dir, "aim.toml")
	for why, make := range map[string]func() error{
		"changed": func() error { return os.WriteFile(name, []byte("theirs"), 0o644) },
		"gone":    func() error { return nil },
		"a link":  func() error { os.WriteFile(aim, []byte("read"), 0o644); return os.Symlink(aim, name) },
	} {
		os.Remove(name)
		if err := make(); err != nil {
			t.Skip(err)
		}
		was, _ := os.ReadFile(name)
		if err := Swap(name, []byte("read"), []byte("ours")); !errors.Is(err, ErrOther) {
			t.Errorf("%s: %v", why, err)
		}
		if now, _ := os.ReadFile(name); !bytes.Equal(was, now) {
			t.Errorf("%s: there is %q", why, now)
		}
	}
	if left, _ := filepath.Glob(filepath.Join(dir, ".*")); len(left) > 0 {
		t.Errorf("left: %v", left)
	}
}
