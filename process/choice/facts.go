package choice

import (
	"errors"

	"borewright/process/candidate"
	"borewright/process/fact"
	"borewright/process/source"
)

// What the choice of tools says.
const (
	GoodFor    fact.Kind = "choice.good for" // the kind of work
	ForRough   fact.Kind = "choice.for rough"
	ForFinish  fact.Kind = "choice.for finish"
	NoStickout fact.Kind = "choice.no stickout"
	NoRough    fact.Kind = "choice.no rough"
	NoFineFeed fact.Kind = "choice.no fine feed" // roughness asked for
)

var workKinds = map[candidate.Work]fact.Kind{candidate.RoughWork: ForRough, candidate.FinishWork: ForFinish}

// unfit is why a pair cannot be written into the job: its first mistake.
func unfit(err error) string {
	var all source.Errors
	if errors.As(err, &all) && len(all) > 0 {
		return all[0].What
	}
	return err.Error()
}

// noneFits is that no pair can be written into the job: the mistakes of the first.
func (a *Asked) noneFits(first *pair) error {
	list := "bars"
	if !a.Job.Open.Bar {
		list = "cutters"
		if _, is := a.Job.Places[list]; !is {
			list = "bars"
		}
	}
	p := &source.Problems{File: source.FileName(a.Job.File)}
	p.Add(source.Where(a.Job.Places, list), list, "no bar with a cutter of the lists suits the job, as "+source.Show(first.Bar)+" with "+source.Show(first.Cutter)+": "+source.Show(first.what),
		"add one that does, or write [bar] with steps and [cutter] with material, nose_radius")
	return p.Err()
}
