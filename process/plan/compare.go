package plan

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"sort"
	"strings"
	"unicode"

	"borewright/process"
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
	Where    string // "bore idler, visit 1, pass 3"
	What     string // "cutter setting"
	Old, New Figure // Is is FigureNone on the side that does not have it
}

// FigureKind says how a Figure is to be read.
type FigureKind int

// The kinds of figure.
const (
	FigureNone    FigureKind = iota // not there
	FigureText                      // Text
	FigureSize                      // Length, a diameter
	FigureLength                    // Length
	FigureFine                      // Length that wants one decimal more: spring, out-of-round
	FigureFeed                      // Length a revolution
	FigureRa                        // Length, a roughness
	FigureNumber                    // Number, with its unit in Text
	FigureSurface                   // Number, a cutting speed in m/min
)

// Figure is one side of a change. It is left unformatted: the sheet knows what
// units the reader works in.
type Figure struct {
	Is     FigureKind
	Length qty.Length
	Number float64
	Text   string
}

func figNone() Figure                      { return Figure{} }
func figText(s string) Figure              { return Figure{Is: FigureText, Text: s} }
func figSize(d qty.Diameter) Figure        { return Figure{Is: FigureSize, Length: d.Length()} }
func figLength(l qty.Length) Figure        { return Figure{Is: FigureLength, Length: l} }
func figFine(l qty.Length) Figure          { return Figure{Is: FigureFine, Length: l} }
func figFeed(l qty.Length) Figure          { return Figure{Is: FigureFeed, Length: l} }
func figRa(l qty.Length) Figure            { return Figure{Is: FigureRa, Length: l} }
func figNumber(v float64, u string) Figure { return Figure{Is: FigureNumber, Number: v, Text: u} }
func figSurface(v qty.CuttingSpeed) Figure { return Figure{Is: FigureSurface, Number: float64(v)} }
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
func Compare(old, new *Plan) []Change {
	a, b := planOrEmpty(old), planOrEmpty(new)
	c := &comparer{}
	c.plans(a, b)
	sort.SliceStable(c.out, func(i, j int) bool { return c.out[i].Spoils < c.out[j].Spoils })
	return c.out
}

func planOrEmpty(p *Plan) *Plan {
	var q Plan
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
	where string
}

func (c *comparer) at(where string) *comparer { c.where = where; return c }

func (c *comparer) fig(s Spoils, what string, a, b Figure) {
	if a == b || math.IsNaN(a.Number) && math.IsNaN(b.Number) {
		return
	}
	c.out = append(c.out, Change{s, c.where, what, a, b})
}

// sentences reports what was dropped and what was added, whatever the order.
func (c *comparer) sentences(s Spoils, what string, a, b []string) {
	left := slices.Clone(b)
	for _, x := range a {
		if i := slices.Index(left, x); i >= 0 {
			left = slices.Delete(left, i, i+1)
			continue
		}
		c.fig(s, what, figText(x), figNone())
	}
	for _, x := range left {
		c.fig(s, what, figNone(), figText(x))
	}
}

func (c *comparer) plans(a, b *Plan) {
	c.at("the plan").fig(SpoilsProof, "proof", figYesNo(a.Feasible, "proven", "NOT PROVEN"), figYesNo(b.Feasible, "proven", "NOT PROVEN"))
	c.sentences(SpoilsProof, "what stops it", reasonLines(a), reasonLines(b))
	c.jobs(a.Job, b.Job)

	for _, m := range pairUp(len(a.Bores), len(b.Bores), func(i, j int) bool {
		return boreHeading(a, i) == boreHeading(b, j)
	}) {
		switch {
		case m.b < 0:
			c.at(boreHeading(a, m.a)).fig(SpoilsSize, "visits planned", figNumber(float64(len(a.Bores[m.a].Visits)), ""), figNone())
		case m.a < 0:
			c.at(boreHeading(b, m.b)).fig(SpoilsSize, "visits planned", figNone(), figNumber(float64(len(b.Bores[m.b].Visits)), ""))
		default:
			c.bores(boreHeading(a, m.a), a.Bores[m.a], b.Bores[m.b])
		}
	}
	c.at("the plan").fig(SpoilsFeed, "time in all", figNumber(a.Minutes, "min"), figNumber(b.Minutes, "min"))
	c.sentences(SpoilsWords, "caution", a.Cautions, b.Cautions)
}

func reasonLines(p *Plan) []string {
	var out []string
	for _, r := range p.Reasons {
		s := r.What
		if r.Where != "" {
			s = r.Where + ": " + s
		}
		if len(r.Free) > 0 {
			s += " (would free it: " + strings.Join(r.Free, "; ") + ")"
		}
		out = append(out, s)
	}
	return out
}

func boreHeading(p *Plan, i int) string {
	if n := p.Bores[i].Station.Name; n != "" {
		return "bore " + n
	}
	return fmt.Sprintf("bore %d", i+1)
}

func (c *comparer) bores(name string, a, b Bore) {
	for i := range max(len(a.Visits), len(b.Visits)) {
		c.at(fmt.Sprintf("%s, visit %d", name, i+1))
		switch {
		case i >= len(b.Visits):
			c.fig(SpoilsSize, "the visit", figText(a.Visits[i].Title), figNone())
		case i >= len(a.Visits):
			c.fig(SpoilsSize, "the visit", figNone(), figText(b.Visits[i].Title))
		default:
			c.visits(a.Visits[i], b.Visits[i])
		}
	}
}

func (c *comparer) visits(a, b Visit) {
	c.fig(SpoilsSize, "low limit", figSize(a.Limits.Low), figSize(b.Limits.Low))
	c.fig(SpoilsSize, "high limit", figSize(a.Limits.High), figSize(b.Limits.High))
	c.fig(SpoilsSize, "size aimed at", figSize(a.Limits.Aim), figSize(b.Limits.Aim))
	c.fig(SpoilsSize, "fit", figOptText(a.Limits.Fit), figOptText(b.Limits.Fit))
	c.fig(SpoilsSize, "Ra", figRa(a.Ra), figRa(b.Ra))
	c.fig(SpoilsSize, "roundness", figFine(a.Roundness), figFine(b.Roundness))
	c.fig(SpoilsSize, "shift off the wall to retract", figLength(a.Retract.Shift), figLength(b.Retract.Shift))
	c.sentences(SpoilsFit, "work before", a.Before, b.Before)
	c.sentences(SpoilsFit, "work after", a.After, b.After)
	c.fig(SpoilsReach, "from", figLength(a.From), figLength(b.From))
	c.fig(SpoilsReach, "to", figLength(a.To), figLength(b.To))
	c.fig(SpoilsReach, "feed begins at", figLength(a.Clear), figLength(b.Clear))
	c.fig(SpoilsReach, "feed ends at", figLength(a.End), figLength(b.End))
	c.fig(SpoilsReach, "stickout over diameter", figNumber(a.Overhang, ""), figNumber(b.Overhang, ""))
	c.fig(SpoilsSetting, "compliance, least", figNumber(a.Compliance[0], "µm/N"), figNumber(b.Compliance[0], "µm/N"))
	c.fig(SpoilsSetting, "compliance, most", figNumber(a.Compliance[1], "µm/N"), figNumber(b.Compliance[1], "µm/N"))
	c.fig(SpoilsSetting, "as found, smallest", figSize(a.Start), figSize(b.Start))
	c.fig(SpoilsSetting, "as found, largest", figSize(a.StartMost), figSize(b.StartMost))
	c.fig(SpoilsSetting, "material cut", figOptText(workName(a.Material)), figOptText(workName(b.Material)))
	c.fig(SpoilsWords, "title", figText(a.Title), figText(b.Title))
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

func (c *comparer) passes(a, b Pass) {
	c.fig(SpoilsSize, "hold point", figOptText(holdWords(a.Hold)), figOptText(holdWords(b.Hold)))
	c.fig(SpoilsSize, "Ra expected", figRa(a.Ra), figRa(b.Ra))
	c.fig(SpoilsSize, "out-of-round left", figFine(a.OutOfRound), figFine(b.OutOfRound))
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

func holdWords(h *Hold) string {
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
func pairPasses(a, b []Pass) []pairing {
	cost := func(p, q Pass) float64 {
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

func (c *comparer) jobs(a, b *process.Job) {
	c.at("the job")
	c.fig(SpoilsSetting, "units", figText(a.Units.String()), figText(b.Units.String()))
	for _, w := range [...][3]string{
		{"number", a.Number, b.Number}, {"revision", a.Revision, b.Revision},
		{"title", a.Title, b.Title}, {"customer", a.Customer, b.Customer},
	} {
		c.fig(SpoilsWords, w[0], figOptText(w[1]), figOptText(w[2]))
	}
	c.sentences(SpoilsWords, "note", a.Notes, b.Notes)
	for _, m := range pairUp(len(a.Bores), len(b.Bores), func(i, j int) bool {
		return stationName(a, a.Bores[i].Station) == stationName(b, b.Bores[j].Station)
	}) {
		switch {
		case m.b < 0:
			c.at("bore "+stationName(a, a.Bores[m.a].Station)).fig(SpoilsSize, "the bore", figText("restored"), figNone())
		case m.a < 0:
			c.at("bore "+stationName(b, b.Bores[m.b].Station)).fig(SpoilsSize, "the bore", figNone(), figText("restored"))
		default:
			c.at("bore "+stationName(b, b.Bores[m.b].Station)).bore(a.Bores[m.a], b.Bores[m.b])
		}
	}
	c.stations(a.Stations, b.Stations)
	c.at("the bar").bar(a.Bar, b.Bar)
	c.at("the cutter").cutter(a.Cutter, b.Cutter)
	c.at("the sleeve").sleeve(a.Sleeve, b.Sleeve)
	c.at("the machine").machine(a.Machine, b.Machine)
	c.at("the work material").material(a.Material, b.Material)
	c.sweeps(a, b)
	c.at("limits allowed").limits(a.Limits, b.Limits)
}

// stations matches by name, then takes a station of the same depth for a
// renamed one.
func (c *comparer) stations(a, b []process.Station) {
	named := func(s []process.Station, n string) bool {
		return slices.ContainsFunc(s, func(x process.Station) bool { return x.Name == n })
	}
	for _, m := range pairUp(len(a), len(b), func(i, j int) bool {
		return a[i].Name == b[j].Name ||
			a[i].From == b[j].From && a[i].To == b[j].To && !named(b, a[i].Name) && !named(a, b[j].Name)
	}) {
		switch {
		case m.b < 0:
			c.at("station "+a[m.a].Name).fig(SpoilsReach, "the station", figSize(a[m.a].Diameter), figNone())
		case m.a < 0:
			c.at("station "+b[m.b].Name).fig(SpoilsReach, "the station", figNone(), figSize(b[m.b].Diameter))
		default:
			c.at("station " + b[m.b].Name)
			c.fig(SpoilsWords, "name", figText(a[m.a].Name), figText(b[m.b].Name))
			if m.a != m.b {
				c.fig(SpoilsWords, "place in the line", figNumber(float64(m.a+1), ""), figNumber(float64(m.b+1), ""))
			}
			c.station(a[m.a], b[m.b])
		}
	}
}

func (c *comparer) station(a, b process.Station) {
	c.fig(SpoilsFit, "least wall", figOptLength(a.Wall), figOptLength(b.Wall))
	c.fig(SpoilsFit, "most wall", figOptLength(a.WallMost), figOptLength(b.WallMost))
	c.fig(SpoilsReach, "from", figLength(a.From), figLength(b.From))
	c.fig(SpoilsReach, "to", figLength(a.To), figLength(b.To))
	c.fig(SpoilsReach, "diameter", figSize(a.Diameter), figSize(b.Diameter))
	c.fig(SpoilsReach, "far end", figYesNo(a.Blind, "closed", "open"), figYesNo(b.Blind, "closed", "open"))
	c.fig(SpoilsReach, "relief", figOptLength(a.Relief), figOptLength(b.Relief))
	c.fig(SpoilsSize, "swept", figYesNo(a.Swept, "yes", "no"), figYesNo(b.Swept, "yes", "no"))
}

func stationName(j *process.Job, i int) string {
	if i >= 0 && i < len(j.Stations) && j.Stations[i].Name != "" {
		return j.Stations[i].Name
	}
	return fmt.Sprintf("at station %d", i+1)
}

func (c *comparer) bore(a, b process.Bore) {
	c.fig(SpoilsSize, "repair", figText(a.Repair.String()), figText(b.Repair.String()))
	c.fig(SpoilsSize, "nominal size", figOptSize(a.Finish.Nominal), figOptSize(b.Finish.Nominal))
	c.fig(SpoilsSize, "finish, low", figSize(a.Finish.Low), figSize(b.Finish.Low))
	c.fig(SpoilsSize, "finish, high", figSize(a.Finish.High), figSize(b.Finish.High))
	c.fig(SpoilsSize, "fit", figOptText(a.Finish.Fit), figOptText(b.Finish.Fit))
	c.fig(SpoilsSize, "mating size", figOptSize(a.Finish.Mating), figOptSize(b.Finish.Mating))
	c.fig(SpoilsSize, "least clearance", figOptLength(a.Finish.Clearance[0]), figOptLength(b.Finish.Clearance[0]))
	c.fig(SpoilsSize, "most clearance", figOptLength(a.Finish.Clearance[1]), figOptLength(b.Finish.Clearance[1]))
	c.fig(SpoilsSize, "Ra asked for", figRa(a.Ra), figRa(b.Ra))
	c.fig(SpoilsSize, "roundness asked for", figFine(a.Roundness), figFine(b.Roundness))
	c.fig(SpoilsSetting, "old axis off the true one, most", figOptLength(a.Offset), figOptLength(b.Offset))
	c.fig(SpoilsSetting, "witness cut", figYesNo(a.Witness, "yes", "no"), figYesNo(b.Witness, "yes", "no"))
	c.wear(a.Wear, b.Wear)
}

// readings compares one row of readings point by point; a point that only one
// side has shows as such.
func (c *comparer) readings(s Spoils, what string, atA, atB []float64, a, b []qty.Length, diameters bool) {
	point := func(at []float64, l []qty.Length, i int) Figure {
		switch {
		case i >= len(at) || i >= len(l):
			return figNone()
		case diameters:
			return figSize(qty.Diameter(l[i]))
		}
		return figFine(l[i])
	}
	for i := range max(len(atA), len(atB)) {
		name := fmt.Sprintf("%s, point %d", what, i+1)
		if i < len(atA) && i < len(atB) {
			c.fig(s, name+", clock position", figNumber(atA[i], "°"), figNumber(atB[i], "°"))
		}
		c.fig(s, name, point(atA, a, i), point(atB, b, i))
	}
}

func (c *comparer) wear(a, b []process.Reading) {
	for i := range max(len(a), len(b)) {
		var v, w process.Reading
		d, e := figNone(), figNone()
		if i < len(a) {
			v = a[i]
			d = figLength(v.Depth)
		}
		if i < len(b) {
			w = b[i]
			e = figLength(w.Depth)
		}
		what := fmt.Sprintf("wear reading %d", i+1)
		c.fig(SpoilsSetting, what+", depth", d, e)
		c.readings(SpoilsSetting, what+", radius", v.At, w.At, v.Radius, w.Radius, false)
		c.readings(SpoilsSetting, what+", across", v.At, w.At, lengths(v.Across), lengths(w.Across), true)
	}
}

func lengths(d []qty.Diameter) []qty.Length {
	var out []qty.Length
	for _, x := range d {
		out = append(out, x.Length())
	}
	return out
}

func (c *comparer) sweeps(a, b *process.Job) {
	for i := range max(len(a.Sweeps), len(b.Sweeps)) {
		var v, w process.Sweep
		var vn, wn string
		if i < len(a.Sweeps) {
			v = a.Sweeps[i]
			vn = stationName(a, v.Station)
		}
		if i < len(b.Sweeps) {
			w = b.Sweeps[i]
			wn = stationName(b, w.Station)
		}
		c.at(fmt.Sprintf("sweep %d", i+1))
		c.fig(SpoilsSize, "station", figOptText(vn), figOptText(wn))
		c.fig(SpoilsSize, "depth", figLength(v.Depth), figLength(w.Depth))
		c.fig(SpoilsSize, "runs on", figYesNo(v.Face, "face", "bore"), figYesNo(w.Face, "face", "bore"))
		c.fig(SpoilsSize, "circle on the face", figOptSize(v.Diameter), figOptSize(w.Diameter))
		c.readings(SpoilsSize, "dial", v.At, w.At, v.Dial, w.Dial, false)
	}
}

func (c *comparer) bar(a, b process.Bar) {
	c.fig(SpoilsReach, "name", figOptText(a.Name), figOptText(b.Name))
	c.fig(SpoilsReach, "stickout", figLength(a.Stickout()), figLength(b.Stickout()))
	c.fig(SpoilsReach, "cutter from the nose", figLength(a.CutterAt), figLength(b.CutterAt))
	c.fig(SpoilsReach, "fed by", figText(a.FeedBy.String()), figText(b.FeedBy.String()))
	c.fig(SpoilsReach, "nose to face", figOptLength(a.Standoff), figOptLength(b.Standoff))
	for i := range max(len(a.Steps), len(b.Steps)) {
		var p, q process.Step
		if i < len(a.Steps) {
			p = a.Steps[i]
		}
		if i < len(b.Steps) {
			q = b.Steps[i]
		}
		step := fmt.Sprintf("step %d ", i+1)
		c.fig(SpoilsReach, step+"diameter", figOptSize(p.Diameter), figOptSize(q.Diameter))
		c.fig(SpoilsReach, step+"length", figOptLength(p.Length), figOptLength(q.Length))
		c.fig(SpoilsReach, step+"hole", figOptSize(p.Hole), figOptSize(q.Hole))
		c.fig(SpoilsReach, step+"material", figOptText(barWords(p.Material)), figOptText(barWords(q.Material)))
	}
	var s, t process.Support
	if a.Outboard != nil {
		s = *a.Outboard
	}
	if b.Outboard != nil {
		t = *b.Outboard
	}
	c.fig(SpoilsReach, "outboard support", figYesNo(a.Outboard != nil, "fitted", "none"), figYesNo(b.Outboard != nil, "fitted", "none"))
	c.fig(SpoilsReach, "outboard support from the nose", figOptLength(s.At), figOptLength(t.At))
	c.fig(SpoilsReach, "outboard running clearance", figOptLength(s.Clearance), figOptLength(t.Clearance))
	c.fig(SpoilsReach, "outboard stiffness", figNumber(s.Stiffness, "N/µm"), figNumber(t.Stiffness, "N/µm"))
}

func barWords(m process.BarMaterial) string {
	if m == (process.BarMaterial{}) {
		return ""
	}
	return fmt.Sprintf("%s (E %g MPa, Poisson %g, %g kg/m³, %g MPa allowed, reach %g)", cmp.Or(m.Name, m.ID), m.E, m.Nu, m.Rho, m.Allowed, m.Reach)
}

func (c *comparer) cutter(a, b process.Cutter) {
	c.fig(SpoilsSetting, "material", figOptText(edgeWords(a.Material)), figOptText(edgeWords(b.Material)))
	c.fig(SpoilsSetting, "nose radius", figLength(a.NoseRadius), figLength(b.NoseRadius))
	c.fig(SpoilsSetting, "lead", figNumber(a.Lead, "°"), figNumber(b.Lead, "°"))
	c.fig(SpoilsSetting, "trail", figNumber(a.Trail, "°"), figNumber(b.Trail, "°"))
	c.fig(SpoilsSetting, "rake", figNumber(a.Rake, "°"), figNumber(b.Rake, "°"))
	c.fig(SpoilsSetting, "edge rounding", figFine(a.EdgeRadius), figFine(b.EdgeRadius))
	c.fig(SpoilsReach, "smallest setting", figOptSize(a.Least), figOptSize(b.Least))
	c.fig(SpoilsReach, "largest setting", figOptSize(a.Most), figOptSize(b.Most))
	c.fig(SpoilsFeed, "cutting speed, roughing", figOptSurface(a.SpeedRough), figOptSurface(b.SpeedRough))
	c.fig(SpoilsFeed, "cutting speed, finishing", figOptSurface(a.SpeedFinish), figOptSurface(b.SpeedFinish))
}

func edgeWords(m *process.CutterMaterial) string {
	if m == nil {
		return ""
	}
	return fmt.Sprintf("%s (class %s, force factor %g, edge %g µm, least chip %g, rake %g°)", cmp.Or(m.Name, m.ID), m.Class, m.Force, m.Edge.Microns(), m.MinChip, m.Rake)
}

func (c *comparer) sleeve(a, b *process.Sleeve) {
	var s, t process.Sleeve
	if a != nil {
		s = *a
	}
	if b != nil {
		t = *b
	}
	c.fig(SpoilsFit, "the sleeve", figYesNo(a != nil, "fitted", "none"), figYesNo(b != nil, "fitted", "none"))
	if a != nil && b != nil {
		c.fig(SpoilsFit, "held by", figText(s.Hold.String()), figText(t.Hold.String()))
	}
	c.fig(SpoilsFit, "outside", figOptSize(s.Outside), figOptSize(t.Outside))
	c.fig(SpoilsFit, "fit in the housing", figOptText(s.Fit), figOptText(t.Fit))
	c.fig(SpoilsFit, "gap", figOptLength(s.Gap), figOptLength(t.Gap))
	c.fig(SpoilsFit, "left inside for boring", figOptLength(s.Allowance), figOptLength(t.Allowance))
	c.fig(SpoilsFit, "length", figOptLength(s.Length), figOptLength(t.Length))
	c.material(s.Material, t.Material)
}

// material reports a material by name, and figure by figure where the name
// stands for other figures than it did.
func (c *comparer) material(a, b *process.Material) {
	c.fig(SpoilsSetting, "material", figOptText(workName(a)), figOptText(workName(b)))
	if a == nil || b == nil || workName(a) != workName(b) {
		return
	}
	c.fig(SpoilsSetting, "group", figText(a.Group), figText(b.Group))
	for _, f := range [...]struct {
		s    Spoils
		what string
		a, b float64
		unit string
	}{
		{SpoilsSetting, "kc1.1", a.Kc11, b.Kc11, "N/mm²"}, {SpoilsSetting, "mc", a.Mc, b.Mc, ""},
		{SpoilsSetting, "thrust ratio", a.ThrustRatio, b.ThrustRatio, ""}, {SpoilsSetting, "thrust exponent", a.ThrustFall, b.ThrustFall, ""},
		{SpoilsSetting, "rake of kc1.1", a.Rake0, b.Rake0, "°"}, {SpoilsSize, "Ra factor", a.RaFactor, b.RaFactor, ""},
		{SpoilsFit, "E", a.E, b.E, "MPa"}, {SpoilsFit, "Poisson's ratio", a.Nu, b.Nu, ""},
		{SpoilsFit, "tensile strength", a.Rm, b.Rm, "MPa"}, {SpoilsFit, "yield strength", a.Re, b.Re, "MPa"},
		{SpoilsFit, "expansion", a.Alpha, b.Alpha, "1/K"}, {SpoilsFit, "density", a.Rho, b.Rho, "kg/m³"},
		{SpoilsFit, "heated to, most", a.HeatMost, b.HeatMost, "°C"},
	} {
		c.fig(f.s, f.what, figNumber(f.a, f.unit), figNumber(f.b, f.unit))
	}
	c.fig(SpoilsFit, "judged by", figYesNo(a.Brittle, "tensile strength", "yield"), figYesNo(b.Brittle, "tensile strength", "yield"))
	for _, class := range slices.Sorted(maps.Keys(union(a.Speeds, b.Speeds))) {
		p, q := a.Speeds[class], b.Speeds[class]
		for i, end := range [...]string{"least", "most"} {
			c.fig(SpoilsFeed, class+" roughing, "+end, figOptSurface(p.Rough[i]), figOptSurface(q.Rough[i]))
			c.fig(SpoilsFeed, class+" finishing, "+end, figOptSurface(p.Finish[i]), figOptSurface(q.Finish[i]))
		}
	}
}

func union(a, b map[string]process.SpeedBand) map[string]process.SpeedBand {
	out := maps.Clone(a)
	if out == nil {
		return b
	}
	maps.Copy(out, b)
	return out
}

func (c *comparer) machine(a, b *process.Machine) {
	var m, n process.Machine
	if a != nil {
		m = *a
	}
	if b != nil {
		n = *b
	}
	c.fig(SpoilsReach, "name", figOptText(cmp.Or(m.Name, m.ID)), figOptText(cmp.Or(n.Name, n.ID)))
	c.fig(SpoilsReach, "listed as", figOptText(m.ID), figOptText(n.ID))
	c.fig(SpoilsReach, "nose", figSize(m.Nose), figSize(n.Nose))
	c.fig(SpoilsReach, "quill", figSize(m.Quill), figSize(n.Quill))
	c.fig(SpoilsReach, "quill travel", figLength(m.QuillTravel), figLength(n.QuillTravel))
	c.fig(SpoilsReach, "feeds by", figText(joined(m.FeedBy)), figText(joined(n.FeedBy)))
	for i := range max(len(m.Travels), len(n.Travels)) {
		var s, t process.Travel
		if i < len(m.Travels) {
			s = m.Travels[i]
		}
		if i < len(n.Travels) {
			t = n.Travels[i]
		}
		axis := fmt.Sprintf("axis %d", i+1)
		c.fig(SpoilsReach, axis, figOptText(s.Axis), figOptText(t.Axis))
		c.fig(SpoilsReach, axis+" travel", figOptLength(s.Travel), figOptLength(t.Travel))
		c.fig(SpoilsWords, axis+" moves", figOptText(s.What), figOptText(t.What))
	}
	c.fig(SpoilsSetting, "stiffness at the nose", figNumber(m.Radial, "N/µm"), figNumber(n.Radial, "N/µm"))
	c.fig(SpoilsSetting, "stiffness in tilt", figNumber(m.Tilt, "MN·m/rad"), figNumber(n.Tilt, "MN·m/rad"))
	c.fig(SpoilsSetting, "axis dial", figLength(m.Dial), figLength(n.Dial))
	c.fig(SpoilsSetting, "cutter dial", figLength(m.SetDial), figLength(n.SetDial))
	c.fig(SpoilsFeed, "damping, least", figNumber(m.Damping[0], ""), figNumber(n.Damping[0], ""))
	c.fig(SpoilsFeed, "damping, most", figNumber(m.Damping[1], ""), figNumber(n.Damping[1], ""))
	c.fig(SpoilsFeed, "speeds, rev/min", figText(rangeWords(m.Speeds)), figText(rangeWords(n.Speeds)))
	c.fig(SpoilsFeed, "feeds, mm/rev", figText(rangeWords(m.Feeds)), figText(rangeWords(n.Feeds)))
	c.fig(SpoilsFeed, "power", figNumber(float64(m.Power), "W"), figNumber(float64(n.Power), "W"))
	c.fig(SpoilsFeed, "torque", figNumber(float64(m.Torque), "N·m"), figNumber(float64(n.Torque), "N·m"))
	c.fig(SpoilsSetting, "control", figYesNo(m.Control != nil, "has one", "none: worked by hand"), figYesNo(n.Control != nil, "has one", "none: worked by hand"))
	if m.Control != nil && n.Control != nil {
		c.control(*m.Control, *n.Control)
	}
}

// control reports every property by its field's name in words. All of them
// weigh the same: any one that is wrong makes the control read another number
// than was meant.
func (c *comparer) control(a, b process.Control) {
	v, w := reflect.ValueOf(a), reflect.ValueOf(b)
	for i := range v.NumField() {
		var name strings.Builder
		for j, r := range v.Type().Field(i).Name {
			if unicode.IsUpper(r) && j > 0 {
				name.WriteByte(' ')
			}
			name.WriteRune(unicode.ToLower(r))
		}
		c.fig(SpoilsSetting, "control, "+name.String(), figText(fmt.Sprint(v.Field(i))), figText(fmt.Sprint(w.Field(i))))
	}
}

func joined[T any](list []T) string {
	var s []string
	for _, x := range list {
		s = append(s, fmt.Sprint(x))
	}
	return strings.Join(s, ", ")
}

func rangeWords(r process.Range) string {
	if len(r.Steps) > 0 {
		return joined(r.Steps)
	}
	return fmt.Sprintf("any from %g to %g", r.Least, r.Most)
}

func (c *comparer) limits(a, b process.Limits) {
	c.fig(SpoilsSetting, "spring, roughing", figFine(a.SpringRough), figFine(b.SpringRough))
	c.fig(SpoilsSize, "spring, finishing", figFine(a.SpringFinish), figFine(b.SpringFinish))
	c.fig(SpoilsSetting, "depth of cut", figLength(a.DepthMost), figLength(b.DepthMost))
	c.fig(SpoilsFeed, "feed", figFeed(a.FeedMost), figFeed(b.FeedMost))
	c.fig(SpoilsFeed, "spindle speed", figNumber(float64(a.SpeedMost), "rev/min"), figNumber(float64(b.SpeedMost), "rev/min"))
	c.fig(SpoilsReach, "stickout over diameter", figNumber(a.Overhang, ""), figNumber(b.Overhang, ""))
	c.fig(SpoilsSize, "error of the force model", figNumber(100*a.ForceError, "%"), figNumber(100*b.ForceError, "%"))
	c.fig(SpoilsSize, "error of setting", figFine(a.SettingError), figFine(b.SettingError))
	c.fig(SpoilsSize, "error of the gauge", figFine(a.GaugeError), figFine(b.GaugeError))
	c.fig(SpoilsSize, "work against gauge master", figNumber(a.Temperature, "K"), figNumber(b.Temperature, "K"))
	c.fig(SpoilsSetting, "passes, most", figNumber(float64(a.PassesMost), ""), figNumber(float64(b.PassesMost), ""))
	c.fig(SpoilsFeed, "time at a hold point", figNumber(a.HoldMinutes, "min"), figNumber(b.HoldMinutes, "min"))
}
