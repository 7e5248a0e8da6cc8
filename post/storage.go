package post

import (
	"bytes"

	"borewright/process"
)

// stored is a program, its lines ended by line feeds, as the control stores it: with its
// line ends, and blank characters before and behind it.
func stored(text []byte, s *process.Storage) []byte {
	switch s.LineEnd {
	case process.EndCRLF:
		text = bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))
	case process.EndCR:
		text = bytes.ReplaceAll(text, []byte("\n"), []byte("\r"))
	}
	if s.Leader == 0 && s.Trailer == 0 {
		return text
	}
	var out bytes.Buffer
	out.Write(make([]byte, s.Leader))
	out.Write(text)
	out.Write(make([]byte, s.Trailer))
	return out.Bytes()
}
