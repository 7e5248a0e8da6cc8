package fit

import (
	"fmt"

	"borewright/process/qty"
)

// Temperatures of the two usual baths at ordinary pressure, °C: sublimation of
// carbon dioxide and boiling of nitrogen (physical constants).
const (
	DryIce         = -78.0
	LiquidNitrogen = -196.0
)

// Method is how a sleeve is put into its housing, and held there.
type Method int

// The methods.
const (
	ByPress Method = iota
	ByHeat
	ByDryIce
	ByNitrogen
	ByHeatAndCold
	ByBond
)

func (m Method) String() string {
	return [...]string{"press", "heat the housing", "sleeve in dry ice", "sleeve in liquid nitrogen", "heat the housing and cool the sleeve", "bond"}[m]
}

// Assembly is one way to put a sleeve into its housing.
type Assembly struct {
	Method    Method
	Possible  bool
	HubTo     float64 // °C to bring the housing to
	SleeveTo  float64 // °C of the sleeve as it leaves bath or bench
	Clearance float64 // on diameter at the tightest pair when the parts meet; negative: they do not pass
	Force     float64 // most, pressed home; 0 when it slides in
	Why       string  // with the figures
	Cautions  []string
}

// warmUp is what the sleeve gains between bath and seat, K. Common practice, no
// source.
const warmUp = 15.0

// assemblyClearance is what is wanted on a diameter of d mm to slide the parts
// together hot or cold, mm. Common practice; DIN 7190 asks for 0.001 of the
// diameter (from memory).
func assemblyClearance(d float64) float64 { return max(0.025, 0.0005*d) }

// assemblies works out every method but the bond. The housing must gain, or the sleeve lose, the
// most interference and the clearance wanted: ΔT = (Δ + clearance)/(α d).
func (in PressInput) assemblies(home Band) []Assembly {
	w := words{in.Units}
	d, clearance := in.Diameter, assemblyClearance(in.Diameter)
	need := max(0, in.Interference.Most) + clearance
	wanted := w.length(clearance) + " wanted"

	press := Assembly{Method: ByPress, Possible: true, HubTo: in.Reference, SleeveTo: in.Reference, Clearance: -in.Interference.Most, Force: home.Most}
	press.Why = fmt.Sprintf("%s to %s with the sleeve home", w.force(home.Least), w.force(home.Most))
	if in.PressCapacity > 0 {
		press.Possible = home.Most <= in.PressCapacity
		if !press.Possible {
			press.Why += ", more than the press has: " + w.force(in.PressCapacity)
		} else {
			press.Why += "; the press has " + w.force(in.PressCapacity)
		}
	}

	// gained is the clearance with the housing at hub and the sleeve at cold.
	gained := func(hub, cold float64) float64 {
		return in.Hub.Alpha*d*(hub-in.Reference) + coldShare*in.Sleeve.Alpha*d*(in.Reference-cold) - max(0, in.Interference.Most)
	}
	limit := in.Hub.heatMost()
	heat := Assembly{Method: ByHeat, HubTo: in.Reference + need/(in.Hub.Alpha*d), SleeveTo: in.Reference}
	switch {
	case in.KeepCool != "":
		heat.Why = "the housing must not be heated: " + in.KeepCool
	case heat.HubTo > limit:
		heat.Why = fmt.Sprintf("it would take %s; %s is the limit for the housing, and leaves %s; %s",
			w.degrees(heat.HubTo), w.degrees(limit), w.length(gained(limit, in.Reference)), wanted)
		heat.HubTo = limit
	default:
		heat.Possible = true
		heat.Why = fmt.Sprintf("%s gives the %s; %s is the limit for the housing", w.degrees(heat.HubTo), wanted, w.degrees(limit))
	}
	heat.Clearance = gained(heat.HubTo, in.Reference)
	if in.KeepCool != "" {
		heat.HubTo, heat.Clearance = in.Reference, gained(in.Reference, in.Reference)
	}

	cool := func(by Method, bath float64) Assembly {
		y := Assembly{Method: by, HubTo: in.Reference, SleeveTo: bath}
		y.Clearance = gained(in.Reference, bath+warmUp)
		y.Possible = y.Clearance >= clearance
		y.Why = fmt.Sprintf("from %s the sleeve, %s warmer by the time it is there, leaves %s; %s", w.degrees(bath), w.u.Say(qty.KindWarming.Of(warmUp)), w.length(y.Clearance), wanted)
		if y.Clearance < 0 {
			y.Why = fmt.Sprintf("from %s the sleeve, %s warmer by the time it is there, is still %s too large", w.degrees(bath), w.u.Say(qty.KindWarming.Of(warmUp)), w.length(-y.Clearance))
		}
		return y
	}
	ice, nitrogen := cool(ByDryIce, DryIce), cool(ByNitrogen, LiquidNitrogen)

	both := Assembly{Method: ByHeatAndCold, HubTo: in.Reference, SleeveTo: DryIce}
	if in.KeepCool != "" {
		both.Why, both.Clearance = heat.Why, gained(in.Reference, DryIce+warmUp)
	} else {
		for _, bath := range []float64{DryIce, LiquidNitrogen} {
			both.SleeveTo = bath
			short := max(0, need-coldShare*in.Sleeve.Alpha*d*(in.Reference-bath-warmUp))
			both.HubTo = in.Reference + short/(in.Hub.Alpha*d)
			if both.HubTo <= limit {
				both.Possible = true
				break
			}
		}
		if !both.Possible {
			both.HubTo = limit
		}
		both.Clearance = gained(both.HubTo, both.SleeveTo+warmUp)
		both.Why = fmt.Sprintf("housing at %s and sleeve from %s leave %s; %s", w.degrees(both.HubTo), w.degrees(both.SleeveTo), w.length(both.Clearance), wanted)
	}

	out := []Assembly{press, heat, ice, nitrogen, both}
	for i := range out {
		y := &out[i]
		y.Cautions = Cautions(y.Method)
		if y.Method == ByHeatAndCold && y.SleeveTo == LiquidNitrogen {
			y.Cautions = append(Cautions(ByHeat)[:len(Cautions(ByHeat))-1], Cautions(ByNitrogen)...)
		}
		if in.Blind && y.SleeveTo < in.Reference {
			y.Cautions = append(y.Cautions, "Blind bore: carbon dioxide or nitrogen gathers at the bottom, and pressure with it; leave the vent open and keep faces away.")
		}
	}
	return out
}

// Cautions are the usual ones for a method of assembly, a sentence each. They
// are common practice and stand behind local codes, the site's rules and the
// data sheets of what is used.
func Cautions(by Method) []string {
	local := "Local codes, site rules and licensed practice come first where they say more."
	hot := []string{
		"Heat slowly and evenly, oven or induction rather than a torch; measure the temperature at the bore, not at the flame. Grey iron cracks from uneven heat.",
		"Wipe off oil, solvent and preservative first; keep an extinguisher at hand; no heating of closed hollow parts.",
		"Hot parts look like cold ones: mark them, heat-proof gloves, sleeves and face shield, tongs and a guide ready.",
		"Rehearse the move cold. Drop the sleeve in one motion and hold it home until it grips; never reach under a hanging part.",
	}
	cold := []string{
		"Insulated gloves, loose enough to shake off, face shield, apron; no bare skin on the cold sleeve.",
		"Wipe frost and moisture from the sleeve; handle it with tongs; the gap closes within seconds of touching the housing.",
		"Do not strike a sleeve that is cold: many steels, and iron, are brittle then.",
	}
	switch by {
	case ByPress:
		return []string{
			"Guard the press and stand clear of the line of force; brittle iron can shatter and a cocked sleeve can fly out.",
			"Start square on the lead-in, oil the seat, press in one steady stroke and watch the force: stop if it jumps or leaves the band given.",
			"Push on the sleeve's end face through a full-face pad, with the housing wall supported right behind the bore.",
			local,
		}
	case ByHeat:
		return append(hot, local)
	case ByDryIce:
		return append([]string{
			"Dry ice gives off carbon dioxide, which is heavier than air and suffocates: ventilated room, never in a pit or a closed space, never in a sealed vessel.",
			"No alcohol or acetone bath near flame, sparks or a heated housing.",
		}, append(cold, local)...)
	case ByNitrogen:
		return append([]string{
			"Liquid nitrogen displaces air and suffocates without warning: ventilated room, oxygen monitor, nobody alone, never in a pit or a closed space.",
			"Open, insulated vessel made for it; lower the sleeve slowly until the boiling stops; never seal it in: trapped liquid bursts its container.",
		}, append(cold, local)...)
	case ByHeatAndCold:
		return append(Cautions(ByHeat)[:len(hot)], Cautions(ByDryIce)...)
	case ByBond:
		return []string{
			"Read the safety data sheet of compound, cleaner and activator: gloves, eye protection, ventilation; solvents away from flame.",
			"Do not disturb the joint before it has set; keep the compound out of oilways and off running surfaces.",
			"Heat to take a bonded sleeve out gives off fumes: ventilate, and no open flame on solvent-wet parts.",
			local,
		}
	}
	return []string{local}
}
