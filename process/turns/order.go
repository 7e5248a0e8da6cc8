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
	best := map[standing]way{{at: first, set: stands}: {}}
	for _, s := range stages {
		next := map[standing]way{}
		for from, w := range best {
			for _, f := range []process.Face{process.NearFace, process.FarFace} {
				now, x := from, way{w.cost, append(slices.Clone(w.begin), f)}
				for _, f := range []process.Face{f, faces.Other(f)} {
					if !s[f] {
						continue
					}
					if now.set && now.at != f {
						x.cost += 2
					}
					if !now.begun && f != first {
						x.cost++
					}
					now = standing{f, true, true}
				}
				if y, ok := next[now]; !ok || x.before(y) {
					next[now] = x
				}
			}
		}
		best = next
	}
	var least *way
	for _, w := range best {
		if least == nil || w.before(*least) {
			least = &w
		}
	}
	return least.begin, least.cost / 2
}

// standing is where the table stands as the stages are gone through.
type standing struct {
	at         process.Face
	set, begun bool // it stands there; something was cut
}

// way is a way to go through the stages: two for each half turn and one where it does not begin at
// the first face, and the face that each stage is begun from.
type way struct {
	cost  int
	begin []process.Face
}

// before is whether a way is taken rather than another: of ways alike the one whose last stages are
// begun from the near face.
func (w way) before(o way) bool {
	for i := len(w.begin) - 1; i >= 0 && w.cost == o.cost; i-- {
		if w.begin[i] != o.begin[i] {
			return w.begin[i] < o.begin[i]
		}
	}
	return w.cost < o.cost
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

// Step is a stage as it is cut from one face. What is finished before the others is so in ranks
// where bores of one face carry the bar for those of the other: what carries it is finished first.
type Step struct {
	Stage, Rank int
	Face        process.Face
}

// Rank is that of a bore, by its index: how many bores one after the other are finished before it
// because each carries the bar for the next; with all that are cut through at its setting. 0 in a
// job of one face, where the deepest comes first.
func Rank(job *process.Job, bore int) (rank int) {
	if !faces.Both(job) {
		return 0
	}
	after := make([]int, len(job.Bores))
	for range job.Bores { // as long as a chain can be
		for i := range job.Bores {
			for _, k := range job.Carries(i) {
				for _, with := range job.SetWith(k) {
					after[with] = max(after[with], after[i]+1)
				}
			}
		}
	}
	return after[bore]
}

// Steps are the stages of a job as they are cut, one face after the other, and what is said of it.
// last is the face that the table stands at, where a cut was measured; nil: none was. A job of one
// face has that face in every stage, and nothing to say. all are the bores of the job, in its order.
func Steps(job *process.Job, all []Work, last *process.Face) (steps []Step, say fact.Fact) {
	first := job.Bores[0].Face
	if !faces.Both(job) {
		for i := range stages {
			steps = append(steps, Step{Stage: i, Face: first})
		}
		return steps, fact.Fact{}
	}
	var want []Stage
	var of []Step // each, without its face
	for i := range stages {
		ranks := 1
		for k, w := range all {
			if i == Firsts && w.First {
				ranks = max(ranks, Rank(job, k)+1)
			}
		}
		for r := range ranks {
			want, of = append(want, Stage{}), append(of, Step{Stage: i, Rank: r})
		}
	}
	for k, w := range all {
		left := w.Left
		for n, s := range of {
			switch i := s.Stage; {
			case left == 0:
			case i == Roughs && w.Apart && !w.First && job.Apart():
				want[n][w.Face] = true
			case i == Works && job.Apart() && !w.First:
				want[n][w.Face] = true
				left--
			case i == Firsts && w.First && s.Rank == Rank(job, k), i == Rests && !w.First:
				want[n][w.Face] = true
				left = 0
			}
		}
	}
	at := first
	if last != nil {
		at = *last
	}
	begin, n := Order(want, at, last != nil)
	var from []fact.Fact
	said := ""
	roughed := Stage{}
	for i, f := range begin {
		for _, f := range []process.Face{f, faces.Other(f)} {
			if !want[i][f] {
				continue
			}
			s := of[i]
			s.Face = f
			steps = append(steps, s)
			roughed[f] = roughed[f] || s.Stage == Roughs
			if f.String() != said { // one step goes on through stages at one face
				from, said = append(from, fact.New(FromFace, fact.Name(f.String()))), f.String()
			}
		}
	}
	if len(steps) == 0 {
		return steps, fact.Fact{}
	}
	kind := OrderTurns
	if roughed[process.NearFace] && roughed[process.FarFace] {
		kind = OrderTurnsApart
	}
	return steps, fact.New(kind, fact.Count(n), fact.List(from...))
}

// Second is the face that bores are finished from last, after the turn, where something is left
// to do.
func Second(steps []Step) (f process.Face, ok bool) {
	if n := len(steps); n > 0 {
		return steps[n-1].Face, true
	}
	return 0, false
}
