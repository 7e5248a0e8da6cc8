package ways

import (
	"math"
	"strconv"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field/keys"
	"borewright/process/files"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/source"
)

// slower turns at a half and a quarter of the speed that is stated, or that the table of
// the metal has at the most; where less than the table's is stated, also at that.
func slower(job *process.Job) []change {
	metal := job.Material
	band := metal.Speeds[job.Cutter.Material.Class]
	rough, finish := job.Cutter.SpeedRough, job.Cutter.SpeedFinish
	top := rough == 0 && finish == 0
	if top {
		rough, finish = band.Rough[1], band.Finish[1]
	}
	if rough == 0 || finish == 0 {
		return nil
	}
	var out []change
	try := func(r, f qty.CuttingSpeed) {
		r, f = wholeSpeed(job, r), wholeSpeed(job, f)
		if r < 1 || f < 1 {
			return
		}
		out = append(out, change{fact.New(ToSpeed, fact.Figure(r), fact.Figure(f)), []key{figure("cutter.speed.rough", fact.Figure(r)), figure("cutter.speed.finish", fact.Figure(f))},
			func(j *process.Job) { j.Cutter.SpeedRough, j.Cutter.SpeedFinish = r, f }})
	}
	if !top && finish < band.Finish[0] {
		try(band.Rough[1], band.Finish[1])
	}
	try(rough/2, finish/2)
	try(rough/4, finish/4)
	return out
}

// wholeSpeed is a cutting speed in whole units of the job.
func wholeSpeed(job *process.Job, v qty.CuttingSpeed) qty.CuttingSpeed {
	if job.Units == qty.Inches {
		return qty.CuttingSpeed(math.Round(float64(v)/metresPerFoot) * metresPerFoot)
	}
	return qty.CuttingSpeed(math.Round(float64(v)))
}

const metresPerFoot = 0.3048 // exact (international yard, 1959)

func noses(job *process.Job, mm, inches []float64, is func(n qty.Length) bool) []change {
	list := mm
	if job.Units == qty.Inches {
		list = inches
	}
	var out []change
	for i := range list {
		n := job.Units.Of(list[i])
		if !is(n) {
			continue
		}
		out = append(out, change{fact.New(ToNoseRadius, fact.Figure(qty.Plain(n))), []key{length("cutter.nose_radius", n)}, func(j *process.Job) { j.Cutter.NoseRadius = n }})
	}
	return out
}

// smallerNose takes a smaller nose radius, which pushes less.
func smallerNose(job *process.Job) []change {
	return noses(job, []float64{0.8, 0.4, 0.2}, []float64{0.031, 0.016, 0.008}, func(n qty.Length) bool { return n < job.Cutter.NoseRadius*9/10 })
}

// largerNose takes a larger one, whose feed marks are shallower.
func largerNose(job *process.Job) []change {
	return noses(job, []float64{0.8, 1.2, 1.6}, []float64{0.031, 0.047, 0.062}, func(n qty.Length) bool { return n > job.Cutter.NoseRadius*11/10 })
}

// squarer takes a lead nearer to a square shoulder, which pushes less off the wall.
func squarer(job *process.Job) []change {
	var out []change
	for _, lead := range []float64{85, 93} {
		if lead >= job.Cutter.Lead+5 && lead+job.Cutter.Trail <= 150 {
			out = append(out, change{fact.New(ToLead, fact.Value(qty.KindAngle, lead)), []key{figure("cutter.lead", fact.Value(qty.KindAngle, lead))}, func(j *process.Job) { j.Cutter.Lead = lead }})
		}
	}
	return out
}

// keener gives the cutter more rake, which pushes and sings less.
func keener(job *process.Job) []change {
	var out []change
	for _, more := range []float64{4, 8} {
		rake := job.Cutter.Rake + more
		if rake <= mostRake {
			out = append(out, change{fact.New(ToRake, fact.Value(qty.KindAngle, rake)), []key{figure("cutter.rake", fact.Value(qty.KindAngle, rake))}, func(j *process.Job) { j.Cutter.Rake = rake }})
		}
	}
	return out
}

// mostRake is the most rake that is advised: beyond it the edge is too weak to bore
// iron and steel. Common practice, no source.
const mostRake = 18

// otherEdge takes an edge of another material, as it is sold and then honed as for finishing; the
// coating of an insert stands no stone.
func otherEdge(job *process.Job) []change {
	var out []change
	fine := finishHone(job)
	for _, honed := range []bool{false, true} {
		for _, id := range []string{"hss", "carbide", "carbide-coated"} {
			m := files.CutterMaterialByID(id)
			if m.Class == job.Cutter.Material.Class || honed && (fine >= m.Edge*9/10 || m.Class == "carbide-coated") {
				continue
			}
			c := change{fact.New(ToEdge, fact.Name(m.Name)), []key{word("cutter.material", id)}, func(j *process.Job) { j.Cutter.Material = m }}
			if honed {
				c.what = fact.New(Both, fact.List(c.what, fact.New(ToHone, fact.Figure(qty.Plain(fine)))))
				c.keys = append(c.keys, length("cutter.edge_radius", fine))
				c.edit = func(j *process.Job) { j.Cutter.Material, j.Cutter.EdgeRadius = m, fine }
			}
			out = append(out, c)
		}
	}
	return out
}

// finishHone is how an edge is honed for finishing: rounded to 0.0004 in or 10 µm. Common
// practice, no source.
func finishHone(job *process.Job) qty.Length { return job.Round(0.01, 0.0004) }

// finerHone hones the edge finer, as for finishing.
func finerHone(job *process.Job) []change {
	e := finishHone(job)
	if e >= job.Cutter.EdgeRadius*9/10 {
		return nil
	}
	return []change{{fact.New(ToHone, fact.Figure(qty.Plain(e))), []key{length("cutter.edge_radius", e)}, func(j *process.Job) { j.Cutter.EdgeRadius = e }}}
}

// morePasses allows twice as many.
func morePasses(job *process.Job) []change {
	n := min(2*job.Limits.PassesMost, 200)
	if n <= job.Limits.PassesMost {
		return nil
	}
	return []change{{fact.New(ToPasses, fact.Count(n)), []key{figure("limits.passes_most", fact.Count(n))}, func(j *process.Job) { j.Limits.PassesMost = n }}}
}

// moreSpring allows passes to spring twice as far. Roughing for which no limit is
// stated has none to widen.
func moreSpring(job *process.Job) []change {
	finish := job.Limits.SpringFinish
	for _, b := range job.Bores {
		finish = max(finish, (&schedule.Visit{Limits: schedule.FinishLimits(job.Units, b)}).SpringMost(&job.Limits))
	}
	return []change{springing(job, min(2*job.Limits.SpringRough, job.Round(2.5, 0.1)), job.Units.Down(min(2*finish, job.Round(0.5, 0.02))))}
}

// usualSpring are the steps up to what is usual, where passes are allowed less: roughing alone first, then the finish
// too.
func usualSpring(job *process.Job) (out []change) {
	now := [2]qty.Length{job.Limits.SpringRough, job.Limits.SpringFinish}
	for i, both := range []string{process.UsualRoughSpring, process.UsualFinishSpring} {
		x, _ := strconv.ParseFloat(keys.Half(job.Units, both), 64)
		usual := job.Units.Of(x)
		for now[i] > 0 && now[i] < usual {
			now[i] = min(2*now[i], usual)
			out = append(out, springing(job, now[0], now[1]))
		}
	}
	return out
}

// springing allows passes to spring so far, on diameter.
func springing(job *process.Job, rough, finish qty.Length) change {
	what, keys := fact.New(ToSpring, fact.Figure(qty.Fine(rough)), fact.Figure(qty.Fine(finish))), []key{length("limits.spring_rough", rough), length("limits.spring_finish", finish)}
	switch {
	case rough == job.Limits.SpringRough:
		what, keys = fact.New(ToFinishSpring, fact.Figure(qty.Fine(finish))), keys[1:]
	case finish == job.Limits.SpringFinish:
		what, keys = fact.New(ToRoughSpring, fact.Figure(qty.Fine(rough))), keys[:1]
	}
	return change{what, keys, func(j *process.Job) {
		j.Limits.SpringUsual = j.Limits.SpringUsual && finish == j.Limits.SpringFinish
		j.Limits.SpringRough, j.Limits.SpringFinish = rough, finish
	}}
}

// singing lets a finish sing. It frees a plan that chatter alone stops.
func singing(job *process.Job) []change {
	if job.Limits.Sing {
		return nil
	}
	return []change{{fact.New(ToSing), []key{yes("limits.sing")}, func(j *process.Job) { j.Limits.Sing = true }}}
}

// wider tries the drawing: a tolerance twice as wide. It is the customer's to
// grant.
func wider(job *process.Job) []change {
	type size struct {
		low, high qty.Diameter
		round     qty.Length
	}
	var all []size
	var keys []key
	for i, b := range job.Bores {
		grow := b.Finish.Tolerance() / 2
		s := size{qty.Diameter(job.Units.Up(b.Finish.Low.Length() - grow)), qty.Diameter(job.Units.Down(b.Finish.High.Length() + grow)), 2 * b.Roundness}
		at := source.El("bore", i)
		keys = append(keys, length(at+".finish.low", s.low.Length()), length(at+".finish.high", s.high.Length()))
		if stated(job, at+".roundness") {
			s.round = job.Units.Down(s.round)
			keys = append(keys, length(at+".roundness", s.round))
		} else {
			s.round = s.high.Minus(s.low) / 2
		}
		all = append(all, s)
	}
	return []change{{fact.New(ToWiderLimits), keys, func(j *process.Job) {
		for i, s := range all {
			f := &j.Bores[i].Finish
			f.Low, f.High, f.Fit, f.Nominal, f.Upper, f.Lower = s.low, s.high, "", 0, 0, 0
			j.Bores[i].Roundness = s.round
		}
	}}}
}
