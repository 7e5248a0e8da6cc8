// Package grown is the text of a file that is only ever added to, entry by entry. Each entry of
// our own writing is a table of one name, begins with its id and ends with a check, so that one
// that was cut short, or changed since, can be told.
package grown

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"regexp"

	"borewright/process/field/keys"
	"borewright/process/source"
)

// Entry is an entry as it is added: a blank line, its head, its body, its check. The body begins
// with the line of its id.
func Entry(name string, body []byte) []byte {
	text := append([]byte("[["+name+"]]\n"), body...)
	return fmt.Appendf([]byte("\n"), "%scheck = %s\n", text, keys.TOMLText(Sum(text)))
}

// Sum is the check of an entry: CRC-32 (IEEE 802.3) of its text from the head to the line before
// the check, line ends as LF.
func Sum(text []byte) string {
	return fmt.Sprintf("%08x", crc32.ChecksumIEEE(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))))
}

// checkLine is the last line of an entry, whatever spaces or remark somebody has put
// beside it.
var checkLine = regexp.MustCompile(`(?m)^[ \t]*check[ \t]*=[ \t]*["'][0-9a-fA-F]{8}["'][ \t]*(#.*)?\r?$`)

// SplitTorn parts a file from a last entry that was cut short while it was written (the power
// failed, the process was killed), and from zero bytes at its end, which a file that had grown
// may hold after a power failure. Only an entry of our own writing can be told to be torn: it
// begins with its id and ends with its check. torn is empty when all is whole.
func SplitTorn(name string, data []byte) (whole, torn []byte) {
	head := "[[" + name + "]]\nid = \""
	text := bytes.TrimRight(data, "\x00")
	at := bytes.LastIndex(text, []byte("\n[")) + 1
	last := text[at:]
	began := len(last) > 0 && last[0] == '['
	ours := began && (bytes.HasPrefix(last, []byte(head)) || bytes.HasPrefix([]byte(head), last))
	if !ours || checkLine.Match(last) {
		at = len(text)
	}
	return data[:at], data[at:]
}

// TornAt is the line at which an entry begins that was not written whole; 0: none.
func TornAt(whole, torn []byte) int {
	if len(bytes.Trim(torn, "\x00")) == 0 {
		return 0
	}
	return 1 + bytes.Count(whole, []byte("\n"))
}

// Held finds an entry with an id or a check that is not as it was written. at is its path in the
// file, check what its check says, data the file, command what enters such entries.
func Held(r *keys.Reader, at, check string, data []byte, command string) {
	if !r.Given(at+".id") && !r.Given(at+".check") {
		return // by hand
	}
	if !r.Given(at + ".check") {
		r.Bad(at, "this entry was not written whole: its check is missing", "enter it again with \""+command+"\" and take this one out")
		return
	}
	if sum := Sum(lines(data, r.Place(at).Line, r.Place(at+".check").Line)); sum != check {
		r.Badf(at+".check", "enter what is right as a new entry; to keep this one as it stands, take out its id and its check",
			"the entry is not as it was written: its sum is %s now", sum)
	}
}

// Twice finds ids that stand in a file twice; at gives the path of each.
func Twice(r *keys.Reader, n int, of func(i int) (at, id string)) {
	first := map[string]source.Pos{}
	for i := range n {
		at, id := of(i)
		p := r.Place(at)
		if was, twice := first[id]; twice && id != "" {
			r.Badf(at+".id", "take one of them out", "this entry stands in the file twice, first at %s:%d:%d", r.File, was.Line, was.Col)
		}
		first[id] = p
	}
}

// lines is the text from one line up to another, both counted from 1.
func lines(data []byte, from, to int) []byte {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	all := bytes.SplitAfter(data, []byte("\n"))
	if from < 1 || to > len(all) || from > to {
		return nil
	}
	return bytes.Join(all[from-1:to-1], nil)
}
