package process

import "borewright/process/qty"

// Room between the spindle and the work, in round figures of the job's units
// (common practice, no source).

// LeastStandoff is the least from nose to face with quill feed.
func (j *Job) LeastStandoff() qty.Length { return j.Round(25, 1) }

// QuillOut is how far the quill is out as the bar is held: its first steps that are as
// thick as the quill are quill.
func (j *Job) QuillOut() (out qty.Length) {
	for _, s := range j.Bar.Steps {
		if s.Diameter != j.Machine.Quill {
			break
		}
		out += s.Length
	}
	return out
}

// SetAhead is how far in front of the face a program brings the tip to be set.
const SetAhead = 50 * qty.Millimetre

// SetStandoff is the least from nose to face from which the quill alone brings
// the tip out to be set: SetAhead in a round figure.
func (j *Job) SetStandoff() qty.Length { return j.Units.Up(j.Bar.CutterAt + j.Round(50, 2)) }

// Round is a length that is round in the units of the job.
func (j *Job) Round(mm, inch float64) qty.Length {
	if j.Units == qty.Inches {
		return qty.FromInches(inch)
	}
	return qty.FromMM(mm)
}
