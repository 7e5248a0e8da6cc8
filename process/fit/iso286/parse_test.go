package iso286

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"borewright/process/qty"
	"pgregory.net/rapid"
)

func TestParse(t *testing.T) {
	for _, r := range []struct{ text, want, why string }{
		{"50 H7/p6", "50 H7/p6", "a bare number is in mm"},
		{"50H7", "50 H7", "as a drawing writes it"},
		{"2.0000in H7/s6", "2.0000in H7/s6", "inches keep four decimals"},
		{"2.00005 in H7/s6", "2.00005in H7/s6", "and more where there are more"},
		{`2" H7`, "2.0000in H7", "the sign for inches"},
		{"80mm H7", "80 H7", ""},
		{"Ø30 g6", "30 g6", "the sign for a diameter"},
		{"50 m6", "50 m6", "m is a letter here, not metres"},
		{"50 m6 ", "50 m6", ""},
		{"50 H7-p6", "50 H7/p6", "hole and shaft as hands write them"},
		{"50 H7 p6", "50 H7/p6", ""},
		{"50H7p6", "50 H7/p6", ""},
		{"50 H7 / p6", "50 H7/p6", ""},
		{"H7/p6 50", "50 H7/p6", "the class first"},
		{"H7 Ø50", "50 H7", ""},
		{"2.125 H7/r6 in", "2.1250in H7/r6", "the unit last"},
		{"H7/r6 2.125 in", "2.1250in H7/r6", ""},
		{"2.125 inch H7", "2.1250in H7", ""},
		{"2 1/8 H7", "2.1250in H7", "fractions are of an inch"},
		{"2-1/8 H7/p6", "2.1250in H7/p6", ""},
		{"5/8 in H7", "0.6250in H7", ""},
		{"2 1/2in H7", "2.5000in H7", ""},
		{"85.725 JS7/h01", "85.725 JS7/h01", "grades 01 and 0 exist"},
	} {
		d, err := Parse(r.text)
		if err != nil || d.String() != r.want {
			t.Errorf("%q: %q, %v; want %q (%s)", r.text, d, err, r.want, r.why)
		}
	}
}

// What a refusal says to write is itself read.
func TestAdviceIsRead(t *testing.T) {
	said := regexp.MustCompile(`"([^"]*)"`)
	for _, text := range []string{"", "H7/p6", "50", "50,5 H7", "2.125 inch", "2-1/8", "50 H7 p6 x"} {
		_, err := Parse(text)
		if err == nil {
			t.Errorf("%q is read", text)
			continue
		}
		all := said.FindAllStringSubmatch(err.Error(), -1)
		if text != "" {
			all = all[1:] // what was written
		}
		if len(all) == 0 {
			t.Errorf("%q: no advice in %v", text, err)
		}
		for _, m := range all {
			if _, err := Parse(m[1]); err != nil {
				t.Errorf("%q: the advice %q is not read: %v", text, m[1], err)
			}
		}
	}
}

// The whole text of an error is looked at: it names what is allowed and what
// to write instead.
func TestRefusals(t *testing.T) {
	for _, r := range []struct{ text, want string }{
		{"", `no size and fit given; write them as in "50 H7/p6" or "2.0000in H7/s6"`},
		{"H7/p6", `"H7/p6" has no size; limits depend on it: write "50 H7/p6" (mm) or "2.0000in H7/p6"`},
		{"50", `"50" has no class; write it after the size, as in "50mm H7" or "50mm H7/p6"`},
		{"50 p6/H7", `"p6/H7": the hole comes first; write H7/p6`},
		{"50 h7/p6", `"h7" is a class for a shaft; for a hole write H7`},
		{"50 H7/P6", `"P6" is a class for a hole; for a shaft write p6`},
		{"50 Js7", `"Js7" mixes capital and small letters; for a hole write JS7`},
		{"50 J9", `the ISO 286 table has no J9 at 50 mm; J goes with grades 6 to 8 there, nearest is J8`},
		{"50 K9", `the ISO 286 table has no K9 at 50 mm; K goes with grades 3 to 8 there, nearest is K8`},
		{"600 K9", `the ISO 286 table has no K9 at 600 mm; K goes with grades 1 to 8 there, nearest is K8`},
		{"1 a11", `the ISO 286 table has no a at 1 mm; with grade 11 it has c cd d e ef f fg g h js k m n p r s u x z za zb zc there, nearest is c11`},
		{"50 Q7", `"Q7": ISO 286 has no letter "Q"; the letters for a hole are A B C CD D E EF F FG G H J JS K M N P R S T U V X Y Z ZA ZB ZC`},
		{"50 H19", `"H19": "19" is not a grade; the grades are 01, 0 and 1 to 18`},
		{"50 H", `"H": no grade; a class is a letter and a grade, as in H7 or p6`},
		{"50 K9", `the ISO 286 table has no K9 at 50 mm; K goes with grades 3 to 8 there, nearest is K8`},
		{"20 T7", `the ISO 286 table has no T at 20 mm; with grade 7 it has A B C D E F G H J JS K M N P R S U V X Y Z ZA ZB ZC there, nearest is U7`},
		{"600 x6", `the ISO 286 table has no x at 600 mm; with grade 6 it has d e f g h js k m n p r s t u there, nearest is u6`},
		{"0.5 H14", `the ISO 286 table has no H14 at 0.5 mm; H goes with grades 01 to 13 there, nearest is H13`},
		{"0 H7", `the nominal size must be above 0 mm, not 0 mm`},
		{"-5 H7", `the nominal size must be above 0 mm, not -5 mm`},
		{"200in H7", `ISO 286 goes up to 3150 mm (124 in); 5080 mm is beyond it: state the limits of size instead`},
		{"50,5 H7", `"50,5 H7" has a decimal comma; write "50.5 H7"`},
		{"2.125 inch", `"2.125 inch" has no class; write it after the size, as in "2.125in H7" or "2.125in H7/p6"`},
		{"2-1/8", `"2-1/8" has no class; write it after the size, as in "2-1/8in H7" or "2-1/8in H7/p6"`},
		{"2 1/7 H7", `"2 1/7 H7": "2 1/7in" is no fraction of an inch; write it below one, in halves to 128ths, as in "2 1/8 in"`},
		{"2 1/8 mm H7", `"2 1/8 mm H7": "2 1/8mm": fractions are of an inch; write a decimal number of mm`},
		{"50 H7 p6 x", `"50 H7 p6 x" has more than a size and a class; write them as in "50mm H7" or "50mm H7/p6"`},
		{"50 H7/", `"H7/" is not a fit; write hole and shaft with a stroke between, as in H7/p6`},
		{"5.0.1 H7", `"5.0.1 H7": "5.0.1mm": "5.0.1" is not a plain decimal number`},
	} {
		_, err := Parse(r.text)
		if err == nil || err.Error() != r.want {
			t.Errorf("%q:\n got %v\nwant %s", r.text, err, r.want)
		}
	}
	for _, r := range []struct {
		size  float64
		grade string
		want  string
	}{
		{600, "IT01", "ISO 286 has no IT01 over 500 mm; use IT1 to IT18"},
		{1, "IT14", "ISO 286 has no IT14 up to 1 mm; use IT01 to IT13"},
		{50, "7", `"7" is not a tolerance grade; the grades are IT01, IT0 and IT1 to IT18`},
	} {
		if _, err := Grade(qty.DiameterMM(r.size), r.grade); err == nil || err.Error() != r.want {
			t.Errorf("%g %s: %v", r.size, r.grade, err)
		}
	}
}

func TestParsePrintParse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Designation{Nominal: qty.Diameter(rapid.Int64Range(1, 3150e6).Draw(t, "nm"))}
		if rapid.Bool().Draw(t, "inches") {
			d.Units = qty.Inches
			d.Nominal = qty.Diameter(rapid.Int64Range(1, 12_000_000).Draw(t, "hundred-thousandths") * 254)
		}
		d.Hole = rapid.SampledFrom([]string{"", "H7", "JS6", "P7"}).Draw(t, "hole")
		d.Shaft = rapid.SampledFrom([]string{"p6", "h8", "js7"}).Draw(t, "shaft")
		got, err := Parse(d.String())
		if err != nil || got != d {
			t.Fatalf("%q came back as %+v, %v", d, got, err)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"50 H7/p6", `2" H7`, "Ø30 g6", "-1 h01", "1e9 H7", "\x00 H7", "50 H7/p6/p6", "H7/p6 50", "2.125 H7/r6 in", "2 1/8 H7", "50,5 H7"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := Parse(s)
		if err != nil {
			if utf8.RuneCountInString(err.Error()) > 500 || strings.ContainsAny(err.Error(), "\n\x1b") {
				t.Errorf("error for people: %q", err)
			}
			return
		}
		if _, err := d.Resolve(); err != nil {
			t.Fatalf("%q parses but has no limits: %v", s, err)
		}
	})
}

func ExamplePair() {
	hole, shaft, _ := Pair(qty.DiameterMM(50), "H7/p6")
	tight := Clearance(hole, shaft).Interference()
	fmt.Println(hole.Upper.Microns(), shaft.Lower.Microns(), tight.Least.Microns(), tight.Most.Microns())
	// Output: 25 26 1 42
}
