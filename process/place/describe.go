package place

import (
	"math"

	"borewright/process"
	"borewright/process/clearance"
	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/geom"
	"borewright/process/qty"
)

// What documents and a comparison have of where things stand. Much of it is in
// types of geom and clearance, in mm and mrad, which know no documents: all of place is described
// here, beside each other. Lengths in mm, angles in mrad; every ± covers 95 %.

// Describe is the line-up. Of it the advice is compared; the rest follows from the
// sweeps, which are compared by themselves.
func (l *LineUp) Describe(d *field.Desc) {
	d.Text(&l.Station, "station")
	d.Group("offset_mm", place(&l.Offset))
	d.Length(&l.Unsure, "offset_uncertainty_mm").Decimals(5)
	d.Group("tilt_mrad", slope(&l.Tilt))
	d.Figure(&l.TiltIs, qty.KindSlope, "tilt_uncertainty_mrad").Decimals(5)
	d.Length(&l.Droop, "bar_droop_mm").Decimals(5)
	d.Fact(&l.Assumption, "assumption").OmitEmpty()
	d.Fact(&l.Confirm, "confirm").Sentence().OmitEmpty()
	field.ListBy(d, &l.At, "at_station", func(d *field.Desc, a *geom.AtStation) {
		d.Text(&a.Station, "station")
		mm(d, &a.Depth, "depth_mm")
		mm(d, &a.X, "x_mm")
		mm(d, &a.Y, "y_mm")
		mm(d, &a.Uncertainty, "uncertainty_mm")
	})
	field.List(d, &l.Swept, "swept", 0, field.Any)
	d.Group("advice", func(d *field.Desc) { // in the order to do it
		field.Maybe(d, &l.Shim, "shim").OmitEmpty()
		field.Maybe(d, &l.Turn, "turn").OmitEmpty()
		d.Flag(&l.SweepAgain, "sweep_again")
		d.Is("turn_in_words", func() any { return l.Turn.Fact() }).NoJSON().Weighs(process.SpoilsSize, "turn of the table")
		d.Is("shim_in_words", func() any { return l.Shim.Fact() }).NoJSON().Weighs(process.SpoilsSize, "shim")
		field.Rows(d, "move", func() []*Move { return []*Move{&l.Move[0], &l.Move[1]} }, nil).Weighs(process.SpoilsSize, "move")
	})
	d.Facts(&l.Notes, "notes").OmitEmpty()
	d.Worked("gathered in the advice", &l.Move)
	d.Worked("for the sheet: documents say where every station stands, and the notes hold the doubts", &l.Depth, &l.Made, &l.Confirmed, &l.Doubts)
	d.Worked("what it was worked out of", &l.rest, &l.line, &l.geom)
}

// mm is a length that geom holds in mm.
func mm(d *field.Desc, p *float64, key string) *field.Field { return d.MM(p, key).Decimals(5) }

func place(v *geom.Vec) func(d *field.Desc) {
	return func(d *field.Desc) { mm(d, &v.X, "x"); mm(d, &v.Y, "y") }
}

func slope(v *geom.Vec) func(d *field.Desc) {
	return func(d *field.Desc) {
		d.Figure(&v.X, qty.KindSlope, "x").Decimals(5)
		d.Figure(&v.Y, qty.KindSlope, "y").Decimals(5)
	}
}

// says is a word of geom or clearance: it has its fact.
func says(d *field.Desc, key string, word interface{ Fact() fact.Fact }) *field.Field {
	return d.Is(key, func() any { return word.Fact() })
}

// Describe is a sweep: the offset of a bore, the tilt of a face.
func (s *Swept) Describe(d *field.Desc) {
	d.Text(&s.Station, "station")
	mm(d, &s.Depth, "depth_mm")
	d.Flag(&s.Face, "face")
	d.Group("offset_mm", place(&s.Offset)).When(func() bool { return !s.Face })
	d.Group("tilt_mrad", slope(&s.Tilt)).When(func() bool { return s.Face })
	mm(d, &s.TIR, "tir_mm")
	mm(d, &s.Spread, "read_mm")
	mm(d, &s.Form, "form_mm")
	mm(d, &s.OffLine, "off_line_mm")
	d.Numbers(&s.As.At, "clock_deg", "°", 0, field.Any)
	d.Lengths(&s.As.Dial, "dial_mm", 0, field.Any).Decimals(5)
	d.Either(&s.As.Further, "larger", "nearer", "further")
	d.Lengths(&s.Expected, "dial_after_mm", 0, field.Any).Decimals(5).OmitEmpty()
	d.Worked("of the job, and in the notes", &s.As, &s.Doubtful, &s.Unswept, &s.AsOffset)
}

// Describe is a move; by_mm is how much the axis reading goes up (ISO 841).
func (m *Move) Describe(d *field.Desc) {
	d.Text(&m.Axis, "axis").Names()
	mm(d, &m.By, "by_mm").Need().Weighs(process.SpoilsSize, field.Itself)
	says(d, "spindle", m.Spindle).OmitEmpty()
	says(d, "work", m.Work).OmitEmpty()
	d.Figure(&m.Graduations, qty.KindNumber, "graduations").Decimals(2)
	d.Worked("in words", &m.Spindle, &m.Work)
	d.Length(&m.Left, "left_alone_mm").Decimals(5).OmitEmpty()
	d.Length(&m.Unsure, "known_to_mm").Decimals(5).OmitEmpty()
	d.Worked("for the sheet", &m.AsItStands, &m.Within)
}

// Describe is a turn.
func (t *Turn) Describe(d *field.Desc) {
	d.Is("mrad", func() any { return math.Abs(t.Mrad) }).Decimals(5)
	says(d, "way", t.Sense)
	says(d, "far_end", t.FarEnd)
	mm(d, &t.AtStop, "at_stop_mm")
	d.Length(&t.Stop, "stop_mm").Decimals(5)
	d.Worked("in words, and without sign", &t.Mrad, &t.Sense, &t.FarEnd)
	d.Worked("for the sheet", &t.Sure, &t.PerSpan, &t.Span)
}

// Describe is a shim; thick_mm over over_mm between the packings, 0 where they are
// not stated.
func (s *Shim) Describe(d *field.Desc) {
	says(d, "under", s.Under)
	mm(d, &s.Thick, "thick_mm")
	d.Length(&s.Over, "over_mm").Decimals(5)
	d.Is("mrad", func() any { return s.Slope() }).Decimals(5)
	d.Worked("in words", &s.Under)
	d.Worked("for the sheet", &s.Sure, &s.PerSpan, &s.Span)
}

// Describe is a worn bore.
func (c *CleanUp) Describe(d *field.Desc) {
	d.Group("cleanup_diameter_mm", func(d *field.Desc) {
		d.Diameter(&c.TrueAxis, "true_axis").Decimals(5).Weighs(process.SpoilsSize, "cleans up about the true axis at")
		d.Diameter(&c.OwnAxis, "own_axis").Decimals(5).OmitEmpty().Weighs(process.SpoilsSize, "cleans up about its own axis at").ZeroIsNone()
	})
	d.Group("own_axis_at_mm", place(&c.Own)).When(func() bool { return c.OwnAxis > 0 })
	d.Length(&c.Unseen, "unseen_mm").Decimals(5)
	d.Diameter(&c.Most, "clean_in_19_of_20_mm").Decimals(5).OmitEmpty()
	d.Length(&c.Near, "beyond_readings_near_mm").Decimals(5)
	d.Length(&c.Far, "beyond_readings_far_mm").Decimals(5)
	d.Count(&c.Lobes, "lobes_not_shown").OmitEmpty()
	d.Facts(&c.Ask, "read_besides")
	d.Group("last_shadow", spot(&c.Last))
	d.Group("first_cut", spot(&c.First))
	field.List(d, &c.Depths, "depths", 0, field.Any)
	field.List(d, &c.Shadows, "shadow", 0, field.Any)
	field.ListBy(d, &c.Doubtful, "doubtful", func(d *field.Desc, r *geom.Doubt) {
		spot(&r.Spot)(d)
		mm(d, &r.Expected, "expected_mm")
	})
	d.Diameter(&c.Next, "next_sleeve_outside_mm").Decimals(5).OmitEmpty()
	d.Fact(&c.Why, "words").Sentence()
	d.Worked("follows from what is written, for the sheet", &c.Price, &c.OwnClock, &c.OwnOff, &c.Axis, &c.Mixed, &c.Tilt, &c.Ends, &c.Taper)
	d.Worked("what it was worked out of", &c.worn, &c.beyond, &c.offset, &c.across)
}

// spot is a place in the bore, radius about the true axis.
func spot(s *geom.Spot) func(d *field.Desc) {
	return func(d *field.Desc) {
		mm(d, &s.Depth, "depth_mm")
		d.Figure(&s.Clock, qty.KindExactClock, "clock_deg").Decimals(3)
		mm(d, &s.Radius, "radius_mm")
	}
}

// Describe is the readings at one depth.
func (a *Circles) Describe(d *field.Desc) {
	d.Length(&a.Depth, "depth_mm").Decimals(5)
	d.Count(&a.Readings, "readings")
	d.Group("centre_mm", place(&a.Centre)).When(func() bool { return a.Centred })
	d.Diameter(&a.LeastSquares, "least_squares_diameter_mm").Decimals(5).OmitEmpty()
	d.Diameter(&a.Circumscribed, "minimum_circumscribed_diameter_mm").Decimals(5).OmitEmpty()
	d.Diameter(&a.Inscribed, "maximum_inscribed_diameter_mm").Decimals(5).OmitEmpty()
	d.Length(&a.Zone, "minimum_zone_mm").Decimals(5).When(func() bool { return a.Inscribed > 0 })
	d.Length(&a.OutOfRound, "ront_mm").Decimals(5).When(func() bool { return a.LeastSquares > 0 })
	d.Worked("there is a centre, or none", &a.Centred)
}

// Describe is a shadow.
func (s *Shadow) Describe(d *field.Desc) {
	d.Count(&s.Pass, "pass")
	d.Diameter(&s.Size, "diameter_mm").Decimals(5)
	d.Length(&s.Deepest, "deepest_mm").Decimals(5)
	d.Group("at", spot(&s.At))
	d.Count(&s.Spots, "readings")
	d.Flag(&s.Band, "in_band").OmitEmpty()
	d.Flag(&s.UpTo, "up_to").OmitEmpty()
	d.Figure(&s.Clean, qty.KindShare, "clean_chance").Decimals(3).When(func() bool { return s.Clean > 0 })
}

// Describe is the room of a bar.
func (r *Reach) Describe(d *field.Desc) {
	says(d, "verdict", r.Verdict).Weighs(process.SpoilsReach, "reach of the bar")
	d.Group("tightest", least(r.Least))
	field.ListBy(d, &r.Gaps, "gaps", func(d *field.Desc, g *clearance.Gap) { least(g)(d) })
	field.ListBy(d, &r.Entries, "cutter_goes_in", func(d *field.Desc, e *clearance.Entry) {
		d.Count(&e.N, "pass")
		mm(d, &e.Setting, "cutter_setting_mm")
		says(d, "way", e.Way())
		d.Text(&e.Name, "does_not_pass").OmitEmpty()
		field.ListBy(d, &e.Shifts, "shifts", func(d *field.Desc, s *clearance.Shift) {
			mm(d, &s.From, "tip_from_mm")
			mm(d, &s.To, "tip_to_mm")
			mm(d, &s.Least, "least_mm")
			mm(d, &s.Most, "most_mm")
		}).OmitEmpty()
		d.Is("open_from_to_mm", func() any { return []any{nm(e.OpenFrom), nm(e.OpenFrom + e.Open)} }).Decimals(5).When(func() bool { return e.Inside })
	})
	d.Length(&r.QuillOut, "quill_out_mm").Decimals(5).OmitEmpty()
	d.Length(&r.QuillShort, "quill_short_mm").Decimals(5).OmitEmpty()
	d.Length(&r.NoseBack, "nose_further_off_mm").Decimals(5).OmitEmpty()
	d.Length(&r.Travel, "travel_needed_mm").Decimals(5).OmitEmpty()
	d.Length(&r.TravelHas, "travel_mm").Decimals(5).OmitEmpty()
	d.Text(&r.TravelAxis, "travel_axis").OmitEmpty()
	d.Diameter(&r.Largest, "largest_bar_diameter_mm").Decimals(5)
	d.Flag(&r.CutterStops, "no_bar_for_the_cutter").OmitEmpty()
	d.Length(&r.Shortest, "shortest_stickout_mm").Decimals(5)
	field.List(d, &r.Steps, "stiffest_bar", 0, field.Any).Only("diameter", "length")
	d.Facts(&r.Why, "why")
	d.Worked("in words", &r.Verdict, &r.Least)
	d.Worked("in the visit", &r.offAxis, &r.notOff)
	d.Worked("what it was worked out of", &r.way)
}

// nm is a length of geom's by whole nanometres, as every length.
func nm(mm float64) float64 { return qty.FromMM(mm).MM() }

// least is the room between one part of what turns and one station; below 0 they
// would overlap. Nil: nothing is near.
func least(g *clearance.Gap) func(d *field.Desc) {
	word := func(w interface{ Fact() fact.Fact }) fact.Fact { return w.Fact() }
	if g == nil {
		g, word = &clearance.Gap{}, func(interface{ Fact() fact.Fact }) fact.Fact { return fact.Fact{} }
	}
	return func(d *field.Desc) {
		d.Is("verdict", func() any { return word(g.Verdict) })
		d.Is("part", func() any { return word(g.Part) })
		mm(d, &g.Diameter, "diameter_mm")
		d.Text(&g.Name, "station")
		mm(d, &g.Clearance, "room_mm")
		mm(d, &g.Need.Wanted, "wanted_mm")
		mm(d, &g.Need.Least, "needed_mm")
		d.Flag(&g.Axial, "axial")
		mm(d, &g.Tip, "tip_depth_mm")
		d.Count(&g.N, "pass")
		d.Is("phase", func() any { return word(g.Phase) })
	}
}

// Describe is one bar of the shop's list.
func (c *Choice) Describe(d *field.Desc) {
	d.Text(&c.Name, "name")
	says(d, "verdict", c.Verdict)
	d.Flag(&c.Sets, "cutter_sets_to_every_size")
	d.Length(&c.Stickout, "stickout_mm").Decimals(5)
	d.Figure(&c.Compliance, qty.KindCompliance, "compliance_um_per_n").Decimals(4)
	d.Group("tightest", least(c.Least))
	d.Fact(&c.Why, "why").OmitEmpty()
	d.Worked("in words", &c.Verdict, &c.Least)
}
