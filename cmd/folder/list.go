package folder

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"borewright/process/source"
)

// schema names the layout of the list as JSON. Fields are added, never renamed.
const schema = "borewright/jobs/1"

// wide is how wide the text is, in characters.
const wide = 80

// WriteText prints jobs as a table, and below it why files do not read and which entries were not written whole.
func WriteText(w io.Writer, jobs []Job) error {
	rows := [][4]string{{"job", "rev", "stands", "title"}}
	for _, j := range jobs {
		says := j.Says()
		if j.Station != "" && j.Pass > 0 && j.Bores > 1 {
			says += ", " + j.Station
		}
		if a := j.Approval(); a != "" {
			says += ", " + a
		}
		name, title := j.Number, j.Title
		if j.State == NotRead && title == "" {
			title = j.File
		}
		rows = append(rows, [4]string{source.Clip(name, 16), source.Clip(j.Revision, 6), source.Clip(says, 44), source.Clip(title, wide)})
	}
	var most [3]int
	for _, r := range rows {
		for i := range most {
			most[i] = max(most[i], utf8.RuneCountInString(r[i]))
		}
	}
	var b strings.Builder
	line := func(r [4]string) {
		at := 0
		for i, n := range most {
			b.WriteString(pad(r[i], n) + "  ")
			at += n + 2
		}
		b.WriteString(source.Clip(r[3], max(wide-at, 12)))
		b.WriteString("\n")
	}
	text := func() string {
		var out strings.Builder
		for l := range strings.Lines(b.String()) {
			out.WriteString(strings.TrimRight(l, " \n") + "\n")
		}
		return out.String()
	}
	line(rows[0])
	line([4]string{strings.Repeat("-", most[0]), strings.Repeat("-", most[1]), strings.Repeat("-", most[2]), strings.Repeat("-", 5)})
	for _, r := range rows[1:] {
		line(r)
	}
	b.WriteString("\n" + source.CountOf(len(jobs), "job") + counted(jobs) + ".\n")
	for _, j := range jobs {
		if j.State == NotRead {
			b.WriteString(j.Problem + "\n")
		}
		for _, said := range j.Torn {
			b.WriteString(said + "\n")
		}
	}
	_, err := io.WriteString(w, text())
	return err
}

func pad(s string, n int) string {
	return s + strings.Repeat(" ", max(0, n-utf8.RuneCountInString(s)))
}

// counted says how many stand where, as ": 3 planned, 1 held".
func counted(jobs []Job) string {
	n := map[State]int{}
	for _, j := range jobs {
		n[j.State]++
	}
	var all []string
	for _, s := range []State{NotRead, Out, Held, Cut, Changed, Planned, NotPlanned, Finished} {
		if n[s] > 0 {
			word := string(s)
			if s == NotRead && n[s] > 1 {
				word = "do not read"
			}
			all = append(all, fmt.Sprintf("%d %s", n[s], word))
		}
	}
	if len(all) == 0 {
		return ""
	}
	return ": " + strings.Join(all, ", ")
}

// listed is a job in the list as JSON.
type listed struct {
	File     string   `json:"file"`
	Number   string   `json:"job"`
	Revision string   `json:"revision"`
	Title    string   `json:"title"`
	State    State    `json:"stands"`
	Says     string   `json:"says"`
	Station  string   `json:"station,omitempty"`
	Pass     int      `json:"pass,omitempty"`
	Passes   int      `json:"passes,omitempty"`
	Done     int      `json:"bores_finished,omitempty"`
	Problem  string   `json:"problem,omitempty"`
	Torn     []string `json:"not_whole,omitempty"`
	Approved string   `json:"approved_by,omitempty"`
	Lapsed   bool     `json:"approval_lapsed,omitempty"`
}

// WriteJSON prints jobs as JSON.
func WriteJSON(w io.Writer, jobs []Job) error {
	doc := struct {
		Schema string   `json:"schema"`
		Jobs   []listed `json:"jobs"`
	}{schema, []listed{}}
	for _, j := range jobs {
		doc.Jobs = append(doc.Jobs, listed{j.File, j.Number, j.Revision, j.Title, j.State, j.Says(), j.Station, j.Pass, j.Passes, j.Done, j.Problem, j.Torn, j.Approved, j.Lapsed})
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(doc)
}
