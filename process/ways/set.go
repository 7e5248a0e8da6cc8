package ways

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// setting is a change of how the cutter is set; nil where it is no help: a way that is
// set no better than now helps only where the cutter then stays, so that what the last
// cut showed carries over.
func setting(job *process.Job, by process.SetBy, dial qty.Length, kind fact.Kind, more ...fact.Arg) []change {
	edit := func(j *process.Job) {
		j.Cutter.SetBy = by
		if dial > 0 {
			m := *j.Machine
			m.SetDial, m.DialTurn = dial, 0
			j.Machine = &m
		}
		j.Limits.SettingError, j.Limits.SettingUsual = j.UsualSettingError(), true
	}
	j := clone(job)
	edit(j)
	e := j.Limits.SettingError
	stays := by == process.Increment && job.Cutter.SetBy != process.Increment
	if !stays && e >= job.Limits.SettingError {
		return nil
	}
	keys := []key{word("cutter.set_by", by.String())}
	if dial > 0 {
		keys = append(keys, length("machine.set_dial", dial))
	}
	if stated(job, "limits.setting_error") {
		keys = append(keys, length("limits.setting_error", e))
	}
	return []change{{fact.New(kind, append([]fact.Arg{fact.Figure(qty.Plain(e))}, more...)...), keys, edit}}
}

// setOtherwise sets the cutter another way, as well as people hold it there: moved on
// by the dial that there is, or to a gauge.
func setOtherwise(job *process.Job) []change {
	var out []change
	if job.Cutter.SetBy != process.Increment && job.Machine.SetDial > 0 {
		out = setting(job, process.Increment, 0, ToIncrement)
	}
	if job.Cutter.SetBy != process.Preset {
		out = append(out, setting(job, process.Preset, 0, ToPreset)...)
	}
	return out
}

// fineHead moves the cutter on by a fine head.
func fineHead(job *process.Job) []change {
	if job.FineDial() {
		return nil
	}
	head := job.Round(0.002, 0.0001)
	return setting(job, process.Increment, head, ToFineHead, fact.Figure(qty.Graduation(head)))
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
		last = g
		out = append(out, change{fact.New(ToGauge, fact.Figure(qty.Plain(g))), []key{length("limits.gauge_error", g)}, func(j *process.Job) { j.Limits.GaugeError = g }})
	}
	return out
}
