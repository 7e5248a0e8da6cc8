package store

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Of is the list of a folder; ok is false where it has none, as a folder has that an earlier
// borewright wrote. It waits for one who writes there.
func Of(dir string) (l List, ok bool, err error) {
	path := filepath.Join(dir, ListName)
	if !exists(path) {
		return List{}, false, nil
	}
	data, err := ReadLocked(path, listMost)
	if err != nil {
		return List{}, false, err
	}
	if l, err = read(data); err != nil {
		return List{}, false, fmt.Errorf("%s is not whole: %s does not read (%w); make its files anew", dir, ListName, err)
	}
	return l, true, nil
}

// Settled is an error where a file belongs to a folder to which a run that wrote did not come
// to its end. A file that is not in the folder's list stands for itself.
func Settled(file string) error {
	dir := filepath.Dir(file)
	l, _, err := Of(dir)
	if _, listed := l.Sums[filepath.Base(file)]; err == nil && listed {
		err = l.Settled(dir)
	}
	return err
}

// Settled is an error where a run that wrote to the folder did not come to its end.
func (l List) Settled(dir string) error {
	if l.Whole {
		return nil
	}
	return fmt.Errorf("%s is not whole: a run that wrote to it did not come to its end, and its files may be of two plans; make them anew", dir)
}

// Check is an error where a file of the folder is not as it was written, and names each that
// is not. A file that may is left out without an error: a sheet is taken to the mill.
func (l List) Check(dir string, may func(name string) bool) error {
	if err := l.Settled(dir); err != nil {
		return err
	}
	var bad []error
	for _, name := range slices.Sorted(maps.Keys(l.Sums)) {
		data, err := readWhole(filepath.Join(dir, name))
		switch {
		case errors.Is(err, fs.ErrNotExist) && may(name):
		case errors.Is(err, fs.ErrNotExist):
			bad = append(bad, fmt.Errorf("%s is missing", name))
		case err != nil:
			return err
		case sumOf(data) != l.Sums[name]:
			bad = append(bad, fmt.Errorf("%s is not as it was written: changed by hand, or of another plan", name))
		}
	}
	if len(bad) == 0 {
		return nil
	}
	return fmt.Errorf("%s is not whole; put back what belongs there, or make it anew:\n%w", dir, errors.Join(bad...))
}

// Alone is an error where a program stands in the folder that is not in its list, and names each:
// a file that ends as one of those that make writes for a mill. One that was changed by hand and
// then set aside is none.
func (l List) Alone(dir string) error {
	ends := map[string]bool{".nc": true}
	for name := range l.Sums {
		if end := strings.ToLower(filepath.Ext(name)); !slices.Contains([]string{"", ".json", ".txt", ".html", ".pdf"}, end) {
			ends[end] = true
		}
	}
	entries, err := os.ReadDir(dir)
	bad := []error{err}
	for _, e := range entries {
		if _, ours := l.Sums[e.Name()]; !ours && !e.IsDir() && e.Name() != ListName && ends[strings.ToLower(filepath.Ext(e.Name()))] {
			bad = append(bad, fmt.Errorf("%s does not belong there: it is not in %s", e.Name(), ListName))
		}
	}
	if bad := errors.Join(bad...); bad != nil {
		return fmt.Errorf("%s holds more than its plan; move away what does not belong there:\n%w", dir, bad)
	}
	return nil
}
