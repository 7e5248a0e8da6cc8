package plan

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// setOtherwise sets the cutter another way, as well as people hold it there: moved on
// by the dial that there is, to a gauge, by a fine head. A way that is set no better
// than now is tried only where the cutter then stays: what the last cut showed carries
// over.
func setOtherwise(job *process.Job) []change {
	var out []change
	try := func(by process.SetBy, dial qty.Length, kind fact.Kind, more ...fact.Arg) {
		j := *job
		j.Cutter.SetBy = by
		if dial > 0 {
			m := *job.Machine
			m.SetDial, m.DialTurn = dial, 0
			j.Machine = &m
		}
		j.Limits.SettingError, j.Limits.SettingUsual = j.UsualSettingError(), true
		stays := by == process.Increment && job.Cutter.SetBy != process.Increment
		if stays || j.Limits.SettingError < job.Limits.SettingError {
			out = append(out, change{fact.New(kind, append([]fact.Arg{fact.Figure(qty.Plain(j.Limits.SettingError))}, more...)...), &j})
		}
	}
	if job.Cutter.SetBy != process.Increment && job.Machine.SetDial > 0 {
		try(process.Increment, 0, ToIncrement)
	}
	if job.Cutter.SetBy != process.Preset {
		try(process.Preset, 0, ToPreset)
	}
	if head := job.Round(0.002, 0.0001); !job.FineDial() {
		try(process.Increment, head, ToFineHead, fact.Figure(qty.Graduation(head)))
	}
	if len(out) == 0 {
		return nil
	}
	best := out[len(out)-1]
	for _, g := range finerGauge(job) {
		j := *best.job
		j.Limits.GaugeError = g.job.Limits.GaugeError
		out = append(out, change{fact.New(ToBoth, fact.List(best.what, g.what)), &j})
	}
	return out
}

// finestGauge is what a bore gauge is good for at best in a shop, 0.0001 in or
// 0.002 mm. Common practice, no source.
func finestGauge(job *process.Job) qty.Length { return job.Round(0.002, 0.0001) }

// finerGauge measures by one twice as good, or by the finest.
func finerGauge(job *process.Job) []change {
	var out []change
	last := job.Limits.GaugeError
	for _, g := range []qty.Length{max(job.Units.Round(last/2), finestGauge(job)), finestGauge(job)} {
		if g >= last {
			continue
		}
		j := *job
		j.Limits.GaugeError, last = g, g
		out = append(out, change{fact.New(ToGauge, fact.Figure(qty.Plain(g))), &j})
	}
	return out
}
