package qty

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
)

// One published unit in SI prints as 1, and 1000 of them as 1000: the factors
// of NIST SP 811 (2008), appendix B.8, from memory, seven figures each.
func TestPublishedFactors(t *testing.T) {
	for _, row := range []struct {
		kind Kind
		si   float64 // one inch unit in the unit of record
		unit string
	}{
		{KindForce, 4.448222, "lbf"},
		{KindPressForce, 4.448222, "lbf"},
		{KindPower, 745.6999, "hp"}, // 550 ft·lb/s
		{KindSpindlePower, 745.6999, "hp"},
		{KindTorque, 1.355818, "ft·lb"},
		{KindSeatTorque, 1.355818, "ft·lb"},
		{KindStress, 6.894757, "ksi"},
		{KindPressure, 6.894757e-3, "psi"},
		{KindBondStrength, 6.894757e-3, "psi"},
		{KindCompliance, 5.710147e-3, "µin/lbf"}, // 0.0254 µm over 4.448222 N
		{KindStiffness, 1.751268e-4, "lbf/in"},   // lbf/in = 175.1268 N/m
		{KindDensity, 2.767990e4, "lb/in³"},
		{KindMass, 0.4535924, "lb"},
		{KindWarmer, 5.0 / 9, "°F"},
		{KindWarming, 5.0 / 9, "°F"},
		{KindExpansion, 1.8, "µin/(in·°F)"},
		{KindCuttingSpeed, 0.3048, "ft/min"},
		{KindExactCuttingSpeed, 0.3048, "ft/min"},
		{KindVolume, 16387.06, "in³"},
		{KindTiltStiffness, 0.1129848, "million in·lbf/rad"}, // lbf·in = 0.1129848 N·m
		{KindLength, 25.4, "in"},
		{KindFine, 25.4, "in"},
		{KindPlain, 25.4, "in"},
		{KindDiameter, 25.4, "in"},
		{KindFeed, 25.4, "in/rev"},
		{KindRoughness, 25.4e-6, "µin"},
	} {
		if got := Inches.Name(row.kind); got != row.unit {
			t.Errorf("%v is printed in %s, want %s", row.kind, got, row.unit)
		}
		for _, n := range []float64{1, 1000} {
			got, err := strconv.ParseFloat(Inches.Bare(row.kind.Of(n*row.si)), 64)
			if err != nil || math.Abs(got-n) > 1e-6*n {
				t.Errorf("%v of %v %s prints as %v, want %v", row.kind, n*row.si, row.kind.Base(), got, n)
			}
		}
	}
}

// Fixed points of the two scales: ice 0 °C = 32 °F, -40 is the same on both,
// steam 100 °C = 212 °F.
func TestThermometer(t *testing.T) {
	for c, f := range map[float64]string{0: "32 °F (0 °C)", -40: "-40 °F (-40 °C)", 100: "212 °F (100 °C)"} {
		if got := Inches.Say(KindTemperature.Of(c)); got != f {
			t.Errorf("%v °C: %s, want %s", c, got, f)
		}
	}
}

func TestSay(t *testing.T) {
	for _, row := range []struct {
		q            Quantity
		metric, inch string
	}{
		{FromMM(0.1016), "0.102 mm", "0.0040 in"},
		{Fine(FromMM(0.1016)), "0.1016 mm", "0.00400 in"},
		{Plain(FromMM(25.4)), "25.4 mm", "1 in"},
		{Graduation(25_400), "0.001 in", "0.001 in"}, // a dial is told as it is cut
		{Graduation(12_700), "0.0005 in", "0.0005 in"},
		{Graduation(127_000), "0.005 in", "0.005 in"},
		{Graduation(20_000), "0.02 mm", "0.02 mm"},
		{Graduation(500_000), "0.5 mm", "0.5 mm"},
		{Graduation(1_270_000), "0.05 in", "0.05 in"},
		{Plain(2 * Micrometre), "0.002 mm", "0.000079 in"},
		{Plain(20 * Nanometre), "0.00002 mm", "0.000001 in"},
		{DiameterMM(80.01), "Ø80.010 mm", "Ø3.1500 in"},
		{KindFeed.Of(0.1), "0.100 mm/rev", "0.0039 in/rev"},
		{Roughness(1600), "1.60 µm", "63 µin"},
		{KindEdge.Of(20), "20 µm", "0.00079 in"}, // 20/25400
		{KindEdge.Of(10.16), "10.16 µm", "0.0004 in"},
		{Force(445), "445 N", "100 lbf"},
		{KindPressForce.Of(64321), "64.3 kN", "14500 lbf"},
		{KindPressHome.Of(15671.7), "15.7 kN", "3520 lbf"},
		{KindPressHome.Of(431), "431 N", "96.9 lbf"},
		{KindShortOf.Of(0.7949), "0.79 times", "0.79 times"},
		{Power(900), "0.90 kW", "1.21 hp"},
		{KindSpindlePower.Of(11000), "11.0 kW", "14.8 hp"},
		{Torque(136), "136 N·m", "100 ft·lb"},
		{KindStress.Of(69), "69 MPa", "10.0 ksi"},
		{KindPressure.Of(6.895), "6.9 MPa", "1000 psi"},
		{KindCompliance.Of(0.166), "0.166 µm/N", "29.1 µin/lbf"},
		{KindWarmer.Of(0.5), "0.5 K", "0.9 °F"},
		{KindSpindleSpeed.Of(22.4), "22.4 rev/min", "22.4 rev/min"},
		{RevPerMin(90), "90 rev/min", "90 rev/min"},
		{CuttingSpeed(30.48), "30 m/min", "100 ft/min"},
		{KindShare.Of(0.354), "35 %", "35 %"},
		{KindChance.Of(0.9962), "99.6 %", "99.6 %"},
		{KindTime.Of(200), "3 h 20 min", "3 h 20 min"},
		{KindTime.Of(44.2), "45 min", "45 min"},
		{KindWholeMinutes.Of(44.2), "45 min", "45 min"}, // as KindTime: one plan is told one time
		{KindWholeMinutes.Of(0.1 + 0.2 + 2.7), "3 min", "3 min"},
		{KindSlope.Of(0.12), "0.12 mrad (0.036 mm in 300)", "0.12 mrad (0.0014 in in 12)"},
		{KindAngle.Of(7.5), "7.5°", "7.5°"},
		{KindNumber.Of(-0.00001), "0", "0"},
		{KindNumber.Of(math.NaN()), "-", "-"},
		{KindReserve.Of(2.345), "2.35 times", "2.35 times"},
		{KindClock.Of(90), "3 o'clock", "3 o'clock"},
		{KindClock.Of(135), "4:30", "4:30"},
		{KindClock.Of(359), "12 o'clock", "12 o'clock"},
		{KindClock.Of(22.5), "12:45", "12:45"},
		{KindClock.Of(100), "3:15", "3:15"},
		{KindExactClock.Of(96), "3:12 (96°)", "3:12 (96°)"},
		{KindExactClock.Of(22.5), "12:45", "12:45"},
		{KindExactClock.Of(359.9), "12:00 (359.9°)", "12:00 (359.9°)"},
		{KindLean.Of(1.249), "1.2 mrad", "1.2 mrad"},
		{KindLean.Of(0.00516), "0.0052 mrad", "0.0052 mrad"},
		{KindLean.Of(124), "120 mrad", "120 mrad"},
	} {
		if got := Metric.Say(row.q); got != row.metric {
			t.Errorf("%v: %s, want %s", row.q, got, row.metric)
		}
		if got := Inches.Say(row.q); got != row.inch {
			t.Errorf("%v: %s, want %s", row.q, got, row.inch)
		}
	}
	if got := Inches.SayRange(DiameterMM(80), DiameterMM(80.03)); got != "Ø3.1496 to Ø3.1508 in" {
		t.Error(got)
	}
	if got := Inches.SayBoth(DiameterMM(80.01)); got != "Ø3.1500 in (Ø80.010 mm)" {
		t.Error(got)
	}
}

// No clock position is taken for another.
func TestExactClocksTellApart(t *testing.T) {
	seen := map[string]float64{}
	for i := range 3600 {
		deg := float64(i) / 10
		said := KindExactClock.Say(deg)
		if other, twice := seen[said]; twice {
			t.Fatalf("%v° and %v° are both %q", other, deg, said)
		}
		seen[said] = deg
	}
}

// No kind that an inch reader sees is printed in a metric unit, and every kind
// has a name, a unit of record and both roundings.
func TestKindsAreWhole(t *testing.T) {
	names := map[string]Kind{}
	for k := range lastKind + 1 {
		if other, twice := names[k.String()]; twice || k.String() == "" {
			t.Errorf("kinds %d and %d are both called %q", other, k, k)
		}
		names[k.String()] = k
		if Metric.Say(k.Of(1)) == "" || Inches.Say(k.Of(1)) == "" {
			t.Errorf("%v prints as nothing", k)
		}
		// A unit that both systems share is of time, angle or number.
		if Metric.Name(k) == Inches.Name(k) && !strings.Contains(" , rev/min, min, s, Hz, °, mrad, %, times,", " "+Metric.Name(k)+",") {
			t.Errorf("%v is printed in %s in both systems", k, Metric.Name(k))
		}
	}
	if got := Kind(-1).Of(2); Metric.Say(got) != "2" {
		t.Errorf("a kind that is none prints as %s", Metric.Say(got))
	}
}

func TestSayApart(t *testing.T) {
	for _, row := range []struct {
		u    Unit
		a, b Quantity
		want string
	}{
		{Metric, DiameterMM(80), Diameter(80_000_400), "Ø80.0000 mm, Ø80.0004 mm"},
		{Metric, KindFeed.Of(0.1), KindFeed.Of(0.12), "0.100 mm/rev, 0.120 mm/rev"},
		{Metric, Roughness(1600), Roughness(1603), "1.6 µm, 1.603 µm"},
		{Inches, Length(25_400_000), Length(25_400_001), "25400 µm, 25400.001 µm"},
		{Inches, Length(0), Length(0), "0.0000 in, 0.0000 in"},
	} {
		if x, y := row.u.SayApart(row.a, row.b); x+", "+y != row.want {
			t.Errorf("got %s, %s; want %s", x, y, row.want)
		}
	}
}

func ExampleUnit_Say() {
	spring, power := Fine(FromMM(0.0254)), KindSpindlePower.Of(900) // W
	for _, u := range []Unit{Metric, Inches} {
		fmt.Println(u.Say(spring)+",", u.Say(power)+",", u.SayRange(DiameterMM(80), DiameterMM(80.03)))
	}
	// Output:
	// 0.0254 mm, 0.9 kW, Ø80.000 to Ø80.030 mm
	// 0.00100 in, 1.2 hp, Ø3.1496 to Ø3.1508 in
}
