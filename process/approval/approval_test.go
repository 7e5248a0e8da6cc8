package approval_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	. "borewright/process/approval"
)

func work() Work {
	return Work{Number: "WG-204", Revision: "C", Job: strings.Repeat("a1", 32), Files: []File{{"our-mill.toml", strings.Repeat("b2", 32)}},
		Plan: "ACDC-1F45", Programs: []File{{"WG-204-C-idler-1.nc", "14EB-766B"}}}
}

func entry(id, by string) *Approval {
	return &Approval{ID: id, Work: work(), By: by, When: "2026-03-02 14:20", Against: "WG-204-B.toml", AgainstSum: strings.Repeat("c3", 32), Remark: `a "slim" bar`}
}

// What is written is read back as it was; two entries stand in their order.
func TestWrittenAndRead(t *testing.T) {
	a, b := entry("0123456789ab", "R. Dale"), entry("0123456789ac", "S. Moor")
	b.Withdrawn, b.Against, b.AgainstSum, b.Files = true, "", "", nil
	l, err := Read("job.approved.toml", slices.Concat(Entry(a), Entry(b)))
	if err != nil || len(l.All) != 2 || l.Torn != 0 {
		t.Fatal(l, err)
	}
	if l.All[0].Place != "job.approved.toml:2:1" {
		t.Error(l.All[0].Place)
	}
	for i, want := range []*Approval{a, b} {
		got := l.All[i]
		got.Place = ""
		if fmt.Sprintf("%+v", got) != fmt.Sprintf("%+v", *want) {
			t.Errorf("%+v\nwas %+v", got, *want)
		}
	}
}

// An approval holds while all that it was of is as it was, and says what is not.
func TestApprovalLapses(t *testing.T) {
	l := &List{All: []Approval{*entry("0123456789ab", "R. Dale")}}
	for _, x := range []struct {
		why  string
		edit func(w *Work)
		want string
	}{
		{"nothing", func(*Work) {}, ""},
		{"the plan is not known now", func(w *Work) { w.Plan, w.Programs = "", nil }, ""},
		{"a file that it did not name", func(w *Work) { w.Files = append(w.Files, File{"more.toml", "1"}) }, ""},
		{"the job file", func(w *Work) { w.Job = strings.Repeat("d4", 32) }, "the job file was changed"},
		{"a file that it names", func(w *Work) { w.Files = []File{{"our-mill.toml", "e5"}} }, "our-mill.toml was changed"},
		{"that file is gone", func(w *Work) { w.Files = nil }, "our-mill.toml is not there"},
		{"the plan", func(w *Work) { w.Plan = "0000-0000" }, "the plan comes out otherwise"},
		{"a program", func(w *Work) { w.Programs = []File{{"WG-204-C-idler-1.nc", "0000-0000"}} }, "the programs come out otherwise"},
		{"a program more", func(w *Work) { w.Programs = append(w.Programs, File{"x.nc", "0000-0000"}) }, "the programs come out otherwise"},
		{"another revision", func(w *Work) { w.Revision, w.Job = "D", "f6" }, "it was of WG-204, revision C, the job file was changed"},
		{"another job", func(w *Work) { w.Number = "WG-205" }, "it was of WG-204, revision C"},
	} {
		now := work()
		now.Files, now.Programs = slices.Clone(now.Files), slices.Clone(now.Programs)
		x.edit(&now)
		all := l.Now(now)
		if got := strings.Join(all[0].Since, ", "); got != x.want || all[0].Stands() != (x.want == "") || (Held(all) != nil) != (x.want == "") {
			t.Errorf("%s: %q, want %q", x.why, got, x.want)
		}
	}
	if (*List)(nil).Now(work()) != nil || Held(nil) != nil {
		t.Error("where nobody approved somebody did")
	}
}

// A withdrawal takes back what stands before it, and nothing behind it.
func TestWithdrawn(t *testing.T) {
	w := entry("0123456789ac", "S. Moor")
	w.Withdrawn = true
	l := &List{All: []Approval{*entry("0123456789ab", "R. Dale"), *w, *entry("0123456789ad", "T. Fell")}}
	all := l.Now(work())
	if len(all) != 2 || all[0].Stands() || all[0].Since[0] != "withdrawn by S. Moor, 2026-03-02 14:20" || !all[1].Stands() || Held(all).By != "T. Fell" {
		t.Errorf("%+v", all)
	}
}

// A file that ends anywhere in its last entry reads as without it; no byte of an entry can be
// another one without a word.
func TestTornAndFlipped(t *testing.T) {
	first, last := Entry(entry("0123456789ab", "R. Dale")), Entry(entry("0123456789ac", "S. Moor"))
	for n := range len(last) + 1 {
		l, err := Read("a.toml", slices.Concat(first, last[:n]))
		if err != nil {
			t.Fatalf("cut after %d bytes: %v", n, err)
		}
		want := 1
		if n >= len(last)-1 { // but for the end of its last line
			want = 2
		}
		if len(l.All) != want || (l.Torn > 0) != (want == 1 && len(bytes.TrimSpace(last[:n])) > 0) {
			t.Errorf("cut after %d bytes: %d entries, torn at %d", n, len(l.All), l.Torn)
		}
	}
	whole, _ := Read("a.toml", first)
	for i := range first {
		data := bytes.Clone(first)
		data[i] ^= 1
		l, err := Read("a.toml", data)
		if err == nil && len(l.All) == 1 {
			got := l.All[0]
			got.Place = whole.All[0].Place
			if fmt.Sprint(got) != fmt.Sprint(whole.All[0]) {
				t.Errorf("byte %d: %q reads as another approval", i, data)
			}
		}
	}
}

// What does not read says where, and an entry that stands there twice is one too many.
func TestBadFiles(t *testing.T) {
	good := string(Entry(entry("0123456789ab", "R. Dale")))
	for name, x := range map[string]struct{ text, want string }{
		"twice":         {good + good, "a.toml:22:1: approved[2].id: this entry stands in the file twice, first at a.toml:2:1"},
		"by hand":       {"[[approved]]\nnumber = \"A\"\n", "missing"},
		"no check":      {strings.Split(good, "check =")[0] + "\n[[approved]]\n", "not written whole"},
		"another key":   {strings.Replace(good, "by =", "bye =", 1), "bye"},
		"not as it was": {strings.Replace(good, "R. Dale", "R. Dole", 1), "not as it was written"},
	} {
		if _, err := Read("a.toml", []byte(x.text)); err == nil || !strings.Contains(err.Error(), x.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// FuzzRead: whatever the file holds, it is read or refused in words, and what is added to one
// that reads stands at its end.
func FuzzRead(f *testing.F) {
	f.Add(Entry(entry("0123456789ab", "R. Dale")))
	f.Add(slices.Concat(Entry(entry("0123456789ab", "R. Dale")), Entry(entry("0123456789ac", "S. Moor"))[:90]))
	f.Add([]byte("[[approved]]\nnumber = \"A\"\nrevision = \"\\u202e\"\nby = \"x\"\njob_file = \"y\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := Read("a.toml", data)
		if err != nil {
			if !strings.Contains(err.Error(), "a.toml") {
				t.Errorf("%q: %v", data, err)
			}
			return
		}
		for _, s := range l.Now(work()) {
			if s.Stands() == (len(s.Since) > 0) {
				t.Error(s)
			}
		}
		whole, _ := SplitTorn(data)
		added := entry("fedcba987654", "T. Fell")
		if len(whole) > 0 && whole[len(whole)-1] != '\n' {
			whole = append(slices.Clip(whole), '\n')
		}
		again, err := Read("a.toml", slices.Concat(whole, Entry(added)))
		if err == nil && (len(again.All) != len(l.All)+1 || again.All[len(l.All)].By != "T. Fell") {
			t.Errorf("%q: what is added does not stand at the end", data)
		}
	})
}
