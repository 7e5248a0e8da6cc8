package verify

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"borewright/process"
)

// A harmless edit does nothing else at the machine, or nothing that anybody could mind.
// do gives all the programs that it makes of one: each with one edit.
var harmless = []struct {
	kind string
	do   func(v *victim, lines []string) [][]string
}{
	{"a dwell after the spindle starts", after(`M0*3\b`, dwellOf)},
	{"a dwell after the oriented stop", after(`M19`, dwellOf)},
	{"M8 with the spindle, M9 where it stops", func(_ *victim, l []string) [][]string {
		return [][]string{each(each(l, `M0*3\b`, "M8"), `M0*5\b`, "M9")}
	}},
	{"M8 after the spindle starts", after(`M0*3\b`, says("M8"))},
	{"M7 after the spindle starts", after(`M0*3\b`, says("M7"))},
	{"an optional stop after a stop", after(stopWord, says("M1"))},
	{"the same stop twice", after(stopWord, says("M0"))},
	{"G64 in the first block", first(`G17`, "G64")},
	{"G61 in the first block", first(`G17`, "G61")},
	{"a modal block between remark and stop", func(_ *victim, l []string) (all [][]string) {
		for i, s := range l {
			if i > 0 && strings.HasPrefix(l[i-1], "(") && codeRE(`M0*5\b`)(s) && strings.Contains(strings.Join(l[:i], "\n"), "M0\n") {
				all = append(all, insert(l, i, "G17 G40"))
			}
		}
		return all
	}},
	{"NUL in front", func(_ *victim, l []string) [][]string { return [][]string{with(l, 0, "\x00\x00\x00"+l[0])} }},
	{"a leader of blanks", func(_ *victim, l []string) [][]string { return [][]string{insert(insert(l, 0, "   "), 0, "")} }},
	{"a trailer of NUL", func(_ *victim, l []string) [][]string { return [][]string{insert(l, len(l), "\x00\x00")} }},
	{"control-Z at the end", func(_ *victim, l []string) [][]string { return [][]string{insert(l, len(l), "\x1a")} }},
	{"carriage returns", func(_ *victim, l []string) [][]string {
		return [][]string{strings.Split(strings.Join(l, "\r\n"), "\n")}
	}},
	{"out in two legs", func(v *victim, l []string) (all [][]string) {
		for i, s := range l {
			if m := outRE.FindStringSubmatch(s); m != nil && i > 15 && v.plan.Job.Machine.Control.DecimalPoint {
				all = append(all, insert(l, i, "G0 "+s[strings.IndexAny(s, "ZW"):][:1]+"0.5"))
			}
		}
		return all
	}},
	{"in by two legs", func(v *victim, l []string) (all [][]string) {
		for i, s := range l {
			if m := inRE.FindStringSubmatchIndex(s); m != nil && v.plan.Job.Machine.Control.DecimalPoint {
				var at float64
				fmt.Sscan(s[m[2]:m[3]], &at)
				all = append(all, insert(l, i, s[:m[2]]+fmt.Sprintf("%.1f", at/2)), insert(l, i, regexp.MustCompile(`^N\d+ ?`).ReplaceAllString(s[:m[2]], "")+"0."))
			}
		}
		return all
	}},
	{"in by two legs on the clear side", func(v *victim, l []string) (all [][]string) {
		for i, s := range l {
			if m := outRE.FindStringSubmatchIndex(s); m != nil && i > 15 && v.plan.Job.Machine.Control.DecimalPoint && v.plan.Job.Bar.FeedBy != process.QuillFeed && i+1 < len(l) && strings.Contains(l[i+1], "X0") {
				var at float64
				fmt.Sscan(s[m[2]:m[3]], &at)
				all = append(all, insert(l, i, fmt.Sprintf("G0 %s%.1f", s[strings.IndexAny(s, "ZW"):][:1], at+1)))
			}
		}
		return all
	}},
	{"an optional stop before a stop", func(_ *victim, l []string) (all [][]string) {
		for i, s := range l {
			if codeRE(stopWord)(s) && codeRE(`M0*5\b`)(l[i-1]) {
				all = append(all, insert(l, i, "M1"))
			}
		}
		return all
	}},
	{"a stop further out", func(v *victim, l []string) (all [][]string) {
		for i, s := range l {
			if m := outRE.FindStringSubmatchIndex(s); m != nil && v.plan.Job.Machine.Control.DecimalPoint && v.plan.Job.Bar.FeedBy != process.QuillFeed {
				var at float64
				fmt.Sscan(s[m[2]:m[3]], &at)
				all = append(all, with(l, i, s[:m[2]]+fmt.Sprintf("%.1f", at+1)+s[m[3]:]))
			}
		}
		return all
	}},
	{"a remark in lower case", func(v *victim, l []string) (all [][]string) {
		for i, s := range l {
			if strings.HasPrefix(s, "(") && i%4 == 0 {
				all = append(all, with(l, i, strings.ToLower(s)))
			}
		}
		return all
	}},
	{"initials before the spindle starts", func(v *victim, l []string) (all [][]string) {
		for i, s := range l {
			if codeRE(`M0*3\b`)(s) && v.plan.Job.Machine.Control.Comments {
				all = append(all, insert(l, i, "(JK)"))
			}
		}
		return all
	}},
	{"block numbers away", func(_ *victim, l []string) [][]string {
		out := append([]string{}, l...)
		for i, s := range out {
			out[i] = regexp.MustCompile(`^N\d+ ?`).ReplaceAllString(s, "")
		}
		return [][]string{out}
	}},
	{"a hold in other words", func(_ *victim, l []string) (all [][]string) {
		for i, s := range l {
			if !strings.HasPrefix(s, "(MEASURE") && !strings.HasPrefix(s, "(GAUGE") && !strings.HasPrefix(s, "(HOLD") || strings.Contains(s, ":") {
				continue
			}
			for _, w := range []string{"GAUGE THE BORE", "GAGE", "GAGE BORE", "MIC", "MIC THE BORE", "CHECK SIZE", "CHECK BORE SIZE", "BORE DIA", "BORE SIZE", "MEASURE HERE", "INSPECT", "HOLD"} {
				all = append(all, with(l, i, "("+w+")"))
			}
		}
		return all
	}},
	{"the spindle started again as it turns", after(`M0*3\b`, says("M3"))},
	{"M5 where it stands", after(stopWord, says("M5"))},
	{"the state set again", after(`G17`, says("G17 G40 G49 G90"))},
	{"the way out spoken of beside the move", func(v *victim, l []string) (all [][]string) {
		for i, s := range l {
			if codeRE(`M19`)(s) && v.plan.Job.Machine.Control.Comments {
				all = append(all, with(l, i, s+" (TIP CLEAR)"))
			}
		}
		return all
	}},
	{"a remark moved past M5", func(_ *victim, l []string) (all [][]string) {
		for i, s := range l {
			if i > 0 && strings.HasPrefix(l[i-1], "(") && !strings.HasPrefix(l[i-1], "(  ") && codeRE(`M0*5\b`)(s) {
				all = append(all, insert(append(append([]string{}, l[:i-1]...), l[i:]...), i, l[i-1]))
			}
		}
		return all
	}},
}

const stopWord = `M0*0\b`

var inRE = regexp.MustCompile(`^(?:N\d+ )?G0 ?[ZW](-\d+\.?\d*)$`)

var outRE = regexp.MustCompile(`^(?:N\d+ )?G0 ?[ZW](\d+\.?\d*)$`)

func codeRE(re string) func(string) bool {
	r := regexp.MustCompile(re)
	return func(s string) bool { return !strings.HasPrefix(s, "(") && r.MatchString(s) }
}

func says(w string) func(*victim) string { return func(*victim) string { return w } }

func insert(l []string, i int, s string) []string {
	out := append([]string{}, l[:i]...)
	return append(append(out, s), l[i:]...)
}

func with(l []string, i int, s string) []string {
	out := append([]string{}, l...)
	out[i] = s
	return out
}

// each puts a line after every line of code that matches.
func each(l []string, re, w string) (out []string) {
	is := codeRE(re)
	for _, s := range l {
		if out = append(out, s); is(s) {
			out = append(out, w)
		}
	}
	return out
}

// after puts a line after one of those that match, each in turn.
func after(re string, what func(*victim) string) func(*victim, []string) [][]string {
	is := codeRE(re)
	return func(v *victim, l []string) (all [][]string) {
		for i, s := range l {
			if w := what(v); is(s) && w != "" {
				all = append(all, insert(l, i+1, w))
			}
		}
		return all
	}
}

func first(re, w string) func(*victim, []string) [][]string {
	return func(v *victim, l []string) [][]string {
		all := after(re, says(w))(v, l)
		return all[:min(1, len(all))]
	}
}

func dwellOf(v *victim) string {
	switch c := v.plan.Job.Machine.Control; {
	case c.Dwell == process.DwellRevolutions:
		return ""
	case c.Dwell == process.DwellMilliseconds || !c.DecimalPoint:
		return fmt.Sprintf("G4 %c500", c.DwellWord)
	default:
		return fmt.Sprintf("G4 %c0.5", c.DwellWord)
	}
}

// Edits that do no harm are proven: at least 300, of every kind some.
func TestHarmlessEditsAreProven(t *testing.T) {
	var all []victim
	for _, g := range good {
		all = append(all, victim{g.file, g.plan(), 0, 0, program(t, g.file)})
	}
	p := planned(t, shipped("lock-winch/job.toml")(t), "cnc-110mm", "")
	for k := range p.Bores[0].Visits {
		all = append(all, victim{fmt.Sprintf("winch, visit %d", k+1), p, 0, k, written(t, p, 0, k)})
	}
	total := 0
	for _, h := range harmless {
		made := 0
		for _, v := range all {
			lines := strings.Split(strings.TrimSuffix(string(v.text), "\n"), "\n")
			for _, edited := range h.do(&v, lines) {
				made++
				if r := Check([]byte(strings.Join(edited, "\n")+"\n"), v.name, v.plan, v.bore, v.visit); !r.Proven {
					t.Errorf("%s, %s: %s", v.name, h.kind, said(r.Findings[0]))
				}
			}
		}
		t.Logf("%-40s %3d", h.kind, made)
		if made == 0 {
			t.Errorf("%s: none made", h.kind)
		}
		total += made
	}
	if t.Logf("%d harmless edits", total); total < 300 {
		t.Errorf("only %d", total)
	}
}
