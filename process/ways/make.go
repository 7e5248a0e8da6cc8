package ways

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/files"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/setup"
)

// The bar to make: a plain bar as short as reaches, of the cheapest metal that does; as thick as a shop
// makes one for the bore, and as thick as passes where none such does.

// ofBore is the thickest bar that a shop makes for a bore, of the bore's diameter. Common practice, no source.
const ofBore = 0.8

// metals are what a bar is made of, the cheapest first. Common practice, no source.
var metals = []string{"steel", "tungsten-alloy", "carbide"}

// thickestCarbide is the thickest bar of solid carbide that can be had. Common practice, no source.
const thickestCarbide = 50 * qty.Diameter(qty.Millimetre)

// unmade is whether what was tried asks for a bar of solid carbide that nobody makes.
func (a *Asked) unmade(t tried) bool {
	steps := slices.Clone(t.job.Bar.Steps)
	for _, b := range t.job.Shop[len(a.Job.Shop):] { // as it is added to the list
		steps = append(steps, b.Steps...)
	}
	return slices.ContainsFunc(t.made, func(c change) bool { return c.whole() || c.plain().Kind == ToBarMaterial }) &&
		slices.ContainsFunc(steps, func(s process.Step) bool { return s.Material.ID == "carbide" && s.Diameter > thickestCarbide })
}

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

// Metal is the bar to make of one metal, and what it would give.
type Metal struct {
	ID      string // as bar.steps has it
	Instead string // of a bar that bores name; "": of the job's own
	Outcome
}

// Describe says what documents have of it.
func (m *Metal) Describe(d *field.Desc) {
	d.Name(&m.ID, "material")
	d.Name(&m.Instead, "in_place_of").OmitEmpty()
	d.Count(&m.Passes, "passes")
	d.Figure(&m.Minutes, qty.KindMinutes, "minutes").Decimals(2)
	d.Figure(&m.Chance, qty.KindShare, "chance").Decimals(4)
	d.Table(&m.Noisiest, "chatter")
}

// Voice is how its noisiest pass stands, in a word.
func (m Metal) Voice() fact.Kind { return m.Noisiest.Chatter() }

// dearer are the first bar to make that was found, and the same of dearer metals that give more: nothing where
// none was found or none does.
func (a *Asked) dearer(found []tried) []Metal {
	i := slices.IndexFunc(found, func(t tried) bool { return t.makes() && len(t.made) == 1 })
	if i < 0 {
		return nil
	}
	bar := found[i]
	if bar.Chance == 0 {
		bar.Outcome = a.Try(bar.job, Trialed)
	}
	instead := ""
	if n := bar.made[0].of(); n != nil {
		instead = n.name
	}
	out := []Metal{{bar.made[0].metal(), instead, bar.Outcome}}
	for _, c := range bar.dearer {
		if t := a.try(Trialed, bar.of, built, c); t.Feasible && more(t.Outcome, out[len(out)-1].Outcome) {
			out = append(out, Metal{c.metal(), instead, t.Outcome})
		}
	}
	if len(out) == 1 {
		return nil
	}
	return out
}

// metal is what a bar to make is of.
func (c change) metal() string {
	of := c.plain()
	i := slices.IndexFunc(metals, func(id string) bool { return of.Nth(3) == fact.Name(files.BarMaterialByID(id).Name) })
	if i < 0 {
		return ""
	}
	return metals[i]
}

// more is whether one outcome gives more than another: it is quieter, surer or quicker by more than a little.
func more(o, than Outcome) bool {
	x, y := o.Noisiest.Chatter(), than.Noisiest.Chatter()
	return x != y && setup.Louder(x, y) == y || o.Chance > than.Chance+0.005 || o.Minutes < 0.97*than.Minutes
}
