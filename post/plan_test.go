package post

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// in and mm are lengths of tests.
func in(v float64) qty.Length { return qty.FromInches(v) }
func mmOf(v float64) qty.Length {
	return qty.FromMM(v)
}
func inDia(v float64) qty.Diameter { return qty.Diameter(in(v)) }

// control is decimal point programming in inch with every word that a plain
// control may have, one step short of M19.
func control() *process.Control {
	return &process.Control{
		DecimalPoint: true, WholePlaces: 4, PartPlaces: 4, Units: qty.Inches, UnitsWord: process.G20G21,
		BlockNumbers: true, BlockStep: 10, FeedPerRev: true, Dwell: process.DwellSeconds, DwellWord: 'P',
		Comments: true, Percent: true, ProgramNumber: 2041, FeedAxis: 'Z', QuillAxis: 'W',
		LineMost: 72, WorkOffset: 54, SpaceWords: true, TipAtStop: process.TipPlusY,
	}
}

// idler is a made-up job: the blind idler bore of a winch's gear case, bored
// for a sleeve in one visit and finished inside the sleeve in another.
func idler(c *process.Control) *plan.Plan {
	station := process.Station{Name: "idler", From: in(14.5), To: in(16.875), Diameter: inDia(3.156), Blind: true, Relief: in(0.08)}
	steel := process.BarMaterial{Name: "steel"}
	hold := &schedule.Hold{
		Measure: written("bore gauge at depth 14.7 in and 16.6 in, clock positions 12 and 3", "work temperature (let the chips cool)"),
		Then:    fact.AsWritten("enter the four sizes and plan the finish pass anew"),
	}
	pass := func(n int, k schedule.Kind, set, low, high, depth, feed float64, rpm qty.RevPerMin, h *schedule.Hold) schedule.Pass {
		return schedule.Pass{N: n, Kind: k, Setting: inDia(set), Low: inDia(low), Expected: inDia((low + high) / 2), High: inDia(high),
			Depth: in(depth), Feed: in(feed), Speed: rpm, Hold: h, Spring: in(set) - in((low+high)/2)}
	}
	p := &plan.Plan{
		Feasible: true,
		Job: &process.Job{
			File: "wg-204.toml", Units: qty.Inches, Number: "WG-204", Revision: "C", Title: "Lock-gate winch, gear case 2: restore idler bore",
			Machine: &process.Machine{ID: "hbm-5in", Name: "5 in table-type boring mill", QuillTravel: in(36),
				Travels: []process.Travel{{Axis: 'Z', Travel: in(60)}, {Axis: 'W', Travel: in(36)}}, Control: c},
			Stations: []process.Station{station},
			Bar: process.Bar{Steps: []process.Step{{Diameter: inDia(5), Length: in(2.5), Material: steel}, {Diameter: inDia(2.25), Length: in(17.5), Material: steel}},
				CutterAt: in(20)},
			Cutter: process.Cutter{Material: &process.CutterMaterial{Name: "HSS"}, NoseRadius: in(0.031), Lead: 75, Rake: 10},
		},
		Cautions: written("Stickout is 7.8 times the bar's diameter: watch for chatter at the closed end."),
		Bores: []plan.Bore{{
			Station: station,
			Visits: []plan.Visit{
				{Visit: schedule.Visit{
					N: 1, Title: fact.AsWritten("bore the housing for the sleeve"), Before: []fact.Fact{fact.AsWritten("Sweep the cover pocket and set X0 Y0.")},
					After: []fact.Fact{fact.AsWritten("Deburr, clean, fit the sleeve as the sheet says.")},
					From:  in(14.5), To: in(16.875), Clear: in(14.38), End: in(16.955),
					Start: inDia(3.156), StartMost: inDia(3.18), Limits: schedule.Limits{Low: qty.DiameterMM(85.725), Aim: qty.DiameterMM(85.742), High: qty.DiameterMM(85.760), Fit: "H7"},
					Passes: []schedule.Pass{
						pass(1, schedule.Rough, 3.3005, 3.296, 3.304, 0.07, 0.009, 112, hold),
						pass(2, schedule.SemiFinish, 3.3611, 3.359, 3.3625, 0.031, 0.006, 180, hold),
						pass(3, schedule.Finish, 3.3766, 3.3751, 3.3763, 0.007, 0.004, 224, nil),
						pass(4, schedule.Spring, 3.3766, 3.3754, 3.3762, 0.0002, 0.004, 224, hold),
					},
				}},
				{Visit: schedule.Visit{
					N: 2, Title: fact.AsWritten("bring the sleeve to size in place"), From: in(14.5), To: in(16.875), Clear: in(14.38), End: in(16.955),
					Start: inDia(3.11), StartMost: inDia(3.112), Limits: schedule.Limits{Low: qty.DiameterMM(80), Aim: qty.DiameterMM(80.015), High: qty.DiameterMM(80.030), Fit: "H7"},
					Passes: []schedule.Pass{
						pass(5, schedule.SemiFinish, 3.14, 3.139, 3.141, 0.014, 0.006, 180, hold),
						pass(6, schedule.Finish, 3.1504, 3.1499, 3.1505, 0.005, 0.004, 250, hold),
					},
				}},
			},
		}},
	}
	comesOut(&p.Bores[0].Visits[0], 0, "The control has no oriented stop.")
	comesOut(&p.Bores[0].Visits[1], 0, "The control has no oriented stop.")
	if c != nil && c.OrientedStop {
		comesOut(&p.Bores[0].Visits[1], in(0.02), "A tip that drags marks a sleeve of this wall.")
	}
	return p
}

// comesOut has every pass of a visit come out off the wall by a shift, or fed where
// it is 0.
func comesOut(v *plan.Visit, shift qty.Length, why string) {
	for i := range v.Passes {
		v.Passes[i].Out = schedule.WayOut{By: process.FeedOut, Why: fact.AsWritten(why)}
		if shift != 0 {
			v.Passes[i].Out = schedule.WayOut{By: process.ShiftOut, Shift: shift, Why: fact.AsWritten(why)}
		}
	}
}

// written are sentences as they are read back.
func written(list ...string) []fact.Fact {
	var out []fact.Fact
	for _, s := range list {
		out = append(out, fact.AsWritten(s))
	}
	return out
}
