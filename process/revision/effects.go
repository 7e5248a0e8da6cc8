package revision

import (
	"reflect"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// Effect is what a change comes to: the whole change, or one part of it made
// alone to the old job, planned anew.
type Effect struct {
	Part     fact.Kind
	Feasible [2]bool       // old, new
	Spring   [2]qty.Length // most of any finish pass, on diameter
	Chance   [2]float64    // of landing every visit on size, by the same trials as the plan
	Voice    [2]fact.Kind  // whether the bar stays quiet, as the chance supposes
	Minutes  [2]float64
}

// Louder is whether the new plan may sing, or will, where the old one was quieter.
func (e Effect) Louder() bool {
	return e.Voice[0] != e.Voice[1] && setup.Louder(e.Voice[0], e.Voice[1]) == e.Voice[1]
}

// Effects weighs the difference between two plans, and each part of it alone.
// Nil where one of them was not made from a job here, or nothing that is
// planned with differs.
func Effects(old, new *plan.Plan) []Effect {
	if old == nil || new == nil || !old.Planned() || !new.Planned() {
		return nil
	}
	var out []Effect
	for _, x := range changedAlone(old.Job, new.Job) {
		out = append(out, effect(x.part, old, old.Another(x.job)))
	}
	all := Whole(old, new)
	if len(out) == 0 && all.Spring[0] == all.Spring[1] && all.Chance[0] == all.Chance[1] && all.Minutes[0] == all.Minutes[1] && all.Voice[0] == all.Voice[1] {
		return nil
	}
	return append([]Effect{all}, out...)
}

// alone is a job of which one part was changed.
type alone struct {
	part fact.Kind
	job  *process.Job
}

// changedAlone are the parts in which two jobs differ, each changed by itself in the first. Bores
// have the tools that they name, whatever the job's own become.
func changedAlone(a, b *process.Job) []alone {
	withBar := cutterWithBar(a, b)
	var out []alone
	for _, part := range []struct {
		part fact.Kind
		same bool
		swap func(j *process.Job)
	}{
		{StationsAndBores, false, func(j *process.Job) { withBores(j, b) }}, // told by what came of it
		{TheSleeve, reflect.DeepEqual(a.Sleeve, b.Sleeve), func(j *process.Job) { j.Sleeve = b.Sleeve }},
		{TheBar, reflect.DeepEqual(a.Bar, b.Bar), func(j *process.Job) { withTools(j, b, "bar"); j.Cutter = withBar }},
		{TheCutter, reflect.DeepEqual(withBar, b.Cutter), func(j *process.Job) { j.Cutter = b.Cutter; withTools(j, b, "cutter") }},
		{TheMachine, reflect.DeepEqual(a.Machine, b.Machine), func(j *process.Job) { j.Machine = b.Machine }},
		{TheMaterial, reflect.DeepEqual(a.Material, b.Material), func(j *process.Job) { j.Material = b.Material }},
		{TheLimits, reflect.DeepEqual(a.Limits, b.Limits), func(j *process.Job) { j.Limits = b.Limits }},
	} {
		if part.same {
			continue
		}
		j := *a
		part.swap(&j)
		if files.Retool(&j); part.part == StationsAndBores && sameBores(a, &j) {
			continue
		}
		out = append(out, alone{part.part, &j})
	}
	return out
}

// cutterWithBar is the cutter of a with what follows from the bar of b: the sizes that it is usually
// set to in a bar, by the list or by rule, and the diameter under a micrometer, where neither job has its own.
func cutterWithBar(a, b *process.Job) process.Cutter {
	c := a.Cutter
	was, wasMost := a.Bar.UsualSizes()
	is, isMost := b.Bar.UsualSizes()
	listed := func(path string) bool { // the range comes with the bar from the shop's list
		for _, j := range []*process.Job{a, b} {
			if at, stated := j.Places[path]; j.Places["bars"].Line == 0 || stated && at != j.Places["bars"] {
				return false
			}
		}
		return true
	}
	if a.Cutter.Least == was && b.Cutter.Least == is || listed("cutter.least") {
		c.Least = b.Cutter.Least
	}
	if a.Cutter.Most == wasMost && b.Cutter.Most == isMost || listed("cutter.most") {
		c.Most = b.Cutter.Most
	}
	if a.Cutter.Bar == atCutter(a) && b.Cutter.Bar == atCutter(b) {
		c.Bar = b.Cutter.Bar
	}
	return c
}

// atCutter is the diameter of the bar at its cutter; 0 where the bar does not reach so far.
func atCutter(j *process.Job) qty.Diameter {
	if at := j.Bar.StepAt(j.Bar.CutterAt); at >= 0 {
		return j.Bar.Steps[at].Diameter
	}
	return 0
}

// Whole is what all changes come to together, of plans that were read back from
// documents, too.
func Whole(old, new *plan.Plan) Effect { return effect(WholeJob, planOrEmpty(old), planOrEmpty(new)) }

// EffectOf is what a change comes to: the effect of the part of the job that it
// belongs to, made alone. A change that stands among the visits is a result
// itself, of all changes together. False where nothing is known of it.
func EffectOf(c Change, list []Effect) (Effect, bool) {
	for _, e := range list {
		if e.Part == c.Part && c.Part != "" {
			return e, true
		}
	}
	return Effect{}, false
}

func effect(part fact.Kind, old, new *plan.Plan) Effect {
	e := Effect{Part: part}
	for i, p := range []*plan.Plan{old, new} {
		e.Feasible[i], e.Minutes[i], e.Chance[i] = p.Feasible, p.Minutes, 1
		for _, b := range p.Bores {
			for _, v := range b.Visits {
				for _, q := range v.Passes {
					if q.Kind == schedule.Finish {
						e.Spring[i] = max(e.Spring[i], q.Spring)
					}
				}
				e.Voice[i] = setup.Louder(e.Voice[i], v.Voice())
				if v.Budget != nil {
					e.Chance[i] *= v.Budget.Chance
				}
			}
		}
	}
	return e
}
