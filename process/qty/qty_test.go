package qty

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestExactUnits(t *testing.T) {
	// The international inch is 25.4 mm exactly (ISO 80000-3; NIST SP 811, B.6).
	rows := []struct {
		text string
		want Length
		why  string
	}{
		{"1 in", 25_400_000, "the inch"},
		{"0.0001 in", 2_540, "a tenth is whole nanometres"},
		{"3.1500in", 80_010_000, "no space needed"},
		{"80 mm", 80_000_000, "the millimetre"},
		{"-0.5 mm", -500_000, "signs are taken"},
		{"12 µm", 12_000, "micro sign"},
		{"12 μm", 12_000, "Greek mu"},
		{"63 µin", 1_600, "63 × 25.4 nm = 1600.2"},
		{"2 1/8 in", 53_975_000, "fractions of an inch, as rules have them"},
		{"2-1/8", 53_975_000, "they need no unit"},
		{"3-1/2 in", 88_900_000, ""},
		{"5/8", 15_875_000, ""},
		{"-1/64 in", -396_875, "a 64th is whole nanometres"},
		{"1 127/128\"", 50_601_563, "1.9921875 in is 50 601 562.5 nm"},
		{"2.125 inch", 53_975_000, "the word"},
		{"2.5 cm", 25_000_000, "centimetres are written on old drawings"},
	}
	for _, r := range rows {
		got, err := ParseLength(r.text)
		if err != nil || got != r.want {
			t.Errorf("%s: %q = %d, %v; want %d", r.why, r.text, got, err, r.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for text, say := range map[string]string{
		"":                              "not a length",
		"3.15":                          "no unit",
		"3.15 ft":                       "unknown unit",
		"1e3 mm":                        "plain decimal",
		"1.2.3 mm":                      "plain decimal",
		"mm":                            "not a length",
		"1/7 in":                        "halves to 128ths, as in \"2 1/8 in\"",
		"1/0 in":                        "halves to 128ths",
		"1/256 in":                      "halves to 128ths",
		"2 9/8":                         "below one",
		"2 1/8 mm":                      "fractions are of an inch",
		"50,5 mm":                       "a decimal comma; write \"50.5 mm\"",
		"-50,5":                         "write \"-50.5 mm\" or \"-50.5 in\"",
		"99999999999999999 m":           "too long",
		strings.Repeat("9", 40) + " mm": "more digits",
	} {
		if _, err := ParseLength(text); err == nil || !strings.Contains(err.Error(), say) {
			t.Errorf("%q: got %v, want an error saying %q", text, err, say)
		}
	}
}

func TestFormat(t *testing.T) {
	rows := []struct {
		u    Unit
		l    Length
		want string
	}{
		{Inches, 80_010_000, "3.1500"},
		{Inches, 80_009_999, "3.1500"},
		{Inches, 1270, "0.0001"}, // half rounds away
		{Inches, 1269, "0.0000"},
		{Inches, -1270, "-0.0001"},
		{Inches, -1, "0.0000"}, // nothing has no sign
		{Metric, 80_000_000, "80.000"},
		{Metric, 79_999_500, "80.000"},
		{Metric, 79_999_499, "79.999"},
	}
	for _, r := range rows {
		if got := r.u.Format(r.l); got != r.want {
			t.Errorf("%v %d nm: %s, want %s", r.u, r.l, got, r.want)
		}
	}
	if got := Inches.FormatFine(254); got != "0.00001" {
		t.Errorf("fine: %s", got)
	}
	if got := Inches.FormatRa(1600); got != "63" {
		t.Errorf("Ra 1.6 µm is %s µin, want 63 (ISO 1302 pairs 1.6 and 63)", got)
	}
}

// What is printed reads back to what Round gives.
func TestPrintParse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(-1e13, 1e13).Draw(t, "l"))
		u := Unit(rapid.IntRange(0, 1).Draw(t, "u"))
		back, err := ParseLength(u.Say(l))
		if err != nil || back != u.Round(l) {
			t.Fatalf("%s reads back as %d, %v; want %d", u.Say(l), back, err, u.Round(l))
		}
	})
}

func TestLimitsGoInward(t *testing.T) {
	// 80 H7 is 80.000 to 80.030 mm (ISO 286-2): 3.14961 to 3.15079 in.
	if got := Inches.SayLimits(DiameterMM(80), DiameterMM(80.03)); got != "3.1497 to 3.1507 in" {
		t.Error(got)
	}
	if got := Metric.SayLimits(DiameterMM(80), DiameterMM(80.03)); got != "80.000 to 80.030 mm" {
		t.Error(got)
	}
	if up, down := Metric.Up(-1500), Metric.Down(-1500); up != -1000 || down != -2000 {
		t.Error(up, down)
	}
}

func TestSpeeds(t *testing.T) {
	// v_c = π·d·n/1000: 100 mm at 100 rev/min is 31.416 m/min (ISO 3002-1).
	v := RevPerMin(100).At(DiameterMM(100))
	if math.Abs(float64(v)-31.41593) > 1e-4 {
		t.Errorf("v = %v", v)
	}
	if n := v.Turning(DiameterMM(100)); math.Abs(float64(n)-100) > 1e-9 {
		t.Errorf("back to %v rev/min", n)
	}
	if n := v.Turning(0); n != 0 {
		t.Errorf("no diameter, no speed: %v", n)
	}
	if f := Inches.Say(KindExactCuttingSpeed.Of(float64(v))); f != "103.1 ft/min" { // 1 ft = 0.3048 m exactly
		t.Error(f)
	}
	if m := RevPerMin(100).Minutes(FromMM(50), FromMM(0.1)); math.Abs(m-5) > 1e-12 {
		t.Errorf("50 mm at 0.1 and 100 rev/min takes %v min", m)
	}
}
