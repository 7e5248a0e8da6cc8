package revision

import (
	"maps"
	"reflect"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/named"
	"borewright/process/source"
)

// A bar or a cutter that bores name stands in the shop's lists. Which one a bore names is compared
// with the bore; what the list says of it is compared here, once for each bar and cutter that is
// named in both jobs, whatever bores it cuts.

// cutWith is what one piece of the work is cut with: the job with these tools, and their names
// where a key of the bores or of rough names them.
type cutWith struct {
	job *process.Job
	by  named.Pair
}

// cuts is what a bore of a job is cut with, roughed first.
func cuts(j *process.Job, bore int) [2]cutWith {
	cut, rough := named.By(j, bore)
	return [2]cutWith{{j.Using(j.ToolsOf(bore, true)), rough}, {j.Using(j.ToolsOf(bore, false)), cut}}
}

// tools compares the bars and the cutters that bores name by the same names.
func (c *comparer) tools(a, b *process.Job, pairs []pairing) {
	seen := map[[2]string]bool{ // what is the job's own in both is told already
		{"bar", ownBar(a, b)}: true, {"cutter", ownCutter(a, b)}: true}
	wrote := c.wrote
	defer func() { c.wrote = wrote }()
	for _, m := range pairs {
		if m.a < 0 || m.b < 0 {
			continue
		}
		was, is := cuts(a, m.a), cuts(b, m.b)
		for n := range was {
			x, y := was[n], is[n]
			name := func(what, old, new string) bool {
				first := old == new && new != "" && !seen[[2]string{what, new}]
				seen[[2]string{what, new}] = true
				return first
			}
			bar, cutter := name("bar", x.by.Bar, y.by.Bar), name("cutter", x.by.Cutter, y.by.Cutter)
			c.wrote = listWrote(x.job, y.job)
			if bar {
				k, l := x.job.Bar, y.job.Bar // fed and held as the job's own
				k.FeedBy, k.Standoff, k.Outboard, k.Inboard = l.FeedBy, l.Standoff, l.Outboard, l.Inboard
				c.table(StationsAndBores, fact.New(InNamedBar, fact.Name(y.by.Bar), boresOf(b, "bar", y.by.Bar)), "bar").these(&k, &l)
				c.worked(process.SpoilsReach, "stickout", field.FigureOf(x.job.Bar.Stickout()), field.FigureOf(y.job.Bar.Stickout()))
			}
			if cutter {
				k, l := x.job.Cutter, y.job.Cutter
				k.Least, k.Most, k.Bar = l.Least, l.Most, l.Bar // of cutter and bar together
				c.table(StationsAndBores, fact.New(InNamedCutter, fact.Name(y.by.Cutter), boresOf(b, "cutter", y.by.Cutter)), "cutter").these(&k, &l)
			}
			if x.job.ToolsCalled() == y.job.ToolsCalled() && name("together", x.job.ToolsCalled(), y.job.ToolsCalled()) {
				c.together(x, y)
			}
		}
	}
}

// together compares what follows from a bar and the cutter in it.
func (c *comparer) together(x, y cutWith) {
	where := fact.New(InNamedBar, fact.Name(y.by.Bar), boresOf(y.job, "bar", y.by.Bar))
	switch {
	case y.by.Bar == "" && y.by.Cutter == "":
		return // told of the job's own
	case y.by.Bar == "":
		where = fact.New(InNamedCutter, fact.Name(y.by.Cutter), boresOf(y.job, "cutter", y.by.Cutter))
	}
	k, l := y.job.Cutter, y.job.Cutter
	k.Least, k.Most, k.Bar = x.job.Cutter.Least, x.job.Cutter.Most, x.job.Cutter.Bar
	c.table(StationsAndBores, where, "cutter").these(&k, &l)
}

// ownBar is the name of the bar that is both jobs' own; "" where they have none alike.
func ownBar(a, b *process.Job) string {
	if a.Bar.Name == b.Bar.Name {
		return a.Bar.Name
	}
	return ""
}

// ownCutter is the same of the cutter.
func ownCutter(a, b *process.Job) string {
	if a.Cutter.Name == b.Cutter.Name {
		return a.Cutter.Name
	}
	return ""
}

// boresOf are the bores that are cut with a bar or a cutter of this name.
func boresOf(j *process.Job, what, name string) fact.Arg {
	var list []fact.Fact
	for i, b := range j.Bores {
		for _, x := range cuts(j, i) {
			if one := inBore(stationName(j, b.Station), b.Station); name == map[string]string{"bar": x.by.Bar, "cutter": x.by.Cutter}[what] &&
				!slices.ContainsFunc(list, func(f fact.Fact) bool { return fact.Equal(f, one) }) {
				list = append(list, one)
			}
		}
	}
	return fact.List(list...)
}

// listWrote says of a key of a list's entry where its figure comes from: written there, or filled in
// by what was written.
func listWrote(a, b *process.Job) func(key string) Origin {
	return func(key string) Origin {
		if clamps(key, &a.Bar, &b.Bar) {
			return Follows
		}
		follows := true
		for _, j := range []*process.Job{a, b} {
			least, most := j.Bar.UsualSizes()
			follows = follows && map[string]bool{
				"bar.cutter_at":      j.Bar.CutterAt == j.Bar.Stickout(),
				"cutter.least":       j.Cutter.Least == least,
				"cutter.most":        j.Cutter.Most == most,
				"cutter.bar":         j.Cutter.Bar == atCutter(j),
				"cutter.rake":        j.Cutter.Material != nil && j.Cutter.Rake == j.Cutter.Material.Rake,
				"cutter.edge_radius": j.Cutter.Material != nil && j.Cutter.EdgeRadius == j.Cutter.Material.Edge,
			}[key]
		}
		if follows {
			return Follows
		}
		return Edited
	}
}

// withBores is a job with stations, bores and sweeps of another, and with what the lists of that
// other say of the tools that its bores name.
func withBores(j, of *process.Job) {
	j.Stations, j.Bores, j.Sweeps, j.Rough = of.Stations, of.Bores, of.Sweeps, of.Rough
	shop, drawer := slices.Clone(of.Shop), slices.Clone(of.Drawer)
	keep(shop, j.Shop, j.Bar.Name, func(b process.ShopBar) string { return b.Name })
	keep(drawer, j.Drawer, j.Cutter.Name, func(k process.ShopCutter) string { return k.Name })
	j.Shop, j.Drawer = shop, drawer
	takePlaces(j, of, "station", "bore", "sweep", "rough")
}

// withTools is a job with the bar of another or with its cutter, as the list of that other has it.
func withTools(j, of *process.Job, what string) {
	if what == "bar" {
		j.Bar, j.Shop = of.Bar, slices.Clone(j.Shop)
		keep(j.Shop, of.Shop, j.Bar.Name, func(b process.ShopBar) string { return b.Name })
	} else {
		j.Drawer = slices.Clone(j.Drawer)
		keep(j.Drawer, of.Drawer, j.Cutter.Name, func(k process.ShopCutter) string { return k.Name })
	}
	takePlaces(j, of, what)
}

// keep puts the entry of a name from another list in place of that of a list.
func keep[T any](list, from []T, name string, called func(T) string) {
	for i := range list {
		if at := slices.IndexFunc(from, func(x T) bool { return name != "" && called(x) == name }); at >= 0 && called(list[i]) == name {
			list[i] = from[at]
		}
	}
}

// takePlaces gives a job what another states of some tables.
func takePlaces(j, of *process.Job, tables ...string) {
	in := func(key string) bool {
		return slices.ContainsFunc(tables, func(t string) bool {
			return key == t || strings.HasPrefix(key, t+".") || strings.HasPrefix(key, t+"[")
		})
	}
	places := map[string]source.Pos{}
	maps.Copy(places, j.Places)
	maps.DeleteFunc(places, func(key string, _ source.Pos) bool { return in(key) })
	for key, at := range of.Places {
		if in(key) {
			places[key] = at
		}
	}
	j.Places = places
}

// sameBores is whether two jobs have the same stations and bores, each cut with the same tools.
func sameBores(a, b *process.Job) bool {
	return reflect.DeepEqual(a.Stations, b.Stations) && reflect.DeepEqual(a.Bores, b.Bores)
}
