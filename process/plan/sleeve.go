package plan

import (
	"errors"
	"fmt"

	"borewright/process"
	"borewright/process/fit"
	"borewright/process/qty"
)

// visitsOf lays out the visits of one bore, without passes: what is cut each
// time, from what and to what limits.
func visitsOf(job *process.Job, b process.Bore, st process.Station, shape found) ([]Visit, error) {
	limits := Limits{Low: b.Finish.Low, Aim: aimOf(job.Units, b.Finish), High: b.Finish.High, Fit: b.Finish.Fit}
	if b.Repair == process.Rebore {
		return []Visit{{
			N: 1, Title: "rebore to size", Material: job.Material,
			Start: shape.least, StartMost: shape.most, Limits: limits, Ra: b.Ra, Roundness: b.Roundness,
		}}, nil
	}
	if job.Sleeve == nil {
		return nil, errors.New("repair is \"sleeve\" and the job has no [sleeve]")
	}
	sl, err := sleeveFor(job, b, st)
	if err != nil {
		return nil, err
	}
	house := Visit{
		N: 1, Title: "bore the housing for the sleeve", Material: job.Material,
		Start: shape.least, StartMost: shape.most, Limits: sl.housing, Ra: b.Ra,
		Roundness: sl.housing.High.Minus(sl.housing.Low) / 2,
	}
	inside := Visit{
		N: 2, Title: "bore the sleeve to size in place", Material: job.Sleeve.Material,
		Start: sl.after[0], StartMost: sl.after[1], Limits: limits, Ra: b.Ra, Roundness: b.Roundness,
		Before: sl.work,
	}
	return []Visit{house, inside}, nil
}

// aimOf is the size to aim at: the middle of the limits, as it can be read.
func aimOf(u qty.Unit, f process.Finish) qty.Diameter {
	return qty.Diameter(u.Round(f.Aim().Length()))
}

// sleeveWork is the sleeve as the plan needs it.
type sleeveWork struct {
	housing Limits
	after   [2]qty.Diameter // inside once it is home: least and most about the axis
	work    []string        // what is done between the visits
}

// latheDoubt is how far the inside of a sleeve fresh from the lathe may be from
// what was wanted, ± on diameter, and how far out of true with its outside,
// together. Common practice, no source.
const latheDoubt = 25 * qty.Micrometre

// sleeveFor works out the fit of the sleeve: what the housing is bored to, what
// the sleeve is turned to, and what is left inside when it is home.
func sleeveFor(job *process.Job, b process.Bore, st process.Station) (sleeveWork, error) {
	s, u := job.Sleeve, job.Units
	if s.Hold == process.Bond {
		return bondedSleeve(job, b)
	}
	hole, shaft, err := fit.Pair(s.Outside, s.Fit)
	if err != nil {
		return sleeveWork{}, err
	}
	low, high := hole.Sizes(s.Outside)
	outLow, outHigh := shaft.Sizes(s.Outside)
	tight := fit.Clearance(hole, shaft).Interference()
	// The inside is turned so that the allowance is left when the bore has
	// closed: closing depends a little on the inside itself, so once more.
	after := b.Finish.Aim().MM() - s.Allowance.MM()
	before := after
	var r fit.PressResult
	for range 3 {
		if r, err = fit.Press(pressOf(job, b, st, before, tight)); err != nil {
			return sleeveWork{}, err
		}
		before = after + (r.Closure.Least+r.Closure.Most)/2
	}
	if len(r.Reasons) > 0 {
		return sleeveWork{}, fmt.Errorf("the press fit %s does not hold: %s", s.Fit, r.Reasons[0])
	}
	inside := qty.Diameter(u.Round(qty.FromMM(before)))
	least := inside.MM() - r.Closure.Most - latheDoubt.MM()
	most := inside.MM() - r.Closure.Least + latheDoubt.MM()
	fine := func(mm float64) string { return u.Say(qty.FromMM(mm)) }
	return sleeveWork{
		housing: Limits{Low: low, Aim: low + qty.Diameter(u.Round((high.Minus(low))/2)), High: high, Fit: classOf(s.Fit)},
		after:   [2]qty.Diameter{qty.DiameterMM(least), qty.DiameterMM(most)},
		work: []string{
			fmt.Sprintf("Measure the housing bore at both ends, two clock positions, before the sleeve is turned: %s.",
				u.SayLimits(low, high)),
			fmt.Sprintf("Turn the sleeve of %s, %s long: outside %s (%s, interference %s to %s), inside %s.",
				s.Material.Name, u.Say(sleeveLength(job, st)), u.SayLimits(outLow, outHigh), s.Fit,
				u.Format(tight.Least), u.Say(tight.Most), u.Say(inside.Length())),
			fmt.Sprintf("Press it home: up to %s. The inside closes by %s to %s, to about %s.",
				pressForce(u, r), u.Format(qty.FromMM(r.Closure.Least)), fine(r.Closure.Most), fine(after)),
			fmt.Sprintf("Pressure at the interface %.1f to %.1f MPa; highest stress %.0f MPa of %.0f allowed (%s).",
				r.Pressure.Least, r.Pressure.Most, hubStress(r).Equivalent, hubStress(r).Allowed, hubStress(r).Where),
			"Stand clear of the line of the press: cast iron breaks without warning. Measure the inside before anything is set.",
		},
	}, nil
}

// bondedSleeve leaves the gap between housing and sleeve; nothing closes.
func bondedSleeve(job *process.Job, b process.Bore) (sleeveWork, error) {
	s, u := job.Sleeve, job.Units
	hole, err := fit.Hole(s.Outside, "H7")
	if err != nil {
		return sleeveWork{}, err
	}
	low, high := hole.Sizes(s.Outside)
	inside := qty.Diameter(u.Round(b.Finish.Aim().Length() - s.Allowance))
	// In a gap the sleeve can set off the middle by half of it.
	off := s.Gap/2 + latheDoubt
	return sleeveWork{
		housing: Limits{Low: low, Aim: low + qty.Diameter(u.Round(high.Minus(low)/2)), High: high, Fit: "H7"},
		after:   [2]qty.Diameter{inside.Plus(-off), inside.Plus(off)},
		work: []string{
			fmt.Sprintf("Measure the housing bore at both ends, two clock positions, before the sleeve is turned: %s.",
				u.SayLimits(low, high)),
			fmt.Sprintf("Turn the sleeve of %s: outside %s under the housing as measured, inside %s.",
				s.Material.Name, u.Say(s.Gap), u.Say(inside.Length())),
			"Clean both faces to bare, dry metal; bond with a retaining compound rated for the gap and the service heat; let it set fully before cutting.",
			"Mind the compound's data sheet: gloves, eye protection, ventilation.",
		},
	}, nil
}

func classOf(pair string) string {
	for i, c := range pair {
		if c == '/' {
			return pair[:i]
		}
	}
	return pair
}

func sleeveLength(job *process.Job, st process.Station) qty.Length {
	if job.Sleeve.Length > 0 {
		return job.Sleeve.Length
	}
	return st.Length()
}

// assumedWall is the metal around the bore, over its diameter, when the job
// does not say: a bore in a casting with walls of a third of its size. The
// sheet says that it was assumed.
const assumedWall = 1.0 / 3

// pressOf fills in the press fit of a sleeve whose bore is inside mm before it
// goes in.
func pressOf(job *process.Job, b process.Bore, st process.Station, inside float64, tight fit.Range) fit.PressInput {
	s := job.Sleeve
	d := s.Outside.MM()
	wall := st.Wall.MM()
	if wall == 0 {
		wall = d * assumedWall
	}
	most := max(wall, st.WallMost.MM())
	rz := 5 * b.Ra.Microns() // Rz is about 4 to 6 times Ra on a bored surface: common practice, no source
	slide := frictionOf(s.Material, job.Material)
	return fit.PressInput{
		Units: job.Units, Diameter: d, Length: sleeveLength(job, st).MM(),
		Interference: fit.Band{Least: tight.Least.MM(), Most: tight.Most.MM()},
		Hub:          ringOf(job.Material, 0, d+2*wall, d+2*most),
		Sleeve:       ringOf(s.Material, inside, 0, 0),
		Blind:        st.Blind, RzHub: rz, RzSleeve: rz, Friction: slide,
		Room: roomHeat, Service: fit.Band{Least: roomHeat, Most: warmCase},
	}
}

// Temperatures the fit is judged at, °C: the reference temperature of ISO 1,
// and a gear case at work (common practice, no source).
const (
	roomHeat = 20.0
	warmCase = 70.0
)

func ringOf(m *process.Material, inside, outside, outsideMost float64) fit.Ring {
	return fit.Ring{
		Name: m.Name, Inside: inside, Outside: outside, OutsideMost: outsideMost,
		E: m.E, Nu: m.Nu, Alpha: m.Alpha, Yield: m.Re, Tensile: m.Rm, Brittle: m.Brittle, HeatMost: m.HeatMost,
	}
}

// frictionOf picks the sliding friction of the pair from fit's table.
func frictionOf(sleeve, hub *process.Material) fit.Band {
	pair := "steel in steel"
	switch {
	case sleeve.Group == "N":
		pair = "bronze in iron or steel"
	case hub.Brittle || hub.Group == "K":
		pair = "steel or iron in grey iron"
	}
	for _, f := range fit.Frictions() {
		if f.Pair == pair {
			return f.Band
		}
	}
	return fit.Band{Least: 0.05, Most: 0.12}
}

// pressForce is the most it takes to press the sleeve home.
func pressForce(u qty.Unit, r fit.PressResult) string {
	most := 0.0
	for _, s := range r.PressForce {
		most = max(most, s.Force.Most)
	}
	if u == qty.Inches {
		return fmt.Sprintf("%.1f short tons-force (%.0f kN)", most/8896.443, most/1000) // 2000 lbf of 4.448222 N: NIST SP 811
	}
	return fmt.Sprintf("%.0f kN", most/1000)
}

// hubStress is the stress in the housing nearest to what is allowed.
func hubStress(r fit.PressResult) fit.Stress {
	var worst fit.Stress
	for _, s := range r.Stresses {
		if s.Allowed > 0 && (worst.Allowed == 0 || s.Equivalent/s.Allowed > worst.Equivalent/worst.Allowed) {
			worst = s
		}
	}
	return worst
}
