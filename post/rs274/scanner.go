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
	small   bool    // a small letter has been faulted: once a program
	semi    bool    // a semicolon has been: once a program
	ends    bool    // a line end has been: once a program
	turned  *turned // where lines end in a carriage return
}

// NewScanner reads r as the dialect says.
func NewScanner(r io.Reader, d Dialect) *Scanner {
	s := &Scanner{d: d.complete(), faults: &faultList{}}
	if d.LineEnd == EndCR {
		s.turned = &turned{r: r}
		r = s.turned
	}
	s.r = bufio.NewReaderSize(r, 64<<10)
	return s
}

// turned reads text whose lines end in a carriage return as if they ended in a line
// feed. A line feed ends a line as well, but for one right behind a carriage return, and
// where the first of them stands is kept.
type turned struct {
	r      io.Reader
	behind bool // the last character was a carriage return
	line   int  // ends so far
	wrong  int  // line at the end of which the first line feed stands; 0: none
}

func (t *turned) Read(p []byte) (int, error) {
	n, err := t.r.Read(p)
	kept := p[:0]
	for _, c := range p[:n] {
		cr, lf := c == '\r', c == '\n'
		if lf && t.wrong == 0 {
			t.wrong = max(t.line, 1)
			if !t.behind {
				t.wrong = t.line + 1
			}
		}
		if cr || lf && !t.behind {
			t.line++
			kept = append(kept, '\n')
		} else if !lf {
			kept = append(kept, c)
		}
		t.behind = cr
	}
	return len(kept), err
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
