// Package turns says what the half turns of the table are in a job: in which order the bores of
// two faces are cut, with the least of them, what each turn leaves in doubt of where the axes
// stand, and what is done and checked at it. It plans no pass.
package turns

import (
	"slices"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
)

// Minutes is what a half turn takes: slides back, table turned and clamped, the line swept anew
// (common practice, no source).
const Minutes = 30

// Stage are the faces that something is to be done from, near and far, before the next stage is
// begun.
type Stage [2]bool

// Order are the faces that each stage is begun from, in the order that takes the least half
// turns of the table, and how many it takes. The table stands at a face where stands is true;
// else the work is set up as the order has it. Of orders alike one is taken that begins at first.
func Order(stages []Stage, first process.Face, stands bool) (begin []process.Face, turns int) {
	best := -1
	for all := range 1 << len(stages) {
		at, n, set := first, 0, stands
		order := make([]process.Face, len(stages))
		var met []process.Face
		for i, s := range stages {
			order[i] = process.Face(all >> i & 1)
			for _, f := range []process.Face{order[i], faces.Other(order[i])} {
				if !s[f] {
					continue
				}
				if set && at != f {
					n++
				}
				at, set = f, true
				met = append(met, f)
			}
		}
		cost := 2 * n
		if len(met) > 0 && met[0] != first {
			cost++
		}
		if best < 0 || cost < best {
			best, begin = cost, order
		}
	}
	return begin, best / 2
}

// Work is what is left to do of one bore.
type Work struct {
	Name         string
	Face         process.Face
	First, Apart bool // it is finished before the others; it is roughed apart
	Left         int  // visits left, roughing apart not counted
}

// The stages of a job, in their order.
const (
	Firsts = iota // what is finished before the others are begun
	Roughs        // roughed apart
	Works         // the first work of each
	Rests         // all that is left
	stages
)

// Steps are the faces that each stage of a job is cut from, one after the other, and what is
// said of it. last is the face that the table stands at, where a cut was measured; nil: none was.
// A job of one face has that face in every stage, and nothing to say.
func Steps(job *process.Job, all []Work, last *process.Face) (from [stages][]process.Face, say fact.Fact) {
	first := job.Bores[0].Face
	if !faces.Both(job) {
		for i := range from {
			from[i] = []process.Face{first}
		}
		return from, fact.Fact{}
	}
	want := make([]Stage, stages)
	for _, w := range all {
		left := w.Left
		for i := range want {
			switch {
			case left == 0:
			case i == Roughs && w.Apart && !w.First && job.Apart():
				want[i][w.Face] = true
			case i == Works && job.Apart() && !w.First:
				want[i][w.Face] = true
				left--
			case i == Firsts && w.First, i == Rests && !w.First:
				want[i][w.Face] = true
				left = 0
			}
		}
	}
	at := first
	if last != nil {
		at = *last
	}
	begin, n := Order(want, at, last != nil)
	var steps []fact.Arg
	said := ""
	for i, f := range begin {
		for _, f := range []process.Face{f, faces.Other(f)} {
			if !want[i][f] {
				continue
			}
			from[i] = append(from[i], f)
			if f.String() != said { // one step goes on through stages at one face
				steps, said = append(steps, fact.Name(f.String())), f.String()
			}
		}
	}
	if len(steps) == 0 {
		return from, fact.Fact{}
	}
	kind := OrderTurns
	if want[Roughs][process.NearFace] && want[Roughs][process.FarFace] {
		kind = OrderTurnsApart
	}
	var list []fact.Fact
	for _, s := range steps {
		list = append(list, fact.New(FromFace, s))
	}
	return from, fact.New(kind, fact.Count(n), fact.List(list...))
}

// Second is the face that bores are finished from last, after the turn, where something is left
// to do.
func Second(from [stages][]process.Face) (f process.Face, ok bool) {
	for i := stages - 1; i >= 0; i-- {
		if n := len(from[i]); n > 0 {
			return from[i][n-1], true
		}
	}
	return 0, false
}

// Stations are the names of the bores of a face.
func Stations(job *process.Job, f process.Face) (names []string) {
	for _, b := range job.Bores {
		if b.Face == f {
			names = append(names, job.Stations[b.Station].Name)
		}
	}
	slices.Sort(names)
	return names
}
