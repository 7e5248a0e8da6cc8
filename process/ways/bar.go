package ways

import (
	"math"

	"borewright/process"
	"borewright/process/faces"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/pass"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/setup"
	"borewright/process/source"
)

// step is the path of a key of a step of the bar.
func step(i int, name string) string { return source.El("bar.steps", i) + "." + name }

// drawn is how many steps stand in front of those that are written: the quill, where it is drawn out.
func drawn(job *process.Job) int {
	if job.Bar.Drawn > 0 {
		return 1
	}
	return 0
}

// stated is whether the job file has a key.
func stated(job *process.Job, path string) bool {
	_, is := job.Places[path]
	return is
}

// deepest is the depth that the tip must reach.
func deepest(job *process.Job) qty.Length {
	var d qty.Length
	for _, b := range job.Bores {
		d = max(d, job.Stations[b.Station].To)
	}
	return d
}

// noseRoom is the room kept between the spindle nose and the face. Common
// practice, no source.
const noseRoom = 25 * qty.Millimetre

// shorter puts the slender step further in, as far as the depth allows. Only with table
// feed, where the nose must stay out of the work; a quill follows.
func shorter(job *process.Job) []change {
	var out []change
	unit := job.Round(25, 1)
	if job.Bar.FeedBy == process.QuillFeed || job.Bar.Outboard != nil || job.Bar.Adjustable() {
		return nil // as short as it reaches already
	}
	i := setup.SlenderStep(job.Bar.Steps)
	most := min((job.Bar.CutterAt-deepest(job)-noseRoom-pass.Clearance)/unit, (job.Bar.Steps[i].Length-1)/unit)
	for _, k := range ladder(most) {
		cut := k * unit
		left, at := job.Bar.Steps[i].Length-cut, job.Bar.CutterAt-cut
		keys := []key{length(step(i, "length"), left)}
		if stated(job, "bar.cutter_at") {
			keys = append(keys, length("bar.cutter_at", at))
		}
		out = append(out, change{fact.New(ToStickout, fact.Figure(job.Bar.Stickout()-cut), fact.Figure(job.Bar.Stickout())), keys, func(j *process.Job) {
			j.Bar.Steps[i].Length, j.Bar.CutterAt = left, at
		}})
	}
	return out
}

// ladder is whole steps up to a most: one, a third of the way, two thirds, all.
func ladder(most qty.Length) []qty.Length {
	var out []qty.Length
	most = min(most, 12)
	for _, k := range []qty.Length{1, 2, (most + 1) / 2, most} {
		if k >= 1 && k <= most && (len(out) == 0 || k > out[len(out)-1]) {
			out = append(out, k)
		}
	}
	return out
}

// stoodOff stands the nose where the quill brings the tip in front of the bore, and a program
// brings it out to be set; or nearer, where the quill does not reach.
func stoodOff(a *Asked) []change {
	job := a.Job
	if job.Bar.FeedBy != process.QuillFeed {
		return nil
	}
	var back, short qty.Length
	for _, v := range a.Visits {
		if r := v.Reach; r != nil {
			back, short = max(back, r.NoseBack), max(short, r.QuillShort)
		}
	}
	off, unit := job.Bar.Standoff, job.Round(1, 1.0/16)
	switch {
	case back > 0 && short > 0:
		return nil
	case short > 0:
		off = (off - short) / unit * unit
	case back > 0:
		off = (off + back + unit - 1) / unit * unit
	}
	if !place.QuillShort(job).None() {
		off = max(off, job.SetStandoff())
	}
	if off <= 0 || off == job.Bar.Standoff {
		return nil
	}
	return []change{{fact.New(ToStandoff, fact.Figure(off)), []key{length("bar.standoff", off)}, func(j *process.Job) { j.Bar.Standoff = off }}}
}

// byTable feeds by the table what was to be fed by the quill.
func byTable(job *process.Job) []change {
	if job.Bar.FeedBy != process.QuillFeed || !job.Machine.CanFeed(process.TableFeed) {
		return nil
	}
	return []change{{fact.New(ToTableFeed), []key{word("bar.feed_by", process.TableFeed.String())}, func(j *process.Job) { j.Bar.FeedBy = process.TableFeed }}}
}

// byQuill feeds by the quill what was to be fed by the table.
func byQuill(job *process.Job) []change {
	if job.Bar.FeedBy == process.QuillFeed || !job.Machine.CanFeed(process.QuillFeed) || job.Bar.Outboard != nil {
		return nil
	}
	return []change{{fact.New(ToQuillFeed), []key{word("bar.feed_by", process.QuillFeed.String())}, func(j *process.Job) { j.Bar.FeedBy = process.QuillFeed }}}
}

// Narrowest is the smallest bore that the bar has to follow into.
func Narrowest(job *process.Job) qty.Diameter {
	d := qty.Diameter(math.MaxInt64)
	last := 0
	for _, b := range job.Bores {
		last = max(last, b.Station)
	}
	for i, s := range job.Stations {
		if i <= last || job.Bar.Outboard != nil {
			d = min(d, s.Diameter)
		}
	}
	return d
}

// fatter thickens the slender step, in whole 1/8 in or 2 mm, while chips have room.
func fatter(job *process.Job) []change {
	unit := job.Round(2, 0.125)
	i := setup.SlenderStep(job.Bar.Steps)
	now := job.Bar.Steps[i].Diameter
	if i < drawn(job) {
		return nil
	}
	room := (Narrowest(job).Minus(now) - 4*job.Limits.ChipRoom) / unit
	var out []change
	for _, k := range ladder(room) {
		d := now.Plus(k * unit)
		keys := []key{length(step(i-drawn(job), "diameter"), d.Length())}
		if stated(job, "cutter.bar") {
			keys = append(keys, length("cutter.bar", d.Length()))
		}
		out = append(out, change{fact.New(ToBarOf, fact.Figure(qty.Plain(d.Length()))), keys, func(j *process.Job) {
			if j.Bar.Steps[i].Diameter = d; stated(job, "cutter.bar") {
				j.Cutter.Bar = d
			}
		}})
	}
	return out
}

// otherBar makes the slender step of a stiffer material.
func otherBar(job *process.Job) []change {
	var out []change
	i := setup.SlenderStep(job.Bar.Steps)
	for _, id := range metals[1:] {
		if m := files.BarMaterialByID(id); i >= drawn(job) && m.E > job.Bar.Steps[i].Material.E {
			out = append(out, change{fact.New(ToBarMaterial, fact.Name(m.Name)), []key{word(step(i-drawn(job), "material"), id)}, func(j *process.Job) {
				j.Bar.Steps[i].Material = *m
			}})
		}
	}
	return out
}

// supported carries the bar's end in an outboard bearing, where the line of
// bores is open at the far end.
func supported(job *process.Job) []change {
	seen := faces.Of(job, 0)
	end := seen.Stations[len(seen.Stations)-1]
	if end.Blind || seen.Closed != "" || job.Bar.Adjustable() || job.Bar.Outboard != nil || job.Bar.FeedBy == process.QuillFeed {
		return nil
	}
	last := len(job.Bar.Steps) - 1
	room := job.Round(25, 1)
	reach := max(end.To, job.Through) + 2*room
	long := job.Bar.Steps[last].Length + reach
	o := process.Support{At: job.Bar.Stickout() + reach - room, Clearance: job.Round(0.03, 0.0012), Stiffness: 50}
	tip := job.Bar.CutterAt
	return []change{{fact.New(ToOutboard, fact.Name(end.Name)), []key{
		length(step(last, "length"), long), length("bar.cutter_at", tip), length("bar.outboard.at", o.At),
		length("bar.outboard.clearance", o.Clearance), figure("bar.outboard.stiffness", fact.Value(qty.KindNumber, o.Stiffness)),
	}, func(j *process.Job) {
		own := o
		j.Bar.Steps[last].Length, j.Bar.CutterAt, j.Bar.Outboard = long, tip, &own
	}}}
}
