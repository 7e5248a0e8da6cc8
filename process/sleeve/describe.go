package sleeve

import (
	"borewright/process"
	"borewright/process/feature"
	"borewright/process/field"
	"borewright/process/fit"
	"borewright/process/fit/iso286"
	"borewright/process/qty"
)

// What documents and a comparison have of a sleeve. Much of it is in fit's types,
// which know no documents: all is described here, beside each other.

// Describe says what documents and a comparison have of a sleeve.
func (s *Sleeve) Describe(d *field.Desc) {
	const proof, size, holds, words = process.SpoilsProof, process.SpoilsSize, process.SpoilsFit, process.SpoilsWords
	taken := func(inPlace bool) func() field.Rank { // the way that neither plan takes spoils nothing
		return func() field.Rank {
			if s.InPlace == inPlace {
				return size
			}
			return words
		}
	}
	stressed := func() bool { return len(s.Stresses) > 0 }
	known := func() bool { return s.Taken().Known() }
	d.Is("material", func() any { return s.Material.Called() }).Weighs(holds, "made of")
	field.Word(d, &s.Fastening, "hold", process.Press, process.Bond).Weighs(holds, "held by, as planned")
	d.Text(&s.Fit, "fit").Weighs(holds, "fit planned").ZeroIsNone()
	d.Either(&s.InPlace, "finish", "before", "in place")
	d.Flag(&s.InPlace, "in_place").NoJSON().Weighs(size, "bored in place")
	field.Word(d, &s.Asked, "asked", process.Decide, process.BoreInPlace, process.FinishBefore).NoJSON().Weighs(size, "finish asked for")
	d.Fact(&s.Why, "why").Sentence().Weighs(words, "why so")
	d.Fact(&s.Other, "other").Weighs(words, "what the other way needs")
	d.Diameter(&s.Outside, "outside_mm").Weighs(holds, "outside, nominal")
	sizes(d, &s.Housing, "housing_mm").WeighsAll(holds, "housing")
	sizes(d, &s.Turned, "outside_limits_mm").WeighsAll(holds, "outside turned to")
	d.DiameterPair(&s.Found, "found").NoJSON().ZeroIsNone().WeighEnds(holds, "housing measured, low", "housing measured, high")
	d.DiameterPair(&s.TurnedTo, "turned_to").NoJSON().ZeroIsNone().WeighEnds(holds, "outside for this housing, low", "outside for this housing, high")
	microns(d, &s.Interference, "interference_um").WeighsAll(holds, "interference")
	d.Length(&s.Match, "match_um").Microns().Weighs(holds, "matched within").Fine()
	lengths(d, &s.Length, "length_mm", 6).WeighsAll(holds, "length made")
	d.Length(&s.Wall, "wall_mm").Weighs(holds, "wall finished")
	d.Is("weight_kg", func() any { return s.Weight() }).Decimals(3) // as turned
	lengths(d, &s.Hub, "housing_metal_mm", 3).WeighsAll(holds, "metal around the housing")
	d.Flag(&s.Assumed, "housing_metal_assumed").Weighs(holds, "metal around the housing assumed")
	d.Group("finished_before", option(&s.Before)).Weighs(size, "finished before").RankBy(taken(false))
	d.Group("bored_in_place", option(&s.Here)).Weighs(size, "bored in place").RankBy(taken(true))
	field.Maybe(d, &s.Final, "final_clearance").OmitEmpty().With(func(d *field.Desc) {
		d.Find("expected_um").When(known)
		d.Find("at_work_um").When(known)
	})
	microns(d, &s.Closure, "bore_closure_um").WeighsAll(size, "bore closes by")
	microns(d, &s.Effective, "effective_um").NoJSON().WeighsAll(holds, "interference, roughness flattened")
	band(d, &s.Pressure, "pressure_mpa", qty.KindStress, 2).When(stressed).WeighsAll(holds, "pressure")
	ends(d, &s.Service[0], &s.Service[1], "service_c", qty.KindTemperature, 1).WeighsAll(holds, "temperature at work, as planned")
	band(d, &s.AtWork, "service_pressure_mpa", qty.KindStress, 2).When(stressed).WeighsAll(holds, "pressure at work")
	field.ListBy(d, &s.Stresses, "stresses", stress).OmitEmpty().Weighs(holds, "stress")
	d.Number(&s.Uneven, "uneven_wall_tension", "").Decimals(2).Weighs(holds, "tension of the housing over an even wall's")
	field.ListBy(d, &s.PressForce, "press_force", stroke).OmitEmpty().Weighs(holds, "press force, place")
	field.ListBy(d, &s.Joints, "joints", joint).Weighs(holds, "held by")
	field.ListBy(d, &s.Assembly, "assembly", assembly).Weighs(holds, "put in by")
	d.Group("chuck", chuck(&s.Chuck))
	field.List(d, &s.Details, "details", 0, field.Any).NoJSON()
	field.ListBy(d, &s.Raised, "raised", raised).OmitEmpty().Weighs(holds, "stress raised")
	stated := func() bool { return s.Made.LeadIn != nil }
	d.Number(&s.LeadIn.Angle, "lead_in_angle_deg", "°").When(stated).Decimals(2).Weighs(holds, "lead-in, angle").As(qty.KindAngle)
	d.Length(&s.LeadIn.Length, "lead_in_mm").When(stated).Weighs(holds, "lead-in, long")
	d.Facts(&s.Bonding, "bonding").NoJSON().Weighs(holds, "bonding")
	d.Facts(&s.Lathe, "lathe").NoJSON().Weighs(holds, "lathe work")
	field.ListBy(d, &s.Order, "order", func(d *field.Desc, o *fit.Step) {
		d.Fact(&o.Text, "text")
		d.Flag(&o.Hold, "hold")
	})
	d.Facts(&s.Cautions, "cautions").Sentence().Weighs(words, "caution of the sleeve")
	d.Facts(&s.Stops, "stops").Weighs(proof, "what is wrong with the sleeve")
	d.Worked("by name", &s.Material)
	d.Group("made", made(&s.Made)).When(func() bool { return !s.Made.None() })
}

// made is what a sleeve has besides its diameters, as documents have it. Depths are from
// the near end of the sleeve. A comparison has it of the job.
func made(m *feature.Made) func(d *field.Desc) {
	return func(d *field.Desc) {
		field.ListBy(d, &m.Holes, "holes", func(d *field.Desc, h *feature.Hole) {
			d.Numbers(&h.At, "at_deg", "°", 0, field.Any)
			d.Length(&h.Depth, "depth_mm")
			d.Diameter(&h.Diameter, "diameter_mm")
		}).OmitEmpty()
		field.ListBy(d, &m.Grooves, "grooves", func(d *field.Desc, g *feature.Groove) {
			d.Is("kind", func() any { return g.Kind.String() })
			d.Length(&g.From, "from_mm")
			d.Length(&g.Width, "width_mm")
			d.Length(&g.Depth, "depth_mm")
			d.Numbers(&g.At, "at_deg", "°", 0, field.Any).OmitEmpty()
			d.Length(&g.Length, "length_mm").OmitEmpty()
			d.Worked("by name", &g.Kind)
		}).OmitEmpty()
		d.Worked("in words, among the features, and compared in the job", &m.Stop, &m.Pin, &m.LeadIn, &m.Vent, &m.Mouth, &m.Recess)
	}
}

// raised is where a hole or a groove raises the stress.
func raised(d *field.Desc, r *Raised) {
	const holds = process.SpoilsFit
	d.Fact(&r.What, "what").Names().Weighs(holds, "what")
	d.Is("where", func() any { return r.Where.String() }).Weighs(holds, "where")
	d.Figure(&r.Plain, qty.KindStress, "plain_mpa").Decimals(1).Weighs(holds, "plain")
	d.Number(&r.Times, "times", "").Decimals(2).Weighs(holds, "raised by").As(qty.KindFactor)
	d.Figure(&r.Peak, qty.KindStress, "peak_mpa").Decimals(1).Weighs(holds, "peak")
	d.Figure(&r.Judged, qty.KindStress, "judged_mpa").Decimals(1).Weighs(holds, "judged")
	d.Figure(&r.Allowed, qty.KindStress, "allowed_mpa").Decimals(1).Weighs(holds, "allowed")
	d.Flag(&r.OK, "ok").Weighs(process.SpoilsProof, "borne")
	d.Worked("by name", &r.Where)
}

// sizes are a least and a most diameter.
func sizes(d *field.Desc, p *[2]qty.Diameter, key string) *field.Field {
	return d.Group(key, func(d *field.Desc) {
		d.Diameter(&p[0], "min").Weighs(0, "low")
		d.Diameter(&p[1], "max").Weighs(0, "high")
	})
}

// lengths are a span in mm, microns one in µm.
func lengths(d *field.Desc, p *iso286.Range, key string, decimals int) *field.Field {
	return d.Group(key, func(d *field.Desc) {
		d.Length(&p.Least, "min").Decimals(decimals).Weighs(0, "least").Fine()
		d.Length(&p.Most, "max").Decimals(decimals).Weighs(0, "most").Fine()
	})
}

func microns(d *field.Desc, p *iso286.Range, key string) *field.Field {
	return d.Group(key, func(d *field.Desc) {
		d.Length(&p.Least, "min").Microns().Decimals(1).Weighs(0, "least").Fine()
		d.Length(&p.Most, "max").Microns().Decimals(1).Weighs(0, "most").Fine()
	})
}

// band is a least and a most of a kind of quantity.
func band(d *field.Desc, b *fit.Band, key string, k qty.Kind, decimals int) *field.Field {
	return ends(d, &b.Least, &b.Most, key, k, decimals)
}

func ends(d *field.Desc, least, most *float64, key string, k qty.Kind, decimals int) *field.Field {
	return d.Group(key, func(d *field.Desc) {
		d.Figure(least, k, "min").Decimals(decimals).Weighs(process.SpoilsFit, "least")
		d.Figure(most, k, "max").Decimals(decimals).Weighs(process.SpoilsFit, "most")
	})
}

// fine is a length that fit holds in mm, in documents in µm.
func fine(d *field.Desc, p *float64, key string, decimals int) *field.Field {
	return d.MM(p, key).Microns().Decimals(decimals).Fine()
}

// option is one of the two orders of work.
func option(w *fit.Option) func(d *field.Desc) {
	return func(d *field.Desc) {
		sizes(d, &w.Inside, "inside_mm").WeighsAll(0, "inside as turned")
		microns(d, &w.Closure, "bore_closure_um").WeighsAll(0, "closes by")
		microns(d, &w.Stock, "stock_um").WeighsAll(0, "left for the mill")
		d.Group("size_mm", func(d *field.Desc) {
			d.Diameter(&w.Low, "min").Weighs(0, "low")
			d.Diameter(&w.High, "max").Weighs(0, "high")
		}).WeighsAll(0, "size when done")
		d.Length(&w.Uneven, "uneven_wall_um").Microns().Decimals(1).Weighs(0, "out of round by the uneven wall").Fine()
		d.Length(&w.Roundness, "roundness_um").Microns().Decimals(2).Weighs(0, "out of round").Fine()
		d.Length(&w.Across, "across_um").Microns().Decimals(2).Weighs(0, "across for what is out of round").Fine()
		d.Length(&w.OffCentre, "off_centre_um").Microns().Decimals(2).Weighs(0, "axis off").Fine()
		d.Rough(&w.Ra, "ra_um").Decimals(2).Weighs(0, "Ra").Step(process.RaStep)
		d.Number(&w.Chance, "chance", "").Decimals(4).Weighs(0, "chance of landing").NullUnless(func() bool { return w.Chance > 0 })
		d.Flag(&w.ByOdds, "lands_by_chance").Weighs(0, "lands by its chance")
		d.Flag(&w.Lands, "lands").Weighs(0, "lands")
		d.Facts(&w.Why, "why").Weighs(0, "does not fit")
		d.Worked("its table is named by it", &w.Order)
	}
}

// Describe says what documents and a comparison have of it.
func (f *FinalClearance) Describe(d *field.Desc) {
	const size = process.SpoilsSize
	sizes(d, &f.Part, "part_mm").WeighsAll(size, "part that goes in")
	microns(d, &f.Asked, "asked_um").WeighsAll(size, "clearance asked for")
	microns(d, &f.Expected, "expected_um").WeighsAll(size, "clearance expected")
	microns(d, &f.AtWork, "at_work_um").WeighsAll(process.SpoilsFit, "clearance at work")
	d.Is("part_material", func() any { return f.PartOf.Called() })
	d.Flag(&f.OK, "ok").Weighs(size, "final clearance as asked")
	d.Worked("by name, and compared in the job", &f.PartOf)
}

// stress is the highest stress at one place.
func stress(d *field.Desc, x *fit.Stress) {
	const holds = process.SpoilsFit
	d.Is("where", func() any { return x.Where.String() }).Names().Weighs(holds, "where")
	band(d, &x.Hoop, "hoop_mpa", qty.KindStress, 1).WeighsAll(holds, "hoop")
	d.Figure(&x.Equivalent, qty.KindStress, "equivalent_mpa").Decimals(1).Weighs(holds, "judged")
	d.Figure(&x.Allowed, qty.KindStress, "allowed_mpa").Decimals(1).Weighs(holds, "allowed")
	d.Is("criterion", func() any { return x.Criterion.Fact() }).Need().Weighs(holds, "by")
	d.Flag(&x.OK, "ok").Weighs(process.SpoilsProof, "borne")
	d.Worked("by name", &x.Where, &x.Criterion)
}

// stroke is the press force at one depth.
func stroke(d *field.Desc, p *fit.Stroke) {
	d.MM(&p.Depth, "depth_mm").Decimals(3).Weighs(process.SpoilsFit, field.Itself)
	band(d, &p.Force, "force_n", qty.KindForce, 0)
}

// joint is what one way of holding does.
func joint(d *field.Desc, j *fit.Joint) {
	const holds = process.SpoilsFit
	d.Is("way", func() any { return j.Method.String() }).Names().Weighs(holds, field.Itself)
	d.Flag(&j.Taken, "taken").Weighs(holds, "taken")
	band(d, &j.Torque, "torque_nm", qty.KindTorque, 1).WeighsAll(holds, "torque")
	band(d, &j.PushOut, "push_out_n", qty.KindForce, 0).WeighsAll(holds, "push-out")
	d.Group("bore_closure_um", func(d *field.Desc) {
		fine(d, &j.Closure.Least, "min", 1).Weighs(holds, "least")
		fine(d, &j.Closure.Most, "max", 1).Weighs(holds, "most")
	}).WeighsAll(holds, "bore closes by")
	d.Figure(&j.HubHoop, qty.KindStress, "housing_hoop_mpa").Decimals(1).Weighs(holds, "tension in the housing")
	fine(d, &j.OffCentre, "off_centre_um", 1).Weighs(holds, "axis off")
	d.Figure(&j.ServiceMost, qty.KindTemperature, "hottest_use_c").Weighs(holds, "hottest use")
	d.Number(&j.Reserve, "times_load", "").Decimals(2).Weighs(holds, "times the load")
	d.Flag(&j.Sound, "sound").Weighs(holds, "sound")
	field.ListBy(d, &j.Factors, "counted", func(d *field.Desc, f *fit.Factor) {
		d.Fact(&f.Why, "why").Weighs(holds, "counted for")
		d.Group("by", func(d *field.Desc) {
			d.Number(&f.By.Least, "min", "").Decimals(3).Weighs(holds, "least")
			d.Number(&f.By.Most, "max", "").Decimals(3).Weighs(holds, "most")
		})
	}).OmitEmpty().Weighs(holds, "counted")
	d.Fact(&j.Note, "note").Weighs(holds, "for")
	d.Facts(&j.Reasons, "reasons").Weighs(holds, "unsound because")
	d.Worked("by name", &j.Method)
}

// assembly is one way to put the sleeve in.
func assembly(d *field.Desc, a *fit.Assembly) {
	const holds, words = process.SpoilsFit, process.SpoilsWords
	d.Is("way", func() any { return a.Method.String() }).Names().Weighs(holds, field.Itself)
	d.Flag(&a.Possible, "possible").Weighs(holds, "possible")
	d.Figure(&a.HubTo, qty.KindTemperature, "housing_to_c").Decimals(1).Weighs(holds, "housing at")
	d.Figure(&a.SleeveTo, qty.KindTemperature, "sleeve_to_c").Decimals(1).Weighs(holds, "sleeve at")
	fine(d, &a.Clearance, "clearance_um", 1).Weighs(holds, "clearance")
	d.Figure(&a.Force, qty.KindForce, "force_n").Decimals(0).Weighs(holds, "force")
	d.Figure(&a.InAir, qty.KindSeconds, "in_air_s").Decimals(0).Weighs(words, "time in air").Fine()
	d.Figure(&a.Grips, qty.KindSeconds, "grips_after_s").Decimals(0).Weighs(words, "time until it grips").Fine()
	d.Fact(&a.Why, "why").Weighs(words, "why")
	d.Facts(&a.Cautions, "cautions").Weighs(words, "caution")
	d.Worked("by name", &a.Method)
}

// chuck is the thin ring in a three-jaw chuck.
func chuck(c *fit.ChuckResult) func(d *field.Desc) {
	const holds = process.SpoilsFit
	return func(d *field.Desc) {
		d.Figure(&c.Grip, qty.KindForce, "grip_n").Decimals(0).Weighs(holds, "chuck, grip of a jaw")
		fine(d, &c.Lobes, "lobes_um", 2).Weighs(holds, "chuck, lobes")
		fine(d, &c.SixPads, "six_pads_um", 2).Weighs(holds, "chuck, lobes on six pads")
		fine(d, &c.Allowed, "allowed_um", 2).Weighs(holds, "chuck, lobes allowed")
		d.Figure(&c.GripMost, qty.KindForce, "grip_most_n").Decimals(0).Weighs(holds, "chuck, most grip")
		d.Flag(&c.Thick, "thick").NoJSON().Weighs(holds, "chuck, thick for the formula")
		d.MM(&c.Outside, "outside").NoJSON().Weighs(holds, "chuck, outside")
		d.MM(&c.Inside, "inside").NoJSON().Weighs(holds, "chuck, inside")
		d.Facts(&c.Instead, "instead").Weighs(process.SpoilsWords, "chuck, instead")
	}
}

// Describe says what is known of a feature.
func (x *Detail) Describe(d *field.Desc) {
	d.Fact(&x.What, "what")
	d.Fact(&x.How, "how")
}
