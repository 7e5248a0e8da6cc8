package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"borewright/process/files"
	"borewright/process/qty"
)

// meddler answers, and changes the file while the last answer is thought over.
type meddler struct {
	answers *strings.Reader
	path    string
	said    *bytes.Buffer
}

func (m *meddler) Read(b []byte) (int, error) {
	if strings.Contains(m.said.String(), "Write this to") {
		data, err := os.ReadFile(m.path)
		if err != nil {
			return 0, err
		}
		return copy(b, "yes\n"), os.WriteFile(m.path, append(data, "# mine\n"...), 0o644)
	}
	return m.answers.Read(b[:1])
}

// TestEditLeavesWhatChangedMeanwhile: nobody's change is written over.
func TestEditLeavesWhatChangedMeanwhile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(path, files.Template(qty.Inches), 0o644); err != nil {
		t.Fatal(err)
	}
	var out, said bytes.Buffer
	in := &meddler{strings.NewReader("\nhbm-4in\n" + strings.Repeat("\n", 70)), path, &said}
	code := run([]string{"edit", path}, in, &out, &said)
	data, _ := os.ReadFile(path)
	if code != exitWrong || !strings.Contains(said.String(), "was changed by somebody meanwhile; nothing is written") || string(data) != string(files.Template(qty.Inches))+"# mine\n" {
		t.Errorf("exit %d\n%s\n%s", code, said.String(), data)
	}
}
