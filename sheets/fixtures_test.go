package sheets

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/ways"
)

// The jobs below are invented. Their figures are of the size a shop would
// meet, but nothing computed them: the sheets print what they are given.

// They are functions, so that no test can spoil them for another.
func steelBar() process.BarMaterial {
	return process.BarMaterial{ID: "steel", Name: "steel", E: 205e3, Nu: 0.29, Rho: 7850, Allowed: 80, Reach: 4}
}

func grayIron() *process.Material {
	return &process.Material{ID: "gray-iron-200hb", Name: "gray iron, 200 HB", Group: "K", Kc11: 1160, Mc: 0.26, HeatMost: 200}
}

func tube() *process.Material {
	return &process.Material{ID: "steel-1026", Name: "steel tube 1026", Group: "P", Kc11: 1500, Mc: 0.25, Rho: 7850}
}

func inch(v float64) qty.Length    { return qty.FromInches(v) }
func inchD(v float64) qty.Diameter { return qty.Diameter(qty.FromInches(v)) }

func inchMill() *process.Machine {
	feeds := []float64{0.002, 0.004, 0.006, 0.008, 0.012, 0.016}
	for i := range feeds {
		feeds[i] *= 25.4
	}
	return &process.Machine{ID: "hbm-5in", Name: "horizontal boring mill, 5 in spindle, no control", Nose: inchD(8.75), Quill: inchD(5), QuillTravel: inch(36),
		FeedBy: []process.FeedBy{process.TableFeed, process.QuillFeed}, Speeds: process.Range{Steps: []float64{14, 20, 28, 40, 56, 80, 112, 160}},
		Feeds: process.Range{Steps: feeds}, Power: 11190, Torque: 1800, Dial: inch(0.001), SetDial: inch(0.001), DialTurn: inch(0.05)}
}

// inPass builds a pass of an inch job: thou for spring, ft/min and lbf follow.
func inPass(n int, k schedule.Kind, set, low, high, depth, feed, speed, springIn float64, limit string, hold *schedule.Hold) schedule.Pass {
	p := schedule.Pass{N: n, Kind: k, Setting: inchD(set), Low: inchD(low), Expected: inchD((low + high) / 2), High: inchD(high), Depth: inch(depth), Feed: inch(feed),
		Speed: qty.RevPerMin(speed), Spring: inch(springIn), LimitedBy: fact.AsWritten(limit), Hold: hold}
	p.Cutting = p.Speed.At(p.Setting)
	area := p.Depth.MM() * p.Feed.MM()
	p.CuttingForce, p.FeedForce, p.RadialForce = qty.Force(1500*area+20), qty.Force(600*area), qty.Force(400*area+30)
	p.Power = qty.Power(float64(p.CuttingForce) * float64(p.Cutting) / 60)
	p.Torque = qty.Torque(float64(p.CuttingForce) * p.Setting.MM() / 2000)
	p.Stress, p.Ra, p.OutOfRound = float64(p.CuttingForce)/30, qty.FromMicroInches(60), inch(springIn/4)
	p.Minutes = p.Speed.Minutes(inch(2.6), p.Feed)
	return p
}

func winch() *plan.Plan {
	measure := &schedule.Hold{Measure: written("bore at three depths, four directions, with the gauge set at 3.3500 in", "spring: what the gauge says against what the cutter was set to"),
		Then: fact.AsWritten("enter the sizes found and plan the finish pass anew; correct the setting by the difference"), Minutes: 10}
	last := &schedule.Hold{Measure: written("bore at three depths, four directions", "roughness against a comparison piece"), Then: fact.AsWritten("inside the limits: go on to the sleeve"), Minutes: 10}
	job := &process.Job{File: "winch.toml", Units: qty.Inches, Number: "WG-204", Revision: "C", Title: "Lock-gate winch, gear case 2: restore idler bore", Customer: "Canal works, north reach",
		Notes: []string{"Gear case stays on its feet; cover face is the datum."}, Machine: inchMill(), Material: grayIron(),
		Stations: []process.Station{
			{Name: "cover pocket", To: inch(1.375), Diameter: inchD(4.3307), Swept: true},
			{Name: "bearing wall", From: inch(7.25), To: inch(8.625), Diameter: inchD(3.937)},
			{Name: "idler", From: inch(14.5), To: inch(16.875), Diameter: inchD(3.156), Blind: true, Relief: inch(0.08)}},
		Bar: process.Bar{Name: "2-1/4 in, long", FeedBy: process.TableFeed, CutterAt: inch(20), Steps: []process.Step{
			{Diameter: inchD(5), Length: inch(2.5), Material: steelBar()}, {Diameter: inchD(2.25), Length: inch(17.5), Material: steelBar()}}},
		Cutter: process.Cutter{Material: &process.CutterMaterial{Name: "high-speed steel"}, NoseRadius: inch(0.031), Lead: 75, Trail: 15, Rake: 10, Least: inchD(2.9), Most: inchD(3.6)},
		Sleeve: &process.Sleeve{Material: tube(), Outside: inchD(3.375), Fit: "H7/p6", Allowance: inch(0.024)},
	}
	finish := process.Finish{Nominal: inchD(3.1496), Low: inchD(3.1496), High: inchD(3.1496).Plus(qty.FromMM(0.030)), Fit: "H7"}
	job.Bores = []process.Bore{{Station: 2, Repair: process.SleeveRepair, Finish: finish, Ra: qty.FromMicroInches(63), Roundness: inch(0.0004),
		Wear: []process.Reading{{Depth: inch(14.8), At: []float64{0, 90, 180, 270}, Radius: []qty.Length{inch(1.578), inch(1.589), inch(1.58), inch(1.577)}}}}}
	housing := plan.Visit{Visit: schedule.Visit{N: 1, Title: fact.AsWritten("bore the housing for the sleeve"), Before: []fact.Fact{fact.AsWritten("Cover pocket swept, gear case moved until the dial reads the same all round.")},
		After: []fact.Fact{fact.AsWritten("Chamfer the mouth 15 degrees, 0.06 in long, without a burr."), fact.AsWritten("Wash, dry and oil the housing; measure it again cold.")}, Material: grayIron(),
		From: inch(14.5), To: inch(16.875), Clear: inch(14.4), End: inch(16.93), Start: inchD(3.156), StartMost: inchD(3.179),
		Limits: schedule.Limits{Low: inchD(3.375), Aim: inchD(3.375).Plus(qty.FromMM(0.0175)), High: inchD(3.375).Plus(qty.FromMM(0.035)), Fit: "H7"},
		Ra:     qty.FromMicroInches(63), Roundness: inch(0.0005), Compliance: [2]float64{0.274, 0.281}, Overhang: 7.8,
		Passes: []schedule.Pass{
			inPass(1, schedule.Witness, 3.186, 3.1837, 3.1853, 0.015, 0.004, 56, 0.00150, "the spring allowed in roughing, 0.004 in", nil),
			inPass(2, schedule.Rough, 3.28, 3.2753, 3.2778, 0.047, 0.006, 56, 0.00345, "the spring allowed in roughing, 0.004 in", nil),
			inPass(3, schedule.SemiFinish, 3.353, 3.3495, 3.3515, 0.0365, 0.006, 56, 0.00250, "what the finish pass must still find to cut, 0.011 in on radius", measure),
			inPass(4, schedule.Finish, 3.3765, 3.3752, 3.3763, 0.0117, 0.004, 80, 0.00080, "Ra 63 µin with a nose radius of 0.031 in", last)}}}
	sleeve := plan.Visit{Visit: schedule.Visit{N: 2, Title: fact.AsWritten("bring the sleeve to size in place"), Before: []fact.Fact{fact.AsWritten("Sleeve pressed in to the shoulder: 5.9 to 9.4 tons, or casting heated to 250 °F over the sleeve; read the caution."), fact.AsWritten("Sleeve and casting cold to the hand, an hour at least.")},
		After: []fact.Fact{fact.AsWritten("Break the edge of the sleeve, 0.010 in.")}, Material: tube(), From: inch(14.5), To: inch(16.875), Clear: inch(14.4), End: inch(16.93),
		Start: inchD(3.124), StartMost: inchD(3.1262), Limits: schedule.Limits{Low: finish.Low, Aim: finish.Aim(), High: finish.High, Fit: "H7"},
		Ra: qty.FromMicroInches(63), Roundness: inch(0.0004), Compliance: [2]float64{0.274, 0.281}, Overhang: 7.8,
		Passes: []schedule.Pass{
			inPass(5, schedule.SemiFinish, 3.137, 3.1347, 3.1362, 0.006, 0.004, 56, 0.00110, "what the finish pass must still find to cut, 0.007 in on radius", &schedule.Hold{Measure: written("bore at three depths, four directions"), Then: fact.AsWritten("correct the finish setting by the difference between gauge and expected size"), Minutes: 10}),
			inPass(6, schedule.Spring, 3.137, 3.1359, 3.1368, 0.0006, 0.004, 56, 0.00025, "the spring left by pass 5", nil),
			inPass(7, schedule.Finish, 3.1509, 3.1497, 3.1507, 0.007, 0.004, 56, 0.00090, "Ra 63 µin with a nose radius of 0.031 in", last)}}}
	for _, v := range []*plan.Visit{&housing, &sleeve} {
		comesOut(v, schedule.WayOut{By: process.FeedOut, Why: fact.AsWritten("the machine has no oriented stop, so the tip cannot be led off the wall.")})
	}
	return byHand(&plan.Plan{Job: job, Feasible: true, Minutes: 148, Cautions: written("The bar stands out 7.8 diameters, more than the 4 that the trade accepts for steel: expect to hunt for a speed that does not sing.", "The idler is blind: 0.055 in of run-out, 0.025 in from the bottom of the relief."),
		Bores: []plan.Bore{{Bore: job.Bores[0], Station: job.Stations[2], Visits: []plan.Visit{housing, sleeve}}}})
}

// byHand fills in what the hands do to set each pass: moved on by a dial of 50
// graduations in the winch, a micrometer over bar and tip in the pump.
func byHand(p *plan.Plan) *plan.Plan {
	job := p.Job
	job.Limits.SettingError, job.Limits.SettingUsual = job.Round(0.013, 0.0003), true
	job.Cutter.Bar = job.Bar.Steps[len(job.Bar.Steps)-1].Diameter
	for _, b := range p.Bores {
		for _, v := range b.Visits {
			for i := range v.Passes {
				set := &v.Passes[i].Set
				if i == 0 || job.Cutter.SetBy == process.OverBar {
					set.OverBar = job.OverBarAndTip(v.Passes[i].Setting)
					continue
				}
				set.From = v.Passes[i-1].Setting
				half := int(math.Round(2 * float64(v.Passes[i].Setting.Minus(set.From)) / float64(job.Machine.SetDial)))
				set.Turns, set.Graduations = half/100, float64(half%100)/2
			}
		}
	}
	return p
}

// comesOut has every pass of a visit come out alike.
func comesOut(v *plan.Visit, by schedule.WayOut) {
	v.RoughOut, v.LastOut = by, by
	for i := range v.Passes {
		v.Passes[i].Out = by
	}
}

func mmPass(n int, k schedule.Kind, set, low, high, depth, feed, speed, springMM float64, limit string, hold *schedule.Hold) schedule.Pass {
	p := inPass(n, k, set/25.4, low/25.4, high/25.4, depth/25.4, feed/25.4, speed, springMM/25.4, limit, hold)
	p.Ra = qty.FromMM(0.0014)
	return p
}

func pump() *plan.Plan {
	d, mm := qty.DiameterMM, qty.FromMM
	job := &process.Job{File: "pump.toml", Units: qty.Metric, Number: "P-17", Revision: "2", Title: "Drainage pump casing, both bearing bores",
		Machine: &process.Machine{ID: "hbm-110", Name: "horizontal boring mill, 110 mm spindle, with control", Quill: d(110), FeedBy: []process.FeedBy{process.TableFeed},
			Speeds: process.Range{Least: 10, Most: 2500}, Feeds: process.Range{Least: 0.01, Most: 2}, Dial: mm(0.001), SetDial: mm(0.01), Control: &process.Control{DecimalPoint: true, OrientedStop: true, TipAtStop: process.TipPlusX}},
		Material: grayIron(),
		Stations: []process.Station{{Name: "front bearing", To: mm(42), Diameter: d(110.04), Swept: true}, {Name: "seal wall", From: mm(120), To: mm(138), Diameter: d(104)},
			{Name: "rear bearing", From: mm(260), To: mm(302), Diameter: d(100.06)}},
		Bar: process.Bar{Steps: []process.Step{{Diameter: d(80), Hole: d(12), Length: mm(360), Material: steelBar()}}, FeedBy: process.QuillFeed, CutterAt: mm(352), Standoff: mm(40),
			Outboard: &process.Support{At: mm(350), Clearance: mm(0.03), Stiffness: 150}},
		Cutter: process.Cutter{Material: &process.CutterMaterial{Name: "carbide, uncoated"}, NoseRadius: mm(0.8), Lead: 90, Trail: 5, Rake: 6, Least: d(98), Most: d(125)}}
	bore := func(st int, nominal float64) process.Bore {
		return process.Bore{Station: st, Finish: process.Finish{Nominal: d(nominal), Low: d(nominal), High: d(nominal + 0.035), Fit: "H7"}, Ra: mm(0.0016), Roundness: mm(0.008),
			Wear: []process.Reading{{Depth: mm(20), At: []float64{0, 90}, Across: []qty.Diameter{d(nominal - 1.9), d(nominal - 1.72)}}}}
	}
	job.Bores = []process.Bore{bore(0, 112), bore(2, 102)}
	visit := func(b process.Bore, nominal, from, to float64) plan.Visit {
		hold := &schedule.Hold{Measure: written("bore at three depths, four directions"), Then: fact.AsWritten("correct the finish setting by the difference"), Minutes: 6}
		v := plan.Visit{Visit: schedule.Visit{N: 1, Title: fact.AsWritten("rebore"), Material: grayIron(), From: mm(from), To: mm(to), Clear: mm(from - 2), End: mm(to + 3), Start: d(nominal - 1.96), StartMost: d(nominal - 1.70),
			Limits: schedule.Limits{Low: b.Finish.Low, Aim: b.Finish.Aim(), High: b.Finish.High, Fit: "H7"}, Ra: b.Ra, Roundness: b.Roundness, Compliance: [2]float64{0.021, 0.034}, Overhang: 4.4,
			Passes: []schedule.Pass{
				mmPass(1, schedule.Rough, nominal-0.6, nominal-0.662, nominal-0.628, 0.68, 0.25, 250, 0.045, "depth: half of what is left, to copy less of the old shape", nil),
				mmPass(2, schedule.SemiFinish, nominal-0.3, nominal-0.331, nominal-0.309, 0.15, 0.12, 320, 0.018, "the size budget of the finish pass", hold),
				mmPass(3, schedule.Finish, nominal+0.024, nominal+0.006, nominal+0.029, 0.16, 0.1, 320, 0.012, "Ra 1.6 µm with a nose radius of 0.8 mm", hold)}}}
		comesOut(&v, schedule.WayOut{By: process.ShiftOut, Clock: 90, Shift: mm(0.3), Why: fact.AsWritten("the control stops the spindle oriented, so no line is dragged.")})
		return v
	}
	job.Cutter.SetBy = process.OverBar
	return byHand(&plan.Plan{Job: job, Feasible: true, Minutes: 49.2, Bores: []plan.Bore{
		{Bore: job.Bores[0], Station: job.Stations[0], Visits: []plan.Visit{visit(job.Bores[0], 112, 0, 42)}},
		{Bore: job.Bores[1], Station: job.Stations[2], Visits: []plan.Visit{visit(job.Bores[1], 102, 260, 302)}}}})
}

// stopped is the winch with a bar that cannot do it.
func stopped() *plan.Plan {
	p := winch()
	p.Feasible = false
	p.Job.Bar.Steps[1].Diameter = inchD(1.75)
	p.Reasons = []plan.Reason{
		{Where: "winch.toml:31:1: bar", What: fact.AsWritten("The bar springs 0.0031 in on diameter in the finish pass, at the least feed and depth that the edge can take; the size budget allows 0.0009 in.")},
		{What: fact.AsWritten("The old ovality of 0.011 in cannot be brought under 0.0004 in within 12 passes.")}}
	p.Seek = func() ways.Found {
		return ways.Found{Ways: []ways.Way{
			{Change: fact.New(ways.ToStickout, fact.Figure(inch(16)), fact.Figure(inch(20))), Keys: []fact.Fact{fact.New(ways.Write, fact.Name("bar.steps[1].length"), fact.Figure(qty.Plain(inch(13.5))))},
				Outcome: ways.Outcome{Passes: 7, Minutes: 163, Chance: 0.971, Noisiest: setup.Stability{Margin: [2]float64{0.8, 6.1}}}},
			{Change: fact.New(ways.ToBarOf, fact.Figure(inch(2.25))), Outcome: ways.Outcome{Passes: 6, Minutes: 148, Chance: 0.998, Noisiest: setup.Stability{Margin: [2]float64{1.2, 9}}}},
			{Change: fact.New(ways.ToOutboard, fact.Name("bearing wall")), Outcome: ways.Outcome{Passes: 5, Minutes: 121, Chance: 0.9999, Noisiest: setup.Stability{Margin: [2]float64{4, 40}}}}}}
	}
	p.Bores[0].Visits = p.Bores[0].Visits[:1]
	p.Bores[0].Visits[0].Passes = p.Bores[0].Visits[0].Passes[:2]
	return p
}

// crowded has 20 passes, 12 stations and words that do not fit on a line.
func crowded() *plan.Plan {
	d, mm := qty.DiameterMM, qty.FromMM
	p := pump()
	p.Job.Number, p.Job.Revision = "REPAIR-ORDER-2026-000417-SUPPLEMENT", "17b"
	p.Job.Title = "Column of a wind-tunnel balance, lower cross-head with twelve coaxial stations, restore the innermost journal bearing after seizure, second attempt"
	p.Job.Machine.SetDial = 0
	p.Job.Bar = process.Bar{Name: "line bar with two lands for the outboard bearing", Steps: []process.Step{{Diameter: d(160), Length: mm(1900), Material: steelBar()}}, CutterAt: mm(1750),
		Outboard: &process.Support{At: mm(1880), Clearance: mm(0.04), Stiffness: 180}}
	p.Job.Cutter.Least, p.Job.Cutter.Most = d(190), d(260)
	p.Job.Stations = nil
	for i := range 12 {
		p.Job.Stations = append(p.Job.Stations, process.Station{Name: fmt.Sprintf("web %d of the lower cross-head, between the ribs and the oil gallery", i+1),
			From: mm(float64(150 * i)), To: mm(float64(150*i + 30)), Diameter: d(float64(450 - 20*i)), Swept: i < 2, Blind: i == 11, Relief: mm(float64(i/11) * 2)})
	}
	v := &p.Bores[0].Visits[0]
	v.Title = fact.AsWritten("rebore in one clamping, from the side of the coupling, because the other side is closed by the gearbox flange")
	v.From, v.To, v.Clear, v.End = mm(1650), mm(1680), mm(1648), mm(1681.5)
	v.Start, v.StartMost = d(230.2), d(230.9)
	v.Limits = schedule.Limits{Low: d(250), Aim: d(250.023), High: d(250.046), Fit: "H7"}
	v.Passes = nil
	for i := range 20 {
		k := schedule.Rough
		if i == 19 {
			k = schedule.Finish
		} else if i == 18 {
			k = schedule.SemiFinish
		}
		set := 231.25 + float64(i)*0.99
		v.Passes = append(v.Passes, mmPass(i+1, k, set, set-0.06, set-0.02, 0.495, 0.112, 90+22.4*float64(i%2), 0.0412,
			fmt.Sprintf("chatter: in gear %d the margin is 1.2, and the next gear up would take it to 0.7, which this bar does not survive", 3+i%3), nil))
	}
	comesOut(v, v.LastOut)
	p.Bores = p.Bores[:1]
	p.Job.Bores = p.Job.Bores[:1]
	p.Job.Bores[0].Station, p.Job.Bores[0].Wear = 11, nil
	p.Job.Bores[0].Finish = process.Finish{Nominal: d(250), Low: d(250), High: d(250.046), Fit: "H7"}
	p.Bores[0].Bore, p.Bores[0].Station = p.Job.Bores[0], p.Job.Stations[11]
	p.Minutes = 141
	return p
}

// written are sentences as they are read back.
func written(list ...string) []fact.Fact {
	var out []fact.Fact
	for _, s := range list {
		out = append(out, fact.AsWritten(s))
	}
	return out
}
