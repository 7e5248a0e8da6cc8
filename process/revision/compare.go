// Package revision compares two plans: what changed in the job and in its passes,
// ranked by what it can spoil, and what each part of the change comes to by
// itself. It leaves figures unformatted; it plans only by asking process/plan.
package revision

import (
	"fmt"
	"math"
	"slices"
	"sort"

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
	Part     Part   // of the job; WholeJob for what stands among the visits: a result of all changes
	Where    string // "bore idler, visit 1, pass 3"
	What     string // "cutter setting"
	Old, New field.Value
}

func figNone() field.Value               { return field.None() }
func figText(s string) field.Value       { return field.Value{Is: field.ValueText, Text: s} }
func figFact(f fact.Fact) field.Value    { return field.FactOf(f, false) }
func figSize(d qty.Diameter) field.Value { return field.FigureOf(d) }
func figLength(l qty.Length) field.Value { return field.FigureOf(l) }
func figSurface(v qty.CuttingSpeed) field.Value {
	return field.FigureOf(qty.KindExactCuttingSpeed.Of(float64(v)))
}
func figNumber(v float64, unit string) field.Value { return field.NumberOf(v, unit) }
func figYesNo(b bool, yes, not string) field.Value {
	return figText(map[bool]string{true: yes, false: not}[b])
}
func figOptText(s string) field.Value { return field.TextOf(s) }

// Compare lists what changed from one plan to the next, ordered by what it can
// spoil and, within that, in the order of the job. Bores and stations are
// matched by name, passes by kind and nearest setting. What follows from other
// figures without being set by hand (forces, power, torque, bar stress) is
// left to the sheet. A nil plan is compared as one with nothing in it.
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
	part  Part
	where string
	u     qty.Unit // of the reader: facts that read alike in it are the same
}

func (c *comparer) on(p Part) *comparer { c.part = p; return c }

func (c *comparer) at(where string) *comparer { c.where = where; return c }

func (c *comparer) fig(s field.Rank, what string, a, b field.Value) {
	if !a.Same(c.u, b) {
		c.out = append(c.out, Change{s, c.part, c.where, what, a, b})
	}
}

// these lists what differs between two values that are described alike.
func (c *comparer) these(a, b field.Described) { c.add(diff.Compare(c.u, a, b)) }

// sentences reports what was dropped and what was added, whatever the order; one
// in which only figures differ is one that changed.
func (c *comparer) sentences(s field.Rank, what string, a, b []string) {
	texts := func(list []string) (out []field.Value) {
		for _, x := range list {
			out = append(out, figText(x))
		}
		return out
	}
	c.add(diff.Lists(c.u, s, what, texts(a), texts(b)))
}

// facts does the same for facts, as sentences or as parts of one.
func (c *comparer) facts(s field.Rank, what string, sentence bool, a, b []fact.Fact) {
	as := func(list []fact.Fact) (out []field.Value) {
		for _, f := range list {
			out = append(out, field.FactOf(f, sentence))
		}
		return out
	}
	c.add(diff.Lists(c.u, s, what, as(a), as(b)))
}

func (c *comparer) add(list []diff.Difference) {
	for _, d := range list {
		c.out = append(c.out, Change{d.Rank, c.part, c.where, d.What, d.Old, d.New})
	}
}

func (c *comparer) plans(a, b *plan.Plan) {
	c.on(WholeJob).at("the plan").these(a, b)
	c.facts(process.SpoilsProof, "what stops it", false, reasons(a), reasons(b))
	c.jobs(a.Job, b.Job)

	for _, m := range pairUp(len(a.Bores), len(b.Bores), func(i, j int) bool {
		return boreHeading(a, i) == boreHeading(b, j)
	}) {
		switch {
		case m.b < 0:
			c.on(StationsAndBores).at(boreHeading(a, m.a)).fig(process.SpoilsSize, "visits planned", figNumber(float64(len(a.Bores[m.a].Visits)), ""), figNone())
		case m.a < 0:
			c.on(StationsAndBores).at(boreHeading(b, m.b)).fig(process.SpoilsSize, "visits planned", figNone(), figNumber(float64(len(b.Bores[m.b].Visits)), ""))
		default:
			c.bores(boreHeading(a, m.a), a.Bores[m.a], b.Bores[m.b])
		}
	}
	c.moves(a.LineUp, b.LineUp)
	c.on(WholeJob).at("the plan").fig(process.SpoilsFeed, "time in all", figNumber(a.Minutes, "min"), figNumber(b.Minutes, "min"))
	c.facts(process.SpoilsWords, "caution", true, a.Cautions, b.Cautions)
}

// Stopped is what stops a plan, with a list of what would free it.
const Stopped fact.Kind = "revision.stopped"

func reasons(p *plan.Plan) []fact.Fact {
	var out []fact.Fact
	for _, r := range p.Reasons { // where in its file says nothing of the job
		var free []fact.Fact
		for _, s := range r.Free {
			free = append(free, s.Fact())
		}
		out = append(out, fact.New(Stopped, r.What, fact.List(free...)))
	}
	return out
}

func boreHeading(p *plan.Plan, i int) string {
	if n := p.Bores[i].Station.Name; n != "" {
		return "bore " + n
	}
	return fmt.Sprintf("bore %d", i+1)
}

func (c *comparer) bores(name string, a, b plan.Bore) {
	c.on(StationsAndBores).at(name).these(&a, &b)
	for i := range max(len(a.Visits), len(b.Visits)) {
		c.on(WholeJob).at(fmt.Sprintf("%s, visit %d", name, i+1))
		switch {
		case i >= len(b.Visits):
			c.fig(process.SpoilsSize, "the visit", figFact(a.Visits[i].Title), figNone())
		case i >= len(a.Visits):
			c.fig(process.SpoilsSize, "the visit", figNone(), figFact(b.Visits[i].Title))
		default:
			c.visits(a.Visits[i], b.Visits[i])
		}
	}
	c.on(WholeJob).at(name+", sleeve").sleeves(a.Sleeve, b.Sleeve)
}

func (c *comparer) visits(a, b plan.Visit) {
	c.these(&a, &b)
	where := c.where
	for _, m := range pairPasses(a.Passes, b.Passes) {
		switch {
		case m.b < 0:
			p := a.Passes[m.a]
			c.at(fmt.Sprintf("%s, old pass %d", where, p.N)).fig(process.SpoilsSetting, "the pass", figText(p.Kind.String()), figNone())
			c.fig(process.SpoilsSetting, "cutter setting", figSize(p.Setting), figNone())
			c.fig(process.SpoilsSetting, "depth of cut", figLength(p.Depth), figNone())
			c.fig(process.SpoilsSize, "hold point", figFact(p.Hold.Fact()), figNone())
		case m.a < 0:
			p := b.Passes[m.b]
			c.at(fmt.Sprintf("%s, new pass %d", where, p.N)).fig(process.SpoilsSetting, "the pass", figNone(), figText(p.Kind.String()))
			c.fig(process.SpoilsSetting, "cutter setting", figNone(), figSize(p.Setting))
			c.fig(process.SpoilsSetting, "depth of cut", figNone(), figLength(p.Depth))
			c.fig(process.SpoilsSize, "hold point", figNone(), figFact(p.Hold.Fact()))
		default:
			p, q := a.Passes[m.a], b.Passes[m.b]
			if p.N == q.N {
				c.at(fmt.Sprintf("%s, pass %d (%s)", where, q.N, q.Kind))
			} else {
				c.at(fmt.Sprintf("%s, pass %d (%s), was pass %d", where, q.N, q.Kind, p.N))
			}
			c.passes(p, q)
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
	c.fig(hold, "hold point", figFact(a.Hold.Fact()), figFact(b.Hold.Fact()))
	c.these(&a, &b)
	if a.Speed == b.Speed { // else it says the same thing again
		c.fig(process.SpoilsFeed, "cutting speed", figSurface(a.Cutting), figSurface(b.Cutting))
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
