package sum

import (
	"fmt"
	"hash/crc32"
	"strings"
	"testing"
)

// The sum is CRC-32 of the blocks as a control reads them. That of "123456789" is
// CBF43926, the check value of this CRC in tables of CRCs (from memory).
func TestSum(t *testing.T) {
	if crc32.ChecksumIEEE([]byte("123456789")) != 0xCBF43926 {
		t.Fatal("another CRC")
	}
	const program = "%\nO1204\n(WG-77: IDLER, BORE)\n(CHECK SUM 0000-0000)\nN10 G0 X0. Y0.\nN20 G1 Z-431.5 F30.\n(TIP UP)\nN30 M30\n%\n"
	n := crc32.ChecksumIEEE([]byte("O1204\n(WG-77: IDLER, BORE)\nG0X0.Y0.\nG1Z-431.5F30.\n(TIP UP)\nM30\n"))
	want := fmt.Sprintf("%04X-%04X", n>>16, n&0xffff)
	replaced := func(pairs ...string) string { return strings.NewReplacer(pairs...).Replace(program) }
	for why, same := range map[string]string{
		"as it is": program, "the sum that it states": replaced("0000-0000", want), "none stated": replaced("(CHECK SUM 0000-0000)\n", ""),
		"line ends": replaced("\n", "\r\n"), "carriage returns": replaced("\n", "\r"), "other numbers": replaced("N10 ", "N1", "N20", "N00007"), "no numbers": replaced("N10 ", "", "N20 ", "", "N30 ", ""),
		"small letters": strings.ToLower(program), "blanks": replaced(" X0.", "\tX 0."), "a tape": "\x00\x00\n\n" + program + "\n\x00\x1a", "no %": replaced("%\n", ""),
		"no end of line": strings.TrimSuffix(program, "\n"),
	} {
		if got := Of([]byte(same)); got != want {
			t.Errorf("%s: %s, not %s", why, got, want)
		}
	}
	for why, other := range map[string]string{
		"a digit": replaced("431.5", "431.6"), "a point": replaced("431.5", "4315"), "a sign": replaced("Z-", "Z"), "a word": replaced(" F30.", ""),
		"a block twice": replaced("(TIP UP)\n", "(TIP UP)\n(TIP UP)\n"), "two blocks turned": replaced("N20 G1 Z-431.5 F30.\n(TIP UP)", "(TIP UP)\nN20 G1 Z-431.5 F30."),
		"a remark": replaced("TIP UP", "TIP DOWN"), "a remark away": replaced("(TIP UP)\n", ""), "two lines in one": replaced("Y0.\nN20 G1", "Y0. G1"),
		"block delete": replaced("N20", "/N20"), "the number of the program": replaced("O1204", "O1205"), "cut short": strings.Split(program, "N30")[0],
	} {
		if got := Of([]byte(other)); got == want {
			t.Errorf("%s: the same sum", why)
		}
	}
	for text, stated := range map[string]string{
		program: "0000-0000", strings.ToLower(program): "0000-0000", replaced("(CHECK SUM 0000-0000)\n", ""): "",
		replaced("0000-0000", "NONE"): "", replaced("(CHECK", "( CHECK"): "", "": "",
		strings.Repeat("(", 9000) + "\n(CHECK SUM 3FA2-91C0)": "3FA2-91C0",
	} {
		if got := Stated([]byte(text)); got != stated {
			t.Errorf("%.80q states %q, not %q", text, got, stated)
		}
	}
}
