package store

import (
	"io/fs"
	"path/filepath"
	"syscall"
	"testing"
)

// TestSystemErrorsAreTold: each error of a disk that a shop meets has words of its own. A test runs
// as one who may do all, so these are made up.
func TestSystemErrorsAreTold(t *testing.T) {
	passing := filepath.Join("out", ".borewright-7JZDEK7NGP3N4KUU2OUETHJXBH")
	for says, err := range map[string]*fs.PathError{
		"the disk is full": {Op: "write", Path: passing, Err: syscall.ENOSPC},
		"nothing may be written in out; ask whoever owns it":                      {Op: "open", Path: passing, Err: syscall.EACCES},
		"job.toml: this may not be read or written; ask whoever owns this folder": {Op: "open", Path: "job.toml", Err: syscall.EACCES},
		"a/job.toml: the disk is full":                                            {Op: "write", Path: "a/job.toml", Err: syscall.ENOSPC},
		"a/job.toml: this disk can only be read; write elsewhere":                 {Op: "open", Path: "a/job.toml", Err: syscall.EROFS},
		"/dev/stdout: this is not open to be read or written":                     {Op: "write", Path: "/dev/stdout", Err: syscall.EBADF},
		"a/job.toml: this may not be read or written; ask whoever owns a":         {Op: "open", Path: "a/job.toml", Err: syscall.EPERM},
	} {
		if got := InWords(err); got != says {
			t.Errorf("%v: %s, want %s", err, got, says)
		}
	}
}
