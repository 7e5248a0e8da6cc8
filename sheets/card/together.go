package card

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/sheets/page"
)

// Bores that are cut through at one setting have one card: settings, speeds and feeds once, what
// the gauge should say bore by bore.

// betweenBores is what hands do between two bores of one setting.
func betweenBores(v *plan.Visit) string {
	s := "feed off, spindle turning, on by hand to where the next feed begins"
	if slices.ContainsFunc(v.Passes, func(q schedule.Pass) bool { return q.Out.By == process.FeedOut }) {
		s += ", and so on the way out where it feeds"
	}
	return s + "; setting, speed and feed stay"
}

// rowsWith are the rows of one pass through all bores of a setting.
func (b Hand) rowsWith(i, k, n int) []page.Row {
	v := b.Plan.Bores[i].Visits[k]
	p := v.Passes[n]
	hold := p.Hold
	p.Hold = nil
	out := b.rows(v, p)
	cells := out[len(out)-1].Cells
	cells[len(cells)-2], cells[len(cells)-1] = "", ""
	stop := page.Row{Stop: true, Across: fmt.Sprintf("HOLD after %d: gauge all", p.N)}
	for _, w := range b.Plan.With(i, k) {
		x := b.Plan.Bores[w[0]]
		q := x.Visits[w[1]].Passes[n]
		row := make([]string, len(cells))
		row[1], row[len(row)-2], row[len(row)-1] = x.Station.Name, b.U.Bare(q.Low), b.U.Bare(q.High)
		out = append(out, page.Row{Cells: row})
		stop.Boxes = append(stop.Boxes, x.Station.Name)
	}
	if hold != nil {
		out = append(out, stop)
	}
	return out
}

// feeds are the depths that are fed through, bore by bore.
func (b Hand) feeds(i, k int) string {
	var all []string
	for _, w := range b.Plan.With(i, k) {
		v := &b.Plan.Bores[w[0]].Visits[w[1]]
		all = append(all, b.U.Format(v.Clear)+" to "+b.U.Format(v.End))
	}
	return ", " + strings.Join(all, "; ") + " " + b.U.String()
}

// stand is what was measured of each bore of a setting.
func (b Hand) stand(i, k int) string {
	var all []string
	behind := 0
	for _, w := range b.Plan.With(i, k) {
		x := b.Plan.Bores[w[0]]
		v := x.Visits[w[1]]
		all = append(all, x.Station.Name+" Ø"+b.U.Bare(v.Start)+" to "+b.U.Bare(v.StartMost))
		behind = v.Behind
	}
	return fmt.Sprintf("%s %s after pass %d, as measured", strings.Join(all, "; "), b.U, behind)
}

// tasksAt are what is left to do of a bore that is cut at the setting of another: to gauge it.
func (b Hand) tasksAt(i, k int) []Task {
	v := b.Plan.Bores[i].Visits[k]
	for n := range v.Passes {
		if p := &v.Passes[n]; p.Hold != nil {
			return b.stopAt(v, p, n)
		}
	}
	return nil
}

// Entered are the bores of a setting whose size after the pass that is gauged next is entered
// already, and those that it waits for; none where none waits.
func (b Hand) Entered(i, k int) (entered, open []string) {
	for _, w := range b.Plan.With(i, k) {
		x := b.Plan.Bores[w[0]]
		for _, q := range x.Visits[w[1]].Passes {
			if q.Hold == nil {
				continue
			}
			if b.Plan.Waiting(b.Job.BoreAt(x.Bore.Station), q.N) {
				entered = append(entered, x.Station.Name)
			} else {
				open = append(open, x.Station.Name)
			}
			break
		}
	}
	if entered == nil {
		return nil, nil
	}
	return entered, open
}

// through says how one pass goes through the bores of a setting.
func (b Hand) through(i, k int) []page.KeyValue {
	return []page.KeyValue{page.KV("Feed", strings.TrimPrefix(b.feeds(i, k), ", ")), page.KV("Between", betweenBores(&b.Plan.Bores[i].Visits[k]))}
}
