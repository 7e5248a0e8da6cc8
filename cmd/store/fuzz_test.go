package store

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// FuzzRead: whatever the bytes, a list that names files of its own folder alone, and that is
// the same when it is written and read again.
func FuzzRead(f *testing.F) {
	whole := List{Schema: schema, Number: "WG-204", Revision: "C", Whole: true, Sums: map[string]string{"plan.json": sumOf(nil), "WG-204-C-idler-1.nc": sumOf([]byte("%"))}}
	torn := whole
	torn.Whole = false
	for _, l := range []List{whole, torn, {Schema: schema}} {
		text := string(l.text())
		f.Add(text)
		f.Add(text[:len(text)/2])
		f.Add(strings.ReplaceAll(text, "\n", "\r\n"))
	}
	for _, name := range []string{"..", "../x", `..\\x`, "/etc/x", "", ListName, "C:x"} {
		f.Add("schema = \"" + schema + "\"\n[sha256]\n\"" + name + "\" = \"00\"\n")
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := read([]byte(text))
		if err != nil {
			return
		}
		for name := range l.Sums {
			if path := filepath.Join("/there", name); filepath.Dir(path) != filepath.FromSlash("/there") || name == ListName {
				t.Errorf("%q is taken for a file of the folder", name)
			}
		}
		again, err := read(l.text())
		if err != nil {
			t.Fatalf("does not read when it is written: %v\n%s", err, l.text())
		}
		if diff := cmp.Diff(l, again); diff != "" && len(l.Sums)+len(again.Sums) > 0 {
			t.Errorf("(-read +written and read):\n%s", diff)
		}
	})
}
