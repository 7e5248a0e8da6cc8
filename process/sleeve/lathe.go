package sleeve

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/fit"
	"borewright/process/qty"
)

// neat rounds a length for a feature that nobody holds closely: to a sixty-
// fourth of an inch, written in decimals, or a tenth of a millimetre, down.
func neat(u qty.Unit, l qty.Length) qty.Length {
	step := qty.Millimetre / 10
	if u == qty.Inches {
		step = qty.Inch / 64
	}
	return l / step * step
}

// deepSeat is the depth beyond which a seat cannot be reached by hand and eye.
const deepSeat = 150 * qty.Millimetre

// details are chamfers, lead-in, vent, grooves and holes, from the wall that
// the finished sleeve has. Common practice, no source, but for the lead-in (see
// fit.LeadIn).
func details(job *process.Job, st process.Station, out *Sleeve, lead fit.Chamfer) []Detail {
	u := job.Units
	var d []Detail
	add := func(what fact.Kind, how fact.Fact) { d = append(d, Detail{fact.New(what), how}) }
	bevel := fact.Figure(neat(u, min(qty.Millimetre, out.Wall/3)))
	if out.Fastening == process.Press {
		add(LeadInOfNose, lead.Why)
		add(MouthOfHousing, fact.New(MouthClean, bevel))
	} else {
		add(NoseOfSleeve, fact.New(NoseChamfer, bevel))
		add(MouthOfHousing, fact.New(MouthBroken, bevel))
	}
	if st.From > deepSeat && out.Fastening == process.Press {
		how := SeatDeep
		if st.Blind {
			how = SeatDeepBlind
		}
		add(ReachOfSeat, fact.New(how, fact.Figure(st.From)))
	}
	add(BothEnds, fact.New(InsideChamfer, bevel))
	if st.Blind {
		flat := neat(u, max(out.Wall/6, qty.Millimetre/2))
		add(VentBlind, fact.New(VentGroove, fact.Figure(min(flat, out.Wall/3))))
	}
	if out := job.Sleeve.StandsOut; out != [2]qty.Length{} {
		args := make([]fact.Arg, 2)
		for i, o := range out {
			if o > 0 {
				args[i] = fact.Figure(o)
			}
		}
		add(Ends, fact.New(EndsStandOut, args...))
	} else if !st.Blind {
		add(Ends, fact.New(EndsShort, fact.Figure(lengthLess(u))))
	}
	add(OilGrooves, fact.New(Grooves, fact.Figure(neat(u, out.Wall/3)), fact.Figure(out.Wall), fact.Figure(neat(u, max(out.Wall, 3*qty.Millimetre)))))
	holes := fact.New(HolesOnBench, fact.Figure(out.Wall), fact.Figure(qty.Plain(job.Round(1, 0.04))))
	if out.InPlace {
		holes = fact.New(HolesAtHome, fact.Figure(out.Wall))
	}
	add(OilHoles, holes)
	return d
}

// latheWork is the sequence on the lathe.
func latheWork(job *process.Job, finish process.Finish, out *Sleeve) []fact.Fact {
	w := out.Taken()
	to := fact.New(ByTheFit, fact.Size(out.Turned[0]), fact.Size(out.Turned[1]))
	switch {
	case out.Match > 0 && out.Fastening == process.Bond:
		to = fact.New(LessThanHousing, fact.Figure(-out.Interference.Most), fact.Figure(-out.Interference.Least))
	case out.Match > 0:
		to = fact.New(MoreThanHousing, fact.Figure(out.Interference.Least), fact.Figure(out.Interference.Most))
	}
	rough := 3 * qty.Millimetre / 2
	if job.Units == qty.Inches {
		rough = qty.Inch / 16
	}
	last := fact.New(LatheFinish, fact.Size(w.Inside[0]), fact.Size(w.Inside[1]))
	if out.InPlace {
		last = fact.New(LatheBore, fact.Size(w.Inside[0]), fact.Size(w.Inside[1]), fact.Figure(w.Stock.Least), fact.Figure(w.Stock.Most))
	}
	all := []fact.Fact{
		fact.New(LatheRough, fact.Figure(rough)),
		fact.New(LatheSlack),
		last,
	}
	all = append(all, out.latheMade(job.Units, finish)...)
	return append(all,
		fact.New(LatheOutside, to, fact.Figure(job.Sleeve.Runout)),
		fact.New(LatheLength, fact.Figure(out.Length.Least), fact.Figure(out.Length.Most)),
		fact.New(LatheMeasure),
	)
}
