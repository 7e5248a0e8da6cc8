// Package candidate is what a job leaves open of bar and cutter, and what it could be cut with, as
// the choice leaves it (process/choice) and as papers tell it. It chooses nothing.
package candidate

import (
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
)

// Work is what a cutter is good for.
type Work int

// The kinds of work.
const (
	AnyWork Work = iota
	RoughWork
	FinishWork
)

func (w Work) String() string { return [...]string{"both", "rough", "finish"}[w] }

// Choose is for what bar and cutter are chosen.
type Choose int

// What they are chosen for.
const (
	// OnePair: one bar with one cutter for all cuts.
	OnePair Choose = iota
	// ByBore: also others for a bore, or for its roughing, where it pays to change.
	ByBore
)

func (c Choose) String() string { return [...]string{"one_pair", "by_bore"}[c] }

// Open is what of the tools a job leaves to be chosen from the shop's lists.
type Open struct{ Bar, Cutter bool }

// Any is whether anything is left open.
func (o Open) Any() bool { return o.Bar || o.Cutter }

// Candidate is a bar with a cutter that a job could be cut with, and what it would give.
type Candidate struct {
	Bar, Cutter string
	Station     string     // of the bore that it would cut alone; "": it would cut all
	Rough       bool       // and only rough it
	Chosen      bool       // for that
	Stickout    qty.Length // nose to tip
	Give        float64    // of the bar at the tip, clamped in the spindle, µm/N; 0: not worked out
	Planned     bool       // in full; else only sketched
	Feasible    bool
	Minutes     float64    // all visits, stops included; where it was only sketched, about
	Sings       float64    // minutes that what may sing is reckoned to cost besides
	Misses      float64    // and what may miss its size
	Chance      float64    // least of all visits to land on size
	Margin      [2]float64 // edge of chatter over the cut of the noisiest pass, at the least and the most of what damps it
	Short       float64    // how far it is past the limit that stops it, times; 0: not known
	Why         fact.Fact  // what stops it; nothing where nothing does
}

// Stickout is one way for the bar of a job to stand out, and what it would give.
type Stickout struct {
	Bar      string     // that a bore names; "": the job's own
	Quill    qty.Length // drawn out and clamped
	Out      qty.Length // nose to the free end, the quill in it
	ToTip    qty.Length // nose to tip
	Alone    float64    // what the bar gives at the tip, clamped at the nose, µm/N
	Give     float64    // with the spindle, where it gives the most in a cut, µm/N; 0: not planned
	Spring   qty.Length // of the finish, by its radial force as chosen, on diameter; 0: none is planned
	Feasible bool
	Minutes  float64   // all visits, stops included
	Why      fact.Fact // what stops it; nothing where nothing does
}

// Describe says what documents have of a stickout.
func (s *Stickout) Describe(d *field.Desc) {
	d.Name(&s.Bar, "bar").OmitEmpty()
	d.Length(&s.Quill, "quill_out_mm").Decimals(5)
	d.Length(&s.Out, "stickout_mm").Decimals(5)
	d.Length(&s.ToTip, "nose_to_tip_mm").Decimals(5)
	d.Figure(&s.Alone, qty.KindNumber, "bar_alone_um_per_n").Decimals(5)
	d.Figure(&s.Give, qty.KindNumber, "give_um_per_n").Decimals(5).OmitEmpty()
	d.Length(&s.Spring, "spring_of_finish_mm").Decimals(5).OmitEmpty()
	d.Flag(&s.Feasible, "feasible")
	d.Figure(&s.Minutes, qty.KindMinutes, "minutes").Decimals(2).OmitEmpty()
	d.Fact(&s.Why, "why").OmitEmpty()
}

// Reckoned is what candidates are compared by, in minutes.
func (c *Candidate) Reckoned() float64 { return c.Minutes + c.Sings + c.Misses }

// Describe says what documents have of a candidate.
func (c *Candidate) Describe(d *field.Desc) {
	d.Name(&c.Bar, "bar").OmitEmpty()
	d.Name(&c.Cutter, "cutter").OmitEmpty()
	d.Name(&c.Station, "station").OmitEmpty()
	d.Flag(&c.Rough, "roughs").OmitEmpty()
	d.Flag(&c.Chosen, "chosen").OmitEmpty()
	d.Length(&c.Stickout, "nose_to_tip_mm").Decimals(5)
	d.Figure(&c.Give, qty.KindNumber, "give_um_per_n").Decimals(5).OmitEmpty()
	d.Flag(&c.Planned, "planned")
	d.Flag(&c.Feasible, "feasible")
	d.Figure(&c.Minutes, qty.KindMinutes, "minutes").Decimals(2).OmitEmpty()
	d.Figure(&c.Sings, qty.KindMinutes, "singing_costs_minutes").Decimals(2).OmitEmpty()
	d.Figure(&c.Misses, qty.KindMinutes, "missing_costs_minutes").Decimals(2).OmitEmpty()
	d.Figure(&c.Chance, qty.KindShare, "chance").Decimals(4).OmitEmpty()
	d.Figure(&c.Margin[0], qty.KindRatio, "margin_least").AtMost(1e6).Decimals(3).OmitEmpty()
	d.Figure(&c.Margin[1], qty.KindRatio, "margin_most").AtMost(1e6).Decimals(3).OmitEmpty()
	d.Fact(&c.Why, "why").OmitEmpty()
	d.Worked("for the order of those that do not do", &c.Short)
}
