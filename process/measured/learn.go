// Package measured takes the results of a job: what they teach of the spring,
// where each visit stands, what they forbid, and what the finished jobs of a shop
// say of its machines. It plans nothing: process/plan asks it for what is left. To
// look over an entry, or to make the record of a job, see process/record.
package measured

import (
	"cmp"
	"math"
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/marks"
	"borewright/process/pass"
	"borewright/process/passes"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// What measurements teach. The spring of a cut is c·F: compliance of bar and
// spindle, the same in every bore of the job, times the force, which is known
// per work material only. Both may be off by a factor, and the gauge sees their
// product. Feed force, which bends the bar the other way, may besides be off by itself. With
// x = (ln γ, ln φ₁, ln ψ₁, ln φ₂ …), γ the factor on the compliance, φ that on all forces
// and ψ that on feed force alone in each material,
//
//	y = g(γφ, ψ) + e,  y = setting − size found,  e ~ N(0, R)
//
// where g is the spring on diameter that the model gives for that cut at that
// factor (the cut that remains after deflection makes the force that deflects).
// Prior x ~ N(0, P₀), then for each measured cut, with h = ∂g/∂x,
//
//	K = P·hᵀ/(h·P·hᵀ + R);  x ← x + K·(y − g);  P ← P − K·h·P
//
// the conjugate normal update of a linear model, worked anew about its own
// result until that stands still (iterated extended Kalman filter: Särkkä,
// Bayesian Filtering and Smoothing, 2013, ch. 5, from memory; JCGM 101 for the
// meaning of the spread). On the log a factor stays above 0, and the two
// multiply as they do in the shop.
//
// R is what setting, gauge and temperature may do, and how well a spring
// repeats, as variances of figures held to 95 %.
//
// A cutter that is moved on by increment carries the error of its setting over. Then
// that error is a figure to be learned like the others, and no part of R: see
// place.go.

// rootDoubt is how far the stiffness of a spindle nose may be from what its
// file says, as a fraction (95 %): bolted and tapered joints are measured
// within a factor of two of each other (from memory).
const rootDoubt = 0.5

// barDoubt is the same for the bar itself: modulus, and what the steps hide.
// Common practice, no source.
const barDoubt = 0.10

// sigmas turns a figure held to 95 % into a standard deviation.
const sigmas = 1.96

// Learned is what the results of a job have taught.
type Learned struct {
	x        []float64
	p        [][]float64
	bars     map[*process.Tools]int // place in x of the compliance; that of the job's own bar is 0
	of       map[cutIn]int          // its place in x; that of its feed force is the next
	cuts     map[cutIn]int          // that were learned from
	last     map[cutIn]known        // of the spring of the last cut that was learned from
	states   []map[int]*state       // by bore, by visit from 0
	line     []fact.Fact            // by bore: why the witness cut forbids going on
	proved   []bool                 // by bore: the witness cut has confirmed the line-up
	Findings *Findings
	entries  []process.Measured             // as taken, filled in; beside Findings.Cuts
	tips     map[visitOf]*tip               // by increment: the cutter in each visit
	edges    map[string]*schedule.EdgeFound // by the name of the cutter
}

// cutIn is a material with the tools that cut it: another bar springs and another edge pushes in
// its own way.
type cutIn struct {
	m *process.Material
	t *process.Tools // nil: those of the job
}

// Known is KnownOf the job's own bar and cutter.
func (k *Learned) Known(m *process.Material, first setup.Known) setup.Known {
	return k.KnownOf(nil, m, first)
}

// KnownOf is spring over predicted spring of these tools in a material, feed force over that
// predicted with it, and what remains unknown of the two. Until a cut in it was measured the doubt
// is that of the job; the compliance may have been learned in another.
func (k *Learned) KnownOf(t *process.Tools, m *process.Material, first setup.Known) setup.Known {
	if k == nil {
		return first
	}
	b, used := k.bars[t]
	if !used {
		return first
	}
	i, seen := k.of[cutIn{m, t}]
	if !seen {
		return setup.Known{Factor: math.Exp(clampLog(k.x[b])), Feed: 1, Doubt: first.Doubt}
	}
	known := setup.Known{Factor: math.Exp(clampLog(k.x[b] + k.x[i])), Feed: math.Exp(k.x[i+1]), Doubt: first.Doubt}
	if k.cuts[cutIn{m, t}] == 0 {
		return known
	}
	all, feed := math.Sqrt(math.Max(0, k.p[b][b]+2*k.p[b][i]+k.p[i][i])), math.Sqrt(math.Max(0, k.p[i+1][i+1]))
	known.Doubt = setup.Doubt{All: sigmas * all, Feed: sigmas * feed}
	if all > 0 && feed > 0 {
		known.Doubt.Together = math.Max(-1, math.Min(1, (k.p[b][i+1]+k.p[i][i+1])/all/feed))
	}
	return known
}

// known is spring over predicted spring of one cut, and what remains unknown of it, as a
// fraction of it (95 %).
type known struct{ factor, doubt float64 }

// Asked is what learning asks of the planner.
type Asked struct {
	Visits func(b process.Bore) ([]schedule.Visit, error)             // of a bore, without passes, as found
	Line   func(station int) LineKnown                                // of the sweeps
	With   func(t *process.Tools, bore int) (*passes.Planning, error) // what cuts of a bore with other tools than the job's are reckoned with; nil is the job's
	First  func() []PlannedBore                                       // the passes planned before anything was measured, for what entries leave out
}

// PlannedBore is the passes planned for one bore.
type PlannedBore struct {
	Station string
	Visits  []schedule.Visit
}

// Learn goes through the entries in their order.
func Learn(s *passes.Planning, results *process.Results, w Asked) (*Learned, error) {
	job := s.Job
	k := &Learned{bars: map[*process.Tools]int{nil: 0}, of: map[cutIn]int{}, cuts: map[cutIn]int{}, last: map[cutIn]known{}, edges: map[string]*schedule.EdgeFound{}, tips: map[visitOf]*tip{}, line: make([]fact.Fact, len(job.Bores)), proved: make([]bool, len(job.Bores)),
		Findings: &Findings{Entries: len(results.Entries)}}
	for range job.Bores {
		k.states = append(k.states, map[int]*state{})
	}
	k.add(springDoubt(s))
	for i := range results.Entries {
		if correctedLater(results.Entries, i) {
			continue
		}
		if err := k.take(s, w, &results.Entries[i]); err != nil {
			return nil, err
		}
	}
	tools := job.AllTools()
	if !slices.Contains(tools, nil) {
		tools = append([]*process.Tools{nil}, tools...)
	}
	for _, m := range k.order(job) {
		for _, t := range tools {
			in := cutIn{m, t}
			if k.cuts[in] == 0 {
				continue
			}
			name := m.Name
			if t != nil {
				name += ", " + t.Bar.Called() + ", " + t.Cutter.Called()
			}
			k.Findings.Factors = append(k.Findings.Factors, Factor{name, k.last[in].factor, k.last[in].doubt, k.cuts[in]})
		}
	}
	k.say(job)
	return k, nil
}

// springDoubt is how far the compliance of a bar in its spindle may be from what is worked out, a
// standard deviation of its logarithm.
func springDoubt(s *passes.Planning) float64 {
	share := s.RootShare()
	return pass.BySquares(share*rootDoubt, (1-share)*barDoubt) / sigmas
}

// correctedLater is whether the same pass was entered again: then the later
// figures count, and these teach nothing.
func correctedLater(list []process.Measured, i int) bool {
	for _, m := range list[i+1:] {
		if m.Station == list[i].Station && m.Pass == list[i].Pass {
			return true
		}
	}
	return false
}

// order lists the materials as the job names them.
func (k *Learned) order(job *process.Job) []*process.Material {
	out := []*process.Material{job.Material}
	if job.Sleeve != nil && job.Sleeve.Material != job.Material {
		out = append(out, job.Sleeve.Material)
	}
	return out
}

// add gives x one place more, with a prior spread.
func (k *Learned) add(sigma float64) {
	n := len(k.x)
	k.x = append(k.x, 0)
	for i := range k.p {
		k.p[i] = append(k.p[i], 0)
	}
	k.p = append(k.p, make([]float64, n+1))
	k.p[n][n] = sigma * sigma
}

// take learns from one entry.
func (k *Learned) take(s *passes.Planning, w Asked, m *process.Measured) error {
	job := s.Job
	bore := job.BoreAt(m.Station)
	if bore < 0 {
		return fact.New(NothingBored, fact.Name(m.Place)).Err()
	}
	b, st := job.Bores[bore], job.Stations[m.Station]
	if m.Kind == process.SleeveFitted {
		if b.Repair != process.SleeveRepair {
			return fact.New(NoSleeve, fact.Name(m.Place), fact.Name(st.Name)).Err()
		}
		k.fitted(job, bore, *m)
		return nil
	}
	visits, err := w.Visits(b)
	if err != nil {
		return err
	}
	e, visit := asPlanned(w.First, st.Name, *m)
	if visit >= len(visits) {
		return fact.New(NoVisit, fact.Name(m.Place), fact.Name(st.Name), fact.Count(len(visits)), fact.Count(visit+1)).Err()
	}
	v := visits[visit]
	tools := k.cutBy(w.First, job, bore, &e)
	if s, err = w.With(tools, bore); err != nil {
		return err
	}
	job = s.Job
	pass.Travel(s.Setup, &v, st)
	r, err := s.Prepare(&v, st, false)
	if err != nil {
		return err
	}
	if e.WayOut == process.OutAsFits { // as the job has it now
		e.WayOut = v.OutAfter(schedule.Kind(e.Kind - process.WitnessCut)).By
	}
	if e.Least().MM() < 0.9*v.Start.MM() || e.Most().MM() > 1.25*max(v.Limits.High, v.StartMost).MM() {
		return fact.New(NoSize, fact.Name(m.Place), fact.Size(e.Least()), fact.Size(e.Most()), fact.Name(st.Name), fact.Size(v.Start), fact.Size(v.Limits.Aim), fact.Count(e.Pass)).Err()
	}
	least, most, doubt := v.Start.MM()/2, v.StartMost.MM()/2, 0.0 // as found
	rLeast, rMost := least, most
	if was := k.states[bore][visit]; was != nil && was.pass == e.Pass-1 {
		rLeast, rMost = was.rLeast, was.rMost
	} else if e.Before > 0 {
		rLeast, rMost = e.Before.MM()/2, e.Before.MM()/2
		switch {
		case visit == 0: // where the old bore is larger than that it has not been cut
			rMost = math.Max(rLeast, most)
		case e.Before <= v.StartMost && v.StartMost > v.Start: // a sleeve as it may have closed: a doubt, no shape
			less, _, _ := newCut(r, job, e, least, least).spring(1, 1)
			more, _, _ := newCut(r, job, e, most, most).spring(1, 1)
			rLeast, doubt = (least+most)/2, math.Abs(more-less)/2/math.Sqrt(3) // anywhere between, alike
			rMost = rLeast
		}
	}
	c := newCut(r, job, e, rLeast, rMost)
	c.noise = pass.BySquares(c.noise, doubt)
	if _, ok := k.bars[tools]; !ok {
		k.bars[tools] = len(k.x)
		k.add(springDoubt(s))
	}
	in := cutIn{v.Material, tools}
	if _, ok := k.of[in]; !ok {
		k.of[in] = len(k.x)
		k.add(job.Limits.ForceError / sigmas)
		k.add(setup.Predicted(job.Limits.ForceError).Doubt.Feed / sigmas)
	}
	seen := seenBy(job, bore, visit+1, v.Limits, v.Material, e)
	seen.Setting, seen.Bar, seen.Stickout, seen.Material = e.Setting, slenderest(job), job.Bar.CutterAt, v.Material.Name
	var unexplained fact.Fact
	tip := k.moved(job, visitOf{bore, visit, tools}, e)
	if c.set > 0 {
		spring, made, _ := c.spring(1, 1)
		most, _, _ := c.spring(factorMost, 1)
		noise := pass.BySquares(c.noise, k.spread(tip)) // of the size found, for any reason but the spring
		seen.shares(s.Setup, c, e, noise)
		seen.Predicted, seen.Seen = qty.FromMM(spring), e.Setting.Minus(e.Mean())
		switch {
		case e.Kind == process.WitnessCut || made < rMost: // did not cut all round
		case e.Tooling != "" && e.Tooling != marks.Tooling(job):
			k.Findings.Says = append(k.Findings.Says, fact.New(OtherTooling, fact.Name(st.Name), fact.Count(e.Pass)))
		case seen.Seen.MM() < -2*sigmas*noise:
			unexplained = fact.New(CameLarger, fact.Name(st.Name), fact.Count(e.Pass), fact.Figure(-seen.Seen))
		case seen.Seen.MM() > most+2*sigmas*noise:
			unexplained = fact.New(CameSmaller, fact.Name(st.Name), fact.Count(e.Pass), fact.Figure(seen.Seen), fact.Figure(qty.FromMM(most)))
		default:
			seen.Counts = true
			k.cuts[in]++
			k.last[in] = k.update(c, k.bars[tools], k.of[in], tip.at(), seen.Seen.MM())
			tip.found(k)
		}
		if !unexplained.None() {
			k.Findings.Says = append(k.Findings.Says, unexplained)
		}
	}
	k.Findings.Cuts, k.entries = append(k.Findings.Cuts, seen), append(k.entries, e)

	// The bore as it stands. Two-point sizes do not see the axis: the
	// most radius is no better than copying makes it.
	after := &state{pass: e.Pass, tools: tools, alpha: v.Material.Alpha, kind: cmp.Or(e.Kind, process.RoughCut), last: &e, limits: v.Limits, rLeast: e.Least().MM() / 2, rMost: e.Most().MM() / 2, unexplained: unexplained}
	after.stands, after.flank = k.stands(job, tip, e, seen.Counts, 0), r.FlankAfter(e.Land.MM(), e.Feed.MM(), float64(e.Speed.At(e.Setting)), after.rLeast, schedule.Kind(e.Kind-process.WitnessCut), e.WayOut, e.CutTo > 0)
	if c.set > 0 {
		f := k.KnownOf(tools, v.Material, setup.Known{})
		spring, made, left := c.spring(f.Factor, f.Feed)
		after.stands = k.stands(job, tip, e, seen.Counts, spring)
		after.stands.ByFeed = qty.FromMM(c.byFeed(f.Factor, f.Feed))
		if e.Kind == process.WitnessCut {
			after.rLeast = math.Min(after.rLeast, made)
			says, stops, sure := lineUp(job, b, st, &e, made, w.Line(m.Station))
			if len(job.Bores) > 1 && !says.None() {
				says = fact.New(AtStation, fact.Name(st.Name), says)
			}
			if k.line[bore], k.proved[bore] = stops, sure; !says.None() {
				k.Findings.Says = append(k.Findings.Says, says)
			}
		}
		after.rMost = math.Max(after.rMost, after.rLeast+math.Max(0, left-made))
	}
	if e.CutTo > 0 { // behind the band it stands as it did
		after.banded = qty.DiameterMM(2 * after.rLeast)
		after.rLeast, after.rMost = rLeast, math.Max(rMost, after.rMost)
	}
	if was := k.states[bore][visit]; was == nil || after.pass >= was.pass {
		k.states[bore][visit] = after
		k.edges[job.Cutter.Name] = &schedule.EdgeFound{Flank: after.flank, From: st.Name}
	}
	return nil
}

// cutBy is with which tools the cut of an entry was made: as its mark of the tooling says, else
// as its pass was planned first. nil: bar and cutter of the job.
func (k *Learned) cutBy(first func() []PlannedBore, job *process.Job, bore int, e *process.Measured) *process.Tools {
	rough, rest := job.ToolsOf(bore, true), job.ToolsOf(bore, false)
	if rough == rest || !job.RoughsApart(bore) {
		return rest
	}
	if e.Tooling != "" {
		for _, t := range []*process.Tools{rest, rough} {
			if marks.Tooling(job.Using(t)) == e.Tooling {
				return t
			}
		}
		return rest
	}
	for _, b := range first() {
		if b.Station != job.Stations[job.Bores[bore].Station].Name {
			continue
		}
		for _, v := range b.Visits {
			for _, q := range v.Passes {
				if q.N == e.Pass {
					return v.Tools
				}
			}
		}
	}
	return rest
}

// asPlanned fills in what an entry leaves out from the first plan, and says
// which visit it belongs to, from 0.
func asPlanned(first func() []PlannedBore, station string, e process.Measured) (process.Measured, int) {
	visit := e.Visit - 1
	if e.Visit > 0 && e.Setting > 0 && e.Feed > 0 && e.Speed > 0 && e.Kind != 0 && e.High > 0 {
		return e, visit // it says all itself
	}
	for _, b := range first() {
		if b.Station != station {
			continue
		}
		for _, v := range b.Visits {
			for n, q := range v.Passes {
				if q.N != e.Pass || e.Visit != 0 && e.Visit != v.N {
					continue
				}
				visit = v.N - 1
				e.Setting, e.Feed, e.Speed = cmp.Or(e.Setting, q.Setting), cmp.Or(e.Feed, q.Feed), cmp.Or(e.Speed, q.Speed)
				e.Kind, e.WayOut = cmp.Or(e.Kind, q.Kind.Cut()), cmp.Or(e.WayOut, q.Out.By)
				e.Land = cmp.Or(e.Land, qty.FromMM(q.Edge.Mean.Likely))
				e.Low, e.High = cmp.Or(e.Low, q.Low), cmp.Or(e.High, q.High)
				if q.Band != nil {
					e.CutTo = cmp.Or(e.CutTo, q.Band.To)
				}
				switch {
				case n == 0 && v.Part == schedule.Finishing: // roughed apart
					e.Before = cmp.Or(e.Before, v.Start)
				case n > 0 && v.Passes[n-1].Band == nil:
					e.Before = cmp.Or(e.Before, v.Passes[n-1].Expected)
				}
			}
		}
	}
	return e, max(0, visit)
}

// update is the filter's step for one cut by bar b, seen to spring by y in material i. tip is
// the place in x of where the tip stands beyond its setting, mm on diameter; below 0
// that is no figure to be learned. It tells what is known of the spring of that cut then.
func (k *Learned) update(c springCut, b, i, tip int, y float64) known {
	n := len(k.x)
	x0, at := append([]float64(nil), k.x...), append([]float64(nil), k.x...)
	var gain, ph []float64
	for range 4 {
		all, feed := math.Exp(clampLog(at[b]+at[i])), math.Exp(at[i+1])
		g, _, _ := c.spring(all, feed)
		up, _, _ := c.spring(all*math.Exp(1e-4), feed)
		h := make([]float64, n) // ∂y/∂x
		h[b] = (up - g) / 1e-4  // the same for both factors
		h[i], h[i+1] = h[b], c.byFeed(all, feed)
		if tip >= 0 {
			h[tip] = c.beyond(all, feed) - 1
			g += h[tip] * at[tip]
		}
		ph = make([]float64, n)
		for r := range n {
			for q := range n {
				ph[r] += k.p[r][q] * h[q]
			}
		}
		s, off := c.noise*c.noise+math.Pow(c.again*math.Max(0, g), 2), y-g
		for r := range n {
			s += h[r] * ph[r]
			off -= h[r] * (x0[r] - at[r])
		}
		gain = make([]float64, n)
		for r := range n {
			gain[r] = ph[r] / s
			at[r] = x0[r] + gain[r]*off
		}
	}
	k.x = at
	for r := range n {
		for q := range n {
			k.p[r][q] -= gain[r] * ph[q]
		}
	}
	all, feed := math.Exp(clampLog(at[b]+at[i])), math.Exp(at[i+1])
	push, more := c.push(all, feed, all, feed), c.push(all, feed, all, feed*(1+1e-3))
	byFeed := (more/push - 1) / 1e-3
	both := k.p[b][b] + 2*k.p[b][i] + k.p[i][i]
	spread := math.Sqrt(math.Max(0, both+2*byFeed*(k.p[b][i+1]+k.p[i][i+1])+byFeed*byFeed*k.p[i+1][i+1]))
	return known{push / c.push(all, feed, 1, 1), sigmas * spread}
}

// factorMost is how far spring seen may stand from spring predicted, either way:
// beyond that it is not a bar that springs but a mistake. Common practice, no source.
const factorMost = 5.0

// clampLog keeps the logarithm of a factor within factorMost.
func clampLog(x float64) float64 {
	return math.Max(-math.Log(factorMost), math.Min(math.Log(factorMost), x))
}
