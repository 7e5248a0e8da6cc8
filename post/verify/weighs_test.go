package verify

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// A word that turns a sentence of ours round is found wherever it is put in, and so is a
// figure that is taken out.
func TestWordsThatWeigh(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "")
	good := string(written(t, p, 0, 0))
	words := []string{"NOT", "NO", "NEVER", "DO NOT", "DON'T", "ONLY", "IF", "UNLESS", "BEFORE", "AFTER", "UNTIL", "RADIUS", "ADD", "SUBTRACT", "PLUS", "MINUS", "LARGER", "SMALLER",
		"MORE", "LESS", "OVER", "UNDER", "MM", "OFF", "TWICE", "HALF", "SKIP", "INSTEAD", "IGNORE", "WITHOUT", "RAPID", "-X", "+Y", "OUT", "DOWN", "TOWARD", "AWAY", "LEFT", "RIGHT", "OPEN"}
	for _, at := range []string{`\(SET CUTTER()`, `\(EXPECT BORE()`, `\(OUTSIDE THE SIZE EXPECTED:()`, `\(CLEAR PLANE()`} {
		m := regexp.MustCompile(at).FindStringSubmatchIndex(good)
		if m == nil {
			t.Fatalf("no %q in the program any more", at)
		}
		for _, word := range words {
			bad := good[:m[1]] + " " + word + good[m[1]:]
			if r := Check([]byte(bad), "", p, 0, 0); r.Proven {
				t.Errorf("%s behind %s is proven; not held: %v", word, at, r.NotHeld)
			}
		}
	}
	for _, at := range []string{`\(EXPECT BORE DIA( [0-9.]+) TO`, `EXPECT BORE DIA [0-9.]+ TO( [0-9.]+)`, `FINISH SIZE: DIA( [0-9.]+)`, `BAR MOVES TO X MINUS BY( [0-9.]+)`} {
		m := regexp.MustCompile(at).FindStringSubmatchIndex(good)
		if m == nil {
			t.Fatalf("no %q in the program any more", at)
		}
		if r := Check([]byte(good[:m[2]]+good[m[3]:]), "", p, 0, 0); r.Proven {
			t.Errorf("%s is proven without%s", at, good[m[2]:m[3]])
		}
	}
}

// What a shop's own remark says of revision, visit, speed and size is held, in its own words.
func TestFiguresInOtherWords(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "")
	good := string(written(t, p, 0, 0))
	speed := regexp.MustCompile(`S([0-9]+) M3`).FindStringSubmatch(good)[1]
	for _, x := range []struct {
		said  string
		taken bool
	}{
		{"DRAWN TO REVISION C", true}, {"DRAWN TO REVISION B", false}, {"CUT FROM REV D", false},
		{"VISIT 1 BY NIGHT SHIFT", true}, {"VISIT 2 BY NIGHT SHIFT", false},
		{"KNOB AT S " + speed, true}, {"KNOB AT S 400", false}, {"KNOB AT S " + speed + "0", false},
	} {
		bad := strings.Replace(good, "N10 G17", "("+x.said+")\nN10 G17", 1)
		if r := Check([]byte(bad), "", p, 0, 0); r.Proven != x.taken {
			t.Errorf("%s: proven %v: %v", x.said, r.Proven, r.Findings)
		}
	}
}

// What is to be done at one stop is wrong at another: before a pass what belongs behind it, and
// the other way round.
func TestRemarksOfTheOtherStop(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "")
	good := string(written(t, p, 0, 0))
	move := func(remark, to string) {
		t.Helper()
		m, at := regexp.MustCompile(remark).FindString(good), regexp.MustCompile(to).FindStringIndex(good)
		if m == "" || at == nil {
			t.Fatalf("no %q or %q in the program any more", remark, to)
		}
		bad := good[:at[1]] + m + good[at[1]:]
		if r := Check([]byte(bad), "", p, 0, 0); r.Proven {
			t.Errorf("%q at %q is proven; not held: %v", m, to, r.NotHeld)
		}
	}
	move(`\(THEN: SPRING SEEN[^\n]*\n(\(  [^\n]*\n)*`, `\(-* *PASS 5, 5 OF[^\n]*\n`)         // corrected before anything is measured
	move(`\(MEASURE: DIAMETER AT BOTH[^\n]*\n(\(  [^\n]*\n)*`, `\(-* *PASS 5, 5 OF[^\n]*\n`) // in the bore that is still to be cut
	move(`\(HONE THE EDGE[^\n]*\n(\(  [^\n]*\n)*`, `\(-* *HOLD AFTER PASS 5[^\n]*\n(\(  [^\n]*\n)*`)
	move(`\(EXPECT BORE DIA [^\n]*AFTER THIS PASS\.\)\n`, `\(-* *HOLD AFTER PASS 1[^\n]*\n(\(  [^\n]*\n)*`)
}

// A setting in the shop's words is held in the unit that stands beside it, at the stop and in
// the list of the header: the number of one unit with the name of the other is wrong, the
// setting itself in the other unit is right.
func TestUnitOfASetting(t *testing.T) {
	for _, c := range []struct{ job, own, other string }{
		{"lock-winch/job.toml", "IN", "MM"}, {"gear-case/job.toml", "MM", "IN"},
	} {
		p := planned(t, shipped(c.job)(t), "cnc-110mm", "")
		good := string(written(t, p, 0, 0))
		m := regexp.MustCompile(`\(SET CUTTER TO DIA ([0-9.]+) ` + c.own + `, SPRING ALLOWED FOR\.\)`).FindStringSubmatchIndex(good)
		if m == nil {
			t.Fatalf("%s: no setting", c.job)
		}
		number := good[m[2]:m[3]]
		size, err := strconv.ParseFloat(number, 64)
		if err != nil {
			t.Fatal(err)
		}
		converted := fmt.Sprintf("%.3f", size*25.4) // an inch is 25.4 mm
		if c.own == "MM" {
			converted = fmt.Sprintf("%.4f", size/25.4)
		}
		for _, x := range []struct {
			said  string
			taken bool
		}{
			{"CUTTER " + number + " " + c.own, true}, {"CUTTER " + number + " " + c.other, false}, {"CUTTER " + converted + " " + c.other, true},
			{"TIP AT " + number + " " + c.other, false}, {"SET TO " + number + c.other, false}, {"CUTTER " + converted + " " + c.own, false},
		} {
			if r := Check([]byte(good[:m[0]]+"("+x.said+")"+good[m[1]:]), "", p, 0, 0); r.Proven != x.taken {
				t.Errorf("%s: %s: proven %v: %v", c.job, x.said, r.Proven, r.Findings)
			}
		}
		head := regexp.MustCompile(`SET DIA ([0-9.]+),`).FindStringSubmatchIndex(good)
		if r := Check([]byte(good[:head[3]]+" "+c.other+good[head[3]:]), "", p, 0, 0); r.Proven {
			t.Errorf("%s: the header's setting is proven in %s", c.job, c.other)
		}
		for unit, taken := range map[string]bool{c.own: true, c.other: false} { // in a line of the shop's own there
			if r := Check([]byte(strings.Replace(good, "N10 G17", "(SET DIA "+number+" "+unit+")\nN10 G17", 1)), "", p, 0, 0); r.Proven != taken {
				t.Errorf("%s: a header's setting in %s: proven %v: %v", c.job, unit, r.Proven, r.Findings)
			}
		}
	}
}

// An order not to hone is none to hone, in the shop's words as in ours.
func TestNotToHone(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", fedOut)
	good := string(written(t, p, 0, 0))
	hone := regexp.MustCompile(`\(HONE THE EDGE[^\n]*\n(\(  [^\n]*\n)*`)
	if !hone.MatchString(good) {
		t.Fatal("nothing is honed")
	}
	for _, x := range []struct {
		said  string
		taken bool
	}{
		{"STONE THE EDGE", true}, {"CHANGE THE BIT", true}, {"DO NOT STONE THE EDGE", false}, {"NOT CHANGE THE BIT", false}, {"LOOK AT THE EDGE", false},
	} {
		if r := Check([]byte(hone.ReplaceAllString(good, "("+x.said+")\n")), "", p, 0, 0); r.Proven != x.taken {
			t.Errorf("%s: proven %v: %v", x.said, r.Proven, r.Findings)
		}
	}
}
