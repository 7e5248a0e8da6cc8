package post

import (
	"fmt"

	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// mouth cuts what stands at the mouth of the housing when its last pass is good, each cut
// with its own stop for the bit.
func (j *job) mouth() {
	all := j.visit.Mouth
	if len(all) == 0 || all[0].Hand {
		return
	}
	for i := range all {
		j.sayBit(i)
		j.stop()
		j.safeStart()
		if j.length > 0 {
			j.block(g(43), rs274.Whole('H', j.length))
		}
		j.form(&all[i])
	}
	j.say("---- MOUTH DONE. Look at the edge, no burr; then gauge the bore once more.")
}

// sayBit says at its stop which bit goes in, and how it is set.
func (j *job) sayBit(i int) {
	k, all := &j.visit.Mouth[i], j.visit.Mouth
	j.sayf("---- MOUTH %d of %d: %s", i+1, len(all), k.Kind)
	if i == 0 {
		if last := &j.visit.Passes[len(j.visit.Passes)-1]; last.Hold != nil {
			j.sayf("Only if the hold after pass %d found %s.", last.N, j.expected(last))
		}
	}
	switch {
	case k.Kind == schedule.LeadIn:
		j.sayf("Bit: edge at %s deg to the axis, %s long or more along it.", qty.KindAngle.Bare(k.Angle), j.size(k.Edge))
	case i == 0:
		j.say("Bit: square corner, for the seat of the flange.")
	default:
		j.say("Bit: the same.")
	}
	j.sayf("Set its outer end to dia %s, where the tip of the last bit stood along the bar.", j.size(k.Setting.Length()))
	if k.Kind == schedule.LeadIn {
		j.sayf("Touches at depth %s, feed ends at %s, leaves dia %s.", j.p.Job.Units.Format(k.Touch), j.size(k.End), j.size(k.Leaves.Length()))
	} else {
		j.sayf("Feed ends at %s, leaves dia %s.", j.size(k.End), j.size(k.Leaves.Length()))
	}
	j.say("Lock the bit, tools out, guards shut. Then start: spindle turns, tool moves.")
}

// form is one cut at the mouth: in, a turn at its end, out again as it went in.
func (j *job) form(k *schedule.MouthCut) {
	s, speed, err := speedWord(j.d, k.Speed)
	f, dwell := rs274.Word{}, rs274.Word{}
	if err == nil {
		f, err = feedWord(j.d, j.c, k.Feed, speed)
	}
	var gear *process.GearRange
	if err == nil {
		gear, err = gearFor(j.c, k.Speed)
	}
	if err == nil {
		dwell, err = dwellWord(j.d, j.d.DwellWord, min(speed, float64(k.Speed)))
	}
	if err != nil {
		j.fail(NoWord, fmt.Errorf("%s at the mouth: %w", k.Kind, err))
		return
	}
	if gear != nil {
		j.block(m(int(gear.Word)))
	}
	begin, end := shallowerWord(k.Begin, j.d, j.c.Units), shallowerWord(k.End, j.d, j.c.Units)
	j.block(s, m(3))
	j.block(g(0), j.at(j.axis, j.home))
	j.block(g(0), j.at('X', 0), j.at('Y', 0))
	j.block(g(0), j.deep(begin))
	if j.wet {
		j.block(m(int(j.c.Coolant)))
	}
	j.block(g(1), j.deep(end), f)
	j.block(g(4), dwell)
	j.block(g(1), j.deep(begin), f)
	j.coolantOff()
	j.block(m(5))
	j.block(g(0), j.at(j.axis, j.home))
}
