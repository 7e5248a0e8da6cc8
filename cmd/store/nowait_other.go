//go:build !unix

package store

// noWait has no counterpart here, where a path names no pipe that would be waited for.
const noWait = 0
