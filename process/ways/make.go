package ways

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/pass"
	"borewright/process/qty"
)

// The bar to make: a plain bar as thick as passes and as short as reaches, of the cheapest metal
// that does.

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
	thick, short = thick/unit*unit, (short+more-1)/more*more // sizes that bars come in
	if job.Bar.FeedBy == process.QuillFeed {                 // the nose stays where it is
		short = max(short, job.Bar.CutterAt)
	}
	for _, id := range metals {
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
		out = append(out, change{what: fact.New(ToMake, fact.Figure(thick), fact.Figure(qty.Plain(short)), fact.Name(m.Name)), keys: keys, edit: func(j *process.Job) {
			own := j.Bar
			j.Bar = process.Bar{Name: own.Name, Material: own.Material, FeedBy: own.FeedBy, Standoff: own.Standoff, CutterAt: short,
				Steps: []process.Step{{Diameter: thick, Length: short, Material: m}}}
			if listed(job) == nil {
				j.Bar.Name = ""
			}
			if stated(job, "cutter.bar") {
				j.Cutter.Bar = thick
			}
		}})
	}
	return out, 0
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

// bar adds the bar to make to what was found, in the place of the job's own or of one that bores name;
// where none does, for what a bar can mend, and nothing that was found changes a bar, it says why of the one
// that comes nearest.
func (a *Asked) bar(found []tried, of int) ([]tried, fact.Fact) {
	named, rest, _ := owns(a.Job)
	var near tried
	var why fact.Fact
	makes := false
	try := func(list []change, thin qty.Diameter, told func(fact.Fact) fact.Fact) {
		if thin > 0 && why.None() {
			why = told(fact.New(NoBarPasses, fact.Figure(thin)))
		}
		for i, c := range list {
			t := a.try(Judged, []int{of}, made+min(i, 1), c)
			if t.Feasible {
				t.dearer = list[i+1:]
				found, makes = append(found, t), true
				return
			}
			if near.job == nil || t.job != nil && nearer(t.Outcome, near.Outcome) {
				near = t
			}
		}
	}
	own, thin := toMake(a.theJob(rest))
	try(own, thin, func(f fact.Fact) fact.Fact { return f })
	for _, n := range named {
		if !n.bit {
			list, thin := n.toMake(a)
			try(list, thin, func(f fact.Fact) fact.Fact { return fact.New(Instead, fact.Name(n.name), f) })
		}
	}
	switch {
	case makes || slices.ContainsFunc(found, tried.ofBar):
		return found, fact.Fact{}
	case !why.None() || near.job == nil:
		return found, why
	case near.AnyBar: // the reason says what is short
		return found, fact.Fact{}
	}
	var by fact.Arg
	if near.Short > 1 {
		by = fact.Value(qty.KindRatio, near.Short)
	}
	c := near.made[0]
	what := c.plain().Args
	why = fact.New(NoBarDoes, what[0], what[1], what[2], by)
	if n := c.of(); n != nil {
		why = fact.New(Instead, fact.Name(n.name), why)
	}
	return found, why
}
