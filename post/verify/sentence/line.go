package sentence

import (
	"strings"

	"borewright/post/verify/through"
	"borewright/process/plan"
)

// What is said of bores that are cut through at one setting: each by its name.

// names are those of the bores.
func (k *Book) names() (all []string) {
	for _, b := range k.bores {
		all = append(all, b.Station.Name)
	}
	return all
}

// cuts is whether a visit is one of those that the program cuts.
func (k *Book) cuts(v *plan.Visit) bool {
	for _, b := range k.bores {
		if b.Visit == v {
			return true
		}
	}
	return false
}

// hops is whether there is a gap between two of the bores.
func (k *Book) hops() bool { return len(through.New(k.bores, through.Set{}).Feeds()) > 1 }

// line says where each bore lies and is fed through.
func (k *Book) line() {
	for i, b := range k.bores {
		one := *k
		one.v, one.b = b.Visit, &plan.Bore{Station: b.Station}
		k.add(-1, false, "Bore %s from depth %s to %s, feed from %s to %s %s", b.Station.Name, k.bare(b.Visit.From), k.bare(b.Visit.To),
			k.about(k.in(b.Visit.Clear), k.last()), k.about(one.end(), k.last()), k.u)
		if i == 1 {
			k.add(-1, false, "Between the bores: rapid, the spindle turning, nothing is cut")
		}
	}
}

// deep is the depth of cut of pass i, from the least of the bores to the most.
func (k *Book) deep(i int) string {
	least, most := "", ""
	low, high := k.v.Passes[i].Depth, k.v.Passes[i].Depth
	for _, b := range k.bores {
		d := b.Visit.Passes[i].Depth
		low, high = min(low, d), max(high, d)
	}
	if least, most = k.bare(low), k.bare(high); least == most {
		return least
	}
	return least + " to " + most
}

// expects are what the gauge should say after pass i.
func (k *Book) expects(i int) (all []string) {
	for _, b := range k.bores {
		name := b.Station.Name
		if len(k.bores) == 1 {
			name = "bore"
		}
		all = append(all, name+" "+k.expected(&b.Visit.Passes[i]))
	}
	return all
}

// found is what the stop after pass i must have found.
func (k *Book) found(i int) string {
	if len(k.bores) == 1 {
		return k.expected(&k.v.Passes[i])
	}
	return strings.Join(k.expects(i), ", ")
}

// measures says what is measured at the stop after pass i: of one bore, of all, or of each by its
// name.
func (k *Book) measures(i int, say func(format string, a ...any)) {
	if len(k.bores) == 1 {
		for _, f := range k.v.Passes[i].Hold.Measure {
			say("Measure: %s", k.words.Say(f))
		}
		return
	}
	say("Gauge all %d: %s", len(k.bores), strings.Join(k.names(), ", "))
	of := map[string]int{}
	for _, b := range k.bores {
		for _, f := range b.Visit.Passes[i].Hold.Measure {
			of[k.words.Say(f)]++
		}
	}
	said := map[string]bool{}
	for _, b := range k.bores {
		for _, f := range b.Visit.Passes[i].Hold.Measure {
			switch s := k.words.Say(f); {
			case of[s] < len(k.bores):
				say("Measure in %s: %s", b.Station.Name, s)
			case !said[s]:
				said[s] = true
				say("Measure: %s", s)
			}
		}
	}
}
