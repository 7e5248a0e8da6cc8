package post

import (
	"slices"
	"strings"
	"unicode"

	"borewright/post/sum"
)

// spelled are characters that a person at the control would miss, in letters
// that every control has.
var spelled = map[rune]string{
	'⌀': "DIA ", '∅': "DIA ", 'µ': "U", 'μ': "U", '°': " DEG", '%': " PERCENT", '±': "+/-", '×': "X", '÷': "/",
	'–': "-", '—': "-", '‑': "-", '‐': "-", '−': "-", '‘': "'", '’': "'", '“': "\"", '”': "\"", '…': "...",
	'≤': "<=", '≥': ">=", '≈': "ABOUT ", '√': "ROOT ", '²': "2", '³': "3", '½': "1/2", '¼': "1/4", '¾': "3/4",
	'·': ".", '→': "->", '′': "'", '″': "\"", 'Ω': "OHM", 'π': "PI", 'κ': "KAPPA", 'λ': "LAMBDA", 'δ': "DELTA", 'α': "ALPHA",
	'ß': "SS", 'æ': "AE", 'Æ': "AE", 'œ': "OE", 'Œ': "OE", 'þ': "TH", 'Þ': "TH", 'ð': "D", 'Ð': "D", 'ł': "L", 'Ł': "L",
	'đ': "D", 'Đ': "D", 'ı': "I",
	'[': "<", ']': ">", '{': "<", '}': ">", '#': "NO ", ';': ".", '\\': "/", '~': "-", '`': "'", '^': "", '|': "/", '$': "", '@': " AT ", '_': "-",
}

// accented are Latin letters with marks, each row with the letter to write.
var accented = map[rune]string{
	'A': "àáâãäåāăąÀÁÂÃÄÅĀĂĄ", 'C': "çćĉċčÇĆĈĊČ", 'D': "ďĎ", 'E': "èéêëēĕėęěÈÉÊËĒĔĖĘĚ", 'G': "ĝğġģĜĞĠĢ", 'H': "ĥĤ",
	'I': "ìíîïĩīĭįÌÍÎÏĨĪĬĮİ", 'J': "ĵĴ", 'K': "ķĶ", 'L': "ĺļľĹĻĽ", 'N': "ñńņňÑŃŅŇ", 'O': "òóôõöōŏőÒÓÔÕÖŌŎŐ",
	'R': "ŕŗřŔŖŘ", 'S': "śŝşšșŚŜŞŠȘ", 'T': "ţťțŢŤȚ", 'U': "ùúûüũūŭůűųÙÚÛÜŨŪŬŮŰŲ", 'W': "ŵŴ", 'Y': "ýÿŷÝŸŶ", 'Z': "źżžŹŻŽ",
}

// textMost bounds what one text of a job may take in a program: room for any
// sentence of a plan, not for a name of 10 kB.
const textMost = 600

// clean makes text fit for a comment: capitals of printing ASCII without
// parentheses, one space between words, on one line. What
// has no spelling becomes a question mark; marks that print nothing go.
func clean(s string) string {
	var b strings.Builder
	if len(s) > 16*textMost {
		s = s[:16*textMost] // cut below; there is no need to read 100 kB of a name
	}
	text := []rune(s)
	for i, r := range text {
		switch t, ok := spelled[r]; {
		case ok:
			b.WriteString(t)
		case r == 'ø' || r == 'Ø':
			// a letter of a name, or the sign before a size
			if i > 0 && unicode.IsLetter(text[i-1]) || i+1 < len(text) && unicode.IsLetter(text[i+1]) {
				b.WriteByte('O')
			} else {
				b.WriteString("DIA ")
			}
		case r == '(':
			b.WriteString(" - ") // an aside stays one
		case r == ')' && i+1 < len(text) && strings.ContainsRune(",.;:", text[i+1]):
		case r == ')' || unicode.IsSpace(r):
			b.WriteByte(' ')
		case r > ' ' && r <= '~':
			b.WriteRune(unicode.ToUpper(r))
		case r < ' ' || r == 0x7f || unicode.In(r, unicode.Cc, unicode.Cf, unicode.Mn, unicode.Me):
		default:
			b.WriteByte(base(r))
		}
	}
	t := strings.Join(strings.Fields(b.String()), " ")
	if len(t) > textMost {
		t = strings.TrimRight(t[:textMost-3], " ") + "..."
	}
	return t
}

// plainText spells clean text in capitals, digits, spaces and + - . , / alone.
func plainText(s string) string {
	var b strings.Builder
	for i := range len(s) {
		switch c := s[i]; {
		case c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == ' ' || c >= '+' && c <= '/':
			b.WriteByte(c)
		default:
			b.WriteString(plainSpelled[c])
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// plainSpelled are the other characters that clean leaves; those without a row
// go.
var plainSpelled = map[byte]string{
	':': " -", '=': " IS ", '<': " UNDER ", '>': " OVER ", '!': ".", '?': ".", '&': " AND ", '*': " X ",
}

func base(r rune) byte {
	for letter, marked := range accented {
		if strings.ContainsRune(marked, r) {
			return byte(letter)
		}
	}
	return '?'
}

// wrap breaks clean text into lines of at most most characters, all but the
// first indented. Every line stands in parentheses of its own; one that a
// control could take for an order to it (a word and a comma at its start, as
// in MSG,) is given a dash. A line is broken sooner rather
// than that the next begins so: a dash behind a figure reads as minus.
func wrap(text string, most int) []string {
	var lines []string
	for text != "" {
		indent := ""
		if len(lines) > 0 {
			indent = "  "
		}
		if order(text) {
			indent += "- "
		}
		room := most - len(indent)
		n := len(text)
		if n > room {
			if n = strings.LastIndexByte(text[:room+1], ' '); n <= 0 {
				n = room
			}
			for k := n; k > room/2; k = strings.LastIndexByte(text[:k], ' ') {
				if !order(strings.TrimLeft(text[k:], " ")) {
					n = k
					break
				}
			}
		}
		lines = append(lines, indent+strings.TrimRight(text[:n], " "))
		text = strings.TrimLeft(text[n:], " ")
	}
	return lines
}

// acted are words that open controls act on at the start of a comment, with or without
// a comma behind; from memory.
var acted = []string{"MSG", "DEBUG", "PRINT", "LOG", "PROBE", "ABORT", "PY", "WARN"}

// order reports whether text begins as an active comment does: a word of any length or
// a few letters, then a comma; or a word that controls act on by itself.
func order(text string) bool {
	word := text[:len(text)-len(strings.TrimLeft(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))]
	if rest := strings.TrimLeft(text[len(word):], " "); word != "" && strings.HasPrefix(rest, ",") {
		return true
	}
	if slices.ContainsFunc(acted, func(a string) bool { return strings.HasPrefix(word, a) }) {
		return true
	}
	head, _, found := strings.Cut(text, ",")
	if !found {
		return false
	}
	head = strings.ReplaceAll(head, " ", "")
	for _, c := range head {
		if c < 'A' || c > 'Z' {
			return false
		}
	}
	return len(head) <= 8
}

// fileText keeps what every file system takes: letters, digits and single
// dashes between them. lost is whether letters, figures or pictures are left out, such as
// the alphabet does not have or those behind most, or letters have lost their marks; or nothing
// is left.
func fileText(s string, most int) (text string, lost bool) {
	var b strings.Builder
	dash := false
	for _, r := range s {
		switch {
		case r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z':
		case r > 0x7f && unicode.IsLetter(r) && base(r) != '?':
			up := base(r)
			if unicode.IsLower(r) {
				up += 'a' - 'A'
			}
			r, lost = rune(up), true
		default:
			dash = b.Len() > 0
			lost = lost || unicode.IsLetter(r) || unicode.IsNumber(r) || r > 0x7f && unicode.IsSymbol(r)
			continue
		}
		if b.Len() >= most {
			return b.String(), true
		}
		if dash {
			b.WriteByte('-')
			dash = false
		}
		b.WriteRune(r)
	}
	return b.String(), lost || b.Len() == 0 && strings.TrimSpace(s) != ""
}

// identity is a job's number or its revision in a name: whole, or with four hexadecimal digits
// of its check sum behind it, so that two that differ never share a name because of letters that a
// name cannot hold. What stands between letters and figures, a space, a point, a slash, tells no
// two apart: a folder of the other is refused (store.WriteNoted).
func identity(s string) string {
	text, lost := fileText(s, 40)
	if !lost {
		return text
	}
	return strings.TrimPrefix(text+"-"+sum.OfData([]byte(s))[:4], "-")
}
