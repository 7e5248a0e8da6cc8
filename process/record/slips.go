package record

import (
	"errors"
	"fmt"

	"borewright/process"
	"borewright/process/passes"
	"borewright/process/plan"
	"borewright/process/qty"
)

// Slip is something about an entry that looks like a mistake of the hand.
type Slip struct {
	What   string // what looks wrong, with figures
	Meant  string // what was probably meant, or what to look at
	Refuse bool   // it cannot be right, whatever the person says
}

func (s Slip) String() string {
	if s.Meant == "" {
		return s.What
	}
	return s.What + "; " + s.Meant
}

// ErrNothing is the error for an entry without any size.
var ErrNothing = errors.New("no size is given")

// Slips looks an entry over, filled in, before it is written. p is the plan
// that was worked to.
func Slips(p *plan.Plan, m process.Measured) []Slip {
	l := &slipCheck{p: p, u: p.Job.Units, m: m}
	l.order()
	v, q := l.find()
	if q == nil {
		l.home()
		return l.out // measured again: that has been said
	}
	l.setting(q)
	limits := p.Job.Limits
	band := reading{
		least: v.Start.Plus(-limits.GaugeError - 5*qty.Micrometre),
		most:  m.Setting.Plus(limits.GaugeError + limits.SettingError),
		low:   q.Low, high: q.High,
	}
	if d := m.Setting.Minus(q.Setting); q.Kind != passes.Witness { // set elsewhere, it comes out elsewhere
		band.low, band.high = band.low.Plus(d), band.high.Plus(d)
	}
	if q.Kind == passes.Witness && v.StartMost > band.most {
		band.most = v.StartMost.Plus(limits.GaugeError)
	}
	for _, s := range m.Sizes {
		l.size(s.Diameter, band)
	}
	if seen := m.Setting.Minus(m.Mean()); q.Kind != passes.Witness && seen > 2*q.Spring+2*(limits.GaugeError+limits.SettingError) && m.Mean() >= band.least {
		l.say(false, fmt.Sprintf("the bar would have sprung %s, and %s was planned", l.u.Say(seen), l.u.Say(q.Spring)), "was the pass before it left out, or did the cutter slip back?")
	}
	if spread := m.Most().Minus(m.Least()); q.Kind != passes.Witness && spread > 2*q.OutOfRound+4*limits.GaugeError+qty.FromMM(0.01) {
		l.say(false, fmt.Sprintf("the readings lie %s apart", l.u.Say(spread)), "look for a slip in one of them, for chips under the gauge, or for taper")
	}
	return l.out
}

type slipCheck struct {
	p   *plan.Plan
	u   qty.Unit
	m   process.Measured
	out []Slip
}

func (l *slipCheck) say(refuse bool, what, meant string) {
	l.out = append(l.out, Slip{what, meant, refuse})
}

// find is the pass of the plan that the entry is for; nil when it is measured
// again.
func (l *slipCheck) find() (*plan.Visit, *passes.Pass) {
	for i := range l.p.Bores {
		for k := range l.p.Bores[i].Visits {
			v := &l.p.Bores[i].Visits[k]
			for n := range v.Passes {
				if l.p.Bores[i].Bore.Station == l.m.Station && v.Passes[n].N == l.m.Pass {
					return v, &v.Passes[n]
				}
			}
		}
	}
	return nil, nil
}

// home looks at the sizes of a sleeve at home.
func (l *slipCheck) home() {
	for _, b := range l.p.Bores {
		q := b.Home
		if q == nil || b.Bore.Station != l.m.Station || q.N != l.m.Pass {
			continue
		}
		doubt := l.p.Job.Limits.GaugeError
		near := reading{least: q.Low.Plus(-qty.Millimetre / 2), most: q.High.Plus(qty.Millimetre / 2), low: q.Low.Plus(-doubt), high: q.High.Plus(doubt)}
		for _, s := range l.m.Sizes {
			what := l.u.Say(s.Diameter.Length()) + fmt.Sprintf(" is not what was expected, %s to %s", l.u.Format(q.Low.Length()), l.u.Say(q.High.Length()))
			if o, ok := l.otherUnit(s.Diameter, near); ok && !near.holds(s.Diameter) {
				l.say(true, what, "inch and mm mixed up? "+o)
			} else if !near.holds(s.Diameter) {
				l.say(true, what, "no sleeve moves that far: read it again")
			} else if s.Diameter < near.low || s.Diameter > near.high {
				l.say(false, what, "gauge again, both parts at one temperature")
			}
		}
	}
}

// order asks where a pass comes before its turn, or again.
func (l *slipCheck) order() {
	if seen := l.p.Findings; seen != nil {
		for _, c := range seen.Cuts {
			if c.Pass == l.m.Pass && l.p.Job.Bores[c.Bore].Station == l.m.Station {
				l.say(false, fmt.Sprintf("pass %d was measured already: %s to %s", c.Pass, l.u.Format(c.Least.Length()), l.u.Say(c.Most.Length())),
					"entered again, the new figures take the place of the old ones")
				break
			}
		}
	}
	for _, b := range l.p.Bores {
		if b.Bore.Station != l.m.Station {
			continue
		}
		for _, v := range b.Visits {
			for _, q := range v.Passes {
				if q.Hold != nil && q.N < l.m.Pass {
					l.say(false, fmt.Sprintf("pass %d is out of order: after pass %d (%s) there is a hold point, and nothing was entered for it", l.m.Pass, q.N, q.Kind),
						fmt.Sprintf("is it pass %d that was cut?", q.N))
					return
				}
			}
		}
	}
}

func (l *slipCheck) setting(q *passes.Pass) {
	d := l.m.Setting.Minus(q.Setting)
	if d.Abs() <= 250*qty.Micrometre {
		return
	}
	what := fmt.Sprintf("the cutter is said to have been set to %s, planned was %s", l.u.Say(l.m.Setting.Length()), l.u.Say(q.Setting.Length()))
	near := reading{least: q.Setting.Plus(-250 * qty.Micrometre), most: q.Setting.Plus(250 * qty.Micrometre)}
	if o, ok := l.otherUnit(l.m.Setting, near); ok {
		l.say(true, what, "inch and mm mixed up? "+o)
	} else if o, ok := l.transposed(l.m.Setting, near); ok {
		l.say(false, what, "two digits changed places? "+o)
	} else {
		l.say(false, what, "is that so?")
	}
}

// reading is what a size may be: from the bore before to the setting, and what
// the sheet says to expect.
type reading struct{ least, most, low, high qty.Diameter }

func (r reading) holds(d qty.Diameter) bool { return d >= r.least && d <= r.most }

func (l *slipCheck) size(d qty.Diameter, r reading) {
	u := l.u
	if d >= r.low && d <= r.high {
		return
	}
	what := u.Say(d.Length()) + " "
	if o, ok := l.otherUnit(d, r); ok && !r.holds(d) {
		l.say(true, what+"cannot be: the bore was "+u.Say(r.least.Length())+" before, and the cutter was set to "+u.Say(l.m.Setting.Length()), "inch and mm mixed up? "+o)
		return
	}
	if o, ok := l.transposed(d, reading{least: r.low, most: r.high}); ok {
		l.say(false, what+fmt.Sprintf("is not what was expected, %s to %s", u.Format(r.low.Length()), u.Say(r.high.Length())), "two digits changed places? "+o)
		return
	}
	if o, ok := l.pointSlipped(d, r); ok {
		l.say(true, what+"cannot be", o)
		return
	}
	switch {
	case d < r.least:
		l.say(false, what+"is smaller than the bore was before, "+u.Say(r.least.Length()), "a bore does not shrink: gauge again")
	case d > r.most:
		l.say(false, what+"is larger than the cutter was set to, "+u.Say(l.m.Setting.Length()), "look at the setting, for a built-up edge, and at the gauge's master")
	default:
		l.say(false, what+fmt.Sprintf("is not what was expected, %s to %s", u.Format(r.low.Length()), u.Say(r.high.Length())), "gauge again; if it is so, the rest is planned from it")
	}
}

// otherUnit says what was meant when a size is right in the other unit.
func (l *slipCheck) otherUnit(d qty.Diameter, r reading) (string, bool) {
	other := qty.Inches - l.u
	for _, f := range [][2]int64{{254, 10}, {10, 254}} {
		if x := qty.Diameter(int64(d) / f[1] * f[0]); r.holds(x) {
			if (f[0] == 254) == (l.u == qty.Metric) { // read in the job's unit, meant in the other one
				return "Write \"" + other.Say(x.Length()) + "\" for a size in " + other.String(), true
			}
			return "It would be " + l.u.Say(x.Length()), true
		}
	}
	return "", false
}

// pointSlipped says what was meant when a size is ten times too large or small.
func (l *slipCheck) pointSlipped(d qty.Diameter, r reading) (string, bool) {
	for _, x := range []qty.Diameter{d / 10, d * 10} {
		if r.holds(x) {
			return "the point one place off? It would be " + l.u.Say(x.Length()), true
		}
	}
	if d > 2*r.most || d < r.least/2 {
		return "the bore was " + l.u.Say(r.least.Length()) + " before, and the cutter was set to " + l.u.Say(l.m.Setting.Length()), true
	}
	return "", false
}

// transposed says what was meant when two neighbouring digits, exchanged,
// make a size that fits.
func (l *slipCheck) transposed(d qty.Diameter, r reading) (string, bool) {
	s := []byte(l.u.Format(d.Length()))
	for i := range s {
		for j := i + 1; j < len(s) && j <= i+2; j++ { // the point may stand between
			if s[i] == '.' || s[j] == '.' || s[i] == s[j] || j == i+2 && s[i+1] != '.' {
				continue
			}
			t := append([]byte(nil), s...)
			t[i], t[j] = t[j], t[i]
			if x, err := qty.ParseDiameter(string(t) + " " + l.u.String()); err == nil && r.holds(x) {
				return "It would be " + l.u.Say(x.Length()), true
			}
		}
	}
	return "", false
}
