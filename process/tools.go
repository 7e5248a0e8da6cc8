package process

import (
	"maps"
	"slices"
	"strings"

	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/source"
)

// Tools are a bar with the cutter in it, where a visit is not cut with those of the job, and
// the limits that follow from them. All that are alike in one job are one pointer.
type Tools struct {
	N            int // among those of the job, from 1; 0 are the job's own
	Bar          Bar
	Cutter       Cutter
	SettingError qty.Length
	SettingUsual bool
	Overhang     float64
	Key          string // of the job, that names them
}

// ToolsNamed are a bar and a cutter of the shop's lists by their names; "": as else.
type ToolsNamed struct{ Bar, Cutter string }

// Describe says what the keys are.
func (t *ToolsNamed) Describe(d *field.Desc) {
	d.Name(&t.Bar, "bar").Otherwise("as the finish").Example(`"F 80"`).Says("what the shop's list calls the bar that roughs").
		Weighs(SpoilsReach, "bar that roughs").ZeroIsNone()
	d.Name(&t.Cutter, "cutter").Otherwise("as the finish").Example(`"K5 short"`).Says("what the shop's list calls the cutter that roughs").
		Weighs(SpoilsReach, "cutter that roughs").ZeroIsNone()
}

// ToolsOf is with what a bore is cut, by its index: its roughing, where it is roughed apart,
// or all else. nil: with bar and cutter of the job.
func (j *Job) ToolsOf(bore int, rough bool) *Tools {
	b := &j.Bores[bore]
	if rough {
		return b.RoughBy
	}
	return b.CutBy
}

// Using is the job with these tools in place of its own: what a visit is planned, told and
// proven by. nil is the job itself. A control that calls a tool and a length calls those that
// follow the job's own by as many as the tools stand behind them: a bar in another place of the
// rack, or with another cutter, has another length.
func (j *Job) Using(t *Tools) *Job {
	if t == nil || j == nil || j.Used == t {
		return j
	}
	k := *j
	k.Used, k.Places = t, maps.Clone(j.Places)
	maps.DeleteFunc(k.Places, func(key string, _ source.Pos) bool {
		return strings.HasPrefix(key, "bar.") && !HeldBy(key) || strings.HasPrefix(key, "cutter.")
	})
	if k.Places != nil {
		at := source.Where(j.Places, t.Key)
		k.Places["bar"], k.Places["cutter"] = at, at
	}
	k.Bar, k.Cutter = t.Bar, t.Cutter
	k.Limits.SettingError, k.Limits.SettingUsual, k.Limits.Overhang = t.SettingError, t.SettingUsual, t.Overhang
	if k.Machine != nil && k.Machine.Control != nil {
		m, c := *k.Machine, *k.Machine.Control
		if c.Tool > 0 {
			c.Tool += t.N
		}
		if c.LengthOffset > 0 {
			c.LengthOffset += t.N
		}
		m.Control, k.Machine = &c, &m
	}
	return &k
}

// HeldBy is whether a key of the bar says how it is fed and held: of one of the lists the job says
// that itself.
func HeldBy(key string) bool {
	return slices.ContainsFunc([]string{"feed_by", "standoff", "quill_out", "outboard", "inboard"}, func(of string) bool { return strings.HasPrefix(key, "bar."+of) })
}

// ToolsCalled is the job's own bar and cutter by their names, and the bush that it runs in where
// bores differ in that: "C 60 and K4 broad".
func (j *Job) ToolsCalled() string {
	if g := j.Guide(); g != nil && j.Used != nil {
		return j.Bar.Called() + " and " + j.Cutter.Called() + ", bush in " + g.Name
	}
	return j.Bar.Called() + " and " + j.Cutter.Called()
}

// AllTools are the tools that the job's bores are cut with, each once, in the order of the
// bores, roughing first; nil among them stands for bar and cutter of the job.
func (j *Job) AllTools() (all []*Tools) {
	seen := map[*Tools]bool{}
	add := func(t *Tools) {
		if !seen[t] {
			seen[t] = true
			all = append(all, t)
		}
	}
	for i := range j.Bores {
		if j.RoughsApart(i) {
			add(j.ToolsOf(i, true))
		}
		add(j.ToolsOf(i, false))
	}
	return all
}

// Cuts is whether a bore, by its index, is cut with bar and cutter that the job now has.
func (j *Job) Cuts(bore int) bool {
	return j.ToolsOf(bore, false) == j.Used || j.RoughsApart(bore) && j.ToolsOf(bore, true) == j.Used
}

// RoughsApart is whether the order of the job may rough a bore apart from its finish.
func (j *Job) RoughsApart(bore int) bool { return j.Apart() && !j.Bores[bore].First }
