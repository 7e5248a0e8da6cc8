// Package rs274 is the language of a control: plain RS-274 blocks (ISO 6983-1
// words), read strictly, replayed into motion, and printed. It knows no jobs.
//
// Replay is the usual door: it reads a program and hands over what the machine
// would do, event by event, and every fault with its line and column. Scanner
// reads blocks alone. Write prints one block, and refuses what a control could
// take for something else.
//
// Plain means words of a letter and a number, comments in parentheses, N and O
// numbers, block delete and percent lines. Parameters, expressions and
// subprograms are faults, not features. The facts behind the rules are from
// NISTIR 6556 (its step tables for cycles, its modal groups) and, where marked
// so, from memory of EIA RS-274-D and ISO 6983-1.
package rs274

import "borewright/process/qty"

// Word is a letter and its number. The number is held exactly: it is
// Digits / 10^Places, after the dialect's implied point has been set.
type Word struct {
	Letter byte    // 'A' to 'Z'
	Point  bool    // a decimal point was written
	Places int     // decimals of Digits
	Col    int     // column of the letter, from 1
	Digits int64   // the number without its point, signed
	Value  float64 // the number, in the program's own units
	Text   string  // the number as written, without the letter
}

// Length is the number as a length in u, rounded once, to the nanometre.
func (w Word) Length(u qty.Unit) qty.Length {
	return lengthOf(w.Digits, w.Places, u)
}

// Is reports whether the word is exactly the letter and the whole number n:
// Is('G', 1) is true of G1, G01 and G1.0.
func (w Word) Is(letter byte, n int64) bool {
	return w.Letter == letter && w.tenths() == n*10
}

// tenths is ten times the number, or -1 where that is not whole: codes such as
// G59.1 have one decimal.
func (w *Word) tenths() int64 {
	switch w.Places {
	case 0:
		return w.Digits * 10
	case 1:
		return w.Digits
	}
	p := int64(pow10[w.Places-1])
	if w.Digits%p != 0 {
		return -1
	}
	return w.Digits / p
}

// Comment is text in parentheses, without them.
type Comment struct {
	Text    string
	Message bool // written as (MSG, text): to be shown to the operator
	Col     int  // column of the opening parenthesis, from 1
}

// Block is one line that is not blank and not a percent line. Words holds all
// words as they stand, the N and O words too.
type Block struct {
	Line     int  // in the file, from 1
	Delete   bool // begins with /
	Words    []Word
	Comments []Comment
	Text     string // the line without its end
}

// Word finds the first word with the letter.
func (b *Block) Word(letter byte) (Word, bool) {
	for _, w := range b.Words {
		if w.Letter == letter {
			return w, true
		}
	}
	return Word{}, false
}

// Number is the block number, or -1.
func (b *Block) Number() int {
	if len(b.Words) > 0 && b.Words[0].Letter == 'N' {
		return int(b.Words[0].Value)
	}
	return -1
}

// pow10 are the powers that a number of digitsMost digits can need. All are
// exact in a float64.
var pow10 = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// lengthOf is digits/10^places of the unit in nanometres, half away from zero,
// without floating point wherever the answer fits.
func lengthOf(digits int64, places int, u qty.Unit) qty.Length {
	unit := int64(qty.Millimetre)
	if u == qty.Inches {
		unit = int64(qty.Inch)
	}
	neg := digits < 0
	if neg {
		digits = -digits
	}
	scale := int64(pow10[places])
	// whole and rest apart: rest < 1e15 would overflow against the unit, so
	// the rest is cut to 9 decimals first, far below a nanometre.
	whole, rest := digits/scale, digits%scale
	for scale > 1e9 {
		scale, rest = scale/10, rest/10
	}
	var nm int64
	if whole > 1<<62/unit {
		nm = 1 << 62 // longer than any machine; the travel check of the reader has spoken
	} else {
		nm = whole*unit + (rest*unit+scale/2)/scale
	}
	if neg {
		nm = -nm
	}
	return qty.Length(nm)
}
