package passes

import (
	"cmp"
	"math"
	"slices"

	"borewright/process/cores"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// The edge wears as it cuts, and a worn edge pushes harder (setup.Edge.Worn). A chain is
// searched for with the edge as the visit begins with it, and once more with the wear
// that the chain found brings, where that counts; then it is written pass by pass with
// the wear of each.

// landOf is that of a pass of the chain that is worked out.
func (r *Planner) landOf(i int) cut.Land {
	w, from := r.wears[i], r.FlankFound()
	if r.wears.HonedBy(i) >= 0 {
		from = setup.Flank{}
	}
	return r.LandSince(from.Land(), w.Before.Metres-from.Metres, w.After.Metres-from.Metres)
}

// with is the planner with the edge as it wears in a pass. anew: it was honed in this
// visit, and set anew since.
func (r *Planner) with(w setup.Wear, anew bool) *Planner {
	c := *r
	c.Judge = r.In(w, anew)
	return &c
}

// in is the planner with the edge as it wears in pass i of the visit.
func (r *Planner) in(i int) *Planner {
	if i >= len(r.wears) {
		return r
	}
	return r.with(r.wears[i], r.wears.HonedBy(i) >= 0)
}

// wearing is the edge in each pass of a chain.
func (r *Planner) wearing(steps []step) []setup.Wear { return r.Wearing(r.FlankFound(), r.runs(steps)) }

// runs is what the passes of a chain ask of the edge.
func (r *Planner) runs(steps []step) (runs []setup.Run) {
	for i, st := range steps {
		run := setup.Run{Honed: st.honed, Speed: st.pick.At(st.made), Last: st.kind >= schedule.SemiFinish, Metres: r.MetresOf(st.feed, st.made, r.Visit.OutAfter(st.kind)), Most: setup.RoughLand}
		if st.kind == schedule.Witness {
			run.Metres = r.BandMetres(st.feed, st.made, r.Visit.OutAfter(st.kind))
		}
		if run.Last {
			run.Most = setup.FinishLand
			run.Joined = st.kind >= schedule.Spring && i > 0
		}
		runs = append(runs, run)
	}
	return runs
}

// littleWear is the land, mm, by which the wear that a search reckons with may differ from
// what its chain brings: it adds a few per cent to the force of a finish. What is
// written has the wear of each pass.
const littleWear = 0.015

// lastEdge is the edge that the last passes are cut with.
type lastEdge struct {
	before setup.Flank // the semi-finish
	honed  bool        // it is honed before that, however little it is worn
	anew   bool        // it was honed for a pass before
}

// honing is the edge of the last passes, and what of honing goes before them.
type honing struct {
	honeMinutes float64 // that it takes; 0: it is not honed
	asked       bool    // because it is tried so, not because it is worn that far

	semi  *Planner // by the edge as it is in the semi-finish; nil: there is none
	again *Planner // as it is in a spring pass after the finish; nil: it is honed before that would be cut
}

// search finds the chain of least cost, or nil. An edge that is worn as the visit begins is
// tried as it is, and honed before the first pass.
func (r *Planner) search(first *chain, start float64) *chain {
	found := r.FlankFound()
	if found.Likely < littleWear {
		return r.searchFrom(found, first, start)
	}
	honed, fresh := *r, *first // the witness cut is the first of both
	honed.Judge, honed.custom.LeftOut = r.Beside(), new(bool)
	var best, other *chain
	cores.Both(func() { best = r.searchFrom(found, first, start) }, func() { other = honed.searchFrom(setup.Flank{}, &fresh, start) })
	*r.MoveBinds = *r.MoveBinds || *honed.MoveBinds
	*r.custom.LeftOut = *r.custom.LeftOut || *honed.custom.LeftOut
	if other != nil && (best == nil || other.cost+setup.HoneMinutes < best.cost) {
		first.last.honed, r.ends, r.wears = fresh.last.honed, honed.ends, honed.wears
		return other
	}
	return best
}

// searchFrom finds the chain of least cost, or nil, of an edge as it is, or honed before the
// first pass. first is the bore as found, with the band of a witness cut or without.
// The last passes are tried by the edge as it is worn by
// then, and by one honed for them. The search begins with a guess of the wear, and is
// done again with that of the chain found, where that is another or breaks a limit. Where
// none keeps the limit of size so, a search counts on less of the tolerance.
func (r *Planner) searchFrom(found setup.Flank, first *chain, start float64) (best *chain) {
	var kept, near *chain // the cheapest so far with all limits kept, and the last found
	r.wears = nil
	fresh, honed := r, found != r.FlankFound()
	if honed {
		fresh = r.with(setup.Wear{}, true)
	}
	end := r.guess(found, start)
	rough, worn := r.with(setup.Wear{Mean: end.before}, false), end.before
	type edges struct { // that a search was done with
		rough setup.Flank
		last  lastEdge
	}
	var done []edges
	countOn, over, size := 1.0, 1.0, 1.0
	for n := range 6 {
		now := edges{worn, end}
		again := slices.Contains(done, now)
		if kept != nil && (again || n > 3) || again && (size <= 1 || over < pass.PastMost) {
			break
		}
		if again {
			countOn *= 0.99 / size // another wear does not help: leave some for what the search does not see
		}
		done = append(done, now)
		r.ends = []lastEdge{end}
		if end.before.Likely > 0 {
			r.ends = append(r.ends, lastEdge{end.before, true, end.anew})
		}
		search := *rough
		search.ends, search.CountOn = r.ends, countOn
		cost := 0.0
		if near != nil {
			cost = near.cost
		}
		best = search.searched(first, start, cost)
		if best == nil && n == 0 && end.before != found {
			rough, worn, end = fresh, setup.Flank{}, lastEdge{before: found} // the guess may be too much
			continue
		}
		if best == nil {
			break
		}
		if honed {
			best.first().honed = true
		}
		steps, was := best.steps(), end.before.Likely
		r.wears = r.wearing(steps)
		rough, worn, end = fresh, setup.Flank{}, lastEdge{before: found, anew: honed}
		most := -1.0
		for i, st := range steps {
			if st.kind > schedule.Rough {
				break
			}
			end = lastEdge{before: r.wears[i].After, anew: r.wears.HonedBy(i) >= 0}
			if w := r.wears[i].Mean.Likely; w > most { // every rough must be possible by the edge that is worn most
				rough, worn, most = r.in(i), r.wears[i].Mean, w
			}
		}
		near = best
		if over, size = r.past(steps); over > 1.002 {
			continue
		}
		if kept == nil || best.cost < kept.cost {
			kept = best
		}
		if math.Abs(end.before.Likely-was) < littleWear {
			break
		}
	}
	if kept == nil && over < pass.PastMost {
		return near
	}
	return kept
}

// guess is the edge after roughing, as it may be: passes near the deepest, at a feed of
// three tenths of the nose.
func (r *Planner) guess(found setup.Flank, start float64) lastEdge {
	feed := r.Feeds[0]
	for _, f := range r.Feeds {
		if f <= 0.3*r.Job.Cutter.NoseRadius.MM() {
			feed = f
		}
	}
	passes := math.Max(0, math.Ceil((r.Aim-2*pass.UsualFinish-start)/(0.9*r.DepthMost)))
	if r.witness {
		passes += 0.5
	}
	metres := passes * r.MetresOf(feed, r.Aim, r.Visit.RoughOut)
	w := r.Wearing(found, []setup.Run{{Metres: metres, Speed: r.rough[0].Speed, Most: math.Inf(1)}})
	return lastEdge{before: w[0].After}
}

// finishers are the planners with the edges that the last passes are tried with, with a
// feed: as the edge is by then first. alone: there is no semi-finish.
func (r *Planner) finishers(feed float64, alone bool) []*Planner {
	out := []*Planner{r.finishedBy(r.ends[0], feed, alone)}
	if len(r.ends) > 1 && out[0].honeMinutes == 0 {
		out = append(out, r.finishedBy(r.ends[1], feed, alone))
	}
	return out
}

// finishedBy is the planner with the edge of the finish.
func (r *Planner) finishedBy(e lastEdge, feed float64, alone bool) *Planner {
	run := setup.Run{Metres: r.MetresOf(feed, r.Aim, r.Visit.LastOut), Speed: r.finish[0].Speed, Last: true, Most: setup.FinishLand, Honed: e.honed}
	joined, last := run, 1
	if joined.Joined = true; alone {
		last = 0
	}
	runs := []setup.Run{run, joined, joined}
	w, more := r.Wearing(e.before, runs[:last+1]), r.Wearing(e.before, runs[:last+2])
	anew := w[0].Honed || e.anew
	by := r.with(w[last], anew)
	if by.asked = e.honed; w[0].Honed {
		by.honeMinutes = setup.HoneMinutes
	}
	if !alone {
		by.semi = r.with(w[0], anew)
	}
	if more[0].Honed == w[0].Honed {
		by.again = r.with(more[last+1], anew)
	}
	return by
}

// past is how far the passes of a chain come to their limits, and to that of size, at the most,
// with the wear that the chain brings: above 1 is past it. Forces of the search are straight
// between entries of a table.
func (r *Planner) past(steps []step) (most, size float64) {
	rLeast := r.rLeast
	for i, st := range steps {
		v := r.judge(steps, i, rLeast, st.depth, st.feed)
		if most = math.Max(most, v.Ratio); v.By == schedule.LimitSize {
			size = math.Max(size, v.Ratio)
		}
		if st.kind != schedule.Witness {
			rLeast = st.made
		}
	}
	return most, size
}

// hone is the stop before pass i to hone the edge, nil where it is used on. The size
// without it is that at the same setting by the edge as it would be.
func (r *Planner) hone(p *schedule.Pass, steps []step, i int, rLeast, made float64) *schedule.Hone {
	w := r.wears[i]
	if !w.Honed {
		return nil
	}
	most := setup.RoughLand
	if p.Kind >= schedule.SemiFinish {
		most = setup.FinishLand
	}
	dull := setup.Wear{Mean: w.IfNot}
	in, out := r.with(dull, false).strokeOf(p).Take(p.Setting.MM()/2, rLeast)
	return &schedule.Hone{Worn: w.IfNot.Likely, Most: most, Smaller: qty.FromMM(2 * (made - rLeast - in - out)), SetAnew: r.ByIncrement(), Why: r.whyHoned(p.N, steps, i, most), Minutes: setup.HoneMinutes}
}

// whyHoned says why the edge is honed before pass i, which has a number: its land would be too
// wide, or it, or a pass after it, would not keep a limit, or it pays.
func (r *Planner) whyHoned(number int, steps []step, i int, most float64) fact.Fact {
	if r.wears[i].Dull {
		return fact.New(schedule.HoneDull, fact.MM(most))
	}
	at, runs := r.FlankFound(), r.runs(steps)[i:]
	if i > 0 {
		at = r.wears[i-1].After
	}
	for n := range runs {
		if n > 0 && r.wears[i+n].Honed {
			runs = runs[:n]
			break
		}
		runs[n].Most, runs[n].Honed = math.Inf(1), false
	}
	dull := *r
	dull.wears = append(slices.Clone(r.wears[:i]), r.Wearing(at, runs)...)
	for n := range runs {
		var all []pass.Verdict
		dull.Gather = &all
		from := r.rLeast
		if i+n > 0 && steps[i+n-1].kind != schedule.Witness {
			from = steps[i+n-1].made
		}
		dull.judge(steps, i+n, from, steps[i+n].depth, steps[i+n].feed)
		worst := slices.MaxFunc(all, func(a, b pass.Verdict) int { return cmp.Compare(a.Ratio, b.Ratio) })
		if !worst.OK() {
			return fact.New(schedule.HoneLimit, fact.Count(number+n), r.LimitOf(worst))
		}
	}
	return fact.New(schedule.HonePays)
}
