// Package through holds a program that cuts several bores at one setting against the plan: each
// pass feeds through one bore after the other, at rapid over the gaps between them, and where it
// is fed out it comes back the same way. What a single bore is held to, post/verify holds of the
// line as a whole; here is what lies between its ends.
package through

import (
	"fmt"
	"slices"
	"strings"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
)

// Bore is one of the bores that a program cuts, in their order.
type Bore struct {
	Index   int // of its station
	Station process.Station
	Visit   *plan.Visit
}

// Bores are those that the program of a visit cuts: its own, and those that the plan cuts through
// at its setting. first is the bore and the visit that the program is of, by their indices: that of
// the bore which is cut first.
func Bores(p *plan.Plan, bore, visit int) (all []Bore, first [2]int) {
	own := &p.Bores[bore].Visits[visit]
	first = [2]int{bore, visit}
	if len(own.Together) == 0 {
		b := &p.Bores[bore]
		return []Bore{{b.Bore.Station, b.Station, own}}, first
	}
	for _, name := range own.Together {
		for i := range p.Bores {
			b := &p.Bores[i]
			if b.Station.Name != name {
				continue
			}
			for k := range b.Visits {
				v := &b.Visits[k]
				if v.N != own.N || v.Part != own.Part || !slices.Equal(v.Together, own.Together) || len(v.Passes) != len(own.Passes) {
					continue
				}
				if all = append(all, Bore{b.Bore.Station, b.Station, v}); len(all) == 1 {
					first = [2]int{i, k}
				}
			}
		}
	}
	return all, first
}

// Whole is the visit of a line of bores as if it were one, from where the first feed begins to
// where the last ends.
func Whole(all []Bore) *plan.Visit {
	v := *all[0].Visit
	last := all[len(all)-1].Visit
	v.To, v.End = last.To, last.End
	return &v
}

// Set is what a Way needs to know and to say.
type Set struct {
	Half, Least qty.Length // what rounding may move a position, and the least input
	Add         func(letter byte, kind script.Kind, what, want string)
	Other       func(what, want string) // another way to the same cut
	Say         func(depth qty.Length) string
	Letter      byte // of the slide that feeds
}

// Way follows the tip through the bores of a pass and back.
type Way struct {
	set  Set
	all  []stretch
	at   int // the one that is cut, or was last; on the way back the one that is come out of
	back bool

	rapid bool // a bore was gone through at rapid on the way in: said
	fed   bool // on the way back it has been fed out of one
}

// stretch is what is fed through in one go: bores so near to each other that the tip is not clear
// between them are one.
type stretch struct {
	names      []string
	clear, end qty.Length
}

// New is the way through bores.
func New(all []Bore, set Set) *Way {
	w := &Way{set: set}
	for _, b := range all {
		if n := len(w.all); n > 0 && b.Visit.Clear <= w.all[n-1].end {
			w.all[n-1].names, w.all[n-1].end = append(w.all[n-1].names, b.Station.Name), b.Visit.End
			continue
		}
		w.all = append(w.all, stretch{[]string{b.Station.Name}, b.Visit.Clear, b.Visit.End})
	}
	return w
}

// Feeds are the depths from and to which a pass feeds, stretch by stretch.
func (w *Way) Feeds() (all [][2]qty.Length) {
	for _, s := range w.all {
		all = append(all, [2]qty.Length{s.clear, s.end})
	}
	return all
}

// is reports that a depth is the one planned, as the control can say it.
func (w *Way) is(depth, want qty.Length) bool {
	return depth-want <= w.set.Half && want-depth < w.set.Least
}

// Begin is the begin of a pass.
func (w *Way) Begin() { w.at, w.back, w.rapid, w.fed = 0, false, false, false }

// Hops is whether a rapid move inward from a depth is held to the bores of a pass: there is a next
// one, or the one that the tip stands in front of is not fed through yet.
func (w *Way) Hops(from qty.Length) bool {
	return !w.back && (w.at+1 < len(w.all) || w.unfed(from))
}

// unfed is whether the tip stands in front of a bore that a hop has led to.
func (w *Way) unfed(from qty.Length) bool { return w.at > 0 && w.is(from, w.all[w.at].clear) }

// Hop is that move. It gives where the feed before it was to end, and where the next begins.
func (w *Way) Hop(e *rs274.Event, from, to qty.Length) (end, clear qty.Length) {
	if w.at+1 < len(w.all) && w.is(from, w.all[w.at+1].clear) {
		w.fedOver()
	}
	if s := w.all[w.at]; w.unfed(from) {
		w.set.Add('G', script.KindRapid, fmt.Sprintf("rapid through %s, from %s to %s", said(s), w.set.Say(from), w.set.Say(to)), "G1 with its feed")
		w.rapid = true
		if w.at+1 < len(w.all) && to > s.end+w.set.Half {
			w.at++
		}
		return s.end, to
	}
	s, next := w.all[w.at], w.all[w.at+1]
	w.at++
	if !w.is(from, s.end) {
		w.set.Add(w.set.Letter, script.KindDepth, fmt.Sprintf("the feed through %s ends at %s", said(s), w.set.Say(from)), "it ends at "+w.set.Say(s.end))
		return s.end, next.clear
	}
	for n := w.at + 1; n < len(w.all); n++ {
		if w.is(to, w.all[n].clear) { // on to a later one
			var names []string
			for _, x := range w.all[w.at:n] {
				names = append(names, x.names...)
			}
			w.at = n
			w.set.Add(w.set.Letter, script.KindPass, script.LeftOut+": "+strings.Join(names, ", "), "every bore of the setting in each pass")
			return s.end, next.clear
		}
	}
	switch {
	case to > next.clear+w.set.Half:
		w.set.Add(w.set.Letter, script.KindRapid, fmt.Sprintf("rapid into %s, to %s", said(next), w.set.Say(to)), fmt.Sprintf("rapid to %s at most, and feed from there", w.set.Say(next.clear)))
	case !w.is(to, next.clear):
		w.set.Add(w.set.Letter, script.KindDepth, fmt.Sprintf("the feed through %s begins at %s", said(next), w.set.Say(to)), "it begins at "+w.set.Say(next.clear))
	case !e.Spindle.Turning():
		w.set.Add(w.set.Letter, script.KindSpindle, "goes on to "+said(next)+" with the spindle standing", "the spindle turning from the first bore to the last")
	}
	return s.end, next.clear
}

// Feed is a feed move inward, of a pass that is being cut. One that goes on over a gap cuts the
// same.
func (w *Way) Feed(to qty.Length) {
	for !w.back && w.at+1 < len(w.all) && to > w.all[w.at+1].clear+w.set.Half {
		w.fedOver()
	}
}

// fedOver is a feed inward over the gap to the next bore: it cuts nothing there.
func (w *Way) fedOver() {
	s, next := w.all[w.at], w.all[w.at+1]
	w.at++
	w.set.Other(fmt.Sprintf("feeds from %s to %s, "+script.Between, w.set.Say(s.end), w.set.Say(next.clear)), "G0")
}

// Ends is the end of the cut: it says which bores the pass leaves out. said is whether something
// of the cut has been said, so that where it ends is no second mistake.
func (w *Way) Ends() (said bool) {
	if w.back {
		return false
	}
	left := w.all[min(w.at+1, len(w.all)):]
	w.at, w.back = len(w.all)-1-len(left), true
	var names []string
	for _, s := range left {
		names = append(names, s.names...)
	}
	if len(left) == 0 {
		return w.rapid
	}
	w.set.Add(w.set.Letter, script.KindPass, script.LeftOut+": "+strings.Join(names, ", "), "every bore of the setting in each pass")
	return true
}

// Back is a move outward that ends in the work: whether it is one of the way back through the
// bores.
func (w *Way) Back(e *rs274.Event, from, to qty.Length) bool {
	if len(w.all) < 2 {
		return false
	}
	w.back = true
	if e.Motion == rs274.Rapid {
		switch {
		case w.at > 0 && w.is(from, w.all[w.at].clear) && w.is(to, w.all[w.at-1].end):
			w.at--
			return true
		case w.fed && w.is(from, w.all[w.at].end):
			w.set.Add('G', script.KindRetract, "comes out at rapid through "+said(w.all[w.at]), "it feeds out, turning, as it went in")
			w.at = 0
			return true
		}
		w.at = 0 // said: what follows is not held to the gaps
		return false
	}
	w.fed = true
	w.over(to)
	switch {
	case w.at > 0 && w.is(to, w.all[w.at-1].end):
		w.fedBackOver()
		return true
	case w.at > 0 && w.is(to, w.all[w.at].clear):
		return true
	}
	w.at = 0
	return false
}

// Out is a feed move outward that ends in front of the first bore.
func (w *Way) Out(to qty.Length) {
	if len(w.all) > 1 {
		w.over(to)
	}
}

// over takes a feed outward over gaps: it cuts nothing there.
func (w *Way) over(to qty.Length) {
	for w.at > 0 && to < w.all[w.at-1].end-w.set.Half {
		w.fedBackOver()
	}
}

// fedBackOver is a feed outward over the gap to the bore before.
func (w *Way) fedBackOver() {
	w.set.Other(fmt.Sprintf("feeds from %s to %s, "+script.Between, w.set.Say(w.all[w.at].clear), w.set.Say(w.all[w.at-1].end)), "G0")
	w.at--
}

func said(s stretch) string { return strings.Join(s.names, " and ") }
