package sheets

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"borewright/process/plan"
	"borewright/process/record"
	"borewright/process/schedule"
	"borewright/sheets/card"
	"borewright/sheets/page"
)

// at is a pass of a plan by its indices.
type at struct{ bore, visit, pass int }

// Corrections are what the next pass of each hold point is set to by what the gauge says, by the
// indices of bore, visit and pass. They take a while: one plan of a visit for each step of the
// gauge.
type Corrections func(bore, visit, pass int) []record.Correction

// CorrectionsOf works them out when they are first asked for, all hold points side by side.
func CorrectionsOf(p *plan.Plan) Corrections {
	all := sync.OnceValue(func() map[at][]record.Correction {
		out := map[at][]record.Correction{}
		var mu sync.Mutex
		var work sync.WaitGroup
		for i, x := range p.Bores {
			for k, v := range x.Visits {
				for n, q := range v.Passes {
					if q.Hold == nil || len(v.Together) > 0 {
						continue
					}
					work.Go(func() {
						c := record.Corrections(p, i, k, n)
						mu.Lock()
						defer mu.Unlock()
						out[at{i, k, n}] = c
					})
				}
			}
		}
		work.Wait()
		return out
	})
	return func(bore, visit, pass int) []record.Correction { return all()[at{bore, visit, pass}] }
}

// WithCorrections puts the tables beside the hold points. Without it the sheet says the rule of
// the plan.
func WithCorrections(c Corrections) Option { return func(b *builder) { b.corrections = c } }

// settings is the table beside a hold point: what the gauge says, and what the next pass is then
// set to; nil where the size does not say.
func (b *builder) settings(bore, visit, pass int) *page.Table {
	if b.corrections == nil {
		return nil
	}
	if len(b.Plan.Bores[bore].Visits[visit].Together) > 0 { // no one bore tells the next setting
		return nil
	}
	rows := b.corrections(bore, visit, pass)
	if len(rows) == 0 {
		return nil
	}
	v := b.Plan.Bores[bore].Visits[visit]
	cells := make([]string, 0, 2*len(rows))
	for _, c := range rows {
		says := b.U.Bare(c.Low)
		if c.High > c.Low {
			says += "-" + b.U.Bare(c.High)
		}
		cells = append(cells, says, b.setTo(c.Next))
	}
	wide := pairs(cells)
	deep := (len(rows) + wide - 1) / wide
	wide = (len(rows) + deep - 1) / deep // none of them empty
	says := "Mean of the readings after %d, and the setting for %d."
	if honedBetween(rows) {
		says = "Mean after %d, set for %d: hone where it lands closer."
	}
	t := &page.Table{Caption: fmt.Sprintf(says+" Not listed: stop, enter it, print anew.", v.Passes[pass].N, v.Passes[pass+1].N)}
	for range wide {
		t.Columns = append(t.Columns, page.Column{Head: []string{"gauge"}}, page.Column{Head: []string{"set"}})
	}
	for r := range deep { // down each column first
		row := page.Row{}
		for c := range wide {
			says, set := "", ""
			if i := 2 * (c*deep + r); i < len(cells) {
				says, set = cells[i], cells[i+1]
			}
			row.Cells = append(row.Cells, says, set)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// honedBetween is whether the edge is honed at readings that stand between others at which it is not: the dial
// does not stop where the tip should stand, and an edge that is honed is set anew over the bar, which is closer.
func honedBetween(rows []record.Correction) bool {
	honed := func(c record.Correction) bool { return c.Next.Hone != nil }
	for i := 1; i < len(rows); i++ {
		from := i
		for i < len(rows) && honed(rows[i]) {
			i++
		}
		if from < i && i < len(rows) && !honed(rows[from-1]) && anew(rows[from:i]) {
			return true
		}
	}
	return false
}

// anew is whether all are set anew because that pays.
func anew(rows []record.Correction) bool {
	return !slices.ContainsFunc(rows, func(c record.Correction) bool {
		return c.Next.Hone == nil || !c.Next.Hone.SetAnew || c.Next.Hone.Why.Kind != schedule.HonePays
	})
}

// pairs is how many pairs of columns stand side by side in 80 characters, read down each column
// first.
func pairs(cells []string) int {
	n := len(cells) / 2
	for wide := min(n, 5); wide > 1; wide-- {
		deep, sum := (n+wide-1)/wide, -gutter
		for c := range wide {
			says, set := len("gauge"), len("set")
			for i := c * deep; i < min(n, (c+1)*deep); i++ {
				says, set = max(says, utf8.RuneCountInString(cells[2*i])), max(set, utf8.RuneCountInString(cells[2*i+1]))
			}
			sum += says + set + 2*gutter
		}
		if sum <= 80 {
			return wide
		}
	}
	return 1
}

// gutter is how many characters stand between two columns at the most.
const gutter = 3

// setTo is what the hand does, in few words.
func (b *builder) setTo(p schedule.Pass) string {
	s := b.U.Bare(p.Setting)
	switch {
	case p.Set.From > 0:
		s = card.Moved(p.Set)
	case p.Set.OverBar > 0:
		s = "bar " + b.U.Format(p.Set.OverBar)
	}
	if p.Hone != nil {
		s = "hone, " + s
	}
	return strings.TrimSpace(s)
}
