package verify

import (
	"bytes"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/post/verify/through"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// styles are programs for planMM as other hands would write them, by what is different
// about them: testdata/verify/styles. found is the kind of the first finding where the
// program is not proven, and a word of it.
var styles = []struct{ file, found, word string }{
	{"close-set.nc", "", ""}, {"all-decimals.nc", "", ""}, {"tape.nc", "", ""}, {"other-order.nc", "", ""},
	{"modal.nc", "", ""}, {"tabs.nc", "", ""}, {"all-the-trimmings.nc", "", ""},
	{"small-letters.nc", "syntax", "lower case"}, {"semicolons.nc", "syntax", "comments in parentheses"},
	{"feed-a-turn.nc", "syntax", "G95"}, {"inch-words.nc", "syntax", "4 decimals"}, {"whole-figures.nc", "syntax", "no decimal point"},
	{"tool-and-home.nc", "code", "G28"}, {"increments.nc", "code", "G91"}, {"parameters.nc", "syntax", ":"},
	{"cycles.nc", "syntax", "G98"}, {"out-of-the-way.nc", "syntax", "G92"}, {"in-few-words.nc", "stop", "does not say to set the cutter"},
	{"both-slides.nc", "code", "W moves the slide that stands still"}, {"skipped-blocks.nc", "code", "can skip"},
	{"few-numbers.nc", "", ""}, {"joined-blocks.nc", "", ""}, {"leading-zeros.nc", "", ""}, {"remarks-between.nc", "", ""},
	{"bare.nc", "syntax", "does not begin with %"}, {"carriage-returns.nc", "syntax", "ends in CR"}, {"decimal-commas.nc", "syntax", "no decimal point"},
	{"dwells.nc", "syntax", "G4 without P"}, {"editor-marks.nc", "syntax", "byte-order mark"}, {"end-marks.nc", "syntax", "comments in parentheses"},
	{"line-sums.nc", "syntax", "\"*\""}, {"notes-outside.nc", "syntax", "does not begin with %"}, {"remark-open.nc", "syntax", "does not close"},
	{"remarks-nested.nc", "syntax", "( inside a comment"}, {"rub-outs.nc", "syntax", "no control characters"}, {"spaces-inside.nc", "syntax", "G4 without P"},
	{"spindle-with-coolant.nc", "code", "M13 has no use"}, {"stop-by-angle.nc", "syntax", "R0. has no use"}, {"subprogram.nc", "code", "M98 has no use"},
	{"two-in-one.nc", "syntax", "text after the closing %"}, {"word-by-line.nc", "feed", "feeds without a feed"},
}

func TestManyHands(t *testing.T) {
	names, err := filepath.Glob("../../testdata/verify/styles/*.nc")
	if err != nil || len(names) != len(styles) {
		t.Errorf("%d files, %d rows: %v", len(names), len(styles), err)
	}
	for _, s := range styles {
		r := Check(program(t, "styles/"+s.file), s.file, planMM(), 0, 0)
		switch {
		case s.found == "" && !r.Proven:
			t.Errorf("%s: %s", s.file, said(r.Findings[0]))
		case s.found == "":
		case r.Proven:
			t.Errorf("%s is proven", s.file)
		case string(r.Findings[0].Kind) != s.found || !strings.Contains(said(r.Findings[0]), s.word):
			t.Errorf("%s: %s", s.file, said(r.Findings[0]))
		}
	}
	if r := Check(program(t, "styles/skipped-blocks.nc"), "", springMM(), 0, 0); !r.Proven {
		t.Errorf("where the control has the spring pass once more: %s", said(r.Findings[0]))
	}
	p := planMM()
	p.Job.Machine.Control.LowerCase = true
	if r := Check(program(t, "styles/small-letters.nc"), "", p, 0, 0); !r.Proven {
		t.Errorf("where the control takes small letters: %s", said(r.Findings[0]))
	}
}

// springMM is planMM with a spring pass last, which its control holds once more.
func springMM() *plan.Plan {
	p := planMM()
	p.Job.Machine.Control.SpringAgain = '/'
	all := p.Bores[0].Visits[0].Passes
	last := &all[len(all)-1]
	if last.Kind = schedule.Spring; last.Hold == nil {
		last.Hold = &schedule.Hold{}
	}
	return p
}

// core is the essence of a story without the dwells in front of the face.
func core(told []happening, p *plan.Plan, far qty.Length) []happening {
	letter, deep := byte(p.Job.FeedLetter()), false
	told = slices.DeleteFunc(slices.Clone(told), func(h happening) bool {
		if h.kind == rs274.Move {
			deep = h.to.Known&(rs274.Z|rs274.W) != 0 && h.to.Linear(letter) <= 0
		}
		return h.kind == rs274.Dwell && !deep
	})
	return essence(told, p.Job.Machine.Control, letter, far)
}

// FuzzCheck: any bytes may be a program. The report agrees with itself, and a program
// that is proven does at the machine what the program written by hand does, as another
// reading of its replay tells (story, essence).
func FuzzCheck(f *testing.F) {
	type subject struct {
		p     *plan.Plan
		d     rs274.Dialect
		far   qty.Length
		wants []happening
	}
	var all []subject
	for i, g := range good {
		for small := range 2 { // the control takes no small letters, or does
			p := g.plan()
			p.Job.Machine.Control.LowerCase = small == 1
			d := script.Dialect(p.Job.Machine.Control)
			far := alone(p).handsLevel()
			told, _ := story(program(f, g.file), d)
			all = append(all, subject{p, d, far, core(told, p, far)})
			f.Add(program(f, g.file), byte(2*i+small))
		}
	}
	words := planMM() // of a control with every word of its own; nothing by hand to hold it against
	c := words.Job.Machine.Control
	c.RestartStep, c.Tool, c.LengthOffset, c.Coolant, c.Gears = 1000, 7, 9, 8, []process.GearRange{{Word: 41, Least: 1, Most: 200}}
	c.HomeWord, c.HomeAxes, c.HomeAt = 53, []process.HomeAxis{process.HomeFeed, process.HomeX}, []qty.Length{0, mm(9)}
	f.Add([]byte("G17 G21 G40 G49 G90 G94\nG53 G0 Z0.\nG53 G0 X9.\nT7 M6\nN1000 M9\nM5\nM0\nG43 H9\nM41\nS150 M3\nG0 Z60.\nX0. Y0.\nG0 Z-365.\nM8\nG1 Z-431.5 F30.\nG28 Z60.\nG49\nM30\n"), byte(len(all)))
	c.OtherSlide, c.TableWord = process.OtherPlaced, 'B'
	all = append(all, subject{p: words, d: script.Dialect(c)})
	again := springMM() // a spring pass once more, held with block delete on
	d, far := script.Dialect(again.Job.Machine.Control), alone(again).handsLevel()
	d.DeleteOn = true
	told, _ := story(program(f, "styles/skipped-blocks.nc"), d)
	f.Add(program(f, "styles/skipped-blocks.nc"), byte(len(all)))
	all = append(all, subject{again, d, far, core(told, again, far)})
	for _, s := range styles {
		f.Add(program(f, "styles/"+s.file), byte(0))
		f.Add(program(f, "styles/"+s.file), byte(1))
	}
	f.Fuzz(func(t *testing.T, text []byte, which byte) {
		s := &all[int(which)%len(all)]
		r := Check(text, "", s.p, 0, 0)
		if r.Proven != (len(r.Findings) == 0) {
			t.Error("proven and findings disagree")
		}
		lines := bytes.Count(text, []byte("\n")) + bytes.Count(text, []byte("\r")) + 1
		for _, x := range r.Findings {
			if x.Line < 0 || x.Line > lines || x.What == "" || x.Want == "" {
				t.Errorf("%+v of %d lines", x, lines)
			}
		}
		if !r.Proven || s.wants == nil {
			return
		}
		told, faults := story(text, s.d)
		if faults > 0 {
			t.Errorf("proven with %d faults", faults)
		}
		does := core(told, s.p, s.far)
		for i := range max(len(does), len(s.wants)) {
			if i >= len(does) || i >= len(s.wants) || does[i] != s.wants[i] {
				t.Fatalf("proven, and from the happening %d of %d on it does\n%+v\nnot\n%+v", i+1, len(does), does[min(i, len(does)):], s.wants[min(i, len(s.wants)):])
			}
		}
	})
}

// alone follows a program of the first visit.
func alone(p *plan.Plan) *follower {
	bores, _ := through.Bores(p, 0, 0)
	return newFollower(p, bores, through.Whole(bores), &script.Findings{})
}
