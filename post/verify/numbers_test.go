package verify

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"borewright/post"
	"borewright/process/measured"
)

// No two programs of a job share a file name or an O number, whatever was
// measured and finished between them, and each is proven by its own alone.
func TestNumbersAndNames(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "program_number = 1200\nfeed_axis = \"Z\"\nquill_axis = \"W\"")
	p.Job.Bores = append(p.Job.Bores, p.Job.Bores[0])
	p.Job.Bores[1].Station = 1 // a bore that is finished: it is in no plan any more
	whole := p.Bores[0].Visits
	names, numbers := map[string]bool{}, map[string]bool{}
	var texts [][]byte
	for entries := range 5 {
		p.Findings = nil
		if entries > 0 {
			p.Findings = &measured.Findings{Entries: entries}
		}
		p.Bores[0].Visits = whole
		if entries > 2 {
			p.Bores[0].Visits = whole[1:]
		}
		for k := range p.Bores[0].Visits {
			program := written(t, p, 0, k)
			if r := Check(program, "", p, 0, k); !r.Proven {
				t.Errorf("%d entries, visit %d: %v", entries, k, r.Findings)
			}
			number := strings.Split(string(program), "\n")[1]
			name := post.FileName(p, 0, k)
			if names[name] || numbers[number] || number[0] != 'O' {
				t.Errorf("%d entries: %s, %s again", entries, name, number)
			}
			if measured := fmt.Sprintf("-measured-%d.nc", entries); strings.HasSuffix(name, measured) != (entries > 0) {
				t.Errorf("%d entries: %s", entries, name)
			}
			names[name], numbers[number] = true, true
			texts = append(texts, program)
		}
	}
	p.Findings, p.Bores[0].Visits = nil, whole
	for _, c := range []struct {
		why  string
		text []byte
		want string
	}{
		{"another visit's", bytes.Replace(texts[0], []byte("O1200"), []byte("O1201"), 1), "O1201; O1200"},
		{"that of a plan after a measurement", bytes.Replace(texts[0], []byte("O1200"), []byte("O1204"), 1), "O1204; O1200"},
		{"a second one", bytes.Replace(texts[0], []byte("O1200\n"), []byte("O1200\nO1300\n"), 1), "O1300"},
	} {
		r := Check(c.text, "", p, 0, 0)
		if !slices.ContainsFunc(r.Findings, func(f Finding) bool { return strings.Contains(said(f), c.want) }) {
			t.Errorf("%s: %v", c.why, r.Findings)
		}
	}
	p.Job.Machine.Control.ProgramNumber = 0
	if r := Check(texts[0], "", p, 0, 0); len(r.Findings) != 1 || !strings.Contains(r.Findings[0].Want, "no O word") || r.Findings[0].Line != 2 {
		t.Errorf("a number where none is to be: %v", r.Findings)
	}
	p.Job.Machine.Control.ProgramNumber = 9999
	if err := post.Write(&bytes.Buffer{}, p, 0, 1); err == nil || !strings.Contains(err.Error(), "program_number = 9999 in the machine file makes this program O10000, and an O word has 4 digits at most; state program_number = 9998 or less") {
		t.Error(err)
	}
}
