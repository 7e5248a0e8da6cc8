package main

import (
	"bytes"
	"crypto/rand"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

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
	data, err := store.ReadLocked(name, readMost)
	if errors.Is(err, fs.ErrNotExist) {
		return &process.Results{File: name}, nil
	} else if err != nil {
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

// addResult puts an entry at the end of the results file, under its lock; check sees what
// the file holds by then. What an entry cut short has left is cut off first, for it was never
// acknowledged.
func addResult(path string, job *process.Job, m *process.Measured, check func(*process.Results) error) error {
	name := resultsPath(path)
	return store.Grow(name, func(data []byte) (stay int, text []byte, err error) {
		results, err := files.Results(name, data, job)
		if err != nil {
			return 0, nil, fmt.Errorf("%w\nnothing is entered before the file reads", err)
		}
		if err := check(results); err != nil {
			return 0, nil, err
		}
		m.ID = newID()
		text = files.Entry(job, m)
		whole, _ := files.SplitTorn(data)
		if len(whole) > 0 && !bytes.HasSuffix(whole, []byte("\n")) {
			text = append([]byte("\n"), text...)
		}
		// Read back before it is written, so that nothing is entered that would
		// not be read.
		_, err = files.Results(name, slices.Concat(whole, text), job)
		return len(whole), text, err
	})
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
	old, err := readFile(filepath.Join(dir, "plan.json"))
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
