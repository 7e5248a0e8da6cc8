package files

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process/source"
)

type badFile struct {
	why   string
	file  string   // reboreJob or sleeveJob
	edits []string // old text, new text, …
	want  string
}

// TestBadFiles holds the text of every kind of mistake: would it let you mend
// the file?
func TestBadFiles(t *testing.T) {
	for _, rows := range [][]badFile{badSyntax, badKeys, badStations, badBores, badBars, badRest} {
		for _, row := range rows {
			t.Run(row.why, func(t *testing.T) {
				job, err := Job("job.toml", []byte(edit(t, row.file, row.edits...)), nil)
				if err == nil {
					t.Fatal("loads without an error")
				}
				if job != nil {
					t.Error("gives a job as well as an error")
				}
				var list source.Errors
				if !errors.As(err, &list) {
					t.Errorf("the error is a %T, not Errors", err)
				}
				if diff := cmp.Diff(withBuiltIns(strings.TrimSpace(row.want)), err.Error()); diff != "" {
					t.Errorf("(-want +got):\n%s", diff)
				}
			})
		}
	}
}

// withBuiltIns puts the names of the catalog in a message: {machines},
// {materials}, {cutters}, {bars}.
func withBuiltIns(text string) string {
	for _, dir := range []string{"machines", "materials", "cutters", "bars"} {
		text = strings.ReplaceAll(text, "{"+dir+"}", strings.Join(builtInIDs(dir), ", "))
	}
	return text
}
