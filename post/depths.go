package post

import (
	"borewright/process"
	"borewright/process/qty"
)

// outside is how far in front of the face the tip, and what the bar carries
// past it, must come at least before X and Y move and hands go to the cutter.
// Common practice, no source.
const outside = 50 * qty.Millimetre

// depths sets the clear plane outside the work and the depths as they can be
// written, and checks that the slide has the travel.
func (j *job) depths(no *Refusal) {
	say := j.p.Job.Units.Say
	unit, bar := j.c.Units, j.p.Job.Bar
	margin, step := outside, 5*qty.Millimetre
	if unit == qty.Inches {
		margin, step = 2*qty.Inch, qty.Inch/4
	}
	// The bar's own end, past the cutter, must be outside the work as well
	// before X and Y move; a bar that runs in a support never comes out.
	beyond := max(0, bar.Stickout()-bar.CutterAt)
	if bar.Outboard != nil {
		beyond = 0
	}
	home := margin + max(beyond, -j.visit.Clear)
	j.home = (home + step - 1) / step * step
	j.clear = shallowerWord(j.visit.Clear, j.d, unit)
	if in := j.visit.OffAxis; in != nil {
		j.level = shallowerWord(in.Level, j.d, unit)
	}
	for i := range j.bores {
		x := &j.bores[i]
		x.clear, x.end = shallowerWord(x.visit.Clear, j.d, unit), x.visit.End
		if j.end = x.end; x.bore.Station.Blind {
			x.end = shallowerWord(x.end, j.d, unit)
			j.end = x.end
		}
	}
	j.small(no)
	if bar.FeedBy == process.QuillFeed {
		j.quill(max(outside+beyond, -j.visit.Clear), no)
	}
	if bar.Outboard == nil {
		j.hold = j.written(j.c.HoldOut)
	}
	if most := j.p.Job.QuillOut() - bar.TipHome(); bar.FeedBy == process.QuillFeed && j.hold > max(j.home, most) {
		no.add(NoRoom, "with the quill home the tip stands %s before the face, and hold_out = %s in the machine file; state less, or feed by the table", say(most), say(j.hold))
	}
	for _, t := range j.p.Job.Machine.Travels {
		if stroke := max(j.home, j.hold) + j.end; byte(t.Axis) == j.axis && t.Travel > 0 && stroke > t.Travel {
			no.add(NoTravel, "axis %s travels %s; from where it stands outside the work to the end of the cut it needs %s; feed by the other slide, or shorten the bar's end past the cutter",
				t.Axis, say(t.Travel), say(stroke))
		}
	}
}

// small refuses what the control's last decimal would lose or turn into something else:
// the shift off the wall, and the step from the clear depth to the bore.
func (j *job) small(no *Refusal) {
	least := j.c.Units.Of(1)
	for range j.d.Part {
		least = (least + 9) / 10
	}
	u := j.p.Job.Units
	fine := func(l qty.Length) string { return u.FormatFine(l) + " " + u.String() }
	for _, s := range []struct {
		what string
		is   qty.Length
	}{
		{"the shift off the wall", j.shift.Abs()},
		{"the shift off the axis on the way in", j.off.Abs()},
		{"the step from where the feed begins to the bore", j.visit.From - j.visit.Clear},
	} {
		if s.is > 0 && s.is < least {
			no.add(NoWord, "%s is %s, less than the last of the control's %d decimals, %s: a program cannot say it; plan a larger one, or state more part_places if the control takes them",
				s.what, fine(s.is), j.d.Part, fine(least))
		}
	}
}

// quill brings the clear plane to where the quill can go and no further: the
// nose stands still, so it is home where the tip is CutterAt from the nose.
// First steps of the bar that are as thick as the quill are quill that is out
// already, and may go back in. need is the least that must lie outside.
func (j *job) quill(need qty.Length, no *Refusal) {
	bar, m, u := j.p.Job.Bar, j.p.Job.Machine, j.p.Job.Units
	say, out := u.Say, j.p.Job.QuillOut()
	home := -bar.TipHome() // in front of the face, + away from the work
	if most := home + out; j.home > most {
		if j.home = shallowerWord(most, j.d, j.c.Units); j.home < shallowerWord(need, j.d, j.c.Units) {
			no.add(NoRoom, "with the quill home the tip stands %s before the face, and %s are needed to bring bar and cutter out of the work; stand off by %s or more, or feed by the table",
				say(most), say(u.Up(need)), say(u.Up(bar.Standoff+need-most)))
		}
	}
	if draws := home + out + j.end; m.QuillTravel > 0 && draws > m.QuillTravel {
		no.add(NoTravel, "the quill travels %s; at the end of the cut it must come %s out of the nose; use a longer bar and a smaller standoff, or feed by the table",
			say(m.QuillTravel), say(draws))
	}
}
