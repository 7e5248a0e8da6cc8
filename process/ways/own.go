package ways

import (
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/candidate"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/named"
	"borewright/process/place"
)

// Bars and cutters that bores name from the shop's lists. The job file cannot change them: a change is
// another entry of the list, which takes the place of the one that was named, wherever that is named.

// own is one bar or one cutter of the lists that bores name, and what is cut with it.
type own struct {
	bit    bool // a cutter
	name   string
	paths  []string         // of the keys that name it
	tools  []*process.Tools // that it is one of
	bores  []int            // that it cuts
	roughs bool             // some of them before their finish
	ends   bool             // some of them to size
	view   *process.Job     // the job as it is cut with it, and only the bores that it cuts
}

// owns are the bars and cutters that bores name, in the order of the bores; and the tools that have
// the job's own bar, and its own cutter.
func owns(job *process.Job) (list []*own, bar, bit []*process.Tools) {
	add := func(bit bool, name, path string, bore int, t *process.Tools, rough bool) {
		at := slices.IndexFunc(list, func(n *own) bool { return n.bit == bit && n.name == name })
		if at < 0 {
			at = len(list)
			list = append(list, &own{bit: bit, name: name})
		}
		n := list[at]
		if !slices.Contains(n.paths, path) {
			n.paths = append(n.paths, path)
		}
		if !slices.Contains(n.tools, t) {
			n.tools = append(n.tools, t)
		}
		if !slices.Contains(n.bores, bore) {
			n.bores = append(n.bores, bore)
		}
		n.roughs, n.ends = n.roughs || rough || !job.RoughsApart(bore), n.ends || !rough
	}
	for i := range job.Bores {
		cut, rough := named.By(job, i)
		for _, part := range []bool{true, false} {
			by := cut
			if part {
				if by = rough; !job.RoughsApart(i) {
					continue
				}
			}
			t := job.ToolsOf(i, part)
			if by.Bar == "" {
				bar = append(bar, t)
			} else {
				add(false, by.Bar, by.BarKey, i, t, part)
			}
			if by.Cutter == "" {
				bit = append(bit, t)
			} else {
				add(true, by.Cutter, by.CutterKey, i, t, part)
			}
		}
	}
	return slices.DeleteFunc(list, func(n *own) bool { return !n.seen(job) }), bar, bit
}

// seen makes the view of the job; false where the lists do not have what is named.
func (n *own) seen(job *process.Job) bool {
	view := *faces.Of(job, n.bores[0]).Using(n.tools[0])
	view.Bores = boresOf(&view, n.bores)
	if n.view = &view; n.bit {
		return slices.ContainsFunc(job.Drawer, func(k process.ShopCutter) bool { return k.Name == n.name })
	}
	i := slices.IndexFunc(job.Shop, func(b process.ShopBar) bool { return b.Name == n.name })
	if i >= 0 { // as the list has it, before its stickout was chosen
		held := view.Bar
		view.Bar = job.Shop[i].Bar
		view.Bar.FeedBy, view.Bar.Standoff, view.Bar.Outboard, view.Bar.Inboard = held.FeedBy, held.Standoff, held.Outboard, held.Inboard
	}
	return i >= 0
}

// boresOf are some bores of a job, by their indices.
func boresOf(job *process.Job, of []int) (some []process.Bore) {
	for _, i := range of {
		some = append(some, job.Bores[i])
	}
	return some
}

// cutBy is what is asked of a job as it is cut with some tools alone.
func (a *Asked) cutBy(view *process.Job, tools []*process.Tools) *Asked {
	b := *a
	b.Job, b.Visits = view, nil
	for _, v := range a.Visits {
		if slices.Contains(tools, v.Tools) {
			b.Visits = append(b.Visits, v)
		}
	}
	return &b
}

// theJob is what is asked of the job's own bar, where bores name others; nil where they all do.
func (a *Asked) theJob(rest []*process.Tools) *Asked {
	if !named.Any(a.Job) {
		return a
	}
	view := *a.Job
	view.Bores = slices.Clone(view.Bores)[:0]
	for i := range a.Job.Bores {
		if slices.Contains(rest, a.Job.ToolsOf(i, true)) || slices.Contains(rest, a.Job.ToolsOf(i, false)) {
			view.Bores = append(view.Bores, a.Job.Bores[i])
		}
	}
	if len(view.Bores) == 0 {
		return nil
	}
	return a.cutBy(&view, rest)
}

// kinds are the changes that suit a bar or a cutter that bores name.
func (n *own) kinds(a *Asked) []kind {
	b := a.cutBy(n.view, n.tools)
	if n.bit {
		return []kind{
			{keyedIn, n.entries(slower(n.view)), true},
			{atHand, n.ofTheDrawer(a.Job), false},
			{atHand, n.entries(clearOfBottom(b)), false},
			{atHand, n.entries(smallerNose(n.view)), true},
			{atHand, n.entries(largerNose(n.view)), true},
			{atHand, n.entries(squarer(n.view)), true},
			{atHand, n.entries(keener(n.view)), true},
			{atHand, n.entries(setOtherwise(n.view)), false},
			{bought, n.entries(finerHone(n.view)), false},
			{bought, n.entries(otherEdge(n.view)), false},
		}
	}
	return []kind{
		{atHand, n.entries(shorter(n.view)), true},
		{atHand, n.ofTheShop(b), false},
		{atHand, n.entries(clearOfBottom(b)), false},
		{made, n.entries(thatPasses(b)), false},
		{made, n.entries(fatter(n.view)), true},
		{built, n.entries(otherBar(n.view)), false},
	}
}

// entries are changes of the job's own bar and cutter as changes of this one: without those that need
// more than its entry.
func (n *own) entries(list []change) (out []change) {
	for _, c := range list {
		table := "bar."
		if n.bit {
			table = "cutter."
		}
		if slices.ContainsFunc(c.keys, func(k key) bool { return !strings.HasPrefix(k.path, table) || k.path == "bar.standoff" }) {
			continue
		}
		mine := c
		mine.keys = nil
		mine.what = fact.New(Instead, fact.Name(n.name), c.what)
		for _, k := range c.keys {
			mine.keys = append(mine.keys, key{path: n.at() + k.path, of: n})
		}
		out = append(out, mine)
	}
	return out
}

// at is the path of its entry, which no key of a job has.
func (n *own) at() string {
	if n.bit {
		return "cutters[" + n.name + "]."
	}
	return "bars[" + n.name + "]."
}

// taken is another entry of the list in its place, where the file names it.
func (n *own) taken(job *process.Job, kind fact.Kind, name string) []change {
	if !slices.ContainsFunc(n.paths, func(p string) bool { return inFile(job, p) }) {
		return nil
	}
	return []change{{what: fact.New(Instead, fact.Name(n.name), fact.New(kind, fact.Name(name))), keys: []key{{path: strings.TrimSuffix(n.at(), "."), of: n, takes: name}}}}
}

// inFile is whether a key stands in the job's file, and was not chosen from its lists.
func inFile(job *process.Job, path string) bool {
	at, is := job.Places[path]
	for _, list := range []string{"bars", "cutters"} {
		if l, has := job.Places[list]; has && at == l {
			return false
		}
	}
	return is
}

// ofTheShop tries the other bars of the list, the stiffest that pass first.
func (n *own) ofTheShop(b *Asked) (out []change) {
	var seen []*place.Reach
	for _, v := range b.Visits {
		if v.Reach != nil {
			seen = append(seen, v.Reach)
		}
	}
	all, err := place.Choose(n.view, seen, n.view.Shop)
	if err != nil { // a list that cannot be tried frees nothing
		return nil
	}
	for _, c := range all {
		if c.Name != n.name && c.Passes() && c.Sets {
			out = append(out, n.taken(b.Job, ToShopBar, c.Name)...)
		}
	}
	return out
}

// ofTheDrawer tries the other cutters of the list that are good for what is cut, in their order.
func (n *own) ofTheDrawer(job *process.Job) (out []change) {
	for _, k := range job.Drawer {
		if k.Name == n.name || n.roughs && k.For == candidate.FinishWork || n.ends && k.For == candidate.RoughWork {
			continue
		}
		out = append(out, n.taken(job, ToShopCutter, k.Name)...)
	}
	return out
}

// put makes changes of what bores name: another entry of the list, named in its place.
func (n *own) put(job, j *process.Job, list []change) {
	name, whole := "", false
	u := clone(n.view)
	for _, c := range list {
		if name, whole = c.takes(), whole || c.whole(); name == "" {
			c.edit(u)
		}
	}
	switch {
	case name != "":
	case n.bit:
		name = newName(j.Drawer, cutterName, 0)
		j.Drawer = append(slices.Clone(j.Drawer), n.cutter(job, u, name))
	default:
		name = newName(j.Shop, barName, 0)
		j.Shop = append(slices.Clone(j.Shop), n.bar(job, u, name, whole))
	}
	for _, to := range n.namedBy(j) {
		*to = name
	}
}

// namedBy are the places of a job that name it.
func (n *own) namedBy(j *process.Job) (all []*string) {
	add := func(bar, cutter *string) {
		if to := map[bool]*string{false: bar, true: cutter}[n.bit]; *to == n.name {
			all = append(all, to)
		}
	}
	add(&j.Rough.Bar, &j.Rough.Cutter)
	for i := range j.Bores {
		b := &j.Bores[i]
		add(&b.Bar, &b.Cutter)
		add(&b.Rough.Bar, &b.Rough.Cutter)
	}
	return all
}

// bar is the entry of a changed bar.
func (n *own) bar(job, u *process.Job, name string, whole bool) process.ShopBar {
	i := slices.IndexFunc(job.Shop, func(b process.ShopBar) bool { return b.Name == n.name })
	one, was := job.Shop[i], job.Shop[i]
	held := one.Bar
	one.Bar = u.Bar
	one.FeedBy, one.Standoff, one.Outboard, one.Inboard = held.FeedBy, held.Standoff, nil, nil
	one.Name = name
	usualSizes(&one, was, whole)
	return one
}

// cutter is the entry of a changed cutter.
func (n *own) cutter(job, u *process.Job, name string) process.ShopCutter {
	i := slices.IndexFunc(job.Drawer, func(k process.ShopCutter) bool { return k.Name == n.name })
	one, was := job.Drawer[i], job.Drawer[i].Cutter
	one.Cutter = u.Cutter
	one.Least, one.Most, one.Bar, one.Land = was.Least, was.Most, was.Bar, was.Land
	if m := one.Material; m != was.Material { // what is usual with it
		if one.Rake == was.Material.Rake {
			one.Rake = m.Rake
		}
		if one.EdgeRadius == was.Material.Edge {
			one.EdgeRadius = m.Edge
		}
	}
	one.Name = name
	return one
}

// name adds what was tried of bars and cutters that bores name: their entries, under names that no other way
// has, and the keys to name them by. What was chosen from a list is named nowhere: it is chosen anew.
func (w *Way) name(was *process.Job, t tried, bars, cutters int) {
	shop, drawer := t.job.Shop[len(was.Shop):], t.job.Drawer[len(was.Drawer):]
	var told []*own
	for _, c := range t.made {
		n := c.of()
		if n == nil || slices.Contains(told, n) {
			continue
		}
		told = append(told, n)
		name := c.takes()
		switch {
		case name != "":
		case n.bit:
			name = newName(was.Drawer, cutterName, cutters+len(w.Cutters))
			w.Cutters, drawer = append(w.Cutters, drawer[0]), drawer[1:]
			w.Cutters[len(w.Cutters)-1].Name = name
		default:
			name = newName(was.Shop, barName, bars+len(w.Bars))
			w.Bars, shop = append(w.Bars, shop[0]), shop[1:]
			w.Bars[len(w.Bars)-1].Name = name
		}
		for _, path := range n.paths {
			if inFile(was, path) {
				w.Keys = append(w.Keys, word(path, name).as)
			}
		}
	}
}
