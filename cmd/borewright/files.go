package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"borewright/process"
	"borewright/process/files"
)

// readMost is the most of a file that is read: a little over what a job may
// be, so that the loader sees that it is too long and says so.
const readMost = 5<<20 + 1

// readFile reads a file, the first readMost bytes of it.
func readFile(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, readMost))
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

// file is one file to be written.
type file struct {
	name string
	data []byte
}

// writeAll puts files into a folder, each whole or not at all: all are written
// under temporary names first and renamed when the last one stands.
func writeAll(dir string, files []file) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	temps := make([]string, 0, len(files))
	defer func() {
		for _, t := range temps {
			os.Remove(t) // after a rename there is nothing left to remove
		}
	}()
	for _, f := range files {
		t, err := os.CreateTemp(dir, ".borewright-*")
		if err != nil {
			return err
		}
		temps = append(temps, t.Name())
		_, err = t.Write(f.data)
		if err == nil {
			err = t.Chmod(0o644)
		}
		if e := t.Close(); err == nil {
			err = e
		}
		if err != nil {
			return fmt.Errorf("%s: %w", filepath.Join(dir, f.name), err)
		}
	}
	for i, f := range files {
		if err := os.Rename(temps[i], filepath.Join(dir, f.name)); err != nil {
			return err
		}
	}
	return nil
}
