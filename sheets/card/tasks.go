package card

import (
	"fmt"
	"strings"

	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/sheets/page"
)

// Do is what a task asks of the hands.
type Do string

// The tasks of a visit, in their order.
const (
	Prepare Do = "first"
	Hone    Do = "hone"
	Set     Do = "set"
	Run     Do = "run"
	Stop    Do = "stop"
	Measure Do = "measure"
)

// Figure is a figure that a hand goes by.
type Figure struct{ Name, Value, Unit string }

// Task is one thing to do at the mill. Its words and figures are those of the card.
type Task struct {
	Do      Do
	Pass    *schedule.Pass // nil before the first
	Figures []Figure
	Lines   []page.KeyValue
}

// Tasks are what is to be done in a visit from now on to the first stop, by the indices of
// bore and visit. What comes after the stop is planned from what the gauge says there.
func (b Hand) Tasks(i, k int, program string) (all []Task) {
	x := b.Plan.Bores[i]
	v := x.Visits[k]
	if !v.Leads(x.Station.Name) {
		return b.tasksAt(i, k)
	}
	b.Head = b.For(i, k)
	unit := b.U.String()
	if before := b.before(v); len(before) > 0 {
		all = append(all, Task{Do: Prepare, Lines: before})
	}
	head, dial := b.SetColumn()
	for n := range v.Passes {
		p := &v.Passes[n]
		if p.Hone != nil {
			all = append(all, Task{Do: Hone, Pass: p, Lines: []page.KeyValue{page.KV("Edge", b.Words.Sentence(p.Hone.Fact()))}})
		}
		set := Task{Do: Set, Pass: p, Figures: []Figure{{"cutter", "Ø" + b.U.Bare(p.Setting), unit}}}
		if dial != nil {
			if s := dial(*p); s != "set" {
				set.Figures = append(set.Figures, Figure{strings.Join(head, " "), s, ""})
			} else if p.Set.OverBar > 0 {
				set.Figures = append(set.Figures, Figure{"over bar and tip", b.U.Format(p.Set.OverBar), unit})
			}
		}
		if s := b.hands(v); s != "" {
			set.Lines = append(set.Lines, page.KV("Set", s))
		}
		run := b.run(v, p, program)
		if len(v.Together) > 0 {
			run.Lines = append(run.Lines, b.through(i, k)...)
		}
		if all = append(all, set, run); p.Hold != nil {
			return append(all, b.stopAt(v, p, n)...)
		}
	}
	return all
}

// stopAt is the stop after a pass of a visit, by its index, and what is gauged there.
func (b Hand) stopAt(v plan.Visit, p *schedule.Pass, n int) []Task {
	stop := Task{Do: Stop, Pass: p}
	stop.Lines = append(stop.Lines, page.KV("Measure", strings.Join(b.Words.Sentences(p.Hold.Measure), "\n")))
	measure := Task{Do: Measure, Pass: p}
	if !p.Hold.Then.None() {
		measure.Lines = append(measure.Lines, page.KV("Then", b.Words.Sentence(p.Hold.Then)))
	}
	if n == len(v.Passes)-1 {
		measure.Lines = append(measure.Lines, b.mouthShort(v)...)
		if len(v.After) > 0 {
			measure.Lines = append(measure.Lines, page.KV("After it", strings.Join(b.Words.Sentences(v.After), "\n")))
		}
	}
	return []Task{stop, measure}
}

// before is what has to be done before the first pass of a visit.
func (b Hand) before(v plan.Visit) (kv []page.KeyValue) {
	if v.Behind > 0 {
		return nil
	}
	if f := b.FaceMeans(); f != "" {
		kv = append(kv, page.KV("Face", f))
	}
	if first := b.FindAxis(); first != "" {
		kv = append(kv, page.KV("Axis", strings.ToUpper(first[:1])+first[1:]))
	}
	if len(v.Before) > 0 {
		kv = append(kv, page.KV("Before", strings.Join(b.Words.Sentences(v.Before), "\n")))
	}
	return kv
}

// run is one pass to be cut.
func (b Hand) run(v plan.Visit, p *schedule.Pass, program string) Task {
	to := v.End
	if p.Band != nil {
		to = p.Band.To
	}
	s := Task{Do: Run, Pass: p, Figures: []Figure{
		{"spindle", b.U.Bare(p.Speed), "rev/min"}, {"feed", b.U.Format(p.Feed), b.U.String() + "/rev"}, {"feed to", b.U.Format(to), b.U.String()}}}
	add := func(k, t string) { s.Lines = append(s.Lines, page.KV(k, t)) }
	if program != "" {
		add("Program", program)
	}
	feed := fmt.Sprintf("%s, from %s to %s", b.Job.Bar.FeedBy, b.U.Format(v.Clear), b.U.Say(to))
	if v.Material.CutDry(b.Job.Cutter.Material) {
		feed += ", dry"
	} else {
		feed += ", coolant"
	}
	add("Feed", feed)
	if b.Machine.Control == nil {
		var levers []string
		if len(b.Machine.Speeds.Steps) > 0 {
			levers = append(levers, "S "+lever(b.Machine.Speeds, float64(p.Speed)))
		}
		if len(b.Machine.Feeds.Steps) > 0 {
			levers = append(levers, "F "+lever(b.Machine.Feeds, p.Feed.MM()))
		}
		if len(levers) > 0 {
			add("Levers", strings.Join(levers, ", "))
		}
	}
	add("Out", b.wayShort(p.Out))
	return s
}

// Mind is what can hurt in a visit, the worst first.
func (b Hand) Mind(i, k int) []string { return b.worst(i, k) }
