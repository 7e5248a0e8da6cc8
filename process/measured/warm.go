package measured

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
	"borewright/process/warm"
)

// What was gauged warm. Limits hold at 20 °C (ISO 1:2022); cutter and gauge are set and read
// in the work as warm as it is. A bore is judged by its size at 20 °C, and handed on to a sleeve
// by it. What is cut next is planned in the scale in which it is set and read: the limits of the
// visit are moved by what the gauge reads more, and sizes found, settings and what the gauge
// should say stay as they are read. So the spring, setting less reading, is the same in both,
// and nobody has to add anything at the machine. It holds while the work stays as warm, within
// limits.temperature; the plan says so.

// sizes are the least and the most of the last entry at 20 °C, or as read where it does not say
// how warm work and gauge were.
func (st *state) sizes() (least, most qty.Diameter) {
	return st.least(), warm.AtTwenty(*st.last, st.last.Most(), st.alpha)
}

func (st *state) least() qty.Diameter { return warm.AtTwenty(*st.last, st.last.Least(), st.alpha) }

// warmer is by how much the gauge reads larger than at 20 °C; 0 where that is less than half a
// step of what is printed.
func (st *state) warmer(u qty.Unit) qty.Length {
	more := -warm.ToReference(*st.last, st.last.Mean(), st.alpha)
	if u.Round(more) == 0 {
		return 0
	}
	return more
}

// twenty is the temperature at which sizes hold.
func twenty() fact.Arg { return fact.Figure(qty.FromCelsius(20)) }

// atTwenty says what the last entry comes to at 20 °C.
func (st *state) atTwenty(name fact.Arg) fact.Fact {
	least, most := st.sizes()
	return fact.New(AtTwenty, name, fact.Count(st.pass), fact.Figure(st.last.WorkTemp), fact.Figure(st.last.GaugeTemp), twenty(), fact.Size(least), fact.Size(most))
}

// goesOnWarm says that what follows is for work as warm as it was gauged.
func goesOnWarm(name fact.Arg, warm qty.Length) fact.Fact {
	if warm < 0 {
		return fact.New(WorkCold, name, fact.Figure(-warm), twenty())
	}
	return fact.New(WorkWarm, name, fact.Figure(warm), twenty())
}

func (s *Standing) name(job *process.Job, bore int) fact.Arg {
	return fact.Name(job.Stations[job.Bores[bore].Station].Name)
}
