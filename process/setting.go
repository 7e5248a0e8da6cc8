package process

import "borewright/process/qty"

// SetBy says how hands set the cutter.
type SetBy int

// The ways to set a cutter. What is wrong with a setting follows from the way: by
// increment what was wrong before stays wrong, and each move adds its own; over the
// bar and to a gauge each setting is wrong anew.
const (
	Increment SetBy = iota // moved on from where it stands, by a dial or by the screw of a head
	OverBar                // a micrometer over bar and tip, each time
	Preset                 // to a gauge, each time
)

func (s SetBy) String() string {
	return [...]string{"increment", "over_bar", "preset"}[s]
}

// The error of a setting that people hold, ± on diameter, 19 times in 20. All are
// common practice, no source.

func (j *Job) usualOverBar() qty.Length { return j.Round(0.013, 0.0005) }
func (j *Job) usualPreset() qty.Length  { return j.Round(0.010, 0.0004) }
func (j *Job) usualDial() qty.Length    { return j.Round(0.008, 0.0003) }
func (j *Job) usualHead() qty.Length    { return j.Round(0.0025, 0.0001) }

// FineDial is whether settings are read off a fine head: graduations of 0.0002 in
// (0.005 mm) or less on diameter. Common practice, no source.
func (j *Job) FineDial() bool {
	return j.Machine != nil && j.Machine.SetDial > 0 && j.Machine.SetDial <= 5*qty.Micrometre+qty.Micrometre/10
}

// UsualSettingError is how well people set a cutter so, where the job does not say:
// limits.setting_error.
func (j *Job) UsualSettingError() qty.Length {
	switch {
	case j.Cutter.SetBy == OverBar:
		return j.usualOverBar()
	case j.Cutter.SetBy == Preset:
		return j.usualPreset()
	case j.FineDial():
		return j.usualHead()
	}
	return j.usualDial()
}

// FirstSettingError is how well the first setting of a visit is made, ± on
// diameter. By increment there is nothing yet to move on from: it is made over the
// bar, and no better than the moves after it.
func (j *Job) FirstSettingError() qty.Length {
	if j.Cutter.SetBy == Increment {
		return max(j.Limits.SettingError, j.usualOverBar())
	}
	return j.Limits.SettingError
}

// ReadsTo is the finest step on diameter by which a setting can be shifted: half a
// graduation of the dial, the last figure of the micrometer, which counts twice, or
// that of the gauge.
func (j *Job) ReadsTo() qty.Length {
	last := j.Round(0.001, 0.0001)
	switch j.Cutter.SetBy {
	case Increment:
		return j.Machine.SetDial / 2
	case OverBar:
		return 2 * last
	}
	return last
}

// OverBarAndTip is what a micrometer over bar and tip reads for a setting, with the
// bar as stated: (bar + setting)/2.
func (j *Job) OverBarAndTip(setting qty.Diameter) qty.Length {
	return (j.Cutter.Bar.Length() + setting.Length()) / 2
}
