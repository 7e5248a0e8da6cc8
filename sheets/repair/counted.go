// Package repair lays out how a bore is brought back: what each way of holding a sleeve
// keeps of its strength, and the ways to repair side by side.
package repair

import (
	"borewright/process/fit"
	"borewright/process/qty"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// Counted is what is counted on of each joint's strength, and why; nothing where all is.
func Counted(u qty.Unit, joints []fit.Joint) []page.Block {
	w := words.In(u)
	t := &page.Table{Caption: "Not all of the strength is counted on (shares from memory, as the trade has them; figures above have them):",
		Columns: []page.Column{{Head: []string{"held by"}}, {Head: []string{"share"}}, {Head: []string{"because of"}}}}
	for _, j := range joints {
		for _, f := range j.Factors {
			share := func(v float64) string { return u.Bare(qty.KindFactor.Of(v)) }
			by := share(f.By.Least) + " to " + share(f.By.Most)
			if f.By.Least == f.By.Most {
				by = share(f.By.Least)
			}
			t.Rows = append(t.Rows, page.Row{Cells: []string{j.Method.String(), by, w.Say(f.Why)}})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}
