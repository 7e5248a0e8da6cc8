package main

import (
	"bytes"
	"crypto/rand"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/rogpeppe/go-internal/lockedfile"

	"borewright/cmd/store"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/sheets/document"
)

// resultsPath is the results file beside a job file.
func resultsPath(job string) string {
	return strings.TrimSuffix(job, ".toml") + ".results.toml"
}

// loadResults reads what was measured on a job; nothing where there is no such
// file. The lock keeps an entry that is being written from being read by half.
func loadResults(path string, job *process.Job) (*process.Results, error) {
	name := resultsPath(path)
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		return &process.Results{File: name}, nil
	}
	f, err := lockedfile.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, readMost))
	if err != nil {
		return nil, err
	}
	return files.Results(name, data, job)
}

// makeAfter plans; a test that asks for many answers of one job keeps its plan.
var makeAfter = plan.MakeAfter

// planNow plans a job after what was measured on it.
func planNow(job *process.Job, path string) (*plan.Plan, error) {
	results, err := loadResults(path, job)
	if err != nil {
		return nil, err
	}
	return makeAfter(job, results), nil
}

// addResult puts an entry at the end of the results file. The file is locked
// against others from the first look to the last byte; the system gives the
// lock back when a process dies. check sees what is there by then. The entry
// goes out in one write, and the call comes back when the disk has it. What an
// entry cut short has left is cut off first, for it was never acknowledged, and is kept
// in a file beside.
func addResult(path string, job *process.Job, m *process.Measured, check func(*process.Results) error) error {
	name := resultsPath(path)
	f, err := lockedfile.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, readMost))
	if err != nil {
		return err
	}
	results, err := files.Results(name, data, job)
	if err != nil {
		return fmt.Errorf("%w\nnothing is entered before the file reads", err)
	}
	if err := check(results); err != nil {
		return err
	}
	m.ID = newID()
	text := files.Entry(job, m)
	whole, torn := files.SplitTorn(data)
	if len(whole) > 0 && !bytes.HasSuffix(whole, []byte("\n")) {
		text = append([]byte("\n"), text...)
	}
	// Read back before it is written, so that nothing is entered that would
	// not be read.
	if _, err := files.Results(name, append(append([]byte(nil), whole...), text...), job); err != nil {
		return err
	}
	if len(bytes.Trim(torn, "\x00")) > 0 {
		if err := keepTorn(name, torn); err != nil {
			return fmt.Errorf("%s: the entry is not written, because what an entry cut short has left cannot be kept: %w", name, err)
		}
	}
	if len(whole) < len(data) {
		if err := f.Truncate(int64(len(whole))); err != nil {
			return err
		}
	}
	if _, err := f.Seek(int64(len(whole)), io.SeekStart); err != nil {
		return err
	}
	if _, err := f.Write(text); err != nil {
		return fmt.Errorf("%s: the entry is not written: %w", name, err)
	}
	if err := f.Sync(); err != nil {
		return fmt.Errorf("%s: the entry is not safe on the disk: %w", name, err)
	}
	if len(data) == 0 { // the name of a new file is in its folder, whoever made it
		store.SyncFolder(filepath.Dir(name))
	}
	return nil
}

// keepTorn puts what is cut off a results file into a file beside it, under the first
// name with a number that is free, and onto the disk.
func keepTorn(name string, torn []byte) error {
	for n := 1; ; n++ {
		f, err := os.OpenFile(fmt.Sprintf("%s.torn-%d", strings.TrimSuffix(name, ".toml"), n), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if errors.Is(err, fs.ErrExist) && n < 1000 {
			continue
		} else if err != nil {
			return err
		}
		_, err = f.Write(torn)
		err = errors.Join(err, f.Sync(), f.Close())
		store.SyncFolder(filepath.Dir(name))
		return err
	}
}

// newID tells an entry from all others.
func newID() string {
	var b [6]byte
	rand.Read(b[:]) // never fails
	return hex.EncodeToString(b[:])
}

// keepWorkedTo refuses a folder that holds the plan that was worked to before
// the last measurement: what was cut from stays as it was.
func keepWorkedTo(p *plan.Plan, dir string) error {
	var there struct {
		Job struct{ Number, Revision string }
	}
	old, err := os.ReadFile(filepath.Join(dir, "plan.json"))
	if l, ok, e := store.Of(dir); e == nil && ok && l.Number+l.Revision != "" {
		there.Job.Number, there.Job.Revision = l.Number, l.Revision
	} else if err != nil || json.Unmarshal(old, &there) != nil {
		return nil // nothing there to keep
	}
	if there.Job.Number != p.Job.Number || there.Job.Revision != p.Job.Revision {
		return fmt.Errorf("make: %s holds the plan of job %q, revision %q, and this one is job %q, revision %q; name another folder with --out",
			dir, there.Job.Number, there.Job.Revision, p.Job.Number, p.Job.Revision)
	}
	if p.Findings == nil {
		return nil
	}
	if now, err := document.Write(p); err != nil || bytes.Equal(now, old) {
		return err
	}
	return fmt.Errorf("make: %s holds an earlier plan of this job, which was worked to; name another folder with --out, or leave --out away", dir)
}

// planOf reads a job and plans it, from what was measured on it if anything was.
func planOf(path string) (*plan.Plan, error) {
	job, err := loadJob(path)
	if err != nil {
		return nil, err
	}
	return planNow(job, path)
}
