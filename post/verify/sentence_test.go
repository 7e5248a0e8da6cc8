package verify

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"borewright/process/slow"
)

// Every remark of our own programs is held.
func TestOwnRemarksAreHeld(t *testing.T) {
	for _, v := range ownPrograms(t) {
		r := Check(v.text, v.name, v.plan, v.bore, v.visit)
		for _, f := range r.Findings {
			t.Errorf("%s: %s", v.name, said(f))
		}
		for _, l := range r.NotHeld {
			t.Errorf("%s:%d: not held: %s", v.name, l.Line, l.Text)
		}
		if r.Stated != r.Sum && r.Stated != "" || r.Sum == "" {
			t.Errorf("%s: the check sum is %s, it states %q", v.name, r.Sum, r.Stated)
		}
	}
}

// spoilings are edits of remarks that send an operator wrong: the first match in the
// program becomes the other. Figures of the plan stand in them as patterns.
var spoilings = []struct{ why, old, new string }{
	// the setting
	{"radius for diameter", `SET CUTTER TO DIA`, "SET CUTTER TO RADIUS"},
	{"do not", `\(SET CUTTER`, "(DO NOT SET CUTTER"},
	{"never", `\(SET CUTTER`, "(NEVER SET CUTTER"},
	{"another unit", `(SET CUTTER TO DIA [0-9.]+) IN`, "$1 MM"},
	{"spring to add", `SPRING ALLOWED FOR`, "ADD SPRING"},
	{"spring not allowed for", `SPRING ALLOWED`, "SPRING NOT ALLOWED"},
	{"spring to take off", `SPRING ALLOWED FOR`, "LESS SPRING"},
	{"a size more", `(SET CUTTER TO DIA [0-9.]+ IN)`, "$1 PLUS 0.0100"},
	{"on the radius", `(SET CUTTER TO DIA [0-9.]+ IN)`, "$1 ON RADIUS"},
	{"half of it", `(SET CUTTER TO) DIA`, "$1 HALF OF DIA"},
	{"reworded, on the radius", `\(SET CUTTER TO DIA ([0-9.]+) IN, SPRING ALLOWED FOR\.\)`, "(SET RADIUS $1 IN)"},
	{"reworded, not allowed for", `\(SET CUTTER TO DIA ([0-9.]+) IN, SPRING ALLOWED FOR\.\)`, "(SET CUTTER $1, SPRING IS NOT IN IT)"},
	{"reworded, to be added", `\(SET CUTTER TO DIA ([0-9.]+) IN, SPRING ALLOWED FOR\.\)`, "(SET TOOL TO $1 AND ADD THE SPRING)"},
	{"a digit", `(SET CUTTER TO DIA 3)\.1`, "$1.2"},
	{"two digits turned", `SET CUTTER TO DIA 3\.(2)([013-9])`, "SET CUTTER TO DIA 3.$2$1"},
	// the edge
	{"not to hone", `\(HONE THE EDGE`, "(DO NOT HONE THE EDGE"},
	{"the worn land", `WORN TO ABOUT\)\n\(  0\.001`, "WORN TO ABOUT)\n(  0.011"},
	// what to expect
	{"expect less", `(EXPECT BORE DIA 3)\.1`, "$1.0"},
	{"expect the next pass", `(EXPECT BORE DIA )[0-9.]+ TO [0-9.]+`, "${1}3.2488 TO 3.2514"},
	{"expect wider", `(EXPECT BORE DIA [0-9.]+ TO 3\.)(2[0-9])`, "${1}35"},
	{"expect the radius", `EXPECT BORE DIA`, "EXPECT BORE RADIUS"},
	{"expect in mm", `(EXPECT BORE DIA [0-9.]+ TO [0-9.]+) IN`, "$1 MM"},
	{"expect before", `AFTER THIS PASS`, "BEFORE THIS PASS"},
	{"expect at the gauge", `(TWO CLOCK POSITIONS: EXPECT )3\.37[0-9]{2}`, "${1}3.3669"},
	{"reworded, expecting less", `\(EXPECT BORE DIA ([0-9.]+) TO ([0-9.]+) IN AFTER THIS PASS\.\)`, "(GAUGE WILL SAY 3.1, EXPECT 3.1000)"},
	// limits
	{"a limit", `(\(FINISH SIZE: DIA 3\.3750 TO 3\.37)63`, "${1}93"},
	{"the lower limit", `(\(FINISH SIZE: DIA 3\.37)50`, "${1}30"},
	{"the limit in the header", `(PASSES: 6\. FINISH SIZE: DIA 3\.37)50`, "${1}40"},
	{"the fit", `(FINISH SIZE: DIA [0-9.]+ TO [0-9.]+ IN, H)7`, "${1}9"},
	{"the limit in what to measure", `(LIMITS 3\.3750 TO 3\.37)63`, "${1}83"},
	{"roughness", `RA 63 UIN`, "RA 630 UIN"},
	{"roundness", `ROUNDNESS 0\.0007`, "ROUNDNESS 0.0070"},
	// conditions
	{"the condition taken away", `ONLY IF THE HOLD AFTER PASS 1 FOUND`, "EVEN IF THE HOLD AFTER PASS 1 FOUND"},
	{"the condition turned", `ONLY IF THE HOLD AFTER PASS 1`, "UNLESS THE HOLD AFTER PASS 1"},
	{"the condition's size", `(ONLY IF THE HOLD AFTER PASS 5 FOUND DIA 3\.3)7`, "${1}9"},
	{"the condition's pass", `ONLY IF THE HOLD AFTER PASS 5`, "ONLY IF THE HOLD AFTER PASS 1"},
	{"go on all the same", `OUTSIDE THE SIZE EXPECTED: DO NOT GO ON`, "OUTSIDE THE SIZE EXPECTED: DO GO ON"},
	{"go on if inside out", `OUTSIDE THE SIZE EXPECTED`, "INSIDE THE SIZE EXPECTED"},
	{"go on without the band", `GO ON ONLY IF THE BAND`, "GO ON EVEN IF THE BAND"},
	{"go on, the band untrue", `IF\)?\s\(?\s*IT DOES NOT, MOVE`, "IF IT DOES, MOVE"},
	{"measure after", `MEASURE BEFORE ANYTHING`, "MEASURE AFTER ANYTHING"},
	{"measure at one end", `MEASURE: DIAMETER AT BOTH ENDS`, "MEASURE: DIAMETER AT ONE END, NOT AT BOTH"},
	{"hold after another pass", `HOLD AFTER PASS 5`, "HOLD AFTER PASS 3"},
	// the correction
	{"the other direction", `SET THE NEXT PASS\)\n\(  SMALLER`, "SET THE NEXT PASS)\n(  LARGER"},
	{"the other sense of the bore", `CAME OUT LARGER THAN`, "CAME OUT SMALLER THAN"},
	{"the share", `BY 0\.(\d) TIMES`, "BY 7.$1 TIMES"},
	{"the size it is judged by", `(LARGER THAN 3\.3)7`, "${1}5"},
	{"the spring planned", `PLANNED 0\.00`, "PLANNED 0.01"},
	{"spring the other way", `SETTING MINUS SIZE FOUND`, "SETTING PLUS SIZE FOUND"},
	{"where smaller", `(WHERE IT CAME OUT SMALLER, SET THE NEXT PASS) LARGER`, "$1 SMALLER"},
	{"the set-up taken down", `LEAVE THE SET-UP STANDING UNTIL`, "TAKE THE SET-UP DOWN BEFORE"},
	// stickout, bar, cutter
	{"the tip", `TIP AT 20\.0000`, "TIP AT 10.0000"},
	{"the bar's size", `DIA 2\.2500 X`, "DIA 3.2500 X"},
	{"the bar's length", `17\.5000 IN STEEL`, "27.5000 IN STEEL"},
	{"the nose radius", `NOSE RADIUS 0\.0310`, "NOSE RADIUS 0.1310"},
	{"the cutter's material", `HIGH-SPEED STEEL`, "CARBIDE"},
	// zero, clear plane, axes
	{"the clear plane", `WORK: Z2\.0000`, "WORK: Z0.2000"},
	{"the clear plane's side", `CLEAR PLANE OUTSIDE`, "CLEAR PLANE INSIDE"},
	{"plus the other way", `Z PLUS AWAY FROM THE WORK`, "Z PLUS INTO THE WORK"},
	{"minus away", `Z PLUS AWAY FROM`, "Z MINUS AWAY FROM"},
	{"zero at the far face", `FACE THAT THE SPINDLE ENTERS`, "FACE THAT THE SPINDLE LEAVES"},
	{"another axis feeds", `\(Z FEEDS: TABLE`, "(W FEEDS: TABLE"},
	{"the quill feeds", `FEEDS: TABLE`, "FEEDS: QUILL"},
	{"the units", `UNITS: INCH`, "UNITS: MM"},
	// shift
	{"the shift's sense", `BAR MOVES TO X MINUS`, "BAR MOVES TO X PLUS"},
	{"the shift's axis", `BAR MOVES TO X MINUS`, "BAR MOVES TO Y MINUS"},
	{"the shift's length", `BY 0\.0390 IN`, "BY 0.3900 IN"},
	{"the tip in the header", `TIP STOPS AT \+X`, "TIP STOPS AT -X"},
	{"the tip at the way out", `TIP AT \+X, BAR`, "TIP AT +Y, BAR"},
	{"the bar the same way", `BAR MOVES THE OTHER WAY`, "BAR MOVES THE SAME WAY"},
	// feed, speed, depth in the header
	{"the feed", `(2 ROUGH: SET DIA [0-9.]+, DEPTH [0-9.]+ RADIAL, FEED 0\.)0`, "${1}1"},
	{"the speed", `(REV, S[0-9]+)`, "${1}0"},
	{"the depth of cut", `(2 ROUGH: SET DIA [0-9.]+, DEPTH 0\.)0`, "${1}3"},
	{"the setting in the header", `(2 ROUGH: SET DIA 3\.)2`, "${1}6"},
	{"the depths of the bore", `BORE FROM DEPTH 14\.5`, "BORE FROM DEPTH 15.5"},
	{"the end of the feed", `FEED ENDS AT 16\.9373`, "FEED ENDS AT 17.9373"},
	{"the end of the band", `FEED ENDS AT 15\.0000`, "FEED ENDS AT 16.0000"},
	{"across where it is bare", `UP TO 3\.17`, "UP TO 3.18"},
	{"a hold left out of the list", `(5 SEMI-FINISH: SET DIA [0-9.]+, DEPTH [0-9.]+ RADIAL, FEED [0-9.]+/REV,\)\n\(  S[0-9]+), THEN HOLD AND MEASURE`, "${1}, THEN DO NOT HOLD"},
	{"how many passes", `PASSES: 6`, "PASSES: 4"},
	// whose it is
	{"the job", `WG-204 REV`, "WG-205 REV"},
	{"the revision", `REV C`, "REV B"},
	{"the bore", `\(BORE IDLER`, "(BORE PINION"},
	{"the visit", `VISIT 1 OF 2`, "VISIT 2 OF 2"},
	{"the machine", `CNC BORING MILL, 110 MM`, "CNC BORING MILL, 150 MM"},
	{"which pass", `PASS 3, 3 OF 6`, "PASS 2, 3 OF 6"},
	{"what pass", `PASS 6, 6 OF 6: FINISH`, "PASS 6, 6 OF 6: ROUGH"},
	// safety
	{"guards open", `GUARDS SHUT\. THEN`, "GUARDS OPEN. THEN"},
	{"hands in the bore", `SPINDLE IS STOPPED`, "SPINDLE IS TURNING"},
	{"before the spindle turns", `SHUT BEFORE THE SPINDLE`, "SHUT AFTER THE SPINDLE"},
	{"the gauge in the way", `BAR OUT OF THE\)\n\(  WORK FIRST`, "BAR IN THE)\n(  WORK FIRST"},
	{"the remarks of another stop", `(?s)\(EXPECT BORE DIA 3\.16[^\n]*\n`, "(EXPECT BORE DIA 3.2488 TO 3.2514 IN AFTER THIS PASS.)\n"},
}

// A remark that sends the operator wrong is found, at its line or its stop.
func TestSpoiltRemarksAreFound(t *testing.T) {
	own := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "")
	honed := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", fedOut)
	found := 0
	for _, c := range spoilings {
		p, good := own, string(written(t, own, 0, 0))
		re := regexp.MustCompile(c.old)
		m := re.FindStringSubmatchIndex(good)
		if m == nil { // what is told where the edge is honed
			p, good = honed, string(written(t, honed, 0, 0))
			m = re.FindStringSubmatchIndex(good)
		}
		if m == nil {
			t.Errorf("%s: no %q in the program any more", c.why, c.old)
			continue
		}
		bad := good[:m[0]] + string(re.ExpandString(nil, c.new, good, m)) + good[m[1]:]
		r := Check([]byte(bad), "", p, 0, 0)
		switch {
		case r.Proven:
			t.Errorf("%s: %s for %s is proven; not held: %v", c.why, c.new, c.old, r.NotHeld)
		case len(r.Findings) > 1:
			t.Errorf("%s: %d findings for one mistake: %v", c.why, len(r.Findings), r.Findings)
		default:
			found++
		}
	}
	t.Logf("%d of %d spoilt remarks found, with one finding each", found, len(spoilings))
}

// Remarks of the shop's own are let through, and listed; ours said in other words that
// weigh nothing are held.
func TestRemarksInOtherWords(t *testing.T) {
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "")
	good := string(written(t, p, 0, 0))
	for _, c := range []struct{ why, old, new, loose string }{
		{"an article less", `SET CUTTER TO DIA`, "SET THE CUTTER TO DIA", ""},
		{"diameter in full", `SET CUTTER TO DIA`, "SET CUTTER TO DIAMETER", ""},
		{"inch in full", `(SET CUTTER TO DIA [0-9.]+) IN`, "$1 INCH", ""},
		{"zeros behind", `3\.3750 TO 3\.3763`, "3.375 TO 3.37630", ""},
		{"in small letters", `SET CUTTER TO DIA`, "Set cutter to dia", ""},
		{"no full stop", `ALLOWED FOR\.`, "ALLOWED FOR", ""},
		{"spring not spoken of", `, SPRING ALLOWED FOR\.`, "", ""},
		{"broken elsewhere", `\(LOCK THE CUTTER, TOOLS OUT`, "(LOCK THE CUTTER,)\n(  TOOLS OUT", ""},
		{"broken without an indent", `\(LOCK THE CUTTER, TOOLS OUT`, "(LOCK THE CUTTER,)\n(TOOLS OUT", ""},
		{"a remark taken away", `\(EXPECT BORE[^\n]*\n`, "", ""},
		{"in the shop's words", `\(SET CUTTER TO DIA ([0-9.]+) IN, SPRING ALLOWED FOR\.\)`, "(CUTTER $1 IN)", ""},
		{"a name", `(N30 M5\n)`, "(JANE, NIGHT SHIFT: WATCH THE CHIPS)\n$1", "JANE, NIGHT SHIFT: WATCH THE CHIPS"},
		{"a date in the header", `(N10 G17)`, "(CHANGED 27 NOV BY JK)\n$1", "CHANGED 27 NOV BY JK"},
	} {
		re := regexp.MustCompile(c.old)
		m := re.FindStringSubmatchIndex(good)
		if m == nil {
			t.Errorf("%s: no %q in the program any more", c.why, c.old)
			continue
		}
		r := Check([]byte(good[:m[0]]+string(re.ExpandString(nil, c.new, good, m))+good[m[1]:]), "", p, 0, 0)
		var loose []string
		for _, l := range r.NotHeld {
			loose = append(loose, l.Text)
		}
		if !r.Proven || strings.Join(loose, "|") != c.loose {
			t.Errorf("%s: %v, not held: %q", c.why, r.Findings, loose)
		}
	}
}

// Every digit of every remark of our own programs weighs: another one is found. What a
// name of the shop says in figures is held with it.
func TestEveryFigureOfARemark(t *testing.T) {
	every := slow.Rounds(t, "is the step from program to program", 13, 90, 2) // no multiple of how many controls there are, but in a short run
	made := 0
	for n, v := range ownPrograms(t) {
		if n%every != 0 {
			continue
		}
		for i := 0; i < len(v.text); i++ {
			c := v.text[i]
			if c < '0' || c > '9' || !inRemark(v.text, i) {
				continue
			}
			bad := bytes.Clone(v.text)
			if bad[i] = c + 4; bad[i] > '9' {
				bad[i] = c - 5
			}
			made++
			line := 1 + bytes.Count(v.text[:i], []byte{'\n'})
			text := bytes.Split(bad, []byte{'\n'})[line-1]
			if r := Check(bad, "", v.plan, v.bore, v.visit); r.Proven && len(r.NotHeld) == 0 && bytes.HasPrefix(text, []byte("(CHECK SUM ")) {
				if r.Sum == r.Stated {
					t.Errorf("%s:%d: the check sum is taken as it was written: %s", v.name, line, text)
				}
			} else if r.Proven && len(r.NotHeld) == 0 {
				t.Errorf("%s:%d: digit %c for %c in %s", v.name, line, bad[i], c, text)
			} else if r.Proven {
				t.Errorf("%s: not held: %v", v.name, r.NotHeld)
			}
		}
	}
	t.Logf("%d digits changed, one at a time", made)
	if made < 200 {
		t.Error("too few to show anything")
	}
}

// inRemark reports that a place of a program is in a comment.
func inRemark(text []byte, i int) bool {
	from := bytes.LastIndexByte(text[:i], '\n') + 1
	return text[from] == '('
}

// A speed that is put in anywhere is found, at all 86 places of a program and more.
func TestSpeedsAnywhere(t *testing.T) {
	every := slow.Rounds(t, "is the step from program to program", 13, 90, 4)
	step := slow.Rounds(t, "is the step from line to line", 1, 5)
	for n, v := range ownPrograms(t) {
		if n%every != 0 {
			continue
		}
		lines := strings.Split(strings.TrimSuffix(string(v.text), "\n"), "\n")
		for i := 0; i < len(lines); i += step {
			for _, s := range []string{"S2500 M3", "S2500"} {
				bad := strings.Join(lines[:i], "\n") + "\n" + s + "\n" + strings.Join(lines[i:], "\n") + "\n"
				if r := Check([]byte(strings.TrimPrefix(bad, "\n")), "", v.plan, v.bore, v.visit); r.Proven {
					t.Errorf("%s: %s before line %d is proven", v.name, s, i+1)
				}
			}
		}
	}
}
