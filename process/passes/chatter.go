package passes

import (
	"fmt"
	"math"
	"strings"

	"borewright/process/bar"
	"borewright/process/cut"
	"borewright/process/qty"
)

// Stability is how a pass stands against chatter.
type Stability struct {
	Margin [2]float64 // limit of the cut's stiffness over the cut's stiffness, at the least and the most damping; 1 is the edge of singing
	Hz     float64    // what it sings at if it does
}

// Chatter is what to expect of a pass, in the words of the shop.
type Chatter string

// The voices. A margin of 1 is the edge; damping is known to a factor of two at
// best, so between the two edges nobody can promise.
const (
	Quiet       Chatter = "quiet"     // even at the least damping
	MayChatter  Chatter = "may sing"  // not quiet for certain, nor noisy for certain
	WillChatter Chatter = "will sing" // short of the edge by more than a factor of two at any damping that such a spindle has
)

// Chatter judges the margin.
func (s Stability) Chatter() Chatter {
	switch {
	case s.Margin[0] >= 1:
		return Quiet
	case s.Margin[1] >= 0.5:
		return MayChatter
	}
	return WillChatter
}

// String says it with the number behind it.
func (s Stability) String() string {
	return fmt.Sprintf("%s: %s times the edge of chatter, at %.0f Hz", s.Chatter(), s.margins(), s.Hz)
}

// margins are the two margins as they are printed.
func (s Stability) margins() string {
	return marginText(s.Margin[0]) + " to " + marginText(s.Margin[1])
}

// middle is the margin at the middle of the damping range.
func (s Stability) middle() float64 { return math.Sqrt(s.Margin[0] * s.Margin[1]) }

func marginText(m float64) string {
	if m > 99 {
		return "over 99"
	}
	return fmt.Sprintf("%.2f", m)
}

// usedLand is the flank wear land that passes are judged with, mm: that of an
// edge that has cut for a few minutes, well below the 0.3 mm at which it is
// spent. A new edge sings sooner. Common practice, no source.
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

// chatterMinutes is what a pass that will sing costs on top of its time: stopping,
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

// runs says rising numbers, three and more on end as "1 to 3".
func runs(n []int) string {
	var out []string
	for i := 0; i < len(n); {
		j := i
		for j+1 < len(n) && n[j+1] == n[j]+1 {
			j++
		}
		if j >= i+2 {
			out = append(out, fmt.Sprintf("%d to %d", n[i], n[j]))
			i = j + 1
			continue
		}
		out = append(out, fmt.Sprint(n[i]))
		i++
	}
	return strings.Join(out, ", ")
}

// chatterCaution is the caution for the passes of a visit that are not quiet, or "",
// with what would quieten the worst of them, and by how much.
func (r *Planner) chatterCaution() string {
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
		return ""
	}
	word := "Pass"
	if len(noisy) > 1 {
		word = "Passes"
	}
	cure := "No slower speed, smaller nose radius or keener edge helps much."
	if list := r.quieter(worst); len(list) > 0 {
		cure = fmt.Sprintf("Each alone, pass %d would be at %s.", worst.N, strings.Join(list, ", "))
	}
	return fmt.Sprintf("%s %s will sing by the figures (%s times the edge of chatter, near %.0f Hz). %s Stop at the first note: a bore that has chattered holds no size.",
		word, runs(noisy), worst.Stability.margins(), worst.Stability.Hz, cure)
}

// worthwhile is by how much a cure must raise the margin to be named. Common
// practice, no source.
const worthwhile = 1.2

// quieter says what a pass would be at, at its depth and feed, with the spindle
// at half its speed, with half the nose radius, and with 8° more rake, each
// alone: the margin in the words of the shop. What does not help is left out.
func (r *Planner) quieter(p *Pass) []string {
	depth, feed, speed := p.Depth.MM(), p.Feed.MM(), float64(p.Cutting)
	edge := edgeOf(&r.Job.Cutter)
	var out []string
	try := func(what string, e cut.Edge, speed float64) {
		m, err := r.modelOf(e)
		if err != nil {
			return // no such edge
		}
		s := r.stability(stiffnessOf(m, depth, feed, speed), speed)
		if s.middle() > worthwhile*p.Stability.middle() {
			out = append(out, s.margins()+" "+what)
		}
	}
	if n := qty.RevPerMin(speedAtMost(r.Job.Machine, float64(p.Speed)/2)); n < p.Speed {
		try(fmt.Sprintf("with %.0f rev/min", float64(n)), edge, speed*float64(n)/float64(p.Speed))
	}
	u := r.Job.Units
	nose := u.Round(r.Job.Cutter.NoseRadius / 2)
	small, keen := edge, edge
	small.Nose = nose.MM()
	try("with a nose radius of "+u.Say(nose), small, speed)
	keen.Rake += 8
	try(fmt.Sprintf("with %.0f° of rake", keen.Rake), keen, speed)
	return out
}
