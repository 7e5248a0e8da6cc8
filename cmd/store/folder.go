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
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
	"github.com/rogpeppe/go-internal/lockedfile"
)

// ListName is the name of the list in a folder.
const ListName = "made-by-borewright.toml"

const (
	schema   = "borewright/contents/1"
	tempHead = ".borewright-" // a file that is not whole yet
	listMost = 1 << 20
)

// File is one file to be written.
type File struct {
	Name string // without a folder
	Data []byte
}

// List is what a folder says of its files.
type List struct {
	Schema   string            `toml:"schema"`
	Number   string            `toml:"job"`
	Revision string            `toml:"revision"`
	Whole    bool              `toml:"whole"`
	Sums     map[string]string `toml:"sha256"` // by the file's name
}

// Left is a file of an earlier plan in the same folder.
type Left struct {
	Name string
	Kept string // the name that it has now, because it was changed by hand; "" where it is gone
}

// Put writes files into a folder, each whole or not at all, and makes the folder where there
// is none. The files and their names are on the disk when it comes back.
func Put(dir string, files []File) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return err
	}
	return put(dir, files, nil)
}

// Write puts the files of one plan into a folder in place of those of the plan before it, and
// gives back what that plan had more: gone, or under another name where someone changed it. A
// folder of another job or revision is left alone. Two that write to one folder at once do so
// one after the other.
func Write(dir, number, revision string, files []File) (left []Left, err error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, err
	}
	f, err := lockedfile.OpenFile(filepath.Join(dir, ListName), os.O_RDWR|os.O_CREATE, 0o666)
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
	now := List{Schema: schema, Number: number, Revision: revision, Sums: map[string]string{}}
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
	if err := put(dir, files, func() error { begun = true; return rewrite(f, both) }); err != nil {
		if begun {
			err = fmt.Errorf("%w\nthe files in %s may be of two plans: do not work from them; make them anew when the cause is mended", err, dir)
		}
		return nil, err
	}
	for name, sum := range before.Sums {
		if _, ok := now.Sums[name]; ok {
			continue
		}
		l, err := takeAway(dir, name, sum)
		if err != nil {
			return nil, fmt.Errorf("%w\n%s still holds it: it is of an earlier plan", err, dir)
		}
		if l.Name != "" {
			left = append(left, l)
		}
	}
	slices.SortFunc(left, func(a, b Left) int { return strings.Compare(a.Name, b.Name) })
	now.Whole = true
	if err := SyncFolder(dir); err != nil {
		return nil, err
	}
	return left, rewrite(f, now)
}

// takeAway removes a file of an earlier plan, or, where it is no longer as it was written,
// gives it a name by which no control takes it.
func takeAway(dir, name, sum string) (Left, error) {
	path := filepath.Join(dir, name)
	data, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Left{}, nil
	}
	if err != nil {
		return Left{}, err
	}
	if sumOf(data) == sum {
		return Left{Name: name}, os.Remove(path)
	}
	kept := name + ".earlier"
	for n := 2; exists(filepath.Join(dir, kept)); n++ {
		kept = fmt.Sprintf("%s.earlier-%d", name, n)
	}
	return Left{Name: name, Kept: kept}, os.Rename(path, filepath.Join(dir, kept))
}

// put writes files under names of their own, and gives them their right names when the last
// stands on the disk; before is called between the two.
func put(dir string, files []File, before func() error) error {
	for _, f := range files {
		if info, err := os.Lstat(filepath.Join(dir, f.Name)); err == nil && info.IsDir() {
			return fmt.Errorf("%s: a folder stands where a file is to be written: move it away", filepath.Join(dir, f.Name))
		}
	}
	if before != nil { // the folder is locked: what a run before has left is no one's
		old, _ := filepath.Glob(filepath.Join(dir, tempHead+"*"))
		for _, name := range old {
			os.Remove(name)
		}
	}
	temps := make([]string, 0, len(files))
	defer func() {
		for _, t := range temps {
			os.Remove(t) // after it has its right name there is nothing left to remove
		}
	}()
	for _, f := range files {
		t := filepath.Join(dir, tempHead+rand.Text())
		temps = append(temps, t)
		if err := writeNew(t, f.Data); err != nil {
			return fmt.Errorf("%s: %w", filepath.Join(dir, f.Name), err)
		}
	}
	if before != nil {
		if err := before(); err != nil {
			return err
		}
	}
	for i, f := range files {
		if err := os.Rename(temps[i], filepath.Join(dir, f.Name)); err != nil {
			return err
		}
	}
	return SyncFolder(dir)
}

// writeNew writes a new file to the disk, with the rights that the user's mask leaves.
func writeNew(name string, data []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

// rewrite puts a list in place of the one in its file, on the disk. A list cut short does not
// read, and what does not read is not whole.
func rewrite(f *lockedfile.File, l List) error {
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
		if name == "" || name != filepath.Base(name) || name == ListName || strings.ContainsAny(name, `/\`) {
			return List{}, fmt.Errorf("%q is no file of the folder", name)
		}
	}
	return l, nil
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// SyncFolder puts the names in a folder on the disk, where the system can.
func SyncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	f.Sync() // not every system can
	return f.Close()
}
