package rs274

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"borewright/process/qty"
)

var dialects = rapid.Custom(func(t *rapid.T) Dialect {
	d := Dialect{
		Numbers:   rapid.SampledFrom([]Numbers{PointMust, PointMay, DropLeading, DropTrailing, AllDigits}).Draw(t, "numbers"),
		Whole:     rapid.IntRange(4, 6).Draw(t, "whole"),
		Part:      rapid.IntRange(2, 5).Draw(t, "part"),
		Zeros:     rapid.SampledFrom([]Zeros{UsualZeros, NoLeading, NoTrailing, AllZeros}).Draw(t, "zeros"),
		DwellUnit: rapid.SampledFrom([]DwellUnit{Seconds, Milliseconds, Revolutions}).Draw(t, "dwell"),
		Spaces:    rapid.Bool().Draw(t, "spaces"),
		LineMost:  200,
	}
	return d
})

// Parse, print, parse: nothing changes, in any dialect.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := dialects.Draw(t, "dialect")
		u := rapid.SampledFrom([]qty.Unit{qty.Metric, qty.Inches}).Draw(t, "units")
		b := &Block{Delete: rapid.Bool().Draw(t, "delete")}
		if rapid.Bool().Draw(t, "numbered") {
			b.Words = append(b.Words, Whole('N', rapid.IntRange(0, 99999).Draw(t, "n")))
		}
		b.Words = append(b.Words, Whole('G', rapid.SampledFrom([]int{0, 1, 2, 85, 90}).Draw(t, "g")))
		var want []qty.Length
		for _, l := range rapid.SliceOfNDistinct(rapid.SampledFrom([]byte("XYZUVWIJKRF")), 0, 6, rapid.ID[byte]).Draw(t, "letters") {
			length := qty.Length(rapid.Int64Range(-2_000_000_000, 2_000_000_000).Draw(t, "length"))
			w, err := d.Length(l, length, u)
			if err != nil {
				t.Fatal(err)
			}
			want = append(want, length)
			b.Words = append(b.Words, w)
		}
		if rapid.Bool().Draw(t, "speed") {
			b.Words = append(b.Words, Whole('S', rapid.IntRange(0, 5000).Draw(t, "s")))
		}
		for range rapid.IntRange(0, 2).Draw(t, "comments") {
			b.Comments = append(b.Comments, Comment{Text: rapid.StringMatching(`[A-Z0-9 .,:+/-]{0,20}`).
				Filter(func(s string) bool { return !strings.HasPrefix(s, "MSG,") }).Draw(t, "comment"), Message: false})
		}
		first, err := Format(b, d)
		if err != nil {
			t.Fatal(err)
		}
		s := NewScanner(strings.NewReader(first), d)
		if !s.Scan() || len(s.Faults()) > 0 {
			t.Fatalf("%q: %v", first, s.Faults())
		}
		if !same(b, s.Block()) {
			t.Fatalf("%q reads as %+v, written from %+v", first, s.Block(), b)
		}
		second, err := Format(s.Block(), d)
		if err != nil || second != first {
			t.Fatalf("%q printed again is %q, %v", first, second, err)
		}
		k := 0
		half := qty.Millimetre / 2
		if u == qty.Inches {
			half = qty.Inch / 2
		}
		for range d.Part {
			half /= 10
		}
		for _, w := range s.Block().Words {
			if strings.IndexByte("XYZUVWIJKRF", w.Letter) < 0 {
				continue
			}
			if off := (w.Length(u) - want[k]).Abs(); off > half+1 {
				t.Fatalf("%c%s is %d nm off %d", w.Letter, w.Text, off, want[k])
			}
			k++
		}
	})
}

// Lengths on the least input come through to the nanometre.
func TestLengthsAreExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := qty.Length(rapid.Int64Range(-9_999_999, 9_999_999).Draw(t, "least inputs"))
		for _, c := range []struct {
			u     qty.Unit
			least qty.Length
			part  int
		}{{qty.Metric, qty.Micrometre, 3}, {qty.Inches, 2540, 4}, {qty.Inches, 254, 5}} {
			for _, numbers := range []Numbers{PointMust, DropLeading, DropTrailing, AllDigits} {
				d := Dialect{Numbers: numbers, Whole: 5, Part: c.part}
				w, err := d.Length('Z', n*c.least, c.u)
				if err != nil {
					t.Fatal(err)
				}
				line, err := Format(&Block{Words: []Word{w}}, d)
				if err != nil {
					t.Fatal(err)
				}
				s := NewScanner(strings.NewReader(line), d)
				s.Scan()
				if got := s.Block().Words[0].Length(c.u); got != n*c.least {
					t.Fatalf("%s in %v reads %d nm, want %d", line, numbers, got, n*c.least)
				}
			}
		}
	})
}

func TestNumberText(t *testing.T) {
	for _, c := range []struct {
		d    Dialect
		l    qty.Length
		u    qty.Unit
		want string
	}{
		{Dialect{Part: 4}, 3 * qty.Inch, qty.Inches, "3.0000"},
		{Dialect{Part: 4}, -qty.Inch / 2, qty.Inches, "-0.5000"},
		{Dialect{}, 1270, qty.Inches, "0.0001"}, // half a least input goes away from zero
		{Dialect{}, 1269, qty.Inches, "0.0000"},
		{Dialect{}, -499, qty.Metric, "0.000"}, // and no sign on nothing
		{Dialect{Numbers: DropLeading, Whole: 4, Part: 3}, 10 * qty.Millimetre, qty.Metric, "10000"},
		{Dialect{Numbers: DropLeading, Whole: 4, Part: 3}, 0, qty.Metric, "0"},
		{Dialect{Numbers: DropTrailing, Whole: 4, Part: 3}, 10 * qty.Millimetre, qty.Metric, "001"},
		{Dialect{Numbers: DropTrailing, Whole: 4, Part: 3}, -1500, qty.Metric, "-0000002"},
		{Dialect{Numbers: DropTrailing, Whole: 4, Part: 3}, 0, qty.Metric, "0"},
		{Dialect{Numbers: AllDigits, Whole: 3, Part: 4}, 10 * qty.Inch, qty.Inches, "0100000"},
	} {
		w, err := c.d.Length('Z', c.l, c.u)
		if err != nil || w.Text != c.want {
			t.Errorf("%d nm in %s, %+v: %q %v, want %q", c.l, c.u, c.d, w.Text, err, c.want)
		}
	}
	if w, err := (Dialect{Numbers: DropLeading, Whole: 2, Part: 3}).Length('Z', 100*qty.Millimetre, qty.Metric); err == nil {
		t.Errorf("100 mm in 2.3 places is %q", w.Text)
	}
	if w, err := (Dialect{Part: 2}).Number('P', 1234, 3); err == nil {
		t.Errorf("1.234 in two decimals is %q", w.Text)
	}
}

// Write refuses what a control could take for something else.
func TestWriteRefuses(t *testing.T) {
	zed, _ := Dialect{}.Length('Z', qty.Inch, qty.Inches)
	for _, c := range []struct {
		why string
		b   Block
		d   Dialect
	}{
		{"a comment that closes early", Block{Comments: []Comment{{Text: "A) G0 Z-9. (B"}}}, Dialect{}},
		{"a line end", Block{Comments: []Comment{{Text: "A\nG0 Z-9."}}}, Dialect{}},
		{"a lone carriage return", Block{Comments: []Comment{{Text: "A\rG0"}}}, Dialect{}},
		{"percent", Block{Comments: []Comment{{Text: "50 %"}}}, Dialect{}},
		{"no ASCII", Block{Comments: []Comment{{Text: "Ø"}}}, Dialect{}},
		{"a message by its text", Block{Comments: []Comment{{Text: "MSG, HELLO"}}}, Dialect{}},
		{"comments not taken", Block{Comments: []Comment{{Text: "A"}}}, Dialect{Lacks: Comments}},
		{"two words in one", Block{Words: []Word{{Letter: 'G', Text: "0Z-9."}}}, Dialect{}},
		{"no number", Block{Words: []Word{{Letter: 'G'}}}, Dialect{}},
		{"no letter", Block{Words: []Word{{Letter: '%', Text: "1"}}}, Dialect{}},
		{"value and text differ", Block{Words: []Word{{Letter: 'Z', Text: "1.", Value: 2}}}, Dialect{}},
		{"a point in fixed format", Block{Words: []Word{zed}}, Dialect{Numbers: DropLeading, Whole: 4, Part: 3}},
		{"too long", Block{Words: []Word{zed}}, Dialect{LineMost: 4}},
	} {
		if line, err := Format(&c.b, c.d); err == nil {
			t.Errorf("%s: written as %q", c.why, line)
		}
	}
}

func TestDialectCheck(t *testing.T) {
	for _, d := range []Dialect{{Part: 9}, {Numbers: DropLeading}, {DwellWord: 'Q'}, {LineMost: -1}, {Numbers: 99}} {
		if d.Check() == nil {
			t.Errorf("%+v passes", d)
		}
		NewScanner(strings.NewReader("G1 Z1. F2."), d).Scan() // and does not fail a reader
	}
	if err := (Dialect{}).Check(); err != nil {
		t.Error(err)
	}
}
