package source

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// syntaxWords puts a parser's message into words that help to mend the line.
// It looks at what stands at the place: the commonest slips are a machinist's,
// not a programmer's (a fraction, a decimal comma, a unit without quotes).
func syntaxWords(msg string, data []byte, offset int) (what, allowed string) {
	offset = min(max(offset, 0), len(data))
	r, _ := utf8.DecodeRune(data[offset:])
	if offset == len(data) {
		r = '\n'
	}
	has := func(s string) bool { return strings.Contains(msg, s) }
	switch {
	case has("already been defined"), has("already created"), has("already exists"):
		name := ""
		if m := inQuotes.FindStringSubmatch(msg); m != nil {
			name = Show(m[1]) + " "
		}
		return name + "stands in the file twice", "give a key or a [table] once; a second bore or sweep begins with double brackets, as [[bore]]"
	case has("cannot have new lines"), has("unterminated"):
		return "a text is not closed", "close it with the quote it began with, on the same line"
	case has("escape"):
		return "a backslash stands in a text", `write it twice, or / in a path, as "mills/our.toml"`
	case has("array is incomplete"):
		return "a list is not closed", "close it with ]"
	case has("inline table is incomplete"):
		return "a table is not closed", "close it with }"
	case has("expected '=' after key"):
		return "there is no = after the key", `write key = value, as in title = "Gear case"`
	case has("too large"), has("out of range"), has("accepted range"):
		return "the number is too large to be held", "write a size that fits on a boring mill"
	case has("start of value"), has("not end of input"), has("expected keyword"), has("expected value"), has("invalid character at start of value"):
		return valueWords(r)
	case has("newline"), has("',' or ']'"), has("',' or '}'"):
		return afterValueWords(r, data, offset, has("',' or ']'"), has("',' or '}'"))
	case has("start of key"):
		if r == ']' || r == '}' {
			return string(r) + " stands where a key should", "a list or table above it lacks its closing ] or }, or this one is too many"
		}
		return fmt.Sprintf("%s stands where a key should", glyph(r)), "a line is key = value, [table], [[table of a list]] or # remark"
	}
	return "cannot be read: " + Show(strings.TrimSuffix(msg, ".")), "look at this line and the one above for a missing quote, bracket or comma"
}

var inQuotes = regexp.MustCompile(`Key '([^']*)'`)

// glyph names a character, also one that does not print.
func glyph(r rune) string {
	if Unprintable(r) {
		return fmt.Sprintf("the character %U", r)
	}
	return string(r)
}

// valueWords says what is wrong where a value should begin.
func valueWords(r rune) (what, allowed string) {
	switch {
	case r == '\n' || r == '\r' || r == '#':
		return "there is no value after the =", "write one, or leave the line out"
	case r == '.':
		return "a number begins with a point", "write a zero before it, as 0.031"
	case strings.ContainsRune("“”„‘’«»", r):
		return "a curved quote stands here", `write straight quotes, as "H7"`
	case r == ',':
		return "a value is missing before the comma", "write one, or take the comma away"
	case unicode.IsLetter(r):
		return "a word stands here without quotes", `put a text in quotes, as "table"; true and false go without`
	}
	return glyph(r) + " cannot begin a value", `a value is a number (3.25), a text in quotes ("H7"), true, false, a list [ ] or a table { }`
}

// afterValueWords says what is wrong behind a value.
func afterValueWords(r rune, data []byte, offset int, inList, inTable bool) (what, allowed string) {
	before := byte(' ')
	if offset > 0 {
		before = data[offset-1]
	}
	number := before >= '0' && before <= '9'
	switch {
	case r == '/' && number:
		return "a fraction stands here", "write it as a decimal, as 0.5 for 1/2"
	case r == ',' && number && !inList && !inTable:
		return "a comma stands in a number", "write a decimal point, as 0.031"
	case unicode.IsLetter(r) || r == '"' || r == '\'':
		if inList || inTable {
			break
		}
		return "the number is followed by " + glyph(r), `put a number with its unit in quotes, as "0.8 mm", or leave the unit out`
	}
	switch {
	case inList:
		return "two values of a list stand without a comma between, or the list is not closed", "put a comma between values and ] at the end"
	case inTable:
		return "two keys of a table stand without a comma between, or the table is not closed", "put a comma between keys and } at the end"
	}
	return glyph(r) + " stands behind the value", "one key = value on a line; what follows must be a remark that begins with #"
}
