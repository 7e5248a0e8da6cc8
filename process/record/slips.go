package record

import (
	"math"
	"slices"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// Slip is something about an entry that looks like a mistake of the hand.
type Slip struct {
	What   fact.Fact // what looks wrong
	Meant  fact.Fact // what was probably meant, or what to look at
	Refuse bool      // it cannot be right, whatever the person says
}

// Fact is a slip as one fact.
func (s Slip) Fact() fact.Fact { return fact.New(ASlip, s.What, s.Meant) }

// Slips looks an entry over, filled in, before it is written. p is the plan
// that was worked to.
func Slips(p *plan.Plan, m process.Measured) []Slip {
	l := &slipCheck{p: p, u: p.Job.Units, m: m}
	l.order()
	bore, visit, q := p.Pass(m.Station, m.Pass)
	if q == nil {
		l.home()
		return l.out // measured again: that has been said
	}
	v := &p.Bores[bore].Visits[visit]
	l.setting(q)
	if q.Kind == schedule.Witness && len(m.Marked)+len(m.Bare) == 0 && len(p.Job.Bores[p.Job.BoreAt(m.Station)].Wear) > 0 {
		l.say(false, fact.New(MarksNotSaid), fact.New(SayMarks))
	}
	for _, at := range m.Bare {
		if slices.Contains(m.Marked, at) {
			l.say(true, fact.New(MarkedBare, fact.Figure(qty.KindExactClock.Of(at))), fact.New(MarkedOrBare))
			break
		}
	}
	limits := p.Job.Using(v.Tools).Limits
	band := reading{
		least: v.Start.Plus(-limits.GaugeError - 5*qty.Micrometre),
		most:  m.Setting.Plus(limits.GaugeError + limits.SettingError),
		low:   q.Low, high: q.High,
	}
	if q.Spring < 0 { // the feed force draws the tip into the wall
		band.most = band.most.Plus(-2 * q.Spring)
	}
	if d := m.Setting.Minus(q.Setting); q.Kind != schedule.Witness { // set elsewhere, it comes out elsewhere
		band.low, band.high = band.low.Plus(d), band.high.Plus(d)
	}
	if q.Band != nil { // across where it did not mark
		band.high = max(band.high, q.Band.Bare)
	}
	if q.Kind == schedule.Witness && v.StartMost > band.most {
		band.most = v.StartMost.Plus(limits.GaugeError)
	}
	turns := p.Job.Runout()
	shape := q.OutOfRound - turns // of the old one; what the spindle makes is half in the window
	band.honest = honestBand(band, q, shape, limits)
	for _, s := range m.Sizes {
		l.size(s.Diameter, band)
	}
	if seen := m.Setting.Minus(m.Mean()); q.Kind != schedule.Witness && seen > 2*q.Spring+2*(limits.GaugeError+limits.SettingError) && m.Mean() >= band.least {
		l.say(false, fact.New(SprangMore, fact.Figure(seen), fact.Figure(q.Spring)), fact.New(LeftOut))
	}
	if spread := m.Most().Minus(m.Least()); q.Kind != schedule.Witness && spread > 2*shape+turns+5*limits.GaugeError/2 { // of six readings 1 in 100 lie further apart
		l.say(false, fact.New(ReadApart, fact.Figure(spread)), fact.New(LookForSlip))
	}
	return l.out
}

type slipCheck struct {
	p   *plan.Plan
	u   qty.Unit
	m   process.Measured
	out []Slip
}

func (l *slipCheck) say(refuse bool, what, meant fact.Fact) {
	l.out = append(l.out, Slip{what, meant, refuse})
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
			what := fact.New(NotExpected, fact.Size(s.Diameter), fact.Size(q.Low), fact.Size(q.High))
			if o, ok := l.otherUnit(s.Diameter, near); ok && !near.holds(s.Diameter) {
				l.say(true, what, fact.New(MixedUnits, o))
			} else if !near.holds(s.Diameter) {
				l.say(true, what, fact.New(TooFarHome))
			} else if s.Diameter < near.low || s.Diameter > near.high {
				l.say(false, what, fact.New(GaugeHome))
			}
		}
	}
}

// order asks where a pass comes before its turn, or again.
func (l *slipCheck) order() {
	if seen := l.p.Findings; seen != nil {
		for _, c := range seen.Cuts {
			if c.Pass == l.m.Pass && l.p.Job.Bores[c.Bore].Station == l.m.Station {
				l.say(false, fact.New(Measured, fact.Count(c.Pass), fact.Size(c.Least), fact.Size(c.Most)), fact.New(Replaces))
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
					l.say(false, fact.New(OutOfOrder, fact.Count(l.m.Pass), fact.Count(q.N), fact.Name(q.Kind.String())), fact.New(IsItPass, fact.Count(q.N)))
					return
				}
			}
		}
	}
}

func (l *slipCheck) setting(q *schedule.Pass) {
	d := l.m.Setting.Minus(q.Setting)
	if d.Abs() <= 250*qty.Micrometre {
		return
	}
	what := fact.New(SetOtherwise, fact.Size(l.m.Setting), fact.Size(q.Setting))
	near := reading{least: q.Setting.Plus(-250 * qty.Micrometre), most: q.Setting.Plus(250 * qty.Micrometre)}
	if o, ok := l.otherUnit(l.m.Setting, near); ok {
		l.say(true, what, fact.New(MixedUnits, o))
	} else if o, ok := l.transposed(l.m.Setting, near); ok {
		l.say(false, what, fact.New(SwappedDigits, o))
	} else {
		l.say(false, what, fact.New(IsThatSo))
	}
}

// reading is what a size may be: from the bore before to the setting, and what
// the sheet says to expect.
type reading struct {
	least, most, low, high qty.Diameter
	honest                 [2]qty.Diameter // nothing is said of a size between
}

// sureAs turns a figure held to 95 % into one held to 99 %: of an entry of some sizes
// hardly an honest one then lies outside, for they share the size of the bore.
const sureAs = 2.7 / 1.96

// honestBand is where a single size may lie after a pass. Low and high are those of the
// mean, 95 %; a gauge adds its own error, and an old shape, shape on radius from peak to
// valley, is as much on diameter either way.
func honestBand(r reading, q *schedule.Pass, shape qty.Length, l process.Limits) [2]qty.Diameter {
	half := r.high.Minus(r.low).MM() / 2
	wide := qty.FromMM(math.Hypot(half, l.GaugeError.MM())*sureAs - half)
	if q.Kind != schedule.Witness { // which is gauged where it marked
		wide += shape
	}
	return [2]qty.Diameter{r.low.Plus(-wide), r.high.Plus(wide)}
}

func (r reading) holds(d qty.Diameter) bool { return d >= r.least && d <= r.most }

func (l *slipCheck) size(d qty.Diameter, r reading) {
	if d >= r.honest[0] && d <= r.honest[1] {
		return
	}
	expected := fact.New(NotExpected, fact.Size(d), fact.Size(r.low), fact.Size(r.high))
	if o, ok := l.otherUnit(d, r); ok && !r.holds(d) {
		l.say(true, fact.New(CannotBe, fact.Size(d), fact.Size(r.least), fact.Size(l.m.Setting)), fact.New(MixedUnits, o))
		return
	}
	if o, ok := l.transposed(d, reading{least: r.low, most: r.high}); ok {
		l.say(false, expected, fact.New(SwappedDigits, o))
		return
	}
	if o, ok := l.pointSlipped(d, r); ok {
		l.say(true, fact.New(Impossible, fact.Size(d)), o)
		return
	}
	switch {
	case d < r.least:
		l.say(false, fact.New(Smaller, fact.Size(d), fact.Size(r.least)), fact.New(NoShrinking))
	case d > r.most:
		l.say(false, fact.New(Larger, fact.Size(d), fact.Size(l.m.Setting)), fact.New(LookAtSetting))
	default:
		l.say(false, expected, fact.New(GaugeAgain))
	}
}

// otherUnit says what was meant when a size is right in the other unit.
func (l *slipCheck) otherUnit(d qty.Diameter, r reading) (fact.Fact, bool) {
	other := qty.Inches - l.u
	for _, f := range [][2]int64{{254, 10}, {10, 254}} {
		if x := qty.Diameter(int64(d) / f[1] * f[0]); r.holds(x) {
			if (f[0] == 254) == (l.u == qty.Metric) { // read in the job's unit, meant in the other one
				return fact.New(WriteIt, fact.Name(other.Say(x.Length())), fact.Name(other.String())), true
			}
			return fact.New(WouldBe, fact.Size(x)), true
		}
	}
	return fact.Fact{}, false
}

// pointSlipped says what was meant when a size is ten times too large or small.
func (l *slipCheck) pointSlipped(d qty.Diameter, r reading) (fact.Fact, bool) {
	for _, x := range []qty.Diameter{d / 10, d * 10} {
		if r.holds(x) {
			return fact.New(PointOff, fact.New(WouldBe, fact.Size(x))), true
		}
	}
	if d > 2*r.most || d < r.least/2 {
		return fact.New(WasAndSet, fact.Size(r.least), fact.Size(l.m.Setting)), true
	}
	return fact.Fact{}, false
}

// transposed says what was meant when two neighbouring digits, exchanged,
// make a size that fits.
func (l *slipCheck) transposed(d qty.Diameter, r reading) (fact.Fact, bool) {
	s := []byte(l.u.Format(d.Length()))
	for i := range s {
		for j := i + 1; j < len(s) && j <= i+2; j++ { // the point may stand between
			if s[i] == '.' || s[j] == '.' || s[i] == s[j] || j == i+2 && s[i+1] != '.' {
				continue
			}
			t := append([]byte(nil), s...)
			t[i], t[j] = t[j], t[i]
			if x, err := qty.ParseDiameter(string(t) + " " + l.u.String()); err == nil && r.holds(x) {
				return fact.New(WouldBe, fact.Size(x)), true
			}
		}
	}
	return fact.Fact{}, false
}
