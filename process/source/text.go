package source

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Longest texts taken from a file, in characters. Sheets and program comments
// have to hold them.
const (
	LongestText = 200
	LongestName = 60
)

// Unprintable reports characters that a sheet, a terminal or a program comment
// must never get from a file: controls, line breaks of every kind, invisible
// and direction-turning format marks, private and unassigned code points.
func Unprintable(r rune) bool {
	return r == utf8.RuneError || !unicode.In(r, unicode.L, unicode.M, unicode.N, unicode.P, unicode.S, unicode.Zs)
}

// CheckText says what is wrong with a text of a file, or "".
func CheckText(s string, longest int) (what, allowed string) {
	n := 0
	for _, r := range s {
		n++
		if Unprintable(r) {
			return fmt.Sprintf("holds the character %U at place %d, which does not print", r, n),
				"write plain text on one line, without control characters or marks that turn the reading direction"
		}
	}
	switch {
	case strings.TrimSpace(s) == "":
		return "is empty", "write a few words"
	case n > longest:
		return fmt.Sprintf("is %d characters long", n), fmt.Sprintf("%d fit on a sheet", longest)
	}
	return "", ""
}

// Found names what stands in a file where something else should.
func Found(v any) string {
	switch x := v.(type) {
	case string:
		return strconv.Quote(Show(x)) + " is a text"
	case bool:
		return strconv.FormatBool(x) + " is a yes or no"
	case int64:
		return strconv.FormatInt(x, 10) + " is a number"
	case float64:
		return strconv.FormatFloat(x, 'g', 6, 64) + " is a number"
	case []any, []map[string]any:
		return "a list stands here"
	case map[string]any:
		return "a table stands here"
	}
	return "a date stands here"
}
