package rs274

import (
	"bytes"
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"

	"borewright/process/slow"
)

// endless is a reader of n repeats of a text between a head and a tail; it
// holds no more than one of them.
type endless struct {
	head, body, tail string
	n                int
	now              *strings.Reader
}

func (e *endless) Read(p []byte) (int, error) {
	for {
		if e.now != nil {
			if k, err := e.now.Read(p); err != io.EOF {
				return k, err
			}
		}
		switch {
		case e.head != "":
			e.now, e.head = strings.NewReader(e.head), ""
		case e.n > 0:
			e.now, e.n = strings.NewReader(e.body), e.n-1
		case e.tail != "":
			e.now, e.tail = strings.NewReader(e.tail), ""
		default:
			return 0, io.EOF
		}
	}
}

const body = "N10 G1 Z-16.9550 F12.5000\nN20 G0 Z0.0125 Y-0.0125 (OFF THE WALL)\n"

// A million blocks are read and replayed in memory that does not grow.
func TestMemoryIsBounded(t *testing.T) {
	slow.Test(t, "a million blocks")
	defer debug.SetGCPercent(debug.SetGCPercent(100)) // as users run it
	r := &endless{head: start, body: body, tail: end, n: 500_000}
	moves, most := 0, uint64(0)
	var m runtime.MemStats
	faults, err := Replay(r, Dialect{}, func(e Event) error {
		if e.Kind != Move {
			return nil
		}
		if moves++; moves%100_000 == 0 {
			runtime.ReadMemStats(&m)
			most = max(most, m.HeapAlloc)
		}
		return nil
	})
	if err != nil || len(faults) > 0 {
		t.Fatal(faults, err)
	}
	if moves != 1_000_002 { // two in the head
		t.Errorf("%d moves", moves)
	}
	t.Logf("a million blocks: heap of at most %.1f MB", float64(most)/(1<<20))
	if most > 64<<20 {
		t.Errorf("heap of %d MB", most>>20)
	}
}

func BenchmarkScan(b *testing.B) {
	text := []byte(strings.Repeat(body, 20_000))
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		s := NewScanner(bytes.NewReader(text), Dialect{})
		n := 0
		for s.Scan() {
			n += len(s.Block().Words)
		}
		if n != 160_000 || len(s.Faults()) > 0 {
			b.Fatal(n, s.Faults())
		}
	}
}

func BenchmarkReplay(b *testing.B) {
	for _, c := range []struct{ name, body string }{
		{"moves", "N10 G1 Z-16.9550 F12.5000\nN20 G0 Z4.2500 (CLEAR)\n"},
		{"cycles", "N10 G85 X1. Y1. Z-16.955 R0.1 F12.5\nN20 X2. Y1.5\n"},
		{"arcs", "N10 G2 X10. Y0. I5. J0.\nN20 G3 X0. Y0. R5.\n"},
	} {
		b.Run(c.name, func(b *testing.B) {
			text := []byte(start + strings.Repeat(c.body, 20_000) + end)
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				n := 0
				faults, err := Replay(bytes.NewReader(text), Dialect{}, func(Event) error { n++; return nil })
				if err != nil || len(faults) > 0 || n < 40_000 {
					b.Fatal(n, faults, err)
				}
			}
		})
	}
}

func ExampleReplay() {
	program := "G17 G21 G90 G94\nS200 M3\nG0 Z50.\nG1 Z-20 F30.\nM5\nM30\n"
	faults, _ := Replay(strings.NewReader(program), Dialect{Part: 3}, func(e Event) error {
		fmt.Println(e.Line, e.Kind, tell(e))
		return nil
	})
	for _, f := range faults {
		fmt.Println(f.Error())
	}
	// Output:
	// 2 spindle on on clockwise S200
	// 3 move rapid Z50
	// 4 move feed Z-20 F30/min
	// 5 spindle off spindle off
	// 6 end end 30
	// 4:4: Z-20 has no decimal point; Z-20. or the decimals: a control in fixed format reads it far smaller
}
