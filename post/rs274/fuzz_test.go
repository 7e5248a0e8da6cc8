package rs274

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func seeds(f *testing.F) {
	var names []string
	for _, p := range []string{"rs274/*/*.nc", "verify/*.nc", "verify/styles/*.nc"} { // styles: as many hands write
		found, err := filepath.Glob("../../testdata/" + p)
		if err != nil || len(found) == 0 {
			f.Fatalf("no seeds in %s: %v", p, err)
		}
		names = append(names, found...)
	}
	for i, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data, byte(0))
		f.Add(data, byte(46*(i%5))) // each of the five ways of numbers with one of the rest
	}
	f.Add([]byte("G17 G20 G91 G94 G99\nS1M3\nG0X0Y0Z9.\nG88X1.Y1.Z-9.R-1.P1F9.L3\nX1.Y1.\n"), byte(1))
	f.Add([]byte("%\n(MSG, \xffØ(\n"), byte(0))
	f.Add([]byte("G17 G21 G90 G94\nG91 G28 Z0.\nG90 T7 M6\nG43 H9\nM41\nS1M3M8\nG0Z1.\nG53G0X-5.\nG28X1.Y2.\nG49M9\nM30\n"), byte(2))
}

// dialectOf makes a dialect of a byte: numbers and dwells by its rest by 45, and what a
// control may have besides by how many times 45 it is.
func dialectOf(kind byte) Dialect {
	d := Dialect{Numbers: Numbers(kind % 5), Whole: 4, Part: 3, DwellUnit: DwellUnit(kind / 5 % 3), DwellWord: "PXF"[kind/15%3], LineMost: 80, Plain: kind >= 128}
	switch kind / 45 {
	case 1:
		d.LowerCase, d.OrientWord = true, 'S'
	case 2:
		d.LineEnd, d.OrientWord = EndCR, 'R'
	case 3:
		d.LineEnd, d.Zeros, d.DeleteOn = EndCRLF, AllZeros, true
	case 4:
		d.LineEnd, d.Lacks, d.Percent = EndLF, Comments|BlockNumbers|PerRev|Cycles|ReturnWords|Oriented|BlockDelete|GearWords|Returns, Required
	}
	return d
}

// FuzzReplay: no text panics, runs away or puts a fault nowhere, and the same
// text tells the same story.
func FuzzReplay(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text []byte, kind byte) {
		d := dialectOf(kind)
		run := func() (n int, faults []Fault) {
			faults, err := Replay(bytes.NewReader(text), d, func(e Event) error {
				n++
				if e.Line < 1 || e.Kind.String() == "unknown" {
					t.Fatalf("event %+v", e)
				}
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
			return n, faults
		}
		lines := bytes.Count(text, []byte("\n")) + bytes.Count(text, []byte("\r")) + 1
		n, faults := run()
		for _, x := range faults {
			if x.Line < 1 || x.Line > lines || x.Col < 1 || x.What == "" || x.Want == "" {
				t.Fatalf("fault %#v in %d lines", x, lines)
			}
		}
		if m, again := run(); m != n || len(again) != len(faults) {
			t.Fatalf("%d events and %d faults, then %d and %d", n, len(faults), m, len(again))
		}
	})
}

// FuzzFormat: what the printer prints is read back as what was printed, and
// what reads without a fault can be printed.
func FuzzFormat(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text []byte, kind byte) {
		d := dialectOf(kind)
		d.LineMost = 0
		for line := range strings.SplitSeq(string(text), "\n") {
			s := NewScanner(strings.NewReader(line), d)
			if !s.Scan() {
				continue
			}
			out, err := Format(s.Block(), d)
			if faults := s.Faults(); err != nil && len(faults) == 0 {
				t.Fatalf("%q reads without a fault and cannot be printed: %v", line, err)
			} else if err != nil {
				continue
			}
			again := NewScanner(strings.NewReader(out), d)
			if len(s.Block().Words)+len(s.Block().Comments) == 0 && !s.Block().Delete {
				continue
			}
			if !again.Scan() || !same(s.Block(), again.Block()) {
				t.Fatalf("%q printed as %q reads as %+v", line, out, again.Block())
			}
		}
	})
}
