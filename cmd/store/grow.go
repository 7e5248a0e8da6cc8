package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"
)

// growMost is the most that a file which is added to may hold.
const growMost = 5<<20 + 1

// Next looks at what a file holds and says how many bytes of it stay, and what is added
// behind them.
type Next func(data []byte) (stay int, text []byte, err error)

// Grow adds to the end of a file that is only ever added to, and makes it where there is none.
// Others are kept out from the first look to the last byte. What is added is on the disk when
// Grow comes back without an error; with one, nothing is added. What does not stay, because
// whoever wrote it was stopped in the midst, is kept in a file beside (NAME.torn-1), but for zero
// bytes alone.
func Grow(name string, next Next) error { return grow(system{}, name, next) }

func grow(d disk, name string, next Next) error {
	f, err := d.Lock(name)
	if err != nil {
		return err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, growMost))
	if err != nil {
		return err
	}
	stay, text, err := next(data)
	if err != nil {
		return err
	}
	if torn := data[stay:]; len(bytes.Trim(torn, "\x00")) > 0 {
		if err := keepTorn(d, name, torn); err != nil {
			return fmt.Errorf("%s: the entry is not written, because what an entry cut short has left cannot be kept: %w", name, err)
		}
	}
	if stay < len(data) {
		if err := f.Truncate(int64(stay)); err != nil {
			return fmt.Errorf("%s: the entry is not written: %w", name, err)
		}
	}
	if err := addAt(f, int64(stay), text); err != nil {
		err = fmt.Errorf("%s: the entry is not written: %w", name, err)
		if back := errors.Join(f.Truncate(int64(stay)), f.Sync()); back != nil {
			err = fmt.Errorf("%w\nwhether it stands there all the same is not known: look before it is entered again", err)
		}
		return err
	}
	if len(data) == 0 { // the name of a new file is in its folder, whoever made it
		if err := d.SyncNames(filepath.Dir(name)); err != nil {
			return fmt.Errorf("%s: the entry stands in it, and whether the file stays in its folder is not known: look before it is entered again: %w", name, err)
		}
	}
	return nil
}

// addAt writes at a place of a file, onto the disk.
func addAt(f file, at int64, text []byte) error {
	if _, err := f.Seek(at, io.SeekStart); err != nil {
		return err
	}
	if _, err := f.Write(text); err != nil {
		return err
	}
	return f.Sync()
}

// keepTorn puts what is cut off a file into one beside it, under the first name with a number
// that is free, and onto the disk.
func keepTorn(d disk, name string, torn []byte) error {
	for n := 1; ; n++ {
		beside := fmt.Sprintf("%s.torn-%d", strings.TrimSuffix(name, ".toml"), n)
		err := writeNew(d, beside, torn)
		if errors.Is(err, fs.ErrExist) && n < 1000 {
			continue
		} else if err == nil {
			err = d.SyncNames(filepath.Dir(name))
		}
		return err
	}
}
