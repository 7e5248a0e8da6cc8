package revision

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// writtenIn says of a key where its figure comes from. Of a job read back from a
// folder nothing tells a figure that was written from one filled in.
func writtenIn(a, b *process.Job) func(key string) Origin {
	lists := inLists(a, b)
	return func(key string) Origin {
		if len(a.Places) == 0 || len(b.Places) == 0 || key == "" {
			return Edited
		}
		if table, _, _ := strings.Cut(key, "."); table == "machine" || table == "material" || strings.Contains(key, "material.") { // of a file of its own
			return Edited
		}
		if !clamps(key, &a.Bar, &b.Bar) && (stated(a, key) || stated(b, key) || lists.has(key)) {
			return Edited
		}
		return Follows
	}
}

// element is the key of a table of a list.
func element(list string, i int) string { return fmt.Sprintf("%s[%d]", list, i) }

func (c *comparer) jobs(a, b *process.Job) {
	c.at("", fact.New(InJob)).these(a, b)
	restored := field.TextOf("restored")
	pairs := pairUp(len(a.Bores), len(b.Bores), func(i, j int) bool {
		x, y := a.Bores[i].Station, b.Bores[j].Station
		return sameStation(stationName(a, x), stationName(b, y), x, y)
	})
	for _, m := range pairs {
		switch {
		case m.b < 0:
			c.table(StationsAndBores, inStated(a, m.a), "bore").gone(process.SpoilsSize, "the bore", restored)
		case m.a < 0:
			c.table(StationsAndBores, inStated(b, m.b), "bore").come(process.SpoilsSize, "the bore", restored)
		default:
			c.table(StationsAndBores, inStated(b, m.b), element("bore", m.b)).bore(&a.Bores[m.a], &b.Bores[m.b])
		}
	}
	c.stations(a.Stations, b.Stations)
	c.table(TheBar, fact.New(InBar), "bar").these(&a.Bar, &b.Bar)
	c.worked(process.SpoilsReach, "stickout", field.FigureOf(a.Bar.Stickout()), field.FigureOf(b.Bar.Stickout()))
	c.table(TheCutter, fact.New(InCutter), "cutter").these(&a.Cutter, &b.Cutter)
	c.tools(a, b, pairs)
	c.table(TheSleeve, fact.New(InSleeve), "sleeve").sleeve(a.Sleeve, b.Sleeve)
	c.table(TheMachine, fact.New(InMachine), "machine").machine(a.Machine, b.Machine)
	c.table(TheMaterial, fact.New(InMaterial), "material").material(a.Material, b.Material)
	c.sweeps(a, b)
	c.table("", fact.New(InLiningUp), "lineup").these(&a.LineUp, &b.LineUp)
	c.table("", fact.New(InShop), "bars").names(process.SpoilsWords, "bar on the list", barNames(a), barNames(b))
	c.table(TheLimits, fact.New(InLimits), "limits").these(&a.Limits, &b.Limits)
}

// inStated is a bore of a job.
func inStated(j *process.Job, i int) fact.Fact {
	return inBore(stationName(j, j.Bores[i].Station), j.Bores[i].Station)
}

// stations matches by name, then takes a station of the same depth for a
// renamed one.
func (c *comparer) stations(a, b []process.Station) {
	named := func(s []process.Station, n string) bool {
		return slices.ContainsFunc(s, func(x process.Station) bool { return x.Name == n })
	}
	in := func(s process.Station) fact.Fact { return fact.New(InStation, fact.Name(s.Name)) }
	for _, m := range pairUp(len(a), len(b), func(i, j int) bool {
		return a[i].Name == b[j].Name ||
			a[i].From == b[j].From && a[i].To == b[j].To && !named(b, a[i].Name) && !named(a, b[j].Name)
	}) {
		switch {
		case m.b < 0:
			c.table(StationsAndBores, in(a[m.a]), "station").gone(process.SpoilsReach, "the station", field.FigureOf(a[m.a].Diameter))
		case m.a < 0:
			c.table(StationsAndBores, in(b[m.b]), "station").come(process.SpoilsReach, "the station", field.FigureOf(b[m.b].Diameter))
		default:
			c.table(StationsAndBores, in(b[m.b]), element("station", m.b)).these(&a[m.a], &b[m.b])
			if m.a != m.b {
				c.fig(process.SpoilsWords, "place in the line", field.NumberOf(float64(m.a+1), ""), field.NumberOf(float64(m.b+1), ""))
			}
		}
	}
}

// stationName is the name of a station, "" where it has none.
func stationName(j *process.Job, i int) string {
	if i >= 0 && i < len(j.Stations) {
		return j.Stations[i].Name
	}
	return ""
}

// bore compares two bores; of what goes in, its expansion by itself where it is
// the same material by name.
func (c *comparer) bore(a, b *process.Bore) {
	c.these(a, b)
	if a.PartOf != nil && b.PartOf != nil && a.PartOf.Called() == b.PartOf.Called() {
		c.these(&partThatGoesIn{a.PartOf}, &partThatGoesIn{b.PartOf})
	}
}

// partThatGoesIn is what counts of the material of such a part.
type partThatGoesIn struct{ *process.Material }

// Describe names it.
func (p *partThatGoesIn) Describe(d *field.Desc) {
	d.Group("part_material", func(d *field.Desc) { d.Only([]string{"expansion"}, p.Material) }).Weighs(process.SpoilsFit, "part that goes in")
}

func (c *comparer) sweeps(a, b *process.Job) {
	for i := range max(len(a.Sweeps), len(b.Sweeps)) {
		c.table(StationsAndBores, fact.New(InSweep, fact.Count(i+1)), element("sweep", i))
		v, vn := sweep(a, i)
		w, wn := sweep(b, i)
		c.fig(process.SpoilsSize, "station", field.TextOf(vn), field.TextOf(wn))
		c.these(v, w)
	}
}

// sweep is one of a job, and the name of its station; nil beyond the last.
func sweep(j *process.Job, i int) (*process.Sweep, string) {
	if i >= len(j.Sweeps) {
		return nil, ""
	}
	return &j.Sweeps[i], stationName(j, j.Sweeps[i].Station)
}

func (c *comparer) sleeve(a, b *process.Sleeve) {
	c.fig(process.SpoilsFit, "the sleeve", oneOf(a != nil, "fitted", "none"), oneOf(b != nil, "fitted", "none"))
	c.these(a, b)
	s, t := cmp.Or(a, &process.Sleeve{}), cmp.Or(b, &process.Sleeve{})
	c.fig(process.SpoilsFit, "outside chosen by", oneOf(s.Chosen, "standard sizes", "the author"), oneOf(t.Chosen, "standard sizes", "the author"))
	c.material(s.Material, t.Material)
}

// oneOf is a text for yes and one for no.
func oneOf(is bool, yes, not string) field.Value {
	if is {
		return field.TextOf(yes)
	}
	return field.TextOf(not)
}

// material reports a material by name, and figure by figure where the name
// stands for other figures than it did.
func (c *comparer) material(a, b *process.Material) {
	c.fig(process.SpoilsSetting, "material", field.TextOf(a.Called()), field.TextOf(b.Called()))
	if a != nil && b != nil && a.Called() == b.Called() {
		key := c.key
		c.key = "material" // of the file that it is read from
		c.these(a, b)
		c.key = key
	}
}

// worked is a figure that follows from what was written.
func (c *comparer) worked(s field.Rank, what string, a, b field.Value) {
	from := c.wrote
	c.wrote = func(string) Origin { return Follows }
	c.fig(s, what, a, b)
	c.wrote = from
}

// machine compares two machines. What a control has is listed where both have
// one.
func (c *comparer) machine(a, b *process.Machine) {
	m, n := cmp.Or(a, &process.Machine{}), cmp.Or(b, &process.Machine{})
	c.fig(process.SpoilsReach, "name", field.TextOf(cmp.Or(m.Name, m.ID)), field.TextOf(cmp.Or(n.Name, n.ID)))
	c.fig(process.SpoilsReach, "listed as", field.TextOf(m.ID), field.TextOf(n.ID))
	c.fig(process.SpoilsFeed, "speeds, rev/min", m.Speeds.Compared(qty.KindNumber), n.Speeds.Compared(qty.KindNumber))
	c.fig(process.SpoilsFeed, "feeds, "+c.u.Name(qty.KindFeed), m.Feeds.Compared(qty.KindPlain), n.Feeds.Compared(qty.KindPlain))
	c.these(a, b)
	if x, y := m.Control, n.Control; x != nil && y != nil {
		c.fig(process.SpoilsSetting, "control, as job", field.TextOf(fmt.Sprint(x.AsJob)), field.TextOf(fmt.Sprint(y.AsJob)))
		c.fig(process.SpoilsSetting, "control, usual places", field.TextOf(fmt.Sprint(x.UsualPlaces)), field.TextOf(fmt.Sprint(y.UsualPlaces)))
	}
}

func barNames(j *process.Job) (out []string) {
	for _, x := range j.Shop {
		out = append(out, x.Name)
	}
	return out
}
