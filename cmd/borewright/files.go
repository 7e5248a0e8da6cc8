package main

import (
	"io"
	"os"
)

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
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
