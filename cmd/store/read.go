package store

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"
)

// How long a pipe or a device is waited for.
const (
	waitWriter = time.Second      // until somebody writes to a pipe
	waitBytes  = 10 * time.Second // for more bytes of one that has begun
)

// Read reads a file, the first most bytes of it. A pipe or a device is read as well, as long
// as something comes: nothing is waited for without end.
func Read(path string, most int64) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, err
	case info.IsDir():
		return nil, fmt.Errorf("%s: a folder stands where a file should", path)
	case !info.Mode().IsRegular() || info.Size() == 0: // what a kernel makes as it is read looks like an empty file, and may wait
		return readStream(path, most, waitWriter, waitBytes)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most))
}

// readStream reads what is no file of a disk, and gives up where no writer comes, or no more
// bytes.
func readStream(path string, most int64, writer, bytes time.Duration) ([]byte, error) {
	f, err := os.OpenFile(path, os.O_RDONLY|noWait, 0)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var data []byte
	buf := make([]byte, 64<<10)
	for begun := time.Now(); int64(len(data)) < most; {
		f.SetReadDeadline(time.Now().Add(bytes)) // what has no deadline does not wait either: it was opened so
		n, err := f.Read(buf[:min(int64(len(buf)), most-int64(len(data)))])
		data = append(data, buf[:n]...)
		switch {
		case err == nil:
		case errors.Is(err, io.EOF) && len(data) == 0 && isPipe(f) && time.Since(begun) < writer:
			time.Sleep(10 * time.Millisecond) // its writer may be on the way
		case errors.Is(err, io.EOF) && len(data) == 0 && isPipe(f):
			return nil, fmt.Errorf("%s: a pipe that nobody writes to; name a file", path)
		case errors.Is(err, io.EOF):
			return data, nil
		case errors.Is(err, os.ErrDeadlineExceeded):
			return nil, fmt.Errorf("%s: nothing came for %v; name a file", path, bytes)
		default:
			return nil, err
		}
	}
	return data, nil
}

func isPipe(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&fs.ModeNamedPipe != 0
}

// regular is an error where something stands at a path that is no file of a disk: it could
// not be locked, added to or put back. What is not there is no error.
func regular(path string) error {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("%s: a %s stands where a file should: move it away", path, kindOf(info.Mode()))
	}
	return err
}

func kindOf(m fs.FileMode) string {
	switch {
	case m.IsDir():
		return "folder"
	case m&fs.ModeNamedPipe != 0:
		return "pipe"
	case m&fs.ModeSocket != 0:
		return "socket"
	}
	return "device"
}
