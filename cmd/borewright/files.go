package main

import (
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
