package entry_test

import (
	"bufio"
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"borewright/process"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/process/warm"
	"borewright/sheets"
	"borewright/sheets/entry"
	"borewright/sheets/talk"
)

var clock = time.Date(2026, 3, 2, 14, 20, 0, 0, time.UTC)

func winch(t *testing.T) (*process.Job, *plan.Plan) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "lock-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	job, err := files.Job("job.toml", data, nil)
	if err != nil {
		t.Fatal(err)
	}
	return job, plan.Make(job)
}

// script answers each question by its first words; what has several answers gives one each
// time, and what has none gives an empty line.
type script struct {
	answers map[string][]string
	asked   bytes.Buffer
	pending []byte
	t       *testing.T
	seen    int
}

func (s *script) Write(b []byte) (int, error) { return s.asked.Write(b) }

func (s *script) Read(b []byte) (int, error) {
	if len(s.pending) == 0 {
		lines := strings.Split(s.asked.String(), "\n")
		prompt := strings.TrimSpace(lines[len(lines)-1])
		if s.seen++; s.seen > 200 {
			s.t.Fatalf("it asks for ever:\n%s", s.asked.String())
		}
		answer := ""
		for start, list := range s.answers {
			if strings.HasPrefix(prompt, start) && len(list) > 0 {
				answer, s.answers[start] = list[0], list[1:]
			}
		}
		s.asked.WriteString(answer + "\n") // as a terminal shows it
		s.pending = []byte(answer + "\n")
	}
	n := copy(b, s.pending[:1])
	s.pending = s.pending[1:]
	return n, nil
}

func tell(t *testing.T, job *process.Job, p *plan.Plan, answers map[string][]string) (process.Measured, string, error) {
	t.Helper()
	s := &script{answers: answers, t: t}
	var g entry.Given
	k := &entry.Talk{Person: talk.Person{In: bufio.NewReaderSize(s, 16), Out: s}, Now: clock}
	if err := k.Ask(job, p, &g); err != nil {
		return process.Measured{}, s.asked.String(), err
	}
	m, err := g.Entry(job, p, clock)
	return m, s.asked.String(), err
}

// A person answers all, wrongly at first: each wrong answer is told at once and asked for
// again, and what was answered before stays.
func TestEachAnswerIsCheckedAsItIsGiven(t *testing.T) {
	job, p := winch(t)
	q := semi(p)
	right := fmt.Sprintf("%.4f", q.Expected.MM()/25.4)
	swapped := []byte(right)
	swapped[3], swapped[4] = swapped[4], swapped[3]
	m, said, err := tell(t, job, p, map[string][]string{
		"After which pass":        {"seven", "99", "?", fmt.Sprint(q.N)},
		"Enter it all the same":   {"yes", "no"}, // out of order; the swapped digits
		"Cutter was set to":       {"wide", ""},
		"near end, 12 - 6":        {"3.4 furlongs", fmt.Sprintf("%.3f", q.Expected.MM()), string(swapped), right},
		"far end, 4:30":           {right},
		"another":                 {"99@3=" + right, "14.6@13=" + right, ""},
		"Temperature of the work": {"hot", "200", "79.5"},
		"Temperature of gauge":    {"20 C"},
		"Gauge, by":               {"BG-3"},
		"Master, by":              {"<", "ring 2"}, // back to the gauge, which is kept
		"Measured by":             {"second shift"},
		"When":                    {"25:99", "13:05"},
		"Remark":                  {"a pore at 4 o'clock"},
	})
	if err != nil {
		t.Fatalf("%v\n%s", err, said)
	}
	for _, want := range []string{`"seven" is not the number of a pass`, "there is no pass 99", "by its number on the sheet", "is out of order", `"wide"`, "furlongs",
		"cannot be", "two digits changed places? It would be " + right + " in", "is outside of", `"13" is not a clock position`, `"hot" is not a temperature`, `"200" is out of range`,
		"Gauge, by its mark [BG-3]", `"25:99" is not a time`} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q", want)
		}
	}
	if m.Pass != q.N || len(m.Sizes) != 2 || m.Sizes[0].Diameter != m.Sizes[1].Diameter || m.Sizes[1].At != 135 || m.Sizes[1].Depth != job.Stations[m.Station].To {
		t.Errorf("%+v", m)
	}
	if got := fmt.Sprintf("%.4f", m.Sizes[0].Diameter.MM()/25.4); got != right {
		t.Errorf("%s was meant, %s is entered", right, got)
	}
	for _, row := range [][2]string{{"2nd shift", "2nd shift"}, {"2026-03-01T08:05", "2026-03-01 08:05"}, {"night shift", "night shift"}, {"12.11.2026", ""}, {"2026-13-01 08:05", ""}} {
		if m, err := (&entry.Given{Sizes: []string{right}, Pass: q.N, When: row[0]}).Entry(job, p, clock); m.When != row[1] || err == nil != (row[1] != "") {
			t.Errorf("%q is kept as %q: %v", row[0], m.When, err)
		}
	}
	if m.Gauge != "BG-3" || m.Master != "ring 2" || m.By != "second shift" || m.When != "2026-03-02 13:05" || m.Remark != "a pore at 4 o'clock" ||
		m.GaugeTemp.Celsius() != 20 || fmt.Sprintf("%.3f", m.WorkTemp.Celsius()) != "26.389" {
		t.Errorf("%+v", m)
	}
	if t.Failed() {
		t.Log(said)
	}
}

// The clock's time is entered where no other is given, and nothing is asked for twice that was
// given before.
func TestStampedByTheClock(t *testing.T) {
	job, p := winch(t)
	m, said, err := tell(t, job, p, map[string][]string{"in the band, 12": {"3.1660"}, "Where round": {"12, 6"}, "And where not": {"12", "3"}})
	if !strings.Contains(said, "12 o'clock is said to be marked and to be bare") {
		t.Errorf("marked and bare at once is taken:\n%s", said)
	}
	if err != nil || m.When != "2026-03-02 14:20" || len(m.Sizes) != 1 || len(m.Marked) != 2 || len(m.Bare) != 1 {
		t.Errorf("%v: %+v\n%s", err, m, said)
	}
	g := entry.Given{Sizes: []string{"3.1660"}, Pass: 1, When: "2026-03-01", By: "x", WorkTemp: "68", GaugeTemp: "68"}
	if m, err := g.Entry(job, p, clock); err != nil || m.When != "2026-03-01" || !warm.AtReference(m) {
		t.Errorf("%v: %+v", err, m)
	}
}

// As many sizes are asked for as the form of the printed sheet has places for.
func TestAsksForWhatTheSheetHas(t *testing.T) {
	job, p := winch(t)
	var text bytes.Buffer
	if err := sheets.Build(p).WriteText(&text); err != nil {
		t.Fatal(err)
	}
	for _, n := range []int{1, semi(p).N} {
		_, forms, _ := strings.Cut(text.String(), "Hold points: ")
		_, form, _ := strings.Cut(forms, fmt.Sprintf("HOLD after %d (", n))
		form, _, _ = strings.Cut(form, "HOLD after")
		form, _, _ = strings.Cut(form, "\n\n")
		boxes := 0
		for line := range strings.Lines(form) {
			if strings.HasPrefix(line, "near") || strings.HasPrefix(line, "middle") || strings.HasPrefix(line, "far") || strings.HasPrefix(line, "in the band") {
				boxes += len(strings.Fields(line[strings.Index(line, "__"):]))
			}
		}
		if boxes == 0 {
			t.Fatalf("pass %d has no form:\n%s", n, form)
		}
		_, said, err := tell(t, job, p, map[string][]string{"After which": {fmt.Sprint(n)}, "Enter it": {"yes", "yes"}, "another": {"3.1660"}})
		if err != nil {
			t.Fatal(err)
		}
		if asked := strings.Count(said, "o'clock:"); asked != boxes {
			t.Errorf("pass %d: %d sizes are asked for, the sheet has %d boxes\n%s", n, asked, boxes, said)
		}
	}
}

func semi(p *plan.Plan) schedule.Pass {
	for _, q := range p.Bores[0].Visits[0].Passes {
		if q.Kind == schedule.SemiFinish {
			return q
		}
	}
	panic("no semi-finish")
}
