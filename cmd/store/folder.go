// Package store keeps what is on the disk whole: a folder holds the files of one plan or says
// that it does not, whatever ends the program or the machine in between.
//
// A folder carries a list of its files with their check sums. Before the first file is put in
// its place the list says that they do not belong together, and after the last that they do.
// Who reads a folder asks for the list first.
package store

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/BurntSushi/toml"
)

// ListName is the name of the list in a folder.
const ListName = "made-by-borewright.toml"

const (
	schema   = "borewright/contents/1"
	tempHead = ".borewright-" // a file that is not whole yet
	listMost = 1 << 20
)

var tempTail = len(rand.Text()) // letters and digits behind tempHead

// Passing is whether a path is the name that a file has while it is written.
func Passing(path string) bool {
	rest, ours := strings.CutPrefix(filepath.Base(path), tempHead)
	return ours && len(rest) == tempTail && strings.ToUpper(rest) == rest
}

// File is one file to be written.
type File struct {
	Name string // without a folder
	Data []byte
}

// List is what a folder says of its files.
type List struct {
	Schema   string `toml:"schema"`
	Number   string `toml:"job"`
	Revision string `toml:"revision"`
	Whole    bool   `toml:"whole"`
	Note
	Sums map[string]string `toml:"sha256"` // by the file's name
}

// Note is what a list says besides, for who lists many folders without reading their files.
type Note struct {
	Of     string         `toml:"made_of,omitempty"` // sum of all that the files were made of: see jobfile.SumOf
	Passes map[string]int `toml:"passes,omitempty"`  // the number of the last pass of each bore, by its station
}

// Left is a file of an earlier plan in the same folder.
type Left struct {
	Name string
	Kept string // the name that it has now, because it was changed by hand; "" where it is gone
}

// Put writes files into a folder, each whole or not at all, and makes the folder where there
// is none. The files and their names are on the disk when it comes back.
func Put(dir string, files []File) error { return putIn(system{}, dir, files) }

func putIn(d disk, dir string, files []File) error {
	if err := makeFolder(d, dir); err != nil {
		return err
	}
	return put(d, dir, files, false, nil)
}

// New writes a file that must not be there yet. It is on the disk when New comes back, and
// where there is an error there is no file.
func New(path string, data []byte) error { return newFile(system{}, path, data) }

func newFile(d disk, path string, data []byte) error {
	dir := filepath.Dir(path)
	clearDead(d, dir, dead)
	t := filepath.Join(dir, tempHead+rand.Text())
	if err := writeNew(d, t, data); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	err := d.Link(t, path) // whole from its first moment, where the system can
	d.Remove(t)
	if err != nil && !exists(path) {
		err = writeNew(d, path, data)
	}
	if err != nil {
		return err
	}
	return d.SyncNames(dir)
}

// WriteNoted puts the files of one plan into a folder in place of those of the plan before it,
// with a note in its list, and gives back what that plan had more: gone, or under another name
// where someone changed it. A folder of another job or revision is left alone. Two that write to
// one folder at once do so one after the other.
func WriteNoted(dir, number, revision string, note Note, files []File) (left []Left, err error) {
	return writeNoted(system{}, dir, number, revision, note, files)
}

func writeNoted(d disk, dir, number, revision string, note Note, files []File) (left []Left, err error) {
	if err := makeFolder(d, dir); err != nil {
		return nil, err
	}
	f, err := d.Lock(filepath.Join(dir, ListName))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, listMost))
	if err != nil {
		return nil, err
	}
	before, _ := read(data) // what does not read names no file to take away
	if before.Schema != "" && (before.Number != number || before.Revision != revision) {
		return nil, fmt.Errorf("%s holds the files of job %q, revision %q: name another folder", dir, before.Number, before.Revision)
	}
	now := List{Schema: schema, Number: number, Revision: revision, Note: note, Sums: map[string]string{}}
	for _, x := range files {
		now.Sums[x.Name] = sumOf(x.Data)
	}
	// While the folder changes the list names the files of both plans: a run that is killed
	// leaves to the next one what it may take away.
	both := now
	both.Sums = map[string]string{}
	for _, l := range []List{before, now} {
		for name, sum := range l.Sums {
			both.Sums[name] = sum
		}
	}
	begun := false
	defer func() {
		if err != nil && begun {
			err = fmt.Errorf("%w\nthe files in %s may be of two plans: do not work from them; make them anew when the cause is mended", err, dir)
		}
	}()
	first := func() error {
		begun = true
		return errors.Join(rewrite(f, both), d.SyncNames(dir)) // the list stands there before any file moves
	}
	if err := put(d, dir, files, true, first); err != nil {
		return nil, err
	}
	for _, name := range slices.Sorted(maps.Keys(before.Sums)) {
		if _, ok := now.Sums[name]; ok {
			continue
		}
		l, err := takeAway(d, dir, name, before.Sums[name])
		if err != nil {
			return nil, fmt.Errorf("%w\n%s still holds %s, which is of an earlier plan", err, dir, name)
		}
		if l.Name != "" {
			left = append(left, l)
		}
	}
	now.Whole = true
	if err := d.SyncNames(dir); err != nil {
		return nil, err
	}
	return left, rewrite(f, now)
}

// takeAway removes a file of an earlier plan, or, where it is no longer as it was written,
// gives it a name by which no control takes it.
func takeAway(d disk, dir, name, sum string) (Left, error) {
	path := filepath.Join(dir, name)
	if !exists(path) {
		return Left{}, nil
	}
	data, err := readWhole(path)
	if err == nil && sumOf(data) == sum {
		return Left{Name: name}, d.Remove(path)
	} else if err != nil && regular(path) == nil {
		return Left{}, err
	}
	kept := name + ".earlier"
	for n := 2; exists(filepath.Join(dir, kept)); n++ {
		kept = fmt.Sprintf("%s.earlier-%d", name, n)
	}
	return Left{Name: name, Kept: kept}, d.Rename(path, filepath.Join(dir, kept))
}

// dead is how long a file under a name of our own stands before it must be one of a run that was
// killed, where no lock says that nobody else writes.
const dead = time.Hour

// clearDead removes what runs that were killed have left in a folder, where it has stood so long.
func clearDead(d disk, dir string, old time.Duration) {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		if !Passing(e.Name()) {
			continue // .borewright-serve is none
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) >= old {
			d.Remove(filepath.Join(dir, e.Name()))
		}
	}
}

// put writes files under names of their own, and gives them their right names when the last
// stands on the disk; before is called between the two. A folder that is locked is cleared first
// of what a run before has left, any other of what has stood there for an hour.
func put(d disk, dir string, files []File, locked bool, before func() error) error {
	for _, f := range files {
		if info, err := os.Lstat(filepath.Join(dir, f.Name)); err == nil && info.IsDir() {
			return fmt.Errorf("%s: a folder stands where a file is to be written: move it away", filepath.Join(dir, f.Name))
		}
	}
	if locked {
		clearDead(d, dir, 0)
	} else {
		clearDead(d, dir, dead)
	}
	var temps []string
	defer func() {
		for _, t := range temps {
			d.Remove(t) // no more than those that have not got their right names
		}
	}()
	for _, f := range files {
		t := filepath.Join(dir, tempHead+rand.Text())
		if err := writeNew(d, t, f.Data); err != nil {
			return fmt.Errorf("%s: %w", filepath.Join(dir, f.Name), err)
		}
		temps = append(temps, t)
	}
	if before != nil {
		if err := before(); err != nil {
			return err
		}
	}
	for _, f := range files {
		if err := d.Rename(temps[0], filepath.Join(dir, f.Name)); err != nil {
			return err
		}
		temps = temps[1:]
	}
	return d.SyncNames(dir)
}

// rewrite puts a list in place of the one in its file, on the disk. A list cut short does not
// read, and what does not read is not whole.
func rewrite(f file, l List) error {
	if err := f.Truncate(0); err != nil {
		return err
	}
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return err
	}
	if _, err := f.Write(l.text()); err != nil {
		return err
	}
	return f.Sync()
}

func (l List) text() []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, "# The files that belong together here. whole = false: they do not.")
	e := toml.NewEncoder(&b)
	e.Indent = ""
	e.Encode(l) // strings, a boolean and a map of strings: it cannot fail
	return b.Bytes()
}

func read(data []byte) (List, error) {
	var l List
	if _, err := toml.NewDecoder(bytes.NewReader(data)).Decode(&l); err != nil {
		return List{}, err
	}
	if l.Schema != schema {
		return List{}, fmt.Errorf("schema = %q, and this program reads %s", l.Schema, schema)
	}
	for name := range l.Sums {
		if !filepath.IsLocal(name) || name == "." || name != filepath.Base(name) || name == ListName || strings.ContainsAny(name, `/\`) {
			return List{}, fmt.Errorf("%q is no file of the folder", name)
		}
	}
	return l, nil
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
