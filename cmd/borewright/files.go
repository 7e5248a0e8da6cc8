package main

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"borewright/cmd/store"
	"borewright/process"
	"borewright/process/files"
	"borewright/process/source"
)

// readMost is the most of a file that is read: a little over what a job may
// be, so that the loader sees that it is too long and says so.
const readMost = 5<<20 + 1

// readFile reads a file, the first readMost bytes of it.
func readFile(path string) ([]byte, error) { return readUpTo(path, readMost) }

func readUpTo(path string, most int64) ([]byte, error) {
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

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// loadJob reads a job file and the files it names, which stand relative to it.
func loadJob(path string) (*process.Job, error) {
	data, err := readFile(path)
	if err != nil {
		return nil, err
	}
	return files.Job(path, data, beside(path))
}

// beside reads the files that a file names: they stand relative to it.
func beside(path string) func(name string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		if !filepath.IsAbs(name) {
			name = filepath.Join(filepath.Dir(path), name)
		}
		return readFile(name)
	}
}

// output is where a command prints what was asked for.
type output struct{ io.Writer }

// bytes prints what a face has made, or gives its error.
func (o output) bytes(data []byte, err error) error {
	if err == nil {
		_, err = o.Write(data)
	}
	return err
}
