package jobfile

import (
	"bytes"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"borewright/cmd/store"
	"borewright/process"
	"borewright/process/approval"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/grown"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/source"
	"borewright/sheets/words"
)

// ResultsPath is the results file beside a job file.
func ResultsPath(job string) string {
	return strings.TrimSuffix(job, ".toml") + ".results.toml"
}

// Results reads what was measured on a job; nothing where there is no such
// file. The lock keeps an entry that is being written from being read by half.
func Results(path string, job *process.Job) (*process.Results, error) {
	name := ResultsPath(path)
	data, err := store.ReadLocked(name, readMost)
	if errors.Is(err, fs.ErrNotExist) {
		return &process.Results{File: name}, nil
	} else if err != nil {
		return nil, err
	}
	return files.Results(name, data, job)
}

// MakeAfter plans; a test that asks for many answers of one job keeps its plan.
var MakeAfter = plan.MakeAfter

// PlanNow plans a job after what was measured on it.
func PlanNow(job *process.Job, path string) (*plan.Plan, error) {
	results, err := Results(path, job)
	if err != nil {
		return nil, err
	}
	return MakeAfter(job, results), nil
}

// ErrThere is an entry that the file holds already, by its id: it was sent twice.
var ErrThere = errors.New("this entry is in the file already")

// Add puts an entry at the end of the results file, under its lock; check sees what
// the file holds by then. What an entry cut short has left is cut off first, for it was never
// acknowledged. An entry that brings an id is entered once, however often it is sent.
func Add(path string, job *process.Job, m *process.Measured, check func(*process.Results) error) error {
	name := ResultsPath(path)
	return store.Grow(name, func(data []byte) (stay int, text []byte, err error) {
		results, err := files.Results(name, data, job)
		if err != nil {
			return 0, nil, fmt.Errorf("%w\nnothing is entered before the file reads", err)
		}
		if m.ID != "" && slices.ContainsFunc(results.Entries, func(e process.Measured) bool { return e.ID == m.ID }) {
			return 0, nil, ErrThere
		}
		if err := check(results); err != nil {
			return 0, nil, err
		}
		if m.ID == "" {
			m.ID = NewID()
		}
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

// NewID tells an entry from all others.
func NewID() string {
	var b [6]byte
	rand.Read(b[:]) // never fails
	return hex.EncodeToString(b[:])
}

// PlanOf reads a job and plans it, from what was measured on it if anything was.
func PlanOf(path string) (*plan.Plan, error) {
	job, err := Load(path)
	if err != nil {
		return nil, err
	}
	return PlanNow(job, path)
}

// torn is what is to be said of an entry that was not written whole, by its file and its line.
func torn(file string, line int) fact.Fact {
	return fact.New(plan.TornEntry, fact.Name(file), fact.Count(line))
}

// TornBeside is what is to be said of entries beside a job file, results and approvals, that were
// not written whole. A file that is not there or cannot be read has none.
func TornBeside(path string) (said []string) {
	for _, f := range []struct {
		name string
		part func([]byte) (whole, torn []byte)
	}{{ResultsPath(path), files.SplitTorn}, {ApprovalsPath(path), approval.SplitTorn}} {
		data, err := store.ReadLocked(f.name, readMost)
		if line := grown.TornAt(f.part(data)); err == nil && line > 0 {
			said = append(said, words.In(qty.Metric).Sentence(torn(source.FileName(f.name), line)))
		}
	}
	return said
}
