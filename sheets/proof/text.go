// Package proof prints what a replay of a program against its plan has found: as
// text of 80 columns in the job's units, and as JSON in SI. It decides nothing;
// post/verify does.
package proof

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"borewright/post/verify"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/sheets/document"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// WriteFindings prints what a replay found, by line, and the verdict.
func WriteFindings(w io.Writer, r verify.Report, name string) {
	for _, f := range r.Findings {
		at := name
		if f.Line > 0 {
			at = fmt.Sprintf("%s:%d:%d", name, f.Line, max(f.Col, 1))
		}
		kind, right := string(f.Kind), "right"
		if f.OtherWay {
			kind, right = "not this tool's way", "taken"
		}
		hung(w, fmt.Sprintf("%s: %s: %s", at, kind, f.What), "    ")
		if f.Want != "" {
			hung(w, "    "+right+": "+f.Want, "           ")
		}
	}
	verdict(w, r, name)
}

func verdict(w io.Writer, r verify.Report, name string) {
	if r.Proven {
		hung(w, fmt.Sprintf("%s: proven: %d cuts, %s of motion", name, len(r.Cuts), qty.Metric.Say(qty.KindMinutes.Of(r.Minutes))), "  ")
		return
	}
	hung(w, name+": NOT PROVEN: "+counted(r), "  ")
}

// counted says how many findings there are, and how many of them are no more than
// another way.
func counted(r verify.Report) string {
	n, other := len(r.Findings), 0
	for _, f := range r.Findings {
		if f.OtherWay {
			other++
		}
	}
	s := fmt.Sprintf("%d findings", n)
	if n == 1 {
		s = "1 finding"
	}
	switch {
	case n > 0 && other == n:
		s += ", not this tool's way"
	case other > 0:
		s += fmt.Sprintf(", %d of them not this tool's way", other)
	}
	return s
}

// WriteText prints the whole report of a program, held against p.Bores[bore] and
// its Visits[visit], in the job's units, at most 80 columns wide.
func WriteText(w io.Writer, r verify.Report, name string, p *plan.Plan, bore, visit int) {
	b, u := &p.Bores[bore], p.Job.Units
	hung(w, fmt.Sprintf("%s held against %s, visit %d of %d: %s", name, b.Station.Name, b.Visits[visit].N, b.Works(), words.In(u).Say(b.Visits[visit].Title)), "  ")
	title := p.Job.Number
	if p.Job.Revision != "" {
		title += ", revision " + p.Job.Revision
	}
	hung(w, title+": "+p.Job.Title, "  ")
	fmt.Fprintf(w, "Lengths in %s; depths from the face that the spindle enters.\n", u.Word())
	hung(w, sums(r), "  ")
	fmt.Fprintf(w, "Check sum of the plan %s.\n", document.Sum(p))
	if len(r.Findings) > 0 {
		fmt.Fprintln(w, "\nWhat was found")
		WriteFindings(w, r, name)
	}
	notHeld(w, r, name)
	unsaid(w, r)
	for _, t := range []struct {
		title string
		table table
	}{
		{"What was cut (" + cutsNote + ")", cuts(r, u)}, {"What is left (" + shapeNote + ")", shape(r, u)}, {"Least room, " + nearestNote, nearest(r, u)},
	} {
		if len(t.table.rows) > 0 {
			fmt.Fprintln(w, "\n"+t.title)
			t.table.write(w)
		}
	}
	fmt.Fprintf(w, "\nTime in motion %s: feed, rapid and dwell. Stops to set and measure are\nnot in it.\n", u.Say(qty.KindMinutes.Of(r.Minutes)))
	fmt.Fprintln(w, "\nTaken for granted")
	for _, s := range r.Assumed {
		hung(w, "- "+s, "  ")
	}
	fmt.Fprintln(w)
	verdict(w, r, name)
}

// sums says whether the program is as it was written.
func sums(r verify.Report) string {
	switch r.Stated {
	case "":
		return "Check sum of this file " + r.Sum + "; it states none."
	case r.Sum:
		return "Check sum of this file " + r.Sum + ", as it was written."
	}
	return "Check sum of the program as written is " + r.Stated + "; this file's is " + r.Sum + ": it was edited after it was written."
}

// notHeld lists remarks that say nothing of the plan.
func notHeld(w io.Writer, r verify.Report, name string) {
	if len(r.NotHeld) == 0 {
		return
	}
	fmt.Fprintln(w, "\nRemarks that are not held: the plan says nothing of the kind. Read them.")
	for _, l := range r.NotHeld {
		hung(w, fmt.Sprintf("%s:%d: %s", name, l.Line, l.Text), "    ")
	}
}

// unsaid lists what the program's remarks leave to the sheet.
func unsaid(w io.Writer, r verify.Report) {
	if len(r.Unsaid) > 0 {
		fmt.Fprintln(w)
		hung(w, "Not said by the program, or not whole; the sheet says it: "+strings.Join(r.Unsaid, ", ")+".", "  ")
	}
}

// What is to be known of the figures of a table.
const (
	cutsNote    = "tip from and to; metal from the mean of the bore as found"
	shapeNote   = "setting less the spring of the plan; the gauge decides"
	nearestNote = "and where the tip stands then"
)

// cuts is the table of what the program cuts.
func cuts(r verify.Report, u qty.Unit) table {
	t := table{head: []string{"line", "pass", "set to", "from", "to", "feed/rev", "rev/min", u.Name(qty.KindVolume) + " off"}}
	total := 0.0
	for _, c := range r.Cuts {
		pass := "none"
		if c.Pass > 0 {
			pass = fmt.Sprint(c.Pass)
		}
		total += c.Removed
		t.row(fmt.Sprint(c.Line), pass, "Ø"+u.Bare(c.Setting), u.Format(c.From), u.Format(c.To),
			u.Format(c.Feed), fmt.Sprintf("%.4g", c.Speed), u.Bare(qty.KindVolume.Of(c.Removed)))
	}
	if len(t.rows) > 0 {
		t.row("", "", "", "", "", "", "in all", u.Bare(qty.KindVolume.Of(total)))
	}
	return t
}

// shape is what every station looks like after the program.
func shape(r verify.Report, u qty.Unit) table {
	t := table{head: []string{"station", "from", "to", "diameter", "limits"}, left: "station limits"}
	for _, s := range r.Shape {
		limits := "not cut here"
		switch {
		case s.High > 0 && s.Within:
			limits = u.SayLimits(s.Low, s.High) + ": within"
		case s.High > 0:
			limits = u.SayLimits(s.Low, s.High) + ": OUTSIDE"
		}
		t.row(short(s.Station, 20), u.Format(s.From), u.Format(s.To), "Ø"+u.Bare(s.Diameter), limits)
	}
	return t
}

// nearest is the least room at each station.
func nearest(r verify.Report, u qty.Unit) table {
	t := table{head: []string{"station", "room", "which way", "of", "tip at", "line"}, left: "station which way of"}
	for _, c := range r.Near {
		way := "radial"
		if c.Along {
			way = "to the closed end"
		}
		t.row(short(c.Station, 20), u.Format(c.Room), way, c.Part, u.Format(c.Depth), fmt.Sprint(c.Line))
	}
	return t
}

// hung prints text wrapped at 78 columns, every line but the first behind
// an indent.
func hung(w io.Writer, text, indent string) {
	lead := text[:len(text)-len(strings.TrimLeft(text, " "))]
	for i, l := range page.Fold(text, 78-max(len(indent), len(lead))) {
		if i == 0 {
			fmt.Fprintln(w, lead+l)
		} else {
			fmt.Fprintln(w, indent+l)
		}
	}
}

// table prints rows under a head, two spaces between columns; numbers to the
// right, the columns whose heads left names to the left.
type table struct {
	head []string
	left string
	rows [][]string
}

// leftward is whether the cells under a head stand to the left.
func (t *table) leftward(head string) bool { return strings.Contains(t.left, head) }

func (t *table) row(cells ...string) { t.rows = append(t.rows, cells) }

func (t *table) write(w io.Writer) {
	rows := append([][]string{t.head}, t.rows...)
	wide := make([]int, len(t.head))
	for _, r := range rows {
		for i, c := range r {
			wide[i] = max(wide[i], utf8.RuneCountInString(c))
		}
	}
	for _, r := range rows {
		line := ""
		for i, c := range r {
			gap := strings.Repeat(" ", wide[i]-utf8.RuneCountInString(c))
			if t.leftward(t.head[i]) {
				line += c + gap + "  "
			} else {
				line += gap + c + "  "
			}
		}
		fmt.Fprintln(w, "  "+strings.TrimRight(line, " "))
	}
}

// short cuts a name to n characters.
func short(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-2]) + ".."
	}
	return s
}
