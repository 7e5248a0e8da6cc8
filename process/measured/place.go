package measured

import (
	"math"

	"borewright/process"
	"borewright/process/marks"
	"borewright/process/pass"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Where a cutter stands that is moved on by increment. It stands b beyond its
// setting, on diameter, and the size found is smaller by the spring:
//
//	y = g(γφ) − b + e,  y = setting − size found
//
// b is a place more in x, one for each visit: the first setting draws it, every move
// adds what the move is out, and the size of a cut says it as well as the spring is
// known. The settings of the plan for the rest count from where the cutter was found
// to stand, so that b is 0 again after each cut, with the spread that is left.

// visitOf is a visit of a bore, both from 0, with its tools.
type visitOf struct {
	bore, visit int
	tools       *process.Tools
}

// tip is the cutter in one visit.
type tip struct {
	x    int     // its place in Learned.x
	pass int     // that was entered last
	off  float64 // how far it stood beyond the setting of that pass, mm on diameter
}

// at is the place in x; below 0 where the cutter is not moved by increment.
func (t *tip) at() int {
	if t == nil {
		return -1
	}
	return t.x
}

// found takes up what a cut has told: settings count from there.
func (t *tip) found(k *Learned) {
	if t != nil {
		t.off, k.x[t.x] = k.x[t.x], 0
	}
}

// moved is the cutter as it stands for an entry; nil where it is not moved by
// increment.
func (k *Learned) moved(job *process.Job, of visitOf, e process.Measured) *tip {
	if job.Cutter.SetBy != process.Increment {
		return nil
	}
	one := job.Limits.SettingError.MM() / sigmas
	t := k.tips[of]
	if t == nil {
		first := 1 // pass of the visit
		if was := k.states[of.bore][of.visit-1]; was != nil {
			first = was.pass + 1
		}
		t = &tip{x: len(k.x), pass: first}
		k.tips[of] = t
		k.add(job.FirstSettingError().MM() / sigmas)
	}
	t.off = 0
	k.p[t.x][t.x] += float64(max(0, e.Pass-t.pass)) * one * one
	t.pass = max(t.pass, e.Pass)
	return t
}

// spread is the standard deviation of where a cutter stands, mm on diameter.
func (k *Learned) spread(t *tip) float64 {
	if t == nil {
		return 0
	}
	return math.Sqrt(math.Max(0, k.p[t.x][t.x]))
}

// stands is where the cutter stands after a pass. Where its size told, the spring, mm
// on diameter, is that of the pass, and what is not known of the place besides it is
// what the gauge and its repeat leave.
func (k *Learned) stands(job *process.Job, t *tip, e process.Measured, told bool, spring float64) schedule.Stands {
	if t == nil || e.Setting <= 0 || e.Tooling != "" && e.Tooling != marks.Tooling(job) {
		return schedule.Stands{}
	}
	if !told {
		return schedule.Stands{At: e.Setting, Known: qty.FromMM(sigmas * k.spread(t))}
	}
	return schedule.Stands{At: e.Setting.Plus(qty.FromMM(t.off)), Sprang: qty.FromMM(spring),
		Known: qty.FromMM(pass.BySquares(job.Limits.GaugeError.MM(), pass.SpringRepeats*spring))}
}
