package sentence

import (
	"bytes"
	"math"
	"strconv"
	"strings"
)

// token is a word or a number of a sentence. A number of the book may be said
// otherwise by as much as its slack. A token of the book that is open stands for
// any words: a name that a control has no letters for.
type token struct {
	text  string
	n     float64
	num   bool
	slack float64
	open  bool
}

func (t token) is(said token) bool {
	if t.num && said.num {
		return math.Abs(t.n-said.n) <= t.slack+1e-9
	}
	return t.num == said.num && t.text == said.text
}

// alike is a word in the spelling that stands for all of it; "" for words that change
// nothing.
func alike(w []byte) string {
	switch string(w) {
	case "THE", "A", "AN", "PLEASE", "NOW", "IS", "ARE":
		return ""
	case "DIAMETER":
		return "DIA"
	case "INCH", "INCHES":
		return "IN"
	case "GAGE":
		return "GAUGE"
	case "MILLIMETER", "MILLIMETRE":
		return "MM"
	case "TOOL":
		return "CUTTER"
	}
	return "="
}

// spell is what a control prints for characters that it has no type for.
var spell = strings.NewReplacer(
	"Ø", "DIA ", "⌀", "DIA ", "µ", "U", "μ", "U", "°", " DEG", "%", " PERCENT", "×", "X", "±", "+/-", "–", "-", "—", "-", "−", "-", "‑", "-",
	"≤", "<", "≥", ">", "²", "2", "³", "3", "·", ".", "’", "'", "‘", "'", "“", "", "”", "", "…", "...", "½", "1/2", "¼", "1/4", "¾", "3/4",
)

func letter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }
func digit(c byte) bool  { return c >= '0' && c <= '9' }

// slackMark stands in a sentence of the book between a number and its slack:
// 3.1650 and 0.0001 behind it. openMark stands for words that are not held.
const (
	slackMark = '\x02'
	openMark  = '\x01'
)

// key is a sentence in one spelling: capitals, no marks, one space behind each word or
// number, no zeros that say nothing. A sign counts before a number or an axis: +X, -0.5.
func key(dst []byte, s string, slack bool) []byte {
	for i := 0; i < len(s); {
		c := s[i]
		switch {
		case letter(c):
			dst, i = word(dst, s, i)
		case digit(c) || c == '.' && i+1 < len(s) && digit(s[i+1]):
			dst, i = number(dst, s, i, slack)
		case c == '+' && strings.HasPrefix(s[i:], "+/-"):
			dst, i = append(dst, "+/- "...), i+3
		case (c == '-' || c == '+') && axis(s, i):
			dst, i = append(dst, c, s[i+1]&^0x20, ' '), i+2
		case c == '-' && i+1 < len(s) && (digit(s[i+1]) || s[i+1] == '.') && (i == 0 || !digit(s[i-1])):
			dst, i = number(append(dst, '-'), s, i+1, slack)
		case c == '<':
			dst, i = append(dst, "UNDER "...), i+1
		case c == '>':
			dst, i = append(dst, "OVER "...), i+1
		case c == '&':
			dst, i = append(dst, "AND "...), i+1
		case c == openMark:
			dst, i = append(dst, openMark, ' '), i+1
		default:
			i++
		}
	}
	return dst
}

// axis reports that the sign at i belongs to the letter of an axis.
func axis(s string, i int) bool {
	return i+1 < len(s) && s[i+1]|0x20 >= 'w' && s[i+1]|0x20 <= 'z' && (i+2 == len(s) || !letter(s[i+2])) &&
		(i == 0 || !letter(s[i-1]) && !digit(s[i-1]))
}

func word(dst []byte, s string, i int) ([]byte, int) {
	from := len(dst)
	for ; i < len(s); i++ {
		switch c := s[i]; {
		case letter(c):
			dst = append(dst, c&^0x20)
			continue
		case c == '\'' || c == '"':
			continue
		}
		break
	}
	switch a := alike(dst[from:]); a {
	case "=":
	case "":
		return dst[:from], i
	default:
		dst = append(dst[:from], a...)
	}
	return append(dst, ' '), i
}

func number(dst []byte, s string, i int, slack bool) ([]byte, int) {
	for i+1 < len(s) && s[i] == '0' && digit(s[i+1]) {
		i++
	}
	if s[i] == '.' {
		dst = append(dst, '0')
	}
	point := -1
	for ; i < len(s); i++ {
		if s[i] == '.' && point < 0 && i+1 < len(s) && digit(s[i+1]) {
			point = len(dst)
		} else if !digit(s[i]) {
			break
		}
		dst = append(dst, s[i])
	}
	if point >= 0 {
		for dst[len(dst)-1] == '0' {
			dst = dst[:len(dst)-1]
		}
		if len(dst)-1 == point {
			dst = dst[:point]
		}
	}
	if i < len(s) && s[i] == slackMark {
		from := i
		for i++; i < len(s) && (digit(s[i]) || s[i] == '.'); i++ {
		}
		if slack {
			dst = append(dst, s[from:i]...)
		}
	}
	return append(dst, ' '), i
}

// tokens takes a sentence apart.
func tokens(dst []token, s string) []token {
	for w := range bytes.SplitSeq(key(nil, s, true), []byte{' '}) {
		switch {
		case len(w) == 0:
		case w[0] == openMark:
			dst = append(dst, token{open: true})
		case digit(w[0]) || w[0] == '-' && len(w) > 1 && digit(w[1]):
			n, slack, _ := strings.Cut(string(w), string(slackMark))
			t := token{text: n, num: true}
			t.n, _ = strconv.ParseFloat(n, 64)
			t.slack, _ = strconv.ParseFloat(slack, 64)
			dst = append(dst, t)
		default:
			dst = append(dst, token{text: string(w)})
		}
	}
	return dst
}
