package place

import (
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/setup"
	"borewright/process/source"
)

// Bush is the bush in a station of the work that the end of the bar runs in during a visit.
type Bush struct {
	Station string
	Bored   bool            // it is fitted in a bore that this job bores first
	Seat    [2]qty.Diameter // of the station that it is fitted in, least and most
	Over    qty.Diameter    // what of the bar runs in it
	Play    qty.Length      // on diameter
	Follows float64         // how far the cutter goes aside with a bush that stands aside by 1, where that is the most
	Off     qty.Length      // how far the bush may stand off the line of bores, ±
	Aside   qty.Length      // how far the cutter may stand aside by it and by its play, ±
}

// Describe says what documents have of it.
func (b *Bush) Describe(d *field.Desc) {
	d.Text(&b.Station, "station").Weighs(process.SpoilsReach, "bush in")
	d.Flag(&b.Bored, "bored_in_this_job").Weighs(process.SpoilsSetting, "bush in a bore of this job")
	d.Diameter(&b.Seat[0], "seat_least_mm").Decimals(5).Weighs(process.SpoilsSetting, "seat of the bush, least")
	d.Diameter(&b.Seat[1], "seat_most_mm").Decimals(5).Weighs(process.SpoilsSetting, "seat of the bush, most")
	d.Diameter(&b.Over, "bar_mm").Decimals(5).Weighs(process.SpoilsReach, "bar in the bush")
	d.Length(&b.Play, "play_mm").Decimals(5).Weighs(process.SpoilsSize, "play in the bush")
	d.Number(&b.Follows, "follows", "").Decimals(3)
	d.Length(&b.Off, "off_line_within_mm").Decimals(5)
	d.Length(&b.Aside, "aside_within_mm").Decimals(5).Weighs(process.SpoilsSize, "cutter aside by the bush within ±")
}

// NewBush is the bush of a visit to a bore, by its index; nil where the bar runs in none. The cutter may
// stand aside by
//
//	f·√(p² + u² + (r/2)² + a² + (c/2)²)
//
// f the share of it that the cutter follows, the most along the bore; p how far the bush may stand
// off the line, c its running clearance. Where its seat is bored in this job and the job does not
// say how truly it came out: u what the line-up leaves unknown there, for the work may be lined up
// anew between, r how truly the spindle turns, radial peak to valley, and a how far its own cutter
// may have stood aside, where it was bored by a bar in a bush, of those before, by station.
//
// unsure is u by station, known where the work was lined up by sweeps or turned half round.
func NewBush(s *setup.Setup, unsure func(station string) qty.Length, bore int, before map[string]*Bush) *Bush {
	job := s.Job
	g, st := job.Guide(), job.Stations[job.Bores[bore].Station]
	if g == nil || !s.Held {
		return nil
	}
	_, measured := job.Places[source.El("bore", bore)+".guide.place_error"]
	o := job.Bar.Outboard
	b := &Bush{Station: g.Name, Seat: [2]qty.Diameter{g.Diameter, g.Diameter}, Play: o.Clearance}
	if at := job.Bar.StepAt(job.Bar.CutterAt + g.From - st.From); at >= 0 {
		b.Over = job.Bar.Steps[at].Diameter
	}
	off := o.PlaceError.MM()
	for _, w := range job.Bores {
		if w.Station < 0 {
			continue // behind a closed end
		}
		if name := job.Stations[w.Station].Name; name == g.Name {
			b.Bored, b.Seat = true, [2]qty.Diameter{w.Finish.Low, w.Finish.High}
			if measured {
				continue
			}
			off = math.Hypot(off, job.Runout().MM()/2)
			off = math.Hypot(off, unsure(name).MM())
			if last := before[name]; last != nil {
				off = math.Hypot(off, last.Aside.MM())
			}
		}
	}
	for _, tip := range []qty.Length{st.From, st.To} {
		b.Follows = math.Max(b.Follows, math.Abs(s.Follows(tip)))
	}
	b.Off = job.Units.Up(qty.FromMM(off))
	b.Aside = job.Units.Up(qty.FromMM(b.Follows * math.Hypot(off, o.Clearance.MM()/2)))
	return b
}

// Fact is what is to be minded of it.
func (b *Bush) Fact() fact.Fact {
	kind := InBush
	if b.Bored {
		kind = InBoredBush
	}
	return fact.New(kind, fact.Name(b.Station), fact.Value(qty.KindShare, b.Follows), fact.Figure(qty.Fine(b.Off)), fact.Figure(qty.Fine(b.Aside)))
}
