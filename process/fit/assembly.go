package fit

import (
	"cmp"
	"math"
	"slices"

	"borewright/process/fact"
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
	ByPress Method = iota + 1 // 0: none
	ByHeat
	ByDryIce
	ByNitrogen
	ByHeatAndCold
	ByBond
)

func (m Method) String() string {
	return [...]string{"", "press", "heat the housing", "sleeve in dry ice", "sleeve in liquid nitrogen", "heat the housing and cool the sleeve", "bond"}[m]
}

// Assembly is one way to put a sleeve into its housing.
type Assembly struct {
	Method    Method
	Possible  bool
	HubTo     float64 // °C to bring the housing to
	SleeveTo  float64 // °C of the sleeve as it leaves bath or bench
	Clearance float64 // on diameter at the tightest pair when the parts meet; negative: they do not pass
	Force     float64 // most, pressed home; 0 when it slides in
	InAir     float64 // s from bath to seat in which the sleeve gains what is reckoned with; 0: no bath
	Grips     float64 // s that it stays free in its seat; 0: it does not slide in
	Why       fact.Fact
	Cautions  []fact.Fact
}

// warmUp is what the sleeve gains between bath and seat, K. Common practice, no
// source.
const warmUp = 15.0

// assemblyClearance is what is wanted on a diameter of d mm to slide the parts
// together hot or cold, mm: 0.001 of the diameter (DIN 7190, from memory), and 0.05 mm at
// least (common practice, no source).
func assemblyClearance(d float64) float64 { return max(0.05, 0.001*d) }

// assemblies works out every method but the bond. The housing must gain, or the sleeve lose, the
// most interference and the clearance wanted: ΔT = (Δ + clearance)/(α d).
func (in PressInput) assemblies(home Band) []Assembly {
	d, clearance := in.Diameter, cmp.Or(in.Joining, assemblyClearance(in.Diameter))
	in.Zone.Length = in.Length
	opens := in.Zone.Opens(d)
	share := unless(in.Zone.Heated == 0, fact.Figure(qty.KindShare.Of(opens)))
	need := max(0, in.Interference.Most) + clearance

	press := Assembly{Method: ByPress, Possible: true, HubTo: in.Reference, SleeveTo: in.Reference, Clearance: -in.Interference.Most, Force: home.Most}
	press.Why = fact.New(PressHome, fact.Value(qty.KindPressHome, home.Least), fact.Value(qty.KindPressHome, home.Most), unless(in.PressCapacity == 0, fact.Value(qty.KindPressHome, in.PressCapacity)))
	if in.PressCapacity > 0 && home.Most > in.PressCapacity {
		press.Possible = false
		press.Why = fact.New(PressBeyond, fact.Value(qty.KindPressHome, home.Least), fact.Value(qty.KindPressHome, home.Most), fact.Value(qty.KindPressHome, in.PressCapacity))
	}

	// gained is the clearance with the housing at hub and the sleeve at cold.
	gained := func(hub, cold float64) float64 {
		return opens*in.Hub.Alpha*d*(hub-in.Reference) + in.Sleeve.shrinks(d, in.Reference, cold) - max(0, in.Interference.Most)
	}
	limit := in.Hub.heatMost()
	heat := Assembly{Method: ByHeat, HubTo: in.Reference + need/(opens*in.Hub.Alpha*d), SleeveTo: in.Reference}
	switch {
	case in.KeepCool != "":
		heat.Why = fact.New(KeptCool, fact.Name(in.KeepCool))
	case heat.HubTo > hottestAtWork:
		heat.Why = fact.New(HeatOpensNothing, share, fact.Value(qty.KindTemperature, limit), fact.MM(gained(limit, in.Reference)), fact.MM(clearance))
		heat.HubTo = limit
	case heat.HubTo > limit:
		heat.Why = fact.New(HeatTooMuch, fact.Value(qty.KindTemperature, heat.HubTo), fact.Value(qty.KindTemperature, limit), fact.MM(gained(limit, in.Reference)), fact.MM(clearance), share)
		heat.HubTo = limit
	default:
		heat.Possible = true
		heat.Why = fact.New(HeatOpens, fact.Value(qty.KindTemperature, heat.HubTo), fact.MM(clearance), fact.Value(qty.KindTemperature, limit), share)
	}
	heat.Clearance = gained(heat.HubTo, in.Reference)
	if in.KeepCool != "" {
		heat.HubTo, heat.Clearance = in.Reference, gained(in.Reference, in.Reference)
	}

	cool := func(by Method, bath float64) Assembly {
		y := Assembly{Method: by, HubTo: in.Reference, SleeveTo: bath}
		y.Clearance = gained(in.Reference, bath+warmUp)
		y.Possible = y.Clearance >= clearance
		warmer := fact.Figure(qty.KindWarming.Of(warmUp))
		y.Why = fact.New(CoolLeaves, fact.Value(qty.KindTemperature, bath), warmer, fact.MM(y.Clearance), fact.MM(clearance))
		if y.Clearance < 0 {
			y.Why = fact.New(CoolTooLarge, fact.Value(qty.KindTemperature, bath), warmer, fact.MM(-y.Clearance))
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
			short := max(0, need-in.Sleeve.shrinks(d, in.Reference, bath+warmUp))
			both.HubTo = in.Reference + short/(opens*in.Hub.Alpha*d)
			if both.HubTo <= limit {
				both.Possible = true
				break
			}
		}
		if !both.Possible {
			both.HubTo = limit
		}
		both.Clearance = gained(both.HubTo, both.SleeveTo+warmUp)
		both.Why = fact.New(HeatAndCool, fact.Value(qty.KindTemperature, both.HubTo), fact.Value(qty.KindTemperature, both.SleeveTo), fact.MM(both.Clearance), fact.MM(clearance))
	}

	out := []Assembly{press, heat, ice, nitrogen, both}
	for i := range out {
		y := &out[i]
		y.Cautions = Cautions(y.Method)
		if y.Method == ByHeatAndCold && y.SleeveTo == LiquidNitrogen {
			y.Cautions = cautions(hot, nitrogenBath, cold, local)
		}
		y.Cautions = append(in.times(y), y.Cautions...)
		if y.HubTo > in.Reference {
			whole := fact.New(MindHeatWhole)
			if share != nil {
				whole = fact.New(MindHeatZone, share)
			}
			y.Cautions = append([]fact.Fact{whole}, y.Cautions...)
		}
		if in.Blind && y.SleeveTo < in.Reference {
			y.Cautions = append(y.Cautions, fact.New(MindBlindGas))
		}
	}
	return out
}

// times fills in how long the parts have, where they slide together, and gives it as a
// caution.
func (in PressInput) times(y *Assembly) []fact.Fact {
	if y.Method == ByPress || !y.Possible {
		return nil
	}
	wall, meets := (in.Diameter-in.Sleeve.Inside)/2, y.SleeveTo
	var air fact.Arg
	if y.SleeveTo < in.Reference {
		meets += warmUp
		y.InAir = in.Sleeve.Metal.InAir(wall, warmUp, in.Reference-y.SleeveTo)
		air = fact.Value(qty.KindSeconds, roughly(y.InAir))
	}
	y.Grips = in.Sleeve.Metal.Grips(wall, y.Clearance, in.Sleeve.shrinks(in.Diameter, y.HubTo, meets))
	if y.Grips == 0 { // the housing has to cool as well
		return nil
	}
	return []fact.Fact{fact.New(MindHome, fact.Value(qty.KindSeconds, roughly(y.Grips)), air)}
}

// roughly rounds a time that is known to a factor of two, s, down to 1, 5 or 10.
func roughly(s float64) float64 {
	step := 1.0
	switch {
	case s >= 60:
		step = 10
	case s >= 10:
		step = 5
	}
	return max(1, math.Floor(s/step)*step)
}

// The usual cautions. They are common practice and stand behind local codes, the
// site's rules and the data sheets of what is used.
var (
	local        = []fact.Kind{MindLocalCodes}
	hot          = []fact.Kind{MindHeatSlowly, MindHeatClean, MindHotParts, MindRehearse}
	cold         = []fact.Kind{MindColdSkin, MindFrost, MindColdBrittle}
	pressed      = []fact.Kind{MindPressGuard, MindPressStart, MindPressPad}
	dryIceBath   = []fact.Kind{MindDryIceAir, MindDryIceBath}
	nitrogenBath = []fact.Kind{MindNitrogenAir, MindNitrogenVessel}
	bonded       = []fact.Kind{MindBondSheet, MindBondSetting, MindBondHeat}
)

// Cautions are the usual ones for a method of assembly.
func Cautions(by Method) []fact.Fact {
	switch by {
	case ByPress:
		return cautions(pressed, local)
	case ByHeat:
		return cautions(hot, local)
	case ByDryIce:
		return cautions(dryIceBath, cold, local)
	case ByNitrogen:
		return cautions(nitrogenBath, cold, local)
	case ByHeatAndCold:
		return cautions(hot, dryIceBath, cold, local)
	case ByBond:
		return cautions(bonded, local)
	}
	return cautions(local)
}

func cautions(kinds ...[]fact.Kind) []fact.Fact {
	var out []fact.Fact
	for _, k := range slices.Concat(kinds...) {
		out = append(out, fact.New(k))
	}
	return out
}
