package standard

import (
	"regexp"
	"strings"
	"testing"

	"borewright/process/qty"
)

func TestParse(t *testing.T) {
	for text, want := range map[string]string{
		"2.125 RC4": "2.1250in RC4", "2.125RC4": "2.1250in RC4", "2 1/8 FN2": "2.1250in FN2", "2-1/8 rc4": "2.1250in RC4", "5/8 RC4": "0.6250in RC4",
		"RC4 2.125": "2.1250in RC4", "rc 4 2 1/8": "2.1250in RC4", "2.125 RC 4": "2.1250in RC4", "2.125-RC4": "2.1250in RC4", "2.125 fn-2": "2.1250in FN2",
		"2.125 RC4 in": "2.1250in RC4", "2.125in RC4": "2.1250in RC4", `2.125" LN2`: "2.1250in LN2", "2.125 inch LC11": "2.1250in LC11", "Ø2.125 LT6": "2.1250in LT6",
		"50mm FN2": "50mm FN2", "FN2 50 mm": "50mm FN2", "50 H7/p6": "50 H7/p6", "2.0000in H7/s6": "2.0000in H7/s6", "50 F8": "50 F8", "2 1/8 H7": "2.1250in H7", "50 fg6": "",
	} {
		f, err := Parse(text)
		if (err != nil) != (want == "") || err == nil && f.String() != want {
			t.Errorf("%q: %q, %v; want %q", text, f, err, want)
		}
		if err != nil {
			continue
		}
		if again, err := Parse(f.String()); err != nil || again.String() != f.String() || again.Nominal != f.Nominal {
			t.Errorf("%q does not come back: %q, %v", f, again, err)
		}
	}
}

// The whole text of a refusal; and what it says to write is read.
func TestRefusals(t *testing.T) {
	said := regexp.MustCompile(`write "([^"]*)"`)
	for text, want := range map[string]string{
		"2.125 RC":                       `"RC" has no number: RC goes from RC1 to RC9; write "2.1250in RC5"`,
		"2.125 FN6":                      `ANSI B4.1 has no FN6: FN goes from FN1 to FN5; write "2.1250in FN5"`,
		"2.125 RC0":                      `ANSI B4.1 has no RC0: RC goes from RC1 to RC9; write "2.1250in RC1"`,
		"0.5 FN3":                        `ANSI B4.1 has no FN3 at 0.5 in; write "0.5000in FN2"`,
		"50mm LT9":                       `ANSI B4.1 has no LT9: LT goes from LT1 to LT6; write "50mm LT6"`,
		"50 RC4":                         `ANSI B4.1 goes up to 19.69 in; 50 is taken in inches: for mm write "50mm RC4"`,
		"600 RC4":                        `ANSI B4.1 goes up to 19.69 in; 600 in is beyond it: state the limits of size instead`,
		"RC4":                            `"RC4" has no size; limits depend on it: write "2.0000in RC4"`,
		"rc44":                           `"rc44" has no size; limits depend on it: write "2.0000in RC9"`,
		"2,125 RC4":                      `"2,125 RC4" has a decimal comma; write "2.125in RC4"`,
		"2.125 FN2/RC4":                  `"2.125 FN2/RC4": FN2 names hole and shaft together, and needs a size alone; write "2.1250in FN2"`,
		"2.125 H7/FN2":                   `"2.125 H7/FN2": FN2 names hole and shaft together, and needs a size alone; write "2.1250in FN2"`,
		"H7/FN2":                         `"H7/FN2": FN2 names hole and shaft together, and needs a size alone; write "7.0000in FN2"`,
		"0 RC4":                          `the nominal size must be above 0 in, not 0 in`,
		strings.Repeat("9", 70) + " RC4": `that is too long for a size and a fit; write "2.125in RC4"`,
	} {
		_, err := Parse(text)
		if err == nil || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", text, err, want)
			continue
		}
		for _, m := range said.FindAllStringSubmatch(want, -1) {
			if _, err := Parse(m[1]); err != nil {
				t.Errorf("%q: the advice %q is not read: %v", text, m[1], err)
			}
		}
	}
	if _, _, err := Pair(qty.DiameterMM(50), "FN2/RC4"); err == nil || err.Error() != "FN2 names hole and shaft together; write FN2" {
		t.Error(err)
	}
}

// A job's fit key takes either standard.
func TestHoleAndPair(t *testing.T) {
	d := qty.Diameter(qty.FromInches(2.125))
	hole, shaft, err := Pair(d, "fn 2")
	one, err2 := Hole(d, "FN2")
	// Machinery's Handbook 27 Table 11, 1.97 to 2.56 in: hole +1.2, shaft +2.7 +2.0 thou.
	if err != nil || err2 != nil || one != hole || hole.Upper != qty.FromInches(0.0012) || shaft.Upper != qty.FromInches(0.0027) || shaft.Lower != qty.FromInches(0.002) {
		t.Error(hole, shaft, err, err2)
	}
	if h, _, err := Pair(qty.DiameterMM(50), "H7/p6"); err != nil || h.Upper != 25*qty.Micrometre {
		t.Error(h, err)
	}
	for fit, want := range map[string][2]string{"fn 2": {"FN2", "FN2"}, "H7/p6": {"H7/p6", "H7"}, "H7": {"H7", "H7"}} {
		if got := Name(fit); got != want[0] || HoleOf(got) != want[1] || Inch(fit) != strings.HasPrefix(want[0], "FN") {
			t.Errorf("%q is %q, its hole %q", fit, got, HoleOf(got))
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"50 H7/p6", "2.125 RC4", "rc 4 2 1/8", "50mm FN2", "\x00 RC4", "RC4/FN2", "2,125 LT9", "-1 RC4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := Parse(s)
		if err != nil {
			if strings.ContainsAny(err.Error(), "\n\x1b") || len([]rune(err.Error())) > 500 {
				t.Errorf("error for people: %q", err)
			}
			return
		}
		if again, err := Parse(got.String()); err != nil || again.Nominal != got.Nominal || again.Class != got.Class {
			t.Fatalf("%q is %q, which comes back as %q, %v", s, got, again, err)
		}
	})
}
