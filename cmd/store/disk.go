package store

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// disk is all that this package asks of a file system when it changes something there. Tests
// have each call fail in its turn.
type disk interface {
	// MakeFolder makes a folder, and those that it stands in.
	MakeFolder(dir string) error
	// New makes a file for writing, with the rights that the user's mask leaves. There must be none.
	New(name string) (file, error)
	// Lock opens a file for reading and writing, makes it where there is none, and keeps
	// others out until it is closed. It waits for who has it.
	Lock(name string) (file, error)
	Rename(from, to string) error
	// Link gives a file a second name that must not be there yet. Not every system can.
	Link(from, to string) error
	Remove(name string) error
	// SyncNames puts the names in a folder onto the disk.
	SyncNames(dir string) error
}

// file is an open file of a disk.
type file interface {
	io.ReadWriteSeeker
	Truncate(size int64) error
	Sync() error
	Close() error
}

// system is the disk of the operating system.
type system struct{}

func (system) MakeFolder(dir string) error { return os.MkdirAll(dir, 0o777) }

func (system) New(name string) (file, error) {
	return opened(os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666))
}

func (system) Lock(name string) (file, error) {
	if err := regular(name); err != nil {
		return nil, err
	}
	const how = os.O_RDWR | os.O_CREATE
	f, err := lockedfile.OpenFile(name, how, 0o666)
	if errors.Is(err, errors.ErrUnsupported) { // a system of one process has no locks
		return opened(os.OpenFile(name, how, 0o666))
	} else if err != nil {
		return nil, err
	}
	return f, nil
}

// opened is a file, or no file at all beside an error.
func opened(f *os.File, err error) (file, error) {
	if err != nil {
		return nil, err
	}
	return f, nil
}

func (system) Rename(from, to string) error { return os.Rename(from, to) }

func (system) Link(from, to string) error { return os.Link(from, to) }

func (system) Remove(name string) error { return os.Remove(name) }

func (system) SyncNames(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	f.Sync() // not every system can
	return f.Close()
}

// ReadLocked reads a file that others may be writing to, the first most bytes of it. It
// waits for who writes.
func ReadLocked(name string, most int64) ([]byte, error) {
	if err := regular(name); err != nil {
		return nil, err
	}
	f, err := lockedfile.Open(name)
	if errors.Is(err, errors.ErrUnsupported) {
		return Read(name, most)
	} else if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most))
}

// readWhole reads a file of a disk; what is none is an error.
func readWhole(name string) ([]byte, error) {
	if err := regular(name); err != nil {
		return nil, err
	}
	return os.ReadFile(name)
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return !errors.Is(err, fs.ErrNotExist)
}

// makeFolder makes a folder where there is none, its name on the disk.
func makeFolder(d disk, dir string) error {
	was := exists(dir)
	if err := d.MakeFolder(dir); err != nil || was {
		return err
	}
	return d.SyncNames(filepath.Dir(dir))
}

// writeNew writes a new file to the disk, or leaves none.
func writeNew(d disk, name string, data []byte) error {
	f, err := d.New(name)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		d.Remove(name) // no half of a file
	}
	return err
}
