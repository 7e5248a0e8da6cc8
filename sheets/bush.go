package sheets

import (
	"slices"
	"strings"

	"borewright/process/place"
	"borewright/process/qty"
	"borewright/sheets/head"
)

// bush is one that is made or fetched for the bar, with the bores that are cut with it.
type bush struct {
	*place.Bush
	cuts []string
}

// bushes are those of the job, in the order in which they are fitted.
func (b *builder) bushes() (all []bush) {
	for _, at := range b.Plan.Turns() {
		x := &b.Plan.Bores[at[0]]
		k := x.Visits[at[1]].Bush
		if k == nil {
			continue
		}
		i := slices.IndexFunc(all, func(o bush) bool { return o.Station == k.Station && o.Over == k.Over })
		if i < 0 {
			i = len(all)
			all = append(all, bush{Bush: k})
		}
		if name := x.Station.Name; !slices.Contains(all[i].cuts, name) {
			all[i].cuts = append(all[i].cuts, name)
		}
	}
	return all
}

// say is a bush as it is made: inside, outside, where it goes and what for.
func (k bush) say(h head.Head) string {
	seat := "Ø" + h.U.Bare(k.Seat[0])
	if k.Seat[1] != k.Seat[0] {
		seat += " to " + h.U.Bare(k.Seat[1])
	}
	return "in " + k.Station + " (" + seat + ", as gauged), inside Ø" + h.U.Bare(k.Over) + " plus " + h.U.Say(qty.Plain(k.Play)) + ", for " + strings.Join(k.cuts, ", ")
}
