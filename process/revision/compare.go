// Package revision compares two plans: what changed in the job and in its passes,
// ranked by what it can spoil, and what each part of the change comes to by
// itself. It leaves figures unformatted; it plans only by asking process/plan.
package revision

import (
	"math"
	"slices"
	"sort"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/field/diff"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Change is one thing that differs between two plans, in the terms of the job.
type Change struct {
	Spoils   field.Rank
	Part     fact.Kind // of the job; WholeJob for what stands among the visits: a result of all changes; "": nothing is planned anew for it
	Where    fact.Fact // InPass
	From     Origin
	Key      string // of the job file, as "bar.steps[1].length"; "" where no key holds it alone
	What     string // "cutter setting"
	Old, New field.Value
}

// Origin is where a change comes from.
type Origin int

// The origins.
const (
	Result  Origin = iota // the plan has it otherwise, by all changes of the job together
	Edited                // somebody wrote it: in the job file or in a file that it names
	Follows               // a figure of the job that was left out and is filled in by what was written
)

// Compare lists what changed from one plan to the next, ordered by what it can
// spoil and, within that, in the order of the job. Bores and stations are
// matched by name, passes by kind and nearest setting. What follows from other
// figures without being set by hand (forces, power, torque, bar stress) is
// left to the sheet, and so is a result that prints alike in the units of the new
// job. A nil plan is compared as one with nothing in it.
func Compare(old, new *plan.Plan) []Change {
	a, b := planOrEmpty(old), planOrEmpty(new)
	c := &comparer{u: b.Job.Units}
	c.plans(a, b)
	sort.SliceStable(c.out, func(i, j int) bool { return c.out[i].Spoils < c.out[j].Spoils })
	return c.out
}

func planOrEmpty(p *plan.Plan) *plan.Plan {
	var q plan.Plan
	if p != nil {
		q = *p
	}
	if q.Job == nil {
		q.Job = &process.Job{}
	}
	return &q
}

// comparer gathers changes under a heading.
type comparer struct {
	out   []Change
	part  fact.Kind
	where fact.Fact
	from  Origin
	key   string              // of the table that is compared, before its own keys
	wrote func(string) Origin // where the figure of a key comes from
	u     qty.Unit            // of the reader: facts that read alike in it are the same
}

// at is the comparer for what belongs to a part of the job and stands in a place.
func (c *comparer) at(part fact.Kind, where fact.Fact) *comparer {
	c.part, c.where, c.key = part, where, ""
	return c
}

// table is the comparer for a table of the job file.
func (c *comparer) table(part fact.Kind, where fact.Fact, key string) *comparer {
	c.at(part, where).key = key
	return c
}

func (c *comparer) fig(s field.Rank, what string, a, b field.Value) {
	c.add([]diff.Difference{{Rank: s, What: what, Old: a, New: b}})
}

// gone is a thing that only the old plan has, come one that only the new one has.
func (c *comparer) gone(s field.Rank, what string, a field.Value) { c.fig(s, what, a, field.None()) }
func (c *comparer) come(s field.Rank, what string, b field.Value) { c.fig(s, what, field.None(), b) }

// these lists what differs between two values that are described alike.
func (c *comparer) these(a, b field.Described) { c.add(diff.Compare(c.u, a, b)) }

// names reports what was dropped and what was added, whatever the order.
func (c *comparer) names(s field.Rank, what string, a, b []string) {
	texts := func(list []string) (out []field.Value) {
		for _, x := range list {
			out = append(out, field.TextOf(x))
		}
		return out
	}
	c.add(diff.Lists(c.u, s, what, texts(a), texts(b)))
}

// facts does the same for facts; one in which only figures differ is one that
// changed.
func (c *comparer) facts(s field.Rank, what string, a, b []fact.Fact) {
	as := func(list []fact.Fact) (out []field.Value) {
		for _, f := range list {
			out = append(out, field.FactOf(f, false))
		}
		return out
	}
	c.add(diff.Lists(c.u, s, what, as(a), as(b)))
}

func (c *comparer) add(list []diff.Difference) {
	for _, d := range list {
		if d.Old.Same(c.u, d.New) || c.from == Result && printAlike(c.u, d.Old, d.New) {
			continue
		}
		from, key := c.from, c.key
		if c.from == Edited {
			if key = strings.TrimPrefix(key+"."+d.Path, "."); d.Path == "" {
				key = c.key
			}
			from = c.wrote(key)
		}
		c.out = append(c.out, Change{d.Rank, c.part, c.where, from, key, d.What, d.Old, d.New})
	}
}

// printAlike is whether two figures read the same as they are printed in u. A plain
// number is never printed.
func printAlike(u qty.Unit, v, w field.Value) bool {
	return v.Is == field.ValueFigure && w.Is == v.Is && v.Figure.Kind == w.Figure.Kind && v.Figure.Kind != qty.KindNumber && u.Say(v.Figure) == u.Say(w.Figure)
}

func (c *comparer) plans(a, b *plan.Plan) {
	c.at(WholeJob, fact.New(InPlan)).these(a, b)
	c.facts(process.SpoilsProof, "what stops it", reasons(a), reasons(b))
	c.from, c.wrote = Edited, writtenIn(a.Job, b.Job)
	c.jobs(a.Job, b.Job)
	c.from = Result

	visits := func(b plan.Bore) field.Value { return field.NumberOf(float64(len(b.Visits)), "") }
	for _, m := range pairBores(a, b) {
		switch {
		case m.b < 0:
			c.at(StationsAndBores, inPlanned(a.Bores[m.a])).gone(process.SpoilsSize, "visits planned", visits(a.Bores[m.a]))
		case m.a < 0:
			c.at(StationsAndBores, inPlanned(b.Bores[m.b])).come(process.SpoilsSize, "visits planned", visits(b.Bores[m.b]))
		default:
			c.bores(inPlanned(b.Bores[m.b]), a.Bores[m.a], b.Bores[m.b])
		}
	}
	c.at("", fact.New(InLiningUp)).these(a.LineUp, b.LineUp)
}

func inPlanned(b plan.Bore) fact.Fact { return inBore(b.Station.Name, b.Bore.Station) }

// sameStation is whether two stations are one: by name, and those without one by
// their place in the line.
func sameStation(a, b string, i, j int) bool { return a == b && (a != "" || i == j) }

func (c *comparer) bores(bore fact.Fact, a, b plan.Bore) {
	c.at(StationsAndBores, bore).these(&a, &b)
	for _, m := range pairVisits(a, b) {
		visit := func(v plan.Visit) fact.Fact { return fact.New(InVisit, bore, fact.Count(v.N)) }
		switch {
		case m.b < 0:
			c.at(WholeJob, visit(a.Visits[m.a])).gone(process.SpoilsSize, "the visit", field.FactOf(a.Visits[m.a].Title, false))
		case m.a < 0:
			c.at(WholeJob, visit(b.Visits[m.b])).come(process.SpoilsSize, "the visit", field.FactOf(b.Visits[m.b].Title, false))
		default:
			at := visit(b.Visits[m.b])
			c.at(WholeJob, at).visits(at, a.Visits[m.a], b.Visits[m.b])
		}
	}
	c.at(WholeJob, fact.New(InBoreSleeve, bore)).sleeves(a.Sleeve, b.Sleeve)
}

func (c *comparer) visits(visit fact.Fact, a, b plan.Visit) {
	c.these(&a, &b)
	whole := func(p schedule.Pass, one func(s field.Rank, what string, v field.Value)) {
		one(process.SpoilsSetting, "the pass", field.TextOf(p.Kind.String()))
		one(process.SpoilsSetting, "cutter setting", field.FigureOf(p.Setting))
		one(process.SpoilsSetting, "depth of cut", field.FigureOf(p.Depth))
		one(process.SpoilsSize, "hold point", field.FactOf(p.Hold.Fact(), false))
	}
	for _, m := range pairPasses(a.Passes, b.Passes) {
		switch {
		case m.b < 0:
			p := a.Passes[m.a]
			whole(p, c.at(c.part, fact.New(InOldPass, visit, fact.Count(p.N))).gone)
		case m.a < 0:
			p := b.Passes[m.b]
			whole(p, c.at(c.part, fact.New(InNewPass, visit, fact.Count(p.N))).come)
		default:
			p, q := a.Passes[m.a], b.Passes[m.b]
			var was fact.Arg
			if p.N != q.N {
				was = fact.Count(p.N)
			}
			c.at(c.part, fact.New(InPass, visit, fact.Count(q.N), fact.Name(q.Kind.String()), was)).passes(p, q)
		}
	}
}

func (c *comparer) passes(a, b schedule.Pass) {
	// A stop more or less can spoil the bore; what is said at a stop repeats
	// figures that are listed by themselves.
	hold := process.SpoilsSize
	if a.Hold != nil && b.Hold != nil && len(a.Hold.Measure) == len(b.Hold.Measure) {
		hold = process.SpoilsWords
	}
	c.fig(process.SpoilsSize, "edge honed first", field.FactOf(a.Hone.Fact(), false), field.FactOf(b.Hone.Fact(), false))
	c.fig(hold, "hold point", field.FactOf(a.Hold.Fact(), false), field.FactOf(b.Hold.Fact(), false))
	c.these(&a, &b)
	if a.Speed == b.Speed { // else it says the same thing again
		cutting := func(p schedule.Pass) field.Value {
			return field.FigureOf(qty.KindExactCuttingSpeed.Of(float64(p.Cutting)))
		}
		c.fig(process.SpoilsFeed, "cutting speed", cutting(a), cutting(b))
	}
}

// pairing joins an index of the old list to one of the new; -1 where it has none.
type pairing struct{ a, b int }

// pairUp joins two lists by a test for being the same, first come first served,
// and gives the pairs in the order of the new list, what was dropped last.
func pairUp(na, nb int, same func(i, j int) bool) []pairing {
	var out []pairing
	taken := make([]bool, na)
	for j := range nb {
		p := pairing{-1, j}
		for i := range na {
			if !taken[i] && same(i, j) {
				p.a, taken[i] = i, true
				break
			}
		}
		out = append(out, p)
	}
	for i, t := range taken {
		if !t {
			out = append(out, pairing{i, -1})
		}
	}
	return out
}

// pairBores joins the bores of two plans by their stations.
func pairBores(a, b *plan.Plan) []pairing {
	return pairUp(len(a.Bores), len(b.Bores), func(i, j int) bool {
		return sameStation(a.Bores[i].Station.Name, b.Bores[j].Station.Name, a.Bores[i].Bore.Station, b.Bores[j].Bore.Station)
	})
}

// pairVisits joins the visits of two bores by their numbers.
func pairVisits(a, b plan.Bore) []pairing {
	return pairUp(len(a.Visits), len(b.Visits), func(i, j int) bool { return a.Visits[i].N == b.Visits[j].N && a.Visits[i].Part == b.Visits[j].Part })
}

// pairPasses aligns two sequences of passes so that the fewest are called
// added or removed: an edit distance in which a pass may stand for one of the
// same kind at a cost of 0 for the same setting, rising to 1 for a far one.
func pairPasses(a, b []schedule.Pass) []pairing {
	cost := func(p, q schedule.Pass) float64 {
		if p.Kind != q.Kind {
			return math.Inf(1)
		}
		d := q.Setting.Minus(p.Setting).Abs().MM()
		return d / (d + 0.5)
	}
	n, m := len(a), len(b)
	best := make([][]float64, n+1)
	for i := range best {
		best[i] = make([]float64, m+1)
		for j := range best[i] {
			switch {
			case i == 0:
				best[i][j] = float64(j)
			case j == 0:
				best[i][j] = float64(i)
			default:
				best[i][j] = min(best[i-1][j]+1, best[i][j-1]+1, best[i-1][j-1]+cost(a[i-1], b[j-1]))
			}
		}
	}
	var out []pairing
	for i, j := n, m; i > 0 || j > 0; {
		switch {
		case i > 0 && j > 0 && best[i][j] == best[i-1][j-1]+cost(a[i-1], b[j-1]):
			i, j = i-1, j-1
			out = append(out, pairing{i, j})
		case j > 0 && best[i][j] == best[i][j-1]+1:
			j--
			out = append(out, pairing{-1, j})
		default:
			i--
			out = append(out, pairing{i, -1})
		}
	}
	slices.Reverse(out)
	return out
}
