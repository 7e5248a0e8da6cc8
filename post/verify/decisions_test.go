package verify

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"borewright/post"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/onebyone"
	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/process/slow"
	spoken "borewright/sheets/words"
)

// What the planner decides for the control, and what writer and verifier then
// rely on.

// Without an oriented stop, or with a bar that an outboard bearing holds, the
// cutter feeds out: no shift is planned, none is written, and one that somebody
// adds is found.
func TestShiftNeedsAnOrientedStop(t *testing.T) {
	const without = "oriented_stop = false\nfeed_axis = \"Z\"\nquill_axis = \"W\""
	for _, v := range someVariants(t) {
		for _, c := range []struct {
			control string
			has     bool
		}{{without, false}, {"", true}} {
			p := planned(t, v.text(t), "cnc-110mm", c.control)
			for b := range p.Bores {
				for k := range p.Bores[b].Visits {
					shift := p.Bores[b].Visits[k].Shift()
					want := c.has && p.Job.Bar.Outboard == nil
					if shift > 0 != want {
						t.Errorf("%s, oriented stop %v: shift %v", v.name, c.has, shift)
					}
					var out bytes.Buffer
					if err := post.Write(&out, p, b, k); err != nil {
						t.Error(err)
					}
					if got := strings.Contains(out.String(), "M19"); got != want {
						t.Errorf("%s: M19 written: %v", v.name, got)
					}
				}
			}
		}
	}
}

// By quill alone the tip must come 50 mm out of the work; a job that does not
// let it is not planned, and one that just does is written and proven.
func TestQuillMustLetTheTipOut(t *testing.T) {
	job := started(0, `feed_by  = "table"`, "feed_by  = \"quill\"\nstandoff = 290")(t)
	for _, c := range []struct {
		standoff string
		feasible bool
	}{{"290", true}, {"289.9", false}, {"260", false}, {"340", true}} {
		p := planned(t, strings.Replace(job, "standoff = 290", "standoff = "+c.standoff, 1), "cnc-110mm", "")
		if p.Feasible != c.feasible {
			t.Errorf("standoff %s: feasible %v: %v", c.standoff, p.Feasible, p.Reasons)
			continue
		}
		out, err := tripped(p, 0, 0)
		if c.feasible {
			if err != nil {
				t.Errorf("standoff %s: %v\n%s", c.standoff, err, out)
			}
			continue
		}
		if r := p.Reasons[0]; !strings.Contains(r.Where, "job.toml:") || !strings.Contains(spoken.In(p.Job.Units).Say(r.What), "state a standoff of 290.000 mm or more, or feed by the table") {
			t.Errorf("standoff %s: %+v", c.standoff, r)
		}
		if err == nil || !strings.Contains(err.Error(), "standoff") {
			t.Errorf("standoff %s: a program for a plan without one: %v", c.standoff, err)
		}
	}
}

// A cutter that is put in when the bar stands in the work is work by the sheet:
// planned on a mill without control only, never written, never proven.
func TestCutterSetInside(t *testing.T) {
	ramp := onebyone.Of(shipped("ferry-ramp/job.toml")(t))
	p := planned(t, ramp, "hbm-5in", "")
	inside := 0
	all := files.Machines()
	control := all[slices.IndexFunc(all, func(m *process.Machine) bool { return m.ID == "cnc-110mm" })].Control
	byHand := *p.Job.Machine
	for b := range p.Bores {
		for k := range p.Bores[b].Visits {
			if !p.Bores[b].Visits[k].SetInside {
				continue
			}
			inside++
			machine := byHand
			machine.Control = control // as if somebody had given it one since
			p.Job.Machine = &machine
			var out bytes.Buffer
			var no *post.Refusal
			err := post.Write(&out, p, b, k)
			if !errors.As(err, &no) || out.Len() > 0 || !strings.Contains(err.Error(), "work for hands, by the sheet") || !strings.Contains(err.Error(), p.Bores[b].Station.Name) {
				t.Errorf("%v, %d bytes", err, out.Len())
			}
			r := Check([]byte("G0 Z50.\nM30\n"), "x.nc", p, b, k)
			if r.Proven || len(r.Findings) != 1 || r.Findings[0].Kind != script.KindPlan || !strings.Contains(r.Findings[0].What, "inside the work, by hand") {
				t.Errorf("%+v", r.Findings)
			}
			p.Job.Machine = &byHand
		}
	}
	if inside == 0 {
		t.Error("no visit of the ramp has its cutter put in inside any more: the test shows nothing")
	}
	q := planned(t, ramp, "cnc-110mm", "")
	var why string
	for _, r := range q.Reasons {
		why += spoken.In(q.Job.Units).Say(r.What) + "\n"
	}
	if q.Feasible || !strings.Contains(why, "which is work for the sheet and not for a program") {
		t.Errorf("on a mill with a control: feasible %v\n%s", q.Feasible, why)
	}
}

// texts that would be code, end a program or hide what it says, if they could.
// The loader lets none of them through longer than a name may be; a plan made
// in another way may hold them.
var texts = []struct{ why, text string }{
	{"parentheses", "idler) G0 Z-99. M0 ("}, {"many parentheses", strings.Repeat(")(", 60)}, {"percent", "%"}, {"percent on its line", "\n%\n"},
	{"line feed", "a\nG0 Z-99.\nb"}, {"carriage return", "a\rM30\r"}, {"next line, line separator", "a\u0085M30\u2028M30\u2029M30"},
	{"control characters", "\x00\x1b[2J\x07\x7f\x9b31m"}, {"right-to-left marks", "\u202eG0 Z-99.\u202c\u200f\u2066"},
	{"an active comment", "MSG, G0 Z-99."}, {"block delete", "/N10 G0 Z-99."}, {"parameters", "#100=[5];"}, {"not UTF-8", "\xff\xfeG0"},
	{"10 kB", strings.Repeat("x", 10_000)}, {"10 kB of words", strings.Repeat("G0 Z-99. ", 1200)}, {"10 kB of two-byte letters", strings.Repeat("Ø", 5_000)},
	{"nothing", ""},
}

// Whatever the texts of a plan say, the words of its program are the same to
// the byte, and it is proven.
func TestTextIsNeverCode(t *testing.T) {
	words := func(program string) (out []string) {
		for l := range strings.Lines(program) {
			if l[0] != '(' {
				out = append(out, l)
			}
		}
		return out
	}
	few := slow.Rounds(t, "texts", len(texts), 3)
	for i := range few {
		c := texts[i*len(texts)/few]
		t.Run(c.why, func(t *testing.T) {
			p := planned(t, variants[0].text(t), "cnc-110mm", "")
			for k := range p.Bores[0].Visits {
				var clean, dirty bytes.Buffer
				if err := post.Write(&clean, p, 0, k); err != nil {
					t.Fatal(err)
				}
				say(p, k, c.text)
				if err := post.Write(&dirty, p, 0, k); err != nil {
					t.Fatal(err)
				}
				if a, b := fmt.Sprint(words(clean.String())), fmt.Sprint(words(dirty.String())); a != b {
					t.Errorf("the words have changed:\n%s\n%s", a, b)
				}
				if out, err := tripped(p, 0, k); err != nil && !strings.HasPrefix(err.Error(), "taken for") {
					t.Errorf("%v\n%.2000s", err, out)
				}
				for i, l := range strings.Split(dirty.String(), "\n") {
					if len(l) > 80 || strings.ContainsFunc(l, func(r rune) bool { return r < ' ' || r > '~' }) {
						t.Errorf("line %d: %q", i+1, l)
					}
				}
				if dirty.Len() > 60_000 {
					t.Errorf("a program of %d bytes", dirty.Len())
				}
			}
		})
	}
}

// say puts a text into every text of a visit that a program prints.
func say(p *plan.Plan, visit int, s string) {
	j, v := p.Job, &p.Bores[0].Visits[visit]
	machine := *j.Machine
	machine.Name = s
	j.Machine = &machine
	j.Number, j.Revision, j.Title, j.Customer, j.Bar.Name = s, s, s, s, s
	p.Cautions = append(p.Cautions, fact.AsWritten(s))
	p.Bores[0].Station.Name, v.Title, v.Limits.Fit = s, fact.AsWritten(s), s
	v.Before, v.After = append(v.Before, fact.AsWritten(s)), append(v.After, fact.AsWritten(s))
	for i := range v.Passes {
		v.Passes[i].Out.Why = fact.AsWritten(s)
		if h := v.Passes[i].Hold; h != nil {
			v.Passes[i].Hold = &schedule.Hold{Measure: append([]fact.Fact{fact.AsWritten(s)}, h.Measure...), Then: fact.AsWritten(s)}
		}
	}
}

// Through the job file: each text is refused at its line, or harmless.
func TestTextOfAJobFile(t *testing.T) {
	job := variants[0].text(t)
	clean := planned(t, job, "cnc-110mm", "")
	var want bytes.Buffer
	if err := post.Write(&want, clean, 0, 0); err != nil {
		t.Fatal(err)
	}
	refused, taken, every := 0, 0, slow.Rounds(t, "is the step from text to text", 1, 6)
	for n, c := range texts {
		if n%every != 0 {
			continue
		}
		for _, key := range []string{"number", "revision", "title"} {
			var lines []string
			for l := range strings.Lines(job) {
				if strings.HasPrefix(l, key+" ") {
					l = fmt.Sprintf("%s = %s\n", key, quote(c.text))
				}
				lines = append(lines, l)
			}
			j, err := files.Job("job.toml", []byte(strings.Join(lines, "")), nil)
			if err != nil {
				if !strings.Contains(err.Error(), "job.toml:") || len(err.Error()) > 2000 {
					t.Errorf("%s in %s: %.300v", c.why, key, err)
				}
				refused++
				continue
			}
			taken++
			if len(c.text) > 1000 {
				t.Errorf("%s is taken as %s", c.why, key)
			}
			if out, err := tripped(plan.Make(j), 0, 0); err != nil {
				t.Errorf("%s in %s: %v\n%.2000s", c.why, key, err, out)
			}
		}
	}
	if t.Logf("%d texts refused, %d taken and harmless", refused, taken); refused == 0 || taken == 0 {
		t.Error("the test shows one side only")
	}
}

// quote is a TOML basic string, byte for byte where TOML has no escape.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			fmt.Fprintf(&b, "\\%c", r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, "\\u%04x", r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
