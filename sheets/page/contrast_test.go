package page

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"
)

// Text on the HTML face stands out from what is behind it by 4.5 to 1 or more:
// WCAG 2.1, success criterion 1.4.3, with its formulas of relative luminance and
// contrast ratio. Every colour of type in the style sheet is held against every
// colour of ground in it.
func TestContrast(t *testing.T) {
	css, err := os.ReadFile("html.css")
	if err != nil {
		t.Fatal(err)
	}
	find := func(property string) []string {
		var out []string
		for _, m := range regexp.MustCompile(`[{;\s]`+property+`:\s*(#[0-9a-f]{3,6})\b`).FindAllStringSubmatch(string(css), -1) {
			out = append(out, m[1])
		}
		return out
	}
	type_, ground := find("color"), find("background")
	if len(type_) == 0 || len(ground) < 2 {
		t.Fatalf("type %v, ground %v: the style sheet is not read", type_, ground)
	}
	for _, c := range type_ {
		for _, g := range ground {
			a, b := luminance(t, c), luminance(t, g)
			if ratio := (math.Max(a, b) + 0.05) / (math.Min(a, b) + 0.05); ratio < 4.5 {
				t.Errorf("%s on %s: %.1f to 1", c, g, ratio)
			}
		}
	}
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	h := hex[1:]
	if len(h) == 3 {
		h = string([]byte{h[0], h[0], h[1], h[1], h[2], h[2]})
	}
	n, err := strconv.ParseUint(h, 16, 32)
	if err != nil || len(h) != 6 {
		t.Fatalf("%s is no colour", hex)
	}
	linear := func(v uint64) float64 {
		x := float64(v&255) / 255
		if x <= 0.03928 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(n>>16) + 0.7152*linear(n>>8) + 0.0722*linear(n)
}

func TestLuminance(t *testing.T) {
	// White is 1, black 0; #777 on white is 4.48 to 1 (the example that WCAG's
	// own documents give for just too little).
	if w, k := luminance(t, "#fff"), luminance(t, "#000000"); w < 0.9999 || k != 0 {
		t.Error(w, k)
	}
	if r := 1.05 / (luminance(t, "#777") + 0.05); math.Abs(r-4.48) > 0.01 {
		t.Errorf("%.3f", r)
	}
}
