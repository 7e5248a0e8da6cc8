package page

import "strings"

// Fold breaks text into lines of at most n runes, at spaces. A longer word stays
// whole: a path or a key is copied from the screen. It gives at least one line.
func Fold(text string, n int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > n {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}
