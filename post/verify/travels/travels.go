// Package travels holds how far a program sends each slide against what the machine has.
// Where a slide's zero lies within its travel nobody but the operator knows, so that of a
// slide only the way from end to end is judged, and of the quill how far it stands out.
package travels

import (
	"fmt"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/qty"
)

// Ways are those of the slides, by letter.
type Ways map[byte]*way

// way is how far a slide goes, and at which lines it is furthest.
type way struct {
	least, most     qty.Length
	leastAt, mostAt int
}

// Goes notes where the slides stand after a move in a line. feed is the letter and the
// axis of the slide that feeds.
func (w Ways) Goes(to rs274.Position, line int, feed byte, axis rs274.Axes) {
	for _, a := range []struct {
		letter byte
		axis   rs274.Axes
	}{{'X', rs274.X}, {'Y', rs274.Y}, {feed, axis}} {
		if !to.Has(a.axis) {
			continue
		}
		at := to.Linear(a.letter)
		t := w[a.letter]
		switch {
		case t == nil:
			w[a.letter] = &way{at, at, line, line}
		case at < t.least:
			t.least, t.leastAt = at, line
		case at > t.most:
			t.most, t.mostAt = at, line
		}
	}
}

// Judge adds what goes further than the machine. say and deep word a length and a depth in
// the program's unit. A way that is long by a position that was found to be wrong is not
// said again.
func (w Ways) Judge(j *process.Job, feed byte, out *script.Findings, say, deep func(qty.Length) string) {
	if j.Bar.FeedBy == process.QuillFeed && w[feed] != nil {
		w.quill(j, feed, out, say, deep)
	}
	for _, t := range j.Machine.Travels {
		if t.Travel <= 0 {
			continue
		}
		if way := w[byte(t.Axis)]; way != nil && way.most-way.least > t.Travel && !out.Wrong(way.leastAt, way.leastAt+1) && !out.Wrong(way.mostAt, way.mostAt+1) {
			out.Add(max(way.leastAt, way.mostAt), byte(t.Axis), script.KindTravel,
				fmt.Sprintf("%s goes %s from end to end", t.Axis, say(way.most-way.least)),
				fmt.Sprintf("at most %s: that is all the machine has", say(t.Travel)))
		}
	}
}

// quill is home where the tip is CutterAt from the nose. Of the bar's first steps, those as
// thick as the quill are quill that is out already, and may go back in.
func (w Ways) quill(j *process.Job, feed byte, out *script.Findings, say, deep func(qty.Length) string) {
	way, home := w[feed], j.Bar.TipHome()
	var stands qty.Length
	for _, s := range j.Bar.Steps {
		if s.Diameter != j.Machine.Quill {
			break
		}
		stands += s.Length
	}
	if back := home - -way.most; back > stands {
		out.Add(way.mostAt, feed, script.KindTravel,
			fmt.Sprintf("the quill would have to go %s back behind its home", say(back-stands)),
			fmt.Sprintf("%s at least: there the bar's shoulder meets the nose", deep(home-stands)))
	}
	if most := j.Machine.QuillTravel; most > 0 && -way.least-home+stands > most {
		out.Add(way.leastAt, feed, script.KindTravel,
			fmt.Sprintf("the quill comes %s out of the nose", say(-way.least-home+stands)),
			fmt.Sprintf("at most %s", say(most)))
	}
}
