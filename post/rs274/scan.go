package rs274

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Scan goes to the next block that is not blank. It is false at the end of the
// program: the closing %, the end of the text, or a read error.
func (s *Scanner) Scan() bool {
	for !s.done {
		line, long, ok := s.readLine()
		if !ok {
			s.finish()
			return false
		}
		if long {
			s.begun = true
			continue
		}
		i := 0
		for i < len(line) && (line[i] == ' ' || line[i] == '\t') {
			i++
		}
		if i == len(line) {
			continue
		}
		first := !s.begun
		s.begun = true
		if line[i] == '%' {
			s.percentLine(line, bytes.TrimRight(line[i:], " \t"), first)
			continue
		}
		if first && s.d.Percent == Required {
			s.fault(1, "the program does not begin with %", "a line with % alone before the first block")
		}
		s.parse(line)
		return true
	}
	return false
}

// readLine gives the next line without its end. A line over the hard limit is
// read past; long says so.
func (s *Scanner) readLine() (line []byte, long, ok bool) {
	if s.line == 0 && s.turned == nil {
		s.turnIfNeeded()
	}
	line, err := s.r.ReadSlice('\n')
	if len(line) == 0 && err != nil {
		if err != io.EOF {
			s.err = err
		}
		return nil, false, false
	}
	s.line++
	n := len(line)
	for err == bufio.ErrBufferFull {
		var more []byte
		more, err = s.r.ReadSlice('\n')
		n += len(more)
	}
	if err != nil && err != io.EOF {
		s.err = err
		return nil, false, false
	}
	if n > lineHard {
		s.fault(s.d.LineMost+1, fmt.Sprintf("the line has %d characters", n),
			fmt.Sprintf("at most %d; its words were not read", s.d.LineMost))
		return nil, true, true
	}
	line, cut := bytes.CutSuffix(line, []byte("\n"))
	line, cr := bytes.CutSuffix(line, []byte("\r"))
	switch {
	case s.d.LineEnd == EndCR && s.turned.wrong > 0:
		s.lineEnd(s.turned.wrong, EndLF)
	case s.d.LineEnd == EndLF && cut && cr:
		s.lineEnd(s.line, EndCRLF)
	case s.d.LineEnd == EndCRLF && cut && !cr:
		s.lineEnd(s.line, EndLF)
	}
	if len(line) > 0 && (blank(line[0]) || blank(line[len(line)-1])) {
		line = bytes.Trim(line, "\x00\x7f\x1a") // leader, trailer and the mark at the end of a file
	}
	if rest, marked := bytes.CutPrefix(line, []byte("\ufeff")); marked && s.line == 1 {
		line = rest
		s.fault(1, "a byte-order mark, which the editor has put in front of the program and does not show", "save it as plain ASCII, without the mark")
	}
	if len(line) > s.d.LineMost {
		s.fault(s.d.LineMost+1, fmt.Sprintf("the block has %d characters", len(line)),
			fmt.Sprintf("at most %d", s.d.LineMost))
	}
	return line, false, true
}

// turnIfNeeded looks at the beginning of the text: where its lines end in carriage returns
// alone, that is one fault, and the program is read as it is meant.
func (s *Scanner) turnIfNeeded() {
	begin, _ := s.r.Peek(lineHard) // an error comes again as the lines are read
	if bytes.Count(begin, []byte("\r")) > 2 && bytes.IndexByte(begin, '\n') < 0 {
		s.turned = &turned{r: s.r}
		s.r = bufio.NewReaderSize(s.turned, 64<<10)
		s.lineEnd(1, EndCR)
	}
}

// lineEnd faults the end of a line, once a program.
func (s *Scanner) lineEnd(line int, is LineEnd) {
	if !s.ends {
		s.ends = true
		s.faults.add(Fault{Line: line, Col: 1, What: "a line that ends in " + is.String() + ", the first in the program",
			Want: s.d.LineEnd.String() + ", as this control stores programs"})
	}
}

// blank reports a byte that tapes and disks put before and behind a program: NUL, DEL
// (every hole punched) and control-Z.
func blank(c byte) bool { return c == 0 || c == 0x7f || c == 0x1a }

// percentLine takes a line that begins with %.
func (s *Scanner) percentLine(line, t []byte, first bool) {
	col := bytes.IndexByte(line, '%') + 1
	if len(t) > 1 {
		s.fault(col+1, "text beside %", "% alone on its line")
	}
	switch {
	case s.d.Percent == Refused:
		s.fault(col, "% in the program", "no % lines: this control does not take them")
		if !first {
			s.closed()
		}
	case first:
		s.percent = true
	case s.percent:
		s.closed()
	default:
		s.fault(col, "% after other text", "% on the first line that is not blank, and once more at the end")
	}
}

// closed ends the program at the closing %. A control does not read on, so
// text after it is a fault: somebody believes it does.
func (s *Scanner) closed() {
	s.percent, s.done = false, true
	for {
		line, long, ok := s.readLine()
		if !ok {
			return
		}
		if t := bytes.Trim(line, " \t"); long || len(t) > 0 {
			s.fault(1, "text after the closing %", "nothing: a control does not read it")
			return
		}
	}
}

// finish closes the books at the end of the text.
func (s *Scanner) finish() {
	s.done = true
	if s.err != nil {
		return
	}
	switch {
	case !s.begun:
		s.fault(1, "the program is empty", "at least one block")
	case s.percent:
		s.fault(1, "the program opens with % and never closes", "a second % alone on the last line")
	}
}

// textMost is how much text of blocks is allocated at once. What a caller keeps
// of one block keeps so much alive.
const textMost = 2048

// keep gives the line as a string that stays as it is: a Builder never changes
// what it has given out.
func (s *Scanner) keep(line []byte) string {
	if s.text.Cap()-s.text.Len() < len(line) {
		s.text = strings.Builder{}
		s.text.Grow(max(textMost, len(line)))
	}
	from := s.text.Len()
	s.text.Write(line)
	return s.text.String()[from:]
}

// parse reads the words and comments of a line into the block.
func (s *Scanner) parse(line []byte) {
	text := s.keep(line) // words and comments are cut out of it
	b := &s.b
	b.Line, b.Delete, b.Text = s.line, false, text
	b.Words, b.Comments = b.Words[:0], b.Comments[:0]
	dwell := false
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case c >= 'A' && c <= 'Z':
			i = s.word(text, i, c)
		case c == ' ' || c == '\t':
			i++
		case c == '(':
			i = s.comment(text, i)
		case c >= 'a' && c <= 'z':
			if !s.d.LowerCase && !s.small {
				s.small = true
				s.fault(i+1, fmt.Sprintf("lower case %q, the first in the program", c), "capitals: older readers know no others; where this control takes small letters, lower_case = true in its machine file")
			}
			i = s.word(text, i, c-'a'+'A')
		case c == '/' && len(b.Words) == 0 && len(b.Comments) == 0 && !b.Delete:
			b.Delete = true
			if s.d.lacks(BlockDelete) {
				s.fault(i+1, "block delete", "no /: this control does not take it")
			}
			i++
		case c == ';': // a remark to the end of the line
			if !s.semi {
				s.semi = true
				s.fault(i+1, `character ";", the first in the program`, "comments in parentheses")
			}
			i = len(text)
		default:
			i = s.stray(text, i)
		}
	}
	for k := range b.Words {
		w := &b.Words[k]
		dwell = dwell || w.Letter == 'G' && w.tenths() == 40
	}
	for k := range b.Words {
		s.number(k, &b.Words[k], dwell)
	}
	s.words = s.words || len(b.Words) > 0
}

// word reads the letter at i and its number, and gives the place after it.
func (s *Scanner) word(text string, i int, letter byte) int {
	w := Word{Letter: letter, Col: i + 1}
	i++
	for i < len(text) && (text[i] == ' ' || text[i] == '\t') {
		i++
	}
	from, neg := i, false
	if i < len(text) && (text[i] == '-' || text[i] == '+') {
		neg = text[i] == '-'
		i++
	}
	digits, first, point := int64(0), i, -1
	for ; i < len(text); i++ {
		if c := text[i] - '0'; c <= 9 {
			digits = digits*10 + int64(c) // what overflows has too many digits, and is faulted below
			continue
		}
		if text[i] != '.' || point >= 0 {
			break
		}
		point = i
	}
	count := i - first
	if point >= 0 {
		count--
		w.Point, w.Places = true, i-point-1
	}
	if w.Digits = digits; neg {
		w.Digits = -digits
	}
	w.Text = text[from:i]
	switch {
	case count == 0:
		s.fault(w.Col, fmt.Sprintf("%c without a number", letter), fmt.Sprintf("a number right after %c", letter))
		return i
	case count > digitsMost:
		s.fault(w.Col, fmt.Sprintf("a number of %d digits", count), fmt.Sprintf("at most %d", digitsMost))
		return i
	}
	s.b.Words = append(s.b.Words, w)
	return i
}

// comment reads the parentheses at i.
func (s *Scanner) comment(text string, i int) int {
	from := i + 1
	if s.d.lacks(Comments) {
		s.fault(from, "a comment", "none: this control takes no parentheses")
	}
	depth, nested := 0, false
	for i++; i < len(text) && (depth > 0 || text[i] != ')'); i++ {
		switch c := text[i]; {
		case c == '(':
			if depth++; !nested {
				s.fault(i+1, "( inside a comment", "no nesting")
			}
			nested = true
		case c == ')':
			depth--
		case c == '%':
			s.fault(i+1, "% inside a comment", "no %: some readers stop at it")
		case c < ' ' || c > '~':
			s.fault(i+1, fmt.Sprintf("character %q in a comment", text[i:i+runeLen(text[i:])]), "printing ASCII")
			i += runeLen(text[i:]) - 1
		case s.d.Plain && !plain(c):
			s.fault(i+1, fmt.Sprintf("character %q in a comment", text[i:i+1]), "capitals, digits, spaces and + - . , / alone: this control takes no others")
		}
	}
	if i >= len(text) && !nested {
		s.fault(from, "a comment that does not close on its line", ") before the line end")
	}
	c := Comment{Text: text[from:min(i, len(text))], Col: from}
	if len(c.Text) >= 4 && (c.Text[:3] == "MSG" || c.Text[:3] == "msg") && c.Text[3] == ',' {
		c.Message, c.Text = true, c.Text[4:]
		if len(c.Text) > 0 && c.Text[0] == ' ' {
			c.Text = c.Text[1:]
		}
	}
	s.b.Comments = append(s.b.Comments, c)
	return i + 1
}

// plain reports whether a comment of a control with the least set of characters
// may hold c: those that both tape codes punch (from memory of ISO 840 and EIA
// RS-244), less those that mean something there.
func plain(c byte) bool {
	return c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == ' ' || c >= '+' && c <= '/'
}

// stray names a character that no plain block has.
func (s *Scanner) stray(text string, i int) int {
	n := runeLen(text[i:])
	c := text[i : i+n]
	want := "a letter and a number, or ( )"
	switch c {
	case "#", "[", "]", "=":
		want = "plain numbers: parameters and expressions are not plain RS-274"
	case ",":
		want = "a decimal point, or nothing"
	case ")":
		want = "( before it"
	case "/":
		want = "/ only as the first character"
	case "%":
		want = "% alone on its line"
	case ":":
		want = "O and a number for a program number"
	case "\r":
		want = "lines that end in a line feed, or carriage return and line feed"
	default:
		switch c := text[i]; {
		case c >= '0' && c <= '9' || c == '.' || c == '+' || c == '-':
			// the whole number is one fault
			for n = 1; i+n < len(text) && (text[i+n] >= '0' && text[i+n] <= '9' || text[i+n] == '.'); n++ {
			}
			s.fault(i+1, fmt.Sprintf("%q without a letter", text[i:min(i+n, i+20)]), "a letter before each number, no spaces inside a number")
			return i + n
		case c >= 0x80:
			want = "ASCII only"
		case c < ' ' || c == 0x7f:
			want = "no control characters"
		}
	}
	s.fault(i+1, fmt.Sprintf("character %q", c), want)
	return i + n
}

func runeLen(s string) int {
	_, n := utf8.DecodeRuneInString(s)
	return n
}
