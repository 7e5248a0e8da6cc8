package setup

import (
	"math"

	"borewright/process"
	"borewright/process/bar"
	"borewright/process/cut"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// Stability is how a pass stands against chatter.
type Stability struct {
	Margin [2]float64 // limit of the cut's stiffness over the cut's stiffness, at the least and the most damping; 1 is the edge
	Hz     float64    // at which it chatters if it does
}

// Describe says what documents and a comparison have of it.
func (s *Stability) Describe(d *field.Desc) {
	d.Is("voice", func() any { return fact.New(s.Chatter()) }).Weighs(process.SpoilsSize, "chatter")
	d.Figure(&s.Margin[0], qty.KindRatio, "margin_least").AtMost(1e6).Decimals(3).Weighs(process.SpoilsFeed, "edge of chatter over the cut, least")
	d.Figure(&s.Margin[1], qty.KindRatio, "margin_most").AtMost(1e6).Decimals(3).Weighs(process.SpoilsFeed, "edge of chatter over the cut, most")
	d.Figure(&s.Hz, qty.KindFrequency, "hz").Decimals(1).Weighs(process.SpoilsFeed, "would sing at")
}

// Chatter judges the margin: Quiet, MayChatter or WillChatter. A margin of 1 is
// the edge; damping is known to a factor of two at best, so between the two
// edges nobody can promise. It will chatter where it is short of the edge by
// more than a factor of two at any damping that such a spindle has.
func (s Stability) Chatter() fact.Kind {
	switch {
	case s.Margin[0] >= 1:
		return Quiet
	case s.Margin[1] >= 0.5:
		return MayChatter
	}
	return WillChatter
}

// Fact says it with the figures behind it.
func (s Stability) Fact() fact.Fact {
	return fact.New(ChatterIs, fact.New(s.Chatter()), s.Margins(), fact.Figure(qty.KindFrequency.Of(s.Hz)))
}

// Margins is the two margins alone.
func (s Stability) Margins() fact.Fact {
	return fact.New(Margins, factor(s.Margin[0]), factor(s.Margin[1]))
}

func factor(x float64) fact.Arg { return fact.Figure(qty.KindFactor.Of(x)) }

// Middle is the margin at the middle of the damping range.
func (s Stability) Middle() float64 { return math.Sqrt(s.Margin[0] * s.Margin[1]) }

// usedLand is the flank wear land that passes are judged with, mm: that of an
// edge that has cut for a few minutes, well below the 0.3 mm at which it is
// spent. A new edge chatters sooner. Common practice, no source.
const usedLand = 0.1

// chatterLimit is the bar's limit against damping, made once for a bar: the absolute
// limit of every speed (bar.CutLimit), because on a boring mill the
// lobes lie so close that speed cannot be used to dodge them.
type chatterLimit struct {
	beam   *bar.Beam
	first  bar.Mode
	hz     float64
	added  []float64
	limits [2][]float64 // N/mm, at the least and the most damping of the bar
}

func newChatterLimit(b *bar.Beam) *chatterLimit {
	c := &chatterLimit{beam: b}
	c.first, _ = b.First() // a bar without modes has a limit of 0
	_, c.hz = b.LeastReal(bar.Least, 0)
	for add := 0.0; add < 0.5; add = math.Max(0.001, add*1.25) {
		c.added = append(c.added, add)
		for end := range c.limits {
			c.limits[end] = append(c.limits[end], b.CutLimit(end, add))
		}
	}
	return c
}

// limit is the stiffest cut, N/mm, that is quiet at the least or the most damping of
// the bar and with what is added to it.
func (c *chatterLimit) limit(end int, add float64) float64 {
	return between(add, c.added, c.limits[end])
}

// Stiffness is what a cut brings to chatter.
type Stiffness struct {
	Regen float64 // against a quick motion, N/mm
	Edge  float64 // engaged, mm
	Held  float64 // how much of what an outboard bearing can do it does, 0 to 1; 1 where there is none
}

// By is the stiffness with forces k times as large.
func (s Stiffness) By(k float64) Stiffness { return Stiffness{s.Regen * k, s.Edge, s.Held} }

// Stiffness is that of a cut of a depth, mm, a feed, mm/rev, and a cutting speed,
// m/min.
func (e *Edge) Stiffness(depth, feed, speed float64, way Way) Stiffness {
	return e.stiffnessOf(e.model(way), depth, feed, speed, way)
}

func (e *Edge) stiffnessOf(m *cut.Model, depth, feed, speed float64, way Way) Stiffness {
	held := e.held(m.Force(depth, feed, speed), way)
	return Stiffness{m.Regen(depth, feed, speed, e.leans(held, way)), m.Edge(depth, feed), held}
}

// Stability judges a cut at a cutting speed, m/min.
func (e *Edge) Stability(c Stiffness, speed float64) Stability {
	out := Stability{Hz: e.swing.first(c.Held).hz}
	for i := range out.Margin {
		out.Margin[i] = math.Inf(1)
		if c.Regen > 0 {
			rubs := func(b *bar.Beam) float64 { return b.ProcessDamping(c.Edge, usedLand, speed) }
			out.Margin[i] = e.swing.limit(i, c.Held, rubs) / c.Regen
		}
	}
	return out
}

// QuietAt gives the margin at the least damping of the spindle against the cutting
// speed, m/min, of a cut of a depth, mm, and a feed, mm/rev; nil where nothing is
// cut.
func (e *Edge) QuietAt(depth, feed float64) func(speed float64) float64 {
	if !(e.in.Edge(depth, feed) > 0) {
		return nil
	}
	return func(v float64) float64 { return e.Stability(e.Stiffness(depth, feed, v, In), v).Margin[bar.Least] }
}

// worthwhile is by how much a cure must raise the margin to be named. Common
// practice, no source.
const worthwhile = 1.2

// Cures are what a cut would be at, at its depth, mm, and feed, mm/rev, with the
// spindle at half its speed, with half the nose radius, and with 8° more rake, each
// alone. now is how it stands, speed its cutting speed at the spindle speed n. What
// does not help is left out.
func (e *Edge) Cures(now Stability, depth, feed float64, speed qty.CuttingSpeed, n qty.RevPerMin) []fact.Fact {
	s := e.s
	edge, v := edgeOf(&s.Job.Cutter), float64(speed)
	var out []fact.Fact
	try := func(kind fact.Kind, what qty.Quantity, other cut.Edge, v float64) {
		m, err := s.modelOf(e.metal, other)
		if err != nil {
			return // no such edge
		}
		if st := e.Stability(e.stiffnessOf(m, depth, feed, v, In), v); st.Middle() > worthwhile*now.Middle() {
			out = append(out, fact.New(kind, st.Margins(), fact.Figure(what)))
		}
	}
	if slow := qty.RevPerMin(s.SpeedAtMost(float64(n) / 2)); slow < n {
		try(SlowerSpeed, slow, edge, v*float64(slow)/float64(n))
	}
	nose := s.Job.Units.Round(s.Job.Cutter.NoseRadius / 2)
	small, keen := edge, edge
	small.Nose = nose.MM()
	try(SmallerNose, nose, small, v)
	keen.Rake += 8
	try(KeenerRake, qty.KindAngle.Of(keen.Rake), keen, v)
	return out
}

// How a cut stands against chatter, and what would quieten it.
const (
	ChatterIs   fact.Kind = "setup.chatter is"  // Quiet, MayChatter or WillChatter, margins, frequency
	Margins     fact.Kind = "setup.margins"     // edge of chatter over the cut, at the least and the most damping
	Quiet       fact.Kind = "setup.quiet"       // even at the least damping
	MayChatter  fact.Kind = "setup.may chatter" // not quiet for certain, nor noisy for certain
	WillChatter fact.Kind = "setup.will chatter"
	SlowerSpeed fact.Kind = "setup.slower"  // margins, speed
	SmallerNose fact.Kind = "setup.smaller" // margins, nose radius
	KeenerRake  fact.Kind = "setup.keener"  // margins, rake
)
