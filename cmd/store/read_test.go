//go:build unix

package store

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A pipe is read as long as somebody writes to it, and refused where nobody does or no more
// comes; a device is read up to the most; a folder is none of them.
func TestReadStreams(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := exec.Command("mkfifo", pipe).Run(); err != nil {
		t.Skip("no mkfifo:", err)
	}
	const wait = 50 * time.Millisecond
	for _, row := range []struct {
		why, writes, want string
		open              time.Duration // how long it stays open behind what it writes
	}{
		{"nobody writes", "", "a pipe that nobody writes to", 0},
		{"written and closed", "units", "", 0},
		{"written, and left open", "units", "nothing came for 50ms", 4 * wait},
	} {
		done := make(chan bool)
		if row.writes != "" {
			go func() {
				f, err := os.OpenFile(pipe, os.O_WRONLY, 0)
				if err == nil {
					f.WriteString(row.writes)
					time.Sleep(row.open)
					f.Close()
				}
				close(done)
			}()
		} else {
			close(done)
		}
		writer := wait
		if row.writes != "" {
			writer = time.Minute
		}
		data, err := readStream(pipe, 100, writer, wait)
		if row.want == "" && (err != nil || string(data) != row.writes) || row.want != "" && (err == nil || !strings.Contains(err.Error(), row.want)) {
			t.Errorf("%s: %q, %v", row.why, data, err)
		}
		<-done
	}
	if data, err := Read("/dev/zero", 1000); err != nil || len(data) != 1000 {
		t.Errorf("/dev/zero: %d bytes, %v", len(data), err)
	}
	if _, err := os.Stat("/proc/self/status"); err == nil { // it says that it holds nothing, and holds something
		if data, err := Read("/proc/self/status", 1000); err != nil || len(data) == 0 {
			t.Errorf("what is made as it is read: %d bytes, %v", len(data), err)
		}
	}
	if _, err := Read(t.TempDir(), 1000); err == nil || !strings.Contains(err.Error(), "a folder stands where a file should") {
		t.Errorf("a folder: %v", err)
	}
	for what, f := range map[string]func() error{
		"a list":    func() error { _, err := WriteNoted(pipe, "a", "b", Note{}, nil); return err },
		"an entry":  func() error { return Grow(pipe, nil) },
		"a results": func() error { _, err := ReadLocked(pipe, 10); return err },
	} {
		if err := f(); err == nil {
			t.Errorf("%s at a pipe", what)
		}
	}
	// A pipe among the files of a plan: told, and put aside by the next plan.
	dir := t.TempDir()
	if _, err := WriteNoted(dir, "a", "b", Note{}, planOf(2)); err != nil {
		t.Fatal(err)
	}
	at := filepath.Join(dir, "P-3.nc")
	if err := os.Rename(pipe, at); err != nil {
		t.Fatal(err)
	}
	if l, _, err := Of(dir); err != nil || l.Check(dir, none) == nil {
		t.Errorf("a pipe for a program: %v, %v", err, l.Check(dir, none))
	}
	if left, err := WriteNoted(dir, "a", "b", Note{}, planOf(0)); err != nil || len(left) != 2 || left[1].Kept != "P-3.nc.earlier" {
		t.Errorf("%v, %v", left, err)
	}
}

// New files have the rights that the user's mask leaves, whoever writes them.
func TestRights(t *testing.T) {
	defer syscall.Umask(syscall.Umask(0o006))
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	_, err := WriteNoted(dir, "a", "b", Note{}, planOf(0))
	torn := os.WriteFile(in("old.toml"), []byte("torn"), 0o600)
	err = errors.Join(err, torn, New(in("job.toml"), nil), Put(dir, []File{{"record.txt", nil}}),
		Grow(in("job.results.toml"), func([]byte) (int, []byte, error) { return 0, []byte("<1>"), nil }),
		Grow(in("old.toml"), func([]byte) (int, []byte, error) { return 0, []byte("<1>"), nil }))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"plan.json", "P-0.nc", ListName, "job.toml", "record.txt", "job.results.toml", "old.torn-1"} {
		if info, err := os.Stat(in(name)); err != nil || info.Mode() != 0o660 {
			t.Errorf("%s: %v, %v", name, info.Mode(), err)
		}
	}
}
