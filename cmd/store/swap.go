package store

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrOther is a file that somebody else has changed, or taken away, since it was read.
var ErrOther = errors.New("the file was changed by somebody meanwhile")

// Swap writes a file in place of what was read of it: whole or not at all, and not at all where
// it holds anything else by now, which is looked at in the last moment before. It is on the
// disk when Swap comes back. A link is no such file: what it leads to would stay as it was.
func Swap(path string, was, now []byte) error { return swap(system{}, path, was, now) }

func swap(d disk, path string, was, now []byte) error {
	dir := filepath.Dir(path)
	return put(d, dir, []File{{Name: filepath.Base(path), Data: now}}, false, func() error {
		info, err := os.Lstat(path)
		if errors.Is(err, fs.ErrNotExist) || err == nil && !info.Mode().IsRegular() {
			return ErrOther
		} else if err != nil {
			return err
		}
		there, err := readWhole(path)
		if err == nil && !bytes.Equal(there, was) {
			err = ErrOther
		}
		return err
	})
}
