package sheets

import (
	"bytes"
	"math"
	"reflect"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/page"
	"borewright/sheets/report"
	spoken "borewright/sheets/words"
)

// fitsPaper fails when a text is not fit for an 80-column printer.
func fitsPaper(t interface {
	Helper()
	Errorf(string, ...any)
}, s string, ascii bool) {
	t.Helper()
	if !strings.HasSuffix(s, "\n") {
		t.Errorf("the last line is not ended")
	}
	for i, l := range strings.Split(s, "\n") {
		if n := utf8.RuneCountInString(l); n > 80 {
			t.Errorf("line %d has %d columns: %q", i+1, n, l)
		}
		if strings.TrimRight(l, " ") != l {
			t.Errorf("line %d ends in spaces: %q", i+1, l)
		}
		for _, r := range l {
			if !unicode.IsPrint(r) || ascii && r > '~' {
				t.Errorf("line %d: %q is not printable: %q", i+1, r, l)
			}
		}
	}
}

// nasty draws text as a job file could hold it: words without spaces, terminal
// escapes, controls, marks that turn a line round, broken UTF-8.
func nasty() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.String(),
		rapid.StringN(0, 400, -1),
		rapid.StringMatching(`[A-Z]{60,160}`),
		rapid.SampledFrom([]string{"", " ", "\x1b[31mred\x1b[0m", "\x1b]0;title\x07after", "a\r\nb\tc", "\u202eback", "\x9b2J", "\xff\xfe", "µ ± ° Ø κ", "日本語の題", "e\u0301",
			"one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen"}),
	)
}

// scramble replaces texts and, with figures, numbers of a plan by random ones.
func scramble(t *rapid.T, v reflect.Value, figures bool) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			scramble(t, v.Elem(), figures)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				scramble(t, v.Field(i), figures)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			scramble(t, v.Index(i), figures)
		}
	case reflect.String:
		if rapid.IntRange(0, 3).Draw(t, "text?") == 0 {
			v.SetString(nasty().Draw(t, "text"))
		}
	case reflect.Int64:
		if figures && rapid.IntRange(0, 5).Draw(t, "length?") == 0 {
			v.SetInt(rapid.Int64().Draw(t, "length"))
		}
	case reflect.Float64:
		if figures && rapid.IntRange(0, 5).Draw(t, "number?") == 0 {
			v.SetFloat(rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), -0.0001})).Draw(t, "number"))
		}
	}
}

func drawPlan(t *rapid.T) *plan.Plan {
	p := rapid.SampledFrom([]func() *plan.Plan{winch, pump, stopped, crowded}).Draw(t, "plan")()
	scramble(t, reflect.ValueOf(p).Elem(), rapid.Bool().Draw(t, "figures"))
	return p
}

// Whatever a job says, its paper fits the printer and the terminal.
func TestEveryLineFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		s := Build(p, WithPrograms(nasty().Draw(t, "program")))
		var text, ascii, passes bytes.Buffer
		for _, err := range []error{s.WriteText(&text), s.WriteASCII(&ascii), WritePasses(&passes, p)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		fitsPaper(t, text.String(), false)
		fitsPaper(t, ascii.String(), true)
		fitsPaper(t, passes.String(), false)
		if !p.Feasible { // at the head, and once a section
			if n := strings.Count(text.String(), page.NotFeasible); n < 1+len(s.Sections) {
				t.Errorf("%s stands %d times in %d sections", page.NotFeasible, n, len(s.Sections))
			}
		}
	})
}

// Every word of the plan that must reach the person does.
func TestNothingIsDropped(t *testing.T) {
	words := func(s string) string {
		return strings.Join(strings.Fields(strings.ReplaceAll(s, "!", "")), "")
	}
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		var b bytes.Buffer
		if err := Build(p).WriteText(&b); err != nil {
			t.Fatal(err)
		}
		var passes bytes.Buffer
		if err := WritePasses(&passes, p); err != nil {
			t.Fatal(err)
		}
		// Wrapped text is compared without its spaces, indents and "!".
		sheet, table := words(b.String()), words(passes.String())
		speak := spoken.In(p.Job.Units)
		must := speak.Sentences(p.Cautions)
		if !p.Feasible {
			for _, r := range p.Reasons {
				must = append(must, speak.Say(r.What))
			}
			for _, x := range p.Free() {
				must = append(must, speak.Say(x.Fact()))
			}
		}
		for _, m := range must {
			if w := words(page.Clean(m)); !strings.Contains(sheet, w) || !strings.Contains(table, w) {
				t.Errorf("lost from the sheet or the pass table: %q", m)
			}
		}
	})
}

func TestCompareFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var b bytes.Buffer
		if _, err := report.WriteCompare(&b, report.Revision{Name: nasty().Draw(t, "old"), Plan: drawPlan(t)}, report.Revision{Name: nasty().Draw(t, "new"), Plan: drawPlan(t)}, true); err != nil {
			t.Fatal(err)
		}
		fitsPaper(t, b.String(), false)
	})
}

// Limits on paper are never outside those asked for, in either system.
func TestLimitsRoundInward(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Int64Range(1_000_000, 2_000_000_000).Draw(t, "low")
		high := low + rapid.Int64Range(0, 500_000).Draw(t, "tolerance")
		for _, u := range []qty.Unit{qty.Metric, qty.Inches} {
			s := strings.Fields(strings.ReplaceAll(u.SayLimitsOfSize(qty.Diameter(low), qty.Diameter(high)), "Ø", ""))
			if len(s) == 2 { // one size, said once
				s = []string{s[0], "to", s[0], s[1]}
			}
			lo, err := qty.ParseLength(s[0] + " " + s[3])
			hi, err2 := qty.ParseLength(s[2] + " " + s[3])
			if err != nil || err2 != nil {
				t.Fatal(s, err, err2)
			}
			slack := qty.Length(0)
			if high-low < 300 { // beyond what decimals can hold: nearest
				slack = 13
			}
			if int64(lo+slack) < low || int64(hi-slack) > high || lo > hi {
				t.Errorf("%d to %d nm printed as %v", low, high, s)
			}
		}
	})
}
