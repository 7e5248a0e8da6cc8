package rs274

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"borewright/process/qty"
)

// story tells events in short: what a person would read off the machine.
func story(t *testing.T, text string, d Dialect) string {
	t.Helper()
	var out []string
	faults, err := Replay(strings.NewReader(text), d, func(e Event) error {
		out = append(out, tell(e))
		return nil
	})
	if err != nil || len(faults) > 0 {
		t.Errorf("%q: %v %v", text, faults, err)
	}
	return strings.Join(out, ", ")
}

func tell(e Event) string {
	num := func(l qty.Length) string {
		s := strings.TrimRight(strings.TrimRight(e.Units.Decimals(l, 4), "0"), ".")
		return s
	}
	switch e.Kind {
	case Move:
		s := e.Motion.String()
		moved := e.From.Moved(e.To)
		for _, l := range "XYZUVWABC" {
			a := axisOf(byte(l))
			if moved&a == 0 {
				continue
			}
			if p := e.To.rotary(a); p != nil {
				s += fmt.Sprintf(" %c%g", l, *p)
			} else {
				s += fmt.Sprintf(" %c%s", l, num(e.To.Linear(byte(l))))
			}
		}
		if e.Motion != Rapid {
			per := "/min"
			if e.PerRev {
				per = "/rev"
			}
			s += " F" + num(e.Feed) + per
		}
		if !e.Spindle.Turning() && e.Motion != Rapid {
			s += " STOPPED"
		}
		return s
	case Dwell:
		return fmt.Sprintf("dwell %g s %.4g rev", e.Seconds, e.Revs)
	case SpindleOn:
		return fmt.Sprintf("on %s S%g", e.Spindle, e.Speed)
	case Stop:
		if e.Optional {
			return "optional stop"
		}
		return "stop"
	case Message:
		return "say " + e.Text
	case Return:
		s := fmt.Sprintf("home %d", e.Code)
		for _, l := range "XYZUVWABC" {
			if a := axisOf(byte(l)); e.Axes&a != 0 && e.Code == 53 {
				s += fmt.Sprintf(" %c%s", l, num(e.Center.Linear(byte(l))))
			} else if e.Axes&a != 0 {
				s += fmt.Sprintf(" %c", l)
			}
		}
		return s
	case End, Coolant, Gear, LengthOffset, ToolChange:
		return fmt.Sprintf("%s %d", e.Kind, e.Code)
	}
	return e.Kind.String()
}

func TestEvents(t *testing.T) {
	for _, c := range []struct {
		why, text string
		d         Dialect
		want      string
	}{
		{"inch, per rev, all of a pass", `O77
N1 G17 G20 G40 G49 G80 G90 G95 G98
N2 G54
N3 S150 M3
N4 G0 Z4.25
N5 G0 X0. Y0.
N6 G0 Z-14.38
N7 G1 Z-16.955 F.009
N8 G4 P.4
N9 G1 Z-14.38
N10 M5
N11 G0 Z4.25
N12 M0 (MEASURE)
N13 M30`, Dialect{}, "on clockwise S150, rapid Z4.25, rapid X0 Y0, rapid Z-14.38, feed Z-16.955 F0.009/rev, dwell 0.4 s 1 rev, feed Z-14.38 F0.009/rev, " +
			"spindle off, rapid Z4.25, say MEASURE, stop, end 30"},
		{"quill W, oriented stop, G70/G71", `G17 G71 G90 G94
G55
S90 M4
G0 W10.
X0. Y0.
G1 W-20. F15.
M5
M19
G0 Y-.35
W10.
X0. Y0.
M8
M9
M2`, Dialect{UnitsWords: G70G71}, "on counter-clockwise S90, rapid W10, rapid X0 Y0, feed W-20 F15/min, spindle off, orient, rapid Y-0.35, rapid W10, rapid Y0, coolant 8, coolant 9, end 2"},
		{"increments, in G91", "G17 G21 G90 G94\nS9 M3\nG0 X1. Y2. Z3.\nG91\nX.5\nG1 Y-.5 Z1. F2.\nM5\nM30", Dialect{},
			"on clockwise S9, rapid X1 Y2 Z3, rapid X1.5, feed Y1.5 Z4 F2/min, spindle off, end 30"},
		{"table index and facing slide", "G17 G21 G90 G94\nG0 B90.\nU-1.5 V2.\nM30", Dialect{}, "rapid B90, rapid U-1.5 V2, end 30"},
		{"units change the number, not the place", "G17 G21 G90 G94\nG0 X25.4\nG20\nX1.\nX2.\nM30", Dialect{}, "rapid X25.4, rapid X2, end 30"},
		{"tool change stops the spindle", "G17 G21 G90\nS9 M3\nT12 M6\nM30", Dialect{}, "on clockwise S9, tool change 12, end 30"},
		{"dwell by X, in milliseconds", "G17 G21 G90\nS120 M3\nG4 X500\nM30", Dialect{DwellWord: 'X', DwellUnit: Milliseconds}, "on clockwise S120, dwell 0.5 s 1 rev, end 30"},
		{"dwell by F, in revolutions", "G17 G21 G90\nS120 M3\nG4 F1\nM30", Dialect{DwellWord: 'F', DwellUnit: Revolutions}, "on clockwise S120, dwell 0.5 s 1 rev, end 30"},
		{"block delete off", "G17 G21 G90\n/M8\nM1\nM30", Dialect{}, "coolant 8, optional stop, end 30"},
		{"block delete on", "G17 G21 G90\n/M8\nM1\nM30", Dialect{DeleteOn: true}, "optional stop, end 30"},
		{"fixed format", "G17G21G90G94\nS60M3\nG0Z50000\nG1Z-2500F150\nM5\nM30", Dialect{Numbers: DropLeading, Whole: 4, Part: 3},
			"on clockwise S60, rapid Z50, feed Z-2.5 F0.15/min, spindle off, end 30"},
		{"home from where it stands, and then it stands at an unknown place", "G17 G21 G90\nG0 X1. Z1.\nG91 G28 Z0.\nG90\nG0 X1. Z1.\nM30", Dialect{}, "rapid X1 Z1, home 28 Z, rapid Z1, end 30"},
		{"home by way of a place", "G17 G21 G90\nG0 Z1.\nG28 Z2.\nG28 X3. Y4.\nM30", Dialect{}, "rapid Z1, rapid Z2, home 28 Z, rapid X3 Y4, home 28 X Y, end 30"},
		{"to a machine position", "G17 G21 G90\nG0 X1. Z1.\nG53 G0 Z-5.\nX1.\nZ-5.\nM30", Dialect{}, "rapid X1 Z1, home 53 Z-5, rapid Z-5, end 30"},
		{"a length offset forgets where Z is", "G17 G21 G90 G49\nG0 X1. Z1.\nG43 H7\nG0 Z1.\nG43 H7\nG49\nX1.\nM30", Dialect{}, "rapid X1 Z1, length offset 7, rapid Z1, length offset 0, end 30"},
		{"a range of the spindle", "G17 G21 G90\nM41\nS9 M3\nM30", Dialect{}, "spindle range 41, on clockwise S9, end 30"},
		{"a work offset forgets where the tool is", "G17 G21 G90\nG54\nG0 X1.\nG55\nX1.\nM30", Dialect{}, "rapid X1, rapid X1, end 30"},
	} {
		if got := story(t, c.text, c.d); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.why, got, c.want)
		}
	}
}

func TestEventState(t *testing.T) {
	var all []Event
	text := "O12 (A) (B)\nN7 G17 G20 G90 G94\nG56\n/N9 S60 M3\nG0 X1. (TO THE SIDE)\nM5\nM30"
	if _, err := Replay(strings.NewReader(text), Dialect{}, func(e Event) error { all = append(all, e); return nil }); err != nil {
		t.Fatal(err)
	}
	on, move := all[2], all[4]
	if all[0].Comment != "A B" || all[0].Program != 0 && all[0].Line != 1 {
		t.Errorf("message %+v", all[0])
	}
	if on.Kind != SpindleOn || on.N != 9 || !on.Deleted || on.Line != 4 || on.Program != 12 {
		t.Errorf("spindle on %+v", on)
	}
	if move.Kind != Move || move.Comment != "TO THE SIDE" || move.Offset != 56 || move.Units != qty.Inches || move.To.X != qty.Inch ||
		move.From.Has(X) || !move.To.Has(X) || move.To.Has(Y) || move.N != -1 {
		t.Errorf("move %+v", move)
	}
	if e := all[len(all)-1]; e.Kind != End || e.To.X != qty.Inch {
		t.Errorf("end %+v", e)
	}
}

func TestReplayFaults(t *testing.T) {
	for _, c := range []struct {
		why, block string
		d          Dialect
		want       string
	}{
		{"two motions", "G0 G1 Z1.", Dialect{}, "4 G0 and G1 are both of the group motion"},
		{"motion and cycle", "G81 G0 Z1. R2.", Dialect{}, "5 G81 and G0 are both"},
		{"two distance modes", "G90 G91", Dialect{}, "5 G90 and G91 are both of the group distance"},
		{"feed modes", "G94 G95", Dialect{}, "5 G94 and G95"},
		{"old and new units", "G21 G71", Dialect{}, "5 G21 and G71"},
		{"two stops", "M0 M30", Dialect{}, "4 M0 and M30"},
		{"M5 and M19", "M5 M19", Dialect{}, "4 M5 and M19"},
		{"five M words", "M0 M5 M9 M6 M48", Dialect{}, "13 a fifth M word"},
		{"a letter twice", "G0 Z1. X2. Z3.", Dialect{}, "12 a second Z word"},
		{"unknown G", "G123", Dialect{}, "1 unknown code G123"},
		{"unknown M", "M77", Dialect{}, "1 unknown code M77"},
		{"machine positions", "G28 Z0.", Dialect{Lacks: Returns}, "1 G28 goes by machine positions"},
		{"home without an axis", "G28", Dialect{}, "1 G28 without an axis"},
		{"home beside a motion", "G0 G28 Z60.", Dialect{}, "4 G28 beside G0"},
		{"home by way of an increment", "G91 G28 Z1.", Dialect{}, "9 G28 by way of Z1., an increment"},
		{"a machine position at feed", "G53 G1 Z0.", Dialect{}, "1 G53 without G0"},
		{"a machine position, incremental", "G91 G53 G0 Z0.", Dialect{}, "5 G53 with G91"},
		{"two returns", "G28 G53 Z60.", Dialect{}, "5 G53 beside G28"},
		{"shifted zero", "G92 X0. Y0.", Dialect{}, "1 G92 shifts the zero"},
		{"compensation", "G41 D1", Dialect{}, "1 G41 moves the tool by a radius"},
		{"makers' fine boring", "G76 Z-1. R1.", Dialect{}, "1 G76 is a fine boring cycle"},
		{"no per rev here", "G95", Dialect{Lacks: PerRev}, "1 G95: this control has no feed per revolution"},
		{"no cycles here", "G85 Z-1. R1.", Dialect{Lacks: Cycles}, "1 G85: this control has no cycles"},
		{"no return words here", "G99", Dialect{Lacks: ReturnWords}, "1 G99: this control has no return words"},
		{"no M19 here", "M19", Dialect{Lacks: Oriented}, "1 M19: this control has no oriented stop"},
		{"other units words", "G70", Dialect{UnitsWords: G20G21}, "1 G70: this control has G20"},
		{"axis words after G80", "G80 Z1.", Dialect{}, "5 axis words after G80"},
		{"F of the other mode", "G95\nG1 Z1.", Dialect{}, "0 no F for this feed move"},
		{"F of the other units", "G20\nG1 Z1.", Dialect{}, "0 no F for this feed move"},
		{"F 0", "G1 Z1. F0", Dialect{}, "8 F0 is no feed"},
		{"F below 0", "G1 Z1. F-1.", Dialect{}, "8 F-1. is no feed"},
		{"F beside units", "G21 F30.", Dialect{}, "5 F beside G21"},
		{"M5 beside motion", "G1 Z1. M5", Dialect{}, "8 M5 beside a motion"},
		{"M19 beside motion", "G0 Z1. M19", Dialect{}, "8 M19 beside a motion"},
		{"M0 with the spindle on", "M0", Dialect{}, "1 M0 with the spindle turning"},
		{"M1 with the spindle on", "M1", Dialect{}, "1 M1 with the spindle turning"},
		{"per rev on a stopped spindle", "M5\nG95 G1 Z1. F.1", Dialect{}, "0 a feed per revolution while the spindle stands"},
		{"dwell in turns on a stopped spindle", "M5\nG4 P2", Dialect{DwellUnit: Revolutions}, "0 a dwell in revolutions"},
		{"dwell without time", "G4", Dialect{}, "1 G4 without P"},
		{"dwell beside motion", "G4 P1. X2.", Dialect{}, "4 G4 beside a motion"},
		{"negative dwell", "G4 P-1.", Dialect{}, "4 P-1. is negative"},
		{"P alone", "G1 Z1. P2.", Dialect{}, "8 P2. has no use"},
		{"R in a straight move", "G1 Z1. R2.", Dialect{}, "8 R2. has no use"},
		{"offset without its number", "G43", Dialect{}, "1 G43 without H"},
		{"feed from nowhere", "G1 W5.", Dialect{}, "4 a feed move from an unknown place"},
		{"step from nowhere", "G91 G0 W5.", Dialect{}, "8 an increment of W from an unknown place"},
		{"rotary at feed", "G1 B5.", Dialect{}, "4 B5. at feed"},
		{"after the end", "M30\nG0 Z1.", Dialect{}, "0 words after the end"},
		// arcs
		{"does not close", "G2 X10. Y0. I4.9 J0.", Dialect{}, "4 the arc does not close: radius 4.9000 mm at its start, 5.1000 mm"},
		{"radius too small", "G2 X10. Y0. R4.", Dialect{}, "13 R4.: the ends are 10.0000 mm apart"},
		{"full turn by radius", "G2 X0. Y0. R4.", Dialect{}, "12 R4.: the arc ends where it starts"},
		{"both ways", "G2 X10. Y0. I5. R5.", Dialect{}, "17 R beside a center"},
		{"no center", "G3 X10. Y0.", Dialect{}, "4 an arc without a center"},
		{"no end", "G3 I5. J0.", Dialect{}, "1 G3 without an axis word"},
		{"no end the other way", "G2 I5. J0.", Dialect{}, "1 G2 without an axis word"},
		{"no end in the plane", "G3 Z5. I5. J0.", Dialect{}, "4 an arc without an end in its plane"},
		{"center off the plane", "G3 X10. I5. K1.", Dialect{}, "13 K1. outside the plane G17"},
		{"second slide", "G3 X10. W1. I5.", Dialect{}, "9 W1. in an arc"},
		// cycles
		{"R below Z", "G98 G85 Z-5. R-6.", Dialect{}, "9 G85 with R below Z"},
		{"no R", "G85 Z-5.", Dialect{}, "5 G85 without R"},
		{"no Z", "G85 X0. R5.", Dialect{}, "5 G85 without Z"},
		{"no axis word", "G85 R5.", Dialect{}, "1 G85 without an axis word"},
		{"G82 without P", "G82 Z-5. R5.", Dialect{}, "5 G82 without P"},
		{"G86 without P", "G86 Z-5. R5.", Dialect{}, "5 G86 without P"},
		{"G88 without P", "G88 Z-5. R5.", Dialect{}, "5 G88 without P"},
		{"G89 without P", "G89 Z-5. R5.", Dialect{}, "5 G89 without P"},
		{"G86 with the spindle off", "M5\nG86 Z-5. R5. P1.", Dialect{}, "0 G86 with the spindle stopped"},
		{"G88 with the spindle off", "M5\nG88 Z-5. R5. P1.", Dialect{}, "0 G88 with the spindle stopped"},
		{"P does not belong", "G85 Z-5. R5. P1.", Dialect{}, "14 P1. has no use"},
		{"another cycle needs its own R and Z", "G85 Z-5. R5.\nG89 X1. P1.", Dialect{}, "0 G89 without R"},
		{"rotary", "G85 Z-5. R5. B5.", Dialect{}, "14 B5. in a cycle"},
		{"not its plane", "G18 G85 Z-5. R5.", Dialect{}, "9 G85 in plane G18"},
		{"G91 without both", "G91 G85 X1. Z-5. R5.", Dialect{}, "9 G85 in G91 without both X and Y"},
		{"no repeats", "G85 Z-5. R5. L0", Dialect{}, "14 L0 repeats"},
		{"endless work", "G85 Z-5. R5. L99999", Dialect{}, "14 L99999 repeats"},
		{"return level within a run", "G98 G85 Z-5. R5.\nG99 X1.", Dialect{}, "0 G98 and G99 in one run"},
		{"after a hand retract", "G88 Z-5. R5. P1.\nX1.", Dialect{}, "0 G88 from an unknown Z"},
		{"pecking", "G83 Z-5. R5. Q1.", Dialect{}, "1 G83 pecks"},
		{"tapping", "G84 Z-5. R5.", Dialect{}, "1 G84 is a tapping cycle"},
	} {
		lines := strings.Count(c.block, "\n")
		got := faultsOf(t, frame(c.block), c.d)
		found := false
		for _, g := range got {
			if strings.HasPrefix(c.want, "0 ") { // anywhere in the last line of the block
				_, what, _ := strings.Cut(g, " ")
				found = found || strings.HasPrefix(g, fmt.Sprintf("%d:", at+lines)) && strings.HasPrefix(what, c.want[2:])
			} else {
				found = found || strings.HasPrefix(g, fmt.Sprintf("%d:%s", at, c.want))
			}
		}
		if !found {
			t.Errorf("%s: %q: faults %q, want %q", c.why, c.block, got, c.want)
		}
	}
}

// What a program must have said before its first moves.
func TestUnsaid(t *testing.T) {
	for _, c := range []struct{ why, text, want string }{
		{"no motion code", "G21 G90\nX1.\nM30", "2:1 a motion without a code"},
		{"no units", "G90 G0 X1.\nM30", "1:8 a position before the units"},
		{"no distance", "G21 G0 X1.\nM30", "1:8 a position before G90 or G91"},
		{"no feed mode", "G21 G90 G0 X1.\nS9 M3\nG1 X2. F1.\nM30", "3:4 a feed move before G94 or G95"},
		{"no speed", "G21 G90 G94 G0 X1.\nG1 X2. F1.\nM30", "2:4 no S before this feed move"},
		{"M3 without S", "M3\nM30", "1:1 M3 without a speed"},
		{"M3 with S0", "S0 M3\nM30", "1:4 M3 without a speed"},
		{"no F", "G21 G90 G94 G0 X1.\nS9 M3\nG1 X2.\nM30", "3:4 no F for this feed move"},
		{"no plane", "G21 G90 G94 G0 X1. Y1.\nS9 M3\nG2 X3. Y1. R1. F1.\nM30", "3:4 an arc before its plane"},
		{"no return level", "G17 G21 G90 G94 G0 Z1.\nS9 M3\nG85 X0. Y0. Z0. R1. F1.\nM30", "3:5 G85 before G98 or G99"},
		{"no end", "G21 G90\n", "1:1 the program has no end"},
		{"two numbers", "O1\nO2\nM30", "2:1 O word after the first block"},
	} {
		got := faultsOf(t, c.text, Dialect{})
		if len(got) != 1 || !strings.HasPrefix(got[0], c.want) {
			t.Errorf("%s: faults %q, want %q", c.why, got, c.want)
		}
	}
}

func TestEmitErrorEndsTheReplay(t *testing.T) {
	full := errors.New("full")
	n := 0
	_, err := Replay(strings.NewReader(frame("G1 Z1.")), Dialect{}, func(Event) error { n++; return full })
	if !errors.Is(err, full) || n != 1 {
		t.Errorf("%d events, error %v", n, err)
	}
}
