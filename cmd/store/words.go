package store

import (
	"errors"
	"io/fs"
	"path/filepath"
	"strings"
	"syscall"
)

// InWords is an error for a person: what the system says of a file, in words that say what to do.
func InWords(err error) string {
	said := err.Error()
	var at *fs.PathError
	if !errors.As(err, &at) {
		return said
	}
	path, dir := at.Path, filepath.Dir(at.Path)
	what := ""
	switch {
	case Passing(path) && errors.Is(at, fs.ErrNotExist):
		what = "there is no folder " + dir + "; make it first"
	case Passing(path) && errors.Is(at, fs.ErrPermission):
		what = "nothing may be written in " + where(dir) + "; ask whoever owns it"
	case errors.Is(at, fs.ErrNotExist):
		what = path + ": there is no such file or folder"
	case errors.Is(at, fs.ErrPermission):
		what = path + ": this may not be read or written; ask whoever owns " + where(dir)
	case errors.Is(at, syscall.ELOOP):
		what = path + ": a link that leads to itself; name the file"
	case errors.Is(at, syscall.ENAMETOOLONG):
		what = path + ": the name is too long; give a shorter one"
	case errors.Is(at, syscall.ENOTDIR):
		what = path + ": a file stands where a folder should; name another"
	case errors.Is(at, syscall.EBADF):
		what = path + ": this is not open to be read or written"
	case errors.Is(at, syscall.EROFS):
		what = path + ": this disk can only be read; write elsewhere"
	case Passing(path) && errors.Is(at, syscall.ENOSPC): // the file that it was to be is named before
		what = "the disk is full"
	case errors.Is(at, syscall.ENOSPC):
		what = path + ": the disk is full"
	default:
		return said
	}
	return strings.Replace(said, at.Error(), what, 1)
}

// where is a folder, the one that the call was made in by that.
func where(dir string) string {
	if dir == "." {
		return "this folder"
	}
	return dir
}
