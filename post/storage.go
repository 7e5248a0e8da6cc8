package post

import (
	"bytes"
	"slices"

	"borewright/process"
	"borewright/process/storage"
)

// stored is what stands in one file, its lines ended by line feeds, as the control stores
// it: with percent lines, with its line ends, and blank characters before and behind.
func stored(text []byte, c *process.Control) []byte {
	if c.Percent {
		text = slices.Concat([]byte("%\n"), text, []byte("%\n"))
	}
	switch c.LineEnd {
	case storage.EndCRLF:
		text = bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))
	case storage.EndCR:
		text = bytes.ReplaceAll(text, []byte("\n"), []byte("\r"))
	}
	return slices.Concat(make([]byte, c.Leader), text, make([]byte, c.Trailer))
}
