// Package revision compares two plans: what changed in the job and in its passes,
// ranked by what it can spoil, and what each part of the change comes to by
// itself. It leaves figures unformatted; it plans only by asking process/plan.
package revision

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"unicode"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/passes"
	"borewright/process/plan"
	"borewright/process/qty"
)

// Spoils says what a change can spoil, worst first. Changes are ordered by it,
// so that a reviewer who reads only the top of a report reads the right part.
type Spoils int

// What a change can spoil.
const (
	SpoilsProof   Spoils = iota // whether the job can be done at all
	SpoilsSize                  // final size, place, form or surface of the bore
	SpoilsFit                   // how the sleeve is held
	SpoilsReach                 // what the bar passes and how far it gets
	SpoilsSetting               // what the cutter is set to, and what remains of it
	SpoilsFeed                  // speeds, feeds and time
	SpoilsWords                 // text only
)

// Change is one thing that differs between two plans, in the terms of the job.
type Change struct {
	Spoils   Spoils
	Part     Part   // of the job; WholeJob for what stands among the visits: a result of all changes
	Where    string // "bore idler, visit 1, pass 3"
	What     string // "cutter setting"
	Old, New Figure // Is is FigureNone on the side that does not have it
}

// FigureKind says how a Figure is to be read.
type FigureKind int

// The kinds of figure.
const (
	FigureNone     FigureKind = iota // not there
	FigureText                       // Text
	FigureSize                       // Length, a diameter
	FigureLength                     // Length
	FigureFine                       // Length that wants one decimal more: spring, out-of-round
	FigureFeed                       // Length a revolution
	FigureRa                         // Length, a roughness
	FigureNumber                     // Number, with its unit in Text
	FigureSurface                    // Number, a cutting speed in m/min
	FigureFact                       // Fact, part of a sentence
	FigureSentence                   // Fact, a sentence
)

// Figure is one side of a change. It is left unformatted: the sheet knows what
// units the reader works in.
type Figure struct {
	Is     FigureKind
	Length qty.Length
	Number float64
	Text   string
	Fact   fact.Fact
}

func figNone() Figure                      { return Figure{} }
func figText(s string) Figure              { return Figure{Is: FigureText, Text: s} }
func figFact(f fact.Fact) Figure           { return figUnless(f.None(), Figure{Is: FigureFact, Fact: f}) }
func figSentence(f fact.Fact) Figure       { return figUnless(f.None(), Figure{Is: FigureSentence, Fact: f}) }
func figSize(d qty.Diameter) Figure        { return Figure{Is: FigureSize, Length: d.Length()} }
func figLength(l qty.Length) Figure        { return Figure{Is: FigureLength, Length: l} }
func figFine(l qty.Length) Figure          { return Figure{Is: FigureFine, Length: l} }
func figFeed(l qty.Length) Figure          { return Figure{Is: FigureFeed, Length: l} }
func figRa(l qty.Length) Figure            { return Figure{Is: FigureRa, Length: l} }
func figNumber(v float64, u string) Figure { return Figure{Is: FigureNumber, Number: v, Text: u} }
func figSurface(v qty.CuttingSpeed) Figure { return Figure{Is: FigureSurface, Number: float64(v)} }
func figChance(b *passes.Budget) Figure {
	if b == nil {
		return figNone()
	}
	return figText(b.String())
}
func figYesNo(b bool, yes, not string) Figure {
	return figText(map[bool]string{true: yes, false: not}[b])
}
func figOptSize(d qty.Diameter) Figure        { return figUnless(d == 0, figSize(d)) }
func figOptLength(l qty.Length) Figure        { return figUnless(l == 0, figLength(l)) }
func figOptText(s string) Figure              { return figUnless(s == "", figText(s)) }
func figOptSurface(v qty.CuttingSpeed) Figure { return figUnless(v == 0, figSurface(v)) }

func figUnless(zero bool, f Figure) Figure {
	if zero {
		return figNone()
	}
	return f
}

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
	u     qty.Unit // in which facts are told apart
}

func (c *comparer) on(p Part) *comparer { c.part = p; return c }

func (c *comparer) at(where string) *comparer { c.where = where; return c }

func (c *comparer) fig(s Spoils, what string, a, b Figure) {
	if c.same(a, b) {
		return
	}
	c.out = append(c.out, Change{s, c.part, c.where, what, a, b})
}

// same is whether two figures read the same.
func (c *comparer) same(a, b Figure) bool {
	return a.Is == b.Is && a.Length == b.Length && a.Text == b.Text && fact.Reads(c.u, a.Fact, b.Fact) &&
		(a.Number == b.Number || math.IsNaN(a.Number) && math.IsNaN(b.Number))
}

// facts reports what was dropped and what was added, whatever the order; one in
// which only figures differ is one that changed.
func (c *comparer) facts(s Spoils, what string, as func(fact.Fact) Figure, a, b []fact.Fact) {
	left := slices.Clone(b)
	take := func(same func(fact.Fact) bool) (fact.Fact, bool) {
		i := slices.IndexFunc(left, same)
		if i < 0 {
			return fact.Fact{}, false
		}
		y := left[i]
		left = slices.Delete(left, i, i+1)
		return y, true
	}
	var gone []fact.Fact
	for _, x := range a {
		if _, ok := take(func(y fact.Fact) bool { return fact.Reads(c.u, x, y) }); !ok {
			gone = append(gone, x)
		}
	}
	for _, x := range gone {
		y, _ := take(func(y fact.Fact) bool { return alike(x, y) })
		c.fig(s, what, as(x), as(y))
	}
	for _, y := range left {
		c.fig(s, what, figNone(), as(y))
	}
}

// alike is whether two facts differ in figures only. Of what was read back from
// a document nothing but the text is known.
func alike(a, b fact.Fact) bool {
	if a.Kind != fact.Written || b.Kind != fact.Written {
		return fact.Alike(a, b)
	}
	x, _ := fact.AsName(a.Nth(1))
	y, _ := fact.AsName(b.Nth(1))
	return withoutFigures(x) == withoutFigures(y)
}

// sentences reports what was dropped and what was added, whatever the order; one
// in which only figures differ is one that changed.
func (c *comparer) sentences(s Spoils, what string, a, b []string) {
	left := slices.Clone(b)
	take := func(same func(string) bool) (string, bool) {
		i := slices.IndexFunc(left, same)
		if i < 0 {
			return "", false
		}
		y := left[i]
		left = slices.Delete(left, i, i+1)
		return y, true
	}
	var gone []string
	for _, x := range a {
		if _, ok := take(func(y string) bool { return y == x }); !ok {
			gone = append(gone, x)
		}
	}
	for _, x := range gone {
		if y, ok := take(func(y string) bool { return withoutFigures(y) == withoutFigures(x) }); ok {
			c.fig(s, what, figText(x), figText(y))
		} else {
			c.fig(s, what, figText(x), figNone())
		}
	}
	for _, y := range left {
		c.fig(s, what, figNone(), figText(y))
	}
}

func withoutFigures(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsDigit(r) || r == '.' || r == ',' {
			return -1
		}
		return r
	}, s)
}

func (c *comparer) plans(a, b *plan.Plan) {
	c.on(WholeJob).at("the plan").fig(SpoilsProof, "proof", figYesNo(a.Feasible, "proven", "NOT PROVEN"), figYesNo(b.Feasible, "proven", "NOT PROVEN"))
	c.sentences(SpoilsProof, "what stops it", reasonLines(a), reasonLines(b))
	c.jobs(a.Job, b.Job)

	for _, m := range pairUp(len(a.Bores), len(b.Bores), func(i, j int) bool {
		return boreHeading(a, i) == boreHeading(b, j)
	}) {
		switch {
		case m.b < 0:
			c.on(StationsAndBores).at(boreHeading(a, m.a)).fig(SpoilsSize, "visits planned", figNumber(float64(len(a.Bores[m.a].Visits)), ""), figNone())
		case m.a < 0:
			c.on(StationsAndBores).at(boreHeading(b, m.b)).fig(SpoilsSize, "visits planned", figNone(), figNumber(float64(len(b.Bores[m.b].Visits)), ""))
		default:
			c.bores(boreHeading(a, m.a), a.Bores[m.a], b.Bores[m.b])
		}
	}
	c.moves(a.LineUp, b.LineUp)
	c.on(WholeJob).at("the plan").fig(SpoilsFeed, "time in all", figNumber(a.Minutes, "min"), figNumber(b.Minutes, "min"))
	c.sentences(SpoilsWords, "caution", a.Cautions, b.Cautions)
}

func reasonLines(p *plan.Plan) []string {
	var out []string
	for _, r := range p.Reasons {
		s := r.What // where in its file says nothing of the job
		if len(r.Free) > 0 {
			s += " (would free it: " + strings.Join(r.Free, "; ") + ")"
		}
		out = append(out, s)
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
	c.on(StationsAndBores).at(name).cleanUp(a.CleanUp, b.CleanUp)
	for i := range max(len(a.Visits), len(b.Visits)) {
		c.on(WholeJob).at(fmt.Sprintf("%s, visit %d", name, i+1))
		switch {
		case i >= len(b.Visits):
			c.fig(SpoilsSize, "the visit", figFact(a.Visits[i].Title), figNone())
		case i >= len(a.Visits):
			c.fig(SpoilsSize, "the visit", figNone(), figFact(b.Visits[i].Title))
		default:
			c.visits(a.Visits[i], b.Visits[i])
		}
	}
	c.on(WholeJob).at(name+", sleeve").sleeves(a.Sleeve, b.Sleeve)
}

func (c *comparer) visits(a, b plan.Visit) {
	c.fig(SpoilsSize, "low limit", figSize(a.Limits.Low), figSize(b.Limits.Low))
	c.fig(SpoilsSize, "high limit", figSize(a.Limits.High), figSize(b.Limits.High))
	c.fig(SpoilsSize, "size aimed at", figSize(a.Limits.Aim), figSize(b.Limits.Aim))
	c.fig(SpoilsSize, "fit", figOptText(a.Limits.Fit), figOptText(b.Limits.Fit))
	c.fig(SpoilsSize, "Ra", figRa(a.Ra), figRa(b.Ra))
	c.fig(SpoilsSize, "roundness", figFine(a.Roundness), figFine(b.Roundness))
	c.fig(SpoilsSize, "shift off the wall to retract", figLength(a.Retract.Shift), figLength(b.Retract.Shift))
	c.facts(SpoilsFit, "work before", figSentence, a.Before, b.Before)
	c.facts(SpoilsFit, "work after", figSentence, a.After, b.After)
	c.fig(SpoilsReach, "from", figLength(a.From), figLength(b.From))
	c.fig(SpoilsReach, "to", figLength(a.To), figLength(b.To))
	c.fig(SpoilsReach, "feed begins at", figLength(a.Clear), figLength(b.Clear))
	c.fig(SpoilsReach, "feed ends at", figLength(a.End), figLength(b.End))
	c.fig(SpoilsReach, "stickout over diameter", figNumber(a.Overhang, ""), figNumber(b.Overhang, ""))
	c.fig(SpoilsSize, "chance of landing on size", figChance(a.Budget), figChance(b.Budget))
	c.reach(a.Reach, b.Reach)
	c.fig(SpoilsReach, "cutter goes in", figYesNo(a.SetInside, "inside, at the bore", "outside"), figYesNo(b.SetInside, "inside, at the bore", "outside"))
	c.fig(SpoilsSetting, "compliance, least", figNumber(a.Compliance[0], "µm/N"), figNumber(b.Compliance[0], "µm/N"))
	c.fig(SpoilsSetting, "compliance, most", figNumber(a.Compliance[1], "µm/N"), figNumber(b.Compliance[1], "µm/N"))
	c.fig(SpoilsSetting, "the rest, after pass", figUnless(a.Behind == 0, figNumber(float64(a.Behind), "")), figUnless(b.Behind == 0, figNumber(float64(b.Behind), "")))
	c.fig(SpoilsSetting, "as found, smallest", figSize(a.Start), figSize(b.Start))
	c.fig(SpoilsSetting, "as found, largest", figSize(a.StartMost), figSize(b.StartMost))
	c.fig(SpoilsSetting, "material cut", figOptText(workName(a.Material)), figOptText(workName(b.Material)))
	c.fig(SpoilsWords, "title", figFact(a.Title), figFact(b.Title))
	c.fig(SpoilsWords, "visit number", figNumber(float64(a.N), ""), figNumber(float64(b.N), ""))
	c.fig(SpoilsWords, "why it retracts so", figOptText(a.Retract.Why), figOptText(b.Retract.Why))

	where := c.where
	for _, m := range pairPasses(a.Passes, b.Passes) {
		switch {
		case m.b < 0:
			p := a.Passes[m.a]
			c.at(fmt.Sprintf("%s, old pass %d", where, p.N)).fig(SpoilsSetting, "the pass", figText(p.Kind.String()), figNone())
			c.fig(SpoilsSetting, "cutter setting", figSize(p.Setting), figNone())
			c.fig(SpoilsSetting, "depth of cut", figLength(p.Depth), figNone())
			c.fig(SpoilsSize, "hold point", figOptText(holdWords(p.Hold)), figNone())
		case m.a < 0:
			p := b.Passes[m.b]
			c.at(fmt.Sprintf("%s, new pass %d", where, p.N)).fig(SpoilsSetting, "the pass", figNone(), figText(p.Kind.String()))
			c.fig(SpoilsSetting, "cutter setting", figNone(), figSize(p.Setting))
			c.fig(SpoilsSetting, "depth of cut", figNone(), figLength(p.Depth))
			c.fig(SpoilsSize, "hold point", figNone(), figOptText(holdWords(p.Hold)))
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

func (c *comparer) passes(a, b passes.Pass) {
	// A stop more or less can spoil the bore; what is said at a stop repeats
	// figures that are listed by themselves.
	hold := SpoilsSize
	if a.Hold != nil && b.Hold != nil && len(a.Hold.Measure) == len(b.Hold.Measure) {
		hold = SpoilsWords
	}
	c.fig(hold, "hold point", figOptText(holdWords(a.Hold)), figOptText(holdWords(b.Hold)))
	left := SpoilsSetting // of a pass that others follow
	if a.Kind == passes.Finish || b.Kind == passes.Finish {
		left = SpoilsSize
	}
	c.fig(left, "Ra expected", figRa(toNext(a.Ra, raStep)), figRa(toNext(b.Ra, raStep)))
	c.fig(left, "out-of-round left", figFine(toNext(a.OutOfRound, formStep)), figFine(toNext(b.OutOfRound, formStep)))
	c.fig(SpoilsSize, "taper", figFine(a.Taper), figFine(b.Taper))
	c.fig(SpoilsSize, "chatter", figText(string(a.Stability.Chatter())), figText(string(b.Stability.Chatter())))
	c.fig(SpoilsFeed, "edge of chatter over the cut, least", figNumber(a.Stability.Margin[0], "times"), figNumber(b.Stability.Margin[0], "times"))
	c.fig(SpoilsFeed, "edge of chatter over the cut, most", figNumber(a.Stability.Margin[1], "times"), figNumber(b.Stability.Margin[1], "times"))
	c.fig(SpoilsFeed, "would sing at", figNumber(a.Stability.Hz, "Hz"), figNumber(b.Stability.Hz, "Hz"))
	c.fig(SpoilsSetting, "cutter setting", figSize(a.Setting), figSize(b.Setting))
	c.fig(SpoilsSetting, "expected, low", figSize(a.Low), figSize(b.Low))
	c.fig(SpoilsSetting, "expected", figSize(a.Expected), figSize(b.Expected))
	c.fig(SpoilsSetting, "expected, high", figSize(a.High), figSize(b.High))
	c.fig(SpoilsSetting, "depth of cut", figLength(a.Depth), figLength(b.Depth))
	c.fig(SpoilsSetting, "spring", figFine(a.Spring), figFine(b.Spring))
	c.fig(SpoilsFeed, "feed", figFeed(a.Feed), figFeed(b.Feed))
	c.fig(SpoilsFeed, "spindle speed", figNumber(float64(a.Speed), "rev/min"), figNumber(float64(b.Speed), "rev/min"))
	if a.Speed == b.Speed { // else it says the same thing again
		c.fig(SpoilsFeed, "cutting speed", figSurface(a.Cutting), figSurface(b.Cutting))
	}
	c.fig(SpoilsFeed, "time", figNumber(a.Minutes, "min"), figNumber(b.Minutes, "min"))
	c.fig(SpoilsWords, "limited by", figOptText(a.LimitedBy), figOptText(b.LimitedBy))
}

func holdWords(h *passes.Hold) string {
	if h == nil {
		return ""
	}
	return fmt.Sprintf("stop %g min, measure: %s; then: %s", h.Minutes, strings.Join(h.Measure, ", "), h.Then)
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
func pairPasses(a, b []passes.Pass) []pairing {
	cost := func(p, q passes.Pass) float64 {
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

func workName(m *process.Material) string {
	switch {
	case m == nil:
		return ""
	case m.Name != "":
		return m.Name
	}
	return m.ID
}

// What a cut is reckoned to leave is compared to the last figure that a sheet
// prints of it, a microinch of Ra and a hundredth of a thousandth of an inch of
// form: below that a difference is the arithmetic's, not the bore's.
const (
	raStep   qty.Length = 25
	formStep qty.Length = 254
)

func toNext(l, step qty.Length) qty.Length { return (l + step/2) / step * step }
