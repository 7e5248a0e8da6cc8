package verify

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"borewright/post"
	"borewright/process/slow"
)

// Programs that cut several bores at one setting are proven, by whichever of its bores they are
// asked for, and name each of them.
func TestLinesAreProven(t *testing.T) {
	for name, text := range map[string]func(testing.TB) string{"lugs": lugsJob, "webs": websJob} {
		for _, c := range controlsOf[:slow.Rounds(t, "controls", 4, 1)] {
			p := planned(t, text(t), "cnc-110mm", c)
			cut := 0
			for _, at := range p.Find("", 0) {
				var out bytes.Buffer
				if err := post.Write(&out, p, at[0], at[1]); err != nil {
					t.Fatalf("%s %.12q: %v", name, c, err)
				}
				r := Check(out.Bytes(), "line.nc", p, at[0], at[1])
				for _, f := range r.Findings {
					t.Errorf("%s %.12q: %d: %s; %s", name, c, f.Line, f.What, f.Want)
				}
				if len(r.NotHeld) > 0 || len(r.Unsaid) > 0 {
					t.Errorf("%s %.12q: not held %v, unsaid %v", name, c, r.NotHeld, r.Unsaid)
				}
				if b, v, ok := Identify(out.Bytes(), p); !ok || b != 0 || v != at[1] {
					t.Errorf("%s %.12q: taken for bore %d, visit %d, %v", name, c, b, v, ok)
				}
				cut += within(r)
			}
			if len(p.Bores[0].Visits[0].Together) != 3 || cut == 0 {
				t.Errorf("%s %.12q: not at one setting: %v", name, c, p.Order)
			}
		}
	}
}

// within is how many stations a program leaves within the limits of its visit.
func within(r Report) (n int) {
	for _, s := range r.Shape {
		if s.Cut && s.Within {
			n++
		}
	}
	return n
}

// What lies between two bores, and how the cutter comes back through them, is held.
func TestBetweenBoresIsHeld(t *testing.T) {
	p := planned(t, lugsJob(t), "cnc-110mm", "")
	own := string(written(t, p, 0, 0))
	v := p.Bores[0].Visits[0]
	at := func(l int64) string { return fmt.Sprintf("%.4f", float64(l)/25.4e6) }
	first, second, third := at(int64(v.End)), at(int64(p.Bores[1].Visits[0].Clear)), at(int64(p.Bores[2].Visits[0].Clear))
	if !strings.Contains(own, "G1 Z-"+first) || !strings.Contains(own, "G0 Z-"+second) {
		t.Fatalf("no feed to %s and on to %s in\n%s", first, second, own)
	}
	through := func(clear string) string { // the move to a lug and its feed
		lines := strings.SplitAfterN(own[strings.Index(own, "G0 Z-"+clear)-len("N120 "):], "\n", 3)
		return lines[0] + lines[1]
	}
	middle, last := at(int64(p.Bores[1].Visits[0].End)), at(int64(p.Bores[2].Visits[0].End))
	pair := func(move string) string { // a move and the next
		begin := strings.LastIndex(own[:strings.Index(own, move)], "\n") + 1
		lines := strings.SplitAfterN(own[begin:], "\n", 3)
		return lines[0] + lines[1]
	}
	swapped := strings.NewReplacer("G0 ", "G1 ", "G1 ", "G0 ").Replace
	turned := func(two string) string {
		lines := strings.SplitAfter(two, "\n")
		return lines[1] + lines[0]
	}
	for _, x := range []struct{ why, from, to, want string }{
		{"rapid into the next bore", "G0 Z-" + second, "G0 Z-9.0000", "rapid into middle lug"},
		{"the next feed begins short", "G0 Z-" + second, "G0 Z-7.0000", "begins at"},
		{"the first is cut short", "G1 Z-" + first, "G1 Z-2.0000", "the feed through outer lug ends at"},
		{"fed over the gap", "G0 Z-" + second, "G1 Z-" + second, "between two bores"},
		{"a bore left out", through(second), "", "not cut in this pass: middle lug"},
		{"the last left out", through(third), "", "not cut in this pass: inner lug"},
		{"at rapid through a bore", "G1 Z-" + third + " ", "G0 Z-" + third + " ", "rapid"},
		{"at rapid through the second", "G1 Z-" + middle + " ", "G0 Z-" + middle + " ", "rapid through middle lug, from depth " + second + " in to depth " + middle + " in"},
		{"at rapid through the last", "G1 Z-" + last + " ", "G0 Z-" + last + " ", "rapid through inner lug, from depth " + third + " in"},
		{"hop and feed have changed places", pair("G0 Z-" + second), swapped(pair("G0 Z-" + second)), "rapid through middle lug, from depth " + second + " in"},
		{"the lines of a feed and the hop after it have changed places", pair("G1 Z-" + middle), turned(pair("G1 Z-" + middle)), "rapid through middle lug, from depth " + second + " in to depth " + third + " in"},
		{"hop and feed have changed places, at the last", pair("G0 Z-" + third), swapped(pair("G0 Z-" + third)), "rapid through inner lug, from depth " + third + " in"},
		{"fed over the gap on the way back", "G0 Z-" + middle, "G1 Z-" + middle, "feeds from depth " + third + " in to depth " + middle + " in, between two bores"},
		{"back at rapid through a bore", "G1 Z-" + second + " ", "G0 Z-" + second + " ", "comes out at rapid through middle lug"},
		{"hop and feed have changed places on the way back", pair("G0 Z-" + middle), swapped(pair("G0 Z-" + middle)), "comes out at rapid through middle lug"},
		{"stopped in the gap", "G0 Z-" + second, "M5\nG0 Z-" + second, ""},
		{"not all are gauged", "GAUGE ALL 3:", "GAUGE ALL 2:", ""},
		{"another depth in the head", "MIDDLE LUG FROM DEPTH 8.0000", "MIDDLE LUG FROM DEPTH 8.1000", ""},
		{"back over the gap short", "G0 Z-" + first, "G0 Z-3.5000", "stops on the way out"},
	} {
		text := strings.Replace(own, x.from, x.to, 1)
		if text == own {
			t.Errorf("%s: nothing to change, %q", x.why, x.from)
			continue
		}
		r := Check([]byte(text), "line.nc", p, 0, 0)
		if r.Proven {
			t.Errorf("%s: proven", x.why)
		}
		if len(r.Findings) != 1 && x.why != "stopped in the gap" { // whose feeds a turn are said, too
			t.Errorf("%s: %d findings: %v", x.why, len(r.Findings), r.Findings)
		}
		if len(r.Findings) > 0 && !strings.Contains(r.Findings[0].What, x.want) {
			t.Errorf("%s: %q", x.why, r.Findings[0].What)
		}
	}
}
