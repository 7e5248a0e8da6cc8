package place

import "borewright/process/qty"

// clockWords says a clock position as a person at the spindle would: "3 o'clock",
// "4:30".
func clockWords(deg float64) string { return qty.Metric.Say(qty.KindClock.Of(deg)) }

// clockLabel is a clock position told so that no other is taken for it: in words
// where they are exact, else to the minute of the clock (half a degree) with its
// degrees.
func clockLabel(deg float64) string { return qty.Metric.Say(qty.KindExactClock.Of(deg)) }

// ClockLabel is the clock position of the spot for a row of a form: told apart
// from every other.
func (s Spot) ClockLabel() string { return clockLabel(s.Clock) }

// ClockWords says the clock position of the spot in words: "3 o'clock".
func (s Spot) ClockWords() string { return clockWords(s.Clock) }
