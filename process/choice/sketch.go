package choice

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/cores"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/pass"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// A sketch is the work of a visit by its last two passes, at the usual depth, and by roughing
// passes that are all alike, each the quickest that keeps every limit, with no wear. It takes a
// fiftieth of the time of a plan.

// byStiffness puts the pairs whose bar gives least first.
func byStiffness(open []*pair) {
	known := map[string]float64{}
	for _, p := range open {
		g, is := known[p.Bar]
		if !is {
			g = give(p.job.Bar)
			known[p.Bar] = g
		}
		p.Give = g
	}
	slices.SortStableFunc(open, func(p, q *pair) int { return cmp.Compare(p.Give, q.Give) })
}

// give is how much a bar gives at its tip, clamped where it leaves the spindle, µm/N: by
// integrating x²/EI from the tip, step by step (Euler–Bernoulli).
func give(b process.Bar) float64 {
	sum, at := 0.0, 0.0
	l := b.CutterAt.MM()
	for _, s := range b.Steps {
		from, to := l-at, l-math.Min(l, at+s.Length.MM())
		d, h := s.Diameter.MM(), s.Hole.MM()
		if i := math.Pi / 64 * (d*d*d*d - h*h*h*h); from > to && i > 0 && s.Material.E > 0 {
			sum += (from*from*from - to*to*to) / (3 * s.Material.E * i)
		}
		at += s.Length.MM()
	}
	return sum * 1e3
}

// clampAll stands each bar that can be clamped at any length as its cutter needs it.
func clampAll(open []*pair, seed Outcome) {
	type standing struct {
		bar string
		room
	}
	at := map[standing]int{}
	var first []*pair
	of := func(p *pair) standing { return standing{p.Bar, roomFor(p.job)} }
	for _, p := range open {
		if _, is := at[of(p)]; !is && p.job.Bar.Adjustable() {
			at[of(p)] = len(first)
			first = append(first, p)
		}
	}
	all := make([][]stand, len(first))
	cores.Each(len(first), workers, func(i int) { all[i] = stands([]view{{first[i].job, seed}}) })
	for _, p := range open {
		if i, is := at[of(p)]; is && len(all[i]) > 0 {
			p.clampAs(all[i])
		}
	}
}

// room is all of a cutter that says whether its bar gets there.
type room struct{ ahead, behind, beside qty.Length }

func roomFor(j *process.Job) room { return room{j.Cutter.Ahead, j.Cutter.Behind, j.Cutter.Beside} }

// blank is a visit without its passes, as the bar of a set-up begins it.
func blank(s *setup.Setup, v schedule.Visit, b process.Bore) schedule.Visit {
	v.Passes, v.Budget, v.Before, v.OffAxis, v.SetInside, v.WayIn, v.End = nil, nil, nil, nil, false, 0, 0
	v.Flank = &schedule.EdgeFound{Flank: s.Begun()}
	pass.Travel(s, &v, s.Job.Stations[b.Station])
	return v
}

// reaching is why the bar of a set-up does not get to a bore; nothing where it gets to all. room is told the
// room of each visit that it gets to.
func reaching(s *setup.Setup, seed Outcome, room func(*place.Reach)) fact.Fact {
	if why := place.QuillShort(s.Job); !why.None() {
		return why
	}
	for b, visits := range seed.Bores {
		for _, v := range visits {
			if !s.Job.Cuts(b) { // with tools of its own
				continue
			}
			if why := getsTo(from(s, b), v, b, seed.line(b), room); !why.None() {
				return why
			}
		}
	}
	return fact.Fact{}
}

// from is a set-up as the work stands for a bore, by its index: seen from its face.
func from(s *setup.Setup, bore int) *setup.Setup {
	if seen := faces.Of(s.Job, bore); seen != s.Job {
		return s.With(seen)
	}
	return s
}

// getsTo is why the bar of a set-up does not get to a bore, by its index, for a visit; nothing where
// it does.
func getsTo(s *setup.Setup, v schedule.Visit, bore int, line *place.LineUp, room func(*place.Reach)) fact.Fact {
	b := s.Job.Bores[bore]
	v = blank(s, v, b)
	if _, err := pass.New(s, &v, s.Job.Stations[b.Station]); err != nil {
		return fact.Because(err)
	}
	r, err := place.NewReach(s, line, b.Station, &v)
	if err != nil {
		return fact.Because(err)
	}
	if len(r.Why) > 0 {
		return r.Why[0]
	}
	if why := r.BringIn(s.Job, &v); !why.None() {
		return why
	}
	room(r)
	return fact.Fact{}
}

// sketch is what the last passes of a visit take and what its roughing does; the latter is left out
// where no last pass lands, but for all.
func sketch(r *pass.Judge, all bool) (last, rough estimate) {
	r.AnyMove = true // no pass before it is known
	if turns := r.Job.Machine.Runout; turns > r.Visit.Roundness {
		last = never(fact.New(schedule.TurnsOut, fact.Figure(turns), fact.Figure(r.Visit.Roundness)), 0)
	} else {
		last = finishing(r)
	}
	if all || last.why.None() {
		rough = roughing(r, r.Visit.Start.MM()/2)
	}
	return last, rough
}

// speeds are a few that the planner would try, from the fastest.
func speeds(r *pass.Judge, own qty.CuttingSpeed, finish bool) (out []pass.Pick) {
	band := r.Visit.Material.Speeds[r.Job.Cutter.Material.Class]
	top, least := float64(band.Rough[1]), 0.5*float64(band.Rough[0])
	if finish {
		top = float64(band.Finish[1])
	}
	top *= setup.SpeedShare(r.Overhang)
	if own > 0 {
		top, least = float64(own), float64(own)
	}
	for v := top; v >= least*(1-1e-9) && len(out) < 5; v *= 0.6 {
		n := float64(qty.CuttingSpeed(v).Turning(r.Visit.Limits.Aim))
		if most := float64(r.Job.Limits.SpeedMost); most > 0 {
			n = math.Min(n, most)
		}
		n = r.SpeedAtMost(n)
		if len(out) > 0 && n >= out[len(out)-1].RPM {
			continue
		}
		out = append(out, pass.Pick{RPM: n, Speed: float64(qty.RevPerMin(n).At(r.Visit.Limits.Aim)), Within: true})
	}
	return out
}

// depths are those tried for the last pass, mm on radius, the usual first.
var depths = []float64{pass.UsualFinish, 0.05, 0.2, 0.025}

// finishing is what the last two passes cost at the least, alike but for their place; or the limit
// that the nearest of them is past, and by how much.
func finishing(r *pass.Judge) estimate {
	best := math.Inf(1)
	near, at := pass.Verdict{Ratio: math.Inf(1)}, pass.Cut{}
	picks := speeds(r, r.Job.Cutter.SpeedFinish, true)
	feeds := few(r.Feeds, func(f float64) bool { return r.FinishFeed(f, picks[0].Speed) })
	for _, depth := range depths {
		for _, pick := range picks {
			for _, feed := range feeds {
				time := r.MinutesOf(feed, pick.RPM, r.Visit.LastOut) + r.Job.Limits.HoldMinutes
				if 2*time > best {
					continue
				}
				c := r.FinishAt(depth, feed, pick)
				s := r.StabilityOf(c, r.LastLand())
				c.Sings = r.Sings(s)
				v := r.FinishVerdict(c, c, 0)
				if v.Ratio < near.Ratio {
					near, at = v, c
				}
				if !v.OK() {
					continue
				}
				doubt, half := r.LeastDoubt(c)
				best = math.Min(best, 2*(time+pass.ChatterPrice(s))+pass.MissPrice(doubt, half))
			}
		}
		if !math.IsInf(best, 1) {
			break
		}
	}
	switch {
	case !math.IsInf(best, 1):
		return estimate{minutes: best}
	case len(feeds) == 0:
		return never(fact.New(NoFineFeed, fact.Figure(qty.Roughness(r.Visit.Ra))), 0)
	}
	return nearest(r, schedule.PassOfFinish, near, at)
}

// nearest is that no pass of a kind keeps every limit, and what stops the one that comes nearest.
func nearest(r *pass.Judge, kind fact.Kind, v pass.Verdict, c pass.Cut) estimate {
	return never(fact.New(schedule.NearestPass, fact.New(kind), fact.MM(c.Depth), fact.MM(c.Feed), fact.Value(qty.KindSpindleSpeed, c.Pick.RPM), r.StoppedBy(v, c)), v.Ratio)
}

// few are five at the most of the feeds that do, from the coarsest, each finer by a fifth or more.
func few(feeds []float64, does func(f float64) bool) (out []float64) {
	for _, f := range slices.Backward(feeds) {
		if does(f) && len(out) < 5 && (len(out) == 0 || f < 0.8*out[len(out)-1]) {
			out = append(out, f)
		}
	}
	return out
}

// roughing is what passes all alike take to come near the size, at the least; or the limit that the
// nearest of them is past.
func roughing(r *pass.Judge, start float64) estimate {
	stock := r.Aim - start - 0.3 // what semi-finish and finish leave to it; common practice, no source
	if stock <= 0.05 {
		return estimate{}
	}
	best := math.Inf(1)
	near, at := pass.Verdict{Ratio: math.Inf(1)}, pass.Cut{}
	for _, pick := range speeds(r, r.Job.Cutter.SpeedRough, false) {
		for _, feed := range few(r.Feeds, func(f float64) bool { return f <= r.Job.Cutter.NoseRadius.MM() }) {
			one := r.MinutesOf(feed, pick.RPM, r.Visit.RoughOut) + r.SetMinutes()
			for n := max(1, int(math.Ceil(stock/r.DepthMost))); n <= 20 && float64(n)*one < best; n++ {
				depth := stock / float64(n)
				c := r.CutOf(setup.Stroke{}, depth, 0, feed, pick, r.Aim)
				c.Left = r.Aim - start - depth
				if v := r.RoughVerdict(c); !v.OK() {
					if v.Ratio < near.Ratio {
						near, at = v, c
					}
					continue
				}
				best = math.Min(best, float64(n)*(one+pass.ChatterPrice(r.StabilityOf(c, r.LastLand()))))
				break
			}
		}
	}
	switch {
	case !math.IsInf(best, 1):
		return estimate{minutes: best}
	case math.IsInf(near.Ratio, 1):
		return never(fact.New(NoRough), 0)
	}
	return nearest(r, schedule.PassOfRough, near, at)
}
