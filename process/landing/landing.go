// Package landing works out the chance of landing on size, and what it is lost to,
// by trial: the last passes of a visit are cut many times over with everything
// that is not known drawn anew each time. The cutter is set as hands set it: anew
// for each pass, or by moving it on from where it stands (Trial.Carried). It also
// finds the best share of a measured error by which to shift the next setting. It
// knows passes as settings, depths and forces, and no job.
package landing

import (
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// The chance of landing on size (Budget.Fact), and what scatters it.
const (
	Unmeasured fact.Kind = "landing.chance"          // chance, whether the bar stays quiet, error of the chance
	Measured   fact.Kind = "landing.chance measured" // chance, the same with no measuring, whether the bar stays quiet, errors of the two chances
	IfQuiet    fact.Kind = "landing.if quiet"        // what every chance supposes

	ByForce   fact.Kind = "landing.scatter force"
	ByRoot    fact.Kind = "landing.scatter root"
	ByStood   fact.Kind = "landing.scatter stood"
	ByWork    fact.Kind = "landing.scatter work"
	ByBar     fact.Kind = "landing.scatter bar"
	ByWayOut  fact.Kind = "landing.scatter way out"
	ByWear    fact.Kind = "landing.scatter wear"
	ByFeed    fact.Kind = "landing.scatter feed"
	BySetting fact.Kind = "landing.scatter setting"
	BySpring  fact.Kind = "landing.scatter spring"
	ByGauge   fact.Kind = "landing.scatter gauge"
)

// Budget is the chance of landing on size, and what it is lost to.
type Budget struct {
	Trials     int
	Gain       float64      // share of what a bore is out at the hold by which the next setting is shifted
	Chance     float64      // that the finish lands within limits, measured and corrected at the hold points
	Blind      float64      // the same with no measuring before the last pass
	Error      float64      // half-width (95 %) of what the drawing of the trials leaves unsure of Chance
	BlindError float64      // and of Blind
	Low        qty.Diameter // 95 of 100 finishes land between these
	High       qty.Diameter
	Shares     []Share   // what the scatter comes from, largest first
	unmeasured *Budget   // all this with no measuring before the last pass; nil where measuring changes nothing
	Voice      fact.Fact // whether the bar stays quiet, as all that is stated here supposes
}

// Describe says what documents have of a budget.
func (b *Budget) Describe(d *field.Desc) {
	d.Is("given", func() any { return fact.New(IfQuiet) })
	d.Is("voice", func() any { return b.Voice })
	d.Worked("with its chance", &b.Voice)
	d.Number(&b.Chance, "chance", "").Decimals(5)
	d.Number(&b.Error, "chance_error", "").Decimals(5)
	d.Number(&b.Blind, "chance_unmeasured", "").Decimals(5)
	d.Number(&b.BlindError, "chance_unmeasured_error", "").Decimals(5)
	d.Number(&b.Gain, "correction", "")
	d.Diameter(&b.Low, "low_mm")
	d.Diameter(&b.High, "high_mm")
	d.Count(&b.Trials, "trials")
	field.List(d, &b.Shares, "scatter", 0, field.Any)
	d.Worked("stands in place of this where the visit is not measured", &b.unmeasured)
}

// Share is one cause of scatter and its share of the variance.
type Share struct {
	Cause fact.Kind
	Of    float64
}

// Describe says what documents have of a share.
func (s *Share) Describe(d *field.Desc) {
	d.Is("cause", func() any { return fact.New(s.Cause) })
	d.Number(&s.Of, "share", "").Decimals(4)
	d.Worked("in words", &s.Cause)
}

// Unmeasured is the budget where nothing is measured before the last pass.
func (b *Budget) Unmeasured() *Budget {
	if b.unmeasured == nil {
		return b
	}
	blind := *b.unmeasured
	blind.Voice = b.Voice
	return &blind
}

// Fact says the chance, and what it is unmeasured where measuring changes it.
func (b *Budget) Fact() fact.Fact {
	if b.Gain == 0 {
		return fact.New(Unmeasured, chance(b.Chance), b.Voice, chance(b.Error))
	}
	return fact.New(Measured, chance(b.Chance), chance(b.Blind), b.Voice, chance(b.Error), chance(b.BlindError))
}

func chance(p float64) fact.Arg { return fact.Figure(qty.KindChance.Of(p)) }

// The causes of scatter. All are normal with the figures of the job's limits
// as 95 % half-widths (σ = half/1.96); the root is normal in its logarithm.
const (
	causeForce = iota // force constants: one factor for all passes
	causeRoot         // stiffness of spindle and socket: one factor
	causeStood        // where the cutter stood before the first of the passes
	causeWork         // temperature of the work
	causeBar          // temperature of the bar
	causeRub          // whether a way out too shallow for the edge cuts or rubs: alike in all passes
	causeWear         // how far the edge is worn: one rate
	causeFeed         // feed force by itself: one factor for all passes
	causeEach         // from here on: of each pass its setting, its spring, its gauge
)

// causes are their kinds: those of all passes, then those of each.
var causes = [causeEach + 3]fact.Kind{ByForce, ByRoot, ByStood, ByWork, ByBar, ByWayOut, ByWear, ByFeed, BySetting, BySpring, ByGauge}

// Trial is the last passes of a visit, ready to be cut again and again.
type Trial struct {
	Start     float64    // radius before the first of them, mm
	Passes    []Pass     // from the one before the semi-finish on
	Limits    [2]float64 // diameters, mm
	Form      float64    // by how much a two-point diameter stands above and below the size, mm
	Bar, Root float64    // compliance of the bar alone, and of spindle and socket, mm/N
	Grows     float64    // diameter of the bore over K of the work, mm/K
	BarGrows  float64    // setting on diameter over K of the bar
	Carried   bool       // set by increment: what is wrong with one setting is wrong with the next as well
	ByFeed    float64    // Carried: by how much Sprang grows for a feed force larger by the whole of it
	Sprang    float64    // Carried: spring on diameter of the cut whose size says where the cutter stands; 0: no such cut
	Step      float64    // least by which a setting can be shifted, on diameter, mm; 0: any
	Sigma     Sigma
	gain      float64 // share of what the gauge finds by which the next setting is shifted
	expected  float64 // what the gauge finds where nothing is off, mm on diameter
}

// Sigma is one standard deviation of what is not known.
type Sigma struct {
	Force  float64 // of the force constants, as a fraction
	Feed   float64 // of the feed force by itself, as a fraction
	With   float64 // correlation of Feed with Force
	Root   float64 // of the logarithm of Trial.Root
	Set    float64 // of a setting or, Carried, of a move from one to the next, mm on diameter
	Anew   float64 // Carried: of a setting over the bar, mm on diameter
	Stood  float64 // Carried: of where the cutter stands before the first pass, mm on diameter, besides Trial.Sprang
	Gauge  float64 // of the gauge, mm on diameter
	Kelvin float64 // of the temperature of work and bar, K
	Spring float64 // of the spring from cut to cut, as a fraction
}

// Pass is one pass of a trial, as planned.
type Pass struct {
	Setting         float64 // diameter, mm
	Depth, Force, K float64 // radial depth, mm; its radial force, N, and ∂F/∂depth: force is straight about the plan
	Out             *Cut    // what the way out cuts at the same setting; nil: nothing
	Wear            float64 // radial force more, N, by one σ more wear of the edge
	Feed            float64 // and by a feed force larger by the whole of it
	Anew            bool    // Carried: the edge was honed, and the cutter set anew
	Measured        bool    // the gauge corrects the next setting
	Rounded         float64 // Measured: what the size that the gauge is held against is rounded by, mm on diameter
	Again           bool    // same setting as the pass before
}

// Cut is the way out of a pass that is fed out: straight about the plan like the way in.
type Cut struct {
	Depth, Force, K float64
	Wear, Feed      float64
	Least           float64 // below this depth, mm, the edge cuts or rubs, as likely either
}
