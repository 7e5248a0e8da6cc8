package revision

import (
	"cmp"
	"fmt"
	"slices"

	"borewright/process"
	"borewright/process/field/diff"
	"borewright/process/qty"
)

func (c *comparer) jobs(a, b *process.Job) {
	c.on(NoPart).at("the job").these(a, b)
	for _, m := range pairUp(len(a.Bores), len(b.Bores), func(i, j int) bool {
		return stationName(a, a.Bores[i].Station) == stationName(b, b.Bores[j].Station)
	}) {
		switch {
		case m.b < 0:
			c.on(StationsAndBores).at("bore "+stationName(a, a.Bores[m.a].Station)).fig(process.SpoilsSize, "the bore", figText("restored"), figNone())
		case m.a < 0:
			c.on(StationsAndBores).at("bore "+stationName(b, b.Bores[m.b].Station)).fig(process.SpoilsSize, "the bore", figNone(), figText("restored"))
		default:
			c.on(StationsAndBores).at("bore "+stationName(b, b.Bores[m.b].Station)).bore(&a.Bores[m.a], &b.Bores[m.b])
		}
	}
	c.stations(a.Stations, b.Stations)
	c.on(TheBar).at("the bar").fig(process.SpoilsReach, "stickout", figLength(a.Bar.Stickout()), figLength(b.Bar.Stickout()))
	c.these(&a.Bar, &b.Bar)
	c.on(TheCutter).at("the cutter").these(&a.Cutter, &b.Cutter)
	c.on(TheSleeve).at("the sleeve").sleeve(a.Sleeve, b.Sleeve)
	c.on(TheMachine).at("the machine").machine(a.Machine, b.Machine)
	c.on(TheMaterial).at("the work material").material(a.Material, b.Material)
	c.sweeps(a, b)
	c.on(NoPart).at("lining up").these(&a.LineUp, &b.LineUp)
	c.on(NoPart).at("the shop's bars").sentences(process.SpoilsWords, "bar on the list", barNames(a), barNames(b))
	c.on(TheLimits).at("limits allowed").these(&a.Limits, &b.Limits)
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
			c.on(StationsAndBores).at("station "+a[m.a].Name).fig(process.SpoilsReach, "the station", figSize(a[m.a].Diameter), figNone())
		case m.a < 0:
			c.on(StationsAndBores).at("station "+b[m.b].Name).fig(process.SpoilsReach, "the station", figNone(), figSize(b[m.b].Diameter))
		default:
			c.on(StationsAndBores).at("station "+b[m.b].Name).these(&a[m.a], &b[m.b])
			if m.a != m.b {
				c.fig(process.SpoilsWords, "place in the line", figNumber(float64(m.a+1), ""), figNumber(float64(m.b+1), ""))
			}
		}
	}
}

func stationName(j *process.Job, i int) string {
	if i >= 0 && i < len(j.Stations) && j.Stations[i].Name != "" {
		return j.Stations[i].Name
	}
	return fmt.Sprintf("at station %d", i+1)
}

// bore compares two bores; of what goes in, its expansion by itself where it is
// the same material by name.
func (c *comparer) bore(a, b *process.Bore) {
	c.these(a, b)
	if a.PartOf != nil && b.PartOf != nil && a.PartOf.Called() == b.PartOf.Called() {
		for _, d := range diff.Compare(c.u, a.PartOf, b.PartOf) {
			if d.Path == "expansion" {
				c.fig(d.Rank, "part that goes in, expansion", d.Old, d.New)
			}
		}
	}
}

func (c *comparer) sweeps(a, b *process.Job) {
	for i := range max(len(a.Sweeps), len(b.Sweeps)) {
		c.on(StationsAndBores).at(fmt.Sprintf("sweep %d", i+1))
		v, vn := sweep(a, i)
		w, wn := sweep(b, i)
		c.fig(process.SpoilsSize, "station", figOptText(vn), figOptText(wn))
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
	c.fig(process.SpoilsFit, "the sleeve", figYesNo(a != nil, "fitted", "none"), figYesNo(b != nil, "fitted", "none"))
	c.these(a, b)
	s, t := cmp.Or(a, &process.Sleeve{}), cmp.Or(b, &process.Sleeve{})
	c.fig(process.SpoilsFit, "outside chosen by", figYesNo(s.Chosen, "standard sizes", "the author"), figYesNo(t.Chosen, "standard sizes", "the author"))
	c.material(s.Material, t.Material)
}

// material reports a material by name, and figure by figure where the name
// stands for other figures than it did.
func (c *comparer) material(a, b *process.Material) {
	c.fig(process.SpoilsSetting, "material", figOptText(a.Called()), figOptText(b.Called()))
	if a != nil && b != nil && a.Called() == b.Called() {
		c.these(a, b)
	}
}

// machine compares two machines. What a control has is listed where both have
// one.
func (c *comparer) machine(a, b *process.Machine) {
	m, n := cmp.Or(a, &process.Machine{}), cmp.Or(b, &process.Machine{})
	c.fig(process.SpoilsReach, "name", figOptText(cmp.Or(m.Name, m.ID)), figOptText(cmp.Or(n.Name, n.ID)))
	c.fig(process.SpoilsReach, "listed as", figOptText(m.ID), figOptText(n.ID))
	c.fig(process.SpoilsFeed, "speeds, rev/min", m.Speeds.Compared(qty.KindNumber), n.Speeds.Compared(qty.KindNumber))
	c.fig(process.SpoilsFeed, "feeds, "+c.u.Name(qty.KindFeed), m.Feeds.Compared(qty.KindPlain), n.Feeds.Compared(qty.KindPlain))
	c.these(a, b)
	if x, y := m.Control, n.Control; x != nil && y != nil {
		c.fig(process.SpoilsSetting, "control, as job", figText(fmt.Sprint(x.AsJob)), figText(fmt.Sprint(y.AsJob)))
		c.fig(process.SpoilsSetting, "control, usual places", figText(fmt.Sprint(x.UsualPlaces)), figText(fmt.Sprint(y.UsualPlaces)))
	}
}

func barNames(j *process.Job) (out []string) {
	for _, x := range j.Shop {
		out = append(out, x.Name)
	}
	return out
}
