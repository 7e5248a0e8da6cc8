package passes

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
	return fact.New(ChatterIs, fact.New(s.Chatter()), s.margins(), of(qty.KindFrequency, s.Hz))
}

func (s Stability) margins() fact.Fact {
	return fact.New(Margins, of(qty.KindFactor, s.Margin[0]), of(qty.KindFactor, s.Margin[1]))
}

// middle is the margin at the middle of the damping range.
func (s Stability) middle() float64 { return math.Sqrt(s.Margin[0] * s.Margin[1]) }

// usedLand is the flank wear land that passes are judged with, mm: that of an
// edge that has cut for a few minutes, well below the 0.3 mm at which it is
// spent. A new edge chatters sooner. Common practice, no source.
const usedLand = 0.1

// chatterLimit is the bar's limit against damping, made once for a bar: the absolute
// limit of every speed (bar.CutLimit), because on a boring mill the
// lobes lie so close that speed cannot be used to dodge them.
type chatterLimit struct {
	beam   *bar.Beam
	hz     float64
	zetas  []float64
	limits []float64 // N/mm
}

func newChatterLimit(b *bar.Beam, least float64) *chatterLimit {
	c := &chatterLimit{beam: b}
	_, c.hz = b.LeastReal(least)
	for z := 0.005; z < 0.5; z *= 1.25 {
		c.zetas = append(c.zetas, z)
		c.limits = append(c.limits, b.CutLimit(z))
	}
	return c
}

// limit is the stiffest cut, N/mm, that is quiet at a damping ratio.
func (c *chatterLimit) limit(zeta float64) float64 { return between(zeta, c.zetas, c.limits) }

// cutStiffness is what a cut brings to chatter: its stiffness against a quick
// motion, N/mm, and the engaged edge, mm.
type cutStiffness struct{ regen, edge float64 }

func (r *Planner) stiffnessAt(depth, feed, speed float64) cutStiffness {
	return stiffnessOf(r.model, depth, feed, speed)
}

func stiffnessOf(m *cut.Model, depth, feed, speed float64) cutStiffness {
	return cutStiffness{m.Regen(depth, feed, speed), m.Edge(depth, feed)}
}

// stability judges a cut at a cutting speed, m/min.
func (r *Planner) stability(s cutStiffness, speed float64) Stability {
	out := Stability{Hz: r.chatter.hz}
	for i, zeta := range r.Job.Machine.Damping {
		out.Margin[i] = math.Inf(1)
		if s.regen > 0 {
			add := r.beam.ProcessDamping(s.edge, usedLand, speed)
			out.Margin[i] = r.chatter.limit(math.Min(zeta+add, 0.49)) / s.regen
		}
	}
	return out
}

// chatterMinutes is what a pass that will chatter costs on top of its time: stopping,
// trying another speed, and a bore to clean up after it. It weighs one pass
// against another; it refuses none, because shops do run long bars that the
// theory for a sharp edge would forbid. Common practice, no source.
const chatterMinutes = 12

// chatterPrice is the price of a margin below the edge, in minutes: nothing when it
// is quiet at the middle of the damping range, rising to chatterMinutes as the
// margin goes to nothing.
func chatterPrice(s Stability) float64 {
	m := s.middle()
	if math.IsInf(m, 1) || m >= 1 {
		return 0
	}
	return chatterMinutes * (1 - m)
}

// runs are rising numbers, three and more on end as one.
func runs(n []int) []fact.Fact {
	var out []fact.Fact
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		if j >= i+2 {
			out = append(out, fact.New(PassesTo, fact.Count(n[i]), fact.Count(n[j])))
			i = j + 1
			continue
		}
		out = append(out, fact.New(OnePass, fact.Count(n[i])))
		i++
	}
	return out
}

// chatters is the caution for the passes of a visit that will chatter, with what
// would quieten the worst of them, and by how much.
func (r *Planner) chatters() fact.Fact {
	var noisy []int
	var worst *Pass
	for i := range r.v.Passes {
		p := &r.v.Passes[i]
		if p.Stability.Chatter() == WillChatter {
			noisy = append(noisy, p.N)
			if worst == nil || p.Stability.Margin[1] < worst.Stability.Margin[1] {
				worst = p
			}
		}
	}
	if worst == nil {
		return fact.Fact{}
	}
	cure := fact.New(NoCure)
	if list := r.quieter(worst); len(list) > 0 {
		cure = fact.New(Cures, fact.Count(worst.N), fact.List(list...))
	}
	return fact.New(Chatters, fact.List(runs(noisy)...), worst.Stability.margins(), of(qty.KindFrequency, worst.Stability.Hz), cure)
}

// worthwhile is by how much a cure must raise the margin to be named. Common
// practice, no source.
const worthwhile = 1.2

// quieter is what a pass would be at, at its depth and feed, with the spindle
// at half its speed, with half the nose radius, and with 8° more rake, each
// alone. What does not help is left out.
func (r *Planner) quieter(p *Pass) []fact.Fact {
	depth, feed, speed := p.Depth.MM(), p.Feed.MM(), float64(p.Cutting)
	edge := edgeOf(&r.Job.Cutter)
	var out []fact.Fact
	try := func(kind fact.Kind, what qty.Quantity, e cut.Edge, speed float64) {
		m, err := r.modelOf(e)
		if err != nil {
			return // no such edge
		}
		s := r.stability(stiffnessOf(m, depth, feed, speed), speed)
		if s.middle() > worthwhile*p.Stability.middle() {
			out = append(out, fact.New(kind, s.margins(), fact.Figure(what)))
		}
	}
	if n := qty.RevPerMin(speedAtMost(r.Job.Machine, float64(p.Speed)/2)); n < p.Speed {
		try(SlowerSpeed, n, edge, speed*float64(n)/float64(p.Speed))
	}
	nose := r.Job.Units.Round(r.Job.Cutter.NoseRadius / 2)
	small, keen := edge, edge
	small.Nose = nose.MM()
	try(SmallerNose, nose, small, speed)
	keen.Rake += 8
	try(KeenerRake, qty.KindAngle.Of(keen.Rake), keen, speed)
	return out
}
