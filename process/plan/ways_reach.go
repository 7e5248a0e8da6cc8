package plan

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// thatPasses builds the job's bar anew where it does not pass: no thicker than
// what passes every station it enters, and long enough to keep the nose out.
func thatPasses(p *Plan) []change {
	var largest qty.Diameter
	var shortest qty.Length
	stopped := false
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			if v.Reach == nil || v.Reach.Largest <= 0 {
				return nil
			}
			stopped = stopped || !v.Reach.Passes()
			if largest == 0 || v.Reach.Largest < largest {
				largest = v.Reach.Largest
			}
			shortest = max(shortest, v.Reach.Shortest)
		}
	}
	if !stopped {
		return nil
	}
	job := p.Job
	step, more := 2*qty.Millimetre, 10*qty.Millimetre
	if job.Units == qty.Inches {
		step, more = qty.Inch/8, qty.Inch/2
	}
	largest = largest / qty.Diameter(step) * qty.Diameter(step) // a size that bars come in
	j := withBar(job, func(s []process.Step) bool {
		for i := range s {
			s[i].Diameter = min(s[i].Diameter, largest)
		}
		return largest > 0
	})
	if j == nil {
		return nil
	}
	back := false
	if j.Bar.CutterAt < shortest {
		longer := (shortest - j.Bar.CutterAt + more - 1) / more * more
		j.Bar.Steps[len(j.Bar.Steps)-1].Length += longer
		j.Bar.CutterAt += longer
		if job.Bar.FeedBy == process.QuillFeed { // the quill goes as far as before, further from the work
			j.Bar.Standoff += longer
			back = true
		}
	}
	what := fact.New(ToBarAtMost, fact.Figure(largest), fact.Figure(j.Bar.CutterAt))
	if back {
		what = fact.New(ToQuillBar, fact.Figure(largest), fact.Figure(j.Bar.CutterAt), fact.Figure(j.Bar.Standoff))
	}
	return []change{{what, j}}
}

// clearOfBottom shortens what stands ahead of the tip where it runs into a closed
// end: the bar beyond the cutter, and the cutter's holder.
func clearOfBottom(p *Plan) []change {
	var shorter qty.Length
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			if v.Reach != nil {
				s, _ := v.Reach.Ahead()
				shorter = max(shorter, s)
			}
		}
	}
	if shorter == 0 {
		return nil
	}
	job := p.Job
	step := qty.Millimetre / 2
	if job.Units == qty.Inches {
		step = qty.Inch / 64
	}
	// What reaches furthest has to go back by that much, and what reaches less far
	// to the same place.
	bar, holder := job.Bar.Stickout()-job.Bar.CutterAt, job.Cutter.Ahead
	left := max(0, (max(bar, holder)-shorter)/step*step)
	var what []fact.Fact
	j := withBar(job, func(steps []process.Step) bool { return true })
	if bar > left {
		what = append(what, fact.New(ToBarEnd, fact.Figure(left), fact.Figure(bar)))
		for cut := bar - left; cut > 0 && len(j.Bar.Steps) > 0; {
			last := &j.Bar.Steps[len(j.Bar.Steps)-1]
			if last.Length > cut {
				last.Length -= cut
				break
			}
			cut -= last.Length
			j.Bar.Steps = j.Bar.Steps[:len(j.Bar.Steps)-1]
		}
	}
	if holder > left {
		what = append(what, fact.New(ToHolder, fact.Figure(left), fact.Figure(holder)))
		j.Cutter.Ahead = left
	}
	if len(what) == 0 || len(j.Bar.Steps) == 0 {
		return nil
	}
	return []change{{fact.New(ToBoth, fact.List(what...)), j}}
}

// ofTheShop tries the bars that the shop owns, the stiffest that pass first.
func ofTheShop(p *Plan) []change {
	choices, err := p.Choose(p.Job.Shop)
	if err != nil {
		return nil
	}
	var out []change
	for _, c := range choices {
		for _, b := range p.Job.Shop {
			if b.Name != c.Name || !c.Passes() || !c.Sets {
				continue
			}
			j := *p.Job
			b.FeedBy, b.Standoff = j.Bar.FeedBy, j.Bar.Standoff
			j.Bar, j.Cutter.Least, j.Cutter.Most = b.Bar, b.Least, b.Most
			out = append(out, change{fact.New(ToShopBar, fact.Name(b.Name)), &j})
		}
	}
	return out
}
