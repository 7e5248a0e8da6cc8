package page

import "testing"

func TestClean(t *testing.T) {
	for _, tc := range []struct{ in, want, ascii string }{
		{"plain text", "plain text", "plain text"},
		{"  two  spaces ", "two spaces", "two spaces"},
		{"a\tb\r\nc\x00d", "a b c d", "a b c d"},
		{"\x1b[31;1mred\x1b[0m", "red", "red"},
		{"x\x1b]0;window title\x07y", "xy", "xy"},
		{"x\x1b]8;;http://a\x1b\\link", "xlink", "xlink"},
		{"\u009b2Jgone", "gone", "gone"},
		{"x\x1bcy\x1b", "xy", "xy"},
		{"\u202egnorw\u202c \u200bno width", "gnorw no width", "gnorw no width"},
		{"broken \xff", "broken ?", "broken ?"},
		{"1\u20132 \u201cquoted\u201d \u2264 3\u2026", `1-2 "quoted" <= 3...`, `1-2 "quoted" <= 3...`},
		{"Ø3.15 ±0.001, 63 µin, 75°, 12 N·m", "Ø3.15 ±0.001, 63 µin, 75°, 12 N·m", "dia 3.15 +/-0.001, 63 uin, 75 deg, 12 N.m"},
		{"Kühlwasserpumpe Łódź", "Kühlwasserpumpe Łódź", "Kuhlwasserpumpe Lodz"},
		{"水", "水", "?"},
	} {
		if got := Clean(tc.in); got != tc.want {
			t.Errorf("Clean(%q) = %q, want %q", tc.in, got, tc.want)
		}
		if got := toASCII(Clean(tc.in)); got != tc.ascii {
			t.Errorf("in ASCII, %q is %q, want %q", tc.in, got, tc.ascii)
		}
		if again := Clean(Clean(tc.in)); again != tc.want {
			t.Errorf("clean twice: %q", again)
		}
	}
}
