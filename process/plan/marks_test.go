package plan_test

import (
	"strings"
	"testing"

	"borewright/process"
	. "borewright/process/plan"
	"borewright/process/schedule"
	"borewright/process/slow"
)

// The idler of the winch is worn to the right, about 3 and 4:30. A cutter that marks there
// and leaves the left side bare stands too far to the right: the marks say by how much to
// move which way, by hand in half graduations; a witness cut that is bare all round, or one
// that marks a single place too many, does not tell a way. Marks where the readings have
// them confirm the line.
func TestMarksSayWhatToMove(t *testing.T) {
	mills := []string{"lock-winch/job.toml", "lock-winch/manual.toml"}
	for _, name := range mills[:slow.Rounds(t, "mills, the second moved by hand", len(mills), 1)] {
		first := made(t, name)
		job := first.Job
		q := first.Bores[0].Visits[0].Passes[0]
		if q.Kind != schedule.Witness {
			t.Fatal("no witness cut")
		}
		rows := []struct {
			why          string
			marked, bare []float64
			want, not    string
		}{
			{"cut on the right", []float64{0, 45, 90, 135}, []float64{180, 225, 270, 315}, "X minus", "do not tell"},
			{"cut on the left", []float64{180, 225, 270, 315, 0}, nil, "", "does not confirm"},
			{"cut at the top, not at the bottom", []float64{315, 0, 45}, []float64{90, 135, 180, 225}, "Y minus", "do not tell"},
			{"bare all round", nil, []float64{0, 45, 90, 135, 180, 225, 270, 315}, "do not tell what to move", "the spindle goes"},
			{"one place too many", []float64{135}, nil, "do not tell what to move", "the spindle goes"},
		}
		few := 3
		if job.Machine.Control == nil { // by hand the words of a move differ, and nothing else
			few = 1
		}
		rows = rows[:slow.Rounds(t, "rows of marks", len(rows), few)]
		for _, row := range rows {
			m := process.Measured{Station: 2, Visit: 1, Pass: 1, Kind: process.WitnessCut, Setting: q.Setting, Feed: q.Feed, Speed: q.Speed, CutTo: q.Band.To,
				Marked: row.marked, Bare: row.bare, Sizes: []process.Size{{Depth: process.Unplaced, At: -1, Diameter: q.Expected}}, Place: "r.toml:1:1"}
			p := MakeAfter(job, &process.Results{File: "r.toml", Entries: []process.Measured{m}})
			var all []string
			for _, r := range p.Reasons {
				all = append(all, said(p, r.What))
			}
			s := strings.Join(all, " ")
			if !strings.Contains(s, row.want) || strings.Contains(s, row.not) {
				t.Errorf("%s, %s: %s", name, row.why, s)
			}
			if hand := job.Machine.Control == nil; strings.Contains(s, "spindle goes") && strings.Contains(s, "on the dial") != hand {
				t.Errorf("%s, %s: by hand %v: %s", name, row.why, hand, s)
			}
			if p.Feasible == (row.want != "") || row.want != "" && p.Seek != nil {
				t.Errorf("%s, %s: feasible %v", name, row.why, p.Feasible)
			}
		}
	}
}
