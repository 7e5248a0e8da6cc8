package rs274

import "fmt"

// class is how the number of a letter is written.
type class uint8

const (
	unknown  class = iota
	whole          // N O T H D L: no point, no sign
	code           // G M: at most one decimal, no sign
	speed          // S: whole, or with a point where the dialect has points
	length         // lengths, angles, feeds, arc words: by the dialect's Numbers
	dwelling       // P, or the word of G4
)

var classes = [256]class{
	'N': whole, 'O': whole, 'T': whole, 'H': whole, 'D': whole, 'L': whole,
	'G': code, 'M': code, 'S': speed, 'P': dwelling,
	'X': length, 'Y': length, 'Z': length, 'U': length, 'V': length, 'W': length,
	'A': length, 'B': length, 'C': length, 'I': length, 'J': length, 'K': length,
	'R': length, 'F': length, 'Q': length,
}

// number checks the number of word k of the block against its class, sets its
// implied point and works out its value. dwell says that the block is a G4.
func (s *Scanner) number(k int, w *Word, dwell bool) {
	c := classes[w.Letter]
	if dwell && w.Letter == s.d.DwellWord {
		c = dwelling
	}
	if c == dwelling {
		switch s.d.DwellUnit {
		case Seconds:
			c = length
		case Milliseconds:
			c = whole
		default:
			c = speed
		}
	}
	switch c {
	case length:
		s.lengthPoint(w)
	case code:
		if w.Places > 1 || w.Digits < 0 || w.Text[0] == '+' || w.tenths() > 9999 {
			s.fault(w.Col, fmt.Sprintf("%c%s is not a code", w.Letter, w.Text), fmt.Sprintf("%c and a whole number, no sign", w.Letter))
		}
	case whole, speed:
		if w.Text[0] == '+' || w.Text[0] == '-' && w.Digits == 0 {
			s.fault(w.Col, fmt.Sprintf("%c%s has a sign", w.Letter, w.Text), "the number alone")
		}
		if w.Point && (c == whole || s.d.Numbers.Fixed()) {
			s.fault(w.Col, fmt.Sprintf("%c%s has a decimal point", w.Letter, w.Text), "a whole number")
		}
		if w.Digits < 0 {
			s.fault(w.Col, fmt.Sprintf("%c%s is negative", w.Letter, w.Text), "a number that is not below 0")
		}
		if w.Letter == 'N' || w.Letter == 'O' {
			s.blockNumber(k, w)
		}
	default:
		s.fault(w.Col, fmt.Sprintf("word %c", w.Letter), "a letter with a meaning: "+letters)
	}
	w.Value = float64(w.Digits) / pow10[w.Places]
}

const letters = "A B C D F G H I J K L M N O P Q R S T U V W X Y Z"

// blockNumber checks a block number or a program number.
func (s *Scanner) blockNumber(k int, w *Word) {
	digits := len(w.Text)
	if digits > 5 || w.Digits > 99999 {
		s.fault(w.Col, fmt.Sprintf("%c%s is too long", w.Letter, w.Text), "at most 5 digits")
		w.Digits, w.Places = min(max(w.Digits, 0), 99999), 0
	}
	first := k == 0 || k == 1 && s.b.Words[0].Letter == 'N'
	switch {
	case w.Letter == 'N' && k > 0:
		s.fault(w.Col, "N is not the first word", "the block number first")
	case w.Letter == 'N' && s.d.lacks(BlockNumbers):
		s.fault(w.Col, "a block number", "no N words: this control does not take them")
	case w.Letter == 'O' && (!first || s.words):
		s.fault(w.Col, "O word after the first block", "the program number at the start, and once")
	}
}

// lengthPoint sets the implied point of a fixed format.
func (s *Scanner) lengthPoint(w *Word) {
	digits := len(w.Text)
	if digits > 0 && (w.Text[0] == '-' || w.Text[0] == '+') {
		digits--
	}
	switch {
	case !s.d.Numbers.Fixed():
		if !w.Point && s.d.Numbers == PointMust && w.Digits != 0 {
			s.fault(w.Col, fmt.Sprintf("%c%s has no decimal point", w.Letter, w.Text),
				fmt.Sprintf("%c%s. or the decimals: a control in fixed format reads it far smaller", w.Letter, w.Text))
		}
		if s.d.Part > 0 && w.Places > s.d.Part {
			s.fault(w.Col, fmt.Sprintf("%c%s has %d decimals", w.Letter, w.Text, w.Places), fmt.Sprintf("at most %d", s.d.Part))
		}
		before := digits - w.Places
		if w.Point {
			before--
		}
		switch {
		case s.d.Whole > 0 && before > s.d.Whole:
			s.fault(w.Col, fmt.Sprintf("%c%s has %d digits before the point", w.Letter, w.Text, before), fmt.Sprintf("at most %d", s.d.Whole))
		case s.d.Zeros == AllZeros && (before < s.d.Whole || w.Places < s.d.Part):
			s.fault(w.Col, fmt.Sprintf("%c%s has %d digits before the point and %d behind it", w.Letter, w.Text, before, w.Places),
				fmt.Sprintf("all %d and %d, zeros too", s.d.Whole, s.d.Part))
		}
		return
	case w.Point:
		s.fault(w.Col, fmt.Sprintf("%c%s has a decimal point", w.Letter, w.Text),
			fmt.Sprintf("digits alone: the control sets the point, %d places before it and %d after", s.d.Whole, s.d.Part))
		return
	case digits > s.d.Whole+s.d.Part:
		s.fault(w.Col, fmt.Sprintf("%c%s has %d digits", w.Letter, w.Text, digits),
			fmt.Sprintf("at most %d, %d before the point and %d after", s.d.Whole+s.d.Part, s.d.Whole, s.d.Part))
	case s.d.Numbers == AllDigits && digits < s.d.Whole+s.d.Part:
		s.fault(w.Col, fmt.Sprintf("%c%s has %d digits", w.Letter, w.Text, digits),
			fmt.Sprintf("all %d, zeros too", s.d.Whole+s.d.Part))
	case s.d.Numbers == DropTrailing:
		for ; digits < s.d.Whole+s.d.Part; digits++ {
			w.Digits *= 10
		}
	}
	w.Places = s.d.Part
}
