// Package sum is the check sum of a program as a control reads it: the one that a
// program states in a remark, and the one that it has.
package sum

import (
	"bytes"
	"fmt"
	"hash/crc32"
)

// Of is the check sum of a program as a control reads it: CRC-32 (the polynomial of
// IEEE 802.3 and of ISO/IEC 8802-3) over its blocks in their order, words and remarks,
// in two groups of four hexadecimal digits to be read out over the floor: "3FA2-91C0".
//
// Not in it: N words, which controls write anew; blanks between words, more than one
// blank in a remark, small letters for capitals, empty lines, line ends, the lines with
// % alone, leader and trailer; and the remark that carries the sum. It finds what was
// changed by mistake; it is no seal against one who means to.
func Of(program []byte) string {
	crc := crc32.NewIEEE()
	var line []byte
	for len(program) > 0 {
		var raw []byte
		raw, program = firstLine(program)
		line = asRead(line[:0], raw)
		if len(line) == 0 || string(line) == "%" || stated(line) != "" {
			continue
		}
		crc.Write(append(line, '\n'))
	}
	return said(crc.Sum32())
}

// OfData is the check sum of any other text, all of it: said in the same way.
func OfData(data []byte) string { return said(crc32.ChecksumIEEE(data)) }

func said(crc uint32) string { return fmt.Sprintf("%04X-%04X", crc>>16, crc&0xffff) }

// Stated is the check sum that a remark of the program states, "" where none does.
func Stated(program []byte) string {
	var line []byte
	for len(program) > 0 {
		var raw []byte
		raw, program = firstLine(program)
		if len(raw) > lineMost {
			continue
		}
		line = asRead(line[:0], raw)
		if s := stated(line); s != "" {
			return s
		}
	}
	return ""
}

// lineMost is the longest line that is looked at for a sum; no control takes one so long.
const lineMost = 4096

// Remark is the remark that states a check sum.
func Remark(sum string) string { return "CHECK SUM " + sum }

// firstLine parts the first line from the rest; a carriage return alone ends one, too.
func firstLine(text []byte) (line, rest []byte) {
	if n := bytes.IndexAny(text, "\r\n"); n >= 0 {
		return text[:n], text[n+1:]
	}
	return text, nil
}

// stated is the check sum that a line states as a remark, "" where it is none.
func stated(line []byte) string {
	sum, lead := bytes.CutPrefix(line, []byte("("+Remark("")))
	sum, shut := bytes.CutSuffix(sum, []byte(")"))
	if !lead || !shut || len(sum) != 9 {
		return ""
	}
	for i, c := range sum {
		if i == 4 && c != '-' || i != 4 && (c < '0' || c > '9') && (c < 'A' || c > 'F') {
			return ""
		}
	}
	return string(sum)
}

// asRead appends a line as Of takes it.
func asRead(dst, line []byte) []byte {
	remark := false
	for _, c := range line {
		switch {
		case c == 0 || c == 0x7f || c == 0x1a:
			continue
		case c >= 'a' && c <= 'z':
			c -= 'a' - 'A'
		case c == '(':
			remark = true
		case c == ')':
			remark = false
		}
		if c == '\t' {
			c = ' '
		}
		if last := len(dst) - 1; c == ' ' && (!remark || last >= 0 && dst[last] == ' ') {
			continue
		}
		dst = append(dst, c)
	}
	from := 0
	if len(dst) > 0 && dst[0] == '/' {
		from = 1
	}
	if rest := dst[from:]; len(rest) > 1 && rest[0] == 'N' && rest[1] >= '0' && rest[1] <= '9' {
		n := 1
		for n < len(rest) && rest[n] >= '0' && rest[n] <= '9' {
			n++
		}
		dst = append(dst[:from], rest[n:]...)
	}
	return dst
}
