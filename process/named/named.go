// Package named says which tools of the shop's lists the bores of a job name, and hands each bore
// its own. The lists themselves are read by process/files.
package named

import (
	"maps"
	"reflect"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/qty"
	"borewright/process/source"
)

// Any is whether a job names tools by bore, or for roughing.
func Any(j *process.Job) bool {
	return j.Rough != process.ToolsNamed{} || slices.ContainsFunc(j.Bores, func(b process.Bore) bool {
		return b.Bar != "" || b.Cutter != "" || b.Guide != nil || b.Rough != process.ToolsNamed{}
	})
}

// Find gives the bores of a job the tools that they name. made makes those of one pair of names;
// nil: they are the job's own, or there are none. Tools that are alike are one pointer, that of the
// job before where it has them already: what was learned of them holds on.
func Find(j *process.Job, made func(Pair) *process.Tools) {
	if !Any(j) {
		return
	}
	was := j.Bores
	j.Bores = slices.Clone(was) // which another job may have, too
	type tools struct {
		bar, cutter string
		guide       process.Guide
	}
	found := map[tools]*process.Tools{}
	n := 0
	find := func(by Pair) *process.Tools {
		is := tools{bar: by.Bar, cutter: by.Cutter}
		if by.Guide != nil {
			is.guide = *by.Guide
		}
		t, done := found[is]
		if done || is == (tools{}) {
			return t
		}
		if t = made(by); t != nil {
			n++
			t.N = n
			for _, b := range was {
				for _, o := range []*process.Tools{b.CutBy, b.RoughBy} {
					if o != nil && reflect.DeepEqual(listed(*o), *t) {
						t = o
					}
				}
			}
		}
		found[is] = t
		return t
	}
	for i := range j.Bores {
		cut, rough := By(j, i)
		b := &j.Bores[i]
		b.CutBy = find(cut)
		if b.RoughBy = b.CutBy; j.RoughsApart(i) {
			b.RoughBy = find(rough)
		}
	}
}

// listed is tools as the lists have them, before a stickout was chosen for their bar.
func listed(t process.Tools) process.Tools {
	if t.Bar.Listed != nil {
		t.Bar = *t.Bar.Listed
	}
	return t
}

// Pair is what tools a bore is to have, by their names in the shop's lists, each with the key that
// names it; "": those of the job. Guide is the bush that the bar runs in; nil: as the job has it.
type Pair struct {
	Bar, Cutter, BarKey, CutterKey string

	Guide    *process.Guide
	GuideKey string
}

// or is the pair, with the names of another where it has none.
func (n Pair) or(o Pair) Pair {
	if n.Bar == "" {
		n.Bar, n.BarKey = o.Bar, o.BarKey
	}
	if n.Cutter == "" {
		n.Cutter, n.CutterKey = o.Cutter, o.CutterKey
	}
	n.Guide, n.GuideKey = o.Guide, o.GuideKey
	return n
}

// By are the names of what a bore is cut with, and of what it is roughed with.
func By(j *process.Job, bore int) (cut, rough Pair) {
	b, at := &j.Bores[bore], source.El("bore", bore)
	of := func(t process.ToolsNamed, key string) Pair {
		return Pair{Bar: t.Bar, Cutter: t.Cutter, BarKey: key + "bar", CutterKey: key + "cutter"}
	}
	cut = of(process.ToolsNamed{Bar: b.Bar, Cutter: b.Cutter}, at+".")
	if g := b.Guide; g != nil && slices.ContainsFunc(j.Stations, func(s process.Station) bool { return s.Name == g.Station }) {
		cut.Guide, cut.GuideKey = g, at+".guide"
	}
	return cut, of(b.Rough, at+".rough.").or(of(j.Rough, "rough.")).or(cut)
}

// Bared is the job without what it says of its own bar, of its own cutter or of both, but for how
// the bar is fed and held, and without what follows from the one in the other.
func Bared(j *process.Job, bar, cutter bool) *process.Job {
	k := *j
	k.Places = maps.Clone(j.Places)
	maps.DeleteFunc(k.Places, func(key string, _ source.Pos) bool {
		table, _, _ := strings.Cut(key, ".")
		return cutter && table == "cutter" || bar && table == "bar" && !process.HeldBy(key) || key == "cutter.least" || key == "cutter.most" || key == "cutter.bar"
	})
	if _, stated := k.Places["bar.standoff"]; !stated {
		k.Bar.Standoff = 0
	}
	if k.Cutter.Least, k.Cutter.Most, k.Cutter.Bar = 0, 0, 0; cutter {
		k.Cutter = process.Cutter{}
	}
	return &k
}

// Alone is the job with one bore alone, cut less than to its size.
func Alone(j *process.Job, b process.Bore, less qty.Length) *process.Job {
	k := *j
	b.Finish.Low, b.Finish.High, b.CutBy = b.Finish.Low.Plus(-less), b.Finish.High.Plus(-less), nil
	k.Bores = []process.Bore{b}
	if k.Sleeve != nil {
		s := *k.Sleeve
		s.Outside, k.Sleeve = s.Outside.Plus(-less), &s
	}
	return &k
}

// InHand is whether two jobs are cut with the same bar and cutter, in whatever bearing.
func InHand(a, b *process.Job) bool {
	x, y := a.Bar, b.Bar
	x.Outboard, y.Outboard = nil, nil
	return reflect.DeepEqual(x, y) && reflect.DeepEqual(a.Cutter, b.Cutter)
}
