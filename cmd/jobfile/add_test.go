package jobfile_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	. "borewright/cmd/jobfile"
	"borewright/process"
)

// An entry that brings its id is entered once; without one each is an entry of its own.
func TestAddTakesAnIDOnce(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "slip-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	job, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	add := func(id string) error {
		m := process.Measured{ID: id, Station: 1, Visit: 1, Pass: 1, Sizes: []process.Size{{Depth: process.Unplaced, At: -1, Diameter: 90_338_000}}}
		return Add(path, job, &m, func(*process.Results) error { return nil })
	}
	for i, id := range []string{"0123456789ab", "", "0123456789ab", ""} {
		if err := add(id); i == 2 && !errors.Is(err, ErrThere) || i != 2 && err != nil {
			t.Errorf("%d: %v", i, err)
		}
	}
	if r, err := Results(path, job); err != nil || len(r.Entries) != 3 {
		t.Errorf("%v, %v", r, err)
	}
}
