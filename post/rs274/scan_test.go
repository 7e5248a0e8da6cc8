package rs274

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"borewright/process/qty"
)

// faultsOf gives the faults as "line:col what" with the program replayed.
func faultsOf(t *testing.T, text string, d Dialect) []string {
	t.Helper()
	faults, err := Replay(strings.NewReader(text), d, func(Event) error { return nil })
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range faults {
		if f.Line < 1 || f.Col < 1 || f.What == "" || f.Want == "" {
			t.Errorf("fault without a place, or without what would be right: %#v", f)
		}
		out = append(out, fmt.Sprintf("%d:%d %s", f.Line, f.Col, f.What))
	}
	return out
}

const start = "G17 G21 G40 G49 G80 G90 G94 G98\nG0 Z50.\nX0. Y0.\nS200 M3\nF30.\n"
const end = "M5\nM30\n"

// The line of the block under test in frame.
const at = 6

func frame(block string) string { return start + block + "\n" + end }

func TestLexicalFaults(t *testing.T) {
	old := Dialect{Numbers: DropLeading, Whole: 4, Part: 3}
	for _, c := range []struct {
		why, block string
		d          Dialect
		want       string // "col what"
	}{
		{"old readers know no lower case", "g1 Z1.", Dialect{}, "1 lower case"},
		{"a length without a point is read two ways", "G1 Z10", Dialect{}, "4 Z10 has no decimal point"},
		{"the control drops the fourth decimal", "G1 Z1.2345", Dialect{Part: 3}, "4 Z1.2345 has 4 decimals"},
		{"a fixed format takes no point", "G1 Z1.", Dialect{Numbers: DropLeading, Whole: 4, Part: 3}, "4 Z1. has a decimal point"},
		{"more digits than places", "G1 Z12345678", old, "4 Z12345678 has 8 digits"},
		{"fewer digits than places", "G1 Z100", Dialect{Numbers: AllDigits, Whole: 4, Part: 3}, "4 Z100 has 3 digits"},
		{"more digits before the point than the control has places", "G1 Z12345.", Dialect{Whole: 4}, "4 Z12345. has 5 digits before the point"},
		{"every place, before the point", "G1 Z10.000", Dialect{Whole: 3, Part: 3, Zeros: AllZeros}, "4 Z10.000 has 2 digits before the point and 3 behind it"},
		{"every place, behind it", "G1 Z-010.00", Dialect{Whole: 3, Part: 3, Zeros: AllZeros}, "4 Z-010.00 has 3 digits before the point and 2 behind it"},
		{"every place of nothing", "G1 Z0", Dialect{Whole: 3, Part: 3, Zeros: AllZeros}, "4 Z0 has 1 digits before the point and 0 behind it"},
		{"N with a sign", "N+10 G1 Z1.", Dialect{}, "1 N+10 has a sign"},
		{"N below 0", "N-10 G1 Z1.", Dialect{}, "1 N-10 is negative"},
		{"S with a sign", "S+200", Dialect{}, "1 S+200 has a sign"},
		{"S with a sign, of nothing", "S-0", Dialect{}, "1 S-0 has a sign"},
		{"a comma is no point", "G1 Z1,5", Dialect{}, `6 character ","`},
		{"parameters", "#1=5", Dialect{}, `1 character "#"`},
		{"expressions", "G1 Z[1.]", Dialect{}, "4 Z without a number"},
		{"other comments", "G1 Z1. ; out", Dialect{}, `8 character ";"`},
		{"no exponents", "G1 Z1.E2", Dialect{}, "7 word E"},
		{"no number", "G1 Z", Dialect{}, "4 Z without a number"},
		{"a sign is no number", "G1 Z-", Dialect{}, "4 Z without a number"},
		{"two points", "G1 Z1.2.3", Dialect{}, `8 ".3" without a letter`},
		{"a space inside a number", "G1 Z1 2.", Dialect{}, `7 "2." without a letter`},
		{"too many digits for any control", "G1 Z1.0000000000000001", Dialect{}, "4 a number of 17 digits"},
		{"nesting", "(A (B) C)", Dialect{}, "4 ( inside a comment"},
		{"open comment", "(A", Dialect{}, "1 a comment that does not close"},
		{"closing alone", "A) G4 P1.", Dialect{}, "1 A without a number"},
		{"percent may end the reading", "(50 % OF IT)", Dialect{}, "5 % inside a comment"},
		{"tape codes have no accents", "(BÖHRUNG)", Dialect{}, `3 character "Ö"`},
		{"nor a diameter sign", "G1 Z1. Ø", Dialect{}, `8 character "Ø"`},
		{"bytes that are no text", "G1 Z1. \xff", Dialect{}, `8 character "\xff"`},
		{"control characters", "G1 Z1.\x07", Dialect{}, `7 character "\a"`},
		{"a lone carriage return", "G1 Z1.\rG1 Z2.", Dialect{}, `7 character "\r"`},
		{"percent inside a block", "G1 Z1. %", Dialect{}, "8 character \"%\""},
		{"block delete comes first", "G1 /Z1.", Dialect{}, `4 character "/"`},
		{"alignment word", ":5", Dialect{}, `1 character ":"`},
		{"N leads", "G1 N5 Z1.", Dialect{}, "4 N is not the first word"},
		{"N has five digits", "N123456 G1 Z1.", Dialect{}, "1 N123456 is too long"},
		{"N is whole", "N5. G1 Z1.", Dialect{}, "1 N5. has a decimal point"},
		{"S is whole in fixed format", "S20.5", old, "1 S20.5 has a decimal point"},
		{"T is not negative", "T-3", Dialect{}, "1 T-3 is negative"},
		{"O only at the start", "O55", Dialect{}, "1 O word after the first block"},
		{"codes are whole", "G1.55 Z1.", Dialect{}, "1 G1.55 is not a code"},
		{"codes have no sign", "G-1 Z1.", Dialect{}, "1 G-1 is not a code"},
		{"the line is too long", "G1 Z1. (" + strings.Repeat("X", 60) + ")", Dialect{LineMost: 40}, "41 the block has 69 characters"},
		{"far too long", "G1 Z1. (" + strings.Repeat("X", 70000) + ")", Dialect{LineMost: 40}, "41 the line has 70010 characters"},
		{"no comments here", "(SET CUTTER)", Dialect{Lacks: Comments}, "1 a comment"},
		{"no block numbers here", "N5 G1 Z1.", Dialect{Lacks: BlockNumbers}, "1 a block number"},
		{"no block delete here", "/G1 Z1.", Dialect{Lacks: BlockDelete}, "1 block delete"},
		{"milliseconds are whole", "G4 P1.5", Dialect{DwellUnit: Milliseconds}, "4 P1.5 has a decimal point"},
	} {
		text := frame(c.block)
		if c.d.Numbers.Fixed() {
			text = strings.NewReplacer("50.", "50000", "0.", "0000000", "30.", "30000").Replace(start) + c.block + "\n" + end
		}
		got := faultsOf(t, text, c.d)
		want := fmt.Sprintf("%d:%s", at, c.want)
		found := false
		for _, g := range got {
			found = found || strings.HasPrefix(g, want)
		}
		if !found {
			t.Errorf("%s: %.40q: faults %q, want %q", c.why, c.block, got, want)
		}
	}
}

// Lower case is told once a program, and read as the capital that is meant; a control
// that takes it has no fault.
func TestLowerCaseIsRead(t *testing.T) {
	if got := strings.Join(faultsOf(t, frame("g1 z1."), Dialect{}), "; "); got != `6:1 lower case 'g', the first in the program` {
		t.Errorf("faults %s", got)
	}
	if got := faultsOf(t, frame("g1 z1."), Dialect{LowerCase: true}); got != nil {
		t.Errorf("faults %q", got)
	}
}

// Block numbers go to 99999 (five digits: RS-274-D, from memory).
func TestLongestBlockNumber(t *testing.T) {
	if got := faultsOf(t, frame("N99999 G1 Z1."), Dialect{}); got != nil {
		t.Errorf("faults %q", got)
	}
	s := NewScanner(strings.NewReader("N12345 G1 Z1.\n"), Dialect{})
	if !s.Scan() || s.Block().Number() != 12345 {
		t.Errorf("read as %d", s.Block().Number())
	}
}

// Lengths by hand: decimals beyond the nanometre round half away from zero.
func TestLengthsByHand(t *testing.T) {
	for _, c := range []struct {
		word string
		u    qty.Unit
		nm   int64
	}{
		{"X1.5", qty.Metric, 1_500_000}, {"X-1.5", qty.Metric, -1_500_000}, {"X0.0000005", qty.Metric, 1}, {"X-0.0000005", qty.Metric, -1},
		{"X0.123456789123", qty.Inches, 3_135_802}, // 0.123456789123 × 25 400 000 = 3 135 802.44
		{"X2.00000000099999", qty.Metric, 2_000_000}, {"X1.0000", qty.Inches, 25_400_000},
	} {
		s := NewScanner(strings.NewReader("G1 "+c.word+"\n"), Dialect{})
		if !s.Scan() || len(s.Faults()) > 0 {
			t.Fatalf("%s: %v", c.word, s.Faults())
		}
		w := s.Block().Words[1]
		if got := w.Length(c.u); got != qty.Length(c.nm) {
			t.Errorf("%s %v is %d nm, want %d", c.word, c.u, got, c.nm)
		}
	}
}

func TestGoodProgramHasNoFaults(t *testing.T) {
	if got := faultsOf(t, frame("G1 Z1."), Dialect{Part: 3}); got != nil {
		t.Errorf("the frame of the fault tables has faults of its own: %q", got)
	}
}

func TestPercent(t *testing.T) {
	body := frame("G1 Z1.")
	for _, c := range []struct {
		why, text string
		need      Need
		want      string
	}{
		{"a pair", "%\n" + body + "%\n", Required, ""},
		{"a pair after blank lines", "\n \n%\n" + body + "%", Required, ""},
		{"none", body, Optional, ""},
		{"left out", body, Required, "1:1 the program does not begin with %"},
		{"not closed", "%\n" + body, Optional, "9:1 the program opens with %"},
		{"not wanted", "%\n" + body + "%\n", Refused, "1:1 % in the program"},
		{"a comment before it", "(A)\n%\n" + body + "%\n", Optional, "2:1 % after other text"},
		{"text beside it", "% WG-204\n" + body + "%\n", Optional, "1:2 text beside %"},
		{"text after the end is never read", "%\n" + body + "%\n\nG0 Z-99.\n", Optional, "12:1 text after the closing %"},
		{"empty", "", Optional, "1:1 the program is empty"},
	} {
		got := strings.Join(faultsOf(t, c.text, Dialect{Percent: c.need}), "; ")
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: faults %q, want %q", c.why, got, c.want)
		}
	}
}

func TestBlocks(t *testing.T) {
	s := NewScanner(strings.NewReader("/N10 G01X1.5 Y-.25(FEED)\r\n\n  \t\nM30 (A)(MSG, B C)"), Dialect{})
	if !s.Scan() {
		t.Fatal("no block")
	}
	b := s.Block()
	if !b.Delete || b.Number() != 10 || b.Line != 1 || b.Text != "/N10 G01X1.5 Y-.25(FEED)" {
		t.Errorf("block %+v", b)
	}
	got := ""
	for _, w := range b.Words {
		got += fmt.Sprintf("%c%v@%d ", w.Letter, w.Value, w.Col)
	}
	if got != "N10@2 G1@6 X1.5@9 Y-0.25@14 " {
		t.Errorf("words %s", got)
	}
	if c := b.Comments[0]; c.Text != "FEED" || c.Col != 19 || c.Message {
		t.Errorf("comment %+v", c)
	}
	if !s.Scan() {
		t.Fatal("no second block")
	}
	b = s.Block()
	if b.Line != 4 || b.Delete || b.Number() != -1 || len(b.Comments) != 2 || !b.Comments[1].Message || b.Comments[1].Text != "B C" {
		t.Errorf("second block %+v", b)
	}
	if s.Scan() || s.Err() != nil || s.Faults() != nil {
		t.Errorf("after the end: %v %v", s.Err(), s.Faults())
	}
}

// TestFixedFormat: values of EIA RS-274-D style formats; the rule (place of the
// point implied by the format) is from memory of EIA RS-274-D, the figure of
// X10 = 0.010 mm in X4.3 is its arithmetic.
func TestFixedFormat(t *testing.T) {
	for _, c := range []struct {
		n     Numbers
		w, p  int
		text  string
		value float64
	}{
		{PointMust, 0, 0, "X10.", 10},
		{PointMust, 0, 3, "X-.5", -.5},
		{PointMust, 0, 3, "X0", 0},
		{PointMay, 0, 0, "X10", 10},
		{DropLeading, 4, 3, "X10", 0.010},
		{DropLeading, 4, 3, "X10000", 10},
		{DropLeading, 2, 4, "X-169550", -16.955},
		{DropTrailing, 4, 3, "X001", 10},
		{DropTrailing, 4, 3, "X0010000", 10},
		{DropTrailing, 4, 3, "X-00000015", 0}, // eight digits: a fault
		{DropTrailing, 4, 3, "X-000001", -0.01},
		{DropTrailing, 4, 3, "X0", 0},
		{AllDigits, 4, 3, "X0010000", 10},
	} {
		s := NewScanner(strings.NewReader(c.text), Dialect{Numbers: c.n, Whole: c.w, Part: c.p})
		s.Scan()
		bad := len(s.Faults()) > 0
		if eight := len(c.text) == 10; eight != bad {
			t.Errorf("%s in %v %d.%d: faults %v", c.text, c.n, c.w, c.p, s.Faults())
		} else if !bad && s.Block().Words[0].Value != c.value {
			t.Errorf("%s in %v %d.%d is %v, want %v", c.text, c.n, c.w, c.p, s.Block().Words[0].Value, c.value)
		}
	}
}

// An editor's mark in front is one fault, and the rest reads as if it were not there.
func TestByteOrderMark(t *testing.T) {
	for _, c := range []struct {
		text string
		d    Dialect
	}{{"\ufeff%\n" + start + "M30\n%\n", Dialect{Percent: Required}}, {"\ufeff" + start + "M30\n", Dialect{}}} {
		got, err := Replay(strings.NewReader(c.text), c.d, func(Event) error { return nil })
		if err != nil || len(got) != 1 || got[0].Line != 1 || got[0].Col != 1 || !strings.Contains(got[0].What, "editor has put in front") {
			t.Errorf("%q: %v, %v", c.text, got, err)
		}
	}
}

func TestReadErrorIsHanded(t *testing.T) {
	boom := errors.New("tape torn")
	_, err := Replay(io.MultiReader(strings.NewReader(start), iotest.ErrReader(boom)), Dialect{}, func(Event) error { return nil })
	if !errors.Is(err, boom) {
		t.Errorf("error %v", err)
	}
}

func TestFaultsAreBounded(t *testing.T) {
	got, err := Replay(strings.NewReader(strings.Repeat("X1;\n", 5000)), Dialect{}, func(Event) error { return nil })
	if err != nil || len(got) != faultsMost+1 || !strings.Contains(got[faultsMost].What, "more faults") {
		t.Errorf("%d faults, last %v, error %v", len(got), got[len(got)-1], err)
	}
}

// A control with the least set of characters takes no others in a comment.
func TestPlainComments(t *testing.T) {
	for _, c := range []struct {
		text string
		col  int // of the fault; 0: none
	}{
		{"(SET DIA 3.25, -1/2 +0)", 0}, {"(A: B)", 3}, {"(A=B)", 3}, {"(A'S)", 3}, {"(a)", 2}, {"(<A>)", 2}, {"G0 X1. (A*B)", 10},
	} {
		s := NewScanner(strings.NewReader(c.text+"\n"), Dialect{Plain: true})
		s.Scan()
		f := s.Faults()
		if got := 0; len(f) > 0 {
			got = f[0].Col
			if got != c.col || !strings.Contains(f[0].Want, "capitals, digits") {
				t.Errorf("%s: %v", c.text, f)
			}
		} else if c.col != 0 {
			t.Errorf("%s: no fault", c.text)
		}
		if _, err := Format(s.Block(), Dialect{Plain: true}); (err != nil) != (c.col != 0) {
			t.Errorf("%s: printed: %v", c.text, err)
		}
	}
}
