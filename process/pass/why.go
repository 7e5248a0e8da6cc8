package pass

import (
	"math"

	"borewright/process"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// StoppedBy is the limit that a pass is past, with why where it is too rough or too
// thin for its edge.
func (r *Judge) StoppedBy(v Verdict, c Cut) fact.Fact {
	f := r.LimitOf(v)
	edge := r.Job.Cutter.EdgeRadius.MM()
	switch v.By {
	case schedule.LimitRa:
		f.Args = append(f.Args, r.whyRough(c, v.Limit))
	case schedule.LimitChip, schedule.LimitRub: // both go by the rounding
		f.Args = append(f.Args, r.byHone(schedule.ThinByHone, edge, edge*v.Limit/v.Value))
	}
	return f
}

// whyRough is why a pass is rougher than is asked for, mm, by the way that leaves it
// rougher.
func (r *Judge) whyRough(c Cut, asked float64) fact.Fact {
	_, way, depth := r.roughest(c)
	why := r.WhyRough(c.Feed, depth, c.Pick.At(c.Radius), asked, way)
	switch why.By {
	case cut.RaByMetal:
		return r.torn(asked)
	case cut.RaByEdge:
		return r.byHone(schedule.RaByHone, r.Job.Cutter.EdgeRadius.MM(), why.Rounding)
	}
	var feed, nose fact.Arg // rounded to the safe side
	if why.Feed > 0 {
		feed = fact.Figure(r.Job.Units.Down(qty.FromMM(why.Feed)))
	}
	if why.Nose > 0 {
		nose = fact.Figure(r.Job.Units.Up(qty.FromMM(why.Nose)))
	}
	return fact.New(schedule.RaByMarks, feed, nose)
}

// torn is that the metal is torn rougher than is asked for, mm, and by which cutters it
// is not: of those that come to the same the first.
func (r *Judge) torn(asked float64) fact.Fact {
	var better []fact.Fact
	metal := r.Visit.Material
	told := map[float64]bool{}
	kind := schedule.RaWith
	for _, class := range process.CutterClasses() {
		if b, ok := metal.Speeds[class]; ok && b.RaLeast <= asked && !told[b.RaLeast] {
			better = append(better, fact.New(kind, fact.Name(class), fact.Value(qty.KindRoughness, b.RaLeast)))
			told[b.RaLeast], kind = true, schedule.RaWithToo
		}
	}
	return fact.New(schedule.RaByMetal, fact.Name(metal.Called()), fact.Name(r.Job.Cutter.Material.Name), fact.List(better...))
}

// byHone is that the rounding of the edge is the reason: what it is, and the most that
// it may be, mm; 0: none does.
func (r *Judge) byHone(k fact.Kind, is, most float64) fact.Fact {
	var least fact.Arg
	if most > 0 { // rounded to the safe side, to 0.1 µm or 0.00001 in
		step := 0.1
		if r.Job.Units == qty.Inches {
			step = 0.254
		}
		least = fact.Value(qty.KindEdge, math.Floor(most*1e3*0.999/step)*step)
	}
	return fact.New(k, fact.Value(qty.KindEdge, is*1e3), least)
}
