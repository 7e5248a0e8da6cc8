package plan

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/pass"
	"borewright/process/place"
	"borewright/process/qty"
	"borewright/process/setup"
)

// withWaysOut tries one change at a time on the whole job and lists those that
// free it, each planned anew.
func withWaysOut(p *Plan) []Reason {
	ways := waysOut(p)
	out := p.Reasons
	for i := range out {
		out[i].Free = ways
	}
	return out
}

// change is one thing to try, and the job so changed.
type change struct {
	what fact.Fact
	job  *process.Job
}

func waysOut(p *Plan) []Way {
	job := p.Job
	var out []Way
	tryAll := func(list []change) {
		for _, c := range list {
			if q := frees(c.job, p.known); q.Feasible {
				out = append(out, Way{c.what, q.passes(), q.Minutes})
				return // the smallest change of its kind is enough
			}
		}
	}
	tryAll(ofTheShop(p))
	tryAll(thatPasses(p))
	tryAll(clearOfBottom(p))
	tryAll(largerSleeve(p))
	tryAll(biggerSleeve(job, p.known))
	tryAll(stoodOff(job))
	tryAll(byTable(job))
	tryAll(shorter(job))
	tryAll(fatter(job))
	tryAll(otherBar(job))
	tryAll(supported(job))
	tryAll(sleeveOtherwise(job))
	tryAll(heldTighter(job))
	tryAll(otherCompound(job))
	tryAll(heldOtherwise(job))
	tryAll(sharper(job))
	tryAll(keener(job))
	tryAll(setOtherwise(job))
	tryAll(finerGauge(job))
	tryAll(wider(job))
	tryAll(singing(job))
	return out
}

// passes is how many passes a plan has.
func (p *Plan) passes() (n int) {
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			n += len(v.Passes)
		}
	}
	return n
}

func withBar(job *process.Job, f func(steps []process.Step) bool) *process.Job {
	j := *job
	j.Bar.Steps = append([]process.Step(nil), job.Bar.Steps...)
	if !f(j.Bar.Steps) {
		return nil
	}
	return &j
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

// shorter trims the slender step, as far as the depth allows. Only with table
// feed, where the nose must stay out of the work; a quill follows.
func shorter(job *process.Job) []change {
	var out []change
	unit := 25 * qty.Millimetre
	if job.Units == qty.Inches {
		unit = qty.Inch
	}
	if job.Bar.FeedBy == process.QuillFeed || job.Bar.Outboard != nil {
		return nil
	}
	for k := qty.Length(1); k <= 12; k++ {
		cut := k * unit
		if job.Bar.CutterAt-cut < deepest(job)+noseRoom+pass.Clearance {
			break
		}
		j := withBar(job, func(s []process.Step) bool {
			i := setup.SlenderStep(s)
			s[i].Length -= cut
			return s[i].Length > 0
		})
		if j == nil {
			break
		}
		j.Bar.CutterAt -= cut
		out = append(out, change{fact.New(ToStickout, fact.Figure(j.Bar.Stickout()), fact.Figure(job.Bar.Stickout())), j})
	}
	return out
}

// stoodOff moves the spindle back until a program can bring the tip out.
func stoodOff(job *process.Job) []change {
	if place.QuillShort(job).None() {
		return nil
	}
	j := *job
	j.Bar.Standoff = job.SetStandoff()
	return []change{{fact.New(ToStandoff, fact.Figure(j.Bar.Standoff)), &j}}
}

// byTable feeds by the table what was to be fed by the quill.
func byTable(job *process.Job) []change {
	if job.Bar.FeedBy != process.QuillFeed || !job.Machine.CanFeed(process.TableFeed) {
		return nil
	}
	j := *job
	j.Bar.FeedBy, j.Bar.Standoff = process.TableFeed, 0
	return []change{{fact.New(ToTableFeed), &j}}
}

// narrowest is the smallest bore that the bar has to follow into.
func narrowest(job *process.Job) qty.Diameter {
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

// fatter thickens the slender step in steps of 1/8 in or 2 mm while chips
// still have room and the cutter still reaches.
func fatter(job *process.Job) []change {
	unit := 2 * qty.Millimetre
	if job.Units == qty.Inches {
		unit = qty.Inch / 8
	}
	var out []change
	for k := qty.Length(1); k <= 12; k++ {
		var d qty.Diameter
		j := withBar(job, func(s []process.Step) bool {
			i := setup.SlenderStep(s)
			s[i].Diameter = s[i].Diameter.Plus(k * unit)
			d = s[i].Diameter
			return narrowest(job).Minus(d)/2 >= 2*job.Limits.ChipRoom
		})
		if j == nil {
			break
		}
		out = append(out, change{fact.New(ToBarOf, fact.Figure(d.Length())), j})
	}
	return out
}

// otherBar makes the slender step of a stiffer material.
func otherBar(job *process.Job) []change {
	var out []change
	for _, id := range []string{"tungsten-alloy", "carbide"} {
		m := files.BarMaterialByID(id)
		j := withBar(job, func(s []process.Step) bool {
			i := setup.SlenderStep(s)
			s[i].Material = *m
			return true
		})
		out = append(out, change{fact.New(ToBarMaterial, fact.Name(m.Name)), j})
	}
	return out
}

// supported carries the bar's end in an outboard bearing, where the line of
// bores is open at the far end.
func supported(job *process.Job) []change {
	last := job.Stations[len(job.Stations)-1]
	if last.Blind || job.Bar.Outboard != nil || job.Bar.FeedBy == process.QuillFeed {
		return nil
	}
	reach := last.To + 2*noseRoom
	j := withBar(job, func(s []process.Step) bool {
		s[len(s)-1].Length += reach
		return true
	})
	j.Bar.Outboard = &process.Support{At: job.Bar.Stickout() + reach - noseRoom, Clearance: 30 * qty.Micrometre, Stiffness: 50}
	return []change{{fact.New(ToOutboard, fact.Name(last.Name)), j}}
}

// sharper takes a smaller nose radius, which pushes less.
func sharper(job *process.Job) []change {
	var out []change
	radii := []qty.Length{800 * qty.Micrometre, 400 * qty.Micrometre, 200 * qty.Micrometre}
	if job.Units == qty.Inches {
		radii = []qty.Length{qty.Inch / 32, qty.Inch / 64, qty.Inch / 128}
	}
	for _, n := range radii {
		if n >= job.Cutter.NoseRadius*9/10 {
			continue
		}
		j := *job
		j.Cutter.NoseRadius = n
		out = append(out, change{fact.New(ToNoseRadius, fact.Figure(n)), &j})
	}
	return out
}

// keener gives the cutter more rake, which pushes and sings less.
func keener(job *process.Job) []change {
	var out []change
	for _, more := range []float64{4, 8} {
		j := *job
		if j.Cutter.Rake += more; j.Cutter.Rake <= mostRake {
			out = append(out, change{fact.New(ToRake, fact.Figure(qty.KindAngle.Of(j.Cutter.Rake))), &j})
		}
	}
	return out
}

// mostRake is the most rake that is advised: beyond it the edge is too weak to bore
// iron and steel. Common practice, no source.
const mostRake = 18

// singing lets a finish sing. It frees a plan that chatter alone stops.
func singing(job *process.Job) []change {
	if job.Limits.Sing {
		return nil
	}
	j := *job
	j.Limits.Sing = true
	return []change{{fact.New(ToSing), &j}}
}

// wider tries the drawing: a tolerance twice as wide. It is the customer's to
// grant.
func wider(job *process.Job) []change {
	j := *job
	j.Bores = append([]process.Bore(nil), job.Bores...)
	for i := range j.Bores {
		f := &j.Bores[i].Finish
		grow := qty.Diameter(f.Tolerance() / 2)
		f.Low, f.High, f.Fit = f.Low-grow, f.High+grow, ""
		j.Bores[i].Roundness *= 2
	}
	return []change{{fact.New(ToWiderLimits), &j}}
}
