package rs274

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"borewright/process/qty"
)

// Length makes the word of a length, rounded once, half away from zero, to the
// places of the dialect (4 of an inch or 3 of a millimetre where it names
// none). In fixed format a length that has no room is an error.
func (d Dialect) Length(letter byte, l qty.Length, u qty.Unit) (Word, error) {
	d = d.complete()
	places := d.Part
	if places == 0 {
		places = 3
		if u == qty.Inches {
			places = 4
		}
	}
	text := u.Decimals(l, places)
	digits, err := strconv.ParseInt(strings.Replace(text, ".", "", 1), 10, 64)
	if err != nil {
		return Word{}, fmt.Errorf("%c: %s is too long for a word", letter, text)
	}
	return d.Number(letter, digits, places)
}

// Number makes the word of the exact number digits/10^places, for dwells,
// angles and speeds: in fixed format it is written as lengths are, where the
// letter is read so. Decimals that the dialect has no places for are an error,
// for they would be lost.
func (d Dialect) Number(letter byte, digits int64, places int) (Word, error) {
	d = d.complete()
	if places < 0 || places > 9 {
		return Word{}, fmt.Errorf("%c: %d decimals; 0 to 9 can be written", letter, places)
	}
	want := d.Part
	if want == 0 {
		want = places
	}
	for ; places > want && digits%10 == 0; places-- {
		digits /= 10
	}
	if places > want {
		return Word{}, fmt.Errorf("%c%s has more than the %d decimals that the control takes", letter, pointed(digits, places), want)
	}
	if !d.Numbers.Fixed() {
		for ; d.Zeros == AllZeros && places < want; places++ {
			digits *= 10
		}
		text, ok := d.zeros(pointed(digits, places))
		if !ok {
			return Word{}, fmt.Errorf("%c%s has no room in %d places before the point", letter, text, d.Whole)
		}
		return Word{Letter: letter, Point: true, Places: places, Digits: digits,
			Value: float64(digits) / pow10[places], Text: text}, nil
	}
	value := digits
	for n := places; n < want; n++ {
		value *= 10
	}
	sign, all := "", strconv.FormatInt(value, 10)
	if value < 0 {
		sign, all = "-", all[1:]
	}
	total := d.Whole + d.Part
	if len(all) > total {
		return Word{}, fmt.Errorf("%c%s has no room in %d places before the point and %d after", letter, pointed(digits, places), d.Whole, d.Part)
	}
	if d.Numbers != DropLeading {
		all = strings.Repeat("0", total-len(all)) + all
	}
	if d.Numbers == DropTrailing {
		if all = strings.TrimRight(all, "0"); all == "" {
			all = "0"
		}
	}
	return Word{Letter: letter, Places: d.Part, Digits: value,
		Value: float64(value) / pow10[d.Part], Text: sign + all}, nil
}

// Whole makes the word of a whole number without a point: codes, block and
// program numbers, speeds, tools, milliseconds.
func Whole(letter byte, n int) Word {
	return Word{Letter: letter, Digits: int64(n), Value: float64(n), Text: strconv.Itoa(n)}
}

// pointed writes digits/10^places with a point, which is the last character
// of a whole number.
func pointed(digits int64, places int) string {
	sign := ""
	if digits < 0 {
		sign, digits = "-", -digits
	}
	s := strconv.FormatInt(digits, 10)
	if len(s) <= places {
		s = strings.Repeat("0", places+1-len(s)) + s
	}
	return sign + s[:len(s)-places] + "." + s[len(s)-places:]
}

// zeros writes a number that has its point with the zeros of the dialect; ok is false
// where it has more places before the point than there are.
func (d Dialect) zeros(text string) (out string, ok bool) {
	sign := ""
	if text[0] == '-' {
		sign, text = "-", text[1:]
	}
	before := strings.IndexByte(text, '.')
	if d.Whole > 0 && before > d.Whole {
		return sign + text, false
	}
	switch d.Zeros {
	case NoLeading:
		if before == 1 && text[0] == '0' && len(text) > 2 {
			text = text[1:]
		}
	case NoTrailing:
		text = strings.TrimRight(text, "0")
	case AllZeros:
		text = strings.Repeat("0", d.Whole-before) + text
	}
	return sign + text, true
}

// Format gives a block as a line without its end: words in their order, then
// comments. The line is read back before it is given away: one that the
// dialect would read otherwise, or not at all, is an error.
func Format(b *Block, d Dialect) (string, error) {
	var t strings.Builder
	if b.Delete {
		t.WriteByte('/')
	}
	gap := func() {
		if d.Spaces && t.Len() > 0 && !(b.Delete && t.Len() == 1) {
			t.WriteByte(' ')
		}
	}
	for _, w := range b.Words {
		gap()
		t.WriteByte(w.Letter)
		t.WriteString(w.Text)
	}
	for _, c := range b.Comments {
		gap()
		t.WriteByte('(')
		if c.Message {
			t.WriteString("MSG, ")
		}
		t.WriteString(c.Text)
		t.WriteByte(')')
	}
	line := t.String()
	s := Scanner{d: d.complete(), line: 1, faults: &faultList{}}
	if len(line) > s.d.LineMost {
		return "", fmt.Errorf("block of %d characters %.40q; the control takes %d", len(line), line, s.d.LineMost)
	}
	if strings.ContainsAny(line, "\r\n") {
		return "", fmt.Errorf("a line end inside the block %.40q", line)
	}
	s.parse([]byte(line))
	if f := s.faults.list; len(f) > 0 {
		return "", fmt.Errorf("block %.40q, column %d: %s; %s", line, f[0].Col, f[0].What, f[0].Want)
	}
	if !same(b, &s.b) {
		return "", fmt.Errorf("block %.40q would be read as other words", line)
	}
	return line, nil
}

// same reports whether two blocks say the same, wherever their words stand.
func same(a, b *Block) bool {
	if a.Delete != b.Delete || len(a.Words) != len(b.Words) || len(a.Comments) != len(b.Comments) {
		return false
	}
	for i, w := range a.Words {
		v := b.Words[i]
		if w.Letter != v.Letter || w.Text != v.Text || w.Value != v.Value {
			return false
		}
	}
	for i, c := range a.Comments {
		if v := b.Comments[i]; c.Text != v.Text || c.Message != v.Message {
			return false
		}
	}
	return true
}

// Write prints one block as Format does, with its line end.
func Write(w io.Writer, b *Block, d Dialect) error {
	line, err := Format(b, d)
	if err != nil {
		return err
	}
	_, err = io.WriteString(w, line+"\n")
	return err
}
