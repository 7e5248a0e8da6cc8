package ask

import (
	"strings"

	"github.com/sergi/go-diff/diffmatchpatch"
)

// Changes is the lines that one text has and the other has not, "-" before the old and
// "+" before the new.
func Changes(was, now []byte) string {
	d := diffmatchpatch.New()
	a, b, lines := d.DiffLinesToChars(string(was), string(now))
	var out strings.Builder
	for _, part := range d.DiffCharsToLines(d.DiffMain(a, b, false), lines) {
		mark := map[diffmatchpatch.Operation]string{diffmatchpatch.DiffDelete: "- ", diffmatchpatch.DiffInsert: "+ "}[part.Type]
		if mark == "" {
			continue
		}
		for line := range strings.Lines(part.Text) {
			out.WriteString(mark + strings.TrimRight(line, "\r\n") + "\n")
		}
	}
	return out.String()
}
