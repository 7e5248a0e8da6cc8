package ways

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/pass"
	"borewright/process/qty"
)

// The bar to make: a plain bar as short as reaches, of the cheapest metal that does; as thick as a shop
// makes one for the bore, and as thick as passes where none such does.

// ofBore is the thickest bar that a shop makes for a bore, of the bore's diameter. Common practice, no source.
const ofBore = 0.8

// metals are what a bar is made of, the cheapest first. Common practice, no source.
var metals = []string{"steel", "tungsten-alloy", "carbide"}

// toMake are the bars to make in the place of one, the cheapest first; none where none passes. thin is
// what passes, where that is too thin to be a bar.
func toMake(a *Asked) (out []change, thin qty.Diameter) {
	if a == nil || a.Job.Bar.Outboard != nil {
		return nil, 0
	}
	job := a.Job
	thick, short := job.Machine.Nose, deepest(job)+pass.Clearance+noseRoom
	for _, v := range a.Visits {
		r := v.Reach
		if r == nil || r.Largest <= 0 || r.CutterStops {
			return nil, 0 // which the reach says
		}
		thick, short = min(thick, r.Largest), max(short, r.Shortest)
	}
	unit, more := qty.Diameter(job.Round(2, 0.125)), job.Round(10, 0.5)
	if len(a.Visits) == 0 || thick < unit {
		return nil, thick
	}
	usual := thick - qty.Diameter(2*job.Limits.ChipRoom)
	for _, b := range job.Bores {
		usual = min(usual, qty.DiameterMM(ofBore*b.Finish.Low.MM()))
	}
	usual, thick, short = usual/unit*unit, thick/unit*unit, (short+more-1)/more*more // sizes that bars come in
	if job.Bar.FeedBy == process.QuillFeed {                                         // the nose stays where it is
		short = max(short, job.Bar.CutterAt)
	}
	for _, id := range metals {
		if usual >= unit {
			out = append(out, barOf(job, id, usual, short))
		}
		if usual < thick {
			out = append(out, barOf(job, id, thick, short))
		}
	}
	return out, 0
}

// barOf is one to make so thick and so long, of the metal of that id.
func barOf(job *process.Job, id string, thick qty.Diameter, short qty.Length) change {
	m := *files.BarMaterialByID(id)
	metal := ""
	if id != job.Bar.Material.ID {
		metal = fmt.Sprintf(", material = %q", id)
	}
	one := fmt.Sprintf("[ { diameter = %s, length = %s%s } ]", job.Units.Bare(qty.Plain(thick.Length())), job.Units.Bare(qty.Plain(short)), metal)
	keys := []key{figure("bar.steps", fact.Name(one))}
	for _, path := range []string{"bar.quill_out", "bar.stickout", "bar.name"} {
		if stated(job, path) && (path != "bar.name" || listed(job) == nil) {
			keys = append(keys, without(path))
		}
	}
	if stated(job, "bar.cutter_at") {
		keys = append(keys, length("bar.cutter_at", short))
	}
	if stated(job, "cutter.bar") {
		keys = append(keys, length("cutter.bar", thick.Length()))
	}
	return change{what: fact.New(ToMake, fact.Figure(thick), fact.Figure(qty.Plain(short)), fact.Name(m.Name)), keys: keys, edit: func(j *process.Job) {
		own := j.Bar
		j.Bar = process.Bar{Name: own.Name, Material: own.Material, FeedBy: own.FeedBy, Standoff: own.Standoff, CutterAt: short,
			Steps: []process.Step{{Diameter: thick, Length: short, Material: m}}}
		if listed(job) == nil {
			j.Bar.Name = ""
		}
		if stated(job, "cutter.bar") {
			j.Cutter.Bar = thick
		}
	}}
}

func without(path string) key { return key{path: path, as: fact.New(Without, fact.Name(path))} }

// makes is whether what was tried is a bar to make.
func (t tried) makes() bool { return slices.ContainsFunc(t.made, change.whole) }

// ofBar is whether it changes the bar at all.
func (t tried) ofBar() bool {
	return slices.ContainsFunc(t.made, func(c change) bool {
		return slices.ContainsFunc(c.keys, func(k key) bool { return strings.HasPrefix(k.path, "bar.steps") || strings.HasPrefix(k.path, "bars[") })
	})
}

// toMake are the bars to make in the place of one that bores name.
func (n *own) toMake(a *Asked) ([]change, qty.Diameter) {
	list, thin := toMake(a.cutBy(n.view, n.tools))
	return n.entries(list), thin
}

// maker is one bar that another is to be made in the place of: the job's own, or one that bores name.
type maker struct {
	list []change     // bars to make, the cheapest first
	thin qty.Diameter // toMake
	told func(fact.Fact) fact.Fact
	got  tried // the first that does; else the one that comes nearest
}

// makers are those of a job.
func (a *Asked) makers() (all []maker) {
	named, rest, _ := owns(a.Job)
	list, thin := toMake(a.theJob(rest))
	all = append(all, maker{list: list, thin: thin, told: func(f fact.Fact) fact.Fact { return f }})
	for _, n := range named {
		if !n.bit {
			list, thin := n.toMake(a)
			all = append(all, maker{list: list, thin: thin, told: func(f fact.Fact) fact.Fact { return fact.New(Instead, fact.Name(n.name), f) }})
		}
	}
	return all
}

// make tries the bars to make in the place of one, until one does.
func (a *Asked) make(m *maker, of int) {
	for i, c := range m.list {
		t := a.try(Judged, []int{of}, made+min(i, 1), c)
		if t.Feasible {
			t.dearer = slices.DeleteFunc(slices.Clone(m.list[i+1:]), func(d change) bool { return d.plain().Args[0] != c.plain().Args[0] }) // as thick
			m.got = t
			return
		}
		if m.got.job == nil || t.job != nil && nearer(t.Outcome, m.got.Outcome) {
			m.got = t
		}
	}
}

// bar adds the bars to make to what was found; where none does, for what a bar can mend, and nothing that
// was found changes a bar, it says why of the one that comes nearest.
func bar(found []tried, all []maker) ([]tried, fact.Fact) {
	var near *maker
	var why fact.Fact
	makes := false
	for i := range all {
		m := &all[i]
		switch {
		case m.got.Feasible:
			found, makes = append(found, m.got), true
		case m.thin > 0 && why.None():
			why = m.told(fact.New(NoBarPasses, fact.Figure(m.thin)))
		case m.got.job != nil && (near == nil || nearer(m.got.Outcome, near.got.Outcome)):
			near = m
		}
	}
	switch {
	case makes || slices.ContainsFunc(found, tried.ofBar):
		return found, fact.Fact{}
	case !why.None() || near == nil:
		return found, why
	case near.got.AnyBar || math.IsInf(near.got.Short, 1): // the reason says what is short; by an edge too blunt for the finish no figure of a bar's
		return found, fact.Fact{}
	}
	var by fact.Arg
	if near.got.Short > 1 {
		by = fact.Value(qty.KindRatio, near.got.Short)
	}
	what := near.got.made[0].plain().Args
	return found, near.told(fact.New(NoBarDoes, what[0], what[1], what[2], by))
}
