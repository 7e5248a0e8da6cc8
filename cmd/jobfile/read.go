// Package jobfile is a job file on the disk with what stands beside it: the files that it
// names, its results file, and the folder that is made of it. It calculates nothing.
package jobfile

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"borewright/cmd/store"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/source"
)

// readMost is the most of a file that is read: a little over what a job may
// be, so that the loader sees that it is too long and says so.
const readMost = 5<<20 + 1

// Read reads a file, the first readMost bytes of it.
func Read(path string) ([]byte, error) { return ReadUpTo(path, readMost) }

// ReadUpTo reads the first most bytes of a file.
func ReadUpTo(path string, most int64) ([]byte, error) {
	data, err := store.Read(path, most)
	if errors.Is(err, fs.ErrNotExist) {
		err = missing(path)
	}
	return data, err
}

// missing is a file that is not there. Its text says what is near.
type missing string

// Is makes it one with the error of the system.
func (m missing) Is(err error) bool { return err == fs.ErrNotExist }

func (m missing) Error() string {
	path := string(m)
	if path == "" {
		return "the name of a file is empty; give one"
	}
	if to, err := os.Readlink(path); err == nil {
		return path + ": a link to " + to + ", which is not there"
	}
	dir, said := filepath.Dir(path), path+": there is no such file"
	entries, err := os.ReadDir(dir)
	if err != nil {
		return path + ": there is no folder " + dir
	}
	var names []string
	for _, e := range entries {
		if filepath.Ext(e.Name()) == filepath.Ext(path) && !e.IsDir() {
			names = append(names, e.Name())
		}
	}
	if near := source.Nearest(filepath.Base(path), names); near != "" {
		return said + "; did you mean " + filepath.Join(dir, near) + "?"
	} else if len(names) > 0 && len(names) <= 6 {
		return said + "; there is " + strings.Join(names, ", ")
	}
	return said
}

// Load reads a job file and the files it names, which stand relative to it. What it leaves to the
// shop's lists is chosen.
func Load(path string) (*process.Job, error) {
	data, err := Read(path)
	if err != nil {
		return nil, err
	}
	return plan.Tooled(files.Job(path, data, Beside(path)))
}

// SumOf tells whether a job file has changed: the sum of its bytes, SHA-256 in hexadecimal.
func SumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Beside reads the files that a file names: they stand relative to it.
func Beside(path string) func(name string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		if !filepath.IsAbs(name) {
			name = filepath.Join(filepath.Dir(path), name)
		}
		return Read(name)
	}
}
