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
	Margin [2]float64 // limit of the cut's stiffness over the cut's stiffness, at the least and the most of what damps it; 1 is the edge
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
// the edge. It is quiet where it is so at the least of all that damps it: spindle,
// flank land and how hard the land is pressed back; none of them is known to better
// than a factor of two, so between the two edges nobody can promise. It will
// chatter where it is short of the edge by more than a factor of two at the most of
// them all.
func (s Stability) Chatter() fact.Kind {
	switch {
	case s.Margin[0] >= 1:
		return Quiet
	case s.Margin[1] >= 0.5:
		return MayChatter
	}
	return WillChatter
}

// Louder is the worse of two voices: Quiet, MayChatter or WillChatter.
func Louder(a, b fact.Kind) fact.Kind {
	if a == WillChatter || b == Quiet || b == "" {
		return a
	}
	return b
}

// Fact says it with the figures behind it.
func (s Stability) Fact() fact.Fact {
	return fact.New(ChatterIs, fact.New(s.Chatter()), s.Margins(), fact.Figure(qty.KindFrequency.Of(s.Hz)))
}

// Margins is the two margins alone.
func (s Stability) Margins() fact.Fact {
	return fact.New(Margins, fact.Value(qty.KindMargin, s.Margin[0]), fact.Value(qty.KindMargin, s.Margin[1]))
}

// Sings is how far a cut is past the edge where it will chatter: half of the edge
// over the margin at the most of what damps it; above 1 it will.
func (s Stability) Sings() float64 { return 0.5 / s.Margin[1] }

// Middle is the margin at the middle of what damps the cut.
func (s Stability) Middle() float64 { return math.Sqrt(s.Margin[0] * s.Margin[1]) }

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

// mostAdded is the damping ratio from which on no more of it helps: bar.LeastReal
// counts none beyond.
const mostAdded = 0.5

func newChatterLimit(b *bar.Beam) *chatterLimit {
	c := &chatterLimit{beam: b}
	c.first, _ = b.First() // a bar without modes has a limit of 0
	_, c.hz = b.LeastReal(bar.Least, 0)
	for add := 0.0; add < mostAdded; add = math.Max(0.001, add*1.15) {
		c.added = append(c.added, add)
	}
	c.added = append(c.added, mostAdded)
	for _, add := range c.added {
		for end := range c.limits {
			c.limits[end] = append(c.limits[end], b.CutLimit(end, add))
		}
	}
	return c
}

// limit is the stiffest cut, N/mm, that is quiet at the least or the most damping of
// the bar and with what is added to it.
func (c *chatterLimit) limit(end int, add float64) float64 {
	return qty.Between(add, c.added, c.limits[end])
}

// Stiffness is what a cut brings to chatter.
type Stiffness struct {
	Regen float64 // against a quick motion, N/mm
	Rubs  float64 // engaged edge as the motion sees it, mm (cut.Contact.Along): it damps
	Held  float64 // how much of what an outboard bearing can do it does, 0 to 1; 1 where there is none
}

// By is the stiffness with forces k times as large.
func (s Stiffness) By(k float64) Stiffness { return Stiffness{s.Regen * k, s.Rubs, s.Held} }

// Stiffness is that of a cut of a depth, mm, a feed, mm/rev, and a cutting speed,
// m/min.
func (e *Edge) Stiffness(depth, feed, speed float64, way Way) Stiffness {
	m := e.model(way)
	return e.stiffnessOf(m, depth, feed, speed, way, m.Contact(depth, feed))
}

// stiffnessOf is that of an edge as it touches the work.
func (e *Edge) stiffnessOf(m *cut.Model, depth, feed, speed float64, way Way, touches cut.Contact) Stiffness {
	held := 1.0
	if e.Soft.gap != nil {
		held = e.held(e.feels(m, depth, feed, speed), way)
	}
	lean := e.leans(held, way)
	return Stiffness{m.Regen(depth, feed, speed, lean), touches.Along(lean), held}
}

// Stability judges a cut at a cutting speed, m/min, whose flank touches the work
// over a land between two widths. The least margin is at the least damping of the
// spindle, the least indentation force and the least land, the most at the most of
// all three.
func (e *Edge) Stability(c Stiffness, speed float64, land cut.Land) Stability {
	out := Stability{Hz: e.swing.longest().first(c.Held).hz}
	for i, w := range [2]float64{land.Least, land.Most} {
		out.Margin[i] = math.Inf(1)
		if c.Regen > 0 {
			rubs := func(b *bar.Beam) float64 { return b.ProcessDamping(c.Rubs, e.metal.Indentation[i], w, speed) }
			most, hz := e.swing.limit(i, c.Held, rubs)
			if out.Margin[i] = most / c.Regen; i == bar.Least {
				out.Hz = hz
			}
		}
	}
	return out
}

// QuietAt gives how a cut of a depth, mm, and a feed, mm/rev, stands at another
// cutting speed, m/min, with a land; nil where nothing is cut.
func (e *Edge) QuietAt(depth, feed float64, land cut.Land) func(speed float64) Stability {
	if !(e.in.Edge(depth, feed) > 0) {
		return nil
	}
	return func(v float64) Stability { return e.Stability(e.Stiffness(depth, feed, v, In), v, land) }
}

// worthwhile is by how much a cure must raise the margin to be named. Common
// practice, no source.
const worthwhile = 1.2

// Cures are what a cut would be at, at its depth, mm, and feed, mm/rev, with the
// spindle at half its speed, with half the nose radius, and with 8° more rake, each
// alone. now is how it stands with a land, speed its cutting speed at the spindle
// speed n. What does not help is left out.
func (e *Edge) Cures(now Stability, depth, feed float64, speed qty.CuttingSpeed, n qty.RevPerMin, land cut.Land) []fact.Fact {
	s := e.s
	edge, v := edgeOf(&s.Job.Cutter), float64(speed)
	var out []fact.Fact
	try := func(kind fact.Kind, what qty.Quantity, other cut.Edge, v float64) {
		m, err := s.modelOf(e.metal, other)
		if err != nil {
			return // no such edge
		}
		if st := e.Stability(e.stiffnessOf(m, depth, feed, v, In, m.Contact(depth, feed)), v, land); st.Middle() > worthwhile*now.Middle() {
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
	Margins     fact.Kind = "setup.margins"     // edge of chatter over the cut, at the least and the most of what damps it
	Quiet       fact.Kind = "setup.quiet"       // even at the least of what damps it
	MayChatter  fact.Kind = "setup.may chatter" // not quiet for certain, nor noisy for certain
	WillChatter fact.Kind = "setup.will chatter"
	SlowerSpeed fact.Kind = "setup.slower"  // margins, speed
	SmallerNose fact.Kind = "setup.smaller" // margins, nose radius
	KeenerRake  fact.Kind = "setup.keener"  // margins, rake
)
