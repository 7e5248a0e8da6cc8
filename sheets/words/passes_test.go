package words

import (
	"strings"
	"testing"

	"borewright/process/fact"
	"borewright/process/landing"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
)

// A limit reads in the units of the reader: 1 hp = 550 ft·lbf/s = 745.7 W, 1 ft·lbf =
// 1.3558 N·m, 1 ksi = 6.8948 MPa (NIST SP 811, from memory).
func TestLimitsInTheReadersUnits(t *testing.T) {
	of := func(k qty.Kind, v float64) fact.Arg { return fact.Figure(k.Of(v)) }
	torque := qty.Inches.Name(qty.KindTorque)
	for _, row := range []struct {
		f            fact.Fact
		metric, inch string
	}{
		{fact.New(schedule.LimitPower, of(qty.KindSpindlePower, 900), of(qty.KindSpindlePower, 800)),
			"power: 0.9 kW, the spindle has 0.8", "power: 1.2 hp, the spindle has 1.1"},
		{fact.New(schedule.LimitTorque, of(qty.KindTorque, 900), of(qty.KindTorque, 800)),
			"torque: 900 N·m, the spindle has 800", "torque: 664 " + torque + ", the spindle has 590"},
		{fact.New(schedule.LimitStress, of(qty.KindStress, 90), of(qty.KindStress, 80)),
			"bar stress: 90 MPa, 80 allowed", "bar stress: 13.1 ksi, 11.6 allowed"},
		{fact.New(schedule.AtNextFeed, fact.New(schedule.LimitSpring, fine(0.0254), fine(0.0127)), fact.Figure(qty.FromMM(0.254))),
			"spring: 0.0254 mm on diameter, 0.0127 mm allowed, at the next feed up (0.254 a rev)",
			"spring: 0.00100 in on diameter, 0.00050 in allowed, at the next feed up (0.0100 a rev)"},
	} {
		if got := In(qty.Metric).Say(row.f); got != row.metric {
			t.Errorf("%q, want %q", got, row.metric)
		}
		if got := In(qty.Inches).Say(row.f); got != row.inch {
			t.Errorf("%q, want %q", got, row.inch)
		}
	}
}

func fine(mm float64) fact.Arg { return fact.Figure(qty.Fine(qty.FromMM(mm))) }

// A margin far from the edge is not told to the hundredth; one pass is a pass.
func TestChatterInWords(t *testing.T) {
	margins := func(a, b float64) fact.Fact {
		return fact.New(setup.Margins, fact.Figure(qty.KindMargin.Of(a)), fact.Figure(qty.KindMargin.Of(b)))
	}
	if got := In(qty.Metric).Say(margins(0.9951, 1)); got != "quiet to a chip 0.99 times as wide as this one with a new edge, 1 times with a worn one" { // below 1 it sings
		t.Error(got)
	}
	if got := In(qty.Metric).Say(margins(0.456, 120)); got != "quiet to a chip 0.46 times as wide as this one with a new edge, over 99 times with a worn one" {
		t.Error(got)
	}
	caution := func(runs ...fact.Fact) string {
		return In(qty.Metric).Sentence(fact.New(schedule.Chatters, fact.List(runs...), margins(0.1, 0.3), fact.Figure(qty.KindFrequency.Of(95)), fact.New(schedule.NoCure)))
	}
	for want, got := range map[string]string{
		"Pass 3 will sing by the figures near 95 Hz: quiet to a chip 0.1 times as wide as this one with a new edge, 0.3 times with a worn one. No slower speed": caution(fact.New(schedule.OnePass, fact.Count(3))),
		"Passes 1, 3 to 5 will sing": caution(fact.New(schedule.OnePass, fact.Count(1)), fact.New(schedule.PassesTo, fact.Count(3), fact.Count(5))),
	} {
		if !strings.HasPrefix(got, want) || !strings.HasSuffix(got, "holds no size.") {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What a chance is off by is said where it moves the decimal that is printed by more than one.
func TestChanceInWords(t *testing.T) {
	of := func(p float64) fact.Arg { return fact.Figure(qty.KindChance.Of(p)) }
	quiet := fact.New(setup.Quiet)
	for want, f := range map[string]fact.Fact{
		"97.0 ± 0.2 in 100": fact.New(landing.Unmeasured, of(0.97), quiet, of(0.0016)),
		"97.0 in 100":       fact.New(landing.Unmeasured, of(0.97), quiet, of(0.0014)),
		"over 99.9 in 100, measured before the last cut; 80.1 ± 0.2 unmeasured": fact.New(landing.Measured, of(0.9997), of(0.801), quiet, of(0.0001), of(0.0022)),
	} {
		if got := In(qty.Metric).Say(f); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
