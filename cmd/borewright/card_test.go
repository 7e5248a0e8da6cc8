package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"borewright/cmd/browser"
	"borewright/cmd/jobfile"
	"borewright/process/onebyone"
	"borewright/process/plan"
	"borewright/process/slow"
)

// The cards of every example, as poppler reads them: one page each on both papers, every
// figure between the heads in 14 points or more, and of each pass what is set, the gauge's
// window and the stop. Each visit begins with its first card and says how many it has.
func TestCards(t *testing.T) {
	browser.Program(t, "words and their places", "pdftotext")
	t.Chdir("../..")
	for _, e := range examples[:slow.Rounds(t, "examples on both papers", len(examples), 1)] {
		job := filepath.Join("testdata", "jobs", e.job)
		j, err := jobfile.Load(job)
		if err != nil {
			t.Fatal(err)
		}
		p := plan.Make(j)
		for _, paper := range []string{"a4", "letter"} {
			var out, errs bytes.Buffer
			if code := run([]string{"sheet", job, "--only", "card", "--pdf", "--paper", paper}, strings.NewReader(""), &out, &errs); code != exitDone {
				t.Fatal(errs.String())
			}
			pdf := filepath.Join(t.TempDir(), "card.pdf")
			if err := os.WriteFile(pdf, out.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
			pages := readPaper(t, pdf)
			var all, rows []string
			for n := range pages {
				pageIsSound(t, n+1, &pages[n])
				text := ""
				for _, w := range pages[n].words {
					text += w.s + " "
					if w.base > head+12 && w.base < foot && regexp.MustCompile(`^[+Ø-]?\d`).MatchString(w.s) && w.size > 0 && w.size < 13.5 {
						t.Errorf("%s on %s, card %d: %q is set in %.1f points", e.job, paper, n+1, w.s, w.size)
					}
				}
				if !strings.Contains(text, " Land ") && !strings.Contains(text, " Leave ") {
					t.Errorf("%s on %s: page %d is no card: %s", e.job, paper, n+1, text)
				}
				for _, l := range pages[n].lines() {
					rows = append(rows, l.s)
				}
				all = append(all, text)
			}
			flat, cards := strings.Join(all, " "), 0
			for _, x := range p.Bores {
				for _, v := range x.Visits {
					if v.Leads(x.Station.Name) { // bores of one setting have one card
						cards++
					}
					for _, q := range v.Passes {
						set, window := q.Kind.String()+p.Job.Units.Bare(q.Setting), p.Job.Units.Bare(q.Low)+p.Job.Units.Bare(q.High)
						one := len(v.Together) == 0 // else the bores have rows of their own, under that of the pass
						if one && !slices.ContainsFunc(rows, func(r string) bool { return strings.Contains(r, set) && strings.Contains(r, window) }) ||
							!one && (!strings.Contains(strings.Join(rows, "\n"), set) || !slices.Contains(rows, strings.ReplaceAll(x.Station.Name, " ", "")+window)) {
							t.Errorf("%s on %s: no row of pass %d, %q and %q", e.job, paper, q.N, set, window)
						}
					}
					stop := "STOP the feed at " + p.Job.Units.Format(v.End)
					if len(v.Together) > 0 {
						stop = " to " + p.Job.Units.Bare(v.End)
					}
					if !strings.Contains(flat, stop) {
						t.Errorf("%s on %s: no %q", e.job, paper, stop)
					}
				}
			}
			if more := strings.Count(flat, "card 2 of "); len(pages) != cards+more {
				t.Errorf("%s on %s: %d pages for %d visits, of which %d say that they go on", e.job, paper, len(pages), cards, more)
			}
		}
	}
}

// The sag of the bar is set once: where the work was swept, the moves of the line-up have
// it in them, and the card does not ask for it again.
func TestSagIsSetOnce(t *testing.T) {
	for job, want := range map[string]string{
		"lock-winch/manual.toml": "hangs 0.0006 in at the cutter: the line-up allows for it",
		"ferry-ramp/job.toml":    "hangs 0.0008 in at the cutter: the line-up allows for it",
	} {
		var out, errs bytes.Buffer
		if code := run([]string{"sheet", "--only", "card", filepath.Join("..", "..", "testdata", "jobs", filepath.FromSlash(job))}, strings.NewReader(""), &out, &errs); code != exitDone {
			t.Fatal(errs.String())
		}
		text := strings.Join(strings.Fields(out.String()), " ")
		if !strings.Contains(text, want) || strings.Contains(text, "set the spindle that much high") {
			t.Errorf("%s:\n%s", job, out.String())
		}
	}
}

// The operator's part of the main example as text: no more words than a man reads before a job.
func TestSheetIsShort(t *testing.T) {
	var out, errs bytes.Buffer
	if code := run([]string{"sheet", filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml")}, strings.NewReader(""), &out, &errs); code != exitDone {
		t.Fatal(errs.String())
	}
	if n := len(strings.Fields(out.String())); n > 2120 {
		t.Errorf("%d words, 2120 at the most", n)
	}
}

// A cutter that does not come straight in: the card says how, before anything is set.
func TestCardSaysTheWayIn(t *testing.T) {
	for job, want := range map[string]string{
		"slip-winch/job.toml": "by program: tip to 3 o'clock, bar 8 mm off its axis until the tip is at 93.000 mm",
		"ferry-ramp/job.toml": "the cutter goes into the bar inside, with the tip at 7.8750 in, and comes out of it there",
		"lock-winch/job.toml": "",
	} {
		data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", filepath.FromSlash(job)))
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "job.toml")
		if err := os.WriteFile(path, []byte(onebyone.Of(string(data))), 0o666); err != nil {
			t.Fatal(err)
		}
		code, out, errs := call("sheet", "--only", "card", path)
		text := strings.Join(strings.Fields(out), " ")
		if code != exitDone || want == "" && strings.Contains(text, " In ") || !strings.Contains(text, want) {
			t.Errorf("%s: %d %s\n%s", job, code, errs, out)
		}
	}
}

// A visit of more passes than one side of paper holds has more cards: each says which of how
// many it is, and each pass stands on one of them.
func TestVisitOfSeveralCards(t *testing.T) {
	browser.Program(t, "words and their places", "pdftotext")
	data, err := os.ReadFile("../../testdata/jobs/tide-pump/job.toml")
	if err != nil {
		t.Fatal(err)
	}
	job := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(job, append(data, "\n[limits]\ndepth_most = 0.4\n"...), 0o666); err != nil {
		t.Fatal(err)
	}
	code, out, errs := call("sheet", job, "--only", "card", "--pdf")
	if code != exitDone {
		t.Fatal(errs)
	}
	pdf := filepath.Join(t.TempDir(), "card.pdf")
	if err := os.WriteFile(pdf, []byte(out), 0o666); err != nil {
		t.Fatal(err)
	}
	pages, stands := readPaper(t, pdf), map[int]int{}
	for n := range pages {
		pageIsSound(t, n+1, &pages[n])
		all := ""
		for _, l := range pages[n].lines() {
			all += l.s
			if m := regexp.MustCompile(`^(\d+)(witness|rough|semi-finish|finish|spring)`).FindStringSubmatch(l.s); m != nil {
				k, _ := strconv.Atoi(m[1])
				stands[k]++
			}
		}
		if want := fmt.Sprintf("card%dof", n+1); n < len(pages)-1 && !strings.Contains(all, want) { // the last is of the visit to the sleeve
			t.Errorf("page %d does not say %q: %s", n+1, want, all)
		}
	}
	j, err := jobfile.Load(job)
	if err != nil {
		t.Fatal(err)
	}
	last := plan.Make(j).Bores[0].Visits[1].Passes
	for k := 1; k <= last[len(last)-1].N; k++ {
		if stands[k] != 1 {
			t.Errorf("pass %d stands on %d cards", k, stands[k])
		}
	}
	if len(pages) < 4 {
		t.Errorf("only %d pages", len(pages))
	}
}
