//go:build unix

package store

import "syscall"

// noWait opens a pipe although nobody writes to it (POSIX.1, open).
const noWait = syscall.O_NONBLOCK
