package source

import (
	"os"
	"strings"
	"testing"
)

// The head is that of the whole reader, and so is a mistake behind it.
func TestHead(t *testing.T) {
	data, err := os.ReadFile("../../testdata/jobs/lock-winch/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	h, prob := HeadOf("job.toml", data)
	whole := Parse(data, &Problems{})
	if prob != nil || whole == nil {
		t.Fatal(prob)
	}
	for _, key := range []string{"number", "revision", "title"} {
		if h.Texts[key] != whole.Values[key] {
			t.Errorf("%s: %q, and the whole reader has %q", key, h.Texts[key], whole.Values[key])
		}
	}
	if len(h.Names) != len(whole.Values) {
		t.Errorf("%d keys and tables, and the whole reader has %d: %q", len(h.Names), len(whole.Values), h.Names)
	}
	for text, want := range map[string]string{
		"number = \"A\"\n[bar\n":           "dir/j.toml:2:",
		"number = \"A\nrevision = \"B\"\n": "dir/j.toml:1:",
		"a = 1\n\xff = 2\n":                "dir/j.toml:2:1:",
	} {
		if _, prob := HeadOf("dir/j.toml", []byte(text)); prob == nil || !strings.HasPrefix(prob.Error(), want) {
			t.Errorf("%q: %v; want it at %s", text, prob, want)
		}
	}
}

func BenchmarkHead(b *testing.B) {
	data, err := os.ReadFile("../../testdata/jobs/lock-winch/job.toml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, prob := HeadOf("job.toml", data); prob != nil {
			b.Fatal(prob)
		}
	}
}
