package ways

import (
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/source"
)

// thatPasses builds the job's bar anew where it does not pass: no thicker than
// what passes every station it enters, and long enough to keep the nose out.
func thatPasses(a *Asked) []change {
	if a == nil {
		return nil
	}
	var largest qty.Diameter
	var shortest qty.Length
	stopped := false
	for _, v := range a.Visits {
		r := v.Reach
		if r == nil || r.Largest <= 0 {
			return nil
		}
		stopped = stopped || !r.Passes()
		if largest == 0 || r.Largest < largest {
			largest = r.Largest
		}
		shortest = max(shortest, r.Shortest)
	}
	if !stopped || a.Job.Bar.Adjustable() { // how far it may be clamped out stands in the file
		return nil
	}
	job := a.Job
	unit, more := job.Round(2, 0.125), job.Round(10, 0.5)
	largest = largest / qty.Diameter(unit) * qty.Diameter(unit) // a size that bars come in
	if largest <= 0 {
		return nil
	}
	bar, last := job.Bar, len(job.Bar.Steps)-1
	bar.Steps = slices.Clone(bar.Steps)
	var keys []key
	for i := range bar.Steps {
		if s := &bar.Steps[i]; s.Diameter > largest {
			s.Diameter = largest
			keys = append(keys, length(step(i, "diameter"), largest.Length()))
		}
	}
	back := false
	if bar.CutterAt < shortest {
		longer := (shortest - bar.CutterAt + more - 1) / more * more
		bar.Steps[last].Length += longer
		bar.CutterAt += longer
		keys = append(keys, length(step(last, "length"), bar.Steps[last].Length))
		if stated(job, "bar.cutter_at") {
			keys = append(keys, length("bar.cutter_at", bar.CutterAt))
		}
		if back = job.Bar.FeedBy == process.QuillFeed; back { // the quill goes as far as before, further from the work
			bar.Standoff += longer
			keys = append(keys, length("bar.standoff", bar.Standoff))
		}
	}
	if len(keys) == 0 { // it is thin and long enough: something else stops it
		return nil
	}
	what := fact.New(ToBarAtMost, fact.Figure(largest), fact.Figure(bar.CutterAt))
	if back {
		what = fact.New(ToQuillBar, fact.Figure(largest), fact.Figure(bar.CutterAt), fact.Figure(bar.Standoff))
	}
	return []change{{what, keys, func(j *process.Job) {
		copy(j.Bar.Steps, bar.Steps)
		j.Bar.CutterAt, j.Bar.Standoff = bar.CutterAt, bar.Standoff
	}}}
}

// clearOfBottom shortens what stands ahead of the tip where it runs into a closed
// end: the bar beyond the cutter, and the cutter's holder.
func clearOfBottom(a *Asked) []change {
	if a == nil {
		return nil
	}
	var shorter qty.Length
	for _, v := range a.Visits {
		if r := v.Reach; r != nil {
			s, _ := r.Ahead()
			shorter = max(shorter, s)
		}
	}
	if shorter == 0 || drawn(a.Job) > 0 {
		return nil
	}
	job := a.Job
	unit := job.Round(0.5, 1.0/64)
	// What reaches furthest has to go back by that much, and what reaches less far
	// to the same place.
	bar, holder := job.Bar.Stickout()-job.Bar.CutterAt, job.Cutter.Ahead
	left := job.Units.Down(max(0, (max(bar, holder)-shorter)/unit*unit))
	var what []fact.Fact
	var keys []key
	steps := slices.Clone(job.Bar.Steps)
	if bar > left {
		what = append(what, fact.New(ToBarEnd, fact.Figure(left), fact.Figure(bar)))
		for cut := bar - left; cut > 0 && len(steps) > 0; {
			last := &steps[len(steps)-1]
			if last.Length > cut {
				last.Length -= cut
				keys = append(keys, length(step(len(steps)-1, "length"), last.Length))
				break
			}
			cut -= last.Length
			steps = steps[:len(steps)-1]
			keys = append(keys, without(source.El("bar.steps", len(steps))))
		}
		if !stated(job, "bar.cutter_at") {
			keys = append(keys, length("bar.cutter_at", job.Bar.CutterAt))
		}
	}
	ahead := holder
	if holder > left {
		what = append(what, fact.New(ToHolder, fact.Figure(left), fact.Figure(holder)))
		keys = append(keys, length("cutter.ahead", left))
		ahead = left
	}
	if len(what) == 0 || len(steps) == 0 {
		return nil
	}
	return []change{{fact.New(Both, fact.List(what...)), keys, func(j *process.Job) {
		j.Bar.Steps, j.Cutter.Ahead = slices.Clone(steps), ahead
	}}}
}

// ofTheShop tries the bars that the shop owns, the stiffest that pass first.
func ofTheShop(a *Asked) []change {
	var out []change
	for _, c := range a.Shop {
		for _, b := range a.Job.Shop {
			if b.Name != c.Name || !c.Passes() || !c.Sets {
				continue
			}
			tip := b.CutterAt
			if listed(a.Job) != nil && !ofTheBar(a.Job, "bar.cutter_at") { // the job says it, of whatever bar
				if tip = a.Job.Bar.CutterAt; b.Stands[1] > 0 { // clamped for that tip: too much is open
					continue
				}
			}
			keys := []key{ofList("bar.steps"), ofList("bar.cutter_at"), ofList("cutter.least"), ofList("cutter.most")}
			if listed(a.Job) != nil && inFile(a.Job, "bar.name") {
				keys = append(keys, word("bar.name", b.Name))
			} else if inFile(a.Job, "bar.steps") { // its own makes way for that of the list, with the sizes that it is good for
				keys = append(keys, told(word("bar.name", b.Name)))
				for _, path := range []string{"bar.steps", "bar.cutter_at", "bar.stickout", "cutter.least", "cutter.most"} {
					if inFile(a.Job, path) {
						keys = append(keys, told(without(path)))
					}
				}
			}
			out = append(out, change{fact.New(ToShopBar, fact.Name(b.Name)), keys, func(j *process.Job) {
				held := j.Bar
				j.Bar, j.Cutter.Least, j.Cutter.Most = b.Bar, b.Least, b.Most
				j.Bar.CutterAt = tip
				j.Bar.FeedBy, j.Bar.Standoff, j.Bar.Outboard, j.Bar.Inboard, j.Bar.QuillOut = held.FeedBy, held.Standoff, held.Outboard, held.Inboard, held.QuillOut
				j.Bar.Steps = slices.Clone(b.Steps)
			}})
		}
	}
	return out
}
