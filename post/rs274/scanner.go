package rs274

import (
	"bufio"
	"io"
	"strings"
)

// Scanner reads a program block by block, in constant memory.
//
//	s := rs274.NewScanner(r, d)
//	for s.Scan() {
//		use(s.Block())
//	}
//	faults, err := s.Faults(), s.Err()
//
// The block is overwritten by the next Scan: keep words by copying them. The
// texts inside may be kept.
type Scanner struct {
	r       *bufio.Reader
	d       Dialect
	b       Block
	line    int
	err     error
	text    strings.Builder // of the last blocks: one allocation for many
	faults  *faultList
	begun   bool // a line that is not blank has been seen
	percent bool // and it was %
	words   bool // a block with words has been seen
	done    bool
	small   bool // a small letter has been faulted: once a program
}

// NewScanner reads r as the dialect says.
func NewScanner(r io.Reader, d Dialect) *Scanner {
	return &Scanner{r: bufio.NewReaderSize(r, 64<<10), d: d.complete(), faults: &faultList{}}
}

// Block is the block that Scan came upon.
func (s *Scanner) Block() *Block { return &s.b }

// Err is the error of the reader below, io.EOF apart.
func (s *Scanner) Err() error { return s.err }

// Faults are the faults so far, by place; the first 200 and a count.
func (s *Scanner) Faults() []Fault { return s.faults.sorted() }

func (s *Scanner) fault(col int, what, want string) {
	s.faults.add(Fault{Line: max(s.line, 1), Col: col, What: what, Want: want})
}
