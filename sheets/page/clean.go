package page

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// escapes matches terminal control sequences as ECMA-48 builds them: a control
// string (OSC, DCS, SOS, PM, APC) up to its end, a control sequence (CSI), or
// ESC with one more character. C1 controls stand for themselves.
var escapes = regexp.MustCompile("" +
	"(?:\x1b[\\]P^_X]|[\u009d\u0090\u009e\u009f\u0098])[^\x07\x1b\u009c]*(?:\x07|\x1b\\\\|\u009c|$)" +
	"|(?:\x1b\\[|\u009b)[0-?]*[ -/]*[@-~]?" +
	"|\x1b[ -/]*[0-~]?")

// Clean makes a text printable on one line: terminal escapes go, every other
// control and every kind of space becomes one space, format characters (which
// can turn a line round) go, and dashes and quotes become the ASCII ones, which
// every printer has.
func Clean(s string) string {
	if plain(s) {
		return s
	}
	s = strings.ToValidUTF8(s, "?")
	s = escapes.ReplaceAllString(s, "")
	var b strings.Builder
	space := false
	for _, r := range s {
		switch {
		case unicode.IsSpace(r), unicode.IsControl(r):
			space = true
			continue
		case !unicode.IsPrint(r):
			continue
		}
		if space && b.Len() > 0 {
			b.WriteByte(' ')
		}
		space = false
		if t, ok := typewriter[r]; ok {
			b.WriteString(t)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// plain reports whether clean would change nothing, which is the usual case.
func plain(s string) bool {
	last := byte(' ')
	for i := range len(s) {
		c := s[i]
		if c < ' ' || c >= 0x7f || c == ' ' && last == ' ' {
			return false
		}
		last = c
	}
	return last != ' ' || s == ""
}

var typewriter = map[rune]string{
	'‐': "-", '‑': "-", '‒': "-", '–': "-", '—': "-", '―': "-", '−': "-",
	'‘': "'", '’': "'", '‚': "'", '′': "'", '“': `"`, '”': `"`, '„': `"`, '″': `"`,
	'…': "...", '→': "->", '←': "<-", '≤': "<=", '≥': ">=", '≈': "~", '•': "-",
	'μ': "µ", '⌀': "Ø", '∅': "Ø", 'º': "°",
}

// toASCII puts a text into the characters of ISO 646, for printers that have
// no others. Ø becomes "dia ", so that no size is left without it.
func toASCII(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch t, ok := ascii[r]; {
		case r < utf8.RuneSelf:
			b.WriteRune(r)
		case ok:
			b.WriteString(t)
		default:
			b.WriteString(withoutMark(r))
		}
	}
	return b.String()
}

func withoutMark(r rune) string {
	for _, u := range unmarked {
		if strings.ContainsRune(u.marked, r) {
			return u.plain
		}
	}
	return "?"
}

var ascii = map[rune]string{
	'Ø': "dia ", '±': "+/-", 'µ': "u", '°': " deg", '·': ".", '×': "x", '÷': "/", '²': "2", '³': "3",
	'½': " 1/2", '¼': " 1/4", '¾': " 3/4", 'κ': "kappa", 'γ': "gamma", 'α': "alpha", 'λ': "lambda", 'Δ': "delta ",
	'δ': "delta", 'π': "pi", 'Σ': "sum", 'ß': "ss", 'æ': "ae", 'Æ': "AE", 'œ': "oe", 'Œ': "OE", 'ø': "o", 'đ': "d", 'Đ': "D",
	'ł': "l", 'Ł': "L", 'þ': "th", 'Þ': "Th", 'ð': "d", '§': "par. ", '«': `"`, '»': `"`, '¿': "?", '¡': "!", '€': "EUR", '£': "GBP",
	'√': "sqrt ", '≠': "!=", '∞': "inf",
}

// unmarked lists letters with marks behind the letter they are read as.
var unmarked = [...]struct {
	plain  string
	marked string
}{
	{"A", "ÀÁÂÃÄÅĀĂĄ"}, {"C", "ÇĆČĈĊ"}, {"D", "Ď"}, {"E", "ÈÉÊËĒĖĘĚ"}, {"G", "ĞĢĜĠ"}, {"I", "ÌÍÎÏĪĮİ"}, {"K", "Ķ"}, {"L", "ĽĻĹ"},
	{"N", "ÑŃŇŅ"}, {"O", "ÒÓÔÕÖŌŐ"}, {"R", "ŘŔ"}, {"S", "ŚŠŞȘŜ"}, {"T", "ŤŢȚ"}, {"U", "ÙÚÛÜŪŮŰŲ"}, {"Y", "ÝŸ"}, {"Z", "ŹŽŻ"},
	{"a", "àáâãäåāăą"}, {"c", "çćčĉċ"}, {"d", "ď"}, {"e", "èéêëēėęě"}, {"g", "ğģĝġ"}, {"i", "ìíîïīįı"}, {"k", "ķ"}, {"l", "ľļĺ"},
	{"n", "ñńňņ"}, {"o", "òóôõöōő"}, {"r", "řŕ"}, {"s", "śšşșŝ"}, {"t", "ťţț"}, {"u", "ùúûüūůűų"}, {"y", "ýÿ"}, {"z", "źžż"},
}
